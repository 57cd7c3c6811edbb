"""A line with a question mark: what is told beside it is marked like any other line."""

import pytest

from tutor.marking.task import Task
from tutor.marking.verdict import Verdict
from tutor.marking.working import mark_lines

PENNANT = Task(("P = 2 s + b",), (("P", "178 cm"), ("b", "38 cm")), ("s",), ("cm",))


@pytest.mark.parametrize(
    "line",
    [
        "P = 178 cm, b = 38 cm, s = ?",
        "b = 38, P = 178, s = ?",
        "b = 0.38 m, s = ? cm",
        "s = ?, b = 38 cm",
        "s = ?",
        "P = ?, s = ?",
        "P = 2s + b = ?",
    ],
)
def test_what_is_true_stands_beside_a_question_mark(line: str) -> None:
    assert mark_lines(PENNANT, ["P = 2s + b", line]).lines[1].mark.verdict is Verdict.FOLLOWS


@pytest.mark.parametrize(
    "line",
    [
        "P = 178 cm, b = 48 cm, s = ?",
        "b = 48 cm, s = ?",
        "b = 48 cm and s = ?",
        "s = ?, b = 48 cm",
        "P = 178 cm, s = 90 cm, b = ?",
        "b = 38 dm, s = ?",
        "P = 3s + b = ?",
        "b = ? = 48",
    ],
)
def test_what_is_wrong_breaks_beside_a_question_mark(line: str) -> None:
    work = mark_lines(PENNANT, ["P = 2s + b", line])
    assert work.lines[1].mark.verdict is Verdict.BREAKS
    assert work.progress.first_wrong == 1


def test_a_given_copied_wrong_beside_a_question_mark_is_named() -> None:
    mark = mark_lines(PENNANT, ["P = 178 cm, b = 48 cm, s = ?"]).lines[0].mark
    assert "38 was copied wrong" in mark.message
    assert mark.span is not None
