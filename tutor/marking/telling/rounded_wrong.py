"""Decimals that are near what they stand for: rounded where = says exactly, or with a wrong last digit."""

from fractions import Fraction

from tutor.line.poly import Ratio
from tutor.line.real import approximate
from tutor.line.tree import Chain, Expr, Measure, Neg, Num, Percent, Rel
from tutor.marking.deciding.rounding import ends, rounds_to
from tutor.marking.telling.moves import rational_of
from tutor.marking.telling.pairing import Pair
from tutor.marking.telling.quoting import quote
from tutor.marking.telling.why import Why
from tutor.marking.verdict import Reason


def rounded_too_far(pair: Pair) -> Why | None:
    """Return the reason of a number that was rounded where nothing allows it."""
    if not pair.account.right.words.endswith("rounded"):
        return None
    number = pair.account.after[-1].expr
    message = f"{quote(number)} is rounded, and = says exactly. Keep more digits, or write ≈."
    return Why(Reason.VALUE_CHANGED, message, number.span)


def not_rounded_right(pair: Pair, line: Chain) -> Why | None:
    """``3x = 17``, then ``x ≈ 5.66``: cut off, or off by one in its last place.

    Of an = only where the value has a decimal without end, and a place behind the point is shown.
    """
    told = pair.account
    if len(told.moves) != 2 or not line.rels[0].equates:
        return None
    for at in (1, 0):
        number = _number(told.after[at].expr)
        other = told.moves[1 - at]
        if number is None or number.places is None or (other.op is None and not other.kept):
            continue
        about = line.rels[0] is Rel.APPROX
        if not about and number.places <= 0:
            continue
        exact = _value_wanted(pair, at)
        shown = told.after[at].full
        size = None if shown is None else rational_of(shown)
        if exact is None or not size or not number.value:
            continue
        value = exact / (size / number.value)
        off = abs(value - number.value) * 10**number.places
        if (about or not ends(value)) and off < 1 and not rounds_to(value, number.value, number.places):
            message = (
                f"{quote(told.after[at].expr)} is not rounded right. Look at the digit behind the last one."
            )
            return Why(Reason.VALUE_CHANGED, message, told.after[at].expr.span)
    return None


def _value_wanted(pair: Pair, at: int) -> Fraction | None:
    """Return what a side has to be, by what was done to the other side."""
    told = pair.account
    before, other = told.before[at].full, told.moves[1 - at]
    wanted: Ratio | None = before
    if before is not None and not other.kept and other.op is not None:
        wanted = other.op.applied(before)
    constant = None if wanted is None else wanted.constant()
    return None if constant is None else approximate(constant)


def _number(expr: Expr) -> Num | None:
    while isinstance(expr, Neg | Measure | Percent):
        expr = expr.inner
    return expr if isinstance(expr, Num) and not expr.open_end else None
