"""Wrong moves with powers and roots."""

from collections.abc import Iterator
from fractions import Fraction

from tutor.line.meaning import value_of
from tutor.line.poly import DividedByZero, NotExact, Number, Ratio, number_in
from tutor.line.tree import Add, Expr, Mul, Name, Neg, Num, Pow, Root
from tutor.marking.slips.arithmetic import PLACES
from tutor.marking.slips.balance import Balance
from tutor.marking.slips.everywhere import made_everywhere
from tutor.marking.slips.spots import (
    Hit,
    Spot,
    Values,
    exact,
    factors_of,
    negated,
    product_of,
    say,
    scaled,
    show,
    sum_of,
    terms_of,
    unsigned,
)

MAX_SWAPPED = 20


def power_misread(spot: Spot) -> Iterator[Hit]:
    """``5²`` as 2·5, ``2³`` as 3·2 or as 3²."""
    if not isinstance(spot.node, Pow):
        return
    base, exponent = spot.node.base, spot.node.exponent
    value, power = spot.values.of(base), spot.values.number(exponent)
    if value is None or power is None:
        return
    shown = show(base)
    if power in (2, 3) and spot.gives(scaled(value, power)):
        times = say(power)
        message = f"Maybe {shown} was multiplied by {times}. What does the small {times} say instead?"
        yield Hit("square-as-double" if power == 2 else "cube-as-triple", message)
    decimal = isinstance(base, Num) and base.places and power == 2
    if decimal and any(spot.gives(scaled(value * value, times)) for times in PLACES):
        message = f"Maybe the decimal point slipped. About how big is {shown} times {shown}?"
        yield Hit("place-value-slip", message)
    number = number_in(value)
    if number is not None and spot.gives(_swapped(number, power)):
        message = f"Maybe {shown} and {say(power)} changed places. Which one is multiplied by itself?"
        yield Hit("base-and-exponent-swapped", message)


def _swapped(base: Number, power: Number) -> Ratio | None:
    if not isinstance(base, int) or not isinstance(power, int):
        return None
    if not 0 < base <= MAX_SWAPPED or not 0 < power <= MAX_SWAPPED or base == power:
        return None
    return value_of(Num(Fraction(power**base), ""))


def factor_squared(spot: Spot) -> Iterator[Hit]:
    """``3.14 · 2²`` as ``(3.14 · 2)²``: a factor in front was raised too."""
    if not isinstance(spot.node, Mul):
        return
    _, factors = factors_of(spot.node)
    value = spot.values.of(spot.node)
    for at, factor in enumerate(factors):
        if not isinstance(factor, Pow) or value is None:
            continue
        power = spot.values.number(factor.exponent)
        if not isinstance(power, int) or not 2 <= power <= 3:
            continue
        for taken in (factors[:at], *((other,) for other in factors[:at])):
            found = exact([spot.values.of(part) for part in taken])
            if found and spot.gives(value * product_of(found * (power - 1))):
                base, raised = show(factor.base), "squared" if power == 2 else "cubed"
                message = f"Maybe {show(taken[-1])} was {raised} too. The power belongs to {base} alone."
                yield Hit("coefficient-squared-too", message)


def root_misread(spot: Spot) -> Iterator[Hit]:
    """``√36`` as 18, ``√(3² + 4²)`` as 3 + 4 or as 25."""
    if isinstance(spot.node, Root) and spot.node.index == 2:
        for name, value, message in wrong_roots(spot.node.inner, spot.values):
            if spot.gives(value):
                yield Hit(name, message)
        yield from made_everywhere(spot)


def square_undone(eq: Balance) -> Iterator[Hit]:
    """``c² = 3² + 4²`` as ``c = 3 + 4``, as ``c = 25``; ``r² = 36`` as ``r = 18``."""
    if not isinstance(eq.left, Pow) or eq.values.number(eq.left.exponent) != 2:
        return
    base = eq.values.of(eq.left.base)
    if base is None or not base.names() or not eq.left_is(base):
        return
    for name, value, message in wrong_roots(eq.right, eq.values):
        if eq.right_is(value):
            yield Hit(name, message)
            if name == "root-as-half" and isinstance(eq.left.base, Name):
                message = (
                    f"Maybe {show(eq.left)} was taken for 2·{show(eq.left.base)}. What does the small 2 say?"
                )
                yield Hit("square-as-double", message)


def wrong_roots(inner: Expr, values: Values) -> Iterator[tuple[str, Ratio, str]]:
    """Yield what is taken for the square root of an expression: name, value, message."""
    value = values.of(inner)
    shown = show(inner)
    if isinstance(inner, Add):
        apart = _rooted_apart(inner, values)
        if apart is not None:
            message = "Maybe the root was taken of each term. Work out what stands under the root first."
            yield "sum-of-squares-rooted-termwise", apart, message
    if value is not None and value.above:
        message = f"Maybe {shown} was halved. Which number times itself gives {shown}?"
        yield "root-as-half", scaled(value, Fraction(1, 2)), message
        if _is_found_by_a_root(inner, value, values):
            message = "Maybe the root was left out at the end. Which number times itself gives this?"
            yield "hypotenuse-without-root", value, message


def _is_found_by_a_root(inner: Expr, value: Ratio, values: Values) -> bool:
    """Tell whether the root is the last thing to do, and not undone first, as in ``√(x + 1) = 3``."""
    squares = all(isinstance(unsigned(term), Pow) for term in terms_of(inner))
    return squares or value.names() <= values.setting.positive


def _rooted_apart(inner: Add, values: Values) -> Ratio | None:
    found: list[Ratio] = []
    for term in terms_of(inner):
        plain = term.inner if isinstance(term, Neg) else term
        root = _root(plain, values)
        if root is None:
            return None
        found.append(negated(root) if isinstance(term, Neg) else root)
    return sum_of(found)


def _root(expr: Expr, values: Values) -> Ratio | None:
    if isinstance(expr, Pow) and values.number(expr.exponent) == 2:
        return values.of(expr.base)
    try:
        return value_of(Root(2, expr), values.setting)
    except (NotExact, DividedByZero):
        return None
