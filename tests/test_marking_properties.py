"""The marks held against sympy and exact numbers, on many thousand generated lines.

The oracle never sees the tutor's trees: each line is made twice from one template, as the
text that is typed and as a sympy expression.
"""

import random
import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st

from tutor.marking.task import Task
from tutor.marking.verdict import Verdict
from tutor.marking.working import mark_lines, start
from tutor.quantity.pi import Pi

X = Task(find=("x",))
x = sympy.Symbol("x", real=True)


def stands(first: str, second: str, task: Task = X) -> bool:
    """Tell whether the second line stands under the first; every line has to be decided."""
    work = mark_lines(task, [first, second])
    assert work.lines[0].mark.verdict is Verdict.FOLLOWS, (first, work.lines[0].mark)
    verdict = work.lines[1].mark.verdict
    assert verdict not in (Verdict.UNDECIDED, Verdict.UNREAD, Verdict.NOTE), (first, second, verdict)
    return verdict.stands


# -- a number as a child writes it ---------------------------------------------------------


def written(value: Fraction) -> str:
    if value.denominator == 1:
        return str(value.numerator)
    if value.denominator in (2, 4, 5, 10):
        return f"{float(value):g}"
    return f"({value.numerator}/{value.denominator})"


def exact(value: Fraction) -> Any:
    return sympy.Rational(value.numerator, value.denominator)


@dataclass(frozen=True)
class Line:
    """One line made from a template: what is typed, and what it says."""

    shape: int
    numbers: tuple[Fraction, ...]

    @property
    def text(self) -> str:
        pattern = SHAPES[self.shape][0]
        typed = pattern.format(*(written(number) for number in self.numbers))
        return typed.replace("+ -", "- ").replace("- -", "+ ")

    @property
    def solutions(self) -> Any:
        left, right = SHAPES[self.shape][1](*map(exact, self.numbers))
        return solve(sympy.expand(left - right))

    def changed(self, at: int, by: Fraction) -> "Line":
        numbers = list(self.numbers)
        numbers[at] += by
        return replace(self, numbers=tuple(numbers))


# The typed pattern, its two sides, and which number is set so that the line has the root.
SHAPES: list[tuple[str, Callable[..., tuple[Any, Any]]]] = [
    ("{0}x + {1} = {2}", lambda a, b, c: (a * x + b, c)),
    ("{2} = {0}x + {1}", lambda a, b, c: (c, a * x + b)),
    ("{0}(x + {1}) = {2}", lambda a, b, c: (a * (x + b), c)),
    ("{0}x + {1} = {2}x + {3}", lambda a, b, c, d: (a * x + b, c * x + d)),
    ("{0}x - {1}(x + {2}) = {3}", lambda a, b, c, d: (a * x - b * (x + c), d)),
    ("{0} - (x + {1}) = {2}", lambda a, b, c: (a - (x + b), c)),
    ("x/4 + {0} = {1}", lambda a, b: (x / 4 + a, b)),
    ("3/5 x + {0} = {1}", lambda a, b: (3 * x / 5 + a, b)),
    ("({0}x + {1})/3 = {2}", lambda a, b, c: ((a * x + b) / 3, c)),
    ("{0}x·2 + {1} + x = {2}", lambda a, b, c: (2 * a * x + b + x, c)),
    ("x = {0}", lambda a: (x, a)),
    ("{0} = x", lambda a: (a, x)),
    ("x^2 + {0}x + {1} = 0", lambda a, b: (x**2 + a * x + b, 0)),
    ("(x + {0})(x + {1}) = 0", lambda a, b: ((x + a) * (x + b), 0)),
    ("x(x + {0}) = {1}", lambda a, b: (x * (x + a), b)),
    ("{0}x^2 = {1}", lambda a, b: (a * x**2, b)),
    ("x + {0} = 0 or x + {1} = 0", lambda a, b: ((x + a) * (x + b), 0)),
    ("x = {0} or x = {1}", lambda a, b: ((x - a) * (x - b), 0)),
]
LINEAR = range(12)
SQUARE = range(12, 18)
LAST_ON_LEFT = (1, 11)
WITH_OR = (16, 17)


