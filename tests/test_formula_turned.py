"""A second formula in another form, where the first one gives its name by a root."""

import pytest

from tutor.marking.task import Task
from tutor.marking.verdict import Verdict
from tutor.marking.working import mark_lines
from tutor.quantity.pi import Pi

DISC = Task(("A = pi r^2", "C = 2 pi r"), (("A", "153.86 cm^2"),), ("r", "C"), ("cm", "cm"), Pi.DECIMAL)


@pytest.mark.parametrize("line", ["2πr = C", "C/2 = πr", "2C = 4πr", "2*3.14*r = C", "C = 2πr"])
def test_the_second_formula_may_be_turned(line: str) -> None:
    assert mark_lines(DISC, [line]).lines[0].mark.verdict is Verdict.FOLLOWS


@pytest.mark.parametrize("line", ["2r = C", "4πr = C", "C/2 = 2πr", "πr = C"])
def test_another_formula_is_none(line: str) -> None:
    assert mark_lines(DISC, [line]).lines[0].mark.verdict is Verdict.BREAKS
