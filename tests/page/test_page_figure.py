"""The figure beside the question: drawn away from the keys, and only as often as it is seen."""

import asyncio
import threading
from collections.abc import Mapping

from page_scripted import LESSON
from textual.app import App, ComposeResult

from tutor.lesson.model import Problem
from tutor.lesson.reader import read_lesson
from tutor.page.clerk import Clerk
from tutor.page.figure_view import FigureView


async def test_of_many_drawings_asked_for_only_the_last_is_drawn() -> None:
    lesson, problems = read_lesson(LESSON, "hoops.lesson")
    assert lesson is not None, problems
    go_on, begun = threading.Event(), threading.Event()
    drawn: list[str] = []

    def draw(
        _problem: Problem, labels: Mapping[str, str], _columns: int, _rows: int
    ) -> tuple[tuple[str, ...], str]:
        drawn.append(labels["r"])
        begun.set()
        assert go_on.wait(60)
        return (f"r = {labels['r']}",), ""

    clerk = Clerk()
    view = FigureView(draw, clerk)

    class Page(App[None]):
        def compose(self) -> ComposeResult:
            yield view

    try:
        async with Page().run_test(size=(60, 20)) as pilot:
            view.show_figure(lesson.problems[0], {"r": "1"})
            while not begun.is_set():
                await asyncio.sleep(0.01)
            for value in ("2", "3", "4"):
                view.show_figure(lesson.problems[0], {"r": value})
                await pilot.pause()  # the page goes on meanwhile
            assert drawn == ["1"]
            go_on.set()
            await view.workers.wait_for_complete()
            await pilot.pause()
            assert drawn == ["1", "4"]
            assert "r = 4" in str(view.render())
    finally:
        go_on.set()
        clerk.dismiss(5)