def solve(difference: Any) -> Any:
    return sympy.solveset(difference, x, sympy.S.Reals)


def some_number(source: random.Random) -> Fraction:
    kind = source.random()
    whole = source.randint(1, 12) * source.choice((1, 1, -1))
    if kind < 0.7:
        return Fraction(whole)
    return Fraction(whole * 5 + 1, 10) if kind < 0.85 else Fraction(2 * whole + 1, 2)


def linear_line(source: random.Random, root: Fraction) -> Line:
    """A linear line that has the root, where its shape can have it; else another line."""
    shape = source.choice(LINEAR)
    slots = SHAPES[shape][1].__code__.co_argcount
    numbers = [some_number(source) for _ in range(slots)]
    left, right = SHAPES[shape][1](*map(exact, numbers))
    wrong = (left - right).subs(x, exact(root)) if hasattr(left - right, "subs") else left - right
    off = Fraction(int(sympy.numer(wrong)), int(sympy.denom(wrong)))
    numbers[-1] += -off if shape in LAST_ON_LEFT else off
    return Line(shape, tuple(numbers))


def square_line(source: random.Random, roots: tuple[int, int]) -> Line:
    one, two = map(Fraction, roots)
    shape = source.choice(SQUARE)
    if shape == 12:
        return Line(shape, (-(one + two), one * two))
    if shape in (13, 16):
        return Line(shape, (-one, -two))
    if shape == 14:
        return Line(shape, (-(one + two), -one * two))
    if shape == 15:
        factor = Fraction(source.randint(1, 4))
        return Line(shape, (factor, factor * one * one))
    return Line(shape, (one, two))


def some_lines(source: random.Random) -> list[Line]:
    """Eight lines: half of them share their roots, the others miss by one number."""
    if source.random() < 0.75:
        root = Fraction(source.randint(-12, 12), source.choice((1, 1, 1, 2, 4)))
        lines = [linear_line(source, root) for _ in range(8)]
    else:
        one = source.randint(-9, 9)
        roots = (one, source.choice((-one, source.randint(-9, 9))))
        lines = [square_line(source, roots) for _ in range(8)]
    for at in range(4):
        line = lines[at]
        lines[at] = line.changed(source.randrange(len(line.numbers)), Fraction(source.choice((-2, -1, 1, 3))))
    return [line for line in lines if holds_a_letter(line)]


def holds_a_letter(line: Line) -> bool:
    """``0x`` and ``0(x + 2)`` are left to the tests of identities."""
    left, right = SHAPES[line.shape][1](*map(exact, line.numbers))
    return bool(sympy.expand(left - right).free_symbols) and 0 not in line.numbers


@pytest.mark.parametrize("seed", range(8))
def test_the_marker_never_disagrees_with_sympy(seed: int) -> None:
    """8 · 400 pairs: a line follows exactly if it leaves the solutions what they were."""
    source = random.Random(seed)
    seen = {True: 0, False: 0}
    while sum(seen.values()) < 400:
        lines = some_lines(source)
        solutions = {line: line.solutions for line in lines}
        for first in lines[-5:]:
            above = start(X).submit(first.text)
            for second in lines:
                expected = says_the_same(first, second, solutions[first], solutions[second])
                if second is first or expected is None:
                    continue
                verdict = above.submit(second.text).lines[1].mark.verdict
                assert verdict is not Verdict.UNDECIDED
                assert verdict.stands is expected, (first.text, second.text, solutions[second])
                seen[expected] += 1
    assert min(seen.values()) > 120, seen


def says_the_same(first: Line, second: Line, before: Any, after: Any) -> bool | None:
    """Compare the solutions; None where a legal move or one branch of an "or" could be meant."""
    if before == after:
        return True
    gains = before.is_subset(after) and first.shape in LINEAR and second.shape in SQUARE
    branch = after.is_subset(before) and first.shape in WITH_OR
    return None if gains or branch else False


# -- both-sides moves ----------------------------------------------------------------------

