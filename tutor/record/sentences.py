"""What a student is told when something was done, or cannot be done now."""

from typing import assert_never

from tutor.marking.task import AnyTask, ChoiceTask, Task, WordTask
from tutor.marking.verdict import Step
from tutor.record.state import Action, LessonState, ProblemState, Status

EMPTY_LINE = "Type a line first, then press Enter."
TOO_LONG = "That is too long for one line. Split it, and hand in one step at a time."
NO_SUCH_PROBLEM = "There is no such problem in this lesson."
NO_SUCH_LINE = "There is no such line here."
ALREADY_STRUCK = "That line is struck out already."
NO_PROBLEMS = "This lesson has no problems yet. Tell your teacher."
CHANGED = (
    "This lesson has changed since you last worked on it. Problems that are the same go on where "
    "you left them; the changed ones begin anew. What you wrote before is kept."
)
ASK_YOUR_TEACHER = "That was the third try. Ask your teacher about this one; you may go on for now."
NO_HINT = "There is no hint for this line. Read the question once more, or ask your teacher."
WITHOUT_HINTS = "There are no hints in this lesson. Look at your last line once more, or ask your teacher."
LESSON_DONE = "That was the last one. Every problem is finished and nothing is left to correct."


def not_now(action: Action) -> str:
    """Return why ``action`` cannot be done now, with a next step."""
    match action:
        case Action.SUBMIT:
            return "This problem is closed. Go on to the next one."
        case Action.STRIKE:
            return "There is no line here that can be struck out."
        case Action.TAKE_BACK:
            return (
                "Only the last line can be taken back, before the next one, and once in a problem. "
                "You can strike it out instead."
            )
        case Action.FINISH:
            return "Something is still asked for here. Look at the steps above your lines."
        case Action.START_CORRECTION:
            return "There is nothing to correct in this problem now."
        case Action.APPEAL:
            return "Only a line that is marked as broken or undecided can be kept for your teacher."
        case Action.HINT:
            return "There is no further hint here. Type the next line."
        case Action.NEXT:
            return "There is no other problem left to do."
        case _:
            assert_never(action)


def before_the_line(task: AnyTask, *, correcting: bool) -> str:
    """Say what showing the line leads to, before it is shown."""
    if correcting:
        back = "you then work this correction once more from the start"
    else:
        back = "this problem then comes back as a correction"
    what = "the answer" if _is_one_answer(task) else "the line"
    return f"The next hint shows {what}; {back}. Ask once more to see it."


def line_shown(task: AnyTask) -> str:
    """Say what to do with a line that a hint showed."""
    if _is_one_answer(task):
        return "That is the answer. Type it in the box, and look why it fits."
    return "That is the next line. Type it in the box, and look why it follows."


def _is_one_answer(task: AnyTask) -> bool:
    return isinstance(task, ChoiceTask | WordTask)


def closed(problem: ProblemState, lesson: LessonState) -> str:
    """Return what to say when an attempt at ``problem`` was closed."""
    if lesson.done and problem.status is not Status.PROVISIONAL:
        return LESSON_DONE
    match problem.status:
        case Status.DONE:
            return "This problem is finished."
        case Status.MISSED | Status.SHOWN if problem.rests:
            return f"{why_missed(problem)}, so this word comes back after other problems."
        case Status.MISSED | Status.CORRECTING:
            return f"{why_missed(problem)}, so this problem waits for you: {_again(problem)}."
        case Status.SHOWN:
            return f"{why_missed(problem)}, so this problem waits for you: work it once more by yourself."
        case Status.CORRECTED:
            return "This correction is finished."
        case Status.PROVISIONAL:
            return "You may go on. This problem is kept for your teacher to look at."
        case Status.UNTOUCHED | Status.BEGUN:
            return ""
        case _:
            assert_never(problem.status)


def why_missed(problem: ProblemState) -> str:
    """Return why a problem waits for its correction, as the beginning of a sentence."""
    if problem.status is Status.SHOWN:
        return "A line was shown here"
    return "A line broke here" if problem.first.faults else "Not all that is asked for stands here"


def _again(problem: ProblemState) -> str:
    if not isinstance(problem.problem.task, Task):
        return "work it once more"
    return "work it once more with all its steps"


def step_word(step: Step, *, measured: bool) -> str:
    """Return the word of a step; where an equation alone is solved, the steps that apply have their own."""
    match step:
        case Step.FORMULA:
            return "formula" if measured else "equation"
        case Step.LABEL:
            return "label"
        case Step.SUBSTITUTE:
            return "substitute" if measured else "solve"
        case Step.UNITS:
            return "units"
        case _:
            assert_never(step)
