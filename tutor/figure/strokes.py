"""A scene in ASCII: each cell a letter that slopes the way the line does there; and what is shaded."""

from collections.abc import Sequence

from tutor.figure.ground import Cell
from tutor.figure.raster import filled, is_hidden, raster
from tutor.figure.scene import AngleArc, Box, Dot, Pen, Segment, Shade, Shape


def strokes(shapes: Sequence[Shape], bounds: Box, across: float, down: float) -> dict[Cell, str]:
    """Return a letter for each cell the drawing touches; ``across`` and ``down``: cells to a unit."""
    letters: dict[Cell, str] = {}
    ends: dict[Cell, int] = {}
    drawn = zip(shapes, raster(shapes, bounds, across, down), strict=True)
    for shape, cells in sorted(drawn, key=lambda pair: _weight(pair[0])):
        if isinstance(shape, Shade):
            continue
        if isinstance(shape, Dot):
            letters.update(dict.fromkeys(cells, "o"))
            continue
        for index, cell in enumerate(cells):
            slope = _slope(cells[max(index - 1, 0)], cells[min(index + 1, len(cells) - 1)])
            letters[cell] = "." if is_hidden(shape) else slope
        if isinstance(shape, Segment) and not is_hidden(shape):
            for cell in {cells[0], cells[-1]}:
                ends[cell] = ends.get(cell, 0) + 1
                letters[cell] = "+" if ends[cell] > 1 else letters[cell]
    return letters


def shading(
    shapes: Sequence[Shape], bounds: Box, across: float, down: float, every: tuple[int, int]
) -> list[Cell]:
    """Return the squares that stand for shading: one in so many columns, and rows, each row set off."""
    columns, rows = every
    return [
        (x, y)
        for shape in shapes
        if isinstance(shape, Shade)
        for x, y in filled(shape, bounds, across, down)
        if y % rows == 0 and (x + y // rows * (columns // 2)) % columns == 0
    ]


def _weight(shape: Shape) -> int:
    """Return the rank of a shape: where two meet in a cell, the higher one is seen."""
    if isinstance(shape, Dot):
        return 4
    if isinstance(shape, AngleArc | Shade):
        return 1
    return {Pen.HIDDEN: 0, Pen.MEASURE: 2, Pen.EDGE: 3}[shape.pen]


def _slope(before: Cell, after: Cell) -> str:
    across, down = after[0] - before[0], after[1] - before[1]
    if 2 * abs(down) <= abs(across):
        return "-"
    if 2 * abs(across) < abs(down) or across == 0:
        return "|"
    return "\\" if (across > 0) == (down > 0) else "/"
