"""A wrong move with right steps before or after it in the same line: ``2x + 6 = 14`` as ``x = 10``.

The line that the wrong move alone makes is not typed, but it has the solution that the typed line
has. Many moves can end at one number, so this is looked for last, and told only where one kind of
move remains. Numbers that stand in no line are not said: they would be a step of the solution.
"""

from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import islice
from typing import NamedTuple

from tutor.line.meaning import Setting
from tutor.line.poly import DividedByZero, NotExact, Number, Ratio
from tutor.line.tree import Add, Chain, Div, Expr, Mul, Name, Neg, Num, Pow, Span, Statement
from tutor.line.walk import names_in
from tutor.marking.deciding.everyday import Everyday, everyday
from tutor.marking.deciding.state import Known
from tutor.marking.slips import arithmetic, brackets, fractions, powers, signs, terms
from tutor.marking.slips.above import statements_above
from tutor.marking.slips.lowered import shape_of
from tutor.marking.slips.model import Slip
from tutor.marking.slips.pairs import PairMove, pairs
from tutor.marking.slips.plain import are_plain
from tutor.marking.slips.spots import (
    MAX_TERMS,
    Hit,
    Move,
    Spot,
    Values,
    exact,
    is_long,
    negated,
    product_of,
    say,
    say_size,
    show,
    sum_of,
    values_at,
)

COST = 2
MAX_ABOVE = 3
# The moves inside a side that are seen often; the rarer ones would explain too many numbers.
_MOVES: dict[type, tuple[Move, ...]] = {
    Add: (arithmetic.left_to_right,),
    Neg: (brackets.multiplied_out,),
    Mul: (brackets.multiplied_out,),
    Div: (fractions.cancelled,),
    Pow: (powers.power_misread, brackets.square_spread),
}
_PAIR_MOVES: tuple[PairMove, ...] = (
    brackets.before_bracket,
    fractions.fractions_added,
    signs.double_minus,
    terms.joined_terms,
)
_SAME_MOVE = {
    "plus-undone-by-adding": "constant-across-unchanged-sign",
    "minus-undone-by-subtracting": "constant-across-unchanged-sign",
}


def traced_slips(known: Known, statement: Statement, setting: Setting) -> Iterator[Slip]:
    """Yield the one wrong move from which, with right steps, an equation comes."""
    if not isinstance(statement, Chain) or len(statement.sides) != 2 or not statement.rels[0].equates:
        return
    names = names_in(*statement.sides)
    if len(names) != 1 or any(map(is_long, statement.sides)):
        return
    values = values_at(statement, setting)
    for above in islice(statements_above(known, statement), MAX_ABOVE):
        line = above.statement
        if above.cost or not isinstance(line, Chain) or not line.rels[-1].equates:
            continue
        was = (line.sides[0], line.sides[-1])
        if names_in(*was) == names and not any(map(is_long, was)):
            found = _explained(line, statement, values)
            if found is not None:
                hit, others = found
                yield Slip(hit.name, hit.message, _shown_by(statement.sides), COST, others)
            return


def _explained(above: Chain, typed: Chain, values: Values) -> tuple[Hit, tuple[str, ...]] | None:
    """Return a move and the names of those that explain as much, None where too many do.

    Of a wrong move inside a bracket and one across that begins behind the opened bracket the
    first is told: it comes first.
    """
    was, now = (above.sides[0], above.sides[-1]), typed.sides
    inside = list(_inside(was, now, values))
    told, line = everyday(above), everyday(typed)
    across: list[Hit] = []
    if told is not None and line is not None and told.form != line.form and (lead := _lead_alone(line)):
        across += _across(told, line.form.bound, lead, was)
    for found, others in ((inside, across), (across, [])):
        kinds = {_SAME_MOVE.get(hit.name, hit.name) for hit in found}
        if len(kinds) == 1:
            return found[0], tuple(dict.fromkeys(hit.name for hit in others))
        if kinds:
            return None
    return None


def _lead_alone(line: Everyday) -> Number:
    """Return how many of the unknown stand alone on one side, 0 where they do not."""
    (_, a, b), (_, c, d) = line.left, line.right
    if not c and not b:
        return a
    return 0 if a or d else c


