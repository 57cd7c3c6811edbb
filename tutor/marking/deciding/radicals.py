"""Equations with roots of sums in them, as exact conditions without roots.

``√f = g`` says ``f = g²`` and ``g ≥ 0``; with two square roots one of them is put alone first.
An odd root has no such second condition. So a line with an unknown under a root claims
conditions on sums like any other, and nothing needs to be guessed or rounded.
"""

from dataclasses import dataclass
from fractions import Fraction
from math import gcd
from typing import TypeAlias

from tutor.line.meaning import Setting, number_of, value_of
from tutor.line.poly import ONE, NotExact, Poly, Ratio
from tutor.line.tree import Add, Div, Expr, Mul, Neg, Pow, Rel, Root

# The index of a root and what stands under it.
Radical: TypeAlias = tuple[int, Poly]
# What is claimed of a sum: the sum, compared with zero.
Condition: TypeAlias = tuple[Poly, Rel]
Case: TypeAlias = tuple[Condition, ...]

MAX_INDEX = 5
MAX_NESTED = 15
MAX_POWER = 4


@dataclass(frozen=True, slots=True)
class Sum:
    """``rest`` and multiples of roots. ``domain``: what must not be negative for the roots to be real."""

    rest: Poly
    roots: tuple[tuple[Radical, Poly], ...] = ()
    domain: tuple[Poly, ...] = ()

    def plus(self, other: "Sum") -> "Sum":
        """Return the sum of two."""
        roots = dict(self.roots)
        for radical, times in other.roots:
            roots[radical] = roots.get(radical, Poly({})) + times
        return Sum(
            self.rest + other.rest,
            tuple((radical, times) for radical, times in roots.items() if times),
            _joined(self.domain, other.domain),
        )

    def scaled(self, factor: Poly) -> "Sum":
        """Return a multiple."""
        roots = tuple((radical, times * factor) for radical, times in self.roots)
        return Sum(self.rest * factor, roots, self.domain)

    def times(self, other: "Sum") -> "Sum":
        """Return the product; two different roots of names are not multiplied."""
        made = other.scaled(self.rest).plus(Sum(Poly({}), (), self.domain))
        for radical, factor in self.roots:
            made = made.plus(_times_root(other, radical, factor))
        return made


def _joined(left: tuple[Poly, ...], right: tuple[Poly, ...]) -> tuple[Poly, ...]:
    return (*left, *(poly for poly in right if poly not in left))


def _times_root(one: Sum, radical: Radical, factor: Poly) -> Sum:
    index, inner = radical
    made = Sum(Poly({}), ((radical, one.rest * factor),) if one.rest else (), one.domain)
    for (other_index, other_inner), times in one.roots:
        if (other_index, other_inner) != radical or index != 2:
            raise NotExact("a product of roots")
        made = made.plus(Sum(inner * times * factor))
    return made


def sum_of(expr: Expr, setting: Setting) -> Sum:
    """Return a side as a sum with roots; raises ``NotExact`` for what is not of that kind."""
    try:
        return Sum(_whole(value_of(expr, setting)))
    except NotExact:
        pass
    match expr:
        case Root(index, inner) if index <= MAX_INDEX:
            under = sum_of(inner, setting)
            if under.roots:
                return _root_of_root(under, index)
            domain = (under.rest,) if index % 2 == 0 else ()
            return Sum(Poly({}), (((index, under.rest), Poly.number(1)),), _joined(under.domain, domain))
        case Neg(inner):
            return sum_of(inner, setting).scaled(Poly.number(-1))
        case Add(terms):
            made = Sum(Poly({}))
            for term in terms:
                made = made.plus(sum_of(term, setting))
            return made
        case Mul(factors):
            product = Sum(Poly.number(1))
            for factor in factors:
                product = product.times(sum_of(factor, setting))
            return product
        case Div(top, bottom):
            below = _whole(value_of(bottom, setting)).inverse()
            if below is None:
                raise NotExact("a root over a name")
            return sum_of(top, setting).scaled(below)
        case Pow(base, exponent):
            return _raised(base, exponent, setting)
        case _:
            raise NotExact("no sum with roots")


def _raised(base: Expr, exponent: Expr, setting: Setting) -> Sum:
    power = number_of(exponent, setting)
    if power is None or not 0 < power <= MAX_POWER:
        raise NotExact("no small power")
    fraction = Fraction(power)
    root = base if fraction.denominator == 1 else Root(fraction.denominator, base)
    return _power(sum_of(root, setting), fraction.numerator)


def _root_of_root(under: Sum, index: int) -> Sum:
    """``∛(c√f)`` is ``⁶√(c²f)``, where nothing stands beside the inner root and c is not negative."""
    if under.rest or len(under.roots) != 1:
        raise NotExact("a sum with a root under a root")
    ((below, inner), times) = under.roots[0]
    if index * below > MAX_NESTED or (below % 2 == 0 and _sign(times) < 0):
        raise NotExact("a root under a root")
    inner = times.power(below) * inner
    domain = (inner,) if index % 2 == 0 else ()
    return Sum(Poly({}), (((index * below, inner), Poly.number(1)),), _joined(under.domain, domain))


