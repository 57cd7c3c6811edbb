"""The mark of a line: which verdict it gets, for which reason, and what the work has come to."""

from pathlib import Path

import pytest

from tutor.lesson.reader import load_lesson
from tutor.marking.task import Task
from tutor.marking.verdict import Reason, UnitsState, Verdict
from tutor.marking.working import Working, mark_lines, read_as, start
from tutor.quantity.pi import Pi

F, R, S, B, C, U, N = (
    Verdict.FOLLOWS,
    Verdict.ROUNDS,
    Verdict.RESTATES,
    Verdict.BREAKS,
    Verdict.CARRIES,
    Verdict.UNREAD,
    Verdict.NOTE,
)

SUM = Task()
X = Task(find=("x",))
BOX = Task(
    ("V = L W H",),
    (("V", "420 cm^3"), ("L", "10 cm"), ("H", "6 cm")),
    ("W",),
    ("cm",),
    measures=("V", "L", "W", "H"),
)
HOOP = Task(("C = 2 pi r",), (("C", "47.1 cm"),), ("r",), ("cm",), Pi.DECIMAL, measures=("C", "r"))
DISC = Task(("A = pi r^2",), (("r", "5 cm"),), ("A",), ("cm^2",), Pi.DECIMAL, measures=("A", "r"))
ROUND = Task(("C = 2 pi r",), (("r", "42.5 cm"),), ("C",), ("cm",), Pi.EXACT, measures=("C", "r"))
BANNER = Task(("A = L W",), (("L", "8 ft"), ("W", "5 ft")), ("A",), ("ft^2",), measures=("A", "L", "W"))
PENNANT = Task(
    ("A = 1/2 b h",), (("A", "44 in^2"), ("b", "11 in")), ("h",), ("in",), measures=("A", "b", "h")
)
LOOP = Task(
    ("P = 2 s + pi d",),
    (("P", "150.5 m"), ("d", "25 m")),
    ("s",),
    ("m",),
    Pi.DECIMAL,
    measures=("P", "s", "d"),
)
ANGLES = Task(("A + B = 180",), (("A", "3x + 12"), ("B", "x + 8")), ("A", "B"), ("°", "°"))
BRACE = Task(("a^2 + b^2 = c^2",), (("a", "5"), ("c", "13")), ("b",), ("",), measures=("a", "b", "c"))
LENGTH = Task(find=("r",), measures=("r",))
NUMBER_R = Task(find=("r",))
SYSTEM = Task(("x + y = 5", "x - y = 1"), (), ("x", "y"), ("", ""))


def verdicts(work: Working) -> list[Verdict]:
    return [line.mark.verdict for line in work.lines]


# -- verdicts ------------------------------------------------------------------------------

Row = tuple[str, Task, list[tuple[str, Verdict]]]

