"""A wrong formula in the place of the problem's own, in letters or with the givens put in."""

from collections.abc import Iterator
from dataclasses import dataclass

from tutor.line.meaning import Setting
from tutor.line.poly import DividedByZero, NotExact, Poly
from tutor.line.tree import Chain, Expr, Name, Rel
from tutor.line.walk import names_in
from tutor.marking.ground import Elimination
from tutor.marking.slips.model import Slip
from tutor.marking.slips.recognise import wrong_equations, wrong_formulas
from tutor.marking.slips.rounded import decimal_in, rounds_near
from tutor.marking.slips.shapes import num, plus, product_seen, terms_seen, without
from tutor.marking.slips.slanted import slanted
from tutor.marking.slips.spots import Values
from tutor.marking.slips.telling import Filled, filling, given_numbers, in_order, slip_made
from tutor.marking.slips.wrong import Wrong, WrongEquation
from tutor.marking.state import Known
from tutor.quantity.dimension import LENGTH

MAX_LINKS = 4


@dataclass(frozen=True, slots=True)
class _Place:
    """A formula of the problem: its number among the premises, its head and its other side."""

    index: int
    head: Expr
    body: Expr


@dataclass(frozen=True, slots=True)
class _Line:
    """One relation of the typed line, with everything but the formula put in."""

    left: Expr
    right: Expr
    lowered: Poly

    @property
    def told(self) -> Expr:
        """Return the side that tells a value, not a name alone."""
        return self.left if isinstance(self.right, Name) else self.right


def premise_slips(known: Known, line: Chain, setting: Setting) -> Iterator[Slip]:
    """Yield the wrong formulas from which the line follows by putting in what the problem gives."""
    base = known.base
    if base is None or len(line.rels) > MAX_LINKS or not all(rel.equates for rel in line.rels):
        return
    places = list(_places(known))
    if not places:
        return
    filled = filling(given_numbers(known))
    for place in places:
        try:
            rest = base.ground(setting).without(place.index)
            lines = list(_lines(line, rest, setting))
        except (NotExact, DividedByZero):
            continue
        yield from _at_place(known, place, rest, lines, setting, filled)


def _places(known: Known) -> Iterator[_Place]:
    assert known.base is not None
    for index, premise in enumerate(known.base.premises):
        if isinstance(premise, Chain) and premise.rels == (Rel.EQ,) and len(names_in(*premise.sides)) > 1:
            yield _Place(index, *premise.sides)


def _lines(line: Chain, rest: Elimination, setting: Setting) -> Iterator[_Line]:
    values = Values(setting)
    first = values.of(line.sides[0])
    for side in line.sides[1:]:
        value = values.of(side)
        if first is not None and value is not None:
            lowered = rest.lower((first - value).above)
            if lowered.names():
                yield _Line(line.sides[0], side, lowered)


def _at_place(
    known: Known, place: _Place, rest: Elimination, lines: list[_Line], setting: Setting, filled: Filled
) -> Iterator[Slip]:
    right = _lowered(place.head, place.body, rest, setting)
    if right is None:
        return
    wrong_lines = [line for line in lines if not proportional(line.lowered, right)]
    if not wrong_lines:
        return
    tried = list(_wrong_sides(known, place, rest, right, setting))
    for line in wrong_lines:
        found = [(wrong, cost) for wrong, poly in tried if (cost := _fits(line, poly, place)) is not None]
        costs = {id(wrong): cost for wrong, cost in found}
        for wrong in in_order([wrong for wrong, _ in found], line.told, formula=True):
            yield slip_made(wrong, line.told, setting, costs[id(wrong)], filled)
        if isinstance(line.left, Name) or isinstance(line.right, Name):
            sides = [Name(name) for name in given_numbers(known) if name not in names_in(place.body)]
            yield from slanted(place.body, line.told, Values(setting), 0, filled, map(filled, sides))


