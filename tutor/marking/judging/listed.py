"""Solutions that are listed with "and": ``x = 5 and x = −5`` below ``x² = 25``."""

from dataclasses import replace

from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Chain, Joined, Joiner, Name, Statement
from tutor.line.walk import names_in
from tutor.marking.deciding.claim import Claim, claim_of
from tutor.marking.deciding.compare import Axis, solutions
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.state import Known, settings
from tutor.marking.judging.aftermath import Judged

WRITE_OR = "Write “or” between two solutions: {} is one of them, not both at once."


def listed(known: Known, statement: Statement) -> Joined | None:
    """Return values of one unknown joined by "and" as the list that is meant; None for any other line.

    Different values can only be a list. ``x > 3 and x < 5`` says both at once, and so do equations
    that are still to be solved: ``x − 5 = 0 and x + 5 = 0``.
    """
    if not isinstance(statement, Joined) or statement.joiner is not Joiner.AND:
        return None
    names = statement_names(statement)
    if len(names) != 1 or not all(map(_gives_a_value, statement.parts)):
        return None
    try:
        claim = claim_of(statement, settings(known, statement)[0])
        together = () if claim == Claim(()) else solutions(claim, Axis(min(names)))
    except (NotExact, DividedByZero):
        return None
    return replace(statement, joiner=Joiner.OR) if together == () else None


def _gives_a_value(part: Statement) -> bool:
    """``x = 10/2`` and ``x ≈ ±2.65``: the name alone on one side and only there."""
    if not isinstance(part, Chain) or not all(rel.equates for rel in part.rels):
        return False
    others = [side for side in part.sides if not isinstance(side, Name)]
    return len(others) == len(part.sides) - 1 and not names_in(*others)


def told_as_list(judged: Judged, listed_line: Joined) -> Judged:
    """Return the mark of such a line: where it stands, with the word that joins solutions."""
    if not judged.mark.verdict.stands or judged.mark.note:
        return judged
    note = WRITE_OR.format(min(statement_names(listed_line)))
    return replace(judged, mark=replace(judged.mark, note=note))
