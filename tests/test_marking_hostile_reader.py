"""Verdicts that a hostile reader once got out of the marker, and what they have to be.

Each row is a task, then the lines: ``F`` stands, ``B`` breaks, ``?`` is undecided.
"""

import pytest

from tutor.marking.task import Task
from tutor.marking.verdict import Verdict
from tutor.marking.working import mark_lines

X = Task(find=("x",))
P = Task(find=("p",))
FREE = Task()
LINE = Task(("y = k x + b",), (("y", "4"), ("k", "3"), ("x", "10")), ("b",))

ROUND = Task(("C = 2 pi r",), (("r", "10 cm"),), ("C",), ("cm",))

IN_FEET = Task(("A = L W",), (("L", "6 ft"), ("W", "4 ft")), ("A",))
SLOPPY = Task(("V = L W H",), (("L", "10 cm"), ("W", "6"), ("H", "4 cm")), ("V",))
TRIANGLE = Task(("A = 1/2 b h",), (("b", "12 cm"), ("h", "7 cm")), ("A",), ("cm^2",))
SYSTEM = Task(("x + y = 5", "x - y = 1"), (), ("x", "y"))

ROWS = [
    # A size that comes out below zero is no licence for every other value below zero.
    (LINE, "B 4 = 5 + b", "F 4 = 30 + b", "F b = -26"),
    # "and" between two equations says both at once; between two values it can only list them.
    (P, "F 3p(10p + 7) = 0", "B 3p = 0 and 10p + 7 = 0", "F p = 0 or p = -7/10"),
    (X, "F x^2 = 9", "F x = 3 and x = -3", "F x = 3, x = -3", "F x = 3 or x = -3"),
    # What still has an "or" in it is not one branch.
    (P, "F 3p(10p + 7) = 0", "F 3p = 0 or 10p + 7 = 0", "B p = 0 or 0p = −7"),
    (X, "F (x - 5)(x - 1) = 0", "F x = (6 ± 4)/2", "B x = 10/2, x > 2/2", "F x = 5, x = 1"),
    # A contradiction leads to its own false lines, not to any.
    (X, "F 4x + 3 = 4x + 9", "B 3 = 8", "F 3 = 9", "F 1 = 3", "F 0 = 6", "F 0 = 1", "F no solution"),
    (X, "F 4x + 3 = 4x + 9", "B 4x − 4x + 3 = 4x − 4x + 90", "F 4x − 4x + 3 = 4x − 4x + 9", "F 4x = 4x + 6"),
    (FREE, "F I = Prt", "B 240 = 1,600(0.0)t", "F 240 = 1,600(0.05)t"),
    (X, "F 4x + 3 > 4x + 9", "F 0 > 6", "B 0 > 5", "F 1 > 3", "F 0 < -6"),
    (X, "F 2(x + 1) = 2x + 5", "F x + 1 = x + 2.5", "F 1 = 2.5"),
    # Powers of one letter need no multiplying out.
    (FREE, "F x^5 · x^7", "F x^(5 + 7)", "B x^82", "F x^12"),
    (FREE, "F (x^5)^7", "B x^(50 · 7)", "F x^35"),
    (FREE, "F x^99/x^6", "F x^93"),
    (FREE, "F 81p^88q^4 · 8p^3q^6", "F 648p^91q^10"),
    # No real solution above, one here.
    (X, "F x^2 + x + 1 = 0", "B x = (−1 ± √(10 − 4))/2", "F no solution"),
    (Task(find=("q",)), "F q^2 + 24 = 0", "F q^2 = −24", "B q = ±sqrt(24)"),
    (X, "F |2x/3 − 4| + 11 = 3", "B |2x/3 − 4| = −8 + 8", "F no solution"),
    # Numbers are true or false, whatever stands above.
    (X, "F √(x − 3) = 4", "B √17 = 4", "B 2 = 50", "F 4 = 4"),
    # A value does not change what it measures.
    (Task(find=("A",)), "F A = 640 m^2", "B A = 640 m", "F A = 640"),
    # Letters do not change places; an instance may turn the order of factors.
    (Task(find=("c",)), "F c² = a² + b²", "B b² = c² + a²"),
    (FREE, "F A = π r^2", "F A = 5^2 * 3.14"),
    (FREE, "F I = Prt", "F 178 = 0.04 · 2 · P"),
    (FREE, "F d = rt", "B r = dt", "F d = 60t"),
    (FREE, "F A = bh/2", "F A = 11·8/2", "F A = 44"),
    (FREE, "F A = 1/2h(b + B)", "F A = 1/2 · 6 · (14 + 11)", "F A = 1/2 · 6 · 25", "F A = 75 square inches"),
    (FREE, "F A = bh/2", "B A = 11·8", "F A = 11·8/2"),
    (Task(find=("h",)), "F V = 1/3 πr²h", "F 100 = 1/3(3.14)(25)h", "F 300 = 78.5h", "F 3.8 ≈ h"),
    (X, "F a + b = 180", "F x + (x + 40) = 180", "F 2x + 40 = 180", "F x = 70"),
    (Task(find=("d",)), "F d = √((x₂ − x₁)² + (y₂ − y₁)²)", "F d = √((4 − 1)² + (6 − 2)²)", "F d = 5"),
    # A letter behind a number in a first line: a unit or a name, until a later line tells.
    (Task(find=("P",)), "F P = 2L + 2W", "F P = 2 · 32 + 2 · 20", "F P = 64 + 40", "F P = 104 meters"),
    (Task(find=("P",)), "F P = 4s", "F P = 4(7)", "F P = 28"),
    (Task(find=("A",)), "F A = 5 m", "B A = 6 m", "F A = 500 cm"),
    # Evaluating: a number in the place of each letter, the same one everywhere.
    (FREE, "F 9x − 2", "F 9(5) − 2", "F 43"),
    (FREE, "F 2x² + 3x + 8", "F 2(4)² + 3(4) + 8", "F 2(16) + 12 + 8", "F 52"),
    (FREE, "F 3x + 4x − 6", "B 3(10) + 4(2) − 6"),
    (FREE, "F 9x − 2", "B 9(5) − 3"),
    (FREE, "F x²", "B −10²", "F (−10)²", "F 100"),
    (X, "F x = x + 1", "B 0 = 11", "F 0 = 1"),
    # Of an "and" one half is no branch.
    (X, "F 3x + 1 < 10 and 2x > −4", "F 3x < 9 and x > −2", "B x < 3", "F −2 < x < 3"),
    # A unit behind a value with π in it.
    (ROUND, "F C = 2 · π · 10", "B C = 20π °", "B C = 20π $", "B C = 20π cm²", "F C = 20π cm"),
    # As books print it: columns, pairs, sentences, rates.
    (X, "F (x + 4)(x − 2) = 0", "F x + 4 = 0   x − 2 = 0", "B x = 4   x = 2", "F x = −4   x = 2"),
    (X, "F ax + by = c", "F ax = c − by", "B x = (c + by)/a", "F x = (c − by)/a"),
    (SYSTEM, "F 2x = 6", "B (2, 3)", "F (3, 2)"),
    (FREE, "N 5 less than twice a number is 11.", "F 2 · 8 − 5 = 11"),
    (
        Task(find=("n",)),
        "N Let n = the first integer",
        "N n + 1 = the next integer",
        "F 2n + 1 = 27",
        "F n = 13",
    ),
    (FREE, "F $384/32 hours", "F $12/1 hour", "F $12/hour", "B $12"),
    (X, "F 2(x + 1) = 2x + 2", "B contradiction", "F identity"),
    (FREE, "F 8 + 4 = [] + 5", "B [] = 12", "F [] = 7"),
    (FREE, "F 2x at x = 3", "B 23", "F 2 · 3", "F 6"),
    (FREE, "F 4xy when x = 2 and y = 5", "F 4(2)(5)", "B 50", "F 40"),
    (FREE, "F n² + 1 for n = 3", "F 9 + 1", "F 10"),
    # What is asked measures what the formula makes of the givens' units.
    (IN_FEET, "B A = 24 ft", "B A = 24 ft³", "F A = 24 ft²"),
    (SLOPPY, "F V = 240 cm³", "F V = 240"),
    (Task((), (("x", "5"),), ("A",)), "F A = 3x", "F A = 3(5)", "B A = 16", "F A = 15"),
    (FREE, "F 12/13 + 7/8 = ?", "B 19", "F 187/104"),
    (FREE, "F 2x, x = 3", "B 23", "F 6"),
    (Task(find=("p",)), "F 15% of 80", "F 0.15 * 80 = 12", "B p = 13", "F p = 12"),
    # Values told under a formula that stands alone.
    (
        Task(find=("V",)),
        "F V = LWH",
        "F L = 14, W = 9, H = 17",
        "F V = 14 · 9 · 17",
        "B V = 2124",
        "F V = 2142",
    ),
    (Task(find=("A",)), "F A = L W", "F L = 8", "B L = 9", "F W = 5", "F A = 40"),
    (Task(find=("y",)), "F y = 2x", "F x = 3", "B y = 5", "F y = 6"),
    (Task(find=("r",)), "F d = rt", "F d = 120, t = 2", "F 120 = 2r", "F r = 60"),
    # What no sizes fit carries nothing.
    (TRIANGLE, "B A = b h", "B A = 200", "F A = 42"),
    (TRIANGLE, "B A = b h", "C A = 12 * 7", "C A = 84"),
    # True for every number, although no letter falls away.
    (X, "F |x − 2| > −1", "F all numbers"),
    (X, "F x^2 >= 0", "F all numbers"),
    (X, "F x^2 > 0", "B all numbers"),
    # What holds for every number is no inequality's next line.
    (X, "F 3x + 6 < 12", "B 0x < 6", "F x < 2"),
]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row[1][2:])
def test_verdicts(row: tuple[Task | str, ...]) -> None:
    task, *lines = row
    assert isinstance(task, Task)
    texts = [str(line)[2:] for line in lines]
    said = []
    for line in mark_lines(task, texts).lines:
        verdict = line.mark.verdict
        said.append(
            "F" if verdict.stands else "?" if verdict is Verdict.UNDECIDED else verdict.value[0].upper()
        )
    assert said == [str(line)[0] for line in lines], texts


@pytest.mark.parametrize(
    ("task", "lines"),
    [
        (Task(("C = pi d",), (("d", "8 in"),), ("C",), ("in",)), ["C = πd", "C = 8π ≈ 25.1 in"]),
        (Task(("C = pi d",), (("d", "8 in"),), ("C",), ("in",)), ["C = πd = 8π in ≈ 25.13 in"]),
        (X, ["3x = 2", "x = 0.6666…"]),
    ],
)
def test_an_answer_rounded_at_the_end_of_a_line_finishes(task: Task, lines: list[str]) -> None:
    assert mark_lines(task, lines).progress.finished