def _shown_by(sides: tuple[Expr, ...]) -> Span:
    """The side that tells the number, or all of the line."""
    alone = [side for side in sides if not names_in(side)]
    return alone[0].span if len(alone) == 1 else (sides[0].span[0], sides[-1].span[1])


# -- inside a side -----------------------------------------------------------------------------------


class _Goal:
    """The typed line, to be reached by a side that a wrong move made something else."""

    def __init__(self, typed: Ratio, other: Ratio) -> None:
        self._typed, self._other = typed, other
        self._shape = shape_of(typed.above)
        self.exactly = False

    def reached_by(self, value: Ratio) -> bool:
        """Tell whether right steps lead on from a value; ``exactly``: without multiplying the line."""
        made = value - self._other
        if made.below.names() or not made.above.names() or shape_of(made.above) != self._shape:
            return False
        self.exactly = made.same(self._typed) or negated(made).same(self._typed)
        return True


def _inside(was: tuple[Expr, Expr], now: tuple[Expr, ...], values: Values) -> list[Hit]:
    """The moves inside one side, then right steps on both; those with the fewer steps, if there are some."""
    found, typed = exact([values.of(side) for side in was]), exact([values.of(side) for side in now])
    if found is None or typed is None or _nothing_inside(was, values):
        return []
    if any(old.same(new) for old in found for new in typed):
        return []  # one side is as it was: what became of the other was looked for without right steps
    difference = typed[0] - typed[1]
    if difference.below.names() or not difference.above.names():
        return []
    if shape_of((found[0] - found[1]).above) == shape_of(difference.above):
        return []  # the line is right
    may_be_scaled = any(mono and times in (1, -1) for mono, times in difference.above.terms.items())
    may_be_scaled = may_be_scaled or any(len(value.above.terms) == 1 and value.names() for value in typed)
    hits: dict[bool, list[Hit]] = {True: [], False: []}
    for side, other in ((0, 1), (1, 0)):
        if _is_simple(was[side]):
            continue
        goal = _Goal(difference, found[other])
        for hit in _hits(was[side], values, goal.reached_by):
            if hit.name != "sum-read-as-product":  # it would explain too many numbers
                hits[goal.exactly].append(hit)
    if any(isinstance(side, Name) for side in now):
        return hits[True] + hits[False]  # a line that is solved was divided as a rule
    return hits[True] or (hits[False] if may_be_scaled else [])


def _nothing_inside(sides: tuple[Expr, Expr], values: Values) -> bool:
    """Tell whether there is no bracket and no longer sum in which something can go wrong."""
    return are_plain(sides, values) and all(_is_simple(side) or names_in(side) for side in sides)


def _is_simple(expr: Expr) -> bool:
    """Tell whether a side is one term: what goes wrong with it goes wrong across."""
    plain = expr.inner if isinstance(expr, Neg) else expr
    return isinstance(plain, Num | Name) or (
        isinstance(plain, Mul) and all(isinstance(factor, Num | Name) for factor in plain.factors)
    )


def _hits(expr: Expr, values: Values, reaches: Callable[[Ratio], bool]) -> Iterator[Hit]:
    for spot in _spots(expr, values, reaches):
        for move in _MOVES.get(type(spot.node), ()):
            yield from _tried(move(spot))
        for pair in pairs(spot):
            for pair_move in _PAIR_MOVES:
                yield from _tried(pair_move(pair))


def _tried(hits: Iterator[Hit]) -> Iterator[Hit]:
    try:
        yield from hits
    except (NotExact, DividedByZero):
        return


def _spots(expr: Expr, values: Values, reaches: Callable[[Ratio], bool]) -> Iterator[Spot]:
    """Yield every part of a side, with what a value in its place has to reach."""
    if isinstance(expr, Num | Name) or _is_simple(expr):
        return
    yield Spot(expr, _NOTHING, values, reaches=reaches)
    for part, then in _parts(expr, values):
        yield from _spots(part, values, lambda value, then=then: reaches(then(value)))  # type: ignore[misc]


_NOTHING = sum_of([])


