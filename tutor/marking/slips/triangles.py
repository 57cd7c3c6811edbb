"""Why "yes" is said where three lengths make no triangle."""

from collections.abc import Sequence

from tutor.line.meaning import number_of
from tutor.line.poly import Number
from tutor.line.tree import Add, Chain, Span
from tutor.marking.slips.model import Slip

_FLAT = "Two sides together are just as long as the third. Can they still meet in a corner?"
_EASY = "Compare the two shorter lengths together with the longest one first."


def yes_slip(tests: Sequence[Chain], longest_tested: bool, span: Span) -> Slip | None:
    """Return the slip behind a wrong "yes" after these comparisons, None where none has a name.

    ``longest_tested``: a comparison sets the two shorter lengths against the longest one.
    ``span``: the "yes".
    """
    compared = [two for test in tests if (two := _sum_and_third(test)) is not None]
    if any(total == third for total, third in compared):
        return Slip("triangle-inequality-equal-allowed", _FLAT, span)
    if compared and not longest_tested and all(total > third for total, third in compared):
        return Slip("triangle-inequality-one-easy-pair", _EASY, span)
    return None


def _sum_and_third(test: Chain) -> tuple[Number, Number] | None:
    if len(test.sides) != 2 or test.rels[0].equates:
        return None
    for both, other in (test.sides, test.sides[::-1]):
        total, third = number_of(both), number_of(other)
        if isinstance(both, Add) and len(both.terms) == 2 and total is not None and third is not None:
            return total, third
    return None
