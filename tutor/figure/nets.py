"""Solids with their faces laid out flat: what paper must be cut for them."""

import math

from tutor.figure.parts import (
    DOWN,
    LEFT,
    MIDST,
    RIGHT,
    UP,
    Asked,
    Drawn,
    Place,
    needs,
    outline,
    outside,
    upright_places,
    written,
)
from tutor.figure.scene import Pen, Point, Scene, Segment, Shape, Spot
from tutor.figure.straight import upright
from tutor.figure.triangles import triangle_corners


@needs("box net", "length", "width", "height")
def box_net(asked: Asked) -> Drawn:
    """Draw the six faces of a box: front, right, back and left in a row, top and bottom at the front."""
    length, width, height = (asked.sizes[role] for role in ("length", "width", "height"))
    row = (
        ("left", 0.0, width),
        ("front", width, length),
        ("right", width + length, width),
        ("back", 2 * width + length, length),
    )
    shapes: list[Shape] = []
    for face, x, wide in row:
        along = "length" if face in {"front", "back"} else "width"
        shapes += upright(x, 0, x + wide, height, (along, "height"))
    for low, high in ((height, height + width), (-width, 0.0)):
        shapes += upright(width, low, width + length, high, ("length", "width"))
    places: list[Place] = [
        (
            "length",
            Spot(Point(width + length / 2, height + width), UP),
            Spot(Point(width + length / 2, -width), DOWN),
        ),
        ("width", Spot(Point(width, height + width / 2), LEFT), Spot(Point(width / 2, 0), DOWN)),
        ("height", Spot(Point(0, height / 2), LEFT), Spot(Point(2 * (width + length), height / 2), RIGHT)),
        *((face, Spot(Point(x + wide / 2, height / 2), MIDST)) for face, x, wide in row),
        ("top", Spot(Point(width + length / 2, height + width / 2), MIDST)),
        ("bottom", Spot(Point(width + length / 2, -width / 2), MIDST)),
        ("surface", Spot(Point(width + length, -width), RIGHT)),
    ]
    return Scene("box net", tuple(dict.fromkeys(shapes)), written(asked.labels, *places)), ""


@needs("prism net", "length")
def prism_net(asked: Asked) -> Drawn:
    """Draw the five faces of a triangular prism: three rectangles side by side, a triangle at both ends."""
    triangle, why = triangle_corners(asked.sizes, top=0.5)
    if triangle is None:
        return None, why
    length = asked.sizes["length"]
    first, second, apex = triangle
    base = second.x
    left, right = _distance(first, apex), _distance(second, apex)
    rows = (
        ("left face", -left, 0.0, "left side"),
        ("bottom", 0.0, base, "base"),
        ("right face", base, base + right, "right side"),
    )
    shapes: list[Shape] = []
    for _face, low, high, along in rows:
        shapes += upright(low, 0, high, length, (along, "length"))
    front = (Point(0, 0), Point(apex.x, -apex.y), Point(base, 0))
    back = (Point(0, length), Point(base, length), Point(apex.x, length + apex.y))
    shapes += outline(front, ("left side", "right side", "base"))
    shapes += outline(back, ("base", "right side", "left side"))
    tip = back[2]
    foot = Point(apex.x, length)
    if asked.names("height"):
        shapes.append(Segment(foot, tip, "height", Pen.HIDDEN))
    places: list[Place] = [
        ("length", Spot(Point(-left, length / 2), LEFT), Spot(Point(base + right, length / 2), RIGHT)),
        ("left side", Spot(Point(-left / 2, length), UP), outside(tip, back[0])),
        ("base", Spot(Point(base / 2, length), DOWN), Spot(Point(base / 2, 0), UP)),
        ("right side", Spot(Point(base + right / 2, length), UP), outside(back[1], tip)),
        upright_places("height", foot, tip),
        *((face, Spot(Point((low + high) / 2, length / 2), MIDST)) for face, low, high, _along in rows),
        ("front", Spot(Point((base + apex.x) / 3, -apex.y / 3), MIDST), Spot(front[1], DOWN)),
        ("back", Spot(Point((base + apex.x) / 3, length + apex.y / 3), MIDST), Spot(tip, UP)),
        ("surface", Spot(Point(base + right, 0), DOWN)),
    ]
    return Scene("prism net", tuple(dict.fromkeys(shapes)), written(asked.labels, *places)), ""


def _distance(start: Point, end: Point) -> float:
    return math.dist((start.x, start.y), (end.x, end.y))
