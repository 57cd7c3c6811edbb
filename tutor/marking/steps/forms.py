"""Numbers and terms in the writing that a solution keeps to."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import gcd

from tutor.line.meaning import Setting, UnitSystem, value_of
from tutor.line.poly import ONE, PI_ATOM, ROOT_MARK, DividedByZero, Mono, NotExact, Number, Poly
from tutor.line.tree import (
    Add,
    Bare,
    Chain,
    Div,
    Expr,
    Joined,
    Measure,
    Mul,
    Name,
    Neg,
    Num,
    Onward,
    PiSign,
    Pow,
    Root,
    Statement,
    whole_number,
)
from tutor.line.walk import changed, every, sides
from tutor.line.writing import write_number

_ANY_UNITS = UnitSystem()


@dataclass(frozen=True, slots=True)
class Style:
    """How numbers are written and letters are taken.

    ``fractions``: a quotient is written as a fraction even where its decimal ends.
    ``positive``: names that are sizes. ``units``: what a bare number counts in.
    """

    fractions: bool = False
    positive: frozenset[str] = frozenset()
    units: UnitSystem = _ANY_UNITS

    @property
    def setting(self) -> Setting:
        """Return the setting that sides are worked out in: π stays π."""
        return Setting(None, self.units, self.positive)


def writes_fractions(*statements: Statement) -> bool:
    """Tell whether the numbers of some lines are fractions and none is a decimal."""
    numbers = [
        node
        for statement in statements
        for side in sides(statement)
        for node in every(side)
        if isinstance(node, Num | Div)
    ]
    decimal = any(isinstance(node, Num) and "." in node.text for node in numbers)
    broken = any(
        (isinstance(node, Num) and node.places is None)
        or (isinstance(node, Div) and literal(node) is not None)
        for node in numbers
    )
    return broken and not decimal


def literal(expr: Expr) -> Fraction | None:
    """Return the value of a number as it is written in the end: ``7``, ``−2.5``, ``22/7``; else None."""
    match expr:
        case Num(value, open_end=False):
            return value
        case Neg(inner):
            found = literal(inner)
            return None if found is None or isinstance(inner, Neg) else -found
        case Div(Num(top, places=0), Num(bottom, places=0)):
            proper = bottom > 1 and gcd(top.numerator, bottom.numerator) == 1
            return top / bottom if proper else None
        case _:
            return None


def number(value: Number, style: Style) -> Expr:
    """Return a rational number in this style: a whole number, a short decimal, or a fraction."""
    exact = Fraction(value)
    if exact < 0:
        return Neg(number(-exact, style))
    text = write_number(exact)
    places = len(text.partition(".")[2])
    if exact.denominator == 1 or ("/" not in text and not style.fractions):
        return Num(exact, text, places)
    return Div(whole_number(exact.numerator), whole_number(exact.denominator))


ZERO = whole_number(0)


def term(mono: Mono, size: Number, style: Style) -> Expr:
    """Return a product of a number and letters as one term: ``3x``, ``−x``, ``2x/3``, ``10π``."""
    exact = Fraction(size)
    if exact < 0:
        return Neg(term(mono, -exact, style))
    letters = _letters(mono)
    if not letters:
        return number(exact, style)
    if exact == 1:
        return joined(letters)
    plain = number(exact, style)
    if isinstance(plain, Div):
        top = letters if exact.numerator == 1 else (plain.top, *letters)
        return Div(joined(top), plain.bottom)
    return Mul((plain, *letters))


def joined(factors: tuple[Expr, ...]) -> Expr:
    """Return factors as one expression."""
    return factors[0] if len(factors) == 1 else Mul(factors)


def _letters(mono: Mono) -> tuple[Expr, ...]:
    ordered = sorted(mono, key=lambda pair: pair[0] != PI_ATOM)
    plain = tuple(_power(atom, Fraction(power)) for atom, power in ordered if atom[0] != ROOT_MARK)
    return (*plain, *_roots([(atom, Fraction(power)) for atom, power in mono if atom[0] == ROOT_MARK]))


def _roots(atoms: list[tuple[str, Fraction]]) -> tuple[Expr, ...]:
    """Return roots of one kind as one root: √2 · √3 is √6."""
    inside: dict[int, int] = {}
    for atom, power in atoms:
        index = power.denominator
        inside[index] = inside.get(index, 1) * int(atom[1:]) ** power.numerator
    return tuple(Root(index, whole_number(size)) for index, size in sorted(inside.items()))


def _power(atom: str, power: Fraction) -> Expr:
    base: Expr = PiSign() if atom == PI_ATOM else Name(atom)
    if power == 1:
        return base
    if power.denominator != 1:
        return Root(power.denominator, _power(atom, Fraction(power.numerator)))
    return Pow(base, number(power, Style()))


Terms = list[tuple[Mono, Number]]


def terms_of(expr: Expr) -> tuple[Expr, ...]:
    """Return the terms of a sum; anything else is one term."""
    return expr.terms if isinstance(expr, Add) else (expr,)


def single(expr: Expr, style: Style) -> tuple[Mono, Number] | None:
    """Return letters and number of one term without brackets; None for anything else."""
    if any(isinstance(node, Add) for node in every(expr)):
        return None
    try:
        value = value_of(expr, style.setting)
    except (NotExact, DividedByZero):
        return None
    if value.below != ONE or len(value.above.terms) > 1:
        return None
    return next(iter(value.above.terms.items()), ((), 0))


def collected(expr: Expr, style: Style) -> Terms | None:
    """Return the terms of a side, None where a bracket stands in it or terms are alike."""
    found: Terms = []
    for one in terms_of(expr):
        pair = single(one, style)
        if pair is None or any(pair[0] == mono for mono, _ in found):
            return None
        if pair[1] or not isinstance(expr, Add):
            found.append(pair)
    return [pair for pair in found if pair[1]]


def sum_of(terms: Sequence[tuple[Mono, Number]], style: Style) -> Expr:
    """Return terms as a side."""
    made = tuple(term(mono, size, style) for mono, size in terms if size)
    if not made:
        return ZERO
    return made[0] if len(made) == 1 else Add(made)


def as_poly(terms: Terms) -> Poly:
    """Return terms as an exact sum."""
    made = Poly({})
    for mono, size in terms:
        made = made + Poly({mono: size})
    return made


def tidy(statement: Statement, style: Style) -> Statement:
    """Return a line without nested sums and products and without units; spans are kept."""

    def change(node: Expr) -> Expr:
        match node:
            case Add(parts):
                return Add(tuple(deep for part in parts for deep in _inside(part)), node.span)
            case Mul(factors):
                deep_factors = tuple(
                    deep
                    for factor in factors
                    for deep in (factor.factors if isinstance(factor, Mul) else (factor,))
                )
                if isinstance(statement, Chain):
                    deep_factors = _as_powers(deep_factors)
                if len(deep_factors) == 1:
                    return deep_factors[0]
                return _signs_out(deep_factors, node)
            case Measure(inner, unit):
                size = style.units.factor(unit)
                return inner if size == 1 else Mul((inner, number(size, style)), node.span)
            case _:
                return node

    made = changed(statement, change)
    return made if isinstance(made, Chain | Bare | Joined | Onward) else statement


def _as_powers(factors: tuple[Expr, ...]) -> tuple[Expr, ...]:
    """``x · x`` in an equation is written as x²."""
    names = [factor for factor in factors if isinstance(factor, Name)]
    if len(set(names)) == len(names):
        return factors
    made: list[Expr] = []
    joined: set[Expr] = set()
    for factor in factors:
        count = names.count(factor) if isinstance(factor, Name) else 1
        if count == 1:
            made.append(factor)
        elif factor not in joined:
            joined.add(factor)
            power = whole_number(count, factor.span)
            made.append(Pow(factor, power, factor.span))
    return tuple(made)


def _inside(part: Expr) -> tuple[Expr, ...]:
    return part.terms if isinstance(part, Add) else (part,)


def _signs_out(factors: tuple[Expr, ...], node: Mul) -> Expr:
    """``−3 · x`` and ``−(3 · x)`` are the same writing: the sign stands before the product."""
    first, last = factors[0], factors[-1]
    if isinstance(last, Div) and not any(isinstance(one, Div) for one in factors[:-1]):
        # "b h/2" is read as b · (h/2); over one bar it is worked out in the order it is written.
        top = last.top.factors if isinstance(last.top, Mul) else (last.top,)
        return Div(Mul((*factors[:-1], *top), node.span), last.bottom, node.span)
    if isinstance(first, Neg) and not isinstance(first.inner, Add):
        inner = first.inner.factors if isinstance(first.inner, Mul) else (first.inner,)
        return Neg(Mul((*inner, *factors[1:]), node.span), node.span)
    return Mul(factors, node.span)
