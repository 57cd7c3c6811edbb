"""Answers with a wrong unit, a wrong size, or of another quantity: each is caught."""

import pytest
from marking_cases import ANGLES, BANNER, BOX

from tutor.marking.task import Task
from tutor.marking.verdict import UnitsState, Verdict
from tutor.marking.working import Working, mark_lines
from tutor.quantity.pi import Pi

F, B = Verdict.FOLLOWS, Verdict.BREAKS
WRONG, RIGHT, MISSING = UnitsState.WRONG, UnitsState.RIGHT, UnitsState.MISSING
# A hoop 60 inches across; the length of cane is asked in feet.
HOOP_IN_FEET = Task(
    ("C = pi d",), (("d", "60 in"),), ("C",), ("ft",), Pi.DECIMAL, names=("diameter",), measures=("C", "d")
)
# A hoop 5 feet across.
HOOP = Task(
    ("C = pi d",), (("d", "5 ft"),), ("C",), ("ft",), Pi.DECIMAL, names=("diameter",), measures=("C", "d")
)


def verdicts(work: Working) -> list[Verdict]:
    return [line.mark.verdict for line in work.lines]


def test_feet_after_working_in_inches() -> None:
    """3.14 · 60 is 188.4, in inches; "188.4 ft" has the unit that was asked and not the size."""
    work = mark_lines(HOOP_IN_FEET, ["C = 3.14 · 60", "C = 188.4 ft"])
    assert verdicts(work) == [F, B]
    assert work.progress.units is WRONG and work.progress.finished is False
    assert work.lines[1].mark.message == "The number fits, but not with ft. Which unit did you work in?"


@pytest.mark.parametrize(
    ("answer", "state"),
    [("C = 15.7 ft", RIGHT), ("C = 188.4 in", UnitsState.EQUIVALENT), ("C = 188.4", MISSING)],
)
def test_the_same_length_in_either_unit(answer: str, state: UnitsState) -> None:
    work = mark_lines(HOOP_IN_FEET, ["C = 3.14 · 60", answer])
    assert verdicts(work) == [F, F] and work.progress.units is state


def test_a_number_cut_off_is_no_answer() -> None:
    """15 where the working says 15.7: neither rounded as it should be nor allowed to be."""
    for answer in ("C = 15", "C = 15 ft", "C ≈ 15 ft", "C = 15 feet"):
        work = mark_lines(HOOP, ["C = 3.14 · 5", "C = 15.7", answer])
        assert verdicts(work) == [F, F, B]
        mark = work.lines[2].mark
        assert mark.account.startswith("left: stayed; right: 15.7 became 15")
        assert mark.span == (4, len(answer))


def test_the_diameter_is_not_the_circumference() -> None:
    """What is given is no answer, by whichever name it is called."""
    work = mark_lines(HOOP, ["d = 5 ft"])
    assert verdicts(work) == [F] and work.progress.finished is False
    for wrong in ("C = 5 ft", "C = 5", "5 ft = C"):
        work = mark_lines(HOOP, [wrong])
        assert verdicts(work) == [B] and not work.progress.finished
    mark = mark_lines(HOOP, ["C = 15.7 ft", "d = 15.7 ft"]).lines[1].mark
    assert (mark.verdict, mark.message) == (B, "The problem gives d = 5 ft. Copy it once more.")
    assert mark_lines(HOOP, ["diameter = 15.7 ft"]).progress.finished is False


KINDS = [
    (HOOP, "C = 15.7 ft^2", "ft² is a unit for an area, and C is a length. Which unit measures a length?"),
    (BANNER, "A = 40 ft", "ft is a unit for a length, and A is an area. Which unit measures an area?"),
    (BOX, "W = 7 kg", "kg is a unit for a mass, and W is a length. Which unit measures a length?"),
    (BOX, "V = 420 cm^2", "cm² is a unit for an area, and V is a volume. Which unit measures a volume?"),
    (ANGLES, "B = 48 cm", "cm is a unit for a length, and B is an angle. Which unit measures an angle?"),
]


