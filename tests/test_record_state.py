"""The rules of a problem and a lesson, on values alone: no file, no desk."""

import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from record_marker import BANNER, EQUATION, HOOP, begin, lesson_of

from tutor.lesson.model import Problem
from tutor.marking.hint_stage import Hint, HintStage
from tutor.marking.task import Task
from tutor.record.asked import AS_USUAL, Terms
from tutor.record.ledger import Event, Kind
from tutor.record.replay import History, apply, blank
from tutor.record.state import (
    Action,
    ProblemState,
    Status,
    closes_as,
    decide_lesson,
    hint_costs,
    next_hint,
    next_open,
    tries,
)

TREE = Path(__file__).resolve().parent.parent


def worked(*steps: str, problem: Problem = EQUATION, terms: Terms = AS_USUAL) -> History:
    """Return the work after ``steps``, each a line or one of the other events.

    These are written ``/strike 1``, ``/appeal 0``, ``/take back``, ``/correct``, ``/close done``,
    ``/hint line``.
    """
    history = blank(problem, 1, begin, terms)
    for number, step in enumerate(steps, start=1):
        history = apply(history, _event(history, step, number), begin)
    return history


def _event(history: History, step: str, number: int) -> Event:
    if not step.startswith("/"):
        return Event(Kind.LINE, 1, 0, text=step, id=number, verdict="follows")
    word, _, rest = step[1:].partition(" ")
    ids = history.sheets[-1].ids
    match word:
        case "strike" | "appeal":
            return Event(Kind(word), 1, 0, line=ids[int(rest)])
        case "take":
            return Event(Kind.TAKE_BACK, 1, 0, line=ids[-1])
        case "close":
            return Event(Kind.CLOSE, 1, 0, text=rest)
        case "hint":
            return Event(Kind.HINT, 1, 0, hint=Hint(HintStage(rest), f"{rest} {number}"))
        case _:
            return Event(Kind(word), 1, 0)


@pytest.mark.parametrize(
    ("steps", "status"),
    [
        ((), Status.UNTOUCHED),
        (("note I begin",), Status.BEGUN),
        (("one", "answer"), Status.DONE),
        (("one", "answer", "/strike 1"), Status.BEGUN),
        # A break counts once it can no longer be taken back.
        (("bad",), Status.BEGUN),
        (("bad", "/take back"), Status.UNTOUCHED),
        (("bad", "/take back", "answer"), Status.DONE),
        (("bad", "/take back", "bad"), Status.MISSED),
        (("one", "/take back", "bad"), Status.MISSED),
        (("bad", "two"), Status.MISSED),
        (("bad", "/strike 0"), Status.MISSED),
        (("bad", "/strike 0", "answer"), Status.MISSED),
        (("bad", "/appeal 0"), Status.MISSED),
        (("bad", "/close to correct"), Status.MISSED),
        # A wrong check after the right answer, and one that only seems to be.
        (("one", "answer", "bad check"), Status.DONE),
        (("one", "answer", "bad check", "more", "/close done"), Status.DONE),
        (("one", "answer", "/strike 1", "bad check", "answer"), Status.MISSED),
        # "No" under a false comparison makes it right.
        (("more?", "no", "answer"), Status.DONE),
        (("more?", "one", "no", "answer"), Status.MISSED),
        (("one", "/take back", "more?", "no", "answer"), Status.DONE),
        (("bad", "/strike 0", "more?", "no"), Status.MISSED),
        # A hint costs nothing until it shows the line.
        (("/hint where", "/hint what"), Status.UNTOUCHED),
        (("/hint where", "/hint what", "answer"), Status.DONE),
        (("/hint line",), Status.SHOWN),
        (("one", "/hint line", "answer"), Status.SHOWN),
        (("one", "/hint line", "bad", "two"), Status.MISSED),
        (("bad", "two", "/hint line"), Status.MISSED),
        # What was seen cannot be taken back; what was only pointed at can.
        (("bad", "/hint what", "/take back"), Status.UNTOUCHED),
        (("bad", "/hint line", "/take back"), Status.MISSED),
        (("one", "/hint line", "/take back"), Status.SHOWN),
        (("one", "/hint line", "/strike 0"), Status.SHOWN),
        # Undecided is never wrong, and blocks nobody.
        (("hmm", "two"), Status.BEGUN),
        (("hmm", "answer"), Status.DONE),
        (("hmm", "two", "/close waits for the teacher"), Status.PROVISIONAL),
        # Corrections.
        (("bad", "two", "/close to correct", "/correct"), Status.CORRECTING),
        (("bad", "two", "/close to correct", "/correct", "answer"), Status.CORRECTED),
        (("bad", "two", "/close to correct", "/correct", "bad", "answer"), Status.CORRECTING),
        (("bad", "two", "/close to correct", "/correct", "bad", "answer", "/strike 0"), Status.CORRECTED),
        (("bad", "two", "/close to correct", "/correct", "answer", "bad check"), Status.CORRECTING),
        (("bad", "two", "/close to correct", "/correct", "answer", "/strike 0"), Status.CORRECTING),
        (("/hint line", "/close to correct, line shown"), Status.SHOWN),
        (("/hint line", "/correct", "answer"), Status.CORRECTED),
        (("/hint line", "/correct", "/hint what", "answer"), Status.CORRECTED),
        (("/hint line", "/correct", "/hint line", "answer"), Status.CORRECTING),
        (("/hint line", "/correct", "/hint line", "answer", "/correct", "answer"), Status.CORRECTED),
    ],
)
def test_how_a_problem_stands(steps: tuple[str, ...], status: Status) -> None:
    assert worked(*steps).state.status is status


