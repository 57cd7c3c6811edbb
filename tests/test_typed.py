"""Lines and works as students type them at a keyboard or paste them.

The rows stand in ``typed_works.tsv`` and ``typed_lines.tsv``. What they are worth was written down
before they were marked: common practice, no source.
"""

import json
import re
from dataclasses import replace
from pathlib import Path

import pytest

from tutor.line.names import Names
from tutor.line.reader import Readings, read
from tutor.line.tree import Note
from tutor.line.writing import write_statement
from tutor.marking.hint_stage import HintStage
from tutor.marking.hints import hint
from tutor.marking.verdict import Verdict
from tutor.marking.working import mark_lines
from tutor.teacher.jsonl import answer_line, read_request

SIGNS = {"follows": "f", "rounds": "r", "restates": "s", "breaks": "b", "unread": "u", "note": "n"}
HIDDEN = re.compile(r"\\u([0-9a-f]{4})")  # signs without a width, as the rows write them
FINISHED = {True: "T", False: "F", None: "-"}


def rows(name: str) -> list[str]:
    text = (Path(__file__).parent / name).read_text(encoding="utf-8")
    return [row for row in text.split("\n") if row and not row.startswith("#")]


def works() -> list[tuple[str, tuple[str, ...], str]]:
    """Return the head, the lines in front and the row of every work."""
    found: list[tuple[str, tuple[str, ...], str]] = []
    head: str = "{}"
    front: tuple[str, ...] = ()
    for row in rows("typed_works.tsv"):
        if row.startswith("@"):
            head, front = row[1:], ()
        elif row.startswith("^"):
            front = tuple(row[1:].split(" ;; ")) if row[1:] else ()
        else:
            found.append((head, front, row))
    return found


WORKS = works()


@pytest.mark.parametrize(("head", "front", "row"), WORKS, ids=[row for _, _, row in WORKS])
def test_a_typed_work_gets_the_marks_that_a_teacher_would_give(
    head: str, front: tuple[str, ...], row: str
) -> None:
    text, marks, finished, units = row.split("\t")
    lines = [*front, *text.split(" ;; ")]
    answer, good = answer_line(json.dumps({**json.loads(head), "lines": lines}).encode(), 1)
    assert good
    said = answer["lines"][len(front) :]
    assert "".join(SIGNS.get(line["verdict"], "?") for line in said) == marks, [
        line["message"] for line in said
    ]
    assert FINISHED[answer["finished"]] == finished
    assert (answer["units"] or "") == units
    for line in said:
        if line["span"] is not None:
            assert 0 <= line["span"][0] <= line["span"][1] <= len(line["text"])


@pytest.mark.parametrize(("text", "meant"), [row.split("\t") for row in rows("typed_lines.tsv")])
def test_a_typed_line_is_read_as_it_is_meant(text: str, meant: str) -> None:
    text = HIDDEN.sub(lambda found: chr(int(found[1], 16)), text)
    found = read(text, Names(frozenset({"x", "y"})))
    if meant == "unread":
        assert not isinstance(found, Readings) and found.message.endswith((".", "?"))
        return
    assert isinstance(found, Readings), found
    if meant == "note":
        assert isinstance(found.statements[0], Note)
        return
    assert " || ".join(map(write_statement, found.statements)) == meant
    for statement in found.statements:
        assert 0 <= statement.span[0] <= statement.span[1] <= len(text)


def standing() -> list[tuple[str, tuple[str, ...]]]:
    """Return the lines of the works whose lines all stand, each line once."""
    found: dict[str, tuple[str, tuple[str, ...]]] = {}
    for head, front, row in WORKS:
        text, marks, _, _ = row.split("\t")
        if set(marks) <= {"f", "r", "s"}:
            found.setdefault(head + text, (head, (*front, *text.split(" ;; "))))
    return list(found.values())


MAX_STEPS = 20


@pytest.mark.parametrize("every_step", [False, True])
@pytest.mark.parametrize("part", range(8))
def test_from_a_typed_line_the_hints_lead_to_the_end(part: int, every_step: bool) -> None:
    """The third stage shows a line that stands and is no leap; the plan ends at the answer."""
    for head, lines in standing()[part::24]:
        request, _, error = read_request(json.dumps({**json.loads(head), "lines": list(lines)}).encode())
        assert request is not None, error
        work = mark_lines(replace(request.task, every_step=every_step), lines)
        if not all(line.mark.verdict.stands for line in work.lines):
            continue  # a leap, where all steps are asked for
        steps = 0
        while work.progress.finished is False:
            stages = [hint(work, stage) for stage in HintStage]
            assert all(stages), lines
            shown = stages[-1]
            assert shown is not None and shown.line is not None
            work = work.submit(shown.line)
            mark = work.lines[-1].mark
            assert mark.verdict.stands and mark.verdict is not Verdict.LEAPS, (lines, shown, mark.message)
            steps += 1
            assert steps < MAX_STEPS, lines
