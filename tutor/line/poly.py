"""Exact sums of products: what a side of a line means.

A monomial is a product of powers of atoms. An atom is a name of the problem, π, or the
root of a prime (``#2`` to the power 1/2 is √2). Roots of distinct square-free numbers are
linearly independent over the rationals (Besicovitch 1940, from memory), and π is
transcendental, so two constants are equal exactly when their terms are.
"""

from collections.abc import Iterable, Mapping
from fractions import Fraction
from functools import lru_cache
from typing import TypeAlias

Number: TypeAlias = Fraction | int
Mono: TypeAlias = tuple[tuple[str, Number], ...]

PI_ATOM = "π"
ROOT_MARK = "#"

MAX_TERMS = 400
MAX_BITS = 4096


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


def _checked(value: Number) -> Number:
    if type(value) is int:
        if value.bit_length() > MAX_BITS:
            raise NotExact("number too big")
    elif value.numerator.bit_length() + value.denominator.bit_length() > MAX_BITS:
        raise NotExact("number too big")
    return value


def is_name(atom: str) -> bool:
    """Tell whether an atom is a name of the problem (not π, not a root of a prime)."""
    return atom != PI_ATOM and atom[0] != ROOT_MARK


class Poly:
    """A sum of monomials with rational coefficients. Never changed once it is made."""

    __slots__ = ("_hash", "terms")

    def __init__(self, terms: dict[Mono, Number]) -> None:
        self.terms = terms
        self._hash: int | None = None

    # -- making ------------------------------------------------------------------------

    @staticmethod
    def number(value: Number) -> "Poly":
        """Return a constant."""
        return Poly({(): small(value)}) if value else Poly({})

    @staticmethod
    def atom(atom: str, power: Number = 1) -> "Poly":
        """Return one atom."""
        return Poly({((atom, power),): 1})

    @staticmethod
    def of(terms: Mapping[Mono, Number]) -> "Poly":
        """Return a sum of terms that may be zero, or fractions that are whole."""
        return Poly({mono: _checked(small(value)) for mono, value in terms.items() if value})

    # -- comparing ---------------------------------------------------------------------

    def __eq__(self, other: object) -> bool:
        return self is other or (isinstance(other, Poly) and self.terms == other.terms)

    def __hash__(self) -> int:
        if self._hash is None:
            self._hash = hash(frozenset(self.terms.items()))
        return self._hash

    def __bool__(self) -> bool:
        return bool(self.terms)

    def __repr__(self) -> str:
        return f"Poly({self.terms!r})"

    # -- arithmetic --------------------------------------------------------------------

    def __add__(self, other: "Poly") -> "Poly":
        return _joined(self.terms, other.terms, 1)

    def __sub__(self, other: "Poly") -> "Poly":
        return _joined(self.terms, other.terms, -1)

    def __neg__(self) -> "Poly":
        return Poly({mono: -value for mono, value in self.terms.items()})

    def __mul__(self, other: "Poly") -> "Poly":
        if len(self.terms) == 1 and () in self.terms:
            return other.scaled(self.terms[()])
        if len(other.terms) == 1 and () in other.terms:
            return self.scaled(other.terms[()])
        if len(self.terms) * len(other.terms) > MAX_TERMS * 4:
            raise NotExact("too many terms")
        made: dict[Mono, Number] = {}
        for left, a in self.terms.items():
            for right, b in other.terms.items():
                mono, factor = _times(left, right)
                value = made.get(mono, 0) + a * b * factor
                if value:
                    made[mono] = _checked(small(value))
                else:
                    made.pop(mono, None)
        if len(made) > MAX_TERMS:
            raise NotExact("too many terms")
        return Poly(made)

    def scaled(self, factor: Number) -> "Poly":
        """Return this times a rational number."""
        if factor == 1:
            return self
        if not factor:
            return Poly({})
        return Poly({mono: _checked(small(value * factor)) for mono, value in self.terms.items()})

    def power(self, exponent: int) -> "Poly":
        """Return this multiplied by itself; ``exponent`` from 0 up."""
        if exponent > 1 and ((len(self.terms) > 1 and exponent > 40) or exponent > 4096):
            raise NotExact("power too big")
        result, base = Poly.number(1), self
        while exponent:
            if exponent & 1:
                result = result * base
            exponent >>= 1
            if exponent:
                base = base * base
        return result

    # -- looking inside ----------------------------------------------------------------

    def names(self) -> frozenset[str]:
        """Return the names of the problem that occur."""
        return frozenset(atom for mono in self.terms for atom, _ in mono if is_name(atom))

    def rational(self) -> Number | None:
        """Return the value if this is a rational number."""
        if not self.terms:
            return 0
        if len(self.terms) == 1 and () in self.terms:
            return self.terms[()]
        return None

    def by_power(self, name: str) -> dict[int, "Poly"]:
        """Return the coefficients of the powers of a name."""
        made: dict[int, dict[Mono, Number]] = {}
        for mono, value in self.terms.items():
            power: Number = 0
            rest: Mono = mono
            for at, (atom, exponent) in enumerate(mono):
                if atom == name:
                    power = exponent
                    rest = mono[:at] + mono[at + 1 :]
                    break
            if not isinstance(power, int):
                raise NotExact("a name under a root")
            made.setdefault(power, {})[rest] = value
        return {power: Poly(terms) for power, terms in made.items()}

    def inverse(self) -> "Poly | None":
        """Return one over this where this is a single constant monomial, else None."""
        if len(self.terms) != 1:
            return None
        ((mono, value),) = self.terms.items()
        if any(is_name(atom) for atom, _ in mono):
            return None
        result = Poly.number(Fraction(1) / value)
        for atom, power in mono:
            if atom == PI_ATOM:
                result = result * Poly.atom(atom, -power)
            else:
                prime = int(atom[1:])
                result = (result * Poly.atom(atom, 1 - power)).scaled(Fraction(1, prime))
        return result


