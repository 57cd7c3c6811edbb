"""Wrong formulas, wrong units and wrong plans: each is found where it was made, and nowhere else."""

from random import Random

import pytest
import slips_angle_instances  # noqa: F401
from slips_formula_instances import MAKERS, Instance, instances, number, show, two
from slips_formula_tasks import BANNER, CANDLE, CRATE, DISC, FRAME, HOOP, LOOP, PENNANT
from slips_round_instances import box, radius
from slips_table import Row
from slips_table_formulas import LEFT_OUT, TABLE

from tutor.line.names import Names
from tutor.line.reader import Readings, read
from tutor.line.tree import Statement
from tutor.line.walk import statement_names
from tutor.marking.deciding.context import prepare
from tutor.marking.deciding.state import Known, Spec, settings
from tutor.marking.slips.find import find_slip
from tutor.marking.slips.formulas import formula_slips
from tutor.marking.slips.model import Slip
from tutor.marking.slips.units import unit_slips
from tutor.marking.task import Task
from tutor.marking.verdict import Mark, Reason, Verdict
from tutor.marking.working import mark_lines

DRAWS = 2
OF_A_UNIT = {"linear-unit-on-area", "square-unit-on-volume", "square-unit-on-length"}
RIGHT_LINES = 10_000


def last_mark(instance: Instance) -> Mark:
    return mark_lines(instance.task, instance.lines).lines[-1].mark


@pytest.mark.parametrize("row", TABLE, ids=lambda row: row.name)
def test_the_example_of_the_table(row: Row) -> None:
    working = mark_lines(Task(), row.lines)
    mark = working.lines[-1].mark
    assert working.lines[0].mark.verdict is Verdict.FOLLOWS
    assert (mark.verdict, mark.slip) == (Verdict.BREAKS, row.name)
    assert mark.reason in (Reason.SLIP, Reason.UNIT)  # the second says more than that it is a slip


def test_a_unit_left_off_does_not_break() -> None:
    assert set(LEFT_OUT) == {"unit-left-off"}
    assert last_mark(Instance(("15.7 ft", "15.7"))).verdict is Verdict.FOLLOWS


def test_every_row_has_instances_and_no_other_name_has() -> None:
    in_words = {"triangle-inequality-equal-allowed", "triangle-inequality-one-easy-pair"}
    assert {row.name for row in TABLE} == MAKERS.keys() | in_words


@pytest.mark.parametrize("name", sorted(MAKERS))
def test_other_numbers_letters_and_writings(name: str) -> None:
    """The slip is named, its message is short and points at the line."""
    for instance in instances(name, DRAWS):
        working = mark_lines(instance.task, instance.lines)
        mark = working.lines[-1].mark
        assert all(line.mark.verdict is Verdict.FOLLOWS for line in working.lines[:-1]), instance
        assert (mark.verdict, mark.slip) == (Verdict.BREAKS, name), instance
        assert mark.reason in (Reason.SLIP, Reason.UNIT), instance
        assert 20 < len(mark.message) <= 125, mark.message
        assert mark.message.count(". ") <= 2 and mark.message[-1] in ".?"
        assert "-" not in mark.message.replace("side-by-side", "")
        assert mark.span is not None
        assert 0 <= mark.span[0] < mark.span[1] <= len(instance.lines[-1])


# -- what is said -----------------------------------------------------------------------------------

