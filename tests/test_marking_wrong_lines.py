"""Wrong lines that stood, right lines that broke, reasons that were not true: found by an own oracle.

The lines were made at random, several thousand of each kind, and weighed with exact arithmetic of
their own and with sympy; what differed from the mark stands here, with its like.
"""

import pytest
from marking_cases import LETTERS, SUM, X

from tutor.marking.task import Task
from tutor.marking.verdict import Reason, Verdict
from tutor.marking.working import mark_lines

# Lines with " ; " between them, and the letter of each verdict.
VERDICTS: tuple[tuple[str, str], ...] = (
    # Both cases of bars, as every book writes them; what a case supposes is left for the check.
    ("FFFF", "|x − 1| = 2x ; x − 1 = 2x or x − 1 = −2x ; x = −1 or x = 1/3 ; x = 1/3"),
    ("FFB", "|x − 1| = 2x ; x − 1 = 2x or x − 1 = −2x ; x = −1 or x = 1/3"),
    ("FFF", "|x − 1| = 2x ; x − 1 = ±2x ; x = 1/3"),
    (
        "FFFFF",
        "|3x + 9| = 3x + 8 ; 3x + 9 = 3x + 8 or 3x + 9 = −(3x + 8) ; 6x = −17 ; x = −17/6 ; no solution",
    ),
    ("FB", "|x| = −3 ; x = 3 or x = −3"),
    ("FB", "|2x + 1| = −3 ; 2x + 1 = −3 or 2x + 1 = 3"),
    ("FB", "|x − 1| = 2x ; x − 1 = 2x or x + 1 = −2x"),
    # A list with a case that cannot be.
    ("FFF", "|−4 − x| = |x + 2| ; −4 − x = x + 2, −4 − x = −(x + 2) ; x = −3"),
    ("FFF", "|x| = x + 4 ; x = x + 4, x = −(x + 4) ; x = −2"),
    ("FB", "2x = 6 ; x = 3, 3 = 4"),
    # One branch written twice.
    ("FFFB", "x⁴ − 5x² + 4 = 0 ; (x² − 1)(x² − 4) = 0 ; x² = 1 or x² = 4 ; x = ±1 or x = ±1"),
    ("FFFF", "x⁴ − 5x² + 4 = 0 ; (x² − 1)(x² − 4) = 0 ; x² = 1 or x² = 4 ; x = ±1 or x = ±2"),
    # Not compared with what is known, but false at the only value.
    ("FB", "4d² = 81 ; d^12 = 81/4"),
    ("FB", "2x + 5 = 11 ; 2x^20 + 5 = 11"),
    ("FB", "3x = 2 ; x = 6.6660…"),
    ("FB", "3x = 2 ; x = 0.667…"),
    ("FR", "3x = 2 ; x = 0.666…"),
    # Rounded twice.
    ("FRB", "x = 2.445 ; x ≈ 2.45 ; x ≈ 2.5"),
    ("FRR", "x = 2.445 ; x ≈ 2.45 ; x ≈ 2.4"),
    ("FRB", "x = 17/7 ; x ≈ 2.43 ; x ≈ 2.5"),
)


@pytest.mark.parametrize(("verdicts", "text"), VERDICTS, ids=[text for _, text in VERDICTS])
def test_verdicts(verdicts: str, text: str) -> None:
    lines = mark_lines(X, [line.replace("d", "x") for line in text.split(" ; ")]).lines
    assert [line.mark.verdict for line in lines] == [LETTERS[letter] for letter in verdicts]


# The line above, the broken line, and what must not be said of it (or the reason that has to be).
NOT_SAID: tuple[tuple[str, str, str], ...] = (
    ("7x + 4 = 7x + 4", "4 + 7x = 2x − 4", "one more"),
    ("3x − 1 < 5 or 2x + 3 > 13", "x < 2 or x > 15", "one more"),
    ("x^4 − 5x^2 + 4 = 0", "(x^2 − 1)(x^2 + 4) = 0", "one more"),
    ("−10 + x < x − 3", "x + 21 1/2 < 35/2 + x", "multiplied by"),
    ("0 ≤ x^2", "x ≥ 0", "halved"),
    ("3/x = 1/4", "x/13 = 4/1", "(1/39)"),
    ("10/x = x", "5(x + 3) = 5(x/10 + 3)", "0.5x²"),
    ("1/4 + 1/6 = 1/x", "12x(1/4 + 1/6) = 12x + 1/x", "12x² + 1"),
)


