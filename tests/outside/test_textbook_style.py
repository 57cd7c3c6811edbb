"""Worked examples as textbooks print them stand line by line, and nothing like them that is wrong does.

Common practice, no source; see textbook_style for where the numbers come from.
"""

from functools import cache

import pytest
import textbook_algebra
import textbook_equations
import textbook_expressions
import textbook_formulas
import textbook_further
import textbook_moves
from textbook_style import Row, expression, measured, solved

from tutor.marking.verdict import UnitsState, Verdict
from tutor.marking.working import Working, mark_lines

MODULES = (
    textbook_equations,
    textbook_formulas,
    textbook_expressions,
    textbook_moves,
    textbook_algebra,
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


# Found by changing signs, digits and relations of the workings above, each proven wrong by an
# independent oracle (own reader, solutions compared at every root and between the roots).
WRONG = [
    measured("b", "4 = 5 + b", "y = k x + b", "y = 4 ; k = 3 ; x = 10"),
    measured("b", "y = mx + b ; 4 = 2/5 (20) + b", "y = m x + b", "y = 4 ; m = 2/5 ; x = 10"),
    measured("b", "y − 9 = mx + b", "y = m x + b", "y = 4 ; m = 2/5 ; x = 10"),
    solved("p", "3p(10p + 7) = 0 ; 3p = 0 and 10p + 7 = 0"),
    solved("p", "3p(10p + 7) = 0 ; 3p = 0 or 10p + 7 = 0 ; p = 0 or 0p = −7"),
    solved("x", "x^2 − 6x + 5 = 0 ; x = (6 ± 4)/2 ; x = 10/2, x > 2/2"),
    solved("x", "4x + 3 = 4x + 9 ; 4x − 4x + 3 = 4x − 4x + 9 ; 3 = 8"),
    solved("r", "d = rt ; d/t = r ; r = d · t"),
    solved("r", "d = rt ; r = d · t"),
    solved("x", "√(x − 3) = 4 ; x − 3 = 16 ; x = 19 ; √17 = 4"),
    solved("x", "sqrt(2x − 1) = 7 ; 2x − 1 = 49 ; 2 = 50"),
    solved("q", "q^2 + 24 = 0 ; q^2 = −24 ; q = ±sqrt(24)"),
    solved("x", "|2x/3 − 4| + 11 = 3 ; |2x/3 − 4| = −8 + 8"),
    expression("x^5 · x^7 ; x^82"),
]


@pytest.mark.parametrize("row", WRONG)
def test_a_wrong_last_line_breaks(row: Row) -> None:
    *above, last = marked(row).lines
    assert all(line.mark.verdict.stands for line in above)
    assert last.mark.verdict is Verdict.BREAKS