ROWS: list[Row] = [
    # one line after another
    ("two steps", X, [("3x + 15 = 240", F), ("3x = 225", F), ("x = 75", F)]),
    ("all at once", X, [("3x + 15 = 240", F), ("x = 75", F)]),
    ("sides change places", X, [("2x + 14 = 3x", F), ("14 = x", F), ("x = 14", F)]),
    ("worked on both sides", X, [("x - 6 = -10", F), ("x - 6 + 6 = -10 + 6", F), ("x = -4", F)]),
    ("a decimal for a fraction", X, [("x/3 = 2.5", F), ("x = 7.5", F), ("x = 15/2", F)]),
    ("words around", X, [("2x = 8", F), ("so x = 4 because 8/2 = 4", F)]),
    ("a chain of equal values", X, [("2x + 3 = 11", F), ("2x = 11 - 3 = 8", F), ("x = 8/2 = 4", F)]),
    ("only the answer", X, [("x = 75", F)]),
    # restating
    ("order of terms", X, [("3x + 2 = 14", F), ("2 + 3x = 14", S), ("x·3 + 2 = 14", S)]),
    ("flipped sides are progress", X, [("14 = 3x", F), ("3x = 14", F)]),
    ("a unit added is progress", BOX, [("W = 7", F), ("W = 7 cm", F), ("W = 7cm", S)]),
    ("going back", X, [("3x + 2 = 14", F), ("3x = 12", F), ("3x + 2 = 14", S)]),
    # breaks and what comes after
    ("taken from one side only", X, [("3x + 15 = 240", F), ("3x = 255", B), ("x = 85", C)]),
    ("recovery from the lines that stand", X, [("3x + 15 = 240", F), ("3x = 255", B), ("3x = 225", F), ("x = 75", F)]),
    ("recovery wins over carrying", X, [("3x + 15 = 240", F), ("3x = 255", B), ("x = 85", C), ("x = 75", F)]),
    ("a second break", X, [("3x + 15 = 240", F), ("3x = 255", B), ("x = 80", B)]),
    ("carried in steps", X, [("3x + 15 = 240", F), ("3x = 255", B), ("3x/3 = 255/3", C), ("x = 85", C)]),
    ("a wrong formula carries", PENNANT, [("A = b h", B), ("44 = 11h", C), ("h = 4 in", C), ("h = 8 in", F)]),
    ("pi added to 2", HOOP, [("47.1 = 2 × 3.14 × r", F), ("47.1 = 5.14r", B), ("47.1 = 6.28r", F), ("r = 7.5 cm", F)]),
    ("r squared read as r doubled", DISC, [("A = 3.14·5²", F), ("A = 3.14·10", B), ("A = 31.4 cm²", C)]),
    (
        "a false calculation carries its right side",
        LOOP,
        [("3.14*25 = 87.5", B), ("150.5 = 2s + 87.5", C), ("63 = 2s", C), ("s = 31.5 m", C), ("s = 36 m", F)],
    ),
    ("a true calculation of no use", LOOP, [("3.14*50 = 157", F), ("150.5 = 2s + 157", B), ("s = 36 m", F)]),
    ("legs added for a leg", BRACE, [("b^2 = 13^2 + 5^2", B), ("b^2 = 194", C), ("b ≈ 13.9", C)]),
    # two sides
    ("angles of a pair", ANGLES, [("3x+12+x+8=180", F), ("4x+20=180", F), ("4x=160", F), ("x = 40", F), ("A = 132°", F), ("B = 48°", F)]),
    ("angle tolerated on x", ANGLES, [("4x + 20 = 180°", F), ("x = 40°", F), ("A = 3(40)+12 = 132°", F)]),
    ("the pair swapped", ANGLES, [("A = 48°", B)]),
    ("90 for 180", ANGLES, [("A + B = 90", B), ("4x + 20 = 90", C)]),
    ("the opposite sign across", X, [("5x+4 = 2x+10", F), ("7x = 6", B), ("x = 6/7", C), ("3x = 6", F), ("x = 2", F)]),
    ("the letter divided away", X, [("6x = 9x", F), ("6 = 9", B)]),
    ("two unknowns", SYSTEM, [("2x = 6", F), ("x = 3", F), ("3 + y = 5", F), ("y = 2", F)]),
    ("two unknowns, wrong sum", SYSTEM, [("2x = 4", B), ("x = 2", C)]),
    ("two unknowns from the first line", Task(find=("x", "y")), [("x + y = 5 and x - y = 1", F), ("2x = 6", F), ("x = 3", F), ("y = 2", F)]),
    # branches
    ("both answers", X, [("x^2 = 81", F), ("x = ±9", F)]),
    ("one answer lost, then both", X, [("x^2 = 81", F), ("x = 9", B), ("x = 9 or x = -9", F)]),
    ("lengths are positive", LENGTH, [("r^2 = 81", F), ("r = ±9", F), ("r = 9", F)]),
    ("a length at once", LENGTH, [("r^2 = 81", F), ("r = √81", F), ("r = 9", F)]),
    ("a number has two roots", NUMBER_R, [("r^2 = 81", F), ("r = 9", B)]),
    ("a branch at a time", X, [("(x-2)(x+5) = 0", F), ("x - 2 = 0 or x + 5 = 0", F), ("x = 2", F), ("x + 5 = 0", F), ("x = -5", F)]),
    ("a branch without its or", X, [("(x-2)(x+5) = 0", F), ("x - 2 = 0", B)]),
    ("a wrong branch", X, [("(x-2)(x+5) = 0", F), ("x - 2 = 0 or x + 5 = 0", F), ("x = 5", B)]),
    ("one answer too many", X, [("x^2 = 16", F), ("x = 4 or x = -4 or x = 5", B)]),
    ("one answer wrong", X, [("x^2 = 16", F), ("x = 4 or x = -5", B)]),
    ("ways to say both", X, [("x^2 = 16", F), ("x = ±4", F), ("x = 4 or x = -4", F), ("x = 4, x = -4", F)]),
    ("distance from zero", X, [("|x - 3| = 5", F), ("x - 3 = 5 or x - 3 = -5", F), ("x = 8 or x = -2", F)]),
    ("half a distance", X, [("|x - 3| = 5", F), ("x = 8", B)]),
    ("divided by the unknown", X, [("x^2 = 3x", F), ("x = 3", B), ("x = 0 or x = 3", F)]),
    # legal moves that may gain
    ("squared", X, [("x = 3", F), ("x^2 = 9", F), ("x = ±3", B), ("x = 3", S)]),
    ("multiplied by the unknown", X, [("x = 3", F), ("x^2 = 3x", F), ("x = 0 or x = 3", B), ("x = 3", S)]),
    ("a root squared away", X, [("sqrt(x + 6) = x", F), ("x + 6 = x^2", F), ("x^2 - x - 6 = 0", F), ("x = 3 or x = -2", B), ("x = 3", F)]),
    # comparisons with an unknown
    ("unknown below a bound", X, [("40 + 0.5x ≤ 90", F), ("0.5x ≤ 60", B), ("0.5x ≤ 50", F), ("x ≤ 100", F)]),
    ("says less", X, [("x > 3", F), ("x ≥ 3", B)]),
    ("sign turned", X, [("-2x > 6", F), ("x < -3", F)]),
    ("sign not turned", X, [("-2x > 6", F), ("x > -3", B), ("x < -3", F)]),
    ("sign turned without need", X, [("2x ≥ -6", F), ("x ≤ -3", B), ("x ≥ -3", F)]),
    ("read from the right", X, [("3 < x", F), ("x > 3", F)]),
    ("a bound made equal", X, [("2x > 6", F), ("2x = 6", B)]),
    ("an equation made a bound", X, [("2x = 6", F), ("x ≥ 3", B)]),
    ("between two bounds", X, [("1 < x + 1 < 5", F), ("0 < x < 4", F)]),
    ("a bound left behind", X, [("1 < x + 1 < 5", F), ("0 < x < 5", B)]),
    ("below or above", X, [("2x < 6 or 3x > 15", F), ("x < 3 or x > 5", F)]),
    # identities and contradictions
    ("an identity", X, [("2(3x + 4) = 6x + 8", F), ("6x + 8 = 6x + 8", F), ("8 = 8", F), ("all numbers", F)]),
    ("an identity called 0", X, [("2(3x + 4) = 6x + 8", F), ("x = 0", B)]),
    ("a contradiction", X, [("2(3x + 4) = 6x + 9", F), ("8 = 9", F), ("no solution", F)]),
    ("a contradiction called 1", X, [("2(3x + 4) = 6x + 9", F), ("x = 1", B)]),
    ("a contradiction called all", X, [("2(3x + 4) = 6x + 9", F), ("all numbers", B)]),
    ("no end where there is one", X, [("2x = 8", F), ("no solution", B), ("all numbers", B), ("x = 4", F)]),
    # can these lengths make a triangle
    ("a false test, then no", SUM, [("4 + 6 > 10", F), ("no", F)]),
    ("a false test in words", SUM, [("2 + 3 > 8", F), ("No, they cannot.", F)]),
    ("a false test alone", SUM, [("4 + 6 > 10", B)]),
    ("a false test, then yes", SUM, [("4 + 6 > 10", B), ("yes", B)]),
    ("a true test, then yes", SUM, [("4 + 6 > 9", F), ("yes", F)]),
    ("a true test, then no", SUM, [("4 + 6 > 9", F), ("no", B)]),
    ("the easy pair only", SUM, [("2 + 8 > 3", F), ("yes", B)]),
    ("flat is no triangle", SUM, [("3 + 4 > 7", F), ("no", F)]),
    ("flat taken for a triangle", SUM, [("3 + 4 >= 7", F), ("yes", B)]),
    # arithmetic and bare expressions
    ("true", SUM, [("2·3.14·25 = 157", F)]),
    ("false", SUM, [("2·3.14·25 = 175", B)]),
    ("a first line that is false", X, [("3 = 4", B)]),
    ("a link of the first line is false", X, [("2x + 3 = 11 = 8", B)]),
    ("run-on", SUM, [("7 + 3 = 10 + 3 = 13 - 8 = 5", B)]),
    ("run-on in an equation", X, [("2x + 3 = 11", F), ("2x = 11 - 3 = 8 / 2 = 4", B), ("x = 4", F)]),
    ("a value kept", SUM, [("24 - |19 - 3(6 - 2)|", F), ("24 - |19 - 12|", F), ("24 - 7", F), ("17", F)]),
    ("a value lost", SUM, [("24 - |19 - 12|", F), ("24 - 8", B), ("16", C), ("17", F)]),
    ("brackets opened", X, [("3(x+2)", F), ("3x+2", B), ("3x+6", F)]),
    ("goes on", SUM, [("2(8) + 2(5)", F), ("= 16 + 10", F), ("= 26", F)]),
    ("goes on from a wrong one", SUM, [("2(8) + 2(5)", F), ("= 16 + 7", B), ("= 23", C), ("= 26", F)]),
    ("goes on from an equation", BANNER, [("A = 8 · 5", F), ("= 40", F), ("= 40 ft^2", F)]),
    ("goes on from nothing", SUM, [("= 5", U)]),
    ("a percentage", SUM, [("20% of 45", F), ("0.2 · 45", F), ("9", F)]),
    ("mixed numbers", SUM, [("1 1/2 + 2 1/4 = 3 3/4", F), ("1 1/2 + 2 1/4 = 3 2/6", B)]),
    ("roots", SUM, [("√8 = 2√2", F), ("√(9 + 16) = 5", F), ("√(9 + 16) = 7", B)]),
    ("money", SUM, [("$12.50 + $2.50 = $15", F)]),
    ("unequal", SUM, [("3 ≠ 4", F), ("3 ≠ 3", B)]),
    ("divided by zero", SUM, [("5/0 = 3", B), ("6/(3 - 3)", B), ("0^0 = 1", B)]),
    ("an answer divided by zero", X, [("2x = 8", F), ("x = 1/0", B), ("x = 0^0", B), ("x = 4", F)]),
    ("two readings", X, [("1/2x = 8", F), ("x = 16", F)]),
    ("the other reading", X, [("1/2x = 8", F), ("1 = 16x", F), ("x = 1/16", F)]),
    # units
    ("units all along", BOX, [("420 cm^3 = 10 cm · 6 cm · W", F), ("420 cm^3 = 60 cm^2 · W", F), ("W = 7 cm", F)]),
    ("a quotient of units", BOX, [("420 cm^3 = 60 cm^2 · W", F), ("W = 420 cm³ / 60 cm²", F), ("W = 7 cm", F)]),
    ("units half given", BOX, [("420 = 60 cm · W", F), ("W = 7 cm", F)]),
    ("unit missing", BOX, [("W = 7", F)]),
    ("unit of the same measure", BOX, [("W = 70 mm", F), ("W = 0.07 m", F)]),
    ("another length unit", BOX, [("W = 7 m", B), ("W = 7 ft", B)]),
    ("a square unit on a length", BOX, [("W = 7 cm^2", B)]),
    ("degrees on a length", BOX, [("W = 7°", B)]),
    ("a mass for a length", BOX, [("W = 7 g", B)]),
    ("a length unit on an area", BANNER, [("A = 8 · 5", F), ("A = 40 ft", B), ("A = 40 ft²", F)]),
    ("an area written out", BANNER, [("A = 8 ft · 5 ft", F), ("A = 40 square feet", F)]),
    ("a length on an angle", ANGLES, [("x = 40", F), ("B = 48 cm", B), ("B = 48°", F)]),
    ("feet times inches, worked out", SUM, [("2 ft * 6 in = 144 in^2", F)]),
    ("feet times inches, raw", SUM, [("2 ft * 6 in = 12 ft^2", B)]),
    ("inches in feet", BANNER, [("A = 8 ft · 60 in", F), ("A = 480 ft²", B), ("A = 40 ft²", F)]),
    ("square metres", SUM, [("1 m^2 = 10000 cm^2", F), ("1 m^2 = 100 cm^2", B)]),
    ("cubic metres", SUM, [("1 m^3 = 1000000 cm^3", F), ("1 m^3 = 100 cm^3", B)]),
    ("feet to inches", SUM, [("3 ft = 36 in", F), ("3 ft = 0.25 in", B)]),
    # labels
    ("labels", BOX, [("V = 420 cm^3", F), ("L = 10 cm, H = 6 cm", F), ("W = ?", F)]),
    ("a label without its unit", BANNER, [("L = 8", F)]),
    ("a label in another unit", BANNER, [("L = 96 in", F), ("L = 8 cm", B)]),
    ("a label copied wrong", BANNER, [("L = 5 ft", B)]),
    # rounding
    ("rounding without title", X, [("2x = 11", F), ("x = 5.5", F), ("x = 6", B)]),
    ("rounding that says so", X, [("2x = 11", F), ("x = 5.5", F), ("x ≈ 6", R)]),
    ("rounded wrong", X, [("3x = 11", F), ("x ≈ 3.6", B), ("x ≈ 3.7", R)]),
    ("no ending decimal", X, [("7x = 22", F), ("x = 3.14", R)]),
    ("no ending decimal, one place", X, [("7x = 22", F), ("x = 3.1", B)]),
    ("exact after rounded", X, [("7x = 22", F), ("x = 3.14", R), ("x = 22/7", F)]),
    ("a place asked for", Task(find=("x",), places=1), [("8x = 13.8", F), ("x = 1.725", F), ("x = 1.7", R), ("x = 1.8", B)]),
    ("thirds", SUM, [("1/3 ≈ 0.33", R), ("2/3 ≈ 0.67", R), ("2/3 ≈ 0.66", B), ("1/3 = 0.3", B)]),
    ("a root rounded", SUM, [("√2 ≈ 1.41", R), ("√2 = 1.41", R), ("√2 = 1.42", B)]),
    # pi
    ("pi 3.14", HOOP, [("47.1 = 6.28r", F), ("r = 7.5 cm", F)]),
    ("pi 22/7", HOOP, [("47.1 = 2*22/7*r", F), ("47.1 = 44/7 r", F), ("r = 7.49 cm", R)]),
    ("pi itself", HOOP, [("r = 47.1/(2π)", F), ("r = 7.496 cm", R)]),
    ("pi off by the last place", HOOP, [("r = 7.48 cm", B), ("r = 7.51 cm", B)]),
    ("an area with pi", DISC, [("A = 25π", F), ("A = 78.54 cm²", R)]),
    ("pi kept exact", ROUND, [("C = 2π(42.5)", F), ("C = 85π cm", F), ("C ≈ 267.04 cm", R)]),
    ("pi shown as 3.14 in an exact task", ROUND, [("C ≈ 2(3.14)(42.5)", F), ("C ≈ 266.9 cm", F)]),
    ("pi shown as 22/7 in an exact task", ROUND, [("C = 2·22/7·42.5", F), ("C = 1870/7", F), ("C = 267.14 cm", R)]),
    ("a round number for pi", ROUND, [("C = 270 cm", B)]),
    # formulas, definitions, side workings
    ("the formula turned", BOX, [("W = V/(L H)", F), ("W = 420/60", F), ("W = 7 cm", F)]),
    ("one name at a time", BOX, [("420 = L W H", F), ("420 = 10 W H", F), ("420 = 10 · W · 6", F)]),
    ("added, not multiplied", BOX, [("420 = 10 + W + 6", B), ("W = 404 cm", C)]),
    ("half forgotten", PENNANT, [("44 = 11h", B), ("h = 4 in", C), ("44 = 11h/2", F), ("h = 8 in", F)]),
    ("side workings", LOOP, [("3.14·25 = 78.5", F), ("150.5 - 78.5 = 72", F), ("72/2 = 36", F), ("s = 36 m", F)]),
    ("a name of one's own", LOOP, [("q = 3.14·25", F), ("q = 78.5", F), ("150.5 = 2s + q", F), ("s = 36 m", F)]),
    ("a fraction under a name of one's own", PENNANT, [("T = 11/2", F), ("T = 5.5", F), ("44 = T h", F), ("h = 8 in", F)]),
    ("a check", X, [("3x + 15 = 240", F), ("x = 75", F), ("3(75) + 15 = 240", F), ("240 = 240", F)]),
    ("a wrong check", X, [("3x + 15 = 240", F), ("x = 75", F), ("3(75) + 15 = 250", B)]),
    # words and what cannot be read
    ("words alone", X, [("3x = 12", F), ("divide both sides by three", N), ("x = 4", F)]),
    ("not read", X, [("3x = 12", F), ("x = = 4", U), ("x = 3,5", U), ("[/]", U), ("x = 4", F)]),
    ("an empty line", X, [("", U), ("x = 3", F)]),
]  # fmt: skip


