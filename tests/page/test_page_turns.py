"""What happens while a line is being decided, and when something below fails: nothing is lost."""

import asyncio
from pathlib import Path
from typing import NoReturn

import pytest
from page_driving import Gate, scripted_student
from page_scripted import BROKEN, RIGHT

from tutor.page.shelf_screen import ShelfScreen


async def test_keys_are_answered_while_a_line_is_decided(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    gate = Gate()
    async with scripted_student(tmp_path, monkeypatch, before_mark=gate.wait) as student:
        await student.open_lesson()
        gate.close()
        await student.types(RIGHT[0])
        await student.pilot.press("enter")
        await student.pilot.pause(0.05)
        assert "…  1 │ C = 2 pi r" in student.screen
        await student.pilot.press("r", "equals_sign", "7")
        assert student.box.value == "r=7"
        await student.pilot.press("f1")
        await student.pilot.pause()
        assert "The signs in the margin" in student.screen
        await student.pilot.press("escape")
        gate.open()
        await student.settle()
        assert "✓  1 │ C = 2 pi r" in student.screen
        assert student.box.value == "r=7"


async def test_a_line_entered_meanwhile_waits_its_turn(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    gate = Gate()
    async with scripted_student(tmp_path, monkeypatch, before_mark=gate.wait) as student:
        await student.open_lesson()
        gate.close()
        for line in (RIGHT[0], BROKEN, RIGHT[2]):
            await student.types(line)
            await student.pilot.press("enter")
        await student.pilot.pause(0.05)
        assert "47.1 = 6.28r  waits" in student.screen
        gate.open()
        await student.settle()
        assert "✗  2 │ 47.1 = 5.14r" in student.screen
        assert "✓  3 │ 47.1 = 6.28r" in student.screen


async def test_after_an_unread_line_what_was_entered_meanwhile_is_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    gate = Gate()
    async with scripted_student(tmp_path, monkeypatch, before_mark=gate.wait) as student:
        await student.open_lesson()
        gate.close()
        await student.types("47.1 = (6.28r")
        await student.pilot.press("enter")
        await student.types("r = 7.5")
        await student.pilot.press("enter")
        await student.types("half a li")
        gate.open()
        await student.settle()
        assert student.box.value == "47.1 = (6.28r"
        assert "half a li  waits" in student.screen
        assert "r = 7.5  waits" in student.screen
        # An empty box and Enter: the next that waits comes into the box.
        student.box.put("")
        await student.press("enter")
        assert student.box.value == "r = 7.5"
        await student.press("enter")
        assert "✓  1 │ r = 7.5" in student.screen
        assert student.box.value == "half a li"


async def test_keys_pressed_meanwhile_are_done_in_their_turn(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    gate = Gate()
    async with scripted_student(tmp_path, monkeypatch, before_mark=gate.wait) as student:
        await student.open_lesson()
        gate.close()
        await student.types(BROKEN)
        await student.pilot.press("enter", "f3")  # strikes the line that is not marked yet
        await student.types(RIGHT[0])
        await student.pilot.press("enter", "f5")
        gate.open()
        await student.settle()
        assert "problem 2 of 2" in student.screen
        await student.press("f5")
        assert "struck out, first wrong line" in student.words
        assert "✓  2 │ C = 2 pi r" in student.screen


async def test_leaving_in_the_middle_of_a_decision_loses_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    gate = Gate()
    async with scripted_student(tmp_path, monkeypatch, before_mark=gate.wait) as student:
        await student.open_lesson()
        gate.close()
        for line in RIGHT[:2]:
            await student.types(line)
            await student.pilot.press("enter")
        await student.types("half a li")
        await student.pilot.press("escape")
        await student.pilot.pause()
        assert isinstance(student.app.screen, ShelfScreen)  # at once, though nothing is decided
        gate.open()
        await student.settle()
        await student.open_lesson()
        assert "✓  2 │ C = 47.1 cm, r = ?" in student.screen
        assert student.box.value == "half a li"


async def test_leaving_and_coming_back_is_on_the_same_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.open_lesson()
        await student.enters(RIGHT[0])
        await student.types("half a li")
        await student.pilot.press("ctrl+q")
        await asyncio.sleep(0)
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.open_lesson()
        assert "✓  1 │ C = 2 pi r" in student.screen
        assert student.box.value == "half a li"


async def test_a_bug_below_leaves_the_page_and_the_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail() -> NoReturn:
        raise RuntimeError("a bug")

    async with scripted_student(tmp_path, monkeypatch, before_mark=fail) as student:
        await student.open_lesson()
        await student.enters(RIGHT[0])
        assert student.box.value == RIGHT[0]
        assert "Something inside Evenline went wrong" in student.screen


async def test_a_full_disk_is_said_and_the_line_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.open_lesson()
        monkeypatch.setattr(
            "tutor.record.store.Store.write", lambda _self, _work: (None, "The disk is full. Make room.")
        )
        await student.enters(RIGHT[0])
        assert student.box.value == RIGHT[0]
        assert "The disk is full. Make room." in student.screen


async def test_the_row_of_keys_is_true_again_after_fast_hands(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    gate = Gate()
    async with scripted_student(tmp_path, monkeypatch, before_mark=gate.wait) as student:
        await student.open_lesson()
        gate.close()
        await student.types(RIGHT[0])
        await student.pilot.press("enter", "f2", "f2", "f2", "f2", "f2")
        await student.pilot.pause(0.05)
        keys = student.screen.splitlines()[-1]
        assert "F2 hint" in keys and "F7 undo" in keys
        gate.open()
        await student.settle()
        assert "to correct, line shown" in student.screen
        keys = student.screen.splitlines()[-1]
        # A line was shown: no further hint, nothing to undo, but the correction may begin.
        assert "F2 hint" not in keys and "F7 undo" not in keys and "F6 again" in keys
