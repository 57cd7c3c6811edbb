"""Numbers alone in the work of an equation: an answer said once more, another one, a side working.

``d = 13``, then ``13 days`` says the answer once more, and another number is another answer.
``122 − 14``, ``108``, ``108/9`` are side workings, of which the last begins with what the one before gave.
"""

from tutor.line.meaning import number_of
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Bare, Chain, Expr, Measure, Name, Neg, Num, Percent, Rel
from tutor.line.walk import every
from tutor.marking.deciding.answers import answer_of
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.follow import How, search
from tutor.marking.deciding.state import Known, settings
from tutor.marking.deciding.units_check import dimension_fault
from tutor.marking.telling.quoting import quoted
from tutor.marking.telling.why import Why
from tutor.marking.verdict import Reason


def another_answer(known: Known, statement: Bare) -> Why | None:
    """Return why a number alone breaks right below the answer of the only thing that is asked for.

    None where it says the answer once more, rounded or with its unit, where it is the value of
    something else in the work, and where it is no number alone.
    """
    find, previous = known.context.find, known.previous
    told = answer_of(previous) if isinstance(previous, Chain) else None
    if known.base is None or len(find) != 1 or told is None or told[0] != find[0] or len(told[1]) != 1:
        return None
    if not _is_number(statement.expr):
        return None
    again = Chain((Name(find[0]), statement.expr), (Rel.APPROX,), statement.span)
    fault = dimension_fault(known.context, again)
    if fault is not None:
        return Why(Reason.UNIT, fault.message, fault.span)
    try:
        if search(known, again, (known.base, *known.more)).how is not How.BREAKS or _is_known(known, again):
            return None
    except (NotExact, DividedByZero):
        return None
    shown = quoted(told[1][0])
    message = f"Line {known.above[-1][0] + 1} gives another {find[0]}. Which of the two is it?"
    if shown is not None:
        message = f"Line {known.above[-1][0] + 1} says {find[0]} = {shown}. Which of the two is it?"
    return Why(Reason.VALUE_CHANGED, message, statement.span)


def begins_anew(known: Known, before: Bare, statement: Bare) -> bool:
    """Tell whether a calculation takes up the result of the one before, and does not go on from it.

    Below ``108`` every calculation is a new one, below ``122 − 14`` one with 108 in it, and
    a number alone only where it is the answer.
    """
    if known.base is None or not known.context.find or statement_names(before) or statement_names(statement):
        return False
    if not any(map(statement_names, known.base.premises)):
        return False
    if _is_number(statement.expr):
        return _is_number(before.expr) and is_the_answer(known, statement)
    if _is_number(before.expr):
        return True
    result = number_of(before.expr)
    return result is not None and any(
        isinstance(node, Num) and node.value == result for node in every(statement.expr)
    )


def how_to_answer(known: Known, statement: Bare) -> str:
    """Return how a number alone becomes an answer, "" where it is none: whether it is right is not told."""
    find = known.context.find
    if known.base is None or len(find) != 1 or known.answers or not _is_number(statement.expr):
        return ""
    if not any(find[0] in statement_names(premise) for premise in known.base.premises):
        return ""
    shown = quoted(statement.expr)
    return f"Is this your answer? Then write {find[0]} = {shown}." if shown else ""


def is_the_answer(known: Known, statement: Bare) -> bool:
    """Tell whether a number alone is right for something that is asked for."""
    if known.base is None:
        return False
    for name in known.context.find:
        line = Chain((Name(name), statement.expr), (Rel.APPROX,), statement.span)
        try:
            if search(known, line, (known.base, *known.more)).how is not How.BREAKS:
                return True
        except (NotExact, DividedByZero):
            continue
    return False


def _is_number(expr: Expr) -> bool:
    while isinstance(expr, Neg | Measure | Percent):
        expr = expr.inner
    return isinstance(expr, Num)


def _is_known(known: Known, again: Chain) -> bool:
    """Tell whether the number is a value that the work settles for another name."""
    assert known.base is not None
    setting = settings(known, again)[0]
    value = number_of(again.sides[1], setting)
    return any(value in found for found in known.base.ground(setting).values().values())
