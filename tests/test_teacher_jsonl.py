"""Marking for other programs: the contract of JSON Lines, key by key."""

import io
import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutor.marking.verdict import Reason, UnitsState, Verdict
from tutor.teacher.stream import serve

ANSWER_KEYS = {"id", "first_wrong", "finished", "units", "lines"}
LINE_KEYS = {"text", "verdict", "reason", "slip", "message", "span"}
BOX = {
    "id": "k2",
    "formula": "V = L W H",
    "givens": {"V": "420 cm^3", "L": "10 cm", "H": "6 cm"},
    "find": "W",
    "units": "cm",
    "pi": "3.14",
    "every_step": False,
}


def served(raw: bytes) -> tuple[int, list[Any]]:
    sink = io.BytesIO()
    code = serve(io.BytesIO(raw), sink)
    return code, [json.loads(row, parse_constant=_no_constant) for row in sink.getvalue().splitlines()]


def _no_constant(name: str) -> None:
    raise AssertionError(f"{name} is not JSON")


def answer(**sent: Any) -> Any:
    code, answers = served(json.dumps(sent).encode() + b"\n")
    assert (code, len(answers)) == (0, 1), answers
    check_shape(answers[0], sent)
    return answers[0]


def check_shape(got: Any, sent: Any) -> None:
    """Hold an answer against the shape that was promised."""
    assert set(got) >= ANSWER_KEYS
    assert got["id"] == sent.get("id")
    assert [line["text"] for line in got["lines"]] == sent["lines"]
    assert got["finished"] in (True, False, None)
    assert got["units"] in {state.value for state in UnitsState} | {None}
    for line in got["lines"]:
        assert set(line) >= LINE_KEYS
        assert line["verdict"] in {verdict.value for verdict in Verdict}
        assert isinstance(line["message"], str)
        if line["verdict"] in ("breaks", "unread"):
            assert line["reason"] in {reason.value for reason in Reason}
            assert line["message"]
        else:
            assert line["reason"] is None and line["slip"] is None
        if line["span"] is not None:
            start, end = line["span"]
            assert 0 <= start <= end <= len(line["text"])
    breaks = [at for at, line in enumerate(got["lines"]) if line["verdict"] == "breaks"]
    assert got["first_wrong"] == (breaks[0] if breaks else None)


def verdicts(got: Any) -> list[str]:
    return [line["verdict"] for line in got["lines"]]


def refused(raw: bytes | str) -> Any:
    """Return the answer to a bad line that stands between two good ones."""
    good = b'{"id": "before", "lines": ["2 + 2 = 4"]}\n'
    sent = raw.encode() if isinstance(raw, str) else raw
    code, answers = served(good + sent + b"\n" + good)
    assert code == 2
    assert [one["id"] for one in answers[::2]] == ["before", "before"]
    assert set(answers[1]) == {"id", "line", "error"} and answers[1]["line"] == 2
    assert isinstance(answers[1]["error"], str) and answers[1]["error"]
    return answers[1]


# --- the two objects of the contract ----------------------------------------------------------


def test_an_equation_alone() -> None:
    got = answer(id="k1", lines=["2x + 14 = 3x", "14 = x"], find="x")
    assert verdicts(got) == ["follows", "follows"]
    assert (got["first_wrong"], got["finished"], got["units"]) == (None, True, None)
    first = {key: got["lines"][0][key] for key in LINE_KEYS}
    assert first == {
        "text": "2x + 14 = 3x",
        "verdict": "follows",
        "reason": None,
        "slip": None,
        "message": "",
        "span": None,
    }


def test_a_box_with_its_formula_givens_and_unit() -> None:
    got = answer(**BOX, lines=["V = L W H", "420 = 10 * W * 6", "420 = 60W", "W = 7", "W = 7 cm"])
    assert set(verdicts(got)) == {"follows"}
    assert (got["first_wrong"], got["finished"], got["units"]) == (None, True, "right")


# --- what comes out ---------------------------------------------------------------------------


def test_the_first_break_is_counted_from_0_and_its_part_is_marked() -> None:
    got = answer(lines=["3x = 180", "3x = 225", "x = 60"], find="x")
    assert got["first_wrong"] == 1 and got["id"] is None
    start, end = got["lines"][1]["span"]
    assert "225" in "3x = 225"[start:end]


