"""Places in the line above where one wrong move may have been made, and the value it had to give.

A side of the typed line has another value than the side above. For each part of the side
above there is exactly one value that, put in its place, gives the typed side: the value
*needed* there. A wrong move explains the line where it gives just that value.
"""

import re
from collections.abc import Callable, Iterator
from typing import NamedTuple

from tutor.line.meaning import Setting, value_of
from tutor.line.poly import ONE, ZERO, DividedByZero, Mono, NotExact, Number, Ratio, number_in
from tutor.line.tree import (
    Abs,
    Add,
    Div,
    Expr,
    Measure,
    Mul,
    Name,
    Neg,
    Num,
    Percent,
    PiSign,
    Root,
    Statement,
)
from tutor.line.walk import parts
from tutor.line.writing import write_expr, write_number
from tutor.marking.deciding.memo import Memo

MAX_TERMS = 8
MAX_PARTS = 60
MAX_SHOWN = 24


class Values:
    """The exact values of the parts of trees under one setting, each worked out once."""

    def __init__(self, setting: Setting) -> None:
        self.setting = setting
        self._known: dict[int, Ratio | None] = {}
        self._kept: list[Expr] = []  # so that each place in memory stays that of its expression
        self._terms: dict[int, list[tuple[Expr, Ratio]]] = {}

    def of(self, expr: Expr) -> Ratio | None:
        """Return the value of an expression, None where it has none that is exact."""
        place = id(expr)
        if place in self._known:
            return self._known[place]
        self._kept.append(expr)
        value = self._known[place] = self._worked_out(expr)
        return value

    def _worked_out(self, expr: Expr) -> Ratio | None:
        try:
            return value_of(expr, self.setting)
        except (NotExact, DividedByZero):
            return None

    def terms(self, expr: Expr) -> list[tuple[Expr, Ratio]]:
        """Return the terms of a side that have exact values, brackets around a sum opened."""
        found = self._terms.get(id(expr))
        if found is None:
            self._kept.append(expr)
            pairs = [(term, self.of(term)) for term in terms_of(expr)]
            found = self._terms[id(expr)] = [(term, value) for term, value in pairs if value is not None]
        return found

    def number(self, expr: Expr) -> Number | None:
        """Return the value of an expression if it is a rational number."""
        value = self.of(expr)
        return None if value is None else number_in(value)


_AT: Memo[Values] = Memo()


def values_at(statement: Statement, setting: Setting) -> Values:
    """Return the values of what a line is searched with, the same ones for every search."""
    return _AT.get(statement, setting, lambda _: Values(setting))


def single(value: Ratio) -> tuple[Number, Mono] | None:
    """Return the coefficient and the letters of a value that is one term."""
    if value.below != ONE or len(value.above.terms) != 1:
        return None
    ((mono, coefficient),) = value.above.terms.items()
    return coefficient, mono


class Hit(NamedTuple):
    """A wrong move that gives the needed value: its name, what to say, how many assumptions it takes."""

    name: str
    message: str
    cost: int = 1
    left_side: bool = False  # a move on both sides that shows on the left one


class Spot(NamedTuple):
    """A part of the line above, and the value that stands in its place in the typed line.

    ``whole``: it is a whole side, not a part of one. ``reaches``: where right steps may have
    followed there is no one value that is needed; this tells whether a value leads to the typed line.
    """

    node: Expr
    needed: Ratio
    values: Values
    whole: bool = False
    reaches: Callable[[Ratio], bool] | None = None

    def gives(self, value: Ratio | None) -> bool:
        """Tell whether a move that gives ``value`` here gives the typed line."""
        if value is None:
            return False
        return self.needed.same(value) if self.reaches is None else self.reaches(value)


Move = Callable[[Spot], Iterator[Hit]]


def is_long(expr: Expr) -> bool:
    """Tell whether a side is longer than any that a known wrong move is looked for in."""
    waiting, seen = [expr], 0
    while waiting:
        seen += 1
        if seen > MAX_PARTS:
            return True
        waiting += parts(waiting.pop())
    return False


def say(value: Number) -> str:
    """Return a number as a message shows it; a long one is called by a word."""
    text = write_number(value).replace("-", "−")
    return text if len(text) <= MAX_SHOWN else "this number"


_UNWRITTEN = re.compile(r"(?<=[\w)²³]) · (?=[A-Za-zπ(√])")

_NEEDLESS = re.compile(r"−\(([\w.]+)\)")


def show(expr: Expr) -> str:
    """Return a part of a line as a message shows it; a long one is called by a word."""
    text = _NEEDLESS.sub(r"−\1", _UNWRITTEN.sub("", write_expr(expr)))
    text = re.sub(r"\^2(?!\d)", "²", re.sub(r"\^3(?!\d)", "³", text))
    return text if len(text) <= MAX_SHOWN else "this part"


def unsigned(expr: Expr) -> Expr:
    """Return a term without the minus in front of it."""
    return expr.inner if isinstance(expr, Neg) else expr


def show_unsigned(expr: Expr) -> str:
    """Return a term as a message shows it, without the minus in front of it."""
    return show(unsigned(expr))


