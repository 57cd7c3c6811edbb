"""Each example beside a pattern for what stands around mathematics is found by that very pattern."""

import re

import pytest

from tutor.line.around import AFTER_ROWS, BEFORE_ROWS, NUMBERING_ROWS, Row
from tutor.line.phrases import peel


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
