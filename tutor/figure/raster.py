"""From shapes to the small squares they pass through: one square thick, in order along the shape."""

import math
from collections.abc import Sequence
from itertools import pairwise

from tutor.figure.ground import Cell, Wall
from tutor.figure.placing import Wish
from tutor.figure.scene import (
    AngleArc,
    Arc,
    Box,
    Curve,
    Label,
    Pen,
    Point,
    Segment,
    Shade,
    Shape,
    Spot,
    coordinates,
    trace,
)

# How finely a shape is followed, in squares: below 1, so that no step passes over a square.
_FOLLOW = 0.6


def raster(shapes: Sequence[Shape], bounds: Box, across: float, down: float) -> tuple[tuple[Cell, ...], ...]:
    """Return, for each shape in turn, the squares it passes through; none for what is shaded.

    ``across`` and ``down``: squares to a unit in the two directions. The upper left corner of
    the drawing is the middle of the square (0, 0); rows count downward.
    """
    return tuple(
        () if isinstance(shape, Shade) else _followed(shape, bounds, across, down) for shape in shapes
    )


def filled(shape: Shade, bounds: Box, across: float, down: float) -> tuple[Cell, ...]:
    """Return the squares whose middle lies inside, row by row."""
    corners = [on_paper(point, bounds, across, down) for point in shape.points]
    squares: list[Cell] = []
    low, high = min(point.y for point in corners), max(point.y for point in corners)
    for row in range(math.ceil(low), math.floor(high) + 1):
        crossed = sorted(
            start.x + (row - start.y) / (end.y - start.y) * (end.x - start.x)
            for start, end in pairwise((*corners, corners[0]))
            if (start.y <= row) != (end.y <= row)
        )
        for left, right in zip(crossed[::2], crossed[1::2], strict=True):
            squares += ((column, row) for column in range(math.ceil(left), math.floor(right) + 1))
    return tuple(squares)


def on_paper(point: Point, bounds: Box, across: float, down: float) -> Point:
    """Return a point of the scene in squares from the upper left corner, y downward."""
    return Point((point.x - bounds.left) * across, (bounds.top - point.y) * down)


def walls(shapes: Sequence[Shape], bounds: Box, scale: float) -> tuple[Wall, ...]:
    """Return every line of a drawing in straight pieces, ``scale`` squares to a unit."""
    pieces: list[Wall] = []
    for shape in shapes:
        if isinstance(shape, Shade):
            continue
        # A segment is one piece; a bow is cut finely enough to stay on its line.
        step = shape.radius / 10 if isinstance(shape, Arc | AngleArc) else math.inf
        pieces += pairwise(on_paper(point, bounds, scale, scale) for point in trace(shape, step))
    return tuple(pieces)


def wishes(
    labels: Sequence[Label], bounds: Box, scale: float, sizes: Sequence[tuple[int, int, int]]
) -> list[Wish]:
    """Return the labels as wishes: ``sizes`` in cells (across, down, short), ``scale`` squares to a unit."""
    return [
        Wish(
            across,
            down,
            tuple(
                Spot(on_paper(spot.at, bounds, scale, scale), Point(spot.outward.x, -spot.outward.y))
                for spot in label.spots
            ),
            short,
        )
        for label, (across, down, short) in zip(labels, sizes, strict=True)
    ]


def dashes(squares: tuple[Cell, ...], on: int, off: int) -> tuple[Cell, ...]:
    """Return the squares that a dashed line keeps: ``on`` of them, then ``off`` left out."""
    return tuple(square for index, square in enumerate(squares) if index % (on + off) < on)


def is_hidden(shape: Shape) -> bool:
    """Tell whether a shape is drawn dashed."""
    return isinstance(shape, Segment | Arc | Curve) and shape.pen is Pen.HIDDEN


def _followed(shape: Shape, bounds: Box, across: float, down: float) -> tuple[Cell, ...]:
    """Return a square for each column a flat stretch crosses, and for each row a steep one crosses.

    That keeps a line one square thick, and mirrored lines mirrored.
    """
    left, top = bounds.left, bounds.top
    points = [
        ((x - left) * across, (top - y) * down) for x, y in coordinates(shape, _FOLLOW / max(across, down))
    ]
    here_x, here_y = points[0]
    squares = [_square(here_x, here_y)]
    was_flat: bool | None = None
    for there_x, there_y in points[1:]:
        dx, dy = there_x - here_x, there_y - here_y
        flat = abs(dx) * (1 + 1e-6) >= abs(dy)  # at 45° noise must not decide
        if was_flat is not None and flat != was_flat:  # or a square could be missed at the turn
            squares.append(_square(here_x, here_y))
        was_flat = flat
        start, step = (here_x, dx) if flat else (here_y, dy)
        line = round(start + step / 2)
        if step and 0 <= (line - start) / step <= 1:  # it crosses the middle of a column, or of a row
            part = (line - start) / step
            squares.append(_square(here_x + part * dx, here_y + part * dy))
        here_x, here_y = there_x, there_y
    squares.append(_square(here_x, here_y))
    return _thinned(list(dict.fromkeys(squares)))


def _square(x: float, y: float) -> Cell:
    # A hair is added so that a half always rounds the same way.
    return math.floor(x + 0.5 + 1e-7), math.floor(y + 0.5 + 1e-7)


def _thinned(squares: list[Cell]) -> tuple[Cell, ...]:
    """Leave out each square that only makes an elbow between two that touch at a corner."""
    kept: list[Cell] = []
    for index, square in enumerate(squares):
        if kept and index + 1 < len(squares):
            before, after = kept[-1], squares[index + 1]
            if abs(before[0] - after[0]) == 1 == abs(before[1] - after[1]):
                continue
        kept.append(square)
    return tuple(kept)