@pytest.mark.parametrize(("task", "rows"), [row[1:] for row in ROWS], ids=[row[0] for row in ROWS])
def test_verdicts(task: Task, rows: list[tuple[str, Verdict]]) -> None:
    work = mark_lines(task, [text for text, _ in rows])
    said = [(line.text, line.mark.verdict.value) for line in work.lines]
    assert said == [(text, verdict.value) for text, verdict in rows], [line.mark.message for line in work.lines]


@pytest.mark.parametrize(("task", "rows"), [row[1:] for row in ROWS[::3]], ids=[row[0] for row in ROWS[::3]])
def test_line_by_line_and_all_at_once_agree(task: Task, rows: list[tuple[str, Verdict]]) -> None:
    texts = [text for text, _ in rows]
    one_by_one = start(task)
    for text in texts:
        one_by_one = one_by_one.submit(text)
    assert one_by_one == mark_lines(task, texts)


# -- reasons -------------------------------------------------------------------------------

# The task, the lines, the reason of the last one, and the part of it that is underlined.
REASONS = [
    (X, ["3x + 15 = 240", "3x = 255"], {Reason.BOTH_SIDES, Reason.SLIP, Reason.WITNESS}, None),
    (HOOP, ["47.1 = 2 × 3.14 × r", "47.1 = 5.14r"], {Reason.BOTH_SIDES, Reason.SLIP}, "5.14r"),
    (X, ["x^2 = 81", "x = 9"], {Reason.LOST}, None),
    (NUMBER_R, ["r^2 = 81", "r = √81"], {Reason.LOST}, None),
    (X, ["x = 3", "x^2 = 9", "x = ±3"], {Reason.GAINED}, None),
    (X, ["sqrt(x + 6) = x", "x = 3 or x = -2"], {Reason.GAINED}, None),
    (X, ["-2x > 6", "x > -3"], {Reason.SIGN_NOT_TURNED}, None),
    (X, ["2x ≥ -6", "x ≤ -3"], {Reason.SIGN_NOT_TURNED}, None),
    (SUM, ["7 + 3 = 10 + 3 = 13 - 8 = 5"], {Reason.RUN_ON}, "10 + 3"),
    (X, ["2x + 3 = 11", "2x + 3 = 11 - 3 = 8 / 2 = 4"], {Reason.RUN_ON}, "11 - 3"),
    (BOX, ["W = 7 cm^2"], {Reason.UNIT}, "7 cm^2"),
    (BANNER, ["A = 40 ft"], {Reason.UNIT}, "40 ft"),
    (BANNER, ["L = 8 cm"], {Reason.UNIT}, "8 cm"),
    (SUM, ["7*8 = 54"], {Reason.NOT_TRUE, Reason.SLIP}, None),
    (SUM, ["4 + 6 > 10"], {Reason.NOT_TRUE}, None),
    (SUM, ["5/0 = 3"], {Reason.NOT_TRUE}, None),
    (SUM, ["3(x+2)", "3x+2"], {Reason.VALUE_CHANGED, Reason.SLIP}, None),
    (SUM, ["24 - 7", "16"], {Reason.VALUE_CHANGED}, None),
    (X, ["3x = 12", "x = = 4"], {Reason.SYNTAX}, "="),
    (X, ["x = " + "1+" * 300 + "1"], {Reason.TOO_LONG}, None),
]


