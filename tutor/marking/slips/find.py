"""The slip that explains a line with the fewest assumptions."""

from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import replace

from tutor.line.meaning import Setting
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Statement
from tutor.marking.deciding.state import Known
from tutor.marking.slips.formulas import formula_slips
from tutor.marking.slips.model import Slip
from tutor.marking.slips.moves import move_slips
from tutor.marking.slips.nowhere import leads_from_nowhere
from tutor.marking.slips.traced import traced_slips
from tutor.marking.slips.units import unit_slips

Finder = Callable[[Known, Statement, Setting], Iterator[Slip]]

# Of slips that assume as little, the one that is found first is told: the special shapes come first.
FINDERS: tuple[Finder, ...] = (unit_slips, formula_slips, move_slips)


def find_slip(known: Known, statement: Statement, setting: Setting) -> Slip | None:
    """Return the slip that turns what stands above into this line, None where there is none."""
    if leads_from_nowhere(known, statement):
        return None
    found: list[Slip] = []
    for finder in FINDERS:
        found += _found_by(finder, known, statement, setting)
    if all(slip.name in _COLLECTED and slip.cost > 1 for slip in found):
        found = [*_found_by(traced_slips, known, statement, setting), *found]
    if not found:
        return None
    least = min(slip.cost for slip in found)
    # That a line runs on is seen in its writing: it is told first.
    best = sorted((slip for slip in found if slip.cost == least), key=lambda slip: slip.name not in _RUN_ON)
    others = tuple(dict.fromkeys(slip.name for slip in best[1:] if slip.name != best[0].name))
    return replace(best[0], also=(*best[0].also, *others)) if others else best[0]


_RUN_ON = frozenset(["running-equals", "answer-then-carry-on", "solution-chain-on-one-line"])
# Moves across that may begin from what is collected in the mind: a bracket may have gone wrong as well.
_COLLECTED = frozenset(
    [
        "constant-across-unchanged-sign",
        "plus-undone-by-adding",
        "minus-undone-by-subtracting",
        "all-numbers-to-one-side",
    ]
)


def _found_by(finder: Finder, known: Known, statement: Statement, setting: Setting) -> list[Slip]:
    found: list[Slip] = []
    with suppress(NotExact, DividedByZero):
        found += finder(known, statement, setting)
    return [slip for slip in found if _can_be_meant(known, slip.name)]


# Slips that speak of the shape of what has a length, an area or a volume; and those of angles.
_OF_SHAPES = frozenset(
    [
        "perimeter-given-for-area",
        "area-given-for-perimeter",
        "two-sides-only-perimeter",
        "sides-added-for-area",
        "triangle-half-forgotten",
        "slant-side-as-height",
        "trapezoid-half-forgotten",
        "trapezoid-one-base",
        "diameter-used-as-radius",
        "radius-used-as-diameter",
        "circumference-given-for-area",
        "area-given-for-circumference",
        "radius-doubled-not-squared",
        "volume-given-for-surface-area",
        "surface-faces-not-doubled",
        "volume-as-visible-faces",
        "volume-as-visible-faces-doubled",
        "dimensions-added-for-volume",
        "cone-third-forgotten",
        "sphere-power-wrong",
        "cylinder-one-base-only",
        "area-scales-like-length",
        "volume-scales-like-length",
        "leg-squares-added-for-leg",
    ]
)
_OF_ANGLES = frozenset(
    [
        "supplement-to-90",
        "complement-to-180",
        "vertical-angles-added-to-180",
        "triangle-sum-360",
        "protractor-wrong-scale",
    ]
)


def _can_be_meant(known: Known, name: str) -> bool:
    """Tell whether a slip speaks of what the problem measures: no sides where only angles are.

    A problem that measures nothing rules nothing out.
    """
    if name not in _OF_SHAPES and name not in _OF_ANGLES:
        return True
    measured = [size for _name, size in known.context.dimensions]
    angles = any(size.angle for size in measured)
    sizes = any(size.length for size in measured)
    if not angles and not sizes and any(size.money or size.time or size.mass for size in measured):
        return False  # of $90 at 6% nobody takes the angles
    return angles == sizes or (sizes if name in _OF_SHAPES else angles)
