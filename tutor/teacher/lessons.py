"""What a teacher asks of a lesson before it is used: is it sound?"""

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import IO

from tutor.lesson.audit import audit
from tutor.lesson.model import Fault, Lesson
from tutor.lesson.reader import load_lesson
from tutor.visible import visible


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


def _count(number: int, thing: str) -> str:
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"
