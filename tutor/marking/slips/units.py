"""Wrong moves with units: a unit of another kind, a conversion the wrong way, unlike units multiplied."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from tutor.line.meaning import Setting
from tutor.line.poly import Number
from tutor.line.tree import Bare, Chain, Expr, Measure, Name, Statement
from tutor.line.walk import every, names_in, rebuilt
from tutor.marking.deciding.facts import facts
from tutor.marking.deciding.rounding import rounds_to
from tutor.marking.deciding.state import Known
from tutor.marking.slips.model import Slip
from tutor.marking.slips.rounded import decimal_in
from tutor.marking.slips.shapes import plain_value, product_seen
from tutor.marking.slips.spots import Values
from tutor.marking.slips.telling import filling, given_numbers
from tutor.quantity.dimension import AREA, LENGTH, VOLUME, Dimension
from tutor.quantity.units import Unit

MAX_LINES = 4
_KINDS = {
    (AREA, LENGTH): "linear-unit-on-area",
    (VOLUME, AREA): "square-unit-on-volume",
    (LENGTH, AREA): "square-unit-on-length",
}


def wrong_kind(wanted: Dimension, unit: Unit) -> str | None:
    """Return the slip of a unit on something that measures ``wanted``, None where none has a name."""
    return _KINDS.get((wanted, unit.dimension))


@dataclass(frozen=True, slots=True)
class _Pair:
    """A value with units, and the typed value in its place; ``later``: what is assumed."""

    old: Expr
    new: Expr
    later: int


def unit_slips(known: Known, statement: Statement, setting: Setting) -> Iterator[Slip]:
    """Yield the wrong moves with units that give this very line."""
    if not isinstance(statement, Chain | Bare) or not _any_units(known, statement):
        return
    for pair in _pairs(known, statement):
        if isinstance(pair.old, Measure) and isinstance(pair.new, Measure):
            yield from _changed(pair.old, pair.new, pair)
        else:
            yield from _mixed(pair, setting)


def _any_units(known: Known, statement: Statement) -> bool:
    """Tell whether a unit stands in the line or in anything that it can have come from."""
    lines = (line for _, line in known.above[-MAX_LINES:])
    premises = () if known.base is None else known.base.premises
    return any(facts(one).units for one in (statement, *lines, *premises))


# -- where to look ----------------------------------------------------------------------


def _pairs(known: Known, statement: Chain | Bare) -> Iterator[_Pair]:
    if isinstance(statement, Chain):
        for left, rel, right in zip(statement.sides, statement.rels, statement.sides[1:], strict=False):
            if rel.equates and not names_in(left, right):
                if _has_units(left):
                    yield _Pair(left, right, 0)
                if not isinstance(right, Measure) and isinstance(left, Measure) and _has_units(right):
                    yield _Pair(right, left, 0)  # "12 ft² = 2 ft · 6 in"
    for back, (_, above) in enumerate(reversed(known.above[-MAX_LINES:])):
        yield from _same_place(above, statement, min(back, 1))
    yield from _from_premises(known, statement)


def _same_place(above: Statement, line: Statement, later: int) -> Iterator[_Pair]:
    if isinstance(above, Bare) and isinstance(line, Bare):
        if _has_units(above.expr) and not names_in(above.expr, line.expr):
            yield _Pair(above.expr, line.expr, later)
    elif isinstance(above, Chain) and isinstance(line, Chain):
        before, after = _told(above), _told(line, last=False)
        if before is not None and after is not None and before[0] == after[0] and _has_units(before[1]):
            yield _Pair(before[1], after[1], later)


def _told(line: Chain, *, last: bool = True) -> tuple[Name, Expr] | None:
    """Return the name that a line gives and its value, in ``A = 3 m · 50 cm`` and in ``3 m · 50 cm = A``.

    ``last``: of several values the last one.
    """
    first, end = line.sides[0], line.sides[-1]
    if isinstance(first, Name):
        return first, end if last else line.sides[1]
    return (end, line.sides[-2] if last else first) if isinstance(end, Name) else None


def _from_premises(known: Known, line: Statement) -> Iterator[_Pair]:
    """A given told in another unit; a formula with unlike units put in."""
    given = given_numbers(known)
    units = {node.unit for value in given.values() for node in every(value) if isinstance(node, Measure)}
    if not units or not isinstance(line, Chain):
        return
    for premise in known.base.premises if known.base else ():
        yield from _same_place(premise, line, 0)
        told, typed = _told(premise) if isinstance(premise, Chain) else None, _told(line)
        if len(units) > 1 and told is not None and typed is not None and told[0] == typed[0]:
            body = filling(given)(told[1])
            if not names_in(body) and not isinstance(body, Measure):
                yield _Pair(body, typed[1], 0)


def _has_units(expr: Expr) -> bool:
    return any(isinstance(node, Measure) for node in every(expr))


# -- one value in another unit ------------------------------------------------------------


def _changed(old: Measure, new: Measure, pair: _Pair) -> Iterator[Slip]:
    before, after = _number(old), _number(new)
    if not before or not after:
        return
    if old.unit.dimension != new.unit.dimension:
        name = wrong_kind(old.unit.dimension, new.unit)
        if name is not None and before == after:
            yield Slip(name, _kind_message(old.unit.dimension, new.unit), pair.new.span, 1 + pair.later)
        return
    size = old.unit.factor / new.unit.factor
    if size == 1 or after == before * size:
        return
    if _gives(Fraction(before) / size, new):
        more = "longer" if old.unit.dimension == LENGTH else "more"
        message = f"Maybe it was changed the other way round. Which is {more}, 1 {old.unit} or 1 {new.unit}?"
        yield Slip("convert-the-wrong-way", message, pair.new.span, 1 + pair.later)
    yield from _edge_counted(old.unit, new.unit, Fraction(after) / before, pair)


def _number(measure: Measure) -> Number | None:
    return Values(Setting()).number(measure.inner)


def _gives(value: Fraction, typed: Measure) -> bool:
    """Tell whether a value is the typed one, or rounds to it."""
    shown = decimal_in(typed)
    return value == _number(typed) or (shown is not None and shown[1] > 1 and rounds_to(value, *shown))


def _kind_message(wanted: Dimension, unit: Unit) -> str:
    return (
        f"{unit} is a unit for {unit.dimension.word}, and this is {wanted.word}. "
        f"Which unit measures {wanted.word}?"
    )


def _edge_counted(before: Unit, after: Unit, factor: Fraction, pair: _Pair) -> Iterator[Slip]:
    """``1 m² = 100 cm²``: 1 m is 100 cm, and that is only the edge."""
    if len(before.parts) != 1 or len(after.parts) != 1:
        return
    (old, power), (new, other) = before.parts[0], after.parts[0]
    if power != other or power not in (2, 3) or not old.dimension == new.dimension == LENGTH:
        return
    if factor != old.factor / new.factor:
        return
    big, small = (before, after) if factor > 1 else (after, before)
    name = "linear-factor-for-square-units" if power == 2 else "linear-factor-for-cubic-units"
    message = f"Maybe only the {small} along one edge were counted. How many fill 1 {big}?"
    yield Slip(name, message, pair.new.span, 1 + pair.later)


# -- unlike units -------------------------------------------------------------------------


def _mixed(pair: _Pair, setting: Setting) -> Iterator[Slip]:
    """``2 ft · 6 in = 12 ft²``: the bare numbers multiplied."""
    units = [node.unit for node in every(pair.old) if isinstance(node, Measure)]
    alike = [unit for unit in units if unit.dimension == units[0].dimension]
    product = product_seen(pair.old)
    if len(set(alike)) < 2 or product is None or len(product.up) < 2:
        return
    values = Values(setting)
    raw, typed = values.number(rebuilt(pair.old, plain_value)), values.number(plain_value(pair.new))
    if raw is None or raw != typed or values.number(pair.new) == values.number(pair.old):
        return
    other = next(unit for unit in alike if unit != alike[0])
    message = f"Maybe {alike[0]} and {other} were multiplied as they are. Change to one unit first."
    yield Slip("mixed-units-multiplied", message, pair.new.span, 1 + pair.later)
