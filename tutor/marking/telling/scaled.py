"""Whether a whole side was multiplied or divided, seen from its terms."""

from tutor.line.tree import Add, Expr, Mul, Name, Num
from tutor.marking.telling.kept import Side
from tutor.marking.telling.moves import rational_of
from tutor.marking.telling.moving import own_op


def is_scaled(before: Side, after: Side) -> bool:
    """``½x − ⅔``, then ``3x − 4``: every term of a sum got the same factor, a whole number or one over it."""
    sums = isinstance(before.expr, Add) and isinstance(after.expr, Add)
    if not sums and not (_is_term(before.expr) and _is_term(after.expr)):
        return False
    if before.full is None or after.full is None:
        return False
    op = own_op(before.full, after.full)
    factor = None if op is None or op.factor is None or op.cost else rational_of(op.factor)
    return factor is not None and 1 in (abs(factor.numerator), factor.denominator) and factor != -1


def _is_term(expr: Expr) -> bool:
    """``x`` and ``2x``, with nothing in them that could have been worked out wrongly."""
    if isinstance(expr, Mul) and len(expr.factors) == 2 and isinstance(expr.factors[0], Num):
        expr = expr.factors[1]
    return isinstance(expr, Name)
