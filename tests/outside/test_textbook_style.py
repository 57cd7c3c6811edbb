"""Worked examples as textbooks print them stand line by line, and nothing like them that is wrong does.

Common practice, no source; see textbook_style for where the numbers come from.
"""

from functools import cache

import pytest
import textbook_equations
import textbook_expressions
import textbook_formulas
import textbook_further
import textbook_moves
from textbook_style import Row

from tutor.marking.verdict import UnitsState, Verdict
from tutor.marking.working import Working, mark_lines

MODULES = (
    textbook_equations,
    textbook_formulas,
    textbook_expressions,
    textbook_moves,
    textbook_further,
)
ALL = [
    pytest.param(row, id=f"{kind}-{at}")
    for module in MODULES
    for kind, rows in module.ROWS.items()
    for at, row in enumerate(rows)
]


@cache
def marked(row: Row) -> Working:
    return mark_lines(row.task, row.lines)


@pytest.mark.parametrize("row", ALL)
def test_every_line_of_a_printed_working_stands(row: Row) -> None:
    work = marked(row)
    fallen = [
        (line.text, line.mark.verdict.value, line.mark.message)
        for line in work.lines
        if not (line.mark.verdict.stands or line.mark.verdict is Verdict.NOTE)
    ]
    assert fallen == []
    if row.ends:
        assert work.progress.finished
    if row.task.units:
        assert work.progress.units is UnitsState.RIGHT


def test_there_are_several_hundred_of_them_and_few_remarks() -> None:
    rows = [row for module in MODULES for rows in module.ROWS.values() for row in rows]
    verdicts = [line.mark.verdict for row in rows for line in marked(row).lines]
    assert len(rows) >= 400
    assert verdicts.count(Verdict.NOTE) < len(verdicts) / 50
