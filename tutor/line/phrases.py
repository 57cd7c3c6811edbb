"""Words around and instead of mathematics: "so", "no solution", a line of words alone."""

import re

from tutor.line.names import Names
from tutor.line.tree import Phrase
from tutor.quantity.units import CUBE_WORDS, SQUARE_WORDS, base_unit

_BEFORE = re.compile(
    r"\s*(?:(?:and\s+)?(?:so|then|therefore|thus|hence|which\s+gives|that\s+gives|gives|we\s+get|this\s+means|let)"
    r"(?![A-Za-z])\s*[,:]?"
    r"|(?:check|answer|formula|label|labels|substitute|units|solution|step)\s*\d*\s*:"
    r"|∴|⇒|→|⟹|=>(?=\s*[A-Za-z(\d])|✓)\s*",
    re.IGNORECASE,
)
_AFTER = re.compile(
    r"\s*[,;]?\s*(?:because|since|as\s+needed)(?![A-Za-z]).*$|\s*[✓✔☑]\s*$|(?<!\.)\.\s*$|\s+$", re.IGNORECASE
)

_PHRASES = {
    Phrase.NO_SOLUTION: (
        r"(?:there\s+(?:is|are)\s+)?no\s+(?:real\s+)?(?:solutions?|answers?)|none|∅|no\s+(?:such\s+)?numbers?"
        r"|it\s+has\s+no\s+solutions?|impossible"
    ),
    Phrase.ALL_NUMBERS: (
        r"(?:[a-z]\s*(?:=|can\s+be|is)\s*)?(?:all|any|every)\s+(?:real\s+)?(?:numbers?|values?)"
        r"|infinitely\s+many(?:\s+solutions?)?|infinite\s+solutions?|always\s+true|true\s+for\s+(?:all|every)\s+[a-z]"
    ),
    Phrase.YES: r"yes(?:\s*[,.:;]\s*.*)?",
    Phrase.NO: r"no(?:\s*[,.:;]\s*.*)?",
}
_COMPILED = {phrase: re.compile(pattern, re.IGNORECASE) for phrase, pattern in _PHRASES.items()}

_WORD = re.compile(r"[^\W\d_]+")
_MATHS = re.compile(r"[=<>≤≥≠≈+*×·÷/^√²³|±~∠]|(?<!\w)[-−–]\s*\d|\d\s*[-−–]|\w\s*[(\[]|[\\_]")


_A_WORD = re.compile(r"[^\W\d_]{2}")
_NO_BEGINNING = frozenset(" ∴⇒→⟹=✓∅")
_NO_ENDING = frozenset(" .!✓✔☑")


def has_no_words(text: str) -> bool:
    """Tell, quickly, that nothing in a line could be peeled off or be a phrase or a remark.

    Signs alone do that: an arrow in front, a tick behind, ``∅``.
    """
    if not text or text[0] in _NO_BEGINNING or text[-1] in _NO_ENDING:
        return False
    return _A_WORD.search(text) is None


def peel(text: str) -> tuple[int, int]:
    """Return the [start, end) of a line without the words around it."""
    start, end = 0, len(text)
    while (found := _BEFORE.match(text, start)) and found.end() > start:
        start = found.end()
    while start < end and (tail := _AFTER.search(text, start, end)):
        end = tail.start()
    while start < end and text[start] == " ":
        start += 1
    return start, end


def as_phrase(core: str) -> Phrase | None:
    """Return the answer in words that the whole line is, or None."""
    for phrase, pattern in _COMPILED.items():
        if pattern.fullmatch(core.rstrip(" .!")):
            return phrase
    return None


def is_words_alone(core: str, names: Names) -> bool:
    """Tell whether a line is a remark: words that are no names, and no mathematics."""
    if _MATHS.search(core):
        return False
    words = [found[0] for found in _WORD.finditer(core)]
    plain_words = [word for word in words if len(word) >= 3 and not _has_a_use(word, names)]
    if not plain_words:
        return False
    starts_with_number = core[:1].isdecimal() or core[:1] in ".$("
    return not starts_with_number


def _has_a_use(word: str, names: Names) -> bool:
    return (
        names.find(word) is not None
        or names.take_apart(word, after_number=False) is not None
        or base_unit(word) is not None
        or word.lower() in SQUARE_WORDS | CUBE_WORDS | {"sqrt", "cbrt", "root", "abs", "angle"}
    )
