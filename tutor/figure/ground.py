"""What is drawn, as placing asks about it: which cells are free, and which lines lie in between.

The paper is a grid of small cells, x to the right and y **downward**. A row of cells is a whole
number, a bit for each cell, so that a label is tried in every column of a row at once.
"""

import math
from collections.abc import Sequence, Set
from dataclasses import dataclass

from tutor.figure.scene import Point

Cell = tuple[int, int]  # column, row
Wall = tuple[Point, Point]  # a straight piece of what is drawn, in units of the paper

# A line met closer than this to a spot is the line that the spot is on.
_OWN_LINE = 0.2

# So many walls after each other are passed over together, where none of them can be met.
_BUNDLE = 6

# A wall as seen from a point: the way to its start, the way along it, and their cross product; and walls
# together, with the middle and the radius of a circle around them.
_Seen = tuple[float, float, float, float, float]
_Bundle = tuple[float, float, float, Sequence[_Seen]]

# What a circle is made larger by, so that no rounding counts.
_HAIR = 1e-6

# How many columns left of the drawing there are bits for; a label further left makes more.
_SPARE = 128


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


class Taken:
    """The cells that nothing more may touch: those of the drawing and of labels, and the gaps around them."""

    def __init__(self, first: int) -> None:
        """Take nothing yet; ``first``: the column of the lowest bit."""
        self._first = first
        self._rows: dict[int, int] = {}

    def copy(self) -> "Taken":
        """Return the same cells, to be added to."""
        other = Taken(self._first)
        other._rows = dict(self._rows)
        return other

    def add(self, box: Extent, grid: Grid) -> None:
        """Take the cells of a box and the gap around it."""
        left = box.left - grid.gap_across
        if left < self._first:
            more = self._first - left + _SPARE
            self._rows = {row: bits << more for row, bits in self._rows.items()}
            self._first -= more
        bits = (1 << (box.right + grid.gap_across - left)) - 1 << (left - self._first)
        for row in range(box.top - grid.gap_down, box.bottom + grid.gap_down):
            self._rows[row] = self._rows.get(row, 0) | bits

    def free(self, top: int, down: int, lefts: range, across: int) -> int:
        """Return a bit for each of ``lefts``: whether a box of that size that begins there is free."""
        taken = 0
        for row in range(top, top + down):
            taken |= self._rows.get(row, 0)
        shift = lefts.start - self._first
        taken = taken >> shift if shift >= 0 else taken << -shift
        # Smeared to the left: a bit stands for itself and the ``across - 1`` to the right of it.
        done = 1
        while done < across:
            step = min(done, across - done)
            taken |= taken >> step
            done += step
        return ~taken & ((1 << len(lefts)) - 1)


class Ground:
    """A drawing at one size, made ready once for labels to be placed on again and again.

    ``ink``: the cells that the drawing touches, of which there must be one at least. ``walls``: the same
    lines exactly, because in coarse cells the two sides of a line can look alike.
    """

    def __init__(self, ink: Set[Cell], walls: Sequence[Wall], grid: Grid) -> None:
        """Make the drawing ready for labels on that grid."""
        columns, rows = [cell[0] for cell in ink], [cell[1] for cell in ink]
        self.grid = grid
        self.extent = Extent(min(columns), min(rows), max(columns) + 1, max(rows) + 1)
        self._taken = Taken(self.extent.left - _SPARE)
        for column, row in ink:
            self._taken.add(Extent(column, row, column + 1, row + 1), grid)
        self._walls = [(start.x, start.y, end.x - start.x, end.y - start.y) for start, end in walls]
        self._seen: dict[Point, Sight] = {}

    def taken(self) -> Taken:
        """Return the cells that the drawing takes, to be added to."""
        return self._taken.copy()

    def sight(self, at: Point) -> "Sight":
        """Return what is seen from a point."""
        found = self._seen.get(at)
        if found is None:
            starts = range(0, len(self._walls), _BUNDLE)
            found = self._seen[at] = Sight(
                [_bundle(at, self._walls[start : start + _BUNDLE]) for start in starts]
            )
        return found


class Sight:
    """The lines of a drawing as seen from one point."""

    def __init__(self, bundles: list[_Bundle]) -> None:
        """Look at bundles of walls."""
        self._bundles = bundles

    def lines_between(self, x: float, y: float, most: float) -> int:
        """Count the lines crossed on the way (x, y) to a place, no further than above ``most``."""
        length = math.hypot(x, y)
        if not length:
            return 0
        count = 0
        for index, (middle_x, middle_y, radius, bundle) in enumerate(self._bundles):
            # All of the bundle lies beside the way, behind its beginning or beyond its end.
            near = radius * length
            if abs(middle_x * y - middle_y * x) > near or not -near <= middle_x * x + middle_y * y <= (
                near + length * length
            ):
                continue
            for off_x, off_y, wall_x, wall_y, across in bundle:
                turn = x * wall_y - y * wall_x
                if turn:
                    # Both as parts: how far along the way the line is met, and how far along the line.
                    part, along = across / turn, (off_x * y - off_y * x) / turn
                    if 0 < part <= 1 and part * length > _OWN_LINE and 0 <= along < 1:
                        count += 1
                        if count > most:
                            # What is in the way here is most likely in the way of the next place too.
                            self._bundles.insert(0, self._bundles.pop(index))
                            return count
        return count


def _bundle(at: Point, walls: Sequence[tuple[float, float, float, float]]) -> _Bundle:
    """Return walls as seen from a point, and a circle around them all."""
    seen = []
    for start_x, start_y, wall_x, wall_y in walls:
        off_x, off_y = start_x - at.x, start_y - at.y
        seen.append((off_x, off_y, wall_x, wall_y, off_x * wall_y - off_y * wall_x))
    xs = [x for off_x, _, wall_x, _, _ in seen for x in (off_x, off_x + wall_x)]
    ys = [y for _, off_y, _, wall_y, _ in seen for y in (off_y, off_y + wall_y)]
    middle_x, middle_y = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
    radius = math.hypot(max(xs) - min(xs), max(ys) - min(ys)) / 2
    return middle_x, middle_y, radius * (1 + _HAIR) + _HAIR, seen