def say_size(value: Number) -> str:
    """Return a number as a message shows it, without its sign."""
    return say(-value if value < 0 else value)


def negated(value: Ratio) -> Ratio:
    """Return the opposite of a value."""
    return Ratio(-value.above, value.below)


def scaled(value: Ratio, factor: Number) -> Ratio:
    """Return a value times a number."""
    return Ratio(value.above.scaled(factor), value.below)


def sum_of(values: list[Ratio]) -> Ratio:
    """Return the sum of some values."""
    result = Ratio(ZERO)
    for value in values:
        result = result + value
    return result


def product_of(values: list[Ratio]) -> Ratio:
    """Return the product of some values."""
    result = Ratio(ONE)
    for value in values:
        result = result * value
    return result


def exact(found: list[Ratio | None]) -> list[Ratio] | None:
    """Return the values if all of them are known."""
    kept = [value for value in found if value is not None]
    return kept if len(kept) == len(found) else None


def terms_of(expr: Expr) -> tuple[Expr, ...]:
    """Return the terms of a sum, brackets around a sum in it opened; a single one of anything else."""
    if not isinstance(expr, Add):
        return (expr,)
    return tuple(term for part in expr.terms for term in terms_of(part))


def factors_of(expr: Expr) -> tuple[int, tuple[Expr, ...]]:
    """Return the sign in front of a product and its factors, those of inner products too."""
    if isinstance(expr, Neg):
        sign, factors = factors_of(expr.inner)
        return -sign, factors
    if not isinstance(expr, Mul):
        return 1, (expr,)
    sign = 1
    found: list[Expr] = []
    for part in expr.factors:
        # A minus in front of a later factor is its own: −3 · (−4).
        inner_sign, inner = factors_of(part) if isinstance(part, Mul) else (1, (part,))
        sign *= inner_sign
        found += inner
    return sign, tuple(found)


def spots(
    expr: Expr, needed: Ratio, values: Values, *, whole: bool = True, plain: bool = True
) -> Iterator[Spot]:
    """Yield every part of an expression with the value needed there, the whole first.

    ``plain``: with terms such as ``3x`` too, a number and letters without powers.
    """
    if isinstance(expr, Num | Name | PiSign) or (not plain and not whole and _is_plain_term(expr)):
        return
    yield Spot(expr, needed, values, whole)
    try:
        inside = list(_inside(expr, needed, values))
    except (NotExact, DividedByZero):
        return
    for part, wanted in inside:
        yield from spots(part, wanted, values, whole=False, plain=plain)


def _is_plain_term(expr: Expr) -> bool:
    if isinstance(expr, Neg):
        return _is_plain_term(expr.inner)
    if not isinstance(expr, Mul):
        return isinstance(expr, Num | Name)
    first, *rest = expr.factors
    whole = isinstance(first, Num) and (first.places is not None or first.value.denominator == 1)
    return whole and all(isinstance(factor, Name) for factor in rest)


def _inside(expr: Expr, needed: Ratio, values: Values) -> Iterator[tuple[Expr, Ratio]]:
    match expr:
        case Neg(inner):
            yield inner, negated(needed)
        case Add(terms):
            yield from _among_terms(terms, needed, values)
        case Mul(factors):
            yield from _among_factors(factors, needed, values)
        case Div(top, bottom):
            above, below = values.of(top), values.of(bottom)
            if below is not None:
                yield top, needed * below
            if above is not None and needed.above:
                yield bottom, above.over(needed)
        case Root(2, inner):
            yield inner, needed * needed
        case Percent(inner):
            yield inner, scaled(needed, 100)
        case Measure(inner, unit):
            yield inner, scaled(needed, 1 / values.setting.units.factor(unit))
        case Abs(inner):
            yield inner, needed
        case _:
            return


def _among_terms(terms: tuple[Expr, ...], needed: Ratio, values: Values) -> Iterator[tuple[Expr, Ratio]]:
    """Yield each term with its needed value; if one has no exact value, that one alone."""
    if len(terms) > MAX_TERMS:
        return
    found = [values.of(term) for term in terms]
    known = [value for value in found if value is not None]
    missing = needed - sum_of(known)
    if len(known) < len(terms):
        if len(known) == len(terms) - 1:
            yield terms[found.index(None)], missing
        return
    for term, value in zip(terms, known, strict=True):
        if not isinstance(term, Num | Name | PiSign):
            yield term, value + missing


def _among_factors(factors: tuple[Expr, ...], needed: Ratio, values: Values) -> Iterator[tuple[Expr, Ratio]]:
    """Yield each factor with its needed value, where the others have exact values that are not 0."""
    if len(factors) > MAX_TERMS:
        return
    found = [values.of(factor) for factor in factors]
    for at, factor in enumerate(factors):
        if isinstance(factor, Num | Name | PiSign):
            continue
        others = exact(found[:at] + found[at + 1 :])
        rest = None if others is None else product_of(others)
        if rest is not None and rest.above:
            yield factor, needed.over(rest)
