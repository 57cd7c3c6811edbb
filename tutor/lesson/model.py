"""A lesson as values, and what is wrong with one that cannot be used."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum
from typing import TYPE_CHECKING

from tutor.figure.lettering import cell_width
from tutor.marking.task import AnyTask
from tutor.visible import spelled

if TYPE_CHECKING:
    from tutor.lesson.fresh import Template


class When(Enum):
    """When the marks of a first attempt are shown."""

    LINE_BY_LINE = "line by line"
    HANDED_IN = "when handed in"


class Numbers(Enum):
    """Which numbers a correction is worked on."""

    SAME = "same numbers"
    FRESH = "fresh numbers"


class Missed(Enum):
    """What makes a problem missed, beside a hint that showed a line."""

    BROKEN = "when a line breaks"
    LEFT_BROKEN = "when a broken line is left"


@dataclass(frozen=True, slots=True)
class Settings:
    """How a lesson is worked, as its teacher set it."""

    marks: When = When.LINE_BY_LINE
    corrections: Numbers = Numbers.SAME
    missed: Missed = Missed.BROKEN
    hints: bool = True


@dataclass(frozen=True, slots=True)
class FigurePart:
    """One part of a figure and the name the problem gives it: ``radius r``.

    ``name`` is "" where the part is a word alone, as the ``across`` of a cut.
    """

    role: str
    name: str


@dataclass(frozen=True, slots=True)
class FigureWords:
    """A figure as the lesson writes it: its kind and the named parts."""

    kind: str
    parts: tuple[FigurePart, ...]


@dataclass(frozen=True, slots=True)
class Part:
    """A question of its own inside a problem, and the names that answer it."""

    ask: str
    names: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Meaning:
    """A word of the unit and what it means: what a study list is made of."""

    word: str
    meaning: str


@dataclass(frozen=True, slots=True)
class Problem:
    """One problem. ``ask`` is ready to show: the numbers stand in the place of the braces.

    ``line`` is where the problem begins in the file, from 1; ``path`` is the file of a problem that
    a review took from another lesson, else "". ``parts``: questions in turn, where there is more
    than one. ``matters``: one of those that matter most. ``reason``: for the teacher, the
    sentence that a good "show why" says. ``meaning``: of a problem about a word. ``givens``: what is
    given, name and value, whatever the kind. ``template``: how
    it is written, so that it can be drawn again with fresh numbers; ``numbers`` are those that were
    drawn, name and value, empty where the problem has none to draw.
    """

    name: str
    ask: str
    task: AnyTask
    figure: FigureWords | None
    line: int
    path: str = ""
    parts: tuple[Part, ...] = ()
    matters: bool = False
    reason: str = ""
    meaning: Meaning | None = None
    givens: tuple[tuple[str, str], ...] = ()
    numbers: tuple[tuple[str, str], ...] = ()
    template: Template | None = field(default=None, repr=False, compare=False)


@dataclass(frozen=True, slots=True)
class Review:
    """A mixed set out of other lessons: how many problems, and all that can be taken."""

    count: int
    lessons: tuple[str, ...]
    pool: tuple[Lesson, ...] = field(default=(), repr=False)


@dataclass(frozen=True, slots=True)
class Lesson:
    """A lesson that could be read.

    ``fingerprint`` is the SHA-256 of ``text``, whose line ends are always ``\\n``, so the
    same lesson has the same one on every machine; that of a review covers the lessons it draws
    from. ``problems`` are drawn with the numbers of seed 0, which is nobody's; ``fresh.drawn``
    gives those of a student.
    """

    title: str
    grade: str
    covers: tuple[str, ...]
    problems: tuple[Problem, ...]
    fingerprint: str
    path: str
    text: str
    settings: Settings = Settings()
    review: Review | None = None


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
