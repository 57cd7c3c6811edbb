"""The exact decision and sympy, on 20,000 generated pairs: they agree about every one."""

import random

import pytest
import sympy
from line_maker import RELS, Made, X, linear_line, moved, number, plainly, side, slipped, solution

from tutor.line.meaning import Setting
from tutor.line.reader import Readings, read
from tutor.line.tree import Chain
from tutor.marking.deciding.claim import claim_of
from tutor.marking.deciding.compare import Axis, Overlap, compare
from tutor.marking.deciding.everyday import form_of, signature
from tutor.marking.task import Task
from tutor.marking.working import mark_lines

TASK = Task(find=("x",))
PLAIN = Setting()


def _pair(chance: random.Random) -> tuple[Made, Made]:
    line = linear_line(chance, "=" if chance.random() < 0.7 else chance.choice(RELS[1:]))
    after = moved(chance, line)
    return line, slipped(chance, after) if chance.random() < 0.5 else after


def _tree(text: str) -> Chain:
    found = read(text)
    assert isinstance(found, Readings), (text, found)
    (statement, *_) = found.statements
    assert isinstance(statement, Chain)
    return statement


@pytest.mark.parametrize("seed", range(8))
def test_the_marker_and_sympy_agree_on_linear_pairs(seed: int) -> None:
    """16,000 pairs: equations and inequalities with brackets, fractions, decimals, right moves and slips."""
    chance = random.Random(seed)
    for _ in range(2000):
        above, line = _pair(chance)
        if solution(above)[0] != "x":
            continue  # the first line has no single answer: the next test
        marks = [made.mark for made in mark_lines(TASK, [above.text, line.text]).lines]
        assert marks[0].verdict.stands, (above.text, marks[0])
        assert marks[1].verdict.stands == (solution(above) == solution(line)), (
            above.text,
            line.text,
            marks[1],
        )


def test_lines_that_always_or_never_hold() -> None:
    """2,000 pairs in which the letters fall away on one line or on both."""
    chance = random.Random(100)
    for _ in range(2000):
        meaning = plainly(side(chance).meaning, chance)
        n = number(chance) if chance.random() < 0.5 else None
        far = meaning.meaning if n is None else meaning.meaning + sympy.Rational(n.numerator, n.denominator)
        above = Made(meaning, "=", plainly(far, chance))
        if not sympy.sympify(meaning.meaning).has(X):
            continue
        after = moved(chance, above)
        wrong = chance.random() < 0.5
        line = slipped(chance, after) if wrong else after
        if not sympy.expand(line.left.meaning).has(X) and not sympy.expand(line.right.meaning).has(X):
            continue  # without letters it is arithmetic: it stands where it is true
        if wrong and solution(above) == solution(line) == ("never",):
            continue  # another contradiction: no number fits either, and still it is not the line above
        mark = mark_lines(TASK, [above.text, line.text]).lines[1].mark
        if mark.verdict.value != "undecided":
            assert mark.verdict.stands == (solution(above) == solution(line)), (above.text, line.text, mark)


def test_expressions_keep_their_value() -> None:
    """3,000 pairs of expressions."""
    chance = random.Random(101)
    for _ in range(3000):
        before = side(chance, 2)
        meaning = before.meaning
        if chance.random() < 0.5:
            n = number(chance)
            meaning = meaning + sympy.Rational(n.numerator, n.denominator) * chance.choice((1, X))
        after = plainly(meaning, chance)
        mark = mark_lines(Task(), [before.text, after.text]).lines[1].mark
        same = sympy.expand(before.meaning - after.meaning) == 0
        assert mark.verdict.stands == same, (before.text, after.text, mark)


def test_the_everyday_form_agrees_with_the_general_comparison() -> None:
    """4,000 pairs: the short cut and the decision by cutting the number line say the same."""
    chance = random.Random(102)
    for _ in range(4000):
        lines = [_tree(made.text) for made in _pair(chance)]
        forms = [form_of(line) for line in lines]
        claims = [claim_of(line, PLAIN) for line in lines]
        if None in forms:
            assert any(not claim.names() for claim in claims), lines
            continue
        same = compare(claims[1], claims[0], Axis("x")) is Overlap.SAME
        assert (forms[0] == forms[1]) == same, lines


@pytest.mark.parametrize(
    "text",
    ["2x^2 = 8", "6/x = 2", "|x| = 3", "x·x = 4", "√x = 2", "x = ±4", "x + y = 3", "πx = 3", "x = 5 cm", "x ≠ 3",
     "0x = 0", "x = x", "x/0 = 3", "3 = 4", "x < y", "1 < x < 3"],
)  # fmt: skip
def test_what_is_not_everyday_has_no_form(text: str) -> None:
    assert form_of(_tree(text)) is None


def test_signatures_of_lines_alike_up_to_order_are_equal() -> None:
    def signed(text: str) -> object:
        return signature(_tree(text))

    assert signed("2x + 3 = 7") == signed("3 + x·2 = 7")
    assert signed("a(b + c) + d = 1") == signed("d + (c + b)a = 1")
    assert signed("2x + 3 = 7") != signed("7 = 2x + 3")
    assert signed("2x - 3 = 7") != signed("3 - 2x = 7")
    assert signed("x/2 = 7") != signed("2/x = 7")
    assert signed("5 cm = 5 cm") != signed("5 cm = 5")
