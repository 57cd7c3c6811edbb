"""One go at a problem, as it was worked: its lines, its hints, and what they come to."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from tutor.lesson.model import Missed, Problem, Settings, When
from tutor.marking.hint_stage import Hint, HintStage
from tutor.marking.task import ChoiceTask, WordTask
from tutor.marking.verdict import UnitsState, Verdict

if TYPE_CHECKING:
    from tutor.marking.work import Work


_AS_USUAL = Settings()


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
    among them, a struck line is (where marks come at the end, only what stands on the page
    then counts). ``can_take_back``: the last line was the last thing done
    here, and none was taken back at this problem before. ``closed_as``: the status that was
    recorded when it was closed. ``hints``: all that were given; ``hint``: the one that stands
    beside the work as it is now. ``problem``: the question as this attempt asks it, with its
    own numbers. ``settings``: those of the lesson.
    """

    number: int
    working: Work
    problem: Problem
    settings: Settings = _AS_USUAL
    appealed: frozenset[int] = frozenset()
    closed: bool = False
    broken: frozenset[int] = frozenset()
    can_take_back: bool = False
    closed_as: Status | None = None
    hints: tuple[Hinted, ...] = ()
    hint: Hint | None = None

    @property
    def all_at_once(self) -> bool:
        """Tell whether this attempt is marked as a whole, when it is handed in."""
        return self.number == 0 and self.settings.marks is When.HANDED_IN

    @property
    def hidden(self) -> bool:
        """Tell whether nothing may be shown yet of how the lines are marked and how far the work is."""
        return self.all_at_once and not self.closed

    @property
    def can_be_handed_in(self) -> bool:
        """Tell whether the marks may be asked for: some line stands on the page."""
        return self.hidden and any(not line.struck for line in self.working.lines)

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
    def faults(self) -> frozenset[int]:
        """Return the broken lines that make a first attempt missed if it is closed as it is.

        Where the lesson lets a student mend a line unaided, one that was struck out is none, nor is
        any once the work is complete; but whoever hands several answers in has not chosen one.
        """
        if self.settings.missed is Missed.BROKEN or self.shown:
            return self.broken
        answers = self.all_at_once and isinstance(self.problem.task, ChoiceTask | WordTask)
        return frozenset() if self.complete and not answers else self.broken & self.standing_breaks

    @property
    def may_mend(self) -> bool:
        """Tell whether it is open yet which broken lines count: they may still be put right."""
        return not self.closed and not self.shown and self.settings.missed is Missed.LEFT_BROKEN

    @property
    def part(self) -> int | None:
        """Return the part that is worked at, the first that is not all found; None: there is none."""
        if self.hidden:
            return None
        if not self.problem.parts:
            return None
        found = frozenset(self.working.progress.found)
        parts = enumerate(self.problem.parts)
        return next((at for at, part in parts if not found.issuperset(part.names)), None)

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
