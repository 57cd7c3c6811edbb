"""Hints on the work screen. The marks and the hints are scripted."""

from pathlib import Path

import pytest
from page_driving import Student, scripted_student
from page_scripted import BROKEN, RIGHT

WARNING = "comes back as a correction"
SHOWN = "│       7.5 = r"


async def three_lines(student: Student) -> None:
    await student.open_lesson()
    await student.enters(*RIGHT[:3])


async def test_the_first_hint_says_where_to_look(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await three_lines(student)
        assert "hint  " not in student.screen
        await student.press("f2")
        rows = student.screen.splitlines()
        at = next(n for n, row in enumerate(rows) if "47.1 = 6.28r" in row)
        assert rows[at + 1].index("~~~~") == rows[at].index("6.28")
        assert "│ hint  Look at the 6.28 beside" in student.screen
        assert student.screen.index("hint  Look") < student.screen.index("▸  4 │")


async def test_the_line_is_shown_after_the_student_was_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await three_lines(student)
        await student.press("f2", "f2")
        assert "hint  Divide both sides by" in student.screen and "Look at the" not in student.screen
        await student.press("f2")
        assert WARNING in student.words and SHOWN not in student.screen
        await student.press("f2")
        assert SHOWN in student.screen and student.box.value == ""
        assert "to correct, line shown" in student.row_with("problem 1 of 2")
        await student.enters(RIGHT[3])
        assert "hint  " not in student.screen
        await student.press("enter")
        assert "A line was shown here" in student.words
        await student.press("enter")
        assert "║" in student.screen


async def test_a_hint_stays_over_a_letter_and_comes_back_with_the_student(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await three_lines(student)
        await student.press("f2", "f2")
        await student.types("47")
        assert "hint  Divide both sides by" in student.screen
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.open_lesson()
        assert "hint  Divide both sides by" in student.screen


async def test_a_correction_with_a_shown_line_is_worked_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with scripted_student(tmp_path, monkeypatch, size=(120, 36)) as student:
        await student.open_lesson()
        await student.enters(*RIGHT[:3], BROKEN, RIGHT[3])
        await student.press("enter", "enter")
        await student.enters(*RIGHT[:3])
        await student.press("f2", "f2", "f2")
        assert "work this correction once more" in student.words
        await student.press("f2")
        await student.enters(RIGHT[3])
        assert "Press Enter to work it once more from the start" in student.words
        await student.press("enter")
        assert "correction 2" in student.screen


async def test_a_long_hint_folds_anew_in_a_smaller_window(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with scripted_student(tmp_path, monkeypatch, size=(120, 36)) as student:
        await three_lines(student)
        await student.press("f2")
        assert "Look at the 6.28 beside the r on the right side." in student.screen
        await student.pilot.resize_terminal(80, 24)
        await student.settle()
        rows = [row.split("│ ")[1] for row in student.screen.splitlines() if "│ " in row]
        at = next(n for n, row in enumerate(rows) if row.startswith("hint  Look at"))
        assert f"{rows[at][6:]} {rows[at + 1].strip()}" == "Look at the 6.28 beside the r on the right side."
