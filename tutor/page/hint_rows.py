"""A hint above the box: where to look, what to do, or the next line itself."""

from collections.abc import Iterator

from textual.content import Content

from tutor.marking.hint_stage import Hint
from tutor.page.lettering import fold, pieces
from tutor.page.look import Ink
from tutor.page.ruling import GUTTER, gutter
from tutor.visible import visible

_LABEL = "hint  "


def hint_rows(hint: Hint, ink: Ink, width: int) -> Content:
    """Return the rows of a hint in ``width`` cells; a line that it shows stands on rows of its own."""
    return Content("\n").join(_rows(hint, ink, max(8, width - GUTTER - len(_LABEL) - 1)))


def _rows(hint: Hint, ink: Ink, room: int) -> Iterator[Content]:
    margin = gutter(" ", "", ink, "")
    label = _LABEL
    for row in fold(visible(hint.message), room):
        yield Content.assemble(margin, (label, "bold $primary"), (row, "$foreground"))
        label = " " * len(_LABEL)
    line = visible(hint.line or "")
    for start, end in pieces(line, room) if line else ():
        yield Content.assemble(margin, label, (line[start:end], "bold $primary"))
