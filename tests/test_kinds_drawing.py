"""A triangle drawn on paper and measured: given parts, parts that follow, units, scales."""

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tutor.marking.hint_stage import HintStage
from tutor.marking.kinds.triangle import triangles
from tutor.marking.task import DrawingTask
from tutor.marking.verdict import Mark, Reason, UnitsState, Verdict
from tutor.marking.work import Work, begin, caution, hint, problems_of, read_as, solution

BETWEEN = DrawingTask((("c", "6 cm"), ("A", "50°"), ("b", "5 cm")), ("a", "B", "C"))
SIDES = DrawingTask((("a", "6 cm"), ("b", "7 cm"), ("c", "8 cm")), ("A", "B", "C"))
ENDS = DrawingTask((("A", "50°"), ("c", "8 cm"), ("B", "60°")), ("a", "b", "C"))
OPPOSITE = DrawingTask((("A", "50°"), ("a", "8 cm"), ("B", "60°")), ("b", "c", "C"))
ARC = DrawingTask((("a", "8 cm"), ("b", "6 cm"), ("A", "50°")), ("c", "B", "C"))
INCHES = DrawingTask((("a", "3 in"), ("B", "60°"), ("C", "50°")), ("b",), unit="in")
ALL = [BETWEEN, SIDES, ENDS, OPPOSITE, ARC, INCHES]


def worked(task: DrawingTask, *lines: str) -> Work:
    work = begin(task)
    for line in lines:
        work = work.submit(line)
    return work


def mark(task: DrawingTask, *lines: str) -> Mark:
    return worked(task, *lines).lines[-1].mark


@pytest.mark.parametrize(
    "line",
    ["c = 6 cm", "c=6.2cm", "c = 5.8 cm", "c = 62 mm", "c = 60mm", "c = 6 cm 1 mm", "AB = 6.1 cm", "side c = 6 cm", "c: 6.1 cm",
     "c is 6.1 cm", "c ≈ 6.1 cm", "6.1 cm = c", "c = 2 3/8 in", "A = 50°", "A = 52", "A = 48 degrees", "∠A = 51°", "angle A = 50°",
     "c = 6 cm, A = 50°, b = 5.1 cm", "c = 6 cm A = 50°", "c = 6 cm and b = 5 cm"],
)  # fmt: skip
def test_a_given_part_may_be_off_by_so_much(line: str) -> None:
    assert mark(BETWEEN, line).verdict is Verdict.FOLLOWS, mark(BETWEEN, line)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("c = 6.8 cm", "You measured c = 6.8 cm; 6 cm is asked. Measure from mark to mark, or draw c again."),
        ("c = 6.21 cm", "You measured c = 6.21 cm; 6 cm is asked. Measure from mark to mark, or draw c again."),
        ("c = 60 cm", "c = 60 cm does not fit. The number fits millimetres. Which edge of the ruler did you read?"),
        ("c = 2.4 cm", "c = 2.4 cm does not fit. The number fits inches. Which edge of the ruler did you read?"),
        ("A = 130°", "You measured A = 130°; 50° is asked. Read the other scale of the protractor: is the angle wider than a right angle?"),
        ("A = 57", "You measured A = 57°; 50° is asked. Put the middle of the protractor on corner A and measure again, or draw A again."),
        ("b = 6 cm², A = 50°", "cm² is a unit for an area, and b is a length."),
        ("c = 6 kg", "kg is a unit for a mass, and c is a length."),
        ("A = 50°, b = 9 cm", "You measured b = 9 cm; 5 cm is asked. Measure from mark to mark, or draw b again."),
    ],
)  # fmt: skip
def test_what_is_said_of_a_given_part_that_is_off(line: str, said: str) -> None:
    found = mark(BETWEEN, line)
    assert found.verdict is Verdict.BREAKS and found.message == said
    assert found.reason in (Reason.VALUE_CHANGED, Reason.UNIT)


