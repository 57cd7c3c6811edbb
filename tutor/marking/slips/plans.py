"""A wrong plan over several lines: where the wrong quantity first appears.

``3.14·10·10 = 314`` is true. With 5 for a radius it is of no use, and the line that takes the
314 up breaks: its message names the line where the diameter came in.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import combinations

from tutor.line.meaning import Setting
from tutor.line.poly import Number
from tutor.line.tree import Chain, Expr, Num
from tutor.line.walk import every, names_in
from tutor.line.writing import write_expr
from tutor.marking.deciding.state import Known
from tutor.marking.slips.lowered import Place
from tutor.marking.slips.model import Slip
from tutor.marking.slips.shapes import plain_value, product_seen, terms_seen, times
from tutor.marking.slips.spots import Values
from tutor.marking.slips.telling import Filled, said
from tutor.marking.slips.wrong import Wrong, WrongEquation

MAX_FACTORS = 5


@dataclass(frozen=True, slots=True)
class _Working:
    """A line above that works a number out."""

    index: int
    working: Expr
    result: Num


def comes_from(
    known: Known,
    slip: Slip,
    wrong: Wrong | WrongEquation,
    place: Place,
    typed: Expr,
    setting: Setting,
    filled: Filled,
) -> Slip:
    """Return a slip whose message names the line where the wrong quantity first appears, if one does."""
    workings = _workings(known)
    if not workings or not wrong.there:
        return slip
    right = _right_values(filled(place.body), setting)
    found = _source(typed, wrong, workings, right)
    if found is None:
        return slip
    used, first = found
    there = said(wrong.there, wrong.about, filled, setting)
    _, _, asks = slip.message.partition(". ")
    message = f"The {write_expr(first.result)} comes from line {first.index + 1}: {there}. {asks}"
    span = next((node.span for node in every(typed) if node == used.result), slip.span)
    return replace(slip, message=message, span=span)


def _workings(known: Known) -> dict[Fraction, _Working]:
    """Return the results of the lines above that work with numbers alone, ``T = 14·9 = 126`` too."""
    found: dict[Fraction, _Working] = {}
    for index, line in known.above:
        if not isinstance(line, Chain) or not line.rels[-1].equates:
            continue
        working, result = line.sides[-2], line.sides[-1]
        if isinstance(result, Num) and not isinstance(working, Num) and not names_in(working):
            found.setdefault(result.value, _Working(index, working, result))
    return found


# What is wrong with one size of a formula, not with the formula: it is wrong from where that size came in.
_OF_A_SIZE = frozenset({"diameter-used-as-radius", "radius-used-as-diameter", "radius-doubled-not-squared"})


def _source(
    typed: Expr,
    wrong: Wrong | WrongEquation,
    workings: dict[Fraction, _Working],
    right: frozenset[Number],
) -> tuple[_Working, _Working] | None:
    """Return the working whose result the typed side uses, and the one where it went wrong."""
    used = [workings[n.value] for n in every(typed) if isinstance(n, Num) and n.value in workings]
    for working in used:
        first = _first_wrong(working, workings, right)
        if first is not None:
            return working, first if wrong.name in _OF_A_SIZE else working
    # A true part of the formula, given for the whole of it: "11·8 = 88", then "A = 88".
    return (used[0], used[0]) if used and isinstance(plain_value(typed), Num) else None


def _first_wrong(
    start: _Working, workings: dict[Fraction, _Working], right: frozenset[Number]
) -> _Working | None:
    """Return the earliest line behind a working whose result is no part of the right formula."""
    if start.result.value in right:
        return None
    for node in every(start.working):
        if isinstance(node, Num) and node.value in workings:
            before = workings[node.value]
            if before.index < start.index:
                found = _first_wrong(before, workings, right)
                if found is not None:
                    return found
    return start


def _right_values(body: Expr, setting: Setting) -> frozenset[Number]:
    """Return the values of the parts of the right formula, and of what some of its factors make."""
    values = Values(setting)
    found = {values.number(part) for whole in (body, *terms_seen(body)) for part in _parts(whole)}
    return frozenset(value for value in found if value is not None)


def _parts(expr: Expr) -> Iterator[Expr]:
    yield from every(expr)
    product = product_seen(expr)
    if product is None:
        return
    factors = product.up if product.pi is None else (product.pi, *product.up)
    for size in range(2, min(len(factors), MAX_FACTORS) + 1):
        for some in combinations(factors, size):
            yield times(*some)
