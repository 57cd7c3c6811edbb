"""Lines that are wrong by themselves: a link that is not true, a run of signs =, a division by 0."""

from collections.abc import Iterator
from fractions import Fraction

from tutor.line.meaning import Setting, number_of, value_of
from tutor.line.poly import DividedByZero, NotExact, Ratio
from tutor.line.real import sign
from tutor.line.tree import (
    Chain,
    Div,
    Expr,
    Measure,
    Name,
    Neg,
    Num,
    Percent,
    PiSign,
    Pow,
    Rel,
    Root,
    Span,
    Statement,
)
from tutor.line.walk import every, names_in, sides
from tutor.marking.deciding.claim import ALWAYS, claim_of
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.follow import links
from tutor.marking.deciding.rounding import rounds_to
from tutor.marking.deciding.state import Known
from tutor.marking.telling.kept import side_value
from tutor.marking.telling.moves import say
from tutor.marking.telling.quoting import quote, quoted
from tutor.marking.telling.why import Why, capital
from tutor.marking.verdict import Reason

_SHOWN = 22
_COMPARED = {
    Rel.LT: "less than",
    Rel.GT: "more than",
    Rel.LE: "at most",
    Rel.GE: "at least",
}
_NEW_LINE = "Begin a new line for each step."
_ONCE_MORE = "Work it out once more."


# -- the sign = as "and then" ----------------------------------------------------------------------


def run_on(known: Known, statement: Statement, setting: Setting) -> Why | None:
    """``7 + 3 = 10 + 3 = 13``: a side goes on working with the result of the side before."""
    if (
        not isinstance(statement, Chain)
        or len(statement.sides) < 3
        or not all(rel.equates for rel in statement.rels)
    ):
        return None
    if _ends_as_it_began(statement, setting):
        return None  # what stands between is wrong: nothing was carried on
    for left, right in zip(statement.sides, statement.sides[1:], strict=False):
        start = _first_number(right)
        if (
            start is None
            or _is_measure(left) != _is_measure(start)
            or claim_of(Chain((left, right), (Rel.EQ,)), setting) == ALWAYS
        ):
            continue
        result = value_of(start, setting)
        meant = (
            _stood_for(known, left, result, setting)
            if names_in(left)
            else value_of(left, setting).same(result)
        )
        if not meant:
            continue
        shown, went_on = quoted(left, _SHOWN), quoted(right, _SHOWN)
        first = "The sign = needs the same value on both sides."
        if shown and went_on:
            first = f"{capital(shown)} is {quote(start)}, not {went_on}."
        return Why(Reason.RUN_ON, f"{first} {_NEW_LINE}", right.span)
    return None


def _ends_as_it_began(line: Chain, setting: Setting) -> bool:
    first, last = side_value(line.sides[0], setting), side_value(line.sides[-1], setting)
    return len(line.sides) == 3 and first is not None and last is not None and first.same(last)


def _is_measure(expr: Expr) -> bool:
    return any(isinstance(node, Measure) for node in every(expr))


def _first_number(expr: Expr) -> Expr | None:
    first = next((node for node in every(expr) if isinstance(node, Num | Measure)), None)
    return first if first is not None and first is not expr else None


def _stood_for(known: Known, left: Expr, result: Ratio, setting: Setting) -> bool:
    """Tell whether a line above says that this side has this value."""
    value = value_of(left, setting)
    for _, line in known.above:
        if isinstance(line, Chain) and len(line.sides) == 2 and line.rels[0].equates:
            found = [side_value(side, setting) for side in line.sides]
            for one, other in (found, found[::-1]):
                if one is not None and other is not None and one.same(value) and other.same(result):
                    return True
    return False


# -- links that are not true -----------------------------------------------------------------------


def untrue(statement: Statement, setting: Setting) -> Why | None:
    """Return what is wrong with the first link without unknowns that is not true."""
    for part in links(statement):
        if statement_names(part) or not isinstance(part, Chain):
            continue
        if claim_of(part, setting) != ALWAYS:
            return Why(Reason.NOT_TRUE, _not_true(part, setting), _result_span(part, setting))
    return None


def _result_span(part: Chain, setting: Setting) -> Span:
    """Return the span of the side that is the result of the other one; of both where neither is."""
    left, right = part.sides[0], part.sides[-1]
    if len(part.sides) > 2 or not part.rels[0].equates or _is_value(left) == _is_value(right):
        return part.span
    if side_value(left, setting) is None or side_value(right, setting) is None:
        return part.span
    return left.span if _is_value(left) else right.span


def _not_true(part: Chain, setting: Setting) -> str:
    """Return the sentences on one link that is not true, in the student's own writing."""
    rel = part.rels[0]
    left, right = part.sides[0], part.sides[-1]
    if len(part.sides) > 2:
        return "This comparison is not true. Work out each part, then compare."
    if rel is Rel.NE:
        return "Both sides have the same value here. Which sign says that?"
    if not rel.equates:
        return _not_compared(left, rel, right)
    here, there = side_value(left, setting), side_value(right, setting)
    if here is None or there is None:
        return _no_root(part, setting)
    if _is_value(left) and not _is_value(right):
        left, right, here = right, left, there
    if _is_value(right):
        return _not_the_result(left, right, here, rel)
    difference = here - there
    larger = "larger" if sign(difference.above) * sign(difference.below) > 0 else "smaller"
    first, second = quoted(left, _SHOWN), quoted(right, _SHOWN)
    if first and second:
        return f"{capital(first)} is {larger} than {second}. Work out each side once more."
    return f"The left side is {larger}. Work out each side once more."


