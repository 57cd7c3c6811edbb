"""A question mark in the place of a value."""

from dataclasses import replace

from tutor.line.tree import Chain, Expr, Hole, Joined, Measure, Name, Statement
from tutor.line.walk import changed
from tutor.marking.deciding.facts import facts, statement_names

HOLE = "?"


def is_label(statement: Statement) -> bool:
    """Tell whether a line only says what is asked for: ``r = ?``, ``A = ? cm²``."""
    if not isinstance(statement, Chain):
        return True  # a list of labels, "L = 10 cm, W = ?"
    return any(_asked(side) for side in statement.sides) and any(
        isinstance(side, Name) for side in statement.sides
    )


def told_beside(statement: Statement) -> Statement | None:
    """Return what a line with a label says beside it, None where that is nothing.

    ``L = 10 cm`` of ``L = 10 cm, W = ?``; ``A = b h`` of ``A = b h = ?``.
    """
    if isinstance(statement, Joined):
        parts = tuple(part for part in statement.parts if not facts(part).hole)
        if len(parts) < 2:
            return parts[0] if parts else None
        return replace(statement, parts=parts)
    if not isinstance(statement, Chain) or not all(rel.equates for rel in statement.rels):
        return None
    told = tuple(side for side in statement.sides if not _asked(side))
    if len(told) < 2:
        return None
    chain = Chain(told, statement.rels[: len(told) - 1], statement.span)
    return None if facts(chain).hole else chain


def _asked(side: Expr) -> bool:
    return isinstance(side, Hole) or (isinstance(side, Measure) and isinstance(side.inner, Hole))


def answers_a_hole(above: Statement | None) -> bool:
    """Tell whether a number alone answers the line above: ``19`` under ``12/13 + 7/8 = ?``."""
    return isinstance(above, Chain) and HOLE in statement_names(above)


def hole_named(statement: Statement) -> Statement:
    """Return a line in which the question mark is the unknown: ``8 + 4 = ? + 5``."""
    return changed(statement, lambda node: Name(HOLE, node.span) if isinstance(node, Hole) else node)
