"""Typed lines: what they are read as, where their parts stand, what is said of one that cannot be read."""

import subprocess
import sys
from collections.abc import Iterator

import pytest

from tutor.line import tree
from tutor.line.layout import layout
from tutor.line.names import Names
from tutor.line.reader import Readings, Unread, read
from tutor.line.tree import Span, Statement
from tutor.line.writing import write_statement

NAMES = Names(frozenset({"x", "A", "B", "b", "h", "r"}))


def readings(text: str, names: Names = NAMES) -> tuple[Statement, ...]:
    found = read(text, names)
    assert isinstance(found, Readings), f"{text!r}: {found}"
    return found.statements


def first(text: str, names: Names = NAMES) -> Statement:
    return readings(text, names)[0]


# -- what a line is read as ----------------------------------------------------------------

# The typed line, and the same line written on one row.
CORPUS = [
    # products, sums and brackets
    ("2(x+5)=3x", "2 · (x + 5) = 3 · x"),
    ("3x+12+x+8=180", "3 · x + 12 + x + 8 = 180"),
    ("3.14(6)(6)", "3.14 · 6 · 6"),
    ("[2+3]{4}", "(2 + 3) · 4"),
    ("6 × 7", "6 · 7"),
    ("6*7", "6 · 7"),
    ("6·7", "6 · 7"),
    ("6•7", "6 · 7"),
    ("6 ⋅ 7", "6 · 7"),
    ("84 ÷ 2", "84/2"),
    ("84/2", "84/2"),
    ("84 : 2 = 42", "84/2 = 42"),
    ("10 - 3(2)", "10 − 3 · 2"),
    ("x·-3", "x · (−3)"),
    ("20% of 45", "20% · 45"),
    ("xx", "x · x"),
    # signs
    ("-x", "−x"),
    ("−x", "−x"),
    ("180-x", "180 − x"),
    ("180–x", "180 − x"),
    ("180—x", "180 − x"),
    ("3--2", "3 − (−2)"),
    ("+5", "5"),
    ("-3^2", "−3^2"),
    ("(-3)^2", "(−3)^2"),
    # numbers
    (".5", ".5"),
    ("3.", "3"),
    ("1,250", "1,250"),
    ("1,250.5", "1,250.5"),
    ("12,345,678", "12,345,678"),
    ("50%", "50%"),
    ("3 1/2", "3 1/2"),
    ("2½", "2½"),
    ("0.333...", "0.333..."),
    ("π", "π"),
    ("pi", "π"),
    ("PI", "π"),
    ("$5.50", "$5.50"),
    # fractions and letters beside them
    ("A = 1/2 b h", "A = (1/2) · b · h"),
    ("A=½bh", "A = (½) · b · h"),
    ("3/4 x", "(3/4) · x"),
    ("1 1/2 x", "(1 1/2) · x"),
    ("(x+1)/(x-1)", "(x + 1)/(x − 1)"),
    # powers and roots
    ("r^2=81", "r^2 = 81"),
    ("r²=81", "r^2 = 81"),
    ("r**2=81", "r^2 = 81"),
    ("2^3^2", "2^(3^2)"),
    ("x^-2", "x^(−2)"),
    ("√81", "√(81)"),
    ("sqrt(81)", "√(81)"),
    ("SQRT(81)", "√(81)"),
    ("√9+16", "√(9) + 16"),
    ("√(9+16)", "√(9 + 16)"),
    ("2√3", "2 · √(3)"),
    ("∛27", "∛(27)"),
    ("cbrt(27)", "∛(27)"),
    ("root(4, 16)", "∜(16)"),
    # bars
    ("|x|", "|x|"),
    ("2|x|", "2 · |x|"),
    ("|x-3| = 5", "|x − 3| = 5"),
    ("|-3|+|4|", "|−3| + |4|"),
    # pi beside letters
    ("2πr", "2 · π · r"),
    ("2pir", "2 · π · r"),
    ("2 pi r", "2 · π · r"),
    ("πr²", "π · r^2"),
    # angles and units
    ("37°", "37°"),
    ("37 deg", "37°"),
    ("37 degrees", "37°"),
    ("∠A + ∠B = 90", "A + B = 90"),
    ("m∠A = 40°", "A = 40°"),
    ("angle A = 40", "A = 40"),
    ("18 ft^2", "18 ft²"),
    ("18 ft²", "18 ft²"),
    ("18 sq ft", "18 ft²"),
    ("18 sq. ft", "18 ft²"),
    ("18 square feet", "18 ft²"),
    ("18 cubic inches", "18 in³"),
    ("5.2cm", "5.2 cm"),
    ("5 m", "5 m"),
    ("12.56 in.", "12.56 in"),
    ("5 ft 6 in", "5 ft + 6 in"),
    ("2 ft * 6 in", "(2 ft) · (6 in)"),
    ("60 miles/second", "60 mi/s"),
    ("r = 6 cm", "r = 6 cm"),
    # comparisons, chains, lines that go on
    ("4 + 6 > 9", "4 + 6 > 9"),
    ("x ≥ 3", "x ≥ 3"),
    ("x >= 3", "x ≥ 3"),
    ("x <= 3", "x ≤ 3"),
    ("x != 3", "x ≠ 3"),
    ("x ~ 3.3", "x ≈ 3.3"),
    ("1<x<5", "1 < x < 5"),
    ("2·6·3 + 2·3·2 = 36 + 12 = 48", "2 · 6 · 3 + 2 · 3 · 2 = 36 + 12 = 48"),
    ("= 48", "= 48"),
    ("= 36 + 12 = 48", "= 36 + 12 = 48"),
    # several answers on one line
    ("x = 4 or x = -4", "x = 4 or x = −4"),
    ("x = 4 or -4", "x = 4 or x = −4"),
    ("x = ±4", "x = ±4"),
    ("x = +/-4", "x = ±4"),
    ("x = 1 ± 2", "x = 1 ± 2"),
    ("x = 3, x = −3", "x = 3, x = −3"),
    ("x=3; A=4", "x = 3, A = 4"),
    ("A = 35° and B = 55°", "A = 35° and B = 55°"),
    ("x = ?", "x = ?"),
    # whole-line words
    ("no solution", "no solution"),
    ("No solutions.", "no solution"),
    ("all numbers", "all numbers"),
    ("x = all numbers", "all numbers"),
    ("infinitely many", "all numbers"),
    ("no", "no"),
    ("Yes", "yes"),
    # words around a line
    ("so x = 4", "x = 4"),
    ("then x = 4", "x = 4"),
    ("therefore, x=4", "x = 4"),
    ("∴ x = 4", "x = 4"),
    ("x = 4 because 3x = 12", "x = 4"),
    ("check: 3(4) = 12", "3 · 4 = 12"),
    # pasted from a document
    ("ｘ＝３", "x = 3"),
    ("９＋１", "9 + 1"),
    ("𝑥 + 1 = 2", "x + 1 = 2"),
    ("x\u00a0=\u00a03", "x = 3"),
    ("\tx = 3 ", "x = 3"),
    # letters in the problem's own case
    ("X = 3", "x = 3"),
    ("a = 3", "A = 3"),
    ("R^2 = 81", "r^2 = 81"),
]


