"""An equation above and the typed equation, both sides' values at hand, for moves on both sides."""

from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import NamedTuple

from tutor.line.keys import expr_key
from tutor.line.poly import ONE, Mono, Number, Poly, Ratio, number_in
from tutor.line.tree import Add, Div, Expr, Mul, Neg, Num, Span
from tutor.marking.slips.spots import Hit, Values, exact, factors_of, scaled


class Linear(NamedTuple):
    """A side that is ``lead`` times one unknown term plus a number."""

    lead: Number
    mono: Mono
    rest: Number

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


class Balance(NamedTuple):
    """The two sides above (``left``, ``right``) and the typed sides in the same order.

    Every move is tried with the sides above in either order, so it speaks of the unknown
    on the left only. ``lin`` and ``number`` are the sides above where they are a linear side
    and a number, ``new_lin`` and ``new_number`` the typed ones: everyday lines are decided by
    these alone, the others by their whole values ``was`` and ``now``.
    """

    left: Expr
    right: Expr
    new_left: Expr
    new_right: Expr
    was: tuple[Ratio, Ratio]
    now: tuple[Ratio, Ratio]
    values: Values
    lin: Linear | None
    new_lin: Linear | None
    number: Number | None
    new_number: Number | None

    @property
    def lin_right(self) -> Linear | None:
        """Return the right side above where it is linear too."""
        return None if self.number is not None else linear(self.was[1])

    @property
    def typed_linear(self) -> tuple[Number, Number, Number, Number] | None:
        """Return (a, b, c, d) of a typed line ``ax + b = cx + d`` in the unknown of the line above."""
        sides = ((self.new_lin, self.now[0]), (None, self.now[1]))
        found: list[Number] = []
        for lin, value in sides:
            alone = number_in(value)
            lin = lin or linear(value)
            if alone is not None:
                found += (0, alone)
            elif lin is not None and self.lin is not None and lin.mono == self.lin.mono:
                found += (lin.lead, lin.rest)
            else:
                return None
        return (found[0], found[1], found[2], found[3])

    def left_scaled(self, factor: Number) -> bool:
        """Tell whether the left side was multiplied by a number."""
        old, new = self.lin, self.new_lin
        if old is not None and new is not None:
            same = old.mono == new.mono and new.lead == old.lead * factor
            return same and new.rest == old.rest * factor
        return self.left_is(scaled(self.was[0], factor))

    def left_shifted(self, by: Number) -> bool:
        """Tell whether a number was added to the left side."""
        old, new = self.lin, self.new_lin
        if old is not None and new is not None:
            return old.mono == new.mono and old.lead == new.lead and new.rest == old.rest + by
        return self.left_is(self.was[0] + number(by))

    def left_linear(self, lead: Number, rest: Number) -> bool:
        """Tell whether the left side is so many times the unknown, and a number."""
        old, new = self.lin, self.new_lin
        same = old is not None and new is not None and old.mono == new.mono
        return same and new is not None and new.lead == lead and new.rest == rest

    def right_scaled(self, factor: Number) -> bool:
        """Tell whether the right side was multiplied by a number."""
        if self.number is not None and self.new_number is not None:
            return self.new_number == self.number * factor
        return self.right_is(scaled(self.was[1], factor))

    def right_shifted(self, by: Number) -> bool:
        """Tell whether a number was added to the right side."""
        if self.number is not None and self.new_number is not None:
            return self.new_number == self.number + by
        return self.right_is(self.was[1] + number(by))

    def left_is(self, value: Ratio) -> bool:
        """Tell whether the typed left side has this value."""
        return self.now[0].same(value)

    def right_is(self, value: Ratio) -> bool:
        """Tell whether the typed right side has this value."""
        return self.now[1].same(value)

    def gives(self, left: Ratio, right: Ratio) -> bool:
        """Tell whether a move that gives these sides gives the typed line."""
        return self.left_is(left) and self.right_is(right)

    def span_of(self, hit: Hit) -> Span:
        """Return the part of the typed line that shows a move: the side that was treated wrongly.

        Where only a part was divided or multiplied, it is the term that was left alone.
        """
        if hit.name in _ONE_TERM_ONLY and (alone := self._left_alone()) is not None:
            return alone
        return self.new_left.span if hit.left_side else self.new_right.span

    def _left_alone(self) -> Span | None:
        """Return the span of the only term of the left side that stands as it stood above."""
        if not isinstance(self.left, Add) or not isinstance(self.new_left, Add):
            return None
        before = {expr_key(term) for term in self.left.terms}
        alone = [term for term in self.new_left.terms if expr_key(term) in before]
        return alone[0].span if len(alone) == 1 else None


_ONE_TERM_ONLY = frozenset({"divide-only-the-x-term", "multiply-only-the-fraction-term"})


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
            linear(after[left]),
            number_in(before[right]),
            number_in(after[right]),
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
