"""The mark of a line: which verdict it gets, for which reason, and what the work has come to."""

import pytest
from marking_cases import ANGLES, BANNER, BOX, HOOP, LENGTH, LOOP, NUMBER_R, ROWS, SUM, Row, X
from marking_ways import WAYS, shipped_tasks

from tutor.marking.task import Task
from tutor.marking.verdict import Reason, UnitsState, Verdict
from tutor.marking.working import Working, mark_lines, read_as, start

F, B, C, U = Verdict.FOLLOWS, Verdict.BREAKS, Verdict.CARRIES, Verdict.UNREAD


def verdicts(work: Working) -> list[Verdict]:
    return [line.mark.verdict for line in work.lines]


# -- verdicts ------------------------------------------------------------------------------


@pytest.mark.parametrize(("task", "rows"), [pytest.param(task, rows, id=name) for name, task, rows in ROWS])
def test_verdicts(task: Task, rows: list[tuple[str, Verdict]]) -> None:
    work = mark_lines(task, [text for text, _ in rows])
    said = [(line.text, line.mark.verdict.value) for line in work.lines]
    assert said == [(text, verdict.value) for text, verdict in rows], [
        line.mark.message for line in work.lines
    ]


# While the work goes on, values found after a step that may gain one wait to be put in, and one part of a
# line waits for the other (test_parts_apart.py).
WAITS = ("a root squared away and no value put in", "a branch without its or")
AGREE = [row for row in ROWS[::3] if row[0] not in WAITS]


@pytest.mark.parametrize(("task", "rows"), [row[1:] for row in AGREE], ids=[row[0] for row in AGREE])
def test_line_by_line_and_all_at_once_agree(task: Task, rows: list[tuple[str, Verdict]]) -> None:
    texts = [text for text, _ in rows]
    one_by_one = start(task)
    for text in texts:
        one_by_one = one_by_one.submit(text)
    assert one_by_one == mark_lines(task, texts)


def test_values_to_be_put_in_wait_while_the_work_goes_on() -> None:
    squared = ["√(x + 6) = x", "x + 6 = x²", "(x − 3)(x + 2) = 0", "x = 3 or x = −2"]
    work = start(X)
    for text in squared:
        work = work.submit(text)
    assert work.lines[-1].mark.verdict is Verdict.FOLLOWS
    assert work.lines[-1].mark.note.startswith("Put each value into the first line.")
    assert not work.progress.finished
    asked = work.submit("√(−2 + 6) ≟ −2")
    assert asked.lines[-1].mark.verdict is Verdict.NOTE
    assert asked.submit("x = 3").progress.finished
    # Handed in as it is, it gives a number that is no solution.
    ended = mark_lines(X, squared).lines[-1].mark
    assert (ended.verdict, ended.reason) == (Verdict.BREAKS, Reason.GAINED)


@pytest.mark.parametrize("line", ["x = 3 or x = 2", "x = −3 or x = −2", "x = −2", "x = 4"])
def test_other_values_do_not_wait(line: str) -> None:
    work = start(X)
    for text in ["√(x + 6) = x", "x + 6 = x²", "(x − 3)(x + 2) = 0", line]:
        work = work.submit(text)
    assert work.lines[-1].mark.verdict is Verdict.BREAKS


# -- reasons -------------------------------------------------------------------------------