@pytest.mark.parametrize(("text", "row"), CORPUS)
def test_a_line_is_read_as(text: str, row: str) -> None:
    assert write_statement(first(text)) == row


@pytest.mark.parametrize(("text", "row"), CORPUS)
def test_what_is_printed_reads_as_the_same_tree(text: str, row: str) -> None:
    assert first(row) == first(text)


@pytest.mark.parametrize(("text", "_row"), CORPUS)
def test_every_line_of_the_corpus_can_be_laid_out(text: str, _row: str) -> None:
    rows = layout(first(text))
    assert rows and any(row.strip() for row in rows)


def test_a_root_of_a_letter() -> None:
    assert write_statement(first("√x = 3")) == "√(x) = 3"


TWO_READINGS = [
    ("1/2x", "(1/2) · x", "1/(2 · x)"),
    ("3/4πr", "(3/4) · π · r", "3/(4 · π · r)"),
    ("x/2b", "(x/2) · b", "x/(2 · b)"),
    ("1/2bh", "(1/2) · b · h", "1/(2 · b · h)"),
]


@pytest.mark.parametrize(("text", "likely", "other"), TWO_READINGS)
def test_a_fraction_with_letters_close_behind_keeps_both_readings(text: str, likely: str, other: str) -> None:
    assert [write_statement(found) for found in readings(text)] == [likely, other]


