"""Finding each label its place: beside what it names, clear of every line and every other label.

A terminal takes its own character cells, a print a square millimetre. The same wishes on the same
ground always get the same places.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from tutor.figure.ground import Extent, Grid, Ground, Room, Taken
from tutor.figure.scene import Point, Spot

# How bad a place is, in units of the paper (about a quarter of the height of a letter each).
_ASIDE = 3.0  # for each unit off the straight way outward
_BEHIND = 24.0  # for being on the wrong side of what it names
_ACROSS_A_LINE = 60.0  # for each line between a label and what it names
_NEXT_SPOT = 10.0  # for each better spot passed over
_VALUE_BELOW = 36.0  # for a name at its place whose value is told below the drawing
_ALL_BELOW = 50.0  # for a label that is told below the drawing and has no place in it

# Costs are compared with this to spare where a sum may be rounded either way.
_HAIR = 1e-6

# A direction less steep than this is taken as level where rounding would count.
_LEVEL = 1e-3

# Costs between which places are looked at together: the cheap ones first, which are most often enough.
_BANDS = (0.0, 16.0, 40.0, 80.0, math.inf)

# How far from its spot a label is looked for, in units of the paper: near first, then further.
_REACHES = (24.0, 96.0, 384.0)


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
class Placed:
    """Where the labels went, in the order of the wishes, what all takes, and how bad it is.

    A box as narrow as the short form holds that; None: the label found no place at all.
    """

    boxes: tuple[Extent | None, ...]
    extent: Extent
    cost: float


def place(
    wishes: Sequence[Wish],
    ground: Ground,
    *,
    room: Room | None = None,
    limit: float = math.inf,
    below: bool = False,
) -> Placed | None:
    """Place the labels one after the other, each where it costs least.

    None where there is no room, or none that costs less than ``limit`` all together.

    ``below``: what finds no good place may be told below the drawing.
    """
    taken, extent = ground.taken(), ground.extent
    boxes, cost = list[Extent | None](), 0.0
    if not extent.fits(room):
        return None
    for wish in wishes:
        added, box = _best_of_forms(wish, ground, taken, room, extent, limit - cost, below)
        if math.isinf(added):
            return None
        cost += added
        boxes.append(box)
        if box is not None:
            taken.add(box, ground.grid)
            extent = extent.joined(box)
    return Placed(tuple(boxes), extent, cost)


def _best_of_forms(
    wish: Wish,
    ground: Ground,
    taken: Taken,
    room: Room | None,
    extent: Extent,
    limit: float,
    below: bool,
) -> tuple[float, Extent | None]:
    """Return what the label costs, infinite where it must not, and its box, or None for below."""
    best: tuple[float, Extent | None] = (math.inf, None)
    if below and limit > _ALL_BELOW:
        best, limit = (_ALL_BELOW, None), _ALL_BELOW
    whole = _best(wish, ground, taken, _window(wish, room, extent), limit)
    if whole is not None:
        best, limit = whole, whole[0]
    if below and wish.short and limit > _VALUE_BELOW:
        part = replace(wish, across=wish.short)
        found = _best(part, ground, taken, _window(part, room, extent), limit - _VALUE_BELOW)
        if found is not None:
            return found[0] + _VALUE_BELOW, found[1]
    return best


def _best(
    wish: Wish, ground: Ground, taken: Taken, window: Extent | None, limit: float
) -> tuple[float, Extent] | None:
    """Return the cheapest free place and its cost, if one costs less than ``limit``."""
    grid = ground.grid
    best: Extent | None = None
    for reach in _REACHES:
        dearer = False  # further away they only cost more
        for rank, spot in enumerate(wish.spots):
            area, sight = _area(wish, spot, grid, reach, window), ground.sight(spot.at)
            passed = rank * _NEXT_SPOT
            if best is None and not dearer:
                dearer = _is_dear(wish, spot, grid, area, passed, limit)
            for nearest, furthest in pairwise(_BANDS):
                if nearest + passed >= limit:
                    break
                band = nearest, min(furthest, limit - passed + _HAIR)
                for base, top, left in _candidates(wish, spot, grid, taken, area, band):
                    cost = base + passed
                    if cost >= limit:
                        break
                    x = (left + wish.across / 2) * grid.cell_width - spot.at.x
                    y = (top + wish.down / 2) * grid.cell_height - spot.at.y
                    lines = sight.lines_between(x, y, (limit - cost) / _ACROSS_A_LINE)
                    cost += _ACROSS_A_LINE * lines
                    if cost < limit:
                        best, limit = Extent(left, top, left + wish.across, top + wish.down), cost
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


def _area(wish: Wish, spot: Spot, grid: Grid, reach: float, window: Extent | None) -> tuple[range, range]:
    """Return the columns and rows where the upper left cell of a label is looked for around a spot."""
    column, row = int(spot.at.x // grid.cell_width), int(spot.at.y // grid.cell_height)
    across, down = int(reach // grid.cell_width), int(reach // grid.cell_height)
    lefts = range(column - across - wish.across, column + across + 1)
    tops = range(row - down - wish.down, row + down + 1)
    if window is not None:
        lefts = range(max(lefts.start, window.left), min(lefts.stop, window.right))
        tops = range(max(tops.start, window.top), min(tops.stop, window.bottom))
    return lefts, tops


def _is_dear(
    wish: Wish, spot: Spot, grid: Grid, area: tuple[range, range], passed: float, limit: float
) -> bool:
    """Tell whether a place of the area, free or not, costs no less than ``limit``, ``passed`` added."""
    lefts, tops = area
    if math.isinf(limit) or not lefts or not tops:
        return False
    # The corners tell it nearly always.
    for some_lefts, some_tops in (((lefts[0], lefts[-1]), (tops[0], tops[-1])), area):
        for top in some_tops:
            dy = (top + wish.down / 2) * grid.cell_height - spot.at.y
            for left in some_lefts:
                dx = (left + wish.across / 2) * grid.cell_width - spot.at.x
                if _cost(dx, dy, spot.outward) + passed >= limit:
                    return True
    return False


def _candidates(
    wish: Wish,
    spot: Spot,
    grid: Grid,
    taken: Taken,
    area: tuple[range, range],
    band: tuple[float, float],
) -> list[tuple[float, int, int]]:
    """Return (cost, top, left) of the free places whose cost lies in the band, the cheapest first."""
    nearest, furthest = band
    width, half = grid.cell_width, wish.across / 2
    found = []
    lefts, tops = area
    for top in tops:
        dy = (top + wish.down / 2) * grid.cell_height - spot.at.y
        if not math.isinf(furthest):
            low, high = _stretch(dy, spot.outward, furthest)
            if low > high:
                continue
            lefts = range(
                max(area[0].start, math.floor((spot.at.x + low) / width - half)),
                min(area[0].stop, math.ceil((spot.at.x + high) / width - half) + 1),
            )
        if not lefts:
            continue
        free = taken.free(top, wish.down, lefts, wish.across)
        while free:
            last = free.bit_length() - 1
            free ^= 1 << last
            left = lefts.start + last
            cost = _cost((left + half) * width - spot.at.x, dy, spot.outward)
            if nearest <= cost < furthest:
                found.append((cost, top, left))
    return sorted(found)


def _cost(dx: float, dy: float, outward: Point) -> float:
    if outward.x == 0 == outward.y:
        return math.hypot(dx, dy)
    along = dx * outward.x + dy * outward.y
    aside = abs(dx * outward.y - dy * outward.x)
    return _ASIDE * aside + (along if along >= 0 else _BEHIND - 2 * along)


def _stretch(dy: float, outward: Point, most: float) -> tuple[float, float]:
    """Return the least and the greatest dx in a row where a place may cost so much: no less, perhaps more."""
    if abs(dy) > most:
        return 0.0, -1.0
    low, high = -most, most
    if abs(outward.y) > _LEVEL:
        straight, aside = dy * outward.x / outward.y, most / _ASIDE / abs(outward.y)
        low, high = max(low, straight - aside), min(high, straight + aside)
    if abs(outward.x) > _LEVEL:
        behind = max(0.0, most - _BEHIND) / 2
        ends = (-behind - dy * outward.y) / outward.x, (most - dy * outward.y) / outward.x
        low, high = max(low, min(ends)), min(high, max(ends))
    return low - _HAIR, high + _HAIR
