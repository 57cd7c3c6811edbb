"""Quantities that a line names in words: ``Area of rectangle = 14 × 10``, ``P(red) = 3/8``.

A run of words between two signs is one name. Where the problem has a letter for what the words
name (``radius`` beside an r), that letter is meant. Only lines that cannot be read otherwise come here.
"""

import re

from tutor.line.late import Late
from tutor.line.names import Names
from tutor.line.tree import Expr, Name, Statement
from tutor.line.walk import changed

# Letters of the Greek block that nobody types: one for each run, so that the grammar takes it as a name.
_FILLERS = "ϘϙϚϛϜϝϞϟϠϡϢϣϤϥϦϧϨϩϪϫϬϭϮϯ"
_LETTER = r"[A-Za-zÀ-ÖØ-öø-ÿ]"
_WORD = rf"{_LETTER}+(?:['’.]{_LETTER}+)*\.?"
_SHAPE = "[△▵∆□▭▱○◯⊙⏢]"
_FUNCTION = r"(?<![A-Za-z])(?:[PpNn]\([^()=<>]*[A-Za-z]{2}[^()=<>]*\)|[A-Z]\([a-z]{3,}[a-z ]*\))"
_NUMBERED = r"\d+(?![\d.,]*\s*(?:[-+−–×·*÷/=]|$))"
_RUN = Late(
    rf"{_FUNCTION}|(?<!{_LETTER}){_LETTER}_?(?:{_SHAPE}|[Δ])(?:[A-Z]{{2,4}})?(?![A-Za-z])|(?<![^\W\d_])(?:%\s+)?{_WORD}(?:[\s-]+(?:{_WORD}|{_NUMBERED}|[Δ△∆▵□▭○⊙](?:\s?{_LETTER}+)?))*(?:\s?%)?"
)
_BEFORE = frozenset("=≈<>≤≥≠+−–-×·*/÷([{:")
_BEHIND = frozenset("=≈<>≤≥≠+−–-×·*/÷)]}^²³")

# Words that work as signs: a run of words ends before them.
_SIGNS = Late(
    r"\s+(?:times|plus|minus|equals|is|divided|squared|cubed|multiplied|or|and|so|over|then)(?![A-Za-z])|"
    r"^(?:sqrt|cbrt|root|abs|sin|cos|tan|log|ln|of|times|plus|minus|or|and|so|is|pi|per)(?![A-Za-z])",
    re.IGNORECASE,
)
_JOINS = Late(r"\b(?:sum|difference|product|total|average|mean)\b", re.IGNORECASE)
_AND = Late(r"\s+and(?![A-Za-z])", re.IGNORECASE)

# The letters that school formulas have for a quantity, the likeliest first.
_LETTERS = {
    "area": "A",
    "perimeter": "P",
    "circumference": "C",
    "radius": "r R",
    "diameter": "d D",
    "length": "l L",
    "width": "w W",
    "breadth": "b B",
    "height": "h H",
    "base": "b B",
    "side": "s a",
    "edge": "s a e",
    "volume": "V",
    "base area": "B",
    "area of base": "B",
    "area of the base": "B",
    "surface area": "SA S A",
    "total surface area": "TSA SA S A",
    "lateral surface area": "LSA LA L S",
    "curved surface area": "CSA S A",
    "slant height": "l s",
    "distance": "d D s",
    "speed": "s v r",
    "rate": "r R",
    "time": "t T",
    "mass": "m M",
    "density": "d D ρ",
    "interest": "I",
    "simple interest": "SI I",
    "principal": "P",
    "amount": "A",
}
_NUMBERS = frozenset(
    {
        "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
        "twelve", "twenty", "thirty", "forty", "fifty", "half", "third", "quarter", "hundred", "thousand",
    }
)  # fmt: skip
_ARTICLE = Late(r"^(?:the|a|an|its)\s+", re.IGNORECASE)
_SHAPED = Late(rf"({_LETTER})_?(?:{_SHAPE}|Δ)[A-Z]{{0,4}}")
MAX_RUNS = 12


