"""Solids: what is hidden is dashed, cuts have the shape that they must, and what cannot be is refused."""

import math
from collections import Counter

import pytest
from figure_geometry import cells, drawn, edges, lengths, refused
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Point as At
from shapely.geometry import Polygon

from tutor.figure.examples import EXAMPLES
from tutor.figure.kinds import FIGURE_WORDS, draw
from tutor.figure.scene import Curve, Pen, Point, Scene, Segment, Shade

often = settings(deadline=None, max_examples=40)
SIZES = st.floats(1, 40)

CUTS = [(kind, word) for kind, words in FIGURE_WORDS.items() for word in words if word.startswith("cut")]


def cut_of(scene: Scene) -> Shade:
    [cut] = [shape for shape in scene.shapes if isinstance(shape, Shade)]
    return cut


def corners_of(cut: Shade) -> int:
    """Return how many corners a shaded face has, points on a straight side left out."""
    return len(Polygon([(p.x, p.y) for p in cut.points]).convex_hull.simplify(1e-9).exterior.coords) - 1


# The plane sections that a school book names (7.G.A.3; common practice, no source).
@pytest.mark.parametrize(
    ("kind", "word", "corners"),
    [
        ("box", "cut across", 4),
        ("box", "cut upright", 4),
        ("box", "cut slanted", 4),
        ("box", "cut off a corner", 3),
        ("cube", "cut across", 4),
        ("cube", "cut off a corner", 3),
        ("prism", "cut across", 3),
        ("prism", "cut upright", 4),
        ("pyramid", "cut across", 4),
        ("pyramid", "cut upright", 3),
        ("pyramid", "cut slanted", 4),
        ("pyramid", "cut beside the top", 4),
        ("cylinder", "cut upright", 4),
        ("cone", "cut upright", 3),
    ],
)
def test_a_cut_has_the_corners_of_its_shape(kind: str, word: str, corners: int) -> None:
    assert corners_of(cut_of(drawn(kind, EXAMPLES[kind].sizes, words=[word]))) == corners


@pytest.mark.parametrize(
    ("kind", "word"),
    [(kind, word) for kind in ("cylinder", "cone", "sphere") for word in ("cut across", "cut slanted")],
)
def test_these_cuts_are_round(kind: str, word: str) -> None:
    assert corners_of(cut_of(drawn(kind, EXAMPLES[kind].sizes, words=[word]))) > 50


def test_a_level_cut_half_way_up_a_pyramid_has_half_its_sides() -> None:
    scene = drawn("pyramid", {"base": 8, "height": 9}, words=["cut across"])
    [base] = {round(length, 9) for length in lengths(scene, "base")}
    level = [
        shape
        for shape in scene.shapes
        if isinstance(shape, Segment) and shape.role == "cut" and shape.start.y == pytest.approx(shape.end.y)
    ]
    assert [abs(side.end.x - side.start.x) for side in level] == pytest.approx([base / 2] * 2)


def test_a_cut_beside_the_top_of_a_pyramid_is_a_trapezoid_and_no_parallelogram() -> None:
    scene = drawn("pyramid", {"base": 8, "height": 9}, words=["cut beside the top"])
    slopes = Counter(
        round(math.atan2(s.end.y - s.start.y, s.end.x - s.start.x) % math.pi, 6)
        for s in scene.shapes
        if isinstance(s, Segment) and s.role == "cut"
    )
    assert sorted(slopes.values()) == [1, 1, 2]


@pytest.mark.parametrize(("kind", "word"), CUTS)
def test_a_cut_lies_within_the_solid(kind: str, word: str) -> None:
    scene = drawn(kind, EXAMPLES[kind].sizes, words=[word])
    points = [
        (point.x, point.y)
        for shape in scene.shapes
        if not isinstance(shape, Shade) and getattr(shape, "role", "") != "cut"
        for point in _points(shape)
    ]
    slack = 1e-3 * max(EXAMPLES[kind].sizes.values())
    body = (
        At(0, 0).buffer(6 + slack, quad_segs=256)
        if kind == "sphere"
        else Polygon(points).convex_hull.buffer(slack)
    )
    assert all(body.contains(At(point.x, point.y)) for point in cut_of(scene).points)
    # Some of its rim is seen, some is not.
    pens = {s.pen for s in scene.shapes if isinstance(s, Segment | Curve) and s.role == "cut"}
    assert Pen.EDGE in pens
    assert Pen.HIDDEN in pens or word == "cut off a corner"


def _points(shape: object) -> tuple[Point, ...]:
    if isinstance(shape, Segment):
        return shape.start, shape.end
    return shape.points if isinstance(shape, Curve) else ()


@often
@given(length=SIZES, width=SIZES, height=SIZES)
def test_every_edge_of_a_lying_prism_has_its_true_length(length: float, width: float, height: float) -> None:
    scene = drawn("prism", {"base": width, "height": height, "length": length})
    assert lengths(scene, "length") == pytest.approx([length] * 3)
    assert lengths(scene, "base") == pytest.approx([width] * 2)
    slope = math.hypot(width / 2, height)
    assert lengths(scene, "left side") == pytest.approx([slope] * 2)


