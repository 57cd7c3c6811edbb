"""What the work tells by itself: values on lines of their own, formulas below them, words, sentences.

Common practice, no source: the numbers are our own.
"""

import pytest

from tutor.marking.task import Task
from tutor.marking.verdict import UnitsState, Verdict
from tutor.marking.working import mark_lines
from tutor.quantity.pi import Pi

F, B, N, R, U = Verdict.FOLLOWS, Verdict.BREAKS, Verdict.NOTE, Verdict.ROUNDS, Verdict.UNDECIDED
UNREAD = Verdict.UNREAD

RECTANGLE = Task(("A = l w",), (("l", "12 cm"), ("w", "5 cm")), ("A",), ("cm^2",))
FORMULA = Task(("P = 2l + 2w",), (), ("P",), ("m",))
CIRCLE = Task(("A = pi r^2",), (("r", "5 cm"),), ("A",), ("cm^2",), Pi.DECIMAL)
TRIANGLE = Task(("A = 1/2 b h",), (("b", "10 cm"), ("h", "7 cm")), ("A",), ("cm^2",))
L_SHAPE = Task(("A = l w + s^2",), (("l", "8 cm"), ("w", "5 cm"), ("s", "3 cm")), ("A",), ("cm^2",))

ROWS: list[tuple[str, Task, list[tuple[str, Verdict]]]] = [
    # -- values told by the work ------------------------------------------------------------------
    ("givens on one line", FORMULA, [("l = 12 m, w = 5 m", F), ("P = 2(12) + 2(5)", F), ("P = 34 m", F)]),
    ("another number than was told", FORMULA, [("l = 12 m, w = 5 m", F), ("P = 2(13) + 2(5)", B)]),
    ("no formula in the task", Task(find=("P",)), [
        ("l = 12 m, w = 5 m", F), ("P = 2l + 2w", F), ("P = 2(13 m) + 2(5 m)", B), ("P = 34 m", F)]),
    ("one to a line, and what is asked for on the right", Task(find=("s",)), [
        ("P = 50 cm", F), ("P = 4s", F), ("50 = 4s", F), ("s = 12.5 cm", F)]),
    ("a value that nothing tells", Task(find=("a", "c")), [("a = 65°", F), ("c = 115°", U)]),
    ("a letter that changed", Task(find=("x",)), [("2x + 3 = 7", F), ("2y = 4", B), ("y = 2", Verdict.CARRIES)]),
    ("a diameter that is known", Task(("n = d/C", "C = 2 pi r"), (("d", "880 m"), ("r", "0.35 m")), ("n",),
        pi=Pi.FRACTION), [("C = 2 × 22/7 × 0.35 = 2.2", F), ("n = 880/3.2", B), ("n = 880/2.2", F)]),
    # -- lines that go on, parts, both cases ------------------------------------------------------
    ("numbers put in behind =", Task(find=("A",)), [("A = πr²", F), ("= 22/7 × 14 × 14", F), ("= 616", F)]),
    ("parts of a figure", Task(find=("A",)), [
        ("A₁ = 8 × 5 = 40", F), ("A₂ = 3 × 4 = 12", F), ("A = A₁ + A₂ = 52", F)]),
    ("a part worked out wrong", Task(find=("A",)), [("A₁ = 8 × 5 = 40", F), ("A₂ = 3 × 4 = 13", B)]),
    ("an a and an A", Task(find=("A",)), [
        ("a = 8 cm, b = 14 cm, h = 5 cm", F), ("A = ½(a + b)h", F), ("A = ½(8 + 14) × 5", F)]),
    ("ends of sides", Task(find=("AC",)), [
        ("AC² = AB² + BC²", F), ("AC² = 5² + 12²", F), ("AC² = 169", F), ("AC = 13", F)]),
    ("a length squared", Task(find=("x",)), [("x² + 6² = 10²", F), ("x² = 64", F), ("x = 8", F)]),
    ("a number squared", Task(find=("x",)), [("x² = 64", F), ("x = 8", B)]),
    ("rounded in the first line", Task(find=("A",)), [("A = ½ × π × 5² ≈ 39.27", F)]),
    ("rounded wrong in the first line", Task(find=("A",)), [("A = ½ × π × 5² ≈ 39.72", B)]),
    ("letters of another figure", Task(find=("V",)), [
        ("V_a = πr²h ≈ 3.14 · 3² · 10 ≈ 282.6", F), ("V_b = ⅓πr²h ≈ ⅓ · 3.14 · 3² · 4 ≈ 37.68", F),
        ("V = 282.6 + 37.68 = 320.28 cm³", F)]),
    ("a part put in wrong", Task(find=("A",)), [
        ("A_1 = 8 × 5 = 40", F), ("A_2 = 3 × 4 = 12", F), ("A = A_1 + A_2 = 40 + 13 = 53", B)]),
    ("words that go on, and a wrong number", Task(find=("A",)), [
        ("Area of circle = π × radius²", F), ("= 3.14 × 5²", F), ("= 157 cm²", B)]),
    # -- words ------------------------------------------------------------------------------------
    ("the formula in words", RECTANGLE, [("Area = length × width", F), ("Area = 12 × 5", F), ("= 60 cm²", F)]),
    ("the wrong formula in words", RECTANGLE, [("Area = length + width", B)]),
    ("the half left out in words", TRIANGLE, [("Area of triangle = base × height", B)]),
    ("words and a wrong number", CIRCLE, [("Area of circle = 3.14 × 6²", B)]),
    ("half in words", TRIANGLE, [("Area = ½ × (one side) × height", N), ("= ½ × 10 × 7", F), ("= 35 cm²", F)]),
    ("a part in words", L_SHAPE, [("Area of square = 3 × 3 = 9", F), ("A = 8 × 5 + 9", F), ("A = 49 cm²", F)]),
    ("a part in words, wrong", L_SHAPE, [("Area of square = 3 × 3 = 6", B)]),
    ("a word that is mistyped", RECTANGLE, [("lenght = 12", UNREAD)]),
    ("a reason behind", Task(find=("x",)), [("x + 40° = 115° (ext. ∠ of △)", F), ("x = 75° (given)", F)]),
    ("how exactly", Task(find=("c",)), [("c = √74", F), ("c = 8.6 (1 d.p.)", R)]),
    ("how exactly, and not so", Task(find=("c",)), [("c = √74", F), ("c = 8.7 (1 d.p.)", B)]),
    # -- sentences --------------------------------------------------------------------------------
    ("the answer in a sentence", RECTANGLE, [("A = 60", F), ("The area is 60 cm².", F)]),
    ("another answer in a sentence", RECTANGLE, [("A = 60", F), ("The area is 70 cm².", B)]),
    ("another unit in a sentence", RECTANGLE, [("A = 60", F), ("The area is 60 cm.", B)]),
    ("another size in a sentence", RECTANGLE, [("A = 60", F), ("It covers 60 m².", B)]),
    ("a sentence about something else", RECTANGLE, [("A = 60", F), ("The garden has 4 sides.", N)]),
]  # fmt: skip


