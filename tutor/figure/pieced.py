"""Areas put together from pieces: L-shape, T-shape, a rectangle under a triangle or a half circle."""

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
    outside,
    slanted,
    square_mark,
    upright_places,
    written,
)
from tutor.figure.scene import Arc, Dot, Pen, Point, Scene, Segment, Shape, Spot, middle, polar


def l_shape(asked: Asked) -> Drawn:
    """Draw a rectangle without its upper right corner: two rectangles, with a dashed line where they meet."""
    known, why = _with_sums(
        "L-shape", asked.sizes, (("length", "top", "notch length"), ("width", "right", "notch width"))
    )
    if why:
        return None, why
    length, width, top, right = (known[role] for role in ("length", "width", "top", "right"))
    corners = (
        Point(0, 0),
        Point(length, 0),
        Point(length, right),
        Point(top, right),
        Point(top, width),
        Point(0, width),
    )
    roles = ("length", "right", "notch length", "notch width", "top", "width")
    shapes = (*outline(corners, roles), *_seam(asked, Point(0, right), Point(top, right)))
    lower, upper = Point(length / 2, right / 2), Point(top / 2, (right + width) / 2)
    places: list[Place] = [
        *(
            (role, outside(a, b))
            for role, a, b in zip(roles, corners, (*corners[1:], corners[0]), strict=True)
        ),
        ("first area", Spot(lower, MIDST), Spot(corners[1], slanted(-45))),
        ("second area", Spot(upper, MIDST), Spot(corners[5], slanted(135))),
        ("area", Spot(Point(top / 2, right / 2), MIDST), Spot(corners[1], slanted(-45))),
        ("perimeter", Spot(Point(length, width), MIDST), Spot(corners[1], slanted(-45))),
    ]
    return Scene("L-shape", shapes, written(asked.labels, *places)), ""


def t_shape(asked: Asked) -> Drawn:
    """Draw a bar that lies on a stem, with a dashed line where they meet."""
    known, why = _with_sums("T-shape", asked.sizes, (("height", "bar width", "stem length"),))
    if why:
        return None, why
    missing = asked.lacks("bar length", "stem width")
    if missing:
        return None, lacking("T-shape", missing)
    bar, stem = known["bar length"], known["stem width"]
    if stem >= bar:
        return None, f"The stem must be narrower than the bar: {number(stem)} is not less than {number(bar)}."
    high, low = known["height"], known["stem length"]
    left, right = (bar - stem) / 2, (bar + stem) / 2
    corners = (
        Point(left, 0),
        Point(right, 0),
        Point(right, low),
        Point(bar, low),
        Point(bar, high),
        Point(0, high),
        Point(0, low),
        Point(left, low),
    )
    roles = ("stem width", "stem length", "", "bar width", "bar length", "bar width", "", "stem length")
    shapes: list[Shape] = [*outline(corners, roles), *_seam(asked, corners[2], corners[7])]
    if asked.names("height"):
        shapes += _beside(Point(bar * 1.12, 0), Point(bar * 1.12, high), "height", bar * 0.03)
    places: list[Place] = [
        ("bar length", outside(corners[4], corners[5])),
        ("bar width", outside(corners[5], corners[6])),
        ("stem width", outside(corners[0], corners[1])),
        ("stem length", outside(corners[7], corners[0]), outside(corners[1], corners[2])),
        ("height", Spot(Point(bar * 1.12, high / 2), RIGHT)),
        ("first area", Spot(Point(bar / 2, (low + high) / 2), MIDST)),
        ("second area", Spot(Point(bar / 2, low / 2), MIDST)),
        ("area", Spot(Point(bar / 2, (low + high) / 2), MIDST), Spot(corners[1], slanted(-45))),
        ("perimeter", Spot(corners[4], slanted(45)), Spot(corners[1], slanted(-45))),
    ]
    return Scene("T-shape", tuple(shapes), written(asked.labels, *places)), ""


@needs("rectangle with triangle", "length", "width")
def rectangle_with_triangle(asked: Asked) -> Drawn:
    """Draw a rectangle with a triangle as its roof, whose top is over the middle."""
    sizes, length, width = asked.sizes, asked.sizes["length"], asked.sizes["width"]
    if "height" in sizes:
        height = sizes["height"]
    elif "whole height" in sizes:
        height = sizes["whole height"] - width
        if height <= 0:
            return None, (
                f"The whole height of {number(sizes['whole height'])} must be more than the width of "
                f"{number(width)}."
            )
    elif "side" in sizes:
        if 2 * sizes["side"] <= length:
            return None, (
                f"Two sides of {number(sizes['side'])} cannot meet above a length of {number(length)}: "
                "together they must be longer than it."
            )
        height = math.sqrt(sizes["side"] ** 2 - length**2 / 4)
    else:
        return None, lacking("rectangle with triangle", ("height",))
    slope = math.hypot(length / 2, height)
    for role, made in (("side", slope), ("whole height", width + height)):
        if not agree(sizes.get(role, made), made):
            why = f"a triangle {number(length)} long and {number(height)} high makes it so"
            return None, differs(role, sizes[role], made, why)
    top = Point(length / 2, width + height)
    corners = (Point(0, 0), Point(length, 0), Point(length, width), top, Point(0, width))
    shapes: list[Shape] = [
        *outline(corners, ("length", "width", "side", "side", "width")),
        *_seam(asked, corners[2], corners[4], "height"),  # which stands on it
    ]
    foot = Point(length / 2, width)
    if asked.names("height"):
        shapes.append(Segment(foot, top, "height", Pen.HIDDEN))
        shapes += square_mark(foot, RIGHT, UP, min(length, height) / 12)
    if asked.names("whole height"):
        beside = length * 1.14
        shapes += _beside(Point(beside, 0), Point(beside, top.y), "whole height", length * 0.03)
    places: list[Place] = [
        ("length", outside(corners[0], corners[1])),
        ("width", outside(corners[4], corners[0]), outside(corners[1], corners[2])),
        ("side", outside(corners[2], top), outside(top, corners[4])),
        upright_places("height", foot, top),
        ("whole height", Spot(Point(length * 1.14, top.y / 2), RIGHT)),
        ("first area", Spot(Point(length / 2, width / 2), MIDST)),
        (
            "second area",
            Spot(Point(length / 2, width + height / 4), MIDST),
            Spot(middle(top, corners[4]), slanted(135)),
        ),
        ("area", Spot(Point(length / 2, width / 2), MIDST), Spot(corners[1], slanted(-45))),
        ("perimeter", Spot(corners[1], slanted(-45)), Spot(corners[0], slanted(225))),
    ]
    return Scene("rectangle with triangle", tuple(shapes), written(asked.labels, *places)), ""


