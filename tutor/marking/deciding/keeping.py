"""Whether an expression kept its value."""

from tutor.line.meaning import Setting, value_of
from tutor.line.poly import NotExact
from tutor.line.tree import Bare, Chain, Expr
from tutor.line.walk import sides
from tutor.marking.deciding.by_signs import Kept, kept_by_signs
from tutor.marking.deciding.claim import split_signs
from tutor.marking.deciding.facts import facts


def keeps_value(before: Bare, after: Bare, setting: Setting) -> Kept | None:
    """Tell whether an expression kept its value; None where that cannot be told here."""
    try:
        return Kept.ALWAYS if _same_cases(before, after, setting) else Kept.NOT
    except NotExact:
        return kept_by_signs(before.expr, after.expr, setting)


def _same_cases(before: Bare, after: Bare, setting: Setting) -> bool:
    old, new = ([value_of(case, setting) for case in _cases(bare)] for bare in (before, after))
    return all(any(a.same(b) for b in new) for a in old) and all(any(a.same(b) for b in old) for a in new)


def _cases(bare: Bare) -> list[Expr]:
    """The values that an expression stands for: two where a ± is in it."""
    if not facts(bare).either_sign:
        return [bare.expr]
    equation = Chain((bare.expr,), ())
    return [side for part in split_signs(equation) for side in sides(part)]
