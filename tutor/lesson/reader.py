"""Lesson text to a Lesson, or to everything that is wrong with it at once."""

import hashlib
from dataclasses import replace
from pathlib import Path

from tutor.lesson.keywords import Keyword
from tutor.lesson.layout import cut
from tutor.lesson.model import Fault, Lesson, Problem
from tutor.lesson.outline import Outline, outline
from tutor.lesson.problems import Defaults, read_pi, read_problem
from tutor.lesson.source import source_of
from tutor.quantity.pi import Pi
from tutor.visible import spelled

FORMAT = "1"
LARGEST = 1_000_000  # bytes of a file, characters of a text
MOST_FAULTS = 40

# Why a file could not be opened, in a teacher's words.
_NO_FILE = "There is no such file. Look at the name and the folder."
_NOT_ALLOWED = "This file may not be read. Ask for permission, or copy it to a folder of your own."
_FOLDER = "This is a folder. Name one lesson file in it."
_NO_LESSON_FILE = "This is not a file that can be read."
_TOO_LARGE = "This file is larger than 1 MB, which no lesson is. Is it the right one?"
_NOT_TEXT = "This is not a text file. A lesson is plain text."
_NOT_UTF8 = "This file is not saved as UTF-8. Save it again with that encoding."
_EMPTY = "This file is empty. A lesson begins with its title."


def load_lesson(path: Path) -> tuple[Lesson | None, tuple[Fault, ...]]:
    """Read a lesson file. Whatever is wrong with the file or its text comes back as faults."""
    name = str(path)
    try:
        if path.is_dir():
            return None, (_whole(name, _FOLDER),)
        if not path.exists():
            return None, (_whole(name, _NO_FILE),)
        if not path.is_file():
            return None, (_whole(name, _NO_LESSON_FILE),)
        with path.open("rb") as file:
            data = file.read(LARGEST + 1)
    except PermissionError:
        return None, (_whole(name, _NOT_ALLOWED),)
    except (OSError, ValueError):  # ValueError: a name with a NUL in it
        return None, (_whole(name, _NO_LESSON_FILE),)
    return _read_bytes(data, name)


def _read_bytes(data: bytes, name: str) -> tuple[Lesson | None, tuple[Fault, ...]]:
    if len(data) > LARGEST:
        return None, (_whole(name, _TOO_LARGE),)
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):  # the mark of UTF-16
        return None, (_whole(name, _NOT_UTF8),)
    if b"\0" in data:
        return None, (_whole(name, _NOT_TEXT),)
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        source = source_of(data.decode("utf-8", "replace"), name)
        before = source_of(data[: error.start].decode("utf-8"), name).text
        return None, (source.fault(min(len(before), len(source.text)), _NOT_UTF8),)
    return read_lesson(text, name)


def read_lesson(text: str, path: str) -> tuple[Lesson | None, tuple[Fault, ...]]:
    """Read the text of a lesson; ``path`` is named in the faults. Never raises for what is in it."""
    if len(text) > LARGEST:
        return None, (_whole(path, _TOO_LARGE),)
    source = source_of(text, path)
    if "\0" in source.text:
        return None, (source.fault(source.text.index("\0"), _NOT_TEXT),)
    if not source.text.strip():
        return None, (_whole(path, _EMPTY, Keyword.LESSON.example),)
    entries, faults = cut(source)
    made = outline(source, entries)
    problems, problem_faults = _problems(made)
    found = [*faults, *made.faults, *_lesson_faults(made), *problem_faults]
    if found:
        return None, _in_order(found)
    return _lesson(made, problems), ()


def _problems(made: Outline) -> tuple[tuple[Problem, ...], list[Fault]]:
    pi, faults = read_pi(made.source, made.lesson)
    defaults = Defaults(pi or Pi.EXACT, made.lesson.one(Keyword.EVERY) is not None)
    problems: list[Problem] = []
    lines: dict[str, int] = {}
    for card in made.problems:
        problem, more = read_problem(made.source, card, defaults)
        faults += more
        name = card.one(Keyword.PROBLEM)
        if name is not None and problem.name in lines:
            faults.append(
                made.source.fault(
                    name.first.start,
                    f"Line {lines[problem.name]} has a problem of this name already.",
                    f"problem  {problem.name} 2",
                )
            )
        lines.setdefault(problem.name, problem.line)
        problems.append(problem)
    return tuple(problems), faults


def _lesson_faults(made: Outline) -> list[Fault]:
    faults: list[Fault] = []
    seen = made.lesson.seen
    if Keyword.LESSON not in seen:
        faults.append(made.source.fault(0, "The lesson has no title.", Keyword.LESSON.example))
    number = made.lesson.one(Keyword.FORMAT)
    if Keyword.FORMAT not in seen:
        faults.append(
            made.source.fault(0, "The lesson does not say how it is written.", Keyword.FORMAT.example)
        )
    elif number is not None and number.first.text != FORMAT:
        faults.append(
            made.source.fault(
                number.first.start,
                f"This lesson is written in format {spelled(number.first.text[:10])}; "
                f"only format {FORMAT} can be read here.",
                Keyword.FORMAT.example,
            )
        )
    if not made.problems:
        faults.append(
            made.source.fault(len(made.source.text), "The lesson has no problem.", Keyword.PROBLEM.example)
        )
    return faults


def _lesson(made: Outline, problems: tuple[Problem, ...]) -> Lesson:
    def text(keyword: Keyword) -> str:
        content = made.lesson.one(keyword)
        return content.first.text if content else ""

    covers = made.lesson.one(Keyword.COVERS)
    written = made.source.text
    return Lesson(
        title=text(Keyword.LESSON),
        grade=text(Keyword.GRADE),
        covers=tuple(code.text for code in covers.parts) if covers else (),
        problems=problems,
        fingerprint=hashlib.sha256(written.encode("utf-8", "surrogatepass")).hexdigest(),
        path=made.source.path,
        text=written,
    )


def _in_order(faults: list[Fault]) -> tuple[Fault, ...]:
    """Return the faults as they come in the file, each place once, and not more than anyone reads."""
    unique = {(fault.line, fault.column, fault.message): fault for fault in faults}
    ordered = sorted(unique.values(), key=lambda fault: (fault.line, fault.column))
    left = len(ordered) - MOST_FAULTS
    if left > 0:
        here = ordered[MOST_FAULTS]
        ordered[MOST_FAULTS:] = [replace(here, message=f"From here on there are {left} more.", instead="")]
    return tuple(ordered)


def _whole(path: str, message: str, instead: str = "") -> Fault:
    return Fault(path, 1, 1, "", message, instead)
