"""What may happen next in a problem and in a lesson: pure decisions, no file, no clock.

The page and the mode without a screen both read their next step here, so they cannot
differ. The marking room is named for types only: the page shows a shelf before it loads
the room that decides lines.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING, assert_never

from tutor.lesson.model import Lesson, Problem
from tutor.marking.hint_stage import Hint, HintStage
from tutor.marking.verdict import UnitsState, Verdict

if TYPE_CHECKING:
    from tutor.marking.work import Work

# After so many tries a correction says "ask your teacher" (DESIGN 4, "An appeal").
TRIES_BEFORE_THE_TEACHER = 3


class Status(Enum):
    """How one problem stands.

    Both ``MISSED`` and ``SHOWN`` wait for a correction: a line broke, or none did and a hint
    showed a whole line.
    """

    UNTOUCHED = "not begun"
    BEGUN = "begun"
    DONE = "done"
    MISSED = "to correct"
    SHOWN = "to correct, line shown"
    CORRECTING = "being corrected"
    CORRECTED = "corrected"
    PROVISIONAL = "waits for the teacher"

    @property
    def settled(self) -> bool:
        """Tell whether nothing more is asked of the student here."""
        return self in (Status.DONE, Status.CORRECTED, Status.PROVISIONAL)

    @property
    def waits(self) -> bool:
        """Tell whether the problem was missed and its correction is not begun yet."""
        return self in (Status.MISSED, Status.SHOWN)

    @property
    def to_correct(self) -> bool:
        """Tell whether a correction is open: waiting to be begun, or begun."""
        return self.waits or self is Status.CORRECTING


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
class Hinted:
    """A hint that was given; ``after`` is the number of lines of work that stood above it."""

    after: int
    hint: Hint


@dataclass(frozen=True, slots=True)
class Attempt:
    """One go at a problem: 0 is the first, 1 and up are corrections.

    ``appealed`` and ``broken`` hold 0-based line numbers of ``working``. ``broken`` are the
    lines that broke when they were handed in; a wrong check after a right answer is not
    among them, a struck line is. ``can_take_back``: the last line was the last thing done
    here, and none was taken back at this problem before. ``closed_as``: the status that was
    recorded when it was closed. ``hints``: all that were given; ``hint``: the one that stands
    beside the work as it is now.
    """

    number: int
    working: Work
    appealed: frozenset[int] = frozenset()
    closed: bool = False
    broken: frozenset[int] = frozenset()
    can_take_back: bool = False
    closed_as: Status | None = None
    hints: tuple[Hinted, ...] = ()
    hint: Hint | None = None

    @property
    def shown(self) -> bool:
        """Tell whether a hint showed a whole line."""
        return any(given.hint.stage is HintStage.LINE for given in self.hints)

    @property
    def complete(self) -> bool:
        """Tell whether all that is asked for stands."""
        progress = self.working.progress
        return progress.complete or (progress.finished is None and bool(self.working.lines))

    @property
    def answered(self) -> bool:
        """Tell whether the right answer stands, so that what follows is a check."""
        progress = self.working.progress
        return bool(progress.finished) and progress.units in (None, UnitsState.RIGHT, UnitsState.EQUIVALENT)

    @property
    def standing_breaks(self) -> frozenset[int]:
        """Return the broken lines that are not struck."""
        return self._unstruck(Verdict.BREAKS)

    @property
    def questionable(self) -> frozenset[int]:
        """Return the lines that can be appealed: broken or undecided, not struck."""
        return (self.standing_breaks | self._unstruck(Verdict.UNDECIDED)) - self.appealed

    @property
    def can_still_go(self) -> frozenset[int]:
        """Return the line that can be taken back without a trace, if there is one."""
        return frozenset({len(self.working.lines) - 1} if self.can_take_back else ())

    @property
    def excused(self) -> bool:
        """Tell whether there is a fault and every fault is appealed or undecided."""
        undecided = self._unstruck(Verdict.UNDECIDED)
        return bool(self.standing_breaks | undecided) and self.standing_breaks <= self.appealed

    def _unstruck(self, verdict: Verdict) -> frozenset[int]:
        lines = enumerate(self.working.lines)
        return frozenset(i for i, line in lines if not line.struck and line.mark.verdict is verdict)


@dataclass(frozen=True, slots=True)
class ProblemState:
    """One problem with every attempt at it, what is in the box, and what may be done now."""

    problem: Problem
    attempts: tuple[Attempt, ...]
    status: Status
    draft: str
    actions: frozenset[Action]

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


@dataclass(frozen=True, slots=True)
class LessonState:
    """One student at one lesson.

    ``current``: the problem the student is at. ``open_corrections``: the problems that are
    still to be corrected. ``next_open``: the next problem that asks for something, looking
    from the current one on, round to it; None when there is none.
    """

    lesson: Lesson
    problems: tuple[ProblemState, ...]
    current: int
    done: bool
    open_corrections: tuple[int, ...]
    next_open: int | None


def decide(problem: Problem, attempts: tuple[Attempt, ...], draft: str) -> ProblemState:
    """Return the state of one problem; NEXT is added by ``decide_lesson``."""
    return ProblemState(problem, attempts, status_of(attempts), draft, _actions(attempts))


def decide_lesson(lesson: Lesson, problems: tuple[ProblemState, ...], current: int) -> LessonState:
    """Return the state of the lesson with the student at problem ``current``."""
    statuses = tuple(p.status for p in problems)
    following = next_open(statuses, current)
    shown = []
    for index, problem in enumerate(problems):
        target = next_open(statuses, index)
        others = problem.actions - {Action.NEXT}
        here = others | {Action.NEXT} if target not in (None, index) else others
        shown.append(ProblemState(problem.problem, problem.attempts, problem.status, problem.draft, here))
    return LessonState(
        lesson=lesson,
        problems=tuple(shown),
        current=current,
        done=all(status.settled for status in statuses),
        open_corrections=tuple(i for i, status in enumerate(statuses) if status.to_correct),
        next_open=following,
    )


def next_open(statuses: tuple[Status, ...], current: int) -> int | None:
    """Return the next problem that is not settled, from the one after ``current`` on."""
    count = len(statuses)
    order = ((current + step) % count for step in range(1, count + 1))
    return next((index for index in order if not statuses[index].settled), None)


def status_of(attempts: tuple[Attempt, ...]) -> Status:
    """Return how the problem stands.

    A favourable status that was recorded at closing stays, so that an update of the program
    cannot take a finished problem back from a student.
    """
    last = attempts[-1]
    if last.closed_as is not None and last.closed_as.settled:
        return last.closed_as
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
    """Return how the first attempt was missed; None: it was not, or the line can still be taken back."""
    if first.broken - first.can_still_go:
        return Status.MISSED
    return Status.SHOWN if first.shown else None


def closes_as(attempts: tuple[Attempt, ...]) -> Status | None:
    """Return what the last attempt comes to if it is closed now; None: it cannot be closed."""
    last = attempts[-1]
    if last.number == 0:
        if not last.complete and not last.excused:
            return None
        if last.broken or last.shown:
            return Status.MISSED if last.broken else Status.SHOWN
        return Status.DONE if last.complete else Status.PROVISIONAL
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
    if last.closed or last.complete:
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
        can_correct = not status_of(attempts).settled or status_of(attempts) is Status.PROVISIONAL
        return frozenset({Action.START_CORRECTION}) if can_correct else frozenset()
    allowed = {Action.SUBMIT}
    if any(not line.struck for line in last.working.lines):
        allowed.add(Action.STRIKE)
    if last.can_take_back:
        allowed.add(Action.TAKE_BACK)
    if last.questionable:
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
        return bool(last.broken) or last.shown
    return bool(last.working.lines) and status_of(attempts) is Status.CORRECTING
