"""A small class for the tests of the teacher's commands: a lesson, students who work, a cheat.

A test module that names it in ``pytest_plugins`` has its fixtures.
"""

import contextlib
import io
import sqlite3
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from tutor.lesson.model import Lesson
from tutor.lesson.reader import load_lesson
from tutor.record.desk import Desk, open_desk
from tutor.record.hand_in import hand_in
from tutor.record.place import record_path
from tutor.record.store import open_store
from tutor.teacher.handed_in import HandedIn, read_handed_in
from tutor.teacher.report import print_report

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


def handed_in_once(
    factory: pytest.TempPathFactory, name: str, text: str, students: Mapping[str, Callable[[Desk], object]]
) -> dict[str, bytes]:
    """Return the files that students hand in, by their codes: each line waits for the disk, so once will do.

    ``name`` and ``text`` are those of the lesson's file.
    """
    place = factory.mktemp("once")
    lesson = place / name
    lesson.write_text(text, encoding="utf-8")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("EVENLINE_HOME", str(place / "home"))
        return {code: student(code, lesson, place, work).read_bytes() for code, work in students.items()}


def taken(path: Path, lesson: Path) -> HandedIn:
    """Return a file as the teacher's program reads it."""
    handed, sentence = read_handed_in(path, read(lesson))
    assert handed is not None, sentence
    return handed


def reported(lesson: Path, *files: Path) -> tuple[int, str, str]:
    """Return the exit code of a report, the report, and what was said beside it."""
    out, err = io.StringIO(), io.StringIO()
    return print_report(lesson, files, out, err), out.getvalue(), err.getvalue()


def section(report: str, title: str) -> list[str]:
    """Return the rows of one part of a report."""
    after = report.split(f"\n{title}\n{'=' * len(title)}\n", 1)[1]
    return after.split("\n\n", 1)[0].rstrip().splitlines()


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return the private folder of this test."""
    monkeypatch.setenv("EVENLINE_HOME", str(tmp_path / "home"))
    return tmp_path / "home"


@pytest.fixture
def lesson_file(tmp_path: Path) -> Path:
    """Return a file with ``SMALL``."""
    path = tmp_path / "small.lesson"
    path.write_text(SMALL, encoding="utf-8")
    return path


@pytest.fixture
def kinds(tmp_path: Path) -> Path:
    """Return a file with ``KINDS``."""
    path = tmp_path / "kinds.lesson"
    path.write_text(KINDS, encoding="utf-8")
    return path


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return the folder to hand in to."""
    made = tmp_path / "handed in"
    made.mkdir()
    return made


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


# One problem of each kind that is worked otherwise than for a value.
KINDS = """\
lesson   One of each
format   1
pi       3.14
correct  fresh numbers

problem  Hoop
  matters  most
  vary     r from 4 to 9 step 0.5
  where    r != 5
  ask      The hoop is C = {C} long. How long is its radius r?
  formula  C = 2 pi r
  given    C = 2 * 3.14 * r cm
  find     r in cm

problem  Strips
  vary     a from 2 to 9
  vary     b from 2 to 9
  vary     x in 3, 4, 6
  ask      So {a}n + {b} = {a x + b}. How large is n?
  equation {a}n + {b} = {a x + b}
  find     n

problem  Faces
  vary     L from 5 to 9
  ask      A box has two sides of 6 cm by {L} and two of 3 cm by {L}.
  piece    front = 6 L
  piece    side = 3 L
  formula  S = 2 front + 2 side
  given    L = {L} cm
  part     How large are front and side?
  part     How large is all the paper S?
  find     S in cm^2

problem  Boxes
  vary     n in 64, 72, 75
  ask      There are {n} candles, 12 in a box. How many boxes b are needed?
  formula  b = n/12
  given    n = {n}
  find     b
  round    up to a whole number

problem  Struts
  vary     c in 9, 10, 11
  ask      Can these three struts make a triangle?
  triangle 4 cm, 6 cm, {c} cm

problem  Cut
  ask      A pyramid with a square base is cut flat across. Which shape is the cut?
  choose   triangle, square, circle
  answer   square

problem  Drawn
  ask      Draw the triangle and measure the other parts.
  draw     triangle
  given    a = 6 cm
  given    b = 8 cm
  given    C = 90°
  find     c
  find     A

problem  Round
  word     circumference
  also     perimeter of a circle
  means    the way once round a circle
  near     radius, diameter

problem  Disc
  ask      Write the formula for the area A of a disc.
  formula  A = pi r^2
  write    A

problem  Strip
  ask      A strip is half of the hoop. Why is it πr long?
  formula  C = 2 pi r
  formula  s = C / 2
  show     s = pi r
  reason   The strip is half of the hoop, so half of 2πr.
"""


def problem_at(desk: Desk, name: str) -> int:
    """Return where a problem stands in the student's lesson."""
    return next(at for at, state in enumerate(desk.state.problems) if state.problem.name == name)


def at(desk: Desk, name: str, *texts: str) -> int:
    """Go to a problem and hand lines in."""
    desk.go_to(problem_at(desk, name))
    lines(*texts)(desk)
    return problem_at(desk, name)