CORRECTION = ("bad", "two", "/close to correct", "/correct")


@pytest.mark.parametrize(
    ("steps", "status"),
    [
        (("one",), None),
        (("answer",), Status.DONE),
        (("bad", "answer"), Status.MISSED),
        (("bad", "/appeal 0"), Status.MISSED),
        (("hmm",), Status.PROVISIONAL),
        (("hmm", "/strike 0"), None),
        (("hmm", "/strike 0", "answer"), Status.DONE),
        ((*CORRECTION,), None),
        ((*CORRECTION, "one"), None),
        ((*CORRECTION, "answer"), Status.CORRECTED),
        ((*CORRECTION, "bad"), None),
        ((*CORRECTION, "bad", "/appeal 0"), Status.PROVISIONAL),
        ((*CORRECTION, "bad", "bad", "/appeal 0"), None),
        ((*CORRECTION, "bad", "bad", "/appeal 0", "/strike 1"), Status.PROVISIONAL),
        ((*CORRECTION, "bad", "/appeal 0", "/strike 0"), None),
        ((*CORRECTION, "hmm"), Status.PROVISIONAL),
        ((*CORRECTION, "hmm", "bad"), None),
        (("one", "/hint line"), None),
        (("one", "/hint line", "answer"), Status.SHOWN),
        (("hmm", "/hint line"), Status.SHOWN),
        (("bad", "/hint line", "answer"), Status.MISSED),
        ((*CORRECTION, "/hint line", "answer"), None),
        ((*CORRECTION, "bad", "/appeal 0", "/hint line"), None),
        ((*CORRECTION, "/hint line", "one", "/hint line", "two", "/hint line"), None),
        ((*CORRECTION, *("/hint line", "/correct") * 2, "/hint line"), Status.PROVISIONAL),
        ((*CORRECTION, "bad", "bad", "bad"), Status.PROVISIONAL),
        ((*CORRECTION, "one", "/correct", "one", "/correct", "one", "/correct"), Status.PROVISIONAL),
        ((*CORRECTION, "bad", "/correct", "bad", "bad"), Status.PROVISIONAL),
        (
            (*CORRECTION, "bad", "/correct", "bad", "bad", "/strike 0", "/strike 1", "answer"),
            Status.CORRECTED,
        ),
    ],
)
def test_what_closing_comes_to(steps: tuple[str, ...], status: Status | None) -> None:
    state = worked(*steps).state
    assert closes_as(state.attempts) is status
    assert (Action.FINISH in state.actions) == (status is not None)