@pytest.mark.parametrize(("task", "texts", "reasons", "part"), REASONS)
def test_the_reason_of_a_break(task: Task, texts: list[str], reasons: set[Reason], part: str | None) -> None:
    line = mark_lines(task, texts).lines[-1]
    assert line.mark.verdict in (B, U)
    assert line.mark.reason in reasons
    assert line.mark.message.endswith((".", "?"))
    assert line.mark.span is not None
    start_at, end = line.mark.span
    assert 0 <= start_at < end <= len(line.text) + 1
    if part is not None:
        assert line.text[start_at:end] == part


@pytest.mark.parametrize("row", ROWS, ids=[row[0] for row in ROWS])
def test_only_lines_that_do_not_stand_have_a_reason(row: Row) -> None:
    _, task, rows = row
    for line in mark_lines(task, [text for text, _ in rows]).lines:
        assert (line.mark.reason is not None) == (line.mark.verdict in (B, U)), line
        if line.mark.reason is Reason.SLIP:
            assert line.mark.slip


ACCOUNTS = [
    (["3x + 15 = 240", "3x = 225"], "15 taken away", "15 taken away"),
    (["3x + 15 = 240", "3x = 255"], "15 taken away", "15 added"),
    (["3x = 225", "x = 75"], "divided by 3", "divided by 3"),
    (["x/4 = 12", "x = 48"], "multiplied by 4", "multiplied by 4"),
    (["x - 4 = 13", "x = 17"], "4 added", "4 added"),
    (["5x = 2x + 9", "3x = 9"], "2x taken away", "2x taken away"),
]