@pytest.mark.parametrize(
    ("last", "state"),
    [
        ("W = 7 cm", "right"),
        ("W = 7", "missing"),
        ("W = 7 cm^2", "wrong_dimension"),
        ("W = 70 mm", "equivalent"),
        ("W = 7 mm", "wrong"),
    ],
)
def test_the_units_of_the_answer(last: str, state: str) -> None:
    got = answer(**BOX, lines=["V = L W H", "420 = 60W", last])
    assert got["units"] == state
    stands = state in ("right", "missing", "equivalent")
    assert (verdicts(got)[-1] in ("follows", "rounds")) == stands
    if not stands:
        assert got["lines"][-1]["reason"] == "unit"


@pytest.mark.parametrize(
    "lines", [["2x + 3x = 5x"], ["x^2 + 6x + 9 = (x + 3)^2"], ["(5x + 3) − 2x", "= 3x + 3"]]
)
def test_nothing_is_to_find_where_an_expression_is_rewritten(lines: list[str]) -> None:
    assert answer(lines=lines)["finished"] is None
    assert answer(lines=["2(3x + 4) = 6x + 8", "all numbers"], find="x")["finished"] is True


def test_units_are_null_before_there_is_an_answer() -> None:
    assert answer(**BOX, lines=["V = L W H"])["units"] is None
    assert answer(**BOX, lines=[])["units"] is None


def test_finished_is_null_where_nothing_is_to_find() -> None:
    assert answer(lines=["2 + 2 = 4"])["finished"] is None
    assert answer(lines=["3(4 + 1)", "15"])["finished"] is None
    assert answer(lines=[])["finished"] is None


def test_finished_needs_each_thing_to_find() -> None:
    sent = {"formula": "A + B = 180", "givens": {"A": "3x + 12", "B": "5x + 8"}, "find": ["A", "B"]}
    half = answer(**sent, lines=["8x + 20 = 180", "x = 20", "A = 72"])
    assert half["finished"] is False
    assert answer(**sent, lines=["8x + 20 = 180", "x = 20", "A = 72", "B = 108"])["finished"] is True


def test_struck_lines_are_not_known_but_still_counted_as_wrong() -> None:
    got = answer(lines=["x + 1 = 3", "x = 4", "x = 2"], struck=[1])
    assert got["first_wrong"] == 1
    assert verdicts(got) == ["follows", "breaks", "follows"] and got["finished"] is True
    premise_struck = answer(lines=["x + 1 = 3", "2x = 8", "x = 4"], find="x", struck=[1])
    assert verdicts(premise_struck)[2] == "breaks"


def test_the_first_line_is_the_premise_unless_it_is_false() -> None:
    assert verdicts(answer(lines=["5 = 6"])) == ["breaks"]
    assert verdicts(answer(lines=["7x = 3"])) == ["follows"]


def test_givens_may_be_numbers_and_expressions() -> None:
    got = answer(formula=["A = L W"], givens={"L": 5, "W": "L − 2"}, find="A", lines=["A = 5 * 3", "A = 15"])
    assert got["first_wrong"] is None and got["finished"] is True


def test_the_pi_that_is_named_is_the_one_that_counts() -> None:
    hoop = {"formula": "C = 2 pi r", "givens": {"r": "7 cm"}, "find": "C", "lines": ["C = 44 cm"]}
    assert verdicts(answer(**hoop, pi="22/7")) == ["follows"]


def test_notes_unread_lines_and_words_around_a_line() -> None:
    got = answer(lines=["2x = 6", "I halve both sides", "x = (3", "so x = 3"], find="x")
    assert verdicts(got) == ["follows", "note", "unread", "follows"]
    assert got["lines"][2]["reason"] == "syntax" and got["finished"] is True


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("x = 💡 3", "💡"),  # one code point, two units of UTF-16, four bytes of UTF-8
        ("√9 · x = lanternz + 1", "lanternz"),
        ("so x = (3", "("),
        ("x =", ""),  # what is missing stands after the last sign
        ("", ""),
    ],
)
def test_spans_count_code_points_of_the_text_as_sent(text: str, part: str) -> None:
    line = answer(lines=["2x = 6", text], find="x")["lines"][1]
    assert line["verdict"] == "unread"
    start, end = line["span"]
    assert text[start:end] == part


