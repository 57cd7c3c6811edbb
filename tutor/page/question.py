"""What a problem asks, folded so that no short calculation is torn apart."""

from textual import events

from tutor.page.asking import Asked, laid_out
from tutor.page.still import Still


class Question(Still):
    """Shows what is asked in the width it has; folds anew when that changes."""

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own word
        super().__init__(id=id)
        self._asked: Asked = ()

    def ask(self, asked: Asked) -> None:
        """Show what is asked."""
        self._asked = asked
        self._fold(self.size.width)

    def on_resize(self, event: events.Resize) -> None:
        """Fold to the new width."""
        self._fold(event.size.width)

    def _fold(self, width: int) -> None:
        self.show(laid_out(self._asked, width or 80))