@pytest.mark.parametrize(("texts", "left", "right"), ACCOUNTS)
def test_both_sides_are_accounted_for_on_right_lines_and_wrong_ones(
    texts: list[str], left: str, right: str
) -> None:
    mark = mark_lines(X, texts).lines[-1].mark
    on_left, _, on_right = (mark.account or mark.message).partition(";")
    assert left in on_left and right in on_right


NO_ANSWERS = [
    (X, ["3x + 15 = 240", "3x = 255"], "75"),
    (X, ["3x + 15 = 240", "x = 80"], "75"),
    (HOOP, ["47.1 = 5.14r"], "7.5"),
    (BOX, ["420 = 16W"], "7"),
    (X, ["5x + 4 = 2x + 10", "7x = 6"], "2"),
    (LOOP, ["150.5 = 2s + 87.5"], "36"),
    (X, ["x^2 = 81", "x = 9"], "-9"),
]


@pytest.mark.parametrize(("task", "texts", "answer"), NO_ANSWERS)
def test_no_reason_tells_the_answer(task: Task, texts: list[str], answer: str) -> None:
    mark = mark_lines(task, texts).lines[-1].mark
    assert mark.verdict is B
    words = mark.message.replace("−", "-").replace(";", " ").rstrip(".?").replace(". ", " ").split()
    assert answer not in words, mark.message


# -- struck lines --------------------------------------------------------------------------


def test_a_struck_line_is_not_known_and_stays_visible() -> None:
    work = mark_lines(X, ["3x + 15 = 240", "3x = 255", "x = 85"])
    assert verdicts(work) == [F, B, C]
    struck = work.strike(1)
    assert [line.text for line in struck.lines] == [line.text for line in work.lines]
    assert struck.lines[1].struck and verdicts(struck) == [F, B, B]
    assert verdicts(struck.strike(2).submit("x = 75")) == [F, B, B, F]


