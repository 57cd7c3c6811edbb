"""Algebra as books of several countries print it: every line stands, the end is seen, no change passes.

Common practice, no source: how lines are numbered, commented, checked (``≟``, LHS and RHS, ✓), how
answers are given (sets, intervals, words, x₁ and x₂), how identities and contradictions end.
"""

from functools import cache

import pytest
from printed_rows import fallen, rows

from tutor.marking.task import Task
from tutor.marking.verdict import Verdict
from tutor.marking.working import Working, mark_lines

PRINTED = rows("printed_algebra.tsv")
CHANGED = rows("printed_algebra_wrong.tsv")


@cache
def marked(find: str, lines: str) -> Working:
    names = () if find == "-" else tuple(find.rstrip("~").split(","))
    return mark_lines(Task(find=names), tuple(line.strip(" ") for line in lines.split(" ; ")))


@pytest.mark.parametrize(("find", "lines"), PRINTED)
def test_every_printed_line_stands_and_the_end_is_seen(find: str, lines: str) -> None:
    work = marked(find, lines)
    assert fallen(work) == []
    if find != "-":
        assert work.progress.finished is not find.endswith("~")


@pytest.mark.parametrize(("find", "lines"), CHANGED)
def test_a_changed_line_breaks(find: str, lines: str) -> None:
    work = marked(find, lines)
    assert work.lines[-1].mark.verdict is Verdict.BREAKS
    assert all(line.mark.verdict is not Verdict.BREAKS for line in work.lines[:-1])


def test_hardly_a_line_is_left_as_words() -> None:
    verdicts = [line.mark.verdict for find, lines in PRINTED for line in marked(find, lines).lines]
    assert len(PRINTED) >= 600
    assert verdicts.count(Verdict.NOTE) < len(verdicts) / 25
