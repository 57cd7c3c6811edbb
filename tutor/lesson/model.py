"""A lesson as values, and what is wrong with one that cannot be used."""

from dataclasses import dataclass

from tutor.figure.lettering import cell_width
from tutor.marking.task import Task
from tutor.visible import spelled


@dataclass(frozen=True, slots=True)
class FigurePart:
    """One part of a figure and the name the problem gives it: ``radius r``."""

    role: str
    name: str


@dataclass(frozen=True, slots=True)
class FigureWords:
    """A figure as the lesson writes it: its kind and the named parts."""

    kind: str
    parts: tuple[FigurePart, ...]


@dataclass(frozen=True, slots=True)
class Problem:
    """One problem. ``ask`` is ready to show: the numbers stand in the place of the braces.

    ``line`` is where the problem begins in the file, from 1. ``written`` is the ask with
    its braces as the teacher wrote it, "" where it has none.
    """

    name: str
    ask: str
    task: Task
    figure: FigureWords | None
    line: int
    written: str = ""


@dataclass(frozen=True, slots=True)
class Lesson:
    """A lesson that could be read.

    ``fingerprint`` is the SHA-256 of ``text``, whose line ends are always ``\\n``, so the
    same lesson has the same one on every machine.
    """

    title: str
    grade: str
    covers: tuple[str, ...]
    problems: tuple[Problem, ...]
    fingerprint: str
    path: str
    text: str


# How much of a long line is quoted in a fault, in characters.
_QUOTED = 100


@dataclass(frozen=True, slots=True)
class Fault:
    """Something in a lesson to be mended. ``line`` and ``column`` count from 1.

    ``text`` is the line as it stands in the file, ``message`` says what is wrong with it
    and ``instead`` is what to write ("" where there is no one thing to write). A fault of
    the whole file stands at line 1, column 1 with no text.
    """

    path: str
    line: int
    column: int
    text: str
    message: str
    instead: str = ""

    def __str__(self) -> str:
        """Return file:line:column, the line with a caret, and what to write instead."""
        rows = [f"{spelled(self.path)}:{self.line}:{self.column}: {spelled(self.message)}"]
        if self.text.strip():
            number = str(self.line)
            before, after = _window(self.text, self.column - 1)
            rows.append(f"  {number} | {before}{after}")
            rows.append(f"  {' ' * len(number)} | {' ' * cell_width(before)}^")
        if self.instead:
            rows.append(f"  write instead: {spelled(self.instead)}")
        return "\n".join(rows)


def _window(text: str, at: int) -> tuple[str, str]:
    """Return what is quoted of a line before and after a place in it, safe to print."""
    start = max(0, at - _QUOTED * 3 // 4) if len(text) > _QUOTED else 0
    end = start + _QUOTED
    before = ("…" if start else "") + spelled(text[start:at])
    return before, spelled(text[at:end]) + ("…" if end < len(text) else "")
