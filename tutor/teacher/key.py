"""The answer key: each question, its working line by line, and its answers. Nothing of it is stored."""

import textwrap
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import IO

from tutor.figure.lettering import cell_width
from tutor.lesson.model import Problem
from tutor.lesson.reader import load_lesson
from tutor.marking.solve import NamedValue, Solution, solve
from tutor.marking.worked import WorkedLine, solution
from tutor.record.sentences import step_word
from tutor.teacher.folding import folded
from tutor.visible import visible

WIDTH = 78
_INDENT = "   "
_STEP = 12  # columns for the word of the step
_WIDEST_LINE = 32  # a longer line has its sentence below it
_GAP = "  "


def print_key(path: Path, out: IO[str], err: IO[str]) -> int:
    """Print the question, the worked solution and the answers of each problem of a lesson.

    Returns 0, or 2 where the lesson cannot be read or a problem cannot be worked out.
    """
    lesson, faults = load_lesson(path)
    if lesson is None:
        for fault in faults:
            print(fault, file=err)
        return 2
    print(visible(lesson.title), file=out)
    code = 0
    for number, problem in enumerate(lesson.problems, start=1):
        print(f"\n{number}. {visible(problem.name)}", file=out)
        found, sentences = solve(problem.task)
        good = found is not None and not sentences
        for row in _told(problem, found if good else None):
            print((_INDENT + row).rstrip(), file=out)
        if not good:
            code = 2
            where = f"{visible(str(path))}:{problem.line}: {visible(problem.name)}"
            for sentence in sentences:
                print(f"{where}: {visible(sentence)}", file=err)
    return code


def _told(problem: Problem, found: Solution | None) -> Iterator[str]:
    yield from folded(visible(problem.ask), WIDTH - len(_INDENT))
    if found is None:
        yield f"{'answer':<{_STEP}}cannot be worked out"
        return
    worked = solution(problem.task)
    yield ""
    if worked:
        yield from _working(worked, measured=bool(problem.task.givens))
    else:
        yield f"{'working':<{_STEP}}Evenline cannot write this one down line by line."
    for row in _answers(problem, found):
        yield f"{'answer':<{_STEP}}{row}"


def _working(worked: Sequence[WorkedLine], *, measured: bool) -> Iterator[str]:
    """Yield each line with what is done in it, the word of a step where the step begins."""
    widths = (cell_width(visible(one.text)) for one in worked)
    column = max(width for width in (0, *widths) if width <= _WIDEST_LINE)
    before = None
    for one in worked:
        word = step_word(one.step, measured=measured) if one.step not in (None, before) else ""
        before = one.step
        yield from _line(f"{word:<{_STEP}}", visible(one.text), visible(one.sentence), column)


def _line(head: str, text: str, sentence: str, column: int) -> Iterator[str]:
    said = folded(sentence, WIDTH - len(_INDENT) - _STEP - column - len(_GAP))
    beside = " " * (_STEP + column) + _GAP
    width = cell_width(text)
    if width <= column:
        first, *said = said or [""]
        yield f"{head}{text}{' ' * (column - width)}{_GAP}{first}".rstrip()
    else:
        rows = textwrap.wrap(text, WIDTH - len(_INDENT) - _STEP)
        yield head + rows[0]
        yield from (" " * _STEP + row for row in rows[1:])
    yield from (beside + row for row in said)


def _answers(problem: Problem, found: Solution) -> Iterator[str]:
    for name in problem.task.find:
        value = found.value(name)
        yield f"{visible(name)}: not worked out" if value is None else _written(value)


def _written(value: NamedValue) -> str:
    """Return an answer as a student would write it: ``r = 7.5 cm``, roots and thirds with about how much."""
    unit = value.unit if value.unit in ("", "°") else f" {value.unit}"
    shown = f"{value.name} = {value.text}{unit}"
    if value.text.lstrip("-−").replace(".", "", 1).isdigit():
        return shown
    return f"{shown}, about {value.approx:.4g}{unit}"
