"""Single steps, whole solutions, and how far a line jumped."""

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from tutor.marking.steps.engine import MAX_LINES
from tutor.marking.task import Task
from tutor.marking.verdict import Verdict
from tutor.marking.worked import finish, next_line, steps_between
from tutor.marking.working import mark_lines, start

X = Task(find=("x",), every_step=True)


def lines_from(text: str, task: Task = X) -> list[str]:
    """Return the lines that the engine writes under one line; each is typed in and has to stand."""
    work = start(task).submit(text)
    written = [line.text for line in finish(work.known)]
    for line in written:
        work = work.submit(line)
        assert work.lines[-1].mark.verdict in (Verdict.FOLLOWS, Verdict.ROUNDS), line
    return written


# -- one elementary step a line ------------------------------------------------------------------

WORKED = [
    ("3x + 15 = 240", ["3x = 225", "x = 75"]),
    ("2(x + 5) − 3x = 4", ["2x + 10 − 3x = 4", "−x + 10 = 4", "−x = −6", "x = 6"]),
    ("5x + 3 = 2x + 9", ["3x + 3 = 9", "3x = 6", "x = 2"]),
    ("2x + 14 = 3x", ["14 = x"]),
    ("x/3 + 2 = 5", ["x/3 = 3", "x = 9"]),
    ("x/2 + x/3 = 10", ["3x + 2x = 60", "5x = 60", "x = 12"]),
    ("(x + 3)/4 = 5", ["x + 3 = 20", "x = 17"]),
    ("1/2(x + 6) = 8", ["x + 6 = 16", "x = 10"]),
    ("3/4 x = 12", ["x = 16"]),
    ("0.49(2x + 4) + 0.08x = 10.44", ["0.98x + 1.96 + 0.08x = 10.44", "1.06x + 1.96 = 10.44", "1.06x = 8.48", "x = 8"]),
    ("10x = 44", ["x = 4.4"]),
    ("1/2 x = 1/3", ["3x = 2", "x = 2/3"]),
    ("5 − 2x < 11", ["−2x < 6", "x > −3"]),
    ("−2 < 3 − 2x ≤ 5", ["−5 < −2x ≤ 2", "−1 ≤ x < 2.5"]),
    ("5x + 3 = 5x + 7", ["3 = 7", "no solution"]),
    ("2(x + 1) = 2x + 2", ["2x + 2 = 2x + 2", "2 = 2", "all numbers"]),
    ("3/5 = 12/x", ["3x = 12 · 5", "3x = 60", "x = 20"]),
    ("6/x = 2", ["6 = 2x", "3 = x"]),
    ("20% x = 5", ["0.2x = 5", "x = 25"]),
    ("x = 12 − 3(9 − 12)", ["x = 12 − 3 · (−3)", "x = 12 − (−9)", "x = 12 + 9", "x = 21"]),
    ("x^2 = 81", ["x = ±√81", "x = ±9"]),
    ("5x^2 = 80", ["x^2 = 16", "x = ±√16", "x = ±4"]),
    ("(x − 7)^2 = 12", ["x − 7 = ±√12", "x − 7 = ±2√3", "x = 7 ± 2√3"]),
    ("x^2 + 5x + 6 = 0", ["(x + 2)(x + 3) = 0", "x + 2 = 0 or x + 3 = 0", "x = −2 or x = −3"]),
    ("x^2 = 4x", ["x^2 − 4x = 0", "x(x − 4) = 0", "x = 0 or x − 4 = 0", "x = 0 or x = 4"]),
    ("|2x − 3| = 5", ["2x − 3 = 5 or 2x − 3 = −5", "2x = 8 or 2x = −2", "x = 4 or x = −1"]),
    ("|x| < 4", ["−4 < x < 4"]),
    ("5(x − 2) − 3(2x + 1) = −x", ["5x − 10 − 6x − 3 = −x", "−x − 13 = −x", "−13 = 0", "no solution"]),
    ("|x| = −2", ["no solution"]),
    ("√x + 2 = 5", ["√x = 3", "x = 9"]),
    ("x^3 = −8", ["x = −∛8", "x = −2"]),
    ("x^2 = −4", ["no solution"]),
    ("x^2 + x + 1 = 0", ["no solution"]),
    ("x^2 + 4x + 2 = 0", ["x = (−4 ± √8)/2", "x = (−4 ± 2√2)/2"]),
    ("2x^2 = 13x + 45", ["2x^2 − 13x = 45", "2x^2 − 13x − 45 = 0", "(x − 9)(2x + 5) = 0", "x − 9 = 0 or 2x + 5 = 0", "x = 9 or 2x = −5", "x = 9 or x = −2.5"]),
    ("2 1/2 + x = 4", ["x = 3/2"]),
    ("x/0.5 = 3", ["x = 1.5"]),
]  # fmt: skip


