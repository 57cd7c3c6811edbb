"""Known wrong moves: each is found where it was made, and nowhere else."""

import pytest
from slips_instances import MAKERS, instances
from slips_right_pairs import right_pairs
from slips_table import TABLE, Row

from tutor.line.reader import Readings, read
from tutor.line.tree import Statement
from tutor.line.walk import statement_names
from tutor.marking.deciding.context import prepare
from tutor.marking.deciding.state import Known, Spec, settings
from tutor.marking.slips.find import find_slip
from tutor.marking.slips.model import Slip
from tutor.marking.task import Task
from tutor.marking.verdict import Mark, Reason, Verdict
from tutor.marking.working import mark_lines

EACH = 25
RIGHT_PAIRS = 10_000


def last_mark(lines: list[str], task: Task) -> Mark:
    return mark_lines(task, lines).lines[-1].mark


@pytest.mark.parametrize("row", TABLE, ids=lambda row: row.name)
def test_the_example_of_the_table(row: Row) -> None:
    working = mark_lines(Task(givens=row.givens), row.lines)
    mark = working.lines[-1].mark
    assert working.lines[0].mark.verdict is Verdict.FOLLOWS
    assert (mark.verdict, mark.slip) == (Verdict.BREAKS, row.name)
    assert mark.reason in (Reason.SLIP, Reason.RUN_ON)  # the second says more than that it is a slip


def test_every_row_has_instances_and_no_other_name_has() -> None:
    with_givens = {row.name for row in TABLE if row.givens}
    assert {row.name for row in TABLE} == MAKERS.keys() | with_givens
    assert len({row.name for row in TABLE}) == len(TABLE)


@pytest.mark.parametrize("name", sorted(MAKERS))
def test_other_numbers_and_letters(name: str) -> None:
    """The slip is named; its message is short and points at the line."""
    for lines in instances(name, EACH):
        mark = last_mark(lines, Task())
        assert (mark.verdict, mark.slip) == (Verdict.BREAKS, name), lines
        assert 20 < len(mark.message) <= 110, mark.message
        assert mark.message.count(". ") <= 1 and mark.message[-1] in ".?"
        assert "-" not in mark.message  # the minus of a message is −
        assert mark.span is not None
        assert 0 <= mark.span[0] < mark.span[1] <= len(lines[-1])


AROUND = ("{0} + 4q", "C = {0}", "({0})/11", "17 + ({0})")


@pytest.mark.parametrize("around", AROUND)
def test_right_work_beside_the_slip(around: str) -> None:
    """The changed part stands beside other terms, on one side of an equation, within a fraction."""
    for name in MAKERS:
        for lines in instances(name, 6):
            if len(lines) == 2 and "=" not in "".join(lines) and not _is_ambiguous(name, around):
                placed = [around.format(line) for line in lines]
                assert last_mark(placed, Task()).slip == name, placed


def _is_ambiguous(name: str, around: str) -> bool:
    """(11 + t)/11 as 11t/11 may also have lost a term, 17 + (…) brings its own plus."""
    joins = ("sum-read-as-product", "numeral-detached-from-its-minus", "left-to-right-only")
    return name in joins and "(" in around


# -- nothing where nothing is wrong ----------------------------------------------------------


def _statement(text: str, known: Known) -> Statement:
    found = read(text, known.context.names)
    assert isinstance(found, Readings), text
    return found.statements[0]


def _slip_below(lines: list[str]) -> Slip | None:
    """The matcher by itself: the line above stands, nobody asks whether the last line is right."""
    context = prepare(Task())[0]
    known = Known(context, Spec((), frozenset()))
    if len(lines) > 1:
        above = _statement(lines[0], known)
        premises = (above,) if statement_names(above) else ()
        known = Known(context, Spec(premises, frozenset()), above=((0, above),))
    typed = _statement(lines[-1], known)
    return find_slip(known, typed, settings(known, typed)[0])


def test_right_lines_hold_no_slip() -> None:
    found = [(lines, slip) for lines in right_pairs(RIGHT_PAIRS, 3) if (slip := _slip_below(lines))]
    assert not found


def test_the_matcher_alone_finds_what_the_marker_finds() -> None:
    """The test above would be empty if the matcher were called in a wrong way."""
    rows = [row for row in TABLE if not row.givens]
    alone = [_slip_below(list(row.lines)) for row in rows]
    assert [slip.name if slip else None for slip in alone] == [row.name for row in rows]


NEAR_MISSES = (
    ["3x = 12", "x = 10"],
    ["3(x + 2)", "3x + 3"],
    ["5x + 4 = 2x + 10", "7x = 7"],
    ["x/4 = 12", "x = 5"],
    ["1/2 + 1/3", "3/7"],
    ["5^2", "15"],
    ["8 - (-4)", "5"],
    ["3x + 4", "8x"],
    ["4x - x", "6"],
    ["(x + 3)^2", "x^2 + 8"],
    ["sqrt(36)", "17"],
    ["3x + 15 = 42", "3x + 15 = 58"],
    ["-2(x + 3)", "-2x + 5"],
    ["7 + 3 + 3 - 8", "7 + 3 = 10 = 13"],
)


