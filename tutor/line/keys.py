"""The same writing up to the order of terms and factors."""

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


def expr_key(expr: Expr) -> str:
    """Return a text that is equal for two expressions alike up to order."""
    match expr:
        case Num(value):
            return str(value)
        case Name(name):
            return f"n:{name}"
        case PiSign():
            return "π"
        case Hole():
            return "?"
        case Neg(inner):
            return f"neg({expr_key(inner)})"
        case Add(terms):
            return f"add({','.join(sorted(map(expr_key, _flat(terms, Add))))})"
        case Mul(factors):
            return f"mul({','.join(sorted(map(expr_key, _flat(factors, Mul))))})"
        case Div(top, bottom):
            return f"div({expr_key(top)},{expr_key(bottom)})"
        case Pow(base, exponent):
            return f"pow({expr_key(base)},{expr_key(exponent)})"
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


def _flat(parts: tuple[Expr, ...], kind: type) -> list[Expr]:
    flat: list[Expr] = []
    for part in parts:
        if isinstance(part, Add | Mul) and isinstance(part, kind):
            flat += _flat(part.terms if isinstance(part, Add) else part.factors, kind)
        else:
            flat.append(part)
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