@pytest.mark.parametrize("text", ["3/4 x", "1/2 b h", "(1/2)x", "x/2 · b", "½x"])
def test_a_space_or_a_bracket_leaves_one_reading(text: str) -> None:
    assert len(readings(text)) == 1


@pytest.mark.parametrize(
    "text",
    [
        "I think so",
        "that is half the box",
        "now the lantern is done",
        "so",
        "therefore",
        "because of the hoop",
    ],
)
def test_words_alone_are_a_note(text: str) -> None:
    assert isinstance(first(text), tree.Note)


# -- names ---------------------------------------------------------------------------------


def test_m_is_a_length_where_the_problem_has_one_and_else_a_unit() -> None:
    assert first("5m = 20", Names(frozenset({"m"}))) == first("5·m = 20", Names(frozenset({"m"})))
    assert first("5m", NAMES) == first("5 metres")


def test_the_length_s_of_a_problem_is_no_second_even_behind_a_number() -> None:
    names = Names(frozenset({"P", "s", "d"}))
    assert write_statement(first("P = 2s + πd", names)) == "P = 2 · s + π · d"


# A unit that is a name of the problem too, in this case or the other: a space tells which is likelier.
IN_OTHER_CASE = [
    ("l", "V = 112 L", ["V = 112 L", "V = 112 · l"]),
    ("l", "V = 112L", ["V = 112 · l", "V = 112 L"]),
    ("l", "8 L/2", ["(8 L)/2", "8 · (l/2)"]),
    ("M", "a = 8 m²", ["a = 8 m²", "a = 8 · M^2"]),
    ("H", "v = 60 km/h", ["v = 60 km/h", "v = (60 km)/H"]),
    ("h", "v = 60 km/h", ["v = (60 km)/h", "v = 60 km/h"]),
    ("l", "V = 112 l", ["V = 112 · l", "V = 112 L"]),
    ("h", "V = 2 h", ["V = 2 · h", "V = 2 h"]),
    ("h", "V = 2h", ["V = 2 · h"]),
    ("h", "V = 2 h a", ["V = 2 · h · a"]),
]


@pytest.mark.parametrize(("name", "text", "rows"), IN_OTHER_CASE)
def test_a_unit_that_is_a_name_too_keeps_both_readings(name: str, text: str, rows: list[str]) -> None:
    found = read(text, Names(frozenset({"V", "a", "v", name})))
    assert isinstance(found, Readings)
    assert [write_statement(statement) for statement in found.statements] == rows


def test_two_names_that_differ_by_case_are_two_names() -> None:
    names = Names(frozenset({"b", "B"}))
    assert write_statement(first("b + B", names)) == "b + B"


def test_a_declared_word_is_one_name_and_an_undeclared_one_is_no_product() -> None:
    declared = Names(frozenset({"SA", "area"}))
    assert first("SA = 12", declared) == first("sa = 12", declared)
    assert write_statement(first("area = 12", declared)) == "area = 12"
    assert write_statement(first("total = 12", NAMES)) == "total = 12"
    unread = read("total + 3", NAMES)
    assert isinstance(unread, Unread) and unread.span == (0, 5) and "total" in unread.message


def test_letters_side_by_side_multiply_where_all_are_names() -> None:
    names = Names(frozenset({"V", "L", "W", "H"}))
    assert write_statement(first("V = LWH", names)) == "V = L · W · H"
    assert write_statement(first("v = lwh", names)) == "V = L · W · H"


# -- what cannot be read -------------------------------------------------------------------

