"""The app: colours, the keys that are the same everywhere, and which screen is shown.

Nothing heavy is imported here. The shelf is painted first; only then are the rooms that
read lessons, decide lines and keep the record loaded, in the clerk's thread.
"""

import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual.app import App
from textual.binding import Binding, BindingType
from textual.reactive import Reactive
from textual.theme import Theme

from tutor.page.clerk import Clerk
from tutor.page.frame import Frame
from tutor.page.look import EXTRA_COLOURS, LIGHT, THEMES
from tutor.page.shelf_screen import ShelfScreen

if TYPE_CHECKING:
    from tutor.lesson.model import Lesson
    from tutor.page.desk_source import DeskLike, OnShelf, Source

# How long leaving may wait for a line that is still being decided. The line itself is on
# disk already, so no more than its mark can be lost.
_LEAVING = 2.0

_KEY_NAMES = {
    "ctrl+q": "Ctrl+Q",
    "enter": "Enter",
    "escape": "Esc",
    "w": "W",
    **{f"f{n}": f"F{n}" for n in range(1, 13)},
}


class EvenlineApp(App[None]):
    """Opens on the shelf; ``load`` brings the rooms once the shelf is on the screen."""

    TITLE = "Evenline"
    theme: Reactive[str] = Reactive(LIGHT)  # from the start: a change would read the style sheets twice
    CSS_PATH = "page.tcss"
    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("f1", "help", "help", id="app.help", show=False),
        Binding("f8", "colours", "colours", id="app.colours", show=False),
        Binding("ctrl+q", "quit", "stop", id="app.stop", priority=True, show=False),
    ]

    def __init__(self, load: "Callable[[], Source]") -> None:
        super().__init__()
        self.animation_level = "none"  # a page does not glide
        self._load = load
        self._clerk = Clerk()  # the desk's thread: one call at a time
        self._reader = Clerk()  # for what is read and drawn as the student types
        self._source: Source | None = None
        self._lessons: tuple[OnShelf, ...] = ()
        self._shelf = ShelfScreen()

    @property
    def available_themes(self) -> dict[str, Theme]:
        """Our themes and no others, by name."""
        return {theme.name: theme for theme in THEMES}

    def get_theme_variable_defaults(self) -> dict[str, str]:
        """Name our own colours, so that the style sheet can be read under any theme."""
        return EXTRA_COLOURS

    def get_key_display(self, binding: Binding) -> str:
        """Name the keys in the footer as they stand on a keyboard."""
        return _KEY_NAMES.get(binding.key) or super().get_key_display(binding)

    def get_default_screen(self) -> ShelfScreen:
        """Open on the shelf itself: one screen less before the first paint."""
        return self._shelf

    def on_mount(self) -> None:
        """Load the rooms once the shelf is painted."""
        self._shelf.call_after_refresh(lambda: self.run_worker(self._fill_shelf()))

    async def _fill_shelf(self) -> None:
        try:
            self._source = await self._clerk.ask(self._load)
            await self._show_shelf()
            await self._clerk.ask(self._source.warm_up)
        except Exception as bug:
            self._say_bug(bug)

    async def _show_shelf(self) -> None:
        """Read the shelf anew and show it: a lesson may have come, or been worked at."""
        from tutor.page.words import shelf_row

        if self._source is not None:
            self._lessons = await self._clerk.ask(self._source.shelf)
            self._shelf.show_lessons([shelf_row(one) for one in self._lessons])
            words, _ = await self._clerk.ask(self._source.words)
            self._shelf.show_words([(one.word, one.meaning) for one in words])

    def _say_bug(self, bug: Exception) -> None:
        # A bug below must not end in a traceback over a student's page; the log has it in full.
        self.log.error(f"{bug!r}")
        self._shelf.say(
            f"Something inside Evenline went wrong ({type(bug).__name__}). Your work is untouched."
        )

    def on_shelf_screen_chosen(self, event: ShelfScreen.Chosen) -> None:
        """Open the chosen lesson."""
        lesson = self._lessons[event.lesson].entry.lesson
        if lesson is not None and self._source is not None:
            self._shelf.say("Opening the lesson …")
            self.run_worker(self._open(self._source, lesson, event.problem), group="open", exclusive=True)

    async def _open(self, source: "Source", lesson: "Lesson", problem: int | None) -> None:
        def at_problem() -> "tuple[DeskLike | None, str]":
            desk, sentence = source.open(lesson)
            if desk is not None and problem is not None:
                sentence = desk.go_to(problem).sentence or sentence
            return desk, sentence

        try:
            desk, sentence = await self._clerk.ask(at_problem)
            from tutor.page.work_screen import WorkScreen
        except Exception as bug:
            self._say_bug(bug)
            return
        if desk is None:
            self._shelf.say(sentence)
        elif self.screen is self._shelf:
            work = WorkScreen(desk, source.draw, self._clerk, self._reader, sentence)
            await self.push_screen(work, self._back_from_work)

    def _back_from_work(self, _result: None) -> None:
        self.run_worker(self._show_shelf(), exit_on_error=False)

    def action_help(self) -> None:
        """Show the help, once."""
        from tutor.page.help_screen import HelpScreen

        if not isinstance(self.screen, HelpScreen):
            self.push_screen(HelpScreen())

    def action_colours(self) -> None:
        """Turn to the next of our themes."""
        names = [theme.name for theme in THEMES]
        self.theme = names[(names.index(self.theme) + 1) % len(names)]

    async def action_quit(self) -> None:
        """Hand the draft over, then stop."""
        for screen in self.screen_stack:
            if isinstance(screen, Frame):
                screen.leave()
        self.call_later(self.exit)

    def close_down(self) -> None:
        """Let the clerks end and the record go, after the screen is gone."""
        self._reader.dismiss(0)
        if self._clerk.dismiss(_LEAVING) and self._source is not None:
            self._source.close()


def run(shelf_folders: Sequence[Path], code: str) -> int:
    """Run the page for one student until it is left; return the exit code.

    ``shelf_folders`` are searched for lesson files. Where there is no terminal to draw on,
    a sentence on standard error and exit code 2.
    """
    streams = (sys.__stdin__, sys.__stdout__, sys.__stderr__)
    if not all(stream is not None and stream.isatty() for stream in streams):
        print(
            "Evenline's page needs a terminal. For a file of lines use: evenline check FILE", file=sys.stderr
        )
        return 2

    def load() -> "Source":
        from tutor.page.desk_source import Rooms

        return Rooms(shelf_folders, code)

    app = EvenlineApp(load)
    app.run()
    app.close_down()
    return app.return_code or 0