@pytest.mark.parametrize(
    "line",
    ["6 cm", "c", "c = x", "c = 6 cm or 7 cm", "a = b = 5 cm", "x = 5 cm", "c = -6 cm", "c = 0 cm", "c = 60", "A = 5 cm", "c = 50°",
     "c = 1/0 cm", "c = 9^9^9 cm", "c = 1e999 cm", "c = pi cm", "c = 6,1 cm", "c = 6 cm, c = 6 cm", "", "c = 6 \x1b[2J cm",
     "c = " + "9" * 390 + " cm", "9" * 500, "(" * 200],
)  # fmt: skip
def test_what_is_no_measure_is_unread(line: str) -> None:
    assert mark(BETWEEN, line).verdict is Verdict.UNREAD
    assert mark(BETWEEN, line).message


@pytest.mark.parametrize("line", ["C = ?", "I used a compass", "now the angles", "c = NaN cm"])
def test_words_and_holes_are_kept(line: str) -> None:
    assert mark(BETWEEN, line).verdict is Verdict.NOTE


def test_a_measure_without_its_part_asks_which_it_is() -> None:
    assert mark(BETWEEN, "6 cm").message == "Which part is it? Write its letter too, such as c = 6 cm."
    assert mark(BETWEEN, "c + 1").message == "Write the part and its measure, such as c = 6 cm."
    assert (
        mark(BETWEEN, "x = 5 cm").message == "The parts of the triangle are a, b, c and the angles A, B, C."
    )


def test_a_bare_number_in_another_unit_is_asked_about() -> None:
    assert mark(BETWEEN, "c = 60").message == "60 what? The number fits millimetres: write the unit with it."
    assert mark(BETWEEN, "A = 5 cm").message == "A is an angle, and cm measures a side. Is a meant?"


def test_a_missing_unit_is_told_and_keeps_the_work_open() -> None:
    given_parts = ("c = 6 cm", "A = 50°", "b = 5 cm", "B = 54", "C = 76")
    work = worked(BETWEEN, *given_parts, "a = 4.7")
    assert work.lines[-1].mark.verdict is Verdict.FOLLOWS
    assert "Write the unit too: a = 4.7 cm." in work.lines[-1].mark.note
    assert work.progress.finished and not work.progress.complete and work.progress.units is UnitsState.MISSING
    mended = work.submit("a = 47 mm")
    assert mended.progress.complete and mended.progress.units is UnitsState.EQUIVALENT
    assert worked(BETWEEN, *given_parts, "a = 4.7 cm").progress.units is UnitsState.RIGHT


def test_what_follows_is_held_to_the_students_own_parts() -> None:
    """With c and b two millimetres short and A two degrees wide, other sizes are right than with the givens."""
    own = ("c = 5.8 cm", "b = 5.2 cm", "A = 48°")
    (drawn,) = triangles({"c": 58, "b": 52, "A": 48})
    (asked,) = triangles({"c": 60, "b": 50, "A": 50})
    assert drawn["B"] - asked["B"] > 4
    assert mark(BETWEEN, *own, f"B = {drawn['B'] + 2:.1f}°").verdict is Verdict.FOLLOWS
    assert mark(BETWEEN, *own, f"B = {asked['B'] - 2:.1f}°").verdict is Verdict.BREAKS
    assert mark(BETWEEN, f"B = {drawn['B']:.1f}°").verdict is Verdict.FOLLOWS, (
        "before anything else is measured"
    )


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (("C = 140°",), "You measured C = 140°. That does not fit the parts that are given. Measure C again, and the given parts too."),
        (("c = 6 cm", "A = 50", "b = 5 cm", "a = 6.6 cm"), "You measured a = 6.6 cm. That does not fit your c, A and b. Measure a again."),
        (("A = 50", "B = 54", "C = 104"), "You measured C = 104°. Read the other scale of the protractor: is the angle wider than a right angle?"),
        (("A = 50", "B = 54", "C = 95"), "You measured C = 95°. A, B and C come to 199° together, not 180°. Measure the angles again."),
        (("B = 76",), "You measured B = 76°. That fits another corner. Which one is B in your drawing?"),
        (("a = 47 cm",), "a = 47 cm does not fit. The number fits millimetres. Which edge of the ruler did you read?"),
        (("b = 5 cm", "a = 4.7 cm", "B = 54", "c = 6 cm", "C = 40"), "You measured C = 40°. c is longer than b, so C must be wider than B. Measure again."),
    ],
)  # fmt: skip
def test_what_is_said_of_a_part_that_does_not_follow(lines: tuple[str, ...], said: str) -> None:
    found = mark(BETWEEN, *lines)
    assert found.verdict is Verdict.BREAKS and found.message == said


