"""Whether a whole side was multiplied or divided, seen from its terms."""

from tutor.line.tree import Add
from tutor.marking.telling.kept import Side
from tutor.marking.telling.moves import rational_of
from tutor.marking.telling.moving import own_op


def is_scaled(before: Side, after: Side) -> bool:
    """``½x − ⅔``, then ``3x − 4``: every term of a sum got the same factor, a whole number or one over it."""
    if not isinstance(before.expr, Add) or not isinstance(after.expr, Add):
        return False
    if before.full is None or after.full is None:
        return False
    op = own_op(before.full, after.full)
    factor = None if op is None or op.factor is None or op.cost else rational_of(op.factor)
    return factor is not None and 1 in (abs(factor.numerator), factor.denominator) and factor != -1
