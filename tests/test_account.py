"""The both-sides account: what it says of pairs of lines, and that it is never false."""

import re
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from marking_cases import ANGLES, BOX, BRACE, HOOP, LOOP, PENNANT, SUM, SYSTEM, X

from tutor.line.meaning import PLAIN, value_of
from tutor.line.names import Names
from tutor.line.poly import Poly, Ratio
from tutor.line.reader import Readings, read
from tutor.line.tree import Bare, Chain
from tutor.line.writing import write_poly
from tutor.marking.task import Task
from tutor.marking.telling.account import Account, account
from tutor.marking.working import mark_lines

LETTERS = Names(frozenset("xy"))


def line(text: str) -> Chain:
    found = read(text, LETTERS)
    assert isinstance(found, Readings), found
    statement = found.statements[0]
    assert isinstance(statement, Chain)
    return statement


def told(above: str, below: str) -> Account:
    found = account(line(above), line(below), PLAIN)
    assert found is not None
    return found


PAIRS = [
    # one move
    ("3x + 15 = 240", "3x = 225", "left: 15 taken away; right: 15 taken away"),
    ("x - 4 = 13", "x = 17", "left: 4 added; right: 4 added"),
    ("3x = 225", "x = 75", "left: divided by 3; right: divided by 3"),
    ("x/4 = 12", "x = 48", "left: multiplied by 4; right: multiplied by 4"),
    ("3/4 x = 12", "x = 16", "left: multiplied by 4/3; right: multiplied by 4/3"),
    ("6.28x = 47.1", "x = 7.5", "left: divided by 6.28; right: divided by 6.28"),
    ("5x = 2x + 9", "3x = 9", "left: 2x taken away; right: 2x taken away"),
    ("-x = 6", "x = -6", "left: multiplied by −1; right: multiplied by −1"),
    ("2x - 6 = 0", "x - 3 = 0", "left: divided by 2; right: stayed"),
    ("x^2 - 4 = 0", "x^2 = 4", "left: 4 added; right: 4 added"),
    ("x = 7", "3x = 7", "left: multiplied by 3; right: stayed"),
    ("√x = 9", "x = 3", "left: squared; right: square root taken"),
    ("√(x + 1) = 3", "x + 1 = 3", "left: squared; right: stayed"),
    ("2x + 3y = 6", "2x = 6 - 3y", "left: 3y taken away; right: 3y taken away"),
    # two moves, and two terms
    ("3x + 15 = 240", "x = 75", "both sides: 15 taken away, then divided by 3"),
    ("(x + 5)/2 = 7", "x = 9", "both sides: multiplied by 2, then 5 taken away"),
    ("5x + 4 = 2x + 10", "3x = 6", "both sides: 2x and 4 taken away"),
    ("60 = 12 - 3x", "3x = -48", "both sides: 3x added and 60 taken away"),
    # fractions, and the unknown below
    ("x/3 + 2 = 7", "x + 6 = 21", "left: multiplied by 3; right: multiplied by 3"),
    ("x/4 = 9/12", "12x = 36", "left: multiplied by 48; right: multiplied by 48"),
    ("6/x = 2", "6 = 2x", "left: multiplied by x; right: multiplied by x"),
    ("3/(x - 2) = 5", "3 = 5(x - 2)", "both sides: multiplied by (x − 2)"),
    ("3/(x - 2) = 5", "3 = 5x - 10", "both sides: multiplied by (x − 2)"),
    ("x^2 = 4x", "x = 4", "left: divided by x; right: divided by x"),
    # powers, roots, bars
    ("x^2 = 81", "x = ±9", "left: square root taken; right: square root taken, + and −"),
    ("x^2 = 81", "x = 9", "left: square root taken; right: square root taken"),
    ("x^3 = 64", "x = 4", "left: cube root taken; right: cube root taken"),
    ("√(x + 6) = x", "x + 6 = x^2", "left: squared; right: squared"),
    ("√x = 5", "x = 25", "left: squared; right: squared"),
    ("|2x - 3| = 5", "2x - 3 = ±5", "left: bars taken off; right: + and − written"),
    # nothing but writing
    ("14 = 3x", "3x = 14", "the sides changed places"),
    ("2x + 14 = 3x", "14 = x", "left: 2x taken away; right: 2x taken away"),
    ("2(x + 5) = 24", "2x + 10 = 24", "left: multiplied out; right: stayed"),
    ("(x + 3)^2 = 20", "x^2 + 6x + 9 = 20", "left: multiplied out; right: stayed"),
    ("x^2 + 6x + 9 = 20", "(x + 3)^2 = 20", "left: written as a product; right: stayed"),
    ("2(x + 5)/2 = 12", "x + 5 = 12", "left: worked out; right: stayed"),
    ("x = 3(4 + 5)", "x = 27", "left: stayed; right: worked out"),
    ("3x + 2x = 20", "5x = 20", "left: like terms put together; right: stayed"),
    ("x = 240/3", "x = 80", "left: stayed; right: worked out"),
    ("x = 80", "x = 240/3", "left: stayed; right: written another way"),
    ("2x + 3 = 11", "2x = 11 - 3 = 8", "left: 3 taken away; right: 3 taken away"),
    ("7x = 22", "x = 3.14", "left: divided by 7; right: divided by 7, rounded"),
    # comparisons
    ("-2x + 3 > 9", "x < -3", "both sides: 3 taken away, then divided by −2; the sign turned"),
    ("-2x > 6", "x > -3", "left: divided by −2; right: divided by −2"),
    ("x > 3", "x ≥ 3", "only the sign changed: > became ≥"),
    ("-3 < 2x + 1 < 7", "-4 < 2x < 6", "all parts: 1 taken away"),
    # wrong lines
    ("3x + 15 = 240", "3x = 255", "left: 15 taken away; right: 15 added"),
    ("3x + 15 = 240", "x = 85", "left: 15 taken away, then divided by 3; right: 15 added, then divided by 3"),
    ("3x + 15 = 240", "x = 80", "left: 15 taken away, then divided by 3; right: divided by 3"),
    ("3x + 15 = 240", "x = 70", "left: 15 taken away, then divided by 3; right: 240 became 70"),
    ("3x = 12", "x = 9", "left: divided by 3; right: 3 taken away"),
    ("x + 3 = 12", "x = 4", "left: 3 taken away; right: divided by 3"),
    ("x + 5 = 12", "x = 6", "left: 5 taken away; right: 6 taken away"),
    ("5x + 4 = 2x + 10", "7x = 6", "left: 2x added and 4 taken away; right: 2x and 4 taken away"),
    ("2(x + 5) = 24", "2x + 5 = 24", "left: 2(x + 5) became 2x + 5; right: stayed"),
    ("x^2 = 36", "x = 18", "left: square root taken; right: divided by 2"),
    ("420 = 60x", "x = 8", "sides swapped, then left: divided by 60; right: 420 became 8"),
]


