"""Units on a label or an answer: the right dimension, the right size, or left off."""

import itertools
from collections.abc import Iterable
from dataclasses import dataclass
from typing import assert_never

from tutor.line.meaning import UnitSystem
from tutor.line.tree import (
    Add,
    Chain,
    Div,
    Expr,
    Joined,
    Measure,
    Mul,
    Name,
    Neg,
    Num,
    PiSign,
    PlusMinus,
    Pow,
    Statement,
)
from tutor.line.walk import changed, every
from tutor.marking.deciding.context import Context, outer_unit
from tutor.marking.deciding.facts import facts
from tutor.marking.verdict import UnitsState
from tutor.quantity.dimension import COUNT, MONEY, Dimension
from tutor.quantity.units import Unit


@dataclass(frozen=True, slots=True)
class UnitFault:
    """A unit that measures something else than its name."""

    name: str
    unit: Unit
    wanted: Dimension
    span: tuple[int, int]
    currency: str = ""

    @property
    def message(self) -> str:
        """Return the sentence for the student."""
        if self.currency:
            return f"This problem counts in {self.currency}, not in {self.unit}. Which sign belongs here?"
        return (
            f"{self.unit} is a unit for {self.unit.dimension.word}, and {self.name} is {self.wanted.word}. "
            f"Which unit measures {self.wanted.word}?"
        )


def dimension_fault(context: Context, statement: Statement) -> UnitFault | None:
    """Return the first unit of a wrong dimension on a name that stands alone."""
    if isinstance(statement, Joined):
        found = (dimension_fault(context, part) for part in statement.parts)
        return next((fault for fault in found if fault is not None), None)
    if not isinstance(statement, Chain) or not facts(statement).units:
        return None
    named = [side for side in statement.sides if isinstance(side, Name)]
    if len(named) != 1:
        return None
    wanted = context.dimension_of(named[0].name)
    others = [side for side in statement.sides if not isinstance(side, Name)]
    last = others[-1] if isinstance(statement.sides[0], Name) else others[0]
    measure = _outermost(last)
    if measure is not None and wanted == measure.unit.dimension == MONEY:
        return _other_currency(context, named[0].name, measure)
    if wanted is None or measure is None or measure.unit.dimension in (wanted, COUNT):
        return None
    if wanted == COUNT or (len(others) == 1 and not _is_value(last)):
        return None
    return UnitFault(named[0].name, measure.unit, wanted, measure.span)


def _other_currency(context: Context, name: str, measure: Measure) -> UnitFault | None:
    """Return the unit of an amount in € where $ is asked for: what one is worth in the other is not told."""
    asked = context.asked_unit(name)
    if asked is None or asked.dimension != MONEY or _currency(asked) == _currency(measure.unit):
        return None
    return UnitFault(name, measure.unit, MONEY, measure.span, _currency(asked))


def _currency(unit: Unit) -> str:
    """Return the sign of the currency that an amount counts in: cents are parts of a dollar."""
    return str(unit).replace("¢", "$")


def unlike_sides(statement: Statement) -> UnitFault | None:
    """Return the unit of a side that measures something else than the side before it: ``5 cm = 5 cm²``."""
    if not isinstance(statement, Chain) or not facts(statement).units:
        return None
    for left, right in zip(statement.sides, statement.sides[1:], strict=False):
        fault = unit_changed(left, right, "the side before") or _unit_before(left, right)
        if fault is not None:
            return fault
    return next((fault for side in statement.sides if (fault := unlike_terms(side)) is not None), None)


def unit_changed(before: Expr, after: Expr, what: str) -> UnitFault | None:
    """Return the unit of a value that measures something else than ``before``, which is called ``what``."""
    wanted, found, last = _measured(before), _measured(after), _outermost(after)
    if wanted is None or found is None or wanted == found or last is None:
        return None
    return UnitFault(what, last.unit, wanted, last.span)


def _unit_before(before: Expr, after: Expr) -> UnitFault | None:
    """Return the unit of a value in front of what it was worked out from: ``12 m = 3 m · 4 m``."""
    found, wanted = _measured(before), _measured(after)
    last = _outermost(before) if _outermost(after) is None else None
    if found is None or wanted is None or wanted == found or last is None:
        return None
    return UnitFault("the side after", last.unit, wanted, last.span)


def unlike_terms(expr: Expr) -> UnitFault | None:
    """Return the unit of a term that cannot be added to the one before it: ``3 cm + 2 g``."""
    for node in every(expr):
        if not isinstance(node, Add):
            continue
        kinds = [(term, kind) for term in node.terms if (kind := _measured(term)) is not None]
        for (_, first), (term, kind) in itertools.pairwise(kinds):
            last = _outermost(term)
            if kind != first and last is not None:
                return UnitFault("the part before", last.unit, first, last.span)
    return None


