"""Shapes to choose among: each is what its word says, and the letters tell them apart."""

import math
from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tutor.figure.candidates import DRAWABLE, MOST, draw_candidates, is_drawable
from tutor.figure.scene import Arc, Curve, Point, Scene, Segment, Shape
from tutor.figure.svg import to_svg
from tutor.figure.terminal import to_terminal


def candidates(*words: str) -> Scene:
    scene, sentence = draw_candidates(words)
    assert scene is not None, sentence
    return scene


def of(scene: Scene, letter: str) -> list[Shape]:
    return [shape for shape in scene.shapes if shape.role == letter]


def corners(word: str) -> list[Point]:
    """Return the corners of a shape of straight sides, each one once."""
    sides = [shape for shape in candidates(word).shapes if isinstance(shape, Segment)]
    return [side.start for side in sides if side.pen.value != "measure"]


def sides_of(points: Sequence[Point]) -> list[float]:
    return [distance(a, b) for a, b in zip(points, (*points[1:], points[0]), strict=True)]


def distance(a: Point, b: Point) -> float:
    return math.dist((a.x, a.y), (b.x, b.y))


def turns_of(points: Sequence[Point]) -> list[float]:
    """Return the inner angles, degrees, by the law of cosines."""
    found = []
    for index, at in enumerate(points):
        before, after = points[index - 1], points[(index + 1) % len(points)]
        a, b, c = distance(at, before), distance(at, after), distance(before, after)
        found.append(math.degrees(math.acos((a * a + b * b - c * c) / (2 * a * b))))
    return found


# Definitions as school books have them; common practice, no source.


@pytest.mark.parametrize(
    ("word", "count"),
    [
        ("triangle", 3),
        ("equilateral triangle", 3),
        ("square", 4),
        ("rectangle", 4),
        ("trapezoid", 4),
        ("parallelogram", 4),
        ("rhombus", 4),
        ("kite", 4),
        ("pentagon", 5),
        ("hexagon", 6),
        ("octagon", 8),
    ],
)
def test_a_shape_has_as_many_corners_as_its_word_says(word: str, count: int) -> None:
    assert len(corners(word)) == count


@pytest.mark.parametrize("word", ["equilateral", "square", "rhombus", "pentagon", "hexagon", "octagon"])
def test_these_have_equal_sides(word: str) -> None:
    first, *others = sides_of(corners(word))
    assert others == pytest.approx([first] * len(others))


@pytest.mark.parametrize("word", ["triangle", "scalene", "rectangle", "parallelogram", "trapezoid", "kite"])
def test_these_must_not_be_taken_for_a_more_regular_one(word: str) -> None:
    sides = sides_of(corners(word))
    assert max(sides) > 1.1 * min(sides)


def test_triangles_have_the_angles_of_their_words() -> None:
    assert max(turns_of(corners("acute triangle"))) < 85
    assert max(turns_of(corners("obtuse triangle"))) > 95
    assert max(turns_of(corners("right triangle"))) == pytest.approx(90)
    assert turns_of(corners("equilateral")) == pytest.approx([60] * 3)
    for word in ("triangle", "scalene", "isosceles"):
        assert max(turns_of(corners(word))) < 88 or max(turns_of(corners(word))) > 92
    a, b, _c = turns_of(corners("isosceles"))
    assert a == pytest.approx(b)


def test_four_corners_have_the_angles_of_their_words() -> None:
    for word in ("square", "rectangle"):
        assert turns_of(corners(word)) == pytest.approx([90] * 4)
    for word in ("rhombus", "parallelogram", "trapezoid", "kite"):
        assert all(abs(turn - 90) > 5 for turn in turns_of(corners(word)))


def slopes(word: str) -> list[float]:
    lines = [shape for shape in candidates(word).shapes if isinstance(shape, Segment)]
    return [
        math.degrees(math.atan2(line.end.y - line.start.y, line.end.x - line.start.x))
        for line in lines
        if line.pen.value == "edge"
    ]


