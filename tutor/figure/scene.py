"""A figure as shapes in the problem's own unit: what every renderer draws from.

Lengths are in the unit of the problem, angles in degrees, anticlockwise from the positive
x axis. x grows to the right and y grows upward. Nothing here knows of a screen or of paper.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum
from typing import assert_never


@dataclass(frozen=True, slots=True)
class Point:
    """A place, or a direction, in the plane of the figure."""

    x: float
    y: float


class Pen(Enum):
    """What a line stands for, which decides how it is drawn."""

    EDGE = "edge"  # an edge one can see
    HIDDEN = "hidden"  # an edge behind the body, or a line that is only thought of: dashed
    MEASURE = "measure"  # a line that is there to be measured, such as a radius


@dataclass(frozen=True, slots=True)
class Segment:
    """A straight line from ``start`` to ``end``."""

    start: Point
    end: Point
    role: str = ""
    pen: Pen = Pen.EDGE


@dataclass(frozen=True, slots=True)
class Arc:
    """A part of a circle, from the angle ``begin`` over ``sweep`` degrees; 360 is a circle."""

    centre: Point
    radius: float
    begin: float
    sweep: float
    role: str = ""
    pen: Pen = Pen.EDGE


@dataclass(frozen=True, slots=True)
class AngleArc:
    """The bow that marks an angle. ``begin`` and ``sweep`` are true, ``radius`` is for looks."""

    vertex: Point
    radius: float
    begin: float
    sweep: float
    role: str = ""


@dataclass(frozen=True, slots=True)
class Dot:
    """A marked point."""

    at: Point
    role: str = ""


@dataclass(frozen=True, slots=True)
class Curve:
    """A line through at least two points, close enough together to look smooth: a circle seen aslant."""

    points: tuple[Point, ...]
    role: str = ""
    pen: Pen = Pen.EDGE


@dataclass(frozen=True, slots=True)
class Shade:
    """A flat part that is shaded, such as the face of a cut: no line, so a label may stand on it."""

    points: tuple[Point, ...]
    role: str = ""


Shape = Segment | Arc | AngleArc | Dot | Curve | Shade


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a label belongs: beside ``at``, moved ``outward`` until it touches nothing.

    ``outward`` has length 1, or 0 for a label whose middle belongs on ``at`` itself.
    """

    at: Point
    outward: Point


@dataclass(frozen=True, slots=True)
class Label:
    """A text that names the shapes of the same role. The first spot is the best one."""

    role: str
    text: str
    spots: tuple[Spot, ...]


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle: the least that holds something."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """Return how far it reaches from left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Return how far it reaches from bottom to top."""
        return self.top - self.bottom


@dataclass(frozen=True, slots=True)
class Scene:
    """A figure drawn to scale. Shapes and labels belong together by their role."""

    kind: str
    shapes: tuple[Shape, ...]
    labels: tuple[Label, ...] = ()

    def bounds(self) -> Box:
        """Return the least box that holds every shape, labels left out."""
        points = [point for shape in self.shapes for point in _corners(shape)]
        xs, ys = [point.x for point in points], [point.y for point in points]
        return Box(min(xs), min(ys), max(xs), max(ys))


def polar(centre: Point, radius: float, degrees: float) -> Point:
    """Return the point ``radius`` away from ``centre`` at the angle ``degrees``."""
    turn = math.radians(degrees)
    return Point(centre.x + radius * math.cos(turn), centre.y + radius * math.sin(turn))


def middle(start: Point, end: Point) -> Point:
    """Return the point half way between two points."""
    return Point((start.x + end.x) / 2, (start.y + end.y) / 2)


def trace(shape: Shape, step: float) -> tuple[Point, ...]:
    """Return points along a shape, both ends included, no further apart than ``step`` units."""
    return tuple(Point(x, y) for x, y in coordinates(shape, step))


def coordinates(shape: Shape, step: float) -> list[tuple[float, float]]:
    """Return the same points as bare numbers (x, y): there can be thousands."""
    match shape:
        case Segment(start, end):
            return _along((start, end), step)
        case Arc(centre, radius, begin, sweep) | AngleArc(centre, radius, begin, sweep):
            # At least eight parts: a coarse step must not turn a bow into a chord.
            count = max(8, math.ceil(math.radians(abs(sweep)) * radius / step))
            turns = [math.radians(begin + sweep * i / count) for i in range(count + 1)]
            return [
                (centre.x + radius * math.cos(turn), centre.y + radius * math.sin(turn)) for turn in turns
            ]
        case Dot(at):
            return [(at.x, at.y)]
        case Curve(corners):
            return _along(corners, step)
        case Shade(corners):
            return _along((*corners, corners[0]), step)
        case _:
            assert_never(shape)


def _along(corners: tuple[Point, ...], step: float) -> list[tuple[float, float]]:
    x, y = corners[0].x, corners[0].y
    points = [(x, y)]
    for end in corners[1:]:
        across, up = end.x - x, end.y - y
        count = max(1, math.ceil(math.dist((x, y), (end.x, end.y)) / step))
        points += [(x + across * i / count, y + up * i / count) for i in range(1, count + 1)]
        x, y = end.x, end.y
    return points


def _corners(shape: Shape) -> Iterator[Point]:
    match shape:
        case Segment(start, end):
            yield from (start, end)
        case Arc(centre, radius, begin, sweep) | AngleArc(centre, radius, begin, sweep):
            yield polar(centre, radius, begin)
            yield polar(centre, radius, begin + sweep)
            low, high = min(begin, begin + sweep), max(begin, begin + sweep)
            for quarter in range(math.ceil(low / 90), math.floor(high / 90) + 1):
                yield polar(centre, radius, quarter * 90)
        case Dot(at):
            yield at
        case Curve(points) | Shade(points):
            yield from points
        case _:
            assert_never(shape)
