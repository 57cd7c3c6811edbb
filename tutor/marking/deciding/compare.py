"""Whether two claims about one unknown have the same solutions.

The real line is cut at every root of every sum in both claims; on each piece, and at each
root, no condition changes, so one sample decides. With rational coefficients this is exact;
with π or roots in them the cuts are known to 50 places, which no two different numbers of
school size share (stated, not proven).
"""

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from tutor.line.poly import NotExact, Poly
from tutor.line.real import approximate
from tutor.line.tree import Rel
from tutor.line.univariate import Dense, Spot, at, product, real_roots, sign_at, square_free, trimmed
from tutor.marking.deciding.claim import Claim, Condition, holds

MAX_DEGREE = 10
_CUT = Fraction(1, 10**30)
_ZERO = Fraction(1, 10**18)


class Overlap(Enum):
    """How the solutions of a line lie to those of another."""

    SAME = "same"
    FEWER = "fewer"
    MORE = "more"
    OTHER = "other"


@dataclass(frozen=True, slots=True)
class Axis:
    """The unknown that two claims are compared on; ``positive`` leaves out what is not above zero."""

    name: str
    positive: bool = False


def dense(poly: Poly, name: str) -> tuple[Dense, bool]:
    """Return the coefficients of a sum in one name, and whether they are exact."""
    by_power = poly.by_power(name)
    if by_power and max(by_power) > MAX_DEGREE:
        raise NotExact("degree too high")
    exact = True
    values = [Fraction(0)] * (max(by_power, default=-1) + 1)
    for power, coefficient in by_power.items():
        if coefficient.names():
            raise NotExact("another name")
        rational = coefficient.rational()
        exact = exact and rational is not None
        values[power] = Fraction(rational) if rational is not None else approximate(coefficient)
    return trimmed(values), exact


def compare(line: Claim, other: Claim, axis: Axis) -> Overlap:
    """Return how the solutions of ``line`` lie to those of ``other``; raises ``NotExact``.

    A name that is taken for positive, and for which ``other`` has no positive solution, is
    compared on all numbers: two lines are not the same because both are impossible.
    """
    told = _one_root_each(line, other, axis)
    if told is not None:
        return told
    polys: dict[Poly, Dense] = {}
    all_exact = True
    for claim in (line, other):
        for case in claim.cases:
            for part in case:
                if part.poly not in polys:
                    polys[part.poly], exact = dense(part.poly, axis.name)
                    all_exact = all_exact and exact
    more = fewer = some = False
    for sample in _samples(list(polys.values()), axis, all_exact):
        here = _true_at(line, polys, sample, all_exact)
        there = _true_at(other, polys, sample, all_exact)
        more = more or (here and not there)
        fewer = fewer or (there and not here)
        some = some or there
    if axis.positive and not some:
        return compare(line, other, Axis(axis.name))
    if more and fewer:
        return Overlap.OTHER
    if more:
        return Overlap.MORE
    return Overlap.FEWER if fewer else Overlap.SAME


def _one_root_each(line: Claim, other: Claim, axis: Axis) -> Overlap | None:
    """Decide the everyday case, two linear equations with rational numbers, at once."""
    roots: list[Fraction] = []
    for claim in (line, other):
        if len(claim.cases) != 1 or len(claim.cases[0]) != 1 or claim.cases[0][0].rel is not Rel.EQ:
            return None
        by_power = claim.cases[0][0].poly.by_power(axis.name)
        if set(by_power) - {0, 1} or 1 not in by_power:
            return None
        lead, rest = by_power[1].rational(), by_power.get(0, Poly({})).rational()
        if not lead or rest is None:
            return None
        roots.append(Fraction(-rest) / lead)
    if roots[0] == roots[1]:
        return Overlap.SAME
    if axis.positive and min(roots) <= 0 < max(roots):
        return Overlap.FEWER if roots[0] <= 0 else Overlap.MORE
    return Overlap.OTHER


