"""The finder of the moves in one side, on both sides, and within a line that goes on with ``=``."""

from collections.abc import Iterator

from tutor.line.meaning import Setting
from tutor.line.poly import DividedByZero, NotExact, number_in
from tutor.line.tree import (
    Add,
    Bare,
    Chain,
    Div,
    Expr,
    Measure,
    Mul,
    Name,
    Neg,
    Num,
    Pow,
    Rel,
    Root,
    Span,
    Statement,
)
from tutor.line.walk import names_in
from tutor.marking.deciding.facts import names_by_side, statement_names
from tutor.marking.deciding.state import Known
from tutor.marking.slips import (
    across,
    arithmetic,
    brackets,
    everywhere,
    fractions,
    inverse,
    letters,
    powers,
    putting_in,
    signs,
    terms,
)
from tutor.marking.slips.above import Above, statements_above, with_values_put_in
from tutor.marking.slips.balance import BalanceMove, balances
from tutor.marking.slips.copying import copied_wrong
from tutor.marking.slips.fitting import Fitting, Parts, fitting, one_number_changed, shows_result
from tutor.marking.slips.model import Slip
from tutor.marking.slips.pairs import PairMove, pairs
from tutor.marking.slips.plain import are_plain, leads_nowhere, leads_nowhere_across
from tutor.marking.slips.run_on import run_on_slips
from tutor.marking.slips.same_solutions import same_solutions
from tutor.marking.slips.showing import changed_part
from tutor.marking.slips.spots import Hit, Move, Spot, Values, exact, is_long, spots, values_at
from tutor.marking.slips.ways import ways_to_take_pi

Sides = tuple[Expr, Expr]

# Slips of a result: it was written down, and no other calculation that happens to be worth as much.
_OF_A_RESULT = frozenset(["place-value-slip", "fact-slip"])

# The more special a move is, the further up it stands: of equals the first is told.
_MOVES: dict[type, tuple[Move, ...]] = {
    Add: (
        putting_in.digits_joined,
        arithmetic.left_to_right,
        signs.detached_numeral,
        fractions.all_fractions_added,
        everywhere.made_everywhere,
    ),
    Neg: (signs.minus_in_power, signs.minus_times_minus, brackets.multiplied_out),
    Mul: (
        brackets.factor_spread,
        signs.minus_times_minus,
        brackets.multiplied_out,
        fractions.multiplied_both,
        putting_in.digits_joined,
        powers.factor_squared,
        arithmetic.product_of_numbers,
        arithmetic.rounded_part,
    ),
    Div: (
        fractions.cancelled,
        signs.minus_times_minus,
        arithmetic.product_of_numbers,
        arithmetic.rounded_part,
    ),
    Pow: (powers.power_misread, signs.minus_times_minus, brackets.square_spread, arithmetic.rounded_part),
    Root: (powers.root_misread,),
}
_PAIR_MOVES: tuple[PairMove, ...] = (
    brackets.before_bracket,
    fractions.fractions_added,
    signs.signs_of_two,
    terms.joined_terms,
)
_BALANCE_MOVES: tuple[BalanceMove, ...] = (
    inverse.inserted,
    across.no_or_every_number,
    inverse.factor_undone,
    inverse.part_undone,
    inverse.one_term_undone,
    inverse.unknown_alone,
    across.constant_moved,
    across.unknown_moved,
    powers.square_undone,
    letters.letters_undone,
    letters.term_moved,
)
# With plain sides there is no bracket, no power, no second letter and no fraction to go wrong with.
_PLAIN_BALANCE_MOVES = tuple(
    move
    for move in _BALANCE_MOVES
    if move not in (inverse.inserted, inverse.one_term_undone, powers.square_undone, letters.letters_undone)
)


def move_slips(known: Known, statement: Statement, setting: Setting) -> Iterator[Slip]:
    """Yield the wrong moves that turn something above, or a side of the line itself, into the line."""
    for way in ways_to_take_pi(known, statement, setting):
        found = list(_in_way(known, statement, values_at(statement, way)))
        yield from found
        if found:
            return


