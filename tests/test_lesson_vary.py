"""Fresh numbers: what `vary`, `where` and braces make of a problem, the same on every machine."""

import os
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lesson_bases import BASES, HEAD

from tutor.lesson.amounts import Condition, decimal_text, read_condition
from tutor.lesson.fresh import answers_whole, drawn, draws, redrawn
from tutor.lesson.model import Lesson, Problem
from tutor.lesson.reader import read_lesson
from tutor.lesson.variation import MOST_LOOKED_AT, every_draw
from tutor.marking.solve import solve
from tutor.marking.task import Task
from tutor.quantity.pi import Pi

VARIED = "  ask      Solve it.\n  equation {a}x + {b} = {a k + b}\n  find     x\n"


def lesson_of(body: str, head: str = HEAD) -> Lesson:
    lesson, faults = read_lesson(f"{head}problem  Hoop\n{body}", "hoops.lesson")
    assert lesson is not None, "\n".join(map(str, faults))
    return lesson


def one(body: str) -> Problem:
    (problem,) = lesson_of(body).problems
    return problem


def task(problem: Problem) -> Task:
    assert isinstance(problem.task, Task)
    return problem.task


def values(problem: Problem) -> dict[str, str]:
    return dict(problem.numbers)


# --- which numbers ----------------------------------------------------------------


@pytest.mark.parametrize(
    ("entry", "texts"),
    [
        ("r from 4 to 7", ["4", "5", "6", "7"]),
        ("r from 4 to 5.5 step 0.5", ["4", "4.5", "5", "5.5"]),
        ("r from −1 to 1", ["−1", "0", "1"]),
        ("r from -1 to 1", ["−1", "0", "1"]),
        ("r from 1 to 2 step 0.4", ["1", "1.4", "1.8"]),  # the last one is not passed over
        ("r in 3, 4, 8", ["3", "4", "8"]),
        ("r in 1/3, 2/3", ["1/3", "2/3"]),
        ("r in 0.5", ["0.5"]),
        ("r from 3 to 3", ["3"]),
        ("r from .5 to 1 step 1/4", ["0.5", "0.75", "1"]),
    ],
)
def test_the_values_of_a_varied_name(entry: str, texts: list[str]) -> None:
    problem = one(f"  vary     {entry}\n  ask      ?\n  equation 3x = {{3 r}}\n  find     x\n")
    assert problem.template is not None
    assert problem.template.variation is not None
    (found,) = problem.template.variation.ranges
    assert list(found.texts) == texts
    assert list(found.values) == [Fraction(text.replace("−", "-")) for text in texts]


@pytest.mark.parametrize(
    ("condition", "kept"),
    [
        ("r != 2", [1, 3, 4, 5, 6]),
        ("r ≠ 2", [1, 3, 4, 5, 6]),
        ("2 < r ≤ 5", [3, 4, 5]),
        ("r^2 > 10", [4, 5, 6]),
        ("r/2 whole", [2, 4, 6]),
        ("r/3 is a whole number", [3, 6]),
        ("2 r = 8", [4]),
        ("|r − 4| = 1", [3, 5]),
        ("1/(r − 3) < 1", [1, 2, 5, 6]),  # 4 gives 1, and for 3 there is no value
        ("2 pi r > 30", [5, 6]),  # with the pi of the lesson, 3.14
        ("(r > 2)", [3, 4, 5, 6]),
    ],
)
def test_conditions(condition: str, kept: list[int]) -> None:
    read = read_condition(condition, frozenset({"r"}))
    assert isinstance(read, Condition)
    assert [r for r in range(1, 7) if read.holds({"r": Fraction(r)}, Pi.DECIMAL)] == kept


def test_several_conditions_hold_at_once() -> None:
    problem = one(
        "  vary     r from 1 to 9\n  where    r > 3\n  where    r != 5\n  where    r/2 whole\n"
        "  ask      ?\n  equation {r}x = {2 r}\n  find     x\n"
    )
    found, all_of_them = draws(problem, 60)
    assert all_of_them
    assert sorted(str(draw) for draw in found) == ["r = 4", "r = 6", "r = 8"]


def test_a_whole_answer() -> None:
    problem = one(
        "  vary     s from 10 to 40\n  where    answer whole\n  ask      ?\n"
        "  equation 7x = {s}\n  find     x\n"
    )
    for seed in range(20):
        fresh = redrawn(problem, seed)
        assert int(values(fresh)["s"]) % 7 == 0
        assert answers_whole(fresh)


# --- what stands in the place of braces -------------------------------------------


