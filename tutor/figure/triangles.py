"""Triangles from their sides, their angles, or their base and height."""

import math
from collections.abc import Iterator, Mapping, Sequence

from tutor.figure.parts import (
    DOWN,
    LEFT,
    MIDST,
    RIGHT,
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
from tutor.figure.scene import Pen, Point, Scene, Segment, Shape, Spot, middle, polar

_ANGLES = ("left angle", "right angle", "top angle")
_SIDES = ("right side", "left side", "base")  # each opposite the angle in its place

# Any place above the base will do for an apex; one off the middle claims no equal sides.
_OFF_THE_MIDDLE = 0.36


def triangle(asked: Asked) -> Drawn:
    """Draw a triangle, its base lying, from three parts that settle it or from its base and height."""
    corners, why = triangle_corners(asked.sizes)
    if corners is None:
        return None, why
    left, right, apex = corners
    base, foot = right.x, Point(apex.x, 0)
    shapes: list[Shape] = [*outline(corners, ("base", "right side", "left side"))]
    inner = Point((right.x + apex.x) / 3, apex.y / 3)
    if asked.names("height"):
        shapes += _height(foot, apex, base)
        if 0 <= foot.x < base:  # it cuts the triangle in two: the area stands in the right part
            inner = Point((foot.x + right.x) / 2, apex.y / 5)
    places: list[Place] = [
        ("base", outside(left, right)),
        upright_places("height", foot, apex),
        ("right side", outside(right, apex)),
        ("left side", outside(apex, left)),
    ]
    bow = min(base, apex.y, math.hypot(apex.x, apex.y)) * 0.22
    for role, (vertex, begin, size) in zip(_ANGLES, corners_of(corners), strict=True):
        if asked.names(role) or alike(size, 90):
            shapes += angle_mark(vertex, begin, size, bow, role)
        places.append((role, *corner_spots(vertex, begin, size, bow)))
    places += [
        ("area", Spot(inner, MIDST), Spot(middle(left, right), DOWN)),
        ("perimeter", Spot(right, slanted(-30)), Spot(left, slanted(210))),
    ]
    return Scene("triangle", tuple(shapes), written(asked.labels, *places)), ""


def right_triangle(asked: Asked) -> Drawn:
    """Draw a triangle with a right angle at the left of its base, from two of its three sides."""
    sizes = dict(asked.sizes)
    for role, other in (("base", "height"), ("height", "base")):
        if role not in sizes and "long side" in sizes and other in sizes:
            if sizes["long side"] <= sizes[other]:
                return None, (
                    f"The long side lies opposite the right angle, so it must be longer than the {other}: "
                    f"{number(sizes['long side'])} is not more than {number(sizes[other])}."
                )
            sizes[role] = math.sqrt(sizes["long side"] ** 2 - sizes[other] ** 2)
    missing = tuple(role for role in ("base", "height") if role not in sizes)
    if missing:
        return None, lacking("right triangle", missing)
    slope = math.hypot(sizes["base"], sizes["height"])
    if not agree(sizes.get("long side", slope), slope):
        why = f"its square is that of {number(sizes['base'])} and that of {number(sizes['height'])} together"
        return None, differs("long side", sizes["long side"], slope, why)
    corner, right, top = Point(0, 0), Point(sizes["base"], 0), Point(0, sizes["height"])
    shapes: list[Shape] = [*outline((corner, right, top), ("base", "long side", "height"))]
    shapes += square_mark(corner, Point(1, 0), Point(0, 1), min(right.x, top.y) / 8)
    bow = min(right.x, top.y) * 0.3
    places: list[Place] = [
        ("base", outside(corner, right)),
        ("height", outside(top, corner)),
        ("long side", outside(right, top)),
        ("area", Spot(Point(right.x / 3, top.y / 3), MIDST), outside(corner, right)),
        ("perimeter", Spot(right, slanted(-30)), Spot(top, slanted(30))),
    ]
    steep = math.degrees(math.atan2(top.y, right.x))
    for role, vertex, begin, size in (
        ("right angle", right, 180 - steep, steep),
        ("top angle", top, 270.0, 90 - steep),
    ):
        if asked.names(role):
            if role in sizes and not math.isclose(sizes[role], size, abs_tol=1):
                why = f"a base of {number(right.x)} and a height of {number(top.y)} make it so"
                return None, differs(role, sizes[role], round(size, 1), why)
            shapes += angle_mark(vertex, begin, size, bow, role)
        places.append((role, *corner_spots(vertex, begin, size, bow)))
    return Scene("right triangle", tuple(shapes), written(asked.labels, *places)), ""


def three_angles(sizes: Mapping[str, float], roles: Sequence[str]) -> tuple[dict[str, float], str]:
    """Return all three angles of a triangle, of which at least two are known, or a sentence."""
    known = {role: sizes[role] for role in roles if role in sizes}
    if len(known) < 2:
        return {}, lacking("triangle", [role for role in roles if role not in known][:2])
    total = sum(known.values())
    added = f"{' + '.join(number(size) + '°' for size in known.values())} is {number(total)}°"
    if len(known) == 2:
        if total >= 180:
            return {}, f"The three angles of a triangle make 180°, but {added} for two of them alone."
        [role] = [role for role in roles if role not in known]
        known[role] = 180 - total
    elif not math.isclose(total, 180, abs_tol=0.5):
        return {}, f"The three angles of a triangle make 180°, but {added}."
    return known, ""


def corners_of(corners: Sequence[Point]) -> Iterator[tuple[Point, float, float]]:
    """Yield (vertex, where its angle begins, its size) for corners that go round anticlockwise."""
    for index, vertex in enumerate(corners):
        after, before = corners[(index + 1) % len(corners)], corners[index - 1]
        begin = math.degrees(math.atan2(after.y - vertex.y, after.x - vertex.x))
        end = math.degrees(math.atan2(before.y - vertex.y, before.x - vertex.x))
        yield vertex, begin, (end - begin) % 360


def corner_spots(vertex: Point, begin: float, size: float, bow: float) -> tuple[Spot, Spot]:
    """Return where the angle of a corner is named: inside, beyond its bow, or outside at the very corner."""
    turn = begin + size / 2
    return Spot(polar(vertex, bow, turn), slanted(turn)), Spot(vertex, slanted(turn + 180))


def triangle_corners(
    sizes: Mapping[str, float], top: float = _OFF_THE_MIDDLE
) -> tuple[tuple[Point, Point, Point] | None, str]:
    """Return the left and the right end of the base, and the apex; or None and a sentence.

    ``top``: over which part of the base the apex stands where only the base and height are known.
    """
    sides, why = _sides(sizes)
    if sides is None and not why and {"base", "height"} <= sizes.keys():
        base, apex = sizes["base"], _above(sizes, top)
        if apex is None:
            side, height = (
                min(sizes.get(role, math.inf) for role in ("left side", "right side")),
                sizes["height"],
            )
            return None, f"A side of {number(side)} is too short to reach a height of {number(height)}."
        sides = (base, math.hypot(apex.x - base, apex.y), math.hypot(apex.x, apex.y))
    if sides is None:
        return None, why or lacking("triangle", ("base and height or three of its sides and angles",))
    apex, why = _apex(*sides)
    corners = (Point(0, 0), Point(sides[0], 0), apex)
    why = why or _contradiction(sizes, corners)
    return (None, why) if why else (corners, "")


def _sides(sizes: Mapping[str, float]) -> tuple[tuple[float, float, float] | None, str]:
    """Return base, right side and left side, None where nothing settles them; and what is wrong, or ""."""
    if all(role in sizes for role in _SIDES):
        return (sizes["base"], sizes["right side"], sizes["left side"]), ""
    if sum(role in sizes for role in _ANGLES) >= 2:
        angles, why = three_angles(sizes, _ANGLES)
        if why:
            return None, why
        for role, opposite in zip(_SIDES, _ANGLES, strict=True):
            if role in sizes:
                unit = sizes[role] / math.sin(math.radians(angles[opposite]))
                right, left, base = (unit * math.sin(math.radians(angles[angle])) for angle in _ANGLES)
                return (base, right, left), ""
    for angle, opposite in zip(_ANGLES, _SIDES, strict=True):
        if angle in sizes and sizes[angle] >= 180:
            return None, f"The {angle} must be less than 180°, not {number(sizes[angle])}°."
        one, other = (side for side in _SIDES if side != opposite)
        if all(role in sizes for role in (angle, one, other)):
            turn = math.cos(math.radians(sizes[angle]))
            third = math.sqrt(sizes[one] ** 2 + sizes[other] ** 2 - 2 * sizes[one] * sizes[other] * turn)
            found = {one: sizes[one], other: sizes[other], opposite: third}
            return (found["base"], found["right side"], found["left side"]), ""
    return None, ""


def _above(sizes: Mapping[str, float], top: float) -> Point | None:
    """Return the apex over a base with a height, as one side or angle places it; None where none can."""
    base, height = sizes["base"], sizes["height"]
    for role, side in (("left side", 1), ("right side", -1)):
        if role in sizes:
            if sizes[role] < height and not agree(sizes[role], height):
                return None
            reach = math.sqrt(max(0.0, sizes[role] ** 2 - height**2))
            return Point(reach if side > 0 else base - reach, height)
    for role, side in (("left angle", 1), ("right angle", -1)):
        if role in sizes:
            reach = height / math.tan(math.radians(sizes[role]))
            return Point(reach if side > 0 else base - reach, height)
    return Point(base * top, height)


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


def _contradiction(sizes: Mapping[str, float], corners: tuple[Point, Point, Point]) -> str:
    """Return a sentence where a size is not what the corners make it, else ""."""
    _left, right, apex = corners
    made = {
        "base": right.x,
        "right side": math.dist((right.x, right.y), (apex.x, apex.y)),
        "left side": math.hypot(apex.x, apex.y),
        "height": apex.y,
    }
    for role, size in made.items():
        if role in sizes and not agree(sizes[role], size):
            return differs(role, sizes[role], size, "the other parts of the triangle make it so")
    for role, (_vertex, _begin, size) in zip(_ANGLES, corners_of(corners), strict=True):
        if role in sizes and not math.isclose(sizes[role], size, abs_tol=1):
            return differs(role, sizes[role], round(size, 1), "the other parts of the triangle make it so")
    return ""


def _height(foot: Point, apex: Point, base: float) -> list[Segment]:
    """Return the height with its right angle, and the base drawn on where the height stands outside."""
    mark = min(base, apex.y) / 12
    # On the side of the base, so that it stands inside wherever it can.
    lines = [Segment(foot, apex, "height", Pen.HIDDEN)]
    lines += square_mark(foot, LEFT if foot.x > 0 else RIGHT, Point(0, 1), mark)
    if not 0 <= foot.x <= base:
        lines.append(Segment(Point(0, 0) if foot.x < 0 else Point(base, 0), foot, pen=Pen.HIDDEN))
    return lines
