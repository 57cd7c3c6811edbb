"""Hints: where to look, what to do, the line itself; always from the student's own lines."""

import pytest

from tutor.marking.hints import Hint, HintStage, hint
from tutor.marking.task import Task
from tutor.marking.working import Working, mark_lines

X = Task(find=("x",))
BOX = Task(
    ("V = L W H",),
    (("V", "756 cm^3"), ("L", "14 cm"), ("H", "6 cm")),
    ("W",),
    ("cm",),
    measures=("V", "L", "W", "H"),
)
BOX_LINES = [
    "V = LWH",
    "V = 756 cm^3, L = 14 cm, H = 6 cm, W = ?",
    "756 = 14 · W · 6",
    "756 = 84W",
    "9 = W",
    "W = 9 cm",
]


def given(work: Working, stage: HintStage) -> Hint:
    found = hint(work, stage)
    assert found is not None
    assert found.stage is stage
    return found


def pointed_at(work: Working, found: Hint) -> str | None:
    """Return the part of the last line that is not struck which a hint underlines."""
    last = [line for line in work.lines if not line.struck][-1]
    return None if found.span is None else last.text[slice(*found.span)]


@pytest.mark.parametrize(
    ("line", "where", "part", "what", "shown"),
    [
        ("3x + 15 = 240", "Look at the + 15 on the left side.", "15", "Take 15 away from both sides.", "3x = 225"),
        ("-4 + 2x = 6", "Look at the −4 on the left side.", "-4", "Add 4 to both sides.", "2x = 10"),
        ("3x=225", "Look at the 3 before x on the left side.", "3x", "Divide both sides by 3.", "x = 75"),
        ("x/5 = 10", "Look at the left side: x is divided by 5.", "x/5", "Multiply both sides by 5.", "x = 50"),
        ("-x = 4", "Look at the minus sign before x on the left side.", "-x", "Turn the sign of both sides.", "x = −4"),
        (
            "2(x+5) - 3x = 4",
            "Look at the bracket in 2(x + 5).",
            "2(x+5)",
            "Multiply each part in the bracket by 2.",
            "2x + 10 − 3x = 4",
        ),
        ("12 = 84/2 - x", "Look at 84/2.", "84/2", "Divide 84 by 2.", "12 = 42 − x"),
        ("-2x < 8", "Look at the −2 before x on the left side.", "-2x", "Divide both sides by −2 and turn the sign round.", "x > −4"),
    ],
)  # fmt: skip
def test_the_three_stages_from_one_line(line: str, where: str, part: str, what: str, shown: str) -> None:
    work = mark_lines(X, [line])
    first, second, third = (given(work, stage) for stage in HintStage)
    assert (first.message, pointed_at(work, first)) == (where, part)
    assert second.message == what
    assert third.line == shown
    assert first.line is None
    assert second.line is None


def test_a_problem_is_led_from_its_formula_to_the_unit() -> None:
    shown = [given(mark_lines(BOX, BOX_LINES[:done]), HintStage.LINE).line for done in range(len(BOX_LINES))]
    assert shown[0] == "V = LWH"
    assert shown[2:] == BOX_LINES[2:]


def test_no_hint_where_the_work_is_complete() -> None:
    done = mark_lines(BOX, BOX_LINES)
    assert done.progress.complete
    assert [hint(done, stage) for stage in HintStage] == [None] * 3


def test_no_hint_where_nothing_is_there_to_go_on_from() -> None:
    assert [hint(mark_lines(X, []), stage) for stage in HintStage] == [None] * 3


def test_a_broken_line_is_pointed_at_and_the_rest_goes_on_from_what_stands() -> None:
    work = mark_lines(X, ["3x + 15 = 240", "3x = 255"])
    first = given(work, HintStage.WHERE)
    assert first.message == "Look at line 2 again: the marked part does not fit the lines above."
    assert first.span == work.lines[1].mark.span
    assert given(work, HintStage.WHAT).message == "Go on from line 1: take 15 away from both sides."
    assert given(work, HintStage.LINE).line == "3x = 225"


def test_where_nothing_stands_the_work_starts_again() -> None:
    work = mark_lines(Task(("3x + 15 = 240",), find=("x",)), ["3x = 255"])
    first = given(work, HintStage.WHERE)
    assert first.message == "Look at line 1 again: the marked part does not fit the problem."
    assert given(work, HintStage.WHAT).message == "Start again: write the equation down."


def test_a_line_that_carries_a_break_leads_back_to_the_break() -> None:
    work = mark_lines(X, ["3x + 15 = 240", "3x = 255", "x = 85"])
    first = given(work, HintStage.WHERE)
    assert first.message == "Look at line 2 again: it does not fit the lines above."
    assert first.span is None


def test_a_line_that_cannot_be_read_is_to_be_written_in_another_way() -> None:
    work = mark_lines(X, ["3x + 15 = 240", "3x = = 5"])
    first = given(work, HintStage.WHERE)
    assert first.message == "Look at line 2 again: can you write the marked part in another way?"
    assert pointed_at(work, first) == "="


def test_a_struck_line_is_not_spoken_of() -> None:
    work = mark_lines(X, ["3x + 15 = 240", "3x = 255"], frozenset([1]))
    first = given(work, HintStage.WHERE)
    assert first.message == "Look at the + 15 on the left side."
    assert pointed_at(work, first) == "15"


def test_a_hint_goes_on_from_the_students_own_order_of_steps() -> None:
    divided_first = mark_lines(X, ["2(x + 5) = 24", "x + 5 = 12"])
    assert given(divided_first, HintStage.LINE).line == "x = 7"


@pytest.mark.parametrize("stage", [HintStage.WHERE, HintStage.WHAT])
@pytest.mark.parametrize(
    ("line", "answer"),
    [
        ("x + 13 = 240", "227"),
        ("7x = 91", "13"),
        ("x = 45 − 16", "29"),
        ("x/3 = 19", "57"),
        ("x = √361", "19"),
    ],
)
def test_the_first_two_stages_never_say_the_answer(stage: HintStage, line: str, answer: str) -> None:
    found = given(mark_lines(X, [line]), stage)
    assert answer not in found.message
    assert given(mark_lines(X, [line]), HintStage.LINE).line == f"x = {answer}"
