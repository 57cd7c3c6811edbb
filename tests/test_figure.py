"""Figures as scenes: true sizes, checked with shapely, and sentences for what cannot exist."""

import math

import pytest
from figure_geometry import drawn, enclosed, lengths, line, of_role, refused
from hypothesis import given, settings
from hypothesis import strategies as st

from tutor.figure.examples import EXAMPLES
from tutor.figure.kinds import FIGURE_KINDS
from tutor.figure.scene import AngleArc, Arc, Dot, Pen, Point, Segment, trace

often = settings(deadline=None, max_examples=40)
SIZES = st.floats(0.5, 300)


# --- circle


def test_a_circle_has_the_circumference_and_area_of_the_published_example() -> None:
    # OpenStax Prealgebra 2e, section 9.5, Ex 9.41: a radius of 2.5 ft, with 3.14 for pi C = 15.7 ft and
    # A = 19.625 ft². A scene is exact: 3.14 is 0.0507 % off.
    scene = drawn("circle", {"radius": 2.5})
    assert lengths(scene, "circumference") == pytest.approx([15.7], rel=6e-4)
    assert enclosed(of_role(scene, "circumference")) == pytest.approx([19.625], rel=6e-4)
    assert lengths(scene, "radius") == pytest.approx([2.5])


def test_a_circle_has_the_diameter_of_the_published_example() -> None:
    # OpenStax Prealgebra 2e, section 9.5, Ex 9.43: a circumference of 47.1 cm, with 3.14 a diameter of 15 cm.
    scene = drawn("circle", {"circumference": 47.1}, {"diameter": "d"})
    assert lengths(scene, "diameter") == pytest.approx([15], rel=6e-4)


@often
@given(radius=SIZES)
def test_a_circle_is_the_same_from_any_of_its_sizes(radius: float) -> None:
    circle = drawn("circle", {"radius": radius}, {"radius": "r"})
    sizes = {"diameter": 2 * radius, "circumference": 2 * math.pi * radius, "area": math.pi * radius**2}
    for role, size in sizes.items():
        assert drawn("circle", {role: size}).bounds().width == pytest.approx(circle.bounds().width)


def test_the_diameter_goes_through_the_middle_and_the_radius_does_not_lie_on_it() -> None:
    scene = drawn("circle", {"radius": 3, "diameter": 6})
    [across], [radius] = of_role(scene, "diameter"), of_role(scene, "radius")
    assert line(across).length == pytest.approx(6)
    assert line(across).intersection(line(radius)).length == pytest.approx(0)
    assert any(isinstance(shape, Dot) and shape.at == Point(0, 0) for shape in scene.shapes)


# --- box


@often
@given(length=SIZES, width=SIZES, height=SIZES)
def test_every_edge_of_a_box_has_its_true_length(length: float, width: float, height: float) -> None:
    scene = drawn("box", {"length": length, "width": width, "height": height})
    for role, size in (("length", length), ("width", width), ("height", height)):
        edges = of_role(scene, role)
        assert len(edges) == 4
        for edge in edges:
            assert isinstance(edge, Segment)
            assert math.dist((edge.start.x, edge.start.y), (edge.end.x, edge.end.y)) == pytest.approx(size)


def test_the_three_edges_at_the_far_lower_corner_are_hidden() -> None:
    scene = drawn("box", {"length": 10, "width": 7, "height": 6})
    hidden = [shape for shape in scene.shapes if isinstance(shape, Segment) and shape.pen is Pen.HIDDEN]
    back = 7 * math.sqrt(0.5)
    assert sorted(shape.role for shape in hidden) == ["height", "length", "width"]
    for edge in hidden:
        assert min(math.dist((end.x, end.y), (back, back)) for end in (edge.start, edge.end)) < 1e-9


# --- angles


@often
@given(first=st.floats(1, 179), total=st.sampled_from([90.0, 180.0]))
def test_two_angles_are_drawn_at_their_true_size(first: float, total: float) -> None:
    first = first * total / 180
    scene = drawn("angles", {"first": first, "second": total - first})
    arms = [shape for shape in scene.shapes if isinstance(shape, Segment) and shape.pen is Pen.EDGE]
    turns = sorted(math.degrees(math.atan2(arm.end.y, arm.end.x)) for arm in arms)
    assert turns == pytest.approx([0, total - first, total], abs=1e-9)
    for role, size in (("first", first), ("second", total - first)):
        [bow] = of_role(scene, role)
        assert isinstance(bow, AngleArc)
        assert lengths(scene, role) == pytest.approx([math.radians(size) * bow.radius], rel=1e-3)


def test_the_first_angle_stands_on_the_left() -> None:
    scene = drawn("angles", {"first": 132, "second": 48})
    middles = {
        shape.role: shape.begin + shape.sweep / 2 for shape in scene.shapes if isinstance(shape, AngleArc)
    }
    assert middles == {"first": 114, "second": 24}