# The line, where to look, and a piece of the sentence.
UNREAD = [
    ("3,14", (0, 4), "3.14"),
    ("x = 3,14", (4, 8), "3.14"),
    ("1,25", (0, 4), "1.25"),
    ("x + = 3", (4, 5), "missing"),
    ("x =", (3, 3), "missing"),
    ("2x + 3 =", (8, 8), "missing"),
    ("3 * / 4", (4, 5), "missing"),
    ("2(x+3", (1, 2), "not closed"),
    ("|x - 3", (0, 1), "not closed"),
    ("x+3)", (3, 4), "closes nothing"),
    ("(x+3]", (4, 5), "Close “(” with “)”"),
    ("()", (1, 2), "missing"),
    ("3 4", (2, 3), "side by side"),
    ("1.5.2", (3, 5), "side by side"),
    ("x2", (0, 2), "2x"),
    ("x∈3", (1, 2), "∈"),
    ("5!", (1, 2), "!"),
    ("", (0, 1), "Type a line"),
    ("   ", (0, 3), "Type a line"),
    ("\x00", (0, 1), "hidden sign"),
    ("x\x1b[31m=3", (1, 2), "hidden sign"),
    ("\u202ex=3", (0, 1), "hidden sign"),
    ("x\u2067=3", (1, 2), "hidden sign"),
    ("x = 3 or A = 4 and B = 5", (0, 24), "only “or” or only “and”"),
]


@pytest.mark.parametrize(("text", "span", "piece"), UNREAD)
def test_a_line_that_cannot_be_read_says_where_and_why(text: str, span: Span, piece: str) -> None:
    found = read(text, NAMES)
    assert isinstance(found, Unread), found
    start, end = found.span
    assert piece in found.message
    assert start == span[0] and start <= end
    if span[0] < len(text):
        assert found.span[1] == span[1] or not text.strip()


MARKUP = ["[/]", "[red]x[/red]", "[@click=app.quit]x[/]", "<b>x</b>", "'); x = 4"]
NO_MATHS_OF_SCHOOL = ["sin(30)", "log(x) = 2", "f(x)!", "__import__('os')", "x \\cdot 3"]


@pytest.mark.parametrize("text", [*MARKUP, "f(x)!", "2e3"])
def test_foreign_writing_is_unread_with_a_plain_sentence(text: str) -> None:
    found = read(text, NAMES)
    assert isinstance(found, Unread) and found.message.endswith((".", "?"))


@pytest.mark.parametrize("text", NO_MATHS_OF_SCHOOL)
def test_an_undeclared_word_is_never_a_product_of_its_letters(text: str) -> None:
    found = read(text, NAMES)
    assert isinstance(found, Unread) or isinstance(found.statements[0], tree.Note)


# -- spans ---------------------------------------------------------------------------------

# The line, and texts of parts that some node of the tree must stand on.
SPANS = [
    ("2(x+5) = 3x", ["2", "x", "5", "(x+5)", "2(x+5)", "3x", "2(x+5) = 3x"]),
    ("so  x = 4/3", ["x", "4/3", "x = 4/3"]),
    ("r = 6 cm", ["r", "6 cm"]),
    ("x = 4 or x = -4", ["x = 4", "-4", "x = -4"]),
    ("A = ½bh", ["A", "½", "b", "h", "½bh"]),
    ("√(9 + 16) = 5", ["√(9 + 16)", "9 + 16", "5"]),
    ("ｘ＝３", ["ｘ", "３"]),
    ("𝑥 + 1 = 2", ["𝑥", "𝑥 + 1", "2"]),
    ("|x - 3| = 5", ["|x - 3|", "x - 3", "5"]),
    ("x^2 = 3 1/2", ["x^2", "3 1/2"]),
]


def spans_of(node: object) -> Iterator[Span]:
    if isinstance(node, tuple):
        for inner in node:
            yield from spans_of(inner)
    elif hasattr(node, "span"):
        yield node.span
        for name in getattr(node, "__slots__", ()):
            if name != "span":
                yield from spans_of(getattr(node, name))


@pytest.mark.parametrize(("text", "parts"), SPANS)
def test_spans_stand_on_the_typed_text(text: str, parts: list[str]) -> None:
    standing = {text[start:end] for start, end in spans_of(first(text))}
    for part in parts:
        assert part in standing, standing


def test_the_reader_needs_neither_sympy_nor_the_page() -> None:
    code = (
        "import sys; import tutor.line.reader as r; r.read('2x = 4');"
        "print('sympy' in sys.modules, 'textual' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["False", "False"]
