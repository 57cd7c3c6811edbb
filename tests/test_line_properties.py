"""What is printed reads as the same tree, and nothing that is typed makes the reader fall over."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from test_line import NAMES, spans_of

from tutor.line import tree
from tutor.line.layout import layout
from tutor.line.reader import MAX_LENGTH, Readings, Unread, read
from tutor.line.tree import Expr, Rel, Statement
from tutor.line.writing import write_statement
from tutor.quantity.units import read_unit

# -- print, then read ----------------------------------------------------------------------

LETTERS = st.sampled_from(["x", "A", "B", "b", "h", "r"])
UNITS = st.sampled_from(["cm", "cm^2", "in^3", "ft", "°", "kg"])


def _number(whole: int, hundredths: int) -> Expr:
    places = 2 if hundredths else 0
    text = f"{whole}.{hundredths:02d}" if hundredths else str(whole)
    return tree.Num(Fraction(text), text, places)


NUMBERS = st.builds(_number, st.integers(0, 9999), st.integers(0, 99))
ATOMS: st.SearchStrategy[Expr] = st.one_of(NUMBERS, st.builds(tree.Name, LETTERS), st.just(tree.PiSign()))


def _unit(inner: Expr, word: str) -> Expr:
    unit = read_unit(word)
    assert unit is not None
    return tree.Measure(inner, unit)


def _deeper(inner: st.SearchStrategy[Expr]) -> st.SearchStrategy[Expr]:
    several = st.lists(inner, min_size=2, max_size=3)
    return st.one_of(
        several.map(lambda terms: tree.Add(tuple(terms))),
        several.map(lambda factors: tree.Mul(tuple(factors))),
        st.builds(tree.Div, inner, inner),
        st.builds(tree.Pow, inner, st.builds(_number, st.integers(2, 4), st.just(0))),
        st.builds(tree.Root, st.sampled_from([2, 3, 4]), inner),
        st.builds(tree.Abs, inner),
        st.builds(tree.Neg, inner),
        st.builds(tree.Percent, NUMBERS),
        st.builds(_unit, NUMBERS, UNITS),
        st.builds(tree.PlusMinus, inner, ATOMS),
    )


EXPRESSIONS = st.recursive(ATOMS, _deeper, max_leaves=8)
RELS = st.sampled_from(list(Rel))
CHAINS = st.builds(
    lambda left, rest: tree.Chain((left, *(side for _, side in rest)), tuple(rel for rel, _ in rest)),
    EXPRESSIONS,
    st.lists(st.tuples(RELS, EXPRESSIONS), min_size=1, max_size=2),
)
STATEMENTS: st.SearchStrategy[Statement] = st.one_of(
    EXPRESSIONS.map(tree.Bare),
    CHAINS,
    st.builds(
        lambda joiner, left, right: tree.Joined(joiner, (left, right)),
        st.sampled_from(list(tree.Joiner)),
        CHAINS,
        CHAINS,
    ),
)


@given(STATEMENTS)
@settings(max_examples=250, deadline=None)
def test_print_then_read_gives_the_same_tree(statement: Statement) -> None:
    row = write_statement(statement)
    found = read(row, NAMES)
    assert isinstance(found, Readings), (row, found)
    assert found.statements[0] == statement, row


@given(STATEMENTS)
@settings(max_examples=80, deadline=None)
def test_every_node_of_a_read_line_stands_inside_it(statement: Statement) -> None:
    row = "so " + write_statement(statement)
    found = read(row, NAMES)
    assert isinstance(found, Readings), (row, found)
    for start, end in spans_of(found.statements[0]):
        assert 0 <= start <= end <= len(row)


# -- hostile text --------------------------------------------------------------------------

HOSTILE = [
    "9^9^9^9^9^9",
    "2^99999999999",
    "((((2^99)^99)^99)^99)^99",
    "1/0",
    "0^0",
    "0/0",
    "9" * 399,
    "9" * 5000,
    "1." + "0" * 390,
    "(" * 200 + "x" + ")" * 200,
    "(" * 5000,
    "|" * 399,
    "-" * 398 + "x",
    "+-" * 199,
    "x" + "^2" * 190,
    "√" * 300 + "9",
    "±" * 300,
    "= " * 150,
    "x=" * 150 + "x",
    "1/" * 150 + "1",
    "1/2x" * 60,
    "x or " * 70 + "x",
    "a" * 399,
    "ab" * 190,
    "__import__('os').system('true')",
    "().__class__.__bases__[0].__subclasses__()",
    "lambda: 0",
    "x = 1; import os",
    "{{7*7}}",
    "%s%s%n",
    "[/][bold red on blue]x",
    "[link=file:///]x[/link]",
    "<script>alert(1)</script>",
    "\x1b]0;title\x07",
    "\x1b[2J\x1b[H",
    "x\r\n= 3",
    "\u202e3 = x",
    "\u2066x\u2069 = 3",
    "x = \ufeff3",
    "x = \ud83d",
    "😀 = 3",
    "x = 😀",
    "x̶ = 3",
    "１２３＋４５６＝５７９",
    "x = ٣",
    "x = ३",
    "ⅷ + ⅻ",
    "²",
    "x²²²²²²²²",
    "x^²",
    "①+②",
    "𝟛x = 𝟞",
    "∞ - ∞",
    "ℵ₀",
    "NaN",
    "inf",
    "1e999",
    "0x1F",
    "1_000",
    "True",
    "None",
    "root(999, 2)",
    "root(0, 2)",
    "root(1, 2)",
    "root(, 2)",
    "½½½",
    "1 1 1/2",
    "?" * 300,
    "°" * 300,
    "% %",
    "..5",
    "…",
    "' OR 1=1 --",
]


@pytest.mark.timeout(30)
@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_text_gets_an_answer(text: str) -> None:
    found = read(text, NAMES)
    if isinstance(found, Unread):
        assert found.message.endswith((".", "?")) and found.message.isprintable()
        assert 0 <= found.span[0] <= found.span[1] <= len(text) + 1
    else:
        assert found.statements
        for statement in found.statements:
            assert isinstance(write_statement(statement), str)
            assert layout(statement) is not None


def test_a_line_past_the_limit_says_so() -> None:
    found = read("x" + " + 1" * 100, NAMES)
    assert isinstance(found, Unread) and found.too_long and str(MAX_LENGTH) in found.message


ANY_SIGN = st.characters(codec="utf-8")
LINE_SIGNS = st.sampled_from(list("0123456789xAbhr.,+-−*/=<>≤≥^²³√()[]{}|°%?±π½ ’'∠$ofrancm:;&!#\t"))


@given(st.text(ANY_SIGN, max_size=60))
@settings(max_examples=300, deadline=None)
def test_any_text_is_answered(text: str) -> None:
    assert isinstance(read(text, NAMES), Readings | Unread)


@given(st.text(LINE_SIGNS, max_size=40))
@settings(max_examples=700, deadline=None)
def test_any_run_of_signs_is_answered_and_can_be_printed(text: str) -> None:
    found = read(text, NAMES)
    if isinstance(found, Unread):
        assert 0 <= found.span[0] <= found.span[1] <= len(text) + 1, found
        assert found.message
        return
    for statement in found.statements:
        row = write_statement(statement)
        layout(statement)
        if row and len(row) <= MAX_LENGTH:
            assert isinstance(read(row, NAMES), Readings), (text, row)