@pytest.mark.parametrize("lines", NEAR_MISSES, ids=lambda lines: f"{lines[0]} to {lines[1]}")
def test_a_near_miss_is_no_slip(lines: list[str]) -> None:
    mark = last_mark(lines, Task())
    assert (mark.verdict, mark.slip) == (Verdict.BREAKS, None), mark.message


# -- where the line above is not the one right above -------------------------------------------


def test_a_line_from_two_lines_above() -> None:
    lines = ["3(x + 2) + 5 = 20", "3(x + 2) = 15", "3x + 2 + 5 = 20"]
    assert last_mark(lines, Task(find=("x",))).slip == "first-term-only"


def test_a_premise_that_was_never_typed() -> None:
    task = Task(formulas=("3x + 15 = 42",), find=("x",))
    assert last_mark(["3x = 57"], task).slip == "constant-across-unchanged-sign"


def test_a_formula_with_its_givens_put_in() -> None:
    task = Task(formulas=("A = 3.14 r^2",), givens=(("r", "7 cm"),), find=("A",))
    assert last_mark(["A = 3.14 * 2 * 7"], task).slip is not None
    task = Task(formulas=("y = 2a + 5b",), givens=(("a", "3"), ("b", "4")), find=("y",))
    assert last_mark(["y = 23 + 54"], task).slip == "substitution-by-juxtaposition"


def test_a_given_that_is_copied_wrong() -> None:
    box = (("V", "420 cm^3"), ("L", "10 cm"), ("H", "6 cm"))
    task = Task(formulas=("V = L W H",), givens=box, find=("W",), units=("cm",))
    mark = last_mark(["V = L W H", "402 = 10 * W * 6"], task)
    assert (mark.slip, mark.span) == ("copy-slip", (0, 3))


def test_a_value_of_ones_own_put_in_as_a_digit() -> None:
    task = Task(formulas=("A + B = 180",), givens=(("A", "3x + 12"), ("B", "5x + 8")), find=("x", "A"))
    assert (
        last_mark(["8x + 20 = 180", "x = 20", "A = 320 + 12"], task).slip == "substitution-by-juxtaposition"
    )


def test_a_chain_speaks_of_its_own_false_link() -> None:
    """3 · 20 is right in the first link: what is wrong is 60 + 12."""
    assert last_mark(["A = 3*20 + 12", "A = 60 + 12 = 62"], Task(find=("A",))).slip is None
    assert last_mark(["A = 3*20 + 12", "A = 50 + 12 = 62"], Task(find=("A",))).slip == "fact-slip"


PUT_IN = (
    ("y = 3(x + 2)", {"x": "4"}, ["y = 14"], "first-term-only"),
    ("y = 2 + 3x", {"x": "4"}, ["y = 20"], "left-to-right-only"),
    ("y = 2 + 3x", {"x": "4"}, ["y = 2 + 34"], "substitution-by-juxtaposition"),
    ("y = -x^2", {"x": "3"}, ["y = 9"], "minus-inside-the-power"),
    ("y = 5 - x", {"x": "-3"}, ["y = 2"], "double-minus-ignored"),
    ("y = 3x", {"y": "12"}, ["x = 9"], "mult-undone-by-subtracting"),
    ("y = 2x + 6", {"y": "14"}, ["y = 2x + 6", "14 = 2x"], "constant-removed-one-side-only"),
    ("d = r t", {"d": "120 km", "r": "60 km/h"}, ["120 = 60t", "t = 60/120"], "quotient-upside-down"),
    ("I = P r t", {"P": "500", "r": "4%", "t": "3"}, ["I = 500 * 0.4 * 3"], "place-value-slip"),
    ("c^2 = a^2 + b^2", {"a": "6", "b": "8"}, ["c^2 = 100", "c = 50"], "root-as-half"),
)


@pytest.mark.parametrize(("formula", "givens", "lines", "name"), PUT_IN)
def test_a_formula_and_its_givens(formula: str, givens: dict[str, str], lines: list[str], name: str) -> None:
    find = tuple({"y", "x", "t", "I", "c"} & set(formula) - givens.keys())
    mark = last_mark(lines, Task(formulas=(formula,), givens=tuple(givens.items()), find=find))
    assert (mark.verdict, mark.slip) == (Verdict.BREAKS, name)


def test_a_line_that_goes_on_with_a_sign() -> None:
    assert last_mark(["3(x + 2)", "= 3x + 2"], Task()).slip == "first-term-only"
    assert last_mark(["A = 7*8", "= 54"], Task()).slip == "fact-slip"


def test_the_false_link_of_a_chain() -> None:
    mark = last_mark(["A = 2 + 3*4 = 20"], Task(find=("A",)))
    assert mark.slip == "left-to-right-only"


def test_one_move_in_two_places() -> None:
    assert last_mark(["6^2 + 8^2 = 12 + 16"], Task()).slip == "square-as-double"
    assert last_mark(["2(x + 3) + 5(x - 1)", "7x + 2"], Task()).slip == "first-term-only"
    assert (
        last_mark(["-(x + 3) - (y - 1)", "-x + 3 - y - 1"], Task()).slip == "negative-reaches-first-term-only"
    )


