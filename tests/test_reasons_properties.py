"""What a reason says is true: every number in it is worked out again, on random wrong lines."""

import re
from fractions import Fraction

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from marking_cases import BANNER, BOX, DISC, HOOP, LOOP, PENNANT, SUM, X
from reasons_golden import marked, room
from reasons_table import Example

from tutor.line.meaning import number_of
from tutor.line.names import Names
from tutor.line.reader import Readings, read
from tutor.line.tree import Chain, Expr, Name, Num, Rel
from tutor.line.walk import rebuilt, sides
from tutor.marking.task import Task
from tutor.marking.verdict import Mark, Reason, Verdict
from tutor.page.lettering import fold

LETTERS = Names(frozenset("xab"))
ROWS = 3
RELATIONS = st.sampled_from(["=", "=", "=", "<", "≥"])
COMPARED = {
    Rel.EQ: Fraction.__eq__, Rel.LT: Fraction.__lt__, Rel.LE: Fraction.__le__,
    Rel.GT: Fraction.__gt__, Rel.GE: Fraction.__ge__,
}  # fmt: skip


def marks(lines: list[str], task: Task = X) -> Mark:
    return marked(Example("", task, Reason.BOTH_SIDES, "", "", tuple(lines)))[-1].mark


def number(text: str) -> Fraction:
    return Fraction(text.replace("−", "-").replace(",", ""))


def values_at(text: str, at: dict[str, Fraction]) -> list[Fraction]:
    """Work out each side of a line, or an expression, with numbers in the place of letters."""

    def change(node: Expr) -> Expr:
        return Num(at[node.name], "") if isinstance(node, Name) else node

    found = read(text, LETTERS)
    assert isinstance(found, Readings)
    made = [number_of(rebuilt(side, change)) for side in sides(found.statements[0])]
    return [Fraction(value) for value in made if value is not None]


def holds(text: str, at: dict[str, Fraction]) -> bool:
    found = read(text, LETTERS)
    assert isinstance(found, Readings) and isinstance(found.statements[0], Chain)
    values = values_at(text, at)
    pairs = zip(values, found.statements[0].rels, values[1:], strict=False)
    return all(COMPARED[rel](left, right) for left, rel, right in pairs)


_VALUE = r"(−?[\d./]+)"
_SAYS = re.compile(rf"This line says x = {_VALUE}, but then line (\d+) says {_VALUE} = {_VALUE}\.")
_HERE = re.compile(
    rf"x = {_VALUE} fits this line, but not line (\d+): there {_VALUE} (.) {_VALUE} is not true"
)
_THERE = re.compile(rf"x = {_VALUE} fits line (\d+), but not this line")
_TRY = re.compile(rf"Try (.*): the line above gives {_VALUE}, this one {_VALUE}\.")


def check_witness(lines: list[str], message: str) -> None:
    """Put the numbers of a message into the lines that it speaks of."""
    if found := _SAYS.search(message):
        at = {"x": number(found[1])}
        assert holds(lines[-1], at)
        assert values_at(lines[int(found[2]) - 1], at) == [number(found[3]), number(found[4])]
        assert number(found[3]) != number(found[4])
    if found := _HERE.search(message):
        at = {"x": number(found[1])}
        assert holds(lines[-1], at) and not holds(lines[int(found[2]) - 1], at)
        assert {number(found[3]), number(found[5])} <= set(values_at(lines[int(found[2]) - 1], at))
    if found := _THERE.search(message):
        at = {"x": number(found[1])}
        assert holds(lines[int(found[2]) - 1], at) and not holds(lines[-1], at)


def check_looks(lines: list[str], mark: Mark) -> None:
    assert mark.span is not None
    assert 0 <= mark.span[0] < mark.span[1] <= len(lines[-1])
    assert mark.message[-1] in ".?" and len(fold(mark.message, room(80))) <= ROWS, mark.message


def side(x: int, constant: int) -> str:
    return f"{x}x + {constant}".replace("+ -", "- ") if constant else f"{x}x"


coefficients = st.integers(-9, 9).filter(bool)
constants = st.integers(-40, 40)


@settings(max_examples=400, deadline=None)
@given(
    coefficients, constants, coefficients, constants, RELATIONS, coefficients, constants, constants, RELATIONS
)
def test_what_is_said_of_a_wrong_line_is_true(
    a: int, b: int, c: int, d: int, rel: str, e: int, f: int, g: int, other: str
) -> None:
    assume(a != c and (rel == "=") == (other == "="))
    lines = [f"{side(a, b)} {rel} {side(c, d)}", f"{side(e, f)} {other} {g}"]
    mark = marks(lines)
    if mark.verdict is not Verdict.BREAKS:
        return
    check_looks(lines, mark)
    check_witness(lines, mark.message)
    answer = Fraction(d - b, a - c)
    said = {number(found) for found in re.findall(r"(?<![\w./])−?\d+(?:[./]\d+)?", mark.message)}
    typed = {number(found) for found in re.findall(r"\d+", " ".join(lines))}
    if rel == "=" and answer not in typed | {-one for one in typed} and answer not in (1, 2, 3, 4):
        assert not re.search(rf"x = {str(answer).replace('-', '−')}(?![\d./])", mark.message)
        assert answer not in said or "taken away" in mark.message or "added" in mark.message