@pytest.mark.parametrize(("task", "rows"), [pytest.param(task, rows, id=name) for name, task, rows in ROWS])
def test_verdicts(task: Task, rows: list[tuple[str, Verdict]]) -> None:
    work = mark_lines(task, [text for text, _ in rows])
    said = [(line.text, line.mark.verdict.value) for line in work.lines]
    assert said == [(text, verdict.value) for text, verdict in rows], [
        line.mark.message for line in work.lines
    ]


def test_a_sentence_finishes_the_work_and_tells_the_unit() -> None:
    work = mark_lines(RECTANGLE, ["A = 12 × 5", "The area is 60 cm²."])
    assert work.progress.finished and work.progress.units is UnitsState.RIGHT
    work = mark_lines(RECTANGLE, ["A = 12 × 5", "The area is 60 cm."])
    assert work.progress.units is UnitsState.WRONG_DIMENSION


def test_litres_below_lengths() -> None:
    task = Task(("V = l w h",), (("l", "80 cm"), ("w", "35 cm"), ("h", "40 cm")), ("V",), ("L",))
    work = mark_lines(task, ["V = 80 × 35 × 40", "V = 112,000 cm³", "V = 112 l"])
    assert work.progress.units is UnitsState.RIGHT
    told = mark_lines(Task(find=("V",)), ["l = 80 cm, w = 35 cm, h = 40 cm", "V = lwh", "V = 112 L"])
    assert [line.mark.verdict for line in told.lines] == [F, F, F]
