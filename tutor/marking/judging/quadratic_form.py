"""Equations of quadratic form: ``u² − 13u + 36 = 0`` below ``x⁴ − 13x² + 36 = 0``.

Books say beside the line what u stands for, and many students do not say it at all. Where the line is
the one above with u in the place of x², of √x or of a sum in brackets, this is what u stands for.
"""

from collections.abc import Iterator
from dataclasses import replace

from tutor.line.keys import expr_key
from tutor.line.tree import Add, Chain, Div, Expr, Name, Neg, Num, Pow, Rel, Root, Statement, whole_number
from tutor.line.walk import every, line_with_names, names_in, sides
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.follow import How, search
from tutor.marking.deciding.state import Known

MAX_TRIED = 6


def with_substitution(known: Known, statement: Statement) -> Known:
    """Return what is known with the meaning of a new letter, where the line shows it; else as it is."""
    names = statement_names(statement)
    if len(names) != 1 or known.base is None or len(known.base.premises) != 1 or not known.above:
        return known
    (new,) = names
    old = statement_names(known.base.premises[0])
    if new in old or new in known.context.names.known or len(old) != 1 or not _is_squared(statement, new):
        return known
    for value in _stood_for(known, min(old)):
        if search(known, line_with_names(statement, {new: value}), (known.base,)).how is How.FOLLOWS:
            context = replace(known.context, names=known.context.names.joined({new}))
            told = Chain((Name(new), value), (Rel.EQ,))
            return replace(known, context=context, base=known.base.extended(told))
    return known


def _is_squared(statement: Statement, name: str) -> bool:
    """The letter stands there twice, once squared."""
    if not isinstance(statement, Chain) or statement.rels != (Rel.EQ,):
        return False
    nodes = [node for side in statement.sides for node in every(side)]
    squares = [node for node in nodes if isinstance(node, Pow) and names_in(node) == {name}]
    return bool(squares) and sum(isinstance(node, Name) for node in nodes) > 1


def _stood_for(known: Known, name: str) -> Iterator[Expr]:
    """Yield what is squared in the lines above, the roots and powers that stand there, and the square."""
    found: dict[object, Expr] = {}
    for _, line in known.above:
        for node in (node for side in sides(line) for node in every(side)):
            if not names_in(node):
                continue
            match node:
                case Pow(Add() | Pow() | Root() as base, _):
                    found.setdefault(expr_key(base), base)
                case Pow(_, Num()):
                    pass
                case Pow(_, Neg() | Div()) | Root():
                    found.setdefault(expr_key(node), node)
                case _:
                    pass
    square = Pow(Name(name), whole_number(2))
    found.setdefault(expr_key(square), square)
    yield from list(found.values())[:MAX_TRIED]
