"""The real roots of polynomials in one unknown: the number itself, or bounds round it."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from tutor.line.univariate import Dense, at, product, real_roots

NUMBERS = st.fractions(-50, 50, max_denominator=40)
LEADING = NUMBERS.filter(bool)


def _with_roots(leading: Fraction, *roots: Fraction) -> Dense:
    poly: Dense = (leading,)
    for root in roots:
        poly = product(poly, (-root, Fraction(1)))
    return poly


@given(LEADING, st.lists(NUMBERS, min_size=1, max_size=3))
def test_a_rational_root_is_the_number_itself(leading: Fraction, roots: list[Fraction]) -> None:
    found = real_roots(_with_roots(leading, *roots))
    assert [spot.exact for spot in found] == sorted(set(roots))


@given(LEADING, NUMBERS, st.fractions(0, 50, max_denominator=40).filter(bool))
def test_a_quadratic_has_its_two_roots_between_bounds_that_do_not_touch(
    leading: Fraction, middle: Fraction, inside: Fraction
) -> None:
    poly = tuple(leading * value for value in (middle * middle - inside, -2 * middle, Fraction(1)))
    left, right = real_roots(poly)
    assert left.low <= left.high < middle < right.low <= right.high
    for spot in (left, right):
        if spot.exact is not None:
            assert at(poly, spot.exact) == 0
        else:
            assert at(poly, spot.low) * at(poly, spot.high) < 0
            assert spot.high - spot.low <= Fraction(1, 4)


@given(LEADING, NUMBERS, st.fractions(0, 50, max_denominator=40).filter(bool))
def test_a_quadratic_that_stays_away_from_zero_has_none(
    leading: Fraction, middle: Fraction, above: Fraction
) -> None:
    poly = tuple(leading * value for value in (middle * middle + above, -2 * middle, Fraction(1)))
    assert real_roots(poly) == ()


@given(LEADING, st.lists(NUMBERS, min_size=3, max_size=4), st.integers(0, 60))
def test_bounds_come_closer_round_the_same_root(
    leading: Fraction, values: list[Fraction], places: int
) -> None:
    width = Fraction(1, 2**places)
    poly = (*values, leading)
    for spot in real_roots(poly):
        found = spot.closer(width)
        if spot.exact is not None or found.exact is not None:
            assert found.exact is not None and at(found.poly, found.exact) == 0
            assert spot.low <= found.exact <= spot.high
        else:
            assert spot.low <= found.low < found.high <= spot.high
            assert found.high - found.low <= width
            assert at(found.poly, found.low) * at(found.poly, found.high) < 0
