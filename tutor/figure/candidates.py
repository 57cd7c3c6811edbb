"""Shapes to choose among, drawn beside each other with the letters A, B, C … under them."""

import math
from collections.abc import Callable, Mapping, Sequence
from types import MappingProxyType

from tutor.figure.parts import DOWN, LEFT, UP, Drawn, outline, square_mark
from tutor.figure.scene import (
    AngleArc,
    Arc,
    Curve,
    Dot,
    Label,
    Point,
    Scene,
    Segment,
    Shade,
    Shape,
    Spot,
    polar,
)

MOST = 8
"""So many shapes can be drawn beside each other."""

_FOUR = 4  # in a row; more take two rows
_STEP = 1.45  # from one shape to the next: each fits into a square of side 1
_LETTERS = "ABCDEFGH"

_Shapes = tuple[Shape, ...]


def _corners(*corners: tuple[float, float]) -> Callable[[], _Shapes]:
    return lambda: outline([Point(x, y) for x, y in corners])


def _regular(count: int) -> Callable[[], _Shapes]:
    # One side lies at the bottom.
    begin = -90 - 180 / count
    return lambda: outline([polar(Point(0, 0), 0.52, begin + 360 / count * index) for index in range(count)])


def _right_triangle() -> _Shapes:
    corner = Point(-0.5, -0.4)
    return (
        *outline([corner, Point(0.5, -0.4), Point(-0.5, 0.4)]),
        *square_mark(corner, Point(1, 0), UP, 0.12),
    )


def _oval() -> _Shapes:
    turns = (math.radians(3 * index) for index in range(121))
    return (Curve(tuple(Point(0.5 * math.cos(turn), 0.3 * math.sin(turn)) for turn in turns)),)


def _round(begin: float, sweep: float, at: Point, radius: float) -> _Shapes:
    arc = Arc(at, radius, begin, sweep)
    if sweep == 360:
        return (arc,)
    ends = [polar(at, radius, turn) for turn in (begin, begin + sweep)]
    if sweep == 180:
        return arc, Segment(ends[0], ends[1])
    return arc, Segment(at, ends[0]), Segment(at, ends[1])


def _angle(degrees: float) -> Callable[[], _Shapes]:
    def shapes() -> _Shapes:
        corner = Point(-0.4 if degrees <= 90 else 0.0, -0.3)
        arms = (
            Segment(corner, polar(corner, 0.8 if degrees <= 90 else 0.5, 0)),
            Segment(corner, polar(corner, 0.7, degrees)),
        )
        if degrees == 90:
            return *arms, *square_mark(corner, Point(1, 0), UP, 0.14)
        return *arms, AngleArc(corner, 0.2, 0, degrees)

    return shapes


def _lines(*ends: tuple[float, float, float, float]) -> Callable[[], _Shapes]:
    return lambda: tuple(Segment(Point(a, b), Point(c, d)) for a, b, c, d in ends)


def _perpendicular() -> _Shapes:
    return (
        Segment(Point(-0.5, 0), Point(0.5, 0)),
        Segment(Point(0, -0.5), Point(0, 0.5)),
        *square_mark(Point(0, 0), LEFT, UP, 0.13),
    )


_EQUAL = math.sqrt(3) / 2
_SHAPES: dict[str, Callable[[], _Shapes]] = {
    "triangle": _corners((-0.5, -0.35), (0.5, -0.35), (-0.12, 0.38)),
    "equilateral triangle": _corners((-0.5, -_EQUAL / 2), (0.5, -_EQUAL / 2), (0, _EQUAL / 2)),
    "isosceles triangle": _corners((-0.32, -0.45), (0.32, -0.45), (0, 0.5)),
    "scalene triangle": _corners((-0.5, -0.35), (0.5, -0.35), (-0.25, 0.3)),
    "right triangle": _right_triangle,
    "acute triangle": _corners((-0.4, -0.42), (0.42, -0.42), (-0.05, 0.42)),
    "obtuse triangle": _corners((-0.5, -0.25), (0.2, -0.25), (0.5, 0.25)),
    "square": _corners((-0.4, -0.4), (0.4, -0.4), (0.4, 0.4), (-0.4, 0.4)),
    "rectangle": _corners((-0.5, -0.28), (0.5, -0.28), (0.5, 0.28), (-0.5, 0.28)),
    "trapezoid": _corners((-0.5, -0.3), (0.5, -0.3), (0.22, 0.3), (-0.28, 0.3)),
    "parallelogram": _corners((-0.5, -0.25), (0.26, -0.25), (0.5, 0.25), (-0.26, 0.25)),
    "rhombus": _corners((0, -0.5), (0.34, 0), (0, 0.5), (-0.34, 0)),
    "kite": _corners((0, -0.5), (0.28, 0.14), (0, 0.5), (-0.28, 0.14)),
    "pentagon": _regular(5),
    "hexagon": _regular(6),
    "octagon": _regular(8),
    "circle": lambda: _round(0, 360, Point(0, 0), 0.5),
    "half circle": lambda: _round(0, 180, Point(0, -0.25), 0.5),
    "quarter circle": lambda: _round(0, 90, Point(-0.4, -0.4), 0.8),
    "oval": _oval,
    "ellipse": _oval,
    "line": _lines((-0.5, -0.15, 0.5, 0.15)),
    "point": lambda: (Dot(Point(0, 0)),),
    "parallel lines": _lines((-0.5, -0.3, 0.5, 0.05), (-0.5, -0.05, 0.5, 0.3)),
    "crossing lines": _lines((-0.5, -0.3, 0.5, 0.3), (-0.5, 0.2, 0.5, -0.2)),
    "perpendicular lines": _perpendicular,
    "acute angle": _angle(45),
    "right angle": _angle(90),
    "obtuse angle": _angle(130),
}