def test_a_sum_that_is_nearly_right_is_not_what_is_wrong() -> None:
    found = mark(SIDES, "a = 6 cm, b = 7 cm, c = 8 cm", "A = 47", "B = 58", "C = 80")
    assert found.message == "You measured C = 80°. That does not fit your a, b and c. Measure C again."


def test_a_very_short_side_is_read() -> None:
    assert mark(BETWEEN, "c = 1 mm").verdict is Verdict.BREAKS
    assert mark(BETWEEN, "c = 0.1 mm").verdict is Verdict.BREAKS


def test_how_each_triangle_is_drawn() -> None:
    told = [hint(begin(task), HintStage.WHAT) for task in ALL]
    assert [one.message for one in told if one is not None] == [
        "Draw the angle A, mark b and c on its arms and join their ends.",
        "Draw c first, then an arc of 7 cm around A and one of 6 cm around B: they meet in C.",
        "Draw c first, then the angles A and B at its ends: their arms meet.",
        "Work out the third angle first, then draw the side with an angle at each end.",
        "Draw the angle A and mark b on one arm. An arc of 8 cm around its end crosses the other arm.",
        "Draw a first, then the angles B and C at its ends: their arms meet.",
    ]


def test_the_sum_of_the_angles_is_told() -> None:
    assert (
        "A, B and C come to 181° together: 180° would be exact."
        in mark(BETWEEN, "A = 50", "B = 55", "C = 76").note
    )
    assert "A, B and C come to 180° together: just as they should." in mark(SIDES, "A=46, B=58, C=76").note
    assert mark(SIDES, "A=46, B=58, C=76").note.endswith("Now measure what you drew too: a, b and c.")


def test_it_is_finished_when_all_parts_are_measured() -> None:
    work = worked(ENDS, "a = 6.5 cm", "b = 7.4 cm", "C = 70")
    assert not work.progress.finished and work.progress.missing_labels == ("A", "c", "B")
    work = work.submit("A = 50, B = 60, c = 8 cm")
    assert work.progress.complete and dict(work.progress.labels)["a"] == "6.5 cm"
    assert not work.strike(0).progress.finished
    assert work.submit("C = 70").lines[-1].mark.verdict is Verdict.RESTATES
    assert work.submit("C = 71").lines[-1].mark.verdict is Verdict.FOLLOWS


@pytest.mark.parametrize("task", ALL)
def test_the_key_is_accepted_and_the_hints_lead_to_the_end(task: DrawingTask) -> None:
    assert problems_of(task) == ()
    lines = [line.text for line in solution(task)]
    assert worked(task, *lines).progress.complete
    work = begin(task)
    for _ in range(6):
        last = hint(work, HintStage.LINE)
        if last is None:
            break
        assert last.line is not None
        for stage in (HintStage.WHERE, HintStage.WHAT):
            told = hint(work, stage)
            assert told is not None and told.line is None and last.line not in told.message
        work = work.submit(last.line)
        assert work.lines[-1].mark.verdict is Verdict.FOLLOWS
    assert work.progress.complete and hint(work, HintStage.WHERE) is None


