"""A witness: a number for which a line is true and a line above it is not.

Never an answer, never a value that is asked for, and nothing that a child cannot put in by
hand. Left out where none is plain.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import TypeVar

from tutor.line.meaning import Setting
from tutor.line.poly import DividedByZero, NotExact, Ratio
from tutor.line.tree import Chain, Expr, Measure, Name, Neg, Num, Percent, Rel
from tutor.line.walk import names_in
from tutor.marking.deciding.claim import claim_of, holds
from tutor.marking.deciding.compare import Axis, solutions
from tutor.marking.deciding.everyday import form_of
from tutor.marking.deciding.ground import evaluate
from tutor.marking.deciding.state import Known
from tutor.marking.telling.kept import Side, side_value
from tutor.marking.telling.moves import say
from tutor.marking.telling.pairing import Pair

T = TypeVar("T")

_LONGEST = 5
_LARGEST_BOTTOM = 12
_TRIED = (2, 3, 1, 4, 5, 6, 7, 8, 9, 10, 0, 12, 15, 20, 50, 100, -1, -2, -3, -5, -10, -20, -100)


@dataclass(frozen=True, slots=True)
class _Values:
    """A line above with one unknown: its sides as they are worked out, given values put in."""

    name: str
    sides: tuple[Ratio, ...]
    rels: tuple[Rel, ...]

    def at(self, number: Fraction) -> tuple[Fraction, ...] | None:
        """Return the value of each side where the unknown is a number."""
        found = [_at(side, {self.name: number}) for side in self.sides]
        return tuple(value for value in found if value is not None) if None not in found else None

    def true_at(self, number: Fraction) -> bool | None:
        """Tell whether the line holds there."""
        values = self.at(number)
        if values is None:
            return None
        pairs = zip(values, self.rels, values[1:], strict=False)
        return all(holds(_sign(left - right), rel) for left, rel, right in pairs)


def _sign(value: Fraction) -> int:
    return (value > 0) - (value < 0)


def _at(side: Ratio, values: dict[str, Fraction]) -> Fraction | None:
    above, below = evaluate(side.above, values), evaluate(side.below, values)
    if above is None or not below:
        return None
    found = above / below
    return found if found.denominator <= 10**6 else None


def exactly(tell: Callable[[], T | None]) -> T | None:
    """Return what can be told with exact values, None where they cannot be had."""
    try:
        return tell()
    except (NotExact, DividedByZero):
        return None


def witness(known: Known, pair: Pair, line: Chain, setting: Setting) -> str:
    """Return the sentence with a number that tells the line from the line above, "" where there is none."""
    above = _values(pair)
    if above is None or names_in(*line.sides) != {above.name}:
        return ""
    if line.rels == (Rel.EQ,) == above.rels:
        return exactly(lambda: _of_equation(known, pair, above, line, setting)) or ""
    if not line.rels[0].equates:
        return exactly(lambda: _of_comparison(pair, above, line, setting)) or ""
    return ""


def _values(pair: Pair) -> _Values | None:
    told = pair.account
    sides = [side.full for side in told.before]
    if told.swapped:
        sides.reverse()
    found = tuple(side for side in sides if side is not None)
    names = frozenset(name for side in found for name in side.names())
    if len(found) != len(sides) or len(names) != 1:
        return None
    rels = pair.above.rels
    if len(rels) >= len(found):
        rels = (Rel.EQ,)
    (name,) = names
    return _Values(name, found, rels)


def _of_equation(known: Known, pair: Pair, above: _Values, line: Chain, setting: Setting) -> str:
    value = _only_solution(line, above.name, setting)
    if value is None or not short(value) or asked_for(known, value, setting):
        return ""
    told = above.at(value)
    if told is None or told[0] == told[1] or not all(short(one, 2) for one in told):
        return ""
    if any(_still_to_work_out(side) for side in pair.account.before):
        return ""
    if any(asked_for(known, one, setting) for one in told):
        return ""
    here, there = f"{above.name} = {say(value)}", f"{pair.where} says {say(told[0])} = {say(told[1])}"
    return f"This line says {here}, but then {there}."


def _still_to_work_out(side: Side) -> bool:
    """Tell whether a side is a calculation without the unknown: its result may be what is looked for."""
    if side.full is None or side.full.names() or isinstance(side.expr, Name):
        return False
    inner: Expr = side.expr
    while isinstance(inner, Neg | Measure | Percent):
        inner = inner.inner
    return not isinstance(inner, Num)


def _only_solution(line: Chain, name: str, setting: Setting) -> Fraction | None:
    form = form_of(line)
    if form is not None:
        return form.bound
    claim = claim_of(line, setting)
    if claim.names() - {name}:
        return None
    spots = solutions(claim, Axis(name))
    return spots[0].exact if spots is not None and len(spots) == 1 else None


def _of_comparison(pair: Pair, above: _Values, line: Chain, setting: Setting) -> str:
    sides = [side_value(side, setting) for side in line.sides]
    here = _Values(above.name, tuple(side for side in sides if side is not None), line.rels)
    if len(here.sides) != len(sides):
        return ""
    for number in _numbers(line):
        told, shown = above.at(number), here.at(number)
        inside, over = here.true_at(number), above.true_at(number)
        if told is None or shown is None or inside == over or not all(short(one) for one in told):
            continue
        if _is_edge(told) and not _is_edge(shown):
            continue  # where the line above changes is what is looked for
        if inside:
            false = _false_part(told, above.rels)
            fits = f"{above.name} = {say(number)} fits this line, but not {pair.where}"
            hidden = any(_still_to_work_out(side) for side in pair.account.before)
            return f"{fits}." if hidden else f"{fits}: there {false} is not true."
        return f"{above.name} = {say(number)} fits {pair.where}, but not this line."
    return ""


def _is_edge(values: tuple[Fraction, ...]) -> bool:
    return any(left == right for left, right in pairwise(values))


def _numbers(line: Chain) -> Iterator[Fraction]:
    """Yield small whole numbers, then the number at which the line itself changes."""
    yield from (Fraction(number) for number in _TRIED)
    form = form_of(line)
    if form is not None and short(form.bound):
        yield form.bound


def _false_part(values: tuple[Fraction, ...], rels: tuple[Rel, ...]) -> str:
    for left, rel, right in zip(values, rels, values[1:], strict=False):
        if not holds(_sign(left - right), rel):
            return f"{say(left)} {rel.value} {say(right)}"
    raise AssertionError("one part is false")


def short(value: Fraction, more: int = 0) -> bool:
    """Tell whether a number is short enough to be put in by hand."""
    text = say(value).lstrip("−")
    return len(text) <= _LONGEST + more and ("/" not in text or value.denominator <= _LARGEST_BOTTOM)


def asked_for(known: Known, value: Fraction, setting: Setting) -> bool:
    """Tell whether a value is one that the problem settles: an answer, now or later."""
    if known.base is None:
        return False
    form = known.base.form()
    if form is not None and form.rel is Rel.EQ and form.name not in known.base.positive:
        return value == form.bound
    try:
        values = known.base.ground(setting).values().values()
    except (NotExact, DividedByZero):
        return False
    return any(value in found for found in values)


# A number to put in, how large the results may be, whether they may be no fractions: that is tried first.
_PUT_IN = (
    *((number, 100, True) for number in (2, 3, 1, 5, 6, 4, 10, 12)),
    *((number, 100, False) for number in (2, 3, 1)),
    (5, 1000, False),
    *((number, 99999, False) for number in (2, 3, 1)),
)


def of_expressions(
    before: Expr, after: Expr, setting: Setting, said: tuple[str, str] = ("the line above gives", "this one")
) -> str:
    """Return the sentence with small numbers for which two expressions have not the same value.

    ``said``: the words before the value of each.
    """
    names = sorted(names_in(before, after))
    sides = [side_value(expr, setting) for expr in (before, after)]
    if not names or None in sides:
        return ""
    for number, most, plain in _PUT_IN:
        values = {name: Fraction(number + at) for at, name in enumerate(names)}
        first, second = [_at(side, values) for side in sides if side is not None]
        if first is None or second is None or first == second or max(abs(first), abs(second)) > most:
            continue
        if not (short(first) and short(second)) or (plain and "/" in say(first) + say(second)):
            continue
        with_ = " and ".join(f"{name} = {say(value)}" for name, value in values.items())
        return f"Try {with_}: {said[0]} {say(first)}, {said[1]} {say(second)}."
    return ""