SAID = [
    (Instance(("8*5", "8 + 5")), "Maybe 8 and 5 were added; here they multiply. Work that out once more.", "8 + 5"),
    (Instance(("A = 3.14*10^2",), DISC), "Maybe 10 is the diameter here. How far is it from the middle to the edge?", "10"),
    (Instance(("47.1 = 3.14r",), HOOP), "Maybe r is only the radius here. How long is it all the way across?", "3.14r"),
    (Instance(("A = 3.14*10",), DISC), "Maybe 5 was doubled. What does the small ² do to the 5?", "3.14*10"),
    (Instance(("6*(14 + 11)/2", "6*14")), "Maybe only 14 was used as a base. Where does 11 come in?", "6*14"),
    (Instance(("6*4/2", "6*5/2")), "Maybe 5 is a slanted side. Which length stands straight up on 6?", "5"),
    (Instance(("180 - 40", "90 - 40")), "Maybe 90 was used. What do two angles on a straight line add up to?", "90"),
    (Instance(("3 ft = 0.25 in",)), "Maybe it was changed the other way round. Which is longer, 1 ft or 1 in?", "0.25 in"),
    (Instance(("1 m^2 = 100 cm^2",)), "Maybe only the cm² along one edge were counted. How many fill 1 m²?", "100 cm^2"),
    (Instance(("A = 40 ft",), BANNER), "ft is a unit for a length, and A is an area. Which unit measures an area?", "40 ft"),
    (Instance(("(3/4)(1/2)", "3/4 + 1/2")), "Maybe 3/4 and 1/2 were added; here they multiply. Work that out once more.", "3/4 + 1/2"),
    (Instance(("3.14*10", "3.14*5")), "Maybe 5 is only the radius here. How long is it all the way across?", "5"),
    (Instance(("12*k^2", "12*k")), "Maybe k was used once. In how many directions does an area grow?", "12*k"),
    (Instance(("8 m * 5 m", "13 m")), "Maybe 8 and 5 were added; here they multiply. Work that out once more.", "13 m"),
    (Instance(("3 + 4 >= 7", "yes")), "Two sides together are just as long as the third. Can they still meet in a corner?", "yes"),
    (Instance(("3 + 4 > 7", "yes")), "Two sides together are just as long as the third. Can they still meet in a corner?", "yes"),
    (Instance(("2 + 8 > 3", "yes")), "Compare the two shorter lengths together with the longest one first.", "yes"),
    (Instance(("A = 26 ft",), BANNER), "Maybe the way all around was worked out. What gives the space inside?", "26 ft"),
]  # fmt: skip


@pytest.mark.parametrize(("instance", "message", "part"), SAID)
def test_the_message_and_the_part(instance: Instance, message: str, part: str) -> None:
    mark = last_mark(instance)
    assert mark.message == message
    assert mark.span is not None
    assert instance.lines[-1][slice(*mark.span)] == part


@pytest.mark.parametrize("line", ["A = 40 ft", "A = 26 ft"])
def test_a_wrong_unit_is_still_an_answer_with_a_wrong_unit(line: str) -> None:
    state = mark_lines(BANNER, (line,)).progress.units
    assert state is not None and state.value == "wrong_dimension"


# -- nothing where nothing is wrong -------------------------------------------------------------------


def statement(text: str, names: Names) -> Statement:
    found = read(text, names)
    assert isinstance(found, Readings), text
    return found.statements[0]


def own_slips(known: Known, text: str) -> list[Slip]:
    """The matcher by itself: nobody has asked whether the line is right."""
    line = statement(text, known.context.names)
    setting = settings(known, line)[0]
    return [slip for finder in (unit_slips, formula_slips) for slip in finder(known, line, setting)]


def below(text: str) -> Known:
    """What is known below one line that stands ("" for none)."""
    context = prepare(Task())[0]
    if not text:
        return Known(context, Spec((), frozenset()))
    above = statement(text, context.names)
    premises = (above,) if statement_names(above) else ()
    return Known(context, Spec(premises, frozenset()), above=((0, above),))


