"""Cylinder, cone and sphere, seen from a little above, and the cuts through them."""

import math
from collections.abc import Callable

from tutor.figure.curved import radius_of
from tutor.figure.parts import (
    DOWN,
    LEFT,
    MIDST,
    RIGHT,
    UP,
    Asked,
    Drawn,
    Place,
    agree,
    differs,
    lacking,
    number,
    slanted,
    square_mark,
    upright_places,
    written,
)
from tutor.figure.scene import Arc, Curve, Dot, Pen, Point, Scene, Segment, Shade, Shape, Spot, middle, polar

# How high a level circle looks, as a part of how wide it is.
_FLAT = 0.3

# An upright cut goes through these two ends of the base: aslant, so that its face is seen.
_FRONT, _FAR = -55.0, 125.0

_FINE = 3  # degrees from point to point of a circle seen aslant

_Way = Callable[[float], Point]  # degrees round a rim -> the place seen there


def cylinder(asked: Asked) -> Drawn:
    """Draw an upright cylinder, and a cut through it."""
    radius, why = radius_of("cylinder", asked.sizes)
    if why or "height" not in asked.sizes:
        return None, why or lacking("cylinder", ("height",))
    height = asked.sizes["height"]
    flat = min(_FLAT * radius, height)

    def at(turn: float, up: float) -> Point:
        return Point(radius * _cos(turn), up + flat * _sin(turn))

    shapes: list[Shape] = [
        *_rim(lambda turn: at(turn, 0), "circumference"),
        Curve(_bow(lambda turn: at(turn, height), 0, 360), "circumference"),
        Segment(at(180, 0), at(180, height), "height"),
        Segment(at(0, 0), at(0, height), "height"),
        *_across(asked, Point(0, height), radius, flat),
    ]
    if "cut across" in asked.words:
        shapes += _cut(lambda turn: at(turn, height / 2))
    if "cut slanted" in asked.words:
        rise = min(height * 0.3, radius * 0.7)
        shapes += _cut(lambda turn: at(turn, height / 2 + rise * _cos(turn)))
    if "cut upright" in asked.words:
        shapes += _flat_cut((at(_FRONT, 0), at(_FRONT, height), at(_FAR, height), at(_FAR, 0)), (0, 1))
    places: list[Place] = [
        ("height", Spot(Point(-radius, height / 2), LEFT), Spot(Point(radius, height / 2), RIGHT)),
        ("radius", Spot(Point(radius / 2, height), UP), Spot(at(55, height), slanted(60))),
        ("diameter", Spot(Point(0, height), UP), Spot(Point(0, height + flat), UP)),
        ("circumference", Spot(at(-50, 0), slanted(-60)), Spot(at(-130, 0), slanted(-120))),
        ("base area", Spot(Point(0, 0), MIDST), Spot(at(-90, 0), DOWN)),
        *_bulk(Point(0, (height - flat) / 2), at(-90, 0)),
    ]
    return Scene("cylinder", tuple(shapes), written(asked.labels, *places)), ""


def cone(asked: Asked) -> Drawn:
    """Draw an upright cone with its height, and a cut through it."""
    radius, why = radius_of("cone", asked.sizes)
    if why:
        return None, why
    height, why = _cone_height(asked, radius)
    if why:
        return None, why
    flat = min(_FLAT * radius, 0.5 * height)
    apex = Point(0, height)

    def at(turn: float, up: float = 0.0) -> Point:
        part = 1 - up / height
        return Point(part * radius * _cos(turn), up + part * flat * _sin(turn))

    # From the apex the outline touches the base circle here; what lies behind is hidden.
    touch = math.degrees(math.asin(flat / height))
    shapes: list[Shape] = [
        Curve(_bow(at, 180 - touch, 180 + 2 * touch), "circumference"),
        Curve(_bow(at, touch, 180 - 2 * touch), "circumference", Pen.HIDDEN),
        Segment(at(touch), apex, "slant"),
        Segment(at(180 - touch), apex, "slant"),
        *_across(asked, Point(0, 0), radius, flat),
    ]
    if asked.names("height"):
        shapes.append(Segment(Point(0, 0), apex, "height", Pen.HIDDEN))
        shapes += square_mark(Point(0, 0), LEFT, UP, min(radius, height) / 10)
    if "cut across" in asked.words:
        shapes += _cut(lambda turn: at(turn, height / 2))
    if "cut slanted" in asked.words:
        steep = 0.3 * height  # how far the cut rises over a radius
        middle_part = 1 - 0.4

        def level(turn: float) -> float:
            return height * (1 - middle_part / (1 + steep / height * _cos(turn)))

        shapes += _cut(lambda turn: at(turn, level(turn)))
    if "cut upright" in asked.words:
        shapes += _flat_cut((at(_FRONT), apex, at(_FAR)), (0,))
    places: list[Place] = [
        upright_places("height", Point(0, 0), apex),
        ("radius", Spot(Point(radius / 2, 0), DOWN), Spot(at(-45), slanted(-45))),
        ("diameter", Spot(Point(0, 0), DOWN), Spot(at(-90), DOWN)),
        (
            "slant",
            Spot(middle(at(touch), apex), slanted(30)),
            Spot(middle(at(180 - touch), apex), slanted(150)),
        ),
        ("circumference", Spot(at(-50), slanted(-60)), Spot(at(-130), slanted(-120))),
        ("base area", Spot(at(-90), DOWN)),
        *_bulk(Point(-radius / 4, height / 3), at(-90)),
    ]
    return Scene("cone", tuple(shapes), written(asked.labels, *places)), ""


