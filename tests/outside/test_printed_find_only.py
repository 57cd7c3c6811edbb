"""Workings of printed geometry, measures and percent, told with nothing but what is asked.

Common practice, no source: forms as prealgebra and geometry books print them, with numbers of our own,
worked out by hand. No formula and no given is told; so a wrong line is one that is wrong whatever the
givens were, or that changes what a line above tells.
"""

import pytest
from printed_rows import fallen, rows

from tutor.marking.task import Task
from tutor.marking.verdict import UnitsState, Verdict
from tutor.marking.working import mark_lines
from tutor.quantity.pi import Pi

PI = {"": Pi.EXACT, "3.14": Pi.DECIMAL, "22/7": Pi.FRACTION}


RIGHT = rows("printed_find_only.tsv")
WRONG = rows("printed_find_only_wrong.tsv")


def test_there_are_enough_of_them() -> None:
    assert len(RIGHT) >= 420
    assert len(WRONG) >= 50


@pytest.mark.parametrize("row", RIGHT, ids=lambda row: row[-1][:50])
def test_every_line_stands(row: list[str]) -> None:
    told, find, unit, pi, lines = row
    asked = (find,) if find else ()
    alone = mark_lines(Task(find=asked), lines.split(" ; "))
    assert fallen(alone) == []
    if "F" in told:
        assert alone.progress.finished
    if "U" in told:
        work = mark_lines(Task(find=asked, units=(unit,), pi=PI[pi]), lines.split(" ; "))
        assert fallen(work) == []
        assert work.progress.units is UnitsState.RIGHT


@pytest.mark.parametrize("row", WRONG, ids=lambda row: row[-1][-50:])
def test_the_wrong_line_breaks_and_says_why(row: list[str]) -> None:
    find, lines = row
    *above, last = mark_lines(Task(find=(find,) if find else ()), lines.split(" ; ")).lines
    assert not any(line.mark.verdict is Verdict.BREAKS for line in above)
    assert last.mark.verdict is Verdict.BREAKS
    assert last.mark.message


def test_a_unit_of_another_size_is_no_slipped_point() -> None:
    task = Task(("P = 2(l + w)",), (("l", "15 cm"), ("w", "8 cm")), ("P",), ("cm",))
    work = mark_lines(task, ("P = 2(15 + 8)", "P = 2 · 23", "P = 46 m"))
    assert work.lines[-1].mark.message == "The number fits, but not with m. Which unit did you work in?"
    assert work.progress.units is UnitsState.WRONG
