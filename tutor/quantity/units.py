"""Units of measure: their names, dimensions and exact sizes.

Sizes are exact: NIST Handbook 44 Appendix C and 16 CFR 500.19 (1 in = 2.54 cm,
1 US gal = 231 in³, 1 mi = 5,280 ft, 1 acre = 43,560 ft²).
Bases: metre, degree of angle, second, gram, dollar, one counted thing.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from tutor.quantity.dimension import ANGLE, COUNT, LENGTH, MASS, MONEY, TIME, VOLUME, Dimension


@dataclass(frozen=True, slots=True)
class BaseUnit:
    """One named unit: ``factor`` is its size in the base unit of its dimension."""

    symbol: str
    dimension: Dimension
    factor: Fraction


@dataclass(frozen=True, slots=True)
class Unit:
    """A product of powers of named units, in the order they were written."""

    parts: tuple[tuple[BaseUnit, int], ...]

    @property
    def dimension(self) -> Dimension:
        """Return what the unit measures."""
        total = Dimension()
        for base, power in self.parts:
            total = total * base.dimension.power(power)
        return total

    @property
    def factor(self) -> Fraction:
        """Return the exact size in metres, degrees, seconds, grams and dollars."""
        size = Fraction(1)
        for base, power in self.parts:
            size *= base.factor**power
        return size

    def __str__(self) -> str:
        above = "·".join(_powered(base.symbol, power) for base, power in self.parts if power > 0)
        below = "·".join(_powered(base.symbol, -power) for base, power in self.parts if power < 0)
        return f"{above or '1'}/{below}" if below else above

    def power(self, exponent: int) -> "Unit":
        """Return this unit multiplied by itself ``exponent`` times."""
        return Unit(tuple((base, power * exponent) for base, power in self.parts))

    def times(self, other: "Unit") -> "Unit":
        """Return the product unit; like units are joined (cm · cm is cm²)."""
        powers: dict[BaseUnit, int] = {}
        for base, power in (*self.parts, *other.parts):
            powers[base] = powers.get(base, 0) + power
        return Unit(tuple((base, power) for base, power in powers.items() if power))


_SUPERSCRIPTS = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")


def _powered(symbol: str, power: int) -> str:
    return symbol if power == 1 else symbol + str(power).translate(_SUPERSCRIPTS)


def _rows() -> Iterable[tuple[str, Dimension, Fraction, str]]:
    inch = Fraction("0.0254")
    foot = 12 * inch
    gallon = 231 * inch**3
    yield "mm", LENGTH, Fraction(1, 1000), "mm millimetre millimetres millimeter millimeters mms"
    yield "cm", LENGTH, Fraction(1, 100), "cm centimetre centimetres centimeter centimeters cms"
    yield "dm", LENGTH, Fraction(1, 10), "dm decimetre decimetres decimeter decimeters"
    yield "m", LENGTH, Fraction(1), "m metre metres meter meters"
    yield "km", LENGTH, Fraction(1000), "km kilometre kilometres kilometer kilometers kms"
    yield "in", LENGTH, inch, "in inch inches"
    yield "ft", LENGTH, foot, "ft foot feet"
    yield "yd", LENGTH, 3 * foot, "yd yard yards yds"
    yield "mi", LENGTH, 5280 * foot, "mi mile miles"
    yield "acre", LENGTH.power(2), 43560 * foot**2, "acre acres"
    yield "ha", LENGTH.power(2), Fraction(10000), "ha hectare hectares"
    yield "L", VOLUME, Fraction(1, 1000), "L l litre litres liter liters"
    yield "mL", VOLUME, Fraction(1, 10**6), "mL ml millilitre millilitres milliliter milliliters mls"
    yield "cc", VOLUME, Fraction(1, 10**6), "cc ccm"
    yield "gal", VOLUME, gallon, "gal gallon gallons"
    yield "qt", VOLUME, gallon / 4, "qt quart quarts"
    yield "pt", VOLUME, gallon / 8, "pt pint pints"
    yield "cup", VOLUME, gallon / 16, "cup cups"
    yield "°", ANGLE, Fraction(1), "° deg degs degree degrees"
    yield "s", TIME, Fraction(1), "s sec secs second seconds"
    yield "min", TIME, Fraction(60), "min mins minute minutes"
    yield "h", TIME, Fraction(3600), "h hr hrs hour hours"
    yield "day", TIME, Fraction(86400), "day days"
    yield "week", TIME, Fraction(7 * 86400), "week weeks"
    yield "mg", MASS, Fraction(1, 1000), "mg milligram milligrams"
    yield "g", MASS, Fraction(1), "g gram grams"
    yield "kg", MASS, Fraction(1000), "kg kilogram kilograms kgs kilo kilos"
    yield "lb", MASS, Fraction("453.59237"), "lb lbs pound pounds"
    yield "ton", MASS, 2000 * Fraction("453.59237"), "ton tons"
    yield "oz", MASS, Fraction("28.349523125"), "oz ounce ounces"
    yield "$", MONEY, Fraction(1), "$ dollar dollars"
    yield "¢", MONEY, Fraction(1, 100), "¢ cent cents"
    yield "€", MONEY, Fraction(1), "€ euro euros"
    yield "£", MONEY, Fraction(1), "£"
    yield "₹", MONEY, Fraction(1), "₹ rupee rupees"
    yield "¥", MONEY, Fraction(1), "¥ yen yuan"
    force = MASS * LENGTH * TIME.power(-2)
    yield "N", force, Fraction(1000), "N newton newtons"
    yield "J", force * LENGTH, Fraction(1000), "J joule joules"
    yield "mph", LENGTH * TIME.power(-1), 5280 * foot / 3600, "mph"
    yield "units", LENGTH, Fraction(1), "unit units"


BY_WORD: dict[str, BaseUnit] = {
    word: BaseUnit(symbol, dimension, factor)
    for symbol, dimension, factor, words in _rows()
    for word in words.split()
}

SQUARE_WORDS = frozenset({"sq", "square", "sq."})
CUBE_WORDS = frozenset({"cu", "cubic", "cu."})


def base_unit(word: str) -> BaseUnit | None:
    """Return the unit that ``word`` names ("ft", "feet", "ft."), or None."""
    trimmed = word.removesuffix(".")
    found = BY_WORD.get(trimmed)
    if found is None and len(trimmed) > 1:
        found = BY_WORD.get(trimmed.lower())
    return found


def counted(word: str) -> Unit:
    """Return the unit of things that are counted: ``47 students``."""
    return Unit(((BaseUnit(word, COUNT, Fraction(1)), 1),))


def simple(base: BaseUnit, power: int = 1) -> Unit:
    """Return a unit of one part."""
    return Unit(((base, power),))


_PIECE = re.compile(r"([A-Za-zÀ-ÖØ-öø-ÿͰ-Ͽ]+\.?|[°$¢€£₹¥])\s*(?:\^\s*(-?\d)|([²³]))?")
_EXPONENTS = {"²": 2, "³": 3}

# Degrees of heat are counted: they have no size that could be turned into another unit.
_HEAT = {"°C": "°C", "℃": "°C", "°F": "°F", "℉": "°F"}


@lru_cache(maxsize=512)
def read_unit(text: str) -> Unit | None:
    """Read a unit as people write it: ``cm^2``, ``sq ft``, ``cubic inches``, ``km/h``.

    Returns None where a word is not a unit.
    """
    if text.strip() in _HEAT:
        return counted(_HEAT[text.strip()])
    above, stroke, below = text.strip().partition("/")
    top = _read_product(above)
    if top is None or not stroke:
        return top
    bottom = _read_product(below)
    return None if bottom is None else top.times(bottom.power(-1))


def _read_product(text: str) -> Unit | None:
    unit: Unit | None = None
    prefix = 1
    position = 0
    stripped = text.strip()
    while position < len(stripped):
        piece = _PIECE.match(stripped, position)
        if piece is None:
            return None
        position = piece.end()
        while position < len(stripped) and stripped[position] in " ·*-":
            position += 1
        word = piece[1]
        if word.lower() in SQUARE_WORDS | CUBE_WORDS:
            prefix = 2 if word.lower() in SQUARE_WORDS else 3
            continue
        base = base_unit(word)
        if base is None:
            return None
        power = int(piece[2]) if piece[2] else _EXPONENTS.get(piece[3] or "", prefix)
        prefix = 1
        read = simple(base, power)
        unit = read if unit is None else unit.times(read)
    return unit
