"""Worked examples of a published textbook, down to their printed answers.

OpenStax, Prealgebra 2e (READ: seen in a stored copy of the book or a faithful copy of its values): the
formulas, the numbers and the answers; where a line is not printed there, it is ours.
"""

from dataclasses import dataclass

import pytest
from published_tasks import BOX_SURFACE, angles, measured

from tutor.marking.task import Task
from tutor.marking.verdict import Reason, UnitsState, Verdict
from tutor.marking.working import mark_lines
from tutor.quantity.pi import Pi


@dataclass(frozen=True)
class Example:
    """One worked example: the task, the lines down to the printed answer, the value in other units."""

    source: str
    task: Task
    lines: tuple[str, ...]


D = Pi.DECIMAL

EXAMPLES = [
    # section 9.3 (READ)
    Example("9.3 Ex 9.16a: supplement 140°", angles(180, {"A": "40°"}), ("A + B = 180", "40 + B = 180", "B = 140°")),
    Example("9.3 Ex 9.16b: complement 50°", angles(90, {"A": "40°"}), ("40 + B = 90", "B = 90 - 40", "B = 50°")),
    Example(
        "9.3 Ex 9.17: 75° and 105°",
        Task(("A + B = 180",), (("B", "A + 30"),), ("A", "B"), ("°", "°")),
        ("A + (A + 30) = 180", "2A + 30 = 180", "2A = 150", "A = 75°", "B = 75 + 30", "B = 105°"),
    ),
    Example(
        "9.3 Ex 9.18: third angle 43°",
        Task(("A + B + C = 180",), (("A", "55°"), ("B", "82°")), ("C",), ("°",)),
        ("55 + 82 + C = 180", "137 + C = 180", "C = 43°"),
    ),
    Example(
        "9.3 Ex 9.19: third angle 62°",
        Task(("x + 90 + 28 = 180",), (), ("x",), ("°",)),
        ("x + 90 + 28 = 180", "x + 118 = 180", "x = 62°"),
    ),
    Example(
        "9.3 Ex 9.20: 35°, 55°, 90°",
        Task(("A + B + 90 = 180",), (("B", "A + 20"),), ("A", "B"), ("°", "°")),
        ("A + (A + 20) + 90 = 180", "2A + 110 = 180", "2A = 70", "A = 35°", "B = 55°"),
    ),
    Example("9.3 Ex 9.21: y = 2.4", Task(("4/3 = 3.2/y",), (), ("y",)), ("4/3 = 3.2/y", "4y = 9.6", "y = 2.4")),
    Example("9.3 Ex 9.21: a = 6", Task(("4/3 = a/4.5",), (), ("a",)), ("4/3 = a/4.5", "4(4.5) = 3a", "18 = 3a", "6 = a")),
    Example(
        "9.3 Ex 9.22: c = 5, no unit asked",
        measured("a^2 + b^2 = c^2", {"a": "3", "b": "4"}, "c", ""),
        ("3^2 + 4^2 = c^2", "9 + 16 = c^2", "25 = c^2", "√25 = c", "5 = c"),
    ),
    Example(
        "9.3 Ex 9.23: other leg 12",
        measured("a^2 + b^2 = c^2", {"a": "5", "c": "13"}, "b", ""),
        ("5^2 + b^2 = 13^2", "25 + b^2 = 169", "b^2 = 144", "b = 12"),
    ),
    Example(
        "9.3 Ex 9.24: leg 7.1 in, nearest tenth",
        measured("2 x^2 = c^2", {"c": "10 in"}, "x", "in", places=1),
        ("x^2 + x^2 = 10^2", "2x^2 = 100", "x^2 = 50", "x = √50", "x ≈ 7.1 in"),
    ),
    # section 9.4 (READ)
    Example("9.4 Ex 9.27a: 104 m", measured("P = 2 L + 2 W", {"L": "32 m", "W": "20 m"}, "P", "m"), ("P = 2(32) + 2(20)", "P = 64 + 40", "P = 104 m")),
    Example("9.4 Ex 9.27b: 640 m²", measured("A = L W", {"L": "32 m", "W": "20 m"}, "A", "m^2"), ("A = 32 · 20", "A = 640 square meters")),
    Example("9.4 Ex 9.28: 15 in", measured("P = 2 L + 2 W", {"P": "50 in", "W": "10 in"}, "L", "in"), ("50 = 2L + 2(10)", "50 - 20 = 2L", "30 = 2L", "15 in = L")),
    Example(
        "9.4 Ex 9.29: 14 and 12, worked in inches",
        Task(("P = 2 L + 2 W",), (("P", "52 in"), ("W", "L - 2")), ("L", "W"), ("in", "in"), measures=("P", "L", "W")),
        ("52 = 2L + 2(L − 2)", "52 = 2L + 2L − 4", "52 = 4L − 4", "56 = 4L", "L = 14 in", "W = 14 − 2", "W = 12 in"),
    ),
    Example(
        "9.4 Ex 9.30: 12 and 4 cm",
        Task(("P = 2 L + 2 W",), (("P", "32 cm"), ("L", "2W + 4")), ("L", "W"), ("cm", "cm"), measures=("P", "L", "W")),
        ("32 = 2(2W + 4) + 2W", "32 = 4W + 8 + 2W", "32 = 6W + 8", "24 = 6W", "W = 4 cm", "L = 2(4) + 4", "L = 12 cm"),
    ),
    Example("9.4 Ex 9.31: 12 ft", measured("A = L W", {"A": "168 ft^2", "L": "14 ft"}, "W", "ft"), ("168 = 14W", "168/14 = 14W/14", "12 = W", "W = 12 ft")),
    Example(
        "9.4 Ex 9.32: 45 and 30 ft",
        Task(("P = 2 L + 2 W",), (("P", "150 ft"), ("L", "W + 15")), ("L", "W"), ("ft", "ft"), measures=("P", "L", "W")),
        ("150 = 2(W + 15) + 2W", "150 = 4W + 30", "120 = 4W", "30 ft = W", "L = 30 + 15 = 45 ft"),
    ),
    Example("9.4 Ex 9.33: 44 in²", measured("A = b h/2", {"b": "11 in", "h": "8 in"}, "A", "in^2"), ("A = 1/2 · 11 · 8", "A = 44 square inches")),
    Example("9.4 Ex 9.34: 11 ft", measured("P = a + b + c", {"P": "24 ft", "a": "4 ft", "b": "9 ft"}, "c", "ft"), ("24 = 4 + 9 + c", "24 = 13 + c", "11 ft = c")),
    Example("9.4 Ex 9.35: 12 m", measured("A = b h/2", {"A": "90 m^2", "b": "15 m"}, "h", "m"), ("90 = 1/2 · 15 · h", "90 = 7.5h", "12 m = h")),
    Example("9.4 Ex 9.36: 31 in", measured("P = 3 s", {"P": "93 in"}, "s", "in"), ("93 = 3s", "31 in = s")),
    Example("9.4 Ex 9.37: 48 in", measured("P = 2 s + b", {"P": "156 in", "b": "60 in"}, "s", "in"), ("156 = 2s + 60", "96 = 2s", "48 in = s")),
    Example("9.4 Ex 9.38: 75 in²", measured("A = h(b + B)/2", {"h": "6 in", "b": "11 in", "B": "14 in"}, "A", "in^2"), ("A = 1/2 · 6(14 + 11)", "A = 3(25)", "A = 75 in²")),
    Example("9.4 Ex 9.39: 60 ft²", measured("A = h(b + B)/2", {"h": "5 ft", "b": "10.3 ft", "B": "13.7 ft"}, "A", "ft^2"), ("A = 5(24)/2", "A = 60 sq ft")),
    Example("9.4 Ex 9.40: 23.46 yd²", measured("A = h(b + B)/2", {"h": "3.4 yd", "b": "5.6 yd", "B": "8.2 yd"}, "A", "yd^2"), ("A = 1/2(3.4)(8.2 + 5.6)", "A = 23.46 yd^2")),
    # section 9.5 (READ), pi 3.14
    Example("9.5 Ex 9.41a: 15.7 ft", measured("C = 2 pi r", {"r": "2.5 ft"}, "C", "ft", pi=D), ("C = 2πr", "C ≈ 2(3.14)(2.5)", "C ≈ 15.7 ft")),
    Example("9.5 Ex 9.41b: 19.625 ft²", measured("A = pi r^2", {"r": "2.5 ft"}, "A", "ft^2", pi=D), ("A ≈ (3.14)(2.5)^2", "A ≈ 19.625 square feet")),
    Example("9.5 Ex 9.42: 12.56 ft", measured("C = pi d", {"d": "4 ft"}, "C", "ft", pi=D), ("C ≈ 3.14(4)", "C ≈ 12.56 ft")),
    Example("9.5 Ex 9.43: 15 cm", measured("C = pi d", {"C": "47.1 cm"}, "d", "cm", pi=D), ("47.1 ≈ 3.14d", "47.1/3.14 ≈ d", "15 ≈ d", "d = 15 cm")),
    Example("9.5 Ex 9.44: 60", Task(), ("12 · 4 + 2 · 6 = 48 + 12", "48 + 12 = 60")),
    Example("9.5 Ex 9.45: 36.5", Task(), ("8 · 4 + 1/2 · 3 · 3", "32 + 4.5", "36.5")),
    Example(
        "9.5 Ex 9.46: 10,769.84 m², nearest hundredth",
        measured("A = L W + pi r^2", {"L": "105 m", "W": "68 m", "r": "34 m"}, "A", "m^2", pi=D, places=2),
        ("A ≈ 105 · 68 + 3.14 · 34^2", "A ≈ 7,140 + 3,629.84", "A ≈ 10,769.84 m²"),
    ),
    # section 9.6 (READ), pi 3.14
    Example("9.6 Ex 9.47a: 2,142 cm³", measured("V = L W H", {"L": "14 cm", "W": "9 cm", "H": "17 cm"}, "V", "cm^3"), ("V = 14 · 9 · 17", "V = 2,142 cm³")),
    Example(
        "9.6 Ex 9.47b: 1,034 cm²",
        measured(BOX_SURFACE, {"L": "14 cm", "W": "9 cm", "H": "17 cm"}, "S", "cm^2"),
        ("S = 2(14·17) + 2(14·9) + 2(9·17)", "S = 476 + 252 + 306", "S = 1,034 square centimeters"),
    ),
    Example("9.6 Ex 9.48a: 15,000 in³", measured("V = L W H", {"L": "30 in", "W": "25 in", "H": "20 in"}, "V", "in^3"), ("V = 30·25·20", "V = 15,000 cu in")),
    Example("9.6 Ex 9.48b: 3,700 in²", measured(BOX_SURFACE, {"L": "30 in", "W": "25 in", "H": "20 in"}, "S", "in^2"), ("S = 2(600) + 2(750) + 2(500)", "S = 3,700 in^2")),
    Example("9.6 Ex 9.49a: 15.625 in³", measured("V = s^3", {"s": "2.5 in"}, "V", "in^3"), ("V = (2.5)^3", "V = 15.625 cubic inches")),
    Example("9.6 Ex 9.49b: 37.5 in²", measured("S = 6 s^2", {"s": "2.5 in"}, "S", "in^2"), ("S = 6 · (2.5)^2", "S = 37.5 square inches")),
    Example("9.6 Ex 9.51a: 904.32 in³", measured("V = 4/3 pi r^3", {"r": "6 in"}, "V", "in^3", pi=D), ("V ≈ 4/3 (3.14)6^3", "V ≈ 904.32 cubic inches")),
    Example("9.6 Ex 9.51b: 452.16 in²", measured("S = 4 pi r^2", {"r": "6 in"}, "S", "in^2", pi=D), ("S ≈ 4(3.14)6^2", "S ≈ 452.16 in²")),
    Example(
        "9.6 Ex 9.52a: 11,488.21 in³, nearest hundredth",
        measured("V = 4/3 pi r^3", {"r": "14 in"}, "V", "in^3", pi=D, places=2),
        ("V ≈ 4/3 (3.14)14^3", "V ≈ 11,488.21 in³"),
    ),
    Example("9.6 Ex 9.53a: 141.3 in³", measured("V = pi r^2 h", {"r": "3 in", "h": "5 in"}, "V", "in^3", pi=D), ("V ≈ (3.14)3^2 · 5", "V ≈ 141.3 cubic inches")),
    Example(
        "9.6 Ex 9.53b: 150.72 in²",
        measured("S = 2 pi r^2 + 2 pi r h", {"r": "3 in", "h": "5 in"}, "S", "in^2", pi=D),
        ("S = 2πr^2 + 2πrh", "S ≈ 2(3.14)3^2 + 2(3.14)(3)5", "S ≈ 150.72 in²"),
    ),
    Example("9.6 Ex 9.54a: 653.12 cm³", measured("V = pi r^2 h", {"r": "4 cm", "h": "13 cm"}, "V", "cm^3", pi=D), ("V ≈ (3.14)4^2 · 13", "V ≈ 653.12 cm³")),
    Example("9.6 Ex 9.55: 25.12 in³", measured("V = 1/3 pi r^2 h", {"r": "2 in", "h": "6 in"}, "V", "in^3", pi=D), ("V ≈ 1/3 (3.14)(2)^2(6)", "V ≈ 25.12 in³")),
    Example(
        "9.6 Ex 9.56: 52.33 in³, nearest hundredth",
        measured("V = 1/3 pi r^2 h", {"r": "2.5 in", "h": "8 in"}, "V", "in^3", pi=D, places=2),
        ("V ≈ 1/3 (3.14)(2.5)^2(8)", "V ≈ 52.33 in³"),
    ),
]  # fmt: skip


