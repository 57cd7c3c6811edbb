"""A wrong move with right steps before or after it in the same line: ``2x + 6 = 14`` as ``x = 10``.

The line that the wrong move alone makes is not typed, but it has the solution that the typed line
has. Many moves can end at one number, so this is looked for last, and told only where one kind of
move remains. Numbers that stand in no line are not said: they would be a step of the solution.
"""

from collections.abc import Callable, Iterator
from itertools import islice

from tutor.line.meaning import Setting
from tutor.line.poly import DividedByZero, NotExact, Ratio
from tutor.line.tree import Add, Chain, Div, Expr, Mul, Name, Neg, Num, Pow, Span, Statement
from tutor.line.walk import names_in
from tutor.marking.deciding.everyday import everyday
from tutor.marking.deciding.facts import statement_names
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
    sum_of,
    values_at,
)
from tutor.marking.slips.traced_across import Kept, across, kept_of

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
    "always-subtract-across": "constant-across-unchanged-sign",
    "plus-undone-by-adding": "constant-across-unchanged-sign",
    "minus-undone-by-subtracting": "constant-across-unchanged-sign",
}


def traced_slips(known: Known, statement: Statement, setting: Setting) -> Iterator[Slip]:
    """Yield the one wrong move from which, with right steps, an equation or an inequality comes."""
    if not isinstance(statement, Chain) or len(statement.sides) != 2:
        return
    names = statement_names(statement)
    if len(names) != 1 or any(map(is_long, statement.sides)):
        return
    values = values_at(statement, setting)
    for above in islice(statements_above(known, statement), MAX_ABOVE):
        line = above.statement
        if above.cost or not isinstance(line, Chain) or line.rels[-1].equates != statement.rels[0].equates:
            continue
        was = (line.sides[0], line.sides[-1])
        same = statement_names(line) if len(line.sides) == 2 else names_in(*was)
        if same == names and not any(map(is_long, was)):
            found = _explained(line, statement, values)
            if found is not None:
                hit, others = found
                yield Slip(hit.name, hit.message, _shown_by(statement.sides), COST, others)
            return


# One wrong move that the table has under two names.
_TWO_NAMES = frozenset(["always-subtract-across", "constant-across-unchanged-sign"])
# What goes wrong with a number alone, and leaves the unknown as it is.
_OF_NUMBERS = frozenset(
    ["constant-across-unchanged-sign", "always-subtract-across", "constant-removed-one-side-only"]
)
_OF_FRACTIONS = frozenset(["tops-and-bottoms-added", "tops-only-added", "larger-denominator-kept"])


def _explained(above: Chain, typed: Chain, values: Values) -> tuple[Hit, tuple[str, ...]] | None:
    """Return a move and the names of those that explain as much, None where too many do.

    Of a wrong move inside a bracket and one across that begins behind the opened bracket the
    first is told: it comes first.
    """
    was, now = (above.sides[0], above.sides[-1]), typed.sides
    told, line = everyday(above), everyday(typed)
    kept = Kept.NEITHER if told is None or line is None else kept_of(told, line)
    inside = _inside(was, now, values, scaled=kept is Kept.NEITHER) if typed.rels[0].equates else []
    on_both = across(told, line, was) if told is not None and line is not None else []
    if kept is Kept.UNKNOWN:
        inside = [hit for hit in inside if hit.name not in _OF_FRACTIONS]  # its fraction still stands alone
        on_both = [hit for hit in on_both if hit.name in _OF_NUMBERS]
    if kept is Kept.NUMBER:
        on_both = []
    for found, others in ((inside, on_both), (on_both, [])):
        kinds = {_SAME_MOVE.get(hit.name, hit.name) for hit in found}
        if len(kinds) == 1:
            names = [hit.name for hit in found if hit.name in _TWO_NAMES] + [hit.name for hit in others]
            return found[0], tuple(name for name in dict.fromkeys(names) if name != found[0].name)
        if kinds:
            return None
    return None


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


def _inside(was: tuple[Expr, Expr], now: tuple[Expr, ...], values: Values, *, scaled: bool) -> list[Hit]:
    """The moves inside one side, then right steps on both; those with the fewer steps, if there are some.

    ``scaled``: the line may have been multiplied or divided as well.
    """
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
    return hits[True] or (hits[False] if may_be_scaled and scaled else [])


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
