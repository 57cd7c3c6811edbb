"""The proof that a problem can be marked: its worked solution, or its answers, put to the marker."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from tutor.lesson.auditing.case import Case, Remark
from tutor.lesson.keywords import Keyword
from tutor.marking.task import Task
from tutor.marking.verdict import Verdict
from tutor.marking.work import begin, solution

_PASSING = (Verdict.FOLLOWS, Verdict.ROUNDS, Verdict.RESTATES, Verdict.NOTE)


def marked(case: Case, *, every_line: bool) -> Iterator[Remark]:
    """Yield where the marker does not take the problem's own solution, with every step on.

    Without ``every_line`` the answers alone are put to it where values are found, which is quick.
    """
    task = case.task
    if isinstance(task, Task) and task.find and case.solution is None:
        return
    if isinstance(task, Task) and task.find and not task.goals and not every_line:
        yield from _taken(case, [text for text in _answer_lines(case) if text])
        return
    if isinstance(task, Task) and task.find:
        task = replace(task, every_step=True)
    lines = [line.text for line in solution(task)]
    if not lines:
        message = "The program cannot write a solution of this problem, so no hint could show a line."
        yield Remark(case.at(Keyword.PROBLEM, message), advice=True)
        return
    work = begin(task)
    for text in lines:
        work = work.submit(text)
        if work.lines[-1].mark.verdict not in _PASSING:
            yield _refused(case, text)
            return
    if work.progress.finished is False:
        yield Remark(case.at(Keyword.PROBLEM, "The worked solution of this problem does not finish it."))


def _taken(case: Case, lines: Sequence[str]) -> Iterator[Remark]:
    work = begin(case.task)
    for text in lines:
        work = work.submit(text)
        if not work.lines[-1].mark.verdict.stands:
            yield _refused(case, text)
            return


def _refused(case: Case, text: str) -> Remark:
    message = f"The marker does not take its own line “{text}” here, so a student would be stuck."
    return Remark(case.at(Keyword.PROBLEM, message))


def _answer_lines(case: Case) -> Iterator[str]:
    """Yield an answer for each thing to find that comes out as a number that ends."""
    if case.solved is None:
        return
    task, found = case.solved
    for name in task.find:
        value = found.value(name)
        exact = value is not None and value.text.replace("−", "").replace(".", "").isdigit()
        if value is not None and exact and task.precision_of(value.name) is None:
            unit = f" {value.unit}" if value.unit and value.unit != "°" else value.unit
            yield f"{name} = {value.text}{unit}"
