"""False lines of numbers under a line that holds for no number.

``4x + 3 = 4x + 9`` leads to ``3 = 9``, to ``0 = 6`` and to ``1 = 3``: not to just any false line.
"""

from fractions import Fraction

from tutor.line.meaning import Setting, value_of
from tutor.line.poly import DividedByZero, NotExact, Poly, Ratio
from tutor.line.tree import Chain, Expr, Rel, Statement
from tutor.line.walk import names_in
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.state import Known

Sides = tuple[Poly, Poly, Rel]


def same_contradiction(known: Known, statement: Statement, setting: Setting) -> bool:
    """Tell whether a false line of numbers comes from a line above that cannot hold.

    It does where the difference of its sides is that of a line above (something was taken
    from both sides), or where its sides are multiples of what stands there without names.
    """
    line = _sides(statement, setting)
    if line is None:
        return True
    premises = known.base.premises if known.base is not None else ()
    if statement_names(statement) and _scales_one_above(known, statement, setting):
        return True
    above = [
        found for one in (*(line for _, line in known.above), *premises) if (found := _sides(one, setting))
    ]
    return not above or any(_leads_to(sides, line) for sides in above)


def _scales_one_above(known: Known, statement: Statement, setting: Setting) -> bool:
    """``10x = 10x + 1`` times 2.5, or times 2 and 7 added: letters are still there to tell the factor by."""
    premises = known.base.premises if known.base is not None else ()
    for one in (*(line for _, line in known.above), *premises):
        try:
            (left, right), (new_left, new_right) = _values(one, setting), _values(statement, setting)
        except (NotExact, DividedByZero):
            continue
        if (new_left * right).same(new_right * left):
            return True
        old, new = (left - right).constant(), (new_left - new_right).constant()
        inverse = None if old is None else old.inverse()
        factor = None if inverse is None or new is None else (new * inverse).rational()
        if factor is not None and 1 in (abs(Fraction(factor).numerator), Fraction(factor).denominator):
            return True
    return False


def _values(statement: Statement, setting: Setting) -> tuple[Ratio, Ratio]:
    if not isinstance(statement, Chain) or len(statement.sides) != 2:
        raise NotExact("no two sides")
    left, right = (value_of(side, setting) for side in statement.sides)
    return left, right


def _sides(statement: Statement, setting: Setting) -> Sides | None:
    """Return what stands without names on both sides, where the names fall away; None elsewhere."""
    if not isinstance(statement, Chain) or len(statement.sides) != 2:
        return None
    try:
        left, right = (value_of(side, setting) for side in statement.sides)
        difference = (left - right).constant()
    except (NotExact, DividedByZero):
        return None
    if difference is None:
        return None
    numbers = [_without_names(side, setting) for side in statement.sides]
    return (*numbers, statement.rels[0]) if None not in numbers else None  # type: ignore[return-value]


def _without_names(side: Expr, setting: Setting) -> Poly | None:
    value = value_of(side, setting)
    if not names_in(side):
        return value.constant()
    if value.below.names():
        return None
    return Poly({mono: number for mono, number in value.above.terms.items() if not Poly({mono: 1}).names()})


def _leads_to(above: Sides, line: Sides) -> bool:
    for left, right, rel in (above, (above[1], above[0], above[2].turned)):
        if rel is line[2] and line[0] - line[1] == left - right:
            return True
        if rel in (line[2], line[2].turned) and _multiplied(left, right, line):
            return True
    return False


def _multiplied(left: Poly, right: Poly, line: Sides) -> bool:
    """Tell whether both sides were multiplied or divided by one number: ``0 = 6`` to ``0 = 1``."""
    if left * line[1] != right * line[0]:
        return False
    old, new = (right, line[1]) if right else (left, line[0])
    inverse = old.inverse()
    factor = None if inverse is None or not new else (new * inverse).rational()
    if factor is None:
        return bool(new)
    # Beside a 0 every number would do: dividing by a whole number is a step, and clearing a fraction.
    plain, before = Fraction(factor), old.rational()
    cleared = before is not None and Fraction(before).denominator != 1 and plain.denominator == 1
    return bool(left and right) or cleared or abs(plain.numerator) == 1
