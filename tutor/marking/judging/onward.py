"""Lines that begin with a sign and go on from the line above, or from a broken one."""

from dataclasses import replace
from itertools import pairwise

from tutor.line.poly import NotExact
from tutor.line.tree import NOWHERE, Bare, Chain, Expr, Onward, Rel, Statement
from tutor.line.walk import rebuilt, sides, statement_names
from tutor.marking.deciding.by_signs import Kept
from tutor.marking.deciding.claim import ALWAYS, claim_of
from tutor.marking.deciding.facts import facts
from tutor.marking.deciding.follow import How
from tutor.marking.deciding.instance import evaluated
from tutor.marking.deciding.keeping import keeps_value
from tutor.marking.deciding.state import Known, Spec, settings
from tutor.marking.judging.aftermath import Judged, broken, carried_on, stands
from tutor.marking.judging.expressions import kept
from tutor.marking.judging.marks import CARRIES, spoken, undecided
from tutor.marking.telling.reasons import Why, why_value_changed
from tutor.marking.telling.sides_kept import not_kept
from tutor.marking.verdict import Verdict


def works_out(known: Known, onward: Onward, next_text: str | None) -> bool:
    """Tell whether a line goes on from an expression that is worked out, and makes no equation of it.

    ``= 7`` below ``2x + 3`` makes one where an unknown is asked for or the line after it is an equation.
    """
    if known.base is None or known.base.premises or known.context.find:
        return False
    if next_text is not None and "=" in next_text and not next_text.lstrip().startswith("="):
        return False
    return all(rel is Rel.EQ for rel in onward.rels)


def kept_onward(known: Known, statement: Statement, onward: Onward, index: int) -> Judged | None:
    """``= x²`` below ``x⁹/x⁷``: each side is what the one before it is, wherever both have a value.

    ``statement``: the whole line, with the side above. None for a line without letters or with units.
    """
    if not isinstance(statement, Chain) or not statement_names(statement) or facts(statement).units:
        return None
    if not all(rel is Rel.EQ for rel in onward.rels):
        return None
    worked = [Bare(side, side.span) for side in statement.sides[-len(onward.sides) - 1 :]]
    unsure = False
    nothing_is_told = known.base is not None and not known.base.premises
    for at, (before, after) in enumerate(pairwise(worked)):
        found = kept(known, before, after)
        if found in (None, How.BREAKS) and nothing_is_told and evaluated(before, after):
            continue
        if found is How.BREAKS:
            above = replace(known, above=(*known.above[:-1], (index - 1, before)))
            setting = settings(known, after)[0]
            why = why_value_changed(above, before, after, setting)
            if at and why.slip is None:  # "the line above" is not where it went wrong
                why = not_kept(known, statement, setting) or why
            return from_broken(known, onward, index) or broken(known, statement, index, why)
        unsure = unsure or found is None
    if unsure:
        return undecided(known, statement)
    return stands(known, statement, index, Verdict.FOLLOWS, None)


def why_chain_parts(known: Known, statement: Statement, index: int) -> Why | None:
    """``2(x + 3) = 2x + 6 = 2x + 9``: a chain that works an expression out must keep its value to the end.

    It works one out where a link holds for every number; a link that does not then makes no equation.
    """
    if not isinstance(statement, Chain) or len(statement.sides) < 3 or known.context.find:
        return None
    if not all(rel is Rel.EQ for rel in statement.rels) or facts(statement).units:
        return None
    setting = settings(known, statement)[0]
    works_out, parted = False, None
    for before, after in pairwise(Bare(side, side.span) for side in statement.sides):
        found = keeps_value(before, after, setting)
        works_out = works_out or (found is Kept.ALWAYS and bool(statement_names(before)))
        again = statement_names(after) and statement_names(after) <= statement_names(before)
        if found is Kept.NOT and again and parted is None:
            parted = before, after
    if parted is None or not works_out:
        return None
    above = replace(known, above=((index - 1, parted[0]),), base=Spec((), frozenset()))
    return why_value_changed(above, *parted, setting)


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
