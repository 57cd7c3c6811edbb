"""What a teacher asks of a lesson: is it sound, and what are its answers?"""

import re
import textwrap
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import IO

from tutor.lesson.audit import audit
from tutor.lesson.model import Fault, Lesson, Problem
from tutor.lesson.reader import load_lesson
from tutor.marking.solve import NamedValue, Solution, solve
from tutor.teacher.check_file import visible

WIDTH = 78
_INDENT = "   "
_NO_BREAK = "\u00a0"
# The spaces round an equals sign, and the one between a number and its unit.
_GLUE = re.compile(r" (?==)|(?<==) |(?<=\d) (?=[a-z]{1,2}\b)")


def audit_files(paths: Sequence[Path], out: IO[str]) -> int:
    """Print every fault of each lesson, or that there is none; returns 0, or 2 where there are faults."""
    code = 0
    for number, path in enumerate(paths):
        if number:
            print(file=out)
        lesson, faults = load_lesson(path)
        if lesson is not None:
            faults = audit(lesson)
        if faults:
            code = 2
        for row in _audited(path, lesson, faults):
            print(row, file=out)
    return code


def _audited(path: Path, lesson: Lesson | None, faults: Sequence[Fault]) -> Iterator[str]:
    for fault in faults:
        yield str(fault)
    if faults:
        yield f"{visible(str(path))}: {_count(len(faults), 'fault')} to mend."
    elif lesson is not None:
        worked = _count(len(lesson.problems), "problem")
        yield f"{visible(str(path))}: no fault found; {worked} worked out."


def print_key(path: Path, out: IO[str], err: IO[str]) -> int:
    """Print the question and the answers of each problem of a lesson.

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
        for row in _wrapped(visible(problem.ask)):
            print(_INDENT + row, file=out)
        solution, sentences = solve(problem.task)
        if solution is None or sentences:
            code = 2
            where = f"{visible(str(path))}:{problem.line}: {visible(problem.name)}"
            print(_INDENT + "answer   cannot be worked out", file=out)
            for sentence in sentences:
                print(f"{where}: {visible(sentence)}", file=err)
            continue
        for row in _answers(problem, solution):
            print(f"{_INDENT}answer   {row}", file=out)
    return code


def _wrapped(ask: str) -> list[str]:
    """Fold a question at spaces, but not inside ``b = 4.5 cm``."""
    glued = _GLUE.sub(_NO_BREAK, ask)
    return [row.replace(_NO_BREAK, " ") for row in textwrap.wrap(glued, WIDTH - len(_INDENT))]


def _answers(problem: Problem, solution: Solution) -> Iterator[str]:
    for name in problem.task.find:
        value = solution.value(name)
        yield f"{visible(name)}: not worked out" if value is None else _written(value)


def _written(value: NamedValue) -> str:
    """Return an answer as a student would write it: ``r = 7.5 cm``, roots and thirds with about how much."""
    unit = value.unit if value.unit in ("", "°") else f" {value.unit}"
    shown = f"{value.name} = {value.text}{unit}"
    if value.text.lstrip("-−").replace(".", "", 1).isdigit():
        return shown
    return f"{shown}, about {value.approx:.4g}{unit}"


def _count(number: int, thing: str) -> str:
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"
