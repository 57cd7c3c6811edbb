"""Wrong moves in working with numbers: order, facts, places, rounding, copying."""

from collections.abc import Iterator
from fractions import Fraction
from math import floor

from tutor.line.poly import ONE, Number, Ratio, number_in
from tutor.line.tree import Add, Div, Expr, Measure, Mul, Neg, Pow
from tutor.line.walk import every
from tutor.marking.slips.spots import Hit, Spot, Values, exact, show, sum_of, terms_of, unsigned

MAX_FACT, SMALLEST_FACT = 25, 3
SECOND_DIGIT = 10  # from here on a number has a second digit, and so a place that can be mistaken


def left_to_right(spot: Spot) -> Iterator[Hit]:
    """``2 + 3 · 4`` as 5 · 4: worked in the order of reading."""
    if not isinstance(spot.node, Add):
        return
    terms = terms_of(spot.node)
    for at in range(1, len(terms)):
        if not isinstance(unsigned(terms[at]), Mul | Div | Pow) or _are_fractions(terms):
            continue
        if any(spot.gives(value) for value in _joined_at(spot, terms, at)):
            between_fractions = isinstance(unsigned(terms[at]), Div) and _holds_fraction(terms[:at])
            yield Hit("left-to-right-only", _order_asked(terms[at]), 2 if between_fractions else 1)
            return


def _are_fractions(terms: tuple[Expr, ...]) -> bool:
    """Tell whether only fractions are added: their lines are no signs for dividing."""
    return all(isinstance(unsigned(term), Div) for term in terms)


def _holds_fraction(terms: tuple[Expr, ...]) -> bool:
    return any(isinstance(unsigned(term), Div) for term in terms)


def _order_asked(term: Expr) -> str:
    match unsigned(term):
        case Mul():
            inner = "·"
        case Div():
            inner = "the division"
        case _:
            inner = "the power"
    outer = "−" if isinstance(term, Neg) else "+"
    return f"Maybe this was worked from left to right. Which goes first, {outer} or {inner}?"


def _joined_at(spot: Spot, terms: tuple[Expr, ...], at: int) -> Iterator[Ratio]:
    """The values that come out when the numbers so far are taken as part of a product."""
    found = exact([spot.values.of(term) for term in terms])
    first = at
    while first > 0 and spot.values.number(terms[first - 1]) is not None:
        first -= 1
    if found is None or first == at:
        return
    numbers = [Fraction(spot.values.number(term) or 0) for term in terms[first:at]]
    rest = sum_of(found) - sum_of(found[first : at + 1])
    for start in {sum(numbers), numbers[-1]}:
        outcome = _goes_on(Fraction(start), terms[at], spot.values)
        if outcome is not None:
            yield rest + Ratio(ONE.scaled(outcome + sum(numbers) - start))
    strict = _strictly(terms, spot.values)
    if strict is not None:
        yield Ratio(ONE.scaled(strict))


def _strictly(terms: tuple[Expr, ...], values: Values) -> Fraction | None:
    first = values.number(terms[0])
    so_far = None if first is None else Fraction(first)
    for term in terms[1:]:
        if so_far is None:
            return None
        so_far = _goes_on(so_far, term, values)
    return so_far


def _goes_on(so_far: Fraction, term: Expr, values: Values) -> Fraction | None:
    """Add or take away the first number of a product, then go on with the rest of it."""
    sign = -1 if isinstance(term, Neg) else 1
    match unsigned(term):
        case Mul(factors):
            numbers = [values.number(factor) for factor in factors]
            if any(number is None for number in numbers):
                return None
            result = so_far + sign * Fraction(numbers[0] or 0)
            for number in numbers[1:]:
                result *= Fraction(number or 0)
            return result
        case Div(top, bottom):
            above, below = values.number(top), values.number(bottom)
            return None if above is None or not below else (so_far + sign * Fraction(above)) / below
        case Pow(base, exponent):
            number, power = values.number(base), values.number(exponent)
            if number is None or power not in (2, 3):
                return None
            return (so_far + sign * Fraction(number)) ** int(power)
        case plain:
            number = values.number(plain)
            return None if number is None else so_far + sign * Fraction(number)


def product_of_numbers(spot: Spot) -> Iterator[Hit]:
    """A product or quotient of numbers: a fact, the decimal point, rounding on the way."""
    node, needed = spot.node, number_in(spot.needed)
    if needed is None or not isinstance(node, Mul | Div):
        return
    value = spot.values.number(node)
    if not value:
        return
    parts = node.factors if isinstance(node, Mul) else (node.top, node.bottom)
    numbers = [spot.values.number(part) for part in parts]
    if any(number is None for number in numbers):
        return
    times = Fraction(needed) / Fraction(value)
    slipped = times in PLACES and (_is_large(numbers) or (isinstance(node, Mul) and spot.whole))
    if slipped and not _has_unlike_units(node):
        message = f"Maybe the decimal point slipped. About how big is {show(node)}?"
        yield Hit("place-value-slip", message)
    if _rounded_on_the_way(node, Fraction(needed), spot):
        message = "Maybe a number was rounded on the way. Round only at the very end."
        yield Hit("early-rounding", message)
    if len(parts) == 2 and _is_near_fact(node, numbers, needed, spot.whole):
        yield fact_mixed_up(show(node), 2 if isinstance(node, Mul) else 3)


