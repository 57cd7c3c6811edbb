"""A wrong formula in the place of the problem's own, in letters or with the givens put in."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from tutor.line.meaning import Setting
from tutor.line.poly import ONE, Poly
from tutor.line.tree import Chain, Expr, Measure, Name, PiSign, Pow
from tutor.line.walk import every, names_in
from tutor.marking.deciding.state import Known
from tutor.marking.slips.fitting import formula_fits
from tutor.marking.slips.instances import instance_slips
from tutor.marking.slips.lowered import Formed, Place, Shape, lowered, places, shape_of
from tutor.marking.slips.model import Slip
from tutor.marking.slips.plans import comes_from
from tutor.marking.slips.rounded import decimal_in, root_near, rounds_near
from tutor.marking.slips.shapes import is_number, over_two, product_seen
from tutor.marking.slips.slanted import slanted
from tutor.marking.slips.spots import Values
from tutor.marking.slips.telling import Filled, filling, given_numbers, in_order, numbers_said, slip_made
from tutor.marking.slips.wrong import Wrong, WrongEquation
from tutor.quantity.dimension import LENGTH

MAX_LINKS = 4


@dataclass(frozen=True, slots=True)
class _Line:
    """One relation of the typed line; ``poly``: left − right, with everything but the formula put in."""

    left: Expr
    right: Expr
    poly: Poly
    shape: Shape


def premise_slips(known: Known, line: Chain, setting: Setting) -> Iterator[Slip]:
    """Yield the wrong formulas from which the line follows by putting in what the problem gives."""
    base = known.base
    if base is None or len(line.rels) > MAX_LINKS or not all(rel.equates for rel in line.rels):
        return
    if base.form() is not None:
        return  # one unknown and nothing else: no formula
    found = places(base, setting, _lengths(known))
    if not found:
        return
    filled = filling(numbers_said(base))
    for place in found:
        wrong_lines = [one for one in _lines(line, place, setting) if one.shape != place.right]
        for one in wrong_lines:
            yield from _at_place(known, place, one, setting, filled)
        if wrong_lines and known.context.from_first_line:
            yield from instance_slips(place, line, setting)


def _lengths(known: Known) -> frozenset[str]:
    """Return the names of a task's formulas that may be lengths."""
    if known.context.from_first_line:
        return frozenset()
    kinds = dict(known.context.dimensions)
    return frozenset(name for name in known.context.measures if kinds.get(name, LENGTH) == LENGTH)


def _lines(line: Chain, place: Place, setting: Setting) -> Iterator[_Line]:
    for side in line.sides[1:]:
        poly = lowered(line.sides[0], side, place.rest, setting)
        if poly is not None and poly.names():
            yield _Line(line.sides[0], side, poly, shape_of(poly))


def _at_place(known: Known, place: Place, line: _Line, setting: Setting, filled: Filled) -> Iterator[Slip]:
    found: list[Wrong | WrongEquation] = []
    for formed in place.wrongs:
        later = _assumed(line, formed, setting) if _may_be(formed, place, known) else None
        if later is not None:
            found.append(replace(formed.wrong, cost=formed.wrong.cost + later))
    if not found and not isinstance(line.left, Name) and not isinstance(line.right, Name):
        return
    told = _told(line, place, filled, setting)
    found = [wrong for wrong in found if _is_written(wrong, place, told, filled, setting)]
    for wrong in in_order(found, told, formula=True):
        yield comes_from(
            known, slip_made(wrong, told, setting, 0, filled), wrong, place, told, setting, filled
        )
    if isinstance(line.left, Name) or isinstance(line.right, Name):
        others = [Name(name) for name in given_numbers(known) if name not in names_in(place.body)]
        if not _is_halved(place.body):
            others = [name for name in others if not _has_another_use(known, place, name)]
        yield from slanted(place.body, told, Values(setting), 0, filled, map(filled, others))


def _is_halved(body: Expr) -> bool:
    product = product_seen(body)
    return product is not None and over_two(product) is not None


def _has_another_use(known: Known, place: Place, name: Name) -> bool:
    """Tell whether another formula needs a size: beside a window, the board has a length of its own."""
    formulas = known.base.premises[: known.context.formula_count] if known.base is not None else ()
    return any(
        name.name in names_in(*formula.sides)
        for formula in formulas
        if isinstance(formula, Chain) and place.body not in formula.sides
    )


def _is_written(
    wrong: Wrong | WrongEquation, place: Place, told: Expr, filled: Filled, setting: Setting
) -> bool:
    """Tell whether the side that tells the value is written as the wrong formula, not as the right one."""
    if isinstance(wrong, WrongEquation) or names_in(told):
        return True
    return formula_fits(wrong.name, filled(wrong.tree), filled(place.body), told, Values(setting))


def _told(line: _Line, place: Place, filled: Filled, setting: Setting) -> Expr:
    """Return the side that tells the value, not the one that is named as in the formula."""
    values = Values(setting)
    head = values.of(filled(place.head))
    for side, other in ((line.left, line.right), (line.right, line.left)):
        value = values.of(filled(side))
        if isinstance(side, Name) or (head is not None and value is not None and value.same(head)):
            return other
    return line.right if names_in(line.left) or not names_in(line.right) else line.left


def _assumed(line: _Line, wrong: Formed, setting: Setting) -> int | None:
    """Return what is assumed besides the wrong formula, None where the line does not follow from it."""
    if wrong.wrong.name == _OPPOSITE and not _tells_180(line):
        return None
    if line.shape == wrong.shape:
        return 0 if line.poly == wrong.poly or line.poly == -wrong.poly else 1
    return 1 if wrong.power and _worked_out(line, wrong, setting) else None


_OPPOSITE = "vertical-angles-added-to-180"


def _may_be(formed: Formed, place: Place, known: Known) -> bool:
    """Tell whether a formula may be about opposite angles: two of them, alike, and no lengths."""
    if formed.wrong.name != _OPPOSITE:
        return True
    nodes = (*every(place.head), *every(place.body))
    given = [node for value in given_numbers(known).values() for node in every(value)]
    lengths = any(isinstance(node, Measure) and str(node.unit) != "°" for node in given)
    powers = any(isinstance(node, Pow | PiSign) for node in nodes)
    return not lengths and not powers and len(names_in(place.head, place.body)) <= 2


def _tells_180(line: _Line) -> bool:
    """Tell whether 180 shows, or an angle alone that was worked out with it."""
    nodes = (*every(line.left), *every(line.right))
    return (
        isinstance(line.left, Name) or isinstance(line.right, Name) or any(is_number(n, 180) for n in nodes)
    )


def _worked_out(line: _Line, wrong: Formed, setting: Setting) -> bool:
    """Tell whether the line gives what the wrong formula gives: rounded, or with a root taken."""
    name, told = (line.left, line.right) if isinstance(line.left, Name) else (line.right, line.left)
    if not isinstance(name, Name) or name.name != wrong.name:
        return False
    shown = decimal_in(told)
    if wrong.power == 1:
        return shown is not None and rounds_near(wrong.value, *shown)
    if names_in(told):
        return False
    root = Values(setting).of(told)
    if root is not None and root.below == ONE and root.above * root.above == wrong.value:
        return True
    return shown is not None and root_near(wrong.value, *shown)
