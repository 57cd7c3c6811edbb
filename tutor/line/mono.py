"""The terms of exact sums: monomials, their coefficients, and the bounds on both.

A monomial is a product of powers of atoms, a coefficient a rational number. Sizes are bounded
here, in the one place where terms are joined.
"""

from collections.abc import Mapping
from fractions import Fraction
from functools import lru_cache
from typing import TypeAlias

Number: TypeAlias = Fraction | int
Mono: TypeAlias = tuple[tuple[str, Number], ...]

PI_ATOM = "π"
ROOT_MARK = "#"

MAX_TERMS = 400
MAX_BITS = 4096
_SMALL = 1 << 64


class NotExact(Exception):
    """A side that this arithmetic cannot hold: too big, or of a kind it does not know."""


class NoRealRoot(NotExact):
    """An even root of a negative number: no real number is meant."""


class DividedByZero(Exception):
    """A division by zero, or 0 to the power 0."""


def small(value: Number) -> Number:
    """Return a whole fraction as an int (which is many times faster)."""
    if type(value) is int:
        return value
    return value.numerator if value.denominator == 1 else value


def checked(value: Number) -> Number:
    """Return a number that is not too big; raises ``NotExact``."""
    if type(value) is int:
        if value.bit_length() > MAX_BITS:
            raise NotExact("number too big")
    elif value.numerator.bit_length() + value.denominator.bit_length() > MAX_BITS:
        raise NotExact("number too big")
    return value


def is_name(atom: str) -> bool:
    """Tell whether an atom is a name of the problem (not π, not a root of a prime)."""
    return atom != PI_ATOM and atom[0] != ROOT_MARK


def joined(left: Mapping[Mono, Number], right: Mapping[Mono, Number], sign: int) -> dict[Mono, Number]:
    """Return the terms of a sum, or of a difference (``sign`` −1); raises ``NotExact`` for too many."""
    made = dict(left)
    for mono, value in right.items():
        total = made.get(mono, 0) + sign * value
        if total:
            # Nearly all numbers are small whole ones: they need no look.
            plain = type(total) is int and -_SMALL < total < _SMALL
            made[mono] = total if plain else checked(small(total))
        else:
            made.pop(mono, None)
    if len(made) > MAX_TERMS:
        raise NotExact("too many terms")
    return made


def times(left: Mono, right: Mono) -> tuple[Mono, Number]:
    """Return the product of two monomials and the rational that came out of roots."""
    if not left:
        return right, 1
    if not right:
        return left, 1
    powers = dict(left)
    factor: Number = 1
    for atom, power in right:
        total = small(powers.get(atom, 0) + power)
        if atom[0] == ROOT_MARK and total >= 1:
            factor *= int(atom[1:])
            total = small(total - 1)
        if total:
            powers[atom] = total
        else:
            powers.pop(atom, None)
    return tuple(sorted(powers.items())), factor


@lru_cache(maxsize=256)
def prime_powers(number: int) -> tuple[tuple[int, int], ...]:
    """Return the prime factors of a whole number above 0; raises ``NotExact`` past a bound."""
    found: list[tuple[int, int]] = []
    rest, prime = number, 2
    while prime * prime <= rest:
        count = 0
        while rest % prime == 0:
            rest //= prime
            count += 1
        if count:
            found.append((prime, count))
        prime += 1 if prime == 2 else 2
        if prime > 20000:
            raise NotExact("factors too big")
    if rest > 1:
        found.append((rest, 1))
    return tuple(found)
