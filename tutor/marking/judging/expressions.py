"""Expressions that go on from the line above: they have to keep their value."""

from dataclasses import replace
from itertools import pairwise

from tutor.line.tree import Add, Bare, Chain, Expr, Measure, Mul, Name, Neg, Num, Rel
from tutor.line.walk import every, names_in
from tutor.marking.deciding import slow
from tutor.marking.deciding.by_signs import Kept
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.follow import Found, How, search
from tutor.marking.deciding.instance import evaluated
from tutor.marking.deciding.keeping import keeps_value
from tutor.marking.deciding.plainer import numbers_told, with_numbers
from tutor.marking.deciding.sampling import differ
from tutor.marking.deciding.state import Known, settings
from tutor.marking.deciding.units_check import unit_changed, unlike_terms
from tutor.marking.judging.aftermath import Judged, broken, stands
from tutor.marking.judging.imaginary import equal_with_the_unit
from tutor.marking.judging.lone_number import another_answer, begins_anew, how_to_answer, is_the_answer
from tutor.marking.judging.marks import CARRIES, no_division_by_zero, spoken, undecided
from tutor.marking.judging.wrong_units import unit_broken
from tutor.marking.telling.reasons import why_value_changed
from tutor.marking.verdict import Mark, Reason, Verdict


def expression(known: Known, statement: Bare, index: int) -> Judged:
    """Mark an expression alone, against the one above where there is one."""
    no_division_by_zero(statement)
    previous = known.previous
    setting = settings(known, statement)[0]
    fault = unlike_terms(statement.expr)
    if fault is None and isinstance(previous, Bare):
        fault = unit_changed(previous.expr, statement.expr, "the line above")
    if fault is not None:
        how = kept(known, previous, statement) if isinstance(previous, Bare) else How.FOLLOWS
        return unit_broken(known, statement, index, fault, Found(how or How.BREAKS, setting))
    if not isinstance(previous, Bare):
        strange = _strange(known, statement)
        if strange:
            message = f"There is no {strange} in this problem. Which of its letters do you mean?"
            return Judged(Mark(Verdict.UNREAD, Reason.SYNTAX, None, message, statement.span), known)
        other = another_answer(known, statement)
        if other is not None:
            return broken(known, statement, index, other)
        return _opened(known, statement, index)
    verdict = kept(known, previous, statement)
    if verdict in (None, How.BREAKS) and evaluated(previous, statement):
        verdict = How.FOLLOWS
    if verdict is None:
        return undecided(known, statement)
    if verdict is not How.BREAKS:
        mark = Verdict.ROUNDS if verdict is How.ROUNDS else Verdict.FOLLOWS
        if known.has(statement):
            mark = Verdict.RESTATES
        return stands(known, statement, index, mark, None)
    if begins_anew(known, previous, statement):
        return _opened(known, statement, index)
    for _, wrong in reversed(known.broken):
        if not isinstance(wrong, Bare):
            continue
        if begins_anew(known, wrong, statement) or kept(known, wrong, statement) is How.FOLLOWS:
            mark_ = spoken(Verdict.CARRIES, statement, CARRIES)
            return Judged(mark_, replace(known, broken=(*known.broken, (index, statement))), statement)
    return broken(known, statement, index, why_value_changed(known, previous, statement, setting))


def _opened(known: Known, statement: Bare, index: int) -> Judged:
    """Return the mark of an expression that opens a side working, or of a number that may be the answer."""
    judged = stands(known, statement, index, Verdict.FOLLOWS, None)
    note = how_to_answer(known, statement)
    if not note:
        return judged
    # What may be a wrong answer is kept and not judged: nothing says yet what the number is.
    verdict = Verdict.FOLLOWS if is_the_answer(known, statement) else Verdict.NOTE
    return replace(judged, mark=replace(judged.mark, verdict=verdict, note=note))


def _strange(known: Known, statement: Bare) -> str:
    """Return a letter of an expression none of whose letters the problem or a line above has, or ""."""
    names = statement_names(statement)
    context = known.context
    if context.from_first_line or not names or names & context.names.known:
        return ""
    lines = (*context.premises, *(line for _at, line in known.above))
    return "" if any(names & statement_names(line) for line in lines) else min(names)


def kept(known: Known, before: Bare, after: Bare) -> How | None:
    """Tell whether an expression kept its value: exactly, rounded, or not; None if undecided."""
    told = numbers_told(known.base.premises) if known.base is not None else {}
    if statement_names(before) and statement_names(before) <= told.keys():
        filled = with_numbers(before, told)
        if isinstance(filled, Bare):
            before = filled  # "n² + 1 for n = 3"
    unsure = doubtful = False
    for setting in settings(known, Chain((before.expr, after.expr), (Rel.EQ,))):
        found = keeps_value(before, after, setting)
        if found is Kept.ALWAYS:
            return How.FOLLOWS
        doubtful = doubtful or found is Kept.ABOVE_ZERO
        unsure = unsure or found is None
    if doubtful:
        return None  # "√(x²)" goes on as "x" where no letter is negative, as many books have it
    if unsure and _goes_on_for_ever(before, after) and known.base is not None:
        how = search(known, Chain((before.expr, after.expr), (Rel.EQ,)), (known.base,)).how
        return None if how is How.UNDECIDED else how
    if unsure and differ(before, after, settings(known, after)[0]):
        return How.BREAKS
    if unsure:
        return slow.keeps_value(before.expr, after.expr)
    if known.base is not None and known.base.premises and statement_names(before):
        # "2x" goes on as "8" where 2x = 8 is known.
        equal = Chain((before.expr, after.expr), (Rel.EQ,))
        return search(known, equal, (known.base,)).how
    if not statement_names(before) and known.base is not None:
        rounded = search(known, Chain((before.expr, after.expr), (Rel.EQ,)), (known.base,))
        decimal = isinstance(after.expr, Num | Neg | Measure)
        return How.ROUNDS if rounded.how is How.ROUNDS and decimal else How.BREAKS
    if known.context.from_first_line and _calls_a_function(before.expr, after.expr):
        return None
    if known.context.from_first_line and equal_with_the_unit(before.expr, after.expr):
        return None  # nobody can tell whether i is a letter like any other
    return How.BREAKS


def _goes_on_for_ever(before: Bare, after: Bare) -> bool:
    """``1/3`` as ``0.333…``: which digits follow nobody can tell, so it is decided as a rounding is."""
    nodes = [*every(before.expr), *every(after.expr)]
    return any(isinstance(node, Num) and node.open_end for node in nodes) and not statement_names(before)


def _calls_a_function(before: Expr, after: Expr) -> bool:
    """``f(x + h)`` goes on as ``2(x + h)² − 3``: an f that is gone may be a function told elsewhere."""
    gone = names_in(before) - names_in(after)
    if any(name[:2] in ("f(", "g(") for name in gone):
        return True
    letters = names_in(after)
    return any(
        isinstance(name, Name) and name.name in gone & {"f", "g"} and _is_told_of(inner, letters)
        for node in every(before)
        if isinstance(node, Mul)
        for name, inner in pairwise(node.factors)
    )


def _is_told_of(argument: Expr, letters: frozenset[str]) -> bool:
    return isinstance(argument, Add) and bool(names_in(argument)) and names_in(argument) <= letters
