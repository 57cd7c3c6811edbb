"""Lines and values from published sources, each with its source beside it.

OpenStax, Prealgebra 2e (read): the values of the worked examples, in lines of our own. READ: the
value was seen in the source or in a faithful transcription of it; "from memory": recalled.
"""

from dataclasses import dataclass
from fractions import Fraction

import pytest

from tutor.marking.task import Task
from tutor.marking.verdict import Reason, UnitsState, Verdict
from tutor.marking.working import mark_lines
from tutor.quantity.pi import Pi
from tutor.quantity.units import read_unit

OPENSTAX = "OpenStax Prealgebra 2e"


@dataclass(frozen=True)
class Example:
    """One worked example: the task, the lines down to the printed answer, the value in other units."""

    source: str
    task: Task
    lines: tuple[str, ...]


def measured(
    formula: str,
    givens: dict[str, str],
    find: str,
    unit: str,
    *,
    pi: Pi = Pi.EXACT,
    places: int | None = None,
) -> Task:
    names = tuple(
        sorted({letter for letter in formula if letter.isalpha()} - set("pi") | set(givens) | {find})
    )
    asked = (unit,) if unit else ()
    return Task((formula,), tuple(givens.items()), (find,), asked, pi, measures=names, places=places)


def angles(total: int, givens: dict[str, str], find: str = "B") -> Task:
    return Task((f"A + B = {total}",), tuple(givens.items()), (find,), ("°",))


D = Pi.DECIMAL
BOX_SURFACE = "S = 2 L H + 2 L W + 2 W H"

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


# -- published slips -----------------------------------------------------------------------

SLEEMAN = "Sleeman 1984, Cognitive Science 8:387-412 (from memory)"
PAYNE = "Payne & Squibb 1990, Cognitive Science 14:445-481 (from memory)"
BOOTH_K = "Booth & Koedinger 2008, Key Misconceptions in Algebraic Problem Solving, p. 1 (READ)"
BOOTH = "Booth, Barbieri, Eyer & Paré-Blagoev 2014, J. Problem Solving 7 (from memory)"
KIERAN = "Kieran 1984/1992, redistribution and switching addends (from memory)"
CARRY = "Carry, Lewis & Bernard 1979, Psychology of Equation Solving, partial operation (from memory)"
LEE = "Lee & Star, The 'Insertion' Error in Solving Linear Equations (READ)"
HALL = "Hall 2002, Phil. of Math. Educ. J. 15, transposing (category READ, example from memory)"
VLASSIS = "Vlassis 2001, PME-25 (READ in a table of assessment items)"
HUNTLEY = "Huntley, Marcus, Kahan & Miller 2007 (item READ, the wrong form is ours)"
BASIC = "Sleeman 1984, Basic Algebra Revisited, ERIC ED258846, abstract (READ)"
KUCHEMANN = "Küchemann 1981, in Hart (ed.), Children's Understanding of Mathematics 11-16 (from memory)"
POURNARA = "Pournara, Hodgen, Sanders & Adler 2016, Pythagoras 37(1) a334, abstract (READ)"
MATZ = "Matz 1982, in Sleeman & Brown (eds.), ch. 2 (from memory)"
SIEGLER = "Siegler, Thompson & Schneider 2011; Braithwaite, Pyke & Siegler 2017 (from memory)"
NEGATIVES = "Bofferding 2010, Addition and subtraction with negatives, p. 1 (READ)"
EXPONENTS = "Sevgi et al., SAGE Open, doi 10.1177/21582440261449038, abstract (category READ, example ours)"
SISMAN = "Tan Sisman & Aksu 2016, Int. J. Sci. Math. Educ. 14(7):1293-1319, abstract (READ)"
TRADE = "common practice, no source"

