"""The formulas of a problem, each with its wrong forms, and with all that is given put in.

Worked out once for a set of premises: every line of a piece of work asks the same.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from tutor.line.meaning import Setting
from tutor.line.poly import DividedByZero, NotExact, Poly
from tutor.line.tree import Chain, Expr, Name, Rel
from tutor.line.walk import names_in
from tutor.marking.ground import Elimination
from tutor.marking.slips.recognise import wrong_equations, wrong_formulas
from tutor.marking.slips.shapes import plus, product_seen, terms_seen, without
from tutor.marking.slips.spots import Values
from tutor.marking.slips.telling import given_in
from tutor.marking.slips.wrong import Wrong, WrongEquation
from tutor.marking.state import Spec


@dataclass(frozen=True, slots=True)
class Place:
    """A formula of the problem: its head, its other side, and the elimination by all other premises.

    ``right`` is the formula and ``wrongs`` its wrong forms, as sums that are zero, in the names
    that are left. Each wrong form comes with the two sides it has.
    """

    head: Expr
    body: Expr
    rest: Elimination
    right: Poly
    wrongs: tuple[tuple[Wrong | WrongEquation, Poly], ...]


@lru_cache(maxsize=64)
def places(spec: Spec, setting: Setting, lengths: frozenset[str]) -> tuple[Place, ...]:
    """Return the formulas among some premises. ``lengths``: names whose formula may add up borders."""
    found: list[Place] = []
    for index, premise in enumerate(spec.premises):
        if not isinstance(premise, Chain) or premise.rels != (Rel.EQ,):
            continue
        head, body = premise.sides
        if len(names_in(head, body)) < 2:
            continue
        try:
            rest = spec.ground(setting).without(index)
        except (NotExact, DividedByZero):
            continue
        right = lowered(head, body, rest, setting)
        if right is not None and right.names():
            borders = isinstance(head, Name) and head.name in lengths
            given = frozenset(given_in(spec))
            sides = _wrong_sides(head, body, given, borders)
            wrongs = tuple(_told_apart(sides, rest, right, setting))
            found.append(Place(head, body, rest, right, wrongs))
    return tuple(found)


def _told_apart(
    sides: Iterator[tuple[Wrong | WrongEquation, Expr, Expr]],
    rest: Elimination,
    right: Poly,
    setting: Setting,
) -> Iterator[tuple[Wrong | WrongEquation, Poly]]:
    """Yield the wrong forms that say something else than the right one."""
    for wrong, left, side in sides:
        poly = lowered(left, side, rest, setting)
        if poly is not None and poly.names() and not proportional(poly, right):
            yield wrong, poly


def _wrong_sides(
    head: Expr, body: Expr, given: frozenset[str], borders: bool
) -> Iterator[tuple[Wrong | WrongEquation, Expr, Expr]]:
    for kept, changed in ((head, body), (body, head)):
        if isinstance(changed, Name) or not names_in(changed):
            continue
        for wrong in wrong_formulas(changed, True, borders):
            yield wrong, kept, wrong.tree
        terms = terms_seen(changed)
        for at, term in enumerate(terms if len(terms) > 1 else ()):
            for wrong in wrong_formulas(term, False, False):
                yield wrong, kept, plus(*terms[:at], wrong.tree, *terms[at + 1 :])
    for equation in (*wrong_equations(head, body), *_across_and_radius(head, body, given)):
        yield equation, equation.left, equation.right


def _across_and_radius(head: Expr, body: Expr, given: frozenset[str]) -> Iterator[WrongEquation]:
    """``d = 2r``: one of the two put down for the other."""
    product = product_seen(body)
    rest = None if product is None or product.pi or product.down else without(product.up, 2)
    if rest is None or len(rest) != 1 or not isinstance(head, Name) or not isinstance(rest[0], Name):
        return
    radius = rest[0]
    if head.name[:1] not in "dD" or radius.name[:1] not in "rR":
        return
    if head.name in given:
        says = "Maybe {0} is the diameter. How far is it from the middle to the edge?"
        yield WrongEquation("diameter-used-as-radius", radius, head, says, (head,))
    else:
        says = "Maybe {0} is only the radius. How long is it all the way across?"
        yield WrongEquation("radius-used-as-diameter", head, radius, says, (radius,))


def lowered(left: Expr, right: Expr, rest: Elimination, setting: Setting) -> Poly | None:
    """Return left − right with everything but the formula put in, None where it cannot be had."""
    values = Values(setting)
    first, second = values.of(left), values.of(right)
    if first is None or second is None:
        return None
    try:
        return rest.lower((first - second).above)
    except (NotExact, DividedByZero):
        return None


def proportional(one: Poly, other: Poly) -> bool:
    """Tell whether one sum is a multiple of the other by a number."""
    if len(one.terms) != len(other.terms) or not one.terms:
        return False
    mono, value = next(iter(one.terms.items()))
    found = other.terms.get(mono)
    return found is not None and one.scaled(found) == other.scaled(value)
