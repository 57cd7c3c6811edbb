"""Everyday equations: whether any wrong move can have led from one to the next is seen from its numbers.

Most lines that break are such equations with plain sides, ``8x + 3 = 5x − 30``, and no wrong move of
those that have a name gives most of them. What a move makes of the numbers a, b, c, d of
``ax + b = cx + d`` is asked here first; whatever could come from one is left to the search itself.
``tests/test_short_ways.py`` holds this against the search.
"""

from typing import TypeAlias

from tutor.line.tree import Add, Chain, Expr, Neg, Num, Rel, Statement
from tutor.marking.deciding.everyday import Everyday, Number, everyday
from tutor.marking.deciding.memo import Memo
from tutor.marking.deciding.state import Known
from tutor.marking.slips.formulas import may_be_wrong
from tutor.marking.slips.plain import is_plain
from tutor.marking.slips.traced_across import across

# How many of the unknown, and the number beside it.
Side: TypeAlias = tuple[Number, Number]


def leads_from_nowhere(known: Known, statement: Statement) -> bool:
    """Tell, quickly, that no wrong move that has a name gives an equation; False where one might."""
    above = _equation_above(known, statement)
    if above is None or not isinstance(statement, Chain):
        return False
    told, typed = everyday(above), everyday(statement)
    assert told is not None and typed is not None
    was, now = (told.left[1:], told.right[1:]), (typed.left[1:], typed.right[1:])
    if _moved(was, now) or _moved(was, now[::-1]) or may_be_wrong(told, typed):
        return False
    old, new = list(zip(above.sides, was, strict=True)), list(zip(statement.sides, now, strict=True))
    for order in (new, new[::-1]):
        if all(map(_goes_wrong, old, order)):
            return False
    return not across(told, typed, (above.sides[0], above.sides[1]))


def _equation_above(known: Known, statement: Statement) -> Chain | None:
    """Return the only equation that a line can have come from; None where there may be others.

    Both are equations in one and the same letter with whole numbers, and the one above is plain.
    """
    typed, base = everyday(statement), known.base
    if base is None or base.form() is None or known.broken or not known.above:
        return None
    if typed is None or not _is_whole_equation(statement, typed):
        return None
    for _, line in known.above:
        told = everyday(line)
        if told is None or told.form.name != typed.form.name or _gives(told):
            return None
    if not any(base.premises[0] is line for _, line in known.above):
        return None  # the problem gives an equation as well
    above = known.above[-1][1]
    told = everyday(above)
    if told is None or not isinstance(above, Chain) or not _is_whole_equation(above, told):
        return None
    return above if _PLAIN.get(above, None, _is_plain) else None


def _is_whole_equation(statement: Statement, line: Everyday) -> bool:
    return line.whole and isinstance(statement, Chain) and statement.rels[0] is Rel.EQ


def _gives(line: Everyday) -> bool:
    """Tell whether a line gives the value of its unknown."""
    return any(one == (1, 0) and not other[0] for one, other in _both_ways(line.left[1:], line.right[1:]))


def _both_ways(one: Side, other: Side) -> tuple[tuple[Side, Side], tuple[Side, Side]]:
    return (one, other), (other, one)


_PLAIN: Memo[bool] = Memo()


def _is_plain(above: Chain) -> bool:
    """Tell whether each side is a number, one term, or a term with the unknown and a number."""
    return all(map(_plain_side, above.sides))


def _plain_side(side: Expr) -> bool:
    if not isinstance(side, Add):
        return is_plain(side)
    if len(side.terms) != 2 or not all(map(is_plain, side.terms)):
        return False
    return sum(_is_number(term) for term in side.terms) == 1


def _is_number(term: Expr) -> bool:
    return isinstance(term.inner if isinstance(term, Neg) else term, Num)


def _goes_wrong(old: tuple[Expr, Side], new: tuple[Expr, Side]) -> bool:
    """Tell whether a move within a side may give the new one, where the other side went wrong as well."""
    (_, (a, b)), (typed, (p, q)) = old, new
    if not a or not b:
        return False  # a number or a term alone
    if isinstance(typed, Add) and (p == a) != (q == b):
        return True  # a digit or a sign was copied wrong
    if not p:
        return q == a + b
    return p in (a + b, a * b, -a * b) if not q else (p, q) == (-a, -b)


def _moved(was: tuple[Side, Side], now: tuple[Side, ...]) -> bool:
    """Tell whether a move on both sides may give the new sides, in this order; or a side was kept."""
    if was[0] == now[0] or was[1] == now[1]:
        return True
    return _moved_across(*was[0], *was[1], *now[0], *now[1]) or _moved_across(
        *was[1], *was[0], *now[1], *now[0]
    )


def _moved_across(
    a: Number, b: Number, c: Number, d: Number, p: Number, q: Number, r: Number, s: Number
) -> bool:
    """``ax + b = cx + d`` as ``px + q = rx + s``: whether it may come of something done to the left side."""
    if not a:
        return False  # such a side is looked at as the right one
    if not p:
        return q == b and (r, s) in ((c + a, d), (a - c, -d))
    if p != a and q * a == b * p and _scaled(a, c, d, p, r, s):
        return True
    if p != a and b and q == b and (((r * a, s * a) == (c * p, d * p)) or (p == 1 and (r, s) == (c, d - a))):
        return True  # the unknown alone was divided
    if b and not q and _stands_alone(a, b, c, d, p, r, s):
        return True
    return bool(c) and (p, q, r, s) in (
        (a + c, b, 0, d),
        (a + c, 0, 0, d - b),
        (a - c, 0, 0, d + b),
        (a - c, b, 2 * c, d),
        (c - a, -b, 0, d),
    )


def _scaled(a: Number, c: Number, d: Number, p: Number, r: Number, s: Number) -> bool:
    """The left side was multiplied or divided. With two numbers on the right much can go wrong."""
    if not c and not r:
        return True
    return (r * a, s * a) == (-c * p, -d * p) or (r * p, s * p) in ((c * a, d * a), (c * p, d * p - a))


def _stands_alone(a: Number, b: Number, c: Number, d: Number, p: Number, r: Number, s: Number) -> bool:
    """The number b left the left side."""
    if p == a and (r, s) == (c, d + b):
        return True
    if a < 0 and p == -a and r == c and s in (d - b, d + b):
        return True
    return p == 1 and ((r, s) == (c, d - b - a) or (r * a, s * a) == (c, d - b * a))
