"""Figures of angles alone: side by side, crossing lines, the corners of a triangle."""

import math

from tutor.figure.parts import (
    Asked,
    Drawn,
    Place,
    alike,
    angle_mark,
    between,
    lacking,
    needs,
    number,
    outline,
    square_mark,
    written,
)
from tutor.figure.scene import AngleArc, Pen, Point, Scene, Segment, Shape, polar
from tutor.figure.triangles import corner_spots, corners_of, three_angles

# An angle has no length: its arms are long enough to see, and 8 units of 1 cm fit on paper.
_ARM = 4.0

# From the middle between two parallel lines to each of them, along the line that cuts them.
_CUT = 0.6 * _ARM
_SAME_AS_TOP_RIGHT = ("top right", "bottom left")

_FAN = ("first", "second", "third")


@needs("angles", "first", "second")
def angles(asked: Asked) -> Drawn:
    """Draw two angles side by side, left to right, on a straight line (180°) or in a right angle (90°)."""
    total = asked.sizes["first"] + asked.sizes["second"]
    whole = next((size for size in (90.0, 180.0) if alike(total, size)), None)
    if whole is None:
        return None, (
            f"Side by side, {number(asked.sizes['first'])}° and {number(asked.sizes['second'])}° make "
            f"{number(total)}°. They must make 180° (on a straight line) or 90° (in a right angle)."
        )
    return _fan("angles", asked, whole)


def straight_angle(asked: Asked) -> Drawn:
    """Draw two or three angles side by side on a straight line, left to right."""
    return _fan("straight angle", asked, 180.0)


def right_angle(asked: Asked) -> Drawn:
    """Draw two or three angles that make up a right angle, left to right."""
    return _fan("right angle", asked, 90.0)


def _fan(kind: str, asked: Asked, whole: float) -> Drawn:
    """Draw angles side by side; one of them may be left for the others to settle."""
    roles = _FAN if asked.names("third") else _FAN[:2]
    missing = asked.lacks(*roles)
    if len(missing) > 1:
        return None, lacking(kind, missing)
    known = {role: asked.sizes[role] for role in roles if role not in missing}
    total = sum(known.values())
    if missing:
        if total >= whole:
            return None, f"{_sum(known)} leaves nothing of {number(whole)}° for the {missing[0]} angle."
        known[missing[0]] = whole - total
    elif not alike(total, whole):
        return None, f"The angles must make {number(whole)}°, but {_sum(known)}."
    return _drawn_fan(kind, asked, [(role, known[role]) for role in roles], whole)


def _sum(known: dict[str, float]) -> str:
    return f"{' + '.join(map(number, known.values()))} is {number(sum(known.values()))}"


def _drawn_fan(kind: str, asked: Asked, sizes: list[tuple[str, float]], whole: float) -> Drawn:
    corner = Point(0, 0)
    shapes: list[Shape] = [
        Segment(corner, polar(corner, _ARM, 0)),
        Segment(corner, polar(corner, _ARM, whole)),
    ]
    places = []
    begin = whole
    for index, (role, size) in enumerate(sizes):
        begin -= size
        # Bows of different sizes, so that nobody takes them for one.
        bow = _ARM * (0.3 + 0.1 * (index % 2))
        if index + 1 < len(sizes):
            shapes.append(Segment(corner, polar(corner, _ARM, begin)))
        shapes.append(AngleArc(corner, bow, begin, size, role))
        places.append((role, between(corner, begin, size, bow, _ARM)))
    if whole == 90.0:
        shapes += square_mark(corner, Point(1, 0), Point(0, 1), _ARM * 0.14)
    return Scene(kind, tuple(shapes), written(asked.labels, *places)), ""


def crossing(asked: Asked) -> Drawn:
    """Draw two lines that cross: the angles left and right are equal, so are those at the top and bottom."""
    flat, why = _flat_angle(asked)
    if why:
        return None, why
    corner = Point(0, 0)
    half = flat / 2
    shapes: list[Shape] = [
        Segment(polar(corner, _ARM, turn + 180), polar(corner, _ARM, turn)) for turn in (half, -half)
    ]
    places = []
    for role, begin, size in (
        ("right", -half, flat),
        ("top", half, 180 - flat),
        ("left", 180 - half, flat),
        ("bottom", 180 + half, 180 - flat),
    ):
        bow = _ARM * (0.24 if role in {"top", "bottom"} else 0.32)
        if asked.names(role):
            shapes += angle_mark(corner, begin, size, bow, role)
        places.append((role, between(corner, begin, size, bow, _ARM)))
    return Scene("crossing", tuple(shapes), written(asked.labels, *places)), ""