# The task, the lines, the reason of the last one, and the part of it that is underlined.
REASONS = [
    (X, ["3x + 15 = 240", "3x = 255"], {Reason.BOTH_SIDES, Reason.SLIP, Reason.WITNESS}, None),
    (HOOP, ["47.1 = 2 × 3.14 × r", "47.1 = 5.14r"], {Reason.BOTH_SIDES, Reason.SLIP}, "5.14"),
    (X, ["x^2 = 81", "x = 9"], {Reason.LOST}, None),
    (NUMBER_R, ["r^2 = 81", "r = √81"], {Reason.LOST}, None),
    (X, ["x = 3", "x^2 = 9", "x = ±3"], {Reason.GAINED}, None),
    (X, ["sqrt(x + 6) = x", "x = 3 or x = -2"], {Reason.GAINED}, None),
    (X, ["-2x > 6", "x > -3"], {Reason.SIGN_NOT_TURNED}, None),
    (X, ["2x ≥ -6", "x ≤ -3"], {Reason.SIGN_NOT_TURNED}, None),
    (SUM, ["7 + 3 = 10 + 3 = 13 - 8 = 5"], {Reason.RUN_ON}, "10 + 3"),
    (X, ["2x + 3 = 11", "2x + 3 = 11 - 3 = 8 / 2 = 4"], {Reason.RUN_ON}, "11 - 3"),
    (BOX, ["W = 7 cm^2"], {Reason.UNIT}, "7 cm^2"),
    (BANNER, ["A = 40 ft"], {Reason.UNIT}, "40 ft"),
    (BANNER, ["L = 8 cm"], {Reason.UNIT}, "8 cm"),
    (SUM, ["7*8 = 54"], {Reason.NOT_TRUE, Reason.SLIP}, None),
    (SUM, ["4 + 6 > 10"], {Reason.NOT_TRUE}, None),
    (SUM, ["5/0 = 3"], {Reason.NOT_TRUE}, None),
    (SUM, ["3(x+2)", "3x+2"], {Reason.VALUE_CHANGED, Reason.SLIP}, None),
    (SUM, ["24 - 7", "16"], {Reason.VALUE_CHANGED}, None),
    (X, ["3x = 12", "x = = 4"], {Reason.SYNTAX}, "="),
    (X, ["x = " + "1+" * 300 + "1"], {Reason.TOO_LONG}, None),
]


@pytest.mark.parametrize(("task", "texts", "reasons", "part"), REASONS)
def test_the_reason_of_a_break(task: Task, texts: list[str], reasons: set[Reason], part: str | None) -> None:
    line = mark_lines(task, texts).lines[-1]
    assert line.mark.verdict in (B, U)
    assert line.mark.reason in reasons
    assert line.mark.message.endswith((".", "?"))
    assert line.mark.span is not None
    start_at, end = line.mark.span
    assert 0 <= start_at < end <= len(line.text) + 1
    if part is not None:
        assert line.text[start_at:end] == part


@pytest.mark.parametrize("row", ROWS, ids=[row[0] for row in ROWS])
def test_only_lines_that_do_not_stand_have_a_reason(row: Row) -> None:
    _, task, rows = row
    for line in mark_lines(task, [text for text, _ in rows]).lines:
        assert (line.mark.reason is not None) == (line.mark.verdict in (B, U)), line
        if line.mark.reason is Reason.SLIP:
            assert line.mark.slip


ACCOUNTS = [
    (["3x + 15 = 240", "3x = 225"], "15 taken away", "15 taken away"),
    (["3x + 15 = 240", "3x = 255"], "15 taken away", "15 added"),
    (["3x = 225", "x = 75"], "divided by 3", "divided by 3"),
    (["x/4 = 12", "x = 48"], "multiplied by 4", "multiplied by 4"),
    (["x - 4 = 13", "x = 17"], "4 added", "4 added"),
    (["5x = 2x + 9", "3x = 9"], "2x taken away", "2x taken away"),
]


@pytest.mark.parametrize(("texts", "left", "right"), ACCOUNTS)
def test_both_sides_are_accounted_for_on_right_lines_and_wrong_ones(
    texts: list[str], left: str, right: str
) -> None:
    mark = mark_lines(X, texts).lines[-1].mark
    on_left, _, on_right = (mark.account or mark.message).partition(";")
    assert left in on_left and right in on_right