@pytest.mark.parametrize(("above", "below", "said"), PAIRS)
def test_the_account_of_a_pair(above: str, below: str, said: str) -> None:
    assert str(told(above, below)) == said


WORKS: list[tuple[Task, list[str], str]] = [
    (BOX, ["420 = 10 · W · 6"], "left: 420 put in for V; right: numbers put in for the letters"),
    (BOX, ["420 = 60W", "W = 7", "W = 7 cm"], "left: stayed; right: its unit written"),
    (BOX, ["W = V/(L H)"], "sides swapped, then left: divided by HL; right: divided by HL"),
    (BOX, ["V = 420 cm^3"], ""),  # what is given follows from nothing
    (HOOP, ["C = 2 · 3.14 · r"], "left: stayed; right: 3.14 put in for π"),
    (PENNANT, ["44 = 1/2 · b · h"], "left: 44 put in for A; right: stayed"),
    (LOOP, ["P - πd = 2s"], "left: πd taken away; right: πd taken away"),
    (LOOP, ["3.14 · 25 = 78.5"], ""),  # a side working
    (ANGLES, ["3x+12+x+8=180"], "left: A and B written out; right: stayed"),
    (ANGLES, ["x = 40", "A = 3(40) + 12"], "left: stayed; right: 40 put in for x"),
    (BRACE, ["25 + b^2 = 169", "b^2 = 144", "b = 12"], "left: square root taken; right: square root taken"),
    (SYSTEM, ["2x = 6"], "two equations added, side by side"),
    (SYSTEM, ["2y = 4"], "one equation taken away from another, side by side"),
    (SYSTEM, ["x = 3", "3 + y = 5"], "left: 3 put in for x; right: stayed"),
    (X, ["3x + 15 = 240", "x = 75", "3(75) + 15 = 240"], "left: 75 put in for x; right: stayed"),
    (SUM, ["S = 6x^2", "S = 6 · 2.5^2", "S = 37.5"], "left: stayed; right: worked out"),
]


