"""Words compared as people write them: without case, articles, hyphens and the s of a plural."""

import re
import unicodedata

_ARTICLE = re.compile(r"(?:an?|the)\s+(?=\S)", re.IGNORECASE)
_BEFORE = re.compile(
    r"(?:(?:so|then|therefore|because)\s*,?\s+)?"
    r"(?:(?:(?:my|the|our)\s+)?(?:answers?|solutions?|choices?|words?)\s*(?:is|are|:|=)\s*"
    r"|(?:it|this|that|they)(?:\s+(?:is|are)|['’](?:s|re))(?:\s+called)?\s+"
    r"|i\s+(?:choose|pick|think)\s+(?:it\s+is\s+|it['’]s\s+)?"
    r"|(?:option|choice|figure|letter)\s+(?=\S))*",
    re.IGNORECASE,
)
_GAPS = re.compile(r"[\s\-‐‑–—_]+")


def trimmed(text: str) -> str:
    """Return what was typed without the spaces and full stops around it."""
    return text.strip().rstrip(".!?").strip()


def without_opening(text: str) -> str:
    """Return an answer without the words that lead to it: "it is …", "the answer is …"."""
    found = _BEFORE.match(text)
    return text[found.end() :] if found is not None else text


def tight(words: str) -> str:
    """Return words without spaces and hyphens."""
    return _GAPS.sub("", words)


def folded(words: str) -> str:
    """Return words without case, accents, spaces, hyphens and an article in front."""
    plain = tight(_ARTICLE.sub("", words.strip(), count=1)).casefold()
    if plain.isascii():
        return plain
    return "".join(sign for sign in unicodedata.normalize("NFD", plain) if not unicodedata.combining(sign))


_ENDINGS = (
    ("ies", "y"),
    ("rtices", "rtex"),
    ("dices", "dex"),
    ("radii", "radius"),
    ("xes", "x"),
    ("shes", "sh"),
    ("ches", "ch"),
    ("sses", "ss"),
    ("uses", "us"),
)


def single(words: str) -> str:
    """Return folded words without the ending of a plural, so that "prisms" and "a prism" are one."""
    plain = folded(words)
    for ending, alone in _ENDINGS:
        if plain.endswith(ending):
            return plain.removesuffix(ending) + alone
    return plain.removesuffix("s") if len(plain) > 3 and not plain.endswith(("ss", "us", "is")) else plain


def cut(words: str, longest: int = 24) -> str:
    """Return words short enough to be quoted."""
    return words if len(words) <= longest else f"{words[: longest - 1].rstrip()}…"


def distance(one: str, other: str, most: int) -> int:
    """Return how many letters are wrong, missing, too many or swapped with their neighbour.

    ``most``: what is more is not counted on, and ``most + 1`` is returned.
    Optimal string alignment; the work is at most the product of both lengths.
    """
    if abs(len(one) - len(other)) > most:
        return most + 1
    before: list[int] = []
    row = list(range(len(other) + 1))
    for at, sign in enumerate(one, start=1):
        last, before, row = before, row, [at]
        for place, against in enumerate(other, start=1):
            best = min(before[place] + 1, row[place - 1] + 1, before[place - 1] + (sign != against))
            swapped = at > 1 and place > 1 and sign == other[place - 2] and one[at - 2] == against
            row.append(min(best, last[place - 2] + 1) if swapped else best)
        if min(row) > most:
            return most + 1
    return min(row[-1], most + 1)