NO_ANSWERS = [
    (X, ["3x + 15 = 240", "3x = 255"], "75"),
    (X, ["3x + 15 = 240", "x = 80"], "75"),
    (HOOP, ["47.1 = 5.14r"], "7.5"),
    (BOX, ["420 = 16W"], "7"),
    (X, ["5x + 4 = 2x + 10", "7x = 6"], "2"),
    (LOOP, ["150.5 = 2s + 87.5"], "36"),
    (X, ["x^2 = 81", "x = 9"], "-9"),
]


@pytest.mark.parametrize(("task", "texts", "answer"), NO_ANSWERS)
def test_no_reason_tells_the_answer(task: Task, texts: list[str], answer: str) -> None:
    mark = mark_lines(task, texts).lines[-1].mark
    assert mark.verdict is B
    words = mark.message.replace("−", "-").replace(";", " ").rstrip(".?").replace(". ", " ").split()
    assert answer not in words, mark.message


# -- struck lines --------------------------------------------------------------------------


def test_a_struck_line_is_not_known_and_stays_visible() -> None:
    work = mark_lines(X, ["3x + 15 = 240", "3x = 255", "x = 85"])
    assert verdicts(work) == [F, B, C]
    struck = work.strike(1)
    assert [line.text for line in struck.lines] == [line.text for line in work.lines]
    assert struck.lines[1].struck and verdicts(struck) == [F, B, B]
    assert verdicts(struck.strike(2).submit("x = 75")) == [F, B, B, F]


def test_a_struck_line_that_stood_lends_nothing() -> None:
    texts = ["q = 3.14·25", "150.5 = 2s + q", "s = 36 m"]
    assert verdicts(mark_lines(LOOP, texts))[1] is F
    assert verdicts(mark_lines(LOOP, texts, frozenset({0})))[1] is not F


def test_a_struck_answer_finishes_nothing() -> None:
    work = mark_lines(X, ["3x = 12", "x = 4"])
    assert work.progress.finished
    assert not work.strike(1).progress.finished


def test_striking_the_first_line_makes_the_next_one_the_premise() -> None:
    assert verdicts(mark_lines(X, ["3x + 1 = 7", "3x + 15 = 240", "3x = 225"], frozenset({0})))[1:] == [F, F]


def test_striking_a_line_that_is_not_there_changes_nothing() -> None:
    work = mark_lines(X, ["3x = 12"])
    assert work.strike(5) == work and work.strike(-1) == work


# -- what the work has come to -------------------------------------------------------------

UNITS = [
    (BOX, ["W = 7 cm"], UnitsState.RIGHT),
    (BOX, ["W = 7"], UnitsState.MISSING),
    (BOX, ["W = 7 cm^2"], UnitsState.WRONG_DIMENSION),
    (BOX, ["W = 7 g"], UnitsState.WRONG_DIMENSION),
    (BOX, ["W = 70 mm"], UnitsState.EQUIVALENT),
    (BOX, ["W = 7 m"], UnitsState.WRONG),
    (BOX, ["420 = 60W"], None),
    (BANNER, ["A = 40 ft²"], UnitsState.RIGHT),
    (BANNER, ["A = 40 sq ft"], UnitsState.RIGHT),
    (BANNER, ["A = 40 ft"], UnitsState.WRONG_DIMENSION),
    (BANNER, ["A = 40"], UnitsState.MISSING),
    (BANNER, ["A = 5760 in²"], UnitsState.EQUIVALENT),
    (BANNER, ["A = 40 in²"], UnitsState.WRONG),
    (X, ["2x = 8", "x = 4"], None),
]


@pytest.mark.parametrize(("task", "texts", "state"), UNITS)
def test_units_of_the_answer(task: Task, texts: list[str], state: UnitsState | None) -> None:
    assert mark_lines(task, texts).progress.units is state


