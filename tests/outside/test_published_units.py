"""Sizes of units and of pi from published tables."""

from fractions import Fraction

import pytest

from tutor.marking.task import Task
from tutor.marking.verdict import Verdict
from tutor.marking.working import mark_lines
from tutor.quantity.units import read_unit

# -- units ---------------------------------------------------------------------------------

# NIST Handbook 44, Appendix C, and 16 CFR 500.19 (READ); all exact.
EXACT_SIZES = [
    ("1 in", "2.54 cm"),
    ("1 ft", "0.3048 m"),
    ("1 mi", "5280 ft"),
    ("1 mi", "1609.344 m"),
    ("1 in²", "6.4516 cm²"),
    ("1 ft²", "144 in²"),
    ("1 ft²", "0.09290304 m²"),
    ("1 yd²", "9 ft²"),
    ("1 mi²", "640 acres"),
    ("1 acre", "43560 ft²"),
    ("1 acre", "4046.8564224 m²"),
    ("1 ha", "10000 m²"),
    ("1 in³", "16.387064 cm³"),
    ("1 ft³", "1728 in³"),
    ("1 yd³", "27 ft³"),
    ("1 gal", "231 in³"),
    ("1 gal", "3.785411784 L"),
    ("1 L", "1000 cm³"),
    ("1 mL", "1 cm³"),
]


@pytest.mark.parametrize(("one", "other"), EXACT_SIZES)
def test_units_have_their_exact_sizes(one: str, other: str) -> None:
    work = mark_lines(Task(), [f"{one} = {other}"])
    assert work.lines[0].mark.verdict is Verdict.FOLLOWS
    number, unit = other.split()
    off = f"{float(number) * 1.25:.9g}"
    assert mark_lines(Task(), [f"{one} = {off} {unit}"]).lines[0].mark.verdict is Verdict.BREAKS


@pytest.mark.parametrize(
    "words",
    [("ft^2", "ft²"), ("sq ft", "square feet"), ("sq. ft", "square foot"), ("in", "inches"), ("in.", "inch")],
)
def test_other_writings_are_one_unit(words: tuple[str, str]) -> None:
    """NIST Handbook 44, Appendix C: squares are also written sq ft (READ)."""
    lines = [f"3 {words[0]} = 3 {words[1]}"]
    assert mark_lines(Task(), lines).lines[0].mark.verdict is Verdict.FOLLOWS


def test_the_inch_is_exact() -> None:
    """NIST Handbook 44, Appendix C: 1 in = 2.54 cm (READ)."""
    inch, centimetre = read_unit("in"), read_unit("cm")
    assert inch is not None and centimetre is not None
    assert inch.factor / centimetre.factor == Fraction(254, 100)


# The tutor's pi: what 3.14 and 22/7 are off (computed with 50 digits in the project's references).
@pytest.mark.parametrize(
    ("line", "right"),
    [
        ("π ≈ 3.14", True),
        ("π ≈ 3.1416", True),
        ("π ≈ 3.15", False),
        ("π > 3.14", True),
        ("π < 22/7", True),
        ("22/7 < 3.14", False),
    ],
)
def test_pi_lies_between_the_two_numbers_of_school(line: str, right: bool) -> None:
    assert mark_lines(Task(), [line]).lines[0].mark.verdict.stands is right