def is_spoken(name: str) -> bool:
    """Tell whether a name is words and not a letter or an abbreviation that a problem declared."""
    if "_" in name or name[0] == "∠" or name[-1] == "'":
        return False
    return not name.isalpha() or len(name) > 4 or (len(name) > 2 and not name.isupper())


def glued(text: str, start: int, end: int, names: Names) -> tuple[str, Names, dict[str, str]] | None:
    """Return the line with each run of words made one name, sign for sign, names with these, and the words.

    None where a line has no such run, or where words stand that cannot be a name.
    """
    told: dict[str, str] = {}
    fillers: dict[str, str] = {}
    made = list(text)
    for found in list(_RUN.finditer(text, start, end))[:MAX_RUNS]:
        span = _trimmed(text, found.start(), found.end(), start, end, names)
        if span is None:
            continue
        written = " ".join(text[span[0] : span[1]].split())
        filler = fillers.setdefault(written, _FILLERS[len(fillers)])
        coded = filler * (span[1] - span[0])
        made[span[0] : span[1]] = coded
        told[coded] = written
    if not told:
        return None
    return "".join(made), names.joined(told), told


def _trimmed(text: str, start: int, end: int, first: int, last: int, names: Names) -> tuple[int, int] | None:
    """Return the place of the words that are one name, None where they are none."""
    run = text[start:end]
    if "(" not in run and not _SHAPED.fullmatch(run):
        sign = _SIGNS.search(run)
        if sign is not None and _JOINS.search(run[: sign.start()]) and _AND.match(run, sign.start()):
            sign = _SIGNS.search(run, sign.end())
        if sign is not None:
            if sign.start() == 0:
                return None
            end = start + sign.start()
            run = text[start:end]
    run = run.rstrip()
    end = start + len(run)
    run = run.rstrip(".")
    before, behind = text[first:start].rstrip()[-1:], text[end:last].lstrip()[:1]
    if before and before not in _BEFORE:
        return None
    words = re.findall(rf"{_LETTER}+", run)
    if _NUMBERS.issuperset(word.lower() for word in words):
        return None
    if not _names_something(run, words, names):
        return None
    ends = not behind or behind in _BEHIND or _SIGNS.match(" " + text[end:last].lstrip()) is not None
    return (start, end) if ends else None


def _names_something(run: str, words: list[str], names: Names) -> bool:
    if names.find(run) is not None or "(" in run or _SHAPED.fullmatch(run):
        return True
    if len(words) == 1 and run == words[0]:
        known = names.take_apart(run, after_number=False) if len(run) < 5 else None
        return len(run) > 1 and (run.isupper() or len(run) > 2) and (known is None or run.isupper())
    return any(len(word) > 2 for word in words) or "." in run


def meant(written: str, names: Names) -> str:
    """Return the name that words stand for: one of the problem, or the words themselves."""
    shaped = _SHAPED.fullmatch(written)
    if shaped is not None:
        return shaped[1] if shaped[1] in names.known else written
    words = _ARTICLE.sub("", written)
    known = names.find(words) or names.find(words.replace(".", ""))
    if known is not None:
        return known
    low = words.lower()
    letters = _LETTERS.get(low) or _LETTERS.get(low.partition(" of ")[0]) or ""
    fitting = [letter for letter in letters.split() if letter in names.known]
    both = len(fitting) > 1 and fitting[0].lower() == fitting[1].lower()
    if fitting and not both:
        return fitting[0]
    same = [name for name in names.known if name.lower() == low]
    return same[0] if same else words


def named(statement: Statement, told: dict[str, str]) -> Statement:
    """Return a statement with other names in the place of some."""

    def change(node: Expr) -> Expr:
        return Name(told[node.name], node.span) if isinstance(node, Name) and node.name in told else node

    return changed(statement, change)
