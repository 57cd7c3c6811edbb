"""A scene in the cells of a terminal: braille dots for the lines, letters for the labels.

A cell is about twice as high as wide and holds two by four dots, so dots are square and the
figure keeps its shape.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from tutor.figure.ground import Cell, Extent, Grid, Ground, Room
from tutor.figure.legend import in_rows, short_form, told
from tutor.figure.lettering import cell_width, clean, cut, in_ascii
from tutor.figure.placing import Placed, place
from tutor.figure.raster import dashes, is_hidden, raster, walls, wishes
from tutor.figure.scene import Dot, Label, Scene, Shape
from tutor.figure.strokes import shading, strokes

_ACROSS, _DOWN = 2, 4  # dots in a cell
_GRID = Grid(cell_width=_ACROSS, cell_height=_DOWN, gap_across=1, gap_down=0)

# Smaller than this a drawing says nothing: only the labels are shown.
_FEWEST_COLUMNS, _FEWEST_ROWS = 12, 4

# Sizes that are tried, as parts of the largest, and what a smaller drawing costs against better
# places for its labels.
_PARTS = (1.0, 0.92, 0.84, 0.76, 0.68, 0.6, 0.5, 0.4, 0.3)
_SMALLER = 70.0

# How many sizes of a figure are kept: what one or two sizes of the window ask for.
_MOST_SIZES = 64

# How many rows below the drawing may tell what found no good place in it, what the first of them costs
# against such a place, and what a drawing costs at most whose places are all good.
_MOST_BELOW = 4
_ROWS_BELOW = 6.0
_GOOD = 20.0

# The bit of each dot in a braille cell (Unicode Standard, Braille Patterns, U+2800 to U+28FF).
_BITS = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))


@dataclass(frozen=True, slots=True)
class _Drawing:
    """The shapes at one size: a letter for each cell they touch, and the ground for labels."""

    scale: float  # dots to a unit
    inked: Mapping[Cell, str]
    ground: Ground


class _Drawings:
    """The shapes of a figure, drawn once at each size that is asked for."""

    def __init__(self, shapes: tuple[Shape, ...], plain: bool) -> None:
        self.shapes, self.plain = shapes, plain
        self.bounds = Scene("", shapes).bounds()
        self._at: dict[float, _Drawing] = {}

    def at(self, scale: float) -> _Drawing:
        """Return the drawing with ``scale`` dots to a unit."""
        drawing = self._at.get(scale)
        if drawing is None:
            if len(self._at) >= _MOST_SIZES:
                self._at.clear()
            ink = self._letters(scale)
            ground = Ground(ink.keys(), walls(self.shapes, self.bounds, scale), _GRID)
            drawing = self._at[scale] = _Drawing(scale, ink, ground)
        return drawing

    def _letters(self, scale: float) -> dict[Cell, str]:
        if self.plain:
            return strokes(self.shapes, self.bounds, scale / _ACROSS, scale / _DOWN)
        return _in_cells(
            dot
            for shape, dots in zip(self.shapes, raster(self.shapes, self.bounds, scale, scale), strict=True)
            for dot in _weighted(shape, dots)
        )


# Every label that is typed asks for the same shapes again, in the same few sizes.
_drawings = lru_cache(maxsize=4)(_Drawings)


@dataclass(frozen=True, slots=True)
class _Sheet:
    """A drawing at one size, its labels placed, and the rows below it."""

    drawing: _Drawing
    placed: Placed
    places: tuple[str, ...]
    below: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Order:
    """What is to be drawn: the shapes, the labels and their texts, and the whole room."""

    drawings: _Drawings
    labels: tuple[Label, ...]
    texts: tuple[str, ...]
    room: Room


def to_terminal(scene: Scene, columns: int, rows: int, *, plain: bool = False) -> tuple[str, ...]:
    """Return the figure as rows of text, at most ``rows`` of at most ``columns`` cells, centred.

    ``plain``: ASCII only, for screen readers and poor fonts. A label that finds no good place in the
    drawing is told in a row below it. Where the area is too small for a drawing only the labels are
    returned, one a row, as many as there is room for.
    """
    texts = tuple(in_ascii(text) if plain else text for text in (clean(label.text) for label in scene.labels))
    ending = "..." if plain else "…"
    if columns >= _FEWEST_COLUMNS and rows >= _FEWEST_ROWS:
        drawings, room = _drawings(scene.shapes, plain), Room(columns, rows)
        # Long labels are cut only when no size of the drawing leaves them room.
        for widest in dict.fromkeys((columns, columns // 2, columns // 3, 6)):
            short = tuple(cut(text, widest, ending=ending) for text in texts)
            sheet = _best_sheet(_Order(drawings, scene.labels, short, room))
            if sheet is not None:
                return _in_rows(drawings, sheet, columns)
    shown = tuple(cut(text, columns, ending=ending) for text in texts)
    return tuple(text for text in shown if text)[: max(rows, 0)]


def _best_sheet(order: _Order) -> _Sheet | None:
    """Return the drawing that costs least; rows below it are tried where it has no good places without."""
    best, limit = None, math.inf
    most = min(_MOST_BELOW, order.room.rows - _FEWEST_ROWS, len(order.texts))
    for below in range(max(0, most) + 1):
        if limit <= _GOOD:
            break
        more = _ROWS_BELOW if below else 0.0
        sheet, cost = _best_size(order, below, limit - more)
        if sheet is not None:
            best, limit = sheet, cost + more
            if below:  # further rows would only stay empty
                break
    return best


def _best_size(order: _Order, below: int, limit: float) -> tuple[_Sheet | None, float]:
    best: _Sheet | None = None
    room = Room(order.room.columns, order.room.rows - below)
    for part in _PARTS:
        smaller = _SMALLER * (1 - part)
        if smaller >= limit:
            break
        sheet = _sheet(order, _scale(order.drawings, room, part), below, limit - smaller)
        if sheet is not None:
            best, limit = sheet, sheet.placed.cost + smaller
    return best, limit


def _scale(drawings: _Drawings, room: Room, part: float) -> float:
    """Return the dots to a unit at which the drawing takes ``part`` of the room."""
    bounds = drawings.bounds
    # Dots are counted from middle to middle; in ASCII a line runs through the middle of its cells.
    spare = (_ACROSS, _DOWN) if drawings.plain else (1, 1)
    wide, high = room.columns * _ACROSS - spare[0], room.rows * _DOWN - spare[1]
    if bounds.width * high >= bounds.height * wide:
        side, dots = bounds.width, wide
    else:
        side, dots = bounds.height, high
    if not side:  # a point alone has no size
        return 1.0
    # An even number of steps puts the middle of the figure on a dot.
    return max(2, int(dots * part) // 2 * 2) / side


def _sheet(order: _Order, scale: float, below: int, limit: float) -> _Sheet | None:
    drawings, columns = order.drawings, order.room.columns
    drawing = drawings.at(scale)
    sizes = [(max(1, cell_width(text)), 1, cell_width(short_form(text))) for text in order.texts]
    wanted = wishes(order.labels, drawings.bounds, scale, sizes)
    placed = place(
        wanted,
        drawing.ground,
        room=Room(columns, order.room.rows - below),
        limit=limit,
        below=below > 0,
    )
    if placed is None:
        return None
    found = told(order.labels, order.texts, wanted, placed, lambda text: cell_width(text) <= columns)
    rows = in_rows(found.below, "   ", cell_width, columns)
    if len(rows) > below or (below and not rows):
        return None
    ending = "..." if drawings.plain else "…"
    return _Sheet(
        drawing,
        placed,
        found.places,
        tuple(cut(row, columns, ending=ending) for row in rows),
    )


def _in_rows(drawings: _Drawings, sheet: _Sheet, columns: int) -> tuple[str, ...]:
    inked = {**_shaded(drawings, sheet), **sheet.drawing.inked}
    extent = sheet.placed.extent
    indent = " " * ((columns - (extent.right - extent.left)) // 2)
    starts = {
        (box.left, box.top): (box, text)
        for box, text in zip(sheet.placed.boxes, sheet.places, strict=True)
        if box is not None
    }
    drawn = ((indent + _row(inked, starts, extent, row)).rstrip() for row in range(extent.top, extent.bottom))
    below = (" " * ((columns - cell_width(row)) // 2) + row for row in sheet.below)
    return (*drawn, *below)


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


def _in_cells(dots: Iterable[Cell]) -> dict[Cell, str]:
    bits: dict[Cell, int] = {}
    for x, y in dots:
        cell = (x // _ACROSS, y // _DOWN)
        bits[cell] = bits.get(cell, 0) | _BITS[y % _DOWN][x % _ACROSS]
    return {cell: chr(0x2800 + value) for cell, value in bits.items()}


def _shaded(drawings: _Drawings, sheet: _Sheet) -> dict[Cell, str]:
    """Return light letters for what is shaded, none of them beside a label."""
    shapes, bounds, scale = drawings.shapes, drawings.bounds, sheet.drawing.scale
    if drawings.plain:
        light = dict.fromkeys(shading(shapes, bounds, scale / _ACROSS, scale / _DOWN, (2, 1)), ":")
    else:
        light = _in_cells(shading(shapes, bounds, scale, scale, (4, 2)))
    for box in sheet.placed.boxes:
        if box is not None:
            for row in range(box.top, box.bottom):
                for column in range(box.left - 1, box.right + 1):
                    light.pop((column, row), None)
    return light


def _weighted(shape: Shape, dots: tuple[Cell, ...]) -> Sequence[Cell]:
    """Return the dots of a shape as they are drawn: a dashed line with gaps, a point made thick."""
    if isinstance(shape, Dot):
        return [(x + dx, y + dy) for x, y in dots for dx in (-1, 0, 1) for dy in (-1, 0, 1)]
    return dashes(dots, on=2, off=2) if is_hidden(shape) else dots
