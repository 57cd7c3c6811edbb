"""How many triangles have some parts, and what the other parts are."""

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LineString, Point

from tutor.marking.kinds.triangle import Count, how_many, triangles

Givens = tuple[tuple[str, str], ...]


def givens(text: str) -> Givens:
    pairs = (part.split("=") for part in text.split(","))
    return tuple((name.strip(), value.strip()) for name, value in pairs)


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        # Three sides.
        ("a = 3 cm, b = 4 cm, c = 5 cm", Count.ONE),
        ("a = 2 cm, b = 3 cm, c = 8 cm", Count.NONE),
        ("a = 3 cm, b = 4 cm, c = 7 cm", Count.NONE),  # flat
        ("a = 3 cm, b = 4 cm, c = 6.99 cm", Count.ONE),
        ("a = 30 mm, b = 4 cm, c = 1/2 m", Count.NONE),
        ("a = 1 ft, b = 1 ft, c = 24 in", Count.NONE),  # flat, in two units
        ("a = 1/3 in, b = 1/3 in, c = 2/3 in", Count.NONE),
        # Angles.
        ("A = 60°, B = 60°, C = 60°", Count.MANY),
        ("A = 60°, B = 60°, C = 61°", Count.NONE),
        ("A = 100°, B = 80°, c = 5 cm", Count.NONE),
        ("A = 40°, B = 60°", Count.MANY),
        ("A = 190°", Count.NONE),
        ("A = 50°, B = 60°, c = 8 cm", Count.ONE),
        ("A = 50°, B = 60°, a = 8 cm", Count.ONE),
        # Too few parts.
        ("a = 5 cm, A = 40°", Count.MANY),
        ("a = 5 cm, b = 9 cm", Count.MANY),
        # Two sides and the angle between them, or another one.
        ("a = 5 cm, b = 90 cm, C = 179°", Count.ONE),
        ("a = 6 cm, b = 10 cm, A = 30°", Count.TWO),
        ("a = 5 cm, b = 10 cm, A = 30°", Count.ONE),  # the arc just touches
        ("a = 4.99 cm, b = 10 cm, A = 30°", Count.NONE),
        ("a = 10 cm, b = 10 cm, A = 30°", Count.ONE),
        ("a = 12 cm, b = 10 cm, A = 30°", Count.ONE),
        ("a = 7 cm, b = 10 cm, A = 45°", Count.NONE),  # 7 < 5√2 = 7.07…
        ("a = 7.08 cm, b = 10 cm, A = 45°", Count.TWO),
        ("a = 8.66 cm, b = 10 cm, A = 60°", Count.NONE),  # 8.66 < 5√3 = 8.6602…
        ("a = 8.661 cm, b = 10 cm, A = 60°", Count.TWO),
        ("a = 3 cm, b = 4 cm, c = 5 cm, A = 38.5°", Count.NONE),  # 36.87° comes out
        ("a = 5 cm, b = 6 cm, A = 120°", Count.NONE),
        ("a = 6 cm, b = 6 cm, A = 120°", Count.NONE),
        ("a = 7 cm, b = 6 cm, A = 120°", Count.ONE),
        ("a = 6 cm, b = 6 cm, A = 90°", Count.NONE),
        # More parts than are needed.
        ("a = 3 cm, b = 4 cm, c = 5 cm, C = 90°", Count.ONE),
        ("a = 3 cm, b = 4 cm, c = 5 cm, C = 80°", Count.NONE),
        ("a = 5 cm, c = 10 cm, A = 30°, C = 90°", Count.ONE),
        ("a = 5 cm, b = 10 cm, A = 30°, B = 60°", Count.NONE),
        ("a = 6 cm, b = 6 cm, A = 50°, B = 50°", Count.ONE),
        ("a = 3 cm, b = 4 cm, c = 5 cm, A = 60°, B = 60°, C = 60°", Count.NONE),
    ],
)  # fmt: skip
def test_how_many_triangles_have_some_parts(text: str, wanted: Count) -> None:
    assert how_many(givens(text)) is wanted


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        # OpenStax Algebra and Trigonometry 2e, section 10.1, examples 2 to 4; values from memory.
        ("a = 6 cm, b = 8 cm, A = 35°", Count.TWO),
        ("b = 9 cm, c = 12 cm, C = 85°", Count.ONE),
        ("a = 4 cm, b = 10 cm, A = 50°", Count.NONE),
        # Common Core 7.G.A.2: "three measures of angles or sides … a unique triangle, more than one, or none".
        ("A = 30°, B = 60°, C = 90°", Count.MANY),
        ("a = 3 cm, b = 4 cm, c = 8 cm", Count.NONE),
    ],
)
def test_worked_examples_of_handbooks(text: str, wanted: Count) -> None:
    assert how_many(givens(text)) is wanted


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("a = 3 cm, b = 4 cm, c = 5 cm, A = 37°", "A fits the other parts only by rounding. Take it away, or change it."),
        ("a = 5 cm, b = 8.66 cm, A = 30°, B = 60°", "b fits the other parts only by rounding. Take it away, or change it."),
        ("a = x, b = 2 cm", "a is no size here. Write it like 6 cm."),
        ("a = 5", "a is no size here. Write it like 6 cm."),
        ("a = 5 cm²", "a is no size here. Write it like 6 cm."),
        ("A = 5 cm", "A is no size here. Write it like 50°."),
        ("a = 0 cm", "a is 0 or less. Write it like 6 cm."),
        ("a = -3 cm", "a is 0 or less. Write it like 6 cm."),
        ("a = 1e999 cm", "a is no size here. Write it like 6 cm."),
        ("a = 1/0 cm", "a is no size here. Write it like 6 cm."),
        ("a = 9^9^9 cm", "a is no size here. Write it like 6 cm."),
        ("a = NaN cm", "a is no size here. Write it like 6 cm."),
        ("a = 99999999999999999999 cm", "a is no size here. Write it like 6 cm."),
        ("q = 5 cm", "“q” is no part of the triangle: those are a, b, c, A, B and C."),
        ("a = 5 cm, a = 5 cm", "a is given twice."),
    ],
)  # fmt: skip
def test_a_teacher_is_told_what_cannot_be_counted(text: str, said: str) -> None:
    assert how_many(givens(text)) == said


