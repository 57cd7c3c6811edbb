"""Figures with four corners: rectangle, square, frame, a rectangle with a hole, parallelogram, trapezoid."""

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
    angle_mark,
    differs,
    lacking,
    number,
    outline,
    outside,
    slanted,
    square_mark,
    upright_places,
    written,
)
from tutor.figure.scene import Arc, Dot, Pen, Point, Scene, Segment, Shape, Spot, polar
from tutor.figure.triangles import corner_spots, corners_of


def rectangle(asked: Asked) -> Drawn:
    """Draw a rectangle, its length lying, its width standing."""
    missing = asked.lacks("length", "width")
    if missing:
        return None, lacking("rectangle", missing)
    length, width = asked.sizes["length"], asked.sizes["width"]
    shapes: list[Shape] = [*upright(0, 0, length, width, ("length", "width"))]
    if asked.names("diagonal"):
        shapes.append(Segment(Point(0, 0), Point(length, width), "diagonal", Pen.MEASURE))
    return Scene("rectangle", tuple(shapes), written(asked.labels, *_rectangle_places(length, width))), ""


def square(asked: Asked) -> Drawn:
    """Draw a square from its side."""
    missing = asked.lacks("side")
    if missing:
        return None, lacking("square", missing)
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


def parallelogram(asked: Asked) -> Drawn:
    """Draw a parallelogram, its base lying, from its height or from the angle at its left."""
    sizes = asked.sizes
    missing = asked.lacks("base")
    if missing:
        return None, lacking("parallelogram", missing)
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


def trapezoid(asked: Asked) -> Drawn:
    """Draw a trapezoid, its parallel sides lying, from these and its height or its two slanting sides."""
    missing = asked.lacks("bottom", "top")
    if missing:
        return None, lacking("trapezoid", missing)
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
        if left is not None:
            x = math.sqrt(max(0.0, left**2 - height**2)) * (1 if over >= 0 else -1)
        elif right is not None:
            x = over - math.sqrt(max(0.0, right**2 - height**2)) * (1 if over >= 0 else -1)
        else:
            x = over * 0.35 if over else min(bottom, height) * 0.3  # off the middle: it claims no equal sides
        made = math.hypot(over - x, height)
        if left is not None and right is not None and not agree(right, made):
            return Point(0, 0), differs(
                "right side", right, made, "the other sides and the height make it so"
            )
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


def upright(
    left: float, bottom: float, right: float, top: float, roles: tuple[str, str]
) -> tuple[Segment, ...]:
    """Return the four sides anticlockwise; the roles are of the lying and of the standing ones."""
    corners = [Point(left, bottom), Point(right, bottom), Point(right, top), Point(left, top)]
    return outline(corners, (*roles, *roles))
