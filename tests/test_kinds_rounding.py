"""Answers rounded up or down, whole things, the check and the steps that a lesson asks for."""

from dataclasses import replace
from fractions import Fraction
from math import ceil, floor

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from tutor.line.writing import write_number
from tutor.marking.hint_stage import HintStage
from tutor.marking.task import Rounding, Task
from tutor.marking.verdict import Step, Verdict
from tutor.marking.work import Work, begin, hint, problems_of, solution
from tutor.quantity.pi import Pi


def boxes(candles: str, rounding: Rounding, places: int | None = 0, each: str = "16") -> Task:
    return Task(("n = c / k",), (("c", candles), ("k", each)), ("n",), places=places, rounding=rounding)


UP, DOWN = boxes("100", Rounding.UP), boxes("100", Rounding.DOWN)
WHOLE = boxes("100", Rounding.NEAREST)
FULL = boxes("96", Rounding.UP)
THIRDS = boxes("100", Rounding.UP, each="3")
TENTH = boxes("1", Rounding.UP, places=1, each="7")
ROPE = Task(("C = 2 pi r",), (("r", "5 cm"),), ("C",), ("cm",), Pi.DECIMAL, places=0, rounding=Rounding.UP)
METRES = Task(("C = 2 pi r",), (("r", "70 cm"),), ("C",), ("m",), Pi.DECIMAL, places=0, rounding=Rounding.UP)


def worked(task: Task, *lines: str) -> Work:
    work = begin(task)
    for line in lines:
        work = work.submit(line)
    return work


@pytest.mark.parametrize(
    ("task", "lines"),
    [
        (UP, ("n = 100/16", "n = 6.25", "n = 7")),
        (UP, ("n = 6.25", "n ≈ 7")),
        (UP, ("n = 100/16 = 6.25 ≈ 7",)),
        (UP, ("n = 6 1/4", "n = 7")),
        (UP, ("n = 7.0",)),
        (DOWN, ("n = 6.25", "n = 6")),
        (WHOLE, ("n = 6.25", "n ≈ 6")),
        (FULL, ("n = 96/16", "n = 6")),
        (THIRDS, ("n = 33.333…", "n = 34")),
        (THIRDS, ("n = 33 1/3", "n = 34")),
        (TENTH, ("n ≈ 0.143", "n = 0.2")),
        (ROPE, ("C = 2 * 3.14 * 5", "C = 31.4", "C = 32 cm")),
        (ROPE, ("C = 31.4 cm", "C ≈ 32 cm")),
        (METRES, ("C = 439.6 cm", "C = 4.396 m", "C = 5 m")),
    ],
)
def test_an_answer_is_rounded_as_the_question_asks(task: Task, lines: tuple[str, ...]) -> None:
    work = worked(task, *lines)
    assert Verdict.BREAKS not in [line.mark.verdict for line in work.lines], work.lines
    assert work.progress.finished and work.progress.complete


@pytest.mark.parametrize(
    ("task", "line"), [(UP, "n = 6.25"), (UP, "n = 25/4"), (UP, "n = 6 1/4"), (DOWN, "n = 6.25"), (WHOLE, "n = 6.25"), (ROPE, "C = 31.4 cm")]
)  # fmt: skip
def test_what_is_right_and_not_rounded_yet_stands_and_is_not_the_end(task: Task, line: str) -> None:
    work = worked(task, line)
    assert (
        work.lines[0].mark.verdict.stands and work.progress.finished is False and not work.progress.complete
    )


@pytest.mark.parametrize(
    ("task", "lines", "said"),
    [
        (UP, ("n = 6.25", "n = 6"), "n is 6.25 before it is rounded. Would 6 be enough? Think of what the question counts."),
        (UP, ("n = 6",), "Would 6 be enough? Think of what the question counts."),
        (UP, ("n ≈ 6.0",), "Would 6 be enough? Think of what the question counts."),
        (DOWN, ("n = 6.25", "n = 7"), "n is 6.25 before it is rounded. Are there 7 whole ones? Think of what the question counts."),
        (ROPE, ("C = 31.4 cm", "C = 31 cm"), "C is 31.4 before it is rounded. Would 31 be enough? Think of what the question counts."),
        (UP, ("n = 8",), None),
        (UP, ("n = 5",), None),
        (FULL, ("n = 7",), None),
        (WHOLE, ("n = 7",), None),
        (UP, ("n = 6.25", "6.25 = 7"), None),
    ],
)  # fmt: skip
def test_the_wrong_way_breaks(task: Task, lines: tuple[str, ...], said: str | None) -> None:
    work = worked(task, *lines)
    found = work.lines[-1].mark
    assert found.verdict is Verdict.BREAKS and (said is None or found.message == said), found
    assert "whole ones" not in found.message if said is None else True
    assert work.progress.finished is False


def test_only_what_is_asked_for_is_rounded_one_way() -> None:
    task = Task(("d = C / 3.14", "n = d / 7"), (("C", "100"),), ("n",), places=0, rounding=Rounding.UP)
    work = worked(task, "d = 100/3.14", "d ≈ 31.85", "n = 31.85/7", "n ≈ 4.55", "n = 5")
    assert [line.mark.verdict.stands for line in work.lines] == [True] * 5, work.lines
    assert work.progress.complete


