"""The keywords of a lesson, and what a mistyped one was meant to be."""

from difflib import get_close_matches
from enum import Enum


class Keyword(Enum):
    """The first word of each entry. The values are the rules of ``grammar/lesson.lark``."""

    LESSON = "lesson"
    FORMAT = "format"
    GRADE = "grade"
    COVERS = "covers"
    PI = "pi"
    EVERY = "every"
    PROBLEM = "problem"
    ASK = "ask"
    FIGURE = "figure"
    NAMES = "names"
    FORMULA = "formula"
    EQUATION = "equation"
    GIVEN = "given"
    FIND = "find"
    ROUND = "round"

    def written(self, text: str) -> str:
        """Return an entry in the standard layout."""
        return f"{self.value:<8} {text}"

    @property
    def example(self) -> str:
        """Return an entry as it may be written."""
        return self.written(_EXAMPLES[self])


_EXAMPLES = {
    Keyword.LESSON: "Lantern Parade: hoops and struts",
    Keyword.FORMAT: "1",
    Keyword.GRADE: "7",
    Keyword.COVERS: "7.G.B.4  7.EE.B.4a",
    Keyword.PI: "3.14",
    Keyword.EVERY: "step",
    Keyword.PROBLEM: "Hoop",
    Keyword.ASK: "How far is the hoop from the middle?",
    Keyword.FIGURE: "circle, radius r, circumference C",
    Keyword.NAMES: "SA, angle A",
    Keyword.FORMULA: "C = 2 pi r",
    Keyword.EQUATION: "2x + 14 = 3x",
    Keyword.GIVEN: "C = 47.1 cm",
    Keyword.FIND: "r in cm",
    Keyword.ROUND: "to 2 places",
}

# Where each keyword may stand. `pi` and `every step` may stand in both.
OF_THE_LESSON = frozenset({Keyword.LESSON, Keyword.FORMAT, Keyword.GRADE, Keyword.COVERS})
OF_BOTH = frozenset({Keyword.PI, Keyword.EVERY})
OF_A_PROBLEM = frozenset(Keyword) - OF_THE_LESSON - OF_BOTH - {Keyword.PROBLEM}

# Entries whose text may go on over several lines.
GOES_ON = frozenset(OF_A_PROBLEM - {Keyword.ROUND}) | {Keyword.COVERS}

# Entries that may stand more than once.
REPEATS = frozenset({Keyword.GIVEN, Keyword.FORMULA, Keyword.EQUATION, Keyword.FIND, Keyword.NAMES})

BY_WORD = {keyword.value: keyword for keyword in Keyword}

# What a teacher may write for a keyword.
_MEANT = {
    "title": Keyword.LESSON,
    "unit": Keyword.LESSON,
    "version": Keyword.FORMAT,
    "class": Keyword.GRADE,
    "year": Keyword.GRADE,
    "standard": Keyword.COVERS,
    "standards": Keyword.COVERS,
    "π": Keyword.PI,
    "exercise": Keyword.PROBLEM,
    "task": Keyword.PROBLEM,
    "question": Keyword.ASK,
    "text": Keyword.ASK,
    "drawing": Keyword.FIGURE,
    "picture": Keyword.FIGURE,
    "name": Keyword.NAMES,
    "rule": Keyword.FORMULA,
    "solve": Keyword.EQUATION,
    "known": Keyword.GIVEN,
    "let": Keyword.GIVEN,
    "unknown": Keyword.FIND,
    "wanted": Keyword.FIND,
    "places": Keyword.ROUND,
}

# A word longer than this is no keyword, and comparing it would only take time.
_LONGEST = 20


def keyword_meant(word: str) -> Keyword | None:
    """Return the keyword that ``word`` comes nearest to, or None."""
    folded = word.casefold().rstrip(":.=")
    if len(folded) > _LONGEST:
        return None
    exact = BY_WORD.get(folded) or _MEANT.get(folded)
    if exact is not None:
        return exact
    near = get_close_matches(folded, BY_WORD, n=1, cutoff=0.7)
    return BY_WORD[near[0]] if near else None
