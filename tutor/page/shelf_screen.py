"""The shelf: every lesson with how it stands, and the problems of the one that is chosen.

Light on purpose: this is the first thing painted, before any room below is loaded.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.content import Content
from textual.message import Message
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from tutor.page.frame import Frame
from tutor.page.lettering import fold
from tutor.page.still import Still
from tutor.visible import visible

# Cells: the title of a lesson, the left list with all that is round both lists, a usable right list,
# the sign and number before the name of a problem, a scroll bar.
_TITLE, _LESSONS, _NARROWEST, _INDENT, _SCROLL_BAR = 38, 50, 16, 5, 2


@dataclass(frozen=True, slots=True)
class ShelfRow:
    """One lesson on the shelf: ``problems`` is empty and ``sentence`` says why where it cannot be opened."""

    title: str
    phrase: str
    sentence: str
    problems: tuple[str, ...]
    current: int = 0


class ShelfScreen(Frame):
    """Two lists: the lessons, and the problems of the lesson under the cursor."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "open", "open", id="shelf.open", priority=True),
        Binding("up", "row(-1)", "↓ choose", id="shelf.up", priority=True),
        Binding("down", "row(1)", "choose", id="shelf.down", priority=True, show=False),
        Binding("right", "side('problems')", "problems", id="shelf.right", priority=True),
        Binding("left", "side('lessons')", "lessons", id="shelf.left", priority=True),
        Binding("w", "words", "words", id="shelf.words"),
        Binding("f1", "app.help", "help", id="shelf.help"),
        Binding("f8", "app.colours", "colours", id="shelf.colours"),
        Binding("ctrl+q", "app.quit", "stop", id="shelf.stop", priority=True),
    ]

    @dataclass
    class Chosen(Message):
        """A lesson was chosen; ``problem`` is None to go on where the student was."""

        lesson: int
        problem: int | None

    def __init__(self) -> None:
        super().__init__()
        self._rows: tuple[ShelfRow, ...] = ()
        self._words: tuple[tuple[str, str], ...] = ()
        self._side = "lessons"  # the list the keys go to; known before the focus has followed

    def compose_page(self) -> ComposeResult:
        """Yield the heading, both lists and the sentence below."""
        yield Still(Content.assemble((" Evenline", "bold $primary"), "   your lessons"), id="top")
        with Container(id="shelf-body"):
            yield OptionList(id="lessons", markup=False)
            yield OptionList(id="problems", markup=False)
        yield Still(Content("Taking the lessons from the shelf …"), id="say")

    def on_mount(self) -> None:
        """Start in the list of lessons."""
        self.rest()

    @property
    def _lessons(self) -> OptionList:
        return self.query_one("#lessons", OptionList)

    @property
    def _problems(self) -> OptionList:
        return self.query_one("#problems", OptionList)

    def rest(self) -> None:
        """Put the focus into the list of lessons."""
        self._side = "lessons"
        self._lessons.focus()

    def show_lessons(self, rows: Sequence[ShelfRow]) -> None:
        """Show the lessons; the cursor stays on the row it was on."""
        at = self._lessons.highlighted or 0
        self._rows = tuple(rows)
        self._lessons.clear_options()
        self._lessons.add_options([Option(_lesson_option(row)) for row in rows])
        if rows:
            self._lessons.highlighted = min(at, len(rows) - 1)
        self._show_problems()
        self.refresh_bindings()

    def on_resize(self, event: events.Resize) -> None:
        """Fold the names of the problems to the new width."""
        super().on_resize(event)
        at = self._problems.highlighted
        if self._rows and at is not None:
            self._show_problems()
            self._problems.highlighted = min(at, self._problems.option_count - 1)

    def show_words(self, words: Sequence[tuple[str, str]]) -> None:
        """Take the words that are to be studied, each with what it means; the key is there with them."""
        self._words = tuple(words)
        self.refresh_bindings()

    def say(self, sentence: str) -> None:
        """Show a sentence below the lists."""
        self.query_one("#say", Still).show(Content(visible(sentence)))

    @on(OptionList.OptionHighlighted, "#lessons")
    def _show_problems(self) -> None:
        row = self._row
        self._problems.clear_options()
        if row is None:
            self.say("There is no lesson here yet. Ask your teacher where the lessons are.")
            return
        self._problems.add_options(map(Option, self._problem_rows(row)))
        if row.problems:
            self._problems.highlighted = row.current
            self.say("Press Enter to go on with this lesson. → chooses one of its problems.")
        else:
            self.say(row.sentence)

    def _problem_rows(self, row: ShelfRow) -> list[Content]:
        """Fold the problems to the width of their list, or to what a scroll bar leaves of it."""
        room = max(_NARROWEST, self.size.width - _LESSONS)
        folded = [_hanging(problem, room, _INDENT) for problem in row.problems]
        if sum(one.plain.count("\n") + 1 for one in folded) <= self._problems.size.height:
            return folded
        return [_hanging(problem, room - _SCROLL_BAR, _INDENT) for problem in row.problems]

    @property
    def _row(self) -> ShelfRow | None:
        at = self._lessons.highlighted
        return self._rows[at] if at is not None and at < len(self._rows) else None

    @on(OptionList.OptionSelected)
    def _clicked(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self.action_open()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Show only the arrow that leads to the other list, and no key for a list without words."""
        if action == "words":
            return bool(self._words)
        if action != "side":
            return True
        other = "lessons" if self._side == "problems" else "problems"
        return parameters == (other,) and self._problems.option_count > 0

    def action_open(self) -> None:
        """Open the lesson, at the chosen problem if the right list has the focus."""
        row, at = self._row, self._lessons.highlighted
        if row is None or at is None or not row.problems:
            self.app.bell()
            return
        problem = self._problems.highlighted if self._side == "problems" else None
        self.post_message(self.Chosen(at, problem))

    def action_words(self) -> None:
        """Show the words that are to be studied."""
        from tutor.page.words_screen import WordsScreen

        self.app.push_screen(WordsScreen(self._words))

    def action_row(self, step: int) -> None:
        """Move the cursor of the list that has the focus."""
        target = self._problems if self._side == "problems" else self._lessons
        if step < 0:
            target.action_cursor_up()
        else:
            target.action_cursor_down()

    def action_side(self, name: str) -> None:
        """Go over to the other list."""
        self._side = name
        self.query_one(f"#{name}", OptionList).focus()
        self.refresh_bindings()

    def on_descendant_focus(self, event: events.DescendantFocus) -> None:
        """Follow the mouse to the list that was clicked."""
        self._side = event.widget.id or self._side


def _lesson_option(row: ShelfRow) -> Content:
    title = fold(visible(row.title), _TITLE) or ("",)
    if not row.problems:
        named = Content("\n  ").join(map(Content, title))
        return Content.assemble(("! ", "bold"), named, "\n  cannot be opened: see below")
    named = Content("\n  ").join(Content.assemble((part, "bold")) for part in title)
    return Content.assemble("  ", named, f"\n  {row.phrase}")


def _hanging(text: str, width: int, indent: int) -> Content:
    """Return a row folded to ``width`` cells, its further rows under the text behind its sign and number."""
    first, *rest = fold(text[indent:], width - indent) or ("",)
    return Content("\n".join([text[:indent] + first, *(" " * indent + part for part in rest)]))
