"""What placing asks about a drawing, against the plain way to tell it: cell by cell, line by line."""

import math
from collections.abc import Sequence

import pytest
from figure_geometry import drawn
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString
from shapely.geometry import Point as Place

from tutor.figure.examples import EXAMPLES
from tutor.figure.ground import Cell, Extent, Grid, Ground, Wall
from tutor.figure.scene import Point
from tutor.figure.terminal import to_terminal

GRIDS = [Grid(2, 4, 1, 0), Grid(1, 1, 2, 1)]
CELLS = st.sets(st.tuples(st.integers(-5, 30), st.integers(-3, 12)), min_size=1, max_size=40)
BOXES = st.builds(
    lambda left, top, across, down: Extent(left, top, left + across, top + down),
    st.integers(-300, 300),
    st.integers(-20, 20),
    st.integers(1, 40),
    st.integers(1, 4),
)
POINTS = st.builds(Point, st.integers(0, 40), st.integers(0, 30))


def around(box: Extent, grid: Grid) -> set[Cell]:
    return {
        (column, row)
        for column in range(box.left - grid.gap_across, box.right + grid.gap_across)
        for row in range(box.top - grid.gap_down, box.bottom + grid.gap_down)
    }


@given(
    ink=CELLS,
    boxes=st.lists(BOXES, max_size=3),
    grid=st.sampled_from(GRIDS),
    tried=BOXES,
    count=st.integers(1, 70),
)
def test_a_place_is_free_where_no_cell_of_it_is_taken(
    ink: set[Cell], boxes: list[Extent], grid: Grid, tried: Extent, count: int
) -> None:
    ground = Ground(ink, [], grid)
    taken = ground.taken()
    cells = {near for x, y in ink for near in around(Extent(x, y, x + 1, y + 1), grid)}
    for box in boxes:
        taken.add(box, grid)
        cells |= around(box, grid)
    across, down = tried.right - tried.left, tried.bottom - tried.top
    free = taken.free(tried.top, down, range(tried.left, tried.left + count), across)
    expected = [
        cells.isdisjoint((x, y) for x in range(left, left + across) for y in range(tried.top, tried.bottom))
        for left in range(tried.left, tried.left + count)
    ]
    assert [bool(free >> index & 1) for index in range(count)] == expected
    assert free < 1 << count


def test_labels_leave_the_ground_as_it_was() -> None:
    ground = Ground({(0, 0)}, [], GRIDS[0])
    ground.taken().add(Extent(4, 0, 9, 1), GRIDS[0])
    assert ground.taken().free(0, 1, range(4, 5), 3) == 1


@given(
    walls=st.lists(st.tuples(POINTS, POINTS).filter(lambda wall: wall[0] != wall[1]), max_size=20),
    at=st.builds(Point, st.floats(0, 40), st.floats(0, 30)),
    way=st.tuples(st.floats(-50, 50), st.floats(-50, 50)).filter(lambda way: math.hypot(*way) > 1),
)
def test_the_lines_between_are_those_that_the_way_crosses(
    walls: Sequence[Wall], at: Point, way: tuple[float, float]
) -> None:
    line = LineString([(at.x, at.y), (at.x + way[0], at.y + way[1])])
    sides = [LineString([(start.x, start.y), (end.x, end.y)]) for start, end in walls]
    crossed = [side for side in sides if side.intersects(line)]
    # What only touches, or is met right at the spot, may count or not.
    unsure = [
        side
        for side in sides
        if side.distance(Place(at.x, at.y)) < 0.3
        or min(line.distance(Place(x, y)) for x, y in side.coords) < 1e-6
        or side.distance(Place(line.coords[-1])) < 1e-6
    ]
    count = Ground({(0, 0)}, walls, GRIDS[1]).sight(at).lines_between(*way, math.inf)
    sure = [side for side in crossed if side not in unsure]
    assert len(sure) <= count <= len(sure) + len(unsure)


def test_lines_are_counted_no_further_than_is_asked() -> None:
    walls = [(Point(x, -1), Point(x, 1)) for x in range(1, 21)]
    sight = Ground({(0, 0)}, walls, GRIDS[1]).sight(Point(0, 0))
    assert sight.lines_between(30, 0, math.inf) == 20
    assert sight.lines_between(30, 0, 2.5) == 3
    assert sight.lines_between(4.5, 0, math.inf) == 4
    assert sight.lines_between(-30, 0, math.inf) == 0


@pytest.mark.parametrize("plain", [False, True])
def test_a_label_that_is_typed_draws_no_line_anew(monkeypatch: pytest.MonkeyPatch, plain: bool) -> None:
    sizes = EXAMPLES["cone"].sizes
    names = drawn("cone", sizes, {"radius": "r", "height": "h"})
    to_terminal(names, 38, 14, plain=plain)
    sizes_drawn: list[object] = []

    def counted(ink: set[Cell], walls: Sequence[Wall], grid: Grid) -> Ground:
        sizes_drawn.append(ink)
        return Ground(ink, walls, grid)

    monkeypatch.setattr("tutor.figure.terminal.Ground", counted)
    to_terminal(names, 38, 14, plain=plain)
    assert sizes_drawn == []
    values = drawn("cone", sizes, {"radius": "r = 5 cm", "height": "h = 10 cm"})
    first = to_terminal(values, 38, 14, plain=plain)
    assert "r = 5 cm" in "\n".join(first)
    sizes_drawn.clear()
    assert to_terminal(values, 38, 14, plain=plain) == first
    assert sizes_drawn == []