FINISHED = [
    (X, ["2x = 8"], False),
    (X, ["2x = 8", "x = 8/2"], False),
    (X, ["2x = 8", "x = 4"], True),
    (X, ["2x = 8", "4 = x"], True),
    (X, ["2x = 9", "x = 9/2"], True),
    (X, ["2x = 8", "x = 5"], False),
    (X, ["x^2 = 2", "x = ±√2"], True),
    (X, ["2x > 8", "x > 4"], True),
    (X, ["x = x + 1", "no solution"], True),
    (X, ["x = x", "all numbers"], True),
    (X, ["(x-2)(x+5) = 0", "x - 2 = 0 or x + 5 = 0", "x = 2"], False),
    (X, ["(x-2)(x+5) = 0", "x - 2 = 0 or x + 5 = 0", "x = 2", "x = -5"], True),
    (LENGTH, ["r^2 = 81", "r = ±9"], False),
    (LENGTH, ["r^2 = 81", "r = ±9", "r = 9"], True),
    (ANGLES, ["x = 40", "A = 132°"], False),
    (ANGLES, ["x = 40", "A = 132°", "B = 48°"], True),
    (ANGLES, ["A = 132° and B = 48°"], True),
    (SUM, ["3 + 4 = 7"], None),
    (X, [], False),
]


@pytest.mark.parametrize(("task", "texts", "finished"), FINISHED)
def test_finished(task: Task, texts: list[str], finished: bool | None) -> None:
    assert mark_lines(task, texts).progress.finished is finished


@pytest.mark.parametrize(
    ("texts", "checked"),
    [
        (["3x + 15 = 240", "x = 75"], False),
        (["3x + 15 = 240", "x = 75", "3(75) + 15 = 240"], True),
        (["3x + 15 = 240", "x = 75", "3(75) + 15 = 250"], False),
        (["3x + 15 = 240", "3(75) + 15 = 240"], False),
    ],
)
def test_a_check_puts_the_answer_back(texts: list[str], checked: bool) -> None:
    assert mark_lines(X, texts).progress.answer_checked is checked


def test_the_first_wrong_line_is_the_first_that_breaks() -> None:
    assert mark_lines(X, ["3x = 12", "x = = 4", "note this", "x = 5", "x = 6"]).progress.first_wrong == 3
    assert mark_lines(X, ["3x = 12", "x = 4"]).progress.first_wrong is None


def test_a_line_is_read_back_while_it_is_typed() -> None:
    assert any("x" in row for row in read_as(X, ["3x = 12"], "x = 12/3").rows)
    assert read_as(X, [], "x = (3").problem
    assert read_as(X, [], "").rows == () and read_as(X, [], "").problem == ""


def test_marking_is_the_same_every_time() -> None:
    texts = ["C = 2πr", "47.1 = 5.14r", "r = 9.16", "47.1 = 6.28r", "r = 7.5 cm"]
    assert mark_lines(HOOP, texts) == mark_lines(HOOP, texts)


HOSTILE = [
    "[/]",
    "\x1b[2J",
    "9^9^9^9",
    "(" * 300,
    "__import__('os')",
    "<b>",
    "x" * 500,
    "x = 9^9^9",
    "x = √(-4)",
]


@pytest.mark.timeout(60)
@pytest.mark.parametrize("text", HOSTILE)
def test_a_hostile_line_is_answered_and_the_work_goes_on(text: str) -> None:
    work = mark_lines(X, ["2x = 8", text, "x = 4"])
    assert work.lines[1].mark.message.isprintable()
    assert work.lines[2].mark.verdict is F and work.progress.finished


# -- the lesson that ships -----------------------------------------------------------------


def test_every_problem_of_the_lesson_is_worked_in_five_ways_or_more() -> None:
    assert set(shipped_tasks()) == set(WAYS)
    assert all(len(ways) >= 5 for ways in WAYS.values())


