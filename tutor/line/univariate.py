"""Polynomials in one unknown with rational coefficients: real roots, exactly.

A polynomial is a tuple of Fractions, the constant first; the zero polynomial is ``()``.
Roots are counted by Sturm's theorem, so nothing here depends on rounding.
"""

import itertools
import math
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import TypeAlias

Dense: TypeAlias = tuple[Fraction, ...]


def trimmed(values: list[Fraction]) -> Dense:
    """Return the polynomial without leading zeros."""
    while values and not values[-1]:
        values.pop()
    return tuple(values)


def remainder(left: Dense, right: Dense) -> Dense:
    """Return the remainder of a division; ``right`` is not zero."""
    return divided(left, right)[1]


def divided(left: Dense, right: Dense) -> tuple[Dense, Dense]:
    """Return quotient and remainder; ``right`` is not zero."""
    rest = list(left)
    quotient = [Fraction(0)] * max(0, len(left) - len(right) + 1)
    for at in range(len(left) - len(right), -1, -1):
        factor = rest[at + len(right) - 1] / right[-1]
        quotient[at] = factor
        if factor:
            for offset, value in enumerate(right):
                rest[at + offset] -= factor * value
    return trimmed(quotient), trimmed(rest[: len(right) - 1])


def common(left: Dense, right: Dense) -> Dense:
    """Return the greatest common divisor, leading coefficient 1 (``()`` if both are zero)."""
    while right:
        left, right = right, remainder(left, right)
    return tuple(value / left[-1] for value in left) if left else ()


def derivative(poly: Dense) -> Dense:
    """Return the derivative."""
    return tuple(power * value for power, value in enumerate(poly))[1:]


def product(left: Dense, right: Dense) -> Dense:
    """Return the product."""
    if not left or not right:
        return ()
    made = [Fraction(0)] * (len(left) + len(right) - 1)
    for i, a in enumerate(left):
        for j, b in enumerate(right):
            made[i + j] += a * b
    return tuple(made)


def square_free(poly: Dense) -> Dense:
    """Return the polynomial with every root once."""
    if len(poly) <= 2:
        return poly
    shared = common(poly, derivative(poly))
    return divided(poly, shared)[0] if len(shared) > 1 else poly


def at(poly: Dense, x: Fraction) -> Fraction:
    """Return the value at a point."""
    total = Fraction(0)
    for value in reversed(poly):
        total = total * x + value
    return total


def _sturm(poly: Dense) -> list[Dense]:
    chain = [poly, derivative(poly)]
    while chain[-1]:
        chain.append(tuple(-value for value in remainder(chain[-2], chain[-1])))
    return chain[:-1]


def _changes(chain: list[Dense], x: Fraction) -> int:
    signs = [value > 0 for value in (at(poly, x) for poly in chain) if value]
    return sum(a is not b for a, b in itertools.pairwise(signs))


