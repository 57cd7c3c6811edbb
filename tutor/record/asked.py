"""Which problem an attempt asks: the one place that decides the numbers and steps of a correction."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import assert_never

from tutor.lesson.model import Numbers, Problem, Settings
from tutor.marking.task import Task

_AS_USUAL = Settings()


@dataclass(frozen=True, slots=True)
class Terms:
    """How the work at a lesson goes: what its teacher set, and the seed of the student's numbers."""

    settings: Settings = _AS_USUAL
    seed: int = 0


AS_USUAL = Terms()


def asked_at(problem: Problem, terms: Terms, attempt: int, numbers: Numbers) -> Problem:
    """Return the problem as attempt ``attempt`` asks it, 0 being the first.

    ``problem`` is the one that was drawn for the student. A correction asks for all the steps
    (DESIGN 8); ``numbers`` are those it was begun with, whatever the lesson says today, so that its
    lines are never marked against others.
    """
    if attempt == 0:
        return problem
    match numbers:
        case Numbers.SAME:
            asked = problem
        case Numbers.FRESH:
            from tutor.lesson.fresh import redrawn  # heavy: it reads and solves problems

            asked = redrawn(problem, terms.seed, attempt)
        case _:
            assert_never(numbers)
    task = asked.task
    return replace(asked, task=replace(task, every_step=True)) if isinstance(task, Task) else asked


def numbers_of(text: str) -> Numbers:
    """Return the numbers of a correction as they are recorded; records of old have the same ones."""
    return next((numbers for numbers in Numbers if numbers.value == text), Numbers.SAME)
