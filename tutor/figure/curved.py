"""Figures with bows in them: circle, half circle, ring, track, and a circle laid out as a strip."""

import math
from collections.abc import Mapping

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
    alike,
    at,
    differs,
    lacking,
    number,
    slanted,
    written,
)
from tutor.figure.scene import Arc, Dot, Pen, Point, Scene, Segment, Shade, Shape, Spot, polar

SECTORS = {"8 sectors": 8, "12 sectors": 12, "16 sectors": 16}
"""The words that tell into how many sectors a circle is cut for a strip."""


def circle(asked: Asked) -> Drawn:
    """Draw a circle from its radius, or from its diameter, circumference or area."""
    radius, why = radius_of("circle", asked.sizes)
    if why:
        return None, why
    centre = Point(0, 0)
    shapes: list[Shape] = [Arc(centre, radius, 0, 360, "circumference"), Dot(centre)]
    across = asked.names("diameter")
    alone = not across
    # The two lines would lie on each other: beside a diameter the radius stands steep.
    tilt = 0.0 if alone else 60.0
    if across:
        shapes.append(Segment(Point(-radius, 0), Point(radius, 0), "diameter", Pen.MEASURE))
    if alone or asked.names("radius"):
        shapes.append(Segment(centre, polar(centre, radius, tilt), "radius", Pen.MEASURE))
    half = polar(centre, radius / 2, tilt)
    below = Spot(Point(0, -radius / 2), MIDST)
    places = written(
        asked.labels,
        ("radius", Spot(half, UP if alone else slanted(150)), Spot(half, DOWN if alone else slanted(-30))),
        ("diameter", Spot(centre, DOWN)),
        ("area", below, Spot(Point(0, radius / 2), MIDST)),
        ("circumference", *_around(centre, radius, 35.0, 0.0, -90.0)),
    )
    return Scene("circle", tuple(shapes), places), ""


def _around(centre: Point, radius: float, *turns: float) -> tuple[Spot, ...]:
    return tuple(Spot(polar(centre, radius, turn), slanted(turn)) for turn in turns)


def radius_of(figure: str, sizes: Mapping[str, float]) -> tuple[float, str]:
    """Return the radius from the sizes that are known, or a sentence."""
    if "radius" in sizes:
        radius = sizes["radius"]
    elif "diameter" in sizes:
        radius = sizes["diameter"] / 2
    elif "circumference" in sizes:
        radius = sizes["circumference"] / (2 * math.pi)
    elif "area" in sizes and figure == "circle":
        radius = math.sqrt(sizes["area"] / math.pi)
    else:
        return 0.0, lacking(figure, ("radius",))
    if "diameter" in sizes and not alike(2 * radius, sizes["diameter"]):
        return 0.0, (
            f"The diameter is twice the radius, but {number(sizes['diameter'])} is not "
            f"twice {number(radius)}."
        )
    return radius, ""


def half_circle(asked: Asked) -> Drawn:
    """Draw a half circle on its diameter."""
    radius, why = radius_of("half circle", asked.sizes)
    if why:
        return None, why
    centre = Point(0, 0)
    shapes: list[Shape] = [
        Segment(Point(-radius, 0), Point(radius, 0), "diameter"),
        Arc(centre, radius, 0, 180, "bow"),
        Dot(centre),
    ]
    if asked.names("radius"):
        shapes.append(Segment(centre, polar(centre, radius, 60), "radius", Pen.MEASURE))
    half = polar(centre, radius / 2, 60)
    places = written(
        asked.labels,
        ("radius", Spot(half, slanted(-30)), Spot(half, slanted(150))),
        ("diameter", Spot(centre, DOWN)),
        ("bow", *_around(centre, radius, 35.0, 145.0, 90.0)),
        ("area", Spot(Point(-radius * 0.35, radius * 0.4), MIDST), Spot(Point(-radius, 0), slanted(210))),
        ("perimeter", Spot(Point(radius, 0), slanted(-30)), Spot(Point(-radius, 0), slanted(210))),
    )
    return Scene("half circle", tuple(shapes), places), ""


def ring(asked: Asked) -> Drawn:
    """Draw a ring between two circles round one middle; two of its radii and its border are enough."""
    known = dict(asked.sizes)
    for whole in ("outer", "inner"):
        if f"{whole} diameter" in known:
            known.setdefault(f"{whole} radius", known[f"{whole} diameter"] / 2)
    if {"outer radius", "border"} <= known.keys():
        known.setdefault("inner radius", known["outer radius"] - known["border"])
    if {"inner radius", "border"} <= known.keys():
        known.setdefault("outer radius", known["inner radius"] + known["border"])
    missing = tuple(role for role in ("outer radius", "inner radius") if role not in known)
    if missing:
        return None, lacking("ring", missing)
    outer, inner = known["outer radius"], known["inner radius"]
    if not 0 < inner < outer:
        return (
            None,
            (
                f"The hole of a ring must be smaller than the ring, "
                f"but {number(inner)} is not below {number(outer)}."
            ),
        )
    if not agree(known.get("border", outer - inner), outer - inner):
        why = f"{number(outer)} − {number(inner)} makes it so"
        return None, differs("border", known["border"], outer - inner, why)
    centre = Point(0, 0)
    lines = (
        ("outer radius", ("outer radius",), 60.0, 0.0, outer),
        ("inner radius", ("inner radius",), 180.0, 0.0, inner),
        ("border", ("border",), 0.0, inner, outer),
        ("outer diameter", ("outer diameter",), -90.0, -outer, outer),
        ("inner diameter", ("inner diameter",), -90.0, -inner, inner),
    )
    shapes: list[Shape] = [
        Arc(centre, outer, 0, 360, "outer circle"),
        Arc(centre, inner, 0, 360, "inner circle"),
        Dot(centre),
    ]
    shapes += [
        Segment(polar(centre, low, turn), polar(centre, high, turn), role, Pen.MEASURE)
        for role, spoken, turn, low, high in lines
        if asked.names(*spoken)
    ]
    places: list[Place] = [
        at("outer radius", Spot(polar(centre, inner / 2, 60), slanted(150)), *_around(centre, outer, 60.0)),
        ("inner radius", Spot(Point(-inner / 2, 0), DOWN), Spot(Point(-inner / 2, 0), UP)),
        ("border", *_around(centre, outer, 0.0)),
        ("outer diameter", *_around(centre, outer, -90.0, 90.0)),
        ("inner diameter", Spot(Point(0, -inner / 2), RIGHT), Spot(Point(0, -inner / 2), LEFT)),
        at("area", Spot(polar(centre, (inner + outer) / 2, 90), MIDST), *_around(centre, outer, 135.0)),
    ]
    return Scene("ring", tuple(shapes), written(asked.labels, *places)), ""