@pytest.mark.parametrize(("first", "lines"), WORKED)
def test_an_equation_is_worked_as_a_teacher_writes_it(first: str, lines: list[str]) -> None:
    assert lines_from(first) == lines
    assert mark_lines(X, [first, *lines]).progress.complete


@pytest.mark.parametrize(
    ("first", "lines"),
    [
        ("2·6·3 + 2·3·2", ["36 + 12", "48"]),
        ("12 − 3(9 − 12)", ["12 − 3 · (−3)", "12 − (−9)", "12 + 9", "21"]),
        ("(1/2 · 14)^2", ["7^2", "49"]),
        ("2^3 + 4 · 5", ["8 + 4 · 5", "8 + 20", "28"]),
        ("3(x + 4) + 2x", ["3x + 12 + 2x", "5x + 12"]),
        ("√81 + 84/4", ["9 + 84/4", "9 + 21", "30"]),
    ],
)
def test_an_expression_goes_on_one_level_of_precedence_a_line(first: str, lines: list[str]) -> None:
    assert lines_from(first, Task()) == lines


def test_each_line_has_a_sentence_that_says_what_is_done() -> None:
    work = start(X).submit("2(x + 5) = 24")
    assert [line.sentence for line in finish(work.known)] == [
        "Multiply each part in the bracket by 2.",
        "Take 10 away from both sides.",
        "Divide both sides by 2.",
    ]


def test_nothing_follows_a_finished_line() -> None:
    assert next_line(mark_lines(X, ["3x = 225", "x = 75"]).known) is None
    assert next_line(start(X).known) is None


def test_a_struck_out_line_is_not_gone_on_from() -> None:
    work = mark_lines(X, ["3x + 15 = 240", "3x = 225"], frozenset([1]))
    found = next_line(work.known)
    assert found is not None
    assert found.text == "3x = 225"


# -- leaps ---------------------------------------------------------------------------------------

BOX = Task(
    ("V = L W H",), (("V", "756 cm^3"), ("L", "14 cm"), ("H", "6 cm")), ("W",), ("cm",), every_step=True
)  # fmt: skip
STRUTS = Task(
    ("A + B = 180",), (("A", "3x + 12"), ("B", "5x + 8")), ("A", "B"), ("°", "°"), every_step=True
)  # fmt: skip
BOX_LABELS = ["V = LWH", "V = 756 cm^3, L = 14 cm, H = 6 cm, W = ?"]


@pytest.mark.parametrize(
    ("task", "lines"),
    [
        (X, ["3x + 15 = 240", "3x = 225", "x = 75"]),
        (X, ["3x + 15 = 240", "x = 75"]),
        (X, ["2(x+5) = 24", "2x + 10 = 24", "x = 7"]),
        (X, ["2(x+5) = 24", "x + 5 = 12", "x = 7"]),
        (X, ["2(x+5) = 24", "2x = 14", "x = 7"]),
        (X, ["3x + 15 = 240", "3x + 15 − 15 = 240 − 15", "3x = 225", "3x/3 = 225/3", "x = 75"]),
        (X, ["x^2 = 81", "x = 9 or x = −9"]),
        (X, ["3x = 2 or x = 4", "x = 2/3 or x = 4"]),
        (X, ["5x + 3 = 5x + 7", "no solution"]),
        (BOX, [*BOX_LABELS, "756 = 14 · W · 6", "9 = W", "W = 9 cm", "756 = 14 · 9 · 6"]),
        (BOX, [*BOX_LABELS, "756 = 84W", "W = 9 cm"]),
        (STRUTS, ["A + B = 180", "8x + 20 = 180", "x = 20", "A = 72°", "B = 108°"]),
        (Task(every_step=True), ["2·6·3 + 2·3·2", "48"]),
    ],
)
def test_two_steps_in_one_line_are_no_leap(task: Task, lines: list[str]) -> None:
    verdicts = {line.text: line.mark.verdict for line in mark_lines(task, lines).lines}
    assert Verdict.LEAPS not in verdicts.values(), verdicts
    assert all(verdict.stands for verdict in verdicts.values())


