"""The size of an exact constant: to many digits, and its sign."""

from decimal import Context, Decimal
from fractions import Fraction

from tutor.line.poly import PI_ATOM, Number, Poly

DIGITS = 60
_CONTEXT = Context(prec=DIGITS + 15)

# π to 75 places: DLMF 3.12.1 and OEIS A000796 (from memory; compared with mpmath in the tests).
PI_DIGITS = Decimal("3.141592653589793238462643383279502884197169399375105820974944592307816406286")


def decimal_of(value: Number) -> Decimal:
    """Return a rational number as a decimal of many digits."""
    if isinstance(value, int):
        return Decimal(value)
    return _CONTEXT.divide(Decimal(value.numerator), Decimal(value.denominator))


def size(constant: Poly) -> Decimal:
    """Return the value of a constant (no names in it) to about 60 digits."""
    total = Decimal(0)
    for mono, coefficient in constant.terms.items():
        term = decimal_of(coefficient)
        for atom, power in mono:
            base = PI_DIGITS if atom == PI_ATOM else Decimal(atom[1:])
            term = _CONTEXT.multiply(term, _CONTEXT.power(base, decimal_of(power)))
        total = _CONTEXT.add(total, term)
    return total


def sign(constant: Poly) -> int:
    """Return -1, 0 or 1. Exact: a constant without terms is zero, any other is not."""
    rational = constant.rational()
    if rational is not None:
        return (rational > 0) - (rational < 0)
    value = size(constant)
    return (value > 0) - (value < 0)


def approximate(constant: Poly) -> Fraction:
    """Return a rational number within 10^-50 of a constant."""
    rational = constant.rational()
    return Fraction(rational) if rational is not None else Fraction(size(constant))
