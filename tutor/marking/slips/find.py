"""The slip that explains a line with the fewest assumptions."""

from collections.abc import Callable, Iterator
from dataclasses import replace

from tutor.line.meaning import Setting
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Statement
from tutor.marking.deciding.state import Known
from tutor.marking.slips.formulas import formula_slips
from tutor.marking.slips.model import Slip
from tutor.marking.slips.moves import move_slips
from tutor.marking.slips.units import unit_slips

Finder = Callable[[Known, Statement, Setting], Iterator[Slip]]

# Of slips that assume as little, the one that is found first is told: the special shapes come first.
FINDERS: tuple[Finder, ...] = (unit_slips, formula_slips, move_slips)


def find_slip(known: Known, statement: Statement, setting: Setting) -> Slip | None:
    """Return the slip that turns what stands above into this line, None where there is none."""
    found: list[Slip] = []
    for finder in FINDERS:
        try:
            found += finder(known, statement, setting)
        except (NotExact, DividedByZero):
            continue
    if not found:
        return None
    least = min(slip.cost for slip in found)
    best = [slip for slip in found if slip.cost == least]
    others = tuple(dict.fromkeys(slip.name for slip in best[1:] if slip.name != best[0].name))
    return replace(best[0], also=(*best[0].also, *others)) if others else best[0]
