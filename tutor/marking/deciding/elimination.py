"""Using premises up: each gives one name in terms of the rest, which is put into the others."""

from dataclasses import dataclass, field

from tutor.line.poly import ONE, NotExact, Poly, Ratio, is_name, reduced
from tutor.line.real import sign
from tutor.line.tree import Rel
from tutor.marking.deciding.claim import ALWAYS, NEVER, Case, Claim, Condition, holds


@dataclass(slots=True)
class Elimination:
    """Names given in terms of the rest by some premises, and the equations left over."""

    solved: list[tuple[str, Ratio]] = field(default_factory=list)
    left: list[Poly] = field(default_factory=list)

    def lower(self, poly: Poly) -> Poly:
        """Return the sum with every solved name replaced (times what stood below)."""
        for name, ratio in self.solved:
            poly = put_in(poly, name, ratio).above
        return poly

    def lower_claim(self, claim: Claim) -> Claim:
        """Return the claim on the names that are left."""
        cases: list[Case] = []
        for case in claim.cases:
            kept: list[Condition] = []
            possible = True
            for part in case:
                poly = self.lower(part.poly)
                if poly.names():
                    kept.append(Condition(poly, part.rel))
                elif not holds(sign(poly), part.rel):
                    possible = False
            if possible:
                cases.append(tuple(kept))
        if () in cases:
            return ALWAYS
        return Claim(tuple(cases)) if cases else NEVER

    def left_as_case(self) -> Case:
        """Return the equations left over as conditions."""
        return tuple(Condition(poly, Rel.EQ) for poly in self.left)


def put_in(poly: Poly, name: str, ratio: Ratio) -> Ratio:
    """Put a value in the place of a name."""
    by_power = poly.by_power(name)
    top = max(by_power, default=0)
    if top == 0:
        return Ratio(poly)
    if min(by_power) < 0:
        raise NotExact("negative power")
    above = Poly({})
    for power, coefficient in by_power.items():
        piece = coefficient * ratio.above.power(power)
        above = above + (piece * ratio.below.power(top - power) if ratio.below != ONE else piece)
    return Ratio(above, ratio.below.power(top))


def eliminate(polys: list[tuple[Poly, str | None]], positive: frozenset[str]) -> Elimination:
    """Use equations up one by one; ``polys`` come with the name each is meant to give."""
    result = Elimination()
    waiting = list(polys)
    progress = True
    while waiting and progress:
        progress = False
        for index, (poly, head) in enumerate(waiting):
            found = _given_by(poly, head, positive)
            if found is None:
                continue
            name, ratio = found
            del waiting[index]
            waiting = [(put_in(other, name, ratio).above, wanted) for other, wanted in waiting]
            result.solved.append((name, ratio))
            progress = True
            break
    result.left = [poly for poly, _ in waiting if poly]
    return result


def _given_by(poly: Poly, head: str | None, positive: frozenset[str]) -> tuple[str, Ratio] | None:
    names = poly.names()
    ordered = ([head] if head in names else []) + sorted(names - {head or ""})
    for strict in (True, False):
        for name in ordered:
            by_power = poly.by_power(name or "")
            if set(by_power) - {0, 1} or 1 not in by_power:
                continue
            lead = by_power[1]
            if lead.names() and (strict or not _never_zero(lead, positive)):
                continue
            if not lead.names() and lead.inverse() is None:
                continue
            return name or "", reduced(-by_power.get(0, Poly({})), lead)
        if len(names) == 1:
            break
    return None


def _never_zero(lead: Poly, positive: frozenset[str]) -> bool:
    """A product of measures is not zero."""
    return len(lead.terms) == 1 and all(
        not is_name(atom) or atom in positive for mono in lead.terms for atom, _ in mono
    )
