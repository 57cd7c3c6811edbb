"""Wrong moves on both sides that stand in one line with right steps, told by the solution they lead to.

Of a line such as ``2x + 6 = 14`` only its numbers are looked at, as they are when each side is
collected: this is asked of most lines that break.
"""

from collections.abc import Iterator
from enum import Enum, auto
from fractions import Fraction
from typing import NamedTuple

from tutor.line.poly import Number
from tutor.line.tree import Add, Div, Expr, Mul, Neg
from tutor.marking.deciding.everyday import Everyday
from tutor.marking.slips.spots import Hit, say, say_size, show

# The moves that leave the sign of an inequality as it is where all is positive.
_SIGN_STAYS = frozenset(
    [
        "constant-across-unchanged-sign",
        "constant-removed-one-side-only",
        "variable-to-other-side-unchanged-sign",
        "divide-left-side-only-fully",
        "coefficient-removed-one-side-only",
        "div-undone-by-dividing",
        "mult-undone-by-multiplying",
        "mult-undone-by-subtracting",
    ]
)


def across(told: Everyday, typed: Everyday, was: tuple[Expr, Expr]) -> list[Hit]:
    """Return the moves by which right steps lead from a line to the typed one, in which the unknown is alone.

    ``was``: the sides of the line above.
    """
    lead = _lead_alone(typed)
    if not lead or told.form == typed.form or told.form.rel is not typed.form.rel:
        return []
    found = list(_moves(told, typed.form.bound, lead, was))
    if told.form.rel.equates:
        return found
    a, c = told.left[1], told.right[1]
    positive = lead > 0 and min(a, c) >= 0 and (not a or a > c)
    return [hit for hit in found if hit.name in _SIGN_STAYS] if positive else []


def _lead_alone(line: Everyday) -> Number:
    """Return how many of the unknown stand alone on one side, 0 where they do not."""
    (_, a, b), (_, c, d) = line.left, line.right
    if not c and not b:
        return a
    return 0 if a or d else c


class Kept(Enum):
    """What of a line with the unknown alone is as right steps make it: then the other side went wrong."""

    NEITHER = auto()
    UNKNOWN = auto()  # "2x = …"
    NUMBER = auto()  # "… = 8"


def kept_of(told: Everyday, typed: Everyday) -> Kept:
    """Compare a typed line such as ``4m = 24`` with what ``2m − 12 = 12`` is collected to, ``2m = 24``."""
    lead = _lead_alone(typed)
    if lead in (0, 1, -1):
        return Kept.NEITHER
    (_, a, b), (_, c, d) = told.left, told.right
    (_, x, other), (_, _, number) = typed.left, typed.right
    if lead in (a - c, c - a):
        return Kept.UNKNOWN
    return Kept.NUMBER if (number if x else other) in (d - b, b - d) else Kept.NEITHER


class _Line(NamedTuple):
    """A line ``ax + b = d`` or, with the unknown on both sides, ``ax + b = cx + d``; ``x``: the unknown."""

    x: str
    a: Number
    b: Number
    c: Number
    d: Number
    left: Expr
    right: Expr


def _moves(told: Everyday, bound: Number, typed: Number, was: tuple[Expr, Expr]) -> Iterator[Hit]:
    """The moves on both sides, in the line as it can be collected, that end at a value of the unknown.

    ``typed``: how many of the unknown the typed line has alone.
    """
    (_, a, b), (_, c, d) = told.left, told.right
    numbers = (a, b, c, d)
    bound = _small(bound)
    for left, right, sides in ((0, 2, was), (2, 0, was[::-1])):
        if not numbers[left]:
            continue
        line = _Line(
            told.form.name,
            numbers[left],
            numbers[left + 1],
            numbers[right],
            numbers[right + 1],
            *sides,
        )
        yield from _constant_moved(line, bound)
        if line.c:
            yield from _unknown_moved(line, bound)
        else:
            yield from _joined(line, bound)
        if left == 0 or not numbers[0]:
            yield from _undone_at_the_end(line, bound, typed)


def _constant_moved(line: _Line, bound: Number) -> Iterator[Hit]:
    """``2x + 6 = 14`` by ``2x = 20`` or by ``2x = 14``, ``4x + 8 = 20`` by ``x + 2 = 20``."""
    lead, b, d = line.a - line.c, line.b, line.d
    if not b or lead in (0, 1):
        return
    bracket = not line.c and _is_multiple(line.left)
    shown = say_size(_small(Fraction(b) / lead)) if bracket else say_size(b)
    doing, undone = ("adding", "taken away") if b > 0 else ("taking away", "added")
    if lead * bound == d + b:
        if line.c and b < 0:
            message = f"Maybe {shown} was taken away once more. What undoes taking away {shown}?"
            yield Hit("always-subtract-across", message)
        message = f"Maybe {shown} went across with its old sign. What undoes {doing} {shown}?"
        yield Hit("constant-across-unchanged-sign", message)
    if lead * bound == d:
        other = "the other side" if bracket else show(line.right)
        message = f"Maybe {shown} was {undone} on one side only. What happens to {other}?"
        yield Hit("constant-removed-one-side-only", message)
    if not line.c and (d - bound) * lead == b and lead != -1 and not _is_part(lead):
        by = say(_small(lead))
        if bracket:
            message = f"Maybe the {by} was taken off on one side only. What happens to {show(line.right)}?"
            yield Hit("coefficient-removed-one-side-only", message)
        else:
            message = f"Maybe dividing by {by} was done on one side only. What happens to {show(line.right)}?"
            yield Hit("divide-left-side-only-fully", message)


