"""Dividing one sum of products by another, where nothing is left over."""

from fractions import Fraction

from tutor.line.poly import ROOT_MARK, Mono, NotExact, Number, Poly, small

MAX_STEPS = 40


def divided_exactly(above: Poly, below: Poly) -> Poly | None:
    """Return the quotient of two sums, None where one is left over or a root stands in them."""
    atoms = sorted({atom for poly in (above, below) for mono in poly.terms for atom, _ in mono})
    if not below or any(atom[0] == ROOT_MARK for atom in atoms):
        return None

    def order(mono: Mono) -> tuple[Number, ...]:
        powers = dict(mono)
        return tuple(powers.get(atom, 0) for atom in atoms)

    lead = max(below.terms, key=order)
    rest, quotient = above, Poly({})
    for _ in range(MAX_STEPS):
        if not rest:
            return quotient
        top = max(rest.terms, key=order)
        powers = [small(have - want) for have, want in zip(order(top), order(lead), strict=True)]
        if any(power < 0 for power in powers):
            return None
        mono = tuple((atom, power) for atom, power in zip(atoms, powers, strict=True) if power)
        step = Poly({mono: small(Fraction(rest.terms[top]) / below.terms[lead])})
        quotient = quotient + step
        try:
            rest = rest - step * below
        except NotExact:
            return None
    return None
