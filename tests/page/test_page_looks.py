"""The looks of the page: one state each, drawn and compared. The marks are scripted."""

from collections.abc import Awaitable, Callable
from pathlib import Path
from typing import TypeAlias

import pytest
from page_driving import Student, script_reading, write_lessons
from page_scripted import BROKEN, LESSON, RIGHT, ScriptedRooms
from textual.pilot import Pilot
from textual.widgets import Input

from tutor.page.app import EvenlineApp

WORDS = """\
lesson   Lantern Parade: words
format   1

problem  Hoop
  word     circumference
  means    the way once round a circle, which is what a hoop of cane is bent along
  near     radius, diameter
"""

Compare: TypeAlias = Callable[..., bool]
Looks: TypeAlias = Callable[..., bool]

SMALL = (80, 24)
LARGE = (120, 36)
BOTH = pytest.mark.parametrize("size", [SMALL, LARGE], ids=["80x24", "120x36"])


@pytest.fixture
def looks(snap_compare: Compare, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Looks:
    """Compare the page after some doings with how it looked before; the cursor stands still."""
    monkeypatch.setenv("EVENLINE_HOME", str(tmp_path / "home"))
    monkeypatch.delenv("NO_COLOR", raising=False)
    script_reading(monkeypatch)
    monkeypatch.setattr(Input, "cursor_blink", False)

    def compare(
        doings: Callable[[Student], Awaitable[None]],
        size: tuple[int, int] = SMALL,
        lesson: str = LESSON,
        theme: str = "evenline-paper",
    ) -> bool:
        folder = write_lessons(tmp_path, lesson)
        app = EvenlineApp(lambda: ScriptedRooms([folder], "K7", lambda: None))

        async def run_before(pilot: Pilot[None]) -> None:
            student = Student(app, pilot)
            await student.settle()
            app.theme = theme
            await doings(student)
            await pilot.pause(0.05)  # the reading comes a moment after the last key
            await student.settle()

        same = snap_compare(app, terminal_size=size, run_before=run_before)
        app.close_down()
        return same

    return compare


async def broken(student: Student) -> None:
    await student.open_lesson()
    await student.enters(*RIGHT[:3], BROKEN)
    await student.types("r = 47.1/6.28")


async def missed(student: Student) -> None:
    await student.open_lesson()
    await student.enters(*RIGHT[:3], BROKEN)
    await student.press("f3")
    await student.enters(RIGHT[3])
    await student.press("enter")


async def correcting(student: Student) -> None:
    await missed(student)
    await student.press("enter")
    await student.enters(*RIGHT[:2])


async def nothing(student: Student) -> None:
    await student.settle()


def test_the_shelf(looks: Looks) -> None:
    """The shelf: one lesson with how it stands, its problems beside it, what to press below."""
    assert looks(nothing)


def test_a_faulty_lesson(looks: Looks) -> None:
    """A lesson file with a mistake: its name, and below a sentence what is wrong in which line."""
    assert looks(nothing, lesson=LESSON.replace("  find     r in cm", "  fnid     r in cm", 1))


@BOTH
def test_an_empty_page(looks: Looks, size: tuple[int, int]) -> None:
    """A fresh problem: question and figure, ruled page, first step next, the box is line 1."""
    assert looks(Student.open_lesson, size)


@BOTH
def test_a_broken_line(looks: Looks, size: tuple[int, int]) -> None:
    """Line 4 broke: ✗, first wrong line, ~~~ under 5.14r, its reason; the next line reads as a fraction."""
    assert looks(broken, size)


def test_an_unread_line(looks: Looks) -> None:
    """An unread line is still in the box, with a caret under the bracket and a sentence."""

    async def unread(student: Student) -> None:
        await student.open_lesson()
        await student.enters(RIGHT[0], "47.1 = (6.28r")

    assert looks(unread)


@BOTH
def test_a_hint(looks: Looks, size: tuple[int, int]) -> None:
    """The first hint: ~~~ under the part of line 3 it speaks of, and a sentence above the box."""

    async def hinted(student: Student) -> None:
        await student.open_lesson()
        await student.enters(*RIGHT[:3])
        await student.press("f2")

    assert looks(hinted, size)


def test_a_line_that_is_shown(looks: Looks) -> None:
    """The third hint: the line itself above the empty box, and what it led to at the foot."""

    async def shown(student: Student) -> None:
        await student.open_lesson()
        await student.enters(*RIGHT[:3])
        await student.press("f2", "f2", "f2", "f2")

    assert looks(shown)


def test_every_sign_of_the_margin(looks: Looks) -> None:
    """Signs: follows, same as before, breaks, goes on from it, not decided, note, rounded, struck out."""

    async def signs(student: Student) -> None:
        await student.open_lesson()
        await student.enters(RIGHT[0], "C = 2 r pi", BROKEN, "r = 9.16", "C = 2 sqrt(pi^2 r^2)")
        await student.enters("I use the hoop rule", "r = 7.50")
        await student.press("f3")

    assert looks(signs)


@BOTH
def test_a_correction(looks: Looks, size: tuple[int, int]) -> None:
    """A correction has a double margin line and its own word; the first attempt stands beside it."""
    assert looks(correcting, size)


def test_a_missed_problem_waits(looks: Looks) -> None:
    """A missed problem: the struck line stays, the row below says how the correction begins."""
    assert looks(missed)


def test_hostile_text(looks: Looks) -> None:
    """Brackets and control characters in a lesson and in a line are shown as they are."""

    async def hostile(student: Student) -> None:
        await student.press("right", "down", "enter")
        await student.enters("[/] [red]r[/red] = [bold")

    assert looks(hostile)


def test_a_window_too_small(looks: Looks) -> None:
    """40 × 12: a sentence in the place of the page."""
    assert looks(broken, (40, 12))


def test_a_narrow_window(looks: Looks) -> None:
    """62 × 20: the question above, the page below, the first attempt at the foot; no figure."""
    assert looks(correcting, (62, 20))


@BOTH
def test_before_the_handing_in(looks: Looks, size: tuple[int, int]) -> None:
    """Lines without any sign, no labels on the figure, nothing of the steps; F9 hands in."""

    async def unmarked(student: Student) -> None:
        await student.open_lesson()
        await student.enters(*RIGHT[:3], BROKEN)
        await student.press("f3")

    late = LESSON.replace("pi       3.14\n", "pi       3.14\nmarks    when handed in\n")
    assert looks(unmarked, size, lesson=late)


def test_the_study_list(looks: Looks) -> None:
    """The words that were missed, each with what it means, in plain text."""

    async def study(student: Student) -> None:
        await student.open_lesson()
        await student.enters(BROKEN, RIGHT[3])
        await student.press("enter", "escape", "w")

    assert looks(study, lesson=WORDS)


def test_help(looks: Looks) -> None:
    """Help: how it goes, the signs."""

    async def ask(student: Student) -> None:
        await student.press("f1")

    assert looks(ask, (80, 40))


@pytest.mark.parametrize("theme", ["evenline-slate", "evenline-contrast"])
def test_other_colours(looks: Looks, theme: str) -> None:
    """The other colours: slate (dark) and high contrast."""
    assert looks(broken, theme=theme)


def test_without_colours(looks: Looks, monkeypatch: pytest.MonkeyPatch) -> None:
    """NO_COLOR: every meaning is still there as a sign or a word."""
    monkeypatch.setenv("NO_COLOR", "1")
    assert looks(missed)
