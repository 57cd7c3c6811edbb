"""Figures as lessons write them: every example reads and draws, and mistakes are named."""

import re
from collections.abc import Mapping
from dataclasses import replace

import pytest

from tutor.figure.examples import EXAMPLES
from tutor.figure.kinds import FIGURE_KINDS, FIGURE_WORDS, is_angle, kind_called
from tutor.figure.scene import Pen, Segment, Shade
from tutor.lesson.model import Fault, Lesson, Problem
from tutor.lesson.picture import choices, picture
from tutor.lesson.reader import read_lesson

HEAD = "lesson   Hoops\nformat   1\ngrade    7\n\nproblem  One\n  ask      Which one is it?\n"
CHOICE = "  choose   triangle, square, circle\n  answer   square\n"


def read(body: str) -> tuple[Lesson | None, tuple[Fault, ...]]:
    return read_lesson(HEAD + body, "hoops.lesson")


def problem(body: str) -> Problem:
    lesson, faults = read(body)
    assert lesson is not None, [str(fault) for fault in faults]
    return lesson.problems[0]


def fault(body: str) -> Fault:
    lesson, faults = read(body)
    assert lesson is None
    return next(found for found in faults if found.text.startswith("  figure"))


def named(kind: str) -> Mapping[str, str]:
    """Return role -> name as the example of a kind has them."""
    pieces = [piece for piece in EXAMPLES[kind].entry.split(", ")[1:] if piece not in FIGURE_WORDS[kind]]
    return {piece.rpartition(" ")[0]: piece.rpartition(" ")[2] for piece in pieces}


def unit_of(kind: str, role: str) -> str:
    if is_angle(kind, role):
        return "°"
    faces = {"front", "back", "top", "bottom", "right", "left"} if kind.endswith(" net") else set()
    if "area" in role or role == "surface" or role in faces:
        return "cm^2"
    return "cm^3" if role == "volume" else "cm"


@pytest.mark.parametrize("kind", FIGURE_KINDS)
def test_the_example_of_each_kind_reads_and_draws(kind: str) -> None:
    assert EXAMPLES[kind].entry.split(", ")[0] == kind
    assert set(named(kind)) <= set(FIGURE_KINDS[kind])
    sizes = EXAMPLES[kind].sizes
    givens = "".join(
        f"  given    {name} = {sizes.get(role, 1)} {unit_of(kind, role)}\n"
        for role, name in named(kind).items()
    )
    found = problem(f"  figure   {EXAMPLES[kind].entry}\n{givens}{CHOICE}")
    assert found.figure is not None
    assert found.figure.kind == kind
    assert [part.role for part in found.figure.parts if not part.name] == [
        word for word in FIGURE_WORDS[kind] if f", {word}" in EXAMPLES[kind].entry
    ]
    # With no given at all it is drawn in its usual shape.
    scene, why = picture(replace(found, givens=()), {})
    assert scene is not None, why
    assert {label.text for label in scene.labels} == set(named(kind).values())


def test_a_word_alone_reaches_the_figure() -> None:
    body = "  figure   Pyramid, base a, height h, Cut Across\n  given    a = 8 cm\n  given    h = 9 cm\n"
    scene, why = picture(problem(body + CHOICE), {"a": "8 cm"})
    assert why == ""
    assert scene is not None
    assert any(isinstance(shape, Shade) for shape in scene.shapes)
    assert {label.text for label in scene.labels} == {"a = 8 cm", "h = 9 cm"}


def test_a_figure_of_a_choice_is_drawn_from_its_givens_in_one_unit() -> None:
    body = "  figure   rectangle, length L, width W\n  given    L = 0.5 m\n  given    W = 20 cm\n"
    scene, _why = picture(problem(body + CHOICE), {})
    assert scene is not None
    sides = [shape for shape in scene.shapes if isinstance(shape, Segment)]
    wide, high = scene.bounds().width, scene.bounds().height
    assert len(sides) == 4
    assert wide / high == pytest.approx(2.5)


def test_a_figure_of_a_choice_that_cannot_be_is_refused() -> None:
    body = "  figure   box, length L, width W\n  given    L = 5 cm\n  given    W = 2 cm\n"
    scene, why = picture(problem(body + CHOICE), {})
    assert scene is None
    assert "height must be known" in why


