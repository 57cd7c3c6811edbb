"""Wrong moves written out by hand, several for each row of the table of slips, marked as JSON Lines are.

Each row of ``slips_by_hand.tsv`` and ``slips_in_class.tsv`` (eight and more of nearly every move, in
the forms a class writes them) and ``slips_in_longer_lines.tsv`` (beside other terms, as figures made
of pieces, with the sides turned) holds the name of the move, the lines (the last one is where the
move was made) and the rest of the task. The numbers and letters are ours.
"""

import json
import re
from pathlib import Path
from typing import Any

import pytest

from tutor.teacher.jsonl import answer_line

_NAMES = ("slips_by_hand.tsv", "slips_in_class.tsv", "slips_in_longer_lines.tsv")
_FILES = tuple(Path(__file__).with_name(name) for name in _NAMES)
_STANDS = frozenset(["follows", "rounds", "restates", "note"])


def _rows() -> dict[str, list[tuple[list[str], dict[str, Any]]]]:
    found: dict[str, list[tuple[list[str], dict[str, Any]]]] = {}
    for file in _FILES:
        for row in file.read_text(encoding="utf-8").splitlines()[1:]:
            name, lines, *task = row.split("\t")
            found.setdefault(name, []).append((lines.split(" → "), json.loads(task[0]) if task else {}))
    return found


ROWS = _rows()


def _marked(lines: list[str], task: dict[str, Any]) -> list[dict[str, Any]]:
    answer, good = answer_line(json.dumps({"lines": lines, **task}).encode("utf-8"), 1)
    assert good, answer
    marks: list[dict[str, Any]] = answer["lines"]
    return marks


def test_there_are_enough() -> None:
    assert len(ROWS) >= 110
    assert all(len(instances) >= 2 for instances in ROWS.values())


@pytest.mark.parametrize("name", ROWS)
def test_the_move_is_named(name: str) -> None:
    """It is named first, shown in the line, and told in two sentences."""
    for lines, task in ROWS[name]:
        *before, last = _marked(lines, task)
        assert all(mark["verdict"] in _STANDS for mark in before), (lines, before)
        assert (last["verdict"], last["slip"]) == ("breaks", name), (lines, task, last["message"])
        start, end = last["span"]
        assert 0 <= start < end <= len(lines[-1])
        assert len(last["message"]) <= 120, last["message"]
        assert len(re.findall(r"[.?] ", last["message"])) <= 1, last["message"]
