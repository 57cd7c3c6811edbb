"""A small class for the tests of the teacher's commands: a lesson, students who work, a cheat."""

import contextlib
import sqlite3
from collections.abc import Callable
from pathlib import Path

from tutor.lesson.model import Lesson
from tutor.lesson.reader import load_lesson
from tutor.record.desk import Desk, open_desk
from tutor.record.hand_in import hand_in
from tutor.record.place import record_path
from tutor.record.store import open_store

SMALL = """\
lesson   Paper and hoops
format   1
pi       3.14

problem  Paper
  ask      Six strips and 15 more are 87. So 6n + 15 = 87.
  equation 6n + 15 = 87
  find     n

problem  Hoop
  ask      The hoop is C = {C} long. How long is its radius r?
  formula  C = 2 pi r
  given    C = 53.38 cm
  find     r in cm
"""


def read(path: Path) -> Lesson:
    lesson, faults = load_lesson(path)
    assert lesson is not None, faults
    return lesson


def student(code: str, lesson_file: Path, folder: Path, work: Callable[[Desk], object]) -> Path:
    """Let a student work and hand in; returns the copy."""
    store, sentence = open_store(record_path(code))
    assert store is not None, sentence
    desk, sentence = open_desk(store, read(lesson_file))
    assert desk is not None, sentence
    work(desk)
    assert hand_in(store, folder).startswith("Your work is handed in")
    store.close()
    return folder / f"{code}.evenline"


def lines(*texts: str) -> Callable[[Desk], object]:
    return lambda desk: [desk.submit(text) for text in texts]


def missed_hoop(desk: Desk) -> None:
    desk.go_to(1)
    lines("C = 2 pi r", "53.38 = 2 * 3.14 * r", "53.38 = 5.14r")(desk)
    desk.strike(2)
    lines("53.38 = 6.28r", "r = 8.5 cm")(desk)
    desk.finish()


def forge(path: Path, *changes: str) -> None:
    """Change a record as a cheat would: the triggers away for a moment, then back."""
    with contextlib.closing(sqlite3.connect(path)) as link:
        triggers = link.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").fetchall()
        for name, _ in triggers:
            link.execute(f"DROP TRIGGER {name}")
        for change in changes:
            assert link.execute(change).rowcount > 0
        for _, sql in triggers:
            link.execute(sql)
        link.commit()
