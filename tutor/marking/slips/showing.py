"""The smallest part of the typed line that shows what was changed."""

from tutor.line.tree import Add, Expr, Mul, Neg, Span
from tutor.marking.slips.spots import Values


def changed_part(old: Expr, new: Expr, values: Values) -> Span:
    """Return the span of what in ``new`` has no counterpart of the same value in ``old``."""
    if isinstance(new, Neg) and isinstance(old, Neg):
        return changed_part(old.inner, new.inner, values)
    before, after = _parts(old), _parts(new)
    if before is None or after is None or type(old) is not type(new):
        return new.span
    left = list(before)
    changed: list[Expr] = []
    for part in after:
        twin = next((other for other in left if _same(other, part, values)), None)
        if twin is None:
            changed.append(part)
        else:
            left.remove(twin)
    if not changed:
        return new.span
    if len(changed) == 1 and len(left) == 1:
        return changed_part(left[0], changed[0], values)
    return (changed[0].span[0], changed[-1].span[1])


def _parts(expr: Expr) -> tuple[Expr, ...] | None:
    if isinstance(expr, Add):
        return expr.terms
    return expr.factors if isinstance(expr, Mul) else None


def _same(old: Expr, new: Expr, values: Values) -> bool:
    was, now = values.of(old), values.of(new)
    return was is not None and now is not None and was.same(now)