@pytest.mark.parametrize(("task", "lines", "said"), WORKS)
def test_the_account_of_the_last_line_of_a_work(task: Task, lines: list[str], said: str) -> None:
    marks = [one.mark for one in mark_lines(task, lines).lines]
    assert all(mark.verdict.stands for mark in marks)
    assert marks[-1].account == said


def test_nothing_is_told_from_one_quantity_to_another() -> None:
    last = mark_lines(ANGLES, ["x = 40", "A = 132°", "B = 47°"]).lines[-1].mark
    assert last.account == "left: stayed; right: x + 8 became 47°"  # not: from A to B


def test_a_value_that_is_to_be_found_is_not_told() -> None:
    """The product of what is given is 40; a wrong product is quoted, never compared with it."""
    area = Task(("A = L W",), (("L", "8 ft"), ("W", "5 ft")), ("A",), ("ft^2",), measures=("A", "L", "W"))
    for wrong in ("A = 45", "A = 20", "A = 41", "A/2 = 40"):
        mark = mark_lines(area, [wrong]).lines[-1].mark
        assert not re.search(
            r"\b(40|20 a|5 ad|27)\b", f"{mark.message} {mark.account}".replace(wrong[4:], "")
        )


# -- never false ---------------------------------------------------------------------------

numbers = st.integers(-12, 12).filter(bool) | st.sampled_from(
    [Fraction(1, 2), Fraction(3, 4), Fraction(5, 2)]
)
sides = st.builds(
    lambda x, number: Poly.atom("x").scaled(x) + Poly.number(number), st.integers(-9, 9), st.integers(-30, 30)
)


def written(poly: Poly) -> str:
    return re.sub(r"\((\d+/\d+)\)x", r"(\1)·x", write_poly(poly))


def _amount(text: str) -> Ratio:
    """Return what is added by ``2x and 4 taken away`` or ``3x added and 60 taken away``."""
    total = Ratio(Poly({}))
    waiting: list[Ratio] = []
    for piece in re.split(r" and ", text):
        found = re.fullmatch(r"(.+?)(?: (added|taken away))?", piece)
        assert found is not None, text
        waiting.append(_value(found[1]))
        if found[2]:
            for one in waiting:
                total = total + one if found[2] == "added" else total - one
            waiting = []
    assert not waiting, text
    return total


def _value(text: str) -> Ratio:
    found = read(text, LETTERS)
    assert isinstance(found, Readings) and isinstance(found.statements[0], Bare), text
    return value_of(found.statements[0].expr)


def worked(words: str, old: Ratio) -> Ratio | None:
    """Work a side out again from nothing but the words; None where they only quote or round."""
    if " became " in words or words == "changed" or words.endswith("rounded"):
        return None
    value = old
    for step in words.split(", then "):
        if step.startswith("multiplied by "):
            value = value * _value(step.removeprefix("multiplied by "))
        elif step.startswith("divided by "):
            value = value.over(_value(step.removeprefix("divided by ")))
        elif step in ("squared", "cubed"):
            value = Ratio(value.above.power(2 if step == "squared" else 3))
        elif step.endswith(("added", "taken away")):
            value = value + _amount(step)
        else:
            assert step in ("stayed", "multiplied out", "like terms put together", "worked out", "written as a product",
                            "written another way", "square root taken"), step  # fmt: skip
    return value


def check(above: str, below: str) -> Account:
    """Compare the account with both lines, side by side."""
    found = told(above, below)
    old, new = line(above), line(below)
    before = [value_of(side) for side in old.sides]
    after = [value_of(side) for side in new.sides]
    if found.swapped:
        before.reverse()
    for move, was, now in zip(found.moves, before, after, strict=True):
        if "square root" in move.words:
            assert (now * now).same(was)
            continue
        made = worked(move.words, was)
        assert made is None or made.same(now), (above, below, str(found))
        assert move.kept == was.same(now)
    return found


