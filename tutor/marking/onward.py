"""Lines that begin with a sign and go on from the line above, or from a broken one."""

from dataclasses import replace

from tutor.line.poly import NotExact
from tutor.line.tree import NOWHERE, Bare, Chain, Expr, Onward, Statement
from tutor.line.walk import rebuilt, sides
from tutor.marking.aftermath import Judged, carried_on
from tutor.marking.deciding.claim import ALWAYS, claim_of
from tutor.marking.deciding.state import Known, settings
from tutor.marking.marks import CARRIES, spoken
from tutor.marking.verdict import Verdict


def from_broken(known: Known, onward: Onward, index: int) -> Judged | None:
    """A line that goes on from the broken line right above it, and is right given that one."""
    if not known.broken or (known.above and known.above[-1][0] > known.broken[-1][0]):
        return None
    wrong = sides(known.broken[-1][1])
    if not wrong:
        return None
    statement = Chain((wrong[-1], *onward.sides), onward.rels, onward.span)
    if claim_of(statement, settings(known, statement)[0]) != ALWAYS:
        return None
    mark = spoken(Verdict.CARRIES, statement, CARRIES)
    return Judged(mark, carried_on(known, statement, index), statement)


def gone_on_from(previous: Statement, onward: Onward) -> Statement:
    """``= 48`` under ``A = 6·8``: the line goes on from the last side above."""
    if isinstance(previous, Chain):
        first, last = _from_above(previous.sides[0]), _from_above(previous.sides[-1])
        return Chain((first, last, *onward.sides), (previous.rels[-1], *onward.rels), onward.span)
    if isinstance(previous, Bare):
        return Chain((_from_above(previous.expr), *onward.sides), onward.rels, onward.span)
    raise NotExact("nothing to go on from")


def _from_above(side: Expr) -> Expr:
    """Return a side that stands in another line: it has no place in this one."""
    return rebuilt(side, lambda node: replace(node, span=NOWHERE))
