"""Lines that books print around the mathematics: rules under a sum, what is done to both sides, words."""

import re

from tutor.line.late import Late
from tutor.line.names import Names
from tutor.line.phrases import plain_words

# A rule under a row of numbers, drawn with signs.
_RULE = Late(r"[\s_─━―—–−=⎯-]{3,}")

# "÷4   ÷4" under an equation: what is done to both sides, written under them.
_BOTH = Late(r"([-+−–÷×·*:/])\s*([\w./]+)\s{2,}\1\s*\2|([÷×:/])\s*([\w./]+)\s+\3\s*\4")

# The sides and the denominator by their short names.
_SIDE = r"(?:[LR]\.?\s?H\.?\s?S\.?|[LR]S)"
_SIDES_COMPARED = Late(rf"{_SIDE}\s*[=≠]\s*{_SIDE}", re.IGNORECASE)
_SHORT_NAME = Late(
    r"(?:(?:the|least|lowest|greatest|highest)\s+)*(LC[DM]|GC[FD]|HCF)(?![A-Za-z(]).*", re.IGNORECASE
)
_SIDE_BEFORE = Late(rf"(?:(?<=^)|(?<=[\s,]))({_SIDE})\s*[=:]\s*(?=\S)")
_SIDE_BEHIND = Late(rf"\s*=\s*({_SIDE})\s*(?:\([a-z ]+\))?(?=[\s✓✔.]*$)")
# "LHS = 2 · 4 + 1 = 9, RHS = 9": both are compared.
_OTHER_SIDE = Late(rf"[,;]\s*(?:and\s+)?({_SIDE})\s*=\s*(?=\S)")
_TICK_INSIDE = Late(r"\s*[✓✔☑](?=\s*[,;])")
# "w = −8 (not possible) or w = 5", "w = 5 or w = −8, reject −8"
REJECTED = Late(
    r"\s*[,;.–—-]\s*(?:so\s+)?(?:reject|discard|disregard|omit|ignore)\s+(?:[a-z]\s*=\s*)?[-−–]?\s?[\d./]+\s*$"
    r"|[(\[](?:not\s+(?:possible|valid|allowed)|reject(?:ed)?|impossible|extraneous|inadmissible|invalid)[)\]]",
    re.IGNORECASE,
)

# "−2 is extraneous": a number, and words about it.
_ABOUT_A_NUMBER = Late(
    r"(?:(?:so|but|and|therefore|thus|[∴⇒→])\s*)?(?:[-−–]?[\w./√]{1,12}\s*=\s*)?[-−–]?[\d./√]{1,12}\s+(?:is|are|does|checks?|makes)"
    r"(?:\s+(?:not|an?|the|also|only|really))*\s+([a-z]{4,}(?:\s+[a-z'’-]+)*)[.!]?",
    re.IGNORECASE,
)
_WORD = r"[^\W\d_]+(?:['’.][^\W\d_]+)*"
_WORDS = rf"{_WORD}(?:[\s,-]+(?:{_WORD}|\d+%))*"
_COUNTS = r"(?:\d+(?:st|nd|rd|th)\s+)?"
_SAID = Late(rf"\s*{_COUNTS}{_WORDS}\s*[.!]?")
ENOUGH_WORDS = 3


# "Adding (1) and (2),", "Multiply by the LCD, 12:": what is done, in words.
_DONE = Late(
    r"(?:add|subtract|multipl|divid|substitut|solv|put|us|from|equat|compar|simplif|factor|expand|transpos|tak|squar"
    r"|collect|clear|eliminat|cross|reject|discard|omit)[a-z]*(?![a-z])[^=<>≤≥≈]*",
    re.IGNORECASE,
)


# "Sum = 10, product = 21": what two numbers are looked for.
_LOOKED_FOR = Late(
    r"(?:(?:the\s+)?(?:sum|product|difference|factors?)\s*(?:=|:|is)\s*[-−–+]?\d+\s*(?:[,;]|and)?\s*){2,}",
    re.IGNORECASE,
)
# "7 dimes and 8 quarters": an answer in words, with its numbers.
_COUNTED = r"[$€£]?\d[\d.,]*\s+([a-z]{3,})(?:\s+[a-z]{2,})*"
_COUNTED_THINGS = Late(rf"{_COUNTED}(?:\s*(?:,|and|,\s*and)\s+{_COUNTED})+", re.IGNORECASE)