def _in_way(known: Known, statement: Statement, values: Values) -> Iterator[Slip]:
    yield from _within(known, statement, values)
    least: int | None = None
    for above in statements_above(known, statement):
        if least is not None and above.cost + 1 >= least:
            return
        for hit, span in _from_above(above, statement, values):
            slip = Slip(hit.name, hit.message, span, hit.cost + above.cost)
            least = slip.cost if least is None else min(least, slip.cost)
            yield slip
        if _goes_on_working(above.statement, statement):
            return


def _goes_on_working(above: Statement, typed: Statement) -> bool:
    """``A = 44 + 12``, then ``A = 54``: what stood before it was put in, the move is in this step."""
    if not isinstance(above, Chain) or not isinstance(typed, Chain):
        return False
    subject, *rest = above.sides
    again = typed.sides[0]
    if not isinstance(subject, Name) or not isinstance(again, Name) or again.name != subject.name:
        return False
    return not names_in(*rest, *typed.sides[1:]) and not isinstance(rest[-1], Num | Neg | Measure)


def _from_above(above: Above, statement: Statement, values: Values) -> Iterator[tuple[Hit, Span]]:
    if isinstance(statement, Bare) and isinstance(above.statement, Bare):
        yield from _of_one_side(above.statement.expr, statement.expr, values, alone=True)
    elif isinstance(statement, Chain) and isinstance(above.statement, Chain):
        found = list(_of_equations(above.statement, statement, values))
        if not statement.rels[0].equates:  # the sentence of that slip speaks of the sign =
            found = [each for each in found if each[0].name != "answer-comes-next"]
        if found and not same_solutions(above.statement, statement, values):
            yield from found


def _of_equations(above: Chain, typed: Chain, values: Values) -> Iterator[tuple[Hit, Span]]:
    """The wrong moves that turn one equation, or inequality, into another."""
    rel, was = above.rels[-1], (above.sides[0], above.sides[-1])
    if any(map(is_long, (*was, *typed.sides[:2]))):
        return
    # A chain says something new in its first link only: _within looks at the others.
    now = (typed.sides[0], typed.sides[1])
    straight, swapped = _orders(was, now, values)
    plain = are_plain(was, values)
    if straight and _alike(rel, typed.rels[0]):
        yield from _sides_in_order(was, now, values, plain=plain)
    if swapped and _alike(rel.turned, typed.rels[0]):
        yield from _sides_in_order(was, now[::-1], values, plain=plain)


def _alike(one: Rel, two: Rel) -> bool:
    return one is two or (one.equates and two.equates)


def _orders(was: Sides, now: Sides, values: Values) -> tuple[bool, bool]:
    """Tell whether the sides can have kept their order, and whether they can have changed places.

    Where only one side holds letters, that side is known again by them.
    """
    found = exact([values.of(side) for side in (*was, *now)])
    if found is None:
        return True, True
    names = [value.names() for value in found]
    straight, swapped = names[:2] == names[2:], names[:2] == names[:1:-1]
    return (straight, swapped) if straight != swapped else (True, True)


def _sides_in_order(was: Sides, now: Sides, values: Values, *, plain: bool) -> Iterator[tuple[Hit, Span]]:
    for kept, other in ((0, 1), (1, 0)):
        if _unchanged(was[kept], now[kept], values):
            yield from _of_one_side(was[other], now[other], values, alone=False)
            if one_number_changed(was[other], now[other]):
                return  # nothing was done to both sides
    yield from _same_on_both(was, now, values)
    for balance in balances(was, now, values):
        if plain and leads_nowhere_across(balance):
            continue
        for move in _PLAIN_BALANCE_MOVES if plain else _BALANCE_MOVES:
            try:
                for hit in move(balance):
                    yield hit, balance.span_of(hit)
            except (NotExact, DividedByZero):
                continue


def _same_on_both(was: Sides, now: Sides, values: Values) -> Iterator[tuple[Hit, Span]]:
    """``3(n + 2) = 2(n + 5)`` as ``3n + 2 = 2n + 5``: the same move made within each side."""
    if any(isinstance(side, Num | Name) for side in was) or _one_is_kept(was, now, values):
        return
    first = {hit.name: (hit, span) for hit, span in _of_one_side(was[0], now[0], values, alone=True)}
    for hit, _ in _of_one_side(was[1], now[1], values, alone=True) if first else ():
        if hit.name in first:
            other, span = first[hit.name]
            yield other._replace(cost=other.cost + 1), span