def rectangle_with_half_circle(asked: Asked) -> Drawn:
    """Draw a rectangle with a half circle on top, as wide as the rectangle is long."""
    sizes = dict(asked.sizes)
    if "radius" in sizes:
        sizes.setdefault("length", 2 * sizes["radius"])
    missing = tuple(role for role in ("length", "width") if role not in sizes)
    if missing:
        return None, lacking("rectangle with half circle", missing)
    length, width = sizes["length"], sizes["width"]
    if not agree(sizes.get("radius", length / 2), length / 2):
        return None, differs(
            "radius", sizes["radius"], length / 2, f"it is half of the length of {number(length)}"
        )
    centre, radius = Point(length / 2, width), length / 2
    shapes: list[Shape] = [
        Segment(Point(0, width), Point(0, 0), "width"),
        Segment(Point(0, 0), Point(length, 0), "length"),
        Segment(Point(length, 0), Point(length, width), "width"),
        Arc(centre, radius, 0, 180, "bow"),
        *_seam(asked, Point(0, width), Point(length, width), "radius"),  # which begins on it
    ]
    if asked.names("radius"):
        shapes += [Dot(centre), Segment(centre, polar(centre, radius, 60), "radius", Pen.MEASURE)]
    half = polar(centre, radius / 2, 60)
    places: list[Place] = [
        ("length", Spot(Point(length / 2, 0), DOWN)),
        ("width", Spot(Point(0, width / 2), LEFT), Spot(Point(length, width / 2), RIGHT)),
        ("radius", Spot(half, slanted(-30)), Spot(half, slanted(150))),
        ("bow", Spot(polar(centre, radius, 35), slanted(35)), Spot(polar(centre, radius, 145), slanted(145))),
        ("first area", Spot(Point(length / 2, width / 2), MIDST)),
        ("second area", Spot(Point(length * 0.35, width + radius * 0.4), MIDST)),
        ("area", Spot(Point(length / 2, width / 2), MIDST), Spot(Point(length, 0), slanted(-45))),
        ("perimeter", Spot(Point(length, 0), slanted(-45)), Spot(Point(0, 0), slanted(225))),
    ]
    return Scene("rectangle with half circle", tuple(shapes), written(asked.labels, *places)), ""


def _seam(asked: Asked, start: Point, end: Point, *roles: str) -> tuple[Segment, ...]:
    """Return the dashed line where two pieces meet, none where only the way round is worked out.

    ``roles``: parts that cannot be shown without it.
    """
    shown = asked.in_pieces or asked.names("first area", "second area", "area", *roles)
    return (Segment(start, end, pen=Pen.HIDDEN),) if shown else ()


def _beside(low: Point, high: Point, role: str, tick: float) -> list[Segment]:
    """Return a measure that stands beside the figure, with a short stroke at both ends."""
    ends = [
        Segment(Point(end.x - tick, end.y), Point(end.x + tick, end.y), pen=Pen.MEASURE)
        for end in (low, high)
    ]
    return [Segment(low, high, role, Pen.MEASURE), *ends]


def _with_sums(
    figure: str, sizes: Mapping[str, float], sums: tuple[tuple[str, str, str], ...]
) -> tuple[dict[str, float], str]:
    """Return the sizes with those that follow because a whole is two parts; or a sentence."""
    known = dict(sizes)
    for whole, one, other in sums:
        for part, rest in ((one, other), (other, one)):
            if whole in known and part in known and rest not in known:
                known[rest] = known[whole] - known[part]
                if known[rest] <= 0:
                    return {}, (
                        f"The {whole} must be more than the {part}: {number(known[whole])} is not more than "
                        f"{number(known[part])}."
                    )
        if one in known and other in known:
            known.setdefault(whole, known[one] + known[other])
        missing = [role for role in (whole, one) if role not in known]
        if missing:
            return {}, lacking(figure, missing)
        if not alike(known[whole], known[one] + known[other]):
            return {}, (
                f"The {whole} must be the {one} and the {other} together, but {number(known[one])} + "
                f"{number(known[other])} is not {number(known[whole])}."
            )
    return known, ""
