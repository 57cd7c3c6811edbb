"""An answer that was rounded the wrong way: whole boxes are counted up, whole strips down."""

from fractions import Fraction

from tutor.line.tree import Chain, Num, Statement
from tutor.line.walk import every
from tutor.line.writing import write_number
from tutor.marking.deciding.answers import answers_in
from tutor.marking.deciding.rounding import (
    asked_precision,
    before_rounding,
    bounded,
    has_asked_places,
)
from tutor.marking.deciding.stages import as_asked
from tutor.marking.deciding.state import Known, settings
from tutor.marking.task import Precision, Rounding
from tutor.marking.telling.reasons import Why
from tutor.marking.verdict import Reason


def rounded_the_wrong_way(known: Known, statement: Statement) -> Why | None:
    """Return why an answer breaks that is next to the right one and rounded the other way, else None."""
    for name, values in answers_in(statement):
        decimal = values[-1]
        precision = asked_precision(known, name)
        if precision is None or not precision.one_way or _inside(known, statement):
            continue
        size = 10**precision.places
        found = [
            (value, shown)
            for way in settings(known, statement)
            for value, shown in before_rounding(known, name, decimal, way)
            if has_asked_places(shown, precision)
        ]
        if not found or any(shown == as_asked(value, precision) for value, shown in found):
            continue
        near = [(value, shown) for value, shown in found if abs(value - shown) * size < 1]
        if near:
            return Why(Reason.VALUE_CHANGED, _message(known, precision, name, near), decimal.span)
    return None


def _inside(known: Known, statement: Statement) -> bool:
    """Tell whether a line gives whole things as an inequality allows them: ``b > 6`` says ``b ≥ 7``."""
    inequality = isinstance(statement, Chain) and not statement.rels[0].equates
    return inequality and bounded(known, statement, settings(known, statement)[0]) is not None


def _message(known: Known, precision: Precision, name: str, near: list[tuple[Fraction, Fraction]]) -> str:
    """Ask what a part of one is worth; the value before rounding only where the student wrote it."""
    written = {
        node.value
        for _, line in known.above
        for found, values in answers_in(line)
        if found == name
        for node in every(values[-1])
        if isinstance(node, Num)
    }
    value = next((value for value, _ in near if value in written), None)
    before = "" if value is None else f"{name} is {write_number(value)} before it is rounded. "
    number = write_number(near[0][1])
    if precision.rounding is Rounding.UP:
        return f"{before}Would {number} be enough? Think of what the question counts."
    return f"{before}Are there {number} whole ones? Think of what the question counts."
