"""Premises that no numbers fit."""

from tutor.line.meaning import Setting
from tutor.line.poly import DividedByZero, NotExact
from tutor.marking.deciding.claim import NEVER
from tutor.marking.deciding.state import Spec


def at_odds(spec: Spec, setting: Setting) -> bool:
    """``x + 1 = x`` holds for no number: what it leads to need not be true, and is no side working.

    The same of premises that contradict each other.
    """
    try:
        ground = spec.ground(setting)
        if len(ground.claims) == 1:
            return ground.claims[0] == NEVER
        return any(not poly.names() for poly in ground.without(-1).left)
    except (NotExact, DividedByZero):
        return False
