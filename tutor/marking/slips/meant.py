"""Which wrong formulas can be meant: no way around under a volume, no triangle in ``2/3 n = 18``."""

from tutor.line.tree import Chain, Name, Statement
from tutor.line.walk import sides
from tutor.marking.deciding.facts import facts
from tutor.marking.deciding.state import Known

# What a slip takes the line to be: a length all around, or the space inside.
_POWER_OF_LENGTH = {
    "two-sides-only-perimeter": 1,
    "area-given-for-perimeter": 1,
    "perimeter-given-for-area": 2,
    "sides-added-for-area": 2,
    "area-given-for-circumference": 1,
    "circumference-given-for-area": 2,
}
_SQUARED = "radius-doubled-not-squared"  # what has a square in it is no length
_HALVED = frozenset(["triangle-half-forgotten", "trapezoid-half-forgotten"])


def is_meant(known: Known, statement: Statement, name: str) -> bool:
    """Tell whether a slip of a shape can be meant in a line, by what the line is about."""
    power = _POWER_OF_LENGTH.get(name)
    if power is not None:
        return power in _powers_told(known, statement)
    if name == _SQUARED:
        return _powers_told(known, statement) != (1,)
    return name not in _HALVED or not _is_plain_equation(known)


def _powers_told(known: Known, statement: Statement) -> tuple[int, ...]:
    """Return what the line may be about: a length (1), an area (2); both where nothing tells."""
    subject = next((side for side in sides(statement) if isinstance(side, Name)), None)
    size = None if subject is None else known.context.dimension_of(subject.name)
    if size is not None and size.length:
        return (size.length,)
    units = facts(statement).units
    # The way around is given in a length, and may be given so for an area.
    longest = max((unit.dimension.length for unit in units), default=0)
    return {0: (1, 2), 1: (1, 2), 2: (2,)}.get(longest, ())


def _is_plain_equation(known: Known) -> bool:
    """``2/3 n = 18``: an equation in one unknown that does not stand alone measures nothing."""
    if not known.context.from_first_line or known.base is None or len(known.base.premises) != 1:
        return False
    first = known.base.premises[0]
    alone = isinstance(first, Chain) and any(isinstance(side, Name) for side in first.sides)
    return known.base.form() is not None and not alone
