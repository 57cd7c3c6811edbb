"""What a line can be meant as where it is not true as it stands: ways in which people write measures.

``32 °F = 0 °C`` compares heat, ``9 months = 9/12 year`` time, ``4,500 cm² ÷ 10,000 = 0.45 m²`` changes
the unit by the division, ``12/48 × 100 = 25%`` says the percent sign for the hundred. Each is put in
other words that claim the same, and has to hold then.
"""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from tutor.line.tree import Add, Chain, Div, Expr, Measure, Mul, Name, Num, Percent, Statement, whole_number
from tutor.line.walk import every, names_in, rebuilt
from tutor.marking.deciding.facts import facts
from tutor.marking.deciding.state import Known
from tutor.quantity.dimension import COUNT, TIME
from tutor.quantity.units import Unit


def meant_otherwise(known: Known, statement: Statement) -> Iterator[Statement]:
    """Yield what a line that breaks can be meant as; nothing for almost every line."""
    if not isinstance(statement, Chain) or not all(rel.equates for rel in statement.rels):
        return
    if facts(statement).units:
        for way in (_in_fahrenheit, _in_years, _with_unit_changed):
            meant = way(statement)
            if meant != statement:
                yield meant
    if any(isinstance(side, Percent) for side in statement.sides):
        meant = _out_of_a_hundred(known, statement)
        if meant != statement:
            yield meant


def _word(unit: Unit) -> str:
    return unit.parts[0][0].symbol if len(unit.parts) == 1 else ""


def _in_fahrenheit(statement: Chain) -> Chain:
    """``20 °C = 68 °F``: both in degrees Fahrenheit."""
    if {_word(unit) for unit in facts(statement).units} != {"°C", "°F"}:
        return statement
    fahrenheit = next(unit for unit in facts(statement).units if _word(unit) == "°F")

    def change(side: Expr) -> Expr:
        if not isinstance(side, Measure) or _word(side.unit) != "°C":
            return side
        ninths = Mul((Div(whole_number(9), whole_number(5)), side.inner))
        return Measure(Add((ninths, whole_number(32))), fahrenheit, side.span)

    return replace(statement, sides=tuple(change(side) for side in statement.sides))


_A_YEAR = {"month": 12, "months": 12, "mo": 12}


def _in_years(statement: Chain) -> Chain:
    """``9 months = 9/12 year``: twelve months are a year, as are 52 weeks and 365 days beside one."""
    per_year = {"week": 52, "day": 365}

    def change(node: Expr) -> Expr:
        if not isinstance(node, Measure):
            return node
        word = _word(node.unit)
        parts = _A_YEAR.get(word) or (per_year.get(word, 0) if node.unit.dimension == TIME else 0)
        if parts:
            return Div(node.inner, whole_number(parts), node.span)
        return node.inner if word in _YEARS else node

    if not any(_word(unit) in _A_YEAR or _word(unit) in per_year for unit in facts(statement).units):
        return statement
    return replace(statement, sides=tuple(rebuilt(side, change) for side in statement.sides))


_YEARS = frozenset({"year", "years", "yr", "yrs"})


def _with_unit_changed(statement: Chain) -> Chain:
    """``45,000 cm² ÷ 10,000 = 4.5 m²`` divides the number, ``350 ÷ 1000 L`` the 350."""
    kept = list(statement.sides)
    for at, (left, right) in enumerate(zip(statement.sides, statement.sides[1:], strict=False)):
        if not isinstance(right, Measure):
            continue
        match left:
            case Div(Measure(inner, unit), Num(times)) if _fits(unit, right.unit, times):
                kept[at] = Measure(Div(inner, left.bottom), right.unit, left.span)
            case Mul((Measure(inner, unit), Num(times))) if times and _fits(unit, right.unit, 1 / times):
                kept[at] = Measure(Mul((inner, left.factors[1])), right.unit, left.span)
            case Div(Num(), Measure(Num(), unit)) if unit == right.unit and isinstance(left.bottom, Measure):
                kept[at] = Measure(Div(left.top, left.bottom.inner), unit, left.span)
            case _:
                pass
    # What stands in front of it keeps its own unit: "3 cm = 3 cm ÷ 100 = 0.03 m".
    return replace(statement, sides=tuple(kept))


def _fits(old: Unit, new: Unit, times: Fraction) -> bool:
    """Tell whether so many old units are one new one."""
    return old != new and old.dimension == new.dimension != COUNT and new.factor == old.factor * times


def _out_of_a_hundred(known: Known, statement: Chain) -> Chain:
    """``12/48 × 100 = 25%``, and ``p = 25%`` below ``p = 12/48 × 100``: the sign says the hundred again."""
    head = statement.sides[0]
    sides: list[Expr] = [side for side in statement.sides if not isinstance(side, Percent)]
    if isinstance(head, Name):
        above = (line for _, line in known.above if isinstance(line, Chain) and line.sides[0] == head)
        sides += [side for line in above for side in line.sides]
    if not any(map(_times_hundred, sides)):
        return statement
    kept = [
        replace(side.inner, span=side.span) if isinstance(side, Percent) else side for side in statement.sides
    ]
    return replace(statement, sides=tuple(kept), rels=statement.rels)


def _times_hundred(side: Expr) -> bool:
    if any(isinstance(node, Percent) for node in every(side)) or names_in(side):
        return False
    factors = side.factors if isinstance(side, Mul) else ()
    return any(isinstance(factor, Num) and factor.value == 100 for factor in factors)
