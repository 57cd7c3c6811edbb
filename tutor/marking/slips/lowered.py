"""The formulas of a problem, each with its wrong forms, and with all that is given put in.

Worked out once for a set of premises: every line of a piece of work asks the same.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from tutor.line.meaning import Setting
from tutor.line.poly import ZERO, DividedByZero, Mono, NotExact, Number, Poly
from tutor.line.tree import Chain, Expr, Name, Neg, Rel
from tutor.line.walk import names_in
from tutor.marking.deciding.elimination import Elimination
from tutor.marking.deciding.state import Spec
from tutor.marking.slips.recognise import wrong_equations, wrong_formulas
from tutor.marking.slips.shapes import plus, product_seen, terms_seen, without
from tutor.marking.slips.spots import Values, unsigned
from tutor.marking.slips.telling import given_in
from tutor.marking.slips.wrong import Wrong, WrongEquation

Shape = frozenset[tuple[Mono, Number]]


@dataclass(frozen=True, slots=True)
class Formed:
    """A wrong formula as a sum that is zero; ``shape`` is equal for all its multiples.

    ``value``: where one name is left, what its first or second power (``power``) is.
    """

    wrong: Wrong | WrongEquation
    poly: Poly
    shape: Shape
    name: str = ""
    power: int = 0
    value: Poly = ZERO


@dataclass(frozen=True, slots=True)
class Place:
    """A formula of the problem: its head, its other side, and the elimination by all other premises.

    ``right`` is the formula as a sum that is zero, in the names that are left, up to a factor.
    """

    head: Expr
    body: Expr
    rest: Elimination
    right: Shape
    wrongs: tuple[Formed, ...]


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
            shape = shape_of(right)
            wrongs = tuple(_told_apart(sides, rest, shape, setting))
            found.append(Place(head, body, rest, shape, wrongs))
    return tuple(found)


def _told_apart(
    sides: Iterator[tuple[Wrong | WrongEquation, Expr, Expr]],
    rest: Elimination,
    right: Shape,
    setting: Setting,
) -> Iterator[Formed]:
    """Yield the wrong forms that say something else than the right one."""
    for wrong, left, side in sides:
        poly = lowered(left, side, rest, setting)
        if poly is not None and poly.names():
            shape = shape_of(poly)
            if shape != right:
                yield _formed(wrong, poly, shape)


def _formed(wrong: Wrong | WrongEquation, poly: Poly, shape: Shape) -> Formed:
    names = poly.names()
    if len(names) == 1:
        (name,) = names
        by_power = poly.by_power(name)
        power = max(by_power)
        lead = by_power[power].inverse()
        if lead is not None and power in (1, 2) and not set(by_power) - {0, power}:
            return Formed(wrong, poly, shape, name, power, -(by_power.get(0, ZERO) * lead))
    return Formed(wrong, poly, shape)


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
            for wrong in wrong_formulas(unsigned(term), False, False):
                piece = Neg(wrong.tree) if isinstance(term, Neg) else wrong.tree
                whole = plus(*terms[:at], piece, *terms[at + 1 :])
                yield replace(wrong, tree=whole), kept, whole
    for equation in (*wrong_equations(head, body), *_across_and_radius(head, body, given)):
        if equation.known is None or (given and names_in(equation.known) <= given):
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


def shape_of(poly: Poly) -> Shape:
    """Return a sum up to a factor: equal for two sums of which one is a multiple of the other."""
    lead = poly.terms[min(poly.terms)] if poly.terms else 1
    return frozenset((poly if lead == 1 else poly.scaled(1 / Fraction(lead))).terms.items())
