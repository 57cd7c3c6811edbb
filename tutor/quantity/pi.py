"""The values of pi that school work uses."""

from enum import Enum
from fractions import Fraction
from typing import assert_never


class Pi(Enum):
    """Which pi a problem is worked with."""

    EXACT = "exact"
    DECIMAL = "3.14"
    FRACTION = "22/7"

    @property
    def value_used(self) -> Fraction | None:
        """Return the rational number used, or None where pi stays exact."""
        match self:
            case Pi.EXACT:
                return None
            case Pi.DECIMAL:
                return Fraction(314, 100)
            case Pi.FRACTION:
                return Fraction(22, 7)
            case _:
                assert_never(self)


# What a line may show in the place of pi and be taken to mean pi.
SHOWN_FOR_PI = (
    Fraction(314, 100),
    Fraction(22, 7),
    Fraction("3.1416"),
    Fraction("3.142"),
    Fraction("3.14159"),
    Fraction("3.141592654"),
)