@pytest.mark.parametrize(
    ("task", "lines", "words"),
    [
        (X, ["2(x+5) − 3x = 4", "x = 6"], "four. Write a line between: multiply each part in the bracket by 2."),
        (X, ["2(x+5) = 24", "x = 7"], "three. Write a line between: multiply each part in the bracket by 2."),
        (X, ["x/2 + x/3 = 10", "x = 12"], "three. Write a line between: multiply both sides by 6."),
        (BOX, [*BOX_LABELS, "W = 9 cm"], "three. Write a line between: put the numbers in."),
        (STRUTS, ["A + B = 180", "x = 20"],
         "four. Write a line between: put 3x + 12 in the place of A and 5x + 8 in the place of B."),
        (Task(every_step=True), ["3(x + 4) + 2(x − 1)", "5x + 10"], None),
    ],
)  # fmt: skip
def test_more_than_two_are_a_leap_where_every_step_is_asked_for(
    task: Task, lines: list[str], words: str | None
) -> None:
    last = mark_lines(task, lines).lines[-1].mark
    if words is None:
        assert last.verdict is Verdict.FOLLOWS
        return
    assert last.verdict is Verdict.LEAPS
    assert last.message == f"Two steps in one line are fine; this one takes {words}"


def test_a_leap_stands_and_ends_the_work() -> None:
    work = mark_lines(X, ["2(x+5) − 3x = 4", "x = 6"])
    assert work.progress.complete


def test_nothing_leaps_where_not_every_step_is_asked_for() -> None:
    work = mark_lines(Task(find=("x",)), ["2(x+5) − 3x = 4", "x = 6"])
    assert work.lines[1].mark.verdict is Verdict.FOLLOWS


def test_a_wrong_line_is_never_a_leap() -> None:
    work = mark_lines(X, ["2(x+5) − 3x = 4", "x = 7"])
    assert work.lines[1].mark.verdict is Verdict.BREAKS


@pytest.mark.parametrize(
    ("before", "after", "steps"),
    [
        ("3x + 15 = 240", "3x = 225", 1),
        ("3x + 15 = 240", "x = 75", 2),
        ("2(x+5) − 3x = 4", "x = 6", 4),
        ("3x + 15 = 240", "3x + 15 − 15 = 240 − 15", 0),
        ("2(x + 5) = 24", "x + 5 = 12", 2),
        ("2^x = 8", "x = 3", None),
        ("x = 9", "x = 9", 0),
    ],
)
def test_steps_are_counted(before: str, after: str, steps: int | None) -> None:
    work = mark_lines(X, [before, after])
    first, second = (line.statement for line in work.lines)
    assert first is not None
    assert second is not None
    assert steps_between(first, second, work.known) == steps


# -- it ends -------------------------------------------------------------------------------------

pieces = st.sampled_from(
    ["x", "2", "−3", "0.5", "1/2", "(x + 1)", "(2 − x)", "x^2", "|x|", "√x", "6/x", "x/3", "π", "50%"]
)
signs = st.sampled_from([" + ", " − ", " · ", "", "/"])


@st.composite
def side(draw: st.DrawFn) -> str:
    text = draw(pieces)
    for _ in range(draw(st.integers(0, 3))):
        text += draw(signs) + draw(pieces)
    return text


@settings(max_examples=60, deadline=None)
@example("x", "x + x/3 · (x + 1)", " = ")
@example("1/2 + x/3", "(x + 1)/−3", " = ")
@example("1/2 + x/3", "(x + 1)/x", " < ")
@example("x + (x + 1)", "x · x", " = ")
@given(side(), side(), st.sampled_from([" = ", " < ", " ≥ "]))
def test_no_line_is_written_twice_and_every_line_stands(left: str, right: str, rel: str) -> None:
    first = start(X).submit(left + rel + right)
    if not first.lines[0].mark.verdict.stands:
        return
    written = [line.text for line in finish(first.known)]
    assert len(written) < MAX_LINES
    assert len(set(written)) == len(written)
    work = first
    for line in written:
        work = work.submit(line)
        assert work.lines[-1].mark.verdict.stands
        assert work.lines[-1].mark.verdict is not Verdict.RESTATES
