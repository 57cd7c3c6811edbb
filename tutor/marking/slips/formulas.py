"""Wrong formulas: another formula's value, a half left out, the diameter taken for the radius.

A wrong formula is looked for in three places: at the formula of the problem, at a side of a
line above, and at the left side of a link that is not true.
"""

from collections.abc import Iterator
from dataclasses import replace

from tutor.line.meaning import Setting
from tutor.line.poly import Ratio
from tutor.line.tree import Add, Bare, Chain, Expr, Neg, Rel, Root, Statement
from tutor.line.walk import names_in
from tutor.marking.deciding.everyday import Everyday, everyday
from tutor.marking.deciding.state import Known
from tutor.marking.slips.above import in_one_thread, statements_above
from tutor.marking.slips.angles import SUMS_OF_ANGLES
from tutor.marking.slips.fitting import formula_fits
from tutor.marking.slips.lowered import shape_of
from tutor.marking.slips.meant import is_meant
from tutor.marking.slips.model import Slip
from tutor.marking.slips.premises import premise_slips
from tutor.marking.slips.recognise import wrong_equations, wrong_formulas, wrongs_at
from tutor.marking.slips.rounded import gives_rounded
from tutor.marking.slips.shapes import terms_seen
from tutor.marking.slips.slanted import slanted
from tutor.marking.slips.spots import Values, negated, values_at
from tutor.marking.slips.telling import in_order, slip_made
from tutor.marking.slips.ways import ways_to_take_pi
from tutor.marking.slips.wrong import Wrong, WrongEquation

MAX_LINES = 4


def formula_slips(known: Known, statement: Statement, setting: Setting) -> Iterator[Slip]:
    """Yield the wrong formulas that turn what stands above into this very line."""
    if not isinstance(statement, Chain | Bare):
        return
    for way in ways_to_take_pi(known, statement, setting):
        found = [slip for slip in _in_way(known, statement, way) if is_meant(known, statement, slip.name)]
        yield from found
        if found:
            return


def _in_way(known: Known, statement: Chain | Bare, setting: Setting) -> list[Slip]:
    """Return what is found at the formulas, in the line and at the line above; else at earlier lines."""
    values = values_at(statement, setting)
    found: list[Slip] = []
    if isinstance(statement, Chain):
        found += premise_slips(known, statement, setting)
        found += _inside(statement, values)
    for back, (_, above) in enumerate(reversed(known.above[-MAX_LINES:])):
        if back and (found or in_one_thread(known, statement)):
            break
        if isinstance(above, Bare) and isinstance(statement, Bare):
            found += _at_side(above.expr, statement.expr, values, min(back, 1), bare=True)
        elif isinstance(above, Chain) and isinstance(statement, Chain):
            found += _at_equation(above, statement, values, min(back, 1))
    if not known.above and isinstance(statement, Chain):
        # "b = √(c² − a²)": only with numbers in it is it a sum that can be compared.
        for begun in statements_above(known, statement):
            line = begun.statement
            if isinstance(line, Chain) and isinstance(line.sides[-1], Root) and not names_in(line.sides[-1]):
                found += _at_equation(line, statement, values, 0)
    return found


def _inside(statement: Chain, values: Values) -> Iterator[Slip]:
    """A link between two values that is not true."""
    for left, rel, right in zip(statement.sides, statement.rels, statement.sides[1:], strict=False):
        if rel.equates and not names_in(left, right):
            yield from _at_side(left, right, values, 0)


def _at_equation(above: Chain, line: Chain, values: Values, later: int) -> Iterator[Slip]:
    if not all(rel is Rel.EQ for rel in above.rels) or not line.rels[0].equates:
        return
    told, typed = everyday(above), everyday(line)
    if told is not None and typed is not None and not may_be_wrong(told, typed):
        return
    first, second = line.sides[:2]
    head, last = above.sides[0], above.sides[-1]
    for old, kept in (*((side, head) for side in above.sides[1:]), (head, last)):
        for new, side in ((second, first), (first, second)):
            if _same(values, kept, side):
                found = _at_side(old, new, values, later)
                yield from (slip for slip in found if kept == side or slip.name not in _TURNED)
                break
    if len(above.sides) == 2 and len(line.sides) == 2:
        yield from _whole_equation(above, line, values, later)


# "180 − a" for a: where the other side was worked on as well, it stands for no angle.
_TURNED = frozenset(["vertical-angles-added-to-180", "protractor-wrong-scale"])


