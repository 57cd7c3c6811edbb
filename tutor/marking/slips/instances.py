"""Numbers put into a wrong formula where nothing else says what they are.

Where the first line is ``A = π·r²`` and no r is given, ``A = 2·3.14·5`` can only be the way
around a circle with radius 5.
"""

from collections.abc import Iterator
from fractions import Fraction
from itertools import permutations

from tutor.line.meaning import Setting, number_of
from tutor.line.tree import Add, Chain, Expr, Name, Num
from tutor.line.walk import names_in
from tutor.line.writing import write_number
from tutor.marking.slips.lowered import Place
from tutor.marking.slips.model import Slip
from tutor.marking.slips.shapes import Product, product_seen, terms_seen, without
from tutor.marking.slips.telling import filling, in_order, slip_made
from tutor.marking.slips.wrong import Wrong

Bound = dict[str, Fraction]


def instance_slips(place: Place, line: Chain, setting: Setting) -> Iterator[Slip]:
    """Yield the wrong formulas that the line is an instance of, where it is none of the right one."""
    if not isinstance(place.head, Name) or len(line.sides) != 2:
        return
    if place.head not in line.sides:
        return
    typed = line.sides[1] if line.sides[0] == place.head else line.sides[0]
    if names_in(typed) or isinstance(typed, Num) or _numbers_put_in(place.body, typed) is not None:
        return
    found: list[tuple[Wrong, Bound]] = []
    for formed in place.wrongs:
        wrong = formed.wrong
        bound = _numbers_put_in(wrong.tree, typed) if isinstance(wrong, Wrong) else None
        if bound is not None and isinstance(wrong, Wrong):
            found.append((wrong, bound))
    order = in_order([wrong for wrong, _ in found], typed, formula=True)
    for wrong, bound in sorted(found, key=lambda pair: order.index(pair[0])):
        given: dict[str, Expr] = {name: Num(value, write_number(value)) for name, value in bound.items()}
        yield slip_made(wrong, typed, setting, 1, filling(given))


def _numbers_put_in(pattern: Expr, typed: Expr) -> Bound | None:
    return next(_bound(pattern, typed, {}), None)


def _bound(pattern: Expr, typed: Expr, bound: Bound) -> Iterator[Bound]:
    """Yield each way to put numbers in the place of the names of a pattern, up to order."""
    if isinstance(pattern, Name):
        value = number_of(typed)
        if value is not None and not isinstance(typed, Add) and bound.get(pattern.name, value) == value:
            yield {**bound, pattern.name: Fraction(value)}
        return
    if isinstance(pattern, Num):
        if isinstance(typed, Num) and typed.value == pattern.value:
            yield bound
        return
    terms, others = terms_seen(pattern), terms_seen(typed)
    if len(terms) > 1:
        yield from _in_any_order(terms, others, bound)
        return
    wanted, found = product_seen(pattern), product_seen(typed)
    if wanted is None or found is None or wanted.up == (pattern,):
        return  # a value with a unit, a root: it is no product, and not compared any further
    if len(others) == 1:
        yield from _factors(wanted, found, bound)


def _factors(wanted: Product, found: Product, bound: Bound) -> Iterator[Bound]:
    if (wanted.pi is None) != (found.pi is None) or wanted.minus != found.minus:
        return
    up: tuple[Expr, ...] | None = found.up
    down: tuple[Expr, ...] | None = found.down
    for part in wanted.up:
        if isinstance(part, Num) and up is not None:
            up = without(up, part.value)
    for part in wanted.down:
        if isinstance(part, Num) and down is not None:
            down = without(down, part.value)
    if up is None or down is None or down or any(not isinstance(part, Num) for part in wanted.down):
        return
    yield from _in_any_order(tuple(part for part in wanted.up if not isinstance(part, Num)), up, bound)


def _in_any_order(patterns: tuple[Expr, ...], typed: tuple[Expr, ...], bound: Bound) -> Iterator[Bound]:
    if len(patterns) != len(typed) or len(patterns) > 4:
        return
    for order in permutations(typed):
        yield from _one_by_one(patterns, order, bound)


def _one_by_one(patterns: tuple[Expr, ...], typed: tuple[Expr, ...], bound: Bound) -> Iterator[Bound]:
    if not patterns:
        yield bound
        return
    for more in _bound(patterns[0], typed[0], bound):
        yield from _one_by_one(patterns[1:], typed[1:], more)
