"""What every screen has: its widths and heights, and a sentence where the window is too small."""

from textual import events
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Static

from tutor.page.key_row import KeyRow

LEAST_COLUMNS = 60
LEAST_ROWS = 18


# Class names that a screen has from so many columns or rows on; the style sheet speaks of them.
_WIDTHS = [(0, "-tiny"), (LEAST_COLUMNS, "-narrow"), (80, "-normal"), (110, "-wide")]
_HEIGHTS = [(0, "-flat"), (LEAST_ROWS, "-low"), (30, "-high")]


class TooSmall(Static):
    """Stands in for the page while the window is too small; nothing behind it is lost."""

    def on_mount(self) -> None:
        """Say what is needed."""
        self.update(
            Content(
                f"This window is too small for a page. Make it at least {LEAST_COLUMNS} columns wide and "
                f"{LEAST_ROWS} rows high. Everything you wrote is kept and comes back by itself."
            )
        )


class Frame(Screen[None]):
    """A screen whose page gives way to a sentence below 60 × 18; the footer is the same everywhere."""

    HORIZONTAL_BREAKPOINTS = _WIDTHS
    VERTICAL_BREAKPOINTS = _HEIGHTS

    def compose(self) -> ComposeResult:
        """Yield the page, the sentence that may stand in for it, and the keys."""
        with Vertical(id="whole"):
            yield from self.compose_page()
        yield TooSmall(markup=False)
        yield KeyRow()

    def compose_page(self) -> ComposeResult:
        """Yield what this screen shows."""
        raise NotImplementedError

    def rest(self) -> None:
        """Put the focus where the student goes on."""
        raise NotImplementedError

    def leave(self) -> None:
        """Hand over what must not be lost; the program is about to stop."""

    @property
    def too_small(self) -> bool:
        """Tell whether the page has given way to the sentence."""
        return self.size.width < LEAST_COLUMNS or self.size.height < LEAST_ROWS

    def on_resize(self, _event: events.Resize) -> None:
        """Give the focus back once the page is there again, and show the keys that fit."""
        if not self.too_small and self.focused is None:
            self.call_after_refresh(self.rest)
        self.refresh_bindings()
