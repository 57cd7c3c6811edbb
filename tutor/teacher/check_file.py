"""Marking a plain text file of lines, without a screen."""

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import IO

from tutor.figure.lettering import cell_width
from tutor.marking.progress import StepState
from tutor.marking.task import AnyTask, Task
from tutor.marking.verdict import Mark, UnitsState, Verdict
from tutor.marking.work import Work, begin
from tutor.marking.working import Working, mark_lines
from tutor.teacher.folding import folded
from tutor.teacher.head_lines import read_head
from tutor.visible import visible

MAX_BYTES = 1_000_000
MAX_LINES = 400
MAX_LINES_OF_OTHERS = 60  # of a kind that is not solved for a value
STRUCK = "~"
_SAID_WIDTH = 68

_SIGNS = {
    Verdict.FOLLOWS: "ok",
    Verdict.ROUNDS: "ok≈",
    Verdict.RESTATES: "ok=",
    Verdict.LEAPS: "ok»",
    Verdict.BREAKS: "✗",
    Verdict.CARRIES: "(✗)",
    Verdict.UNDECIDED: "?",
    Verdict.UNREAD: "??",
    Verdict.NOTE: "·",
}


def check_file(name: str, out: IO[str], err: IO[str]) -> int:
    """Mark a file (``-``: standard input).

    Returns 0; 1 where a line broke, struck out or not, as in ``first_wrong`` and in a student's
    record; 2 where nothing broke and a line that is not struck out, or the file, cannot be read.
    """
    text, problem = _text_of(name)
    if problem:
        print(problem, file=err)
        return 2
    task, lines, struck, problem = read_work(text)
    if problem:
        print(f"{visible(name)}: {problem}", file=err)
        return 2
    working = _marked(task, lines, struck)
    for row in told(working):
        print(row, file=out)
    return _code(working)


def _marked(task: AnyTask, lines: Sequence[str], struck: frozenset[int]) -> Work:
    """Mark all lines at once; those of the other kinds, which are few, one by one."""
    work = begin(task)
    if isinstance(work, Working):
        return mark_lines(work.task, lines, struck)
    for at, line in enumerate(lines):
        work = work.submit(line)
        if at in struck:
            work = work.strike(at)
    return work


def _code(working: Work) -> int:
    if working.progress.first_wrong is not None:
        return 1
    return 2 if any(line.mark.verdict is Verdict.UNREAD and not line.struck for line in working.lines) else 0


def _text_of(name: str) -> tuple[str, str]:
    try:
        raw = sys.stdin.buffer.read(MAX_BYTES + 1) if name == "-" else _start_of(Path(name))
    except FileNotFoundError:
        return "", f"There is no file {visible(name)}. Look at its name and its folder."
    except IsADirectoryError:
        return "", f"{visible(name)} is a folder. Name a text file."
    except ValueError:  # a name with a NUL in it
        return "", f"{visible(name)} is no name of a file."
    except OSError as problem:
        return "", f"{visible(name)} cannot be opened ({problem.strerror or problem}). May you read it?"
    if len(raw) > MAX_BYTES:
        return "", f"{visible(name)} is larger than {MAX_BYTES:,} bytes. A file of lines is much smaller."
    if b"\0" in raw:
        return "", f"{visible(name)} is not a text file. Save the lines as plain text."
    try:
        return raw.decode("utf-8-sig"), ""
    except UnicodeDecodeError as problem:
        return "", f"{visible(name)} is not UTF-8 at byte {problem.start + 1}. Save it as UTF-8 text."


def _start_of(path: Path) -> bytes:
    if path.is_dir():
        raise IsADirectoryError
    with path.open("rb") as file:
        return file.read(MAX_BYTES + 1)


def read_work(text: str) -> tuple[AnyTask, list[str], frozenset[int], str]:
    """Read head lines and lines of work; the last value is "" or what is wrong."""
    # Not splitlines: that would also cut at control signs, which belong to the line they stand in.
    rows = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    task, used, problem = read_head(rows)
    lines: list[str] = []
    struck: set[int] = set()
    for row in rows[used:]:
        if not row.strip():
            continue
        if row.lstrip().startswith(STRUCK):
            struck.add(len(lines))
            row = row.lstrip()[len(STRUCK) :].strip()
        lines.append(row)
    if not problem and not lines:
        problem = "there are no lines to mark in it. Write the lines of a solution, one under the other."
    solved = isinstance(task, Task) and not task.lengths and not task.goals
    most = MAX_LINES if solved else MAX_LINES_OF_OTHERS
    if not problem and len(lines) > most:
        problem = f"there are more than {most} lines in it. Mark one piece of work at a time."
    return task, lines, frozenset(struck), problem


def told(working: Work) -> list[str]:
    """Return the marked lines as rows: sign, number, line; reasons indented below."""
    rows: list[str] = []
    for number, line in enumerate(working.lines, start=1):
        gone = "  (struck out)" if line.struck else ""
        rows.append(f"{_SIGNS[line.mark.verdict]:>4} {number:>3}  {visible(line.text)}{gone}")
        rows += [" " * 10 + row for row in _under(line.mark, line.text)]
    rows.append("")
    rows.append(_closing(working))
    return rows


def _under(mark: Mark, text: str) -> list[str]:
    rows: list[str] = []
    if mark.span is not None and mark.verdict in (Verdict.BREAKS, Verdict.UNREAD):
        start, end = mark.span
        rows.append(
            " " * cell_width(visible(text[:start])) + "~" * max(1, cell_width(visible(text[start:end])))
        )
    said = mark.message or mark.note
    return [*rows, *folded(visible(said), _SAID_WIDTH)]


def _closing(working: Work) -> str:
    progress = working.progress
    standing = [(at, line.mark.verdict) for at, line in enumerate(working.lines, start=1) if not line.struck]
    broken = [at for at, verdict in standing if verdict is Verdict.BREAKS]
    unread = [at for at, verdict in standing if verdict is Verdict.UNREAD]
    first = progress.first_wrong
    if broken and first is not None:
        said = f"The first wrong line is line {first + 1}."
        return said if first + 1 == broken[0] else f"{said} It is struck out; line {broken[0]} is wrong too."
    if unread:
        return f"Line {unread[0]} could not be read. Write it again, then check once more."
    start = "Nothing broke."
    if first is not None:
        start = f"The first wrong line is line {first + 1}. It is struck out; the rest stands."
    if progress.finished is False:
        return f"{start} The work is not finished yet."
    if progress.units is UnitsState.MISSING:
        return f"{start} The unit of the answer is still missing."
    if progress.finished and not progress.complete:
        return f"{start} {_still_asked_for(working)}"
    return start


def _still_asked_for(working: Work) -> str:
    """Return what a finished piece of work still lacks, by the steps that its head asks for."""
    task, progress = working.task, working.progress
    left = [step.value for step, state in progress.steps if state in (StepState.NEXT, StepState.OPEN)]
    if isinstance(task, Task) and task.sentence:
        return "The sentence that says why is still missing."
    if isinstance(task, Task) and task.check and not progress.answer_checked:
        return "A line that puts the answer back is still missing."
    return f"Still missing: {', '.join(left)}." if left else "Something that is asked for is still missing."
