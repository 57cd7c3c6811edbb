"""Flat figures of every kind: true lengths and areas, and sentences for what cannot be."""

import math

import pytest
from figure_geometry import around, cells, drawn, edges, enclosed, lengths, of_role, refused
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tutor.figure.examples import EXAMPLES
from tutor.figure.scene import AngleArc, Arc, Pen, Scene, Segment, Shade

often = settings(deadline=None, max_examples=40)
SIZES = st.floats(0.5, 50)
PARTS = st.floats(0.03, 0.97)


def area_of(scene: Scene) -> float:
    [found] = enclosed(edges(scene))
    return found


# --- areas against the formulas of school (common practice, no source)


@often
@given(base=SIZES, height=SIZES, side=st.floats(1, 3))
def test_a_parallelogram_encloses_base_times_height(base: float, height: float, side: float) -> None:
    leaning = drawn("parallelogram", {"base": base, "height": height, "side": side * height})
    for scene in (drawn("parallelogram", {"base": base, "height": height}), leaning):
        assert area_of(scene) == pytest.approx(base * height, rel=1e-6)
        assert lengths(
            drawn("parallelogram", {"base": base, "height": height}, {"height": "h"}), "height"
        ) == [pytest.approx(height)]
    assert lengths(leaning, "side") == pytest.approx([side * height] * 2)


@often
@given(bottom=SIZES, top=SIZES, height=SIZES)
def test_a_trapezoid_encloses_the_mean_of_its_bases_times_its_height(
    bottom: float, top: float, height: float
) -> None:
    scene = drawn("trapezoid", {"bottom": bottom, "top": top, "height": height}, {"height": "h"})
    assert area_of(scene) == pytest.approx((bottom + top) / 2 * height, rel=1e-6)
    assert lengths(scene, "height") == [pytest.approx(height)]


@often
@given(bottom=SIZES, part=PARTS, left=SIZES, right=SIZES)
def test_a_trapezoid_from_four_sides_has_them(bottom: float, part: float, left: float, right: float) -> None:
    top = bottom * part
    sizes = {"bottom": bottom, "top": top, "left side": left, "right side": right}
    low, middle, high = sorted((bottom - top, left, right))
    if low + middle <= high * (1 + 1e-9):
        assert "cannot close" in refused("trapezoid", sizes)
        return
    assume(low + middle > high * 1.001)
    scene = drawn("trapezoid", sizes)
    for role, size in sizes.items():
        assert lengths(scene, role) == [pytest.approx(size, rel=1e-6)]


@often
@given(length=SIZES, width=SIZES, across=PARTS, up=PARTS)
def test_an_l_shape_is_a_rectangle_without_its_corner(
    length: float, width: float, across: float, up: float
) -> None:
    known = {
        "length": length,
        "width": width,
        "top": length * across,
        "right": width * up,
        "notch length": length * (1 - across),
        "notch width": width * (1 - up),
    }
    for left_out in (("notch length", "notch width"), ("top", "right"), ("length", "width"), ()):
        scene = drawn("L-shape", {role: size for role, size in known.items() if role not in left_out})
        for role, size in known.items():
            assert lengths(scene, role) == [pytest.approx(size, rel=1e-6)]
        notch = known["notch length"] * known["notch width"]
        assert area_of(scene) == pytest.approx(length * width - notch, rel=1e-6)
        # All the way round it is as long as the whole rectangle.
        assert around(scene) == pytest.approx(2 * (length + width), rel=1e-6)


@often
@given(bar=SIZES, thick=SIZES, part=PARTS, stem=SIZES)
def test_a_t_shape_is_a_bar_on_a_stem(bar: float, thick: float, part: float, stem: float) -> None:
    sizes = {"bar length": bar, "bar width": thick, "stem width": bar * part, "stem length": stem}
    scene = drawn("T-shape", sizes, {"height": "h"})
    assert area_of(scene) == pytest.approx(bar * thick + bar * part * stem, rel=1e-6)
    assert lengths(scene, "height") == [pytest.approx(thick + stem)]


