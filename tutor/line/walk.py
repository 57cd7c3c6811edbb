"""Going through a tree: its parts, the names in it, a changed copy of it."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from operator import attrgetter
from typing import Any, assert_never

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


def _nothing(_leaf: object) -> tuple[Expr, ...]:
    return ()


def _inner(node: Neg | Root | Abs | Percent | Measure) -> tuple[Expr, ...]:
    return (node.inner,)


# One row for each kind of node, looked up by its type: trees are walked on every line, many times.
PARTS: dict[type, Callable[[Any], tuple[Expr, ...]]] = {
    Num: _nothing,
    Name: _nothing,
    PiSign: _nothing,
    Hole: _nothing,
    Neg: _inner,
    Root: _inner,
    Abs: _inner,
    Percent: _inner,
    Measure: _inner,
    Add: attrgetter("terms"),
    Mul: attrgetter("factors"),
    Div: lambda node: (node.top, node.bottom),
    Pow: lambda node: (node.base, node.exponent),
    PlusMinus: lambda node: (node.right,) if node.left is None else (node.left, node.right),
}


def parts(expr: Expr) -> tuple[Expr, ...]:
    """Return the expressions directly inside one."""
    return PARTS[type(expr)](expr)


def every(expr: Expr) -> Iterator[Expr]:
    """Yield an expression and everything inside it, outermost first."""
    waiting = [expr]
    while waiting:
        node = waiting.pop()
        yield node
        inside = PARTS[type(node)](node)
        if inside:
            waiting += inside[::-1]


def rebuilt(expr: Expr, change: Callable[[Expr], Expr]) -> Expr:
    """Return a copy with ``change`` applied to every node, innermost first."""
    match expr:
        case Num() | Name() | PiSign() | Hole():
            return change(expr)
        case Neg() | Root() | Abs() | Percent() | Measure():
            return change(replace(expr, inner=rebuilt(expr.inner, change)))
        case Add(terms):
            return change(replace(expr, terms=tuple(rebuilt(term, change) for term in terms)))
        case Mul(factors):
            return change(replace(expr, factors=tuple(rebuilt(factor, change) for factor in factors)))
        case Div(top, bottom):
            return change(replace(expr, top=rebuilt(top, change), bottom=rebuilt(bottom, change)))
        case Pow(base, exponent):
            return change(replace(expr, base=rebuilt(base, change), exponent=rebuilt(exponent, change)))
        case PlusMinus(left, right):
            kept = None if left is None else rebuilt(left, change)
            return change(replace(expr, left=kept, right=rebuilt(right, change)))
        case _:
            assert_never(expr)


def sides(statement: Statement) -> tuple[Expr, ...]:
    """Return the expressions that stand in a statement, from left to right."""
    match statement:
        case Chain(sides=found) | Onward(sides=found):
            return found
        case Bare(expr):
            return (expr,)
        case Joined(parts=several):
            return tuple(side for part in several for side in sides(part))
        case Said() | Note():
            return ()
        case _:
            assert_never(statement)


def names_in(*exprs: Expr) -> frozenset[str]:
    """Return the names that stand in some expressions."""
    found = set()
    waiting = list(exprs)
    while waiting:
        node = waiting.pop()
        if type(node) is Name:
            found.add(node.name)
        else:
            waiting += PARTS[type(node)](node)
    return frozenset(found)


def statement_names(statement: Statement) -> frozenset[str]:
    """Return the names that stand in a statement."""
    return names_in(*sides(statement))


def changed(statement: Statement, change: Callable[[Expr], Expr]) -> Statement:
    """Return a copy of a statement with ``change`` applied to every node of every side."""
    match statement:
        case Chain() | Onward():
            return replace(statement, sides=tuple(rebuilt(side, change) for side in statement.sides))
        case Bare(expr):
            return replace(statement, expr=rebuilt(expr, change))
        case Joined(parts=several):
            made = tuple(changed(part, change) for part in several)
            kept = tuple(part for part in made if isinstance(part, Chain | Onward | Bare))
            return replace(statement, parts=kept)
        case Said() | Note():
            return statement
        case _:
            assert_never(statement)


def with_names(expr: Expr, told: Mapping[str, Expr]) -> Expr:
    """Return an expression with what names stand for in their place, each as it is told."""
    return rebuilt(expr, _replacing(told))


def line_with_names(statement: Statement, told: Mapping[str, Expr]) -> Statement:
    """Return the same of every side of a statement."""
    return changed(statement, _replacing(told))


def _replacing(told: Mapping[str, Expr]) -> Callable[[Expr], Expr]:
    return lambda node: told.get(node.name, node) if isinstance(node, Name) else node