def _power(base: Sum, exponent: int) -> Sum:
    if not base.rest and len(base.roots) == 1:
        ((index, inner), times) = base.roots[0]
        # What stands under an even root is not negative (``domain``), so ⁶√f² is ∛f and ∛f² is ∛(f²).
        shared = gcd(index, exponent)
        index, raised = index // shared, inner.power(exponent // shared)
        if index == 1:
            return Sum(raised * times.power(exponent), (), base.domain)
        return Sum(Poly({}), (((index, raised), times.power(exponent)),), base.domain)
    made = base
    for _ in range(exponent - 1):
        made = made.times(base)
    return made


def _whole(ratio: Ratio) -> Poly:
    if ratio.below != ONE:
        raise NotExact("a quotient beside a root")
    return ratio.above


def cases_of(left: Expr, right: Expr, setting: Setting) -> tuple[Case, ...]:
    """Return the cases (joined by "or") in which two sides are equal; raises ``NotExact``."""
    difference = sum_of(left, setting).plus(sum_of(right, setting).scaled(Poly.number(-1)))
    domain: Case = tuple((poly, Rel.GE) for poly in difference.domain)
    return tuple((*case, *domain) for case in _zero(difference))


def _zero(total: Sum) -> tuple[Case, ...]:
    match total.roots:
        case ():
            return (((total.rest, Rel.EQ),),)
        case (((index, inner), times),):
            return _one_root(index, inner, times, total.rest)
        case (((2, f), a), ((2, g), b)):
            return _two_roots((f, a), (g, b), total.rest)
        case (((i, f), a), ((j, g), b)) if i == j and i % 2 and not total.rest:
            return (((a.power(i) * f + b.power(i) * g, Rel.EQ),),)
        case _:
            raise NotExact("more roots than can be put alone")


def _one_root(index: int, inner: Poly, times: Poly, rest: Poly) -> tuple[Case, ...]:
    """``times · root + rest = 0``."""
    if index % 2:
        return (((times.power(index) * inner + rest.power(index), Rel.EQ),),)
    squared = times.power(index) * inner - rest.power(index)
    return (((squared, Rel.EQ), (times * rest, Rel.LE)),)


def _two_roots(first: tuple[Poly, Poly], second: tuple[Poly, Poly], rest: Poly) -> tuple[Case, ...]:
    """``a√f + b√g + c = 0``: with ``a√f = −(b√g + c)`` squared, one root is left."""
    (f, a), (g, b) = first, second
    if a.names() or b.names():
        raise NotExact("a name beside one of two roots")
    if not rest:
        both = (a.power(2) * f - b.power(2) * g, Rel.EQ)
        if _sign(a) == -_sign(b):
            return ((both,),)
        return (((f, Rel.EQ), (g, Rel.EQ)),)
    left = a.power(2) * f - b.power(2) * g - rest.power(2)  # = 2·b·c·√g
    squared = _one_root(2, g, (b * rest).scaled(-2), left)
    signs = _at_most_zero(g, b, rest) if _sign(a) > 0 else _at_most_zero(g, -b, -rest)
    return tuple((*one, *sign) for one in squared for sign in signs)


def _sign(constant: Poly) -> int:
    value = constant.rational()
    if value is None:
        raise NotExact("a root beside a root")
    return (Fraction(value) > 0) - (Fraction(value) < 0)


def _at_most_zero(g: Poly, b: Poly, c: Poly) -> tuple[Case, ...]:
    """``b√g + c ≤ 0`` as cases."""
    if _sign(b) > 0:
        return (((c, Rel.LE), (b.power(2) * g - c.power(2), Rel.LE)),)
    return (((c, Rel.LE),), ((c, Rel.GT), (b.power(2) * g - c.power(2), Rel.GE)))


def is_square_of(new: Expr, old: Expr, setting: Setting) -> bool:
    """Tell whether a side is another one times itself; raises ``NotExact`` where it cannot be told."""
    square, wanted = sum_of(old, setting), sum_of(new, setting)
    square = _power(square, 2)
    return square.rest == wanted.rest and dict(square.roots) == dict(wanted.roots)


def squared(side: Expr, setting: Setting) -> Ratio:
    """Return a side times itself; a square root becomes what stands under it."""
    match side:
        case Root(2, inner):
            return value_of(inner, setting)
        case Neg(inner):
            return squared(inner, setting)
        case Mul(factors):
            result = squared(factors[0], setting)
            for factor in factors[1:]:
                result = result * squared(factor, setting)
            return result
        case _:
            value = value_of(side, setting)
            return value * value
