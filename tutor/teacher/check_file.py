"""Marking a plain text file of lines, without a screen."""

import sys
from dataclasses import replace
from pathlib import Path
from typing import IO

from tutor.figure.lettering import cell_width
from tutor.marking.deciding.context import prepare
from tutor.marking.task import Task
from tutor.marking.verdict import Mark, UnitsState, Verdict
from tutor.marking.working import Working, mark_lines
from tutor.quantity.pi import Pi
from tutor.teacher.folding import folded
from tutor.visible import visible

MAX_BYTES = 1_000_000
MAX_LINES = 400
STRUCK = "~"
REMARK = "#"
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
    working = mark_lines(task, lines, struck)
    for row in told(working):
        print(row, file=out)
    return _code(working)


def _code(working: Working) -> int:
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


def read_work(text: str) -> tuple[Task, list[str], frozenset[int], str]:
    """Read head lines and lines of work; the last value is "" or what is wrong."""
    # Not splitlines: that would also cut at control signs, which belong to the line they stand in.
    rows = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    task, used, problem = _head(rows)
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
    if not problem and len(lines) > MAX_LINES:
        problem = f"there are more than {MAX_LINES} lines in it. Mark one piece of work at a time."
    return task, lines, frozenset(struck), problem


def _head(rows: list[str]) -> tuple[Task, int, str]:
    """Read the head lines: all rows above the first that does not begin with a head word.

    A row that begins with # is a remark there, as in a lesson.
    """
    task = Task()
    used = 0
    for number, row in enumerate(rows, start=1):
        word, _, rest = row.strip().partition(" ")
        remark = word.startswith(REMARK)
        if row.strip() and word not in _HEAD_WORDS and not remark:
            break
        used = number
        if remark or not row.strip():
            continue
        changed = _with(task, word, rest.strip())
        if changed is None:
            return task, used, f"line {number}: I cannot read “{visible(row.strip())}”. {_HEAD_WORDS[word]}"
        task = changed
    if task.units and len(task.units) == 1:
        task = replace(task, units=task.units * len(task.find))
    problems = prepare(task)[1]
    if problems:
        return task, used, f"{problems[0].field} {problems[0].index + 1}: {problems[0].message}"
    return task, used, ""


_HEAD_WORDS = {
    "find": "Write the letter to find: find r",
    "formula": "Write an equation: formula C = 2 pi r",
    "given": "Write a name and its value: given C = 47.1 cm",
    "units": "Write one unit: units cm",
    "pi": "Write pi 3.14, pi 22/7 or pi exact.",
    "every_step": "Write every_step alone.",
}


def _with(task: Task, word: str, rest: str) -> Task | None:
    if word == "find":
        names = [name for name in rest.replace(",", " ").split() if name != "and"]
        return replace(task, find=(*task.find, *names)) if names else None
    if word == "formula" and "=" in rest:
        return replace(task, formulas=(*task.formulas, rest))
    if word == "given" and "=" in rest:
        name, _, value = rest.partition("=")
        return replace(task, givens=(*task.givens, (name.strip(), value.strip())))
    if word == "units" and rest:
        return replace(task, units=(*task.units, rest))
    if word == "pi" and rest in {pi.value for pi in Pi}:
        return replace(task, pi=Pi(rest))
    if word == "every_step":
        return replace(task, every_step=True)
    return None


def told(working: Working) -> list[str]:
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


def _closing(working: Working) -> str:
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
    return start