def right_expressions(rng: Random) -> list[str]:
    """Different writings of one value, of a shape that wrong formulas are known for."""
    a, b = rng.randint(2, 12), rng.randint(2, 12)
    c, r = rng.randint(2, 12), rng.choice((2, 4, radius(rng)))
    angle = rng.randint(10, 80)
    shapes = (
        [f"{a}*{b}", f"{b}·{a}", str(a * b)],
        [
            f"2*{a} + 2*{b}",
            f"2({a} + {b})",
            f"{a} + {b} + {a} + {b}",
            f"{2 * a} + {2 * b}",
            str(2 * a + 2 * b),
        ],
        [f"{a}*{b}/2", f"1/2*{a}*{b}", f"½·{b}·{a}", f"{a * b}/2", show(a * b / 2)],
        [f"{a}*({b} + {c})/2", f"1/2*{a}*({b} + {c})", f"{a}*{b + c}/2", show(a * (b + c) / 2)],
        [f"3.14*{r}^2", f"3.14*{r}*{r}", f"3.14*{r * r}", show(3.14 * r * r)],
        [f"2*3.14*{r}", f"6.28*{r}", f"3.14*{2 * r}", show(6.28 * r)],
        [f"3.14*{r}^2*{b}", f"3.14*{b}*{r * r}", show(3.14 * r * r * b)],
        [f"{a}*{b}*{c}", f"{a * b}*{c}", str(a * b * c)],
        [
            f"2*{a}*{b} + 2*{a}*{c} + 2*{b}*{c}",
            f"2({a}*{b} + {a}*{c} + {b}*{c})",
            str(2 * (a * b + a * c + b * c)),
        ],
        [f"{a + c}^2 - {a}^2", f"{(a + c) ** 2} - {a * a}", str((a + c) ** 2 - a * a)],
        [f"180 - {angle}", str(180 - angle)],
        [f"180 - {angle} - {a}", f"180 - {angle + a}", f"180 - ({angle} + {a})", str(180 - angle - a)],
        [f"{a}*{b}^2", f"{a}*{b}*{b}", str(a * b * b)],
    )
    return rng.choice(shapes)


def test_right_lines_hold_no_slip() -> None:
    rng = Random(11)
    found = []
    for at in range(RIGHT_LINES):
        first, last = rng.sample(right_expressions(rng), 2)
        name = ("", "A = ", "x = ")[at % 3]
        pair = ("", f"{first} = {last}") if at % 5 == 0 else (name + first, name + last)
        found += [(pair, slip.name) for slip in own_slips(below(pair[0]), pair[1])]
    assert not found


RIGHT_WORK: list[tuple[Task, list[str]]] = [
    (DISC, ["A = pi r^2", "r = 5 cm", "A = 3.14*5^2", "5*5 = 25", "A = 3.14*25", "A = 78.5", "A = 78.5 cm^2"]),
    (DISC, ["A = π·5²", "A = 25π", "A = π d^2/4", "A ≈ 78.5"]),
    (HOOP, ["C = π d", "d = 2r", "47.1 = 3.14 d", "d = 15", "47.1 = 6.28r", "r = 7.5", "r = 7.5 cm"]),
    (LOOP, ["150.5 = 2s + 3.14*25", "3.14*25 = 78.5", "72 = 2s", "s = 36", "s = 36 m", "2(36) + 78.5 = 150.5"]),
    (CRATE, ["SA = 2(LW + LH + WH)", "14*9 = 126", "SA = 2*126 + 2*238 + 2*153", "2*517 = 1034", "SA = 1034"]),
    (PENNANT, ["A = b h/2", "11*8 = 88", "A = 88/2", "A = 44 in^2"]),
    (FRAME, ["L = F - 2b", "48 = L + 4.5 + 4.5", "48 = L + 9", "L = 39 cm"]),
    (CANDLE, ["V = 3.14*9*10", "B = 3.14*3^2", "V = B h", "V = 282.6 cm^3"]),
    (Task(("A + B = 180",), (("A", "40°"),), ("B",), ("°",)), ["40 + B = 180", "B = 180 - 40", "B = 140°"]),
    (Task(("a^2 + b^2 = c^2",), (("a", "5"), ("c", "13")), ("b",), ("",)), ["b^2 = 13^2 - 5^2", "b^2 = 144", "b = 12"]),
    (Task(("A = L W",), (("L", "2 ft"), ("W", "6 in")), ("A",), ("ft^2",)), ["A = 2·0.5", "L = 24 in", "A = 1 ft^2"]),
]  # fmt: skip


@pytest.mark.parametrize(("task", "lines"), RIGHT_WORK)
def test_right_work_holds_no_slip_at_any_line(task: Task, lines: list[str]) -> None:
    for at, line in enumerate(lines):
        above = mark_lines(task, lines[:at])
        assert all(done.mark.verdict.stands for done in above.lines), lines[:at]
        assert own_slips(above.known, line) == []


def test_a_letter_that_may_be_a_unit_is_no_pattern() -> None:
    """``2L`` may be two litres: then nothing is put in for L."""
    working = mark_lines(Task(find=("P",)), ("P = 2L + 2W", "P = 8 + 5"))
    assert working.lines[-1].mark.slip == "two-sides-only-perimeter"


