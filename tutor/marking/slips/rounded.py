"""Whether a typed decimal is a wrong value, rounded."""

from fractions import Fraction

from tutor.line.poly import ONE, Poly, Ratio
from tutor.line.real import approximate
from tutor.line.tree import Expr, Measure, Neg, Num
from tutor.marking.deciding.rounding import rounds_to


def decimal_in(expr: Expr) -> tuple[Fraction, int] | None:
    """Return a decimal that stands alone on a side, and how many places it shows."""
    match expr:
        case Num(value, places=places) if places:
            return value, places
        case Measure(inner, _):
            return decimal_in(inner)
        case Neg(inner):
            found = decimal_in(inner)
            return None if found is None else (-found[0], found[1])
        case _:
            return None


def gives_rounded(value: Ratio, typed: Expr) -> bool:
    """Tell whether ``typed`` is a decimal and ``value``, a constant that goes on, rounds to it."""
    shown = decimal_in(typed)
    if shown is None or value.below != ONE or value.above.names():
        return False
    return rounds_near(value.above, *shown)


def rounds_near(value: Poly, shown: Fraction, places: int) -> bool:
    """Tell whether a constant rounds to a decimal of so many places; ``value`` may hold π and roots."""
    about = approximate(value)
    return about != shown and rounds_to(about, shown, places)


def root_near(square: Poly, shown: Fraction, places: int) -> bool:
    """Tell whether a decimal is the rounded root of a rational number."""
    value = square.rational()
    half = Fraction(1, 2 * 10**places)
    return value is not None and shown > half and (shown - half) ** 2 <= value <= (shown + half) ** 2