# The line above, the wrong line below, the source of the slip.
BROKEN = [
    ("3x = 12", "x = 9", SLEEMAN),
    ("3x = 12", "x = 36", PAYNE),
    ("4x = 20", "x = 1/5", SLEEMAN),
    ("x/4 = 12", "x = 3", PAYNE),
    ("x + 37 = 150", "x = 187", KIERAN),
    ("x - 4 = 13", "x = 9", BOOTH_K),
    ("x + 10 = 25", "x + 10 - 10 = 25 + 10", KIERAN),
    ("2x + 6 = 14", "2x = 14", PAYNE),
    ("5x = 30", "x = 30", PAYNE),
    ("3x + 6 = 15", "x + 6 = 5", CARRY),
    ("3x + 6 = 15", "x + 2 = 15", PAYNE),
    ("x/2 + 3 = 7", "x + 3 = 14", CARRY),
    ("3x + 4 = 19", "x = 12", BASIC),
    ("2(x + 1) = 10", "2(x + 1 - 1) = 10 - 1", LEE),
    ("2(x + 5) = 4(x + 5)", "2 - 2(x + 5) = 4 - 2(x + 5)", LEE),
    ("3x = 6x + 6", "6x - 3x = 6x - 6x + 6", LEE),
    ("5x + 4 = 2x + 10", "7x = 6", HALL),
    ("3x - 5 = 10", "3x = 5", HALL),
    ("2x + 6 = 14", "x = 1", PAYNE),
    ("-x = 6", "x = 6", VLASSIS),
    ("6 - x = 8", "x = 2", VLASSIS),
    ("-3 - x = 5", "x = 2", VLASSIS),
    ("2x - 4 = x + 2", "x = -2", VLASSIS),
    ("-3x = 12", "x = 4", BOOTH),
    ("2(3x + 4) = 6x + 8", "x = 0", HUNTLEY),
    ("2(3x + 4) = 6x + 9", "x = 1", HUNTLEY),
    ("(2/3)x = 8", "x = 16/3", PAYNE),
    ("2x/3 = 8", "2x = 8/3", PAYNE),
    (
        "3x + 15 = 42",
        "3x + 15 = 24",
        "Sleeman 1984, Cognitive Science 8:387-412, abstract: clerical errors (READ)",
    ),
    # expressions that have to keep their value
    (
        "x + 20 - 7 + 5",
        "x + 20 - 12",
        "Herscovics & Linchevski 1994, Educ. Studies in Math. 27, abstract (READ)",
    ),
    ("8 - (-4)", "4", NEGATIVES),
    ("-1 + (-5)", "6", NEGATIVES),
    ("-3 + 7", "-4", NEGATIVES),
    ("(-3)*(-4)", "-12", BOOTH),
    ("5 - x", "x - 5", BOOTH),
    ("3 - 8", "5", "Brown & Burton 1978; VanLehn 1990 (from memory)"),
    ("3x + 4", "7x", KUCHEMANN),
    ("5 + x", "5x", "Booth, Barbieri, Eyer & Paré-Blagoev 2014, J. Problem Solving 7 (READ in a summary)"),
    ("9 - 2x", "7x", KUCHEMANN),
    ("4x - x", "4", KUCHEMANN),
    ("3x + 2x", "5x^2", POURNARA),
    ("2x + 5y", "7xy", KUCHEMANN),
    ("3x + 5x", "15x", PAYNE),
    ("3(x + 2)", "3x + 2", MATZ),
    ("4(x + 5)", "x + 20", KUCHEMANN),
    ("3(x + 2)", "x + 5", SLEEMAN),
    ("2(x + 3)", "6x", KUCHEMANN),
    ("-(x - 5)", "-x - 5", POURNARA),
    ("-2(x + 3)", "-2x + 6", BOOTH),
    ("5 - 2(x - 4)", "5 - 2x - 8", BOOTH),
    ("7 - 2(x + 3)", "5(x + 3)", PAYNE),
    ("2(5x)", "10*2x", MATZ),
    ("(x + 3)^2", "x^2 + 9", MATZ),
    ("1/2 + 1/3", "2/5", SIEGLER),
    ("3/5 + 3/10", "6/10", TRADE),
    ("3*(2/5)", "6/15", "Siegler & Pyke 2013 (from memory)"),
    ("(3x + 6)/3", "x + 6", MATZ),
    ("(x + 4)/4", "x", MATZ),
    ("5^2", "10", "Pitta-Pantazi, Christou & Zachariades 2007 (from memory)"),
    ("2^3", "6", TRADE),
    ("2^3", "9", EXPONENTS),
    ("-3^2", "9", EXPONENTS),
    ("3.14*2^2", "(3.14*2)^2", MATZ),
    ("sqrt(36)", "18", MATZ),
    ("sqrt(3^2 + 4^2)", "7", MATZ),
    ("sqrt(3^2 + 4^2)", "25", MATZ),
    ("2 + 3*4", "20", "Linchevski & Livneh 1999 (from memory)"),
    ("2.5*2.5", "62.5", TRADE),
    ("7*8", "54", "Booth, Barbieri, Eyer & Paré-Blagoev 2014 (category READ, example ours)"),
]


