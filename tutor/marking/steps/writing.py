"""Writing a tree the way a teacher writes it: ``3x + 15``, ``2(x + 5)``, ``6.28r``, ``2 · 3.14 · 25``."""

from itertools import pairwise
from typing import assert_never

from tutor.line.keys import statement_key
from tutor.line.meaning import value_of
from tutor.line.names import Names
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.reader import Unread, read
from tutor.line.tree import (
    Abs,
    Add,
    Bare,
    Chain,
    Div,
    Expr,
    Hole,
    Joined,
    Joiner,
    Measure,
    Mul,
    Name,
    Neg,
    Num,
    Percent,
    PiSign,
    PlusMinus,
    Pow,
    Root,
    Statement,
)
from tutor.line.walk import sides
from tutor.line.writing import Rank, rank, write_expr, write_statement

_ROOTS = {2: "√", 3: "∛"}


def _wrapped(expr: Expr, least: Rank) -> str:
    text = written(expr)
    return text if rank(expr) >= least else f"({text})"


def _so_many_pi(expr: Expr) -> bool:
    """Tell whether an expression is ``400π``, which needs no bracket before a unit."""
    return (
        isinstance(expr, Mul)
        and len(expr.factors) == 2
        and isinstance(expr.factors[0], Num)
        and (isinstance(expr.factors[1], PiSign))
    )


def written(expr: Expr) -> str:
    """Return an expression as a teacher writes it on one row."""
    match expr:
        case Num(_, text):
            return text
        case Neg(inner):
            return "−" + _wrapped(inner, Rank.PRODUCT)
        case Add(terms):
            return _sum(terms)
        case Mul(factors):
            return _product(factors)
        case Div(top, bottom):
            above = _product(top.factors) if isinstance(top, Mul) else _wrapped(top, Rank.FACTOR)
            return f"{above}/{_wrapped(bottom, Rank.FACTOR)}"
        case Pow(base, exponent):
            return f"{_wrapped(base, Rank.POWER)}^{_wrapped(exponent, Rank.POWER)}"
        case Root(index, inner) if index in _ROOTS:
            return f"{_ROOTS[index]}{_wrapped(inner, Rank.POWER)}"
        case Abs(inner):
            return f"|{written(inner)}|"
        case PlusMinus(left, right):
            plain = (
                written(left)
                if isinstance(left, Neg)
                else ""
                if left is None
                else _wrapped(left, Rank.PRODUCT)
            )
            before = f"{plain} " if plain else ""
            return f"{before}±{'' if left is None else ' '}{_wrapped(right, Rank.PRODUCT)}"
        case Percent(inner):
            return _wrapped(inner, Rank.POWER) + "%"
        case Measure(inner, unit) if _plain_fraction(inner) or _so_many_pi(inner):
            return f"{written(inner)} {unit}"
        case Name() | PiSign() | Hole() | Root() | Measure():
            return write_expr(expr)
        case _:
            assert_never(expr)


def _sum(terms: tuple[Expr, ...]) -> str:
    text = _wrapped(terms[0], Rank.PRODUCT) if not isinstance(terms[0], Neg) else written(terms[0])
    for term in terms[1:]:
        inner = term.inner if isinstance(term, Neg) else term
        text += f" {'−' if isinstance(term, Neg) else '+'} {_wrapped(inner, Rank.PRODUCT)}"
    return text


def _product(factors: tuple[Expr, ...]) -> str:
    """A number stands tight before a letter or a bracket; a dot stands between numbers."""
    several = sum(isinstance(one, Num) or _plain_fraction(one) for one in factors) > 1
    first = factors[0]
    text = written(first) if isinstance(first, Div) and _bare(first) else _wrapped(first, Rank.FACTOR)
    for before, factor in pairwise(factors):
        piece = written(factor) if _plain_fraction(factor) else _wrapped(factor, Rank.FACTOR)
        tight = _tight(before, factor, piece) and not (several and isinstance(before, Num))
        text += piece if tight else f" · {piece}"
    return text


def _bare(quotient: Div) -> bool:
    return all(isinstance(part, Num | Name) for part in (quotient.top, quotient.bottom))


def _plain_fraction(expr: Expr) -> bool:
    return isinstance(expr, Div) and isinstance(expr.top, Num) and isinstance(expr.bottom, Num)


def _tight(before: Expr, factor: Expr, piece: str) -> bool:
    if piece[0].isdigit() or piece[0] == ".":
        return False
    if isinstance(before, Num):
        # A negative number in brackets reads better behind a dot: 2 · (−3).
        return not (isinstance(factor, Neg | Div | Num))
    letters = (Name, PiSign, Pow)
    if isinstance(before, letters) and isinstance(factor, letters):
        return all(len(_letter(one)) == 1 for one in (before, factor))
    return isinstance(before, (*letters, Add)) and isinstance(factor, Add)


def _letter(expr: Expr) -> str:
    inner = expr.base if isinstance(expr, Pow) else expr
    return inner.name if isinstance(inner, Name) else "π"


def line_text(statement: Statement, names: Names) -> str:
    """Return a whole line; where the short writing would be read otherwise, every sign is written."""
    text = _line(statement)
    found = read(text, names)
    if not isinstance(found, Unread) and _alike(found.statements[0], statement):
        return text
    return write_statement(statement)


def _line(statement: Statement) -> str:
    match statement:
        case Bare(expr):
            return written(expr)
        case Chain(several, rels):
            text = written(several[0])
            for rel, side in zip(rels, several[1:], strict=True):
                text += f" {rel.value} {written(side)}"
            return text
        case Joined(joiner, parts):
            between = ", " if joiner is Joiner.COMMA else f" {joiner.value} "
            return between.join(_line(part) for part in parts)
        case _:
            return write_statement(statement)


def _alike(read_back: Statement, meant: Statement) -> bool:
    if statement_key(read_back) == statement_key(meant):
        return True
    there, here = sides(read_back), sides(meant)
    if type(read_back) is not type(meant) or len(there) != len(here):
        return False
    try:
        return all(value_of(a).same(value_of(b)) for a, b in zip(there, here, strict=True))
    except (NotExact, DividedByZero):
        return False
