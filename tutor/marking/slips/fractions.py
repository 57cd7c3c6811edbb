"""Wrong moves with fractions: adding, multiplying, cancelling."""

import re
from collections.abc import Iterator
from fractions import Fraction

from tutor.line.poly import ONE, DividedByZero, NotExact, Ratio, number_in
from tutor.line.tree import Add, Div, Expr, Mul, Neg, Num
from tutor.marking.slips.balance import is_fraction
from tutor.marking.slips.pairs import Pair
from tutor.marking.slips.spots import (
    Hit,
    Spot,
    Values,
    exact,
    factors_of,
    negated,
    show,
    show_unsigned,
    sum_of,
    terms_of,
    unsigned,
)


def fractions_added(pair: Pair) -> Iterator[Hit]:
    """``1/2 + 1/3`` as 2/5, as 2, as 2/3."""
    if not is_fraction(unsigned(pair.first)) and not is_fraction(unsigned(pair.second)):
        return
    if isinstance(pair.second, Neg) and isinstance(pair.second.inner, Neg):
        return  # 3/4 − (−1/4): that is about the two minuses
    one, two = _parts(pair.first, pair.values), _parts(pair.second, pair.values)
    if one is None or two is None:
        return
    (a, b), (c, d) = one, two
    tops = a + c
    first, second = show_unsigned(pair.first), show_unsigned(pair.second)
    minus = isinstance(pair.second, Neg)
    done = "taken away" if minus else "added"
    if _gives_over(pair, tops, b - d if minus else b + d) or _gives_over(pair, tops, b + d):
        message = (
            f"Maybe the tops were {done} and the bottoms too. Are parts of {first} and {second} equally big?"
        )
        yield Hit("tops-and-bottoms-added", message)
    if pair.gives(tops):
        message = f"Maybe only the tops were {done}. What do the bottoms of the two fractions say?"
        yield Hit("tops-only-added", message)
    m, n = number_in(b), number_in(d)
    if m is not None and n is not None and m != n and _gives_over(pair, tops, b if m > n else d):
        smaller = second if m > n else first
        message = f"Maybe only the bottom of {smaller} was changed. What has to happen to its top then?"
        both = is_fraction(unsigned(pair.first)) and is_fraction(unsigned(pair.second))
        yield Hit("larger-denominator-kept", message, 1 if both else 2)


def all_fractions_added(spot: Spot) -> Iterator[Hit]:
    """``1/2 + 1/3 + 1/4`` as 3/9, ``1 1/2 + 2 1/3`` as 3 2/5."""
    if not isinstance(spot.node, Add):
        return
    terms = spot.node.terms
    mixed = [_mixed(term) for term in terms]
    if all(mixed):
        found = [parts for parts in mixed if parts]
    else:
        found = [(Fraction(0), top, bottom) for top, bottom in map(_simple, terms) if bottom]
    if len(found) != len(terms) or (len(terms) < 3 and not all(mixed)):
        return
    whole, top, bottom = (sum(parts[at] for parts in found) for at in range(3))
    if spot.gives(_number(whole + Fraction(top, bottom))):
        message = (
            "Maybe the tops were added and the bottoms too. "
            f"Are parts of {show(terms[0])} and {show(terms[1])} equally big?"
        )
        yield Hit("tops-and-bottoms-added", message)


def _simple(expr: Expr) -> tuple[Fraction, Fraction]:
    match expr:
        case Div(Num(top), Num(bottom)):
            return top, bottom
        case _:
            return Fraction(0), Fraction(0)


def _mixed(expr: Expr) -> tuple[Fraction, Fraction, Fraction] | None:
    """Return whole, top and bottom of a mixed number as it is written."""
    if not isinstance(expr, Num) or not (written := _MIXED.fullmatch(expr.text)):
        return None
    whole, top, bottom = map(Fraction, written.groups())
    return whole, top, bottom


_MIXED = re.compile(r"(\d+)\s+(\d+)/(\d+)")
_WHOLE = Ratio(ONE)


def _gives_over(pair: Pair, top: Ratio, bottom: Ratio) -> bool:
    try:
        return pair.gives(top.over(bottom))
    except (NotExact, DividedByZero):
        return False


def _parts(expr: Expr, values: Values) -> tuple[Ratio, Ratio] | None:
    """Return top and bottom of a term; a whole number is over 1."""
    if isinstance(expr, Neg):
        inner = _parts(expr.inner, values)
        return None if inner is None else (negated(inner[0]), inner[1])
    if isinstance(expr, Div):
        found = exact([values.of(expr.top), values.of(expr.bottom)])
        return None if found is None else (found[0], found[1])
    if isinstance(expr, Num) and expr.places is None and expr.value.denominator != 1:
        top, bottom = Fraction(expr.value.numerator), Fraction(expr.value.denominator)
        return _number(top), _number(bottom)
    value = values.of(expr)
    return None if value is None or not isinstance(expr, Num) else (value, _WHOLE)


def _number(value: Fraction) -> Ratio:
    return Ratio(ONE.scaled(value))


def multiplied_both(spot: Spot) -> Iterator[Hit]:
    """``3 · 2/5`` as 6/15: top and bottom were multiplied."""
    if not isinstance(spot.node, Mul):
        return
    _, factors = factors_of(spot.node)
    value = spot.values.of(spot.node)
    fraction = next((factor for factor in factors if is_fraction(factor)), None)
    if fraction is None or value is None:
        return
    for factor in factors:
        number = spot.values.number(factor)
        if factor is fraction or not isinstance(number, int) or number in (0, 1, -1):
            continue
        if spot.gives(Ratio(value.above.scaled(Fraction(1, number)), value.below)):
            message = f"Maybe {show(factor)} multiplied top and bottom. How many of the parts are there then?"
            yield Hit("whole-number-multiplies-both-parts", message)


def cancelled(spot: Spot) -> Iterator[Hit]:
    """``(3x + 6)/3`` as x + 6, ``(x + 4)/4`` as x."""
    if not isinstance(spot.node, Div) or not isinstance(spot.node.top, Add):
        return
    terms = terms_of(spot.node.top)
    found = exact([spot.values.of(term) for term in terms])
    below = spot.values.of(spot.node.bottom)
    if found is None or below is None or not below.above:
        return
    bottom = show(spot.node.bottom)
    for at in range(len(terms)):
        rest = sum_of(found[:at] + found[at + 1 :])
        term = show_unsigned(terms[at])
        if (found[at].same(below) or negated(found[at]).same(below)) and spot.gives(rest):
            message = (
                f"Maybe {term} was crossed out above and below. {bottom} divides the whole top, not one term."
            )
            yield Hit("cancel-a-term", message)
        if spot.gives(found[at].over(below) + rest):
            message = (
                f"Maybe only {term} was divided by {bottom}. The whole top is divided: what about the rest?"
            )
            yield Hit("cancel-through-a-sum", message)