@pytest.mark.parametrize(
    ("entry", "equation"),
    [
        ("a in 3", "3x + 5 = 17"),
        ("a in 1", "x + 5 = 9"),  # no 1 stands before a letter
        ("a in −1", "−x + 5 = 1"),
        ("a in −3", "−3x + 5 = −7"),
        ("a in 0.5", "0.5x + 5 = 7"),
    ],
)
def test_a_factor_in_an_equation(entry: str, equation: str) -> None:
    body = VARIED.replace("{b}", "5").replace("{a k + b}", "{4 a + 5}")
    assert task(one(f"  vary     {entry}\n{body}")).formulas == (equation,)


@pytest.mark.parametrize(
    ("written", "equation"),
    [
        ("2x + {b} = 7", "2x − 3 = 7"),
        ("2x − {b} = 7", "2x + 3 = 7"),
        ("2x - {b} = 7", "2x + 3 = 7"),
        ("{b} + 2x = 7", "−3 + 2x = 7"),
        ("2x = {b}", "2x = −3"),
        ("2(x + {b}) = 7", "2(x − 3) = 7"),
        ("2x + 4 = ({b})^2", "2x + 4 = (−3)^2"),
        ("x · {b} = 6", "x · −3 = 6"),
    ],
)
def test_signs_are_tidied(written: str, equation: str) -> None:
    problem = one(f"  vary     b in −3\n  ask      ?\n  equation {written}\n  find     x\n")
    assert task(problem).formulas == (equation,)


@pytest.mark.parametrize(
    ("number", "written", "equation"),
    [
        ("−3", "x + {b}^2 = 7", "x + (−3)^2 = 7"),
        ("−3", "{b}² + x = 7", "(−3)² + x = 7"),
        ("−3", "x − {b}^2 = 7", "x − (−3)^2 = 7"),
        ("−3", "5 {b}x = 7", "5 (−3)x = 7"),
        ("−3", "x {b} = 7", "x (−3) = 7"),
        ("−3", "(x + 1){b} = 7", "(x + 1)(−3) = 7"),
        ("−3", "|x| {b} = 7", "|x| (−3) = 7"),
        ("−3", "|{b}| x = 7", "|−3| x = 7"),
        ("1/3", "{b}x = 7", "(1/3)x = 7"),
        ("1/3", "{b}(x + 1) = 7", "(1/3)(x + 1) = 7"),
        ("1/3", "x/{b} = 7", "x/(1/3) = 7"),
        ("1/3", "{b}² + x = 7", "(1/3)² + x = 7"),
        ("1/3", "x + {b} = 7", "x + 1/3 = 7"),
        ("1", "{b}² + x = 7", "1² + x = 7"),
        ("1", "2^{b}x = 7", "2^1x = 7"),
        ("1", "2^{b}(x + 1) = 7", "2^1(x + 1) = 7"),
    ],
)
def test_a_number_stays_the_number_it_is(number: str, written: str, equation: str) -> None:
    problem = one(f"  vary     b in {number}\n  ask      ?\n  equation {written}\n  find     x\n")
    assert task(problem).formulas == (equation,)


@pytest.mark.parametrize("written", ["3{b}x = 7", "{b}{b}x = 7", "{b}2x = 7", "{b}.5x = 7", "0.5{b}x = 7"])
def test_digits_that_touch_braces_are_refused(written: str) -> None:
    body = f"  vary     b in 4\n  ask      ?\n  equation {written}\n  find     x\n"
    lesson, faults = read_lesson(f"{HEAD}problem  Hoop\n{body}", "hoops.lesson")
    assert lesson is None
    assert "Put a sign between them." in faults[0].message
    assert "{" in faults[0].text


def test_digits_touch_braces_in_a_question_as_they_like() -> None:
    problem = one(
        "  vary     b in 4\n  ask      It costs ${b}.50 in row 1{b}.\n  equation {b}x = 7\n  find     x\n"
    )
    assert problem.ask == "It costs $4.50 in row 14."


def test_a_given_of_varied_names_needs_no_braces() -> None:
    problem = one(
        "  vary     r in 8.5\n  ask      It is {C} long.\n  formula  C = 2 pi r\n"
        "  given    C = 2 * 3.14 * r cm\n  find     r in cm\n"
    )
    assert problem.givens == (("C", "53.38 cm"),)
    assert problem.ask == "It is 53.38 cm long."
    solution, _sentences = solve(task(problem))
    assert solution is not None
    found = solution.value("r")
    assert found is not None
    assert (found.text, found.unit) == ("8.5", "cm")


def test_braces_in_a_question_are_a_given_or_a_number() -> None:
    problem = one(
        "  vary     r in 8.5\n  ask      {C} or {2 * 3.14 * r}? Not {r}, {r^2} or {r/5}.\n"
        "  formula  C = 2 pi r\n  given    C = {2 * 3.14 * r} cm\n  find     r in cm\n"
    )
    assert problem.ask == "53.38 cm or 53.38? Not 8.5, 72.25 or 1.7."


