"""Tasks and rows for the tests of marking: each line of work with the verdict it has to get."""

from tutor.marking.task import Task
from tutor.marking.verdict import Verdict
from tutor.quantity.pi import Pi

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
TANK = Task(
    ("V = l w h",),
    (("l", "80 cm"), ("w", "35 cm"), ("h", "40 cm")),
    ("V",),
    ("L",),
    measures=("V", "l", "w", "h"),
)
SUM_M = Task(("M = a + b",), (("a", "8 m"), ("b", "5m")), ("M",), ("m",))
HOURS = Task(("s = v H",), (("s", "120 km"), ("v", "60 km/h")), ("H",), ("h",))
H_HOURS = Task(("s = v h",), (("s", "120 km"), ("v", "60 km/h")), ("h",), ("h",))
M_METRES = Task(("m = a + b",), (("a", "3 m"), ("b", "5 m")), ("m",), ("m",))
RING = Task(
    ("R = r + w", "A = pi R^2 - pi r^2"), (("r", "4 m"), ("w", "1.5 m")), ("A",), ("m^2",), Pi.DECIMAL
)
RING_TIGHT = Task(("R = r + w", "A = piR^2 - pir^2"), (("r", "4"), ("w", "1")), ("A",))
LOOSE_CASE = Task(("v = lwh",), (("L", "4"), ("W", "2"), ("H", "3")), ("V",))
SYSTEM = Task(("x + y = 5", "x - y = 1"), (), ("x", "y"), ("", ""))

LETTERS = {
    "F": Verdict.FOLLOWS,
    "R": Verdict.ROUNDS,
    "S": Verdict.RESTATES,
    "B": Verdict.BREAKS,
    "C": Verdict.CARRIES,
    "U": Verdict.UNREAD,
    "N": Verdict.NOTE,
}

Row = tuple[str, Task, list[tuple[str, Verdict]]]


def case(name: str, task: Task, *lines: str) -> Row:
    """A row: each line stands behind the letter of its verdict and a space."""
    return name, task, [(line[2:], LETTERS[line[0]]) for line in lines]


