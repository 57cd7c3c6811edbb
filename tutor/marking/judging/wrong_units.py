"""Lines whose unit measures something else."""

from tutor.line.tree import Statement
from tutor.marking.deciding.follow import Found, How
from tutor.marking.deciding.state import Known
from tutor.marking.deciding.units_check import UnitFault, dimension_fault, other_kind, unlike_sides
from tutor.marking.judging.aftermath import Judged, broken
from tutor.marking.slips.find import find_slip
from tutor.marking.telling.reasons import Why, unit_reason
from tutor.marking.verdict import Reason


def unit_fault(known: Known, statement: Statement) -> UnitFault | None:
    """Return the first unit of a line that measures something else, None where there is none."""
    fault = dimension_fault(known.context, statement) or unlike_sides(statement)
    return fault or other_kind((line for _, line in known.above), statement)


def unit_broken(known: Known, line: Statement, index: int, fault: UnitFault, found: Found) -> Judged:
    """Mark a line with such a unit; ``found``: whether its number is right."""
    if found.how is not How.BREAKS:
        return broken(known, line, index, unit_reason(fault), found, units=True)
    # Where the number is wrong as well, as in a perimeter given for an area, that is told.
    slip = find_slip(known, line, found.setting)
    why = unit_reason(fault) if slip is None else Why(Reason.SLIP, slip.message, slip.span, slip=slip.name)
    return broken(known, line, index, why, units=True)
