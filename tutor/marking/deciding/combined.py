"""Equations added to or taken from each other: ``2x² = 18`` from ``x² + y² = 13`` and ``x² − y² = 5``.

Where no equation gives a name alone, nothing can be used up. A line that is a sum of multiples of the
premises can still take the place of one that is in it, and the solutions stay what they were.
"""

from fractions import Fraction
from itertools import combinations

from tutor.line.meaning import Setting
from tutor.line.mono import Mono
from tutor.line.poly import DividedByZero, NotExact, Poly
from tutor.line.tree import Rel, Statement
from tutor.marking.deciding.at_odds import at_odds
from tutor.marking.deciding.claim import claim_of
from tutor.marking.deciding.state import Spec

MAX_PREMISES = 4
MAX_TERMS = 16
MAX_CASES = 3


def combined(spec: Spec, statement: Statement, setting: Setting, *, parallel: bool) -> int | None:
    """Return the premise that a sum of multiples of the premises can stand for, None for any other line.

    ``parallel``: the premises may contradict each other. All of them can then be combined to anything,
    two of them cannot.
    """
    if not 1 < len(spec.premises) <= MAX_PREMISES:
        return None
    try:
        if not at_odds(spec, setting):
            return _of_all(spec.premises, statement, setting)
        for pair in combinations(range(len(spec.premises)), 2) if parallel else ():
            two = tuple(spec.premises[at] for at in pair)
            found = None if at_odds(Spec(two, spec.positive), setting) else _of_all(two, statement, setting)
            if found is not None:
                return pair[found]
    except (NotExact, DividedByZero):
        pass
    return None


def _of_all(premises: tuple[Statement, ...], statement: Statement, setting: Setting) -> int | None:
    polys = [_only_sum(premise, setting) for premise in (*premises, statement)]
    rows = [poly for poly in polys if poly is not None]
    if len(rows) < len(polys):
        return None
    times = _times([_numbers(poly) for poly in rows[:-1]], _numbers(rows[-1]))
    return None if times is None else next((at for at, factor in enumerate(times) if factor), None)


def _only_sum(statement: Statement, setting: Setting) -> Poly | None:
    """Return the one sum that a line says is 0, where that is all that it says.

    ``x = 3 or x = −3`` says it of the product of both.
    """
    cases = claim_of(statement, setting).cases
    if not 0 < len(cases) <= MAX_CASES or any(len(case) != 1 or case[0].rel is not Rel.EQ for case in cases):
        return None
    product = cases[0][0].poly
    for case in cases[1:]:
        product = product * case[0].poly
    return product if len(product.terms) <= MAX_TERMS else None


def _numbers(poly: Poly) -> dict[Mono, Fraction]:
    return {mono: Fraction(number) for mono, number in poly.terms.items()}


def _times(rows: list[dict[Mono, Fraction]], wanted: dict[Mono, Fraction]) -> list[Fraction] | None:
    """Return how many times each row is in the wanted one, None where that cannot be."""
    # Each row carries along what it is made of; the wanted one, what has been taken from it.
    left = [
        (dict(row), [Fraction(int(at == own)) for at in range(len(rows))]) for own, row in enumerate(rows)
    ]
    rest, taken = dict(wanted), [Fraction(0)] * len(rows)
    while left:
        row, made = left.pop()
        if not row:
            return None  # one of the premises says nothing that the others do not say
        pivot = min(row)
        left = [_less(other, row, pivot, was, made) for other, was in left]
        rest, taken = _less(rest, row, pivot, taken, made)
    return None if rest else [-factor for factor in taken]


def _less(
    line: dict[Mono, Fraction],
    row: dict[Mono, Fraction],
    pivot: Mono,
    was: list[Fraction],
    made: list[Fraction],
) -> tuple[dict[Mono, Fraction], list[Fraction]]:
    """Take a row from a line as often as leaves nothing of the pivot."""
    factor = line.get(pivot, Fraction(0)) / row[pivot]
    if not factor:
        return line, was
    less = {mono: line.get(mono, Fraction(0)) - factor * row.get(mono, Fraction(0)) for mono in {*line, *row}}
    numbers = {mono: number for mono, number in less.items() if number}
    return numbers, [one - factor * other for one, other in zip(was, made, strict=True)]
