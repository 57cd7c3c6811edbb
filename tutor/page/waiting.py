"""Lines that were pasted or entered while another was being decided: none is lost."""

from dataclasses import dataclass, field


@dataclass(slots=True)
class Waiting:
    """A queue of texts. ``entered`` ones go on by themselves, whatever the mark of the one before,
    so that fast hands and slow ones get the same page; only an unread line stops them.
    """

    _lines: list[tuple[str, bool]] = field(default_factory=list)

    @property
    def texts(self) -> tuple[str, ...]:
        """Return the waiting texts, the next one first."""
        return tuple(text for text, _ in self._lines)

    def add(self, text: str, *, entered: bool) -> None:
        """Put a text at the end; ``entered`` tells that Enter was pressed for it."""
        self._lines.append((text, entered))

    def put_first(self, text: str) -> None:
        """Put a text that must wait for another to be mended at the head."""
        self._lines.insert(0, (text, False))

    def hold(self) -> None:
        """Let none go on by itself: the line above them must be mended first."""
        self._lines = [(text, False) for text, _ in self._lines]

    def take(self) -> tuple[str, bool] | None:
        """Take the next text out, with whether Enter was pressed for it."""
        return self._lines.pop(0) if self._lines else None
