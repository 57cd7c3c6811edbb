"""Marks that are made in several places, and what is asked of every line first."""

from functools import partial

from tutor.line.meaning import value_of
from tutor.line.poly import NotExact
from tutor.line.tree import Statement
from tutor.line.walk import sides
from tutor.line.writing import write_statement
from tutor.marking.deciding.facts import facts
from tutor.marking.deciding.state import Known
from tutor.marking.judging.aftermath import Judged
from tutor.marking.verdict import Mark, Verdict

CARRIES = "This follows from the wrong line above. Mend that line first."
_UNDECIDED = (
    "Evenline cannot decide this line. It may well be right: go on in smaller steps or ask your teacher."
)


def undecided(known: Known, statement: Statement) -> Judged:
    """Return the mark of a line that cannot be decided."""
    return Judged(spoken(Verdict.UNDECIDED, statement, _UNDECIDED), known, statement)


def spoken(verdict: Verdict, statement: Statement, message: str) -> Mark:
    """Return a mark with a message and nothing else to tell."""
    return Mark(verdict, message=message, read_as=partial(write_statement, statement))


def no_division_by_zero(statement: Statement) -> None:
    """Raise ``DividedByZero`` if a side divides by zero; what cannot be held is left alone."""
    if not facts(statement).divides:
        return
    for side in sides(statement):
        try:
            value_of(side)
        except NotExact:
            continue