SMALL = st.integers(-12, 12)
PARTS = st.integers(1, 12)
TERMS = st.one_of(
    st.builds(lambda a: f"{a}", PARTS),
    st.builds(lambda a: f"{a}x", PARTS),
    st.builds(lambda a: f"{a}.5", PARTS),
    st.builds(lambda a, b: f"{a}(x + {b})", PARTS, PARTS),
    st.builds(lambda a: f"x/{a}", PARTS),
)
SIDES = st.lists(st.tuples(st.sampled_from("+-"), TERMS), min_size=1, max_size=3).map(
    lambda terms: " ".join(f"{sign} {term}" for sign, term in terms).removeprefix("+ ")
)
RELS = {"=": "=", "<": ">", ">": "<", "≤": "≥", "≥": "≤"}


@dataclass(frozen=True)
class Move:
    """What is done to both sides, as typed around a side; ``turns``: a comparison turns round."""

    pattern: str
    turns: bool = False


MOVES = st.one_of(
    st.builds(lambda term: Move(f"{{0}} + {term}"), TERMS),
    st.builds(lambda term: Move(f"{{0}} - {term}"), TERMS),
    st.builds(lambda factor: Move(f"{factor}({{0}})"), PARTS),
    st.builds(lambda factor: Move(f"-{factor}({{0}})", turns=True), PARTS),
    st.builds(lambda factor: Move(f"({{0}})/{factor}"), PARTS),
    st.builds(lambda factor: Move(f"({{0}})/(-{factor})", turns=True), PARTS),
    st.just(Move("-({0})", turns=True)),
)


def is_about_x(line: str) -> bool:
    """A line whose x cancels is an identity or a contradiction, and its own kind of line."""
    left, right = re.split("[=<>≤≥]", line)
    parsed = [value_at(side, Fraction(at)) for at in (0, 1) for side in (left, right)]
    return parsed[0] - parsed[1] != parsed[2] - parsed[3]


def value_at(side: str, at: Fraction) -> Fraction:
    """The value of a generated side, worked out term by term from its text."""
    total = Fraction(0)
    for sign, term in re.findall(r"([+-]?) ?(\d+\(x \+ \d+\)|x/\d+|\d+(?:\.5)?x?)", side):
        if "(" in term:
            factor, inside = term.removesuffix(")").split("(x + ")
            value = int(factor) * (at + int(inside))
        elif "/" in term:
            value = at / int(term.removeprefix("x/"))
        else:
            value = Fraction(term.removesuffix("x")) * (at if term.endswith("x") else 1)
        total += -value if sign == "-" else value
    return total


@given(SIDES, SIDES, MOVES, st.sampled_from(list(RELS)), st.booleans())
@settings(max_examples=150, deadline=None)
def test_any_both_sides_move_follows(left: str, right: str, move: Move, rel: str, flipped: bool) -> None:
    line = f"{left} {rel} {right}"
    if not is_about_x(line):
        return
    new_left, new_right = move.pattern.format(left), move.pattern.format(right)
    new_rel = RELS[rel] if move.turns else rel
    moved = f"{new_right} {RELS[new_rel]} {new_left}" if flipped else f"{new_left} {new_rel} {new_right}"
    assert stands(line, moved), (line, moved)


@given(SIDES, SIDES, MOVES.filter(lambda move: move.turns), st.sampled_from("<>≤≥"))
@settings(max_examples=80, deadline=None)
def test_a_sign_that_is_not_turned_is_caught(left: str, right: str, move: Move, rel: str) -> None:
    line = f"{left} {rel} {right}"
    if is_about_x(line):
        assert not stands(line, f"{move.pattern.format(left)} {rel} {move.pattern.format(right)}")


@given(SIDES, SIDES, MOVES.filter(lambda move: "{0} " in move.pattern))
@settings(max_examples=100, deadline=None)
def test_a_move_on_one_side_alone_is_caught(left: str, right: str, move: Move) -> None:
    line, moved = f"{left} = {right}", f"{move.pattern.format(left)} = {right}"
    if not is_about_x(line) or not is_about_x(moved):
        return
    one, two = root_of(line), root_of(moved)
    assert stands(line, moved) is (one == two), (line, moved)


