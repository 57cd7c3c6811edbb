"""Figures with bows in them: the circle, the track, the two angles side by side."""

import math
from collections.abc import Mapping

from tutor.figure.parts import DOWN, LEFT, MIDST, RIGHT, UP, Drawn, alike, lacking, number, slanted, written
from tutor.figure.scene import AngleArc, Arc, Dot, Pen, Point, Scene, Segment, Shape, Spot, polar

# An angle has no length: its arms are long enough to see, and 8 units of 1 cm fit on paper.
_ARM = 4.0

# Degrees: below this nothing can be written between the arms.
_NARROW = 15.0


def circle(sizes: Mapping[str, float], labels: Mapping[str, str]) -> Drawn:
    """Draw a circle from its radius, or from its diameter, circumference or area."""
    radius = _radius(sizes)
    if radius is None:
        return None, lacking("circle", ("radius",))
    if "diameter" in sizes and not alike(2 * radius, sizes["diameter"]):
        return None, (
            f"The diameter is twice the radius, but {number(sizes['diameter'])} is not "
            f"twice {number(radius)}."
        )
    centre = Point(0, 0)
    shapes: list[Shape] = [Arc(centre, radius, 0, 360, "circumference"), Dot(centre)]
    named = {*sizes, *labels}
    across = "diameter" in named
    alone = not across
    # The two lines would lie on each other: beside a diameter the radius stands steep.
    tilt = 0.0 if alone else 60.0
    if across:
        shapes.append(Segment(Point(-radius, 0), Point(radius, 0), "diameter", Pen.MEASURE))
    if alone or "radius" in named:
        shapes.append(Segment(centre, polar(centre, radius, tilt), "radius", Pen.MEASURE))
    half = polar(centre, radius / 2, tilt)
    below = Spot(Point(0, -radius / 2), MIDST)
    return Scene(
        "circle",
        tuple(shapes),
        written(
            labels,
            (
                "radius",
                Spot(half, UP if alone else slanted(150)),
                Spot(half, DOWN if alone else slanted(-30)),
            ),
            ("diameter", Spot(centre, DOWN)),
            ("area", below, Spot(Point(0, radius / 2), MIDST)),
            ("circumference", *(Spot(polar(centre, radius, a), slanted(a)) for a in (35.0, 0.0, -90.0))),
        ),
    ), ""


def _radius(sizes: Mapping[str, float]) -> float | None:
    if "radius" in sizes:
        return sizes["radius"]
    if "diameter" in sizes:
        return sizes["diameter"] / 2
    if "circumference" in sizes:
        return sizes["circumference"] / (2 * math.pi)
    return math.sqrt(sizes["area"] / math.pi) if "area" in sizes else None


def track(sizes: Mapping[str, float], labels: Mapping[str, str]) -> Drawn:
    """Draw a closed path of two straights and two half-circles; ``ends`` is their diameter."""
    missing = tuple(role for role in ("straight", "ends") if role not in sizes)
    if missing:
        return None, lacking("track", missing)
    half, radius = sizes["straight"] / 2, sizes["ends"] / 2
    right, left = Point(half, 0), Point(-half, 0)
    shapes = (
        Segment(Point(-half, radius), Point(half, radius), "straight"),
        Segment(Point(half, -radius), Point(-half, -radius), "straight"),
        Arc(right, radius, -90, 180, "path"),
        Arc(left, radius, 90, 180, "path"),
        Segment(Point(-half, -radius), Point(-half, radius), "ends", Pen.HIDDEN),
        Segment(Point(half, -radius), Point(half, radius), "ends", Pen.HIDDEN),
    )
    return Scene(
        "track",
        shapes,
        written(
            labels,
            ("straight", Spot(Point(0, radius), UP), Spot(Point(0, radius), DOWN)),
            ("ends", Spot(left, RIGHT), Spot(right, LEFT)),
            (
                "path",
                Spot(polar(right, radius, -45), slanted(-45)),
                Spot(polar(left, radius, -135), slanted(-135)),
            ),
        ),
    ), ""


def angles(sizes: Mapping[str, float], labels: Mapping[str, str]) -> Drawn:
    """Draw two angles side by side, left to right, on a straight line (180°) or in a right angle (90°)."""
    missing = tuple(role for role in ("first", "second") if role not in sizes)
    if missing:
        return None, lacking("pair of angles", missing)
    first, second = sizes["first"], sizes["second"]
    total = next((whole for whole in (180.0, 90.0) if alike(first + second, whole)), None)
    if total is None:
        return None, (
            f"Side by side, {number(first)}° and {number(second)}° make {number(first + second)}°. "
            "They must make 180° (on a straight line) or 90° (in a right angle)."
        )
    corner = Point(0, 0)
    shapes: list[Shape] = [
        Segment(corner, polar(corner, _ARM, 0)),
        Segment(corner, polar(corner, _ARM, total)),
        Segment(corner, polar(corner, _ARM, second)),
        # Bows of two sizes, so that nobody takes them for one.
        AngleArc(corner, _ARM * 0.3, second, first, "first"),
        AngleArc(corner, _ARM * 0.4, 0, second, "second"),
    ]
    if total == 90.0:
        side = _ARM * 0.14
        shapes += [
            Segment(Point(side, 0), Point(side, side), pen=Pen.MEASURE),
            Segment(Point(side, side), Point(0, side), pen=Pen.MEASURE),
        ]
    places = written(
        labels,
        ("first", _between(second, first, _ARM * 0.3)),
        ("second", _between(0, second, _ARM * 0.4)),
    )
    return Scene("angles", tuple(shapes), places), ""


def _between(begin: float, sweep: float, bow: float) -> Spot:
    """Return where an angle is named: outside its bow or, where it is narrow, at the ends of its arms."""
    turn = begin + sweep / 2
    return Spot(polar(Point(0, 0), _ARM * 0.97 if sweep < _NARROW else bow, turn), slanted(turn))
