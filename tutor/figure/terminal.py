"""A scene in the cells of a terminal: braille dots for the lines, letters for the labels.

A cell is about twice as high as wide and holds two by four dots, so dots are square and the
figure keeps its shape.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from tutor.figure.lettering import cell_width, clean, cut, in_ascii
from tutor.figure.placing import Cell, Extent, Grid, Placed, Room, place
from tutor.figure.raster import dashes, is_hidden, raster, walls, wishes
from tutor.figure.scene import Dot, Scene, Shape
from tutor.figure.strokes import strokes

_ACROSS, _DOWN = 2, 4  # dots in a cell
_GRID = Grid(cell_width=_ACROSS, cell_height=_DOWN, gap_across=1, gap_down=0)

# Smaller than this a drawing says nothing: only the labels are shown.
_FEWEST_COLUMNS, _FEWEST_ROWS = 12, 4

# Sizes that are tried, as parts of the largest, and what a smaller drawing costs against better
# places for its labels.
_PARTS = (1.0, 0.92, 0.84, 0.76, 0.68, 0.6, 0.5, 0.4, 0.3)
_SMALLER = 70.0

# The bit of each dot in a braille cell (Unicode Standard, Braille Patterns, U+2800 to U+28FF).
_BITS = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))


@dataclass(frozen=True, slots=True)
class _Sheet:
    """A drawing at one size with its labels placed: a letter for each cell, and what it all takes."""

    inked: Mapping[Cell, str]
    texts: tuple[str, ...]
    placed: Placed


def to_terminal(scene: Scene, columns: int, rows: int, *, plain: bool = False) -> tuple[str, ...]:
    """Return the figure as rows of text, at most ``rows`` of at most ``columns`` cells, centred.

    ``plain``: ASCII only, for screen readers and poor fonts. Where the area is too small for a
    drawing only the labels are returned, one a row, as many as there is room for.
    """
    texts = tuple(in_ascii(text) if plain else text for text in (clean(label.text) for label in scene.labels))
    ending = "..." if plain else "…"
    if columns >= _FEWEST_COLUMNS and rows >= _FEWEST_ROWS:
        # Long labels are cut only when no size of the drawing leaves them room.
        for widest in dict.fromkeys((columns, columns // 2, columns // 3, 6)):
            short = tuple(cut(text, widest, ending=ending) for text in texts)
            sheet = _best_sheet(scene, short, Room(columns, rows), plain)
            if sheet is not None:
                return _in_rows(sheet, columns)
    shown = tuple(cut(text, columns, ending=ending) for text in texts)
    return tuple(text for text in shown if text)[: max(rows, 0)]


def _best_sheet(scene: Scene, texts: tuple[str, ...], room: Room, plain: bool) -> _Sheet | None:
    best: _Sheet | None = None
    limit = math.inf
    for part in _PARTS:
        smaller = _SMALLER * (1 - part)
        scale = _scale(scene, room, part, plain)
        sheet = _sheet(scene, texts, scale, room, plain, limit - smaller) if smaller < limit else None
        if sheet is not None:
            best, limit = sheet, sheet.placed.cost + smaller
    return best


def _scale(scene: Scene, room: Room, part: float, plain: bool) -> float:
    """Return the dots to a unit at which the drawing takes ``part`` of the room."""
    bounds = scene.bounds()
    # Dots are counted from middle to middle; in ASCII a line runs through the middle of its cells.
    spare = (_ACROSS, _DOWN) if plain else (1, 1)
    wide, high = room.columns * _ACROSS - spare[0], room.rows * _DOWN - spare[1]
    if bounds.width * high >= bounds.height * wide:
        side, dots = bounds.width, wide
    else:
        side, dots = bounds.height, high
    # An even number of steps puts the middle of the figure on a dot.
    return max(2, int(dots * part) // 2 * 2) / side


def _sheet(
    scene: Scene, texts: tuple[str, ...], scale: float, room: Room, plain: bool, limit: float
) -> _Sheet | None:
    inked = strokes(scene, scale / _ACROSS, scale / _DOWN) if plain else _braille(scene, scale)
    wanted = wishes(scene, scale, [(max(1, cell_width(text)), 1) for text in texts])
    placed = place(wanted, inked.keys(), walls(scene, scale), _GRID, room=room, limit=limit)
    return _Sheet(inked, texts, placed) if placed is not None else None


def _in_rows(sheet: _Sheet, columns: int) -> tuple[str, ...]:
    extent = sheet.placed.extent
    indent = " " * ((columns - (extent.right - extent.left)) // 2)
    starts = {
        (box.left, box.top): (box, text) for box, text in zip(sheet.placed.boxes, sheet.texts, strict=True)
    }
    return tuple(
        (indent + _row(sheet.inked, starts, extent, row)).rstrip() for row in range(extent.top, extent.bottom)
    )


def _row(
    inked: Mapping[Cell, str], starts: Mapping[Cell, tuple[Extent, str]], extent: Extent, row: int
) -> str:
    written: list[str] = []
    column = extent.left
    while column < extent.right:
        if (column, row) in starts:
            box, text = starts[column, row]
            written.append(text)
            column = box.right
        else:
            written.append(inked.get((column, row), " "))
            column += 1
    return "".join(written)


def _braille(scene: Scene, scale: float) -> dict[Cell, str]:
    bits: dict[Cell, int] = {}
    for shape, dots in zip(scene.shapes, raster(scene, scale, scale), strict=True):
        for x, y in _weighted(shape, dots):
            cell = (x // _ACROSS, y // _DOWN)
            bits[cell] = bits.get(cell, 0) | _BITS[y % _DOWN][x % _ACROSS]
    return {cell: chr(0x2800 + value) for cell, value in bits.items()}


def _weighted(shape: Shape, dots: tuple[Cell, ...]) -> Sequence[Cell]:
    """Return the dots of a shape as they are drawn: a dashed line with gaps, a point made thick."""
    if isinstance(shape, Dot):
        return [(x + dx, y + dy) for x, y in dots for dx in (-1, 0, 1) for dy in (-1, 0, 1)]
    return dashes(dots, on=2, off=2) if is_hidden(shape) else dots