def test_a_measured_answer_without_its_unit_is_not_yet_the_answer() -> None:
    """What breaks after it is not excused as a check."""
    assert worked("answer", "bad check", "more", problem=HOOP).state.status is Status.MISSED
    assert worked("answer cm", "bad check", "more", problem=HOOP).state.status is Status.DONE


def test_a_correction_needs_every_step() -> None:
    steps = ("bad", "two", "/close to correct", "/correct", "answer cm")
    assert worked(*steps, problem=HOOP).state.status is Status.CORRECTING
    more = ("formula", "label", "sub")
    assert worked(*steps, *more, problem=HOOP).state.status is Status.CORRECTED


def test_where_nothing_is_to_find_any_work_may_be_closed() -> None:
    why = Problem("Why", "Show why.", Task(), None, 1)
    assert closes_as(worked(problem=why).state.attempts) is None
    assert closes_as(worked("one", problem=why).state.attempts) is Status.DONE


def test_the_first_attempt_stays_beside_the_correction() -> None:
    state = worked("bad", "two", "/close to correct", "/correct", "answer").state
    assert [line.text for line in state.first.working.lines] == ["bad", "two"]
    assert state.first.broken == {0} and state.first.closed
    assert state.current.number == 1


@pytest.mark.parametrize(
    ("steps", "count"),
    [
        ((), 0),
        (("bad",), 1),
        (("bad", "/strike 0"), 1),
        (("bad", "/take back"), 0),
        (("one", "/correct"), 1),
        (("bad", "bad", "/correct"), 2),
        (("answer", "bad check"), 0),
        (("/hint what",), 0),
        (("/hint line",), 1),
        (("/hint line", "one", "/hint line"), 1),
        (("/hint line", "bad"), 2),
        (("/hint line", "/correct"), 1),
    ],
)
def test_tries_count_breaks_and_fresh_starts(steps: tuple[str, ...], count: int) -> None:
    assert tries(worked(*CORRECTION, *steps).state.attempts) == count


STAGES = (HintStage.WHERE, HintStage.WHAT, HintStage.LINE)


def test_hints_come_in_three_stages_and_begin_anew_with_each_change() -> None:
    assert next_hint(worked().state.attempts) is STAGES[0]
    for before, after in zip(STAGES, (*STAGES[1:], None), strict=True):
        state = worked("one", f"/hint {before.value}").state
        assert state.current.hint == Hint(before, f"{before.value} 2")
        assert state.current.hints[-1].after == 1
        assert next_hint(state.attempts) is after
        assert (Action.HINT in state.actions) == (after is not None)
        for change in ("two", "/strike 0"):
            changed = worked("one", f"/hint {before.value}", change).state
            assert changed.current.hint is None and len(changed.current.hints) == 1
            assert next_hint(changed.attempts) is HintStage.WHERE
    assert worked("one", "/hint what", "/appeal 0").state.current.hint is not None


def test_a_line_taken_back_brings_the_hint_above_it_back() -> None:
    state = worked("one", "/hint what", "two", "/hint where", "/take back").state
    assert state.current.hint == Hint(HintStage.WHAT, "what 2")
    assert [given.hint.stage for given in state.current.hints] == [HintStage.WHAT]


@pytest.mark.parametrize("steps", [("answer",), ("one", "/close done")])
def test_where_nothing_is_left_to_do_there_is_no_hint(steps: tuple[str, ...]) -> None:
    state = worked(*steps).state
    assert next_hint(state.attempts) is None and Action.HINT not in state.actions


