"""Numbers put into a formula when the givens are told nowhere else.

Where the first line is a formula and no givens are known, ``178 = P(0.04)(2)`` under
``I = Prt`` says itself what I, r and t are.
"""

import itertools

from tutor.line.keys import expr_key
from tutor.line.tree import Add, Chain, Div, Expr, Measure, Mul, Name, Neg, Num, PiSign, Pow, Rel, Root
from tutor.line.walk import names_in
from tutor.quantity.pi import SHOWN_FOR_PI

MAX_IN_ANY_ORDER = 4


def values_put_in(formula: Chain, line: Chain) -> tuple[Chain, ...] | None:
    """Return what each name of the formula was given, None where the line is no instance of it."""
    if len(formula.sides) != 2 or len(line.sides) != 2 or not line.rels[0].equates:
        return None
    bound: dict[str, Expr] = {}
    own = names_in(*formula.sides)
    if not all(
        _match(pattern, expr, bound, own) for pattern, expr in zip(formula.sides, line.sides, strict=True)
    ):
        return None
    told = {
        name: value for name, value in bound.items() if not (isinstance(value, Name) and value.name == name)
    }
    if not told:
        return None
    return tuple(Chain((Name(name), value), (Rel.EQ,)) for name, value in told.items())


def _match_in_some_order(
    patterns: tuple[Expr, ...], others: tuple[Expr, ...], bound: dict[str, Expr], own: frozenset[str]
) -> bool:
    """``A = 5^2 · 3.14`` is an instance of ``A = πr²``; the order as written is tried first."""
    orders = itertools.permutations(others) if len(others) <= MAX_IN_ANY_ORDER else iter([others])
    for order in orders:
        tried = dict(bound)
        if all(_match(pattern, expr, tried, own) for pattern, expr in zip(patterns, order, strict=True)):
            bound.update(tried)
            return True
    return False


def _match(pattern: Expr, expr: Expr, bound: dict[str, Expr], own: frozenset[str]) -> bool:
    match pattern, expr:
        case Name(name), _:
            if isinstance(expr, Add) or (names_in(expr) and not isinstance(expr, Name)):
                return False
            if isinstance(expr, Name) and expr.name != name and expr.name in own:
                return False  # "b² = c² + a²" under "c² = a² + b²" gives the letters each other's places
            if name in bound:
                return expr_key(bound[name]) == expr_key(expr)
            bound[name] = expr
            return True
        case Measure(inner, _), _:
            return _match(inner, expr, bound, own)
        case PiSign(), (PiSign() | Measure()):
            return isinstance(expr, PiSign)
        case PiSign(), Num(value):
            return value in SHOWN_FOR_PI
        case PiSign(), Div(Num(top), Num(bottom)):
            return bool(bottom) and top / bottom in SHOWN_FOR_PI
        case Num(value), Num(other):
            return value == other
        case (Add(parts), Add(others)) | (Mul(parts), Mul(others)):
            return len(parts) == len(others) and _match_in_some_order(parts, others, bound, own)
        case Div(top, bottom), Div(other_top, other_bottom):
            return _match(top, other_top, bound, own) and _match(bottom, other_bottom, bound, own)
        case Pow(base, exponent), Pow(other_base, other_exponent):
            return _match(base, other_base, bound, own) and _match(exponent, other_exponent, bound, own)
        case Neg(inner), Neg(other):
            return _match(inner, other, bound, own)
        case Root(index, inner), Root(other_index, other):
            return index == other_index and _match(inner, other, bound, own)
        case _, Measure(other, _):
            return _match(pattern, other, bound, own)
        case _:
            return False