def _has_unlike_units(node: Expr) -> bool:
    """Tell whether lengths in several units are multiplied: those were rather taken as they are."""
    units = {part.unit for part in every(node) if isinstance(part, Measure)}
    return sum(unit.dimension.length == 1 for unit in units) > 1


def fact_mixed_up(fact: str, cost: int) -> Hit:
    """The slip of a product or quotient remembered wrongly."""
    message = f"Maybe {fact} was not remembered right. Work it out once more."
    return Hit("fact-slip", message, cost)


def _is_large(numbers: list[Number | None]) -> bool:
    """Tell whether there is a decimal point or a second digit that can slip."""
    return any(
        number is not None and (not isinstance(number, int) or abs(number) >= SECOND_DIGIT)
        for number in numbers
    )


PLACES = frozenset({Fraction(10), Fraction(100), Fraction(1, 10), Fraction(1, 100)})


def _is_near_fact(node: Expr, numbers: list[Number | None], needed: Number, whole: bool) -> bool:
    """A whole product or quotient that stands near this one in the times tables."""
    one, two = numbers
    if not isinstance(one, int) or not isinstance(two, int) or not isinstance(needed, int):
        return False
    if isinstance(node, Div):
        return two != 0 and one % two == 0 and near_fact(one // two, two, needed, one)
    if not whole and min(abs(one), abs(two)) < SMALLEST_FACT:
        return False  # nobody takes 2 · 2 for 6 within a sum
    return near_product(one, two, needed, turned=whole)


def near_product(one: int, two: int, wrong: int, *, turned: bool = True) -> bool:
    """Tell whether ``wrong`` may be remembered for a product of two small whole numbers.

    ``turned``: with its digits in another order too.
    """
    a, b, found = abs(one), abs(two), abs(wrong)
    if not (1 < a <= MAX_FACT and 1 < b <= MAX_FACT) or wrong * one * two <= 0:
        return False
    if found in (a, b):
        return False  # "2x = 12" below "x = 12": nothing was multiplied
    beside = {(a + i) * (b + j) for i in (-1, 0, 1) for j in (-1, 0, 1)}
    digits = turned and sorted(str(found)) == sorted(str(a * b))
    carried = abs(found - a * b) == 10 and max(a, b) > 9
    return found in beside or digits or carried or abs(found - a * b) in (1, 2, 3)


def near_fact(quotient: int, divisor: int, wrong: int, whole: int) -> bool:
    """Tell whether ``wrong`` may be remembered for a quotient: its product is near the whole."""
    small = 1 < abs(quotient) <= MAX_FACT and 1 < abs(divisor) <= MAX_FACT
    return small and wrong * quotient > 0 and abs(wrong - quotient) in (1, 2) and whole != 0


def _rounded_on_the_way(node: Expr, needed: Fraction, spot: Spot) -> bool:
    if not isinstance(node, Mul) or len(node.factors) < 2:
        return False
    numbers = [Fraction(spot.values.number(factor) or 0) for factor in node.factors]
    whole = Fraction(1)
    for number in numbers:
        whole *= number
    for start in range(len(numbers)):
        part = Fraction(1)
        for end in range(start, len(numbers)):
            part *= numbers[end]
            if end - start + 1 == len(numbers) or (start == end and isinstance(node.factors[end], Div)):
                continue
            if any(needed == whole / part * near for near in _roundings(part)):
                return True
    return False


_NEAR = 6  # a rounding changes a value by less than a sixth of it


def _goes_on_for_ever(value: Fraction) -> bool:
    """Tell whether a value above 3 has a decimal without end."""
    return abs(value) > 3 and 10**6 % value.denominator != 0


def _roundings(value: Fraction) -> list[Fraction]:
    """The value rounded to 0, 1 and 2 places, a half up, and cut off there: 0.05 is not rounded to 0.1."""
    if value.denominator == 1:
        return []
    steps = (Fraction(1), Fraction(10), Fraction(100))
    found = [floor(value * step + half) / step for step in steps for half in (Fraction(1, 2), 0)]
    return [near for near in found if near != value and abs(near - value) * _NEAR <= abs(value)]


def rounded_part(spot: Spot) -> Iterator[Hit]:
    """A part that is worked out and rounded before the rest of the side."""
    if spot.whole or not isinstance(spot.node, Mul | Div | Pow):
        return
    value, needed = spot.values.number(spot.node), number_in(spot.needed)
    if value is None or needed is None:
        return
    if isinstance(spot.node, Div) and isinstance(needed, int) and not _goes_on_for_ever(Fraction(value)):
        return  # 10/3 is taken for 3, but 9/2 not for 5
    if needed in _roundings(Fraction(value)):
        message = f"Maybe {show(spot.node)} was rounded on the way. Round only at the very end."
        # 9/2 in a sum of fractions is seldom rounded; 10/3 in a product often is.
        yield Hit("early-rounding", message, 2 if isinstance(spot.node, Div) else 1)