def test_angles_that_make_neither_90_nor_180_cannot_lie_side_by_side() -> None:
    sentence = refused("angles", {"first": 70, "second": 100})
    assert "170°" in sentence
    assert "180°" in sentence


# --- track


@often
@given(straight=SIZES, ends=SIZES)
def test_a_track_is_as_long_as_two_straights_and_a_circle(straight: float, ends: float) -> None:
    scene = drawn("track", {"straight": straight, "ends": ends})
    assert lengths(scene, "straight") == pytest.approx([straight] * 2)
    bows = of_role(scene, "path")
    assert all(isinstance(bow, Arc) and bow.sweep == 180 for bow in bows)
    around = sum(line(shape).length for shape in (*of_role(scene, "straight"), *bows))
    assert around == pytest.approx(2 * straight + math.pi * ends, rel=1e-4)
    assert lengths(scene, "ends") == pytest.approx([ends] * 2)
    assert scene.bounds().width == pytest.approx(straight + ends)


def test_a_track_is_closed_and_has_the_area_of_the_published_example() -> None:
    # OpenStax Prealgebra 2e, section 9.5, Ex 9.46: 105 m by 68 m and two half-circles, 10769.84 m² with 3.14.
    scene = drawn("track", {"straight": 105, "ends": 68})
    left, right, between = enclosed(scene.shapes)
    assert left == pytest.approx(right)
    assert between == pytest.approx(105 * 68)
    assert left + right + between == pytest.approx(10769.84, rel=3e-4)


# --- frame


@often
@given(outer_length=st.floats(10, 200), outer_width=st.floats(10, 200), part=st.floats(0.02, 0.45))
def test_a_frame_is_the_same_from_any_sizes_that_settle_it(
    outer_length: float, outer_width: float, part: float
) -> None:
    border = part * min(outer_length, outer_width)
    whole = {
        "outer length": outer_length,
        "outer width": outer_width,
        "border": border,
        "length": outer_length - 2 * border,
        "width": outer_width - 2 * border,
    }
    for roles in (
        ("outer length", "outer width", "border"),
        ("length", "width", "border"),
        ("outer length", "length", "width"),
        ("outer width", "width", "outer length"),
        ("length", "outer width", "border"),
        tuple(whole),
    ):
        scene = drawn("frame", {role: whole[role] for role in roles})
        for role, size in whole.items():
            assert lengths(scene, role) == pytest.approx([size] * (1 if role == "border" else 2))


def test_a_frame_is_one_rectangle_inside_another() -> None:
    scene = drawn("frame", {"outer length": 60, "outer width": 40, "border": 5})
    rectangles = [shape for shape in scene.shapes if shape.role != "border"]
    # Holes filled, the two rectangles: 50 by 30 inside, 60 by 40 the board.
    assert enclosed(rectangles) == pytest.approx([1500, 2400])


@pytest.mark.parametrize(
    ("sizes", "word"),
    [
        ({"outer length": 60, "outer width": 20, "border": 12}, "nothing is left inside"),
        ({"outer length": 60, "outer width": 40, "length": 62}, "smaller than the whole"),
        ({"outer length": 60, "length": 50, "border": 4, "width": 30}, "two borders"),
        ({"outer length": 60, "outer width": 40}, "border must be known"),
        ({"outer length": 60, "length": 50}, "outer width must be known"),
        ({}, "must be known"),
    ],
)
def test_a_frame_that_cannot_be_is_refused_with_the_reason(sizes: dict[str, float], word: str) -> None:
    assert word in refused("frame", sizes)


# --- rectangle and triangle


@often
@given(length=st.floats(1, 50), width=st.floats(1, 50))
def test_a_rectangle_encloses_length_times_width(length: float, width: float) -> None:
    assert enclosed(drawn("rectangle", {"length": length, "width": width}).shapes) == pytest.approx(
        [length * width]
    )


@pytest.mark.parametrize(
    ("sides", "angles_expected"),
    [
        # Computed with mpmath, 50 digits, by two routes; the angle opposite each side.
        ((6, 7, 8), (46.5674634422, 57.9100487437, 75.5224878141)),
        ((4, 5, 8), (24.1468479965, 30.7535198081, 125.099632195)),
    ],
)
def test_a_triangle_from_three_sides_has_the_known_angles(
    sides: tuple[float, float, float], angles_expected: tuple[float, float, float]
) -> None:
    scene = drawn("triangle", dict(zip(("base", "right side", "left side"), sides, strict=True)))
    assert [lengths(scene, role)[0] for role in ("base", "right side", "left side")] == pytest.approx(sides)
    [_base, second, third] = scene.shapes
    assert isinstance(second, Segment)
    assert isinstance(third, Segment)
    apex = second.end
    at_left = math.degrees(math.atan2(apex.y, apex.x))  # opposite the second side
    at_right = math.degrees(math.atan2(apex.y, sides[0] - apex.x))  # opposite the third
    assert (180 - at_left - at_right, at_left, at_right) == pytest.approx(angles_expected, abs=1e-9)