@often
@given(length=SIZES, width=SIZES, height=SIZES)
def test_a_rectangle_with_a_triangle_has_the_area_of_both(length: float, width: float, height: float) -> None:
    sizes = {"length": length, "width": width, "height": height}
    scene = drawn("rectangle with triangle", sizes)
    assert area_of(scene) == pytest.approx(length * width + length * height / 2, rel=1e-6)
    slope = math.hypot(length / 2, height)
    assert lengths(scene, "side") == pytest.approx([slope] * 2)
    for other in ({"side": slope}, {"whole height": width + height}):
        same = drawn("rectangle with triangle", {"length": length, "width": width, **other})
        assert same.bounds().height == pytest.approx(scene.bounds().height, rel=1e-5)


@often
@given(length=SIZES, width=SIZES)
def test_a_rectangle_with_a_half_circle_has_the_area_of_both(length: float, width: float) -> None:
    scene = drawn("rectangle with half circle", {"radius": length / 2, "width": width})
    assert area_of(scene) == pytest.approx(length * width + math.pi * length**2 / 8, rel=1e-4)
    assert around(scene) == pytest.approx(length + 2 * width + math.pi * length / 2, rel=1e-4)
    assert lengths(scene, "bow") == [pytest.approx(math.pi * length / 2, rel=1e-4)]


@often
@given(radius=SIZES)
def test_a_half_circle_is_half_a_circle(radius: float) -> None:
    scene = drawn("half circle", {"diameter": 2 * radius})
    assert area_of(scene) == pytest.approx(math.pi * radius**2 / 2, rel=1e-4)
    assert around(scene) == pytest.approx((math.pi + 2) * radius, rel=1e-4)


@often
@given(outer=SIZES, part=PARTS)
def test_a_ring_lies_between_two_circles(outer: float, part: float) -> None:
    inner = outer * part
    for sizes in (
        {"outer radius": outer, "inner radius": inner},
        {"outer diameter": 2 * outer, "border": outer - inner},
        {"inner radius": inner, "border": outer - inner},
    ):
        small, large = enclosed(edges(drawn("ring", sizes)))
        assert large - small == pytest.approx(math.pi * (outer**2 - inner**2), rel=1e-3)


@often
@given(length=SIZES, width=SIZES, across=PARTS, up=PARTS)
def test_a_hole_leaves_the_rest(length: float, width: float, across: float, up: float) -> None:
    sizes = {"length": length, "width": width, "hole length": length * across, "hole width": width * up}
    hole, whole = enclosed(edges(drawn("rectangle with hole", sizes)))
    assert (whole, hole) == pytest.approx((length * width, length * across * width * up), rel=1e-6)
    radius = min(length, width) * across / 2
    hole, whole = enclosed(
        edges(drawn("rectangle with hole", {"length": length, "width": width, "hole radius": radius}))
    )
    assert hole == pytest.approx(math.pi * radius**2, rel=1e-4)
    side = drawn("square with hole", {"side": length, "hole side": length * across})
    assert enclosed(edges(side)) == pytest.approx([(length * across) ** 2, length**2], rel=1e-6)


@often
@given(base=SIZES, height=SIZES)
def test_a_right_triangle_has_its_right_angle_on_the_left_of_its_base(base: float, height: float) -> None:
    scene = drawn("right triangle", {"base": base, "long side": math.hypot(base, height)})
    assert area_of(scene) == pytest.approx(base * height / 2, rel=1e-4)
    marks = [shape for shape in scene.shapes if isinstance(shape, Segment) and shape.pen is Pen.MEASURE]
    assert len(marks) == 2
    assert all(0 <= end.x <= base / 4 for mark in marks for end in (mark.start, mark.end))


# --- the strip


