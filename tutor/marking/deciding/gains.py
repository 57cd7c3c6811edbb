"""Legal moves that may bring in a solution: squaring both sides, multiplying by the unknown."""

from tutor.line.meaning import Setting, value_of
from tutor.line.poly import DividedByZero, NotExact, Ratio
from tutor.line.tree import Chain, Rel, Statement
from tutor.marking.deciding.answers import answer_of
from tutor.marking.deciding.division import divided_exactly
from tutor.marking.deciding.facts import facts, statement_names
from tutor.marking.deciding.radicals import is_square_of
from tutor.marking.deciding.state import Known


def legal_gain(known: Known, statement: Statement, setting: Setting) -> bool:
    """Tell whether both sides were squared, or both multiplied by something with the unknown in it."""
    if not isinstance(statement, Chain) or statement.rels != (Rel.EQ,) or answer_of(statement) is not None:
        return False
    if facts(statement).either_sign or facts(statement).bars:
        return False
    for _, line in reversed(known.above):
        if not isinstance(line, Chain) or line.rels != (Rel.EQ,):
            continue
        if _both_squared(line, statement, setting) or _both_multiplied(line, statement, setting):
            return True
    return False


def _both_squared(above: Chain, line: Chain, setting: Setting) -> bool:
    try:
        return bool(statement_names(above)) and all(
            is_square_of(new, old, setting) for new, old in zip(line.sides, above.sides, strict=True)
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
