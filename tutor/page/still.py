"""A piece of text on the page that is only painted again when it says something else."""

from textual.content import Content
from textual.widgets import Static


class Still(Static):
    """Shows `Content`, never markup. ``fixed``: its size does not depend on what it says."""

    def __init__(
        self,
        content: Content | None = None,
        *,
        id: str | None = None,  # noqa: A002 - Textual's own word
        classes: str | None = None,
        fixed: bool = False,
    ) -> None:
        super().__init__(content or Content(""), id=id, classes=classes, markup=False)
        self._fixed = fixed
        self._said = content or Content("")

    def show(self, content: Content) -> None:
        """Say something else; nothing is painted or laid out where it is the same."""
        before, self._said = self._said, content
        if before.plain != content.plain or before.spans != content.spans:
            self.update(content, layout=not self._fixed)