def test_lines_and_angles_meet_as_their_words_say() -> None:
    a, b = slopes("parallel lines")
    assert a == pytest.approx(b)
    a, b = slopes("perpendicular lines")
    assert abs(a - b) == pytest.approx(90)
    a, b = slopes("crossing lines")
    assert 5 < abs(a - b) < 85
    for word, low, high in (("acute angle", 5, 85), ("right angle", 90, 90), ("obtuse angle", 95, 175)):
        a, b = slopes(word)
        assert low - 1e-9 <= abs(a - b) <= high + 1e-9


def test_round_shapes_are_round() -> None:
    [circle] = candidates("circle").shapes
    assert isinstance(circle, Arc)
    assert circle.sweep == 360
    [oval] = candidates("oval").shapes
    assert isinstance(oval, Curve)
    bounds = candidates("oval").bounds()
    assert bounds.width > 1.3 * bounds.height


# --- beside each other

LISTS = st.lists(st.sampled_from(sorted(DRAWABLE)), min_size=1, max_size=MOST)


@settings(deadline=None, max_examples=60)
@given(words=LISTS, columns=st.integers(30, 90), rows=st.integers(9, 30), plain=st.booleans())
def test_every_shape_is_there_with_its_letter_under_it(
    words: list[str], columns: int, rows: int, plain: bool
) -> None:
    scene = candidates(*words)
    letters = "ABCDEFGH"[: len(words)]
    assert [label.text for label in scene.labels] == list(letters)
    found = "\n".join(to_terminal(scene, columns, rows, plain=plain))
    assert all(found.count(letter) == 1 for letter in letters)
    for label in scene.labels:
        bounds = Scene("", tuple(of(scene, label.role))).bounds()
        [spot] = label.spots
        assert spot.at.y < bounds.bottom
        assert spot.at.x == pytest.approx((bounds.left + bounds.right) / 2)


@pytest.mark.parametrize("plain", [False, True])
def test_a_point_alone_is_drawn(plain: bool) -> None:
    rows = to_terminal(candidates("point"), 30, 9, plain=plain)
    assert len(rows) > 1
    assert rows[-1].strip() == "A"


@given(words=LISTS)
def test_shapes_lie_apart(words: list[str]) -> None:
    scene = candidates(*words)
    boxes = [Scene("", tuple(of(scene, label.role))).bounds() for label in scene.labels]
    for index, box in enumerate(boxes):
        assert max(box.width, box.height) <= 1.05
        for other in boxes[:index]:
            aside = max(box.left - other.right, other.left - box.right)
            above = max(box.bottom - other.top, other.bottom - box.top)
            assert max(aside, above) > 0.2


def test_four_stand_in_a_row_with_their_letters_level() -> None:
    rows = to_terminal(candidates("triangle", "circle", "crossing lines", "point"), 60, 9)
    assert [row.split() for row in rows if "A" in row] == [["A", "B", "C", "D"]]


def test_capitals_and_other_words_for_the_same_are_understood() -> None:
    assert is_drawable(["Square", " half  circle "])
    assert candidates("trapezium").shapes == candidates("trapezoid").shapes


@pytest.mark.parametrize("words", [[], ["triangle"], ["triangle", "blob"], ["circle"] * 9])
def test_what_cannot_be_drawn_beside_each_other_is_known(words: list[str]) -> None:
    assert not is_drawable(words)


def test_a_word_without_a_drawing_is_named() -> None:
    scene, sentence = draw_candidates(["circle", "blob" * 30])
    assert scene is None
    assert "blobblob" in sentence
    assert "trapezoid" in sentence
    assert len(sentence) < 700
    scene, sentence = draw_candidates(["circle"] * 9)
    assert scene is None
    assert "not 9" in sentence


def test_they_are_drawn_on_paper_too() -> None:
    svg = to_svg(candidates("oval", "right angle", "half circle"), millimetres_per_unit=20)
    assert all(f">{letter}</text>" in svg for letter in "ABC")
