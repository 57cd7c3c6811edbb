"""Whether an expression kept its value."""

from dataclasses import replace

from tutor.line.meaning import Setting, value_of
from tutor.line.poly import NotExact
from tutor.line.tree import Bare, Chain, Expr
from tutor.line.walk import sides
from tutor.marking.deciding.claim import split_signs
from tutor.marking.deciding.facts import facts
from tutor.marking.deciding.plainer import lifted_by_domain


def keeps_value(before: Bare, after: Bare, setting: Setting) -> bool | None:
    """Tell whether an expression kept its value; None where that cannot be told here."""
    try:
        return _same_cases(before, after, setting)
    except NotExact:
        pass
    lifted = lifted_by_domain(before, after)
    if lifted is None:
        return None
    try:
        return _same_cases(lifted[0], lifted[1], replace(setting, positive=lifted[2]))
    except NotExact:
        return None


def _same_cases(before: Bare, after: Bare, setting: Setting) -> bool:
    old, new = ([value_of(case, setting) for case in _cases(bare)] for bare in (before, after))
    return all(any(a.same(b) for b in new) for a in old) and all(any(a.same(b) for b in old) for a in new)


def _cases(bare: Bare) -> list[Expr]:
    """The values that an expression stands for: two where a ± is in it."""
    if not facts(bare).either_sign:
        return [bare.expr]
    equation = Chain((bare.expr,), ())
    return [side for part in split_signs(equation) for side in sides(part)]