def test_a_struck_line_that_stood_lends_nothing() -> None:
    texts = ["q = 3.14·25", "150.5 = 2s + q", "s = 36 m"]
    assert verdicts(mark_lines(LOOP, texts))[1] is F
    assert verdicts(mark_lines(LOOP, texts, frozenset({0})))[1] is not F


def test_a_struck_answer_finishes_nothing() -> None:
    work = mark_lines(X, ["3x = 12", "x = 4"])
    assert work.progress.finished
    assert not work.strike(1).progress.finished


def test_striking_the_first_line_makes_the_next_one_the_premise() -> None:
    assert verdicts(mark_lines(X, ["3x + 1 = 7", "3x + 15 = 240", "3x = 225"], frozenset({0})))[1:] == [F, F]


def test_striking_a_line_that_is_not_there_changes_nothing() -> None:
    work = mark_lines(X, ["3x = 12"])
    assert work.strike(5) == work and work.strike(-1) == work


# -- what the work has come to -------------------------------------------------------------

UNITS = [
    (BOX, ["W = 7 cm"], UnitsState.RIGHT),
    (BOX, ["W = 7"], UnitsState.MISSING),
    (BOX, ["W = 7 cm^2"], UnitsState.WRONG_DIMENSION),
    (BOX, ["W = 7 g"], UnitsState.WRONG_DIMENSION),
    (BOX, ["W = 70 mm"], UnitsState.EQUIVALENT),
    (BOX, ["W = 7 m"], UnitsState.WRONG),
    (BOX, ["420 = 60W"], None),
    (BANNER, ["A = 40 ft²"], UnitsState.RIGHT),
    (BANNER, ["A = 40 sq ft"], UnitsState.RIGHT),
    (BANNER, ["A = 40 ft"], UnitsState.WRONG_DIMENSION),
    (BANNER, ["A = 40"], UnitsState.MISSING),
    (BANNER, ["A = 5760 in²"], UnitsState.EQUIVALENT),
    (BANNER, ["A = 40 in²"], UnitsState.WRONG),
    (X, ["2x = 8", "x = 4"], None),
]


@pytest.mark.parametrize(("task", "texts", "state"), UNITS)
def test_units_of_the_answer(task: Task, texts: list[str], state: UnitsState | None) -> None:
    assert mark_lines(task, texts).progress.units is state


FINISHED = [
    (X, ["2x = 8"], False),
    (X, ["2x = 8", "x = 8/2"], False),
    (X, ["2x = 8", "x = 4"], True),
    (X, ["2x = 8", "4 = x"], True),
    (X, ["2x = 9", "x = 9/2"], True),
    (X, ["2x = 8", "x = 5"], False),
    (X, ["x^2 = 2", "x = ±√2"], True),
    (X, ["2x > 8", "x > 4"], True),
    (X, ["x = x + 1", "no solution"], True),
    (X, ["x = x", "all numbers"], True),
    (X, ["(x-2)(x+5) = 0", "x - 2 = 0 or x + 5 = 0", "x = 2"], False),
    (X, ["(x-2)(x+5) = 0", "x - 2 = 0 or x + 5 = 0", "x = 2", "x = -5"], True),
    (LENGTH, ["r^2 = 81", "r = ±9"], False),
    (LENGTH, ["r^2 = 81", "r = ±9", "r = 9"], True),
    (ANGLES, ["x = 40", "A = 132°"], False),
    (ANGLES, ["x = 40", "A = 132°", "B = 48°"], True),
    (ANGLES, ["A = 132° and B = 48°"], True),
    (SUM, ["3 + 4 = 7"], None),
    (X, [], False),
]


@pytest.mark.parametrize(("task", "texts", "finished"), FINISHED)
def test_finished(task: Task, texts: list[str], finished: bool | None) -> None:
    assert mark_lines(task, texts).progress.finished is finished


def test_the_four_steps_of_a_box() -> None:
    work = start(BOX)
    seen = []
    for text in ("V = L W H", "V = 420 cm^3", "L = 10 cm, H = 6 cm", "W = ?", "420 = 60W", "W = 7", "W = 7 cm"):
        work = work.submit(text)
        seen.append([state.value for _, state in work.progress.steps])
    assert seen[0] == ["stands", "next", "open", "open"]
    assert seen[3] == ["stands", "stands", "next", "open"]
    assert seen[5] == ["stands", "stands", "stands", "next"]
    assert seen[6] == ["stands"] * 4
    assert dict(work.progress.labels) == {"V": "420 cm³", "L": "10 cm", "H": "6 cm", "W": "7 cm"}
    assert work.progress.missing_labels == () and work.progress.complete


def test_every_step_is_needed_where_all_are_asked_for() -> None:
    strict = Task(BOX.formulas, BOX.givens, BOX.find, BOX.units, every_step=True, measures=BOX.measures)
    assert not mark_lines(strict, ["W = 7 cm"]).progress.complete
    assert mark_lines(BOX, ["W = 7 cm"]).progress.complete


@pytest.mark.parametrize(
    ("texts", "checked"),
    [
        (["3x + 15 = 240", "x = 75"], False),
        (["3x + 15 = 240", "x = 75", "3(75) + 15 = 240"], True),
        (["3x + 15 = 240", "x = 75", "3(75) + 15 = 250"], False),
        (["3x + 15 = 240", "3(75) + 15 = 240"], False),
    ],
)
def test_a_check_puts_the_answer_back(texts: list[str], checked: bool) -> None:
    assert mark_lines(X, texts).progress.answer_checked is checked


def test_the_first_wrong_line_is_the_first_that_breaks() -> None:
    assert mark_lines(X, ["3x = 12", "x = = 4", "note this", "x = 5", "x = 6"]).progress.first_wrong == 3
    assert mark_lines(X, ["3x = 12", "x = 4"]).progress.first_wrong is None


