"""What a teacher would write next in a problem: formula, labels, numbers put in, the answer's unit."""

from collections.abc import Iterator
from dataclasses import replace

from tutor.line.keys import statement_key
from tutor.line.meaning import Setting, number_of, value_of
from tutor.line.poly import DividedByZero, NotExact, Poly
from tutor.line.tree import Bare, Chain, Expr, Joined, Joiner, Rel, Root, Said, Statement
from tutor.line.walk import names_in, sides
from tutor.marking.deciding.answers import answer_of
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.state import Known
from tutor.marking.progress import Progress, StepState, progress_of
from tutor.marking.steps.equation import next_move
from tutor.marking.steps.forms import literal, number
from tutor.marking.steps.model import Move
from tutor.marking.steps.opening import conversions, formulas, labels
from tutor.marking.steps.rounding import (
    decimal_answer,
    put_back,
    rounded,
    to_be_rounded,
    with_units,
)
from tutor.marking.steps.standing import Standing, goes_on, look, put_in, to_put_in
from tutor.marking.steps.substitution import definitions_put_in, from_the_formulas, told_put_in
from tutor.marking.verdict import Mark, Step, Verdict
from tutor.marking.working import WorkLine

Proposals = Iterator[tuple[Move, Step | None]]


def proposals(known: Known, *, unit_first: bool = True) -> Proposals:
    """Yield what could be written next, the likeliest first.

    ``unit_first``: the unit of a value that stands comes before the next value.
    """
    if known.base is None:
        return
    now = look(known)
    progress = _progress(now)
    open_case = _case_left(now)
    if progress.complete and not _unit_left(progress) and not open_case:
        return
    opened = any(step is Step.SUBSTITUTE or step is Step.UNITS for _, step in now.lines)
    if not opened:
        yield from _opening(now, progress)
    if not known.ended:
        if unit_first:
            yield from with_units(now)
        yield from to_be_rounded(now)
        if open_case or not progress.finished or _in_a_wrong_unit_only(now):
            yield from _worked_on(now)
        if not unit_first:
            yield from with_units(now)
    if _only_unchecked(progress, known):
        for move in checks(known):
            yield move, Step.UNITS if known.context.asked_units else Step.SUBSTITUTE
    if opened:
        yield from _opening(now, progress)


def _progress(now: Standing) -> Progress:
    mark = Mark(Verdict.FOLLOWS)
    lines = [WorkLine("", False, mark, statement, now.known) for statement, _ in now.lines]
    return progress_of(now.known, lines)


def _unit_left(progress: Progress) -> bool:
    return dict(progress.steps)[Step.UNITS] in (StepState.NEXT, StepState.OPEN)


def _in_a_wrong_unit_only(now: Standing) -> bool:
    """Tell whether a value is known only from a line that broke for its unit: it is still to be found."""
    return any(answer.name not in now.values for answer in now.known.answers)


def _only_unchecked(progress: Progress, known: Known) -> bool:
    """Tell whether the check that is asked for is all that is left to write."""
    waits = StepState.NEXT in (state for _, state in progress.steps)
    return bool(progress.finished) and known.context.task.check and not progress.answer_checked and not waits


def _case_left(now: Standing) -> bool:
    """Tell whether a case of an "or" is not at its end, or a size has two values still."""
    above = now.above
    if not isinstance(above, Joined) or len(statement_names(above)) != 1 or above.joiner is Joiner.AND:
        return False
    return answer_of(above) is None or statement_names(above) <= now.style.positive


def _opening(now: Standing, progress: Progress) -> Proposals:
    for move in formulas(now):
        yield move, Step.FORMULA
    for move in (*labels(now, progress.missing_labels), *conversions(now)):
        yield move, Step.LABEL


