"""The row of the four steps above the page: which stands, which is next."""

from typing import assert_never

from textual.content import Content

from tutor.marking.task import ChoiceTask, DrawingTask, Task, WordTask
from tutor.marking.verdict import Step
from tutor.marking.working import Progress, StepState
from tutor.record.sentences import step_word
from tutor.record.state import Attempt

Steps = tuple[tuple[Step, StepState], ...]


def how_far(attempt: Attempt) -> Content:
    """Return the row above the page: the steps that apply, or in words what is asked for."""
    task = attempt.problem.task
    if attempt.hidden:
        return Content.assemble(("no marks yet: they come when you hand this in", "$quiet"))
    if isinstance(task, Task) and not task.lengths and not task.goals:
        row = steps_row(attempt.working.progress.steps)
        check = _check(attempt.working.progress) if task.check else None
        return row if check is None else Content("   ").join([row, check])
    state = StepState.STANDS if attempt.complete else StepState.NEXT
    return _step(_asked_for(attempt), state) or Content("")


def _check(progress: Progress) -> Content | None:
    waits = any(state is StepState.NEXT for _, state in progress.steps)
    if progress.answer_checked:
        state = StepState.STANDS
    else:
        state = StepState.NEXT if progress.finished and not waits else StepState.OPEN
    return _step("check", state)


def _asked_for(attempt: Attempt) -> str:
    """Return what a problem without the four steps asks for."""
    task, progress = attempt.problem.task, attempt.working.progress
    match task:
        case Task(lengths=(_, *_)):
            return "compare the lengths, then yes or no"
        case Task():
            if not task.sentence:
                return "write the formula"
            return "say why, in a sentence" if progress.finished else "show why, line by line"
        case ChoiceTask():
            return "choose"
        case WordTask():
            return "the word"
        case DrawingTask():
            return "draw and measure"
        case _:
            assert_never(task)


def steps_row(steps: Steps) -> Content:
    """Return the row of steps: a sign and a word each; steps that are not asked are left out."""
    measured = has_measures(steps)
    words = ((step_word(step, measured=measured), state) for step, state in steps)
    parts = [part for word, state in words if (part := _step(word, state)) is not None]
    if not parts:
        return Content.assemble(("line by line: each line must follow from those above", "$quiet"))
    return Content("   ").join(parts)


def has_measures(steps: Steps) -> bool:
    """Tell whether something is given to be labelled; where not, an equation alone is solved."""
    return (Step.LABEL, StepState.NOT_ASKED) not in steps


def _step(word: str, state: StepState) -> Content | None:
    match state:
        case StepState.STANDS:
            return Content.assemble((f"✓ {word}", "$success"))
        case StepState.NEXT:
            return Content.assemble((f"▸ {word}: next", "bold $primary"))
        case StepState.OPEN:
            return Content.assemble((f"· {word}", "$quiet"))
        case StepState.NOT_ASKED:
            return None
        case _:
            assert_never(state)
