"""The work at one problem, built up again from what was done: one step for each event."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, TypeAlias, assert_never

from tutor.lesson.model import Numbers, Problem
from tutor.marking.hint_stage import HintStage
from tutor.marking.task import AnyTask
from tutor.marking.verdict import Verdict
from tutor.record.asked import AS_USUAL, Terms, asked_at, numbers_of
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
    """All the work at one problem. ``row`` is the problem's row in the record.

    ``worked``: the event of the last line that was handed in here.
    """

    problem: Problem
    row: int
    sheets: tuple[Sheet, ...]
    terms: Terms = AS_USUAL
    took_back: bool = False
    draft: str = ""
    worked: int = 0

    @property
    def attempt(self) -> Attempt:
        """Return the attempt that is being worked on, or was last."""
        return self.sheets[-1].attempt

    @property
    def state(self) -> ProblemState:
        """Return what this work comes to."""
        return decide(self.problem, tuple(sheet.attempt for sheet in self.sheets), self.draft, self.worked)


def blank(problem: Problem, row: int, begin: Begin, terms: Terms = AS_USUAL) -> History:
    """Return the history of a problem that was never touched."""
    return History(problem, row, (_sheet(problem, terms, 0, Numbers.SAME, begin),), terms)


def _sheet(problem: Problem, terms: Terms, number: int, numbers: Numbers, begin: Begin) -> Sheet:
    asked = asked_at(problem, terms, number, numbers)
    return Sheet(Attempt(number, begin(asked.task), asked, terms.settings))


def replay(
    problem: Problem, row: int, events: Iterable[Event], draft: Draft, begin: Begin, terms: Terms = AS_USUAL
) -> History:
    """Return the work as it was left. ``events`` may hold those of other problems too.

    A line that was on the disk but not yet marked when the program ended is back in the box.
    """
    history = blank(problem, row, begin, terms)
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
            if event.line not in sheet.ids:
                return history
            return _on_line(history, event, sheet.ids.index(event.line), begin)
        case Kind.TAKE_BACK:
            before = history.sheets[-1].before
            if before is None:
                return history
            return replace(_put(history, before), took_back=True)
        case Kind.CLOSE:
            return _close(history, event.text)
        case Kind.CORRECT:
            number = len(history.sheets)
            sheet = _sheet(history.problem, history.terms, number, numbers_of(event.text), begin)
            return replace(history, sheets=(*history.sheets, sheet))
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
    can_take_back = not history.took_back
    grown = replace(_grown(attempt, working), can_take_back=can_take_back, hint=None)
    before = None if history.took_back else Sheet(replace(attempt, can_take_back=False), sheet.ids)
    return _put(replace(history, worked=line), Sheet(grown, (*sheet.ids, line), before))


def _grown(attempt: Attempt, working: Work) -> Attempt:
    """Return the attempt with the last line of ``working``, and which lines broke."""
    counts = working.lines[-1].mark.verdict is Verdict.BREAKS and not attempt.answered
    broken = frozenset(i for i in attempt.broken if not _was_put_right(attempt.working, working, i))
    return replace(attempt, working=working, broken=broken | {len(working.lines) - 1} if counts else broken)


def _was_put_right(before: Work, after: Work, index: int) -> bool:
    """Tell whether the new line turned a break above it into a line that holds.

    A comparison that is false breaks alone and is right with *no* under it (DESIGN 4).
    """
    verdicts = before.lines[index].mark.verdict, after.lines[index].mark.verdict
    return verdicts[0] is Verdict.BREAKS and verdicts[1] is not Verdict.BREAKS


def _on_line(history: History, event: Event, index: int, begin: Begin) -> History:
    sheet = history.sheets[-1]
    attempt = replace(sheet.attempt, can_take_back=False)
    if event.kind is Kind.STRIKE:
        attempt = replace(attempt, working=attempt.working.strike(index), hint=None)
        if attempt.hidden:
            attempt = replace(attempt, broken=_broken_on_the_page(attempt, begin))
    else:
        attempt = replace(attempt, appealed=attempt.appealed | {index})
    return _put(history, Sheet(attempt, sheet.ids))


def _broken_on_the_page(attempt: Attempt, begin: Begin) -> frozenset[int]:
    """Return the lines that break if the page is read as it stands, without what was struck out.

    Nobody was told yet how the lines are marked, so one that a student struck out was mended unaided.
    """
    kept = [index for index, line in enumerate(attempt.working.lines) if not line.struck]
    again = replace(attempt, working=begin(attempt.problem.task), broken=frozenset())
    for index in kept:
        again = _grown(again, again.working.submit(attempt.working.lines[index].text))
    return frozenset(kept[place] for place in again.broken)


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


def _put(history: History, sheet: Sheet) -> History:
    return replace(history, sheets=(*history.sheets[:-1], sheet))