@pytest.mark.parametrize(("above", "line", "false"), NOT_SAID, ids=[line for _, line, _ in NOT_SAID])
def test_a_reason_says_nothing_false(above: str, line: str, false: str) -> None:
    mark = mark_lines(X, [above, line]).lines[1].mark
    assert mark.reason is not None and mark.reason is not Reason.SYNTAX
    assert false not in mark.message


# What a slip must not be told of: the task, the lines, and the name of the slip.
RECTANGLE = Task(("A = l w",), (("l", "5 cm"), ("w", "4 cm")), ("A",), ("cm^2",))
BLOCK = Task(("V = l w h",), (("l", "6 cm"), ("w", "2 cm"), ("h", "6 cm")), ("V",), ("cm^3",))
INTEREST = Task(("I = P r t",), (("P", "$800"), ("r", "5%"), ("t", "2")), ("I",))
NO_SLIP: tuple[tuple[Task, str, str], ...] = (
    (RECTANGLE, "A = l w ; A = 5 · 4 ; A = 10 cm²", "two-sides-only-perimeter"),
    (BLOCK, "V = lwh ; V = 12 · 6 ; V = 36 cm³", "perimeter-given-for-area"),
    (INTEREST, "I = 800 × 5% × 2 ; I = 160", "early-rounding"),
    (SUM, "(4 + √3)(4 − √3) ; 4² − (√3)² ; 16", "perimeter-given-for-area"),
    (SUM, "2 yd² = 4 · 9 ft² = 18 ft²", "two-sides-only-perimeter"),
    (SUM, "3 ft = 3 + 12 in = 36 in", "running-equals"),
    (SUM, "√72 = √36 = 6√2", "running-equals"),
    (SUM, "90/18 = 5/2", "running-equals"),
    (SUM, "(−3)^3 = 27", "volume-as-visible-faces"),
    (SUM, "(−6)^3 = 216", "volume-as-visible-faces-doubled"),
    (SUM, "4 − 4 = 8", "leg-squares-added-for-leg"),
    (SUM, "16 − 1 = 17", "leg-squares-added-for-leg"),
    (X, "2/3 x = 18 ; 3/2 · 2/3 x = 3/2 · 18 ; 1x = 54/1", "triangle-half-forgotten"),
    (X, "1 2/5 − x = 14 ; x + 1.4 = 14", "coefficient-removed-one-side-only"),
)


@pytest.mark.parametrize(("task", "text", "name"), NO_SLIP, ids=[text for _, text, _ in NO_SLIP])
def test_no_slip_is_told_that_cannot_be_meant(task: Task, text: str, name: str) -> None:
    mark = mark_lines(task, text.split(" ; ")).lines[-1].mark
    assert mark.verdict is Verdict.BREAKS
    assert mark.slip != name and mark.reason is not Reason.RUN_ON


# The line that goes on, or lists values, and the part of it that is told.
PARTS: tuple[tuple[Task, str, str], ...] = (
    (SUM, "12 − 6√7 − 8√7 + 4 · 7 ; 12 − 6√7 − 8√7", "12 − 6√7 − 8√7"),
    (SUM, "(5x + 3) − (2x − 7) ; = 5x + 3 − 2x + 7 ; = 3x + 4", "4"),
    (RECTANGLE, "A = l w ; l = 5 cm, w = 9 cm", "9 cm"),
    (X, "3x − 4 = 11 ; 2x = 15", "2"),
    (X, "x + (x + 40) = 180 ; 4x = 140", "4"),
    (RECTANGLE, "A = 5 · 4 ; = 10 + 11", "= 10 + 11"),
    (RECTANGLE, "A = 5 · 4 ; A = 20 ; 21 cm²", "21 cm²"),
    (RECTANGLE, "A = 5 · 4 ; A = 20 ; 20 cm", "20 cm"),
)


@pytest.mark.parametrize(("task", "text", "part"), PARTS, ids=[text for _, text, _ in PARTS])
def test_the_part_that_is_wrong_is_underlined(task: Task, text: str, part: str) -> None:
    lines = mark_lines(task, text.split(" ; ")).lines
    mark = lines[-1].mark
    assert mark.verdict is Verdict.BREAKS and mark.span is not None
    assert lines[-1].text[mark.span[0] : mark.span[1]] == part


