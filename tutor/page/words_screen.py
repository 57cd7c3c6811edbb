"""The study list: the words that were missed and what they mean, as plain text."""

from collections.abc import Sequence
from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content

from tutor.page.frame import Frame
from tutor.page.lettering import cells, fold
from tutor.page.still import Still
from tutor.visible import visible

Word = tuple[str, str]
"""A word and what it means."""

_INDENT = "  "
_MOST = 24  # cells for the words, before their meanings


def study_list(words: Sequence[Word], width: int) -> Content:
    """Return the list in ``width`` cells: each word, its meaning beside it or, where it is long, below."""
    shown = [(visible(word), visible(meaning)) for word, meaning in words]
    column = min(_MOST, max((cells(word) for word, _ in shown), default=0))
    rows = [Content.assemble(("Words to study", "bold $primary"))]
    for word, meaning in shown:
        lead = word + " " * max(0, column - cells(word))
        if cells(word) > column:
            rows.append(Content.assemble(_INDENT, (word, "bold")))
            lead = " " * column
        for row in fold(meaning, max(8, width - column - 5)):
            rows.append(Content.assemble(_INDENT, (lead, "bold"), f"   {row}"))
            lead = " " * column
    told = (
        "A word leaves this list when you have corrected it by yourself."
        if words
        else "There is no word to study: none was missed, or all are corrected."
    )
    return Content("\n").join([*rows, Content(""), *map(Content, fold(told, max(8, width)))])


class WordsScreen(Frame):
    """Covers the shelf, which stays as it is."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "back", "back", id="words.back"),
        Binding("w", "back", "back", id="words.again", show=False),
        Binding("f1", "app.help", "help", id="words.help"),
        Binding("up", "scroll(-1)", "↓ more", id="words.up"),
        Binding("down", "scroll(1)", "more", id="words.down", show=False),
        Binding("pageup", "scroll(-10)", "page up", show=False),
        Binding("pagedown,space", "scroll(10)", "page down", show=False),
    ]

    def __init__(self, words: Sequence[Word]) -> None:
        super().__init__()
        self._words = tuple(words)

    def compose_page(self) -> ComposeResult:
        """Yield the list."""
        with VerticalScroll(id="help", can_focus=False):
            yield Still(id="words")

    def on_resize(self, event: events.Resize) -> None:
        """Fold the meanings anew."""
        self.query_one("#words", Still).show(study_list(self._words, event.size.width - 6))

    def rest(self) -> None:
        """Nothing here takes the focus: the keys scroll."""

    def action_scroll(self, rows: int) -> None:
        """Scroll the list."""
        self.query_one("#help", VerticalScroll).scroll_relative(y=rows, animate=False)

    def action_back(self) -> None:
        """Go back to the shelf."""
        self.dismiss(None)
