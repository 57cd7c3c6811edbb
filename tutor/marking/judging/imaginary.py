"""Solutions that are no real numbers: ``x = ±3i`` below ``x² = −9``.

The marker counts in real numbers, where such an equation has no solution. Books of the years after go on
with i; these lines are decided by putting what they say of the unknown into the quadratic.
"""

from dataclasses import replace

from tutor.line.meaning import Setting, value_of
from tutor.line.poly import ONE, DividedByZero, NotExact, Poly, Ratio
from tutor.line.tree import Chain, Expr, Name, Rel, Statement
from tutor.line.walk import names_in
from tutor.marking.deciding.claim import claim_of, split_signs
from tutor.marking.deciding.compare import Axis, solutions
from tutor.marking.deciding.elimination import put_in
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.state import Known
from tutor.marking.judging.aftermath import Judged, stands
from tutor.marking.judging.marks import undecided
from tutor.marking.verdict import Verdict

UNIT = "i"


def imaginary(known: Known, statement: Statement, index: int) -> Judged | None:
    """Return the mark of a line with the imaginary unit in it, None for any other line.

    It stands where it gives both solutions of a quadratic that has no real one, and is undecided else.
    """
    names = statement_names(statement)
    base = known.base
    if UNIT not in names or len(names) != 2 or base is None or UNIT in known.context.names.known:
        return None
    (name,) = names - {UNIT}
    if not base.premises or statement_names(base.premises[0]) != {name}:
        return None
    try:
        quadratic = _quadratic(base.premises[0], name)
        if quadratic is None:
            return None
        found = [_value(part, name) for part in split_signs(statement)]
    except (NotExact, DividedByZero):
        return undecided(known, statement)
    right = all(value is not None and not _without_squares(_put(quadratic, name, value)) for value in found)
    if not right or len(set(found)) != 2:
        return undecided(known, statement)
    judged = stands(known, statement, index, Verdict.FOLLOWS, None)
    alone = all(
        isinstance(part, Chain) and isinstance(part.sides[0], Name) for part in split_signs(statement)
    )
    return replace(judged, known=replace(judged.known, ended=known.ended or alone))


def equal_with_the_unit(before: Expr, after: Expr) -> bool:
    """Tell whether two expressions are equal where i is the imaginary unit: ``(2 + 3i)(2 − 3i)`` is 13."""
    if UNIT not in names_in(before, after):
        return False
    try:
        return not _without_squares((value_of(before) - value_of(after)).above)
    except (NotExact, DividedByZero):
        return False


def _quadratic(premise: Statement, name: str) -> Poly | None:
    """Return the quadratic that is 0, where it is for no real number; else None."""
    if not isinstance(premise, Chain) or premise.rels != (Rel.EQ,):
        return None
    left, right = (value_of(side, Setting()) for side in premise.sides)
    difference = left - right
    if difference.below != ONE or max(difference.above.by_power(name), default=0) != 2:
        return None
    none = solutions(claim_of(premise, Setting()), Axis(name)) == ()
    return difference.above if none else None


def _value(part: Statement, name: str) -> Poly | None:
    """Return what a line linear in the unknown says that it is, None for any other line."""
    if not isinstance(part, Chain) or part.rels != (Rel.EQ,):
        return None
    left, right = (value_of(side, Setting()) for side in part.sides)
    difference = left - right
    powers = difference.above.by_power(name)
    times = powers.get(1, Poly({})).inverse()
    if difference.below != ONE or max(powers, default=0) != 1 or times is None:
        return None
    return -powers.get(0, Poly({})) * times


def _put(quadratic: Poly, name: str, value: Poly) -> Poly:
    return put_in(quadratic, name, Ratio(value)).above


def _without_squares(poly: Poly) -> Poly:
    """Write −1 for i²."""
    made = Poly({})
    for power, factor in poly.by_power(UNIT).items():
        turned = factor if power % 4 in (0, 1) else -factor
        made = made + (turned * Poly.atom(UNIT) if power % 2 else turned)
    return made