@settings(max_examples=300, deadline=None)
@given(sides, sides, sides, numbers, st.booleans(), st.booleans())
def test_the_same_on_both_sides_is_told_as_the_same(
    left: Poly, right: Poly, amount: Poly, factor: Fraction, flipped: bool, factor_first: bool
) -> None:
    """Any amount added and any factor: the words give both new sides, and say it once for both."""
    assume(left != right and (left.names() or right.names()))
    made = [
        side.scaled(factor) + amount if factor_first else (side + amount).scaled(factor)
        for side in (left, right)
    ]
    assume(all(len(str(value)) < 8 for side in made for value in side.terms.values()))
    if flipped:
        made.reverse()
    found = check(f"{written(left)} = {written(right)}", f"{written(made[0])} = {written(made[1])}")
    plain = (len(amount.terms) <= 1) + (factor == 1)
    if plain == 2 and amount and not flipped:
        assert found.shared is not None and len({move.words for move in found.moves}) == 1


@settings(max_examples=300, deadline=None)
@given(sides, sides, sides, sides, numbers, numbers)
def test_what_was_not_the_same_is_never_told_as_the_same(
    left: Poly, right: Poly, one: Poly, other: Poly, factor: Fraction, second: Fraction
) -> None:
    assume(left.names() or right.names())
    made = [(left + one).scaled(factor), (right + other).scaled(second)]
    above, below = f"{written(left)} = {written(right)}", f"{written(made[0])} = {written(made[1])}"
    found = check(above, below)
    if found.shared is None:
        return
    # One move can take both to where they are: then it makes of any equation the same one.
    old, new = line(above), line(below)
    differences = [value_of(chain.sides[0]) - value_of(chain.sides[1]) for chain in (old, new)]
    if found.shared.power == found.shared.root == 1:
        times = differences[0] * (found.shared.factor or Ratio(Poly.number(1)))
        assert differences[1].same(times) or (found.swapped and (differences[1] + times).above == Poly({}))


@settings(max_examples=60, deadline=None)
@given(sides, sides, st.sampled_from([2, 3]))
def test_powers_are_told(left: Poly, right: Poly, power: int) -> None:
    assume(left.names() and right and left != right)
    made = [side.power(power) for side in (left, right)]
    found = check(f"{written(left)} = {written(right)}", f"({written(left)})^{power} = {written(made[1])}")
    assert found.shared is not None
    # "x = −x" and its squares: to multiply by x is as true as to square.
    assert (
        found.shared.factor or [move.words for move in found.moves] == [{2: "squared", 3: "cubed"}[power]] * 2
    )


def test_a_chain_of_pairs_stays_true() -> None:
    """Every pair of lines of a long solution, also pairs that do not follow each other."""
    lines = ["4(x - 2) + 3x = 20", "4x - 8 + 3x = 20", "7x - 8 = 20", "7x = 28", "x = 28/7", "x = 4"]
    for above, below in [*pairwise(lines), *zip(lines, reversed(lines), strict=True)]:
        check(above, below)


@pytest.mark.parametrize(
    ("above", "line", "told"),
    [
        ("1/2 x = 3/4 x + 1", "−1/4 x = 1", "left: 3x/4 taken away; right: 3x/4 taken away"),
        ("5/2 x = 10", "x = 4", "left: divided by 5/2; right: divided by 5/2"),
        ("x + 4/5 = 2", "x = 6/5", "left: 4/5 taken away; right: 4/5 taken away"),
        ("0.5x = 3/4", "x = 3/2", "left: multiplied by 2; right: multiplied by 2"),
        ("0.5x + 1/4 = 3/4", "0.5x = 1/2", "left: 0.25 taken away; right: 0.25 taken away"),
        ("2.5x = 10", "x = 4", "left: divided by 2.5; right: divided by 2.5"),
    ],
)
def test_fractions_are_told_as_fractions_and_decimals_as_decimals(above: str, line: str, told: str) -> None:
    work = mark_lines(Task(find=("x",)), [above, line])
    assert work.lines[1].mark.account == told
