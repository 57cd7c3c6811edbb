"""What to write next, in a sentence: for each kind of problem, from how far the work is."""

from typing import assert_never

from tutor.lesson.model import Problem
from tutor.marking.task import ChoiceTask, DrawingTask, Task, WordTask
from tutor.marking.verdict import Step
from tutor.marking.working import Progress, StepState
from tutor.page.asking import written
from tutor.page.steps_row import has_measures
from tutor.record.state import Attempt
from tutor.visible import visible

_ANY_LINE = "Write the next line and press Enter. Each line must follow from those above."


def next_sentence(attempt: Attempt) -> str:
    """Return what comes next in an attempt that is open."""
    if attempt.hidden:
        ends = "The marks come when you hand this problem in."
        return f"{ends} F9 does that." if attempt.can_be_handed_in else f"{_how(attempt.problem)} {ends}"
    task, progress = attempt.problem.task, attempt.working.progress
    match task:
        case Task():
            return _of_lines(task, progress)
        case ChoiceTask() | WordTask():
            return _how(attempt.problem)
        case DrawingTask():
            missing = ", ".join(map(visible, progress.missing_labels))
            if not missing:
                return "Next: write the lengths with their unit."
            return f"{_how(attempt.problem)} Still missing: {missing}."
        case _:
            assert_never(task)


def _how(problem: Problem) -> str:
    """Return how a problem of this kind is answered."""
    match problem.task:
        case Task():
            return "Write your lines one under the other."
        case ChoiceTask():
            return "Type the letter of what fits, or its words."
        case WordTask():
            return "Type the word."
        case DrawingTask():
            return "Draw it, measure, and type one part a line."
        case _:
            assert_never(problem.task)


def _of_lines(task: Task, progress: Progress) -> str:
    if task.lengths:
        return "Next: write the comparison that decides it, line by line, then yes or no."
    if task.goals:
        return _of_goals(task, progress)
    if progress.finished and not progress.complete and task.check and not progress.answer_checked:
        waits = any(state is StepState.NEXT for _, state in progress.steps)
        if not waits:
            return "Next: put the answer back in to check it, in numbers alone."
    return step_sentence(progress)


def _of_goals(task: Task, progress: Progress) -> str:
    if not task.sentence:
        return "Write the formula that is asked for, in any form that says the same."
    if progress.finished:
        return "Now say in a sentence why. Your teacher reads it."
    goal = visible(written(task, task.goals[-1]))
    return f"Go on line by line, each from those above, until {goal} stands."


def step_sentence(progress: Progress) -> str:
    """Return what the next step asks for."""
    step = next((step for step, state in progress.steps if state is StepState.NEXT), None)
    measured = has_measures(progress.steps)
    match step:
        case Step.FORMULA:
            if measured:
                return "Next: write the formula that joins what you know and what you look for."
            return "Next: write the equation for the question."
        case Step.LABEL:
            said = "Next: write what you know with its unit, and ? for what you look for."
            return said + _still_missing(progress)
        case Step.SUBSTITUTE:
            if measured:
                return "Next: put the numbers in, then go down line by line to the unknown alone."
            return "Next: do the same to both sides, line by line, until the unknown stands alone."
        case Step.UNITS:
            return "Next: write the answer with its unit, then put it back in to check."
        case None:
            return _ANY_LINE
        case _:
            assert_never(step)


def _still_missing(progress: Progress) -> str:
    typed = dict(progress.labels)
    names = ", ".join(visible(name) for name in progress.missing_labels if name not in typed)
    bare = ", ".join(visible(name) for name in progress.missing_labels if name in typed)
    without = f" Still without its unit: {bare}." if bare else ""
    return (f" Still missing: {names}." if names else "") + without