def _cone_height(asked: Asked, radius: float) -> tuple[float, str]:
    sizes = asked.sizes
    if "height" not in sizes:
        if "slant" not in sizes:
            return 0.0, lacking("cone", ("height",))
        if sizes["slant"] <= radius:
            return (
                0.0,
                f"A slant of {number(sizes['slant'])} does not rise over a radius of {number(radius)}.",
            )
        return math.sqrt(sizes["slant"] ** 2 - radius**2), ""
    slope = math.hypot(radius, sizes["height"])
    if not agree(sizes.get("slant", slope), slope):
        why = f"a height of {number(sizes['height'])} over a radius of {number(radius)} makes it so"
        return 0.0, differs("slant", sizes["slant"], slope, why)
    return sizes["height"], ""


def sphere(asked: Asked) -> Drawn:
    """Draw a sphere with its level middle circle, or with a cut through it."""
    radius, why = radius_of("sphere", asked.sizes)
    if why:
        return None, why
    centre = Point(0, 0)
    lean = math.sqrt(1 - _FLAT**2)  # how much of a height is seen from a little above
    shapes: list[Shape] = [Arc(centre, radius, 0, 360, "outline")]
    if "cut across" in asked.words:
        up, part = 0.4 * radius * lean, radius * math.sqrt(1 - 0.4**2)
        shapes += _cut(lambda turn: Point(part * _cos(turn), up + part * _FLAT * _sin(turn)))
    elif "cut upright" in asked.words:
        shapes += _cut(lambda turn: Point(radius * _FLAT * _sin(turn), radius * _cos(turn)))
    elif "cut slanted" in asked.words:
        shapes += _cut(lambda turn: _turned(radius * _cos(turn), radius * _FLAT * _sin(turn), 40))
    else:
        shapes += _rim(lambda turn: Point(radius * _cos(turn), radius * _FLAT * _sin(turn)), "circumference")
    if asked.names("radius", "diameter"):
        shapes.append(Dot(centre))
        shapes += _across(asked, centre, radius, _FLAT * radius)
    half = Spot(Point(radius / 2, 0), UP)
    places: list[Place] = [
        ("radius", half, Spot(Point(radius / 2, 0), DOWN)),
        ("diameter", Spot(centre, UP), Spot(centre, DOWN)),
        ("circumference", *(Spot(polar(centre, radius, turn), slanted(turn)) for turn in (-15.0, 195.0))),
        *_bulk(Point(0, -radius * 0.65), Point(0, -radius)),
    ]
    return Scene("sphere", tuple(shapes), written(asked.labels, *places)), ""


def _across(asked: Asked, centre: Point, radius: float, flat: float) -> list[Shape]:
    """Return the radius and the diameter of a level circle, as far as they are spoken of."""
    right, left = Point(centre.x + radius, centre.y), Point(centre.x - radius, centre.y)
    lines: list[Shape] = []
    if asked.names("diameter"):
        lines.append(Segment(left, right, "diameter", Pen.MEASURE))
        # The two lines would lie on each other: beside a diameter the radius goes to the front.
        right = Point(centre.x + radius * _cos(_FRONT), centre.y + flat * _sin(_FRONT))
    if asked.names("radius"):
        lines += [Segment(centre, right, "radius", Pen.MEASURE), Dot(centre)]
    return lines


def _bulk(inner: Point, below: Point) -> list[Place]:
    return [
        ("volume", Spot(inner, MIDST), Spot(below, DOWN)),
        ("surface", Spot(below, DOWN), Spot(inner, MIDST)),
    ]


def _rim(way: _Way, role: str) -> list[Shape]:
    """Return a level circle whose far half is hidden."""
    return [Curve(_bow(way, 180, 180), role), Curve(_bow(way, 0, 180), role, Pen.HIDDEN)]


def _cut(way: _Way) -> list[Shape]:
    """Return the shaded face of a round cut and its rim."""
    return [Shade(_bow(way, 0, 360 - _FINE), "cut"), *_rim(way, "cut")]


def _flat_cut(corners: tuple[Point, ...], seen: tuple[int, ...]) -> list[Shape]:
    """Return the shaded face of an upright cut; ``seen``: the sides, by their first corner, not hidden."""
    ends = (*corners[1:], corners[0])
    return [
        Shade(corners, "cut"),
        *(
            Segment(start, end, "cut", Pen.EDGE if index in seen else Pen.HIDDEN)
            for index, (start, end) in enumerate(zip(corners, ends, strict=True))
        ),
    ]


def _bow(way: _Way, begin: float, sweep: float) -> tuple[Point, ...]:
    count = max(8, round(sweep / _FINE))
    return tuple(way(begin + sweep * index / count) for index in range(count + 1))


def _turned(x: float, y: float, degrees: float) -> Point:
    return Point(x * _cos(degrees) - y * _sin(degrees), x * _sin(degrees) + y * _cos(degrees))


def _cos(degrees: float) -> float:
    return math.cos(math.radians(degrees))


def _sin(degrees: float) -> float:
    return math.sin(math.radians(degrees))
