"""Exact sums of products: what a side of a line means.

A monomial is a product of powers of atoms. An atom is a name of the problem, π, or the
root of a prime (``#2`` to the power 1/2 is √2). Roots of distinct square-free numbers are
linearly independent over the rationals (Besicovitch 1940, from memory), and π is
transcendental, so two constants are equal exactly when their terms are.
"""

from collections.abc import Iterable, Mapping
from fractions import Fraction

from tutor.line.mono import (
    MAX_BITS,
    MAX_TERMS,
    PI_ATOM,
    ROOT_MARK,
    DividedByZero,
    Mono,
    NoRealRoot,
    NotExact,
    Number,
    checked,
    is_name,
    joined,
    prime_powers,
    small,
    times,
)

__all__ = [
    "MAX_BITS",
    "MAX_TERMS",
    "ONE",
    "PI_ATOM",
    "ROOT_MARK",
    "ZERO",
    "DividedByZero",
    "Mono",
    "NoRealRoot",
    "NotExact",
    "Number",
    "Poly",
    "Ratio",
    "is_name",
    "number_in",
    "prime_powers",
    "reduced",
    "root_of_rational",
    "small",
    "total",
]


class Poly:
    """A sum of monomials with rational coefficients. Never changed once it is made."""

    __slots__ = ("_hash", "_names", "terms")

    def __init__(self, terms: dict[Mono, Number]) -> None:
        self.terms = terms
        self._hash: int | None = None
        self._names: frozenset[str] | None = None

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
        return Poly({mono: checked(small(value)) for mono, value in terms.items() if value})

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
        return Poly(joined(self.terms, other.terms, 1))

    def __sub__(self, other: "Poly") -> "Poly":
        return Poly(joined(self.terms, other.terms, -1))

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
                mono, factor = times(left, right)
                value = made.get(mono, 0) + a * b * factor
                if value:
                    made[mono] = checked(small(value))
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
        return Poly({mono: checked(small(value * factor)) for mono, value in self.terms.items()})

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
        if self._names is None:
            self._names = frozenset([atom for mono in self.terms for atom, _ in mono if is_name(atom)])
        return self._names

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


ZERO = Poly({})
ONE = Poly.number(1)


class Ratio:
    """A quotient of two sums. ``below`` is never zero; 1 wherever that can be had."""

    __slots__ = ("above", "below")

    def __init__(self, above: Poly, below: Poly = ONE) -> None:
        self.above = above
        self.below = below

    def __add__(self, other: "Ratio") -> "Ratio":
        if self.below is other.below or self.below == other.below:
            return Ratio(self.above + other.above, self.below)
        return Ratio(self.above * other.below + other.above * self.below, self.below * other.below)

    def __sub__(self, other: "Ratio") -> "Ratio":
        if self.below is other.below or self.below == other.below:
            return Ratio(self.above - other.above, self.below)
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
        if self.below is other.below:
            return self.above.terms == other.above.terms
        if self.below == other.below:
            return self.above == other.above
        return self.above * other.below == other.above * self.below

    def names(self) -> frozenset[str]:
        """Return the names that occur."""
        return self.above.names() if self.below is ONE else self.above.names() | self.below.names()

    def constant(self) -> Poly | None:
        """Return the value if no name occurs and nothing is left below."""
        return self.above if self.below == ONE and not self.above.names() else None


def number_in(value: Ratio) -> Number | None:
    """Return a value if it is a rational number."""
    return value.above.rational() if value.below is ONE or value.below == ONE else None


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