def test_a_given_named_as_the_number_that_varies_shows_its_unit() -> None:
    problem = one(
        "  vary     r in 6\n  ask      A hoop of r = {r}.\n  formula  C = 2 pi r\n"
        "  given    r = {r} cm\n  find     C in cm\n"
    )
    assert problem.ask == "A hoop of r = 6 cm."
    assert problem.givens == (("r", "6 cm"),)


def test_angles_are_written_with_tidied_signs() -> None:
    problem = one(
        "  vary     b in −8\n  ask      A = ({A})° and B = ({B})°.\n  formula  A + B = 180\n"
        "  given    A = 3x + 12\n  given    B = 5x + {b}\n  find     A and B in °\n"
    )
    assert problem.ask == "A = (3x + 12)° and B = (5x − 8)°."
    assert problem.givens == (("A", "3x + 12"), ("B", "5x − 8"))


def test_a_place_behind_a_number_is_still_the_place_in_the_file() -> None:
    lesson, (fault,) = read_lesson(
        f"{HEAD}problem  Hoop\n  vary     r in 100\n  ask      {{r}} and {{r}} and {{q}}?\n"
        "  equation {r}x = 200\n  find     x\n",
        "hoops.lesson",
    )
    assert lesson is None
    assert (fault.line, fault.column, fault.text[fault.column - 1 :]) == (7, 28, "{q}?")


def test_lengths_choices_and_goals_are_filled_too() -> None:
    triangle = one("  vary     c in 9\n  ask      ?\n  triangle 4 cm, 6 cm, {c} cm\n")
    assert task(triangle).lengths == ("4 cm", "6 cm", "9 cm")
    goal = one(
        "  vary     n in 4\n  ask      ?\n  formula  P = {n} s\n  formula  s = 2 t\n"
        "  show     P = {2 n} t\n  reason   There are {n} sides.\n"
    )
    assert task(goal).goals == ("P = 8 t",)
    assert goal.reason == "There are 4 sides."


@pytest.mark.parametrize(
    ("value", "text"),
    [
        ("3", "3"),
        ("-3", "−3"),
        ("1/4", "0.25"),
        ("-1/8", "−0.125"),
        ("1/64", "0.015625"),
        ("1/3", None),
        ("1/128", None),
        ("0", "0"),
        ("1000000000000", None),
        ("1/1000000", "0.000001"),
    ],
)
def test_numbers_are_written_as_decimals_of_six_places(value: str, text: str | None) -> None:
    assert decimal_text(Fraction(value)) == text


# --- the same numbers everywhere --------------------------------------------------

# These are drawn by SHA-256 and by nothing else: a change of them would give students who are in the
# middle of a lesson other numbers, so they stand here as text.
PINNED = [
    ("vary", 0, 0, {"r": "8"}),
    ("vary", 1, 0, {"r": "6"}),
    ("vary", 1, 1, {"r": "4.5"}),
    ("vary", 7, 0, {"r": "4.5"}),
    ("vary", 123456789, 0, {"r": "4.5"}),
    ("vary", 2**63 - 1, 0, {"r": "7"}),
    ("equation", 0, 0, {"a": "2", "k": "8"}),
    ("equation", 1, 0, {"a": "4", "k": "4"}),
    ("equation", 1, 1, {"a": "6", "k": "7"}),
    ("equation", 1, 2, {"a": "3", "k": "4"}),
    ("equation", 42, 0, {"a": "3", "k": "8"}),
]


@pytest.mark.parametrize(("name", "seed", "attempt", "numbers"), PINNED)
def test_the_numbers_of_a_seed_never_change(
    name: str, seed: int, attempt: int, numbers: dict[str, str]
) -> None:
    lesson, _faults = read_lesson(BASES[name], "parade.lesson")
    assert lesson is not None
    assert values(redrawn(lesson.problems[0], seed, attempt)) == numbers


PRINTS = """
import locale, sys
from lesson_bases import BASES
from tutor.lesson.fresh import drawn, redrawn
from tutor.lesson.reader import read_lesson
try:
    locale.setlocale(locale.LC_ALL, "")
except locale.Error:
    pass
for name in ("vary", "equation"):
    lesson, _faults = read_lesson(BASES[name], "parade.lesson")
    for seed in range(40):
        print(seed, drawn(lesson, seed).problems[0].numbers, redrawn(lesson.problems[0], seed, 3).numbers)
"""