@pytest.mark.parametrize(
    ("steps", "costs"),
    [
        ((), True),
        (("bad",), True),  # it could still be taken back
        (("bad", "two"), False),
        (("/hint line", "one"), False),
        (CORRECTION, True),
        ((*CORRECTION, "bad", "one"), True),
        ((*CORRECTION, "/hint line", "one"), False),
        ((*CORRECTION, "/hint line", "/correct"), True),
    ],
)
def test_a_shown_line_costs_where_nothing_else_brought_the_problem_back(
    steps: tuple[str, ...], costs: bool
) -> None:
    attempts = worked(*steps).state.attempts
    assert hint_costs(attempts, HintStage.LINE) is costs
    assert not hint_costs(attempts, HintStage.WHERE) and not hint_costs(attempts, HintStage.WHAT)


def test_a_correction_with_a_shown_line_can_only_be_worked_again() -> None:
    shown = (*CORRECTION, "/hint line", "answer")
    assert worked(*shown).state.only_again
    assert Action.START_CORRECTION in worked(*shown).state.actions
    for other in ((*CORRECTION, "answer"), ("/hint line", "answer"), (*shown, "bad check")):
        assert not worked(*other).state.only_again


def test_an_event_that_fits_nothing_changes_nothing() -> None:
    history = worked("one")
    for kind in (Kind.STRIKE, Kind.APPEAL):
        assert apply(history, Event(kind, 1, 0, line=99), begin) == history
    assert apply(worked(), Event(Kind.TAKE_BACK, 1, 0, line=99), begin) == worked()
    assert apply(worked("one"), Event(Kind.HINT, 1, 0), begin) == worked("one")
    closed = worked("one", "/close something new")
    seen = Event(Kind.HINT, 1, 0, hint=Hint(HintStage.LINE, "too late"))
    assert apply(closed, seen, begin) == closed
    assert closed.attempt.closed_as is None
    assert apply(closed, Event(Kind.LINE, 1, 0, text="two", id=9, verdict="follows"), begin) == closed


# --- the lesson -------------------------------------------------------------------------------


def states(*statuses: Status) -> tuple[ProblemState, ...]:
    return tuple(replace(worked().state, status=status) for status in statuses)


def test_a_lesson_is_done_only_when_nothing_is_open() -> None:
    lesson = lesson_of(EQUATION, HOOP, BANNER)
    settled = states(Status.DONE, Status.CORRECTED, Status.PROVISIONAL)
    state = decide_lesson(lesson, settled, 0)
    assert state.done and state.next_open is None and state.open_corrections == ()
    assert all(Action.NEXT not in p.actions for p in state.problems)
    for status in (Status.UNTOUCHED, Status.BEGUN, Status.MISSED, Status.SHOWN, Status.CORRECTING):
        state = decide_lesson(lesson, (*settled[:2], *states(status)), 0)
        assert not state.done and state.next_open == 2
        assert state.open_corrections == ((2,) if status.to_correct else ())
        assert [Action.NEXT in p.actions for p in state.problems] == [True, True, False]


@given(st.lists(st.sampled_from(Status), min_size=1, max_size=8), st.integers(0, 7))
def test_the_next_open_problem_is_the_first_one_met_going_round(statuses: list[Status], start: int) -> None:
    current = start % len(statuses)
    found = next_open(tuple(statuses), current)
    waiting = [i for i, status in enumerate(statuses) if not status.settled]
    if not waiting:
        assert found is None
    else:
        assert found in waiting
        distance = [(i - current - 1) % len(statuses) for i in waiting]
        assert found == waiting[distance.index(min(distance))]


def test_the_rules_and_the_shelf_load_without_the_room_that_decides_lines() -> None:
    """A page may show the shelf before sympy is there."""
    code = (
        "import sys, tutor.record.state, tutor.record.glance, tutor.record.hand_in, tutor.record.erase; "
        "print([name for name in ('sympy', 'tutor.marking.working', 'textual') if name in sys.modules])"
    )
    found = subprocess.run([sys.executable, "-c", code], cwd=TREE, capture_output=True, text=True, check=True)
    assert found.stdout.strip() == "[]"