def is_remark(core: str, names: Names) -> bool:
    """Tell whether a line that holds signs of mathematics says nothing that could be marked."""
    if _RULE.fullmatch(core) and not core.isspace():
        return True
    if _BOTH.fullmatch(core):
        return True
    if _SIDES_COMPARED.fullmatch(core):
        return True
    if _LOOKED_FOR.fullmatch(core):
        return True
    things = _COUNTED_THINGS.fullmatch(core)
    if things is not None and plain_words(core, names):
        return True
    if _DONE.fullmatch(core) and plain_words(core, names):
        return True
    short = _SHORT_NAME.fullmatch(core)
    if short is not None:
        return not _are_names(short[1], names)
    return False


_IS_THE_ANSWER = Late(r"(?:correct\s+|only\s+)?(?:solution|answer|root|correct|true$)", re.IGNORECASE)


_SURELY = Late(
    r"(?<![A-Za-z])(?:extraneous|rejected|invalid|inadmissible|not|negative|impossible|statement)(?![A-Za-z])|\?$",
    re.IGNORECASE,
)


def speaks(text: str, names: Names, *, surely: bool = False) -> bool:
    """Tell whether a line asks (“18 is what percent of 72?”) or speaks about a number: “−2 is extraneous.”

    ``surely``: only where its words can be nothing else, before any of them is taken for a sign.
    """
    text = text.strip()
    if surely and not _SURELY.search(text):
        return False
    if text[-1:] == "?" and _ASKS.search(text) and not _RELATION.search(text):
        return True
    about = _ABOUT_A_NUMBER.fullmatch(text)
    if about is None or not plain_words(about[1], names):
        return False
    return " not " in text or not _IS_THE_ANSWER.match(about[1])


def without_sides(text: str, names: Names) -> str:
    """Blank out “LHS =” and “= RHS”, one sign for one: what is left is compared as it stands."""

    def blank(found: re.Match[str]) -> str:
        return found[0] if _are_names(found[1], names) else " " * len(found[0])

    if len(_SIDE_BEFORE.findall(text)) > 1:
        text = _OTHER_SIDE.sub(
            lambda found: found[0] if _are_names(found[1], names) else "=".rjust(len(found[0])), text
        )
    text = _TICK_INSIDE.sub(lambda found: " " * len(found[0]), text)
    text = REJECTED.sub(lambda found: " " * len(found[0]), text)
    return _SIDE_BEHIND.sub(blank, _SIDE_BEFORE.sub(blank, text))


# "x − y = 4 (2)" and "(2) x − y = 4": an equation and its number, or a product.
_NUMBER_BEFORE = Late(r"\([1-9]\)\s+(?=\S.*[=<>≤≥])")
_NUMBER_BEHIND = Late(r"(?<=\S)\s+(?:\([1-9]\)|\[[1-9]\]|\((i)\))$")


def without_number(text: str, start: int, end: int, names: Names) -> tuple[int, int] | None:
    """Return the place of an equation without the number beside it, None where there is none."""
    before = _NUMBER_BEFORE.match(text, start, end)
    if before is not None:
        return before.end(), end
    behind = _NUMBER_BEHIND.search(text, start, end)
    if behind is None or (behind[1] and names.find("i") is not None):
        return None
    rest = text[start : behind.start()]
    return (start, behind.start()) if any(sign in rest for sign in "=<>≤≥") else None


def _are_names(short: str, names: Names) -> bool:
    letters = [sign for sign in short if sign.isalpha()]
    return names.find("".join(letters)) is not None or all(names.find(letter) for letter in letters)


def is_sentence(core: str, names: Names, *, ends: bool = False) -> bool:
    """Tell, of a line that cannot be read, that it speaks about the work: “2w + 3 = the length”.

    A line with several words that are no names is a sentence too, if it begins with a word or ``ends``
    like a sentence.
    """
    if _ABOUT_A_NUMBER.fullmatch(core) or (ends and _ASKS.search(core)):
        return True
    words = len(plain_words(core, names))
    if words >= ENOUGH_WORDS and (core[0].isalpha() or ends):
        return True
    if words >= 2 and ends and not _RELATION.search(core):
        return True
    left, equals, right = core.partition("=")
    if not equals or _RELATION.search(right):
        return False
    return any(
        _SAID.fullmatch(in_words) is not None
        and bool(plain_words(in_words, names))
        and (len(in_words.split()) > 1 or len(other.strip()) > 1)  # "x = four" is left to be asked about
        and _LETTER_ALONE.search(other) is not None
        for in_words, other in ((left, right), (right, left))
    )


_ASKS = Late(r"(?<![A-Za-z])(?:what|which|how)(?![A-Za-z])", re.IGNORECASE)
_RELATION = Late("[=<>≤≥≠≈]")
_LETTER_ALONE = Late(r"(?<![A-Za-z])[A-Za-z](?![A-Za-z])")