# Computed with 50 digits by two independent routes: in centimetres and degrees.
SIX = [
    ({"A": 50, "c": 8, "B": 60}, {"a": 6.52165975277, "b": 7.37283988086, "C": 70}),
    ({"A": 35, "c": 9, "B": 110}, {"a": 9, "b": 14.7447367972, "C": 35}),
    ({"b": 7, "A": 60, "c": 5}, {"a": 6.24499799840, "B": 76.1021137520, "C": 43.8978862480}),
    ({"b": 6, "A": 40, "c": 9}, {"a": 5.85381927831, "B": 41.2114041855, "C": 98.7885958145}),
    ({"a": 6, "b": 7, "c": 8}, {"A": 46.5674634422, "B": 57.9100487437, "C": 75.5224878141}),
    ({"a": 4, "b": 5, "c": 8}, {"A": 24.1468479965, "B": 30.7535198081, "C": 125.099632195}),
]


@pytest.mark.parametrize(("known", "wanted"), SIX)
def test_the_other_parts_of_six_triangles(known: dict[str, float], wanted: dict[str, float]) -> None:
    (found,) = triangles(known)
    assert {name: found[name] for name in wanted} == pytest.approx(wanted, rel=1e-10)


def test_an_arc_that_comes_back_to_the_corner_or_just_touches_is_one_triangle() -> None:
    assert len(list(triangles({"a": 10, "b": 10, "A": 30}))) == 1
    assert len(list(triangles({"a": 5, "b": 10, "A": 30}))) == 1
    assert list(triangles({"a": 4.9, "b": 10, "A": 30})) == []
    assert list(triangles({"a": 5, "b": 6, "A": 100, "B": 80})) == list(triangles({"a": 5, "b": 6})) == []
    assert list(triangles({"A": 60, "B": 60, "C": 60})) == list(triangles({"a": 5, "A": 100, "B": 80})) == []


