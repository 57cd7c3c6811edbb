"""A piece of work of any kind: begin it, read a line, ask for a hint, work it out."""

from collections.abc import Sequence
from typing import Protocol, Self, assert_never

from tutor.marking.hint_stage import Hint, HintStage
from tutor.marking.hints import hint as working_hint
from tutor.marking.kinds.choice import (
    ChoiceWorking,
    choice_hint,
    choice_problems,
    choice_solution,
    read_choice,
)
from tutor.marking.kinds.drawing import (
    DrawingWorking,
    drawing_caution,
    drawing_hint,
    drawing_problems,
    drawing_solution,
    read_drawing,
)
from tutor.marking.kinds.goals import GoalWorking, begin_goals
from tutor.marking.kinds.goals_help import goals_hint, goals_problems, goals_solution
from tutor.marking.kinds.lengths import (
    LengthsWorking,
    lengths_hint,
    lengths_problems,
    lengths_solution,
    read_lengths,
)
from tutor.marking.kinds.word import WordWorking, word_hint, word_problems, word_solution
from tutor.marking.progress import Progress
from tutor.marking.solve import task_problems
from tutor.marking.task import AnyTask, ChoiceTask, DrawingTask, Task, WordTask
from tutor.marking.worked import WorkedLine
from tutor.marking.worked import solution as worked_solution
from tutor.marking.working import ReadAs, Working, WorkLine, start
from tutor.marking.working import read_as as read_line

__all__ = [
    "ReadAs",
    "Work",
    "WorkLine",
    "WorkedLine",
    "begin",
    "caution",
    "hint",
    "problems_of",
    "read_as",
    "solution",
]


class Work(Protocol):
    """The lines so far of a task of any kind. A value: ``submit`` and ``strike`` return a new one."""

    @property
    def task(self) -> AnyTask:
        """Return what is to be worked out."""
        ...

    @property
    def lines(self) -> tuple[WorkLine, ...]:
        """Return the typed lines with their marks, struck ones too."""
        ...

    @property
    def progress(self) -> Progress:
        """Return how far the work is."""
        ...

    def submit(self, text: str) -> Self:
        """Return the work with one more line, marked."""
        ...

    def strike(self, index: int) -> Self:
        """Return the work with a line struck out; later lines are marked again."""
        ...


def begin(task: AnyTask) -> Work:
    """Return a piece of work without lines."""
    match task:
        case Task() if task.lengths:
            return LengthsWorking(task)
        case Task() if task.goals:
            return begin_goals(task)
        case Task():
            return start(task)
        case ChoiceTask():
            return ChoiceWorking(task)
        case WordTask():
            return WordWorking(task)
        case DrawingTask():
            return DrawingWorking(task)
        case _:
            assert_never(task)


def read_as(task: AnyTask, lines: Sequence[str], text: str) -> ReadAs:
    """Return how a line would be read, without marking it. ``lines``: those above that count."""
    match task:
        case Task() if task.lengths:
            return ReadAs(*read_lengths(task, text))
        case Task():
            return read_line(task, lines, text)
        case ChoiceTask():
            return _one_row(*read_choice(task, text)) if text.strip() else ReadAs(())
        case WordTask():
            return _one_row(" ".join(text.split()), "")
        case DrawingTask():
            return ReadAs(*read_drawing(task, text)) if text.strip() else ReadAs(())
        case _:
            assert_never(task)


def _one_row(row: str, problem: str) -> ReadAs:
    return ReadAs((row,) if row else (), problem)


def hint(work: Work, stage: HintStage) -> Hint | None:
    """Return the hint of one stage; None where nothing is left to do or nothing can be told."""
    match work:
        case Working():
            return working_hint(work, stage)
        case GoalWorking():
            return goals_hint(work, stage)
        case LengthsWorking():
            return lengths_hint(work, stage)
        case ChoiceWorking():
            return choice_hint(work, stage)
        case WordWorking():
            return word_hint(work, stage)
        case DrawingWorking():
            return drawing_hint(work, stage)
        case _:
            return None


def solution(task: AnyTask) -> tuple[WorkedLine, ...]:
    """Return the whole solution, line by line as a student could type it; () where it cannot be given."""
    match task:
        case Task() if task.lengths:
            return lengths_solution(task)
        case Task() if task.goals:
            return goals_solution(task)
        case Task():
            return worked_solution(task)
        case ChoiceTask():
            return choice_solution(task)
        case WordTask():
            return word_solution(task)
        case DrawingTask():
            return drawing_solution(task)
        case _:
            assert_never(task)


def problems_of(task: AnyTask) -> tuple[str, ...]:
    """Return what is wrong with a task, in sentences for the teacher; () where it can be used."""
    match task:
        case Task() if task.lengths:
            return lengths_problems(task)
        case Task() if task.goals:
            return goals_problems(task)
        case Task():
            return tuple(problem.message for problem in task_problems(task))
        case ChoiceTask():
            return choice_problems(task)
        case WordTask():
            return word_problems(task)
        case DrawingTask():
            return drawing_problems(task)
        case _:
            assert_never(task)


def caution(task: AnyTask) -> str:
    """Return what is to be minded with the tools of a task, "" where nothing is."""
    match task:
        case DrawingTask():
            return drawing_caution(task)
        case Task() | ChoiceTask() | WordTask():
            return ""
        case _:
            assert_never(task)
