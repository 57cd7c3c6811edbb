"""The audit of every draw: faults that only some numbers have, slips that some numbers hide, advice on wording."""

from collections.abc import Mapping
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tutor.lesson.audit import MOST_OF_A_PROBLEM, QUICK, Audited, audited
from tutor.lesson.auditing.floats import number
from tutor.lesson.auditing.trying import tries
from tutor.lesson.model import Fault, Lesson
from tutor.lesson.reader import load_lesson, read_lesson
from tutor.line.meaning import Setting
from tutor.line.tree import Expr
from tutor.resources import lessons_folder

HEAD = "lesson   Hoops\nformat   1\npi       3.14\n\nproblem  Hoop\n"
ASK = "  ask      How much is it?\n"


def lesson_with(body: str, ask: str = ASK) -> Lesson:
    lesson, faults = read_lesson(HEAD + ask + body, "hoops.lesson")
    assert lesson is not None, "\n".join(map(str, faults))
    return lesson


def looked_over(body: str, ask: str = ASK) -> Audited:
    return audited(lesson_with(body, ask))


def only(found: tuple[Fault, ...]) -> Fault:
    (one,) = found
    return one


# --- faults of some draws ---------------------------------------------------------------------

# A good problem, what is changed in it, and what the audit says then: the place and a piece of the message.
STRIP = (
    "  vary     l from 30 to 40\n  vary     w from 12 to 20\n  formula  P = 2 L + 2 W\n"
    "  given    P = {2 l + 2 w} cm\n  given    L = {l} cm\n  find     W in cm\n"
)
HOOP = (
    "  vary     r from 6 to 9\n  figure   circle, radius r, circumference C\n  formula  C = 2 pi r\n"
    "  given    C = 2 * 3.14 * r cm\n  find     r in cm\n"
)
ANGLES = (
    "  vary     t from 20 to 40\n  figure   angles, first A, second B\n  formula  A + B = 180\n"
    "  given    A = {t}°\n  find     B in °\n"
)
TRIANGLE = (
    "  vary     c from 6 to 9\n  figure   triangle, left side a, right side b, base c\n"
    "  formula  P = a + b + c\n  given    a = 7 cm\n  given    b = 5 cm\n"
    "  given    c = {c} cm\n  find     P in cm\n"
)

MUTANTS = [
    (STRIP, "{2 l + 2 w}", "{2 l - 2 w + 36}", "12:12", "W comes out as 0 or less", "w = 20"),
    (STRIP, "given    L = {l} cm", "given    L = {l} cm\n  given    W = 15 cm", "", "", ""),
    (ANGLES, "to 40", "to 190 step 10", "11:12", "", "t = "),
    (TRIANGLE, "to 9", "to 12", "8:12", "", "c = 12"),
    (HOOP, "find     r in cm", "find     r", "11:12", "no unit is asked for", ""),
    (HOOP, "C = 2 pi r", "C = 2 pi r^2", "9:12", "sets a length and an area equal", ""),
]


@pytest.mark.parametrize("body", [STRIP, HOOP, ANGLES, TRIANGLE])
def test_good_problems_have_no_fault(body: str) -> None:
    found = looked_over(body)
    assert found.faults == ()
    assert found.advice == ()


@pytest.mark.parametrize(("body", "old", "new", "place", "message", "draw"), MUTANTS)
def test_a_good_problem_made_bad_is_found(
    body: str, old: str, new: str, place: str, message: str, draw: str
) -> None:
    assert old in body
    changed = body.replace(old, new)
    lesson, faults = read_lesson(HEAD + ASK + changed, "hoops.lesson")
    if lesson is None:
        assert faults
        return
    fault = audited(lesson).faults[0]
    assert not place or f"{fault.line}:{fault.column}" == place
    assert message in fault.message
    assert draw in fault.message


def test_a_kind_of_fault_is_told_once_and_names_the_first_draw_that_has_it() -> None:
    body = STRIP.replace("{2 l + 2 w}", "{2 l + 2 w - 30}")  # W = w − 15: impossible up to w = 15
    fault = only(looked_over(body).faults)
    assert fault.message.startswith("With l = 30, w = 12: W comes out as 0 or less")