SIDE, ANGLE = st.integers(20, 150), st.integers(10, 170)


def in_millimetres(**parts: int) -> Givens:
    return tuple((name, f"{size} mm" if name.islower() else f"{size}°") for name, size in parts.items())


@given(SIDE, SIDE, SIDE)
@settings(max_examples=60, deadline=None)
def test_three_sides_against_two_circles(a: int, b: int, c: int) -> None:
    """Independent of any law: arcs around the ends of c, drawn by shapely."""
    assume(abs(a + b - c) > 1 and abs(a + c - b) > 1 and abs(b + c - a) > 1)
    arcs = Point(0, 0).buffer(b, 256).boundary.intersection(Point(c, 0).buffer(a, 256).boundary)
    assert (how_many(in_millimetres(a=a, b=b, c=c)) is Count.ONE) == (not arcs.is_empty)


@given(SIDE, SIDE, ANGLE)
@settings(max_examples=80, deadline=None)
def test_two_sides_and_an_angle_against_an_arc_and_a_ray(a: int, b: int, angle: int) -> None:
    """The corner C at the end of b, an arc of a around it: where it crosses the other arm is B."""
    corner = Point(b * math.cos(math.radians(angle)), b * math.sin(math.radians(angle)))
    assume(abs(a - corner.y) > 1 and abs(a - b) > 1)
    arm = LineString([(0.2, 0), (1000, 0)])
    crossed = arm.intersection(corner.buffer(a, 256).boundary)
    met = 0 if crossed.is_empty else len(getattr(crossed, "geoms", [crossed]))
    assert how_many(in_millimetres(a=a, b=b, A=angle)) is (Count.NONE, Count.ONE, Count.TWO)[met]
    assert len(list(triangles({"a": a, "b": b, "A": angle}))) == met


@given(SIDE, ANGLE, ANGLE)
@settings(max_examples=60, deadline=None)
def test_a_side_and_two_angles_against_two_rays(c: int, first: int, second: int) -> None:
    assume(first + second != 180)
    far = 1e6
    one = LineString([(0, 0), (far * math.cos(math.radians(first)), far * math.sin(math.radians(first)))])
    other = LineString(
        [(c, 0), (c - far * math.cos(math.radians(second)), far * math.sin(math.radians(second)))]
    )
    met = one.intersects(other)
    assert how_many(in_millimetres(c=c, A=first, B=second)) is (Count.ONE if met else Count.NONE)


@given(st.integers(20, 120), st.integers(20, 120), st.integers(20, 140))
@settings(max_examples=60, deadline=None)
def test_every_triple_of_a_triangle_gives_it_back(b: int, c: int, angle: int) -> None:
    """From coordinates, not from a law: B at the end of c, C at the end of b."""
    x, y = b * math.cos(math.radians(angle)), b * math.sin(math.radians(angle))
    a = math.hypot(x - c, y)
    turn = math.degrees(math.atan2(y, c - x))
    full = {"a": a, "b": b, "c": c, "A": angle, "B": turn, "C": 180 - angle - turn}
    for names in ("abc", "abC", "aBc", "Abc", "ABc", "aBC", "AbC", "ABa", "BCb", "ACc", "abA", "bcB", "acC"):
        found = list(triangles({name: full[name] for name in names}))
        near = min(found, key=lambda one: abs(one["a"] - a) + abs(one["b"] - b) + abs(one["c"] - c))
        assert near == pytest.approx(full, rel=1e-4, abs=1e-3)
