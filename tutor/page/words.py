"""What the page says in words: how a lesson stands, and the one next thing to do.

No rules here: every sentence reads off a state that the record decided.
"""

from typing import assert_never

from tutor.marking.verdict import Step
from tutor.marking.working import Progress, StepState
from tutor.page.desk_source import OnShelf
from tutor.page.shelf_screen import ShelfRow
from tutor.page.steps_row import has_measures
from tutor.record.glance import Glance
from tutor.record.state import Action, LessonState, ProblemState, Status
from tutor.visible import visible


def lesson_phrase(glance: Glance) -> str:
    """Return how a lesson stands: not begun, problem 3 of 6, 2 to correct, done."""
    if glance.done:
        return "✓ done"
    if not glance.begun:
        return "not begun"
    here = f"problem {glance.current + 1} of {len(glance.statuses)}"
    return f"{here} · {glance.to_correct} to correct" if glance.to_correct else here


def status_sign(status: Status) -> str:
    """Return the sign that goes with the word of a status."""
    match status:
        case Status.UNTOUCHED:
            return "·"
        case Status.BEGUN | Status.CORRECTING:
            return "▸"
        case Status.DONE | Status.CORRECTED:
            return "✓"
        case Status.MISSED | Status.SHOWN:
            return "✗"
        case Status.PROVISIONAL:
            return "?"
        case _:
            assert_never(status)


def problem_phrase(number: int, name: str, status: Status) -> str:
    """Return one row of the list of problems."""
    return f"{status_sign(status)} {number}  {visible(name)}: {status.value}"


def place_phrase(state: LessonState) -> str:
    """Return where the student is, for the top row."""
    problem = state.problems[state.current]
    name = visible(problem.problem.name)
    return f"{name} · problem {state.current + 1} of {len(state.problems)} · {problem.status.value}"


def next_thing(state: LessonState) -> str:
    """Return what to do now, in a sentence or two."""
    problem = state.problems[state.current]
    if Action.SUBMIT in problem.actions:
        return _while_writing(problem)
    if state.done:
        return f"✓ The lesson is done. {keys_now(state)}"
    if problem.status.waits:
        why = "A line was shown" if problem.status is Status.SHOWN else "A line broke"
        return f"{why} here, so this one is worked once more. {keys_now(state)}"
    return f"This one is {problem.status.value}. {keys_now(state)}"


def keys_now(state: LessonState) -> str:
    """Return which key goes on from a problem that is closed; "" while lines are written."""
    problem = state.problems[state.current]
    if Action.SUBMIT in problem.actions:
        return ""
    if problem.status.waits:
        later = " F5 leaves it for later." if Action.NEXT in problem.actions else ""
        return f"Press Enter to begin.{later}"
    return "Press Enter to go on." if Action.NEXT in problem.actions else "Esc goes back to the shelf."


def _while_writing(problem: ProblemState) -> str:
    attempt = problem.current
    broken = min(attempt.questionable, default=None)
    if problem.only_again and Action.FINISH not in problem.actions:
        return "A line was shown here. Press Enter to work it once more from the start, by yourself."
    if Action.FINISH in problem.actions and attempt.complete:
        return "✓ This is worked out. Press Enter in the empty box to close it."
    if broken is not None and broken == len(attempt.working.lines) - 1:
        return f"Line {broken + 1} needs another look. F3 strikes it out; then write it again."
    if attempt.number > 0 and not attempt.working.lines:
        return f"Work it from the start, with every step. {step_sentence(attempt.working.progress)}"
    return step_sentence(attempt.working.progress)


def step_sentence(progress: Progress) -> str:
    """Return what the next step asks for."""
    step = next((step for step, state in progress.steps if state is StepState.NEXT), None)
    measured = has_measures(progress.steps)
    match step:
        case Step.FORMULA:
            if measured:
                return "Next: write the formula that joins what you know and what you look for."
            return "Next: write the equation down as it is given."
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
            return "Write the next line and press Enter. Each line must follow from those above."
        case _:
            assert_never(step)


def _still_missing(progress: Progress) -> str:
    typed = dict(progress.labels)
    names = ", ".join(visible(name) for name in progress.missing_labels if name not in typed)
    bare = ", ".join(visible(name) for name in progress.missing_labels if name in typed)
    without = f" Still without its unit: {bare}." if bare else ""
    return (f" Still missing: {names}." if names else "") + without


def shelf_row(one: OnShelf) -> ShelfRow:
    """Return how a lesson, or a file that is none, is shown on the shelf."""
    lesson, glance = one.entry.lesson, one.glance
    if lesson is None or glance is None:
        return ShelfRow(lesson.title if lesson else one.entry.path.name, "", one.sentence, ())
    named = zip(lesson.problems, glance.statuses, strict=True)
    problems = tuple(problem_phrase(n, problem.name, status) for n, (problem, status) in enumerate(named, 1))
    grade = f"grade {visible(lesson.grade)} · " if lesson.grade else ""
    return ShelfRow(lesson.title, grade + lesson_phrase(glance), "", problems, glance.current)