def test_a_fault_that_every_draw_has_names_none() -> None:
    body = HOOP.replace("find     r in cm", "find     q in cm").replace("radius r, ", "")
    lesson, _faults = read_lesson(HEAD + ASK + body.replace("C = 2 pi r\n", "C = 2 pi r + q\n"), "a.lesson")
    assert lesson is not None
    fault = only(audited(lesson).faults)
    assert fault.message == "q cannot be worked out: r has no value. Write a given for what is known."


# --- which draws ------------------------------------------------------------------------------


def test_few_draws_are_all_tried_and_many_are_sampled_the_same_way_each_time() -> None:
    few = looked_over(HOOP)
    assert (few.tried, few.draws, few.every) == (4, 4, True)
    many = looked_over(STRIP.replace("from 30 to 40", "from 30 to 90"))
    assert (many.tried, many.draws, many.every) == (MOST_OF_A_PROBLEM, 61 * 9, False)
    assert many == looked_over(STRIP.replace("from 30 to 40", "from 30 to 90"))


def test_the_smallest_and_the_largest_numbers_are_among_those_tried() -> None:
    problem = lesson_with(STRIP.replace("from 30 to 40", "from 30 to 900")).problems[0]
    assert problem.template is not None
    texts = [str(draw) for draw in tries(problem.template, problem.name, 5).draws]
    assert "l = 30, w = 12" in texts
    assert "l = 900, w = 20" in texts
    assert len(texts) == len(set(texts)) == 5


def test_a_whole_lesson_is_tried_with_a_bounded_number_of_draws() -> None:
    body = STRIP.replace("from 30 to 40", "from 30 to 90")
    more = "".join(f"\nproblem  Hoop {at}\n{ASK}{body}" for at in range(60))
    found = looked_over(body + more)
    assert found.tried <= max(QUICK, 61)
    assert found.faults == ()


# --- numbers that hide a slip -------------------------------------------------------------------

# By hand: 2πr = πr² at r = 2; πd = π(d/2)² at d = 4; 3 · 6 = 2 · 3 + 2 · 6; r² = 2r at r = 2, whatever h is.
HIDING = [
    (HOOP.replace("6 to 9", "1 to 9"), "r = 2", "where    r != 2"),
    (
        "  vary     d from 2 to 6\n  formula  C = pi d\n  given    d = {d} cm\n  find     C in cm\n",
        "d = 4",
        "where    d != 4",
    ),
    ("  formula  A = L W\n  given    L = 3 cm\n  given    W = 6 cm\n  find     A in cm^2\n", "", ""),
    (
        "  formula  V = pi r^2 h\n  given    r = 2 cm\n  given    h = 9 cm\n  find     V in cm^3\n",
        "",
        "",
    ),
    ("  vary     n from 1 to 4\n  equation 3n + 5 = {3 n + 5}\n  find     n\n", "n = 1", "where    n != 1"),
    (
        "  formula  A = 1/2 (a + c) h\n  given    a = 20 cm\n  given    c = 30 cm\n  given    h = 20 cm\n"
        "  find     A in cm^2\n",
        "a and h are equal",
        "",
    ),
]


@pytest.mark.parametrize(("body", "message", "instead"), HIDING)
def test_numbers_that_hide_a_slip_are_named(body: str, message: str, instead: str) -> None:
    found = looked_over(body)
    assert found.faults == ()
    advice = only(found.advice)
    assert message in advice.message
    assert "would not show" in advice.message
    assert advice.instead == instead


@pytest.mark.parametrize(
    "body",
    [
        HOOP.replace("6 to 9", "1 to 9").replace("6 to 9", "") + "  where    r != 2\n",
        "  formula  A = L W\n  given    L = 5 cm\n  given    W = 5 cm\n  find     A in cm^2\n",
        "  formula  L = W + 40\n  formula  P = 2 L + 2 W\n  given    P = 280 cm\n  find     L and W in cm\n",
        "  formula  A = 1/2 b h\n  given    A = 90 cm^2\n  given    b = 12 cm\n  find     h in cm\n",
        "  vary     n from 6 to 9\n  equation 4n + 5 = {4 n + 5}\n  find     n\n",
    ],
)
def test_numbers_that_hide_nothing_are_not_named(body: str) -> None:
    assert looked_over(body).advice == ()


