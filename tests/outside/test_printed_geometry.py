"""Workings of geometry, measures, percent and formulas as books print them, told in four ways.

Common practice, no source: the numbers are our own, worked out by hand. The wrong ones have one
number changed in their last line, and that line is false at the true values, by arithmetic of its own.
"""

import pytest
from printed_rows import fallen, rows

from tutor.marking.task import Task
from tutor.marking.verdict import UnitsState, Verdict
from tutor.marking.working import Working, mark_lines
from tutor.quantity.pi import Pi

PI = {"": Pi.EXACT, "exact": Pi.EXACT, "3.14": Pi.DECIMAL, "22/7": Pi.FRACTION}


def split(text: str) -> tuple[str, ...]:
    return tuple(text.split(" ; ")) if text else ()


def worked(way: str, find: str, unit: str, pi: str, formulas: str, givens: str, lines: str) -> Working:
    """Mark a working: ``way`` says what of the task is told by the work itself."""
    told = [tuple(part.strip() for part in given.split("=", 1)) for given in split(givens)]
    first = (", ".join(f"{name} = {value}" for name, value in told),) if told and way in "FG" else ()
    asked = tuple(find.split())
    if way == "L":
        return mark_lines(Task(find=asked), split(lines))
    task = Task(
        formulas=() if way == "G" else split(formulas),
        givens=tuple((name, value) for name, value in told) if way == "H" else (),
        find=asked,
        units=(unit,) * len(asked) if unit else (),
        pi=PI[pi],
    )
    return mark_lines(task, (*first, *split(lines)))


def _can_be_told(way: str, row: list[str]) -> bool:
    """Without a task there has to be something to find; U only says that the units are right."""
    return way != "U" and (way == "H" or bool(row[1]))


RIGHT = [(way, row) for row in rows("printed_geometry.tsv") for way in row[0] if _can_be_told(way, row)]


def test_there_are_enough_of_them() -> None:
    assert len(rows("printed_geometry.tsv")) >= 480
    assert len(rows("printed_geometry_wrong.tsv")) >= 250


@pytest.mark.parametrize(("way", "row"), RIGHT, ids=[f"{way}-{row[-1][:40]}" for way, row in RIGHT])
def test_every_line_stands(way: str, row: list[str]) -> None:
    work = worked(way, *row[1:])
    assert fallen(work) == []
    if row[1] and way != "L":
        assert work.progress.finished
    if way == "H" and "U" in row[0]:
        assert work.progress.units is UnitsState.RIGHT


@pytest.mark.parametrize("row", rows("printed_geometry_wrong.tsv"), ids=lambda row: row[-1][-40:])
def test_a_changed_number_breaks_its_line(row: list[str]) -> None:
    *above, last = worked("H", *row).lines
    assert not any(line.mark.verdict is Verdict.BREAKS for line in above)
    assert last.mark.verdict is Verdict.BREAKS
    assert last.mark.message
