"""From the tree of a side to its exact meaning.

Numbers stay rational, π stays π unless a value is put in its place, and a unit counts as
the number of reference units in it. Raises ``NotExact`` for what ``poly`` cannot hold and
``DividedByZero``; both are made values by the marker.
"""

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import assert_never

from tutor.line.poly import (
    ONE,
    PI_ATOM,
    ROOT_MARK,
    DividedByZero,
    Mono,
    NoRealRoot,
    NotExact,
    Number,
    Poly,
    Ratio,
    is_name,
    root_of_rational,
    small,
    total,
)
from tutor.line.real import sign
from tutor.line.tree import (
    Abs,
    Add,
    Div,
    Expr,
    Hole,
    Measure,
    Mul,
    Name,
    Neg,
    Num,
    Percent,
    PiSign,
    PlusMinus,
    Pow,
    Root,
)
from tutor.quantity.dimension import LENGTH, MASS, TIME
from tutor.quantity.units import Unit

MAX_POWER = 64


@dataclass(frozen=True, slots=True)
class UnitSystem:
    """The sizes that a bare number is counted in: of a length in metres, a time in seconds, a mass in grams.

    None where the problem names no such unit: then its units count as 1.
    """

    length: Fraction | None = None
    time: Fraction | None = None
    mass: Fraction | None = None

    def with_unit(self, unit: Unit) -> "UnitSystem":
        """Return this with the kinds of ``unit`` that were still open counted in it."""
        system = self
        for base, _ in unit.parts:
            if base.dimension == LENGTH and system.length is None:
                system = replace(system, length=base.factor)
            elif base.dimension == TIME and system.time is None:
                system = replace(system, time=base.factor)
            elif base.dimension == MASS and system.mass is None:
                system = replace(system, mass=base.factor)
        return system

    def factor(self, unit: Unit) -> Fraction:
        """Return how many reference units one ``unit`` is."""
        dimension = unit.dimension
        missing = (
            (dimension.length and self.length is None)
            or (dimension.time and self.time is None)
            or (dimension.mass and self.mass is None)
        )
        if missing:
            return Fraction(1)
        size = unit.factor
        for reference, power in (
            (self.length, dimension.length),
            (self.time, dimension.time),
            (self.mass, dimension.mass),
        ):
            if reference is not None and power:
                size /= reference**power
        return size


@dataclass(frozen=True, slots=True)
class Setting:
    """How signs are taken: which number stands for π (None: π itself), which units count as one.

    ``positive`` holds names that stand for measures, so that √(s²) is s. ``rooted``: a root of such
    a name is a power of it with a fraction, which can be compared but not solved for.
    """

    pi: Fraction | None = None
    units: UnitSystem = UnitSystem()
    positive: frozenset[str] = frozenset()
    rooted: bool = False


PLAIN = Setting()


def value_of(expr: Expr, setting: Setting = PLAIN) -> Ratio:
    """Return the exact meaning of an expression without ``±``, ``?`` and ``|x|`` of a name."""
    match expr:
        case Add(terms):
            return _plain_sum(terms) or total(value_of(term, setting) for term in terms)
        case Mul(factors):
            return _plain_sum((expr,)) or _product(factors, setting)
        case Num(value, open_end=False):
            return Ratio(Poly.number(small(value)))
        case Name(name):
            return Ratio(Poly.atom(name))
        case Neg(inner):
            found = value_of(inner, setting)
            return Ratio(-found.above, found.below)
        case Div(top, bottom):
            return value_of(top, setting).over(value_of(bottom, setting))
        case PiSign():
            return Ratio(Poly.atom(PI_ATOM) if setting.pi is None else Poly.number(setting.pi))
        case Pow(base, exponent):
            return _power(value_of(base, setting), value_of(exponent, setting), setting)
        case Root(index, inner):
            return _root(value_of(inner, setting), index, setting)
        case Abs(inner):
            return _absolute(value_of(inner, setting), setting)
        case Percent(inner):
            found = value_of(inner, setting)
            return Ratio(found.above.scaled(Fraction(1, 100)), found.below)
        case Measure(inner, unit):
            found = value_of(inner, setting)
            return Ratio(found.above.scaled(setting.units.factor(unit)), found.below)
        case Hole() | PlusMinus() | Num():
            raise NotExact("no single value")
        case _:
            assert_never(expr)


def _product(factors: tuple[Expr, ...], setting: Setting) -> Ratio:
    result = value_of(factors[0], setting)
    for factor in factors[1:]:
        result = result * value_of(factor, setting)
    return result


