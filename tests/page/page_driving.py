"""A student at the page: types, presses keys, reads what the screen shows."""

import contextlib
import threading
from collections.abc import AsyncIterator, Callable, Sequence
from pathlib import Path

import pytest
from page_scripted import LESSON, ScriptedRooms, scripted_reading
from textual.pilot import Pilot

from tutor.page.app import EvenlineApp
from tutor.page.desk_source import Source
from tutor.page.line_box import LineBox
from tutor.page.work_screen import WorkScreen

_NAMES = {" ": "space", "\n": "enter"}


def write_lessons(tmp_path: Path, text: str = LESSON) -> Path:
    """Write one lesson and return its folder."""
    folder = tmp_path / "lessons"
    folder.mkdir(exist_ok=True)
    (folder / "hoop.lesson").write_text(text, encoding="utf-8")
    return folder


class Gate:
    """Holds the scripted marker up until it is opened."""

    def __init__(self) -> None:
        self._open = threading.Event()
        self._open.set()

    def close(self) -> None:
        self._open.clear()

    def open(self) -> None:
        self._open.set()

    def wait(self) -> None:
        assert self._open.wait(20), "the test forgot to open the gate"


class Student:
    """Drives one app through its pilot."""

    def __init__(self, app: EvenlineApp, pilot: Pilot[None]) -> None:
        self.app = app
        self.pilot = pilot

    async def settle(self) -> None:
        """Wait until all that was asked for is on the screen."""
        await self.pilot.pause()
        while not all(worker.is_finished for worker in self.app.workers):
            await self.app.workers.wait_for_complete()
            await self.pilot.pause()

    async def press(self, *keys: str) -> None:
        await self.pilot.press(*keys)
        await self.settle()

    async def types(self, text: str) -> None:
        """Type without waiting for what it leads to."""
        self.box.insert_text_at_cursor(text)
        await self.pilot.pause()

    async def enters(self, *lines: str) -> None:
        for line in lines:
            await self.types(line)
            await self.press("enter")

    async def open_lesson(self) -> None:
        await self.press("enter")
        assert isinstance(self.app.screen, WorkScreen)

    @property
    def box(self) -> LineBox:
        return self.app.screen.query_one(LineBox)

    @property
    def screen(self) -> str:
        """The screen as plain rows."""
        screen = self.app.screen
        return "\n".join(strip.text.rstrip() for strip in screen._compositor.render_strips(screen.size))

    @property
    def words(self) -> str:
        """The screen as words, wherever it folds its rows."""
        return " ".join(self.screen.split())

    def row_with(self, text: str) -> str:
        rows = [row for row in self.screen.splitlines() if text in row]
        assert rows, f"{text!r} is not on the screen:\n{self.screen}"
        return rows[0]


def script_reading(monkeypatch: pytest.MonkeyPatch) -> None:
    """Read lines as the script says, at once instead of a moment after the last key."""
    monkeypatch.setattr("tutor.page.reads_as.read_as", scripted_reading)
    monkeypatch.setattr("tutor.page.reads_as._PAUSE", 0.001)


@contextlib.asynccontextmanager
async def student_at(
    load: Callable[[], Source], *, size: tuple[int, int] = (80, 24)
) -> AsyncIterator[Student]:
    """Run the app over a source and wait for its shelf."""
    app = EvenlineApp(load)
    try:
        async with app.run_test(size=size) as pilot:
            student = Student(app, pilot)
            await student.settle()
            yield student
    finally:
        app.close_down()


@contextlib.asynccontextmanager
async def scripted_student(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    *,
    size: tuple[int, int] = (80, 24),
    before_mark: Callable[[], None] = lambda: None,
    folders: Sequence[Path] | None = None,
) -> AsyncIterator[Student]:
    """Run the app with fixed marks over one lesson, the record in a home of this test's own."""
    monkeypatch.setenv("EVENLINE_HOME", str(tmp_path / "home"))
    script_reading(monkeypatch)
    shelf = folders if folders is not None else [write_lessons(tmp_path)]
    async with student_at(lambda: ScriptedRooms(shelf, "K7", before_mark), size=size) as student:
        yield student