def test_options_that_can_be_drawn_are_drawn_beside_each_other() -> None:
    scene = choices(problem(CHOICE))
    assert scene is not None
    assert [label.text for label in scene.labels] == ["A", "B", "C"]
    assert choices(problem("  choose   true, false\n  answer   true\n")) is None
    assert choices(problem("  equation 2x = 6\n  find     x\n")) is None


@pytest.mark.parametrize(
    ("entry", "message", "instead"),
    [
        ("piramid, base a", "There is no figure", "figure   pyramid"),
        ("pyramid base a", "Commas stand between", "figure   pyramid, base a"),
        ("triangle angle, left a", "There is no figure", "figure   triangle angles"),
        ("pyramid, cut accross", "nobody can say “cut accross”", "cut across"),
        ("sphere, cut off a corner", "has no part", ""),
        ("pyramid, bas a", "has no part “bas”", "base a"),
        ("pyramid, base", "The base has no name here", "base and the letter"),
        ("pyramid, cut across, cut across", "named twice", ""),
        ("pyramid, base q", "“q” is no name of this problem", "base and one of a"),
        ("strip, radius a, 10 sectors", "10 sectors", "6 sectors"),
    ],
)
def test_a_mistake_in_a_figure_gets_its_message(entry: str, message: str, instead: str) -> None:
    found = fault(f"  figure   {entry}\n  given    a = 8 cm\n{CHOICE}")
    assert message in found.message
    assert instead in found.instead


def test_kinds_are_found_in_capitals_or_not() -> None:
    assert [kind_called(kind.upper()) for kind in FIGURE_KINDS] == list(FIGURE_KINDS)
    assert kind_called(" box   NET ") == "box net"
    assert kind_called("blob") == ""


def test_the_parts_that_are_angles_are_known() -> None:
    assert is_angle("triangle", "left angle")
    assert is_angle("crossing", "top")
    assert not is_angle("triangle", "left side")
    assert not is_angle("rectangle", "length")


# --- the line where the pieces of an area meet ---------------------------------------------------

HALL = (
    "  figure   L-shape, length a, width b, notch length c, notch width d, top e, right f\n"
    "  formula  e = a - c\n  formula  f = b - d\n{formula}"
    "  given    a = 40 m\n  given    b = 26 m\n  given    c = 14 m\n  given    d = 10 m\n{find}"
)


@pytest.mark.parametrize(
    ("formula", "find", "dashed"),
    [
        ("  formula  P = a + b + c + d + e + f\n", "  find     P in m\n", 0),
        ("", "  find     e and f in m\n", 0),
        ("  formula  A = a f + e d\n", "  find     A in m^2\n", 1),
        # The area is on the way to the price, and nothing asks for it.
        ("  formula  A = a f + e d\n  formula  p = 3 A\n", "  find     p in $\n", 1),
    ],
)
def test_pieces_are_shown_where_an_area_is_worked_out(formula: str, find: str, dashed: int) -> None:
    scene, why = picture(problem(HALL.format(formula=formula, find=find)), {})
    assert scene is not None, why
    strokes = [shape for shape in scene.shapes if isinstance(shape, Segment) and shape.pen is Pen.HIDDEN]
    assert len(strokes) == dashed


@pytest.mark.parametrize(
    ("entry", "formula", "dashed"),
    [
        ("T-shape, bar length a, bar width b, stem width c, stem length d", "P = 2 a + 2 b + 2 d", 0),
        ("rectangle with triangle, length a, width b, side d", "P = a + 2 b + 2 d", 0),
        ("rectangle with half circle, length a, width b, bow d", "P = a + 2 b + d", 0),
        # Its height and its radius stand on that line.
        ("rectangle with triangle, length a, width b, height c", "P = a + b + c", 2),
        ("rectangle with half circle, length a, width b, radius r", "P = a + 2 b + 3.14 r", 1),
    ],
)
def test_the_way_round_is_drawn_without_the_line_across(entry: str, formula: str, dashed: int) -> None:
    givens = "  given    a = 8 cm\n  given    b = 3 cm\n  given    c = 3 cm\n  given    d = 6 cm\n  given    r = 4 cm\n"
    used = "".join(row + "\n" for row in givens.splitlines() if re.search(rf"\b{row.split()[1]}\b", entry))
    scene, why = picture(problem(f"  figure   {entry}\n  formula  {formula}\n{used}  find     P in cm\n"), {})
    assert scene is not None, why
    strokes = [shape for shape in scene.shapes if isinstance(shape, Segment) and shape.pen is Pen.HIDDEN]
    assert len(strokes) == dashed
