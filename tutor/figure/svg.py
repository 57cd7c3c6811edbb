"""A scene as a drawing for paper: SVG at true size, black on white.

Width and height are given in millimetres and the view box counts millimetres, so a print at 100 %
measures what it should.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape
from typing import assert_never

from tutor.figure.ground import Cell, Grid, Ground
from tutor.figure.legend import in_rows, short_form, told
from tutor.figure.lettering import cell_width, clean, cut
from tutor.figure.placing import place
from tutor.figure.raster import on_paper, walls, wishes
from tutor.figure.scene import (
    AngleArc,
    Arc,
    Box,
    Curve,
    Dot,
    Pen,
    Point,
    Scene,
    Segment,
    Shade,
    Shape,
    coordinates,
    polar,
)

_LETTER = 4.0  # height of a letter's line, mm: about 11 point
_LONGEST = 48  # cells of a label: more is cut
_MARGIN = 2.0  # mm of white around everything
_LEAST_ROW = 60.0  # mm: a row below a smaller drawing may still be so wide
_DOT = 0.7  # radius of a marked point, mm
_FINEST = 1.0  # mm: the side of a cell in which labels are placed
_MOST_CELLS = 600  # along a side: a very large drawing takes larger cells

# Labels are placed on a grid of such cells, with white between them and anything else.
_GRID = Grid(cell_width=1, cell_height=1, gap_across=2, gap_down=1)

# Pen -> how its lines are drawn, widths in mm.
_PENS = {
    Pen.EDGE: 'stroke-width="0.5"',
    Pen.HIDDEN: 'stroke-width="0.3" stroke-dasharray="1.6 1.2"',
    Pen.MEASURE: 'stroke-width="0.3"',
}

_SHADE = "#ddd"

_GAP = "\N{NO-BREAK SPACE}" * 4  # between two entries of a row; other spaces run together

# Widths of letters in parts of their height, on the wide side of common sans-serif fonts.
_NARROW, _USUAL, _WIDE = 0.34, 0.62, 0.98
_NARROW_LETTERS, _WIDE_LETTERS = frozenset(" ijlt.,:;'|!()[]I"), frozenset("mwMW@%—…")


@dataclass(frozen=True, slots=True)
class _Area:
    """A rectangle on paper in mm from the upper left corner of the drawing, y downward."""

    left: float
    top: float
    right: float
    low: float


def to_svg(scene: Scene, *, millimetres_per_unit: float) -> str:
    """Return a whole SVG document; a length of 1 unit measures ``millimetres_per_unit`` on paper.

    Labels touch no line and no other label, as long as the reader's sans-serif font is no wider
    than usual ones. Raises ValueError where ``millimetres_per_unit`` is not a positive number.
    """
    if not (math.isfinite(millimetres_per_unit) and millimetres_per_unit > 0):
        raise ValueError("millimetres_per_unit must be a positive number")
    scale = millimetres_per_unit
    texts = tuple(cut(clean(label.text), _LONGEST) for label in scene.labels)
    written = _written(scene, texts, scale)
    paper = _paper(scene.bounds(), scale, [area for _text, area in written])
    wide, high = _mm(paper.right - paper.left), _mm(paper.low - paper.top)
    corner = f'x="{_mm(paper.left)}" y="{_mm(paper.top)}"'
    said = ": ".join(part for part in (scene.kind, ", ".join(texts)) if part)
    rows = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm" '
        f'viewBox="{_mm(paper.left)} {_mm(paper.top)} {wide} {high}" role="img">',
        f"<title>{escape(said)}</title>",
        f'<rect {corner} width="{wide}" height="{high}" fill="#fff"/>',
        '<g fill="none" stroke="#000" stroke-linecap="round" stroke-linejoin="round">',
        *(_element(shape, scene.bounds(), scale) for shape in _shaded_first(scene.shapes)),
        "</g>",
        f'<g fill="#000" font-family="sans-serif" font-size="{_mm(_LETTER)}" text-anchor="middle">',
        *(_text(text, area) for text, area in written),
        "</g>",
        "</svg>",
    )
    return "\n".join(rows) + "\n"


def _paper(bounds: Box, scale: float, areas: Sequence[_Area]) -> _Area:
    """Return the white paper that holds the drawing and its labels, with a margin all around."""
    drawn = _Area(0, 0, bounds.width * scale, bounds.height * scale)
    return _Area(
        min(area.left for area in (drawn, *areas)) - _MARGIN,
        min(area.top for area in (drawn, *areas)) - _MARGIN,
        max(area.right for area in (drawn, *areas)) + _MARGIN,
        max(area.low for area in (drawn, *areas)) + _MARGIN,
    )


def _written(scene: Scene, texts: tuple[str, ...], scale: float) -> list[tuple[str, _Area]]:
    """Return each text with its place: in the drawing or, where none is good there, in a row below it."""
    bounds = scene.bounds()
    side = max(_FINEST, max(bounds.width, bounds.height) * scale / _MOST_CELLS)
    cells = scale / side  # to a unit
    sizes = [
        (
            max(1, math.ceil(_width(text) / side)),
            math.ceil(_LETTER / side),
            math.ceil(_width(short_form(text)) / side),
        )
        for text in texts
    ]
    wanted = wishes(scene.labels, bounds, cells, sizes)
    placed = place(wanted, Ground(_ink(scene, cells), walls(scene.shapes, bounds, cells), _GRID), below=True)
    assert placed is not None, "paper has no end, so there is always room"
    found = told(scene.labels, texts, wanted, placed, lambda _text: True)
    written = [
        (text, _Area(box.left * side, box.top * side, box.right * side, box.bottom * side))
        for text, box in zip(found.places, placed.boxes, strict=True)
        if box is not None
    ]
    centre, low = bounds.width * scale / 2, placed.extent.bottom * side + _LETTER
    for row in in_rows(found.below, _GAP, _width, max(_LEAST_ROW, bounds.width * scale)):
        half = _width(row) / 2
        written.append((row, _Area(centre - half, low, centre + half, low + _LETTER)))
        low += 1.5 * _LETTER
    return written


def _ink(scene: Scene, cells: float) -> set[Cell]:
    bounds = scene.bounds()
    return {
        (math.floor((x - bounds.left) * cells), math.floor((bounds.top - y) * cells))
        for shape in scene.shapes
        if not isinstance(shape, Shade)
        for x, y in coordinates(shape, 0.5 / cells)
    }


def _width(text: str) -> float:
    """Return how wide a text is at most, mm."""
    return _LETTER * sum(_part(letter) for letter in text)


def _part(letter: str) -> float:
    if letter in _NARROW_LETTERS:
        return _NARROW
    return _WIDE if letter in _WIDE_LETTERS or cell_width(letter) == 2 else _USUAL * cell_width(letter)


def _element(shape: Shape, bounds: Box, scale: float) -> str:
    match shape:
        case Segment(start, end, _role, pen):
            a, b = on_paper(start, bounds, scale, scale), on_paper(end, bounds, scale, scale)
            return f'<line x1="{_mm(a.x)}" y1="{_mm(a.y)}" x2="{_mm(b.x)}" y2="{_mm(b.y)}" {_PENS[pen]}/>'
        case Arc():
            return _bow(shape, _PENS[shape.pen], bounds, scale)
        case AngleArc():
            return _bow(shape, _PENS[Pen.MEASURE], bounds, scale)
        case Curve(points, _role, pen):
            return f'<polyline points="{_points(points, bounds, scale)}" {_PENS[pen]}/>'
        case Shade(points):
            return f'<polygon points="{_points(points, bounds, scale)}" fill="{_SHADE}" stroke="none"/>'
        case Dot(point):
            centre = on_paper(point, bounds, scale, scale)
            return f'<circle cx="{_mm(centre.x)}" cy="{_mm(centre.y)}" r="{_DOT}" fill="#000" stroke="none"/>'
        case _:
            assert_never(shape)


def _shaded_first(shapes: Sequence[Shape]) -> list[Shape]:
    """Return the shapes in the order in which they are drawn: no shade over a line."""
    return sorted(shapes, key=lambda shape: not isinstance(shape, Shade))


def _points(points: Sequence[Point], bounds: Box, scale: float) -> str:
    placed = (on_paper(point, bounds, scale, scale) for point in points)
    return " ".join(f"{_mm(point.x)},{_mm(point.y)}" for point in placed)


def _bow(shape: Arc | AngleArc, pen: str, bounds: Box, scale: float) -> str:
    centre = shape.centre if isinstance(shape, Arc) else shape.vertex
    radius = _mm(shape.radius * scale)
    if shape.sweep >= 360:
        middle = on_paper(centre, bounds, scale, scale)
        return f'<circle cx="{_mm(middle.x)}" cy="{_mm(middle.y)}" r="{radius}" {pen}/>'
    start, end = (
        on_paper(polar(centre, shape.radius, angle), bounds, scale, scale)
        for angle in (shape.begin, shape.begin + shape.sweep)
    )
    # The flags: the longer way round or not; against the clock as seen on paper.
    flags = f"{int(shape.sweep > 180)} 0"
    return (
        f'<path d="M {_mm(start.x)} {_mm(start.y)} A {radius} {radius} 0 {flags} '
        f'{_mm(end.x)} {_mm(end.y)}" {pen}/>'
    )


def _text(text: str, area: _Area) -> str:
    # The baseline lies a third of a letter below the middle.
    x, y = (area.left + area.right) / 2, (area.top + area.low) / 2 + _LETTER * 0.35
    return f'<text x="{_mm(x)}" y="{_mm(y)}">{escape(text)}</text>'


def _mm(value: float) -> str:
    return f"{value:.3f}".rstrip("0").rstrip(".")
