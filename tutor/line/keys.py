"""The same writing up to the order of terms and factors."""

from collections.abc import Sequence
from typing import assert_never

from tutor.line.tree import (
    Abs,
    Add,
    Bare,
    Chain,
    Div,
    Expr,
    Hole,
    Joined,
    Measure,
    Mul,
    Name,
    Neg,
    Note,
    Num,
    Onward,
    Percent,
    PiSign,
    PlusMinus,
    Pow,
    Root,
    Said,
    Statement,
)
from tutor.line.walk import parts


def expr_key(expr: Expr) -> str:
    """Return a text that is equal for two expressions alike up to order."""
    match expr:
        case Num(value):
            return (
                str(value.numerator) if value.denominator == 1 else f"{value.numerator}/{value.denominator}"
            )
        case Name(name):
            return f"n:{name}"
        case Mul(factors):
            return f"mul({','.join(sorted([expr_key(each) for each in _flat(factors, Mul)]))})"
        case Add(terms):
            return f"add({','.join(sorted([expr_key(each) for each in _flat(terms, Add)]))})"
        case Neg(inner):
            return f"neg({expr_key(inner)})"
        case Div(top, bottom):
            return f"div({expr_key(top)},{expr_key(bottom)})"
        case Pow(base, exponent):
            return f"pow({expr_key(base)},{expr_key(exponent)})"
        case PiSign():
            return "π"
        case Hole():
            return "?"
        case Root(index, inner):
            return f"root{index}({expr_key(inner)})"
        case Abs(inner):
            return f"abs({expr_key(inner)})"
        case PlusMinus(left, right):
            return f"pm({'' if left is None else expr_key(left)},{expr_key(right)})"
        case Percent(inner):
            return f"pct({expr_key(inner)})"
        case Measure(inner, unit):
            return f"unit({expr_key(inner)},{unit})"
        case _:
            assert_never(expr)


def _flat(inside: tuple[Expr, ...], kind: type[Add] | type[Mul]) -> Sequence[Expr]:
    """Return the terms or factors with those of sums in sums, products in products, taken out."""
    for part in inside:
        if type(part) is kind:
            break
    else:
        return inside
    flat: list[Expr] = []
    for part in inside:
        flat += _flat(parts(part), kind) if type(part) is kind else (part,)
    return flat


def statement_key(statement: Statement) -> str:
    """Return a text that is equal for two lines alike up to the order of terms and factors."""
    match statement:
        case Bare(expr):
            return expr_key(expr)
        case Chain(sides, rels):
            return "".join(
                expr_key(side) + rel.value for side, rel in zip(sides, rels, strict=False)
            ) + expr_key(sides[-1])
        case Onward(rels, sides):
            return "".join(rel.value + expr_key(side) for rel, side in zip(rels, sides, strict=True))
        case Joined(joiner, parts):
            return f" {joiner.value} ".join(map(statement_key, parts))
        case Said(phrase):
            return phrase.value
        case Note():
            return "note"
        case _:
            assert_never(statement)
