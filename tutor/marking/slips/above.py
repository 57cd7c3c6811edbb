"""What stands above a typed line: each line or premise that a wrong move may have begun from."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from tutor.line.tree import Chain, Expr, Measure, Name, Statement
from tutor.line.walk import changed, every, names_in, rebuilt, sides
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.state import Known

MAX_ABOVE = 6


@dataclass(frozen=True, slots=True)
class Above:
    """A statement above, and what it costs to begin from it (0: the line right above)."""

    statement: Statement
    cost: int


def statements_above(known: Known, typed: Statement) -> Iterator[Above]:
    """Yield what is right above and that with the given values put in, then the same of all else above.

    Where no line was typed yet, all premises are right above.
    """
    lines = [line for _, line in reversed(known.above)]
    premises = list(known.base.premises) if known.base is not None else []
    near = lines[:1] or premises[:MAX_ABOVE]
    yield from (Above(statement, 0) for statement in near)
    told = _told(known)
    yield from (Above(statement, 0) for statement in _with_values(near, told, typed))
    far: list[Statement] = []
    earlier = [*lines[1:MAX_ABOVE], *premises[:MAX_ABOVE]]
    if in_one_thread(known, typed):
        earlier = [one for one in premises[:MAX_ABOVE] if not any(one is line for line in lines)]
    for statement in earlier:
        if not any(statement is other for other in (*near, *far)):
            far.append(statement)
            yield Above(statement, 1)
    if known.broken and (not known.above or known.broken[-1][0] > known.above[-1][0]):
        # A line that goes on from a broken one may hold a slip of its own.
        yield Above(known.broken[-1][1], 1)
    yield from (Above(statement, 1) for statement in _with_values(far, told, typed))


def in_one_thread(known: Known, typed: Statement) -> bool:
    """Tell whether a line goes on with what the line right above is about, and not with a line before it.

    What was worked out right on the way is nothing to go wrong with once more.
    """
    if not known.above:
        return False
    near = known.above[-1][1]
    return type(near) is type(typed) and statement_names(near) == statement_names(typed)


def _with_values(
    statements: list[Statement], told: dict[str, Chain], typed: Statement
) -> Iterator[Statement]:
    """Yield the statements that hold a name whose value is known, with the values put in."""
    if not told:
        return
    values = {name: _value_in(given, typed) for name, given in told.items()}
    for statement in statements:
        own = _gives(statement)
        others = {name: value for name, value in values.items() if name != own or told[name] is not statement}
        if statement_names(statement) & others.keys():
            yield _put_in(statement, others)


def with_values_put_in(known: Known, expr: Expr) -> Expr:
    """Return a side with the values that are told for its names, each in the place of its letter."""
    told = _told(known) if names_in(expr) else {}
    if not told:
        return expr
    return rebuilt(expr, _putting({name: given.sides[1] for name, given in told.items()}))


def _value_in(given: Chain, typed: Statement) -> Expr:
    """The value of a name; without its unit where the typed line is without units."""
    value = given.sides[1]
    with_units = any(isinstance(node, Measure) for side in sides(typed) for node in every(side))
    return value.inner if isinstance(value, Measure) and not with_units else value


def _told(known: Known) -> dict[str, Chain]:
    """The statements that give a name by itself: the givens of the task, and lines such as ``x = 20``."""
    found: dict[str, Chain] = {}
    base = () if known.base is None else known.base.premises
    for statement in base[known.context.formula_count :]:
        name = _gives(statement)
        if name is not None and isinstance(statement, Chain):
            found.setdefault(name, statement)
    for _, line in known.above:
        name = _gives(line)
        if name is not None and isinstance(line, Chain) and not names_in(line.sides[1]):
            found.setdefault(name, line)
    return found


def _gives(statement: Statement) -> str | None:
    """Return the name that a statement gives by itself: ``x`` in ``x = 20``."""
    if not isinstance(statement, Chain) or len(statement.sides) != 2 or not statement.rels[0].equates:
        return None
    name, value = statement.sides
    return name.name if isinstance(name, Name) and name.name not in names_in(value) else None


def _put_in(statement: Statement, values: dict[str, Expr]) -> Statement:
    """A value keeps the place of its letter, so that it can be told from a typed number."""

    return changed(statement, _putting(values))


def _putting(values: dict[str, Expr]) -> Callable[[Expr], Expr]:
    def change(node: Expr) -> Expr:
        if isinstance(node, Name) and node.name in values:
            return replace(values[node.name], span=node.span)
        return node

    return change
