"""Units, dimensions and pi: exact sizes against published tables, and the ways people write a unit."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutor.quantity.dimension import (
    ANGLE,
    AREA,
    COUNT,
    LENGTH,
    MASS,
    MONEY,
    TIME,
    VOLUME,
    Dimension,
)
from tutor.quantity.pi import SHOWN_FOR_PI, Pi
from tutor.quantity.units import BY_WORD, Unit, base_unit, counted, read_unit, simple

HANDBOOK_44 = "NIST Handbook 44, Appendix C, General Tables of Units of Measurement"
CFR = "16 CFR 500.19, conversion factors"
SI_PREFIXES = "SI prefixes and the litre (NIST SP 811, sections 4.4 and 5.1)"
# Recalled, not looked up: the pound of the Handbook and its sixteenth.
FROM_MEMORY = "international avoirdupois pound of 1959, from memory"

# 1 of the first unit is so many of the second: (first, number, second, source).
EXACT_SIZES = [
    ("in", "2.54", "cm", HANDBOOK_44),
    ("ft", "0.3048", "m", HANDBOOK_44),
    ("ft", "12", "in", HANDBOOK_44),
    ("yd", "0.9144", "m", HANDBOOK_44),
    ("yd", "3", "ft", HANDBOOK_44),
    ("mi", "5280", "ft", HANDBOOK_44),
    ("mi", "1609.344", "m", HANDBOOK_44),
    ("in^2", "6.4516", "cm^2", HANDBOOK_44),
    ("ft^2", "144", "in^2", HANDBOOK_44),
    ("ft^2", "0.09290304", "m^2", HANDBOOK_44),
    ("yd^2", "9", "ft^2", HANDBOOK_44),
    ("yd^2", "0.83612736", "m^2", HANDBOOK_44),
    ("mi^2", "640", "acre", HANDBOOK_44),
    ("acre", "43560", "ft^2", HANDBOOK_44),
    ("acre", "4046.8564224", "m^2", HANDBOOK_44),
    ("ha", "10000", "m^2", HANDBOOK_44),
    ("km^2", "1000000", "m^2", HANDBOOK_44),
    ("m^2", "10000", "cm^2", HANDBOOK_44),
    ("in^3", "16.387064", "cm^3", HANDBOOK_44),
    ("ft^3", "1728", "in^3", HANDBOOK_44),
    ("yd^3", "27", "ft^3", HANDBOOK_44),
    ("gal", "231", "in^3", HANDBOOK_44),
    ("gal", "3.785411784", "L", CFR),
    ("gal", "4", "qt", HANDBOOK_44),
    ("gal", "8", "pt", HANDBOOK_44),
    ("gal", "16", "cup", "half a liquid pint, from memory"),
    ("L", "1000", "cm^3", HANDBOOK_44),
    ("mL", "1", "cm^3", HANDBOOK_44),
    ("km", "1000", "m", SI_PREFIXES),
    ("m", "10", "dm", SI_PREFIXES),
    ("m", "100", "cm", SI_PREFIXES),
    ("m", "1000", "mm", SI_PREFIXES),
    ("kg", "1000", "g", SI_PREFIXES),
    ("lb", "453.59237", "g", FROM_MEMORY),
    ("lb", "16", "oz", FROM_MEMORY),
    ("ton", "2000", "lb", "the short ton of the United States, from memory"),
    ("h", "60", "min", "common practice, no source"),
    ("min", "60", "s", "common practice, no source"),
    ("day", "24", "h", "common practice, no source"),
    ("week", "7", "day", "common practice, no source"),
    ("$", "100", "¢", "common practice, no source"),
    ("N", "1", "kg·m/s^2", "SI derived units, from memory"),
    ("J", "1", "N·m", "SI derived units, from memory"),
]


def _unit(text: str) -> Unit:
    unit = read_unit(text)
    assert unit is not None, text
    return unit


@pytest.mark.parametrize(
    ("one", "number", "of", "source"), EXACT_SIZES, ids=[f"{one}-{of}" for one, _, of, _ in EXACT_SIZES]
)
def test_a_unit_has_exactly_the_published_size(one: str, number: str, of: str, source: str) -> None:
    assert _unit(one).factor == Fraction(number) * _unit(of).factor, source
    assert _unit(one).dimension == _unit(of).dimension, source


def test_a_cubic_foot_is_576_77ths_of_a_gallon() -> None:
    # Follows from 1 ft³ = 1,728 in³ and 1 gal = 231 in³ (NIST Handbook 44, Appendix C).
    assert _unit("ft^3").factor / _unit("gal").factor == Fraction(576, 77)


# Customary squares and cubes are written both ways (NIST Handbook 44, Appendix C).
SAME_UNIT = [
    (
        "ft²",
        [
            "ft^2",
            "ft ^ 2",
            "sq ft",
            "sq. ft",
            "sq. ft.",
            "square foot",
            "square feet",
            "Square Feet",
            "ft.^2",
        ],
    ),
    ("in³", ["in^3", "in.³", "cu in", "cu. in.", "cubic inch", "cubic inches"]),
    ("in", ["in", "in.", "inch", "inches", " in "]),
    ("cm", ["cm", "CM", "centimetre", "centimetres", "centimeter", "centimeters"]),
    ("cm²", ["cm²", "cm^2", "sq cm", "square centimetres", "cm·cm", "cm cm", "cm*cm"]),
    ("°", ["°", "deg", "degs", "degree", "degrees"]),
    ("km/h", ["km/h", "km / h", "kilometres/hour"]),
    ("mL", ["mL", "ml", "millilitres", "milliliters"]),
    ("$", ["$", "dollar", "dollars"]),
    ("m³", ["m^3", "m³", "cubic metres", "m·m·m", "m²·m"]),
]


@pytest.mark.parametrize(
    ("shown", "written"), [(shown, written) for shown, ways in SAME_UNIT for written in ways]
)
def test_every_way_of_writing_a_unit_is_one_unit(shown: str, written: str) -> None:
    unit = _unit(written)
    assert str(unit) == shown
    assert (unit.dimension, unit.factor) == (_unit(shown).dimension, _unit(shown).factor)


@pytest.mark.parametrize(
    "written", ["", " ", "/", "cm/", "lantern", "cm lantern", "cm/lantern", "3", "cm 3", "cm^x", "[/]", "x"]
)
def test_what_is_no_unit_is_not_read_as_one(written: str) -> None:
    assert read_unit(written) is None


@given(st.text(max_size=40))
def test_any_text_is_answered_with_a_unit_or_nothing(text: str) -> None:
    unit = read_unit(text)
    assert unit is None or (
        unit.factor > 0 and bool(unit.parts) and base_unit(unit.parts[0][0].symbol) is not None
    )


@given(st.sampled_from(sorted(BY_WORD)), st.integers(1, 3))
def test_a_unit_that_is_shown_reads_as_itself(word: str, power: int) -> None:
    unit = simple(BY_WORD[word], power)
    again = read_unit(str(unit))
    assert again == unit


@given(st.sampled_from(sorted(BY_WORD)), st.sampled_from(sorted(BY_WORD)))
def test_sizes_and_dimensions_multiply_with_the_units(one: str, other: str) -> None:
    left, right = simple(BY_WORD[one]), simple(BY_WORD[other])
    both = left.times(right)
    assert both.factor == left.factor * right.factor
    assert both.dimension == left.dimension * right.dimension
    assert left.times(left.power(-1)).parts == ()
    assert left.power(3).factor == left.factor**3


@pytest.mark.parametrize(
    ("written", "dimension", "word"),
    [
        ("cm", LENGTH, "a length"),
        ("square feet", AREA, "an area"),
        ("acres", AREA, "an area"),
        ("cm^3", VOLUME, "a volume"),
        ("L", VOLUME, "a volume"),
        ("°", ANGLE, "an angle"),
        ("h", TIME, "a time"),
        ("kg", MASS, "a mass"),
        ("€", MONEY, "an amount of money"),
        ("km/h", Dimension(length=1, time=-1), "a measure"),
        ("cm·cm", AREA, "an area"),
        ("m^2/m", LENGTH, "a length"),
    ],
)
def test_a_dimension_is_called_what_a_student_calls_it(written: str, dimension: Dimension, word: str) -> None:
    assert _unit(written).dimension == dimension
    assert _unit(written).dimension.word == word


def test_counted_things_are_plain_numbers() -> None:
    assert counted("lanterns").dimension == COUNT
    assert counted("lanterns").factor == 1
    assert counted("lanterns").dimension.word == "a plain number"
    assert str(counted("lanterns")) == "lanterns"


def test_the_pi_of_a_lesson_is_used_exactly() -> None:
    assert Pi("exact").value_used is None
    assert Pi("3.14").value_used == Fraction(157, 50)
    assert Pi("22/7").value_used == Fraction(22, 7)


# π to 20 decimals (OEIS A000796, from memory).
PI_DIGITS = Fraction("3.14159265358979323846")


def test_each_number_taken_for_pi_is_pi_correctly_rounded_or_22_7() -> None:
    assert Fraction(22, 7) in SHOWN_FOR_PI
    for shown in set(SHOWN_FOR_PI) - {Fraction(22, 7)}:
        places = next(n for n in range(20) if (shown * 10**n).denominator == 1)
        assert round(PI_DIGITS * 10**places) == shown * 10**places


@pytest.mark.parametrize(
    ("pi", "percent"),
    [(Pi.DECIMAL, "-0.0506957"), (Pi.FRACTION, "0.0402499")],
)
def test_how_far_a_school_pi_is_off(pi: Pi, percent: str) -> None:
    # Computed beforehand with 50 digits: 3.14 is -0.0506957 % off, 22/7 is +0.0402499 % off.
    used = pi.value_used
    assert used is not None
    assert abs((used / PI_DIGITS - 1) * 100 - Fraction(percent)) < Fraction(1, 10**7)
