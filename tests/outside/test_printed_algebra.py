"""Algebra as books of several countries print it: every line stands, the end is seen, no change passes.

Common practice, no source: how lines are numbered, commented, checked (``≟``, LHS and RHS, ✓), how
answers are given (sets, intervals, words, x₁ and x₂), how identities and contradictions end.
"""

from functools import cache
from pathlib import Path

import pytest

from tutor.marking.task import Task
from tutor.marking.verdict import Verdict
from tutor.marking.working import Working, mark_lines


def rows(name: str) -> list[tuple[str, str]]:
    text = (Path(__file__).parent / name).read_text(encoding="utf-8")
    pairs = (row.split("\t") for row in text.splitlines() if row and not row.startswith("#"))
    return [(find, lines) for find, lines in pairs]


PRINTED = rows("printed_algebra.tsv")
CHANGED = rows("printed_algebra_wrong.tsv")


@cache
def marked(find: str, lines: str) -> Working:
    names = () if find == "-" else tuple(find.rstrip("~").split(","))
    return mark_lines(Task(find=names), tuple(line.strip(" ") for line in lines.split(" ; ")))


@pytest.mark.parametrize(("find", "lines"), PRINTED)
def test_every_printed_line_stands_and_the_end_is_seen(find: str, lines: str) -> None:
    work = marked(find, lines)
    fallen = [
        (line.text, line.mark.verdict.value, line.mark.message)
        for line in work.lines
        if not (line.mark.verdict.stands or line.mark.verdict is Verdict.NOTE)
    ]
    assert fallen == []
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
