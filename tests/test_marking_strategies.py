"""Whole works by strategies of students: trials, working backwards, unit methods, halves of the work beside it.

Written from the mathematics alone. ``S``: the line stands or is a remark, ``B``: it breaks, ``C``: it carries.
"""

from typing import NamedTuple

import pytest

from tutor.marking.task import Task
from tutor.marking.verdict import Reason, Verdict
from tutor.marking.working import mark_lines

_MEANS = {
    "S": (Verdict.FOLLOWS, Verdict.ROUNDS, Verdict.RESTATES, Verdict.NOTE),
    "B": (Verdict.BREAKS,),
    "C": (Verdict.CARRIES,),
}


class Work(NamedTuple):
    """A mark for each line, the lines with `` ; `` between them, the name that is asked for, what is told."""

    marks: str
    lines: str
    find: str = "x"
    formula: str = ""
    givens: tuple[tuple[str, str], ...] = ()


WORKS = (
    # Guess and check: a trial claims nothing, what is worked out with it has to be true.
    Work("SSSSS", "7x + 6 = 48 ; Try x = 5 ; 7 · 5 + 6 = 41 ; too small ; x = 6"),
    Work("SSSS", "7x + 6 = 48 ; First guess: x = 5 ; 7(5) + 6 = 41, too small ; x = 6"),
    Work("SSSS", "7x + 6 = 48 ; if x = 5 then 7 · 5 + 6 = 41 ; x = 5 is too small ; x = 6"),
    Work("SSS", "7x + 6 = 48 ; When x = 5, 7 · 5 + 6 = 41 ; 41 is too small"),
    Work("SSB", "7x + 6 = 48 ; Try x = 5 ; 7 · 5 + 6 = 48"),
    Work("SSB", "7x + 6 = 48 ; Try x = 5 ; x = 5"),
    Work("SB", "7x + 6 = 48 ; if x = 5 then 7 · 5 + 6 = 48"),
    Work("SB", "7x + 6 = 48 ; I think x = 5"),
    # Working backwards beside the equation, a calculation to a line.
    Work("SSSSSS", "9x + 14 = 122 ; 122 − 14 ; 108 ; 108/9 ; 12 ; x = 12"),
    Work("SSSSS", "9x + 14 = 122 ; 122 − 14 ; 108/9 ; 12 ; x = 12"),
    Work("SSBCCS", "9x + 14 = 122 ; 122 − 14 ; 98 ; 98/9 ; 12 ; x = 12"),
    Work("SSB", "9x + 14 = 122 ; 122 − 14 ; 12"),
    Work("SSSB", "9x + 14 = 122 ; 122 − 14 ; 108 ; 9"),
    Work(
        "SSSSS",
        "3.14 · 5 · 5 ; 78.5 ; 78.5 · 10 ; 785 ; V = 785",
        "V",
        "V = 3.14 r r h",
        (("r", "5"), ("h", "10")),
    ),
    Work("SSB", "12 + 5 ; 17 ; 17 · 3", ""),
    # One unit first, then as many as are asked for.
    Work("SSSB", "3 units = 45 ; 1 unit = 15 ; 5 units = 5 · 15 = 75 ; 5 units = 65", ""),
    Work("SSS", "7 units = 84 ; 1 unit = 84 ÷ 7 = 12 ; 3 units = 3 · 12 = 36", ""),
    Work("SSB", "7 units = 84 ; 1 unit = 84 ÷ 7 = 12 ; 3 units = 3 · 12 = 38", ""),
    Work("SSSB", "5 pens = $3.75 ; 1 pen = $0.75 ; 8 pens = $6 ; 8 pens = $5", ""),
    Work("SSSS", "100% = 60 kg ; 1% = 0.6 kg ; 25% = 15 kg ; 50% = 30 kg", ""),
    Work("SSSB", "25% = 15 ; 1% = 15 ÷ 25 = 0.6 ; 100% = 60 ; 10% = 15", ""),
    Work("SSS", "5 people = 20 days ; 1 person = 100 days ; 4 people = 25 days", ""),
    Work("B", "7% = 0.7", ""),
    Work("B", "8 pens = 4 + 3", ""),
    Work("SB", "3 feet = 1 yard ; 1 foot = 10 inches", ""),
    # A formula, its numbers and the result in one line.
    Work("SS", "A = lw = 5 · 3 = 15 ; A = 15", "A"),
    Work("SB", "A = lw = 5 · 3 = 15 ; A = 16", "A"),
    Work("SS", "A = l · w = 5 · 3 ; A = 15 cm²", "A"),
    # A number that is nearly the one above is no rounding.
    Work("SB", "738x = 211 ; 739x = 211"),
    Work("SB", "0 = 2578.2x − 593.1 ; −2578.1x = −593.1"),
    Work("SB", "28.5x − 3 = 7.75 + 1.75x ; 28.5x − 10.75 = 1.76x"),
    Work("SB", "7.2x² = 2110 ; 7.21x² = 2110"),
    Work("SSS", "6x = 20 ; 2x = 6.67 ; x = 3.33"),
    Work("SSS", "x + 0.05x = 21.3 ; 1.05x = 21.3 ; x = 20.29"),
    Work("SS", "100 = 4/3 · π · r³ ; 100 = 4.19r³", "r", "V = 4/3 π r³", (("V", "100"),)),
    # A part without a solution makes no whole of one branch.
    Work("SSB", "|2x − 3| = 5 ; 2x − 3 = 5 or 2x − 3 = −5 ; x = 4 or x² = −1"),
    Work("SSS", "(x² − 4)(x² + 1) = 0 ; x² = 4 or x² = −1 ; x = 2 or x = −2"),
)