def test_a_very_long_line_is_unread() -> None:
    line = answer(lines=["x = 1", "x = " + "1+" * 5000 + "1"], find="x")["lines"][1]
    assert (line["verdict"], line["reason"]) == ("unread", "too_long")


# --- what is refused --------------------------------------------------------------------------


@pytest.mark.parametrize(
    "raw",
    [
        "",
        "{",
        "null",
        "7",
        '"lines"',
        '[{"lines": []}]',
        '{"lines": ["x = 1"],}',
        "{'lines': []}",
        "[" * 100_000,
        '{"id": NaN, "lines": []}',
        '{"id": Infinity, "lines": []}',
        '{"id": 1e999, "lines": []}',
        '{"lines": [], "givens": {"r": -Infinity}}',
        '{"lines": [], "id": 1, "id": 2}',
        '{"id": ' + "9" * 6000 + ', "lines": []}',
        b'{"id": "a", "lines": ["x = \xff"]}',
        b"\xfe\xff\x00{",
    ],
    ids=lambda value: repr(value)[:24],
)
def test_what_is_no_object_gets_an_error_and_the_stream_goes_on(raw: bytes | str) -> None:
    assert refused(raw)["id"] is None


@pytest.mark.parametrize(
    ("fields", "named"),
    [
        ({}, "lines"),
        ({"lines": "x = 1"}, "lines"),
        ({"lines": [1]}, "lines"),
        ({"lines": None}, "lines"),
        ({"lines": [], "liens": []}, "liens"),
        ({"lines": [], "find": 3}, "find"),
        ({"lines": [], "find": None}, "find"),
        ({"lines": [], "formula": {"A": "b"}}, "formula"),
        ({"lines": [], "givens": ["r = 3"]}, "givens"),
        ({"lines": [], "givens": {"r": True}}, "givens"),
        ({"lines": [], "givens": {"r": None}}, "givens"),
        ({"lines": [], "units": 3}, "units"),
        ({"lines": [], "find": "x", "units": ["cm", "m"]}, "units"),
        ({"lines": [], "find": "x", "units": "parsecs"}, "units"),
        ({"lines": [], "pi": 3.14}, "pi"),
        ({"lines": [], "pi": "3"}, "pi"),
        ({"lines": [], "every_step": 1}, "every_step"),
        ({"lines": ["x = 1"], "struck": [1]}, "struck"),
        ({"lines": ["x = 1"], "struck": [-1]}, "struck"),
        ({"lines": ["x = 1"], "struck": [True]}, "struck"),
        ({"lines": ["x = 1"], "struck": 0}, "struck"),
        ({"lines": [], "formula": "C = = 2"}, "formula"),
        ({"lines": [], "givens": {"r": "(3"}}, "given"),
        ({"lines": ["x + y = 3"]}, "find"),
    ],
)
def test_a_wrong_field_is_named_and_the_id_is_kept(fields: dict[str, Any], named: str) -> None:
    got = refused(json.dumps({"id": "k9", **fields}))
    assert got["id"] == "k9" and named in got["error"]


def test_answers_come_in_order_and_each_is_flushed() -> None:
    class Counting(io.BytesIO):
        flushed_at: list[int]

        def flush(self) -> None:
            self.flushed_at.append(self.getvalue().count(b"\n"))

    sink = Counting()
    sink.flushed_at = []
    source = b"".join(b'{"id": %d, "lines": []}\n' % number for number in range(3))
    assert serve(io.BytesIO(source.rstrip()), sink) == 0
    assert [json.loads(row)["id"] for row in sink.getvalue().splitlines()] == [0, 1, 2]
    assert sink.flushed_at == [1, 2, 3]


def test_any_id_comes_back_as_it_was() -> None:
    for identity in (0, "é", "", None, [1, {"a": None}], 1.5, True, "\ud800"):
        assert answer(id=identity, lines=[])["id"] == identity


@given(st.binary(max_size=60))
def test_any_bytes_get_one_answer_for_each_line(raw: bytes) -> None:
    _, answers = served(raw)
    assert len(answers) == len(io.BytesIO(raw).readlines())


@given(st.lists(st.text(alphabet="x0123456789+-*/=()^.<> √π[]", max_size=14), max_size=4))
def test_any_lines_get_an_answer_of_the_promised_shape(lines: list[str]) -> None:
    answer(id=1, find="x", lines=lines)
