"""Every kind of problem as it is read: its task, its parts, and what a teacher may leave out."""

import pytest
from lesson_bases import BASES, HEAD

from tutor.lesson.model import Meaning, Part, Problem
from tutor.lesson.reader import read_lesson
from tutor.marking.task import ChoiceTask, DrawingTask, Rounding, Task, WordTask
from tutor.marking.verdict import Step
from tutor.quantity.pi import Pi


def problem_of(text: str) -> Problem:
    lesson, faults = read_lesson(text, "parade.lesson")
    assert lesson is not None, "\n".join(map(str, faults))
    return lesson.problems[0]


def one(body: str) -> Problem:
    return problem_of(f"{HEAD}problem  Hoop\n{body}")


def task(problem: Problem) -> Task:
    assert isinstance(problem.task, Task)
    return problem.task


def test_pieces_are_found_before_what_they_add_up_to() -> None:
    assert task(problem_of(BASES["pieces"])) == Task(
        formulas=("front = L H", "side = W H", "S = 2 front + 2 side"),
        givens=(("L", "30 cm"), ("W", "20 cm"), ("H", "40 cm")),
        find=("front", "side", "S"),
        units=("cm^2", "cm^2", "cm^2"),
        pi=Pi.DECIMAL,
        names=("front", "side"),
        measures=("L", "W", "H", "front", "side", "S"),
    )


def test_parts_are_questions_with_the_names_that_answer_them() -> None:
    problem = problem_of(BASES["parts"])
    assert problem.ask == "A banner is L = 90 cm long and W = 40 cm wide."
    assert problem.parts == (
        Part("How much cloth is it?", ("A",)),
        Part("How long is its hem?", ("P",)),
    )
    assert task(problem).find == ("A", "P")
    assert task(problem).units == ("cm^2", "cm")


def test_a_part_may_show_givens_and_stand_without_a_question_above() -> None:
    problem = one(
        "  formula  A = L W\n  formula  B = 2 A\n  given    L = 9 cm\n  given    W = 4 cm\n"
        "  part     How large is {L} by {W}?\n  find     A in cm^2\n  part     And twice?\n  find     B in cm^2\n"
    )
    assert problem.ask == ""
    assert [part.ask for part in problem.parts] == ["How large is 9 cm by 4 cm?", "And twice?"]


def test_pieces_above_the_first_part_belong_to_it() -> None:
    problem = one(
        "  piece    front = L H\n  piece    back = L H\n  formula  S = front + back\n"
        "  given    L = 3 cm\n  given    H = 4 cm\n  part     How large?\n  find     S in cm^2\n"
    )
    assert problem.parts == (Part("How large?", ("front", "back", "S")),)


def test_a_choice() -> None:
    problem = problem_of(BASES["choose"])
    assert problem.task == ChoiceTask(("triangle", "rectangle", "circle"), ("rectangle",))


def test_several_choices_may_be_right_and_have_several_words() -> None:
    problem = one(
        "  ask      Which?\n  choose   a right triangle, a square, a long rectangle\n"
        "  answer   a square, a long rectangle\n"
    )
    assert problem.task == ChoiceTask(
        ("a right triangle", "a square", "a long rectangle"), ("a square", "a long rectangle")
    )


def test_a_word_is_typed_or_picked() -> None:
    picked = problem_of(BASES["word"])
    assert picked.task == ChoiceTask(("chord", "circumference", "diameter", "radius"), ("circumference",))
    assert picked.ask == "Which word means: the way once round a circle?"
    assert picked.meaning == Meaning("circumference", "the way once round a circle")
    typed = problem_of(BASES["word"].replace("  choose   words\n", ""))
    assert typed.task == WordTask(
        "circumference", ("perimeter of a circle",), ("radius", "diameter", "chord")
    )


def test_the_question_of_a_word_may_be_the_teachers_own() -> None:
    text = BASES["word"].replace("  word ", "  ask      What do you call it?\n  word ")
    assert problem_of(text).ask == "What do you call it?"


def test_three_lengths() -> None:
    assert task(problem_of(BASES["triangle"])) == Task(lengths=("4 cm", "6 cm", "9 cm"))


