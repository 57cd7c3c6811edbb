"""The one row of keys at the foot of every screen."""

from collections.abc import Sequence
from dataclasses import dataclass

from textual import events
from textual.content import Content
from textual.screen import Screen
from textual.widget import Widget

from tutor.page.lettering import cells

_GAPS = (3, 2, 1)  # cells between two keys: as many as there is room for


@dataclass(frozen=True, slots=True)
class Key:
    """One key: its name in Textual, its name on the keyboard, what it does, and whether it may."""

    key: str
    name: str
    words: str
    enabled: bool


@dataclass(frozen=True, slots=True)
class Placed:
    """A key with the cells [start, end) that it takes in the row."""

    key: Key
    start: int
    end: int


def place_keys(keys: Sequence[Key], width: int) -> tuple[Placed, ...]:
    """Place the keys in a row of ``width`` cells, close together where there are many.

    Where they do not all fit, those that do nothing now are left out, then the last ones.
    """
    usable = [key for key in keys if key.enabled]
    for shown in (list(keys), *(usable[:count] for count in range(len(usable), -1, -1))):
        for gap in _GAPS:
            placed = _place(shown, gap)
            if not placed or placed[-1].end <= width:
                return placed
    return ()


def _place(keys: Sequence[Key], gap: int) -> tuple[Placed, ...]:
    placed: list[Placed] = []
    at = 1 if gap > 1 else 0
    for key in keys:
        end = at + cells(key.name) + 1 + cells(key.words)
        placed.append(Placed(key, at, end))
        at = end + gap
    return tuple(placed)


def row_of(placed: Sequence[Placed]) -> Content:
    """Return the row: keys that do nothing now are dim, their words too."""
    parts: list[str | Content | tuple[str, str]] = []
    at = 0
    for one in placed:
        parts.append(" " * (one.start - at))
        dim = "" if one.key.enabled else " dim"
        parts.append((one.key.name, f"bold $footer-key-foreground{dim}"))
        parts.append((f" {one.key.words}", f"$foreground{dim}"))
        at = one.end
    return Content.assemble(*parts)


class KeyRow(Widget):
    """Shows the bindings that the screen has now; a click is the same as the key."""

    DEFAULT_CSS = """
    KeyRow {
        dock: bottom;
        height: 1;
        background: $panel;
    }
    """

    def __init__(self) -> None:
        super().__init__()
        self._keys: tuple[Key, ...] = ()

    def on_mount(self) -> None:
        """Follow the bindings of the screen."""
        self.screen.bindings_updated_signal.subscribe(self, self._changed)

    def _changed(self, screen: Screen[object]) -> None:
        keys = tuple(
            Key(one.binding.key, self.app.get_key_display(one.binding), one.binding.description, one.enabled)
            for one in screen.active_bindings.values()
            if one.binding.show
        )
        if keys != self._keys:
            self._keys = keys
            self.refresh()

    def render(self) -> Content:
        """Return the row."""
        return row_of(place_keys(self._keys, self.size.width))

    def on_click(self, event: events.Click) -> None:
        """Press the key that was clicked."""
        for one in place_keys(self._keys, self.size.width):
            if one.start <= event.x < one.end and one.key.enabled:
                self.app.simulate_key(one.key.key)
