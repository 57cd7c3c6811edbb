"""Legal moves that may bring in a solution.

Both sides are squared, or multiplied by the unknown; a fraction is reduced; or both cases of
``|x − 1| = 2x`` are written, and what each of them supposes is left for the check.
"""

from tutor.line.meaning import Setting, value_of
from tutor.line.poly import DividedByZero, NotExact, Ratio
from tutor.line.tree import Chain, Joined, Rel, Statement
from tutor.line.walk import names_in
from tutor.marking.deciding.answers import answer_of
from tutor.marking.deciding.claim import cases_without_signs, claim_of
from tutor.marking.deciding.compare import Axis, Overlap, compare
from tutor.marking.deciding.division import divided_exactly
from tutor.marking.deciding.facts import facts, statement_names
from tutor.marking.deciding.radicals import is_square_of
from tutor.marking.deciding.state import Known


def legal_gain(known: Known, statement: Statement, setting: Setting) -> bool:
    """Tell whether a line that lets in more than the lines above comes from one of them by such a move."""
    if answer_of(statement) is not None or facts(statement).bars:
        return False
    above = [line for _, line in reversed(known.above) if isinstance(line, Chain) and line.rels == (Rel.EQ,)]
    if isinstance(statement, Joined) or facts(statement).either_sign:
        return any(_both_cases(line, statement, setting) for line in above)
    if not isinstance(statement, Chain) or statement.rels != (Rel.EQ,):
        return False
    return any(
        _both_squared(line, statement, setting)
        or _both_multiplied(line, statement, setting)
        or _reduced(line, statement, setting)
        for line in above
    )


def _both_cases(above: Chain, statement: Statement, setting: Setting) -> bool:
    """``|x − 1| = 2x``, then ``x − 1 = 2x or x − 1 = −2x``. ``|x| = −3`` is no such line: it has no cases."""
    names = statement_names(above)
    if not facts(above).bars or len(names) != 1 or any(not names_in(side) for side in above.sides):
        return False
    try:
        cases = cases_without_signs(above, setting)
        return compare(claim_of(statement, setting), cases, Axis(min(names))) is Overlap.SAME
    except (NotExact, DividedByZero):
        return False


def _both_squared(above: Chain, line: Chain, setting: Setting) -> bool:
    try:
        return bool(statement_names(above)) and all(
            is_square_of(new, old, setting) for new, old in zip(line.sides, above.sides, strict=True)
        )
    except (NotExact, DividedByZero):
        return False


def _reduced(above: Chain, line: Chain, setting: Setting) -> bool:
    """``(x² − 9)/(x − 3) = 6``, then ``x + 3 = 6``: a fraction is reduced, what made it 0/0 is let in."""
    try:
        return all(
            value_of(new, setting).same(value_of(old, setting))
            for new, old in zip(line.sides, above.sides, strict=True)
        )
    except (NotExact, DividedByZero):
        return False


def _both_multiplied(above: Chain, line: Chain, setting: Setting) -> bool:
    try:
        left, right, new_left, new_right = (value_of(side, setting) for side in (*above.sides, *line.sides))
    except (NotExact, DividedByZero):
        return False
    return _by_one_factor(left, right, new_left, new_right)


def _by_one_factor(left: Ratio, right: Ratio, new_left: Ratio, new_right: Ratio) -> bool:
    """Tell whether both sides were multiplied by the same sum with the unknown in it."""
    for old, new in ((left, new_left), (right, new_right)):
        if not old.above or not new.above:
            continue
        ratio = new.over(old)
        factor = ratio.above if not ratio.below.names() else divided_exactly(ratio.above, ratio.below)
        if factor is None or not factor.names():
            continue
        whole = Ratio(factor) if ratio.below.names() else ratio
        if new_left.same(left * whole) and new_right.same(right * whole):
            return True
    return False
