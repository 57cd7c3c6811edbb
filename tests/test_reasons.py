"""The table of reasons: each example replayed, its words weighed, its looks compared."""

import ast
import re
from pathlib import Path

import pytest
from marking_cases import BOX, LOOP, X
from reasons_golden import COLUMNS, marked, path, rendered, room
from reasons_table import EXAMPLES, Example

from tutor.line.meaning import PLAIN
from tutor.line.reader import Readings, read
from tutor.marking.telling.reasons import why_no_value
from tutor.marking.verdict import Reason, Verdict
from tutor.marking.working import mark_lines
from tutor.page.lettering import fold

MARKING = Path(__file__).parent.parent / "tutor" / "marking"
ROWS, MOST_WORDS, LONGEST_WORD = 3, 16, 11


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: example.shows)
def test_an_example_gets_its_reason(example: Example) -> None:
    *above, line = marked(example)
    assert [one.mark.verdict.stands for one in above] == [True] * len(above)
    unread = example.reason in (Reason.SYNTAX, Reason.TOO_LONG)
    assert line.mark.verdict is (Verdict.UNREAD if unread else Verdict.BREAKS)
    assert line.mark.span is not None
    start, end = line.mark.span
    said = (line.mark.reason, line.text[start:end], line.mark.message)
    assert said == (example.reason, example.part, example.message)


def test_every_reason_has_an_example() -> None:
    assert {example.reason for example in EXAMPLES} == set(Reason) - {Reason.SLIP}
    assert len({example.shows for example in EXAMPLES}) == len(EXAMPLES)


# Sentences that a line gets only from the reasons for a division by 0, tested below.
_FILES = (
    "reasons",
    "solutions_changed",
    "useless",
    "witness",
    "units_check",
    "untrue",
    "sides_kept",
    "put_back",
    "lone_number",
    "rounded_wrong",
    "copied_wrong",
    "standing_for",
)
_BY_ITSELF = (
    "Nothing can be divided by 0",
    "Is this your answer?",  # a note beside a number alone
    "Then write",
    "equal part",  # what is counted: no sentence
    "has no value",
    "Write this part",
    "is 0 here",
    "the bottom",
    "Look at this",
)


def _sentences(file: str) -> set[str]:
    """Return the pieces of sentences in a file: strings with spaces in them that are neither docstrings nor for programmers."""
    (path,) = MARKING.rglob(f"{file}.py")
    tree = ast.parse(path.read_text(encoding="utf-8"))
    docs = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    docs |= {
        id(inner)
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and _compiles(node)
        for inner in ast.walk(node)
    }
    docs |= {id(inner) for node in ast.walk(tree) if isinstance(node, ast.Raise) for inner in ast.walk(node)}
    texts = {
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docs
    }
    return {
        piece.strip() for text in texts for piece in re.split(r"(?<=[.?]) ", text) if " " in piece.strip()
    }


def _compiles(call: ast.Call) -> bool:
    """A regular expression is no sentence."""
    return isinstance(call.func, ast.Attribute) and call.func.attr == "compile"


@pytest.mark.parametrize("file", _FILES)
def test_every_sentence_has_an_example(file: str) -> None:
    messages = "\n".join(example.message for example in EXAMPLES)
    missing = {
        piece
        for piece in _sentences(file)
        if piece not in messages and not any(known in piece for known in _BY_ITSELF)
    }
    assert missing == set()


# -- words ---------------------------------------------------------------------------------


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: example.shows)
def test_a_message_is_short_and_plain(example: Example) -> None:
    sentences = re.split(r"(?<=[.?]) ", example.message)
    assert 1 <= len(sentences) <= 3 and all(sentence[-1] in ".?" for sentence in sentences)
    for sentence in sentences:
        words = re.findall(r"[A-Za-z]{2,}", sentence)
        assert len(words) <= MOST_WORDS, sentence
        assert all(len(word) <= LONGEST_WORD for word in words), sentence
    assert len(fold(example.message, room(80))) <= ROWS
    assert "-" not in example.message or example.reason is Reason.SYNTAX


RARE = (
    "coefficient", "constant", "denominator", "numerator", "variable", "equivalent", "expression", "evaluate",
    "operation", "simplify", "incorrect", "invalid", "wrong", "error", "mistake", "failed", "obviously", "just",
)  # fmt: skip


def test_no_rare_word_and_no_blame() -> None:
    said = {word for example in EXAMPLES for word in re.findall(r"[a-z]+", example.message.lower())}
    assert said.isdisjoint(RARE)


@pytest.mark.parametrize("columns", COLUMNS)
def test_the_looks_are_those_that_were_read(columns: int) -> None:
    """A change is read first; then ``python tests/reasons_golden.py`` writes both texts anew."""
    assert rendered(columns) == path(columns).read_text(encoding="utf-8")


# -- single reasons ------------------------------------------------------------------------

NO_VALUE = [
    ("5/0 = 3", "5/0", "Nothing can be divided by 0. Look at this part once more."),
    ("6/(3 - 3) = 2", "6/(3 - 3)", "3 − 3 is 0 here. Nothing can be divided by 0."),
    ("0^0 = 1", "0^0", "0 to the power 0 has no value. Write this part another way."),
    ("x = 2 + 0^(-1)", "0^(-1)", "Nothing can be divided by 0. Look at this part once more."),
    ("x = 1", "x = 1", "Nothing can be divided by 0. Look at this line once more."),
]


@pytest.mark.parametrize(("text", "part", "message"), NO_VALUE)
def test_a_division_by_zero_is_refused_in_words(text: str, part: str, message: str) -> None:
    found = read(text)
    assert isinstance(found, Readings)
    why = why_no_value(found.statements[0], PLAIN)
    start, end = why.span
    assert (why.reason, text[start:end].strip("()"), why.message) == (
        Reason.NOT_TRUE,
        part.strip("()"),
        message,
    )


def test_a_number_that_the_problem_needs_is_not_called_useless() -> None:
    """Only the number that is out of place is named, and only where the rest of the line is right."""
    for lines in (
        ["3.14·25 = 78.5", "150.5 = 2s - 78.5"],  # the number is right, its sign is not
        ["150.5 - 78.5 = 72", "s = 72"],  # 2s is 72
        ["150.5/2 = 75.25", "s + 39.52 = 75.25"],  # the other number is wrong
        ["3.14·50 = 157", "150.5 = 3s + 157"],  # two numbers are wrong
    ):
        assert "comes from" not in _last_message(lines)
    assert "comes from line 1" in _last_message(["3.14·50 = 157", "150.5 = 2s + 157"])


def _last_message(lines: list[str]) -> str:
    return marked(Example("", LOOP, Reason.VALUE_CHANGED, "", "", tuple(lines)))[-1].mark.message


def test_a_witness_is_never_an_answer() -> None:
    for texts in (["x = 240/3", "x = 70"], ["3x = 240", "x = 240/3", "x = 70"]):
        message = mark_lines(X, texts).lines[-1].mark.message
        assert "80" not in message.replace("−", "-").split("240")[-1], message
    assert "7" not in re.findall(r"\d+", mark_lines(BOX, ["420 = 10·W·6", "W = 8"]).lines[-1].mark.message)
