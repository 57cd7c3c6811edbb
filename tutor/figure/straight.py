"""Figures of right angles alone: rectangle, square, frame, a rectangle with a hole."""

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
    differs,
    lacking,
    needs,
    number,
    outline,
    slanted,
    written,
)
from tutor.figure.scene import Arc, Dot, Pen, Point, Scene, Segment, Shape, Spot, polar


@needs("rectangle", "length", "width")
def rectangle(asked: Asked) -> Drawn:
    """Draw a rectangle, its length lying, its width standing."""
    length, width = asked.sizes["length"], asked.sizes["width"]
    shapes: list[Shape] = [*upright(0, 0, length, width, ("length", "width"))]
    if asked.names("diagonal"):
        shapes.append(Segment(Point(0, 0), Point(length, width), "diagonal", Pen.MEASURE))
    return Scene("rectangle", tuple(shapes), written(asked.labels, *_rectangle_places(length, width))), ""


@needs("square", "side")
def square(asked: Asked) -> Drawn:
    """Draw a square from its side."""
    side = asked.sizes["side"]
    shapes: list[Shape] = [*upright(0, 0, side, side, ("side", "side"))]
    if asked.names("diagonal"):
        shapes.append(Segment(Point(0, 0), Point(side, side), "diagonal", Pen.MEASURE))
    return Scene("square", tuple(shapes), written(asked.labels, *_rectangle_places(side, side, "side"))), ""


def _rectangle_places(length: float, width: float, lying: str = "length") -> list[Place]:
    centre = Point(length / 2, width / 2)
    return [
        (lying, Spot(Point(length / 2, 0), DOWN), Spot(Point(length / 2, width), UP)),
        ("width", Spot(Point(0, width / 2), LEFT), Spot(Point(length, width / 2), RIGHT)),
        ("diagonal", Spot(centre, slanted(math.degrees(math.atan2(length, -width))))),
        ("area", Spot(centre, MIDST)),
        ("perimeter", Spot(Point(length, width), slanted(45)), Spot(Point(length, 0), slanted(-45))),
    ]


def frame(asked: Asked) -> Drawn:
    """Draw a board with an even border around an inner rectangle; two of each three sizes are enough."""
    whole, problem = _frame_sizes(asked.sizes)
    if problem:
        return None, problem
    length, width = whole["outer length"], whole["outer width"]
    border, top, right = whole["border"], width - whole["border"], length - whole["border"]
    shapes = (
        *upright(0, 0, length, width, ("outer length", "outer width")),
        *upright(border, border, right, top, ("length", "width")),
        Segment(Point(length / 2, border), Point(length / 2, 0), "border", Pen.MEASURE),
    )
    places = written(
        asked.labels,
        ("outer length", Spot(Point(length / 2, width), UP)),
        ("outer width", Spot(Point(0, width / 2), LEFT)),
        ("border", Spot(Point(length / 2, 0), DOWN)),
        ("length", Spot(Point(length / 2, top), DOWN)),
        ("width", Spot(Point(border, width / 2), RIGHT)),
        ("area", Spot(Point(length / 2, width / 2), MIDST)),
    )
    return Scene("frame", shapes, places), ""


def _frame_sizes(sizes: Mapping[str, float]) -> tuple[dict[str, float], str]:
    """Return every size of a frame worked out from those that are known, or a sentence."""
    known = dict(sizes)
    for _round in range(2):  # the first finds the border, the second the sides that it gives
        for outer, inner in (("outer length", "length"), ("outer width", "width")):
            if outer in known and inner in known:
                known.setdefault("border", (known[outer] - known[inner]) / 2)
            elif "border" in known and outer in known:
                known[inner] = known[outer] - 2 * known["border"]
            elif "border" in known and inner in known:
                known[outer] = known[inner] + 2 * known["border"]
    missing = tuple(role for role in ("outer length", "outer width", "border") if role not in known)
    if missing:
        return {}, lacking("frame", missing)
    for outer, inner in (("outer length", "length"), ("outer width", "width")):
        if known["border"] <= 0:
            return {}, "The inside of a frame must be smaller than the whole board."
        if known[inner] <= 0:
            return {}, (
                f"A border of {number(known['border'])} on both sides takes {number(2 * known['border'])}, "
                f"but the {outer} is only {number(known[outer])}: nothing is left inside."
            )
        if not alike(known[outer], known[inner] + 2 * known["border"]):
            return {}, (
                f"The {outer} must be the {inner} and two borders, but {number(known[inner])} + "
                f"2 × {number(known['border'])} is not {number(known[outer])}."
            )
    return known, ""


