"""Figures measured by an outside geometry library: lengths and areas of what is drawn."""

import math
from collections.abc import Iterable, Mapping, Sequence

from shapely.geometry import LineString, Polygon
from shapely.ops import polygonize, unary_union

from tutor.figure.kinds import draw
from tutor.figure.scene import AngleArc, Arc, Dot, Pen, Scene, Segment, Shade, Shape, trace


def drawn(
    kind: str,
    sizes: Mapping[str, float],
    labels: Mapping[str, str] | None = None,
    words: Iterable[str] = (),
) -> Scene:
    """Return a figure that can be drawn."""
    scene, sentence = draw(kind, sizes, labels or {}, words)
    assert scene is not None, sentence
    assert sentence == ""
    return scene


def refused(kind: str, sizes: Mapping[str, float], labels: Mapping[str, str] | None = None) -> str:
    """Return the sentence for a figure that cannot be drawn."""
    scene, sentence = draw(kind, sizes, labels or {})
    assert scene is None
    assert sentence.endswith(".")
    return sentence


def line(shape: Shape) -> LineString:
    """Return a shape for shapely, bows in pieces so short that less than 1 in 100,000 is lost."""
    step = shape.radius / 300 if isinstance(shape, Arc | AngleArc) else math.inf
    # Ends that should meet are rounded to meet.
    return LineString([(round(point.x, 9), round(point.y, 9)) for point in trace(shape, step)])


def of_role(scene: Scene, role: str) -> list[Shape]:
    """Return the shapes of a role, what is shaded left out."""
    return [shape for shape in scene.shapes if shape.role == role and not isinstance(shape, Shade)]


def lengths(scene: Scene, role: str) -> list[float]:
    """Return how long each line of a role is."""
    return [line(shape).length for shape in of_role(scene, role)]


def edges(scene: Scene) -> list[Shape]:
    """Return the lines that bound something: no measures, no bows of angles, nothing thought of."""
    return [shape for shape in scene.shapes if isinstance(shape, Segment | Arc) and shape.pen is Pen.EDGE]


def enclosed(shapes: Sequence[Shape]) -> list[float]:
    """Return the areas inside the lines, holes filled, the smallest first."""
    lines = unary_union([line(shape) for shape in shapes if not isinstance(shape, Dot | Shade)])
    return sorted(Polygon(ring.exterior).area for ring in polygonize(lines))


def cells(shapes: Sequence[Shape]) -> list[float]:
    """Return the areas into which the lines cut the plane, holes left out, the smallest first."""
    lines = unary_union([line(shape) for shape in shapes if not isinstance(shape, Dot | Shade)])
    return sorted(ring.area for ring in polygonize(lines))


def around(scene: Scene) -> float:
    """Return the length of all edges together."""
    return math.fsum(line(shape).length for shape in edges(scene))