@pytest.mark.parametrize(("task", "answer", "message"), KINDS)
def test_a_unit_of_another_kind(task: Task, answer: str, message: str) -> None:
    work = mark_lines(task, [answer])
    mark = work.lines[0].mark
    assert (mark.verdict, mark.message) == (B, message)
    assert mark.span is not None and answer[slice(*mark.span)] == answer.split(" = ")[1]


MIXED = [
    (Task(), "2 ft · 6 in = 12 ft^2"),
    (BANNER, "A = 8 ft · 60 in = 480 ft^2"),
]


@pytest.mark.parametrize(("task", "line"), MIXED)
def test_units_multiplied_raw(task: Task, line: str) -> None:
    assert mark_lines(task, [line]).lines[0].mark.verdict is B


TANK = Task(
    formulas=("V = a b h",),
    givens=(("a", "130 cm"), ("b", "45 cm"), ("h", "26 cm")),
    find=("V",),
    units=("L",),
    measures=("V", "a", "b", "h"),
)


@pytest.mark.parametrize(
    ("lines", "verdicts"),
    [
        (["a = 13 dm", "b = 4.5 dm", "h = 2.6 dm", "V = 13*4.5*2.6 = 152.1 L"], "ffff"),
        (["V = 13*4.5*2.6", "V = 152.1 dm^3"], "ff"),  # a litre is a cubic decimetre
        (["V = 13*4.5*2.6 = 152.1 dm^3"], "f"),
        (["V = 1.3*0.45*0.26 = 0.1521 m^3"], "f"),
        (["a = 1.3 m", "V = 1.3*0.45*0.26", "V = 0.1521 m^3", "V = 152.1 L"], "ffff"),
        (["V = 130*45*26", "V = 152100", "V = 152100 L"], "ffb"),
        (["V = 13*4.5*26"], "b"),
        (["V = 1.3*0.45*0.26"], "b"),  # nothing says that it is in metres
        (["V = 13*4.5*2.6 = 152.1 m^3"], "b"),
        (["a = 1.3 m", "V = 1.3*45*26"], "fb"),
    ],
)
def test_sides_may_be_put_in_in_another_unit(lines: list[str], verdicts: str) -> None:
    marks = [line.mark.verdict for line in mark_lines(TANK, lines).lines]
    assert "".join(verdict.value[0] for verdict in marks) == verdicts


@pytest.mark.parametrize(
    ("lines", "verdicts"),
    [
        (["4s = 128", "s = 32 cm"], "ff"),
        (["4s = 128", "s = 3.2 dm"], "ff"),
        (["4s = 128", "s = 32 dm"], "fb"),
        (["s = 32 mm"], "b"),
        (["s = 32 m"], "b"),
        (["s = 3.2 dm", "s = 32 dm"], "fb"),
        (["s = 320 mm", "s = 32 mm"], "fb"),
    ],
)
def test_numbers_without_a_unit_count_in_the_one_that_is_asked(lines: list[str], verdicts: str) -> None:
    """Nothing is put in in decimetres here: 32 is 32 cm."""
    task = Task(("4(s - 3) = 116",), find=("s",), units=("cm",))
    marks = [line.mark.verdict for line in mark_lines(task, lines).lines]
    assert "".join(verdict.value[0] for verdict in marks) == verdicts


@pytest.mark.parametrize(
    ("task", "lines"),
    [
        (
            Task(formulas=("P = 4 s",), givens=(("P", "3 ft"),), find=("s",), units=("in",)),
            ["3 ft = 30 in", "30 in = 4s", "s = 7.5 in"],
        ),
        (
            Task(
                formulas=("V = L W H",),
                givens=(("L", "2 m"), ("W", "30 cm"), ("H", "40 cm")),
                find=("V",),
                units=("cm^3",),
            ),
            ["2 m = 20 cm", "V = 20 · 30 · 40", "V = 24000 cm³"],
        ),
    ],
)
def test_a_wrong_change_of_units_is_carried_on(task: Task, lines: list[str]) -> None:
    verdicts = [line.mark.verdict for line in mark_lines(task, lines).lines]
    assert verdicts == [Verdict.BREAKS, Verdict.CARRIES, Verdict.CARRIES]
    again = [lines[0], lines[1].replace("30", "31").replace("20", "21")]
    assert mark_lines(task, again).lines[1].mark.verdict is Verdict.BREAKS
