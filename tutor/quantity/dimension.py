"""Dimensions: what a number with a unit measures."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Dimension:
    """Exponents of the base quantities: an area has ``length`` 2.

    Counted things have no dimension: 47 students is the number 47.
    """

    length: int = 0
    angle: int = 0
    time: int = 0
    mass: int = 0
    money: int = 0

    def __mul__(self, other: "Dimension") -> "Dimension":
        return Dimension(
            self.length + other.length,
            self.angle + other.angle,
            self.time + other.time,
            self.mass + other.mass,
            self.money + other.money,
        )

    def power(self, exponent: int) -> "Dimension":
        """Return the dimension of a quantity multiplied by itself ``exponent`` times."""
        return Dimension(
            self.length * exponent,
            self.angle * exponent,
            self.time * exponent,
            self.mass * exponent,
            self.money * exponent,
        )

    @property
    def word(self) -> str:
        """Return what a 12-year-old calls it: a length, an area, a volume …"""
        return _WORDS.get(self, "a measure")


COUNT = Dimension()
LENGTH = Dimension(length=1)
AREA = Dimension(length=2)
VOLUME = Dimension(length=3)
ANGLE = Dimension(angle=1)
TIME = Dimension(time=1)
MASS = Dimension(mass=1)
MONEY = Dimension(money=1)

_WORDS = {
    COUNT: "a plain number",
    LENGTH: "a length",
    AREA: "an area",
    VOLUME: "a volume",
    ANGLE: "an angle",
    TIME: "a time",
    MASS: "a mass",
    MONEY: "an amount of money",
}