@pytest.mark.parametrize("work", WORKS, ids=lambda work: work.lines)
def test_every_line_gets_the_mark_that_the_mathematics_says(work: Work) -> None:
    formulas = (work.formula,) if work.formula else ()
    task = Task(formulas, work.givens, (work.find,) if work.find else ())
    lines = mark_lines(task, work.lines.split(" ; ")).lines
    assert len(lines) == len(work.marks)
    for line, wanted in zip(lines, work.marks, strict=True):
        assert line.mark.verdict in _MEANS[wanted], (line.text, line.mark)


def test_a_number_alone_is_told_how_it_becomes_an_answer_right_or_wrong() -> None:
    for number in ("5", "7"):
        work = mark_lines(Task(find=("x",)), ["2x = 10", number])
        assert work.lines[1].mark.note == f"Is this your answer? Then write x = {number}."
        # What may be a wrong answer gets no tick: it is kept and not judged.
        assert (work.lines[1].mark.verdict is Verdict.NOTE) == (number == "7")
        assert not work.reached.finished


SIGNS = (
    ("−9x ≥ −9", "x ≥ 1"),
    ("−4x < 0", "x < 0"),
    ("−2x > 2", "x > −1"),
    ("−3x < 3", "x < −1"),
    ("3 − x < 3", "x < 0"),
    ("5 > −5x", "−1 > x"),
    ("−x > −1", "x > 1"),
)


@pytest.mark.parametrize(("above", "line"), SIGNS)
def test_a_sign_that_was_not_turned_is_told_whatever_a_slip_would_give_too(above: str, line: str) -> None:
    mark = mark_lines(Task(find=("x",)), [above, line]).lines[1].mark
    assert (mark.verdict, mark.reason, mark.slip) == (Verdict.BREAKS, Reason.SIGN_NOT_TURNED, None)


# What was halved here is a number of money or nothing in particular, and no sum of angles.
NO_ANGLES = (
    Work(
        "SSB",
        "I = Prt ; 90 = P · 0.06 · 3 ; 90 = 0.09P",
        "P",
        "I = Prt",
        (("I", "$90"), ("r", "6%"), ("t", "3")),
    ),
    Work("SB", "90 = P · 0.06 · 3 ; 90 = 0.09P", "P"),
)


@pytest.mark.parametrize("work", NO_ANGLES, ids=lambda work: work.lines)
def test_no_angles_are_told_of_where_there_are_none(work: Work) -> None:
    task = Task((work.formula,) if work.formula else (), work.givens, (work.find,))
    last = mark_lines(task, work.lines.split(" ; ")).lines[-1].mark
    assert last.verdict is Verdict.BREAKS and last.slip is None and "angle" not in last.message
