"""What stands above a typed line: each line or premise that a wrong move may have begun from."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from tutor.line.tree import Chain, Expr, Name, Statement
from tutor.line.walk import changed, names_in, statement_names
from tutor.marking.state import Known

MAX_ABOVE = 6


@dataclass(frozen=True, slots=True)
class Above:
    """A statement above, and what it costs to begin from it (0: the line right above)."""

    statement: Statement
    cost: int


def statements_above(known: Known) -> Iterator[Above]:
    """Yield the line above, then earlier lines, premises, and these with the given values put in."""
    lines = [line for _, line in reversed(known.above)]
    premises = list(known.base.premises) if known.base is not None else []
    first = known.base is None or not lines
    seen: list[Statement] = []
    for at, statement in enumerate([*lines[:MAX_ABOVE], *premises[:MAX_ABOVE]]):
        if not any(statement is other for other in seen):
            seen.append(statement)
            yield Above(statement, 0 if at == 0 or first else 1)
    if known.broken and (not known.above or known.broken[-1][0] > known.above[-1][0]):
        # A line that goes on from a broken one may hold a slip of its own.
        yield Above(known.broken[-1][1], 1)
    values = _values_told([*lines, *premises])
    if not values:
        return
    for statement in seen:
        if isinstance(statement, Chain) and statement.sides[0] in _heads(values):
            continue
        if statement_names(statement) & values.keys():
            yield Above(_put_in(statement, values), 1)


def _values_told(statements: list[Statement]) -> dict[str, Expr]:
    """The names that a line or a premise gives as a number."""
    found: dict[str, Expr] = {}
    for statement in statements:
        if isinstance(statement, Chain) and len(statement.sides) == 2 and statement.rels[0].equates:
            name, value = statement.sides
            if isinstance(name, Name) and not names_in(value):
                found.setdefault(name.name, value)
    return found


def _heads(values: dict[str, Expr]) -> list[Expr]:
    return [Name(name) for name in values]


def _put_in(statement: Statement, values: dict[str, Expr]) -> Statement:
    """A value keeps the place of its letter, so that it can be told from a typed number."""

    def change(node: Expr) -> Expr:
        if isinstance(node, Name) and node.name in values:
            return replace(values[node.name], span=node.span)
        return node

    return changed(statement, change)
