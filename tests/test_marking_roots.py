"""Roots of measures and of sums of measures, in formulas and with numbers put in."""

import pytest

from tutor.marking.solve import solve
from tutor.marking.task import Task
from tutor.marking.verdict import Step, UnitsState, Verdict
from tutor.marking.working import mark_lines
from tutor.quantity.pi import Pi

SQUARE = Task(("A = s^2",), (("A", "49 cm^2"),), ("s",), ("cm",))
ROOT = Task(("s = sqrt(A)",), (("A", "49 cm^2"),), ("s",), ("cm",))
CIRCLE = Task(("A = pi r^2",), (("A", "78.5 cm^2"),), ("r",), ("cm",), Pi.DECIMAL)
RIGHT_TRIANGLE = Task(("c^2 = a^2 + b^2",), (("a", "3 cm"), ("b", "4 cm")), ("c",), ("cm",))
LEG = Task(("c^2 = a^2 + b^2",), (("a", "5 cm"), ("c", "13 cm")), ("b",), ("cm",))


@pytest.mark.parametrize(
    ("task", "lines"),
    [
        (SQUARE, ["A = s^2", "s = sqrt(A)", "s = sqrt(49)", "s = 7 cm"]),
        (ROOT, ["s = √A", "A = s^2", "49 = s^2", "s = √49", "s = 7 cm"]),
        (CIRCLE, ["A = πr²", "A/π = r²", "r = √(A/π)", "r = √(78.5/3.14)", "r = √25", "r = 5 cm"]),
        (RIGHT_TRIANGLE, ["c = √(a^2+b^2)", "c = √(3^2 + 4^2)", "c = √(9 + 16)", "c = √25", "c = 5 cm"]),
        (LEG, ["b^2 = c^2 - a^2", "b = √(c² − a²)", "b = √(169 − 25)", "b = √144 = 12 cm"]),
    ],
)
def test_worked_with_roots(task: Task, lines: list[str]) -> None:
    work = mark_lines(task, lines)
    assert all(line.mark.verdict.stands for line in work.lines), [(x.text, x.mark) for x in work.lines]
    assert work.progress.finished and work.progress.units is UnitsState.RIGHT


@pytest.mark.parametrize(
    ("lines"),
    [
        ["A = s^2", "s = √A"],
        ["V = 4/3 π r^3", "3V = 4πr^3", "r^3 = 3V/(4π)", "r = ∛(3V/(4π))"],
        ["c^2 = a^2 + b^2", "b = √(c^2 - a^2)", "b^2 = c^2 - a^2"],
        ["A = πr²", "r² = A/π", "r = √A/√π"],
    ],
)
def test_formulas_solved_for_a_letter(lines: list[str]) -> None:
    assert [line.mark.verdict for line in mark_lines(Task(), lines).lines] == [Verdict.FOLLOWS] * len(lines)


@pytest.mark.parametrize(
    ("above", "line"),
    [
        ("A = s^2", "s = A/2"),
        ("A = s^2", "s = √A + 1"),
        ("V = 4/3 π r^3", "r = ∛(3V/4π²)"),
        ("c^2 = a^2 + b^2", "b = √(c^2 + a^2)"),
        ("c^2 = a^2 + b^2", "c = a + b"),
        ("c^2 = a^2 + b^2", "b = √(c - a)"),
        ("A = πr²", "r = √(Aπ)"),
    ],
)
def test_wrong_roots_of_formulas(above: str, line: str) -> None:
    assert mark_lines(Task(), [above, line]).lines[1].mark.verdict is Verdict.BREAKS


@pytest.mark.parametrize(
    ("task", "lines"),
    [
        (Task(("A = pi r^2",), (("A", "49 pi cm^2"),), ("r",)), ["49π = πr²", "49 = r²", "7 = r"]),
        (Task(("A = pi r^2",), (("A", "50.24 m^2"),), ("r",), (), Pi.DECIMAL), ["16 = r^2", "4 = r"]),
        (
            Task(("A = pi r^2",), (("d", "10 cm"),), ("A",), (), Pi.DECIMAL),
            ["r = 5", "A = 3.14*25", "A = 78.5"],
        ),
        (Task(("C = pi d",), (("r", "10 cm"),), ("C",), (), Pi.DECIMAL), ["d = 20 cm", "C = 62.8 cm"]),
        (Task(find=("B",)), ["A = 1/2 h(b + B)", "2A = h(b + B)", "2A/h = b + B", "2A/h − b = B"]),
        (Task(find=("∠C",)), ["m∠A + m∠B + m∠C = 180°", "55° + 82° + m∠C = 180°", "m∠C = 43°"]),
        (Task(("y = 3x − 1", "3x − y = 5"), (), ("x", "y")), ["y = 3x − 1", "1 = 5", "no solution"]),
        (
            Task(find=("r",)),
            ["sqrt(r + 4) = r − 2", "r + 4 = (r − 2)^2", "0 = r(r − 5)", "0 = r or 0 = r − 5", "r = 5"],
        ),
    ],
)
def test_right_lines_that_once_broke(task: Task, lines: list[str]) -> None:
    work = mark_lines(task, lines)
    assert all(line.mark.verdict.stands for line in work.lines), [(x.text, x.mark) for x in work.lines]


def test_the_formula_step_is_seen_in_a_root() -> None:
    assert mark_lines(RIGHT_TRIANGLE, ["c = √(a² + b²)"]).lines[0].step is Step.FORMULA


def test_a_root_of_a_given_is_worked_out() -> None:
    solution, faults = solve(ROOT)
    assert not faults and solution is not None
    found = solution.value("s")
    assert found is not None and found.text == "7"


