"""A side of a line with its value, and the words for a side that kept its value."""

from collections.abc import Mapping
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from types import MappingProxyType

from tutor.line.keys import expr_key
from tutor.line.meaning import PLAIN, Setting, value_of
from tutor.line.poly import DividedByZero, NotExact, Ratio
from tutor.line.tree import Add, Div, Expr, Measure, Mul, Num, PiSign, Pow, Root
from tutor.line.walk import every, names_in
from tutor.marking.deciding.elimination import put_in
from tutor.marking.deciding.radicals import squared
from tutor.marking.telling.moves import say
from tutor.marking.telling.quoting import quote

Given = Mapping[str, Ratio]
NOTHING: Given = MappingProxyType({})
STAYED = "stayed"


@dataclass(frozen=True, slots=True)
class Side:
    """A side with its value (None: it has none here), and its value with what is given put in."""

    expr: Expr
    value: Ratio | None
    full: Ratio | None


def side_value(side: Expr, setting: Setting) -> Ratio | None:
    """Return the value of a side, None where it has no exact one."""
    try:
        return value_of(side, setting)
    except DividedByZero:
        return None
    except NotExact:
        return _root_squared(side, setting)


def _root_squared(side: Expr, setting: Setting) -> Ratio | None:
    """``(√(x + 6))²`` is x + 6, although the root by itself has no value here."""
    if not isinstance(side, Pow) or not isinstance(side.exponent, Num) or side.exponent.value != 2:
        return None
    try:
        return squared(side.base, setting) if isinstance(side.base, Root | Mul) else None
    except (NotExact, DividedByZero):
        return None


def with_given(value: Ratio, given: Given, names: AbstractSet[str]) -> Ratio | None:
    """Return a value with what is given put in for some names."""
    try:
        for name in names & value.names():
            top, bottom = put_in(value.above, name, given[name]), put_in(value.below, name, given[name])
            value = top.over(bottom)
        return value
    except (NotExact, DividedByZero):
        return None


def kept_words(before: Side, after: Side, setting: Setting) -> str:
    """Return how a side was written anew without another value."""
    if expr_key(before.expr) == expr_key(after.expr):
        return STAYED
    if before.value is None or after.value is None or not before.value.same(after.value):
        return _put_in_words(before, after)
    if setting.pi is not None and _has(before.expr, PiSign) and not _has(after.expr, PiSign):
        return f"{say(setting.pi)} put in for π"
    if (
        isinstance(after.expr, Measure)
        and not isinstance(before.expr, Measure)
        and before.expr == after.expr.inner
    ):
        return "its unit written"
    was, now = _has_sum_times(before.expr), _has_sum_times(after.expr)
    letters = bool(before.value.names())
    if letters and now and not was:
        return "written as a product"
    if letters and was and not now and not any(isinstance(node, Div) for node in every(before.expr)):
        return "multiplied out"
    if letters and not now and isinstance(before.expr, Add) and _terms(after.expr) < _terms(before.expr):
        return "like terms put together"
    if _size(after.expr) < _size(before.expr):
        return "worked out"
    return "written another way"


def _put_in_words(before: Side, after: Side) -> str:
    """``8 put in for L``: short names and values only, else that numbers were put in."""
    gone = sorted(names_in(before.expr) - names_in(after.expr))
    came = names_in(after.expr) - names_in(before.expr)
    if len(gone) == 1 and not came and before.value is not None and after.value is not None:
        found = [
            node
            for node in every(after.expr)
            if isinstance(node, Num | Measure) and _stands_for(gone[0], node, before, after)
        ]
        if found:
            return f"{quote(found[0])} put in for {gone[0]}"
    if gone and not came:
        return "numbers put in for the letters" if len(gone) > 1 else f"a number put in for {gone[0]}"
    if gone and len(gone) <= 2:
        return f"{' and '.join(gone)} written out"
    return "one name put in for another"


def _stands_for(name: str, node: Expr, before: Side, after: Side) -> bool:
    """Tell whether putting a number of the new side in the place of a name gives the new side."""
    value = side_value(node, PLAIN)
    if value is None or before.value is None or after.value is None:
        return False
    made = with_given(before.value, {name: value}, {name})
    return made is not None and made.same(after.value)


def _has(expr: Expr, kind: type[PiSign]) -> bool:
    return any(isinstance(node, kind) for node in every(expr))


def _has_sum_times(expr: Expr) -> bool:
    """Tell whether a bracket with a sum in it is multiplied: ``2(x + 5)``, ``(x + 5)²``."""
    for node in every(expr):
        factors = node.factors if isinstance(node, Mul) else (node.base,) if isinstance(node, Pow) else ()
        if any(isinstance(factor, Add) for factor in factors):
            return True
    return False


def _terms(expr: Expr) -> int:
    return len(expr.terms) if isinstance(expr, Add) else 1


def _size(expr: Expr) -> int:
    return sum(1 for _ in every(expr))
