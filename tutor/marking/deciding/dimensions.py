"""What the names of a formula measure, as far as the units of the givens tell."""

from collections.abc import Iterable

from tutor.line.meaning import value_of
from tutor.line.poly import ONE, DividedByZero, Mono, NotExact, is_name
from tutor.line.tree import Chain
from tutor.quantity.dimension import COUNT, Dimension

Told = tuple[tuple[str, Dimension], ...]


def inferred(told: Told, formulas: list[Chain]) -> Told:
    """Return what names measure: those that are told, and those that a formula leaves only one kind for.

    With L and W in feet, ``A = LW`` is an area. Where a given has no unit, or the terms of a
    formula do not measure the same, as in ``F = 9/5 C + 32``, nothing is inferred.
    """
    known = dict(told)
    found = dict(known)
    for _ in formulas:
        for formula in formulas:
            found.update(_from_formula(formula, found))
    return (*told, *((name, kind) for name, kind in found.items() if name not in known and kind != COUNT))


def _from_formula(formula: Chain, known: dict[str, Dimension]) -> dict[str, Dimension]:
    if len(formula.sides) != 2:
        return {}
    try:
        difference = value_of(formula.sides[0]) - value_of(formula.sides[1])
    except (NotExact, DividedByZero):
        return {}
    terms = list(difference.above.terms)
    kinds = {_kind(mono, known) for mono in terms if _open_names(mono, known) == 0}
    alone = [mono for mono in terms if _open_names(mono, known) == 1]
    if difference.below != ONE or len(kinds) != 1 or len(alone) != 1 or len(terms) < 2:
        return {}
    (mono,) = alone
    ((name, power),) = [(atom, power) for atom, power in mono if is_name(atom) and atom not in known]
    others = tuple(part for part in mono if part[0] != name)
    (kind,) = kinds
    return {name: kind * _kind(others, known).power(-1)} if power == 1 else {}


def _open_names(mono: Mono, known: dict[str, Dimension]) -> int:
    return sum(is_name(atom) and atom not in known for atom, _ in mono)


def _kind(mono: Iterable[tuple[str, object]], known: dict[str, Dimension]) -> Dimension:
    total = COUNT
    for atom, power in mono:
        for _ in range(power if isinstance(power, int) and is_name(atom) else 0):
            total = total * known[atom]
    return total
