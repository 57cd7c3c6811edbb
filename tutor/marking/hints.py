"""Hints in three stages, from the student's own lines: where to look, what to do, the line itself."""

from typing import assert_never

from tutor.line.tree import NOWHERE, Span
from tutor.marking.hint_stage import Hint, HintStage
from tutor.marking.steps.engine import Next, next_step
from tutor.marking.verdict import Reason, Verdict
from tutor.marking.working import Working, WorkLine

__all__ = ["Hint", "HintStage", "hint"]


def hint(working: Working, stage: HintStage) -> Hint | None:
    """Return the hint of one stage; None where nothing is left to do or the engine cannot tell.

    It goes on from the last line that stands. Where the last line did not stand, the first
    stage points at that line.
    """
    # Who went wrong on the way to the next value is not sent back for a unit.
    trouble = _trouble(working)
    found = next_step(working.known, unit_first=trouble is None or trouble[1].mark.reason is Reason.UNIT)
    match stage:
        case HintStage.WHERE:
            return _of_trouble(working) or (None if found is None else _where(working, found))
        case HintStage.WHAT:
            return None if found is None else Hint(stage, _told(working, found))
        case HintStage.LINE:
            if found is None:
                return None
            return Hint(stage, f"{_told(working, found)} The next line:", found.line.text)
        case _:
            assert_never(stage)


def _unstruck(working: Working) -> list[tuple[int, WorkLine]]:
    return [(at, line) for at, line in enumerate(working.lines) if not line.struck]


def _trouble(working: Working) -> tuple[int, WorkLine] | None:
    """Return the first line after the last standing one that does not stand, if the last one does not."""
    found: tuple[int, WorkLine] | None = None
    for at, line in reversed(_unstruck(working)):
        if line.mark.verdict.stands:
            break
        if line.mark.verdict is not Verdict.NOTE:
            found = (at, line)
    return found


def _of_trouble(working: Working) -> Hint | None:
    trouble = _trouble(working)
    if trouble is None:
        return None
    at, line = trouble
    last = _unstruck(working)[-1][0]
    span = line.mark.span if at == last else None
    part = "it" if span is None else "the marked part"
    match line.mark.verdict:
        case Verdict.UNREAD | Verdict.UNDECIDED:
            message = f"Look at line {at + 1} again: can you write {part} in another way?"
        case _:
            first = _unstruck(working)[0][0] == at
            other = "the problem" if first else "the lines above"
            message = f"Look at line {at + 1} again: {part} does not fit {other}."
    return Hint(HintStage.WHERE, message, None, span)


def _told(working: Working, found: Next) -> str:
    """Return what to do; where it does not go on from the last line, also from which line it does."""
    said = found.line.sentence
    if _trouble(working) is None:
        return said
    above = working.known.above
    then = said[:1].lower() + said[1:]
    return f"Go on from line {above[-1][0] + 1}: {then}" if above else f"Start again: {then}"


def _where(working: Working, found: Next) -> Hint:
    return Hint(HintStage.WHERE, found.move.where, None, _span(working, found))


def _span(working: Working, found: Next) -> Span | None:
    """Return where the part stands in the last line, if the step goes on from that line."""
    focus, lines = found.move.focus, _unstruck(working)
    if focus is None or focus.span == NOWHERE or not lines:
        return None
    text, statement = lines[-1][1].text, lines[-1][1].statement
    if found.move.source != statement or text.lstrip()[:1] in ("=", "<", ">", "≤", "≥", "≈"):
        return None
    return focus.span if focus.span[1] <= len(text) else None