def _wrong_sides(
    known: Known, place: _Place, rest: Elimination, right: Poly, setting: Setting
) -> Iterator[tuple[Wrong | WrongEquation, Poly]]:
    """Yield every wrong formula that says something else than the right one, lowered."""
    lengths = isinstance(place.head, Name) and known.context.dimension_of(place.head.name) == LENGTH
    wrongs: list[tuple[Wrong | WrongEquation, Expr, Expr]] = []
    for head, body in ((place.head, place.body), (place.body, place.head)):
        if names_in(body) and not isinstance(body, Name):
            wrongs += [(wrong, head, wrong.tree) for wrong in wrong_formulas(body, True, lengths)]
            wrongs += [(wrong, head, tree) for wrong, tree in _in_terms(body)]
    wrongs += [(w, w.left, w.right) for w in wrong_equations(place.head, place.body)]
    wrongs += [(w, w.left, w.right) for w in _across_and_radius(place, known)]
    for wrong, left, side in wrongs:
        poly = _lowered(left, side, rest, setting)
        if poly is not None and poly.names() and not proportional(poly, right):
            yield wrong, poly


def _in_terms(body: Expr) -> Iterator[tuple[Wrong, Expr]]:
    """Yield the wrong moves at one term of a longer sum, with the whole sum that comes of it."""
    terms = terms_seen(body)
    if len(terms) < 2:
        return
    for at, term in enumerate(terms):
        for wrong in wrong_formulas(term, False, False):
            yield wrong, plus(*terms[:at], wrong.tree, *terms[at + 1 :])


def _across_and_radius(place: _Place, known: Known) -> Iterator[WrongEquation]:
    """``d = 2r``: one of the two put down for the other."""
    product = product_seen(place.body)
    rest = None if product is None or product.pi or product.down else without(product.up, 2)
    if rest is None or len(rest) != 1 or not isinstance(place.head, Name) or not isinstance(rest[0], Name):
        return
    across, radius = place.head, rest[0]
    if across.name.lower()[:1] != "d" or radius.name.lower()[:1] != "r":
        return
    if across.name in given_numbers(known):
        yield WrongEquation(
            "diameter-used-as-radius",
            radius,
            across,
            "Maybe {0} is the diameter. How far is it from the middle to the edge?",
            (across,),
        )
    else:
        yield WrongEquation(
            "radius-used-as-diameter",
            across,
            radius,
            "Maybe {0} is only the radius. How long is it all the way across?",
            (radius,),
        )


def _lowered(left: Expr, right: Expr, rest: Elimination, setting: Setting) -> Poly | None:
    values = Values(setting)
    first, second = values.of(left), values.of(right)
    if first is None or second is None:
        return None
    try:
        return rest.lower((first - second).above)
    except (NotExact, DividedByZero):
        return None


def _fits(line: _Line, wrong: Poly, place: _Place) -> int | None:
    """Return what is assumed besides the wrong formula, None where the line does not follow from it."""
    if line.lowered == wrong or line.lowered == -wrong:
        return 0
    if proportional(line.lowered, wrong):
        return 1
    return 1 if _rounds(line, wrong) else None


def proportional(one: Poly, other: Poly) -> bool:
    """Tell whether one sum is a multiple of the other by a number."""
    if len(one.terms) != len(other.terms) or not one.terms:
        return False
    mono, value = next(iter(one.terms.items()))
    found = other.terms.get(mono)
    return found is not None and one.scaled(found) == other.scaled(value)


def _rounds(line: _Line, wrong: Poly) -> bool:
    """Tell whether the line gives a rounded value of what the wrong formula gives."""
    name = line.left if isinstance(line.left, Name) else line.right
    shown = decimal_in(line.told)
    if shown is None or not isinstance(name, Name) or wrong.names() != {name.name}:
        return False
    by_power = wrong.by_power(name.name)
    highest = max(by_power)
    lead = by_power[highest].inverse()
    if lead is None or set(by_power) - {0, highest} or highest not in (1, 2):
        return False
    value = -(by_power.get(0, Poly({})) * lead)
    if highest == 1:
        return rounds_near(value, *shown)
    number, places = shown
    half = num(1).value / (2 * 10**places)
    low, high = number - half, number + half
    square = value.rational()
    return square is not None and 0 < low * low <= square <= high * high
