"""Squares and roots of what has no exact value here: ``√(x + 6) = x``, ``x = ±9``, ``|x − 3| = 5``."""

from tutor.line.keys import expr_key
from tutor.line.meaning import Setting
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Abs, Expr, PlusMinus
from tutor.marking.deciding.radicals import squared
from tutor.marking.telling.kept import Side, side_value
from tutor.marking.telling.moves import Op


def rooted_on_both(pairs: list[tuple[Side, Side]], setting: Setting) -> tuple[tuple[str, ...], Op] | None:
    """Return the words for each side and the move that was made on both, None where there was none."""
    if len(pairs) != 2:
        return None
    if all(is_squared(old.expr, new, setting) for old, new in pairs):
        return ("squared", "squared"), Op(power=2)
    if isinstance(pairs[0][0].expr, Abs) and expr_key(pairs[0][0].expr.inner) == expr_key(pairs[0][1].expr):
        right = pairs[1][1].expr
        if isinstance(right, PlusMinus) and right.left is None and right.right == pairs[1][0].expr:
            return ("bars taken off", "+ and − written"), Op()
    words = tuple(_rooted(old, new, setting) for old, new in pairs)
    return (words, Op(root=2)) if all(words) and "square root taken" in words else None


def is_squared(old: Expr, new: Side, setting: Setting) -> bool:
    """Tell whether a side is the square of the side above: ``x + 1`` below ``√(x + 1)``."""
    if new.value is None:
        return False
    try:
        return squared(old, setting).same(new.value)
    except (NotExact, DividedByZero):
        return False


def _rooted(old: Side, new: Side, setting: Setting) -> str:
    """Return how a side is the root of the side above, "" where it is not."""
    both = isinstance(new.expr, PlusMinus) and new.expr.left is None
    inner = new.expr.right if isinstance(new.expr, PlusMinus) else new.expr
    value = side_value(inner, setting)
    if value is None or old.value is None or not (value * value).same(old.value):
        return ""
    return "square root taken, + and −" if both else "square root taken"
