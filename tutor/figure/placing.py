"""Finding each label its place: beside what it names, clear of every line and every other label.

The paper is a grid of small cells, x to the right and y **downward**. A terminal takes its own
character cells, a print a square millimetre. What is drawn is known as the set of cells it touches.
The same wishes on the same ink always get the same places.
"""

import math
from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass, replace

from tutor.figure.scene import Point, Spot

Cell = tuple[int, int]  # column, row
Wall = tuple[Point, Point]  # a straight piece of what is drawn, in units of the paper

# How bad a place is, in units of the paper (about a quarter of the height of a letter each).
_ASIDE = 3.0  # for each unit off the straight way outward
_BEHIND = 24.0  # for being on the wrong side of what it names
_ACROSS_A_LINE = 60.0  # for each line between a label and what it names
_NEXT_SPOT = 10.0  # for each better spot passed over
_VALUE_BELOW = 36.0  # for a name at its place whose value is told below the drawing
_ALL_BELOW = 50.0  # for a label that is told below the drawing and has no place in it

# A line met closer than this to a spot is the line that the spot is on.
_OWN_LINE = 0.2

# How far from its spot a label is looked for, in units of the paper: near first, then further.
_REACHES = (24.0, 96.0, 384.0)


@dataclass(frozen=True, slots=True)
class Grid:
    """The cells of the paper: their size in its units, and the free cells around each label."""

    cell_width: float
    cell_height: float
    gap_across: int
    gap_down: int


@dataclass(frozen=True, slots=True)
class Room:
    """The most columns and rows that drawing and labels may take together."""

    columns: int
    rows: int


@dataclass(frozen=True, slots=True)
class Wish:
    """A label to be placed: its size in cells, and its spots in the units of the paper.

    ``short`` is the width of what may stand here while the whole is told below the drawing; 0: nothing may.
    """

    across: int
    down: int
    spots: tuple[Spot, ...]
    short: int = 0


@dataclass(frozen=True, slots=True)
class Extent:
    """Cells from (left, top) to (right, bottom), the last ones not included."""

    left: int
    top: int
    right: int
    bottom: int

    def joined(self, other: "Extent") -> "Extent":
        """Return the least extent that holds both."""
        return Extent(
            min(self.left, other.left),
            min(self.top, other.top),
            max(self.right, other.right),
            max(self.bottom, other.bottom),
        )

    def fits(self, room: Room | None) -> bool:
        """Tell whether it is no larger than the room (None: there is no end of room)."""
        return room is None or (
            self.right - self.left <= room.columns and self.bottom - self.top <= room.rows
        )


@dataclass(frozen=True, slots=True)
class Placed:
    """Where the labels went, in the order of the wishes, what all takes, and how bad it is.

    A box as narrow as the short form holds that; None: the label found no place at all.
    """

    boxes: tuple[Extent | None, ...]
    extent: Extent
    cost: float


def extent_of(cells: Set[Cell]) -> Extent:
    """Return the least extent that holds the cells, of which there must be one at least."""
    columns, rows = [cell[0] for cell in cells], [cell[1] for cell in cells]
    return Extent(min(columns), min(rows), max(columns) + 1, max(rows) + 1)


def place(
    wishes: Sequence[Wish],
    ink: Set[Cell],
    walls: Sequence[Wall],
    grid: Grid,
    *,
    room: Room | None = None,
    limit: float = math.inf,
    below: bool = False,
) -> Placed | None:
    """Place the labels one after the other, each where it costs least.

    None where there is no room, or none that costs less than ``limit`` all together.

    ``ink``: the cells that the drawing touches. ``walls``: the same lines exactly, because in coarse cells
    the two sides of a line can look alike. ``below``: what finds no good place may be told below the drawing.
    """
    taken = {near for column, row in ink for near in _around(Extent(column, row, column + 1, row + 1), grid)}
    extent, boxes, cost = extent_of(ink), list[Extent | None](), 0.0
    if not extent.fits(room):
        return None
    for wish in wishes:
        added, box = _best_of_forms(wish, walls, taken, grid, room, extent, limit - cost, below)
        if math.isinf(added):
            return None
        cost += added
        boxes.append(box)
        if box is not None:
            taken.update(_around(box, grid))
            extent = extent.joined(box)
    return Placed(tuple(boxes), extent, cost)


