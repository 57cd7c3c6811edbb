"""Parallelogram and trapezoid: two sides lie, two may slant."""

import math
from collections.abc import Mapping

from tutor.figure.parts import (
    LEFT,
    MIDST,
    RIGHT,
    UP,
    Asked,
    Drawn,
    Place,
    agree,
    alike,
    angle_mark,
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
from tutor.figure.scene import Pen, Point, Scene, Segment, Shape, Spot, polar
from tutor.figure.triangles import corner_spots, corners_of


@needs("parallelogram", "base")
def parallelogram(asked: Asked) -> Drawn:
    """Draw a parallelogram, its base lying, from its height or from the angle at its left."""
    sizes = asked.sizes
    base = sizes["base"]
    if "angle" in sizes and sizes["angle"] >= 180:
        return None, f"The angle must be less than 180°, not {number(sizes['angle'])}°."
    if "side" in sizes and "angle" in sizes:
        top = polar(Point(0, 0), sizes["side"], sizes["angle"])
    elif "height" not in sizes:
        return None, lacking("parallelogram", ("height",))
    elif "side" in sizes:
        if sizes["side"] < sizes["height"]:
            return None, (
                f"A side of {number(sizes['side'])} is too short to reach a height of "
                f"{number(sizes['height'])}."
            )
        top = Point(math.sqrt(sizes["side"] ** 2 - sizes["height"] ** 2), sizes["height"])
    elif "angle" in sizes:
        top = Point(sizes["height"] / math.tan(math.radians(sizes["angle"])), sizes["height"])
    else:
        top = Point(min(base, sizes["height"]) * 0.4, sizes["height"])
    if not agree(sizes.get("height", top.y), top.y):
        return None, differs("height", sizes["height"], top.y, "the side and the angle make it so")
    corners = (Point(0, 0), Point(base, 0), Point(base + top.x, top.y), top)
    shapes: list[Shape] = [*outline(corners, ("base", "side", "base", "side"))]
    foot = Point(top.x, 0)
    if asked.names("height"):
        shapes += _standing(foot, top, base)
    [(vertex, begin, size), *_others] = corners_of(corners)
    bow = min(base, top.y) * 0.25
    if asked.names("angle"):
        shapes += angle_mark(vertex, begin, size, bow, "angle")
    places: list[Place] = [
        ("base", outside(corners[0], corners[1])),
        ("side", outside(corners[1], corners[2]), outside(corners[3], corners[0])),
        upright_places("height", foot, top),
        ("angle", *corner_spots(vertex, begin, size, bow)),
        (
            "area",
            Spot(Point((base + top.x + max(foot.x, 0)) / 2, top.y * 0.75), MIDST),
            Spot(Point(base, 0), slanted(-45)),
        ),
        ("perimeter", Spot(corners[2], slanted(45)), Spot(corners[1], slanted(-45))),
    ]
    return Scene("parallelogram", tuple(shapes), written(asked.labels, *places)), ""


@needs("trapezoid", "bottom", "top")
def trapezoid(asked: Asked) -> Drawn:
    """Draw a trapezoid, its parallel sides lying, from these and its height or its two slanting sides."""
    bottom, top = asked.sizes["bottom"], asked.sizes["top"]
    corner, why = _upper_left(asked.sizes, bottom, top)
    if why:
        return None, why
    right = Point(corner.x + top, corner.y)
    corners = (Point(0, 0), Point(bottom, 0), right, corner)
    shapes: list[Shape] = [*outline(corners, ("bottom", "right side", "top", "left side"))]
    # The height stands where it is inside, best near the left.
    low, high = max(0.0, corner.x), min(bottom, right.x)
    x = (
        low + (high - low) * 0.25
        if alike(corner.x, 0)
        else corner.x
        if 0 <= corner.x < bottom
        else (low + high) / 2
    )
    upper, foot = Point(x, corner.y), Point(x, 0)
    if asked.names("height"):
        shapes += _standing(foot, upper, bottom)
    for vertex, begin, size in corners_of(corners):
        if alike(size, 90):
            shapes += angle_mark(vertex, begin, size, min(bottom, corner.y) * 0.15, "")
    places: list[Place] = [
        ("bottom", outside(corners[0], corners[1])),
        ("top", outside(corners[2], corners[3])),
        ("left side", outside(corners[3], corners[0])),
        ("right side", outside(corners[1], corners[2])),
        upright_places("height", foot, upper),
        (
            "area",
            Spot(Point((x + max(high, bottom * 0.9)) / 2, corner.y / 3), MIDST),
            Spot(Point(bottom, 0), slanted(-45)),
        ),
        ("perimeter", Spot(corners[2], slanted(45)), Spot(corners[1], slanted(-45))),
    ]
    return Scene("trapezoid", tuple(shapes), written(asked.labels, *places)), ""


def _upper_left(sizes: Mapping[str, float], bottom: float, top: float) -> tuple[Point, str]:
    """Return the upper left corner of a trapezoid, or a sentence."""
    over = bottom - top
    left, right = sizes.get("left side"), sizes.get("right side")
    if "height" in sizes:
        height = sizes["height"]
        for side, role in ((left, "left side"), (right, "right side")):
            if side is not None and side < height and not agree(side, height):
                return Point(
                    0, 0
                ), f"A {role} of {number(side)} is too short to reach a height of {number(height)}."
        # Inward where it can be; with both sides known one may lean outward.
        inward = 1 if over >= 0 else -1
        if left is not None:
            reach = math.sqrt(max(0.0, left**2 - height**2)) * inward
            fits = (x for x in (reach, -reach) if right is None or agree(right, math.hypot(over - x, height)))
            x = next(fits, reach)
        elif right is not None:
            x = over - math.sqrt(max(0.0, right**2 - height**2)) * inward
        else:
            x = over * 0.35 if over else min(bottom, height) * 0.3  # off the middle: it claims no equal sides
        made = math.hypot(over - x, height)
        if left is not None and right is not None and not agree(right, made):
            why = "the other sides and the height make it so"
            return Point(0, 0), differs("right side", right, made, why)
        return Point(x, height), ""
    if left is None or right is None:
        return Point(0, 0), lacking("trapezoid", ("height", "or its left side and right side"))
    if alike(over, 0):
        return Point(0, 0), lacking("trapezoid", ("height",))
    short, next_one, longest = sorted((abs(over), left, right))
    if short + next_one <= longest or alike(short + next_one, longest):
        return Point(0, 0), (
            f"Sides of {number(left)} and {number(right)} cannot close a trapezoid with a bottom of "
            f"{number(bottom)} and a top of {number(top)}."
        )
    x = (over**2 + left**2 - right**2) / (2 * over)
    return Point(x, math.sqrt(max(0.0, left**2 - x**2))), ""


def _standing(foot: Point, top: Point, base: float) -> list[Segment]:
    """Return a dashed height with its right angle, and the base drawn on where it stands outside."""
    mark = min(base, top.y) / 12
    lines = [Segment(foot, top, "height", Pen.HIDDEN)]
    lines += square_mark(foot, RIGHT if foot.x + mark < base else LEFT, UP, mark)
    if not 0 <= foot.x <= base:
        lines.append(Segment(Point(0 if foot.x < 0 else base, 0), foot, pen=Pen.HIDDEN))
    return lines