def _plain_sum(terms: tuple[Expr, ...]) -> Ratio | None:
    """Return a sum of numbers, names and numbers times a name; None where anything else stands in it.

    The short way for the everyday side, such as ``3x - 12``: the terms go straight into one table.
    """
    made: dict[Mono, Number] = {}
    for term in terms:
        taken = isinstance(term, Neg)
        plain = _plain_term(term.inner if isinstance(term, Neg) else term)
        if plain is None:
            return None
        mono, value = plain
        made[mono] = made.get(mono, 0) + (-value if taken else value)
    for value in made.values():
        if not value or type(value) is not int or value.bit_length() > 64:
            return Ratio(Poly.of(made))
    return Ratio(Poly(made))


def _plain_term(term: Expr) -> tuple[Mono, Number] | None:
    if isinstance(term, Num):
        return None if term.open_end else ((), small(term.value))
    if isinstance(term, Name):
        return ((term.name, 1),), 1
    if isinstance(term, Mul) and len(term.factors) == 2:
        number, name = term.factors
        if isinstance(number, Num) and isinstance(name, Name) and not number.open_end:
            return ((name.name, 1),), small(number.value)
    return None


def _power(base: Ratio, exponent: Ratio, setting: Setting) -> Ratio:
    wanted = exponent.constant()
    power = None if wanted is None else wanted.rational()
    if power is None:
        raise NotExact("a power that is no number")
    if isinstance(power, Fraction):
        if power.denominator > 60 or abs(power.numerator) > MAX_POWER:
            raise NotExact("power too big")
        rooted = _root(base, power.denominator, setting)
        return _power(rooted, Ratio(Poly.number(power.numerator)), setting)
    if not base.above and power <= 0:
        raise DividedByZero
    constant = base.constant()
    plain = None if constant is None else constant.rational()
    if plain in (0, 1):
        return base
    if abs(power) > (2000 if len(base.above.terms) == len(base.below.terms) == 1 else MAX_POWER):
        raise NotExact("power too big")
    if plain is not None and abs(power) * max(1, Fraction(plain).numerator.bit_length()) > 4096:
        raise NotExact("power too big")
    if power < 0:
        return Ratio(ONE).over(Ratio(base.above.power(-power), base.below.power(-power)))
    return Ratio(base.above.power(power), base.below.power(power))


def _root(inner: Ratio, index: int, setting: Setting) -> Ratio:
    above, below = _root_of_sum(inner.above, index, setting), _root_of_sum(inner.below, index, setting)
    return Ratio(above).over(Ratio(below))


def _root_of_sum(inner: Poly, index: int, setting: Setting) -> Poly:
    rational = inner.rational()
    if rational is not None:
        root = root_of_rational(rational, index)
        if root is None:
            raise NoRealRoot("no real root")
        return root
    if len(inner.terms) != 1:
        raise NotExact("root of a sum")
    ((mono, coefficient),) = inner.terms.items()
    root = root_of_rational(coefficient, index)
    if root is None:
        if setting.rooted and inner.names() <= setting.positive:
            raise NoRealRoot("root of a product below zero")
        raise NotExact("root of a negative product")
    for atom, power in mono:
        root = root * _root_of_atom(atom, Fraction(power) / index, index, setting)
    return root


def _root_of_atom(atom: str, exponent: Fraction, index: int, setting: Setting) -> Poly:
    if atom.startswith(ROOT_MARK):
        whole, part = divmod(exponent, 1)
        made = Poly.number(Fraction(int(atom[1:])) ** whole)
        return made * Poly.atom(atom, small(part)) if part else made
    if atom == PI_ATOM:
        return Poly.atom(atom, small(exponent))
    even_left = exponent.denominator == 1 and exponent.numerator % 2 == 0  # √(p⁴) is p², whatever p is
    certain = not is_name(atom) or atom in setting.positive or index % 2 == 1 or even_left
    if certain and exponent.denominator == 1:
        return Poly.atom(atom, exponent.numerator)
    if setting.rooted and atom in setting.positive:
        return Poly.atom(atom, exponent)
    # √x of a name is left to the slower decision: its sign and its domain matter.
    raise NotExact("root of a name")


def _absolute(inner: Ratio, setting: Setting) -> Ratio:
    constant = inner.constant()
    if constant is not None:
        return Ratio(-constant) if sign(constant) < 0 else inner
    if len(inner.above.terms) == len(inner.below.terms) == 1:
        ((mono, coefficient),) = inner.above.terms.items()
        ((under, below),) = inner.below.terms.items()
        if all(not is_name(atom) or atom in setting.positive for atom, _ in (*mono, *under)):
            return inner if (coefficient > 0) is (below > 0) else Ratio(-inner.above, inner.below)
    raise NotExact("absolute value of a name")


def number_of(expr: Expr, setting: Setting = PLAIN) -> Number | None:
    """Return the rational value of an expression without names, or None."""
    try:
        constant = value_of(expr, setting).constant()
    except (NotExact, DividedByZero):
        return None
    return None if constant is None else constant.rational()
