"""Whole problems, worked from nothing to the answer with its unit and the check."""

import random
from pathlib import Path

import pytest

from tutor.lesson.reader import load_lesson
from tutor.line.meaning import number_of
from tutor.line.tree import Expr, Measure
from tutor.marking.deciding.answers import answers_in
from tutor.marking.solve import solve
from tutor.marking.task import Task
from tutor.marking.verdict import Step, Verdict
from tutor.marking.worked import next_line, solution
from tutor.marking.working import Working, mark_lines, start
from tutor.quantity.pi import Pi

PARADE = Path(__file__).parent / "parade.lesson"

PROBLEMS = [
    pytest.param(problem.task, id=problem.name) for problem in getattr(load_lesson(PARADE)[0], "problems", ())
]


def solved(task: Task) -> Working:
    work = start(task)
    for line in solution(task):
        work = work.submit(line.text)
        mark = work.lines[-1].mark
        assert mark.verdict in (Verdict.FOLLOWS, Verdict.ROUNDS), (line.text, mark.message)
    return work


@pytest.mark.parametrize("task", PROBLEMS)
def test_every_problem_of_a_lesson_is_solved_in_full(task: Task) -> None:
    work = solved(Task(**{name: getattr(task, name) for name in task.__slots__} | {"every_step": True}))
    assert work.progress.complete
    assert work.progress.answer_checked


HOOP = Task(("C = 2 pi r",), (("C", "47.1 cm"),), ("r",), ("cm",), Pi.DECIMAL, measures=("C", "r"))


def test_a_measured_problem_goes_through_the_four_steps() -> None:
    lines = solution(HOOP)
    assert [(line.text, line.step) for line in lines] == [
        ("C = 2πr", Step.FORMULA),
        ("C = 47.1 cm, r = ?", Step.LABEL),
        ("47.1 = 2 · 3.14 · r", Step.SUBSTITUTE),
        ("47.1 = 6.28r", Step.SUBSTITUTE),
        ("7.5 = r", Step.SUBSTITUTE),
        ("r = 7.5 cm", Step.UNITS),
        ("47.1 = 2 · 3.14 · 7.5", Step.UNITS),
        ("47.1 = 47.1", Step.UNITS),
    ]


def task(
    *formulas: str, find: str, units: str = "", pi: Pi = Pi.EXACT, places: int | None = None, **givens: str
) -> Task:
    asked = tuple(find.split())
    return Task(
        formulas, tuple(givens.items()), asked, tuple(units.split()), pi, every_step=True, places=places
    )  # fmt: skip


@pytest.mark.parametrize(
    ("problem", "ends"),
    [
        (task("x + y = 5", "x − y = 1", find="x y"), ["y = 2", "x = 3"]),
        (task("2x + 3y = 12", "4x − 3y = 6", find="x y"), ["x = 3", "y = 2"]),
        (task("C = pi d", "d = 2r", find="r", units="cm", pi=Pi.DECIMAL, C="31.4 cm"), ["r = 5 cm"]),
        (task("C = 2 pi r", find="r", units="cm", pi=Pi.DECIMAL, C="50 cm"), ["7.96 ≈ r", "r ≈ 7.96 cm"]),
        (task("C = 2 pi r", find="r", units="cm", C="50 cm"), ["25/π = r", "7.96 ≈ r"]),
        (task("C = 2 pi r", find="C", units="cm", pi=Pi.FRACTION, r="14 cm"), ["C = 88 cm"]),
        (task("A = pi r^2", find="r", units="cm", pi=Pi.DECIMAL, places=1, A="80 cm^2"), ["r ≈ 5.0", "r ≈ 5.0 cm"]),
        (task("V = L W H", find="W", units="cm", V="0.6 m^3", L="2 m", H="60 cm"), ["V = 600000 cm³", "L = 200 cm", "W = 50 cm"]),
        (task("V = a b h", find="V", units="L", a="130 cm", b="45 cm", h="26 cm"), ["V = 152100", "V = 152100 cm³ = 152.1 L"]),
        (task("p = 0.08 c", "t = c + p", find="t", units="$", c="$45"), ["p = 3.6", "t = $48.60"]),
        (task("P = 4 s", find="s", units="ft", P="1/2 ft"), ["1/8 = s", "s = 1/8 ft"]),
        (task("A + B + C = 180", find="A B C", units="° ° °", A="x", B="2x", C="3x"), ["x = 30", "A = 30°", "B = 60°", "C = 90°"]),
        (task("A + B = 180", find="A B", units="° °", A="3x + 12", B="5x + 8"), ["3x + 12 + 5x + 8 = 180", "A = 72°", "B = 108°"]),
        (task("x = 15% * 60", find="x"), ["x = 0.15 · 60", "x = 9"]),
        (task("40 + 0.5m ≤ 90", find="m"), ["m ≤ 100"]),
    ],
)  # fmt: skip
def test_a_problem_is_solved_to_its_end(problem: Task, ends: list[str]) -> None:
    work = solved(problem)
    assert work.progress.complete
    written = [line.text for line in work.lines]
    assert [line for line in written if line in ends] == ends


