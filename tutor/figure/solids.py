"""Solids with flat faces, in cavalier projection, and the cuts through them.

Edges that go back slant up at 45° and keep their true length; in a pyramid and in a cube, half of it. What is
hidden follows from the faces: one that looks away from the reader is not seen, nor is an edge or the
rim of a cut between two such faces.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

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
    differs,
    lacking,
    needs,
    number,
    slanted,
    square_mark,
    upright_places,
    written,
)
from tutor.figure.scene import Dot, Pen, Point, Scene, Segment, Shade, Shape, Spot, middle
from tutor.figure.triangles import triangle_corners

Corner = tuple[float, float, float]  # to the right, to the back, up

CUTS = ("cut across", "cut upright", "cut slanted")
"""The words for a cut: level with the base, straight down on it, or neither."""

OFF_THE_TOP = "cut beside the top"
OFF_A_CORNER = "cut off a corner"

_BACK = math.sqrt(0.5)
_TO_READER = (_BACK, -1.0, _BACK)  # what lies on this way is seen at one point
_EVEN = 1e-9


@dataclass(frozen=True, slots=True)
class _Solid:
    """A body without dents: corners, faces as corners in turn, and (corner, corner, role) for each edge."""

    corners: tuple[Corner, ...]
    faces: tuple[tuple[int, ...], ...]
    edges: tuple[tuple[int, int, str], ...]


@dataclass(frozen=True, slots=True)
class _Plane:
    """The plane of a cut, through ``at`` and square to ``normal``."""

    at: Corner
    normal: Corner


@needs("box", "length", "width", "height")
def box(asked: Asked) -> Drawn:
    """Draw a box, its length to the right, its width to the back, and a cut through it."""
    length, width, height = (asked.sizes[role] for role in ("length", "width", "height"))
    return _box("box", asked, (length, width, height), ("length", "width", "height"))


@needs("cube", "edge")
def cube(asked: Asked) -> Drawn:
    """Draw a cube from its edge, and a cut through it."""
    edge = asked.sizes["edge"]
    # Drawn at their true length its edges to the back would seem longer than the others.
    return _box("cube", asked, (edge, edge / 2, edge), ("edge", "edge", "edge"))


def _box(kind: str, asked: Asked, size: Corner, roles: tuple[str, str, str]) -> Drawn:
    length, width, height = size
    base = ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))
    corners = tuple((x, y, z) for z in (0.0, height) for x, y in base)
    lying = ((0, 1, roles[0]), (1, 2, roles[1]), (2, 3, roles[0]), (3, 0, roles[1]))
    solid = _Solid(
        corners,
        ((0, 3, 2, 1), (4, 5, 6, 7), (0, 1, 5, 4), (1, 2, 6, 5), (2, 3, 7, 6), (3, 0, 4, 7)),
        (
            *lying,
            *((a + 4, b + 4, role) for a, b, role in lying),
            *((corner, corner + 4, roles[2]) for corner in range(4)),
        ),
    )
    cuts = {
        "cut across": _Plane((0, 0, height / 2), (0, 0, 1)),
        "cut upright": _Plane((length / 2, 0, 0), (1, 0, 0)),
        "cut slanted": _Plane((length / 2, 0, height / 2), (-height / 2, 0, length)),
        OFF_A_CORNER: _Plane((length, width * 0.4, height), (1 / length, -1 / width, 1 / height)),
    }
    shapes = _drawn(solid, asked, cuts)
    front = seen((length / 2, 0, height / 2))
    places: dict[str, Place] = {
        roles[0]: (roles[0], Spot(seen((length / 2, 0, 0)), DOWN)),
        roles[2]: (roles[2], Spot(seen((0, 0, height / 2)), LEFT)),
        roles[1]: (roles[1], Spot(seen((length, width / 2, 0)), slanted(-45))),
    }
    if kind == "cube":
        places = {
            "edge": ("edge", Spot(seen((length / 2, 0, 0)), DOWN), Spot(seen((0, 0, height / 2)), LEFT))
        }
    return _scene(kind, asked, shapes, [*places.values(), *_bulk(front, seen((length / 2, 0, 0)))])


def _bulk(inner: Point, below: Point) -> list[Place]:
    """Return the places of what is no single line: the volume on the front, the surface at the bottom."""
    return [
        ("volume", Spot(inner, MIDST), Spot(below, DOWN)),
        ("surface", Spot(below, DOWN), Spot(inner, MIDST)),
    ]


@needs("prism", "length")
def prism(asked: Asked) -> Drawn:
    """Draw a triangular prism that lies on a side: a triangle in front, its length to the back."""
    triangle, why = triangle_corners(asked.sizes, top=0.5)
    if triangle is None:
        return None, why
    length = asked.sizes["length"]
    front = tuple((corner.x, 0.0, corner.y) for corner in triangle)
    corners = (*front, *((x, length, z) for x, _y, z in front))
    sides = ((0, 1, "base"), (1, 2, "right side"), (2, 0, "left side"))
    solid = _Solid(
        corners,
        ((0, 1, 2), (5, 4, 3), (0, 3, 4, 1), (1, 4, 5, 2), (2, 5, 3, 0)),
        (
            *sides,
            *((a + 3, b + 3, role) for a, b, role in sides),
            *((corner, corner + 3, "length") for corner in range(3)),
        ),
    )
    top, base = triangle[2], triangle[1].x
    cuts = {
        "cut across": _Plane((0, length / 2, 0), (0, 1, 0)),
        "cut upright": _Plane((top.x, 0, 0), (1, 0, 0)),
        "cut slanted": _Plane((base / 2, length / 2, 0), (0, 1, -0.6 * length / top.y)),
    }
    shapes = _drawn(solid, asked, cuts)
    foot = Point(top.x, 0)
    if asked.names("height"):
        shapes.append(Segment(foot, top, "height", Pen.HIDDEN))
        shapes += square_mark(foot, RIGHT if top.x < base else LEFT, UP, min(base, top.y) / 12)
    inner = Point((triangle[1].x + top.x) / 3, top.y / 4)
    places: list[Place] = [
        ("base", Spot(Point(base / 2, 0), DOWN)),
        upright_places("height", foot, top),
        ("length", Spot(seen((base, length / 2, 0)), slanted(-45))),
        ("left side", Spot(middle(triangle[0], top), slanted(math.degrees(math.atan2(top.y, top.x)) + 90))),
        (
            "right side",
            Spot(middle(triangle[1], top), slanted(math.degrees(math.atan2(top.y, top.x - base)) + 90)),
            Spot(middle(triangle[1], top), slanted(math.degrees(math.atan2(top.y, top.x - base)) - 90)),
        ),
        ("area", Spot(inner, MIDST), Spot(Point(base / 2, 0), DOWN)),
        *_bulk(seen((base / 2, length, 0)), Point(base / 2, 0)),
    ]
    return _scene("prism", asked, shapes, places)


def pyramid(asked: Asked) -> Drawn:
    """Draw an upright pyramid on a square or on a rectangle, with its height, and a cut through it."""
    sizes = dict(asked.sizes)
    missing = tuple(role for role in ("base",) if role not in sizes)
    if missing:
        return None, lacking("pyramid", missing)
    base = sizes["base"]
    width = sizes.get("width", base)
    back = width / 2  # drawn at half its length: an upright pyramid would seem to lean
    if "height" not in sizes:
        if "slant" not in sizes:
            return None, lacking("pyramid", ("height",))
        if sizes["slant"] <= width / 2:
            return None, (
                f"A slant of {number(sizes['slant'])} does not rise over half a base of {number(width / 2)}."
            )
        sizes["height"] = math.sqrt(sizes["slant"] ** 2 - width**2 / 4)
    height = sizes["height"]
    slope = math.hypot(width / 2, height)
    if not agree(sizes.get("slant", slope), slope):
        why = f"a height of {number(height)} over half a base of {number(width / 2)} makes it so"
        return None, differs("slant", sizes["slant"], slope, why)
    centre = (base / 2, back / 2, 0.0)
    apex = (base / 2, back / 2, height)
    solid = _Solid(
        ((0, 0, 0), (base, 0, 0), (base, back, 0), (0, back, 0), apex),
        ((0, 3, 2, 1), (0, 1, 4), (1, 2, 4), (2, 3, 4), (3, 0, 4)),
        (
            (0, 1, "base"),
            (1, 2, "width"),
            (2, 3, "base"),
            (3, 0, "width"),
            *((corner, 4, "edge") for corner in range(4)),
        ),
    )
    cuts = {
        "cut across": _Plane((0, 0, height / 2), (0, 0, 1)),
        "cut upright": _Plane(centre, (1, 0, 0)),
        "cut slanted": _Plane((base / 2, 0, height * 0.4), (-height * 0.3, 0, base)),
        OFF_THE_TOP: _Plane((base * 0.72, 0, 0), (1, 0, 0)),
    }
    shapes = _drawn(solid, asked, cuts)
    if asked.names("height"):
        shapes += [Segment(seen(centre), seen(apex), "height", Pen.HIDDEN), Dot(seen(centre))]
    foot = (base / 2, 0.0, 0.0)
    if asked.names("slant"):
        shapes.append(Segment(seen(foot), seen(apex), "slant", Pen.MEASURE))
        mark = min(base, height) / 12
        shapes += square_mark(seen(foot), LEFT, _way(seen(foot), seen(apex)), mark)
    below = seen(foot)
    places: list[Place] = [
        ("base", Spot(below, DOWN)),
        ("width", Spot(seen((base, back / 2, 0)), slanted(-45))),
        upright_places("height", seen(centre), seen(apex)),
        ("slant", Spot(middle(below, seen(apex)), LEFT), Spot(middle(below, seen(apex)), RIGHT)),
        (
            "edge",
            Spot(middle(seen((base, back, 0)), seen(apex)), slanted(30)),
            Spot(middle(Point(0, 0), seen(apex)), LEFT),
        ),
        *_bulk(Point(base / 2, height / 4), below),
    ]
    return _scene("pyramid", asked, shapes, places)


def seen(corner: Corner) -> Point:
    """Return where a place in space is seen in the plane of the drawing."""
    x, y, z = corner
    return Point(x + y * _BACK, z + y * _BACK)


def _scene(kind: str, asked: Asked, shapes: Sequence[Shape], places: Sequence[Place]) -> Drawn:
    return Scene(kind, tuple(shapes), written(asked.labels, *places)), ""


def _drawn(solid: _Solid, asked: Asked, cuts: dict[str, _Plane]) -> list[Shape]:
    """Return the edges, dashed where they are hidden, and the cut with its face shaded."""
    looks = [_faces_reader([solid.corners[corner] for corner in face]) for face in solid.faces]
    shapes: list[Shape] = []
    for start, end, role in solid.edges:
        sees = any(look and {start, end} <= set(face) for look, face in zip(looks, solid.faces, strict=True))
        pen = Pen.EDGE if sees else Pen.HIDDEN
        shapes.append(Segment(seen(solid.corners[start]), seen(solid.corners[end]), role, pen))
    for word, plane in cuts.items():
        if word not in asked.words:
            continue
        rim = [
            (ends, look)
            for face, look in zip(solid.faces, looks, strict=True)
            if (ends := _crossed([solid.corners[corner] for corner in face], plane)) is not None
        ]
        shapes.append(Shade(_ring([ends for ends, _look in rim]), "cut"))
        shapes += [Segment(start, end, "cut", Pen.EDGE if look else Pen.HIDDEN) for (start, end), look in rim]
    return shapes


def _faces_reader(corners: Sequence[Corner]) -> bool:
    """Tell whether a face, its corners anticlockwise as seen from outside, looks at the reader."""
    (ax, ay, az), (bx, by, bz), (cx, cy, cz) = corners[:3]
    u, v = (bx - ax, by - ay, bz - az), (cx - bx, cy - by, cz - bz)
    normal = (u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0])
    length = math.hypot(*normal)
    return sum(n * t for n, t in zip(normal, _TO_READER, strict=True)) > _EVEN * length


def _crossed(corners: Sequence[Corner], plane: _Plane) -> tuple[Point, Point] | None:
    """Return the line in which the plane cuts a face, or None."""
    heights = [
        sum((c - a) * n for c, a, n in zip(corner, plane.at, plane.normal, strict=True)) for corner in corners
    ]
    largest = max(map(abs, heights))
    sides = [0 if abs(height) <= _EVEN * largest else height for height in heights]
    found: list[Point] = []
    for index, corner in enumerate(corners):
        after = (index + 1) % len(corners)
        here, there = sides[index], sides[after]
        if here == 0:
            found.append(seen(corner))
        elif here * there < 0:
            part = here / (here - there)
            x, y, z = (a + (b - a) * part for a, b in zip(corner, corners[after], strict=True))
            found.append(seen((x, y, z)))
    return (found[0], found[1]) if len(found) == 2 else None


def _ring(pieces: Sequence[tuple[Point, Point]]) -> tuple[Point, ...]:
    """Return the corners of the cut in turn, from its sides in any order."""
    centre = Point(
        sum(start.x + end.x for start, end in pieces) / (2 * len(pieces)),
        sum(start.y + end.y for start, end in pieces) / (2 * len(pieces)),
    )
    ends = [point for piece in pieces for point in piece]
    return tuple(sorted(ends, key=lambda point: math.atan2(point.y - centre.y, point.x - centre.x)))


def _way(start: Point, end: Point) -> Point:
    length = math.dist((start.x, start.y), (end.x, end.y))
    return Point((end.x - start.x) / length, (end.y - start.y) / length)