def test_a_later_answer_may_go_on_from_the_rounded_one() -> None:
    task = Task(
        ("n = c / k", "m = 2 n"), (("c", "100"), ("k", "16")), ("n", "m"), places=0, rounding=Rounding.UP
    )
    for lines in (
        ("n = 7", "m = 14"),
        ("n = 6.25", "n = 7", "m = 2 * 7", "m = 14"),
    ):
        work = worked(task, *lines)
        assert work.progress.complete and work.progress.first_wrong is None, work.lines
    for wrong in ("m = 12", "m = 12.5", "m = 13"):
        work = worked(task, "n = 7", wrong)
        assert work.lines[-1].mark.verdict is Verdict.BREAKS and not work.progress.finished
    assert worked(task, *(line.text for line in solution(task))).progress.complete and solution(task)


def test_one_of_two_solutions_is_not_the_end() -> None:
    task = Task(formulas=("x^2 = 20",), find=("x",), places=0)
    assert not worked(task, "x ≈ 4").progress.finished


@example(candles=139, each=20, places=1, rounding=Rounding.NEAREST, off=1)  # 7 for 7.0
@example(candles=257, each=22, places=2, rounding=Rounding.NEAREST, off=2)
@given(
    st.integers(1, 400),
    st.integers(2, 40),
    st.integers(0, 2),
    st.sampled_from(list(Rounding)),
    st.integers(-2, 2),
)
@settings(deadline=None)
def test_exactly_one_rounding_is_the_answer(
    candles: int, each: int, places: int, rounding: Rounding, off: int
) -> None:
    """Against floor and ceiling of the exact quotient."""
    size = 10**places
    exact = Fraction(candles, each)
    up, down = Fraction(ceil(exact * size), size), Fraction(floor(exact * size), size)
    near = {value for value in (up, down) if abs(value - exact) * 2 * size <= 1}
    right = {Rounding.UP: {up}, Rounding.DOWN: {down}, Rounding.NEAREST: near}[rounding]
    typed = down + Fraction(off, size)
    coarser = (typed * size / 10).denominator == 1 and typed not in right
    if typed <= 0 or (coarser and rounding is Rounding.NEAREST):
        return  # 11.7 may be said of 11.6818… too, whatever is asked
    work = worked(boxes(str(candles), rounding, places, str(each)), f"n = {write_number(typed)}")
    assert bool(work.progress.finished) == (typed in right), work.lines


@pytest.mark.parametrize("task", [UP, DOWN, WHOLE, FULL, THIRDS, TENTH, ROPE, METRES])
def test_the_key_ends_rounded_and_the_hints_lead_there(task: Task) -> None:
    assert problems_of(task) == ()
    lines = [line.text for line in solution(task)]
    assert lines and worked(task, *lines).progress.complete
    work = begin(task)
    for _ in range(12):
        shown = hint(work, HintStage.LINE)
        if shown is None:
            break
        assert shown.line is not None
        work = work.submit(shown.line)
    assert work.progress.complete and work.progress.first_wrong is None, work.lines


def test_the_sentence_of_the_key_says_which_way() -> None:
    assert "Round up to a whole number." in [line.sentence for line in solution(UP)]
    assert "Round down to a whole number." in [line.sentence for line in solution(DOWN)]
    assert [line.text for line in solution(THIRDS)][-2:] == ["n = 34", "33.33 ≈ 100/3"]


HOOP = Task(("C = 2 pi r",), (("C", "31.4 cm"),), ("r",), ("cm",), Pi.DECIMAL)


def test_a_check_is_asked_for_where_the_lesson_says_so() -> None:
    task = replace(HOOP, check=True)
    work = worked(task, "31.4 = 2 * 3.14 * r", "r = 5 cm")
    assert work.progress.finished and not work.progress.complete
    told = hint(work, HintStage.WHAT)
    assert told is not None and told.message == "Check: put what you found back in."
    assert work.submit("2 * 3.14 * 5 = 31.4").progress.complete
    assert worked(HOOP, "31.4 = 2 * 3.14 * r", "r = 5 cm").progress.complete
    assert worked(task, *(line.text for line in solution(task))).progress.complete


@pytest.mark.parametrize("rounding", list(Rounding))
def test_a_check_puts_back_what_came_out_before_it_was_rounded(rounding: Rounding) -> None:
    task = replace(boxes("100", rounding), check=True)
    lines = [line.text for line in solution(task)]
    assert "6.25 = 100/16" in lines and worked(task, *lines).progress.complete


@pytest.mark.parametrize(
    ("steps", "lines", "complete"),
    [
        ((), ("r = 5 cm",), True),
        ((Step.FORMULA,), ("r = 5 cm",), False),
        ((Step.FORMULA,), ("C = 2 pi r", "r = 5 cm"), True),
        ((Step.LABEL,), ("C = 2 pi r", "r = 5 cm"), False),
        ((Step.LABEL,), ("C = 31.4 cm, r = ?", "r = 5 cm"), True),
        ((Step.FORMULA, Step.LABEL), ("C = 31.4 cm", "C = 2 pi r", "r = 5"), False),
        ((Step.FORMULA, Step.LABEL), ("C = 31.4 cm", "C = 2 pi r", "r = 5 cm"), True),
    ],
)
def test_steps_that_are_required(steps: tuple[Step, ...], lines: tuple[str, ...], complete: bool) -> None:
    work = worked(replace(HOOP, steps=steps), *lines)
    assert work.progress.finished and work.progress.complete is complete