def _is_multiple(side: Expr) -> bool:
    """Tell whether a side is a bracket with a number in front of it or below it."""
    return isinstance(side, Mul | Div)


def _unknown_moved(line: _Line, bound: Number) -> Iterator[Hit]:
    """``5x + 4 = 2x + 18`` by ``7x = 14``."""
    if (line.a + line.c) * bound == line.d - line.b:
        term = line.x if abs(line.c) == 1 else f"{say_size(_small(line.c))}{line.x}"
        message = f"Maybe {term} went across with its old sign. What undoes {term} on that side?"
        yield Hit("variable-to-other-side-unchanged-sign", message)


def _joined(line: _Line, bound: Number) -> Iterator[Hit]:
    """``4n + 9 = 26`` by ``13n = 26``."""
    if not isinstance(line.left, Add) or len(line.left.terms) != 2 or not line.b:
        return
    one, two = (show(term.inner if isinstance(term, Neg) else term) for term in line.left.terms)
    if (line.a + line.b) * bound == line.d and line.a + line.b:
        if line.b > 0 > line.a:
            message = f"Maybe {two} was taken from {one}. Do both of them count {line.x}?"
            yield Hit("number-minus-term-joined", message)
        else:
            message = f"Maybe {one} and {two} were joined to one term. Do both of them count {line.x}?"
            yield Hit("unlike-terms-joined", message)


def _undone_at_the_end(line: _Line, bound: Number, typed: Number) -> Iterator[Hit]:
    """``3x + 5 = 26`` by ``3x = 21`` to ``x = 21``: the last step went wrong."""
    lead, rest = line.a - line.c, line.d - line.b
    if lead in (0, 1) or not rest or not (line.b or line.c):
        return
    if abs(lead.numerator) != 1 != lead.denominator and bound * lead.numerator * lead.denominator == rest:
        by = lead.denominator
        message = f"Maybe the other side was divided by {by} once more. What undoes dividing by {by}?"
        yield Hit("denominator-divided-not-multiplied", message)
    if typed != 1:
        return
    number = say(_small(lead))
    if lead == -1:
        if bound == rest:
            message = f"Maybe the minus before {line.x} was left out on one side only. What about the other?"
            yield Hit("opposite-of-x-read-as-x", message)
        return
    if bound == rest:
        called = f"the division by {say(_small(1 / Fraction(lead)))}" if _is_part(lead) else f"the {number}"
        message = f"Maybe {called} was taken off on one side only. What happens to the other side?"
        yield Hit("coefficient-removed-one-side-only", message)
    if bound == rest * lead:
        yield _undone_by_itself(lead)
    if bound == rest - lead and lead.denominator == 1:
        message = (
            f"Maybe {say_size(_small(lead))} was taken away. Here it multiplies: what undoes multiplying?"
        )
        yield Hit("mult-undone-by-subtracting", message)
    if bound * rest == lead:
        message = f"Maybe the division by {number} was turned round. Which number is divided by which?"
        yield Hit("quotient-upside-down", message)
    if bound * lead == -rest and (lead < 0 or rest < 0):
        message = f"Maybe a sign got lost in dividing by {number}. What sign does the result have?"
        yield Hit("sign-dropped-when-dividing", message)


def _undone_by_itself(lead: Number) -> Hit:
    if _is_part(lead):
        by = say(_small(1 / Fraction(lead)))
        message = f"Maybe the other side was divided by {by} once more. What undoes dividing by {by}?"
        return Hit("div-undone-by-dividing", message)
    if lead.denominator != 1:
        message = f"Maybe the other side was multiplied by {say(lead)} once more. What undoes that?"
        return Hit("fraction-coefficient-multiplied-again", message)
    message = (
        f"Maybe the other side was multiplied by {say(_small(lead))} once more. What undoes multiplying?"
    )
    return Hit("mult-undone-by-multiplying", message)


def _is_part(lead: Number) -> bool:
    return abs(lead.numerator) == 1 and lead.denominator > 1


def _small(value: Number) -> Number:
    return value.numerator if value.denominator == 1 else value
