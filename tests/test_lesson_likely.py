"""What a fault tells a teacher to write: the letters and units of the problem itself, once and in one place."""

import pytest

from tutor.lesson.audit import audited
from tutor.lesson.fresh import redrawn
from tutor.lesson.model import Fault
from tutor.lesson.reader import read_lesson
from tutor.marking.task import Task

HEAD = "lesson   Boxes\nformat   1\npi       3.14\n\nproblem  Box\n  ask      How much is it?\n"


def faults_of(body: str) -> tuple[Fault, ...]:
    return read_lesson(HEAD + body, "boxes.lesson")[1]


def told(body: str) -> list[tuple[str, str]]:
    return [(fault.message, fault.instead) for fault in faults_of(body)]


# --- a find that is missing -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("body", "instead"),
    [
        ("  equation 3n + 4 = 10\n", "find     n"),
        ("  vary     a from 2 to 5\n  equation {a}k = {6 a}\n", "find     k"),
        ("  formula  A = L W\n  given    L = 3 cm\n  given    W = 4 cm\n", "find     A in cm^2"),
        ("  formula  A = L W\n  given    A = 12 sq ft\n  given    W = 4 ft\n", "find     L in ft"),
        ("  formula  V = a^3\n  given    a = 2 m\n", "find     V in m^3"),
        ("  formula  C = 2 pi r\n  given    C = 30 in\n", "find     r in in"),
        ("  formula  A + B = 180\n  given    A = 40°\n", "find     B in °"),
        ("  formula  m = 3.50 b\n  given    b = 7\n", "find     m"),
        ("  formula  s = v t\n  given    v = 3 m/s\n  given    t = 4 s\n", "find     s"),
        (
            "  piece    front = L H\n  formula  S = 2 front + 8\n  given    L = 3 cm\n  given    H = 4 cm\n",
            "find     S in cm^2",
        ),
        ("  names    SA\n  formula  SA = 6 a^2\n  given    a = 7 cm\n", "find     SA in cm^2"),
        # Nothing is left to find: any entry will do.
        ("  formula  A = L W\n  given    A = 6\n  given    L = 2\n  given    W = 3\n", "find     r in cm"),
    ],
)
def test_a_missing_find_is_suggested_with_a_name_of_the_problem(body: str, instead: str) -> None:
    (fault,) = faults_of(body)
    assert "“find” is missing" in fault.message
    assert fault.instead == instead


def test_an_empty_find_is_told_with_a_name_of_the_problem() -> None:
    (fault,) = faults_of("  equation 3n + 4 = 10\n  find\n")
    assert (fault.message, fault.instead) == ("Nothing stands after “find”.", "find     n")


# --- numbers that cannot be read --------------------------------------------------------------


@pytest.mark.parametrize(
    "body",
    [
        "  vary     W from 4 up\n  vary     L from 5 to 9\n  where    W != L\n  formula  A = L W\n"
        "  given    L = {L} cm\n  given    W = {W + 1} cm\n  find     A in cm^2\n",
        "  vary     W 4 bis 9 ?\n  vary     L from 5 to 9\n  formula  A = L W\n"
        "  given    L = L cm\n  given    W = 2 W cm\n  find     A in cm^2\n",
        "  vary     W from\n  where    W > 3\n  equation {W}x = {3 W}\n  find     x\n",
    ],
)
def test_a_vary_that_cannot_be_read_is_the_only_fault(body: str) -> None:
    (fault,) = faults_of(body)
    assert (fault.line, fault.message.startswith("After “vary”")) == (7, True)


def test_what_has_nothing_to_do_with_the_numbers_is_told_beside_it() -> None:
    first, second = faults_of("  vary     W from 4 up\n  equation {W}x = 12\n")
    assert "“find” is missing" in first.message
    assert second.instead == "vary     W from 4 to 9 step 0.5"


# --- divided by 0 -----------------------------------------------------------------------------

BY_ZERO = "With a = 1, b = 0 something is divided by 0 here. Leave such numbers out."
TWO = "  vary     a in 1\n  vary     b in 2, 0\n"


