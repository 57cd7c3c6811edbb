"""What is known at a line, and whether a claim follows from it and says no less.

A ground is a set of premises. A claim follows when, put in the place of one premise, it
leaves the solutions what they were. To see that, the other premises are used up first:
each gives one name in terms of the rest, which is put into both, and what is left is
compared.
"""

from dataclasses import dataclass, field
from fractions import Fraction

from tutor.line.poly import ROOT_MARK, NotExact, Poly, Ratio, is_name, reduced
from tutor.line.real import approximate
from tutor.line.univariate import Spot
from tutor.marking.deciding.claim import ALWAYS, NEVER, Claim, Condition, holds
from tutor.marking.deciding.compare import Axis, Overlap, compare, solutions
from tutor.marking.deciding.division import divided_exactly
from tutor.marking.deciding.elimination import Elimination, eliminate, put_in


@dataclass(frozen=True, slots=True)
class Outcome:
    """How a claim lies to the ground: ``index`` is the premise it was put in the place of."""

    overlap: Overlap
    index: int | None = None


@dataclass(eq=False, slots=True)
class Ground:
    """Premises as claims. ``heads``: for each, the name that its left side is, if it is one."""

    claims: tuple[Claim, ...]
    heads: tuple[str | None, ...]
    positive: frozenset[str]
    _without: dict[int, Elimination] = field(default_factory=dict)
    _values: dict[str, tuple[Fraction, ...]] | None = None

    def without(self, index: int) -> Elimination:
        """Return the elimination by all premises but one (-1: by all)."""
        if index not in self._without:
            polys = [
                (poly, self.heads[at])
                for at, claim in enumerate(self.claims)
                if at != index
                for poly in claim.equations() or ()
            ]
            self._without[index] = eliminate(polys, self.positive)
        return self._without[index]

    def outcome(self, claim: Claim) -> Outcome:
        """Tell how a claim lies to what is known; raises ``NotExact`` where it cannot tell."""
        best: Outcome | None = None
        tautology = True
        unsure: NotExact | None = None
        for index in range(len(self.claims)):
            rest = self.without(index)
            try:
                line = _without_granted(rest.lower_claim(claim), self.positive)
                premise = rest.lower_claim(self.claims[index])
                if line == ALWAYS and premise != ALWAYS and not self._always_holds(premise):
                    continue
                tautology = False
                # What contradicts the other premises does not follow, even where they are at odds.
                contradicts = line == NEVER and len(self.claims) > 1 and claim != NEVER
                overlap = Overlap.FEWER if contradicts else self._compared(line, premise, rest)
            except NotExact as problem:
                unsure = problem
                continue
            if overlap is Overlap.SAME:
                return Outcome(Overlap.SAME, index)
            if best is None or best.overlap is Overlap.OTHER:
                best = Outcome(overlap, index)
        if unsure is not None and (best is None or best.overlap is Overlap.OTHER):
            raise unsure  # it may take the place of the premise that could not be compared
        if tautology:
            return Outcome(Overlap.MORE)
        return best or Outcome(Overlap.OTHER)

    def _always_holds(self, premise: Claim) -> bool:
        """``x² ≥ 0`` is true for every number, although no sum in it falls away."""
        names = premise.names()
        return (
            len(self.claims) == len(names) == 1 and compare(ALWAYS, premise, Axis(min(names))) is Overlap.SAME
        )

    def _compared(self, line: Claim, premise: Claim, rest: Elimination) -> Overlap:
        left = rest.left_as_case()
        if left:
            # What differs by a factor that is not zero is the same beside anything else: "4r = C".
            if _proportional(line, premise, self.positive):
                return Overlap.SAME
            line = Claim(tuple((*case, *left) for case in line.cases))
            premise = Claim(tuple((*case, *left) for case in premise.cases))
        names = line.names() | premise.names()
        if len(names) <= 1:
            name = next(iter(names), "x")
            # "r = 9 or r = −9" speaks of all numbers: its second value has to be right too.
            positive = name in self.positive and len(line.cases) == 1
            return compare(line, premise, Axis(name, positive))
        if line == premise or _proportional(line, premise, self.positive):
            return Overlap.SAME
        if line.names() == premise.names() and (line.equations() is None or _with_roots(line, premise)):
            raise NotExact("several unknowns")
        return Overlap.OTHER

    def values(self) -> dict[str, tuple[Fraction, ...]]:
        """Return the value of every name that is settled, to 50 places: one entry a solution."""
        if self._values is None:
            try:
                self._values = self._solve()
            except NotExact:
                self._values = {}
        return self._values

    def exact_values(self) -> dict[str, Poly]:
        """Return the exact value of every name that has one exact value."""
        rest = self.without(-1)
        found: dict[str, Poly] = {}
        for name, ratio in reversed(rest.solved):
            above, below = ratio.above, ratio.below
            for known, value in found.items():
                above, below = (
                    put_in(above, known, Ratio(value)).above,
                    put_in(below, known, Ratio(value)).above,
                )
            if not above.names() and not below.names() and below:
                constant = reduced(above, below).constant()
                if constant is not None:
                    found[name] = constant
        return found

    def _solve(self) -> dict[str, tuple[Fraction, ...]]:
        rest = self.without(-1)
        found: dict[str, tuple[Fraction, ...]] = {}
        names = frozenset(name for poly in rest.left for name in poly.names())
        others = [claim for claim in self.claims if claim.equations() is None]
        if len(names) == 1 or (not names and others):
            name = next(iter(names), None) or next(iter(others[0].names()), "")
            cases = [(*case, *rest.left_as_case()) for case in (others[0].cases if others else ((),))]
            spots = solutions(Claim(tuple(cases)), Axis(name, name in self.positive))
            if spots:
                found[name] = tuple(_place(spot) for spot in spots)
        many = max((len(values) for values in found.values()), default=1)
        for name, ratio in reversed(rest.solved):
            worked = [
                _worked_out(ratio, {k: v[min(i, len(v) - 1)] for k, v in found.items()}) for i in range(many)
            ]
            settled = tuple(value for value in worked if value is not None)
            if len(settled) == many:
                found[name] = settled
        return found