def _best_of_forms(
    wish: Wish,
    walls: Sequence[Wall],
    taken: Set[Cell],
    grid: Grid,
    room: Room | None,
    extent: Extent,
    limit: float,
    below: bool,
) -> tuple[float, Extent | None]:
    """Return what the label costs, infinite where it must not, and its box, or None for below."""
    best: tuple[float, Extent | None] = (math.inf, None)
    if below and limit > _ALL_BELOW:
        best, limit = (_ALL_BELOW, None), _ALL_BELOW
    whole = _best(wish, walls, taken, grid, _window(wish, room, extent), limit)
    if whole is not None:
        best, limit = whole, whole[0]
    if below and wish.short and limit > _VALUE_BELOW:
        part = replace(wish, across=wish.short)
        found = _best(part, walls, taken, grid, _window(part, room, extent), limit - _VALUE_BELOW)
        if found is not None:
            return found[0] + _VALUE_BELOW, found[1]
    return best


def _best(
    wish: Wish,
    walls: Sequence[Wall],
    taken: Set[Cell],
    grid: Grid,
    window: Extent | None,
    limit: float,
) -> tuple[float, Extent] | None:
    """Return the cheapest free place and its cost, if one costs less than ``limit``."""
    best: Extent | None = None
    for reach in _REACHES:
        dearer = False  # further away they only cost more
        for rank, spot in enumerate(wish.spots):
            for base, top, left in _candidates(wish, spot, grid, reach, window):
                cost = base + rank * _NEXT_SPOT
                if cost >= limit:
                    dearer = True
                    break
                box = Extent(left, top, left + wish.across, top + wish.down)
                if not taken.isdisjoint(_cells(box)):
                    continue
                cost += _ACROSS_A_LINE * _lines_between(spot.at, box, walls, grid)
                if cost < limit:
                    best, limit = box, cost
        if best is not None:
            return limit, best
        if dearer:
            break
    return None


def _window(wish: Wish, room: Room | None, extent: Extent) -> Extent | None:
    """Return where the upper left cell of a label may be, so that all still fits into the room."""
    if room is None:
        return None
    return Extent(
        extent.right - room.columns,
        extent.bottom - room.rows,
        extent.left + room.columns - wish.across + 1,
        extent.top + room.rows - wish.down + 1,
    )


def _candidates(
    wish: Wish, spot: Spot, grid: Grid, reach: float, window: Extent | None
) -> list[tuple[float, int, int]]:
    """Return (cost, top, left) of the places around a spot, the cheapest first."""
    column, row = int(spot.at.x // grid.cell_width), int(spot.at.y // grid.cell_height)
    across, down = int(reach // grid.cell_width), int(reach // grid.cell_height)
    lefts = range(column - across - wish.across, column + across + 1)
    tops = range(row - down - wish.down, row + down + 1)
    if window is not None:
        lefts = range(max(lefts.start, window.left), min(lefts.stop, window.right))
        tops = range(max(tops.start, window.top), min(tops.stop, window.bottom))
    found = []
    for top in tops:
        dy = (top + wish.down / 2) * grid.cell_height - spot.at.y
        for left in lefts:
            dx = (left + wish.across / 2) * grid.cell_width - spot.at.x
            found.append((_cost(dx, dy, spot.outward), top, left))
    return sorted(found)


def _cost(dx: float, dy: float, outward: Point) -> float:
    if outward == Point(0, 0):
        return math.hypot(dx, dy)
    along = dx * outward.x + dy * outward.y
    aside = abs(dx * outward.y - dy * outward.x)
    return _ASIDE * aside + (along if along >= 0 else _BEHIND - 2 * along)


def _lines_between(at: Point, box: Extent, walls: Sequence[Wall], grid: Grid) -> int:
    """Count the lines crossed on the straight way from ``at`` to the middle of the box."""
    x = (box.left + box.right) / 2 * grid.cell_width - at.x
    y = (box.top + box.bottom) / 2 * grid.cell_height - at.y
    length = math.hypot(x, y)
    return sum(_crossing(at, x, y, wall) * length > _OWN_LINE for wall in walls) if length else 0


def _crossing(at: Point, x: float, y: float, wall: Wall) -> float:
    """Return how far along the way (x, y) from ``at`` a wall is met, as a part of it; 0 if it is not."""
    start, end = wall
    wall_x, wall_y = end.x - start.x, end.y - start.y
    turn = x * wall_y - y * wall_x
    if turn == 0:
        return 0.0
    part = ((start.x - at.x) * wall_y - (start.y - at.y) * wall_x) / turn
    along_wall = ((start.x - at.x) * y - (start.y - at.y) * x) / turn
    return part if 0 < part <= 1 and 0 <= along_wall < 1 else 0.0


def _cells(box: Extent) -> Iterator[Cell]:
    for row in range(box.top, box.bottom):
        for column in range(box.left, box.right):
            yield column, row


def _around(box: Extent, grid: Grid) -> Iterator[Cell]:
    return _cells(
        Extent(
            box.left - grid.gap_across,
            box.top - grid.gap_down,
            box.right + grid.gap_across,
            box.bottom + grid.gap_down,
        )
    )