@dataclass(frozen=True, slots=True)
class Spot:
    """One real root: ``low == high`` where it is rational, else it lies strictly between."""

    low: Fraction
    high: Fraction
    poly: Dense

    @property
    def exact(self) -> Fraction | None:
        """Return the root if it is a rational number."""
        return self.low if self.low == self.high else None

    def narrowed(self) -> "Spot":
        """Return the same root between closer bounds."""
        if self.low == self.high:
            return self
        middle = (self.low + self.high) / 2
        value = at(self.poly, middle)
        if not value:
            return Spot(middle, middle, self.poly)
        if (value > 0) is (at(self.poly, self.low) > 0):
            return Spot(middle, self.high, self.poly)
        return Spot(self.low, middle, self.poly)

    def closer(self, width: Fraction) -> "Spot":
        """Return the same root between bounds no further apart than ``width``, or as the number it is.

        Halved in whole numbers of a small step: fractions would grow with each half.
        """
        if self.high - self.low <= width:
            return self
        step = min(width, self.high - self.low) / 4
        bits = max(0, (step.denominator // step.numerator + 1).bit_length())
        low, high = math.ceil(self.low * 2**bits), math.floor(self.high * 2**bits)
        scaled = _in_steps(self.poly, bits)
        below = at(self.poly, self.low) > 0
        ends = (_value_in_steps(scaled, low), _value_in_steps(scaled, high))
        for point, value in zip((low, high), ends, strict=True):
            if not value:
                return self._at_step(point, point, bits)
        if (ends[0] > 0) is not below:
            return Spot(self.low, Fraction(low, 2**bits), self.poly)
        if (ends[1] > 0) is below:
            return Spot(Fraction(high, 2**bits), self.high, self.poly)
        while high - low > 1:
            middle = (low + high) // 2
            value = _value_in_steps(scaled, middle)
            if not value:
                return self._at_step(middle, middle, bits)
            if (value > 0) is below:
                low = middle
            else:
                high = middle
        return self._at_step(low, high, bits)

    def _at_step(self, low: int, high: int, bits: int) -> "Spot":
        return Spot(Fraction(low, 2**bits), Fraction(high, 2**bits), self.poly)


def _in_steps(poly: Dense, bits: int) -> tuple[int, ...]:
    """Return a polynomial in whole numbers, the unknown counted in steps of 2 to the power −bits."""
    scale = math.lcm(*(value.denominator for value in poly))
    return tuple(int(value * scale) << bits * (len(poly) - 1 - power) for power, value in enumerate(poly))


def _value_in_steps(scaled: tuple[int, ...], x: int) -> int:
    total = 0
    for value in reversed(scaled):
        total = total * x + value
    return total


@lru_cache(maxsize=512)
def real_roots(poly: Dense) -> tuple[Spot, ...]:
    """Return the real roots from left to right, each once, in bounds that do not touch."""
    free = square_free(poly)
    if len(free) <= 1:
        return ()
    if len(free) == 2:
        root = -free[0] / free[1]
        return (Spot(root, root, free),)
    bound = 1 + max(abs(value / free[-1]) for value in free[:-1])
    chain = _sturm(free)
    found: list[Spot] = []
    _isolate(free, chain, -bound, bound, found)
    return tuple(found)


def _isolate(free: Dense, chain: list[Dense], low: Fraction, high: Fraction, found: list[Spot]) -> None:
    """Add the roots in (low, high); neither end is a root."""
    count = _changes(chain, low) - _changes(chain, high)
    if count == 0:
        return
    if count == 1:
        found.append(_rational_if_so(Spot(low, high, free)))
        return
    middle = (low + high) / 2
    if not at(free, middle):
        gap = (high - low) / 4
        while not (at(free, middle - gap) and at(free, middle + gap)) or (
            _changes(chain, middle - gap) - _changes(chain, middle + gap) != 1
        ):
            gap /= 2
        _isolate(free, chain, low, middle - gap, found)
        found.append(Spot(middle, middle, free))
        _isolate(free, chain, middle + gap, high, found)
        return
    _isolate(free, chain, low, middle, found)
    _isolate(free, chain, middle, high, found)


def _rational_if_so(spot: Spot) -> Spot:
    """Say a rational root as the number it is (its bottom divides the leading coefficient)."""
    scale = math.lcm(*(value.denominator for value in spot.poly))
    lead = abs(int(spot.poly[-1] * scale))
    width = Fraction(1, 4 * lead * lead)
    if len(spot.poly) == 3:
        spot = _of_quadratic(spot, width)
    spot = spot.closer(width)
    if spot.low == spot.high:
        return spot
    nearest = ((spot.low + spot.high) / 2).limit_denominator(max(lead, 1))
    if spot.low < nearest < spot.high and not at(spot.poly, nearest):
        return Spot(nearest, nearest, spot.poly)
    return spot


def _of_quadratic(spot: Spot, width: Fraction) -> Spot:
    """Return the root of a quadratic, exactly or between bounds closer than ``width``, by its formula."""
    c, b, a = spot.poly
    inside, twice = b * b - 4 * a * c, 2 * abs(a)
    middle = -b / (2 * a)
    steps = math.ceil(1 / (width * twice)) + 1
    whole = math.isqrt(inside.numerator * steps * steps // inside.denominator)
    near, far = Fraction(whole, steps) / twice, Fraction(whole + 1, steps) / twice
    if near * near * twice * twice == inside:
        far = near
    for low, high in ((middle - far, middle - near), (middle + near, middle + far)):
        if spot.low < low and high < spot.high:
            return Spot(low, high, spot.poly)
    return spot


def sign_at(poly: Dense, spot: Spot) -> int:
    """Return the exact sign of a polynomial at a root of another."""
    if spot.low == spot.high:
        value = at(poly, spot.low)
        return (value > 0) - (value < 0)
    shared = common(poly, spot.poly) if poly else ()
    if not poly or (len(shared) > 1 and at(shared, spot.low) * at(shared, spot.high) < 0):
        return 0
    chain = _sturm(square_free(poly)) if len(poly) > 1 else [poly]
    while spot.low != spot.high:
        ends = at(poly, spot.low), at(poly, spot.high)
        if ends[0] and ends[1] and _changes(chain, spot.low) == _changes(chain, spot.high):
            return 1 if ends[0] > 0 else -1
        spot = spot.narrowed()
    return sign_at(poly, spot)
