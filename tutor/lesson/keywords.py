"""The keywords of a lesson, and what a mistyped one was meant to be."""

from enum import Enum


class Keyword(Enum):
    """The first word of each entry. The values are the rules of ``grammar/lesson.lark``."""

    LESSON = "lesson"
    FORMAT = "format"
    GRADE = "grade"
    COVERS = "covers"
    PI = "pi"
    EVERY = "every"
    STEPS = "steps"
    MARKS = "marks"
    CORRECT = "correct"
    MISSED = "missed"
    HINTS = "hints"
    REVIEW = "review"
    PROBLEM = "problem"
    MATTERS = "matters"
    VARY = "vary"
    WHERE = "where"
    ASK = "ask"
    FIGURE = "figure"
    NAMES = "names"
    FORMULA = "formula"
    EQUATION = "equation"
    PIECE = "piece"
    GIVEN = "given"
    PART = "part"
    FIND = "find"
    ROUND = "round"
    CHECK = "check"
    TRIANGLE = "triangle"
    MANY = "many"
    DRAW = "draw"
    WITHIN = "within"
    CHOOSE = "choose"
    ANSWER = "answer"
    WRITE = "write"
    SHOW = "show"
    REASON = "reason"
    WORD = "word"
    MEANS = "means"
    ALSO = "also"
    NEAR = "near"

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
    Keyword.STEPS: "formula, label",
    Keyword.MARKS: "when handed in",
    Keyword.CORRECT: "fresh numbers",
    Keyword.MISSED: "when a broken line is left",
    Keyword.HINTS: "off",
    Keyword.REVIEW: "8 from hoops, windows",
    Keyword.PROBLEM: "Hoop",
    Keyword.MATTERS: "most",
    Keyword.VARY: "r from 4 to 9 step 0.5",
    Keyword.WHERE: "r != 2",
    Keyword.ASK: "How far is the hoop from the middle?",
    Keyword.FIGURE: "circle, radius r, circumference C",
    Keyword.NAMES: "SA, angle A",
    Keyword.FORMULA: "C = 2 pi r",
    Keyword.EQUATION: "2x + 14 = 3x",
    Keyword.PIECE: "front = L H",
    Keyword.GIVEN: "C = 47.1 cm",
    Keyword.PART: "How long is the hoop?",
    Keyword.FIND: "r in cm",
    Keyword.ROUND: "to 2 places",
    Keyword.CHECK: "the answer",
    Keyword.TRIANGLE: "4 cm, 6 cm, 9 cm",
    Keyword.MANY: "triangles",
    Keyword.DRAW: "triangle",
    Keyword.WITHIN: "2 mm and 2°",
    Keyword.CHOOSE: "triangle, square, circle",
    Keyword.ANSWER: "triangle",
    Keyword.WRITE: "A",
    Keyword.SHOW: "P = pi r",
    Keyword.REASON: "The strip is half of the hoop.",
    Keyword.WORD: "circumference",
    Keyword.MEANS: "the way once round a circle",
    Keyword.ALSO: "perimeter",
    Keyword.NEAR: "radius, diameter, chord",
}

# Where each keyword may stand. `pi`, `every step` and `steps` may stand in both.
OF_THE_LESSON = frozenset(
    {
        Keyword.LESSON,
        Keyword.FORMAT,
        Keyword.GRADE,
        Keyword.COVERS,
        Keyword.MARKS,
        Keyword.CORRECT,
        Keyword.MISSED,
        Keyword.HINTS,
        Keyword.REVIEW,
    }
)
OF_BOTH = frozenset({Keyword.PI, Keyword.EVERY, Keyword.STEPS})
OF_A_PROBLEM = frozenset(Keyword) - OF_THE_LESSON - OF_BOTH - {Keyword.PROBLEM}

# Entries whose text may go on over several lines.
GOES_ON = frozenset(
    OF_A_PROBLEM - {Keyword.ROUND, Keyword.MATTERS, Keyword.CHECK, Keyword.MANY, Keyword.DRAW}
) | {Keyword.COVERS, Keyword.REVIEW}

# Entries that may stand more than once.
REPEATS = frozenset(
    {
        Keyword.GIVEN,
        Keyword.FORMULA,
        Keyword.EQUATION,
        Keyword.FIND,
        Keyword.NAMES,
        Keyword.VARY,
        Keyword.WHERE,
        Keyword.PIECE,
        Keyword.PART,
        Keyword.ROUND,
        Keyword.ALSO,
    }
)

# Entries in which braces stand for a number of the draw.
FILLED = frozenset(
    {
        Keyword.ASK,
        Keyword.FORMULA,
        Keyword.EQUATION,
        Keyword.PIECE,
        Keyword.GIVEN,
        Keyword.PART,
        Keyword.TRIANGLE,
        Keyword.CHOOSE,
        Keyword.ANSWER,
        Keyword.SHOW,
        Keyword.REASON,
    }
)

BY_WORD = {keyword.value: keyword for keyword in Keyword}
