"""A question mark in the place of a value."""

from tutor.line.tree import Chain, Expr, Hole, Measure, Name, Statement
from tutor.line.walk import changed
from tutor.marking.deciding.facts import statement_names

HOLE = "?"


def is_label(statement: Statement) -> bool:
    """Tell whether a line only says what is asked for: ``r = ?``, ``A = ? cm²``."""
    if not isinstance(statement, Chain):
        return True  # a list of labels, "L = 10 cm, W = ?"
    return any(_asked(side) for side in statement.sides) and any(
        isinstance(side, Name) for side in statement.sides
    )


def _asked(side: Expr) -> bool:
    return isinstance(side, Hole) or (isinstance(side, Measure) and isinstance(side.inner, Hole))


def answers_a_hole(above: Statement | None) -> bool:
    """Tell whether a number alone answers the line above: ``19`` under ``12/13 + 7/8 = ?``."""
    return isinstance(above, Chain) and HOLE in statement_names(above)


def hole_named(statement: Statement) -> Statement:
    """Return a line in which the question mark is the unknown: ``8 + 4 = ? + 5``."""
    return changed(statement, lambda node: Name(HOLE, node.span) if isinstance(node, Hole) else node)
