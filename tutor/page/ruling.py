"""How one line of work is laid out on the ruled page, as rows of styled text.

A row is `sign number upright text`, the paper's ruling filling the rest. Under a line that
does not follow stand a row of ~~~ below the part meant, and its reason.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from textual.content import Content

from tutor.marking.verdict import Verdict
from tutor.marking.working import WorkLine
from tutor.page.lettering import cells, fold, pieces, underline
from tutor.page.look import Ink, Look, look_of
from tutor.visible import visible

GUTTER = 8  # cells before the text: two of sign, three of number, three of margin line
_RULE = "▁"
_PENDING = Look("…", "being read", "$quiet")
_TAKEN = Look(" ", "", "$quiet")
_FIRST_WRONG = "first wrong line"


@dataclass(frozen=True, slots=True)
class Written:
    """One line of work with what the page says beside it.

    ``number`` counts from 1. ``line`` is None while the line is still being decided.
    ``pointed``: the part that a hint speaks of. ``hidden``: its mark is not to be seen yet.
    """

    number: int
    text: str
    line: WorkLine | None
    ink: Ink
    first_wrong: bool = False
    appealed: bool = False
    pointed: tuple[int, int] | None = None
    hidden: bool = False

    @property
    def struck(self) -> bool:
        """Tell whether the line is struck out."""
        return self.line is not None and self.line.struck

    @property
    def breaks(self) -> bool:
        """Tell whether the line does not follow."""
        return self.line is not None and not self.hidden and self.line.mark.verdict is Verdict.BREAKS

    @property
    def look(self) -> Look:
        """Return the sign, word and colour of the line's mark."""
        if self.line is None:
            return _PENDING
        return _TAKEN if self.hidden else look_of(self.line.mark.verdict)

    def tag(self, *, wide: bool) -> str:
        """Return the words at the end of the row; a plain right line has one only where wide."""
        words: list[str] = []
        if self.struck:
            words.append("struck out")
        if self.first_wrong:
            words.append(_FIRST_WRONG)
        elif not self.struck and self.look.word and (wide or self.look.sign != "✓"):
            words.append(self.look.word)
        if self.appealed:
            words.append("for the teacher")
        return ", ".join(words)


def gutter(sign: str, number: str, ink: Ink, sign_style: str, *, pointer: str = " ") -> Content:
    """Return the margin of one row: sign, number, upright line; ``pointer`` marks a chosen row."""
    return Content.assemble(
        (f"{pointer}{sign}", sign_style), (f"{number:>3} ", "$quiet"), (f"{ink.upright} ", "$margin-line")
    )


def ruling(width: int) -> tuple[str, str]:
    """Return the ruled line that fills ``width`` cells, with its colour."""
    return (_RULE * max(0, width), "$ruling")


def blank_row(width: int, ink: Ink) -> Content:
    """Return an empty ruled row."""
    return Content.assemble(gutter(" ", "", ink, ""), ruling(width - GUTTER - 1))


def rows(written: Written, width: int, *, chosen: bool = False, wide: bool = False) -> list[Content]:
    """Return the rows of one line of work in ``width`` cells.

    ``chosen`` points at the line and adds what happened to both sides; ``wide`` adds a word
    to plain right lines.
    """
    room = max(8, width - GUTTER - 1)
    pointer = "▸" if chosen else " "
    text = _text_rows(written, room, pointer, written.tag(wide=wide))
    return [*text, *_under_rows(written, room, chosen=chosen)]


def _text_rows(written: Written, room: int, pointer: str, tag: str) -> Iterator[Content]:
    """Yield the line in its parts, each with its ~~~, then the tag where the last part left no room."""
    shown, look, span = visible(written.text), written.look, _span(written)
    below = look.style if written.breaks else "$primary"
    style = written.ink.style + (" strike" if written.struck else "")
    margin = gutter(look.sign, str(written.number), written.ink, f"bold {look.style}", pointer=pointer)
    for start, end in pieces(shown, room):
        left = room - cells(shown[start:end])
        fits = end == len(shown) and left >= cells(tag) + 2
        yield Content.assemble(margin, (shown[start:end], style), _tail(left, tag if fits else "", look))
        if span is not None and (under := _under(shown, span, start, end)):
            yield _hanging(written.ink, (under, f"bold {below}"))
        if end == len(shown) and tag and not fits:
            yield from (_hanging(written.ink, (row, look.style)) for row in fold(tag, room))
        margin = gutter(" ", "", written.ink, "")


def _under(shown: str, span: tuple[int, int], start: int, end: int) -> str:
    """Return the ~~~ below the part [start, end) of a line, "" where the span is elsewhere."""
    first, past = max(span[0], start), min(span[1], end)
    empty_here = span[0] == span[1] and start <= span[0] and (span[0] < end or end == len(shown))
    if first >= past and not empty_here:
        return ""
    return underline(shown[start:end], first - start, max(first, past) - start)


def _tail(left: int, tag: str, look: Look) -> Content:
    """Return what fills the rest of a row of ``left`` cells: ruling, and the tag at its end."""
    if left < 2:
        return Content(" " * left)
    if not tag:
        return Content.assemble(" ", ruling(left - 1))
    return Content.assemble(" ", ruling(left - cells(tag) - 2), " ", (tag, look.style))


def _span(written: Written) -> tuple[int, int] | None:
    if written.line is not None and written.breaks:
        return written.line.mark.span
    return written.pointed


def _hanging(ink: Ink, part: tuple[str, str]) -> Content:
    return Content.assemble(gutter(" ", "", ink, ""), part)


def _under_rows(written: Written, room: int, *, chosen: bool) -> Iterator[Content]:
    """Yield the reason, the remark and, where the line is chosen, the both-sides account."""
    if written.line is None or written.hidden:
        return
    mark = written.line.mark
    if not written.struck or chosen or written.first_wrong:
        for row in fold(visible(mark.message), room):
            yield _hanging(written.ink, (row, written.look.style))
    if not written.struck or chosen:
        for row in fold(visible(mark.note), room):
            yield _hanging(written.ink, (row, "$quiet"))
    if chosen and mark.account and mark.account not in mark.message:
        for row in fold(visible(mark.account), room):
            yield _hanging(written.ink, (row, "$quiet"))
