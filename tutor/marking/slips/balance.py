"""An equation above and the typed equation, both sides' values at hand, for moves on both sides."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from tutor.line.poly import ONE, Mono, Number, Poly, Ratio
from tutor.line.tree import Add, Div, Expr, Mul, Neg, Num, Span
from tutor.marking.slips.spots import Hit, Values, exact, factors_of, number_in, scaled, terms_of


@dataclass(frozen=True, slots=True)
class Linear:
    """A side that is ``lead`` times one unknown term plus a number."""

    lead: Number
    mono: Mono
    rest: Number

    @property
    def unknown(self) -> Ratio:
        """Return the unknown alone."""
        return Ratio(Poly({self.mono: 1}))

    def times(self, factor: Number) -> Ratio:
        """Return the unknown so many times."""
        return Ratio(Poly({self.mono: factor} if factor else {}))


def linear(value: Ratio) -> Linear | None:
    """Return a side as one unknown term and a number, None where it is another sum."""
    if value.below != ONE:
        return None
    terms = value.above.terms
    with_letters = [mono for mono in terms if mono]
    if len(with_letters) != 1 or len(terms) > 2:
        return None
    return Linear(terms[with_letters[0]], with_letters[0], terms.get((), 0))


@dataclass(frozen=True, slots=True)
class Balance:
    """The two sides above (``left``, ``right``) and the typed sides in the same order.

    Every move is tried with the sides above in either order, so it speaks of the unknown
    on the left only.
    """

    left: Expr
    right: Expr
    new_left: Expr
    new_right: Expr
    was: tuple[Ratio, Ratio]
    now: tuple[Ratio, Ratio]
    values: Values
    lin: Linear | None
    lin_right: Linear | None

    @property
    def right_number(self) -> Number | None:
        """Return the right side above if it is a number."""
        return number_in(self.was[1])

    def left_is(self, value: Ratio) -> bool:
        """Tell whether the typed left side has this value."""
        return self.now[0].same(value)

    def right_is(self, value: Ratio) -> bool:
        """Tell whether the typed right side has this value."""
        return self.now[1].same(value)

    def span_of(self, hit: Hit) -> Span:
        """Return the part of the typed line that shows a move: the side that was treated wrongly."""
        if hit.left_side:
            return self.new_left.span
        return self.new_right.span

    def gives(self, left: Ratio, right: Ratio) -> bool:
        """Tell whether a move that gives these sides gives the typed line."""
        return self.left_is(left) and self.right_is(right)


def balances(was: tuple[Expr, Expr], now: tuple[Expr, Expr], values: Values) -> Iterator[Balance]:
    """Yield the two equations with each side that holds letters as the left one."""
    before, after = exact([values.of(side) for side in was]), exact([values.of(side) for side in now])
    if before is None or after is None:
        return
    for left, right in ((0, 1), (1, 0)):
        if not before[left].names():
            continue
        yield Balance(
            was[left],
            was[right],
            now[left],
            now[right],
            (before[left], before[right]),
            (after[left], after[right]),
            values,
            linear(before[left]),
            linear(before[right]),
        )


BalanceMove = Callable[[Balance], Iterator[Hit]]


def number(value: Number) -> Ratio:
    """Return a number as a value."""
    return Ratio(Poly.number(value))


def factors_in(expr: Expr, values: Values) -> Iterator[Number]:
    """Yield the numbers that a side is written as a multiple of: 3 and 1/4 in ``3x/4``."""
    if isinstance(expr, Div):
        below = values.number(expr.bottom)
        if below:
            yield 1 / Fraction(below)
            for above in factors_in(expr.top, values):
                yield above
                yield Fraction(above) / Fraction(below)
        return
    if not isinstance(expr, Mul | Neg):
        return
    sign, factors = factors_of(expr)
    together: Number = sign
    if sign < 0:
        yield -1
    for factor in factors:
        if isinstance(factor, Add):
            continue
        if isinstance(factor, Div):
            yield from factors_in(factor, values)
        value = values.number(factor)
        if value:
            together *= value
            yield value
            yield sign * value
    if together not in (1, -1):
        yield together


def is_fraction(expr: Expr) -> bool:
    """Tell whether an expression is written with a fraction line."""
    if isinstance(expr, Num):
        return expr.places is None and expr.value.denominator != 1
    return isinstance(expr, Div)


def term_values(expr: Expr, values: Values) -> list[tuple[Expr, Ratio]]:
    """Return the terms of a side that have exact values."""
    found = [(term, values.of(term)) for term in terms_of(expr)]
    return [(term, value) for term, value in found if value is not None]


def divided(value: Ratio, by: Number) -> Ratio:
    """Return a value divided by a number that is not 0."""
    return scaled(value, Fraction(1) / by)
