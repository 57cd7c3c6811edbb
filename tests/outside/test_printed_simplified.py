"""Expressions simplified line by line: every line stands, also where it begins with =; no change passes.

Common practice, no source: the laws of powers and roots as books state them, numbers our own. Changes
were proven wrong with a reader of their own and values worked out to 40 digits.
"""

import pytest
from printed_rows import rows

from tutor.marking.task import Task
from tutor.marking.verdict import Verdict
from tutor.marking.working import mark_lines

PRINTED = [lines.split(" ; ") for (lines,) in rows("printed_simplified.tsv")]
CHANGED = [lines.split(" ; ") for (lines,) in rows("printed_simplified_wrong.tsv")]


def going_on(lines: list[str]) -> list[str]:
    """Return the same steps as they stand under one another with a sign in front."""
    return [lines[0], *(f"= {line}" for line in lines[1:])]


@pytest.mark.parametrize("lines", PRINTED, ids=" ; ".join)
def test_every_line_stands(lines: list[str]) -> None:
    for typed in (lines, *([] if "=" in lines[0] else [going_on(lines)])):
        work = mark_lines(Task(find=()), tuple(typed))
        assert [(line.text, line.mark.message) for line in work.lines if not line.mark.verdict.stands] == []


@pytest.mark.parametrize("lines", CHANGED, ids=" ; ".join)
def test_a_changed_line_breaks(lines: list[str]) -> None:
    for typed in (lines, going_on(lines)):
        *above, last = mark_lines(Task(find=()), tuple(typed)).lines
        assert all(line.mark.verdict.stands for line in above)
        assert last.mark.verdict is Verdict.BREAKS


@pytest.mark.parametrize(
    "lines",
    [
        ["sqrt(x^2)", "x"],
        ["sqrt((x + 3)^2)", "x + 3"],
        ["i^2", "−1"],
        ["(2 + 3i)(2 − 3i)", "4 − 9i^2", "13"],
        ["f(x + h)", "2(x + h)^2 − 3"],
        ["1/3", "0.334..."],
    ],
    ids=" ; ".join,
)
def test_what_books_differ_about_is_not_called_wrong(lines: list[str]) -> None:
    """Books for letters that are never negative write √(x²) as x; an i can be the imaginary unit, an f a function.

    Which digits follow behind ``…`` only the writer knows.
    """
    for typed in (lines, going_on(lines)):
        assert mark_lines(Task(find=()), tuple(typed)).lines[-1].mark.verdict is Verdict.UNDECIDED


def test_a_logarithm_is_no_name() -> None:
    (line,) = mark_lines(Task(find=()), ("log_2(8)",)).lines
    assert line.mark.verdict is Verdict.UNREAD


@pytest.mark.parametrize(
    "line",
    [
        "3(x + 2) = 3x + 6 = 3x + 8",
        "2/x = 4/(2x) = 4/x",
        "−2(4y + 1) = −2 · 4y + (−2) · 1 = 8y − 2",
        "3/5 + x/8 = 24/40 + 5x/40 = (24 + 5x)/39",
        "18p + 6q + 15p + 5q = 18p + 15p + 6q + 5q = 33p + 12q",
    ],
)
def test_a_chain_keeps_its_value_to_the_end(line: str) -> None:
    (marked,) = mark_lines(Task(find=()), (line,)).lines
    assert marked.mark.verdict is Verdict.BREAKS


@pytest.mark.parametrize("line", ["x + x = 2x = 10", "y = 3x + 2x = 5x", "∠A + ∠B = ∠B + ∠A = 90"])
def test_a_chain_can_be_an_equation(line: str) -> None:
    (marked,) = mark_lines(Task(find=()), (line,)).lines
    assert marked.mark.verdict is Verdict.FOLLOWS
