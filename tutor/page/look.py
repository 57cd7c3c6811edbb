"""The look of the page: our colours, and the sign and word of each verdict and each ink.

Colour never carries a meaning alone: every state has a sign and, where it matters, a word.
"""

from dataclasses import dataclass
from typing import assert_never

from textual.theme import Theme

from tutor.marking.verdict import Verdict

LIGHT = "evenline-paper"
DARK = "evenline-slate"
CONTRAST = "evenline-contrast"

# Every theme names these beside Textual's own colours; the style sheet uses nothing else.
EXTRA_COLOURS = {
    "ruling": "#c9d6e2",  # the ruled lines of the paper
    "margin-line": "#d98a8a",  # the margin's upright line
    "first-ink": "#1f4e8c",  # what is written at the first attempt
    "second-ink": "#7a3b8f",  # what is written in the correction
    "quiet": "#66615a",  # remarks that may be passed over
    "chosen": "#e6dcc2",  # the line that is selected
}

THEMES = (
    Theme(
        name=LIGHT,
        primary="#1f4e8c",
        secondary="#7a3b8f",
        accent="#8a5a00",
        foreground="#26231e",
        background="#f7f3e8",
        surface="#f7f3e8",
        panel="#ece5d3",
        success="#1f6b3a",
        warning="#8a5a00",
        error="#a8201a",
        dark=False,
        variables={**EXTRA_COLOURS, "footer-key-foreground": "#1f4e8c"},
    ),
    Theme(
        name=DARK,
        primary="#9cc4e8",
        secondary="#d7b0e6",
        accent="#e6c27a",
        foreground="#e6e4da",
        background="#1f2a2b",
        surface="#1f2a2b",
        panel="#2a3839",
        success="#8fd6a0",
        warning="#e6c27a",
        error="#ff9d8f",
        dark=True,
        variables={
            "ruling": "#33474a",
            "margin-line": "#8a5551",
            "first-ink": "#e6e4da",
            "second-ink": "#d7b0e6",
            "quiet": "#a3aca6",
            "chosen": "#37494b",
            "footer-key-foreground": "#e6c27a",
        },
    ),
    Theme(
        name=CONTRAST,
        primary="#ffffff",
        secondary="#ffff00",
        accent="#ffff00",
        foreground="#ffffff",
        background="#000000",
        surface="#000000",
        panel="#000000",
        success="#00ff66",
        warning="#ffff00",
        error="#ff8080",
        dark=True,
        text_alpha=1.0,
        variables={
            "ruling": "#5a5a5a",
            "margin-line": "#ffffff",
            "first-ink": "#ffffff",
            "second-ink": "#00ffff",
            "quiet": "#e0e0e0",
            "chosen": "#303060",
            "footer-key-foreground": "#ffff00",
        },
    ),
)


@dataclass(frozen=True, slots=True)
class Look:
    """How a verdict is shown in the margin: one cell of sign, a word, and a colour."""

    sign: str
    word: str
    style: str


def look_of(verdict: Verdict) -> Look:
    """Return the sign, word and colour of a verdict."""
    match verdict:
        case Verdict.FOLLOWS:
            return Look("✓", "follows", "$success")
        case Verdict.ROUNDS:
            return Look("≈", "rounded", "$success")
        case Verdict.RESTATES:
            return Look("=", "same as before", "$success")
        case Verdict.LEAPS:
            return Look("»", "steps left out", "$success")
        case Verdict.BREAKS:
            return Look("✗", "does not follow", "$error")
        case Verdict.CARRIES:
            return Look("↳", "goes on from ✗", "$warning")
        case Verdict.UNDECIDED:
            return Look("?", "not decided", "$warning")
        case Verdict.UNREAD:
            return Look("!", "not read", "$warning")
        case Verdict.NOTE:
            return Look('"', "note", "$quiet")
        case _:
            assert_never(verdict)


@dataclass(frozen=True, slots=True)
class Ink:
    """One of the two inks: a word, the upright line of the margin, and a colour."""

    word: str
    upright: str
    style: str


FIRST_INK = Ink("first attempt", "│", "$first-ink")
CORRECTION_INK = Ink("correction", "║", "$second-ink")


def ink_of(attempt: int) -> Ink:
    """Return the ink of an attempt: 0 is the first, 1 and later are corrections."""
    return FIRST_INK if attempt == 0 else CORRECTION_INK