def other_kind(above: Iterable[Statement], statement: Statement) -> UnitFault | None:
    """Return the unit of a value that a line above gave in a unit of another kind: 640 m² and then 640 m."""
    told = _value_told(statement)
    if told is None or not facts(statement).units:
        return None
    for line in above:
        before = _value_told(line)
        if before is not None and before[0] == told[0]:
            fault = unit_changed(before[1], told[1], told[0])
            if fault is not None:
                return fault
    return None


def _value_told(statement: Statement) -> tuple[str, Expr] | None:
    """Return the name and the value of a line such as ``A = 640 m²`` or ``640 m² = A``."""
    if not isinstance(statement, Chain) or not statement.rels[0].equates:
        return None
    left, right = statement.sides[0], statement.sides[-1]
    if isinstance(left, Name):
        return left.name, right
    return (right.name, statement.sides[-2]) if isinstance(right, Name) else None


def _measured(expr: Expr) -> Dimension | None:
    """Return what a side measures, None where a part of it carries no unit."""
    match expr:
        case Measure(inner, unit):
            return unit.dimension if unit.dimension != COUNT and _is_value(inner) else None
        case Neg(inner):
            return _measured(inner)
        case Mul(factors):
            found = [_measured(factor) for factor in factors if not _is_number(factor)]
            if not found or None in found:
                return None
            total = COUNT
            for one in found:
                total = total * (one or COUNT)
            return total
        case Div(top, bottom):
            above, below = _measured(top), COUNT if _is_number(bottom) else _measured(bottom)
            return None if above is None or below is None else above * below.power(-1)
        case Pow(inner, Num(exponent)) if exponent in (2, 3):
            base = _measured(inner)  # "(14 cm)²"
            return None if base is None else base.power(int(exponent))
        case Add(terms):
            kinds = {_measured(term) for term in terms}
            return kinds.pop() if len(kinds) == 1 else None
        case _:
            return None


def _is_number(factor: Expr) -> bool:
    """2, 22/7 and π carry no unit, and need none."""
    quotient = isinstance(factor, Div) and isinstance(factor.top, Num) and isinstance(factor.bottom, Num)
    return isinstance(factor, Num | PiSign) or quotient


def _outermost(expr: Expr) -> Measure | None:
    if isinstance(expr, Measure):
        return expr
    if isinstance(expr, Neg):
        return _outermost(expr.inner)
    if isinstance(expr, Mul) and isinstance(expr.factors[-1], Measure):
        # "20π °": the unit stands behind the last factor, and is the only one
        return expr.factors[-1] if sum(isinstance(node, Measure) for node in every(expr)) == 1 else None
    if isinstance(expr, PlusMinus) and expr.left is None:
        return _outermost(expr.right)
    return None


def _is_value(expr: Expr) -> bool:
    return not any(isinstance(node, Name) for node in every(expr))


def without_units(statement: Statement) -> Statement:
    """Return the line with its units left off."""
    return changed(statement, lambda node: node.inner if isinstance(node, Measure) else node)


def has_units(statement: Statement) -> bool:
    """Tell whether any unit stands in a line."""
    return bool(facts(statement).units)


def units_of(value: Expr, asked: Unit | None, system: UnitSystem, *, right_size: bool) -> UnitsState | None:
    """Return how the unit of an answer stands; None where no unit was asked."""
    if asked is None:
        return None
    unit = outer_unit(_bare_sign(value))
    if unit is None:
        return UnitsState.MISSING
    if unit.dimension != asked.dimension:
        return UnitsState.WRONG_DIMENSION
    if not right_size or (asked.dimension == MONEY and _currency(unit) != _currency(asked)):
        return UnitsState.WRONG
    return UnitsState.RIGHT if unit.factor == asked.factor else UnitsState.EQUIVALENT


def _bare_sign(value: Expr) -> Expr:
    return value.inner if isinstance(value, Neg) else value


def worst(states: list[UnitsState]) -> UnitsState:
    """Return the one state that says most about several answers."""
    return max(states, key=_weight)


def _weight(state: UnitsState) -> int:
    match state:
        case UnitsState.RIGHT:
            return 0
        case UnitsState.EQUIVALENT:
            return 1
        case UnitsState.MISSING:
            return 2
        case UnitsState.WRONG:
            return 3
        case UnitsState.WRONG_DIMENSION:
            return 4
        case _:
            assert_never(state)