# Formulas of the trade with the dimension of each measure; any of them may be asked for.
MEASURES = {
    "V = L W H": {"V": 3, "L": 1, "W": 1, "H": 1},
    "P = 2 L + 2 W": {"P": 1, "L": 1, "W": 1},
    "A = 1/2 b h": {"A": 2, "b": 1, "h": 1},
    "A = h(b + B)/2": {"A": 2, "h": 1, "b": 1, "B": 1},
    "C = 2 pi r": {"C": 1, "r": 1},
    "A = pi r^2": {"A": 2, "r": 1},
    "V = 1/3 pi r^2 h": {"V": 3, "r": 1, "h": 1},
    "S = 2 L W + 2 L H + 2 W H": {"S": 2, "L": 1, "W": 1, "H": 1},
    "P = 2 s + pi d": {"P": 1, "s": 1, "d": 1},
    "S = 6 s^2": {"S": 2, "s": 1},
}


def generated(chance: random.Random) -> Task | None:
    """Return a measured problem with numbers that have an answer, or None where these have none."""
    formula = chance.choice(list(MEASURES))
    names = MEASURES[formula]
    head, find = next(iter(names)), chance.choice(list(names))
    sizes = {name: chance.choice([chance.randint(2, 20), chance.randint(20, 150) / 10]) for name in names}
    unit = {name: "cm" if power == 1 else f"cm^{power}" for name, power in names.items()}
    pi = chance.choice([Pi.DECIMAL, Pi.FRACTION]) if "pi" in formula else Pi.EXACT

    def asked(what: str) -> Task:
        values = tuple((name, f"{sizes[name]:g} {unit[name]}") for name in names if name != what)
        return Task((formula,), values, (what,), (unit[what],), pi, every_step=True, measures=tuple(names))

    whole = solve(asked(head))[0]
    found = None if whole is None else whole.value(head)
    if found is None:
        return None
    sizes[head] = round(found.approx, 2)
    return asked(find) if solve(asked(find))[0] is not None else None


@pytest.mark.parametrize("seed", range(3))
def test_generated_measured_problems_are_solved_in_full(seed: int) -> None:
    chance = random.Random(seed)
    problems = [problem for _ in range(10) if (problem := generated(chance)) is not None]
    assert len(problems) >= 5
    for problem in problems:
        work = solved(problem)
        assert work.progress.complete, problem
        answer = solve(problem)[0]
        value = None if answer is None else answer.value(problem.find[0])
        shown = number_of(dict(answers_in_last(work))[problem.find[0]])
        assert value is not None and shown is not None
        assert abs(float(shown) - value.approx) < 0.006


def answers_in_last(work: Working) -> list[tuple[str, Expr]]:
    """Return the bare value that each name ends at."""
    pairs = [pair for line in work.lines if line.statement is not None for pair in answers_in(line.statement)]
    return [
        (name, values[-1].inner if isinstance(values[-1], Measure) else values[-1]) for name, values in pairs
    ]


def test_what_cannot_be_solved_has_no_solution() -> None:
    assert solution(Task()) == ()
    assert solution(Task(("x + y = 5",), find=("x",))) == ()
    assert solution(Task(("V = = 3",), find=("V",))) == ()


def test_the_unit_of_the_students_own_half_done_work_is_next() -> None:
    work = mark_lines(HOOP, ["47.1 = 2 * 22/7 * r"])
    assert not work.lines[0].mark.verdict.stands or next_line(work.known) is not None
    later = mark_lines(HOOP, ["C = 2*pi*r", "C = 47.1 cm", "r = ?", "r = 7.5"])
    found = next_line(later.known)
    assert found is not None
    assert (found.text, found.step) == ("r = 7.5 cm", Step.UNITS)


def test_a_check_of_a_rounded_answer_says_about_where_pi_stays_in_it() -> None:
    area = Task(("A = pi r^2",), (("r", "20 cm"),), ("A",), ("cm^2",), measures=("A", "r"), places=2)
    written = [line.text for line in solution(area)]
    # 400 π = 1256.637…
    assert written[-2:] == ["A ≈ 1256.64 cm²", "1256.64 ≈ π · 20^2"]
    exact = Task(("A = pi r^2",), (("r", "20 cm"),), ("A",), measures=("A", "r"))
    assert [line.text for line in solution(exact)][-1] in ("400π = π · 20^2", "400π = 400π")