NEAR = [
    Instance(("8*5", "8 + 6")),
    Instance(("8*5", "28")),
    Instance(("2*8 + 2*5", "14")),
    Instance(("11*8/2", "11*9")),
    Instance(("6*4/2", "6*3/2")),  # a slanted side is longer than the height
    Instance(("6*(14 + 11)/2", "6*13")),
    Instance(("3.14*5^2", "3.14*11^2")),
    Instance(("2*3.14*5", "3.14*6")),
    Instance(("14*9*17", "14 + 9 + 18")),
    Instance(("2*14*9 + 2*14*17 + 2*9*17", "14*9 + 14*17")),
    Instance(("180 - 40", "100 - 40")),
    Instance(("90 - 40", "360 - 40")),
    Instance(("24", "155")),
    Instance(("1 m^2 = 1000 cm^2",)),
    Instance(("3 ft = 30 in",)),
    Instance(("2 ft * 6 in = 13 ft^2",)),
    Instance(("A = 3.14*5",), DISC),
    Instance(("SA = 14 + 9 + 17",), CRATE),
    Instance(("A = 41",), BANNER),
]


@pytest.mark.parametrize("instance", NEAR, ids=lambda instance: " → ".join(instance.lines))
def test_a_near_miss_is_none_of_these(instance: Instance) -> None:
    *above, last = instance.lines
    assert last_mark(instance).verdict is Verdict.BREAKS
    assert own_slips(mark_lines(instance.task, above).known, last) == []


def test_a_line_of_two_slips_names_the_other_too() -> None:
    """3.14·2·4 is four doubled or the way around: with the number alone nobody can tell."""
    known = below("3.14*4^2")
    line = statement("25.12", known.context.names)
    slip = find_slip(known, line, settings(known, line)[0])
    assert slip is not None
    assert {slip.name, *slip.also} >= {"radius-doubled-not-squared", "circumference-given-for-area"}


FORMULAS = [
    ("A = 1/2 b h", "A = b h", "triangle-half-forgotten"),
    ("A = bh/2", "A = h b", "triangle-half-forgotten"),
    ("T = 0.5 u v", "T = u v", "triangle-half-forgotten"),
    ("A = πr²", "A = 2πr", "circumference-given-for-area"),
    ("A = π r · r", "A = π 2 r", "radius-doubled-not-squared"),
    ("C = π d", "C = 2 π d", "diameter-used-as-radius"),
    ("U = 2 π k", "U = π k²", "area-given-for-circumference"),
    ("A = (b + B)/2 · h", "A = b h", "trapezoid-one-base"),
    ("V = π r² h/3", "V = π r² h", "cone-third-forgotten"),
    ("V = 4πr³/3", "V = 4πr²/3", "sphere-power-wrong"),
    ("V = 1/3 B h", "V = B h", "cone-third-forgotten"),
    ("S = 2πr(r + h)", "S = πr² + 2πrh", "cylinder-one-base-only"),
    ("S = 6 s²", "S = s³", "volume-given-for-surface-area"),
    ("P = 4 x", "P = 2 x", "two-sides-only-perimeter"),
    ("V = a³", "V = 3a", "cube-as-triple"),
    ("N = M k²", "N = M k", "area-scales-like-length"),
]


@pytest.mark.parametrize(("formula", "line", "slip"), FORMULAS)
def test_a_formula_is_known_by_its_shape(formula: str, line: str, slip: str) -> None:
    head = formula.split()[0]
    assert last_mark(Instance((formula, line), Task(find=(head,)))).slip == slip


@pytest.mark.parametrize("seed", range(5))
def test_the_makers_draw_sizes_that_can_be_told_apart(seed: int) -> None:
    """A wrong move must not be right by accident."""
    rng = Random(seed)
    a, b = two(rng)
    assert float(a) * float(b) not in (float(a) + float(b), 2 * (float(a) + float(b)))
    x, y, z = box(rng)
    assert x * y * z != 2 * (x * y + x * z + y * z)
    assert float(number(rng)) >= 3
