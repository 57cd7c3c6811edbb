"""Fifty thousand generated lines: each gets an answer, the same one every time, and none takes long."""

import sys
from collections.abc import Callable

import pytest
from line_fuzzing import NAMES, lines, read_and_check, repeated

from tutor.line.layout import layout
from tutor.line.reader import Readings, read
from tutor.line.writing import write_statement
from tutor.marking.task import Task
from tutor.marking.verdict import Verdict
from tutor.marking.working import mark_lines

SEED = 20261125
COUNT = 50_000
MARKED = 1_500


@pytest.mark.timeout(240)
def test_every_line_is_answered_with_spans_inside_it() -> None:
    unread = 0
    for at, text in enumerate(lines(SEED, COUNT)):
        answer = read_and_check(text, NAMES[at % len(NAMES)])
        unread += not answer.readings
    # Not all nonsense, not all sense: the generator still reaches both sides of the reader.
    assert COUNT // 10 < unread < COUNT * 9 // 10


@pytest.mark.timeout(120)
def test_lines_of_repeated_pieces_are_answered() -> None:
    for at, text in enumerate(repeated(SEED, 3000)):
        read_and_check(text, NAMES[at % len(NAMES)])


def test_the_answer_is_the_same_every_time() -> None:
    for at, text in enumerate(lines(SEED + 1, COUNT // 20)):
        names = NAMES[at % len(NAMES)]
        assert repr(read(text, names)) == repr(read(text, names))


def test_what_is_read_can_be_written_and_laid_out() -> None:
    for at, text in enumerate(lines(SEED + 2, COUNT // 20)):
        found = read(text, NAMES[at % len(NAMES)])
        if isinstance(found, Readings):
            for statement in found.statements:
                assert isinstance(write_statement(statement), str) and layout(statement) is not None


@pytest.mark.timeout(120)
def test_a_part_of_them_is_marked() -> None:
    verdicts = set()
    for text in lines(SEED + 3, MARKED):
        worked = mark_lines(Task(find=("x",)), ["2x + 14 = 3x", text])
        assert len(worked.lines) == 2
        verdicts.add(worked.lines[1].mark.verdict)
        span = worked.lines[1].mark.span
        assert span is None or 0 <= span[0] <= span[1] <= len(text), (text, worked.lines[1].mark)
    assert {Verdict.UNREAD, Verdict.BREAKS, Verdict.NOTE} <= verdicts


TASKS = (
    Task(),
    Task(find=("x",)),
    Task(("V = L W H",), (("L", "3 cm"), ("W", "4 cm")), ("V",), ("cm^3",)),
)


@pytest.mark.timeout(240)
def test_whole_works_of_them_are_marked() -> None:
    """Every line stands below lines of the same kind, whatever became of those."""
    made = list(lines(SEED + 4, MARKED))
    for at in range(0, len(made), 3):
        worked = mark_lines(TASKS[at // 3 % len(TASKS)], made[at : at + 3])
        for line in worked.lines:
            span = line.mark.span
            assert span is None or 0 <= span[0] <= span[1] <= len(line.text), (made[at : at + 3], line.mark)


def test_numbers_alone_that_lead_on_are_no_premise() -> None:
    worked = mark_lines(Task(), ["3 1/2 = 3.14 x 0.333... → H-2¾/2 × 0.333..."])
    assert worked.lines[0].mark.verdict in (Verdict.FOLLOWS, Verdict.BREAKS, Verdict.UNREAD)


# Towers, floods and foreign scripts. None may cost more than a tenth of a second of work.
MOST_CALLS = 60_000  # a million calls take about a tenth of a second
MOST_CALLS_OF_A_MARK = 600_000
COSTLY = [
    "9^9^9^9^9^9 = x",
    "((((9^99)^99)^99)^99)^99 = x",
    "(" * 23 + "9^9" + ")^9" * 23,
    "9" * 40 + "^99 = x",
    "9" * 5000,
    "x" + " + 1" * 2000,
    "+".join(f"1/{10**12 + at}" for at in range(25)),
    "*".join(f"(x+1/{97 + at})" for at in range(30)) + " = 0",
    "(" + "+".join("abcdefghijklmnopqrstuvwyz") + ")^6 = x",
    "(√2+√3+√5+√7+√11+√13)^8 = x",
    "(π+√2)^40 = x",
    "-" * 390 + "x",
    "√" * 390 + "9",
    "1/" * 190 + "1",
    "1/2x" * 90,
    "|" * 24 + "x" + "|" * 24 + " = 1",
    "±1" * 10 + " = x",
    "x or " * 70 + "x",
    "x = " + " " * 390 + "y",
    "x = 4 " + ", " * 190,
    "so " * 130 + "x",
    "2 + 3 = 5" + " " * 160 + "-" + " " * 40 + "because" + " " * 40 + "4 = 4 = 4@",
    "(add " * 70,
    "3 x " * 90 + "3",
    "9" + " billion" * 40,
    "__import__('os').system('true')",
    "[bold]x[/] = <b>4</b>",
    "\x1b]0;x\x07",
    "x\x00 = 4",
    "\u202e4 = x",
    "ｘ＝４",
]


def calls_of(work: Callable[[], object]) -> int:
    """Return how many Python functions are called: work is bounded by counting, never by the clock."""
    count = 0

    def counted(_frame: object, event: str, _argument: object) -> None:
        nonlocal count
        count += event == "call"

    sys.setprofile(counted)
    try:
        work()
    finally:
        sys.setprofile(None)
    return count


@pytest.mark.parametrize("text", COSTLY)
def test_a_costly_line_costs_little(text: str) -> None:
    read("x = 4", NAMES[1])
    assert calls_of(lambda: read_and_check(text, NAMES[1])) < MOST_CALLS


@pytest.mark.parametrize("text", COSTLY)
def test_a_costly_line_is_marked_at_little_cost(text: str) -> None:
    task = Task(find=("x",))
    mark_lines(task, ["2x + 14 = 3x", "14 = x"])
    assert calls_of(lambda: mark_lines(task, ["2x + 14 = 3x", text])) < MOST_CALLS_OF_A_MARK
    worked = mark_lines(task, ["2x + 14 = 3x", text])
    assert "=" not in text or not worked.lines[1].mark.verdict.stands