# fmt: off
ROWS: list[Row] = [
    # one line after another
    case("two steps", X, "F 3x + 15 = 240", "F 3x = 225", "F x = 75"),
    case("all at once", X, "F 3x + 15 = 240", "F x = 75"),
    case("sides change places", X, "F 2x + 14 = 3x", "F 14 = x", "F x = 14"),
    case("worked on both sides", X, "F x - 6 = -10", "F x - 6 + 6 = -10 + 6", "F x = -4"),
    case("a decimal for a fraction", X, "F x/3 = 2.5", "F x = 7.5", "F x = 15/2"),
    case("words around", X, "F 2x = 8", "F so x = 4 because 8/2 = 4"),
    case("a chain of equal values", X, "F 2x + 3 = 11", "F 2x = 11 - 3 = 8", "F x = 8/2 = 4"),
    case("only the answer", X, "F x = 75"),
    # a unit that is a name of the problem in the other case
    case("litres beside a length l", TANK, "F V = 80 · 35 · 40", "F V = 112000 cm^3", "F V = 112 L", "B V = 11.2 L"),
    case("litres close behind", TANK, "F V = 80 · 35 · 40", "B V = 1120L", "F V = 112L"),
    case("the length as a capital", TANK, "F V = L W H", "F V = 80 cm · 35 cm · 40 cm"),
    case("metres beside a sum M", SUM_M, "F M = a + b", "F M = 8 m + 5 m", "B M = 14 m", "F M = 13 m"),
    case("hours beside a name H", HOURS, "F s = v H", "F 120 = 60 h", "F 120 km = 60 km/h · 2 h", "F H = 2 h"),
    # a unit that is itself a name of the problem
    case("hours for a name h", H_HOURS, "F s = v h", "F 120 = 60 h", "B h = 3 h", "F h = 2 h"),
    case("metres for a name m", M_METRES, "F m = a + b", "F m = 3 + 5", "B m = 9 m", "F m = 8 m"),
    # a letter that the formulas write in both cases is two names, also where one of them alone is given
    case("an outer R and an inner r", RING, "B A = 50", "F R = 5.5", "F A = 44.745", "B A = 44.9", "F A = 3.14(5.5^2 - 4^2)"),
    case("R and r side by side", RING_TIGHT, "B A = 50", "F A = 9π", "B A = 10π"),
    case("one case in the formula, one given", LOOSE_CASE, "F V = 24", "B v = 25", "F v = lwh"),
    # restating
    case("order of terms", X, "F 3x + 2 = 14", "S 2 + 3x = 14", "S x·3 + 2 = 14"),
    case("flipped sides are progress", X, "F 14 = 3x", "F 3x = 14"),
    case("a unit added is progress", BOX, "F W = 7", "F W = 7 cm", "S W = 7cm"),
    case("going back", X, "F 3x + 2 = 14", "F 3x = 12", "S 3x + 2 = 14"),
    # breaks and what comes after
    case("taken from one side only", X, "F 3x + 15 = 240", "B 3x = 255", "C x = 85"),
    case("recovery from the lines that stand", X, "F 3x + 15 = 240", "B 3x = 255", "F 3x = 225", "F x = 75"),
    case("recovery wins over carrying", X, "F 3x + 15 = 240", "B 3x = 255", "C x = 85", "F x = 75"),
    case("a second break", X, "F 3x + 15 = 240", "B 3x = 255", "B x = 80"),
    case("carried in steps", X, "F 3x + 15 = 240", "B 3x = 255", "C 3x/3 = 255/3", "C x = 85"),
    case("a wrong formula carries", PENNANT, "B A = b h", "C 44 = 11h", "C h = 4 in", "F h = 8 in"),
    case("pi added to 2", HOOP, "F 47.1 = 2 × 3.14 × r", "B 47.1 = 5.14r", "F 47.1 = 6.28r", "F r = 7.5 cm"),
    case("r squared read as r doubled", DISC, "F A = 3.14·5²", "B A = 3.14·10", "C A = 31.4 cm²"),
    case(
        "a false calculation carries its right side", LOOP, "B 3.14*25 = 87.5", "C 150.5 = 2s + 87.5",
        "C 63 = 2s", "C s = 31.5 m", "F s = 36 m",
    ),
    case("a true calculation of no use", LOOP, "F 3.14*50 = 157", "B 150.5 = 2s + 157", "F s = 36 m"),
    case("legs added for a leg", BRACE, "B b^2 = 13^2 + 5^2", "C b^2 = 194", "C b ≈ 13.9"),
    # two sides
    case(
        "angles of a pair", ANGLES, "F 3x+12+x+8=180", "F 4x+20=180", "F 4x=160", "F x = 40", "F A = 132°",
        "F B = 48°",
    ),
    case("angle tolerated on x", ANGLES, "F 4x + 20 = 180°", "F x = 40°", "F A = 3(40)+12 = 132°"),
    case("the pair swapped", ANGLES, "B A = 48°"),
    case("90 for 180", ANGLES, "B A + B = 90", "C 4x + 20 = 90"),
    case("the opposite sign across", X, "F 5x+4 = 2x+10", "B 7x = 6", "C x = 6/7", "F 3x = 6", "F x = 2"),
    case("the letter divided away", X, "F 6x = 9x", "B 6 = 9"),
    case("two unknowns", SYSTEM, "F 2x = 6", "F x = 3", "F 3 + y = 5", "F y = 2"),
    case("two unknowns, wrong sum", SYSTEM, "B 2x = 4", "C x = 2"),
    case(
        "two unknowns from the first line", Task(find=("x", "y")), "F x + y = 5 and x - y = 1", "F 2x = 6",
        "F x = 3", "F y = 2",
    ),
    # branches
    case("both answers", X, "F x^2 = 81", "F x = ±9"),
    case("one answer lost, then both", X, "F x^2 = 81", "B x = 9", "F x = 9 or x = -9"),
    case("lengths are positive", LENGTH, "F r^2 = 81", "F r = ±9", "F r = 9"),
    case("a length at once", LENGTH, "F r^2 = 81", "F r = √81", "F r = 9"),
    case("a number has two roots", NUMBER_R, "F r^2 = 81", "B r = 9"),
    case(
        "a branch at a time", X, "F (x-2)(x+5) = 0", "F x - 2 = 0 or x + 5 = 0", "F x = 2", "F x + 5 = 0",
        "F x = -5",
    ),
    case("a branch without its or", X, "F (x-2)(x+5) = 0", "B x - 2 = 0"),
    case("a wrong branch", X, "F (x-2)(x+5) = 0", "F x - 2 = 0 or x + 5 = 0", "B x = 5"),
    case("one answer too many", X, "F x^2 = 16", "B x = 4 or x = -4 or x = 5"),
    case("one answer wrong", X, "F x^2 = 16", "B x = 4 or x = -5"),
    case("ways to say both", X, "F x^2 = 16", "F x = ±4", "F x = 4 or x = -4", "F x = 4, x = -4"),
    case("distance from zero", X, "F |x - 3| = 5", "F x - 3 = 5 or x - 3 = -5", "F x = 8 or x = -2"),
    case("half a distance", X, "F |x - 3| = 5", "B x = 8"),
    case("divided by the unknown", X, "F x^2 = 3x", "B x = 3", "F x = 0 or x = 3"),
    # legal moves that may gain
    case("squared", X, "F x = 3", "F x^2 = 9", "B x = ±3", "S x = 3"),
    case("a sum times the unknown", X, "F x + 3 = 5", "F x^2 + 3x = 5x", "F x = 2"),
    case("multiplied by the unknown", X, "F x = 3", "F x^2 = 3x", "B x = 0 or x = 3", "S x = 3"),
    case(
        "a root squared away", X, "F sqrt(x + 6) = x", "F x + 6 = x^2", "F x^2 - x - 6 = 0",
        "F x = 3 or x = -2", "F x = 3",
    ),
    case(
        "a root squared away and no value put in", X, "F sqrt(x + 6) = x", "F x + 6 = x^2",
        "F x^2 - x - 6 = 0", "B x = 3 or x = -2",
    ),
    # comparisons with an unknown
    case("unknown below a bound", X, "F 40 + 0.5x ≤ 90", "B 0.5x ≤ 60", "F 0.5x ≤ 50", "F x ≤ 100"),
    case("says less", X, "F x > 3", "B x ≥ 3"),
    case("sign turned", X, "F -2x > 6", "F x < -3"),
    case("sign not turned", X, "F -2x > 6", "B x > -3", "F x < -3"),
    case("sign turned without need", X, "F 2x ≥ -6", "B x ≤ -3", "F x ≥ -3"),
    case("read from the right", X, "F 3 < x", "F x > 3"),
    case("a bound made equal", X, "F 2x > 6", "B 2x = 6"),
    case("an equation made a bound", X, "F 2x = 6", "B x ≥ 3"),
    case("between two bounds", X, "F 1 < x + 1 < 5", "F 0 < x < 4"),
    case("a bound left behind", X, "F 1 < x + 1 < 5", "B 0 < x < 5"),
    case("below or above", X, "F 2x < 6 or 3x > 15", "F x < 3 or x > 5"),
    # identities and contradictions
    case("an identity", X, "F 2(3x + 4) = 6x + 8", "F 6x + 8 = 6x + 8", "F 8 = 8", "F all numbers"),
    case("an identity called 0", X, "F 2(3x + 4) = 6x + 8", "B x = 0"),
    case("a contradiction", X, "F 2(3x + 4) = 6x + 9", "F 8 = 9", "F no solution"),
    case("a contradiction called 1", X, "F 2(3x + 4) = 6x + 9", "B x = 1"),
    case("a contradiction called all", X, "F 2(3x + 4) = 6x + 9", "B all numbers"),
    case("no end where there is one", X, "F 2x = 8", "B no solution", "B all numbers", "F x = 4"),
    # can these lengths make a triangle
    case("a false test, then no", SUM, "F 4 + 6 > 10", "F no"),
    case("a false test in words", SUM, "F 2 + 3 > 8", "F No, they cannot."),
    case("a false test alone", SUM, "B 4 + 6 > 10"),
    case("a false test, then yes", SUM, "B 4 + 6 > 10", "B yes"),
    case("a true test, then yes", SUM, "F 4 + 6 > 9", "F yes"),
    case("a true test, then no", SUM, "F 4 + 6 > 9", "B no"),
    case("the easy pair only", SUM, "F 2 + 8 > 3", "B yes"),
    case("flat is no triangle", SUM, "F 3 + 4 > 7", "F no"),
    case("flat taken for a triangle", SUM, "F 3 + 4 >= 7", "B yes"),
    # arithmetic and bare expressions
    case("true", SUM, "F 2·3.14·25 = 157"),
    case("false", SUM, "B 2·3.14·25 = 175"),
    case("a first line that is false", X, "B 3 = 4"),
    case("a link of the first line is false", X, "B 2x + 3 = 11 = 8"),
    case("run-on", SUM, "B 7 + 3 = 10 + 3 = 13 - 8 = 5"),
    case("run-on in an equation", X, "F 2x + 3 = 11", "B 2x = 11 - 3 = 8 / 2 = 4", "F x = 4"),
    case("a value kept", SUM, "F 24 - |19 - 3(6 - 2)|", "F 24 - |19 - 12|", "F 24 - 7", "F 17"),
    case("a value lost", SUM, "F 24 - |19 - 12|", "B 24 - 8", "C 16", "F 17"),
    case("brackets opened", X, "F 3(x+2)", "B 3x+2", "F 3x+6"),
    case("goes on", SUM, "F 2(8) + 2(5)", "F = 16 + 10", "F = 26"),
    case("goes on from a wrong one", SUM, "F 2(8) + 2(5)", "B = 16 + 7", "C = 23", "F = 26"),
    case("goes on from an equation", BANNER, "F A = 8 · 5", "F = 40", "F = 40 ft^2"),
    case("goes on from nothing", SUM, "U = 5"),
    case("a percentage", SUM, "F 20% of 45", "F 0.2 · 45", "F 9"),
    case("mixed numbers", SUM, "F 1 1/2 + 2 1/4 = 3 3/4", "B 1 1/2 + 2 1/4 = 3 2/6"),
    case("roots", SUM, "F √8 = 2√2", "F √(9 + 16) = 5", "B √(9 + 16) = 7"),
    case("money", SUM, "F $12.50 + $2.50 = $15"),
    case("unequal", SUM, "F 3 ≠ 4", "B 3 ≠ 3"),
    case("divided by zero", SUM, "B 5/0 = 3", "B 6/(3 - 3)", "B 0^0 = 1"),
    case("an answer divided by zero", X, "F 2x = 8", "B x = 1/0", "B x = 0^0", "F x = 4"),
    case("two readings", X, "F 1/2x = 8", "F x = 16"),
    case("the other reading", X, "F 1/2x = 8", "F 1 = 16x", "F x = 1/16"),
    # units
    case("units all along", BOX, "F 420 cm^3 = 10 cm · 6 cm · W", "F 420 cm^3 = 60 cm^2 · W", "F W = 7 cm"),
    case("a quotient of units", BOX, "F 420 cm^3 = 60 cm^2 · W", "F W = 420 cm³ / 60 cm²", "F W = 7 cm"),
    case("units half given", BOX, "F 420 = 60 cm · W", "F W = 7 cm"),
    case("unit missing", BOX, "F W = 7"),
    case("unit of the same measure", BOX, "F W = 70 mm", "F W = 0.07 m"),
    case("another length unit", BOX, "B W = 7 m", "B W = 7 ft"),
    case("a square unit on a length", BOX, "B W = 7 cm^2"),
    case("degrees on a length", BOX, "B W = 7°"),
    case("a mass for a length", BOX, "B W = 7 g"),
    case("a length unit on an area", BANNER, "F A = 8 · 5", "B A = 40 ft", "F A = 40 ft²"),
    case("an area written out", BANNER, "F A = 8 ft · 5 ft", "F A = 40 square feet"),
    case("a length on an angle", ANGLES, "F x = 40", "B B = 48 cm", "F B = 48°"),
    case("feet times inches, worked out", SUM, "F 2 ft * 6 in = 144 in^2"),
    case("feet times inches, raw", SUM, "B 2 ft * 6 in = 12 ft^2"),
    case("inches in feet", BANNER, "F A = 8 ft · 60 in", "B A = 480 ft²", "F A = 40 ft²"),
    case("a length is no area", SUM, "B 5 cm = 5 cm^2"),
    case("a length and a mass", SUM, "B 3 cm + 2 g = 5", "F 3 cm + 2 m = 203 cm", "F 3 cm + 5 = 8 cm"),
    case("an area called a length", SUM, "F 640 m^2", "B 640 m", "F 640"),
    case("a length called an area", SUM, "F 104 m", "B 104 m^2"),
    case("two lengths multiplied", SUM, "F 5 cm · 4 cm", "F 20 cm²"),
    case("square metres", SUM, "F 1 m^2 = 10000 cm^2", "B 1 m^2 = 100 cm^2"),
    case("cubic metres", SUM, "F 1 m^3 = 1000000 cm^3", "B 1 m^3 = 100 cm^3"),
    case("feet to inches", SUM, "F 3 ft = 36 in", "B 3 ft = 0.25 in"),
    # labels
    case("labels", BOX, "F V = 420 cm^3", "F L = 10 cm, H = 6 cm", "F W = ?"),
    case("a label without its unit", BANNER, "F L = 8"),
    case("a label in another unit", BANNER, "F L = 96 in", "B L = 8 cm"),
    case("a label copied wrong", BANNER, "B L = 5 ft"),
    # rounding
    case("rounding without title", X, "F 2x = 11", "F x = 5.5", "B x = 6"),
    case("rounding that says so", X, "F 2x = 11", "F x = 5.5", "R x ≈ 6"),
    case("rounded wrong", X, "F 3x = 11", "B x ≈ 3.6", "R x ≈ 3.7"),
    case("no ending decimal", X, "F 7x = 22", "R x = 3.14"),
    case("no ending decimal, one place", X, "F 7x = 22", "B x = 3.1"),
    case("exact after rounded", X, "F 7x = 22", "R x = 3.14", "F x = 22/7"),
    case(
        "a place asked for", Task(find=("x",), places=1), "F 8x = 13.8", "F x = 1.725", "R x = 1.7",
        "B x = 1.8",
    ),
    case("thirds", SUM, "R 1/3 ≈ 0.33", "R 2/3 ≈ 0.67", "B 2/3 ≈ 0.66", "B 1/3 = 0.3"),
    case("a root rounded", SUM, "R √2 ≈ 1.41", "R √2 = 1.41", "B √2 = 1.42"),
    # pi
    case("pi 3.14", HOOP, "F 47.1 = 6.28r", "F r = 7.5 cm"),
    case("pi 22/7", HOOP, "F 47.1 = 2*22/7*r", "F 47.1 = 44/7 r", "R r = 7.49 cm"),
    case("pi itself", HOOP, "F r = 47.1/(2π)", "R r = 7.496 cm"),
    case("pi off by the last place", HOOP, "B r = 7.48 cm", "B r = 7.51 cm"),
    case("an area with pi", DISC, "F A = 25π", "R A = 78.54 cm²"),
    case("pi kept exact", ROUND, "F C = 2π(42.5)", "F C = 85π cm", "R C ≈ 267.04 cm"),
    case("pi shown as 3.14 in an exact task", ROUND, "F C ≈ 2(3.14)(42.5)", "F C ≈ 266.9 cm"),
    case("pi shown as 22/7 in an exact task", ROUND, "F C = 2·22/7·42.5", "F C = 1870/7", "R C = 267.14 cm"),
    case("a round number for pi", ROUND, "B C = 270 cm"),
    # formulas, definitions, side workings
    case("the formula turned", BOX, "F W = V/(L H)", "F W = 420/60", "F W = 7 cm"),
    case("one name at a time", BOX, "F 420 = L W H", "F 420 = 10 W H", "F 420 = 10 · W · 6"),
    case("added, not multiplied", BOX, "B 420 = 10 + W + 6", "C W = 404 cm"),
    case("half forgotten", PENNANT, "B 44 = 11h", "C h = 4 in", "F 44 = 11h/2", "F h = 8 in"),
    case("side workings", LOOP, "F 3.14·25 = 78.5", "F 150.5 - 78.5 = 72", "F 72/2 = 36", "F s = 36 m"),
    case("a name of one's own", LOOP, "F q = 3.14·25", "F q = 78.5", "F 150.5 = 2s + q", "F s = 36 m"),
    case(
        "a fraction under a name of one's own", PENNANT, "F T = 11/2", "F T = 5.5", "F 44 = T h",
        "F h = 8 in",
    ),
    case("a check", X, "F 3x + 15 = 240", "F x = 75", "F 3(75) + 15 = 240", "F 240 = 240"),
    case("a wrong check", X, "F 3x + 15 = 240", "F x = 75", "B 3(75) + 15 = 250"),
    # words and what cannot be read
    case("words alone", X, "F 3x = 12", "N divide both sides by three", "F x = 4"),
    case("not read", X, "F 3x = 12", "U x = = 4", "U x = 3,5", "U [/]", "F x = 4"),
    case("an empty line", X, "U ", "F x = 3"),
]
# fmt: on