@pytest.mark.parametrize(
    ("body", "instead"),
    [
        ("  equation {a}/{b} = x\n  find     x\n", "where    b != 0"),
        ("  equation {a} ÷ {b} = x\n  find     x\n", "where    b != 0"),
        ("  equation {a}x / {b + a - 1} = 3\n  find     x\n", "where    b + a - 1 != 0"),
        ("  equation {a/b}x = 3\n  find     x\n", "where    b != 0"),
        ("  formula  p = 100 q\n  given    q = a / b\n  find     p\n", "where    b != 0"),
    ],
)
def test_numbers_that_are_divided_by_0_are_told_and_drawn_for_nobody(body: str, instead: str) -> None:
    lesson, faults = read_lesson(HEAD + TWO + body, "boxes.lesson")
    if lesson is None:  # the draw that is looked at first has the 0
        (fault,) = faults
    else:
        (fault,) = audited(lesson).faults
        for seed in range(20):
            problem = redrawn(lesson.problems[0], seed)
            assert dict(problem.numbers)["b"] == "2"
    assert (fault.message, fault.instead) == (BY_ZERO, instead)


@pytest.mark.parametrize("equation", ["{b}/{a} = x", "3 − {b} = x", "3/{a} − {b} = x", "12 / 1{b} = x"])
def test_a_0_that_divides_nothing_is_a_number_like_any_other(equation: str) -> None:
    faults = faults_of(TWO + f"  equation {equation}\n  find     x\n")
    assert all("divided" not in fault.message for fault in faults)


def test_a_given_of_0_that_a_formula_divides_by_is_left_out_by_a_condition() -> None:
    lesson, faults = read_lesson(
        HEAD + "  vary     b from 0 to 4\n  formula  p = 100 w / g\n  given    w = 6\n"
        "  given    g = {b}\n  find     p\n",
        "boxes.lesson",
    )
    assert lesson is not None, faults
    (fault,) = audited(lesson).faults
    assert fault.message.startswith("With b = 0: ")
    assert fault.instead == "where    b != 0"
    assert isinstance(lesson.problems[0].task, Task)


# --- what a piece is measured in --------------------------------------------------------------

SIZES = "  given    a = 4 m\n  given    b = 5 m\n  given    L = 10 m\n"


@pytest.mark.parametrize(
    ("body", "units"),
    [
        # Of the same kind as what is found behind it: that one's unit.
        ("  piece    front = a b\n  formula  S = 2 front + L\n  find     S in m^2\n", ("m^2", "m^2")),
        ("  piece    front = a b\n  formula  S = 2 front + L\n  find     S in cm^2\n", ("cm^2", "cm^2")),
        # An area on the way to a volume, a length on the way to an area.
        ("  piece    front = a b / 2\n  formula  V = front L\n  find     V in m^3\n", ("m^2", "m^3")),
        ("  piece    front = a b / 2\n  formula  V = front L\n  find     V in cm^3\n", ("cm^2", "cm^3")),
        ("  piece    long = a + b\n  formula  A = long L\n  find     A in m^2\n", ("m", "m^2")),
        ("  piece    front = a b\n  formula  V = front L\n  find     V in L\n", ("m^2", "L")),
        # An area on the way to a price; a number may be a price, so then it stays as it was.
        ("  piece    floor = a b\n  formula  p = 3 floor + L\n  find     p in $\n", ("m^2", "$")),
        ("  piece    side = 6 L\n  formula  S = 2 side + a b\n  find     S in m^2\n", ("m^2", "m^2")),
        ("  piece    cost = 3 a\n  formula  p = cost + L + b\n  find     p in $\n", ("$", "$")),
        ("  piece    floor = a b\n  formula  p = 3 floor + L\n  find     p\n", ("", "")),
    ],
)
def test_a_piece_is_measured_in_what_its_formula_makes_it(body: str, units: tuple[str, ...]) -> None:
    lesson, faults = read_lesson(HEAD + body.replace("  find", SIZES + "  find"), "boxes.lesson")
    assert lesson is not None, faults
    task = lesson.problems[0].task
    assert isinstance(task, Task)
    assert task.units == units


# --- a unit that is not asked for -------------------------------------------------------------


@pytest.mark.parametrize(
    ("formula", "said", "instead"),
    [
        ("S = 2 a b + 2 a L", "an area", "find     S in m^2"),
        ("S = a b L", "a volume", "find     S in m^3"),
        ("S = a + b + L", "a length", "find     S in m"),
        ("S = 3 a / b L / b", "", ""),
        ("S = a / b + 3 L / b", "", ""),
    ],
)
def test_a_size_that_only_its_formula_tells_of_is_asked_for_in_a_unit(
    formula: str, said: str, instead: str
) -> None:
    lesson, faults = read_lesson(f"{HEAD}  formula  {formula}\n{SIZES}  find     S\n", "boxes.lesson")
    assert lesson is not None, faults
    found = audited(lesson)
    assert found.faults == ()
    told = [
        (fault.message, fault.instead) for fault in found.advice if "no unit is asked for" in fault.message
    ]
    assert told == ([(f"“S” is {said}, and no unit is asked for.", instead)] if said else [])
