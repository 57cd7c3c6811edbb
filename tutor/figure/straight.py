"""Figures of straight lines: the rectangle, the frame, the box, the triangle."""

import math
from collections.abc import Mapping

from tutor.figure.parts import DOWN, LEFT, MIDST, RIGHT, UP, Drawn, alike, lacking, number, slanted, written
from tutor.figure.scene import Pen, Point, Scene, Segment, Shape, Spot, middle


def rectangle(sizes: Mapping[str, float], labels: Mapping[str, str]) -> Drawn:
    """Draw a rectangle, its length lying, its width standing."""
    missing = tuple(role for role in ("length", "width") if role not in sizes)
    if missing:
        return None, lacking("rectangle", missing)
    length, width = sizes["length"], sizes["width"]
    places = written(
        labels,
        ("length", Spot(Point(length / 2, 0), DOWN), Spot(Point(length / 2, width), UP)),
        ("width", Spot(Point(0, width / 2), LEFT), Spot(Point(length, width / 2), RIGHT)),
        ("area", Spot(Point(length / 2, width / 2), MIDST)),
        ("perimeter", Spot(Point(length, width), slanted(45)), Spot(Point(length, 0), slanted(-45))),
    )
    return Scene("rectangle", _rectangle(0, 0, length, width, ("length", "width")), places), ""


def frame(sizes: Mapping[str, float], labels: Mapping[str, str]) -> Drawn:
    """Draw a board with an even border around an inner rectangle; two of each three sizes are enough."""
    whole, problem = _frame_sizes(sizes)
    if problem:
        return None, problem
    length, width = whole["outer length"], whole["outer width"]
    border, top, right = whole["border"], width - whole["border"], length - whole["border"]
    shapes = (
        *_rectangle(0, 0, length, width, ("outer length", "outer width")),
        *_rectangle(border, border, right, top, ("length", "width")),
        Segment(Point(length / 2, border), Point(length / 2, 0), "border", Pen.MEASURE),
    )
    places = written(
        labels,
        ("outer length", Spot(Point(length / 2, width), UP)),
        ("outer width", Spot(Point(0, width / 2), LEFT)),
        ("border", Spot(Point(length / 2, 0), DOWN)),
        ("length", Spot(Point(length / 2, top), DOWN)),
        ("width", Spot(Point(border, width / 2), RIGHT)),
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


def box(sizes: Mapping[str, float], labels: Mapping[str, str]) -> Drawn:
    """Draw a box in cavalier projection: edges that go back slant up at 45° and keep their true length."""
    missing = tuple(role for role in ("length", "width", "height") if role not in sizes)
    if missing:
        return None, lacking("box", missing)
    length, height = sizes["length"], sizes["height"]
    back = sizes["width"] * math.sqrt(0.5)
    front = [Point(0, 0), Point(length, 0), Point(length, height), Point(0, height)]
    behind = [Point(corner.x + back, corner.y + back) for corner in front]
    shapes: list[Shape] = []
    for start, end, role in ((0, 1, "length"), (1, 2, "height"), (2, 3, "length"), (3, 0, "height")):
        shapes.append(Segment(front[start], front[end], role))
        shapes.append(
            Segment(behind[start], behind[end], role, Pen.HIDDEN if 0 in (start, end) else Pen.EDGE)
        )
    shapes += [
        Segment(corner, far, "width", Pen.EDGE if index else Pen.HIDDEN)
        for index, (corner, far) in enumerate(zip(front, behind, strict=True))
    ]
    places = written(
        labels,
        ("length", Spot(Point(length / 2, 0), DOWN)),
        ("height", Spot(Point(0, height / 2), LEFT)),
        ("width", Spot(middle(front[1], behind[1]), slanted(-45))),
        ("volume", Spot(Point(length / 2, height / 2), MIDST), Spot(Point(length / 2, 0), DOWN)),
    )
    return Scene("box", tuple(shapes), places), ""


def triangle(sizes: Mapping[str, float], labels: Mapping[str, str]) -> Drawn:
    """Draw a triangle from its three sides, the first one lying, or from its base and height."""
    if all(role in sizes for role in ("first", "second", "third")):
        apex, problem = _apex(sizes["first"], sizes["second"], sizes["third"])
        base = sizes["first"]
    elif all(role in sizes for role in ("base", "height")):
        # Any place above the base will do; one off the middle claims no equal sides.
        apex, problem, base = Point(sizes["base"] * 0.36, sizes["height"]), "", sizes["base"]
    else:
        return None, "To draw the triangle, its base and height or all its three sides must be known."
    if problem:
        return None, problem
    left, right, foot = Point(0, 0), Point(base, 0), Point(apex.x, 0)
    named = {*sizes, *labels}
    lying = "base" if "base" in named else "first"
    shapes = [Segment(left, right, lying), Segment(right, apex, "second"), Segment(apex, left, "third")]
    inside = Point((left.x + right.x + apex.x) / 3, apex.y / 3)
    if "height" in named:
        shapes += _height(foot, apex, base)
        if 0 <= foot.x < base:  # it cuts the triangle in two: the area stands in the right part
            inside = Point((foot.x + right.x) / 2, apex.y / 5)
    half = middle(foot, apex)
    beside = {
        role: Spot(middle(corner, apex), slanted(math.degrees(math.atan2(apex.y, apex.x - corner.x)) + turn))
        for role, corner, turn in (("second", right, -90), ("third", left, 90))
    }
    places = written(
        labels,
        ("base", Spot(middle(left, right), DOWN)),
        ("first", Spot(middle(left, right), DOWN)),
        ("height", Spot(half, RIGHT), Spot(half, LEFT)),
        *((role, spot) for role, spot in beside.items()),
        ("area", Spot(inside, MIDST), Spot(middle(left, right), DOWN)),
    )
    return Scene("triangle", tuple(shapes), places), ""


def _height(foot: Point, apex: Point, base: float) -> list[Segment]:
    """Return the height with its right angle, and the base drawn on where the height stands outside."""
    mark = min(base, apex.y) / 12
    corner = Point(foot.x - mark, mark)
    lines = [
        Segment(foot, apex, "height", Pen.HIDDEN),
        Segment(Point(corner.x, 0), corner, pen=Pen.MEASURE),
        Segment(corner, Point(foot.x, mark), pen=Pen.MEASURE),
    ]
    if not 0 <= foot.x <= base:
        lines.append(Segment(Point(0, 0) if foot.x < 0 else Point(base, 0), foot, pen=Pen.HIDDEN))
    return lines


def _apex(first: float, second: float, third: float) -> tuple[Point, str]:
    """Return where the two upper sides meet: ``third`` from the left end, ``second`` from the right one."""
    short, next_one, longest = sorted((first, second, third))
    if short + next_one <= longest or alike(short + next_one, longest):
        return Point(0, 0), (
            f"Sides of {number(short)} and {number(next_one)} cannot meet above a side of {number(longest)}: "
            "together they must be longer than it."
        )
    x = (first**2 + third**2 - second**2) / (2 * first)
    return Point(x, math.sqrt(max(0.0, third**2 - x**2))), ""


def _rectangle(
    left: float, bottom: float, right: float, top: float, roles: tuple[str, str]
) -> tuple[Segment, ...]:
    """Return the four sides anticlockwise; the roles are of the lying and of the standing ones."""
    corners = [Point(left, bottom), Point(right, bottom), Point(right, top), Point(left, top)]
    return tuple(Segment(corners[i], corners[(i + 1) % 4], roles[i % 2]) for i in range(4))
