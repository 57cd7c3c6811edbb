"""The deeper look at lessons, and the figures that follow from their solutions."""

import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from tutor.figure.scene import Arc, Segment
from tutor.lesson.audit import ASK_WIDTH, audit
from tutor.lesson.model import Fault, FigurePart, FigureWords, Lesson
from tutor.lesson.picture import picture
from tutor.lesson.reader import load_lesson, read_lesson
from tutor.marking.solve import solve
from tutor.marking.task import Task
from tutor.resources import lessons_folder

HEAD = "lesson   Hoops\nformat   1\n\nproblem  Hoop\n"
ASK = "  ask      How much is it?\n"


def lesson_with(body: str, ask: str = ASK) -> Lesson:
    lesson, faults = read_lesson(HEAD + ask + body, "hoops.lesson")
    assert lesson is not None, "\n".join(map(str, faults))
    return lesson


def audited(body: str, ask: str = ASK) -> tuple[Fault, ...]:
    return audit(lesson_with(body, ask))


def shipped() -> Lesson:
    lesson, _faults = load_lesson(Path(__file__).parent / "parade.lesson")
    assert lesson is not None
    return lesson


# --- the audit --------------------------------------------------------------------


def test_every_shipped_lesson_stands_the_audit() -> None:
    paths = sorted(lessons_folder().glob("*.lesson"))
    assert paths
    for path in paths:
        lesson, faults = load_lesson(path)
        assert faults == ()
        assert lesson is not None
        assert audit(lesson) == ()


# Worked out by hand: 72/6; 8x + 20 = 180; 756/84; 53.38/6.28; (150.5 − 78.5)/2; 48 − 9 and 35 − 9.
ANSWERS = {
    "Paper strips": [("12", "")],
    "Struts": [("72", "°"), ("108", "°")],
    "Box of candles": [("9", "cm")],
    "Hoop": [("8.5", "cm")],
    "Parade loop": [("36", "m")],
    "Paper window": [("39", "cm"), ("26", "cm")],
}


def test_the_shipped_answers_are_exact() -> None:
    found = {}
    for problem in shipped().problems:
        assert isinstance(problem.task, Task)
        solution, sentences = solve(problem.task)
        assert sentences == ()
        assert solution is not None
        values = [solution.value(name) for name in problem.task.find]
        found[problem.name] = [(value.text, value.unit) for value in values if value]
    assert found == ANSWERS


REFUSED = [
    ("  equation x^2 = 81\n  find     x\n", "7:12", "more than one value"),
    ("  equation 2x = 2x + 1\n  find     x\n", "7:12", "ends with “no solution”"),
    ("  equation 2x + 1 = x + x + 1\n  find     x\n", "7:12", "ends with “all numbers”"),
    (
        "  equation 2x = x + 1\n  find     x\n  answer   no solution\n",
        "8:12",
        "does not end with “no solution”",
    ),
    ("  equation 2x = 2x + 1\n  find     x\n  answer   all numbers\n", "8:12", "not end with “all numbers”"),
    (
        "  formula  A = b h\n  given    b = 3 cm\n  find     A in cm^2\n",
        "8:12",
        "A cannot be worked out: h has no value.",
    ),
    (
        "  formula  P = 2 L + 2 W\n  given    P = 50 cm\n  given    L = 30 cm\n  find     W in cm\n",
        "9:12",
        "W comes out as 0 or less",
    ),
    (
        "  formula  A + B = 180\n  given    A = 100\n  given    B = 90\n  given    C = 2 A\n  find     C\n",
        "8:12",
        "does not agree with the other formulas and givens",
    ),
    (
        "  equation A + B = 180\n  equation A - B = 20\n  equation A = 2 B\n  find     A and B\n",
        "8:12",
        "does not agree with the other formulas and givens",
    ),
    (
        "  formula  SA = 6 s^2\n  given    s = 5 cm\n  find     SA in cm\n",
        "6:12",
        "sets a length and an area equal",
    ),
    (
        "  formula  V = L W H\n  given    V = 420 cm^3\n  given    L = 10 cm\n  given    H = 6 cm\n"
        "  find     W in cm^2\n",
        "6:12",
        "sets a volume and a length multiplied 4 times equal",
    ),
    (
        "  figure   rectangle, length L, width W\n  formula  A = L W\n  given    A = 18 cm^2\n"
        "  given    L = 9 cm\n  find     W\n",
        "10:12",
        "no unit is asked for",
    ),
    (
        "  figure   angles, first A, second B\n  formula  A + B = 170\n  given    A = 3x + 12\n"
        "  given    B = 5x - 2\n  find     A and B in °\n",
        "6:12",
        "180°",
    ),
    (
        "  figure   circle, radius r\n  formula  C = 2 d\n  given    C = 6 cm\n  given    r = 2 k\n"
        "  find     d in cm\n",
        "6:12",
        "nothing tells how large r must be",
    ),
]


@pytest.mark.parametrize(("body", "place", "message"), REFUSED)
def test_what_the_audit_refuses(body: str, place: str, message: str) -> None:
    (fault,) = audited(body)
    assert f"{fault.line}:{fault.column}" == place
    assert message in fault.message