@pytest.mark.parametrize("count", [8, 12, 16])
def test_the_strip_has_the_area_of_the_circle_and_half_of_its_circumference(count: int) -> None:
    scene = drawn("strip", {"radius": 6}, words=[f"{count} sectors"])
    below = [shape for shape in scene.shapes if isinstance(shape, Arc) and shape.role == "length"]
    assert sum(math.radians(bow.sweep) * bow.radius for bow in below) == pytest.approx(math.pi * 6)
    circle = [shape for shape in scene.shapes if isinstance(shape, Arc) and shape.sweep == 360]
    middle = circle[0].centre.y - 6
    row = [
        shape
        for shape in scene.shapes
        if isinstance(shape, Segment | Arc)
        and shape not in circle
        and (shape.centre if isinstance(shape, Arc) else shape.start).y < middle
    ]
    sectors = cells(row)
    assert len(sectors) == count
    assert sectors == pytest.approx([math.pi * 36 / count] * count, rel=1e-3)
    shaded = [shape for shape in scene.shapes if isinstance(shape, Shade)]
    assert len(shaded) == count


def test_the_strip_comes_nearer_to_pi_r_by_r_the_more_sectors_there_are() -> None:
    long = [
        lengths(drawn("strip", {"radius": 1}, words=[f"{count} sectors"]), "height")[0] for count in (8, 16)
    ]
    assert long == pytest.approx([1, 1])
    wide = [drawn("strip", {"radius": 1}, words=[f"{count} sectors"]).bounds().width for count in (8, 12, 16)]
    # Half a chord more than the row of chords, so it shrinks towards π.
    assert wide[0] > wide[1] > wide[2] > math.pi


# --- angles


def bows(scene: Scene) -> dict[str, float]:
    return {shape.role: shape.sweep for shape in scene.shapes if isinstance(shape, AngleArc)}


@often
@given(first=PARTS, second=PARTS)
def test_three_angles_make_a_straight_angle(first: float, second: float) -> None:
    a = 180 * first
    b = (180 - a) * second
    assume(min(a, b, 180 - a - b) > 0.5 and all(abs(x - 90) > 1e-3 for x in (a, b, 180 - a - b)))
    named = {"first": "A", "second": "B", "third": "C"}
    found = bows(drawn("straight angle", {"first": a, "second": b}, named))
    assert found == pytest.approx({"first": a, "second": b, "third": 180 - a - b})


@often
@given(size=st.floats(1, 179))
def test_opposite_angles_of_crossing_lines_are_equal(size: float) -> None:
    assume(abs(size - 90) > 1e-3)
    every = dict.fromkeys(("left", "right", "top", "bottom"), "x")
    found = bows(drawn("crossing", {"top": size}, every))
    assert found == pytest.approx({"top": size, "bottom": size, "left": 180 - size, "right": 180 - size})
    lines = [s for s in drawn("crossing", {"top": size}).shapes if isinstance(s, Segment)]
    turns = [math.degrees(math.atan2(s.end.y - s.start.y, s.end.x - s.start.x)) for s in lines]
    assert abs(turns[0] - turns[1]) == pytest.approx(180 - size)


@often
@given(size=st.floats(1, 179))
def test_parallel_lines_are_cut_at_the_same_angles(size: float) -> None:
    assume(abs(size - 90) > 1e-3)
    corners = ("top left", "top right", "bottom left", "bottom right")
    every = {f"{line} {corner}": "x" for line in ("upper", "lower") for corner in corners}
    found = bows(drawn("parallel lines", {"lower top left": size}, every))
    for line in ("upper", "lower"):
        turns = [found[f"{line} {corner}"] for corner in corners]
        assert turns == pytest.approx([size, 180 - size, 180 - size, size])


