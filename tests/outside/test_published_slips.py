"""Wrong moves from published studies, each with its source: every one has to break."""

import pytest
from published_tasks import BOX_SURFACE, angles, measured

from tutor.marking.task import Task
from tutor.marking.verdict import Reason, Verdict
from tutor.marking.working import mark_lines
from tutor.quantity.pi import Pi

D = Pi.DECIMAL

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
