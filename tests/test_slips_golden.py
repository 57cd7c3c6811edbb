"""The messages of known wrong moves: their looks compared, their words weighed."""

import re

import pytest
from reasons_golden import COLUMNS, room
from slips_golden import ROWS, marked, path, rendered
from slips_table import Row

from tutor.page.lettering import fold

MOST_ROWS, MOST_WORDS, LONGEST_WORD = 3, 16, 11


@pytest.mark.parametrize("columns", COLUMNS)
def test_the_messages_look_as_they_did(columns: int) -> None:
    assert rendered(columns) == path(columns).read_text(encoding="utf-8")


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_a_message_is_short_and_plain(row: Row) -> None:
    """Three rows beside the figure at 80 columns; short sentences, no long words, no verdict on anybody."""
    message = marked(row)[-1].mark.message
    assert len(fold(message, room(80))) <= MOST_ROWS, message
    for sentence in re.split(r"(?<=[.?]) ", message):
        assert len(sentence.split()) <= MOST_WORDS, sentence
    for word in re.findall(r"[A-Za-z]+", message):
        assert len(word) <= LONGEST_WORD, word
    blame = re.sub("copied wrong", "", message.lower())
    assert not re.search(r"\b(wrong|mistake|error|you|your)\b", blame), message
