"""Whether an equation still says what the one above says: then no wrong move is told of it."""

from dataclasses import replace

from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Chain, Expr
from tutor.marking.deciding.claim import claim_of
from tutor.marking.deciding.compare import Axis, Overlap, compare
from tutor.marking.slips.balance import linear
from tutor.marking.slips.spots import Values, exact


def same_solutions(above: Chain, typed: Chain, values: Values) -> bool:
    """Tell whether the line says the same as the line above, as far as that can be told cheaply."""
    told = _same_root((above.sides[0], above.sides[-1]), typed.sides[:2], values)
    if told is not None and typed.rels[0].equates:
        return told
    try:
        before = claim_of(_ends(above), values.setting)
        after = claim_of(_first_link(typed), values.setting)
        if before == after:
            return True
        names = before.names() | after.names()
        if len(names) != 1:
            return False
        (name,) = names
        return compare(after, before, Axis(name, name in values.setting.positive)) is Overlap.SAME
    except (NotExact, DividedByZero):
        return False


def _same_root(above: tuple[Expr, ...], typed: tuple[Expr, ...], values: Values) -> bool | None:
    """Compare two equations that are linear in the same unknown; None where they are not."""
    found = exact([values.of(side) for side in (*above, *typed)])
    if found is None:
        return None
    one, two = linear(found[0] - found[1]), linear(found[2] - found[3])
    if one is None or two is None or one.mono != two.mono:
        return None
    return one.rest * two.lead == two.rest * one.lead


def _ends(chain: Chain) -> Chain:
    return replace(chain, sides=(chain.sides[0], chain.sides[-1]), rels=chain.rels[-1:])


def _first_link(chain: Chain) -> Chain:
    return replace(chain, sides=chain.sides[:2], rels=chain.rels[:1])