@often
@given(kind=st.sampled_from(["box", "prism", "pyramid", "cube"]), data=st.data())
def test_hidden_edges_lie_inside_the_outline_and_seen_ones_bound_it(kind: str, data: st.DataObject) -> None:
    sizes = {role: data.draw(st.floats(1, 20)) for role in EXAMPLES[kind].sizes}
    scene = drawn(kind, sizes)
    lines = [shape for shape in scene.shapes if isinstance(shape, Segment)]
    hull = Polygon([(end.x, end.y) for line in lines for end in (line.start, line.end)]).convex_hull
    seen = 0.0
    for line in lines:
        middle = At((line.start.x + line.end.x) / 2, (line.start.y + line.end.y) / 2)
        on_the_outline = hull.exterior.distance(middle) < 1e-9 * hull.length
        if on_the_outline:  # the outline of a body is always seen
            assert line.pen is Pen.EDGE
            seen += math.dist((line.start.x, line.start.y), (line.end.x, line.end.y))
    assert seen == pytest.approx(hull.length, rel=1e-6)


def test_an_upright_pyramid_hides_the_two_edges_at_the_back_and_the_one_up_to_its_top() -> None:
    scene = drawn("pyramid", {"base": 8, "height": 9})
    hidden = [shape.role for shape in scene.shapes if isinstance(shape, Segment) and shape.pen is Pen.HIDDEN]
    assert sorted(hidden) == ["base", "edge", "height", "width"]


@often
@given(base=SIZES, height=SIZES, length=SIZES)
def test_a_prism_laid_out_has_its_five_faces(base: float, height: float, length: float) -> None:
    scene = drawn("prism net", {"base": base, "height": height, "length": length})
    slope = math.hypot(base / 2, height)
    faces = sorted([base * height / 2] * 2 + [slope * length] * 2 + [base * length])
    assert cells(edges(scene)) == pytest.approx(faces, rel=1e-5)


@often
@given(length=SIZES, width=SIZES, height=SIZES)
def test_a_box_laid_out_has_its_six_faces(length: float, width: float, height: float) -> None:
    scene = drawn("box net", {"length": length, "width": width, "height": height})
    faces = sorted([length * width] * 2 + [length * height] * 2 + [width * height] * 2)
    assert cells(edges(scene)) == pytest.approx(faces, rel=1e-5)


@often
@given(radius=SIZES, height=SIZES)
def test_round_solids_are_as_wide_and_high_as_they_are(radius: float, height: float) -> None:
    cylinder, cone = (drawn(kind, {"radius": radius, "height": height}) for kind in ("cylinder", "cone"))
    assert cylinder.bounds().width == pytest.approx(2 * radius)
    assert lengths(cylinder, "height") == pytest.approx([height] * 2)
    # The rim touches the outline of the cone, or it would stick out of it.
    assert cone.bounds().width == pytest.approx(2 * radius, rel=1e-3)
    assert cone.bounds().top == pytest.approx(height)
    sphere = drawn("sphere", {"radius": radius})
    assert (sphere.bounds().width, sphere.bounds().height) == pytest.approx((2 * radius, 2 * radius))


def test_a_slant_stands_for_a_height() -> None:
    # 5, 12, 13 and 3, 4, 5 (common practice, no source).
    cone = drawn("cone", {"radius": 5, "slant": 13}, {"height": "h"})
    assert lengths(cone, "height") == [pytest.approx(12)]
    pyramid = drawn("pyramid", {"base": 6, "slant": 5}, {"height": "h"})
    assert lengths(pyramid, "height") == [pytest.approx(4)]


@pytest.mark.parametrize(
    ("kind", "sizes", "words"),
    [
        ("pyramid", {"base": 8, "slant": 3}, "slant 3 4"),
        ("pyramid", {"base": 8, "height": 3, "slant": 6}, "slant 5 6"),
        ("pyramid", {"base": 8}, "height must be known"),
        ("cone", {"radius": 5, "slant": 5}, "slant 5 radius"),
        ("cone", {"radius": 3, "height": 4, "slant": 6}, "slant 5 6"),
        ("cylinder", {"radius": 3}, "height must be known"),
        ("cylinder", {"radius": 3, "diameter": 5, "height": 2}, "twice 5 3"),
        ("prism", {"base": 5, "left side": 2, "right side": 2, "length": 4}, "2 5"),
        ("prism", {"base": 5, "height": 2}, "length must be known"),
        ("prism net", {"base": 5, "height": 9, "left side": 4, "length": 3}, "4 9"),
    ],
)
def test_a_solid_that_cannot_be_is_refused_with_its_own_numbers(
    kind: str, sizes: dict[str, float], words: str
) -> None:
    sentence = refused(kind, sizes)
    assert [word for word in words.split() if word not in sentence] == []


def test_a_word_that_says_nothing_of_a_figure_is_refused() -> None:
    scene, sentence = draw("sphere", {"radius": 3}, {}, ["cut off a corner"])
    assert scene is None
    assert "cut across" in sentence
    scene, sentence = draw("circle", {"radius": 3}, {}, ["cut across"])
    assert scene is None
    assert "none" in sentence
