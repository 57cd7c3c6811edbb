"""The smallest part of a typed line that is not what the line above leads to."""

from collections.abc import Sequence
from fractions import Fraction

from tutor.line.keys import expr_key
from tutor.line.meaning import Setting
from tutor.line.poly import ONE, Poly, Ratio
from tutor.line.tree import Add, Chain, Div, Expr, Measure, Mul, Neg, Num, Pow, Span, Statement
from tutor.line.walk import names_in, parts
from tutor.marking.telling.account import Account
from tutor.marking.telling.kept import NOTHING, Given, side_value, with_given


def changed_part(told: Account, line: Chain, setting: Setting, given: Given = NOTHING) -> Span:
    """Return the span of what differs from what the other side, or the line above, leads to."""
    wrong = [at for at, move in enumerate(told.moves) if not move.kept]
    if not wrong or told.shared is not None:
        return line.span
    first = _leading(told, wrong)
    lead = None if first is None else told.moves[first].op
    if len(wrong) == len(told.moves) and lead is not None:
        wrong = [at for at in wrong if told.moves[at].op != lead]
    if len(wrong) != 1:
        return line.span
    at = wrong[0]
    before, after = told.before[at], told.after[at]
    kept = lead is None or any(move.kept for move in told.moves)
    if kept:
        inner = _differing(before.expr, after.expr, setting, given)
        if inner is not None and inner is not after.expr:
            return inner.span
        if _left_out(before.expr, after.expr):
            return after.expr.span
        wanted = before.full
    else:
        wanted = None if before.full is None or lead is None else lead.applied(before.full)
    return part_of(after.expr, wanted, setting)


def _leading(told: Account, changed: Sequence[int]) -> int | None:
    """Return the side that the others should have followed: the one with the plainest move.

    Of sides with moves as plain as each other, one with the unknown in it: of ``2y = 15`` below
    ``3y − 4 = 11`` the right side leads, with 4 added, and of ``x = 9`` below ``3x = 12`` the left.
    """
    costs = {at: op.cost for at in changed if (op := told.moves[at].op) is not None}
    led = [at for at in costs if costs[at] == min(costs.values())]
    with_names = [at for at in led if names_in(told.after[at].expr)]
    return next(iter(with_names or led), None)


def changed_in(before: Expr, after: Expr, setting: Setting) -> Span:
    """Return the part of an expression that has not the value of the expression above."""
    inner = _differing(before, after, setting, NOTHING)
    if inner is not None and inner is not after:
        return inner.span
    return after.span if _left_out(before, after) else part_of(after, side_value(before, setting), setting)


def _left_out(before: Expr, after: Expr) -> bool:
    """``12 − 6√7 + 4·7``, then ``12 − 6√7``: a term is missing, and none of those that stand is wrong."""
    if not isinstance(before, Add) or not isinstance(after, Add) or len(after.terms) >= len(before.terms):
        return False
    left = [expr_key(term) for term in before.terms]
    for term in after.terms:
        if expr_key(term) not in left:
            return False
        left.remove(expr_key(term))
    return True


def part_of(expr: Expr, wanted: Ratio | None, setting: Setting) -> Span:
    """Return the one term or number that has to be another for ``expr`` to have the value ``wanted``."""
    value = side_value(expr, setting)
    if wanted is None or value is None or wanted.below != ONE or value.below != ONE:
        return expr.span
    return _narrowed(expr, wanted.above, value.above, setting)


def _narrowed(expr: Expr, wanted: Poly, value: Poly, setting: Setting) -> Span:
    match expr:
        case Neg(inner):
            narrower = _narrowed(inner, -wanted, -value, setting)
            return expr.span if narrower == inner.span else narrower
        case Add(terms):
            return _one_term(expr, terms, wanted - value, setting)
        case Mul(factors):
            return _one_number(expr, factors, wanted, value)
        case _:
            return expr.span


def _one_term(expr: Expr, terms: Sequence[Expr], difference: Poly, setting: Setting) -> Span:
    """Exactly one term of the kind that is off by the difference: it is that one."""
    found: list[tuple[Expr, Poly]] = []
    for term in terms:
        value = side_value(term, setting)
        if value is None or value.below != ONE:
            return expr.span
        if set(value.above.terms) & set(difference.terms):
            found.append((term, value.above))
    if len(found) != 1:
        return expr.span
    term, value_ = found[0]
    if set(difference.terms) - set(value_.terms):
        return expr.span
    return _narrowed(term, value_ + difference, value_, setting)


def _one_number(expr: Expr, factors: Sequence[Expr], wanted: Poly, value: Poly) -> Span:
    """``3x`` that should be ``5x``: the 3, if it is the only number."""
    numbers = [factor for factor in factors if isinstance(factor, Num)]
    mono = next(iter(value.terms), None)
    if any(not isinstance(factor, Num) and not names_in(factor) for factor in factors):
        return expr.span
    if len(numbers) != 1 or mono is None or mono not in wanted.terms:
        return expr.span
    times = Fraction(wanted.terms[mono]) / value.terms[mono]
    return numbers[0].span if value.scaled(times) == wanted else expr.span


def _differing(before: Expr, after: Expr, setting: Setting, given: Given) -> Expr | None:
    """Go down two trees of one shape to the only part in which they differ; None where they are alike."""
    if _alike(before, after, setting, given):
        return None
    if type(before) is type(after) and isinstance(after, Add | Mul | Neg | Pow | Div | Measure):
        old, new = parts(before), parts(after)
        if len(old) == len(new) and not (isinstance(after, Measure) and before != after and old == new):
            pairs = zip(old, new, strict=True)
            apart = [pair for pair in pairs if not _alike(*pair, setting, given)]
            if len(apart) == 1:
                return _differing(*apart[0], setting, given) or after
    return after


def _alike(before: Expr, after: Expr, setting: Setting, given: Given) -> bool:
    """Tell whether two parts are the same writing, or the same value with what is given put in."""
    if expr_key(before) == expr_key(after):
        return True
    old, new = side_value(before, setting), side_value(after, setting)
    if old is not None and given:
        old = with_given(old, given, old.names() & given.keys())
    return old is not None and new is not None and old.same(new)


def inside(statement: Statement, span: Span) -> Span:
    """Return the span if it lies in the typed line and is not empty, else the span of the whole line."""
    start, end = statement.span
    return span if start <= span[0] < span[1] <= end else statement.span
