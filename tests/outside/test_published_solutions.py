"""Sequences of lines in the form of printed solutions; OpenStax (READ in a stored copy)."""

import pytest

from tutor.marking.task import Task
from tutor.marking.working import mark_lines

# -- solved lines --------------------------------------------------------------------------

# OpenStax, sequences of lines in the form of its worked solutions (READ in a stored copy).
SOLVED = [
    ("n", ["n − 6 = −10", "n − 6 + 6 = −10 + 6", "n = −4"]),
    ("y", ["108 = −9y", "108/(−9) = −9y/(−9)", "−12 = y"]),
    ("q", ["10q = 44", "10q/10 = 44/10", "q = 22/5"]),
    ("s", ["6s + 9(3s − 5) = 1506", "6s + 27s − 45 = 1506", "33s − 45 = 1506", "33s = 1551", "s = 47 students"]),
    ("x", ["0.49(2x + 4) + 0.08x = 10.44", "0.98x + 1.96 + 0.08x = 10.44", "1.06x + 1.96 = 10.44", "1.06x = 8.48", "x = 8"]),
    ("s", ["28,675 = s − 875", "28,675 + 875 = s − 875 + 875", "29,550 = s"]),
    ("p", ["12,000 = 3/4 p", "4/3 (12,000) = 4/3 · 3/4 p", "16,000 = p"]),
    ("c", ["3c + 5(810 − c) = 2,820", "3c + 4,050 − 5c = 2,820", "−2c = −1,230", "c = 615 children tickets"]),
    ("r", ["5,625 ≥ 3r", "1,875 ≥ r", "r ≤ 1,875"]),
    ("m", ["75 + 0.25m ≤ 200", "0.25m ≤ 125", "m ≤ 500 miles"]),
    ("h", ["$350 + $375 + $60(3) ≤ $500 + $15h", "905 ≤ 500 + 15h", "405 ≤ 15h", "27 ≤ h", "h ≥ 27"]),
    ("n", ["(5n − 2)(6n − 1) = 0", "5n − 2 = 0 or 6n − 1 = 0", "n = 2/5 or n = 1/6"]),
    ("y", ["2y^2 = 13y + 45", "2y^2 − 13y − 45 = 0", "(2y + 5)(y − 9) = 0", "2y + 5 = 0 or y − 9 = 0", "y = −5/2 or y = 9"]),
    ("m", ["5m^2 = 80", "5m^2/5 = 80/5", "m^2 = 16", "m = ±sqrt(16)", "m = ±4", "m = 4, m = −4"]),
    ("y", ["(y − 7)^2 = 12", "y − 7 = ±sqrt(12)", "y − 7 = ±2sqrt(3)", "y = 7 ± 2sqrt(3)"]),
    ("z", ["sqrt(4z − 3) = sqrt(3z + 2)", "(sqrt(4z − 3))^2 = (sqrt(3z + 2))^2", "4z − 3 = 3z + 2", "z − 3 = 2", "z = 5"]),
]  # fmt: skip


@pytest.mark.parametrize(("find", "lines"), SOLVED)
def test_a_printed_solution_stands_line_by_line(find: str, lines: list[str]) -> None:
    work = mark_lines(Task(find=(find,)), lines)
    assert [(line.text, line.mark.message) for line in work.lines if not line.mark.verdict.stands] == []
    assert work.progress.finished


# OpenStax, simplified step by step (READ in a stored copy).
SIMPLIFIED = [
    ["24 − |19 − 3(6 − 2)|", "24 − |19 − 3(4)|", "24 − |19 − 12|", "24 − |7|", "24 − 7", "17"],
    ["12 − 3(9 − 12)", "12 − 3(−3)", "12 − (−9)", "21"],
    ["−(3 · 3)/(4 · 3) + (1 · 4)/(3 · 4)", "−9/12 + 4/12", "−5/12"],
    ["4y^3(y^2 − 8y + 1)", "4y^3 · y^2 − 4y^3 · 8y + 4y^3 · 1", "4y^5 − 32y^4 + 4y^3"],
    ["(p^2 + q^2) − (p^2 + 10pq − 2q^2)", "p^2 + q^2 − p^2 − 10pq + 2q^2", "−10pq + 3q^2"],
    ["0.374", "374/1000", "(2 · 187)/(2 · 500)", "187/500"],
    ["(6sqrt(2))(3sqrt(10))", "18sqrt(20)", "18sqrt(4) · sqrt(5)", "18 · 2 · sqrt(5)", "36sqrt(5)"],
    ["(1/2 · 14)^2", "(7)^2", "49"],
]


@pytest.mark.parametrize("lines", SIMPLIFIED)
def test_a_printed_simplification_keeps_its_value(lines: list[str]) -> None:
    work = mark_lines(Task(), lines)
    assert [(line.text, line.mark.message) for line in work.lines if not line.mark.verdict.stands] == []
