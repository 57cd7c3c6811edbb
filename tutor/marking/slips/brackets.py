"""Wrong moves with a bracket: multiplying it out, or joining what stands in front of it."""

from collections.abc import Iterator

from tutor.line.poly import Number, Ratio, number_in
from tutor.line.tree import Add, Expr, Mul, Neg, Num, Pow
from tutor.line.walk import names_in
from tutor.marking.slips.arithmetic import SMALLEST_FACT, fact_mixed_up, near_product
from tutor.marking.slips.pairs import Pair
from tutor.marking.slips.spots import (
    Hit,
    Spot,
    exact,
    factors_of,
    negated,
    product_of,
    say,
    scaled,
    show,
    show_unsigned,
    single,
    sum_of,
    terms_of,
)


def multiplied_out(spot: Spot) -> Iterator[Hit]:
    """``a(x + b)`` in its wrong ways."""
    sign, factors = factors_of(spot.node)
    for at, factor in enumerate(factors):
        if not isinstance(factor, Add):
            continue
        terms = terms_of(factor)
        inside = exact([spot.values.of(term) for term in terms])
        others = exact([spot.values.of(other) for other in factors[:at] + factors[at + 1 :]])
        if inside is None or others is None:
            continue
        outside = scaled(product_of(others), sign)
        if not outside.same(_ONE):
            yield from _not_all_terms(spot, outside, terms, inside)
            yield from _signs_lost(spot, outside, terms, inside)
            yield from _joined(spot, outside, terms, inside)
            yield from _fact_mixed_up(spot, outside, terms, inside)


_ONE = Ratio(sum_of([]).below)


def _called(outside: Ratio) -> str:
    number = number_in(outside)
    found = single(outside)
    if number is not None:
        return say(number)
    return "the part in front of it" if found is None else _letters(found[0], found[1])


def _letters(coefficient: Number, mono: tuple[tuple[str, Number], ...]) -> str:
    letters = "".join(atom if power == 1 else f"{atom}^{power}" for atom, power in mono)
    if coefficient in (1, -1):
        return letters if coefficient == 1 else f"−{letters}"
    return say(coefficient) + letters


def _not_all_terms(spot: Spot, outside: Ratio, terms: tuple[Expr, ...], inside: list[Ratio]) -> Iterator[Hit]:
    """Some terms of the bracket were multiplied, others were not."""
    minus = number_in(outside) == -1
    for reached in _subsets(len(terms)):
        value = sum_of([outside * v if at in reached else v for at, v in enumerate(inside)])
        if not spot.gives(value):
            continue
        missed = next(at for at in range(len(terms)) if at not in reached)
        by, left = _called(outside), show_unsigned(terms[missed])
        name = "first-term-only" if 0 in reached else "second-term-only"
        cost = 1 if len(reached) == 1 else 2
        if minus:
            name = "negative-reaches-first-term-only" if 0 in reached else name
            message = f"Maybe the minus before the bracket did not reach {left}. What does it do to {left}?"
        elif len(reached) == 1:
            place = "first" if 0 in reached else "last"
            message = (
                f"Maybe {by} multiplied only the {place} term of the bracket. What does it do to {left}?"
            )
        else:
            message = f"Maybe {by} did not multiply every term of the bracket. What does it do to {left}?"
        yield Hit(name, message, cost)


def _subsets(count: int) -> list[frozenset[int]]:
    """The terms that were reached: only the first, only the last, all but one."""
    every = range(count)
    found = [frozenset({0}), frozenset({count - 1})]
    if count > 2:
        found += [frozenset(at for at in every if at != out) for out in reversed(every)]
    return found


def _signs_lost(spot: Spot, outside: Ratio, terms: tuple[Expr, ...], inside: list[Ratio]) -> Iterator[Hit]:
    """The factor is negative and its sign did not reach a later term."""
    coefficient = next(iter(outside.above.terms.values()), 0)
    if len(outside.above.terms) != 1 or coefficient >= 0 or number_in(outside) == -1:
        return
    whole = [outside * value for value in inside]
    for lost in [range(1, len(whole)), *([at] for at in range(1, len(whole)) if len(whole) > 2)]:
        if not spot.gives(sum_of([negated(v) if at in lost else v for at, v in enumerate(whole)])):
            continue
        term = terms[lost[-1]]
        by, inner = _called(outside), show(term)
        if isinstance(term, Neg):
            message = f"Maybe a sign got lost at {by} times {inner}. What does minus times minus give?"
            yield Hit("minus-times-minus-in-bracket", message)
        else:
            message = (
                f"Maybe the minus of {by} did not reach {inner}. What is the sign of {by} times {inner}?"
            )
            yield Hit("negative-factor-second-sign-lost", message)


