"""The engine of worked lines: every line it writes stands, and it ends at the right value."""

import random
from fractions import Fraction

import pytest
import sympy

from tutor.line.meaning import number_of
from tutor.line.tree import Phrase, Said
from tutor.marking.deciding.answers import answers_in
from tutor.marking.task import Task
from tutor.marking.verdict import Verdict
from tutor.marking.worked import finish
from tutor.marking.working import Working, start

EQUATIONS = 1_500
UNKNOWN = sympy.Symbol("x")


class Sums:
    """Linear sides at random: as a student reads them, and as sympy works with them."""

    def __init__(self, seed: int) -> None:
        self.random = random.Random(seed)

    def number(self) -> tuple[str, sympy.Rational]:
        kind = self.random.choice(["whole", "whole", "whole", "decimal", "fraction"])
        if kind == "whole":
            value = Fraction(self.random.randint(1, 12))
            return str(value), sympy.Rational(value)
        if kind == "decimal":
            value = Fraction(self.random.randint(1, 99), 10)
            return f"{float(value):g}", sympy.Rational(value.numerator, value.denominator)
        top, bottom = self.random.randint(1, 9), self.random.randint(2, 9)
        return f"{top}/{bottom}", sympy.Rational(top, bottom)

    def term(self) -> tuple[str, sympy.Expr]:
        text, value = self.number()
        match self.random.choice(["number", "letter", "letter", "bracket", "over"]):
            case "number":
                return text, value
            case "letter":
                return (f"({text})x" if "/" in text else f"{text}x"), value * UNKNOWN
            case "bracket":
                inner, meant = self.flat()
                return f"({text})({inner})", value * meant
            case _:
                inner, meant = self.flat()
                size = self.random.randint(2, 6)
                return f"({inner})/{size}", meant / size

    def flat(self) -> tuple[str, sympy.Expr]:
        text, value = self.number()
        first = "x" if self.random.random() < 0.5 else f"{self.random.randint(2, 6)}x"
        size = sympy.Integer(1) if first == "x" else sympy.Integer(first[:-1])
        if self.random.random() < 0.5:
            return f"{first} + {text}", size * UNKNOWN + value
        return f"{text} − {first}", value - size * UNKNOWN

    def side(self) -> tuple[str, sympy.Expr]:
        text, meant = self.term()
        if self.random.random() < 0.2:
            text, meant = f"−{text}", -meant
        for _ in range(self.random.randint(0, 2)):
            more, value = self.term()
            minus = self.random.random() < 0.4
            text += f" {'−' if minus else '+'} {more}"
            meant = meant - value if minus else meant + value
        return text, meant

    def equation(self) -> tuple[str, sympy.Expr]:
        """Return an equation with x in it, and its left side less its right side."""
        left, a = self.side()
        right, b = self.side()
        if self.random.random() < 0.08:
            # Both sides alike, or apart by a number: all numbers, or none.
            right, b = self.random.choice([(left, a), (f"{left} + 1", a + 1)])
        if "x" not in left + right:
            return self.equation()
        return f"{left} = {right}", sympy.expand(a - b)


def worked_from(work: Working) -> Working:
    for line in finish(work.known):
        work = work.submit(line.text)
        mark = work.lines[-1].mark
        assert mark.verdict in (Verdict.FOLLOWS, Verdict.ROUNDS), (line.text, mark.verdict, mark.message)
    return work


def end_of(work: Working) -> Fraction | Phrase | None:
    statement = work.lines[-1].statement
    assert statement is not None
    if isinstance(statement, Said):
        return statement.phrase
    ((_, values),) = answers_in(statement)
    value = number_of(values[0])
    return None if value is None else Fraction(value)


def meant_by(difference: sympy.Expr) -> Fraction | Phrase:
    slope, rest = difference.coeff(UNKNOWN, 1), difference.coeff(UNKNOWN, 0)
    if slope == 0:
        return Phrase.ALL_NUMBERS if rest == 0 else Phrase.NO_SOLUTION
    found = -rest / slope
    return Fraction(int(found.p), int(found.q))


@pytest.mark.parametrize("seed", range(15))
def test_generated_equations_end_at_the_value_that_sympy_finds(seed: int) -> None:
    sums = Sums(seed)
    for at in range(EQUATIONS // 15):
        text, difference = sums.equation()
        # Counting the steps of every line takes as long as marking it: one in four is enough.
        work = worked_from(start(Task(find=("x",), every_step=at % 4 == 0)).submit(text))
        assert work.progress.complete, text
        assert end_of(work) == meant_by(difference), text