@often
@given(left=st.floats(3, 170), part=PARTS)
def test_the_angle_outside_a_triangle_is_the_two_others_together(left: float, part: float) -> None:
    top = (180 - left) * part
    outside = left + top
    assume(top > 1 and outside < 179 and all(abs(x - 90) > 1e-3 for x in (left, top, outside)))
    every = dict.fromkeys(("left", "right", "top", "outside"), "x")
    found = bows(drawn("triangle angles", {"left": left, "outside": outside}, every))
    assert found == pytest.approx({"left": left, "top": top, "right": 180 - outside, "outside": outside})
    assert drawn("triangle angles", {"left": left, "top": top}, every).shapes


def test_a_right_angle_is_marked_by_a_square_and_never_by_a_bow() -> None:
    scene = drawn("triangle", {"base": 4, "left side": 3, "right side": 5}, {"left angle": "A"})
    assert bows(scene) == {}
    assert len([s for s in scene.shapes if isinstance(s, Segment) and s.pen is Pen.MEASURE]) == 2
    assert bows(drawn("crossing", {"left": 90}, {"left": "A"})) == {}


# --- what cannot be


@pytest.mark.parametrize(
    ("kind", "sizes", "words"),
    [
        ("triangle", {"base": 5, "left angle": 120, "right angle": 70}, "180° 120° 70° 190°"),
        ("triangle", {"base": 5, "left angle": 60, "right angle": 70, "top angle": 70}, "180° 200°"),
        ("triangle", {"base": 5, "left side": 3, "left angle": 190}, "left angle 180° 190°"),
        ("triangle", {"base": 4, "height": 9, "left side": 5}, "5 9 too short"),
        ("triangle", {"base": 4, "left side": 3, "right side": 5, "height": 2}, "height 3 2"),
        ("triangle", {"base": 4, "left side": 3, "right side": 5, "left angle": 60}, "left angle 90 60"),
        ("triangle", {"base": 4, "left side": 3}, "must be known"),
        ("right triangle", {"base": 9, "long side": 8}, "longer than the base 8 9"),
        ("right triangle", {"base": 3, "height": 4, "long side": 6}, "long side 5 6"),
        ("right triangle", {"base": 3, "height": 4, "right angle": 40}, "right angle 53.1 40"),
        ("triangle angles", {"left": 100, "right": 90}, "180° 190°"),
        ("triangle angles", {"left": 50, "outside": 200}, "180° 200"),
        ("triangle angles", {"left": 50, "right": 60, "outside": 110}, "110 + 60 180"),
        ("straight angle", {"first": 100, "second": 60}, "180° 100 + 60 160"),
        ("right angle", {"first": 95}, "95 90°"),
        ("crossing", {"left": 40, "right": 50}, "left 40 right 50 opposite"),
        ("crossing", {"left": 40, "top": 150}, "left 40 top 150 180"),
        ("crossing", {"left": 180}, "180"),
        ("parallel lines", {"upper top left": 40, "lower top left": 50}, "40 50"),
        ("parallel lines", {"upper top left": 180}, "180"),
        ("parallelogram", {"base": 8, "height": 6, "side": 5}, "5 6 too short"),
        ("parallelogram", {"base": 8, "side": 6, "angle": 30, "height": 5}, "height 3 5"),
        ("parallelogram", {"base": 8, "angle": 190, "height": 5}, "180° 190°"),
        ("trapezoid", {"bottom": 9, "top": 5, "height": 6, "left side": 4}, "4 6 too short"),
        ("trapezoid", {"bottom": 9, "top": 9, "left side": 4, "right side": 4}, "height must be known"),
        (
            "trapezoid",
            {"bottom": 9, "top": 5, "height": 6, "left side": 7, "right side": 12},
            "right side 6.013 12",
        ),
        ("L-shape", {"length": 9, "width": 8, "top": 10, "right": 4}, "length 9 10"),
        ("L-shape", {"length": 9, "width": 8, "top": 4, "notch length": 4, "right": 4}, "4 + 4 9"),
        ("L-shape", {"length": 9, "width": 8}, "must be known"),
        ("T-shape", {"bar length": 4, "bar width": 2, "stem width": 5, "stem length": 3}, "5 4"),
        ("T-shape", {"bar length": 4, "bar width": 2, "stem width": 1, "height": 2}, "height bar width 2"),
        ("rectangle with triangle", {"length": 10, "width": 6, "side": 4}, "4 10"),
        ("rectangle with triangle", {"length": 10, "width": 6, "whole height": 5}, "5 6"),
        ("rectangle with triangle", {"length": 10, "width": 6, "height": 5, "side": 9}, "side 7.07 9"),
        ("rectangle with half circle", {"length": 10, "width": 6, "radius": 4}, "radius 5 4"),
        ("rectangle with hole", {"length": 9, "width": 5, "hole radius": 3}, "6 5"),
        ("rectangle with hole", {"length": 9, "width": 5, "hole length": 9, "hole width": 2}, "9"),
        ("rectangle with hole", {"length": 9, "width": 5}, "hole length must be known"),
        ("square with hole", {"side": 9, "hole diameter": 9, "hole radius": 4.5}, "9"),
        ("square with hole", {"side": 9, "hole diameter": 5, "hole radius": 4}, "hole diameter 8 5"),
        ("ring", {"outer radius": 4, "inner radius": 6}, "6 4"),
        ("ring", {"outer radius": 6, "inner radius": 4, "border": 1}, "border 2 1"),
        ("ring", {"outer radius": 6}, "inner radius must be known"),
        ("track", {"straight": 5, "ends": 6, "radius": 4}, "ends 8 6"),
        ("half circle", {"diameter": 5, "radius": 4}, "twice 5 4"),
    ],
)
def test_a_figure_that_cannot_be_is_refused_with_its_own_numbers(
    kind: str, sizes: dict[str, float], words: str
) -> None:
    sentence = refused(kind, sizes)
    assert [word for word in words.split() if word not in sentence] == []
    assert len(sentence) < 200


