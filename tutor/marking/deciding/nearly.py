"""Comparisons of numbers with ``≈`` inside: ``3 + √5 ≈ 3 + 2.236 = 5.236``.

A decimal of two places may stand for anything within half a hundredth, so a sum or a product of
such decimals stands for what lies between its smallest and its largest value.
"""

from dataclasses import dataclass
from fractions import Fraction

from tutor.line.meaning import Setting, value_of
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Add, Bare, Div, Expr, Mul, Neg, Num, Rel
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.ground import evaluate

_ZERO = Fraction(0)


@dataclass(frozen=True, slots=True)
class Between:
    """All values from ``low`` to ``high``."""

    low: Fraction
    high: Fraction


def holds_nearly(sides: tuple[Expr, ...], rels: tuple[Rel, ...], setting: Setting) -> bool:
    """Tell whether numbers compare as a chain says, with ``≈`` where decimals were put in."""
    if not any(rel is Rel.APPROX for rel in rels) or any(map(_has_names, sides)):
        return False
    pairs = zip(sides, rels, sides[1:], strict=False)
    try:
        return all(_link_holds(left, rel, right, setting) for left, rel, right in pairs)
    except (NotExact, DividedByZero):
        return False


def _has_names(side: Expr) -> bool:
    return bool(statement_names(Bare(side)))


def _link_holds(left: Expr, rel: Rel, right: Expr, setting: Setting) -> bool:
    first, second = _value(left, setting), _value(right, setting)
    if first is None or second is None:
        return False
    if rel is Rel.EQ:
        return first == second or any(
            _goes_on(side) and 0 <= abs(other) - abs(shown) < Fraction(1, 10 ** (side.places or 0))
            for side, shown, other in ((left, first, second), (right, second, first))
            if isinstance(side, Num)
        )
    if rel is not Rel.APPROX:
        return False
    return any(
        rounded.low <= exact <= rounded.high
        for rounded, exact in ((_between(right, setting), first), (_between(left, setting), second))
        if rounded is not None
    )


def _goes_on(side: Expr) -> bool:
    return isinstance(side, Num) and side.open_end


def _value(side: Expr, setting: Setting) -> Fraction | None:
    ratio = value_of(_ended(side), setting)
    above, below = evaluate(ratio.above, {}), evaluate(ratio.below, {})
    return None if above is None or not below else above / below


def _ended(side: Expr) -> Expr:
    return Num(side.value, side.text, side.places, False, side.span) if isinstance(side, Num) else side


def _between(side: Expr, setting: Setting) -> Between | None:
    """Return what a side with decimals in it may stand for, None where it holds none."""
    match side:
        case Num(value=value, places=places):
            half = Fraction(1, 2 * 10**places) if places is not None else Fraction(0)
            return Between(value - half, value + half) if half else None
        case Neg(inner):
            found = _between(inner, setting)
            return None if found is None else Between(-found.high, -found.low)
        case Add(terms):
            parts = [_part(term, setting) for term in terms]
            return Between(sum((one.low for one in parts), _ZERO), sum((one.high for one in parts), _ZERO))
        case Mul(factors):
            made = Between(Fraction(1), Fraction(1))
            for factor in factors:
                made = _times(made, _part(factor, setting))
            return made
        case Div(top, bottom):
            above, below = _part(top, setting), _part(bottom, setting)
            if below.low <= 0 <= below.high:
                return None
            return _times(above, Between(1 / below.high, 1 / below.low))
        case _:
            return None


def _part(side: Expr, setting: Setting) -> Between:
    # A whole number beside decimals is meant exactly: the 3 of "3 + 2.236".
    found = None if isinstance(side, Num) and not side.places else _between(side, setting)
    if found is not None:
        return found
    value = _value(side, setting)
    if value is None:
        raise NotExact("no number")
    return Between(value, value)


def _times(one: Between, other: Between) -> Between:
    ends = [a * b for a in (one.low, one.high) for b in (other.low, other.high)]
    return Between(min(ends), max(ends))
