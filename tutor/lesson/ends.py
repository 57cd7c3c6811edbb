"""How work ends that has no one value: with ``no solution``, with ``all numbers``, or with an inequality."""

from functools import lru_cache

from tutor.lesson.kinds import ENDS
from tutor.marking.task import AnyTask, Task
from tutor.marking.work import begin, solution

_SIGNS = frozenset("<>≤≥")


def stated_words(task: AnyTask) -> str:
    """Return which of ``ENDS`` the worked lines of a task end with, "" where they end otherwise."""
    lines = solution(task)
    return lines[-1].text if lines and lines[-1].text in ENDS else ""


@lru_cache(maxsize=64)
def solved_inequality(task: AnyTask) -> str:
    """Return the inequality that answers a task: ``r ≤ 9``; "" where its worked lines do not end with one."""
    if not isinstance(task, Task) or not any(_SIGNS & set(text) for text in task.formulas):
        return ""
    lines = solution(task)
    if not lines or not _SIGNS & set(lines[-1].text):
        return ""
    work = begin(task)
    for line in lines:
        work = work.submit(line.text)
    return lines[-1].text if work.progress.finished else ""
