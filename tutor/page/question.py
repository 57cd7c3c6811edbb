"""The question of a problem, folded so that no short calculation is torn apart."""

from textual import events
from textual.content import Content

from tutor.page.lettering import fold
from tutor.page.still import Still
from tutor.visible import visible


class Question(Still):
    """Shows plain text in the width it has; folds anew when that changes."""

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own word
        super().__init__(id=id)
        self._text = ""

    def ask(self, text: str) -> None:
        """Show the question."""
        self._text = visible(text)
        self._fold(self.size.width)

    def on_resize(self, event: events.Resize) -> None:
        """Fold to the new width."""
        self._fold(event.size.width)

    def _fold(self, width: int) -> None:
        self.show(Content("\n".join(fold(self._text, width)) if width else self._text))
