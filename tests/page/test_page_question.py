"""What stands around the work where room is short: a long question, the row at the top, shapes to choose among."""

from pathlib import Path

import pytest
from page_driving import Student, scripted_student, write_lessons

from tutor.lesson.reader import read_lesson
from tutor.page.desk_source import Rooms
from tutor.page.help_screen import help_text

SENTENCE = "Every evening the youngest apprentice walks once round the whole hall to light them. "
LONG = f"""\
lesson   Long questions
format   1

problem  Long
  ask      At first there is a hall. {SENTENCE * 6}At last it is noon.
  figure   rectangle, length L, width W
  formula  P = 2 L + 2 W
  given    L = 30 m
  given    W = 20 m
  find     P in m

problem  Short
  ask      Solve it.
  equation 3x = 12
  find     x
"""

SIZES = [(80, 24), (60, 18), (100, 22)]


def side(student: Student) -> str:
    """Return what stands left of the ruled page, as words."""
    rows = (row.split("│")[0] for row in student.screen.splitlines())
    return " ".join(" ".join(rows).split())


@pytest.mark.parametrize("size", SIZES)
async def test_a_long_question_is_read_with_two_keys(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, size: tuple[int, int]
) -> None:
    folder = write_lessons(tmp_path, LONG)
    async with scripted_student(tmp_path, monkeypatch, folders=[folder], size=size) as student:
        await student.open_lesson()
        assert "At first there is a hall." in side(student)
        assert "At last it is noon." not in side(student)
        assert "▾ PgDn reads on" in student.screen
        await student.types("P = 2")
        for _ in range(12):
            await student.press("pagedown")
        assert "At last it is noon." in side(student)
        assert "▴ PgUp goes back" in student.screen
        await student.types(" L")
        assert student.box.value == "P = 2 L"  # the box is still where keys go
        for _ in range(12):
            await student.press("pageup")
        assert "At first there is a hall." in side(student)


async def test_every_row_of_it_is_seen_on_the_way(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    numbered = " ".join(f"Lantern{n} hangs here." for n in range(60))
    text = LONG.replace(SENTENCE * 6, numbered + " ")
    folder = write_lessons(tmp_path, text)
    async with scripted_student(tmp_path, monkeypatch, folders=[folder]) as student:
        await student.open_lesson()
        seen = side(student)
        while "At last it is noon." not in seen[-900:]:
            before = seen
            await student.press("pagedown")
            seen += " " + side(student)
            assert len(seen) < 60_000 and seen != before
        assert all(f"Lantern{n} " in seen for n in range(60))


async def test_a_question_that_fits_says_nothing_of_keys(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = write_lessons(tmp_path, LONG)
    async with scripted_student(tmp_path, monkeypatch, folders=[folder]) as student:
        await student.open_lesson()
        await student.press("pagedown")
        await student.press("f5")
        assert "Solve it." in side(student)
        assert "PgDn" not in student.screen and "PgUp" not in student.screen
        await student.press("f5")
        assert "At first there is a hall." in side(student)  # from its top again
    assert "PgUp PgDn" in help_text().plain


async def test_a_resized_window_shows_the_whole_question_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = write_lessons(tmp_path, LONG)
    async with scripted_student(tmp_path, monkeypatch, folders=[folder]) as student:
        await student.open_lesson()
        await student.press("pagedown")
        await student.pilot.resize_terminal(140, 44)
        await student.settle()
        assert "At last it is noon." in side(student) and "At first there is a hall." in side(student)
        assert "PgDn" not in student.screen and "PgUp" not in student.screen


# --- the row at the top -------------------------------------------------------------------------

TOP = [
    # name of the problem, matters most, columns, what the row ends with
    ("Hoop", True, 100, "Hoop · problem 1 of 2 · not begun · matters most"),
    ("Hoop", True, 80, "Hoop · problem 1 of 2 · not begun · matters most"),
    ("Candle cut upright", True, 80, "Candle cut upright · problem 1 of 2 · matters most"),
    ("Why the outside angle is a sum", False, 80, "Why the outside angle is a sum · problem 1 of 2"),
    ("Why the outside angle is a sum", True, 80, "Why the outside ang… · problem 1 of 2 · matters most"),
    ("Why the outside angle is a sum", True, 60, "Why the outside angle is a… · problem 1 of 2"),
]


@pytest.mark.parametrize(("name", "matters", "columns", "ending"), TOP)
async def test_a_long_name_leaves_room_for_the_title_of_the_lesson(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str, matters: bool, columns: int, ending: str
) -> None:
    text = LONG.replace("lesson   Long questions", "lesson   Lantern Parade 8: cuts through solids")
    text = text.replace("problem  Long\n", f"problem  {name}\n" + ("  matters  most\n" if matters else ""))
    folder = write_lessons(tmp_path, text)
    async with scripted_student(tmp_path, monkeypatch, folders=[folder], size=(columns, 24)) as student:
        await student.open_lesson()
        row = student.screen.splitlines()[0]
        assert row.endswith(ending)
        assert row.startswith(" Lantern Pa")
        assert "Lantern Parade 8: cuts" in row or columns < 80


# --- the shapes to choose among, below the figure of the cut --------------------------------------


def cut_rows(rows: int, figure: str) -> tuple[str, ...]:
    lesson, faults = read_lesson(
        "lesson   Cuts\nformat   1\n\nproblem  Cut\n  ask      Which shape is the cut?\n"
        f"  figure   {figure}\n  given    a = 12 cm\n  given    h = 20 cm\n"
        "  choose   triangle, square, trapezoid, circle\n  answer   square\n",
        "cuts.lesson",
    )
    assert lesson is not None, faults
    drawn, sentence = Rooms([], "K7").draw(lesson.problems[0], {}, 40, rows)
    assert sentence == "" and len(drawn) <= rows
    return drawn


def test_where_there_is_room_the_shapes_stand_below_the_figure() -> None:
    *figure, letters = cut_rows(24, "pyramid, base a, height h, cut across")
    assert letters.split() == ["A", "B", "C", "D"]
    assert any("a = 12 cm" in row for row in figure)


def test_where_there_is_none_the_cut_has_all_of_it() -> None:
    low = cut_rows(13, "pyramid, base a, height h, cut across")
    assert not any(row.split() == ["A", "B", "C", "D"] for row in low)
    assert len(low) > 9