def root_of(line: str) -> Fraction:
    left, right = line.split(" = ")
    at_0 = value_at(left, Fraction(0)) - value_at(right, Fraction(0))
    at_1 = value_at(left, Fraction(1)) - value_at(right, Fraction(1))
    return -at_0 / (at_1 - at_0)


# -- one number changed --------------------------------------------------------------------


@given(st.integers(0, 10**6), st.integers(0, 3), st.sampled_from([-10, -2, -1, 1, 2, 9, 90]))
@settings(max_examples=120, deadline=None)
def test_any_single_number_change_of_a_line_is_caught(seed: int, at: int, by: int) -> None:
    source = random.Random(seed)
    root = Fraction(source.randint(-12, 12))
    first, second = linear_line(source, root), linear_line(source, root)
    changed = second.changed(at % len(second.numbers), Fraction(by))
    if all(map(holds_a_letter, (first, second, changed))):
        assert stands(first.text, second.text), (first.text, second.text)
        same = changed.solutions == first.solutions
        assert stands(first.text, changed.text) is same, (first.text, changed.text)


@given(st.lists(st.integers(-30, 30), min_size=2, max_size=4), SMALL, st.integers(0, 4), st.integers(1, 9))
@settings(max_examples=100, deadline=None)
def test_a_calculation_is_true_or_it_breaks(terms: list[int], factor: int, at: int, by: int) -> None:
    numbers = [*terms, factor]
    result = sum(terms) * factor
    changed = list(numbers)
    changed[at % len(changed)] += by
    for these in (numbers, changed):
        line = f"{these[-1]}({' + '.join(map(str, these[:-1])).replace('+ -', '- ')}) = {result}"
        verdict = mark_lines(Task(), [line]).lines[0].mark.verdict
        assert verdict is (Verdict.FOLLOWS if sum(these[:-1]) * these[-1] == result else Verdict.BREAKS), line


@given(st.integers(2, 40), st.integers(2, 40), st.integers(2, 40), st.integers(-3, 3))
@settings(max_examples=50, deadline=None)
def test_a_box_of_any_size_is_worked_and_a_wrong_width_caught(
    long: int, wide: int, high: int, off: int
) -> None:
    box = Task(
        ("V = L W H",),
        (("V", f"{long * wide * high} cm^3"), ("L", f"{long} cm"), ("H", f"{high} cm")),
        ("W",),
        ("cm",),
        measures=("V", "L", "W", "H"),
    )
    lines = [f"{long * wide * high} = {long} · W · {high}", f"W = {wide + off} cm"]
    verdicts = [line.mark.verdict for line in mark_lines(box, lines).lines]
    assert verdicts == [Verdict.FOLLOWS, Verdict.FOLLOWS if off == 0 else Verdict.BREAKS]


@given(st.integers(10, 400), st.integers(-40, 40))
@settings(max_examples=80, deadline=None)
def test_a_circumference_takes_correct_roundings_and_no_others(tenths: int, off: int) -> None:
    """r in tenths of a cm; with 3.14 the circumference ends, with 22/7 and pi it is rounded."""
    radius = Fraction(tenths, 10)
    hoop = Task(
        ("C = 2 pi r",), (("r", f"{written(radius)} cm"),), ("C",), ("cm",), Pi.DECIMAL, measures=("C", "r")
    )
    shown = Fraction(round(2 * Fraction(314, 100) * radius * 100) + off, 100)
    allowed = {
        Fraction(round(2 * pi * radius * 100), 100)
        for pi in (Fraction(314, 100), Fraction(22, 7), Fraction("3.14159265358979"))
    }
    line = f"C = {float(shown):.2f} cm"
    stood = mark_lines(hoop, [line]).lines[0].mark.verdict.stands
    halves = any(
        (2 * pi * radius * 100) % 1 == Fraction(1, 2) for pi in (Fraction(314, 100), Fraction(22, 7))
    )
    assert stood is (shown in allowed) or halves, line
