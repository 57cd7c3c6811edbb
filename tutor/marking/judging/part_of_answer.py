"""Lines that give one part of the answer and say so: ``x₁ = 5``, ``Case 1: 2x − 3 = 5``."""

import re
from dataclasses import replace

from tutor.line.meaning import Setting
from tutor.line.tree import Chain, Statement
from tutor.marking.deciding.compare import Overlap
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.follow import Found, How, search
from tutor.marking.deciding.state import Known
from tutor.marking.judging.aftermath import Judged, stands
from tutor.marking.telling.reasons import why_links_break
from tutor.marking.verdict import Verdict

_NUMBERED = re.compile(r"\s*(?:(?:so|and|∴|⇒|→)\s*)?[A-Za-z](?:[₁-₉]|_?\{?[1-9]\}?)\s*[=≈]", re.IGNORECASE)
_CASE = re.compile(
    r"\s*[(\[]?(?:case|(?:1st|2nd|3rd|first|second|third)\s+case)\s*(?:\d|[ivx]{1,3}|[a-d])?\s*[)\]]?\s*[:.)]\s*",
    re.IGNORECASE,
)


def part_of_answer(known: Known, text: str, statement: Statement, index: int) -> Judged | None:
    """Return the mark of one solution, or of one case, that is told to be one; None for any other line.

    It has to be true of what is known; the others are still to come, so the work is not finished.
    """
    if known.base is None or not isinstance(statement, Chain) or len(statement_names(statement)) != 1:
        return None
    if "_" in min(statement_names(statement)):
        return None  # the A₂ of "A = A₁ + A₂" is a name of its own
    if _NUMBERED.match(text) is None and _CASE.match(text) is None:
        return None
    spoken_of = frozenset(name for premise in known.base.premises for name in statement_names(premise))
    if (
        not statement_names(statement) <= spoken_of
        or why_links_break(known, statement, Setting()) is not None
    ):
        return None  # "A₂ = 3 · 4 = 13" is no part of an answer
    lost = search(known, statement, (known.base,))
    if lost.overlap is not Overlap.FEWER or lost.index is None:
        return None
    branch = known.base.replaced(lost.index, statement, index)
    found = Found(How.FOLLOWS, lost.setting, branch, lost.index, Overlap.SAME)
    judged = stands(known, statement, index, Verdict.FOLLOWS, found)
    return replace(judged, known=replace(judged.known, more=(*judged.known.more, branch)))
