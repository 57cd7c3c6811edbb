"""How many elementary steps lie between two lines, and whether a line jumped too far."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from tutor.line.keys import statement_key
from tutor.line.tree import Bare, Chain, Joined, Joiner, Said, Statement
from tutor.marking.deciding.answers import answer_of, worked_out
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.state import Known
from tutor.marking.steps.equation import next_move
from tutor.marking.steps.forms import Style, tidy
from tutor.marking.steps.model import Move
from tutor.marking.steps.standing import look, put_in, values_of
from tutor.marking.steps.substitution import definitions_put_in

MAX_LINES = 40
# So many elementary steps may be taken in one line.
ALLOWED = 2
# Nobody writes a line of more signs by hand; counting in one would take its time.
_LONGEST = 160
# How far back a line is looked for that this one goes on from.
_LINES_BACK = 4


@dataclass(frozen=True, slots=True)
class Jump:
    """A line that took more steps at once than are allowed: how many, and what the first of them is."""

    steps: int
    first: str


@lru_cache(maxsize=512)
def steps_left(statement: Statement, style: Style) -> int | None:
    """Return how many steps a line is away from its end; None where the engine cannot get there."""
    for count, line in _onward(statement, style):
        if _at_the_end(line):
            return count
    return None


def _onward(statement: Statement, style: Style) -> Iterator[tuple[int, Statement]]:
    """Yield a line and what the engine makes of it, each with the steps taken so far.

    Numbers that are worked out one after the other count as one step.
    """
    count, on_numbers = 0, False
    for _ in range(MAX_LINES):
        yield count, statement
        after = _after(statement, style)
        if after is None:
            return
        statement, arithmetic = after
        count += 0 if arithmetic and on_numbers else 1
        on_numbers = arithmetic


# The line that is counted to now is counted from next.
@lru_cache(maxsize=512)
def _after(statement: Statement, style: Style) -> tuple[Statement, bool] | None:
    move = next_move(statement, style)
    return None if move is None else (move.statement, move.arithmetic)


def _on_the_way(before: Statement, after: Statement, style: Style) -> int | None:
    """Return after how many steps, of so many as are allowed, the engine writes the later line itself."""
    wanted = statement_key(tidy(after, style))
    for count, line in _onward(before, style):
        if count > ALLOWED:
            return None
        if statement_key(line) == wanted:
            return count
    return None


def _at_the_end(statement: Statement) -> bool:
    if isinstance(statement, Bare):
        return worked_out(statement.expr)
    return isinstance(statement, Said) or answer_of(statement) is not None


def steps_between(before: Statement, after: Statement, known: Known) -> int | None:
    """Return how many elementary steps lead from one line to another; None where it cannot tell.

    Both are followed to their end: what the later one has less to go, was done in between.
    Another order of steps, or a step written out at length, counts no more than the engine's own.
    Putting known values in counts as one step.
    """
    if not _countable(before) or not _countable(after):
        return None
    style = _style(before, known)
    put = 0
    names = statement_names(after)
    if isinstance(before, Chain) and statement_names(before) != names:
        meant = _definitions_in(before, known) if not names <= statement_names(before) else None
        if meant is not None:
            filled: Statement = meant.statement
        else:
            filled = put_in(before, values_of(known, style), known.context.task.pi, style)
        put = 1 if filled != before else 0
        before = filled
    found = statement_names(before)
    if len(found) > 1 or (found != names and not isinstance(after, Said)):
        return None
    met = _on_the_way(before, after, style)
    if met is not None:
        return put + met
    far, near = steps_left(before, style), steps_left(after, style)
    return None if far is None or near is None else max(0, put + far - near)


def _definitions_in(before: Chain, known: Known) -> Move | None:
    """``3x + 12 + 5x + 8 = 180`` for ``A + B = 180``, where x is what is worked on."""
    return next(definitions_put_in(look(known), before), None)


def _style(statement: Statement, known: Known) -> Style:
    positive = known.base.positive if known.base else known.context.measures
    return Style(False, positive, known.context.systems[0])


def _countable(statement: Statement) -> bool:
    if statement.span[1] - statement.span[0] > _LONGEST:
        return False
    if isinstance(statement, Joined):
        return statement.joiner is not Joiner.AND
    if isinstance(statement, Chain):
        return len(statement.sides) == 2 and bool(statement_names(statement))
    return isinstance(statement, Bare | Said)


def jump(known: Known, after: Statement) -> Jump | None:
    """Return how far a line jumped, where it took more steps than are allowed from every line above.

    ``known`` is what was known before the line. None where the steps cannot be counted.
    """
    last = known.above[-1][1] if known.above else None
    if isinstance(after, Said) and isinstance(last, Chain) and not statement_names(last):
        return None  # "no solution" under "3 = 5"
    best: Jump | None = None
    for before in _lines_above(known, after):
        steps = steps_between(before, after, known)
        if steps is None:
            continue
        if steps <= ALLOWED:
            return None
        if best is None or steps < best.steps:
            best = Jump(steps, _first_step(before, after, known))
    return best


def _first_step(before: Statement, after: Statement, known: Known) -> str:
    if isinstance(before, Chain) and not statement_names(after) <= statement_names(before):
        move = _definitions_in(before, known)
    else:
        move = next_move(before, _style(before, known))
    return "Put the numbers in." if move is None else move.what


def _lines_above(known: Known, after: Statement) -> Iterator[Statement]:
    """Yield what a line can go on from: an expression from the last line, an equation from several."""
    above = [line for _, line in known.above]
    if isinstance(after, Bare):
        if above and isinstance(above[-1], Bare):
            yield above[-1]
        return
    names = statement_names(after)
    lines = [one for one in reversed(above) if not isinstance(one, Bare) and names <= statement_names(one)]
    lines = lines[:_LINES_BACK]
    for line in (*lines, *(() if known.base is None else known.base.premises)):
        yield line
        if isinstance(line, Joined):
            yield from line.parts  # a line may go on from one case alone