@pytest.mark.parametrize(("above", "below", "source"), BROKEN)
def test_a_published_slip_breaks(above: str, below: str, source: str) -> None:
    assert source
    work = (
        mark_lines(Task(), [above, below])
        if "x" not in above
        else mark_lines(Task(find=("x",)), [above, below])
    )
    assert work.lines[0].mark.verdict is Verdict.FOLLOWS
    assert work.lines[1].mark.verdict is Verdict.BREAKS, work.lines[1].mark


RUN_ON = [
    ("7 + 3 = 10 + 3 = 13 - 8 = 5", "Kieran 1981, Educ. Studies in Math. 12 (READ in a summary)"),
    ("4 + 3 + 2 = 9 + 2 = 11", "Capraro & Capraro (READ in a report)"),
]


@pytest.mark.parametrize(("line", "source"), RUN_ON)
def test_equals_signs_that_run_on_break(line: str, source: str) -> None:
    assert source
    assert mark_lines(Task(), [line]).lines[0].mark.reason is Reason.RUN_ON


def test_a_solution_on_one_line_runs_on() -> None:
    """Kieran 1981; Knuth, Stephens, McNeil & Alibali 2006 (from memory)."""
    work = mark_lines(Task(find=("x",)), ["2x + 3 = 11", "2x + 3 = 11 - 3 = 8 / 2 = 4"])
    assert work.lines[1].mark.reason is Reason.RUN_ON


# The formula, the givens, what is found in which unit, the wrong line, the source.
FORMULA_SLIPS = [
    (measured("A = L W", {"L": "32 m", "W": "20 m"}, "A", "m^2"), "A = 2·32 + 2·20", SISMAN),
    (measured("P = 2 L + 2 W", {"L": "32 m", "W": "20 m"}, "P", "m"), "P = 32·20", SISMAN),
    (measured("P = 2 L + 2 W", {"L": "8 m", "W": "5 m"}, "P", "m"), "P = 8 + 5", TRADE),
    (measured("A = L W", {"L": "8 m", "W": "5 m"}, "A", "m^2"), "A = 8 + 5", "Kidman & Cooper 1997, PME-21 (from memory)"),
    (measured("A = b h/2", {"b": "11 in", "h": "8 in"}, "A", "in^2"), "A = 11·8", "Cavanagh 2007 (from memory)"),
    (measured("A = h(b + B)/2", {"h": "6 in", "b": "11 in", "B": "14 in"}, "A", "in^2"), "A = 6(14 + 11)", TRADE),
    (measured("A = pi r^2", {"r": "5 cm"}, "A", "cm^2", pi=D), "A = 3.14·10^2", TRADE),
    (measured("A = pi r^2", {"r": "5 cm"}, "A", "cm^2", pi=D), "A = 2·3.14·5", TRADE),
    (measured("A = pi r^2", {"r": "3 cm"}, "A", "cm^2", pi=D), "A = 3.14·2·3", TRADE),
    (measured("C = 2 pi r", {"r": "5 cm"}, "C", "cm", pi=D), "C = 3.14·5^2", TRADE),
    (measured("C = pi d", {"d": "10 cm"}, "C", "cm", pi=D), "C = 3.14·5", TRADE),
    (measured(BOX_SURFACE, {"L": "14 cm", "W": "9 cm", "H": "17 cm"}, "S", "cm^2"), "S = 14·9·17", SISMAN),
    (measured(BOX_SURFACE, {"L": "14 cm", "W": "9 cm", "H": "17 cm"}, "S", "cm^2"), "S = 14·9 + 14·17 + 9·17", SISMAN),
    (measured("V = L W H", {"L": "30 in", "W": "25 in", "H": "20 in"}, "V", "in^3"), "V = 30 + 25 + 20", "Battista & Clements 1996 (from memory)"),
    (measured("V = 1/3 pi r^2 h", {"r": "2 in", "h": "6 in"}, "V", "in^3", pi=D), "V = 3.14·2^2·6", TRADE),
    (measured("V = 4/3 pi r^3", {"r": "6 in"}, "V", "in^3", pi=D), "V = 4/3 · 3.14 · 6^2", TRADE),
    (measured("a^2 + b^2 = c^2", {"a": "5", "c": "13"}, "b", ""), "b^2 = 13^2 + 5^2", TRADE),
    (angles(180, {"A": "40°"}), "B = 90 - 40", "Biber, Tuna & Korkmaz 2013, EJSME 1(2):50-59 (category READ)"),
    (angles(90, {"A": "40°"}), "B = 180 - 40", "Biber, Tuna & Korkmaz 2013, EJSME 1(2):50-59 (from memory)"),
    (measured("A = L W", {"L": "32 m", "W": "20 m"}, "A", "m^2"), "A = 640 m", "Math Instruction for Students with Learning Problems, 2nd ed., 2017, p. 378 (READ)"),
    (measured("V = L W H", {"L": "14 cm", "W": "9 cm", "H": "17 cm"}, "V", "cm^3"), "V = 2142 cm^2", "the same, p. 378 (from memory)"),
    (measured("P = 2 L + 2 W", {"L": "32 m", "W": "20 m"}, "P", "m"), "P = 104 m^2", "Tan Sisman & Aksu 2009 (from memory)"),
]  # fmt: skip


