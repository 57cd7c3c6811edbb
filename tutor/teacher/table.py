"""A plain table for a terminal: columns of words, nothing else."""

from collections.abc import Iterator, Sequence

from tutor.figure.lettering import cell_width
from tutor.visible import visible

GAP = "  "


def short(text: str, columns: int) -> str:
    """Return ``text`` safe to print and cut to ``columns`` columns of a terminal."""
    # Only a start is looked at: a line may be a million signs that take no column.
    shown = visible(text[: columns * 8])
    if cell_width(shown) <= columns and len(text) <= columns * 8:
        return shown
    while shown and cell_width(shown) > columns - 1:
        shown = shown[:-1]
    return shown + "…"


def table(
    head: Sequence[str],
    rows: Sequence[Sequence[str]],
    widest: Sequence[int],
    *,
    rest: tuple[int, int] = (0, 0),
) -> Iterator[str]:
    """Yield the rows under their head; ``widest``: the most columns each one may take.

    ``rest``: the column that also gets what the others leave, and the columns of the whole table.
    """
    at, whole = rest
    taken = [_taken(number, head, rows, widest) for number in range(len(head)) if number != at]
    left = whole - sum(taken) - len(GAP) * len(taken)
    widest = [max(most, left) if number == at else most for number, most in enumerate(widest)]
    cut = [[short(cell, most) for cell, most in zip(row, widest, strict=True)] for row in (head, *rows)]
    widths = [max(cell_width(row[at]) for row in cut) for at in range(len(head))]
    for number, row in enumerate(cut):
        padded = (cell + " " * (width - cell_width(cell)) for cell, width in zip(row, widths, strict=True))
        yield GAP.join(padded).rstrip()
        if number == 0:
            yield GAP.join("-" * width for width in widths)


def _taken(column: int, head: Sequence[str], rows: Sequence[Sequence[str]], widest: Sequence[int]) -> int:
    return max(cell_width(short(row[column], widest[column])) for row in (head, *rows))