def test_neither_the_hash_seed_nor_the_language_of_the_machine_matters() -> None:
    tests = str(Path(__file__).parent)
    root = str(Path(__file__).parents[1])
    printed = set()
    for hash_seed, language in (
        ("0", "C"),
        ("1", "de_DE.UTF-8"),
        ("4242", "tr_TR.UTF-8"),
        ("random", "C.UTF-8"),
    ):
        environment = {
            **os.environ,
            "PYTHONHASHSEED": hash_seed,
            "LC_ALL": language,
            "LANG": language,
            "PYTHONUTF8": "1",
            "PYTHONPATH": os.pathsep.join((root, tests)),
        }
        done = subprocess.run(
            [sys.executable, "-c", PRINTS], check=True, capture_output=True, env=environment, encoding="utf-8"
        )
        printed.add(done.stdout)
    assert len(printed) == 1
    assert len(printed.pop().splitlines()) == 80


def test_another_lesson_around_it_does_not_change_a_problem() -> None:
    alone = lesson_of(BASES["vary"].split("\n", 5)[5])
    beside, _faults = read_lesson(
        f"{HEAD}problem  First\n  ask ?\n  equation 2x = 6\n  find x\n\nproblem  Hoop\n"
        + BASES["vary"].split("\n", 5)[5],
        "elsewhere/other.lesson",
    )
    assert beside is not None
    for seed in range(10):
        assert drawn(alone, seed).problems[0].numbers == drawn(beside, seed).problems[1].numbers


def test_attempts_have_other_numbers_as_long_as_there_are_any() -> None:
    problem = one("  vary     r in 2, 3, 4\n  ask      ?\n  equation {r}x = {6 r}\n  find     x\n")
    for seed in range(8):
        found = [values(redrawn(problem, seed, attempt))["r"] for attempt in range(7)]
        assert sorted(found[:3]) == ["2", "3", "4"]
        assert found[3:6] == found[:3]
        assert found[6] == found[0]


def test_students_have_numbers_of_their_own() -> None:
    lesson, _faults = read_lesson(BASES["vary"], "parade.lesson")
    assert lesson is not None
    found = [values(drawn(lesson, seed).problems[0])["r"] for seed in range(300)]
    # 10 draws; each is expected 30 times, and a fair draw misses 10 to 60 less than once in a million.
    assert sorted(set(found), key=float) == ["4", "4.5", "5.5", "6", "6.5", "7", "7.5", "8", "8.5", "9"]
    assert all(10 <= found.count(value) <= 60 for value in set(found))


def test_where_nothing_varies_every_attempt_is_the_same_problem() -> None:
    problem = one("  ask      ?\n  equation 2x = 6\n  find     x\n")
    assert redrawn(problem, 5, 2) is problem
    assert problem.numbers == ()
    assert draws(problem, 10) == ((), True)


def test_a_drawn_problem_can_be_drawn_again() -> None:
    problem = one("  vary     r from 2 to 60\n  ask      ?\n  equation {r}x = {6 r}\n  find     x\n")
    once = redrawn(problem, 3)
    assert redrawn(once, 9) == redrawn(problem, 9)


# --- every draw -------------------------------------------------------------------


@settings(max_examples=60, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(-4, 4), st.integers(1, 6), st.sampled_from(["1", "0.5", "0.25"])),
        min_size=1,
        max_size=3,
    ),
    st.integers(0, 10**9),
)
def test_each_draw_comes_once_and_none_is_left_out(ranges: list[tuple[int, int, str]], seed: int) -> None:
    names = "rst"[: len(ranges)]
    entries = "".join(
        f"  vary     {name} from {first} to {first + more} step {step}\n"
        for name, (first, more, step) in zip(names, ranges, strict=True)
    )
    used = " ".join(f"{{{name}}}" for name in names)
    problem = one(f"{entries}  ask      {used}\n  equation 2x = 6\n  find     x\n")
    assert problem.template is not None
    variation = problem.template.variation
    assert variation is not None
    count = 1
    for first, more, step in ranges:
        assert first <= first + more
        count *= int(more / Fraction(step)) + 1
    assert variation.size == count
    found = [str(draw) for draw in variation.sequence(seed, "Hoop")]
    assert len(set(found)) == len(found) == min(count, MOST_LOOKED_AT)
    everything = every_draw(variation)
    if everything is not None:
        assert {str(draw) for draw in everything} == set(found)
    else:
        assert count > MOST_LOOKED_AT


def test_a_fault_of_the_numbers_of_a_draw_names_the_draw() -> None:
    _lesson, (fault,) = read_lesson(
        f"{HEAD}problem  Hoop\n  vary     r in 3\n  ask      ?\n  equation {{10/r}}x = 5\n  find     x\n",
        "hoops.lesson",
    )
    assert "With r = 3 this comes to 10/3" in fault.message