def _one_is_kept(was: Sides, now: Sides, values: Values) -> bool:
    for old, new in zip(was, now, strict=True):
        before, after = values.of(old), values.of(new)
        if before is not None and after is not None and before.same(after):
            return True
    return False


def _unchanged(old: Expr, new: Expr, values: Values) -> bool:
    was, now = values.of(old), values.of(new)
    return old == new if was is None or now is None else was.same(now)


def _within(known: Known, statement: Statement, values: Values) -> Iterator[Slip]:
    """A side of the line itself that does not have the value of the side before it."""
    if not isinstance(statement, Chain):
        return
    yield from run_on_slips(known, statement, values)
    goes_on = len(statement.sides) > 2 or _opens_from(known, statement.sides[0])
    if not goes_on and statement_names(statement):
        yield from _with_values_put_in(known, statement, values)
        return
    for before, rel, after in zip(statement.sides, statement.rels, statement.sides[1:], strict=False):
        if not rel.equates:
            continue
        for old, new in ((before, after), (after, before)):
            if isinstance(old, Num | Name) or not names_in(new) <= names_in(old):
                continue
            if old is after and not _is_value(new):
                continue  # only a value alone is worked out of what stands right of it
            for hit, span in _of_one_side(old, new, values, alone=True):
                yield Slip(hit.name, hit.message, span, hit.cost)
    yield from _with_values_put_in(known, statement, values)


def _is_value(expr: Expr) -> bool:
    fraction = isinstance(expr, Div) and isinstance(expr.top, Num) and isinstance(expr.bottom, Num)
    return fraction or isinstance(expr, Num | Neg | Measure)


def _with_values_put_in(known: Known, chain: Chain, values: Values) -> Iterator[Slip]:
    """``2x = 23`` where x is 3."""
    if len(chain.sides) != 2 or not chain.rels[0].equates:
        return
    left, right = names_by_side(chain)
    for (old, new), there, here in ((chain.sides, left, right), (chain.sides[::-1], right, left)):
        if isinstance(old, Name) or here or not there:
            continue
        filled = with_values_put_in(known, old)
        if not names_in(filled):
            for hit, span in _of_one_side(filled, new, values, alone=True):
                yield Slip(hit.name, hit.message, span, hit.cost + 1)


def _opens_from(known: Known, side: Expr) -> bool:
    """Tell whether the line goes on from the expression above."""
    return isinstance(known.previous, Bare) and known.previous.expr == side


def _of_one_side(old: Expr, new: Expr, values: Values, *, alone: bool) -> Iterator[tuple[Hit, Span]]:
    """The wrong moves that turn one expression into another."""
    now = values.of(new)
    was = values.of(old)
    if now is None or (was is not None and now.same(was)):
        return
    nowhere = was is not None and leads_nowhere(old, was, now)
    if not nowhere and (is_long(old) or is_long(new)):
        return
    span: Span | None = None
    fits: Fitting | None = None
    for spot in () if nowhere else spots(old, now, values, plain=False):
        for hit, parts in _hits_at(spot):
            fits = fits or fitting(old, new, values)
            needed = number_in(spot.needed)
            if not fits.allows(hit.name, spot.node, needed, parts):
                continue
            if hit.name in _OF_A_RESULT and not shows_result(new, needed, spot):
                continue
            span = span or changed_part(old, new, values, spot.node)
            yield hit, span
    for hit in copied_wrong(old, new, alone=alone):
        yield hit, changed_part(old, new, values)


def _hits_at(spot: Spot) -> Iterator[tuple[Hit, Parts]]:
    """Every move at one place, with the terms it began from where these are not the whole place.

    A move whose values grow too big, or that divides by 0, explains nothing.
    """
    for move in _MOVES.get(type(spot.node), ()):
        try:
            for hit in move(spot):
                yield hit, ()
        except (NotExact, DividedByZero):
            continue
    for pair in pairs(spot):
        for pair_move in _PAIR_MOVES:
            try:
                for hit in pair_move(pair):
                    yield hit, (pair.first, pair.second)
            except (NotExact, DividedByZero):
                continue