def _joined(left: Mapping[Mono, Number], right: Mapping[Mono, Number], sign: int) -> Poly:
    made = dict(left)
    for mono, value in right.items():
        total = made.get(mono, 0) + sign * value
        if total:
            made[mono] = _checked(small(total))
        else:
            made.pop(mono, None)
    if len(made) > MAX_TERMS:
        raise NotExact("too many terms")
    return Poly(made)


def _times(left: Mono, right: Mono) -> tuple[Mono, Number]:
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


ZERO = Poly({})
ONE = Poly.number(1)


class Ratio:
    """A quotient of two sums. ``below`` is never zero; 1 wherever that can be had."""

    __slots__ = ("above", "below")

    def __init__(self, above: Poly, below: Poly = ONE) -> None:
        self.above = above
        self.below = below

    def __add__(self, other: "Ratio") -> "Ratio":
        if self.below == other.below:
            return Ratio(self.above + other.above, self.below)
        return Ratio(self.above * other.below + other.above * self.below, self.below * other.below)

    def __sub__(self, other: "Ratio") -> "Ratio":
        return self + Ratio(-other.above, other.below)

    def __mul__(self, other: "Ratio") -> "Ratio":
        if self.below is ONE and other.below is ONE:
            return Ratio(self.above * other.above)
        return reduced(self.above * other.above, self.below * other.below)

    def over(self, other: "Ratio") -> "Ratio":
        """Return the quotient; raises ``DividedByZero``."""
        if not other.above:
            raise DividedByZero
        number = other.above.rational() if self.below is ONE and other.below is ONE else None
        if number is not None:
            return Ratio(self.above.scaled(Fraction(1) / number))
        return reduced(self.above * other.below, self.below * other.above)

    def same(self, other: "Ratio") -> bool:
        """Tell whether both have the same value wherever both have one."""
        if self.below == other.below:
            return self.above == other.above
        return self.above * other.below == other.above * self.below

    def names(self) -> frozenset[str]:
        """Return the names that occur."""
        return self.above.names() | self.below.names()

    def constant(self) -> Poly | None:
        """Return the value if no name occurs and nothing is left below."""
        return self.above if self.below == ONE and not self.above.names() else None


def reduced(above: Poly, below: Poly) -> Ratio:
    """Return above/below, with a constant below divided in."""
    if below == ONE:
        return Ratio(above)
    inverse = below.inverse()
    if inverse is not None:
        return Ratio(above * inverse)
    if len(below.terms) == 1:
        return _cancelled(above, below)
    return Ratio(above, below)


def _cancelled(above: Poly, below: Poly) -> Ratio:
    """Take out the names that every term above shares with the single term below."""
    ((mono, value),) = below.terms.items()
    shared: dict[str, Number] = {}
    for atom, power in mono:
        if is_name(atom) and above.terms:
            least = min(dict(term).get(atom, 0) for term in above.terms)
            take = min(power, least)
            if take > 0:
                shared[atom] = take
    if not shared:
        return Ratio(above, below)
    lowered = Poly({_without(term, shared): coefficient for term, coefficient in above.terms.items()})
    return reduced(lowered, Poly({_without(mono, shared): value}))


def _without(mono: Mono, shared: Mapping[str, Number]) -> Mono:
    kept = ((atom, small(power - shared.get(atom, 0))) for atom, power in mono)
    return tuple((atom, power) for atom, power in kept if power)


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


def root_of_rational(value: Number, index: int) -> Poly | None:
    """Return the exact real root of a rational number, None where there is no real one."""
    fraction = Fraction(value)
    if fraction == 0:
        return ZERO
    if fraction < 0:
        if index % 2 == 0:
            return None
        positive = root_of_rational(-fraction, index)
        return None if positive is None else -positive
    result = ONE
    for number, sign in ((fraction.numerator, 1), (fraction.denominator, -1)):
        for prime, count in prime_powers(number):
            exponent = Fraction(sign * count, index)
            whole = exponent.numerator // exponent.denominator
            result = result.scaled(Fraction(prime) ** whole)
            part = exponent - whole
            if part:
                result = result * Poly.atom(f"{ROOT_MARK}{prime}", part)
    return result


def total(parts: Iterable[Ratio]) -> Ratio:
    """Return the sum of some quotients."""
    result = Ratio(ZERO)
    for part in parts:
        result = result + part
    return result
