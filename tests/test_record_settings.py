"""What a lesson can set: marks on handing in, mended lines, no hints, words that come back."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from record_marker import BANNER, EQUATION, HOOP, begin, desk_at, lesson_of
from test_record_state import worked

from tutor.lesson.model import Lesson, Meaning, Missed, Problem, Settings, When
from tutor.marking.task import Task
from tutor.marking.verdict import Verdict
from tutor.record.asked import Terms
from tutor.record.attempt import Attempt
from tutor.record.desk import Desk
from tutor.record.glance import glance
from tutor.record.state import Action, ProblemState, Status, closes_as, decide_lesson, next_hint, words
from tutor.record.store import Store, open_store
from tutor.record.study import words_of_code, words_to_study

AT_THE_END = Terms(Settings(marks=When.HANDED_IN))
MENDED = Terms(Settings(missed=Missed.LEFT_BROKEN))
NO_HINTS = Terms(Settings(hints=False))


def attempt(*steps: str, terms: Terms, problem: Problem = EQUATION) -> ProblemState:
    return worked(*steps, problem=problem, terms=terms).state


# --- marks when handed in ---------------------------------------------------------------------


@pytest.mark.parametrize(
    "steps",
    [
        ("one",),
        ("bad",),
        ("bad", "two"),
        ("one", "answer"),
        ("bad", "answer"),
        ("hmm",),
        ("bad", "/strike 0"),
    ],
)
def test_before_the_handing_in_nothing_tells_how_the_lines_are_marked(steps: tuple[str, ...]) -> None:
    state = attempt(*steps, terms=AT_THE_END)
    assert state.current.hidden
    assert state.status is Status.BEGUN
    assert not state.actions & {Action.APPEAL, Action.HINT, Action.START_CORRECTION}
    assert next_hint(state.attempts) is None
    standing = any(not line.struck for line in state.current.working.lines)
    assert (Action.FINISH in state.actions) == standing


def test_an_empty_page_cannot_be_handed_in() -> None:
    assert Action.FINISH not in attempt(terms=AT_THE_END).actions
    assert attempt(terms=AT_THE_END).status is Status.UNTOUCHED


@pytest.mark.parametrize(
    ("steps", "status"),
    [
        (("one", "answer"), Status.DONE),
        (("one",), Status.MISSED),  # not complete
        (("bad", "answer"), Status.MISSED),
        (("one", "answer", "bad check"), Status.DONE),
        (("hmm",), Status.PROVISIONAL),
        (("hmm", "bad"), Status.MISSED),
        (("note I do not know",), Status.MISSED),
        # What was struck out before anybody said that it breaks was mended unaided.
        (("bad", "/strike 0", "answer"), Status.DONE),
        (("bad", "so", "/strike 0", "answer"), Status.DONE),
        (("bad", "answer", "/strike 1"), Status.MISSED),
        # A check is only one while the answer stands above it.
        (("answer", "bad check", "answer", "/strike 0"), Status.MISSED),
        (("bad", "/take back", "answer"), Status.DONE),
        (("more?", "no", "answer", "/strike 1"), Status.MISSED),
        (("more?", "no", "answer"), Status.DONE),
    ],
)
def test_a_page_is_marked_as_it_is_handed_in(steps: tuple[str, ...], status: Status) -> None:
    state = attempt(*steps, terms=AT_THE_END)
    assert closes_as(state.attempts) is status
    closed = attempt(*steps, f"/close {status.value}", terms=AT_THE_END)
    assert closed.status is status and not closed.current.hidden
    # The teacher's side closes it by the lines alone.
    honest = attempt(*steps, "/close ", terms=AT_THE_END)
    assert honest.status is status


def test_a_line_can_be_doubted_once_its_mark_is_seen() -> None:
    steps = ("bad", "answer", "/close to correct")
    state = attempt(*steps, terms=AT_THE_END)
    assert state.actions == {Action.START_CORRECTION, Action.APPEAL}
    doubted = attempt(*steps, "/appeal 0", terms=AT_THE_END)
    assert doubted.current.appealed == {0} and doubted.actions == {Action.START_CORRECTION}
    # Line by line it could be doubted at once, so a closed attempt stays as it is.
    assert attempt(*steps, terms=Terms()).actions == {Action.START_CORRECTION}


def test_a_correction_is_marked_line_by_line() -> None:
    state = attempt("bad", "/close to correct", "/correct", "bad", terms=AT_THE_END)
    assert not state.current.hidden and state.status is Status.CORRECTING
    assert state.actions >= {Action.APPEAL, Action.HINT, Action.TAKE_BACK}
    assert Action.FINISH not in state.actions


# --- a line that was mended -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("steps", "status", "closed"),
    [
        (("bad",), Status.BEGUN, None),
        (("bad", "two"), Status.BEGUN, None),
        (("bad", "two", "answer"), Status.DONE, Status.DONE),
        (("bad", "/strike 0", "two"), Status.BEGUN, None),
        (("bad", "/strike 0", "answer"), Status.DONE, Status.DONE),
        (("bad", "/strike 0", "hmm"), Status.BEGUN, Status.PROVISIONAL),
        (("bad", "hmm"), Status.BEGUN, None),
        (("bad", "/appeal 0"), Status.BEGUN, Status.MISSED),
        (("bad", "/hint what", "answer"), Status.DONE, Status.DONE),
        (("bad", "/hint line", "answer"), Status.MISSED, Status.MISSED),
        (("/hint line", "answer"), Status.SHOWN, Status.SHOWN),
        (("bad", "/close to correct"), Status.MISSED, None),
    ],
)
def test_a_line_that_was_mended_unaided_does_not_count(
    steps: tuple[str, ...], status: Status, closed: Status | None
) -> None:
    state = attempt(*steps, terms=MENDED)
    assert (state.status, closes_as(state.attempts)) == (status, closed)


def test_who_would_rather_begin_again_may() -> None:
    assert Action.START_CORRECTION in attempt("bad", "two", terms=MENDED).actions


# --- hints off --------------------------------------------------------------------------------


def test_without_hints_there_is_none_in_a_correction_either() -> None:
    for steps in (("one",), ("bad", "/close to correct", "/correct", "one")):
        assert Action.HINT in attempt(*steps, terms=Terms()).actions
        assert Action.HINT not in attempt(*steps, terms=NO_HINTS).actions


# --- at the desk ------------------------------------------------------------------------------


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    opened, sentence = open_store(tmp_path / "K7.evenline")
    assert opened is not None, sentence
    yield opened
    opened.close()


def with_settings(lesson: Lesson, settings: Settings) -> Lesson:
    return replace(lesson, settings=settings)


def statuses(desk: Desk) -> list[Status]:
    return [problem.status for problem in desk.state.problems]


def test_no_outcome_before_the_handing_in_carries_a_mark(store: Store) -> None:
    lesson = with_settings(lesson_of(EQUATION, HOOP), AT_THE_END.settings)
    desk = desk_at(store, lesson)
    for text in ("one", "bad two", "hmm", "answer"):
        outcome = desk.submit(text)
        assert (outcome.mark, outcome.sentence, outcome.taken) == (None, "", True)
    unread = desk.submit("huh (")
    assert unread.mark is not None and unread.mark.verdict is Verdict.UNREAD and not unread.taken
    assert unread.state.problems[0].draft == "huh ("
    # The marks are in the record all the same.
    kept, _ = store.read(lambda link: [v for (v,) in link.execute("SELECT verdict FROM verdict ORDER BY id")])
    assert kept == ["follows", "breaks", "undecided", "follows", "unread"]
    assert desk.hint().sentence and desk.appeal(1).sentence and desk.start_correction(0).sentence
    # Leaving does not hand anything in, although the work is complete.
    desk.go_to(1)
    assert statuses(desk) == [Status.BEGUN, Status.UNTOUCHED]
    seen, _ = glance(store, lesson)
    assert seen is not None and seen.statuses == (Status.BEGUN, Status.UNTOUCHED)
    desk.go_to(0)
    assert "A line broke" in desk.finish().sentence
    assert statuses(desk)[0] is Status.MISSED
    assert desk_at(store, lesson).state == desk.state


def test_an_unfinished_page_says_so_when_it_is_handed_in(store: Store) -> None:
    desk = desk_at(store, with_settings(lesson_of(EQUATION, HOOP), AT_THE_END.settings))
    desk.submit("one")
    said = desk.finish().sentence
    assert "Not all that is asked for" in said and "broke" not in said
    assert statuses(desk)[0] is Status.MISSED
    desk.start_correction(0)
    assert desk.submit("answer").mark is not None
    assert statuses(desk)[0] is Status.CORRECTED


def test_without_hints_the_desk_says_so(store: Store) -> None:
    desk = desk_at(store, with_settings(lesson_of(EQUATION), NO_HINTS.settings))
    assert "no hints in this lesson" in desk.hint().sentence


STEP = st.sampled_from(["one", "bad", "so", "hmm", "answer", "more?", "no", "/strike", "/back"])


@given(st.lists(STEP, max_size=9))
def test_a_page_counts_as_if_its_struck_lines_had_never_been_there(steps: list[str]) -> None:
    """Taken as a whole, a page is what stands on it, however it came to stand there."""
    history = worked(terms=AT_THE_END)
    events: list[str] = []
    for step in steps:
        lines = history.attempt.working.lines
        standing = [at for at, line in enumerate(lines) if not line.struck]
        if step == "/strike":
            step = f"/strike {standing[0]}" if standing else ""
        elif step == "/back":
            step = "/take back" if history.attempt.can_take_back else ""
        if step:
            events.append(step)
            history = worked(*events, terms=AT_THE_END)
    kept = [line.text for line in history.attempt.working.lines if not line.struck]
    clean = worked(*kept, terms=AT_THE_END)
    assert len(history.attempt.broken) == len(clean.attempt.broken)
    assert closes_as(history.state.attempts) is closes_as(clean.state.attempts)


# --- words ------------------------------------------------------------------------------------

RADIUS = Meaning("radius", "the way from the middle to the rim")
WORD = Problem("Radius", "Which word?", Task(find=("w",)), None, 13, meaning=RADIUS)
THREE = Problem("Strip", "How long?", Task(find=("s",)), None, 17)
LESSON = lesson_of(WORD, EQUATION, BANNER, THREE)


def miss(desk: Desk, problem: int) -> None:
    desk.go_to(problem)
    desk.submit("bad")
    desk.submit("answer")
    desk.finish()


def solve(desk: Desk, problem: int) -> None:
    desk.go_to(problem)
    desk.submit("answer")
    desk.finish()


def test_a_missed_word_comes_back_after_two_other_problems(store: Store) -> None:
    desk = desk_at(store, LESSON)
    miss(desk, 0)
    assert statuses(desk)[0] is Status.MISSED
    assert desk.state.problems[0].rests
    assert desk.state.next_open == 1
    desk.go_to(3)
    assert desk.state.next_open == 1  # round the end, past the word
    solve(desk, 3)
    assert desk.state.problems[0].rests and desk.state.next_open == 1
    solve(desk, 1)
    assert not desk.state.problems[0].rests
    desk.go_to(3)
    assert desk.state.next_open == 0
    assert desk_at(store, LESSON).state == desk.state


def test_a_resting_word_may_still_be_corrected_at_once(store: Store) -> None:
    desk = desk_at(store, LESSON)
    miss(desk, 0)
    assert Action.START_CORRECTION in desk.state.problems[0].actions
    desk.start_correction(0)
    assert not desk.state.problems[0].rests
    desk.submit("answer")
    assert statuses(desk)[0] is Status.CORRECTED


def test_a_word_does_not_rest_where_nothing_else_is_left(store: Store) -> None:
    desk = desk_at(store, lesson_of(WORD, EQUATION))
    solve(desk, 1)
    miss(desk, 0)
    assert not desk.state.problems[0].rests and desk.state.next_open == 0


def test_other_problems_never_rest(store: Store) -> None:
    desk = desk_at(store, LESSON)
    miss(desk, 1)
    assert not desk.state.problems[1].rests
    desk.go_to(3)
    assert desk.state.next_open == 0  # the word, not begun yet, is nothing to wait with


@given(
    st.lists(st.tuples(st.booleans(), st.sampled_from(Status), st.integers(0, 9)), min_size=1, max_size=7),
    st.integers(0, 6),
)
def test_no_problem_that_asks_for_something_is_ever_lost(
    made: list[tuple[bool, Status, int]], start: int
) -> None:
    problems = tuple(
        ProblemState(WORD if is_word else EQUATION, (_blank(),), status, "", frozenset(), worked)
        for is_word, status, worked in made
    )
    state = decide_lesson(LESSON, problems, start % len(problems))
    unsettled = [index for index, problem in enumerate(problems) if not problem.status.settled]
    if not unsettled:
        assert state.next_open is None
    else:
        assert state.next_open in unsettled
        resting = {index for index, problem in enumerate(state.problems) if problem.rests}
        assert state.next_open not in resting
        assert resting < set(unsettled)


def _blank() -> Attempt:
    return Attempt(0, begin(EQUATION.task), EQUATION)


def test_the_study_list_has_what_was_missed_until_it_is_corrected(store: Store) -> None:
    desk = desk_at(store, LESSON)
    assert words(desk.state) == ()
    miss(desk, 1)
    assert words(desk.state) == ()
    miss(desk, 0)
    assert words(desk.state) == (RADIUS,)
    assert words_to_study(store, [LESSON, LESSON]) == ((RADIUS,), "")
    desk.start_correction(0)
    desk.submit("bad")
    assert words(desk.state) == (RADIUS,) == words_to_study(store, [LESSON])[0]
    desk.strike(0)
    desk.submit("answer")
    desk.finish()
    assert words(desk.state) == () == words_to_study(store, [LESSON])[0]


def test_a_word_that_went_to_the_teacher_is_still_to_be_studied(store: Store) -> None:
    desk = desk_at(store, LESSON)
    miss(desk, 0)
    desk.start_correction(0)
    for _ in range(3):
        desk.submit("bad")
    desk.finish()
    assert statuses(desk)[0] is Status.PROVISIONAL
    assert words(desk.state) == (RADIUS,) == words_to_study(store, [LESSON])[0]


def test_the_study_list_of_a_code(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("EVENLINE_HOME", str(tmp_path / "home"))
    assert words_of_code("K7", [LESSON]) == ((), "")
    assert not (tmp_path / "home").exists()
    assert words_of_code("K 7", [LESSON])[1]
    store, _ = open_store(tmp_path / "home" / "K7.evenline")
    assert store is not None
    miss(desk_at(store, LESSON), 0)
    assert "open in another window" in words_of_code("k7", [LESSON])[1]
    store.close()
    assert words_of_code("k7", [LESSON]) == ((RADIUS,), "")
