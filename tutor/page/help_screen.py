"""Help (F1): what to do, what the signs mean, which keys there are, how to type signs."""

from collections.abc import Iterable
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content

from tutor.marking.verdict import Verdict
from tutor.page.frame import Frame
from tutor.page.lettering import cells
from tutor.page.look import CORRECTION_INK, FIRST_INK, look_of
from tutor.page.still import Still

_HOW = (
    "Write your working one line under the other, as on paper, and press Enter after each line.",
    "Evenline looks whether the line follows from the lines above it and puts a sign in the margin.",
    "A line that does not follow can be struck out and written again. It stays to be seen.",
    "A problem in which a line broke is worked once more from the start before the lesson is done.",
    "So is one in which a hint showed you a line; you are told before it does.",
    "In some lessons the marks come when you hand a problem in (F9), not line by line.",
)

_KEYS = (
    ("Enter", "look at this line; with an empty box: go on"),
    ("↑ ↓", "bring an earlier line back into the box"),
    ("F2", "hint: where to look, then what to do, then the line itself"),
    ("F3", "strike out the last line, or the one you chose"),
    ("F7", "undo: take the last line back, once in each problem"),
    ("F4", "sure: you think the line is right; your teacher looks at it"),
    ("F5", "next problem that is still open"),
    ("F9", "hand the problem in, where the marks come at the end"),
    ("F6", "again: work this problem once more from the start"),
    ("Tab", "choose a line of your work (or click on it); ↑ ↓ move"),
    ("PgUp PgDn", "read a question that is longer than its place"),
    ("F1", "this help"),
    ("W", "on the shelf: the words that you missed, to study them"),
    ("F8", "other colours: paper, slate, high contrast"),
    ("Esc", "out: back to the shelf"),
    ("Ctrl+Q", "stop; everything is kept, also what is in the box"),
)

_VERDICTS = (
    (Verdict.FOLLOWS, "follows from the lines above"),
    (Verdict.ROUNDS, "follows, and was rounded rightly"),
    (Verdict.RESTATES, "says the same as a line above"),
    (Verdict.LEAPS, "follows, but steps that are asked for are left out"),
    (Verdict.BREAKS, "does not follow; the ~~~ show where to look"),
    (Verdict.CARRIES, "right if the broken line above were right"),
    (Verdict.UNDECIDED, "could not be decided; not counted as wrong"),
    (Verdict.UNREAD, "could not be read; the line is still in the box"),
    (Verdict.NOTE, "words only; kept, not judged"),
)

_TYPING = (
    ("times", "3 * 4   3 × 4   3(4)   or nothing: 3x"),
    ("divided, fractions", "84 / 2   84 ÷ 2   1/2   3 1/2"),
    ("powers", "r^2 or r²      cm^3 or cm³"),
    ("roots", "sqrt(81) or √81"),
    ("π", "pi or π"),
    ("degrees", "37 deg or 37°"),
    ("not known yet", "r = ?"),
    ("two answers", "A = 35 and B = 55      x = 4 or x = -4"),
    ("about", "≈ or ~="),
    ("not less, not more", ">= or ≥      <= or ≤"),
)


def help_text() -> Content:
    """Return the whole page of help."""
    inks = (
        (FIRST_INK.upright, f"margin of the {FIRST_INK.word}"),
        (CORRECTION_INK.upright, f"margin of the {CORRECTION_INK.word}"),
        ("…", "is being looked at, or waits for its turn"),
        ("~~~", "under the part of the line that is meant"),
    )
    signs = [(look_of(verdict).sign, meaning) for verdict, meaning in _VERDICTS]
    blocks = [
        _block("How it goes", map(Content, _HOW)),
        _block("The signs in the margin", _table([*signs, *inks])),
        _block("Keys", _table(_KEYS)),
        _block("How to type it", _table(_TYPING)),
    ]
    return Content("\n\n").join(blocks)


def _block(title: str, rows: Iterable[Content]) -> Content:
    return Content("\n").join([Content.assemble((title, "bold $primary")), *rows])


def _table(pairs: Iterable[tuple[str, str]]) -> list[Content]:
    rows = list(pairs)
    width = max(cells(name) for name, _ in rows)
    return [
        Content.assemble("  ", (name + " " * (width - cells(name)), "bold"), f"   {text}")
        for name, text in rows
    ]


class HelpScreen(Frame):
    """Covers the page; the page behind it stays as it is."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,f1", "back", "back", id="help.back"),
        Binding("up", "scroll(-1)", "↓ more", id="help.up"),
        Binding("down", "scroll(1)", "more", id="help.down", show=False),
        Binding("pageup", "scroll(-10)", "page up", show=False),
        Binding("pagedown,space", "scroll(10)", "page down", show=False),
    ]

    def compose_page(self) -> ComposeResult:
        """Yield the text."""
        with VerticalScroll(id="help", can_focus=False):
            yield Still(help_text())

    def rest(self) -> None:
        """Nothing here takes the focus: the keys scroll."""

    def action_scroll(self, rows: int) -> None:
        """Scroll the text."""
        self.query_one("#help", VerticalScroll).scroll_relative(y=rows, animate=False)

    def action_back(self) -> None:
        """Go back to the page."""
        self.dismiss(None)
