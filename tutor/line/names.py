"""The names a problem knows, and how a run of letters is taken apart.

``m`` is a length where the problem has one called m, otherwise metres after a
number. Case is folded unless two names differ only by case.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass, field

from tutor.quantity.units import base_unit

# Short words that are never a product of their letters.
_SHORT_WORDS = frozenset(
    {
        "is", "as", "at", "to", "of", "or", "if", "so", "no", "on", "it", "be", "by",
        "an", "my", "me", "we", "do", "go", "he", "up", "us", "mph", "kph", "sin", "cos",
        "tan", "log", "ln", "the", "and", "not", "are", "for", "all", "has", "its", "but", "can",
        "see", "sum", "add", "ans", "per", "gcf", "gcd", "lcm", "hcf", "sq", "cu", "vs", "eg",
        "ie", "nth", "mod", "pct", "div",
    }
)  # fmt: skip
_ANGLE = re.compile(r"(?:m\s*)?(?:∠|angle\s)\s*([A-Za-z]{1,3}|\d{1,2})", re.IGNORECASE)
_VOWELS = frozenset("aeiouAEIOU")
_SUBSCRIPTS = str.maketrans("₀₁₂₃₄₅₆₇₈₉", "0123456789")


def plain(name: str) -> str:
    """Return a name in one writing: ``x₁``, ``x_1`` and ``x1`` are the same name."""
    if name.isalpha():
        return name
    if len(name) == 2 and name.isascii() and name.isalnum() and name[0].isalpha():
        return f"{name[0]}_{name[1]}"
    angle = _ANGLE.fullmatch(name)
    if angle is not None:
        return "∠" + angle[1]
    head = name.rstrip("₀₁₂₃₄₅₆₇₈₉")
    tail = name[len(head) :].translate(_SUBSCRIPTS)
    return f"{head}_{tail}" if tail else name.replace("′", "'").replace("_{", "_").replace("}", "")


_ATTACHED = re.compile(r"[\d.]([A-Za-z])(?![A-Za-z'′_₀-₉])")


def attached_letters(text: str) -> frozenset[str]:
    """Return the letters that stand right behind a number: ``40 + 0.5m ≤ 90`` has an m.

    Where a problem names nothing, such a letter is an unknown; a unit stands after a space.
    """
    return frozenset(_ATTACHED.findall(text))


_BETWEEN_SIGNS = re.compile(r"(?:^|[-+−=(·*/<>≤≥])\s*([A-Za-z]{2})\s*(?=[.,;]?$|[-+−=)·*/<>≤≥^²³])")


def letters_between_signs(text: str) -> frozenset[str]:
    """Return the letters of short words that stand between signs: the b and y of ``ax + by = c``."""
    runs = (run for run in _BETWEEN_SIGNS.findall(text) if run.lower() in _SHORT_WORDS)
    return frozenset(letter for run in runs for letter in run)


_SHORT_RUN = re.compile(r"(?<![A-Za-z])[A-Za-z]{2,3}(?![A-Za-z])")


def in_runs(text: str, alone: Iterable[str]) -> frozenset[str]:
    """Return both cases of a letter that stands alone and, in the other case, in a product: ``A = ½aP``."""
    letters = _letters_of_runs(text)
    return frozenset(case for one in alone if one.swapcase() in letters for case in (one, one.swapcase()))


def _letters_of_runs(text: str) -> set[str]:
    """Return the letters of short runs that are no word and no unit."""
    runs = (run for run in _SHORT_RUN.findall(text) if run.lower() not in _SHORT_WORDS)
    return {letter for run in runs if base_unit(run) is None for letter in run}


def multiplied(text: str) -> frozenset[str]:
    """Return the letters of a product that could be a unit: the l and b of ``2(lb + bh + hl)``."""
    runs = _BARE_RUN.findall(text)
    units = [run for run in runs if len(run) == 2 and base_unit(run) is not None]
    others = {letter for run in runs if base_unit(run) is None and len(run) == 2 for letter in run}
    others |= set(_ALONE.findall(text))
    return frozenset(letter for run in units if set(run) <= others for letter in run)


def multiplied_behind_a_number(text: str) -> frozenset[str]:
    """Return the letters of ``3cm`` where one of them is a factor elsewhere: the c of ``6cn``."""
    runs = _RUN_BEHIND.findall(text)
    units = [run for run in runs if len(run) == 2 and base_unit(run) is not None]
    others = {letter for run in runs if base_unit(run) is None for letter in run}
    found = {letter for run in units if set(run) & others for letter in run}
    return frozenset(found | others if found else ())


_RUN_BEHIND = re.compile(r"(?<=\d)[a-z]{1,2}(?![A-Za-z])")


def _other_way_round(name: str) -> str:
    """Return an angle or a side named from its other end: ∠BCA for ∠ACB, BA for AB."""
    if len(name) == 4 and name[0] == "∠":
        return "∠" + name[:0:-1]
    return name[::-1] if len(name) == 2 else name


_BARE_RUN = re.compile(r"(?<![A-Za-z\d.])(?<!\d )[a-z]{1,2}(?![A-Za-z])")


def in_both_cases(text: str) -> frozenset[str]:
    """Return the letters that a formula writes in both cases, and so as two names: ``A = ½(a + b)h``."""
    if "=" not in text:
        return frozenset()
    alone = set(_ALONE.findall(text))
    letters = alone | _letters_of_runs(text)
    both = frozenset(one for one in letters if one.swapcase() in letters and {one, one.swapcase()} & alone)
    head, _, rest = text.partition("=")
    of_its_own = head.strip() in both and head.strip() not in _ALONE.findall(rest)
    return both if len(letters) > 3 or of_its_own else frozenset()


_ALONE = re.compile(r"(?<![A-Za-z])[A-Za-z](?![A-Za-z])")
_TERM = r"(?:^|(?<=[-+−=≈/:(√·×<>,]))\s*"
_CORNERS = re.compile(
    rf"{_TERM}([A-Z]{{2}})(?:²|\^2)?\s*(?=$|[-+−=≈/:)·×<>,])|(?<![A-Za-z])([A-Z]{{2}})(?:²|\^2)"
)
_OF_A_BOX = frozenset("LWHB")


def segments(text: str, known: Iterable[str] = ()) -> frozenset[str]:
    """Return the sides of figures that a line names by their ends: the AB and BC of ``AB + BC``.

    Two capitals are a product elsewhere (``A = LW``): they name a side where the problem has such a
    name, where one is squared, or where several share their corners.
    """
    runs = frozenset(one or other for one, other in _CORNERS.findall(text))
    if not runs:
        return runs
    known = frozenset(known)
    runs = frozenset(run for run in runs if run in known or run[::-1] not in known)  # BA is AB
    named = {name for name in known if len(name) == 2 and name.isalpha() and name.isupper()}
    alone = {name for name in known if len(name) == 1} | {*_CAPITAL.findall(text)}
    squared = any(f"{run}²" in text or f"{run}^2" in text for run in runs)
    shared = len(runs) > 1 and len({letter for run in runs for letter in run}) < 2 * len(runs)
    if not named and not squared and not shared and len(runs) < 3:
        return frozenset()
    return frozenset(run for run in runs if run in named or not (set(run) & alone or set(run) <= _OF_A_BOX))


def numbered(text: str) -> frozenset[str]:
    """Return the names that a formula tells apart by a number: the d₁ and d₂ of ``A = ½ d₁d₂``."""
    if "=" not in text or _NUMBERED_NAME.search(text) is None:
        return frozenset()
    part = _NUMBERED_PART.match(text)  # "A₁ = 8 · 5": the area of a part
    told: set[str] = set() if part is None else {plain(part[1])}
    for side in _SIDES.split(text):  # "x₁ = 5; x₂ = 1" tells two solutions of x
        found = set(_NUMBERED_NAME.findall(side))
        letters = [letter for letter, _ in found]
        told |= {plain(letter + tail) for letter, tail in found if letters.count(letter) > 1}
    return frozenset(told)


_SIDES = re.compile(r"[=≈,;]|\b(?:or|and)\b")
_NUMBERED_PART = re.compile(r"\s*([A-Z](?:_?\d|[₀-₉]))\s*[=≈]")
_NUMBERED_NAME = re.compile(r"([A-Za-z])(_?\d|[₀-₉])(?![\d.])")


def abbreviations(texts: Iterable[str]) -> frozenset[str]:
    """Return what is short for words where lines begin: the SA of ``SA = 2B + Ph``, where S is no name."""
    texts = list(texts)
    heads = {found[1] for text in texts if (found := _HEAD.match(text)) is not None}
    letters = {letter for text in texts for letter in _CAPITAL.findall(text)} if heads else set()
    return frozenset(head for head in heads if not set(head) & letters)


_HEAD = re.compile(r"\s*([A-Z]{2,3})\s*[=≈]")
_CAPITAL = re.compile(r"(?<![A-Za-z])[A-Z](?![A-Za-z])")


@dataclass(frozen=True, slots=True)
class Names:
    """The names of one problem. ``known`` holds them as the problem writes them.

    ``asked``: the name that is to be found where it is one alone, else "".
    """

    known: frozenset[str] = frozenset()
    asked: str = ""
    _folded: dict[str, str] = field(init=False, repr=False, compare=False)
    _has_words: bool = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        spellings: dict[str, set[str]] = {}
        for name in self.known:
            spellings.setdefault(name.lower(), set()).add(name)
        folded = {low: min(all_) for low, all_ in spellings.items() if len(all_) == 1}
        object.__setattr__(self, "_folded", folded)
        object.__setattr__(self, "_has_words", any(len(name) > 1 for name in self.known))

    def are_all(self, runs: Iterable[str]) -> bool:
        """Tell whether each run of letters is a name or a unit, and one of them a word that is a name."""
        if not self._has_words:
            return False
        runs = list(runs)
        if any(self.find(run) is None and base_unit(run) is None for run in runs):
            return False
        return any(len(run) > 1 and self.find(run) is not None for run in runs)

    def find(self, written: str) -> str | None:
        """Return the problem's own spelling of ``written``, or None if it has no such name."""
        name = plain(written)
        if name in self.known:
            return name
        if "∠" + name in self.known:
            return "∠" + name  # beside ∠A a plain A means the angle
        if name[-2:].isupper() and _other_way_round(name) in self.known:
            return _other_way_round(name)  # ∠BCA is ∠ACB, and the side BA is AB
        return self._folded.get(name.lower())

    def joined(self, more: Iterable[str]) -> "Names":
        """Return these names and some more."""
        added = frozenset(more) - self.known
        return Names(self.known | added, self.asked) if added else self

    def asking(self, name: str) -> "Names":
        """Return these names where ``name`` is what is to be found; "" where several are, or none."""
        return Names(self.known, name)

    def take_apart(self, run: str, *, after_number: bool) -> tuple[str, ...] | None:
        """Split a run of letters into names that multiply, or None if it is one word.

        ``LWH`` is a product where L, W and H are names. Other runs are products only
        where no word could be meant: two letters, a short run without a vowel, or a
        short run that stands directly behind a number (``10pqr``).
        """
        pieces = self._greedy(run)
        if pieces is None:
            return None
        if all(piece == "π" or self.find(piece) for piece in pieces):
            return tuple(piece if piece == "π" else self.find(piece) or piece for piece in pieces)
        if run.lower() in _SHORT_WORDS:
            return None
        letters_only = run.isalpha() and run.isascii()
        short = len(run) == 2 or (len(run) <= 4 and not _VOWELS & set(run))
        if letters_only and (short or (after_number and len(run) <= 3) or run.startswith("pi")):
            return tuple(piece if piece == "π" else self.find(piece) or piece for piece in pieces)
        return None

    def _greedy(self, run: str) -> list[str] | None:
        longer = sorted((name for name in self.known if len(name) > 1), key=len, reverse=True)
        pieces: list[str] = []
        at = 0
        while at < len(run):
            word = next((name for name in longer if run.startswith(name, at)), None)
            if word is None and run[at : at + 2].lower() == "pi" and len(run) <= 5:
                pieces.append("π")
                at += 2
                continue
            if word is None and not run[at].isalpha():
                return None
            piece = word or run[at]
            pieces.append(piece)
            at += len(piece)
        return pieces