def rectangle_with_hole(asked: Asked) -> Drawn:
    """Draw a rectangle with a hole in its middle: upright with four sides, or round."""
    return _with_hole("rectangle with hole", asked, ("length", "width"), ("hole length", "hole width"))


def square_with_hole(asked: Asked) -> Drawn:
    """Draw a square with a hole in its middle: a square or round."""
    return _with_hole("square with hole", asked, ("side", "side"), ("hole side", "hole side"))


def _with_hole(kind: str, asked: Asked, outer: tuple[str, str], inner: tuple[str, str]) -> Drawn:
    missing = asked.lacks(*dict.fromkeys(outer))
    if missing:
        return None, lacking(kind, missing)
    length, width = (asked.sizes[role] for role in outer)
    centre = Point(length / 2, width / 2)
    shapes: list[Shape] = [*upright(0, 0, length, width, outer)]
    places: list[Place] = []
    places += [
        (outer[0], Spot(Point(centre.x, 0), DOWN), Spot(Point(centre.x, width), UP)),
        (outer[1], Spot(Point(0, centre.y), LEFT), Spot(Point(length, centre.y), RIGHT)),
    ][: len(set(outer))]
    if _is_round(asked, inner):
        radius, why = _hole_radius(asked.sizes)
        across, up = (2 * radius, 2 * radius)
        if not why:
            shapes += [Arc(centre, radius, 0, 360, "hole"), *_hole_lines(asked, centre, radius)]
        places += [
            ("hole radius", Spot(Point(centre.x + radius / 2, centre.y), UP)),
            ("hole diameter", Spot(centre, DOWN)),
        ]
    else:
        lacks = asked.lacks(*dict.fromkeys(inner))
        if lacks:
            return None, lacking(kind, (*lacks, "or its hole radius"))
        across, up = (asked.sizes[role] for role in inner)
        left, bottom, why = centre.x - across / 2, centre.y - up / 2, ""
        shapes += upright(left, bottom, left + across, bottom + up, inner)
        places += [
            (inner[0], Spot(Point(centre.x, bottom + up), DOWN), Spot(Point(centre.x, bottom + up), UP)),
            (inner[1], Spot(Point(left, centre.y), RIGHT), Spot(Point(left, centre.y), LEFT)),
        ][: len(set(inner))]
    if why:
        return None, why
    for size, whole, role in ((across, length, outer[0]), (up, width, outer[1])):
        if size >= whole:
            return None, f"A hole of {number(size)} does not fit into a {role} of {number(whole)}."
    places += [
        ("hole area", Spot(centre, MIDST)),
        ("area", Spot(Point(centre.x, centre.y / 2 - up / 4), MIDST), Spot(Point(length, 0), slanted(-45))),
    ]
    return Scene(kind, tuple(shapes), written(asked.labels, *places)), ""


def _is_round(asked: Asked, sides: tuple[str, str]) -> bool:
    """Tell whether the hole is round: what is labelled decides, then what has a size."""
    for spoken in (asked.labels, asked.sizes):
        if not spoken.keys().isdisjoint({"hole radius", "hole diameter"}):
            return True
        if not spoken.keys().isdisjoint(sides):
            return False
    return False


def _hole_radius(sizes: Mapping[str, float]) -> tuple[float, str]:
    radius = sizes.get("hole radius", sizes.get("hole diameter", 0.0) / 2)
    if not radius:
        return 0.0, lacking("hole", ("radius",))
    across = sizes.get("hole diameter", 2 * radius)
    return radius, "" if agree(across, 2 * radius) else differs(
        "hole diameter", across, 2 * radius, "it is two radii"
    )


def _hole_lines(asked: Asked, centre: Point, radius: float) -> list[Shape]:
    lines: list[Shape] = [Dot(centre)]
    if asked.names("hole radius"):
        lines.append(Segment(centre, Point(centre.x + radius, centre.y), "hole radius", Pen.MEASURE))
    if asked.names("hole diameter"):
        ends = (polar(centre, radius, 180), polar(centre, radius, 0))
        lines.append(Segment(*ends, "hole diameter", Pen.MEASURE))
    return lines


def upright(
    left: float, bottom: float, right: float, top: float, roles: tuple[str, str]
) -> tuple[Segment, ...]:
    """Return the four sides anticlockwise; the roles are of the lying and of the standing ones."""
    corners = [Point(left, bottom), Point(right, bottom), Point(right, top), Point(left, top)]
    return outline(corners, (*roles, *roles))
