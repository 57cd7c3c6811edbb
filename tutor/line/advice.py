"""What to do about writing that is not read: one short sentence for each kind that students type."""

import re
import unicodedata

from tutor.quantity.units import base_unit

_TIMES_OR_POINT = "Write · or * for times, or put the point close to its number."
_FEET = "Write ft for feet and in for inches."
_BAR = "Leave the bar out. Write … behind digits that go on for ever."
_STEPS = "Write each step on a line of its own."

_SIGNS = {
    "!": "I cannot work with “!”. Leave it out, or write the product in full.",
    "∞": "I cannot read “∞”. Write the answer with < or >.",
    "∈": "Write = in the place of “∈”.",
    "←": _STEPS,
    "↔": _STEPS,
    "↦": _STEPS,
    '"': _FEET,
    "'": _FEET,
    "″": _FEET,
    "′": _FEET,
    "“": _FEET,
    "”": _FEET,
    "\\": "I cannot read this code. Write / for a fraction and ^ for a power.",
    ".": _TIMES_OR_POINT,
    "_": "Write ? where a number is still missing.",
    "∠": "Name the angle behind its sign, like ∠A.",
    "\u0305": _BAR,
    "\u0304": _BAR,
    "∝": "Write an equation with = here.",
    "⟌": "Write ÷ or / to divide.",
    "#": "Leave “#” out.",
    "@": "Leave “@” out.",
}

_FUNCTIONS = frozenset({"sin", "cos", "tan", "cot", "sec", "csc", "log", "ln", "exp", "lim"})
_WORDS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
_PARTS = {word: str(number) for number, word in enumerate(_WORDS)}
_PARTS |= {"half": "1/2", "third": "1/3", "thirds": "1/3", "quarter": "1/4", "quarters": "1/4"}
_PARTS |= {"twice": "2 ·", "double": "2 ·", "triple": "3 ·"}
_SPOKEN = {"is": "=", "are": "=", "equal": "=", "equalled": "=", "over": "/", "by": "·", "multiplied": "·"}


def unknown_sign(sign: str) -> str:
    """Return the sentence about a sign that stands in no line of maths."""
    told = _SIGNS.get(sign)
    if told is not None:
        return told
    plain = unicodedata.normalize("NFKC", sign)
    if plain != sign and plain.isascii() and plain.isalnum():
        return f"Write {_POWERED.sub('^', plain)} in the place of “{sign}”."  # one sign for cm²
    if unicodedata.category(sign) == "So":
        return f"Leave “{sign}” out."
    return f"I cannot read “{sign}” here. Type this part in another way."


_POWERED = re.compile(r"(?<=m)(?=[23]$)")


def is_a_function(word: str) -> bool:
    """Tell whether a name is a function with its base: ``log_2``."""
    return len(word) > 1 and word.rstrip("_0123456789₀₁₂₃₄₅₆₇₈₉").lower() in _FUNCTIONS


def unknown_word(word: str) -> str:
    """Return the sentence about a word that is no name of the problem."""
    low = word.lower()
    if is_a_function(word):
        return f"I cannot work with “{word}”. Write the number that it stands for."
    if low in _SPOKEN:
        return f"Write “{_SPOKEN[low]}” for the word “{word}”."
    if low in _PARTS:
        return f"Write {_PARTS[low]} for the word “{word}”."
    if low in ("abs", "absolute"):
        return "Write bars for the absolute value, like |x|."
    if low == "remainder":
        return REMAINDER
    if base_unit(word) is not None and low != "in":
        return f"Write the number in front of “{word}”."
    return f"I do not know the word “{word}” here. Use the letters of the problem."


def side_by_side(before: str, after: str) -> str:
    """Return the sentence about two numbers with a space between: ``3 4``, ``12 000``."""
    if len(after) == 3 and after.isdecimal() and before.isdecimal() and len(before) <= 3:
        return f"Is this one number? Write {before}{after} without a space."
    return "Two numbers stand side by side. Put a sign between them."


def closes_nothing(sign: str, opened: str) -> str:
    """Return the sentence about a closing bracket. ``opened``: the bracket that is open there, or ""."""
    if opened and opened in _CLOSED_BY:
        return f"Close “{opened}” with “{_CLOSED_BY[opened]}”, not with “{sign}”."
    return "This bracket closes nothing. Leave it out, or open one in front."


_CLOSED_BY = {"(": ")", "[": "]", "{": "}", "|": "|"}


def left_open(sign: str) -> str:
    """Return the sentence about a bracket or bar that is open at the end of the line."""
    what = "bar" if sign == "|" else "bracket"
    return f"This {what} is opened and not closed. Close it with “{_CLOSED_BY[sign]}”."


_LONG = 24  # signs: what is longer is not said in full


def _unclear(written: str) -> str:
    return f"I cannot tell what “{written[:_LONG]}…” means. Write · for times, ^ for a power."


def between_numbers(first: str, name: str, number: str) -> str:
    """Return the sentence about ``2x3``: times, or a power."""
    if len(first + name + number) > _LONG:
        return _unclear(first + name + number)
    return (
        f"I cannot tell what “{first}{name}{number}” means. "
        f"Write {first}·{number} for times, {first}{name}^{number} for a power."
    )


def name_and_number(name: str, number: str, *, unit: bool) -> str:
    """Return the sentence about a number close behind a name: ``x2``, ``cm3``, ``3.2E5``."""
    if unit and number in ("2", "3"):
        return f"Write {name}^{number} for the unit."
    if name in ("E", "e"):
        return f"Write × 10^{number} in the place of “{name}{number}”."
    if len(name + number) > _LONG:
        return _unclear(name + number)
    return (
        f"I cannot tell what “{name}{number}” means. "
        f"Write {number}{name} for times, {name}^{number} for a power."
    )


REMAINDER = "I cannot read a remainder. Write it as a fraction."
INTERVAL = "I cannot read an interval. Write it with < and >."
LIST_ALONE = "I cannot read a list in brackets here. Write with = what each part is."
