"""The text of labels: made safe, measured in cells, cut to a width, written in ASCII.

A label holds what a student typed, so it may hold anything.
"""

import unicodedata

# As many marks as a letter carries in writing; more would grow over the rows above and below.
_MOST_MARKS = 2

# Letters whose width terminals disagree about: a row that holds one may run over its end.
_UNSURE = (
    (0x1160, 0x11FF), (0x2630, 0x2637), (0x268A, 0x268F), (0x302E, 0x302F), (0x3164, 0x3164),
    (0x4DC0, 0x4DFF), (0xD7B0, 0xD7FF), (0xFE00, 0xFE0F), (0xFFA0, 0xFFA0), (0x16FF0, 0x16FF1),
    (0x1D100, 0x1D37F), (0x1F3FB, 0x1F3FF), (0xE0100, 0xE01EF),
)  # fmt: skip

# What the same thing is called on a plain keyboard, as students may type it.
_IN_ASCII = {
    "°": " deg", "²": "^2", "³": "^3", "π": "pi", "√": "sqrt ", "×": "x", "·": "*", "•": "*", "÷": "/",
    "−": "-", "–": "-", "≈": "~", "±": "+-", "≤": "<=", "≥": ">=", "≠": "/=", "½": "1/2", "¼": "1/4",
    "¾": "3/4", "∠": "angle ", "…": "...",
}  # fmt: skip


def clean(text: str) -> str:
    """Return a text on one row, with nothing in it that steers a terminal or a page.

    Line breaks and tabs become spaces, runs of spaces become one. Control characters, marks
    of writing direction, invisible joiners, lone surrogates and unassigned code points are
    dropped, and so are letters whose width terminals disagree about.
    """
    cleaned = _cleaned_once(text)
    # What was dropped may have kept a letter and a mark apart that are one letter now.
    while (again := _cleaned_once(cleaned)) != cleaned:
        cleaned = again
    return cleaned


def _cleaned_once(text: str) -> str:
    kept: list[str] = []
    marks = _MOST_MARKS  # a mark with no letter before it is dropped
    for letter in unicodedata.normalize("NFC", " ".join(text.split())):
        if unicodedata.category(letter)[0] == "C" or _is_unsure(letter):
            continue
        marks = marks + 1 if _cells(letter) == 0 else 0
        if marks <= _MOST_MARKS and (kept or marks == 0):
            kept.append(letter)
    return "".join(kept).strip()


def cell_width(text: str) -> int:
    """Return how many cells of a terminal a cleaned text takes."""
    return sum(_cells(letter) for letter in text)


def cut(text: str, cells: int, *, ending: str = "…") -> str:
    """Return a cleaned text no wider than ``cells``, with ``ending`` in the place of what was cut."""
    if cell_width(text) <= cells:
        return text
    room = cells - cell_width(ending)
    if room < 0:
        return ""
    kept, used = [], 0
    for letter in text:
        used += _cells(letter)
        if used > room:
            break
        kept.append(letter)
    return "".join(kept).rstrip() + ending


def in_ascii(text: str) -> str:
    """Return a cleaned text in ASCII, signs of the trade in words, other letters as ``?``."""
    written: list[str] = []
    for letter in text:
        if letter.isascii() or letter in _IN_ASCII:
            written.append(_IN_ASCII.get(letter, letter))
        elif _cells(letter):
            base = unicodedata.normalize("NFKD", letter)[0]
            written.append(base if base.isascii() else "?")
    return " ".join("".join(written).split())


def _cells(letter: str) -> int:
    if unicodedata.category(letter)[0] == "M":
        return 0
    return 2 if unicodedata.east_asian_width(letter) in {"W", "F"} else 1


def _is_unsure(letter: str) -> bool:
    return any(first <= ord(letter) <= last for first, last in _UNSURE)
