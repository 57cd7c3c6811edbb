"""The four steps: which stands, which comes next."""

from dataclasses import replace

import pytest
from marking_cases import BOX

from tutor.marking.task import Task
from tutor.marking.verdict import Step
from tutor.marking.working import StepState, mark_lines, start


def test_the_four_steps_of_a_box() -> None:
    work = start(BOX)
    seen = []
    for text in (
        "V = L W H",
        "V = 420 cm^3",
        "L = 10 cm, H = 6 cm",
        "W = ?",
        "420 = 60W",
        "W = 7",
        "W = 7 cm",
    ):
        work = work.submit(text)
        seen.append([state.value for _, state in work.progress.steps])
    assert seen[0] == ["stands", "next", "open", "open"]
    assert seen[3] == ["stands", "stands", "next", "open"]
    assert seen[5] == ["stands", "stands", "stands", "next"]
    assert seen[6] == ["stands"] * 4
    assert dict(work.progress.labels) == {"V": "420 cm³", "L": "10 cm", "H": "6 cm", "W": "7 cm"}
    assert work.progress.missing_labels == () and work.progress.complete


def test_formulas_on_one_line_are_the_step_of_a_formula() -> None:
    frame = Task(
        formulas=("F = L + 2 b", "G = W + 2 b"),
        givens=(("F", "48 cm"), ("G", "35 cm"), ("b", "4.5 cm")),
        find=("L", "W"),
        units=("cm", "cm"),
    )
    for text in ("F = L + 2b, G = W + 2b", "L = F − 2b and W = G − 2b"):
        assert dict(mark_lines(frame, [text]).progress.steps)[Step.FORMULA] is StepState.STANDS
    for text in ("F = L + 2b, 35 = W + 9", "F = L + 2b or G = W + 2b"):
        assert dict(mark_lines(frame, [text]).progress.steps)[Step.FORMULA] is StepState.NEXT


def test_the_unit_comes_next_once_the_unknown_is_found() -> None:
    found = ["V = L W H", "420 = 60W", "W = 7"]
    assert [state.value for _, state in mark_lines(BOX, found).progress.steps] == [
        "stands",
        "open",
        "stands",
        "next",
    ]
    strict = replace(BOX, every_step=True)
    assert [state.value for _, state in mark_lines(strict, found).progress.steps] == [
        "stands",
        "next",
        "stands",
        "open",
    ]


@pytest.mark.parametrize("answer", ["W = 7 cm^2", "W = 7 m"])
def test_an_answer_that_breaks_for_its_unit_finishes_nothing(answer: str) -> None:
    reached = mark_lines(BOX, ["420 = 60W", answer]).progress
    assert reached.finished is False and reached.found == () and reached.units is not None
    mended = mark_lines(BOX, ["420 = 60W", answer, "W = 7 cm"]).progress
    assert mended.finished is True and mended.found == ("W",)


def test_every_step_is_needed_where_all_are_asked_for() -> None:
    strict = replace(BOX, every_step=True)
    assert not mark_lines(strict, ["W = 7 cm"]).progress.complete
    assert mark_lines(BOX, ["W = 7 cm"]).progress.complete


@pytest.mark.parametrize(
    ("finished", "lines"),
    [
        (True, "3p(10p + 7) = 0; 3p = 0 or 10p + 7 = 0; p = 0 or 10p = −7; p = −7/10"),
        (False, "3p(10p + 7) = 0; 3p = 0 or 10p + 7 = 0; p = 0 or 10p = −7"),
        (False, "3p(10p + 7) = 0; 3p = 0 or 10p + 7 = 0; p = −7/10"),
        (True, "|p − 3| ≥ 5; p ≥ 8 or p − 3 ≤ −5; p ≤ −2"),
        (False, "−5 < p − 3 < 5; p < 8 and p − 3 > −5"),
        (True, "(p − 1/2)^2 = 5/4; p = 1/2 ± √5/2"),
        (True, "(p − 1/2)^2 = 5/4; p = 1/2 + √5/2, p = 1/2 − √5/2"),
    ],
)
def test_work_is_finished_when_every_branch_is(finished: bool, lines: str) -> None:
    work = mark_lines(Task(find=("p",)), [line.strip() for line in lines.split(";")])
    assert work.progress.first_wrong is None
    assert work.progress.finished is finished
