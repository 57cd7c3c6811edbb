"""Wrong moves with signs inside a sum or a product."""

from collections.abc import Iterator

from tutor.line.poly import Ratio, number_in
from tutor.line.tree import Add, Div, Expr, Mul, Neg, Num, Pow
from tutor.marking.slips.pairs import Pair
from tutor.marking.slips.spots import (
    Hit,
    Spot,
    exact,
    negated,
    show,
    show_unsigned,
    single,
    sum_of,
    terms_of,
    unsigned,
)


def signs_of_two(pair: Pair) -> Iterator[Hit]:
    """The signs of two terms of a sum."""
    yield from double_minus(pair)
    if pair.one is None or pair.two is None:
        return
    (a, m), (b, n) = pair.one, pair.two
    if not m and not n:
        yield from _column_by_column(pair)
    if not pair.gives(negated(pair.a + pair.b)):
        return
    one, two = show(pair.first), show(pair.second)
    if a < 0 and b < 0:
        message = f"Maybe two minuses were made a plus. Are {one} and {two} added or multiplied here?"
        yield Hit("two-minuses-make-a-plus-in-a-sum", message)
        return
    if m == n and a * b < 0:
        yield from _like_numbers(pair, a < 0, a + b > 0)
    if a > 0 > b:
        message = f"Maybe {one} and {show_unsigned(pair.second)} changed places. Which one is taken away?"
        yield Hit("subtraction-treated-as-commutative", message)
    elif m != n and a < 0 < b:
        message = f"Maybe {show_unsigned(pair.first)} and {two} changed places. Which one has the minus?"
        yield Hit("subtraction-treated-as-commutative", message)


def _like_numbers(pair: Pair, minus_first: bool, positive: bool) -> Iterator[Hit]:
    one, two = show_unsigned(pair.first), show_unsigned(pair.second)
    if minus_first and positive:
        message = (
            f"Maybe the minus of {one} was kept for the result. Which is further from 0: {one} or {two}?"
        )
        yield Hit("sign-of-first-number-kept", message)
    elif not positive:
        message = f"Maybe the smaller of {one} and {two} was taken from the larger. Which one is taken away?"
        yield Hit("smaller-from-larger", message)


def _column_by_column(pair: Pair) -> Iterator[Hit]:
    """``52 − 38`` as 26: in each column the smaller digit was taken from the larger."""
    a, b, wrong = number_in(pair.a), number_in(pair.b), number_in(pair.needed)
    if not isinstance(a, int) or not isinstance(b, int) or not isinstance(wrong, int):
        return
    upper, lower = str(a), str(-b)
    if not a > -b > 9 or len(upper) != len(lower):
        return
    columns = [abs(int(one) - int(two)) for one, two in zip(upper, lower, strict=True)]
    if "".join(map(str, columns)).lstrip("0") == str(wrong):
        message = f"Maybe the smaller digit was taken from the larger. Look at the columns of {a} and {-b}."
        yield Hit("smaller-from-larger", message)


def double_minus(pair: Pair) -> Iterator[Hit]:
    """``8 − (−4)`` as ``8 − 4``."""
    if isinstance(pair.second, Neg) and isinstance(pair.second.inner, Neg) and pair.gives(pair.a - pair.b):
        inner = show(pair.second.inner.inner)
        message = f"Maybe one minus before {inner} got lost. What do two minuses do together?"
        yield Hit("double-minus-ignored", message)


def detached_numeral(spot: Spot) -> Iterator[Hit]:
    """``20 − 7 + 5`` as ``20 − (7 + 5)``: what stands behind a minus is worked out first."""
    if not isinstance(spot.node, Add):
        return
    terms = terms_of(spot.node)
    found = exact([spot.values.of(term) for term in terms])
    if found is None or len(terms) > 8:
        return
    total = sum_of(found)
    for at, term in enumerate(terms[:-1]):
        if not isinstance(term, Neg) or _is_minus(terms[at + 1]):
            continue
        for end in range(at + 2, len(terms) + 1):
            if not _alike(found[at:end]):
                break
            swallowed = sum_of(found[at + 1 : end])
            if spot.gives(total - swallowed - swallowed):
                first, last = show(term.inner), show_unsigned(terms[end - 1])
                message = (
                    f"Maybe {first} and {last} were put together first. The minus belongs to {first} alone."
                )
                yield Hit("numeral-detached-from-its-minus", message)


def _is_minus(term: Expr) -> bool:
    """Tell whether a negative number is taken away: ``− (−2)``."""
    return isinstance(term, Neg) and isinstance(term.inner, Neg)


def _alike(values: list[Ratio]) -> bool:
    found = [single(value) for value in values]
    return all(one is not None and found[0] is not None and one[1] == found[0][1] for one in found)


def minus_times_minus(spot: Spot) -> Iterator[Hit]:
    """``(−3)·(−4)`` as −12."""
    node = spot.node
    match node:
        case Mul(factors):
            signed = _minuses(factors)
        case Div(top, bottom):
            signed = _minuses((top, bottom))
        case Pow(Neg(), Num(value=power)) if power == 2:
            signed = 2
        case Neg(Mul(factors)):
            # −3 · (−4): the first minus stands before the whole product.
            signed = 1 + _minuses(factors)
        case Neg(Div(top, bottom)):
            signed = 1 + _minuses((top, bottom))
        case _:
            return
    value = spot.values.of(node)
    if signed == 2 and value is not None and spot.gives(negated(value)):
        done = "divided by" if isinstance(unsigned(node), Div) else "times"
        message = f"Maybe a sign got lost: there are two minuses here. What does minus {done} minus give?"
        yield Hit("neg-times-neg-stays-neg", message)


def _minuses(parts: tuple[Expr, ...]) -> int:
    return sum(isinstance(part, Neg) for part in parts)


def minus_in_power(spot: Spot) -> Iterator[Hit]:
    """``−3²`` as 9: the minus was taken into the power."""
    node = spot.node
    if not isinstance(node, Neg) or not isinstance(node.inner, Pow):
        return
    exponent = spot.values.number(node.inner.exponent)
    if exponent is not None and exponent % 2 == 0 and spot.gives(spot.values.of(node.inner)):
        base = show(node.inner.base)
        message = f"Maybe the minus went into the power. In {show(node)} the power belongs to {base} alone."
        yield Hit("minus-inside-the-power", message)