@pytest.mark.parametrize("example", EXAMPLES, ids=[example.source for example in EXAMPLES])
def test_a_printed_example_stands_to_its_printed_answer(example: Example) -> None:
    """OpenStax Prealgebra 2e, the example named (READ)."""
    work = mark_lines(example.task, example.lines)
    assert [(line.text, line.mark.message) for line in work.lines if not line.mark.verdict.stands] == []
    if example.task.find:
        assert work.progress.finished
    if any(example.task.units):
        assert work.progress.units is UnitsState.RIGHT


# A printed slip: the working says 15, the answer 15.7 (OpenStax Prealgebra 2e, Ex 9.41a; READ).
def test_the_slip_inside_a_printed_working_is_seen() -> None:
    task = measured("C = 2 pi r", {"r": "2.5 ft"}, "C", "ft", pi=D)
    work = mark_lines(task, ["C ≈ 2(3.14)(2.5)", "C ≈ 15", "C ≈ 15.7 ft"])
    assert [line.mark.verdict for line in work.lines][1] in (Verdict.ROUNDS, Verdict.BREAKS)
    assert work.lines[2].mark.verdict.stands


# Worked in inches, ended in feet (OpenStax Prealgebra 2e, Ex 9.29; READ).
def test_inches_that_end_as_feet_break() -> None:
    task = Task(
        ("P = 2 L + 2 W",), (("P", "52 in"), ("W", "L - 2")), ("L",), ("in",), measures=("P", "L", "W")
    )
    work = mark_lines(task, ["56 = 4L", "L = 14 ft"])
    assert work.lines[1].mark.reason is Reason.UNIT
