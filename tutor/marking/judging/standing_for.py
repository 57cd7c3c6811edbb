"""Lines that say how much so many things are: ``5 pens = $3.75``, ``3 units = 45``, ``25% = 15 kg``.

The sign = says there what belongs together. The first such line of a thing is told by the question;
those that follow it have to fit it: as much for each thing, or, as with people and days, the fewer
the more.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from tutor.line.meaning import Setting, value_of
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Chain, Expr, Measure, Num, Percent, Rel
from tutor.line.walk import every
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.state import Known, Spec, settings
from tutor.marking.judging.aftermath import Judged, broken, stands
from tutor.marking.telling.changed_part import inside
from tutor.marking.telling.quoting import quoted
from tutor.marking.telling.untrue import untrue
from tutor.marking.telling.why import Why
from tutor.marking.telling.witness import exactly
from tutor.marking.verdict import Reason, Verdict
from tutor.quantity.dimension import COUNT
from tutor.quantity.units import Unit


@dataclass(frozen=True, slots=True)
class _Told:
    """So many things, and how much they are, in the units of the line."""

    thing: str
    count: Fraction
    amount: Fraction
    unit: Unit | None

    def fits(self, other: "_Told") -> bool:
        as_much_each = self.amount * other.count == other.amount * self.count
        return as_much_each or self.amount * self.count == other.amount * other.count


def stands_for(known: Known, judged: Judged, index: int) -> Judged | None:
    """Mark a line that breaks as an equation and says how much so many things are; None for any other."""
    line = judged.statement
    if not isinstance(line, Chain) or statement_names(line) or set(line.rels) != {Rel.EQ}:
        return None
    setting = settings(known, line)[0]
    told = _told(line, setting)
    if told is None:
        return None
    wrong = _wrong_working(line, setting) if len(line.sides) > 2 else None
    if wrong is not None:
        return broken(known, line, index, replace(wrong, span=inside(line, wrong.span)))
    before = [(at, above, one) for at, above, one in _above(known, setting) if _of_one_kind(one, told)]
    if not before and not _may_be_told(line, told):
        return None
    for at, above, one in before:
        if not one.fits(told):
            shown = " = ".join(quoted(side) or "…" for side in above.sides[:2])
            message = f"Line {at + 1} says {shown}. Does this line fit that one?"
            return broken(known, line, index, Why(Reason.VALUE_CHANGED, message, line.span))
    if known.base is None:
        known = replace(known, base=Spec((), frozenset()))
    return stands(known, line, index, Verdict.FOLLOWS, None)


def _may_be_told(line: Chain, told: _Told) -> bool:
    """Tell whether a line may be the first of its thing: not ``8 pens = 4 + 3``, ``7% = 0.7``."""
    if told.thing in _SHARES:
        return True  # "1 part = 60 ÷ 5"
    if not isinstance(_bare(line.sides[1]), Num):
        return False
    if told.thing != _PERCENT or told.unit is not None or told.count == 100:
        return True
    size = told.amount / told.count
    return all(size != Fraction(10) ** shift for shift in range(-_SHIFTS, _SHIFTS + 1))


_PERCENT, _SHIFTS = "%", 4
_SHARES = frozenset({"part", "share"})
_OF_A_SIZE = frozenset({"°C", "°F", "month", "year", "yr", "mo"})  # words that measure, and stand for nothing


def _wrong_working(line: Chain, setting: Setting) -> Why | None:
    """``3 units = 3 · 12 = 38``: how much the things are was worked out wrong."""
    worked = replace(line, sides=line.sides[1:], rels=line.rels[1:])
    return exactly(lambda: untrue(worked, setting))


def _above(known: Known, setting: Setting) -> Iterator[tuple[int, Chain, _Told]]:
    for at, line in known.above:
        if isinstance(line, Chain) and not statement_names(line) and (told := _told(line, setting)):
            yield at, line, told


def _of_one_kind(one: _Told, other: _Told) -> bool:
    same = (one.unit is None) == (other.unit is None)
    if one.unit is not None and other.unit is not None:
        same = one.unit.dimension == other.unit.dimension
    return same and one.thing == other.thing


def _told(line: Chain, setting: Setting) -> _Told | None:
    """Return what a line tells, None where its first side counts no things."""
    first, rest = line.sides[0], line.sides[1:]
    if not isinstance(first, Measure | Percent) or not isinstance(first.inner, Num):
        return None
    thing = _thing(first.unit) if isinstance(first, Measure) else _PERCENT
    if thing is None or any(_thing(unit) == thing for side in rest for unit in _units(side)):
        return None
    if thing == _PERCENT and any(isinstance(node, Percent) for side in rest for node in every(side)):
        return None
    try:
        amount = value_of(rest[-1], setting).above.rational()
    except (NotExact, DividedByZero):
        return None
    unit = next((unit for side in rest for unit in _units(side)), None)
    count = first.inner.value
    return _Told(thing, count, Fraction(amount), unit) if amount is not None and count > 0 else None


def _units(side: Expr) -> Iterator[Unit]:
    return (node.unit for node in every(side) if isinstance(node, Measure))


def _bare(side: Expr) -> Expr:
    return side.inner if isinstance(side, Measure) else side


def _thing(unit: Unit) -> str | None:
    """Return what is counted, in the singular; None for a unit that measures."""
    symbol = str(unit)
    if unit.dimension != COUNT and symbol != "units":
        return None
    word = {"people": "person", "children": "child", "men": "man", "women": "woman"}.get(symbol, symbol)
    for ending, instead in (("ies", "y"), ("xes", "x"), ("ches", "ch"), ("shes", "sh"), ("s", "")):
        if word.endswith(ending):
            word = word.removesuffix(ending) + instead
            break
    return None if word in _OF_A_SIZE else word
