"""How many elementary steps lie between two lines."""

from tutor.line.tree import Bare, Chain, Said, Statement
from tutor.line.walk import statement_names
from tutor.marking.state import Known
from tutor.marking.steps.equation import next_move
from tutor.marking.steps.forms import Style, writes_fractions

MAX_STEPS = 40


def steps_left(statement: Statement, style: Style) -> int | None:
    """Return how many steps a line is away from its end; None where the engine cannot get there."""
    for count in range(MAX_STEPS):
        if isinstance(statement, Said):
            return count
        move = next_move(statement, style)
        if move is None:
            return count if at_the_end(statement) else None
        statement = move.statement
    return None


def at_the_end(statement: Statement) -> bool:
    """Tell whether nothing is left to do in a line."""
    from tutor.marking.answers import answers_in, worked_out

    if isinstance(statement, Bare):
        return worked_out(statement.expr)
    return bool(answers_in(statement))


def steps_between(before: Statement, after: Statement, known: Known) -> int | None:
    """Return how many elementary steps lead from one line to another; None where it cannot tell.

    Both are followed to their end: what the later one has less to go, was done in between.
    Another order of steps, or a step written out at length, counts no more than the engine's own.
    """
    if not _countable(before) or not _countable(after):
        return None
    if statement_names(before) != statement_names(after) and not isinstance(after, Said):
        return None
    positive = known.base.positive if known.base else known.context.measures
    style = Style(writes_fractions(before), positive, known.context.systems[0])
    far, near = steps_left(before, style), steps_left(after, style)
    if far is None or near is None:
        return None
    return max(0, far - near)


def _countable(statement: Statement) -> bool:
    if isinstance(statement, Chain):
        return len(statement.sides) == 2
    return isinstance(statement, Bare | Said)