def may_be_wrong(old: Everyday, new: Everyday) -> bool:
    """Tell whether a wrong formula can stand behind a linear line: a side was kept, or angles are added."""
    before, after = (old.left[1:], old.right[1:]), (new.left[1:], new.right[1:])
    if any(side in after for side in before):
        return True
    return any(not times and number in SUMS_OF_ANGLES for times, number in (*before, *after))


def _same(values: Values, one: Expr, other: Expr) -> bool:
    left, right = values.of(one), values.of(other)
    return left is not None and right is not None and left.same(right)


def _whole_equation(above: Chain, line: Chain, values: Values, later: int) -> Iterator[Slip]:
    for wrong in wrong_equations(*above.sides):
        asked = wrong.known if wrong.known is not None and names_in(wrong.known) else None
        if asked is not None and any(_same(values, asked, side) for side in line.sides):
            continue  # "c² = b² − a²": nothing is added to find the longest side
        told = _told_by(wrong, line, values)
        if told is None and wrong.shown is None:
            continue
        before, after = _difference(values, *above.sides), _difference(values, wrong.left, wrong.right)
        if before is None or after is None or shape_of(before.above) == shape_of(after.above):
            continue  # "x = 90" and "x + 90 = 180" say the same
        if told is not None:
            yield slip_made(wrong, told, values.setting, later)
        elif (typed := _difference(values, *line.sides)) and shape_of(after.above) == shape_of(typed.above):
            # "x = 90 − 40" for "x + 40 = 180": the other number was used, and the step is right.
            yield slip_made(wrong, line.sides[1], values.setting, later + 1)


def _told_by(wrong: WrongEquation, line: Chain, values: Values) -> Expr | None:
    """Return the side of the line that tells the wrong value, None where the line is not that equation."""
    for first, second in (line.sides, line.sides[::-1]):
        if _same(values, wrong.right, second) and _same(values, wrong.left, first):
            return second
    return None


def _difference(values: Values, left: Expr, right: Expr) -> Ratio | None:
    first, second = values.of(left), values.of(right)
    return None if first is None or second is None else first - second


def _at_side(above: Expr, typed: Expr, values: Values, later: int, *, bare: bool = False) -> Iterator[Slip]:
    """Yield the slips that turn the side above into the typed side. ``bare``: it stands alone.

    An expression of several letters alone, such as ``L·W``, is taken for a formula.
    """
    before, after = values.of(above), values.of(typed)
    if before is None or after is None or before.same(after):
        return
    found: dict[Wrong, Expr] = {}  # with the whole side that each makes
    letters = bare and len(names_in(above)) > 1
    for wrong in wrong_formulas(above, True, False) if letters else wrongs_at(above, True):
        value = values.of(wrong.tree)
        if value is not None and (after.same(value) or gives_rounded(value, typed)):
            found[wrong] = wrong.tree
    for part, needed in _terms(above, before, after, values):
        for wrong in wrongs_at(part, False):
            value = values.of(wrong.tree)
            if value is not None and needed.same(value):
                found.setdefault(wrong, _with(above, part, wrong.tree))
    for wrong in in_order(list(found), typed, formula=False):
        if formula_fits(wrong.name, found[wrong], above, typed, values):
            yield slip_made(wrong, typed, values.setting, later)
    yield from slanted(above, typed, values, later)


def _with(above: Expr, part: Expr, tree: Expr) -> Expr:
    """Return a side with another expression in the place of a term of it, or of what its root holds."""
    if above is part:
        return tree
    match above:
        case Add(terms):
            return replace(above, terms=tuple(_with(term, part, tree) for term in terms))
        case Neg(inner) | Root(inner=inner):
            return replace(above, inner=_with(inner, part, tree))
        case _:
            return above


def _terms(above: Expr, before: Ratio, after: Ratio, values: Values) -> Iterator[tuple[Expr, Ratio]]:
    """Yield the terms of a sum, or what stands under a root, with the value needed in the place of each."""
    if isinstance(above, Root) and above.index == 2:
        yield above.inner, after * after
    terms = terms_seen(above)
    for term in terms if len(terms) > 1 else ():
        plain, value = (term.inner if isinstance(term, Neg) else term), values.of(term)
        if value is not None:
            needed = after - (before - value)
            yield plain, negated(needed) if plain is not term else needed
