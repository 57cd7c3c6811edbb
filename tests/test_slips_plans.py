"""A wrong plan over several lines: the line that takes it up breaks and names where it began."""

import pytest
from slips_formula_tasks import CANDLE, CRATE, DISC, EDGE, FRAME, LOOP, PENNANT

from tutor.marking.task import Task
from tutor.marking.verdict import Verdict
from tutor.marking.working import mark_lines

_ALONE = "Maybe each face was counted once. How many faces of each size are there?"
PLANS = [
    (
        CRATE, ("14*9 = 126", "14*17 = 238", "9*17 = 153", "126 + 238 + 153 = 517", "SA = 517"),
        "surface-faces-not-doubled", "517",
        "The 517 comes from line 4: there each face is counted once. How many faces of each size are there?",
    ),
    (
        CRATE, ("14*9 = 126", "14*17 = 238", "9*17 = 153", "SA = 126 + 238 + 153"),
        "surface-faces-not-doubled", "126 + 238 + 153", _ALONE,
    ),
    (
        CRATE, ("14*9 = 126", "14*17 = 238", "9*17 = 153", "SA = 2*126 + 2*238 + 153"),
        "surface-faces-not-doubled", "2*126 + 2*238 + 153",
        "Maybe a face was counted once. How many faces of each size are there?",
    ),
    (CRATE, ("T = 14*9", "F = 14*17", "S = 9*17", "SA = T + F + S"), "surface-faces-not-doubled", "T + F + S", _ALONE),
    (
        CRATE, ("14*9*17 = 2142", "SA = 2142"), "volume-given-for-surface-area", "2142",
        "The 2142 comes from line 1: there the space inside was worked out. How much covers all the faces?",
    ),
    (
        DISC, ("A = pi r^2", "3.14·10·10 = 314", "A = 314"), "diameter-used-as-radius", "314",
        "The 314 comes from line 2: there 10 is the diameter. How far is it from the middle to the edge?",
    ),
    (
        DISC, ("10^2 = 100", "3.14*100 = 314", "A = 314 cm^2"), "diameter-used-as-radius", "314",
        "The 100 comes from line 1: there 10 is the diameter. How far is it from the middle to the edge?",
    ),
    (
        DISC, ("2*3.14*5 = 31.4", "A = 31.4"), "circumference-given-for-area", "31.4",
        "The 31.4 comes from line 1: there the way around was worked out. What gives the space inside a circle?",
    ),
    (
        PENNANT, ("11*8 = 88", "A = 88 in^2"), "triangle-half-forgotten", "88",
        "The 88 comes from line 1: there the half is still missing. "
        "What part of its rectangle does a triangle fill?",
    ),
    (
        EDGE, ("8 + 5 = 13", "P = 13"), "two-sides-only-perimeter", "13",
        "The 13 comes from line 1: there only two sides are counted. How many sides lie all around?",
    ),
    (
        FRAME, ("48 - 4.5 = 43.5", "L = 43.5 cm"), "two-sides-only-perimeter", "43.5",
        "The 43.5 comes from line 1: there 4.5 is counted once. How many times is it there?",
    ),
    (
        LOOP, ("3.14*50 = 157", "150.5 = 2s + 157"), "diameter-used-as-radius", "157",
        "The 157 comes from line 1: there 25 is the diameter. How far is it from the middle to the edge?",
    ),
    (
        CANDLE, ("3.14*6^2 = 113.04", "V = 113.04*10"), "diameter-used-as-radius", "113.04",
        "The 113.04 comes from line 1: there 6 is the diameter. How far is it from the middle to the edge?",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("task", "lines", "slip", "part", "message"), PLANS)
def test_the_line_where_the_wrong_quantity_first_appears(
    task: Task, lines: tuple[str, ...], slip: str, part: str, message: str
) -> None:
    working = mark_lines(task, lines)
    *before, last = working.lines
    assert all(line.mark.verdict is Verdict.FOLLOWS for line in before)
    assert (last.mark.verdict, last.mark.slip, last.mark.message) == (Verdict.BREAKS, slip, message)
    assert last.mark.span is not None
    assert last.text[slice(*last.mark.span)] == part
