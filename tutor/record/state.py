"""What may happen next in a problem and in a lesson: pure decisions, no file, no clock.

The page and the mode without a screen both read their next step here, so they cannot
differ. The marking room is named for types only: the page shows a shelf before it loads
the room that decides lines.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum
from typing import assert_never

from tutor.lesson.model import Lesson, Meaning, Problem
from tutor.marking.hint_stage import HintStage
from tutor.record.attempt import Attempt, Hinted, Status

__all__ = ["Action", "Attempt", "Hinted", "LessonState", "ProblemState", "Status"]

# After so many tries a correction says "ask your teacher" (DESIGN 4, "An appeal").
TRIES_BEFORE_THE_TEACHER = 3

# A word that was missed comes back when so many other problems were worked since: a word that is
# asked for again at once is only repeated.
WORDS_COME_BACK_AFTER = 2


class Action(Enum):
    """What a student may do at a problem."""

    SUBMIT = "submit"
    STRIKE = "strike"
    TAKE_BACK = "take back"
    FINISH = "finish"
    START_CORRECTION = "start correction"
    APPEAL = "appeal"
    NEXT = "next"
    HINT = "hint"


@dataclass(frozen=True, slots=True)
class ProblemState:
    """One problem with every attempt at it, what is in the box, and what may be done now.

    ``worked`` tells which of two problems was worked at later: the larger one. ``rests``: a word
    that was missed, whose correction is not offered yet.
    """

    problem: Problem
    attempts: tuple[Attempt, ...]
    status: Status
    draft: str
    actions: frozenset[Action]
    worked: int = 0
    rests: bool = False

    @property
    def only_again(self) -> bool:
        """Tell whether the correction is worked out, but with a line that was shown."""
        last = self.current
        return last.number > 0 and last.complete and last.shown and not last.standing_breaks

    @property
    def current(self) -> Attempt:
        """Return the attempt that is being worked on, or was last."""
        return self.attempts[-1]

    @property
    def first(self) -> Attempt:
        """Return the first attempt, which stays readable beside a correction."""
        return self.attempts[0]

    @property
    def other_numbers(self) -> bool:
        """Tell whether the correction is worked on other numbers than the first attempt."""
        return self.current.problem.numbers != self.first.problem.numbers


@dataclass(frozen=True, slots=True)
class LessonState:
    """One student at one lesson.

    ``current``: the problem the student is at. ``open_corrections``: the problems that are
    still to be corrected. ``next_open``: the next problem that asks for something, looking
    from the current one on, round to it; None when there is none. A word that rests is passed over
    as long as there is another.
    """

    lesson: Lesson
    problems: tuple[ProblemState, ...]
    current: int
    done: bool
    open_corrections: tuple[int, ...]
    next_open: int | None


def decide(problem: Problem, attempts: tuple[Attempt, ...], draft: str, worked: int = 0) -> ProblemState:
    """Return the state of one problem; what hangs on the others is added by ``decide_lesson``."""
    return ProblemState(problem, attempts, status_of(attempts), draft, _actions(attempts), worked)


def decide_lesson(lesson: Lesson, problems: tuple[ProblemState, ...], current: int) -> LessonState:
    """Return the state of the lesson with the student at problem ``current``."""
    statuses = tuple(p.status for p in problems)
    resting = _resting(problems)
    shown = []
    for index, problem in enumerate(problems):
        target = next_open(statuses, index, resting)
        others = problem.actions - {Action.NEXT}
        here = others | {Action.NEXT} if target not in (None, index) else others
        shown.append(replace(problem, actions=here, rests=index in resting))
    return LessonState(
        lesson=lesson,
        problems=tuple(shown),
        current=current,
        done=all(status.settled for status in statuses),
        open_corrections=tuple(i for i, status in enumerate(statuses) if status.to_correct),
        next_open=next_open(statuses, current, resting),
    )


def next_open(
    statuses: tuple[Status, ...], current: int, resting: frozenset[int] = frozenset()
) -> int | None:
    """Return the next problem that is not settled and does not rest, from the one after ``current`` on."""
    count = len(statuses)
    order = ((current + step) % count for step in range(1, count + 1))
    return next((index for index in order if not statuses[index].settled and index not in resting), None)


def _resting(problems: tuple[ProblemState, ...]) -> frozenset[int]:
    """Return the missed words that do not come back yet; none where nothing else is left to do."""
    resting = frozenset(
        index
        for index, problem in enumerate(problems)
        if problem.problem.meaning is not None
        and problem.status.waits
        and sum(other.worked > problem.worked for other in problems) < WORDS_COME_BACK_AFTER
    )
    unsettled = {index for index, problem in enumerate(problems) if not problem.status.settled}
    return resting if unsettled - resting else frozenset()


def words(state: LessonState) -> tuple[Meaning, ...]:
    """Return the words that are still to be studied: missed, and not corrected by the student alone."""
    found = [problem.problem.meaning for problem in state.problems if _to_study(problem)]
    return tuple(dict.fromkeys(meaning for meaning in found if meaning is not None))


def _to_study(problem: ProblemState) -> bool:
    if problem.status is Status.PROVISIONAL:
        return len(problem.attempts) > 1
    return problem.status.to_correct


def status_of(attempts: tuple[Attempt, ...]) -> Status:
    """Return how the problem stands.

    A favourable status that was recorded at closing stays, so that an update of the program
    cannot take a finished problem back from a student.
    """
    last = attempts[-1]
    if last.closed_as is not None and last.closed_as.settled:
        return last.closed_as
    if last.hidden:
        return Status.BEGUN if last.working.lines else Status.UNTOUCHED
    would_close = closes_as(attempts)
    if would_close in (Status.DONE, Status.CORRECTED):
        return would_close
    if last.number > 0:
        return Status.CORRECTING
    missed = missed_as(last)
    if missed is not None:
        return missed
    if last.closed:
        return Status.PROVISIONAL
    return Status.BEGUN if last.working.lines else Status.UNTOUCHED


def missed_as(first: Attempt) -> Status | None:
    """Return how the first attempt was missed; None: it was not, or that is open yet.

    A line can be taken back, mended where the lesson says so, or handed in with the rest.
    """
    if first.hidden:
        return None
    if not first.may_mend and first.faults - first.can_still_go:
        return Status.MISSED
    if first.all_at_once and not first.complete and not first.excused:
        return Status.MISSED
    return Status.SHOWN if first.shown else None


def closes_as(attempts: tuple[Attempt, ...]) -> Status | None:
    """Return what the last attempt comes to if it is closed now; None: it cannot be closed."""
    last = attempts[-1]
    if last.number == 0:
        if not (last.complete or last.excused or last.can_be_handed_in):
            return None
        if last.faults or last.shown:
            return Status.MISSED if last.faults else Status.SHOWN
        if last.complete:
            return Status.DONE
        return Status.PROVISIONAL if last.excused else Status.MISSED
    # A correction shows that the student can do it alone, so one with a line that was shown does
    # not close. It counts as one try, however many lines were shown in it: who needs them three
    # times is sent to the teacher, and whoever presses one key often is not let through.
    if last.complete and not last.standing_breaks and not last.shown:
        return Status.CORRECTED
    if (last.excused and not last.shown) or tries(attempts) >= TRIES_BEFORE_THE_TEACHER:
        return Status.PROVISIONAL
    return None


def next_hint(attempts: tuple[Attempt, ...]) -> HintStage | None:
    """Return the stage of the next hint; None where there is nothing more to say."""
    last = attempts[-1]
    if last.closed or last.hidden or last.complete or not last.settings.hints:
        return None
    if last.hint is None:
        return HintStage.WHERE
    match last.hint.stage:
        case HintStage.WHERE:
            return HintStage.WHAT
        case HintStage.WHAT:
            return HintStage.LINE
        case HintStage.LINE:
            return None
        case _:
            assert_never(last.hint.stage)


def hint_costs(attempts: tuple[Attempt, ...], stage: HintStage) -> bool:
    """Tell whether a hint brings the problem back: it shows a line, and nothing else did so yet."""
    last = attempts[-1]
    if stage is not HintStage.LINE:
        return False
    return not last.shown if last.number > 0 else missed_as(last) is None


def tries(attempts: tuple[Attempt, ...]) -> int:
    """Count the tries at the correction that failed: a line broke or was shown, or it was begun again."""
    corrections = attempts[1:]
    return sum(max(len(a.broken) + a.shown, 1 if a is not attempts[-1] else 0) for a in corrections)


def _actions(attempts: tuple[Attempt, ...]) -> frozenset[Action]:
    last = attempts[-1]
    if last.closed:
        status = status_of(attempts)
        if status.settled and status is not Status.PROVISIONAL:
            return frozenset()
        # Where the marks came with the handing in, this is the first time that one can be doubted.
        doubted = last.all_at_once and last.questionable
        return frozenset({Action.START_CORRECTION, *([Action.APPEAL] if doubted else [])})
    allowed = {Action.SUBMIT}
    if any(not line.struck for line in last.working.lines):
        allowed.add(Action.STRIKE)
    if last.can_take_back:
        allowed.add(Action.TAKE_BACK)
    if last.questionable and not last.hidden:
        allowed.add(Action.APPEAL)
    if next_hint(attempts) is not None:
        allowed.add(Action.HINT)
    if closes_as(attempts) is not None:
        allowed.add(Action.FINISH)
    if _can_start_over(attempts):
        allowed.add(Action.START_CORRECTION)
    return frozenset(allowed)


def _can_start_over(attempts: tuple[Attempt, ...]) -> bool:
    """Tell whether an open attempt may be left for a fresh correction."""
    last = attempts[-1]
    if last.number == 0:
        return not last.hidden and (bool(last.broken) or last.shown)
    return bool(last.working.lines) and status_of(attempts) is Status.CORRECTING
