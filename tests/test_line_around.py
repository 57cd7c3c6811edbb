"""Each example beside a pattern for what stands around mathematics is found by that very pattern."""

import re

import pytest

from tutor.line.around import AFTER_ROWS, BEFORE_ROWS, NUMBERING_ROWS, Row
from tutor.line.names import Names
from tutor.line.phrases import peel
from tutor.line.reader import Readings, read
from tutor.line.walk import statement_names


@pytest.mark.parametrize("row", BEFORE_ROWS, ids=str)
def test_what_leads_in_is_found_in_front(row: Row) -> None:
    assert re.match(row.pattern, row.example, re.IGNORECASE)
    assert peel(row.example)[0] > 0


@pytest.mark.parametrize("row", NUMBERING_ROWS, ids=str)
def test_numbering_is_found_in_front(row: Row) -> None:
    assert re.match(row.pattern, row.example)
    assert peel(row.example)[0] > 0


@pytest.mark.parametrize("row", AFTER_ROWS, ids=str)
def test_what_is_said_behind_is_found(row: Row) -> None:
    assert re.search(row.pattern, row.example, re.IGNORECASE)
    assert peel(row.example)[1] < len(row.example)


def test_mathematics_alone_is_left_whole() -> None:
    for text in ("2x + 3 = 11", "3. 14", "x = 4 or x = −4", "5 + ?"):
        assert peel(text) == (0, len(text))


# Words of the language that can be pieces of a figure: where they are declared they are names.
PIECES = [
    "window",
    "board",
    "left",
    "right",
    "first",
    "rest",
    "base",
    "back",
    "check",
    "given",
    "half",
    "round",
    "square",
    "final",
    "answer",
    "added",
]
LINES = (
    "A = big - {0}",
    "A = big – {0}",
    "A = big + {0}",
    "A = {0} - big",
    "{0} = 20 - big",
    "A = 2 big - 2 {0}",
    "A = (big) - ({0})",
    "A = big - {0} cm²",
    "A=big-{0}",
)


@pytest.mark.parametrize("piece", PIECES)
@pytest.mark.parametrize("line", LINES)
def test_a_word_that_the_problem_declares_is_never_a_remark(piece: str, line: str) -> None:
    text = line.format(piece)
    found = read(text, Names(frozenset({"A", "big", piece})))
    assert isinstance(found, Readings), found
    wanted = {name for name in ("A", "big", piece) if name in text.split("cm")[0]}
    assert all(statement_names(statement) >= wanted for statement in found.statements)


@pytest.mark.parametrize("text", ["y = x · (−3 cm)", "y = 5 · (-3 m)", "y = 2 ·  (− 3)", "y = 4 − (−0 cm)"])
def test_a_bracket_behind_a_sign_is_no_remark(text: str) -> None:
    assert peel(text) == (0, len(text))


def test_a_remark_with_a_word_of_the_problem_is_still_a_remark() -> None:
    names = Names(frozenset({"wall", "A"}))
    for text in ("wall = 384 - area of the wall", "A = 20 (the wall alone)", "A = 20 - that is done"):
        found = read(text, names)
        assert isinstance(found, Readings), found
        assert len(statement_names(found.statements[0])) == 1
