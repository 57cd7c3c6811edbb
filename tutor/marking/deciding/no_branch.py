"""Lines that fit one branch of an "or" by their solutions alone, and are not that branch."""

from tutor.line.meaning import Setting, value_of
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Chain, Joined, Rel, Statement
from tutor.marking.deciding.claim import NEVER, claim_of, split_signs
from tutor.marking.deciding.compare import Axis, solutions
from tutor.marking.deciding.division import divided_exactly
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.state import Spec


def has_none_either(spec: Spec, index: int | None, statement: Statement, setting: Setting) -> bool:
    """``x² = −5`` beside the branch ``x² + 1 = 0``: neither has a solution, and it is another equation."""
    names = statement_names(statement)
    if index is None or len(names) != 1 or not isinstance(statement, Chain) or statement.rels != (Rel.EQ,):
        return False
    premise = spec.premises[index]
    if not isinstance(premise, Chain) or premise.rels != (Rel.EQ,):
        return False
    try:
        if solutions(claim_of(statement, setting), Axis(min(names))) != ():
            return False
        (left, right), (old_left, old_right) = (
            tuple(value_of(side, setting) for side in line.sides) for line in (statement, premise)
        )
        factor = divided_exactly((left - right).above, (old_left - old_right).above)
        return factor is None or bool(factor.names())
    except (NotExact, DividedByZero):
        return False


def no_branch(statement: Statement, setting: Setting) -> bool:
    """Tell whether a line of several parts says no more than one branch, as if it were all of them.

    ``x = −2 or x = −2`` is one branch written twice, as is ``x = ±1 or x = ±1``,
    ``p = 0 or 0p = −7`` and ``p = 0 or p² = −7`` one with nothing beside it, ``x = 5, x > 1`` one with
    a remark.
    """
    parts = split_signs(statement)
    if len(parts) < 2:
        return False
    claims = [claim_of(part, setting) for part in parts]
    twice = len(set(claims)) == 1 or (isinstance(statement, Joined) and len(set(claims)) < len(claims))
    if twice or NEVER in claims or any(claim.equations() is None for claim in claims):
        return True
    names = statement_names(statement)
    return len(names) == 1 and any(solutions(claim, Axis(min(names))) == () for claim in claims)