def _parts(expr: Expr, values: Values) -> Iterator[tuple[Expr, Callable[[Ratio], Ratio]]]:
    """Yield the parts of an expression and what it is worth with another value in the place of each."""
    match expr:
        case Neg(inner):
            yield inner, negated
        case Add(parts) | Mul(parts) if len(parts) <= MAX_TERMS:
            found = exact([values.of(part) for part in parts])
            for at, part in enumerate(parts if found is not None else ()):
                assert found is not None
                others = found[:at] + found[at + 1 :]
                if isinstance(expr, Add):
                    yield part, sum_of(others).__add__
                else:
                    yield part, product_of(others).__mul__
        case Div(top, bottom):
            below = values.of(bottom)
            if below is not None and below.above:
                yield top, lambda value: value.over(below)
        case _:
            return


# -- across ------------------------------------------------------------------------------------------


class _Line(NamedTuple):
    """A line ``ax + b = d`` or, with the unknown on both sides, ``ax + b = cx + d``; ``x``: the unknown."""

    x: str
    a: Fraction
    b: Fraction
    c: Fraction
    d: Fraction
    left: Expr
    right: Expr


def _across(told: Everyday, bound: Fraction, typed: Number, was: tuple[Expr, Expr]) -> Iterator[Hit]:
    """The moves on both sides, in the line as it can be collected, that end at a value of the unknown.

    ``typed``: how many of the unknown the typed line has alone.
    """
    (_, a, b), (_, c, d) = told.left, told.right
    numbers = [Fraction(number) for number in (a, b, c, d)]
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


def _constant_moved(line: _Line, bound: Fraction) -> Iterator[Hit]:
    """``2x + 6 = 14`` by ``2x = 20`` or by ``2x = 14``, ``4x + 8 = 20`` by ``x + 2 = 20``."""
    lead, b, d = line.a - line.c, line.b, line.d
    if not b or lead in (0, 1):
        return
    bracket = not line.c and _is_multiple(line.left)
    shown = say_size(_small(b / lead)) if bracket else say_size(b)
    doing, undone = ("adding", "taken away") if b > 0 else ("taking away", "added")
    if lead * bound == d + b:
        message = f"Maybe {shown} went across with its old sign. What undoes {doing} {shown}?"
        yield Hit("constant-across-unchanged-sign", message)
    if lead * bound == d:
        other = "the other side" if bracket else show(line.right)
        message = f"Maybe {shown} was {undone} on one side only. What happens to {other}?"
        yield Hit("constant-removed-one-side-only", message)
    if not line.c and bound + b / lead == d and lead != -1 and not _is_part(lead):
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


def _unknown_moved(line: _Line, bound: Fraction) -> Iterator[Hit]:
    """``5x + 4 = 2x + 18`` by ``7x = 14``."""
    if (line.a + line.c) * bound == line.d - line.b:
        term = line.x if abs(line.c) == 1 else f"{say_size(_small(line.c))}{line.x}"
        message = f"Maybe {term} went across with its old sign. What undoes {term} on that side?"
        yield Hit("variable-to-other-side-unchanged-sign", message)


def _joined(line: _Line, bound: Fraction) -> Iterator[Hit]:
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


def _undone_at_the_end(line: _Line, bound: Fraction, typed: Number) -> Iterator[Hit]:
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
        called = f"the division by {say(_small(1 / lead))}" if _is_part(lead) else f"the {number}"
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


def _undone_by_itself(lead: Fraction) -> Hit:
    if _is_part(lead):
        by = say(_small(1 / lead))
        message = f"Maybe the other side was divided by {by} once more. What undoes dividing by {by}?"
        return Hit("div-undone-by-dividing", message)
    if lead.denominator != 1:
        message = f"Maybe the other side was multiplied by {say(lead)} once more. What undoes that?"
        return Hit("fraction-coefficient-multiplied-again", message)
    message = (
        f"Maybe the other side was multiplied by {say(_small(lead))} once more. What undoes multiplying?"
    )
    return Hit("mult-undone-by-multiplying", message)


def _is_part(lead: Fraction) -> bool:
    return abs(lead.numerator) == 1 and lead.denominator > 1


def _small(value: Fraction) -> Number:
    return value.numerator if value.denominator == 1 else value
