"""What to do about writing that is not read: one short sentence for each kind that students type."""

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
_SPOKEN = {"is": "=", "are": "=", "equal": "=", "equalled": "=", "over": "/", "by": "·", "multiplied": "·"}


def unknown_sign(sign: str) -> str:
    """Return the sentence about a sign that stands in no line of maths."""
    return _SIGNS.get(sign) or f"I cannot read “{sign}” here. Type this part in another way."


def unknown_word(word: str) -> str:
    """Return the sentence about a word that is no name of the problem."""
    low = word.lower()
    if low in _FUNCTIONS:
        return f"I cannot work with “{word}”. Write the number that it stands for."
    if low in _SPOKEN:
        return f"Write “{_SPOKEN[low]}” for the word “{word}”."
    return f"I do not know the word “{word}” here. Use the letters of the problem."


def side_by_side(before: str, after: str) -> str:
    """Return the sentence about two numbers with a space between: ``3 4``, ``12 000``."""
    if len(after) == 3 and after.isdecimal() and before.isdecimal() and len(before) <= 3:
        return f"Is this one number? Write {before}{after} without a space."
    return "Two numbers stand side by side. Put a sign between them."


def name_and_number(name: str, number: str, *, unit: bool) -> str:
    """Return the sentence about a number close behind a name: ``x2``, ``cm3``, ``3.2E5``."""
    if unit and number in ("2", "3"):
        return f"Write {name}^{number} for the unit."
    if name in ("E", "e"):
        return f"Write × 10^{number} in the place of “{name}{number}”."
    return (
        f"I cannot tell what “{name}{number}” means. "
        f"Write {number}{name} for times, {name}^{number} for a power."
    )


INTERVAL = "I cannot read an interval. Write it with < and >."
LIST_ALONE = "I cannot read a list in brackets here. Write with = what each part is."
