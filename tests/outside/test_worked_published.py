"""Published worked examples, solved in full by the engine; values READ in OpenStax Prealgebra 2e.

Each row: section and example, the task, and the answers as printed there.
"""

from dataclasses import replace
from fractions import Fraction

import pytest
from published_tasks import BOX_SURFACE, angles, measured
from test_published_solutions import SOLVED

from tutor.marking.solve import solve
from tutor.marking.task import Task
from tutor.marking.verdict import Verdict
from tutor.marking.worked import finish, next_line, solution
from tutor.marking.working import Working, start
from tutor.quantity.pi import Pi

TRIANGLE = "A + B + C = 180"
TRAPEZOID = "A = h (b + B)/2"
CYLINDER_SKIN = "S = 2 pi r^2 + 2 pi r h"


def plain(formula: str, givens: dict[str, str], *find: str) -> Task:
    return Task((formula,), tuple(givens.items()), find)


def rectangle(perimeter: str, find: dict[str, str], unit: str, **givens: str) -> Task:
    return Task(
        ("P = 2L + 2W",),
        (("P", perimeter), *givens.items()),
        tuple(find),
        (unit,) * len(find),
        measures=("P", "L", "W"),
    )


def with_pi(formula: str, givens: dict[str, str], find: str, unit: str, places: int | None = None) -> Task:
    return measured(formula, givens, find, unit, pi=Pi.DECIMAL, places=places)


# OpenStax Prealgebra 2e: (example, task, printed answers in the order of find).
PUBLISHED: list[tuple[str, Task, tuple[str, ...]]] = [
    ("9.16a", angles(180, {"A": "40°"}), ("140",)),
    ("9.16b", angles(90, {"A": "40°"}), ("50",)),
    ("9.17", Task(("A + B = 180",), (("B", "A + 30"),), ("A", "B"), ("°", "°")), ("75", "105")),
    ("9.18", Task((TRIANGLE,), (("A", "55°"), ("B", "82°")), ("C",), ("°",)), ("43",)),
    ("9.19", Task((TRIANGLE,), (("A", "90°"), ("B", "28°")), ("C",), ("°",)), ("62",)),
    ("9.20", Task((TRIANGLE,), (("B", "A + 20"), ("C", "90°")), ("A", "B"), ("°", "°")), ("35", "55")),
    ("9.21", plain("4/3 = a/4.5", {}, "a"), ("6",)),
    ("9.21", plain("4/3 = 3.2/y", {}, "y"), ("2.4",)),
    ("9.22", replace(plain("a^2 + b^2 = c^2", {"a": "3", "b": "4"}, "c"), measures=("a", "b", "c")), ("5",)),
    ("9.23", replace(plain("a^2 + b^2 = c^2", {"a": "5", "c": "13"}, "b"), measures=("a", "b", "c")), ("12",)),
    ("9.24", measured("x^2 + x^2 = c^2", {"c": "10 in"}, "x", "in", places=1), ("7.1",)),
    ("9.27a", measured("P = 2L + 2W", {"L": "32 m", "W": "20 m"}, "P", "m"), ("104",)),
    ("9.27b", measured("A = L W", {"L": "32 m", "W": "20 m"}, "A", "m^2"), ("640",)),
    ("9.28", measured("P = 2L + 2W", {"P": "50 in", "W": "10 in"}, "L", "in"), ("15",)),
    ("9.29", rectangle("52 in", {"L": "14", "W": "12"}, "in", W="L − 2"), ("14", "12")),
    ("9.30", rectangle("32 cm", {"L": "12", "W": "4"}, "cm", L="2W + 4"), ("12", "4")),
    ("9.31", measured("A = L W", {"A": "168 ft^2", "L": "14 ft"}, "W", "ft"), ("12",)),
    ("9.32", rectangle("150 ft", {"L": "45", "W": "30"}, "ft", L="W + 15"), ("45", "30")),
    ("9.33", measured("A = b h/2", {"b": "11 in", "h": "8 in"}, "A", "in^2"), ("44",)),
    ("9.34", measured("P = a + b + c", {"P": "24 ft", "a": "4 ft", "b": "9 ft"}, "c", "ft"), ("11",)),
    ("9.35", measured("A = b h/2", {"A": "90 m^2", "b": "15 m"}, "h", "m"), ("12",)),
    ("9.36", measured("P = 3s", {"P": "93 in"}, "s", "in"), ("31",)),
    ("9.37", measured("P = 2s + b", {"P": "156 in", "b": "60 in"}, "s", "in"), ("48",)),
    ("9.38", measured(TRAPEZOID, {"h": "6 in", "b": "14 in", "B": "11 in"}, "A", "in^2"), ("75",)),
    ("9.39", measured(TRAPEZOID, {"h": "5 ft", "b": "10.3 ft", "B": "13.7 ft"}, "A", "ft^2"), ("60",)),
    ("9.40", measured(TRAPEZOID, {"h": "3.4 yd", "b": "8.2 yd", "B": "5.6 yd"}, "A", "yd^2"), ("23.46",)),
    ("9.41a", with_pi("C = 2 pi r", {"r": "2.5 ft"}, "C", "ft"), ("15.7",)),
    ("9.41b", with_pi("A = pi r^2", {"r": "2.5 ft"}, "A", "ft^2"), ("19.625",)),
    ("9.42", with_pi("C = pi d", {"d": "4 ft"}, "C", "ft"), ("12.56",)),
    ("9.43", with_pi("C = pi d", {"C": "47.1 cm"}, "d", "cm"), ("15",)),
    ("9.44", Task(("A = a b + c d",), (("a", "12"), ("b", "4"), ("c", "2"), ("d", "6")), ("A",)), ("60",)),
    ("9.45", Task(("A = L W + b h/2",), (("L", "8"), ("W", "4"), ("b", "3"), ("h", "3")), ("A",)), ("36.5",)),
    ("9.46", with_pi("A = L W + pi r^2", {"L": "105 m", "W": "68 m", "r": "34 m"}, "A", "m^2", 2), ("10769.84",)),
    ("9.47a", measured("V = L W H", {"L": "14 cm", "W": "9 cm", "H": "17 cm"}, "V", "cm^3"), ("2142",)),
    ("9.47b", measured(BOX_SURFACE, {"L": "14 cm", "W": "9 cm", "H": "17 cm"}, "S", "cm^2"), ("1034",)),
    ("9.48a", measured("V = L W H", {"L": "30 in", "W": "25 in", "H": "20 in"}, "V", "in^3"), ("15000",)),
    ("9.48b", measured(BOX_SURFACE, {"L": "30 in", "W": "25 in", "H": "20 in"}, "S", "in^2"), ("3700",)),
    ("9.49a", measured("V = s^3", {"s": "2.5 in"}, "V", "in^3"), ("15.625",)),
    ("9.49b", measured("S = 6 s^2", {"s": "2.5 in"}, "S", "in^2"), ("37.5",)),
    ("9.50a", measured("V = s^3", {"s": "2 in"}, "V", "in^3"), ("8",)),
    ("9.50b", measured("S = 6 s^2", {"s": "2 in"}, "S", "in^2"), ("24",)),
    ("9.51a", with_pi("V = 4/3 pi r^3", {"r": "6 in"}, "V", "in^3"), ("904.32",)),
    ("9.51b", with_pi("S = 4 pi r^2", {"r": "6 in"}, "S", "in^2"), ("452.16",)),
    ("9.52a", with_pi("V = 4/3 pi r^3", {"r": "14 in"}, "V", "in^3", 2), ("11488.21",)),
    ("9.52b", with_pi("S = 4 pi r^2", {"r": "14 in"}, "S", "in^2"), ("2461.76",)),
    ("9.53a", with_pi("V = pi r^2 h", {"r": "3 in", "h": "5 in"}, "V", "in^3"), ("141.3",)),
    ("9.53b", with_pi(CYLINDER_SKIN, {"r": "3 in", "h": "5 in"}, "S", "in^2"), ("150.72",)),
    ("9.54a", with_pi("V = pi r^2 h", {"r": "4 cm", "h": "13 cm"}, "V", "cm^3"), ("653.12",)),
    ("9.54b", with_pi(CYLINDER_SKIN, {"r": "4 cm", "h": "13 cm"}, "S", "cm^2"), ("427.04",)),
    ("9.55", with_pi("V = 1/3 pi r^2 h", {"r": "2 in", "h": "6 in"}, "V", "in^3"), ("25.12",)),
    ("9.56", with_pi("V = 1/3 pi r^2 h", {"r": "2.5 in", "h": "8 in"}, "V", "in^3", 2), ("52.33",)),
]  # fmt: skip


