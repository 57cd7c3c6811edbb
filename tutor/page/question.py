"""What a problem asks, folded so that no short calculation is torn apart."""

from textual import events
from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll
from textual.content import Content

from tutor.page.asking import Asked, laid_out
from tutor.page.still import Still


class Question(Still):
    """Shows what is asked in the width it has; folds anew when that changes."""

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own word
        super().__init__(id=id)
        self._asked: Asked = ()

    def ask(self, asked: Asked) -> bool:
        """Show what is asked; tells whether something else was asked before."""
        changed = asked != self._asked
        self._asked = asked
        self._fold(self.size.width)
        return changed

    def on_resize(self, event: events.Resize) -> None:
        """Fold to the new width."""
        self._fold(event.size.width)

    def _fold(self, width: int) -> None:
        self.show(laid_out(self._asked, width or 80))


class QuestionBox(Vertical):
    """The question in the place it has; where it is longer, a row below it names the keys to read on."""

    def compose(self) -> ComposeResult:
        """Yield the question, and the row that tells of more."""
        with VerticalScroll(id="ask-scroll", can_focus=False):
            yield Question(id="ask")
        yield Still(id="ask-more", fixed=True)

    def on_mount(self) -> None:
        """Follow the scrolling, whoever does it."""
        self.query_one("#ask-more").display = False
        self.watch(self._scroll, "scroll_y", self._tell, init=False)
        self.watch(self._scroll, "virtual_size", self._tell, init=False)

    @property
    def _scroll(self) -> VerticalScroll:
        return self.query_one("#ask-scroll", VerticalScroll)

    def ask(self, asked: Asked) -> None:
        """Show what is asked; another question begins at its top."""
        if self.query_one(Question).ask(asked):
            self._scroll.scroll_home(animate=False)
            self.query_one("#ask-more").display = False  # it takes a row that may be enough
        self.call_after_refresh(self._tell)

    def on_resize(self, _event: events.Resize) -> None:
        """Look anew whether all of it can be seen."""
        self.call_after_refresh(self._tell)

    @property
    def is_longer(self) -> bool:
        """Tell whether there is more of the question than can be seen."""
        return self._scroll.max_scroll_y > 0

    def turn(self, pages: int) -> None:
        """Show what stands further down, or further up again; one row stays to be seen."""
        step = max(1, self._scroll.size.height - 1)
        self._scroll.scroll_relative(y=pages * step, animate=False)

    def _tell(self) -> None:
        note = self.query_one("#ask-more", Still)
        note.display = self.is_longer
        below = self._scroll.scroll_y < self._scroll.max_scroll_y
        keys = ("▾ ", "PgDn", " reads on") if below else ("▴ ", "PgUp", " goes back")
        note.show(Content.assemble((keys[0], "$quiet"), (keys[1], "bold $primary"), (keys[2], "$quiet")))