def test_a_rounding_can_hide_a_slip() -> None:
    # 2 · 3.14 · 2.001 = 12.566 and 3.14 · 2.001² = 12.573 are 13 both.
    body = "  formula  C = 2 pi r\n  given    r = 2.001 cm\n  find     C in cm\n"
    assert looked_over(body).advice == ()
    assert "would not show" in only(looked_over(body + "  round    to a whole number\n").advice).message


# --- advice about numbers and words -------------------------------------------------------------

ADVICE = [
    (
        "  formula  A = b h\n  given    A = 10 cm^2\n  given    b = 7 cm\n  find     h in cm\n",
        "no ending decimal",
    ),
    ("  formula  V = 9 W\n  given    W = 4000000 cm^3\n  find     V in cm^3\n", "nearer to 1"),
    ("  formula  A = b h\n  given    A = 1 m^2\n  given    b = 8000 m\n  find     h in m\n", "nearer to 1"),
]


@pytest.mark.parametrize(("body", "message"), ADVICE)
def test_advice_about_the_answer(body: str, message: str) -> None:
    found = looked_over(body)
    assert found.faults == ()
    assert message in only(found.advice).message


def test_a_rounding_or_a_fraction_without_unit_needs_no_advice() -> None:
    third = "  formula  A = b h\n  given    A = 10 cm^2\n  given    b = 7 cm\n  find     h in cm\n"
    assert looked_over(third + "  round    to 1 place\n").advice == ()
    assert looked_over("  equation 3x = 7\n  find     x\n").advice == ()


def test_things_that_are_counted_come_out_whole() -> None:
    ask = "  ask      How many boxes n are needed?\n"
    body = "  equation 20n = 250\n  find     n\n"
    assert "things are whole" in only(looked_over(body, ask).advice).message
    assert looked_over(body + "  round    up to a whole number\n", ask).advice == ()
    assert looked_over(body, "  ask      How many hours n does it take?\n").advice == ()


TWENTY_ONE = "The " + "red " * 19 + "hoop is long."
WORDING = [
    (f"  ask      {TWENTY_ONE}\n", "has 23 words"),
    ("  ask      How long is it? And how wide is it?\n", "2 questions"),
    ("  ask      How long is the counterrevolution?\n", "has 17 letters"),
    (f"  ask      {('It is a hoop. ' * 45).strip()}\n", "rows of"),
]


@pytest.mark.parametrize(("ask", "message"), WORDING)
def test_advice_about_the_question(ask: str, message: str) -> None:
    found = looked_over("  equation 5x = 35\n  find     x\n", ask)
    assert found.faults == ()
    advice = only(found.advice)
    assert message in advice.message
    assert advice.line == 6


def test_all_that_is_said_of_one_question_is_said() -> None:
    found = looked_over("  equation 5x = 35\n  find     x\n", f"  ask      {TWENTY_ONE} Why? How?\n")
    assert len(found.advice) == 2


def test_conditions_and_pieces_without_effect() -> None:
    found = looked_over(HOOP + "  where    r != 20\n")
    assert "leaves nothing out" in only(found.advice).message
    body = (
        "  piece    wall = L W\n  piece    roof = L h\n  formula  A = 3 wall\n  given    L = 9 cm\n"
        "  given    W = 7 cm\n  given    h = 5 cm\n  find     A in cm^2\n"
    )
    assert "No formula uses the piece “roof”" in only(looked_over(body).advice).message
    assert looked_over(body.replace("3 wall", "wall + roof")).advice == ()


def test_a_derivation_that_cannot_be_reached_is_a_fault() -> None:
    good = "  formula  A + B = 180\n  formula  C + B = 180\n  show     A = C\n"
    assert looked_over(good).faults == ()
    assert looked_over(good.replace("A = C", "A = 2 C")).faults


# --- sensible problems: no fault, no advice -----------------------------------------------------