def test_a_slip_in_going_on_from_a_broken_line() -> None:
    working = mark_lines(Task(), ["3x + 15 = 42", "3x = 57", "x = 171"])
    slips = [line.mark.slip for line in working.lines]
    assert slips == [None, "constant-across-unchanged-sign", "mult-undone-by-multiplying"]


def test_the_smaller_digit_from_the_larger_in_each_column() -> None:
    assert last_mark(["52 - 38 = 26"], Task()).slip == "smaller-from-larger"


def test_inequalities_have_the_same_slips() -> None:
    assert last_mark(["3(x + 2) < 12", "3x + 2 < 12"], Task()).slip == "first-term-only"
    assert last_mark(["x - 4 > 13", "9 < x"], Task()).slip == "minus-undone-by-subtracting"
    assert last_mark(["x - 4 > 13", "9 > x"], Task()).slip is None


LETTERS = (
    ("V = L W H", "W = V - L H", "mult-undone-by-subtracting"),
    ("V = L W H", "W = V L H", "mult-undone-by-multiplying"),
    ("d = r t", "t = r/d", "quotient-upside-down"),
    ("d = r t", "t = d", "coefficient-removed-one-side-only"),
    ("P = 2a + 2b", "P + 2a = 2b", "constant-across-unchanged-sign"),
    ("T = n + k", "T + n = k", "plus-undone-by-adding"),
    ("T = n - k", "T - k = n", "minus-undone-by-subtracting"),
    ("P = 2(a + b)", "P = 2a + b", "first-term-only"),
    ("c = sqrt(a^2 + b^2)", "c = a + b", "sum-of-squares-rooted-termwise"),
)


@pytest.mark.parametrize(("above", "line", "name"), LETTERS)
def test_letters_in_the_place_of_numbers(above: str, line: str, name: str) -> None:
    assert last_mark([above, line], Task()).slip == name


def test_an_approximate_answer() -> None:
    assert (
        last_mark(["c = sqrt(6^2 + 8^2)", "c ≈ 14"], Task(find=("c",))).slip
        == "sum-of-squares-rooted-termwise"
    )


# -- of several explanations ----------------------------------------------------------------


def test_the_fewest_assumptions_win() -> None:
    assert _slip_below(["x + 10 = 25", "x + 10 - 10 = 25 + 10"]) is not None
    copied = _slip_below(["-x = 6", "x = 6"])
    assert copied is not None and copied.name == "opposite-of-x-read-as-x"


def test_a_tie_is_told() -> None:
    slip = _slip_below(["2x = 3", "x = 6"])  # 2·3 and nothing else
    assert slip is not None and slip.also == ()
    slip = _slip_below(["3 - 8", "8 - 3"])
    assert slip is not None
    assert (slip.name, slip.also) == ("smaller-from-larger", ("subtraction-treated-as-commutative",))


# -- the part that is underlined ---------------------------------------------------------------

UNDERLINED = (
    (["3(x + 2) + 5 = 20", "3x + 2 + 5 = 20"], "2"),
    (["2(x + 3) - 3(x - 1) = 4", "2x + 6 - 3x - 3 = 4"], "- 3"),
    (["5x + 4 = 2x + 10", "7x + 4 = 10"], "7x + 4"),
    (["(4x + 8)/4 = 7", "x + 8 = 7"], "8"),
    (["9 = 2(n + 4)", "9 = n + 8"], "n"),
    (["-20/(-4) = -5"], "-5"),
    (["4 + 2^3", "4 + 6"], "6"),
    (["5y - 3x + 2x = 8", "5y - 5x = 8"], "- 5x"),
    (["3x + 15 = 42", "3x + 15 = 24"], "24"),
    (["x + 20 - 7 + 5", "x + 20 - 12"], "- 12"),
)


@pytest.mark.parametrize(("lines", "part"), UNDERLINED, ids=str)
def test_the_smallest_part_is_underlined(lines: list[str], part: str) -> None:
    mark = last_mark(lines, Task())
    assert mark.span is not None and mark.slip is not None
    assert lines[-1][slice(*mark.span)] == part


@pytest.mark.parametrize(
    ("task", "line", "slip"),
    [
        # "A + 2A" under B = 4A: nothing here has sides, so no square lost two of them.
        (Task(("A + B = 180",), (("B", "4A"),), ("A", "B"), ("°", "°")), "A + 2A = 180", "copy-slip"),
        (Task(("A + B = 180",), (("B", "4A"),), ("A", "B"), ("°", "°")), "A + 4A = 90", "supplement-to-90"),
        (Task(("P = 4 s",), (("P", "36 cm"),), ("s",), ("cm",)), "P = 2 s", "two-sides-only-perimeter"),
        (Task(("P = 4 s",), (), ("s",)), "P = 2 s", "two-sides-only-perimeter"),
    ],
)
def test_a_slip_speaks_of_what_the_problem_measures(task: Task, line: str, slip: str) -> None:
    assert mark_lines(task, [line]).lines[0].mark.slip == slip
