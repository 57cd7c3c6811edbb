"""Lines as they are printed and typed: each is read as a person means it, or gets a sentence of its own.

The rows stand in ``line_printed.tsv`` and ``line_unread.tsv``: written for these tests from what is
common in print and on paper (common practice, no source). The names of the problem are x and y,
and any letter close behind a number.
"""

import re
from pathlib import Path

import pytest

from tutor.line.layout import layout
from tutor.line.names import Names, attached_letters
from tutor.line.reader import Readings, Unread, read
from tutor.line.tree import Note
from tutor.line.writing import write_statement


def rows(name: str) -> list[list[str]]:
    text = (Path(__file__).parent / name).read_text(encoding="utf-8")
    return [row.split("\t") for row in text.splitlines() if not row.startswith("#")]


PRINTED = rows("line_printed.tsv")
UNREAD = rows("line_unread.tsv")


def names_of(text: str) -> Names:
    return Names(frozenset({"x", "y"}) | attached_letters(text))


def written(text: str, names: Names) -> list[str]:
    found = read(text, names)
    assert isinstance(found, Readings), (text, found)
    return [write_statement(statement) for statement in found.statements]


@pytest.mark.parametrize(("text", "meant"), PRINTED)
def test_a_printed_line_is_read_as_it_is_meant(text: str, meant: str) -> None:
    assert " || ".join(written(text, names_of(text))) == meant


@pytest.mark.parametrize(("text", "meant"), PRINTED)
def test_what_is_written_back_is_the_same_line(text: str, meant: str) -> None:
    names, row = names_of(text), meant.split(" || ")[0]
    again, found = read(row, names), read(text, names)
    assert isinstance(again, Readings) and isinstance(found, Readings)
    assert again.statements[0] == found.statements[0]
    assert layout(again.statements[0]) == layout(found.statements[0])


@pytest.mark.parametrize(("text", "start", "end", "message"), UNREAD)
def test_a_line_that_is_not_read_says_where_and_what_to_do(
    text: str, start: str, end: str, message: str
) -> None:
    found = read(text, names_of(text))
    assert isinstance(found, Unread), found
    assert (found.span, found.message) == ((int(start), int(end)), message)


@pytest.mark.parametrize("message", sorted({row[3] for row in UNREAD}))
def test_a_sentence_is_short_and_plain(message: str) -> None:
    sentences = [part for part in re.split(r"(?<=[.?!])\s+", message) if part]
    assert 1 <= len(sentences) <= 3 and message[0].isupper() and message[-1] in ".?"
    assert all(len(sentence.split()) <= 14 for sentence in sentences)


SAID_IN_WORDS = [
    "Let x = the number",
    "let x be the width",
    "Let w = width",
    "n = the number of candles",
    "C = total cost",
    "the answer is four",
    "half of 20",
    "I took 3 away",
]


@pytest.mark.parametrize("text", SAID_IN_WORDS)
def test_what_is_said_in_words_is_kept_and_not_judged(text: str) -> None:
    found = read(text, names_of(text))
    assert isinstance(found, Readings) and isinstance(found.statements[0], Note)


# -- names of the problem decide -----------------------------------------------------------

# The line, the names of its problem, and what it is read as.
BY_NAMES = [
    ("V = LWH", "V L W H", "V = L · W · H"),
    ("I = Prt", "I P r t", "I = P · r · t"),
    ("SA = 2(LW + LH + WH)", "SA L W H", "SA = 2 · (L · W + L · H + W · H)"),
    ("SA = LA + 2B", "SA LA B", "SA = LA + 2 · B"),
    ("SA = Ph + 2B", "SA P h B", "SA = P · h + 2 · B"),
    ("AB = 5 cm", "AB", "AB = 5 cm"),
    ("AB + BC = AC", "AB BC AC", "AB + BC = AC"),
    ("3 × 4", "x", "3 · 4"),
    ("2 x 3.14 x r", "r", "2 · 3.14 · r"),
    ("6 x 4 = 24", "", "6 · 4 = 24"),
    ("2 ft x 6 in", "A", "(2 ft) · (6 in)"),
    ("x₁ + x_1", "x_1", "x_1 + x_1"),
    ("f(2) = 7", "f", "f · 2 = 7"),
    ("d = 60 t", "d t", "d = 60 · t"),
    ("15 h = 3", "h", "15 · h = 3"),
    ("15 h", "x", "15 h"),
    ("7 r 2", "r", "7 · r · 2"),
    ("m∠1 = 4x", "∠1 x", "∠1 = 4 · x"),
    ("A + B = 90", "∠A ∠B", "∠A + ∠B = 90"),
    ("area = bh", "area b h", "area = b · h"),
    ("10pqr", "", "10 · p · q · r"),
]


@pytest.mark.parametrize(("text", "names", "meant"), BY_NAMES)
def test_the_names_of_the_problem_decide(text: str, names: str, meant: str) -> None:
    assert written(text, Names(frozenset(names.split())))[0] == meant


def test_two_ways_to_divide_are_both_kept() -> None:
    assert written("8 ÷ 2(2+2)", Names()) == ["8/(2 · (2 + 2))", "(8/2) · (2 + 2)"]


def test_an_x_between_numbers_is_a_letter_first_and_a_times_sign_second_where_x_is_a_name() -> None:
    assert written("3 x 4 x 5", Names(frozenset("x"))) == ["3 · x · 4 · x · 5", "3 · 4 · 5"]


@pytest.mark.parametrize("text", ["x =", "2(x + ", "x = 4 or", "3 to", "so x =", "√", "x ≥ "])
def test_what_is_missing_at_the_end_is_looked_for_inside_the_line(text: str) -> None:
    found = read(text, names_of(text))
    assert isinstance(found, Unread)
    assert found.span[0] <= found.span[1] <= len(text)