@settings(max_examples=25, deadline=None)
@given(
    times=st.integers(3, 9),
    more=st.integers(11, 30),
    first=st.integers(12, 40),
    count=st.integers(1, 30),
    kind=st.integers(0, 2),
)
def test_sensible_problems_have_no_fault(times: int, more: int, first: int, count: int, kind: int) -> None:
    vary = f"  vary     x from {first} to {first + count}\n"
    body = (
        f"{vary}  equation {times}n + {more} = {{{times} x + {more}}}\n  find     n\n",
        f"{vary}  formula  P = 2 L + 2 W\n  given    P = {{2 x + {2 * (more + 60)}}} cm\n"
        f"  given    L = {more + 60} cm\n  find     W in cm\n",
        f"{vary}  formula  A = pi r^2\n  given    A = 3.14 * x * x cm^2\n  find     r in cm\n",
    )[kind]
    found = looked_over(body)
    assert found.faults == ()
    assert found.advice == ()


@pytest.mark.parametrize("path", sorted(lessons_folder().glob("*.lesson")), ids=lambda path: str(path.stem))
def test_a_shipped_lesson_has_no_fault_with_any_draw_that_is_tried(path: Path) -> None:
    lesson, _faults = load_lesson(path)
    assert lesson is not None
    assert audited(lesson).faults == ()


# --- hostile lessons: bounded work ---------------------------------------------------------------


def test_the_audit_of_a_large_lesson_spends_no_more_than_its_budget(monkeypatch: pytest.MonkeyPatch) -> None:
    calls = 0

    def counted(expr: Expr, values: Mapping[str, float], setting: Setting) -> float:
        nonlocal calls
        calls += 1
        return number(expr, values, setting)

    monkeypatch.setattr("tutor.lesson.auditing.hidden.number", counted)
    formula = "  formula  A = " + " + ".join(f"{at} a b" for at in range(2, 40)) + "\n"
    body = formula + "  given    a = 5 cm\n  given    b = 7 cm\n  find     A in cm^2\n"
    more = "".join(f"\nproblem  Hoop {at}\n{ASK}{body}" for at in range(50))
    looked_over(body + more)
    assert calls < 20_000


# --- units in a question --------------------------------------------------------------------------

UNITS = "  vary     v in 3, 4\n  formula  d = v t\n  given    v = {v} km/h\n  given    t = 2 h\n  find     d in km\n"


@pytest.mark.parametrize(
    ("ask", "shown"),
    [
        ("Mira walks {v} km/h for {t}.", ["{v} is shown with its unit: 3 km/h. Take the second one away."]),
        ("Mira walks {v} for {t} hours.", ["{t} is shown with its unit: 2 h. Take the second one away."]),
        ("It is {t}h at {v} km/h.", ["{t} is shown", "{v} is shown"]),
        ("Mira walks {v} for {t}.", []),
        ("In {t} half the way of {v} is gone.", []),
        ("Mira walks for {t} in all at {v}.", []),
    ],
)
def test_a_unit_that_would_be_read_twice_is_told(ask: str, shown: list[str]) -> None:
    advice = looked_over(UNITS, f"  ask      {ask}\n").advice
    told = [fault.message for fault in advice if "is shown" in fault.message]
    assert len(told) == len(shown)
    assert all(message.startswith(begun) for message, begun in zip(told, shown, strict=True))


@pytest.mark.parametrize(
    ("given", "ask", "count"),
    [
        ("p = 20%", "It is {p}% off.", 1),
        ("p = 20%", "It is {p} off.", 0),
        ("p = 20 $", "It costs ${p} more.", 1),
        ("p = 20 $", "It costs {p} $ more.", 1),
        ("p = $20", "It costs {p} more.", 0),
        ("p = 20°", "It is {p}° warm.", 1),
        ("p = 20", "It is ${p} and {p}% and {p}°.", 0),
    ],
)
def test_a_sign_that_would_be_read_twice_is_told(given: str, ask: str, count: int) -> None:
    found = looked_over(f"  formula  q = 2 p\n  given    {given}\n  find     q\n", f"  ask      {ask}\n")
    assert len([fault for fault in found.advice if "is shown" in fault.message]) == count