def test_a_side_of_a_trapezoid_may_lean_outward() -> None:
    # 3.6 to the left of its lower end, so that the other one reaches 7.6: √(36 + 7.6²) = 9.683.
    sizes = {"bottom": 9, "top": 5, "height": 6, "left side": math.hypot(3.6, 6), "right side": 9.683}
    scene = drawn("trapezoid", sizes)
    assert scene.bounds().left == pytest.approx(-3.6)
    assert lengths(scene, "right side") == [pytest.approx(9.683, rel=1e-4)]


def test_sizes_that_were_rounded_on_the_way_still_agree() -> None:
    # √(6² + 2.5²) = 6.5; √(5² + 3.5²) = 6.1033 rounded to one place.
    assert drawn("rectangle with triangle", {"length": 7, "width": 6, "height": 5, "side": 6.1})
    assert drawn("right triangle", {"base": 5, "height": 3.5, "long side": 6.1})


@pytest.mark.parametrize("kind", EXAMPLES)
@pytest.mark.parametrize("factor", [1e-6, 1e-3, 1e4, 1e8])
def test_the_size_of_the_unit_does_not_matter(kind: str, factor: float) -> None:
    from tutor.figure.kinds import draw, is_angle

    sizes = EXAMPLES[kind].sizes
    scaled = {role: size if is_angle(kind, role) else size * factor for role, size in sizes.items()}
    if min(scaled.values()) < 1e-6 or max(scaled.values()) > 1e9:
        assert draw(kind, scaled, {})[0] is None
        return
    box, large = drawn(kind, sizes).bounds(), drawn(kind, scaled).bounds()
    assert large.width / large.height == pytest.approx(box.width / box.height, rel=1e-6)


def test_a_label_of_a_part_names_no_other_part() -> None:
    scene = drawn("track", EXAMPLES["track"].sizes, {"radius": "r"})
    assert lengths(scene, "radius") == [pytest.approx(6)]
    assert of_role(drawn("track", EXAMPLES["track"].sizes), "radius") == []