def _no_root(part: Chain, setting: Setting) -> str:
    for side in part.sides:
        for node in every(side):
            number = number_of(node.inner, setting) if isinstance(node, Root) else None
            if number is not None and number < 0:
                return f"No number times itself gives {say(number)}. Look at this root once more."
    return f"The two sides do not have the same value. {_ONCE_MORE}"


def _not_the_result(left: Expr, right: Expr, value: Ratio, rel: Rel) -> str:
    shown, result = quoted(left, _SHOWN), quote(right)
    if shown is None:
        return f"The two sides do not have the same value. {_ONCE_MORE}"
    about = _rounding(value, right)
    if about == "near" and rel is Rel.EQ:
        return f"{capital(shown)} is near {result}, not equal. Keep the fraction, or more places with ≈."
    if about == "next":
        return f"{capital(shown)} does not round to {result}. Look at the next digit."
    return f"{capital(shown)} is not {result}. {_ONCE_MORE}"


def _rounding(value: Ratio, right: Expr) -> str:
    """Tell whether a decimal is near a value: rounded ("near"), or off in its last place ("next")."""
    constant = value.constant()
    exact = None if constant is None else constant.rational()
    if exact is None or not isinstance(right, Num) or not right.places:
        return ""
    if rounds_to(Fraction(exact), right.value, right.places):
        return "near"
    off = abs(Fraction(exact) - right.value)
    return "next" if off * 10**right.places < 1 else ""


def _is_value(expr: Expr) -> bool:
    match expr:
        case Num() | PiSign():
            return True
        case Neg(inner) | Measure(inner, _) | Percent(inner):
            return _is_value(inner)
        case Div(Num(), Num()):
            return False
        case _:
            return False


def _not_compared(left: Expr, rel: Rel, right: Expr) -> str:
    first, second = quoted(left, _SHOWN), quoted(right, _SHOWN)
    if not first or not second:
        return "This comparison is not true. Work out both sides, then compare."
    return f"{capital(first)} is not {_COMPARED[rel]} {second}. Work out both sides, then compare."


def divided_away(known: Known, statement: Statement, setting: Setting) -> Why | None:
    """``6x = 9x``, then ``6 = 9``: both sides were divided by the unknown, which is 0 there."""
    if not isinstance(statement, Chain) or len(statement.sides) != 2 or statement_names(statement):
        return None
    above = known.previous
    if not isinstance(above, Chain) or len(above.sides) != 2 or len(statement_names(above)) != 1:
        return None
    (name,) = statement_names(above)
    letter = value_of(Name(name), setting)
    for old, new in zip(above.sides, statement.sides, strict=True):
        before, after = side_value(old, setting), side_value(new, setting)
        if before is None or after is None or not (after * letter).same(before):
            return None
    message = f"Both sides were divided by {name}, which may be 0. Take terms away instead."
    return Why(Reason.LOST, message, statement.span)


# -- division by zero ----------------------------------------------------------------------------------


def why_no_value(statement: Statement, setting: Setting) -> Why:
    """Return the reason of a line that divides by 0 or takes 0 to the power 0, with the very part."""
    for node, by_zero in _without_value(statement, setting):
        if by_zero is None:
            return Why(
                Reason.NOT_TRUE, "0 to the power 0 has no value. Write this part another way.", node.span
            )
        shown = quoted(by_zero, _SHOWN)
        if shown in (None, "0"):
            message = "Nothing can be divided by 0. Look at this part once more."
        else:
            message = f"{capital(shown or 'the bottom')} is 0 here. Nothing can be divided by 0."
        return Why(Reason.NOT_TRUE, message, node.span)
    return Why(Reason.NOT_TRUE, "Nothing can be divided by 0. Look at this line once more.", statement.span)


def _without_value(statement: Statement, setting: Setting) -> Iterator[tuple[Expr, Expr | None]]:
    """Yield the parts that have no value, innermost first, each with what it divides by."""
    for side in sides(statement):
        for node in reversed(list(every(side))):
            bottom = node.bottom if isinstance(node, Div) else node.base if isinstance(node, Pow) else None
            if bottom is None or not _is_zero(bottom, setting):
                continue
            if isinstance(node, Div):
                yield node, bottom
            elif isinstance(node, Pow) and _is_zero(node.exponent, setting):
                yield node, None
            elif isinstance(node, Pow) and isinstance(node.exponent, Neg):
                yield node, bottom


def _is_zero(expr: Expr, setting: Setting) -> bool:
    try:
        return not value_of(expr, setting).above
    except (NotExact, DividedByZero):
        return False


def said(values: tuple[Fraction, ...], rels: tuple[Rel, ...]) -> str:
    """Return numbers with the signs between them: ``2 = −2``."""
    text = say(values[0])
    for rel, value in zip(rels, values[1:], strict=False):
        text += f" {rel.value} {say(value)}"
    return text