def typed_in(task: Task) -> Working:
    """Type the engine's own solution line by line, with every step asked for."""
    work = start(task)
    for line in solution(task):
        work = work.submit(line.text)
        mark = work.lines[-1].mark
        assert mark.verdict in (Verdict.FOLLOWS, Verdict.ROUNDS), (line.text, mark.verdict, mark.message)
    return work


def shown(work: Working, name: str) -> str:
    """Return the number that the work ends at for a name."""
    value = dict(work.progress.labels)[name]
    return "".join(sign for sign in value.replace(",", "") if sign.isdecimal() or sign == ".").split("^")[0]


@pytest.mark.parametrize(("example", "task", "answers"), PUBLISHED)
def test_a_published_example_is_solved_in_full(example: str, task: Task, answers: tuple[str, ...]) -> None:
    task = replace(task, every_step=True)
    work = typed_in(task)
    assert work.progress.complete
    assert solve(task)[0] is not None
    for name, answer in zip(task.find, answers, strict=True):
        assert Fraction(shown(work, name)) == Fraction(answer)


@pytest.mark.parametrize(("find", "lines"), SOLVED)
def test_from_every_printed_line_the_next_one_stands(find: str, lines: list[str]) -> None:
    work = start(Task(find=(find,), every_step=True))
    for text in lines:
        work = work.submit(text)
        assert work.lines[-1].mark.verdict is not Verdict.LEAPS, text
        found = next_line(work.known)
        if found is not None:
            assert work.submit(found.text).lines[-1].mark.verdict in (Verdict.FOLLOWS, Verdict.ROUNDS), found


@pytest.mark.parametrize(("find", "lines"), SOLVED)
def test_from_every_printed_first_line_the_work_comes_to_its_end(find: str, lines: list[str]) -> None:
    work = start(Task(find=(find,), every_step=True)).submit(lines[0])
    for line in finish(work.known):
        work = work.submit(line.text)
        assert work.lines[-1].mark.verdict in (Verdict.FOLLOWS, Verdict.ROUNDS), line
    assert work.progress.complete