def test_a_line_is_read_back_while_it_is_typed() -> None:
    assert any("x" in row for row in read_as(X, ["3x = 12"], "x = 12/3").rows)
    assert read_as(X, [], "x = (3").problem
    assert read_as(X, [], "").rows == () and read_as(X, [], "").problem == ""


def test_marking_is_the_same_every_time() -> None:
    texts = ["C = 2πr", "47.1 = 5.14r", "r = 9.16", "47.1 = 6.28r", "r = 7.5 cm"]
    assert mark_lines(HOOP, texts) == mark_lines(HOOP, texts)


HOSTILE = ["[/]", "\x1b[2J", "9^9^9^9", "(" * 300, "__import__('os')", "<b>", "x" * 500, "x = 9^9^9", "x = √(-4)"]


@pytest.mark.timeout(60)
@pytest.mark.parametrize("text", HOSTILE)
def test_a_hostile_line_is_answered_and_the_work_goes_on(text: str) -> None:
    work = mark_lines(X, ["2x = 8", text, "x = 4"])
    assert work.lines[1].mark.message.isprintable()
    assert work.lines[2].mark.verdict is F and work.progress.finished


# -- the lesson that ships -----------------------------------------------------------------

LESSON = Path(__file__).parent.parent / "lessons" / "lantern-parade.lesson"

WAYS: dict[str, list[list[str]]] = {
    "Paper strips": [
        ["6n + 15 = 87", "6n = 72", "n = 12"],
        ["6n+15-15 = 87-15", "6n = 72", "6n/6 = 72/6", "n = 12"],
        ["n = (87 - 15)/6", "n = 72/6", "n = 12"],
        ["(6n+15)/6 = 87/6", "n + 2.5 = 14.5", "N = 12", "6(12) + 15 = 87", "72 + 15 = 87"],
        ["87 = 15 + 6n", "72 = 6n", "12 = n", "check: 6·12 + 15 = 87 ✓"],
        ["2n + 5 = 29", "2n = 24", "n = 12 strips"],
        ["6n + 15 − 87 = 0", "6n - 72 = 0", "6(n - 12) = 0", "n - 12 = 0", "n = 12"],
        ["n + 5/2 = 29/2", "n = 29/2 - 5/2", "n = 24/2", "n = 12"],
    ],
    "Struts": [
        ["A + B = 180", "A = 3x + 12", "B = 5x + 8", "3x+12+5x+8=180", "8x+20=180", "8x=160", "x=20",
         "A = 3(20)+12", "A = 72°", "B = 5(20)+8 = 108", "B = 108°", "72 + 108 = 180"],
        ["8x + 20 = 180", "x = 20", "A = 72°", "B = 108°", "72° + 108° = 180°"],
        ["(3x+12)+(5x+8)=180°", "8x = 160", "x = 160/8 = 20", "∠A = 72°", "∠B = 180° − 72° = 108°"],
        ["∠A + ∠B = 180°", "3X + 12 + 5X + 8 = 180", "8X = 180 - 20", "X = 20", "a = 3*20+12 = 60+12 = 72 deg",
         "b = 5*20+8 = 100+8 = 108 deg", "72+108 = 180"],
        ["B = 180 - A", "5x + 8 = 180 - (3x + 12)", "5x + 8 = 168 - 3x", "8x + 8 = 168", "8x = 160", "x = 20",
         "A = 72° and B = 108°"],
        ["3x + 12 + 5x + 8 = 180", "2(4x + 10) = 180", "4x + 10 = 90", "4x = 80", "x = 20°", "m∠A = 72°",
         "m∠B = 108°", "A + B = 72° + 108° = 180°"],
    ],
    "Box of candles": [
        ["V = L W H", "V = 756 cm^3", "L = 14 cm", "H = 6 cm", "W = ?", "756 = 14 · W · 6", "756 = 84W", "W = 9",
         "W = 9 cm", "14·9·6 = 756"],
        ["V = LWH", "756 = 84 W", "756/84 = W", "9 = W", "W = 9 cm"],
        ["W = V/(L H)", "W = 756/(14*6)", "W = 756/84", "W = 9 cm"],
        ["v = l*w*h", "756 cm^3 = 14 cm * w * 6 cm", "756 cm³ = 84 cm² · w", "w = 9 cm"],
        ["V = L·W·H", "V/L = W·H", "756/14 = 6W", "54 = 6W", "W = 54/6", "W = 0.09 m"],
        ["14*6 = 84", "756 ÷ 84 = 9", "W = 9 cm", "V = 14 · 9 · 6 = 756 cm³"],
        ["V = L W H, V = 756 cm^3, L = 14 cm, H = 6 cm", "14 × 6 × W = 756", "84 W = 756", "W = 9 cm", "84 × 9 = 756"],
    ],
    "Hoop": [
        ["C = 2 pi r", "C = 53.38 cm", "r = ?", "53.38 = 2 × 3.14 × r", "53.38 = 6.28r", "r = 8.5", "r = 8.5 cm"],
        ["C = 2πr", "r = C/(2π)", "r = 53.38/(2·3.14)", "r = 53.38/6.28", "r = 8.5 cm"],
        ["53.38 = 6.28 R", "53.38/6.28 = R", "R = 8.5 cm", "2·3.14·8.5 = 53.38"],
        ["C/2 = πr", "26.69 = 3.14 r", "r = 26.69/3.14", "r = 8 1/2 cm"],
        ["C = πd", "d = 2r", "53.38 = 3.14 d", "d = 17", "17 = 2r", "r = 8.5 cm"],
        ["53.38 cm = 2 · 3.14 · r", "53.38 cm ÷ 6.28 = r", "8.5 cm = r"],
        ["C = 2πr", "53.38 = 2πr", "53.38/(2π) = r", "r ≈ 8.5 cm"],
        ["c = 2 pi r", "53.38 = 2 * 22/7 * r", "53.38 = 44/7 r", "r = 53.38 * 7/44", "r = 373.66/44", "r ≈ 8.49 cm"],
        ["2·3.14 = 6.28", "53.38/6.28 = 8.5", "r = 85 mm"],
    ],
    "Parade loop": [
        ["P = 2s + pi d", "P = 150.5 m", "d = 25 m", "s = ?", "150.5 = 2s + 3.14 * 25", "150.5 = 2s + 78.5", "72 = 2s",
         "s = 36", "s = 36 m"],
        ["P = 2 s + πd", "2s = P - πd", "s = (P - πd)/2", "s = (150.5 - 3.14(25))/2", "s = (150.5 - 78.5)/2",
         "s = 72/2", "s = 36 m"],
        ["3.14·25 = 78.5", "150.5 - 78.5 = 72", "72/2 = 36", "s = 36 m"],
        ["p = 2S + 3.14*D", "150.5 = 2S + 78.5", "150.5 - 78.5 = 2S", "72 = 2S", "36 = S", "S = 36 m", "2(36)+78.5 = 150.5"],
        ["2s + 78.5 = 150.5", "s + 39.25 = 75.25", "s = 36 m"],
        ["2s + 3.14·25 m = 150.5 m", "2s + 78.5 m = 150.5 m", "2s = 72 m", "s = 36 m"],
        ["150 1/2 = 2s + 78 1/2", "72 = 2s", "s = 36 m"],
        ["P = 2s + πd", "150.5 = 2s + π·25", "150.5 = 2s + 25π", "2s = 150.5 − 25π", "s = (150.5 − 25π)/2", "s = 36 m"],
    ],
    "Paper window": [
        ["F = L + 2b", "F = 48 cm", "G = 35 cm", "b = 4.5 cm", "L = ?, W = ?", "48 = L + 2(4.5)", "48 = L + 9", "L = 39",
         "L = 39 cm", "G = W + 2b", "35 = W + 2(4.5)", "35 = W + 9", "W = 26 cm"],
        ["L = F - 2b", "W = G - 2b", "L = 48 - 9 = 39 cm", "W = 35 - 9 = 26 cm"],
        ["2·4.5 = 9", "48 - 9 = 39", "35 - 9 = 26", "L = 39 cm", "W = 26 cm"],
        ["48 = L + 4.5 + 4.5", "L = 39 cm", "35 = W + 4.5 + 4.5", "W = 26 cm", "39 + 9 = 48", "26 + 9 = 35"],
        ["l = 48 - 2(4 1/2)", "l = 48 - 9", "l = 39 cm", "w = 35 - 2(4 1/2)", "w = 35 - 9", "w = 26 cm"],
        ["L + 9 cm = 48 cm", "L = 39 cm", "W + 9 cm = 35 cm", "W = 26 cm", "L = 39 cm and W = 26 cm"],
        ["48 - L = 9", "39 = L", "W + 9 = 35", "26 = W", "W = 26 cm, L = 39 cm"],
        ["F = L + 2b and G = W + 2b", "L = 48 cm - 2·4.5 cm = 39 cm", "W = 35 cm − 2·4.5 cm = 26 cm"],
    ],
}  # fmt: skip


