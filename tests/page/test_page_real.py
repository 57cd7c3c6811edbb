"""The page over the real rooms: real marks, real record, the real figure."""

from pathlib import Path

import pytest
from page_driving import Student, student_at, write_lessons
from textual.widgets import Input

from tutor.page.desk_source import Rooms

ONE_PROBLEM = """\
lesson   Lantern Parade: hoops
format   1
grade    7
covers   7.G.B.4
pi       3.14

problem  Hoop
  ask      The hoop of a round lantern is bent from C = {C} of cane. How far is
           the hoop from the middle, r? Use 3.14 for π.
  figure   circle, radius r, circumference C
  formula  C = 2 pi r
  given    C = 47.1 cm
  find     r in cm
"""

WHOLE = ("C = 2 pi r", "C = 47.1 cm", "r = ?", "47.1 = 2 * 3.14 * r", "47.1 = 6.28r", "r = 7.5 cm")
WRONG = "47.1 = 5.14r"
PICTURE = Path(__file__).with_name("page.svg")


def rooms_in(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Rooms:
    monkeypatch.setenv("EVENLINE_HOME", str(tmp_path / "home"))
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setattr(Input, "cursor_blink", False)
    return Rooms([write_lessons(tmp_path, ONE_PROBLEM)], "K7")


async def test_from_the_first_line_to_a_finished_correction(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with student_at(lambda: rooms_in(tmp_path, monkeypatch)) as student:
        await student.open_lesson()
        await student.enters(*WHOLE[:4], WRONG)
        assert "✗  5 │ 47.1 = 5.14r" in student.screen
        assert "~~~" in student.screen
        await student.press("f3")
        await student.enters(*WHOLE[4:])
        assert "✓  7 │ r = 7.5 cm" in student.screen
        await student.press("enter")
        assert "to correct" in student.row_with("problem 1 of 1")
    # The window was closed meanwhile: it goes on where it was.
    async with student_at(lambda: rooms_in(tmp_path, monkeypatch)) as student:
        assert "problem 1 of 1 · 1 to correct" in student.screen
        await student.open_lesson()
        await student.press("enter")
        await student.enters(*WHOLE)
        assert student.screen.count("║") > 6
        await student.press("enter")
        assert "nothing is left to correct" in student.words
        await student.press("escape")
        assert "✓ done" in student.screen


async def test_a_hint_comes_from_the_line_the_student_is_on(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with student_at(lambda: rooms_in(tmp_path, monkeypatch)) as student:
        await student.open_lesson()
        await student.enters(*WHOLE[:5])
        await student.press("f2")
        rows = student.screen.splitlines()
        at = next(n for n, row in enumerate(rows) if "✓  5 │ 47.1 = 6.28r" in row)
        assert rows[at + 1].index("~~~~") == rows[at].index("6.28")
        assert "hint  Look at the 6.28" in student.screen
        await student.press("f2")
        assert "Divide both sides by 6.28." in student.words
        await student.press("f2", "f2")
        assert "│       7.5 = r" in student.screen
        await student.enters("7.5 = r", WHOLE[5])
        assert "✓  7 │ r = 7.5 cm" in student.screen
        await student.press("enter")
        assert "A line was shown here" in student.words
        await student.press("escape")
        assert "✗ 1  Hoop: to correct, line" in student.row_with("Hoop")


async def test_the_picture_of_the_page_is_true(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, request: pytest.FixtureRequest
) -> None:
    """The picture that the README shows is what the page really looks like."""
    async with student_at(lambda: rooms_in(tmp_path, monkeypatch), size=(100, 26)) as student:
        await student.open_lesson()
        await student.enters(*WHOLE[:4], WRONG)
        await student.types("47.1/6.28 = r")
        await student.pilot.pause(0.2)
        await student.settle()
        drawn = _picture(student)
    if request.config.getoption("--snapshot-update"):
        PICTURE.write_text(drawn, encoding="utf-8", newline="\n")
    assert PICTURE.read_text(encoding="utf-8") == drawn


def _picture(student: Student) -> str:
    return "\n".join(row.rstrip() for row in student.app.export_screenshot().splitlines()) + "\n"
