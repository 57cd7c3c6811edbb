"""Lines that are false at the very values that the work settles, whatever else they say.

A line that cannot be compared with what is known, as ``d¹² = 81/4`` cannot, need not stay
undecided: where known values make it false it does not follow.
"""

from fractions import Fraction

from tutor.line.meaning import Setting
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Chain, Expr, Name, Num, Statement
from tutor.line.walk import changed, sides
from tutor.line.writing import write_number
from tutor.marking.deciding.claim import ALWAYS, NEVER, claim_of, is_cut_off
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.rounding import points, rounded_sides
from tutor.marking.deciding.state import Spec

_MOST_VALUES = 6


def refuted(spec: Spec, statement: Statement, setting: Setting) -> bool:
    """Tell whether a line is false at every solution of some premises, or at one that it leaves out.

    Only rational solutions are put in, and only where the premises hold exactly there.
    """
    try:
        settled = points(spec.ground(setting))
    except (NotExact, DividedByZero):
        return False
    names = statement_names(statement)
    if not names or not settled or not all(names <= values.keys() for values in settled):
        return False
    if _is_cut_off(statement):
        return True  # nothing but a rounding could make it follow, and it is none
    return any(
        _holds_exactly(spec, values, setting) and _at(statement, values, setting) is False
        for values in settled[:_MOST_VALUES]
    )


def _is_cut_off(statement: Statement) -> bool:
    """``x = 0.667…``: one side is a decimal that goes on, and nothing else."""
    alone = [decimal for _, _, decimal in rounded_sides(statement)]
    return len(alone) == 1 and len(sides(statement)) == 2 and is_cut_off(alone[0])


def _holds_exactly(spec: Spec, values: dict[str, Fraction], setting: Setting) -> bool:
    return all(_at(premise, values, setting) for premise in spec.premises)


def _at(statement: Statement, values: dict[str, Fraction], setting: Setting) -> bool | None:
    """Tell whether a line holds where its names have these values; None where that cannot be told."""
    if not isinstance(statement, Chain):
        return None

    def put_in(node: Expr) -> Expr:
        if not isinstance(node, Name) or node.name not in values:
            return node
        return Num(values[node.name], write_number(values[node.name]), span=node.span)

    try:
        claim = claim_of(changed(statement, put_in), setting)
    except (NotExact, DividedByZero):
        return None
    return True if claim == ALWAYS else False if claim == NEVER else None