def test_a_letter_of_the_problem_is_no_unit() -> None:
    """ "P = 2 s" tells of no seconds beside P = 4s, and "P = s²" is no other formula below it."""
    for task, lines in (
        (Task(("P = 4 s",), (), ("s",)), ["P = 2 s"]),
        (Task(find=("s",)), ["P = 4s", "P = 2 s"]),
        (Task(find=("P",)), ["P = 4s", "P = s²"]),
        (Task(find=("S",)), ["S = 6 s²", "S = s³"]),
        (Task(find=("m",)), ["3 m = 14", "8 m = 14"]),
        (Task(find=("g",)), ["2 1/3 g = 14", "8/3 g = 14"]),
    ):
        mark = mark_lines(task, lines).lines[-1].mark
        assert mark.verdict is Verdict.BREAKS and "There is no" not in mark.message


# A formula, and a wrong one for it: as the task's formula, and as the first line of work.
FORMULAS: tuple[tuple[str, str], ...] = (
    ("C = 2 pi r", "C = 2 pi d"),
    ("C = 2 pi r", "C = 2 r"),
    ("C = pi d", "C = pi r"),
    ("A = pi r^2", "A = pi d^2"),
    ("A = pi r^2", "A = 2 pi r"),
    ("P = 2l + 2w", "P = l w"),
    ("V = pi r^2 h", "V = 1/3 pi r^2 h"),
    ("d = r t", "d = r/t"),
    ("a^2 + b^2 = c^2", "a + b = c"),
    ("y = m x + b", "y = m x − b"),
)


@pytest.mark.parametrize(("formula", "wrong"), FORMULAS, ids=[wrong for _, wrong in FORMULAS])
def test_a_wrong_formula_brings_nothing_in(formula: str, wrong: str) -> None:
    find = ("c",) if "c" in formula else (formula[0],)
    for task, lines in ((Task((formula,), (), find), [wrong]), (Task(find=find), [formula, wrong])):
        assert mark_lines(task, lines).lines[-1].mark.verdict is Verdict.BREAKS


@pytest.mark.parametrize("line", ["x = 10 + y", "y = x − 10", "x + y = 11", "2x + 2y = 10", "x = 10"])
def test_a_wrong_turn_is_no_second_equation(line: str) -> None:
    task = Task(find=("x", "y"))
    assert not mark_lines(task, ["x + y = 10", line]).lines[1].mark.verdict.stands
    assert mark_lines(task, ["x + y = 10", "x = 4 + y", "2y = 6"]).lines[2].mark.verdict.stands
    assert mark_lines(task, ["x + y = 10", "x − y = 10", "x = 10"]).lines[2].mark.verdict.stands


# Decimals near the value: those that are said to be rounded wrong, and those that are not.
DECIMALS: tuple[tuple[str, str, bool], ...] = (
    ("3x = 17", "x = 5.66", True),
    ("3x = −17", "x ≈ −5.66", True),
    ("x = 2/3", "x ≈ 66%", True),
    ("3x = 17", "x ≈ 5", True),
    ("3x = 17", "x = 5", False),
    ("2x = 7", "x = 3", False),
    ("3x = 17", "x ≈ 5.65", False),
    ("3x = 17", "x ≈ −5.66", False),
    ("8x = 5", "x = 0.61", False),
)


@pytest.mark.parametrize(("above", "line", "said"), DECIMALS, ids=[line for _, line, _ in DECIMALS])
def test_a_decimal_that_is_rounded_wrong_is_told_so(above: str, line: str, said: bool) -> None:
    mark = mark_lines(X, [above, line]).lines[1].mark
    assert mark.verdict is Verdict.BREAKS
    assert ("not rounded right" in mark.message) is said


def test_what_is_told_beside_a_question_mark_is_an_answer() -> None:
    task = Task(("x + y = 7", "x − y = −1"), (), ("x", "y"))
    assert mark_lines(task, ["x = 3, y = ?", "y = 4"]).reached.finished
    assert not mark_lines(task, ["x = 3, y = ?"]).reached.finished
    assert not mark_lines(task, ["x = 3 or y = 4"]).reached.finished
