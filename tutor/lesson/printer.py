"""A lesson printed in its standard layout."""

from collections.abc import Iterator
from itertools import groupby

from tutor.lesson.keywords import Keyword
from tutor.lesson.model import FigureWords, Lesson, Problem
from tutor.lesson.reader import FORMAT
from tutor.marking.task import Task
from tutor.quantity.pi import Pi

WIDTH = 80
_INDENT = "  "
_KEYWORD = 9


def print_lesson(lesson: Lesson) -> str:
    """Return the lesson as text that reads back to the same lesson.

    Remarks are not kept. What all problems share (pi, every step) is said once, above them.
    """
    tasks = [problem.task for problem in lesson.problems]
    shared_pi = tasks[0].pi if len({task.pi for task in tasks}) == 1 else Pi.EXACT
    all_steps = all(task.every_step for task in tasks)
    rows = [_row(Keyword.LESSON, lesson.title, ""), _row(Keyword.FORMAT, FORMAT, "")]
    if lesson.grade:
        rows.append(_row(Keyword.GRADE, lesson.grade, ""))
    if lesson.covers:
        rows.append(_row(Keyword.COVERS, "  ".join(lesson.covers), ""))
    if shared_pi is not Pi.EXACT:
        rows.append(_row(Keyword.PI, shared_pi.value, ""))
    if all_steps:
        rows.append(_row(Keyword.EVERY, "step", ""))
    for problem in lesson.problems:
        rows += ["", _row(Keyword.PROBLEM, problem.name, "")]
        rows += _problem(problem, shared_pi, said_every_step=all_steps)
    return "\n".join(rows) + "\n"


def _problem(problem: Problem, shared_pi: Pi, *, said_every_step: bool) -> Iterator[str]:
    task = problem.task
    yield from _rows(Keyword.ASK, problem.written or problem.ask)
    if task.pi is not shared_pi:
        yield _row(Keyword.PI, task.pi.value)
    if task.every_step and not said_every_step:
        yield _row(Keyword.EVERY, "step")
    if problem.figure is not None:
        yield from _rows(Keyword.FIGURE, _figure(problem.figure))
    if task.names:
        yield from _rows(Keyword.NAMES, ", ".join(task.names))
    for formula in task.formulas:
        yield from _rows(Keyword.FORMULA if task.givens else Keyword.EQUATION, formula)
    for name, value in task.givens:
        yield from _rows(Keyword.GIVEN, f"{name} = {value}")
    yield from _finds(task)
    if task.places is not None:
        yield _row(Keyword.ROUND, f"to {task.places} place{'' if task.places == 1 else 's'}")


def _figure(figure: FigureWords) -> str:
    return ", ".join((figure.kind, *(f"{part.role} {part.name}" for part in figure.parts)))


def _finds(task: Task) -> Iterator[str]:
    """Names that follow one another with one unit share a line."""
    pairs = zip(task.find, task.units, strict=True)
    for unit, group in groupby(pairs, key=lambda pair: pair[1]):
        names = [name for name, _unit in group]
        *before, last = names
        joined = f"{', '.join(before)} and {last}" if before else last
        yield from _rows(Keyword.FIND, f"{joined} in {unit}" if unit else joined)


def _row(keyword: Keyword, text: str, indent: str = _INDENT) -> str:
    return f"{indent}{keyword.value:<{_KEYWORD}}{text}"


def _rows(keyword: Keyword, text: str) -> Iterator[str]:
    """Yield an entry, gone on under its own text where it is long."""
    start = _row(keyword, "")
    row, filled = start, False
    for word in text.split(" "):
        # A line that begins with # would be a remark, so such a word never stands first.
        if filled and len(row) + 1 + len(word) > WIDTH and not word.startswith("#"):
            yield row
            row, filled = " " * len(start), False
        row += f" {word}" if filled else word
        filled = True
    yield row
