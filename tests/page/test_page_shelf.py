"""The shelf: the first screen, what stands on it and how a lesson is opened."""

import sqlite3
from pathlib import Path

import pytest
from page_driving import scripted_student, write_lessons
from page_scripted import BROKEN, LESSON, RIGHT

from tutor.page.work_screen import WorkScreen
from tutor.record.place import record_path


async def test_a_lesson_shows_how_it_stands(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        assert "grade 7 · not begun" in student.screen
        assert "· 1  Hoop: not begun" in student.screen
        await student.open_lesson()
        await student.enters(BROKEN, *RIGHT)
        await student.press("f5", "escape")
        assert "problem 2 of 2 · 1 to correct" in student.screen
        assert "✗ 1  Hoop: to correct" in student.screen


async def test_a_problem_can_be_chosen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.press("right", "down", "enter")
        assert isinstance(student.app.screen, WorkScreen)
        assert "problem 2 of 2" in student.screen


async def test_a_lesson_with_a_mistake_is_named_with_a_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = write_lessons(tmp_path, LESSON.replace("  ask ", "  aks "))
    async with scripted_student(tmp_path, monkeypatch, folders=[folder]) as student:
        assert "! hoop.lesson" in student.screen
        assert "cannot be opened" in student.screen
        assert "This lesson has a mistake in line" in student.screen
        assert "tell your teacher" in student.words
        await student.press("enter")
        assert not isinstance(student.app.screen, WorkScreen)


async def test_an_empty_shelf_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    empty = tmp_path / "empty"
    empty.mkdir()
    async with scripted_student(tmp_path, monkeypatch, folders=[empty]) as student:
        assert "There is no lesson here yet" in student.screen


async def test_a_foreign_record_is_a_sentence_and_stays_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("EVENLINE_HOME", str(tmp_path / "home"))
    path = record_path("K7")
    path.parent.mkdir(parents=True, exist_ok=True)
    with sqlite3.connect(path) as link:
        link.execute("CREATE TABLE apples (weight REAL)")
    link.close()
    before = path.read_bytes()
    async with scripted_student(tmp_path, monkeypatch) as student:
        assert "cannot be opened: see below" in student.screen
        assert path.name in student.words.replace(" ", "")
        await student.press("enter")
        assert not isinstance(student.app.screen, WorkScreen)
    assert path.read_bytes() == before


async def test_the_colours_change_with_one_key(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        seen = [student.app.theme]
        for _ in range(3):
            await student.press("f8")
            seen.append(student.app.theme)
        assert seen == ["evenline-paper", "evenline-slate", "evenline-contrast", "evenline-paper"]
        assert set(student.app.available_themes) == set(seen)


async def test_fast_keys_are_taken_in_their_order(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        for key in ("right", "down", "enter"):
            student.app.simulate_key(key)
        await student.settle()
        await student.settle()
        assert "problem 2 of 2" in student.screen


async def test_the_mouse_opens_the_problem_that_is_clicked(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.pilot.click("#problems", offset=(5, 1))
        await student.settle()
        assert "problem 2 of 2" in student.screen