def _fact_mixed_up(spot: Spot, outside: Ratio, terms: tuple[Expr, ...], inside: list[Ratio]) -> Iterator[Hit]:
    """``3(4x + 7)`` as ``12x + 24``: every term was multiplied, one of them with another fact."""
    by = number_in(outside)
    missing = spot.needed - sum_of([outside * value for value in inside])
    if not isinstance(by, int) or spot.reaches is not None or len(missing.above.terms) != 1:
        return
    ((mono, more),) = missing.above.terms.items()
    for term, value in zip(terms, inside, strict=True):
        number = value.above.terms.get(mono)
        if value.below != missing.below or not isinstance(number, int) or not isinstance(more, int):
            continue
        if min(abs(by), abs(number)) >= SMALLEST_FACT and near_product(by, number, by * number + more):
            yield fact_mixed_up(f"{say(by)} times {show(term)}", 3)


def _joined(spot: Spot, outside: Ratio, terms: tuple[Expr, ...], inside: list[Ratio]) -> Iterator[Hit]:
    by = _called(outside)
    if spot.gives(outside + sum_of(inside)):
        message = f"Maybe {by} was added to the bracket. What does a number in front of a bracket do?"
        yield Hit("factor-added", message)
    if len(terms) == 2 and names_in(*terms) and spot.gives(outside * inside[0] * inside[1]):
        one, two = show(terms[0]), show_unsigned(terms[1])
        message = f"Maybe {one} and {two} were joined inside the bracket. Do both count the same thing?"
        yield Hit("bracket-joined-first", message)


def before_bracket(pair: Pair) -> Iterator[Hit]:
    """``7 − 2(x + 3)`` as ``5(x + 3)``."""
    if pair.one is None or not isinstance(pair.second, Mul | Neg):
        return
    sign, factors = factors_of(pair.second)
    bracket = next((factor for factor in factors if isinstance(factor, Add)), None)
    if bracket is None:
        return
    others = exact([pair.values.of(factor) for factor in factors if factor is not bracket])
    inner = pair.values.of(bracket)
    if not others or inner is None:
        return
    front = scaled(product_of(others), sign)
    if number_in(front) is not None and pair.gives((pair.a + front) * inner):
        first, by = show(pair.first), _called(scaled(front, sign))
        message = f"Maybe {first} and {by} were joined first. The {by} belongs to the bracket."
        yield Hit("subtract-before-bracket", message)


def factor_spread(spot: Spot) -> Iterator[Hit]:
    """``2(5x)`` as ``10 · 2x``: the factor was used once for each factor of a product."""
    if not isinstance(spot.node, Mul) or len(spot.node.factors) != 2:
        return
    value = spot.values.of(spot.node)
    for outer, inner in (spot.node.factors, spot.node.factors[::-1]):
        factor = spot.values.of(outer)
        if not isinstance(inner, Mul) or isinstance(outer, Mul) or value is None or factor is None:
            continue
        if spot.gives(value * product_of([factor] * (len(inner.factors) - 1))):
            by = show(outer)
            message = f"Maybe {by} multiplied each factor of {show(inner)}. How often should it be used?"
            yield Hit("factor-spread-over-a-product", message)


_EACH_RAISED = {
    2: "Maybe each term was squared by itself. Write the bracket twice, then multiply.",
    3: "Maybe each term was cubed by itself. Write the bracket three times, then multiply.",
}


def square_spread(spot: Spot) -> Iterator[Hit]:
    """``(x + 3)²`` as ``x² + 9``."""
    node = spot.node
    if not isinstance(node, Pow) or not isinstance(node.base, Add) or not isinstance(node.exponent, Num):
        return
    power = node.exponent.value
    terms = terms_of(node.base)
    inside = exact([spot.values.of(term) for term in terms])
    if inside is None or power not in (2, 3):
        return
    each = [product_of([value] * int(power)) for value in inside]
    kept = [
        negated(value) if isinstance(term, Neg) and power == 2 else value
        for term, value in zip(terms, each, strict=True)
    ]
    if spot.gives(sum_of(each)) or spot.gives(sum_of(kept)):
        message = _EACH_RAISED[int(power)]
        yield Hit("square-spread-over-a-sum", message)
