"""Names of one's own for what no sum can hold: ``u = √x``, ``u = x^(1/3)``, ``u = 1/x``.

Such a name cannot be used up like other definitions. What it stands for is put in its place instead.
"""

from typing import TypeAlias

from tutor.line.tree import Chain, Div, Expr, Name, Num, Pow, Rel, Root, Statement
from tutor.line.walk import every, line_with_names, names_in
from tutor.marking.deciding.facts import statement_names

# The places that the premises had, the premises that are left, the line.
PutIn: TypeAlias = tuple[tuple[int, ...], tuple[Statement, ...], Statement]


def put_in(premises: tuple[Statement, ...], statement: Statement) -> PutIn | None:
    """Return premises and line with such names replaced; None where there are none.

    The definitions are left out.
    """
    if len(premises) < 2:
        return None
    found = [None, *map(_defined, premises[1:])]
    stands_for = dict(each for each in found if each is not None)
    if not stands_for:
        return None

    def replaced(line: Statement) -> Statement:
        return line_with_names(line, stands_for) if statement_names(line) & stands_for.keys() else line

    places = tuple(at for at, each in enumerate(found) if each is None)
    return places, tuple(replaced(premises[at]) for at in places), replaced(statement)


def _defined(premise: Statement) -> tuple[str, Expr] | None:
    if not isinstance(premise, Chain) or premise.rels != (Rel.EQ,):
        return None
    name, value = premise.sides
    if not isinstance(name, Name) or name.name in names_in(value) or not any(map(_no_sum, every(value))):
        return None
    return name.name, value


def _no_sum(node: Expr) -> bool:
    """A root of names, a quotient by names, a power that is no whole number."""
    match node:
        case Root(_, inner) | Div(_, inner):
            return bool(names_in(inner))
        case Pow(base, exponent):
            whole = isinstance(exponent, Num) and exponent.value.denominator == 1
            return bool(names_in(base)) and not whole
        case _:
            return False