def solutions(claim: Claim, axis: Axis) -> tuple[Spot, ...] | None:
    """Return the solutions where there are finitely many, else None."""
    polys = {part.poly: dense(part.poly, axis.name) for case in claim.cases for part in case}
    exact = all(is_exact for _, is_exact in polys.values())
    plain = {poly: found for poly, (found, _) in polys.items()}
    found: list[Spot] = []
    for sample in _samples(list(plain.values()), axis, exact):
        if not _true_at(claim, plain, sample, exact):
            continue
        if isinstance(sample, Fraction):
            return None
        found.append(sample)
    return tuple(found)


def _samples(polys: list[Dense], axis: Axis, exact: bool) -> list[Spot | Fraction]:
    """Return every cut and a number between each pair of neighbours, from left to right."""
    cuts = _cuts(polys, exact)
    if axis.positive:
        cuts = [spot for spot in cuts if spot.high > 0 and (spot.low != spot.high or spot.low > 0)]
        cuts = [_above_zero(spot) for spot in cuts]
        cuts = [spot for spot in cuts if spot.low >= 0]
    if not cuts:
        return [Fraction(1)]
    first = cuts[0].low / 2 if axis.positive else cuts[0].low - 1
    if axis.positive and first <= 0:
        first = cuts[0].narrowed().low / 2 or Fraction(1, 10**9)
    samples: list[Spot | Fraction] = [first]
    for spot, after in zip(cuts, [*cuts[1:], None], strict=False):
        samples.append(spot)
        samples.append(spot.high + 1 if after is None else (spot.high + after.low) / 2)
    return samples


def _above_zero(spot: Spot) -> Spot:
    while spot.low < 0 < spot.high:
        spot = spot.narrowed()
    return spot


def _cuts(polys: list[Dense], exact: bool) -> list[Spot]:
    if not exact:
        near = sorted({_rounded(spot) for poly in polys if len(poly) > 1 for spot in real_roots(poly)})
        return [_spot(point) for point in near]
    places = {-poly[0] / poly[1] for poly in polys if len(poly) == 2}
    whole: Dense = (Fraction(1),)
    for poly in polys:
        if len(poly) > 2:
            whole = square_free(product(whole, poly))
        if len(whole) > MAX_DEGREE * 2 - 4:
            raise NotExact("degree too high")
    roots = [spot for spot in real_roots(whole) if spot.exact not in places]
    points = [_spot(place) for place in places]
    if not roots or not points:
        return _apart(roots) if roots else sorted(points, key=lambda spot: spot.low)
    return _apart(sorted((_beside(spot, places) for spot in (*roots, *points)), key=lambda spot: spot.low))


def _spot(place: Fraction) -> Spot:
    return Spot(place, place, (-place, Fraction(1)))


def _beside(spot: Spot, places: set[Fraction]) -> Spot:
    """Narrow a root until no place of another cut lies in its bounds."""
    while spot.low != spot.high and any(spot.low <= place <= spot.high for place in places):
        spot = spot.narrowed()
    return spot


def _apart(spots: list[Spot]) -> list[Spot]:
    """Narrow neighbours until a number fits between them."""
    for index in range(1, len(spots)):
        while spots[index - 1].high >= spots[index].low:
            left, right = spots[index - 1].narrowed(), spots[index].narrowed()
            spots[index - 1], spots[index] = left, right
    return spots


def _rounded(spot: Spot) -> Fraction:
    while spot.high - spot.low > _CUT / 10**6:
        spot = spot.narrowed()
    middle = (spot.low + spot.high) / 2
    return Fraction(round(middle / _CUT)) * _CUT


def _true_at(claim: Claim, polys: dict[Poly, Dense], sample: Spot | Fraction, exact: bool) -> bool:
    return any(
        all(_part_true(part, polys[part.poly], sample, exact) for part in case) for case in claim.cases
    )


def _part_true(part: Condition, poly: Dense, sample: Spot | Fraction, exact: bool) -> bool:
    rel = Rel.EQ if part.rel is Rel.APPROX else part.rel
    if isinstance(sample, Spot) and exact:
        return holds(sign_at(poly, sample), rel)
    value = at(poly, sample.low if isinstance(sample, Spot) else sample)
    near = isinstance(sample, Spot) and abs(value) < _ZERO * max(map(abs, poly), default=1)
    return holds(0 if near else (value > 0) - (value < 0), rel)