@pytest.mark.parametrize(
    ("name", "way"), [(name, at) for name, ways in WAYS.items() for at in range(len(ways))]
)
def test_honest_work_gets_no_false_verdict(name: str, way: int) -> None:
    texts = WAYS[name][way]
    work = mark_lines(shipped_tasks()[name], texts)
    assert [(line.text, line.mark.message) for line in work.lines if not line.mark.verdict.stands] == []
    assert work.progress.finished and work.progress.complete
    assert work.progress.first_wrong is None


# One wrong number in the middle of honest work, and the honest line after it.
WRONG = [
    ("Paper strips", ["6n + 15 = 87", "6n = 102"], ["n = 17"], ["n = 12"]),
    ("Struts", ["3x+12+5x+8 = 180", "8x = 200"], ["x = 25"], ["x = 20"]),
    ("Box of candles", ["756 = 14 · W · 6", "756 = 20W"], ["W = 37.8 cm"], ["W = 9 cm"]),
    ("Hoop", ["53.38 = 2 × 3.14 × r", "53.38 = 5.14r"], ["r = 10.39 cm"], ["r = 8.5 cm"]),
    ("Parade loop", ["150.5 = 2s + 78.5", "229 = 2s"], ["s = 114.5 m"], ["s = 36 m"]),
    ("Paper window", ["48 = L + 4.5"], ["L = 43.5 cm"], ["L = 39 cm"]),
]


@pytest.mark.parametrize(("name", "to_the_break", "carried", "recovered"), WRONG)
def test_a_wrong_line_is_found_carried_and_left_behind(
    name: str, to_the_break: list[str], carried: list[str], recovered: list[str]
) -> None:
    work = mark_lines(shipped_tasks()[name], [*to_the_break, *carried, *recovered])
    assert work.progress.first_wrong == len(to_the_break) - 1
    assert verdicts(work)[len(to_the_break) :] == [C, F]


def test_a_letter_right_behind_a_number_is_the_unknown_where_nothing_else_can_be() -> None:
    """``40 + 0.5m ≤ 90`` speaks of an unknown m; ``2 m × 3 m = 6 m^2`` of metres."""
    verdicts = [line.mark.verdict for line in mark_lines(Task(), ["40 + 0.5m ≤ 90", "0.5m ≤ 60"]).lines]
    assert verdicts == [Verdict.FOLLOWS, Verdict.BREAKS]
    assert mark_lines(Task(), ["2 m × 3 m = 6 m^2"]).lines[0].mark.verdict is Verdict.FOLLOWS


@pytest.mark.parametrize(
    ("line", "verdict"),
    [
        ("q", Verdict.UNREAD),
        ("2k + 1", Verdict.UNREAD),
        ("L H", Verdict.FOLLOWS),
        ("l h", Verdict.FOLLOWS),
        ("14 · 6", Verdict.FOLLOWS),
    ],
)
def test_an_expression_in_letters_of_nobody_is_asked_about(line: str, verdict: Verdict) -> None:
    task = Task(("V = L W H",), (("V", "420 cm^3"), ("L", "10 cm"), ("H", "6 cm")), ("W",), ("cm",))
    mark = mark_lines(task, ["V = L W H", line]).lines[1].mark
    assert mark.verdict is verdict
    assert ("There is no" in mark.message) is (verdict is Verdict.UNREAD)


@pytest.mark.parametrize(
    ("verdict", "last"),
    [
        (Verdict.ROUNDS, "A = $1157.63"),
        (Verdict.ROUNDS, "$1157.63 = A"),
        (Verdict.BREAKS, "A = $1157.64"),
        (Verdict.BREAKS, "A = $1157.6"),  # not to the cent
        (Verdict.BREAKS, "A = 1157.63"),  # no money
        (Verdict.BREAKS, "A = 1157.63 cm"),
    ],
)
def test_money_is_rounded_to_the_cent(verdict: Verdict, last: str) -> None:
    """Common practice, no source."""
    work = mark_lines(Task(find=("A",)), ["A = 1000(1.05)^3", last])
    assert work.lines[1].mark.verdict is verdict
