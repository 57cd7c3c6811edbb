"""What the page says in words: how a lesson stands, and the one next thing to do.

No rules here: every sentence reads off a state that the record decided.
"""

from collections.abc import Iterator
from dataclasses import replace
from typing import assert_never

from tutor.lesson.model import Lesson, Problem
from tutor.marking.task import Task
from tutor.page.desk_source import OnShelf
from tutor.page.lettering import cells, shorten
from tutor.page.next_words import next_sentence
from tutor.page.shelf_screen import ShelfRow
from tutor.record.glance import Glance
from tutor.record.sentences import why_missed
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


def problem_phrase(number: int, problem: Problem, status: Status) -> str:
    """Return one row of the list of problems."""
    return f"{status_sign(status)} {number:<2} {visible(problem.name)}: {status.value}{_matters(problem)}"


def _matters(problem: Problem) -> str:
    """Return the flag in words."""
    return " · matters most" if problem.matters else ""


# A name that is cut shorter tells nothing any more.
_SHORTEST_NAME = 16


def place_phrase(state: LessonState, width: int) -> str:
    """Return where the student is, for the top row, in ``width`` cells where that can be.

    Where it is too long, first goes what the page shows anyhow: that a problem is begun, or not yet.
    Then the name is cut, then that it matters most is left out; the shelf has both.
    """
    problem = state.problems[state.current]
    name, flag = visible(problem.problem.name), _matters(problem.problem)
    number = f" · problem {state.current + 1} of {len(state.problems)}"
    status = f" · {problem.status.value}"
    short = "" if problem.status in (Status.UNTOUCHED, Status.BEGUN) else status
    for rest in (number + status + flag, number + short + flag):
        if cells(name) + cells(rest) <= width:
            return name + rest
    rest = number + short + flag
    if width - cells(rest) < _SHORTEST_NAME:
        rest = number + short
    return shorten(name, max(_SHORTEST_NAME // 2, width - cells(rest))) + rest


def next_thing(state: LessonState) -> str:
    """Return what to do now, in a sentence or two."""
    problem = state.problems[state.current]
    if Action.SUBMIT in problem.actions:
        return _while_writing(problem)
    if state.done:
        return f"✓ The lesson is done. {keys_now(state)}"
    if problem.status.waits:
        comes = (
            "so it comes back after other problems" if problem.rests else "so this one is worked once more"
        )
        return f"{why_missed(problem)}, {comes}. {keys_now(state)}"
    return f"This one is {problem.status.value}. {keys_now(state)}"


def keys_now(state: LessonState) -> str:
    """Return which key goes on from a problem that is closed; "" while lines are written."""
    problem = state.problems[state.current]
    if Action.SUBMIT in problem.actions:
        return ""
    if problem.status.waits:
        if problem.rests:
            return "Press Enter to go on. F6 asks for it again now."
        later = " F5 leaves it for later." if Action.NEXT in problem.actions else ""
        return f"Press Enter to begin.{later}"
    return "Press Enter to go on." if Action.NEXT in problem.actions else "Esc goes back to the shelf."


def _while_writing(problem: ProblemState) -> str:
    attempt = problem.current
    if attempt.hidden:
        return next_sentence(attempt)
    broken = min(attempt.questionable, default=None)
    if problem.only_again and Action.FINISH not in problem.actions:
        return "A line was shown here. Press Enter to work it once more from the start, by yourself."
    if Action.FINISH in problem.actions and attempt.complete:
        return "✓ This is worked out. Press Enter in the empty box to close it."
    if broken is not None and broken == len(attempt.working.lines) - 1:
        return f"Line {broken + 1} needs another look. F3 strikes it out; then write it again."
    if attempt.number > 0 and not attempt.working.lines:
        return f"{_from_the_start(problem)} {next_sentence(attempt)}"
    return next_sentence(attempt)


def _from_the_start(problem: ProblemState) -> str:
    numbers = ", on the new numbers" if problem.other_numbers else ""
    steps = ", with every step" if isinstance(problem.problem.task, Task) else ""
    return f"Work it from the start{numbers}{steps}."


def shelf_row(one: OnShelf) -> ShelfRow:
    """Return how a lesson, or a file that is none, is shown on the shelf."""
    lesson, glance = one.entry.lesson, one.glance
    if lesson is None or glance is None:
        return ShelfRow(lesson.title if lesson else one.entry.path.name, "", one.sentence, ())
    problems = tuple(problem_phrase(n, *named) for n, named in enumerate(_named(lesson, glance), 1))
    grade = f"grade {visible(lesson.grade)} · " if lesson.grade else ""
    return ShelfRow(lesson.title, grade + lesson_phrase(glance), "", problems, glance.current)


def _named(lesson: Lesson, glance: Glance) -> Iterator[tuple[Problem, Status]]:
    """Yield the problems with their statuses; those of a review that nobody opened are not drawn yet."""
    drawn = lesson.review is None or glance.opened
    for problem, status in zip(glance.problems, glance.statuses, strict=True):
        yield (problem if drawn else replace(problem, name="drawn when you begin", matters=False)), status
