"""The kinds of problem in a teacher's words."""

from typing import assert_never

from tutor.lesson.model import Problem
from tutor.marking.task import ChoiceTask, DrawingTask, Task, WordTask


def kind_word(problem: Problem) -> str:
    """Return what a student does in a problem."""
    if problem.meaning is not None:
        return "the word for a meaning"
    task = problem.task
    match task:
        case ChoiceTask():
            return "choose"
        case DrawingTask():
            return "draw and measure"
        case WordTask():
            return "the word for a meaning"
        case Task() if task.lengths:
            return "can these lengths make a triangle"
        case Task() if task.goals:
            return "show why" if task.sentence else "write the formula"
        case Task() if not task.givens and len(task.formulas) == 1:
            return "solve an equation"
        case Task():
            return "work out from a formula"
        case _:
            assert_never(task)