@pytest.mark.parametrize(
    "body",
    [
        "  equation 2(x + 1) = 2x + 3\n  find     x\n  answer   no solution\n",
        "  equation 2(x + 1) = 2x + 2\n  find     x\n  answer   All numbers\n",
        "  formula  A = b h / 2\n  given    A = 18 cm^2\n  given    b = 9 cm\n  find     h in cm\n",
        "  formula  a^2 + b^2 = c^2\n  given    c = 13 cm\n  given    a = 5 cm\n  find     b in cm\n",
        "  formula  d = 60 t\n  given    t = 2 h\n  find     d in km\n",
        "  formula  V = 4 A\n  given    A = 12 m^2\n  find     V in L\n",
        "  formula  P = 2 L + 2 W\n  given    P = 50 cm\n  given    L = 0.2 m\n  find     W in cm\n",
        "  formula  A = pi r^2\n  given    r = 5 cm\n  find     A in cm^2\n",
        "  formula  A = s^2\n  given    A = 81 cm^2\n  find     s in cm\n",
    ],
)
def test_what_the_audit_lets_pass(body: str) -> None:
    assert audited(body) == ()


def test_a_word_too_long_for_the_question_is_refused() -> None:
    body = "  equation 2x = 6\n  find x\n"
    assert audited(body, f"  ask      Cut {'w' * ASK_WIDTH} now.\n") == ()
    (fault,) = audited(body, f"  ask      Cut {'w' * (ASK_WIDTH + 1)} now.\n")
    assert (fault.line, fault.text.strip()[:3]) == (5, "ask")
    (fault,) = audited(body, f"  ask      Cut {'灯' * 19} now.\n")
    assert "fits on no line" in fault.message


def test_the_audit_tells_of_each_problem_in_the_order_of_the_file() -> None:
    text = "  equation x^2 = 81\n  find x\n\nproblem  Next\n  ask ?\n  equation y = y\n  find y\n"
    assert [fault.line for fault in audited(text)] == [7, 12]


def test_mathematics_that_cannot_be_read_is_pointed_at_when_the_lesson_is_read() -> None:
    text = HEAD + ASK + "  formula  C = 2 pi +\n  given    r = 5 )cm\n  find     C in cm\n"
    lesson, faults = read_lesson(text, "hoops.lesson")
    assert lesson is None
    assert [(fault.line, fault.column) for fault in faults] == [(6, 22), (7, 18)]


# --- the picture ------------------------------------------------------------------


def test_the_hoop_is_drawn_with_the_radius_that_is_to_be_found() -> None:
    (hoop,) = (problem for problem in shipped().problems if problem.name == "Hoop")
    scene, why = picture(hoop, {"C": "53.38 cm", "r": "?"})
    assert why == ""
    assert scene is not None
    (arc,) = (shape for shape in scene.shapes if isinstance(shape, Arc))
    assert arc.radius == pytest.approx(8.5)
    assert {label.role: label.text for label in scene.labels} == {
        "radius": "r = ?",
        "circumference": "C = 53.38 cm",
    }


def test_before_anything_is_typed_the_parts_bear_their_names() -> None:
    (box,) = (problem for problem in shipped().problems if problem.name == "Box of candles")
    scene, _why = picture(box, {})
    assert scene is not None
    assert {label.text for label in scene.labels} == {"L", "W", "H", "V"}


def test_a_figure_in_two_units_is_drawn_in_one() -> None:
    lesson = lesson_with(
        "  figure   rectangle, length L, width W, area A\n  formula  A = L W\n  given    A = 0.06 m^2\n"
        "  given    L = 30 cm\n  find     W in cm\n"
    )
    scene, why = picture(lesson.problems[0], {})
    assert why == ""
    assert scene is not None
    sides = [shape for shape in scene.shapes if isinstance(shape, Segment)]
    lengths = {round(abs(side.end.x - side.start.x) + abs(side.end.y - side.start.y), 6) for side in sides}
    assert lengths == {30.0, 20.0}


def test_a_problem_without_a_figure_has_no_picture_and_no_complaint() -> None:
    assert picture(shipped().problems[0], {}) == (None, "")


def test_a_picture_of_what_cannot_be_worked_out_is_a_sentence() -> None:
    (hoop,) = (problem for problem in shipped().problems if problem.name == "Hoop")
    assert isinstance(hoop.task, Task)
    scene, why = picture(replace(hoop, task=replace(hoop.task, givens=())), {})
    assert scene is None
    assert "cannot be worked out" in why
    nameless = FigureWords("circle", (FigurePart("radius", "q"),))
    scene, why = picture(replace(hoop, figure=nameless), {})
    assert scene is None
    assert "how large q must be" in why


def test_lessons_are_read_and_audited_without_sympy() -> None:
    code = (
        "import sys; from tutor.lesson.audit import audit; from tutor.lesson.shelf import shelf;"
        "from tutor.resources import lessons_folder;"
        "assert [audit(entry.lesson) for entry in shelf([lessons_folder()])];"
        "assert 'sympy' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
