"""The answer key: each question, its working line by line, and its answers. Nothing of it is stored."""

import re
import textwrap
from collections.abc import Iterator, Sequence
from decimal import ROUND_HALF_UP, Decimal
from math import isclose
from pathlib import Path
from typing import IO

from tutor.figure.lettering import cell_width
from tutor.lesson.model import Problem
from tutor.lesson.reader import load_lesson
from tutor.marking.solve import NamedValue, Solution, solve
from tutor.marking.task import Task
from tutor.marking.worked import WorkedLine, solution
from tutor.record.sentences import step_word
from tutor.teacher.folding import folded
from tutor.visible import visible

WIDTH = 78
_INDENT = "   "
_STEP = 12  # columns for the word of the step
_WIDEST_LINE = 32  # a longer line has its sentence below it
_GAP = "  "
_RAISED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
# Not 2^0.5 and not 2^3/4, in which a person may see more raised than the 3.
_POWER = re.compile(r"\^(\d+)(?![\d.^/])")


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
        task = problem.task
        if not isinstance(task, Task):
            continue
        found, sentences = solve(task)
        good = found is not None and not sentences
        for row in _told(problem, task, found if good else None):
            print((_INDENT + row).rstrip(), file=out)
        if not good:
            code = 2
            where = f"{visible(str(path))}:{problem.line}: {visible(problem.name)}"
            for sentence in sentences:
                print(f"{where}: {visible(sentence)}", file=err)
    return code


def _told(problem: Problem, task: Task, found: Solution | None) -> Iterator[str]:
    yield from folded(visible(problem.ask), WIDTH - len(_INDENT))
    if found is None:
        yield f"{'answer':<{_STEP}}cannot be worked out"
        return
    worked = solution(task)
    yield ""
    if worked:
        yield from _working(worked, measured=bool(task.givens))
    else:
        yield f"{'working':<{_STEP}}Evenline cannot write this one down line by line."
    for row in _answers(task, found):
        yield f"{'answer':<{_STEP}}{row}"


def _working(worked: Sequence[WorkedLine], *, measured: bool) -> Iterator[str]:
    """Yield each line with what is done in it, the word of a step where the step begins."""
    lines = [(one.step, _on_paper(one.text), _on_paper(one.sentence)) for one in worked]
    widths = (cell_width(text) for _, text, _ in lines)
    column = max(width for width in (0, *widths) if width <= _WIDEST_LINE)
    before = None
    for step, text, sentence in lines:
        word = step_word(step, measured=measured) if step not in (None, before) else ""
        before = step
        yield from _line(f"{word:<{_STEP}}", text, sentence, column)


def _on_paper(text: str) -> str:
    """Return a line with 7² for 7^2: the engine writes what a student can type."""
    return _POWER.sub(lambda power: power.group(1).translate(_RAISED), visible(text))


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


def _answers(task: Task, found: Solution) -> Iterator[str]:
    for name in task.find:
        value = found.value(name)
        yield f"{visible(name)}: not worked out" if value is None else _written(value, task.places)


def _written(value: NamedValue, places: int | None) -> str:
    """Return an answer as a student would write it: ``r = 7.5 cm``, roots and thirds with about how much.

    Where the lesson says to how many places, a longer value is rounded so: ``s ≈ 7.1 cm``.
    """
    plain = value.text.replace("−", "-")
    is_decimal = plain.lstrip("-").replace(".", "", 1).isdigit()
    exact = is_decimal and isclose(float(plain), value.approx, rel_tol=1e-9)
    if places is not None and (not exact or len(plain.partition(".")[2]) > places):
        half_up = Decimal(repr(value.approx)).quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP)
        return f"{value.name} ≈ {_with_unit(f'{half_up:f}'.replace('-', '−'), value.unit)}"
    shown = f"{value.name} {'=' if exact or not is_decimal else '≈'} {_with_unit(value.text, value.unit)}"
    return shown if is_decimal else f"{shown}, about {_with_unit(f'{value.approx:.4g}', value.unit)}"


def _with_unit(number: str, unit: str) -> str:
    if unit == "$":
        cents = "0" if len(number.partition(".")[2]) == 1 else ""
        return f"{'−' if number.startswith('−') else ''}${number.lstrip('−')}{cents}"
    return f"{number}{unit if unit in ('', '°') else f' {unit}'}"