def _worked_on(now: Standing) -> Proposals:
    above = now.above
    if isinstance(above, Chain) and not statement_names(above):
        # "3 = 7" under an equation: no letter is left.
        ended = next_move(above, now.style)
        if ended is not None and isinstance(ended.statement, Said):
            yield ended, Step.SUBSTITUTE
    for statement, step in reversed(now.lines):
        if step is Step.LABEL or not goes_on(statement):
            continue
        if step is Step.FORMULA and len(statement_names(statement)) > 1:
            continue  # values are put into it below, in the order that leads to what is asked
        moves = list(_from_line(now, statement))
        for move in moves:
            yield replace(rounded(now, move), source=statement), Step.SUBSTITUTE
        if moves and not isinstance(statement, Bare):
            break
    for move in from_the_formulas(now):
        yield move, Step.SUBSTITUTE


def _from_line(now: Standing, statement: Statement) -> Iterator[Move]:
    """Go on from one line: put known values in, or work it on."""
    if isinstance(statement, Bare | Joined):
        move = next_move(statement, now.style)
        if move is not None:
            yield move
        return
    if not isinstance(statement, Chain) or not now.unknown(statement):
        return
    short = _ends(statement)
    if len(now.unknown(short)) > 1:
        yield from definitions_put_in(now, short)
        return
    if to_put_in(now, short):
        yield told_put_in(now, short, put_in(short, now.values, now.known.context.task.pi, now.style))
        return
    move = next_move(short, now.style)
    if move is not None and statement_key(move.statement) == statement_key(short):
        move = next_move(move.statement, now.style)  # only the order changed: that is no line of its own
    if move is None or _to_round(short, move):
        yield from decimal_answer(now, short)
    if move is not None:
        yield move


def _to_round(chain: Chain, move: Move) -> bool:
    """Tell whether only a root or π is left, or only the sides would change places."""
    if any(isinstance(side, Root) and not names_in(side) for side in chain.sides):
        kept = [side for side in sides(move.statement) if not names_in(side)]
        return not all(literal(side) is not None for side in kept)
    return isinstance(move.statement, Chain) and move.statement.sides == chain.sides[::-1]


def _ends(chain: Chain) -> Chain:
    """A chain of equal sides says the same as its first and its last side."""
    if len(chain.sides) > 2 and all(rel is Rel.EQ for rel in chain.rels):
        return Chain((chain.sides[0], chain.sides[-1]), (Rel.EQ,), chain.span)
    return chain


def checks(known: Known) -> Iterator[Move]:
    """Yield the lines that put the answers back, formula by formula."""
    now = look(known)
    context = known.context
    premises = known.base.premises if context.from_first_line and known.base else context.premises
    count = 1 if context.from_first_line else context.formula_count
    for index, premise in enumerate(premises[: count or None]):
        if not isinstance(premise, Chain) or now.unknown(premise):
            continue
        checked = put_in(premise, put_back(now, index), context.task.pi, now.style)
        told = any(not names_in(side) for side in premise.sides)
        if told and checked.sides[0] == checked.sides[-1] and not context.task.check:
            continue  # "3/8 = 3/8" below the formula "p = 3/8" puts nothing to the test
        what = "Check: put what you found back in."
        where = "Put what you found back into the first line."
        values = [_constant(side, now.style.setting) for side in checked.sides]
        if None not in values and values[0] != values[1] and checked.rels == (Rel.EQ,):
            checked = replace(checked, rels=(Rel.APPROX,))
        yield Move(checked, what, where)
        yield from _both_sides_alike(now, checked)


def _constant(side: Expr, setting: Setting) -> Poly | None:
    """Return the value of a side without names, a root or π in it left as it is; None where it has none."""
    try:
        return value_of(side, setting).constant()
    except (NotExact, DividedByZero):
        return None


def _both_sides_alike(now: Standing, checked: Chain) -> Iterator[Move]:
    """Yield the last line of a check: the same number on both sides."""
    values = [number_of(side, now.style.setting) for side in checked.sides]
    if len(values) == 2 and values[0] is not None and values[0] == values[1]:
        same = number(values[0], now.style)
        made = Chain((same, same), (Rel.EQ,))
        if statement_key(made) != statement_key(checked):
            yield Move(made, "Both sides are the same: the answer fits.", "Work both sides out.")
