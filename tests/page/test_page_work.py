"""The work screen: what a student does and sees at one problem. The marks are scripted."""

import re
from pathlib import Path

import pytest
from page_driving import scripted_student, write_lessons
from page_scripted import BROKEN, LESSON, RIGHT
from textual import events

from tutor.page.key_row import KeyRow
from tutor.page.line_row import LineRow
from tutor.page.shelf_screen import ShelfScreen


async def test_a_line_gets_its_sign_and_number(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.open_lesson()
        await student.enters(RIGHT[0], BROKEN)
        assert "✓  1 │ C = 2 pi r" in student.screen
        assert "✗  2 │ 47.1 = 5.14r" in student.screen
        assert student.box.value == ""


async def test_the_first_wrong_line_is_underlined_and_explained(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.open_lesson()
        await student.enters(RIGHT[0], BROKEN)
        rows = student.screen.splitlines()
        at = next(n for n, row in enumerate(rows) if BROKEN in row)
        assert "first wrong line" in rows[at]
        assert rows[at + 1].index("~~~~~") == rows[at].index("5.14r")
        assert rows[at + 1].count("~") == len("5.14r")
        assert "The left side stayed." in rows[at + 2]


async def test_steps_and_labels_follow_the_work(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.open_lesson()
        assert "▸ formula: next" in student.screen
        await student.enters(*RIGHT[:2])
        assert "✓ formula   ✓ label   ▸ substitute: next" in student.screen
        assert "C = 47.1 cm" in student.screen.split("│")[0] + student.row_with("C = 47.1 cm")
        assert "r = ?" in student.screen


async def test_the_reading_stands_below_the_box(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.open_lesson()
        await student.types("47.1/6.28")
        await student.pilot.pause(0.05)
        await student.settle()
        rows = student.screen.splitlines()
        at = next(n for n, row in enumerate(rows) if "reads as" in row)
        assert rows[at].rstrip().endswith("47.1")
        assert "───" in rows[at + 1]
        assert rows[at + 2].rstrip().endswith("6.28")


async def test_an_unread_line_stays_in_the_box_with_a_caret(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.open_lesson()
        await student.enters("47.1 = (6.28r")
        rows = student.screen.splitlines()
        at = next(n for n, row in enumerate(rows) if "47.1 = (6.28r" in row)
        assert student.box.value == "47.1 = (6.28r"
        assert rows[at + 1].index("^") == rows[at].index("(")
        assert "A bracket opens here" in student.screen
        # Mended at the caret, it goes on.
        await student.press("delete", "enter")
        assert "✓  1 │ 47.1 = 6.28r" in student.screen


async def test_a_struck_line_stays_with_a_word(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.open_lesson()
        await student.enters(RIGHT[0], BROKEN)
        await student.press("f3")
        assert "✗  2 │ 47.1 = 5.14r" in student.screen
        assert "struck out, first wrong line" in student.screen
        assert "▸  3 │" in student.screen


async def test_a_chosen_line_is_the_one_struck(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.open_lesson()
        await student.enters(RIGHT[0], BROKEN, RIGHT[2])
        await student.pilot.click(list(student.app.screen.query(LineRow))[1])
        await student.settle()
        assert "▸✗  2 │" in student.screen
        assert "left: nothing changed" in student.screen  # the account of the chosen line
        await student.press("f3")
        assert "struck out" in student.screen
        assert "✓  3 │ 47.1 = 6.28r" in student.screen


async def test_arrows_walk_over_chosen_lines_and_typing_returns_to_the_box(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.open_lesson()
        await student.enters(*RIGHT[:3])
        await student.press("shift+tab")
        assert "▸✓  3 │" in student.screen
        await student.press("up", "up")
        assert "▸✓  1 │" in student.screen
        await student.press("r")
        assert student.box.has_focus
        assert student.box.value == "r"


async def test_up_brings_earlier_lines_back(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.open_lesson()
        await student.enters(*RIGHT[:2])
        await student.press("up")
        assert student.box.value == RIGHT[1]
        await student.press("up", "up")
        assert student.box.value == RIGHT[0]
        await student.press("down")
        assert student.box.value == RIGHT[1]


async def test_undo_puts_the_line_back_into_the_box_once(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.open_lesson()
        await student.enters(BROKEN)
        await student.press("f7")
        assert student.box.value == BROKEN
        assert "✗  1 │" not in student.screen
        await student.press("enter")
        await student.press("f7")  # greyed out now: nothing happens
        assert "✗  1 │" in student.screen


async def test_an_appealed_line_is_flagged(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.open_lesson()
        await student.enters(BROKEN)
        await student.press("f4")
        assert "for the teacher" in student.screen


async def test_a_missed_problem_is_worked_again_beside_the_first_attempt(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with scripted_student(tmp_path, monkeypatch, size=(120, 36)) as student:
        await student.open_lesson()
        await student.enters(*RIGHT[:3], BROKEN)
        await student.press("f3")
        await student.enters(RIGHT[3])
        assert "Press Enter in the empty box" in student.screen
        await student.press("enter")  # closes the attempt
        assert "to correct" in student.row_with("problem 1 of 2")
        assert "Press Enter to begin" in student.screen
        await student.press("enter")  # begins the correction
        assert "being corrected" in student.row_with("problem 1 of 2")
        assert "║ correction" in student.screen
        assert "│ first attempt" in student.screen
        assert "✗  4 │ 47.1 = 5.14r" in student.screen
        assert "struck out, first wrong line" in student.screen
        await student.enters(*RIGHT)
        assert "✓  4 ║ r = 7.5 cm" in student.screen
        await student.press("enter")
        assert "corrected" in student.row_with("problem 1 of 2")


async def test_the_next_problem_and_the_way_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.open_lesson()
        await student.types("half a li")
        await student.press("f5")
        assert "Ring [/] [red] · problem 2 of 2" in student.screen
        assert student.box.value == ""
        await student.press("f5")
        assert student.box.value == "half a li"  # each problem keeps its own draft
        await student.press("escape")
        assert isinstance(student.app.screen, ShelfScreen)


async def test_enter_in_an_empty_box_says_what_to_do(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.open_lesson()
        await student.press("enter")
        assert "The box is empty. Type the next line first." in student.screen


async def test_pasted_lines_come_one_at_a_time(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.open_lesson()
        student.box.post_message(events.Paste("\n".join(RIGHT[:3])))
        await student.settle()
        assert student.box.value == RIGHT[0]
        assert f"{RIGHT[1]}  waits" in student.screen
        await student.press("enter")
        assert student.box.value == RIGHT[1]


async def test_a_huge_paste_is_cut_and_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.open_lesson()
        student.box.post_message(events.Paste("1+" * 5_000_000))
        await student.settle()
        assert len(student.box.value) == 400
        assert "only the beginning was taken" in student.screen


HOSTILE = "[/] [red]x[/red] \x1b[31m \x07 \u202e ] [bold"


async def test_hostile_text_is_shown_as_it_is(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.open_lesson()
        student.box.post_message(events.Paste(HOSTILE))
        await student.settle()
        await student.press("enter")
        assert "✓  1 │ [/] [red]x[/red] ␛[31m ␇ � ] [bold" in student.screen
        await student.press("f5")
        assert "Ring [/] [red]" in student.screen


async def test_a_window_too_small_loses_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.open_lesson()
        await student.enters(RIGHT[0])
        await student.types("half a li")
        await student.pilot.resize_terminal(40, 12)
        await student.settle()
        assert "This window is too small" in student.screen
        assert "C = 2 pi r" not in student.screen
        await student.press("f3", "f5", "x")  # keys do nothing to a page that is not there
        await student.pilot.resize_terminal(80, 24)
        await student.settle()
        assert "✓  1 │ C = 2 pi r" in student.screen
        assert student.box.value == "half a li"
        assert student.box.has_focus


async def test_a_key_is_greyed_where_the_record_does_not_allow_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.open_lesson()
        screen = student.app.screen
        assert screen.active_bindings["f3"].enabled is False
        assert screen.active_bindings["f4"].enabled is False
        assert "f6" not in screen.active_bindings
        await student.enters(BROKEN)
        assert all(screen.active_bindings[key].enabled for key in ("f3", "f4", "f6", "f7"))


async def test_the_mouse_presses_the_keys_of_the_row(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with scripted_student(tmp_path, monkeypatch) as student:
        await student.open_lesson()
        keys = student.screen.splitlines()[-1]
        await student.pilot.click(KeyRow, offset=(keys.index("F5"), 0))
        await student.settle()
        assert "problem 2 of 2" in student.screen


async def test_a_value_in_the_question_stays_on_one_row(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = "A round lantern gets a hoop of cane. Once round, the hoop is C = 47.1 cm long. How long is r?"
    lesson = re.sub(r"  ask .*?(?=  figure)", f"  ask      {asked}\n", LESSON, count=1, flags=re.DOTALL)
    folder = write_lessons(tmp_path, lesson)
    async with scripted_student(tmp_path, monkeypatch, folders=[folder]) as student:
        await student.open_lesson()
        assert "C = 47.1" in student.row_with("47.1 cm long")
        await student.pilot.resize_terminal(62, 20)
        await student.settle()
        assert asked[:50] in student.screen