@pytest.mark.parametrize(
    ("givens", "said"),
    [
        ((("a", "3 cm"), ("b", "4 cm"), ("c", "7 cm")), "No triangle: 3 cm and 4 cm together are not longer than 7 cm."),
        ((("A", "60°"), ("B", "60°"), ("C", "60°")), "Three angles settle the shape of a triangle and not its size. Give a side."),
        ((("a", "6 cm"), ("b", "10 cm"), ("A", "30°")), "Two different triangles have these parts. Give the angle between the two sides instead."),
        ((("a", "4 cm"), ("b", "10 cm"), ("A", "30°")), "No triangle: a = 4 cm is too short to close the triangle."),
        ((("a", "5 cm"), ("A", "100°"), ("B", "90°")), "No triangle: the angles given already come to 180° or more."),
        ((("a", "5 cm"), ("b", "6 cm")), "Three parts settle a triangle; 2 are given here."),
        ((("a", "5 cm"), ("a", "6 cm"), ("b", "6 cm")), "a is given twice."),
        ((("a", "50 cm"), ("b", "60 cm"), ("C", "60°")), "a comes out as 50.0 cm: too long for a sheet of paper."),
        ((("a", "5 mm"), ("b", "6 cm"), ("C", "60°")), "a comes out as 5.0 mm: too short to be drawn and measured."),
        ((("a", "6 cm"), ("b", "6 cm"), ("C", "5°")), "C comes out as 5.0°: too sharp to be drawn and measured."),
        ((("a", "x"), ("b", "6 cm"), ("C", "5°")), "a is no size here. Write it like 6 cm."),
        ((("a", "6 cm"), ("b", "6 cm"), ("c", "5 cm")), "c is given: measure another part."),
    ],
)  # fmt: skip
def test_a_triangle_that_cannot_be_drawn_is_sent_back(givens: tuple[tuple[str, str], ...], said: str) -> None:
    measure = ("c",) if said.startswith("c is given") else ("B",) if "B" not in dict(givens) else ("b",)
    assert said in problems_of(DrawingTask(givens, measure))
    assert begin(DrawingTask(givens, measure)).submit("B = 60").lines[0].mark.verdict is Verdict.UNREAD


@pytest.mark.parametrize(
    ("task", "said"),
    [
        (DrawingTask(SIDES.givens, ()), "Say which parts are to be measured: write “find”."),
        (DrawingTask(SIDES.givens, ("D",)), "“D” is no part of the triangle: those are a, b, c, A, B and C."),
        (DrawingTask(SIDES.givens, ("A",), unit="kg"), "“kg” is no unit of length. Write cm, mm or in."),
        (DrawingTask(SIDES.givens, ("A",), within_length="0"), "How far off a drawing may be is more than 0 and at most 20 mm."),
        (DrawingTask(SIDES.givens, ("A",), within_length="two"), "How far off a drawing may be is more than 0 and at most 20 mm."),
        (DrawingTask(SIDES.givens, ("A",), within_length="20.5"), "How far off a drawing may be is more than 0 and at most 20 mm."),
        (DrawingTask(SIDES.givens, ("A",), within_angle="1e9"), "How far off a drawing may be is more than 0 and at most 20 °."),
    ],
)  # fmt: skip
def test_a_teacher_is_told_what_else_is_wrong(task: DrawingTask, said: str) -> None:
    assert said in problems_of(task)


def test_a_compass_comes_with_a_caution_and_nothing_else_does() -> None:
    assert "sharp" in caution(SIDES) and "your school's rules" in caution(SIDES)
    assert caution(ARC) and not caution(BETWEEN) and not caution(ENDS) and not caution(OPPOSITE)


def test_a_lesson_may_set_how_far_off_a_part_may_be() -> None:
    strict = DrawingTask(SIDES.givens, ("A",), within_length="1", within_angle="1.5")
    assert mark(strict, "a = 6.1 cm").verdict is Verdict.FOLLOWS
    assert mark(strict, "a = 6.11 cm").verdict is Verdict.BREAKS


def test_lines_are_read_back_as_they_are_typed() -> None:
    assert read_as(BETWEEN, (), "c: 6 cm").rows == ("c = 6 cm",)
    assert read_as(BETWEEN, (), "c = ").problem and read_as(BETWEEN, (), "").rows == ()


KINDS = ("abC", "aBC", "abc", "Abc", "ABc", "ABa")
SIZES = st.integers(45, 110)
TURNS = st.integers(35, 100)
OFF = st.floats(-1.5, 1.5, allow_nan=False)
READ = st.floats(-0.5, 0.5, allow_nan=False)


def drawn(parts: dict[str, float]) -> dict[str, float]:
    found = list(triangles(parts))
    assume(len(found) == 1)
    (full,) = found
    assume(all(15 < size < 270 for name, size in full.items() if name.islower()))
    assume(all(size > 12 for name, size in full.items() if name.isupper()))
    return full


def written(name: str, size: float) -> str:
    return f"{name} = {size / 10:.2f} cm" if name.islower() else f"{name} = {size:.1f}°"


