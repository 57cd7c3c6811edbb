"""The work at one problem, built up again from what was done: one step for each event."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, TypeAlias, assert_never

from tutor.lesson.model import Problem
from tutor.marking.hint_stage import HintStage
from tutor.marking.task import AnyTask, Task
from tutor.marking.verdict import Verdict
from tutor.record.ledger import Draft, Event, Kind
from tutor.record.state import Attempt, Hinted, ProblemState, Status, decide

if TYPE_CHECKING:
    from tutor.marking.work import Work

Begin: TypeAlias = "Callable[[AnyTask], Work]"


@dataclass(frozen=True, slots=True)
class Sheet:
    """One attempt, the event of each of its lines, and how it was before the last line."""

    attempt: Attempt
    ids: tuple[int, ...] = ()
    before: Sheet | None = None


@dataclass(frozen=True, slots=True)
class History:
    """All the work at one problem. ``row`` is the problem's row in the record."""

    problem: Problem
    row: int
    sheets: tuple[Sheet, ...]
    took_back: bool = False
    draft: str = ""

    @property
    def attempt(self) -> Attempt:
        """Return the attempt that is being worked on, or was last."""
        return self.sheets[-1].attempt

    @property
    def state(self) -> ProblemState:
        """Return what this work comes to."""
        return decide(self.problem, tuple(sheet.attempt for sheet in self.sheets), self.draft)


def blank(problem: Problem, row: int, begin: Begin) -> History:
    """Return the history of a problem that was never touched."""
    return History(problem, row, (Sheet(Attempt(0, begin(problem.task))),))


def replay(problem: Problem, row: int, events: Iterable[Event], draft: Draft, begin: Begin) -> History:
    """Return the work as it was left. ``events`` may hold those of other problems too.

    A line that was on the disk but not yet marked when the program ended is back in the box.
    """
    history = blank(problem, row, begin)
    in_box = draft.text
    for event in events:
        if event.problem != row:
            continue
        history = apply(history, event, begin)
        if event.kind is Kind.LINE:
            in_box = _box_after(event, draft)
    return replace(history, draft=in_box)


def _box_after(line: Event, draft: Draft) -> str:
    """Return what is in the box once ``line`` was handed in: a draft kept later, or the unmarked line."""
    if draft.after >= line.id or line.verdict:
        return draft.text
    return line.text


def apply(history: History, event: Event, begin: Begin) -> History:
    """Return the work with one more event; one that fits nothing changes nothing."""
    match event.kind:
        case Kind.LINE:
            if not event.is_work or history.attempt.closed:
                return history
            return add_line(history, event.id, history.attempt.working.submit(event.text))
        case Kind.STRIKE | Kind.APPEAL:
            sheet = history.sheets[-1]
            return (
                _on_line(history, event, sheet.ids.index(event.line)) if event.line in sheet.ids else history
            )
        case Kind.TAKE_BACK:
            before = history.sheets[-1].before
            if before is None:
                return history
            return replace(_put(history, before), took_back=True)
        case Kind.CLOSE:
            return _close(history, event.text)
        case Kind.CORRECT:
            return _begin_correction(history, begin)
        case Kind.HINT:
            return _give_hint(history, event)
        case Kind.GO:
            return history
        case _:
            assert_never(event.kind)


def add_line(history: History, line: int, working: Work) -> History:
    """Return the work with the last line of ``working`` added, whose event is ``line``."""
    sheet = history.sheets[-1]
    attempt = sheet.attempt
    verdict = working.lines[-1].mark.verdict
    counts = verdict is Verdict.BREAKS and not attempt.answered
    broken = frozenset(i for i in attempt.broken if not _was_put_right(attempt.working, working, i))
    if counts:
        broken |= {len(working.lines) - 1}
    can_take_back = not history.took_back
    grown = replace(attempt, working=working, broken=broken, can_take_back=can_take_back, hint=None)
    before = None if history.took_back else Sheet(replace(attempt, can_take_back=False), sheet.ids)
    return _put(history, Sheet(grown, (*sheet.ids, line), before))


def _was_put_right(before: Work, after: Work, index: int) -> bool:
    """Tell whether the new line turned a break above it into a line that holds.

    A comparison that is false breaks alone and is right with *no* under it (DESIGN 4).
    """
    verdicts = before.lines[index].mark.verdict, after.lines[index].mark.verdict
    return verdicts[0] is Verdict.BREAKS and verdicts[1] is not Verdict.BREAKS


def _on_line(history: History, event: Event, index: int) -> History:
    sheet = history.sheets[-1]
    attempt = replace(sheet.attempt, can_take_back=False)
    if event.kind is Kind.STRIKE:
        attempt = replace(attempt, working=attempt.working.strike(index), hint=None)
    else:
        attempt = replace(attempt, appealed=attempt.appealed | {index})
    return _put(history, Sheet(attempt, sheet.ids))


def _give_hint(history: History, event: Event) -> History:
    """A line that was seen cannot be unseen: nothing is taken back after it."""
    sheet = history.sheets[-1]
    attempt, hint = sheet.attempt, event.hint
    if hint is None or attempt.closed:
        return history
    shows = hint.stage is HintStage.LINE
    attempt = replace(
        attempt,
        hint=hint,
        hints=(*attempt.hints, Hinted(len(attempt.working.lines), hint)),
        can_take_back=attempt.can_take_back and not shows,
    )
    return _put(history, Sheet(attempt, sheet.ids, None if shows else sheet.before))


def _close(history: History, text: str) -> History:
    sheet = history.sheets[-1]
    closed_as = next((status for status in Status if status.value == text), None)
    attempt = replace(sheet.attempt, closed=True, closed_as=closed_as, can_take_back=False, hint=None)
    return _put(history, Sheet(attempt, sheet.ids))


def _begin_correction(history: History, begin: Begin) -> History:
    """The whole problem again, on the same numbers, with every step asked for (DESIGN 8)."""
    task = history.problem.task
    if isinstance(task, Task):
        task = replace(task, every_step=True)
    fresh = Sheet(Attempt(len(history.sheets), begin(task)))
    return replace(history, sheets=(*history.sheets, fresh))


def _put(history: History, sheet: Sheet) -> History:
    return replace(history, sheets=(*history.sheets[:-1], sheet))