def test_a_triangle_from_base_and_height_has_half_their_product() -> None:
    scene = drawn("triangle", {"base": 12, "height": 5})
    sides = [shape for shape in scene.shapes if shape.role in {"base", "right side", "left side"}]
    assert enclosed(sides) == pytest.approx([30])
    assert lengths(scene, "height") == pytest.approx([5])


def test_a_height_outside_the_triangle_meets_the_base_drawn_on() -> None:
    scene = drawn("triangle", {"base": 6, "right side": 5, "left side": 9.5}, {"height": "h"})
    drawn_on = [s for s in scene.shapes if isinstance(s, Segment) and s.pen is Pen.HIDDEN and not s.role]
    [height] = of_role(scene, "height")
    assert isinstance(height, Segment)
    assert [(s.start, s.end) for s in drawn_on] == [(Point(6, 0), height.start)]


@pytest.mark.parametrize("sides", [(2, 3, 8), (3, 4, 7), (8, 2, 3)])
def test_sides_that_do_not_meet_make_no_triangle(sides: tuple[float, float, float]) -> None:
    assert "longer" in refused("triangle", dict(zip(("base", "right side", "left side"), sides, strict=True)))


# --- all kinds


def test_every_kind_has_an_example_here() -> None:
    assert set(EXAMPLES) == set(FIGURE_KINDS)


# These name a whole surface or body, and no single line.
SURFACES = {
    "area", "first area", "second area", "hole area", "base area", "perimeter", "volume", "surface",
    "front", "back", "left", "right", "top", "bottom", "left face", "right face",
}  # fmt: skip

# Roles that nothing can have while another one of the same figure has it.
ELSE = {
    "rectangle with hole": {"hole length", "hole width"},
    "square with hole": {"hole side"},
    "right angle": {"third"},
}


@pytest.mark.parametrize("kind", FIGURE_KINDS)
def test_every_role_can_be_labelled_and_the_label_belongs_to_a_shape(kind: str) -> None:
    texts = {role: f"{role} = ?" for role in FIGURE_KINDS[kind] if role not in ELSE.get(kind, ())}
    scene = drawn(kind, EXAMPLES[kind].sizes, texts)
    assert {label.role: label.text for label in scene.labels} == texts
    assert texts.keys() <= {shape.role for shape in scene.shapes} | SURFACES


# Sizes that follow from the others, or that the figure can do without.
SPARE = {
    "rectangle with hole": {"hole length", "hole width", "hole radius"},
    "square with hole": {"hole side", "hole radius"},
    "straight angle": {"first", "second", "third"},
    "right angle": {"first", "second"},
}


@pytest.mark.parametrize("kind", FIGURE_KINDS)
def test_a_size_that_is_missing_is_asked_for(kind: str) -> None:
    for role in EXAMPLES[kind].sizes.keys() - SPARE.get(kind, set()):
        less = {name: size for name, size in EXAMPLES[kind].sizes.items() if name != role}
        assert "must be known" in refused(kind, less)


@pytest.mark.parametrize("kind", FIGURE_KINDS)
@pytest.mark.parametrize("size", [0, -3, math.nan, math.inf, -math.inf, 1e300, 1e-300])
def test_a_size_that_is_none_is_refused_by_its_name(kind: str, size: float) -> None:
    for role in EXAMPLES[kind].sizes:
        assert role in refused(kind, {**EXAMPLES[kind].sizes, role: size})


def test_unknown_kinds_and_roles_are_refused_with_what_there_is() -> None:
    assert "circle, half circle" in refused("blob", {})
    assert "straight, ends, path" in refused("track", {**EXAMPLES["track"].sizes, "lap": 3})
    assert "radius" in refused("circle", EXAMPLES["circle"].sizes, {"girth": "g"})


def test_a_radius_and_diameter_that_disagree_are_refused() -> None:
    assert "twice" in refused("circle", {"radius": 3, "diameter": 7})


def test_an_empty_label_is_not_shown() -> None:
    assert drawn("circle", EXAMPLES["circle"].sizes, {"radius": " \x07 "}).labels == ()


@pytest.mark.parametrize("kind", FIGURE_KINDS)
def test_the_bounds_hold_every_shape_and_are_touched(kind: str) -> None:
    scene = drawn(kind, EXAMPLES[kind].sizes)
    box = scene.bounds()
    points = [point for shape in scene.shapes for point in trace(shape, 0.01)]
    assert min(p.x for p in points) == pytest.approx(box.left, abs=1e-3)
    assert max(p.x for p in points) == pytest.approx(box.right, abs=1e-3)
    assert min(p.y for p in points) == pytest.approx(box.bottom, abs=1e-3)
    assert max(p.y for p in points) == pytest.approx(box.top, abs=1e-3)