def _place(spot: Spot) -> Fraction:
    spot = spot.closer(Fraction(1, 10**40))
    return (spot.low + spot.high) / 2


def evaluate(poly: Poly, values: dict[str, Fraction]) -> Fraction | None:
    """Return the value of a sum at given values of its names, None where one is missing."""
    total = Fraction(0)
    for mono, coefficient in poly.terms.items():
        constants = tuple((atom, power) for atom, power in mono if not is_name(atom))
        term = approximate(Poly({constants: coefficient}))
        for atom, power in mono:
            if is_name(atom):
                if atom not in values or not isinstance(power, int):
                    return None
                if not values[atom] and power < 0:
                    return None
                term *= values[atom] ** power
        total += term
    return total


def _worked_out(ratio: Ratio, values: dict[str, Fraction]) -> Fraction | None:
    above, below = evaluate(ratio.above, values), evaluate(ratio.below, values)
    return None if above is None or not below else above / below


def _with_roots(*claims: Claim) -> bool:
    """Tell whether a root stands beside names: the factor between two lines may then not be found."""
    return any(
        atom[0] == ROOT_MARK or not isinstance(power, int)
        for claim in claims
        for case in claim.cases
        for part in case
        for mono in part.poly.terms
        for atom, power in mono
    )


def _without_granted(claim: Claim, positive: frozenset[str]) -> Claim:
    """Leave out what measures grant: ``r ≥ 0`` beside ``r² = A/π``, which ``r = √(A/π)`` claims too."""
    if not positive or all(len(case) == 1 for case in claim.cases):
        return claim
    kept = tuple(tuple(part for part in case if not _granted(part, positive)) for case in claim.cases)
    return ALWAYS if () in kept else Claim(kept)


def _granted(part: Condition, positive: frozenset[str]) -> bool:
    if part.rel.equates or not part.poly.names() <= positive:
        return False
    signs = {value > 0 for value in part.poly.terms.values()}
    return len(signs) == 1 and holds(1 if signs.pop() else -1, part.rel)


def _proportional(line: Claim, premise: Claim, positive: frozenset[str]) -> bool:
    """Tell whether two single equations in several names differ by a factor that is never zero."""
    left, right = line.equations(), premise.equations()
    if left is None or right is None or len(left) != len(right) or len(left) != 1:
        return False
    a, b = left[0], right[0]
    if a.names() != b.names():
        return False
    if len(a.terms) == len(b.terms):
        shared = next((mono for mono in a.terms if mono in b.terms), None)
        if shared is not None and a.scaled(b.terms[shared]) == b.scaled(a.terms[shared]):
            return True
    return _differ_by_a_measure(a, b, positive) or _differ_by_a_sum(a, b, positive)


def _differ_by_a_sum(a: Poly, b: Poly, positive: frozenset[str]) -> bool:
    """``a² = s²`` and ``a = s`` differ by the factor a + s, a sum of measures and so not zero."""
    big, little = (a, b) if len(a.terms) >= len(b.terms) else (b, a)
    for above, below in ((big, little), (little, big)):
        factor = divided_exactly(above, below)
        if factor is not None and factor.names() <= positive:
            return len({value > 0 for value in factor.terms.values()}) == 1
    return False


def _differ_by_a_measure(a: Poly, b: Poly, positive: frozenset[str]) -> bool:
    """``V/H = LW`` and ``V = LWH`` differ by the factor H, which is a measure and not zero.

    π and roots may be the factor as well.
    """
    if len(a.terms) != len(b.terms):
        return False
    first_a = min(a.terms, key=_order)
    for first_b in b.terms:
        factor: dict[str, Fraction] = {}
        for atom, power in first_a:
            factor[atom] = factor.get(atom, Fraction(0)) + power
        for atom, power in first_b:
            factor[atom] = factor.get(atom, Fraction(0)) - power
        wanted = {atom: power for atom, power in factor.items() if power}
        if any(is_name(atom) and atom not in positive for atom in wanted):
            continue
        up = Poly({tuple(sorted((k, _int(v)) for k, v in wanted.items() if v > 0)): 1})
        down = Poly({tuple(sorted((k, _int(-v)) for k, v in wanted.items() if v < 0)): 1})
        left, right = a * down, b * up
        shared = next(iter(left.terms))
        if shared in right.terms and left.scaled(right.terms[shared]) == right.scaled(left.terms[shared]):
            return True
    return False


def _int(value: Fraction) -> Fraction | int:
    return value.numerator if value.denominator == 1 else value


def _order(mono: tuple[tuple[str, Fraction | int], ...]) -> str:
    return repr(mono)
