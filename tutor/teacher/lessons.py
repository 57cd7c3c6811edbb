"""What a teacher asks of a lesson before it is used: is it sound, which numbers does it draw, is it tidy?"""

import os
import tempfile
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from typing import IO

from tutor.lesson.audit import Audited, audited
from tutor.lesson.model import Fault, Lesson
from tutor.lesson.reader import load_lesson, read_lesson
from tutor.lesson.tidy import tidied
from tutor.teacher.draw_table import draw_rows
from tutor.visible import visible

WIDTH = 80
MOST_DRAWS = 40
OK, UNREADABLE = 0, 2


def audit_files(paths: Sequence[Path], out: IO[str], *, thorough: bool = False) -> int:
    """Print every fault and all advice of each lesson; returns 0, or 2 where there are faults.

    ``thorough``: up to 40 draws of every problem, and every line of each worked solution.
    """
    code = OK
    for number, path in enumerate(paths):
        if number:
            print(file=out)
        lesson, faults = load_lesson(path)
        found = None if lesson is None else audited(lesson, thorough=thorough)
        if faults or (found is not None and found.faults):
            code = UNREADABLE
        rows = _unread(path, faults) if lesson is None or found is None else _audited(path, lesson, found)
        for row in rows:
            print(row, file=out)
    return code


def _unread(path: Path, faults: Sequence[Fault]) -> Iterator[str]:
    yield from map(str, faults)
    yield f"{visible(str(path))}: {_count(len(faults), 'fault')} to mend."


def _audited(path: Path, lesson: Lesson, found: Audited) -> Iterator[str]:
    yield from map(str, found.faults)
    for advice in found.advice:
        yield str(replace(advice, message=f"advice: {advice.message}"))
    if found.faults:
        yield f"{visible(str(path))}: {_count(len(found.faults), 'fault')} to mend."
        return
    advised = f" Advice: {len(found.advice)}." if found.advice else ""
    worked = _count(len(lesson.problems), "problem")
    yield f"{visible(str(path))}: no fault found; {worked} worked out{_tried(found)}.{advised}"


def _tried(found: Audited) -> str:
    if not found.tried:
        return ""
    if found.every:
        return f" with all {_count(found.tried, 'draw')}"
    return f", {found.tried} of up to {found.draws:,} draws tried (more: --thorough)"


def _count(number: int, thing: str) -> str:
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"


# -- draws -----------------------------------------------------------------------------------


def print_draws(paths: Sequence[Path], out: IO[str]) -> int:
    """Print for each problem the numbers it may be drawn with and their answers; returns 0 or 2."""
    code = OK
    for number, path in enumerate(paths):
        if number:
            print(file=out)
        lesson, faults = load_lesson(path)
        if lesson is None:
            code = UNREADABLE
            for row in _unread(path, faults):
                print(row, file=out)
            continue
        for at, problem in enumerate(lesson.problems, 1):
            if at > 1:
                print(file=out)
            print(f"{at}  {visible(problem.name)}", file=out)
            rows = list(draw_rows(problem, MOST_DRAWS, WIDTH - 3))
            for row in rows or ["its numbers do not vary"]:
                print(f"   {row}".rstrip(), file=out)
    return code


# -- layout ----------------------------------------------------------------------------------


def tidy_files(paths: Sequence[Path], out: IO[str]) -> int:
    """Rewrite each lesson in the standard layout, whole or not at all; returns 0, or 2 where one is left.

    A lesson with faults is left as it is.
    """
    code = OK
    for path in paths:
        lesson, faults = load_lesson(path)
        if lesson is None:
            code = UNREADABLE
            for row in _unread(path, faults):
                print(row, file=out)
            print(f"{visible(str(path))}: left as it is.", file=out)
            continue
        said = _tidy(path, lesson)
        if said is not None:
            code = UNREADABLE
        print(f"{visible(str(path))}: {said or 'in the standard layout.'}", file=out)
    return code


def _tidy(path: Path, lesson: Lesson) -> str | None:
    """Lay one lesson out anew; returns why it was left as it is, None where all is well."""
    text = tidied(lesson.text)
    again, _faults = read_lesson(text, str(path), path.parent)
    if again is None or _meaning(again) != _meaning(lesson):
        return "left as it is: laid out anew it would mean something else. Please tell us."
    data = text.encode("utf-8")
    try:
        if path.read_bytes() != data:
            _put(path, data)
    except OSError:
        return "left as it is: it could not be written here. May the file and its folder be written to?"
    return None


def _meaning(lesson: Lesson) -> object:
    """Return all that a lesson says, without the lines where it stands."""
    keys = tuple(problem.template.key for problem in lesson.problems if problem.template)
    problems = tuple(replace(problem, line=0) for problem in lesson.problems)
    return keys, replace(lesson, problems=problems, text="", fingerprint="", review=None)


def _put(path: Path, data: bytes) -> None:
    """Write a file whole or not at all: beside it first, then in its place. Raises OSError."""
    target = path.resolve()
    mode = target.stat().st_mode
    handle, name = tempfile.mkstemp(prefix=".tidy-", dir=target.parent)
    beside = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        beside.chmod(mode & 0o777)
        beside.replace(target)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise
