"""A label with a question mark: ``s = ?``, and what is told beside it."""

from collections.abc import Callable
from dataclasses import replace

from tutor.line.tree import Joined, Joiner, Statement
from tutor.marking.deciding.holes import told_beside
from tutor.marking.deciding.state import Known
from tutor.marking.judging.aftermath import Judged, stands
from tutor.marking.verdict import Verdict

Judge = Callable[[Known, Statement, int, str | None], Judged]

_WRONG = (Verdict.BREAKS, Verdict.CARRIES)


def label(known: Known, statement: Statement, index: int, judge: Judge) -> Judged:
    """Mark a line with a question mark. ``judge``: the marking of what is told beside it."""
    return _told_beside(known, statement, index, judge) or _stands(known, statement, index)


def _stands(known: Known, statement: Statement, index: int) -> Judged:
    return stands(known, statement, index, Verdict.FOLLOWS, None)


def _told_beside(known: Known, statement: Statement, index: int, judge: Judge) -> Judged | None:
    """``b = 48 cm, s = ?``: what is told beside the question mark is marked as on a line of its own.

    Where it stands it is known from here on. Of several values that are told the first one that
    breaks by itself says why.
    """
    told = None if known.base is None else told_beside(statement)
    if told is None:
        return None
    judged = judge(known, told, index, None)
    if judged.mark.verdict.stands:
        # The whole line stands above: its question mark labels what is asked.
        after = replace(judged.known, above=(*known.above, (index, statement)))
        return replace(_stands(known, statement, index), known=after)
    if judged.mark.verdict not in _WRONG:
        return None
    for part in told.parts if isinstance(told, Joined) and told.joiner is not Joiner.OR else ():
        alone = judge(known, part, index, None)
        if alone.mark.verdict is Verdict.BREAKS:
            return alone
    return judged