def track(asked: Asked) -> Drawn:
    """Draw a closed path of two straights and two half-circles; ``ends`` is their diameter."""
    known = dict(asked.sizes)
    if "radius" in known:
        known.setdefault("ends", 2 * known["radius"])
        if not agree(known["ends"], 2 * known["radius"]):
            return None, differs("ends", known["ends"], 2 * known["radius"], "they are two radii wide")
    missing = tuple(role for role in ("straight", "ends") if role not in known)
    if missing:
        return None, lacking("track", missing)
    half, radius = known["straight"] / 2, known["ends"] / 2
    right, left = Point(half, 0), Point(-half, 0)
    shapes: list[Shape] = [
        Segment(Point(-half, radius), Point(half, radius), "straight"),
        Segment(Point(half, -radius), Point(-half, -radius), "straight"),
        Arc(right, radius, -90, 180, "path"),
        Arc(left, radius, 90, 180, "path"),
        Segment(Point(-half, -radius), Point(-half, radius), "ends", Pen.HIDDEN),
        Segment(Point(half, -radius), Point(half, radius), "ends", Pen.HIDDEN),
    ]
    if asked.names("radius"):
        shapes += [Dot(right), Segment(right, Point(half + radius, 0), "radius", Pen.MEASURE)]
    places = written(
        asked.labels,
        ("straight", Spot(Point(0, radius), UP), Spot(Point(0, radius), DOWN)),
        ("ends", Spot(left, RIGHT), Spot(right, LEFT)),
        ("radius", Spot(Point(half + radius / 2, 0), UP), Spot(Point(half + radius / 2, 0), DOWN)),
        at("path", *_around(right, radius, -45.0), *_around(left, radius, -135.0)),
        ("area", Spot(Point(0, -radius / 2), MIDST), Spot(Point(0, -radius), DOWN)),
    )
    return Scene("track", tuple(shapes), places), ""


def strip(asked: Asked) -> Drawn:
    """Draw a circle cut into sectors and, below it, the same sectors in a row, every other one upside down.

    Along its lower edge the strip has half of the circumference, so its ``length`` is about π times the
    radius, the better the more sectors; its ``height`` is the radius.
    """
    radius, why = radius_of("strip", asked.sizes)
    if why:
        return None, why
    count = next((n for word, n in SECTORS.items() if word in asked.words), SECTORS["16 sectors"])
    turn = 360 / count
    # Two neighbours share a side; from one tip to the next but one it is the chord of a sector.
    chord, rise = 2 * radius * math.sin(math.radians(turn / 2)), radius * math.cos(math.radians(turn / 2))
    wide = chord * (count / 2 - 0.5) + chord
    centre = Point(wide / 2, 2.35 * radius)
    shapes: list[Shape] = [Arc(centre, radius, 0, 360, "circumference")]
    shapes += [
        Segment(centre, polar(centre, radius, index * turn), "" if index else "radius")
        for index in range(count)
    ]
    tips = [(chord / 2 * (index + 1), index % 2 == 0) for index in range(count)]
    for index in range(0, count, 2):  # the same ones are shaded in the circle and in the strip
        shapes.append(Shade(_slice(centre, radius, index * turn, turn), "circumference"))
    for x, stands in tips:  # one that stands has its tip up and its bow down
        if stands:
            shapes.append(Shade(_slice(Point(x, rise), radius, 270 - turn / 2, turn), "length"))
        tip, ends = Point(x, rise if stands else 0), (0 if stands else rise)
        shapes.append(Arc(tip, radius, (270 if stands else 90) - turn / 2, turn, "length" if stands else ""))
        shapes.append(Segment(Point(x - chord / 2, ends), tip))
    last, stands = tips[-1]
    tip, end = Point(last, rise if stands else 0), Point(last + chord / 2, 0 if stands else rise)
    shapes.append(Segment(tip, end, "height"))
    middle_of_last = Point(last + chord / 4, rise / 2)
    low, high = rise - radius, radius  # as far as the bows reach
    places: list[Place] = [
        ("radius", *_around(centre, radius, 0.0, 180.0)),
        ("circumference", *_around(centre, radius, 35.0, 145.0, 90.0)),
        ("length", Spot(Point(wide / 2, low), DOWN)),
        ("height", Spot(middle_of_last, RIGHT)),
        ("area", Spot(Point(wide / 2, high), UP), Spot(Point(0, high), slanted(150))),
    ]
    return Scene("strip", tuple(shapes), written(asked.labels, *places)), ""


def _slice(tip: Point, radius: float, begin: float, sweep: float) -> tuple[Point, ...]:
    """Return the corners of a sector, its bow in short pieces."""
    return (tip, *(polar(tip, radius, begin + sweep * part / 8) for part in range(9)))