@settings(max_examples=200, deadline=None)
@given(coefficients, constants, coefficients, constants)
def test_the_numbers_for_an_expression_are_true(a: int, b: int, c: int, d: int) -> None:
    lines = [f"{a}({b}a + {c}b)".replace("(0a + ", "("), f"{d}a + {a}b"]
    mark = marks(lines, SUM)
    if mark.verdict is not Verdict.BREAKS:
        return
    check_looks(lines, mark)
    found = _TRY.search(mark.message)
    assert found is not None
    at = {name: number(value) for name, value in re.findall(rf"(\w) = {_VALUE}", found[1])}
    assert [values_at(text, at)[0] for text in lines] == [number(found[2]), number(found[3])]


WORKS = [
    (BOX, ["V = L W H", "420 = 10 · W · 6", "420 = 60W", "420/60 = W", "W = 7 cm"]),
    (HOOP, ["C = 2πr", "47.1 = 2 · 3.14 · r", "47.1 = 6.28r", "r = 47.1/6.28", "r = 7.5 cm"]),
    (DISC, ["A = πr^2", "A = 3.14 · 5^2", "A = 3.14 · 25", "A = 78.5 cm^2"]),
    (LOOP, ["P = 2s + πd", "150.5 = 2s + 3.14 · 25", "150.5 = 2s + 78.5", "72 = 2s", "s = 36 m"]),
    (PENNANT, ["A = 1/2 b h", "44 = 1/2 · 11 · h", "44 = 5.5h", "h = 44/5.5", "h = 8 in"]),
    (BANNER, ["A = L W", "A = 8 · 5", "A = 40 ft^2"]),
    (X, ["2(x + 5) - 3x = 4x - 5", "2x + 10 - 3x = 4x - 5", "-x + 10 = 4x - 5", "15 = 5x", "x = 3"]),
    (X, ["(x - 2)(x + 5) = 0", "x - 2 = 0 or x + 5 = 0", "x = 2 or x = -5"]),
    (X, ["3/(x - 2) = 5", "3 = 5(x - 2)", "3 = 5x - 10", "13 = 5x", "x = 2.6"]),
    (X, ["-3 < 2x + 1 < 7", "-4 < 2x < 6", "-2 < x < 3"]),
    (SUM, ["24 - |19 - 3(6 - 2)|", "24 - |19 - 12|", "24 - 7", "17"]),
    (SUM, ["2 · 6 · 3 + 2 · 3 · 2", "= 36 + 12", "= 48"]),
]


OTHER_SIGN = {"+": "-", "-": "+", "<": ">", ">": "<"}


def changes(text: str) -> list[str]:
    """Every line that one other number or one other sign makes of a line."""
    made: list[str] = []
    for found in re.finditer(r"\d+(?:\.\d+)?|[+\-<>]", text):
        old = found[0]
        others = [OTHER_SIGN[old]] if old in OTHER_SIGN else [f"{old}1", "2", "13", "0.5"]
        made += [text[: found.start()] + new + text[found.end() :] for new in others if new != old]
    return made


@pytest.mark.parametrize("work", range(len(WORKS)))
def test_every_line_with_one_thing_changed_is_well_explained(work: int) -> None:
    task, lines = WORKS[work]
    broken = 0
    for at in range(1, len(lines)):
        for wrong in changes(lines[at]):
            tried = [*lines[:at], wrong]
            mark = marks(tried, task)
            if mark.verdict is not Verdict.BREAKS:
                continue
            broken += 1
            check_looks(tried, mark)
            check_witness(tried, mark.message)
            assert _tells_no_answer(lines[-1], tried, mark.message), (tried, mark.message)
    assert broken > 5


def _tells_no_answer(answer: str, tried: list[str], message: str) -> bool:
    """No number that only the last line has stands in the message."""
    typed = set(re.findall(r"\d+(?:\.\d+)?", " ".join(tried)))
    only = set(re.findall(r"\d+(?:\.\d+)?", answer)) - typed - {"2", "3"}
    return only.isdisjoint(re.findall(r"\d+(?:\.\d+)?", re.sub(r"line \d", "", message)))