def _flat_angle(asked: Asked) -> tuple[float, str]:
    """Return the angle on the left and right, from any that is known, or a sentence."""
    found = [
        (role, size, size if role in {"left", "right"} else 180 - size) for role, size in asked.sizes.items()
    ]
    if not found:
        return 0, lacking("crossing", ("left, right, top or bottom",))
    role, size, flat = found[0]
    if size >= 180:
        return 0, f"The {role} angle of two crossing lines must be less than 180°, not {number(size)}°."
    for other, its_size, its_flat in found[1:]:
        if not alike(its_flat, flat):
            equal = (role in {"left", "right"}) == (other in {"left", "right"})
            rule = (
                f"are opposite, so both must be {number(size)}°"
                if equal
                else f"make a straight line, but {number(size)} + {number(its_size)} is not 180"
            )
            return (
                0,
                f"The {role} angle of {number(size)}° and the {other} angle of {number(its_size)}° {rule}.",
            )
    return flat, ""


def parallel_lines(asked: Asked) -> Drawn:
    """Draw two parallel lines and one that cuts both, with the eight angles that they make."""
    turn, why = _cut_angle(asked)
    if why:
        return None, why
    centre = Point(0, 0)
    crossings = {"upper": polar(centre, _CUT, turn), "lower": polar(centre, _CUT, turn + 180)}
    shapes: list[Shape] = [
        Segment(Point(-2 * _ARM, at.y), Point(2 * _ARM, at.y)) for at in crossings.values()
    ]
    shapes.append(Segment(polar(centre, 2 * _CUT, turn + 180), polar(centre, 2 * _CUT, turn)))
    for at in crossings.values():  # arrows mark what is parallel
        tip = Point(-1.5 * _ARM, at.y)
        shapes += [Segment(polar(tip, _ARM * 0.15, 180 + lean), tip, pen=Pen.MEASURE) for lean in (35, -35)]
    places = []
    for which, at in crossings.items():
        for corner, begin, size in (
            ("top right", 0.0, turn),
            ("top left", turn, 180 - turn),
            ("bottom left", 180.0, turn),
            ("bottom right", 180 + turn, 180 - turn),
        ):
            role = f"{which} {corner}"
            bow = _CUT * (0.24 if size > 90 else 0.32)
            if asked.names(role):
                shapes += angle_mark(at, begin, size, bow, role)
            places.append((role, between(at, begin, size, bow, _CUT * 0.8)))
    return Scene("parallel lines", tuple(shapes), written(asked.labels, *places)), ""


def _cut_angle(asked: Asked) -> tuple[float, str]:
    """Return the angle at the top right of both crossings, from any that is known, or a sentence."""
    found = [
        (role, size, size if role.endswith(_SAME_AS_TOP_RIGHT) else 180 - size)
        for role, size in asked.sizes.items()
    ]
    if not found:
        return 0, lacking("parallel lines", ("angle at one place",))
    role, size, turn = found[0]
    if size >= 180:
        return 0, f"The {role} angle must be less than 180°, not {number(size)}°."
    for other, its_size, its_turn in found[1:]:
        if not alike(its_turn, turn):
            return 0, (
                f"Where parallel lines are cut, two angles are equal or make 180° together, but "
                f"the {role} angle is {number(size)}° and the {other} angle {number(its_size)}°."
            )
    return turn, ""


def triangle_angles(asked: Asked) -> Drawn:
    """Draw a triangle from two of its angles, and the angle outside its right corner where it is named."""
    sizes = dict(asked.sizes)
    beside = sizes.pop("outside", None)
    if beside is not None:
        if beside >= 180:
            return None, f"The outside angle must be less than 180°, not {number(beside)}°."
        if not alike(sizes.setdefault("right", 180 - beside), 180 - beside):
            return None, (
                f"The outside angle and the right angle make a straight line, but {number(beside)} + "
                f"{number(sizes['right'])} is not 180."
            )
    found, why = three_angles(sizes, ("left", "right", "top"))
    if why:
        return None, why
    left, right, top = (found[role] for role in ("left", "right", "top"))
    # By the sine rule, the longest side as long as two arms.
    sines = [math.sin(math.radians(angle)) for angle in (top, left, right)]
    unit = 2 * _ARM / max(sines)
    base, apex = Point(unit * sines[0], 0), polar(Point(0, 0), unit * sines[2], left)
    corners = (Point(0, 0), base, apex)
    shapes: list[Shape] = [*outline(corners)]
    bow = _ARM * 0.3
    places: list[Place] = []
    for role, (vertex, begin, size) in zip(("left", "right", "top"), corners_of(corners), strict=True):
        if asked.names(role):
            shapes += angle_mark(vertex, begin, size, bow, role)
        places.append((role, *corner_spots(vertex, begin, size, bow)))
    if asked.names("outside"):
        shapes.append(Segment(base, Point(base.x + _ARM * 0.8, 0)))
        shapes += angle_mark(base, 0, 180 - right, bow * 0.8, "outside")
        places.append(("outside", between(base, 0, 180 - right, bow * 0.8, _ARM * 0.8)))
    return Scene("triangle angles", tuple(shapes), written(asked.labels, *places)), ""
