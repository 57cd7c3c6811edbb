"""One line of work on the ruled page: a row that can be chosen with the mouse or with Tab."""

from textual.content import Content
from textual.geometry import Size
from textual.reactive import reactive
from textual.widget import Widget

from tutor.page.ruling import Written, rows

_WIDE = 60  # cells from which a plain right line gets its word too


class LineRow(Widget, can_focus=True):
    """Shows one `Written`; ``shown`` is replaced when its mark changes."""

    DEFAULT_CSS = """
    LineRow {
        height: auto;
        width: 1fr;
        &:focus { background: $chosen; }
    }
    """

    shown: reactive[Written | None] = reactive(None, layout=True)

    def __init__(self, written: Written) -> None:
        super().__init__()
        self.set_reactive(LineRow.shown, written)

    def _rows(self, width: int) -> list[Content]:
        if self.shown is None:
            return []
        return rows(self.shown, width, chosen=self.has_focus, wide=width >= _WIDE)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """Return the rows that the line takes at this width."""
        return len(self._rows(width))

    def render(self) -> Content:
        """Return the rows, never read as markup."""
        return Content("\n").join(self._rows(self.content_size.width))

    def on_focus(self) -> None:
        """Show the both-sides account of the chosen line."""
        self.refresh(layout=True)

    def on_blur(self) -> None:
        """Put the account away."""
        self.refresh(layout=True)