@pytest.mark.parametrize(("task", "line", "source"), FORMULA_SLIPS)
def test_a_published_slip_with_a_formula_breaks(task: Task, line: str, source: str) -> None:
    assert source
    assert mark_lines(task, [line]).lines[0].mark.verdict is Verdict.BREAKS


def test_follow_through_is_marked_against_the_line_above() -> None:
    """IB Mathematics SL, Nov 2010, paper 1 markscheme: FT marks (READ)."""
    work = mark_lines(Task(find=("x",)), ["3x + 15 = 240", "3x = 255", "x = 85"])
    assert [line.mark.verdict for line in work.lines] == [Verdict.FOLLOWS, Verdict.BREAKS, Verdict.CARRIES]


# -- units ---------------------------------------------------------------------------------

# NIST Handbook 44, Appendix C, and 16 CFR 500.19 (READ); all exact.
EXACT_SIZES = [
    ("1 in", "2.54 cm"),
    ("1 ft", "0.3048 m"),
    ("1 mi", "5280 ft"),
    ("1 mi", "1609.344 m"),
    ("1 in²", "6.4516 cm²"),
    ("1 ft²", "144 in²"),
    ("1 ft²", "0.09290304 m²"),
    ("1 yd²", "9 ft²"),
    ("1 mi²", "640 acres"),
    ("1 acre", "43560 ft²"),
    ("1 acre", "4046.8564224 m²"),
    ("1 ha", "10000 m²"),
    ("1 in³", "16.387064 cm³"),
    ("1 ft³", "1728 in³"),
    ("1 yd³", "27 ft³"),
    ("1 gal", "231 in³"),
    ("1 gal", "3.785411784 L"),
    ("1 L", "1000 cm³"),
    ("1 mL", "1 cm³"),
]


@pytest.mark.parametrize(("one", "other"), EXACT_SIZES)
def test_units_have_their_exact_sizes(one: str, other: str) -> None:
    work = mark_lines(Task(), [f"{one} = {other}"])
    assert work.lines[0].mark.verdict is Verdict.FOLLOWS
    number, unit = other.split()
    off = f"{float(number) * 1.25:.9g}"
    assert mark_lines(Task(), [f"{one} = {off} {unit}"]).lines[0].mark.verdict is Verdict.BREAKS


@pytest.mark.parametrize(
    "words",
    [("ft^2", "ft²"), ("sq ft", "square feet"), ("sq. ft", "square foot"), ("in", "inches"), ("in.", "inch")],
)
def test_other_writings_are_one_unit(words: tuple[str, str]) -> None:
    """NIST Handbook 44, Appendix C: squares are also written sq ft (READ)."""
    lines = [f"3 {words[0]} = 3 {words[1]}"]
    assert mark_lines(Task(), lines).lines[0].mark.verdict is Verdict.FOLLOWS


def test_the_inch_is_exact() -> None:
    """NIST Handbook 44, Appendix C: 1 in = 2.54 cm (READ)."""
    inch, centimetre = read_unit("in"), read_unit("cm")
    assert inch is not None and centimetre is not None
    assert inch.factor / centimetre.factor == Fraction(254, 100)


# The tutor's pi: what 3.14 and 22/7 are off (computed with 50 digits in the project's references).
@pytest.mark.parametrize(
    ("line", "right"),
    [
        ("π ≈ 3.14", True),
        ("π ≈ 3.1416", True),
        ("π ≈ 3.15", False),
        ("π > 3.14", True),
        ("π < 22/7", True),
        ("22/7 < 3.14", False),
    ],
)
def test_pi_lies_between_the_two_numbers_of_school(line: str, right: bool) -> None:
    assert mark_lines(Task(), [line]).lines[0].mark.verdict.stands is right