@pytest.mark.parametrize(
    ("givens", "count"),
    [
        # Two sides and the angle between settle one; three sides settle one or none; an angle
        # opposite the shorter side leaves two or none. 5 sin 30° / 4 = 0.625: two. 8 sin 30° = 4: one.
        (("a = 5 cm", "b = 6 cm", "C = 50°"), "one"),
        (("a = 3 cm", "b = 4 cm", "c = 5 cm"), "one"),
        (("a = 3 cm", "b = 4 cm", "c = 7 cm"), "none"),
        (("a = 4 cm", "b = 5 cm", "A = 30°"), "two"),
        (("a = 4 cm", "b = 8 cm", "A = 30°"), "one"),
        (("a = 3 cm", "b = 8 cm", "A = 30°"), "none"),
        (("A = 50°", "B = 60°", "C = 70°"), "many"),
        (("A = 50°", "B = 60°", "C = 80°"), "none"),
        (("A = 100°", "B = 90°", "c = 5 cm"), "none"),
    ],
)
def test_how_many_triangles_is_worked_out(givens: tuple[str, ...], count: str) -> None:
    entries = "".join(f"  given    {given}\n" for given in givens)
    problem = one(f"  ask      How many?\n  many     triangles\n{entries}")
    assert problem.task == ChoiceTask(("none", "one", "two", "many"), (count,))


def test_a_drawing() -> None:
    problem = problem_of(BASES["draw"])
    assert problem.task == DrawingTask(
        givens=(("A", "50°"), ("B", "60°"), ("c", "6 cm")), measure=("a", "b"), unit="cm"
    )
    wider = problem_of(BASES["draw"].replace("2 mm and 2°", "3.5 mm and 1 degree"))
    assert isinstance(wider.task, DrawingTask)
    assert (wider.task.within_length, wider.task.within_angle) == ("3.5", "1")


def test_write_the_formula() -> None:
    written = task(problem_of(BASES["write"]))
    assert (written.formulas, written.goals, written.find) == (("A = b h / 2",), ("A = b h / 2",), ())


def test_show_why() -> None:
    problem = problem_of(BASES["show"])
    assert task(problem).goals == ("P = pi r",)
    assert task(problem).formulas == ("C = 2 pi r", "P = C / 2")
    assert task(problem).sentence
    assert problem.reason == "The strip is half of the hoop."


@pytest.mark.parametrize(
    ("entry", "places", "way"),
    [
        ("to 2 places", 2, Rounding.NEAREST),
        ("to 1 place", 1, Rounding.NEAREST),
        ("up to 1 place", 1, Rounding.UP),
        ("down to 3 places", 3, Rounding.DOWN),
        ("to a whole number", 0, Rounding.NEAREST),
        ("up to a whole number", 0, Rounding.UP),
        ("down to whole numbers", 0, Rounding.DOWN),
        ("to 0 places", 0, Rounding.NEAREST),
    ],
)
def test_rounding(entry: str, places: int, way: Rounding) -> None:
    found = task(problem_of(BASES["solve"].replace("to 1 place", entry)))
    assert (found.places, found.rounding) == (places, way)


def test_without_round_no_places_are_asked_for() -> None:
    found = task(problem_of(BASES["solve"].replace("  round    to 1 place\n", "")))
    assert (found.places, found.rounding) == (None, Rounding.NEAREST)


def test_steps_and_the_check_are_of_the_lesson_or_of_a_problem() -> None:
    lesson, faults = read_lesson(
        "lesson A\nformat 1\nsteps formula, label\n\nproblem One\n  ask ?\n  equation 2x = 6\n  find x\n"
        "problem Two\n  ask ?\n  steps units, check\n  equation 2x = 6\n  find x\n"
        "problem Three\n  ask ?\n  check the answer\n  every step\n  equation 2x = 6\n  find x\n",
        "a.lesson",
    )
    assert lesson is not None, faults
    first, second, third = (task(problem) for problem in lesson.problems)
    assert (first.steps, first.check, first.every_step) == ((Step.FORMULA, Step.LABEL), False, False)
    assert (second.steps, second.check) == ((Step.UNITS,), True)
    assert (third.steps, third.check, third.every_step) == ((Step.FORMULA, Step.LABEL), True, True)


def test_what_matters_most_is_marked() -> None:
    assert problem_of(BASES["solve"].replace("  round", "  matters  most\n  round")).matters
    assert not problem_of(BASES["solve"]).matters


def test_the_order_of_the_entries_is_free() -> None:
    for name in ("solve", "choose", "word", "draw", "show", "write"):
        head, rows = BASES[name].split("problem ", 1)
        first, *entries = rows.strip("\n").split("\n")
        backwards = f"{head}problem {first}\n" + "\n".join(reversed(entries)) + "\n"
        found, expected = problem_of(backwards), problem_of(BASES[name])
        assert (found.ask, found.reason, found.meaning) == (expected.ask, expected.reason, expected.meaning)
        if isinstance(found.task, DrawingTask):
            assert isinstance(expected.task, DrawingTask)
            assert sorted(found.task.givens) == sorted(expected.task.givens)
        elif isinstance(found.task, Task):
            assert isinstance(expected.task, Task)
            assert sorted(found.task.formulas) == sorted(expected.task.formulas)
            assert sorted(found.task.givens) == sorted(expected.task.givens)
        else:
            assert found.task == expected.task