@given(st.sampled_from(KINDS), st.lists(SIZES, min_size=3, max_size=3), st.lists(TURNS, min_size=3, max_size=3),
       st.lists(OFF, min_size=3, max_size=3), st.lists(READ, min_size=6, max_size=6), st.permutations("abcABC"))  # fmt: skip
@settings(max_examples=150, deadline=None)
def test_who_draws_within_the_tolerance_and_reads_to_half_a_millimetre_is_right(
    names: str, sizes: list[int], turns: list[int], off: list[float], reading: list[float], order: list[str]
) -> None:
    """Right work is never called wrong, in whatever order the parts are measured."""
    asked = {name: float(sizes[at] if name.islower() else turns[at]) for at, name in enumerate(names)}
    drawn(asked)
    full = drawn({name: size + off[at] for at, (name, size) in enumerate(asked.items())})
    givens = tuple((name, f"{size:g} mm" if name.islower() else f"{size:g}°") for name, size in asked.items())
    task = DrawingTask(givens, tuple(name for name in "abcABC" if name not in names))
    assert problems_of(task) == ()
    shown = {name: full[name] + reading[at] * 0.9 for at, name in enumerate("abcABC")}
    work = worked(task, *(written(name, shown[name]) for name in order))
    assert [line.mark.verdict for line in work.lines] == [Verdict.FOLLOWS] * 6, [
        line.mark.message for line in work.lines
    ]
    assert work.progress.complete


@given(
    st.sampled_from(KINDS),
    st.lists(SIZES, min_size=3, max_size=3),
    st.lists(TURNS, min_size=3, max_size=3),
    st.sampled_from((-1, 1)),
)
@settings(max_examples=100, deadline=None)
def test_a_part_that_is_far_off_breaks(names: str, sizes: list[int], turns: list[int], way: int) -> None:
    """Given parts measured exactly: what follows may be off by the tolerance and what reading does to it."""
    asked = {name: float(sizes[at] if name.islower() else turns[at]) for at, name in enumerate(names)}
    full = drawn(asked)
    assume(
        all(25 < full[name] < 130 for name in "ABC")
        and all(size > 40 for name, size in full.items() if name.islower())
    )
    givens = tuple((name, f"{size:g} mm" if name.islower() else f"{size:g}°") for name, size in asked.items())
    rest = [name for name in "abcABC" if name not in names]
    work = worked(DrawingTask(givens, tuple(rest)), *(written(name, size) for name, size in asked.items()))
    for name in rest:
        # Half a degree at an angle moves a side by its length times 0.5° in radians, and more where it is cut flat.
        worst = 2 + 3 * (0.5 + max(full[side] for side in "abc") * math.radians(0.5)) / math.sin(
            math.radians(25)
        )
        off = (
            worst
            if name.islower()
            else 2 + 3 * (0.5 + math.degrees(0.5 / min(full[side] for side in "abc"))) / 0.5
        )
        assert work.submit(written(name, full[name] + way * off)).lines[-1].mark.verdict is Verdict.BREAKS


@given(st.text(max_size=80))
@settings(deadline=None)
def test_any_text_is_marked(text: str) -> None:
    for task in (BETWEEN, INCHES):
        work = worked(task, text)
        assert isinstance(work.lines[0].mark.verdict, Verdict) and not work.progress.complete


def test_a_part_measured_first_is_looked_at_again_when_what_was_drawn_is_measured() -> None:
    """The three angles come to 201°: what fits a drawing that may be off does not fit this drawing."""
    task = DrawingTask((("a", "4.7 cm"), ("b", "7.7 cm"), ("c", "4.1 cm")), ("A", "B", "C"))
    lines = ("A = 32°", "C = 27°", "B = 142°", "b = 7.8 cm", "c = 4.1 cm")
    before, after = worked(task, *lines), worked(task, *lines, "a = 4.8 cm")
    assert before.progress.missing_labels == ("a",)
    assert after.lines[-1].mark.verdict is Verdict.FOLLOWS  # this one is right
    assert after.lines[-1].mark.note == "B = 142° does not fit your a, b and c. Measure that again."
    assert (after.progress.missing_labels, after.progress.complete) == (("B",), False)
    told = hint(after, HintStage.WHERE)
    assert told is not None
    assert told.message == "Next is B: the angle in the corner B, opposite the side b."
    assert after.submit("B = 122°").progress.complete
