"""A plain table for a terminal: columns of words, nothing else."""

from collections.abc import Iterator, Sequence

from tutor.lesson.model import cells
from tutor.teacher.check_file import visible

GAP = "  "


def short(text: str, columns: int) -> str:
    """Return ``text`` safe to print and cut to ``columns`` columns of a terminal."""
    # No sign takes less than half of nothing: a longer start cannot add a column that is kept.
    shown = visible(text[: columns * 8])
    if cells(shown) <= columns and len(text) <= columns * 8:
        return shown
    while shown and cells(shown) > columns - 1:
        shown = shown[:-1]
    return shown + "…"


def table(head: Sequence[str], rows: Sequence[Sequence[str]], widest: Sequence[int]) -> Iterator[str]:
    """Yield the rows under their head; ``widest``: the most columns each one may take."""
    cut = [[short(cell, most) for cell, most in zip(row, widest, strict=True)] for row in (head, *rows)]
    widths = [max(cells(row[at]) for row in cut) for at in range(len(head))]
    for number, row in enumerate(cut):
        padded = (cell + " " * (width - cells(cell)) for cell, width in zip(row, widths, strict=True))
        yield GAP.join(padded).rstrip()
        if number == 0:
            yield GAP.join("-" * width for width in widths)