# Other words for the same drawing.
_ALSO = {
    "equilateral": "equilateral triangle",
    "isosceles": "isosceles triangle",
    "scalene": "scalene triangle",
    "semicircle": "half circle",
    "semi-circle": "half circle",
    "trapezium": "trapezoid",
    "diamond": "rhombus",
    "straight line": "line",
    "intersecting lines": "crossing lines",
    "regular pentagon": "pentagon",
    "regular hexagon": "hexagon",
    "right-angled triangle": "right triangle",
}

DRAWABLE: frozenset[str] = frozenset((*_SHAPES, *_ALSO))
"""The words for which a shape can be drawn to choose it."""

_BY_WORD: Mapping[str, Callable[[], _Shapes]] = MappingProxyType(
    {**_SHAPES, **{word: _SHAPES[same] for word, same in _ALSO.items()}}
)


def is_drawable(words: Sequence[str]) -> bool:
    """Tell whether all of the words can be drawn beside each other."""
    return 1 < len(words) <= MOST and all(_plain(word) in DRAWABLE for word in words)


def draw_candidates(words: Sequence[str]) -> Drawn:
    """Draw the shapes that the words name in the order given, with A, B, C … under them.

    Returns the scene and "", or None and a sentence. Four at most stand in a row.
    """
    if not words or len(words) > MOST:
        return None, f"From 1 to {MOST} shapes can be drawn beside each other, not {len(words)}."
    for word in words:
        if _plain(word) not in DRAWABLE:
            return None, f"There is no drawing for {word[:40]}. There are: {', '.join(sorted(DRAWABLE))}."
    rows = math.ceil(len(words) / _FOUR)
    in_a_row = math.ceil(len(words) / rows)
    shapes: list[Shape] = []
    labels = []
    for index, word in enumerate(words):
        row, column = divmod(index, in_a_row)
        letter, at = _LETTERS[index], Point(column * _STEP, -row * _STEP * 1.1)
        drawn = Scene(letter, _BY_WORD[_plain(word)]())
        bounds = drawn.bounds()
        # All stand on one line, so that their letters do too.
        across = at.x - (bounds.left + bounds.right) / 2
        up = at.y - 0.5 - bounds.bottom
        shapes += (_moved(shape, across, up, letter) for shape in drawn.shapes)
        labels.append(Label(letter, letter, (Spot(Point(at.x, at.y - 0.65), DOWN),)))
    return Scene("shapes to choose from", tuple(shapes), tuple(labels)), ""


def _plain(word: str) -> str:
    return " ".join(word.casefold().split())


def _moved(shape: Shape, across: float, up: float, role: str) -> Shape:
    """Return the same shape elsewhere, under a role."""

    def at(point: Point) -> Point:
        return Point(point.x + across, point.y + up)

    match shape:
        case Segment(start, end, _role, pen):
            return Segment(at(start), at(end), role, pen)
        case Arc(centre, radius, begin, sweep, _role, pen):
            return Arc(at(centre), radius, begin, sweep, role, pen)
        case AngleArc(vertex, radius, begin, sweep):
            return AngleArc(at(vertex), radius, begin, sweep, role)
        case Dot(point):
            return Dot(at(point), role)
        case Curve(points, _role, pen):
            return Curve(tuple(map(at, points)), role, pen)
        case Shade(points):
            return Shade(tuple(map(at, points)), role)