@pytest.mark.parametrize(
    ("lines", "verdict"),
    [
        (["√16 = ±4"], Verdict.BREAKS),
        (["√16 = 4"], Verdict.FOLLOWS),
        (["±√16", "±4"], Verdict.FOLLOWS),
        (["±√16", "4"], Verdict.BREAKS),
        (["x^2 = 16", "x = ±√16", "x = ±4"], Verdict.FOLLOWS),
        (["x^2 = 20", "x = ±√20", "x ≈ ±4.5"], Verdict.ROUNDS),
        (["x^2 = 20", "x ≈ 4.5 or x ≈ -4.5"], Verdict.ROUNDS),
        (["x^2 = 20", "x ≈ 4.5 or x ≈ 4.5"], Verdict.BREAKS),
        (["x^2 = 20", "x ≈ ±4.4"], Verdict.BREAKS),
        (["x^2 = 20", "x ≈ 4.47"], Verdict.BREAKS),
        (["x^2 - 4x + 1 = 0", "x = 2 ± √3", "x ≈ 3.73, x ≈ 0.27"], Verdict.ROUNDS),
        (["x^2 - 4x + 1 = 0", "x ≈ 3.73, x ≈ 0.28"], Verdict.BREAKS),
        (["√(x^2 y^4)", "x y^3"], Verdict.BREAKS),
        (["√(x^2 y^4)", "x y^2"], Verdict.UNDECIDED),
        (["√(x^2)", "|x|"], Verdict.FOLLOWS),
        (["√(x - 3) = 4", "x - 3 = 16", "x = 19", "√(19 - 3) = 4"], Verdict.FOLLOWS),
        (["√(9x - 2) = −1", "no solution"], Verdict.FOLLOWS),
        (["√(9x - 2) = 1", "no solution"], Verdict.BREAKS),
        (["8 + 4 = ? + 5", "? = 7"], Verdict.FOLLOWS),
        (["8 + 4 = ? + 5", "? = 12"], Verdict.BREAKS),
        (["2^x = 8", "x = 3"], Verdict.FOLLOWS),
        (["2^x = 8", "x = 4"], Verdict.BREAKS),
    ],
)
def test_signs_and_powers(lines: list[str], verdict: Verdict) -> None:
    assert mark_lines(Task(), lines).lines[-1].mark.verdict is verdict


def _never_asked(question: object) -> None:
    raise AssertionError(question)


@pytest.mark.parametrize(
    "line", ["x = ((9^9)^9)^9", "x = 9^9^9^9", "x^0.37 = 2", "9^(9^x) = 1", "√(x^64) = 9^99"]
)
def test_what_is_beyond_any_school_line_is_not_worked_on(line: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Such a line is put aside by its size: sympy, which would have to be loaded first, is not asked."""
    monkeypatch.setattr("tutor.marking.deciding.slow.ask", _never_asked)
    mark = mark_lines(Task(find=("x",)), ["x = 2", line]).lines[1].mark
    assert mark.verdict in (Verdict.UNDECIDED, Verdict.BREAKS, Verdict.UNREAD)


@pytest.mark.parametrize(
    ("line", "verdict"),
    [
        ("x1 = 3, x2 = -3", Verdict.FOLLOWS),
        ("x₁ = 3 and x₂ = −3", Verdict.FOLLOWS),
        ("x_1 = -3; x_2 = 3", Verdict.FOLLOWS),
        ("x1 = 3, x2 = 3", Verdict.BREAKS),
        ("x1 = 3, x2 = 4", Verdict.BREAKS),
    ],
)
def test_solutions_may_be_numbered(line: str, verdict: Verdict) -> None:
    assert mark_lines(Task(find=("x",)), ["x^2 = 9", line]).lines[1].mark.verdict is verdict


def test_sides_may_be_numbered_as_they_are_typed() -> None:
    task = Task(
        formulas=("A = 1/2 h (b1 + b2)",),
        givens=(("h", "4 cm"), ("b1", "6 cm"), ("b2", "10 cm")),
        find=("A",),
        units=("cm^2",),
    )
    lines = ["A = 1/2 h(b1 + b2)", "b1 = 6 cm, b2 = 10 cm", "A = 1/2 · 4 · (6 + 10)", "A = 32 cm^2"]
    work = mark_lines(task, lines)
    assert all(line.mark.verdict is Verdict.FOLLOWS for line in work.lines)
    assert work.progress.complete


@pytest.mark.parametrize(
    ("formula", "line", "verdict"),
    [
        ("A = pi r^2", "r = √(A/π)", Verdict.FOLLOWS),
        ("A = pi r^2", "r = √A/√π", Verdict.FOLLOWS),
        ("A = pi r^2", "r = √(A/2)", Verdict.BREAKS),
        ("A = pi r^2", "r = √A/π", Verdict.BREAKS),
        ("A = s^2", "s = √A", Verdict.FOLLOWS),
        ("A = s^2", "s = √(A/2)", Verdict.BREAKS),
        ("V = pi r^2 h", "r = √(V/(πh))", Verdict.FOLLOWS),
        ("V = pi r^2 h", "r = √(V/π)", Verdict.BREAKS),
    ],
)
def test_a_formula_of_measures_may_be_solved_by_a_root(formula: str, line: str, verdict: Verdict) -> None:
    measures = tuple(sorted(set(formula) & set("AVrsh")))
    task = Task(formulas=(formula,), find=(line[0],), measures=measures)
    assert mark_lines(task, [formula, line]).lines[1].mark.verdict is verdict