def shipped_tasks() -> dict[str, Task]:
    lesson, faults = load_lesson(LESSON)
    assert lesson is not None, faults
    return {problem.name: problem.task for problem in lesson.problems}


def test_every_problem_of_the_lesson_is_worked_in_five_ways_or_more() -> None:
    assert set(shipped_tasks()) == set(WAYS)
    assert all(len(ways) >= 5 for ways in WAYS.values())


@pytest.mark.parametrize(("name", "way"), [(name, at) for name, ways in WAYS.items() for at in range(len(ways))])
def test_honest_work_gets_no_false_verdict(name: str, way: int) -> None:
    texts = WAYS[name][way]
    work = mark_lines(shipped_tasks()[name], texts)
    assert [(line.text, line.mark.message) for line in work.lines if not line.mark.verdict.stands] == []
    assert work.progress.finished and work.progress.complete
    assert work.progress.first_wrong is None


# One wrong number in the middle of honest work, and the honest line after it.
WRONG = [
    ("Paper strips", ["6n + 15 = 87", "6n = 102"], ["n = 17"], ["n = 12"]),
    ("Struts", ["3x+12+5x+8 = 180", "8x = 200"], ["x = 25"], ["x = 20"]),
    ("Box of candles", ["756 = 14 · W · 6", "756 = 20W"], ["W = 37.8 cm"], ["W = 9 cm"]),
    ("Hoop", ["53.38 = 2 × 3.14 × r", "53.38 = 5.14r"], ["r = 10.39 cm"], ["r = 8.5 cm"]),
    ("Parade loop", ["150.5 = 2s + 78.5", "229 = 2s"], ["s = 114.5 m"], ["s = 36 m"]),
    ("Paper window", ["48 = L + 4.5"], ["L = 43.5 cm"], ["L = 39 cm"]),
]


@pytest.mark.parametrize(("name", "to_the_break", "carried", "recovered"), WRONG)
def test_a_wrong_line_is_found_carried_and_left_behind(
    name: str, to_the_break: list[str], carried: list[str], recovered: list[str]
) -> None:
    work = mark_lines(shipped_tasks()[name], [*to_the_break, *carried, *recovered])
    assert work.progress.first_wrong == len(to_the_break) - 1
    assert verdicts(work)[len(to_the_break) :] == [C, F]
