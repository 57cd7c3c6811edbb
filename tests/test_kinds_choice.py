"""Choose and name, and the word for a meaning: what is read, what fits, what is said."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tutor.marking.hint_stage import HintStage
from tutor.marking.task import ChoiceTask, WordTask
from tutor.marking.verdict import Mark, Verdict
from tutor.marking.work import Work, begin, hint, problems_of, read_as, solution

CUT = ChoiceTask(("triangle", "square", "trapezoid", "circle"), ("trapezoid",))
LINES = ChoiceTask(("parallel and equal", "perpendicular", "AB", "AC"), ("parallel and equal", "AC"))
MANY = ChoiceTask(("none", "one", "two", "many"), ("many",))
CIRCLE = WordTask("circumference", ("perimeter of a circle",), ("diameter", "radius", "chord"))
ANGLES = WordTask("complementary angles", (), ("supplementary angles", "vertical angles"))


def worked(task: ChoiceTask | WordTask, *lines: str) -> Work:
    work = begin(task)
    for line in lines:
        work = work.submit(line)
    return work


def mark(task: ChoiceTask | WordTask, line: str) -> Mark:
    return worked(task, line).lines[-1].mark


@pytest.mark.parametrize(
    "line",
    ["trapezoid", "Trapezoid", " a  trapezoid.", "the trapezoids", "C", "c", "c)", "(C)", "C trapezoid", "C: trapezoid",
     "trapézoid", "it is a trapezoid", "It's C", "The answer is C.", "answer: c", "I think it is a trapezoid", "figure C"],
)  # fmt: skip
def test_an_option_is_named_by_its_letter_or_its_words(line: str) -> None:
    work = worked(CUT, line)
    assert work.lines[0].mark.verdict is Verdict.FOLLOWS
    assert work.progress.finished and work.progress.complete


@pytest.mark.parametrize("line", ["A", "square", "the circles", "D) circle", "A, C", "C and D", "A or C"])
def test_what_does_not_fit_breaks_without_telling_what_does(line: str) -> None:
    work = worked(CUT, line)
    found = work.lines[0].mark
    assert found.verdict is Verdict.BREAKS and found.message
    assert "trapezoid" not in found.message and "C (" not in found.message
    assert not work.progress.finished and work.progress.first_wrong == 0


@pytest.mark.parametrize(
    "line", ["pentagon", "E", "42", "trapezium", "B circle", "", "   ", "?", "[bold]", "A, pentagon"]
)
def test_what_names_no_option_is_not_held_against_anybody(line: str) -> None:
    found = mark(CUT, line)
    assert found.verdict is Verdict.UNREAD and found.message


def test_an_article_is_no_letter() -> None:
    assert mark(CUT, "A square").read_as == "B square"
    assert mark(CUT, "a").read_as == "A triangle"


def test_a_word_that_is_nearly_an_option_is_asked_about() -> None:
    assert mark(CUT, "trapezoyd").message == "Do you mean C (trapezoid)? Type its letter."
    assert mark(CUT, "B circle").message == "B (square) or D (circle)? Type the letter alone."


@pytest.mark.parametrize(
    "line",
    [
        "A, D",
        "a and d",
        "D A",
        "AD",
        "A, AC",
        "parallel and equal and AC",
        "parallel and equal, AC",
        "AC & A",
    ],
)
def test_several_that_fit_are_named_in_one_line(line: str) -> None:
    assert worked(LINES, line).progress.complete


def test_one_of_several_fits_and_the_others_are_still_asked_for() -> None:
    work = worked(LINES, "A")
    assert work.lines[0].mark.verdict is Verdict.FOLLOWS and not work.progress.finished
    assert work.lines[0].mark.note == "This fits. Which of the others fit too?"
    assert work.submit("AC").progress.complete


def test_letters_that_are_options_themselves_are_read_both_ways() -> None:
    """“AB” is the third option, and also the letters of the first two."""
    assert mark(LINES, "AC").verdict is Verdict.FOLLOWS
    assert mark(ChoiceTask(("P", "A", "V"), ("A",)), "A").verdict is Verdict.FOLLOWS
    assert mark(ChoiceTask(("P", "A", "V"), ("A",)), "C").verdict is Verdict.BREAKS


@pytest.mark.parametrize(
    ("line", "right"),
    [
        ("many", True),
        ("infinitely many", True),
        ("0", False),
        ("no triangle", False),
        ("1", False),
        ("D", True),
    ],
)
def test_how_many_may_be_a_number(line: str, right: bool) -> None:
    assert mark(MANY, line).verdict is (Verdict.FOLLOWS if right else Verdict.BREAKS)


def test_a_number_in_an_option_is_no_count() -> None:
    pairs = ChoiceTask(("one pair", "two pairs", "no pair"), ("two pairs",))
    assert mark(pairs, "two sides").verdict is Verdict.UNREAD
    assert mark(pairs, "two pairs").verdict is Verdict.FOLLOWS


def test_what_is_said_of_a_wrong_count() -> None:
    said = "It is not “one”. Try to draw it: how many that are really different come out?"
    assert mark(MANY, "one").message == said


def test_of_two_choices_the_wrong_one_tells_to_look_again() -> None:
    said = "A (yes) does not fit. Say what the question asks for, then look again."
    assert mark(ChoiceTask(("yes", "no"), ("no",)), "yes").message == said


def test_a_struck_choice_counts_no_more() -> None:
    work = worked(CUT, "A", "C")
    assert work.strike(1).progress.finished is False
    assert work.strike(0).progress.finished and work.strike(0).lines[0].struck
    assert work.strike(7) == work
    assert worked(CUT, "C", "trapezoid").lines[1].mark.verdict is Verdict.RESTATES


def test_hints_do_not_tell_a_choice_before_the_last_stage() -> None:
    work = begin(CUT)
    for stage in (HintStage.WHERE, HintStage.WHAT):
        found = hint(work, stage)
        assert found is not None and "trapezoid" not in found.message and found.line is None
    last = hint(work, HintStage.LINE)
    assert last is not None and last.line is not None and work.submit(last.line).progress.complete
    assert hint(work.submit("C"), HintStage.WHERE) is None
    two = hint(begin(ChoiceTask(("yes", "no"), ("no",))), HintStage.WHAT)
    assert two is not None and "yes" not in two.message and "no " not in two.message


@pytest.mark.parametrize("task", [CUT, LINES, MANY, CIRCLE, ANGLES])
def test_the_key_is_accepted(task: ChoiceTask | WordTask) -> None:
    assert problems_of(task) == ()
    assert worked(task, *(line.text for line in solution(task))).progress.complete


@pytest.mark.parametrize(
    ("task", "said"),
    [
        (ChoiceTask(("square",), ("square",)), "There are 2 to 12 choices."),
        (ChoiceTask(("square", "square"), ("square",)), "“square” stands among the choices twice."),
        (ChoiceTask(("square", ""), ("square",)), "A choice is empty."),
        (ChoiceTask(("square", "circle"), ("cube",)), "“cube” is not among the choices."),
        (ChoiceTask(("square", "circle"), ()), "No choice is said to be right: name it after “answer”."),
        (ChoiceTask(("square", "circle"), ("square", "circle")), "Every choice is right here, so there is nothing to choose."),
        (ChoiceTask(("square", "c" * 61), ("square",)), "“ccccccccccccccccccccccc…” is longer than 60 signs. Say it shorter."),
        (WordTask(""), "“” is no word."),
        (WordTask("radius", (), ("a Radius",)), "“a Radius” is asked for and is its own neighbour."),
        (WordTask("x" * 41), "“xxxxxxxxxxxxxxxxxxxxxxx…” is longer than 40 letters."),
    ],
)  # fmt: skip
def test_a_teacher_is_told_what_is_wrong(task: ChoiceTask | WordTask, said: str) -> None:
    assert said in problems_of(task)


def test_a_choice_is_read_back_as_it_is_typed() -> None:
    assert read_as(CUT, (), "b").rows == ("B square",)
    assert read_as(CUT, (), "pent").problem and not read_as(CUT, (), "pent").rows
    assert read_as(CUT, (), " ").rows == () and read_as(CIRCLE, (), "radius  of").rows == ("radius of",)


# -- words -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("task", "line", "note"),
    [
        (CIRCLE, "circumference", ""),
        (CIRCLE, "The Circumference.", ""),
        (CIRCLE, "circumferences", ""),
        (CIRCLE, "it is called circumference", ""),
        (CIRCLE, "perimeter of the circle", ""),
        (CIRCLE, "circle perimeter", ""),
        (CIRCLE, "circumfrence", "It is spelled “circumference”."),
        (CIRCLE, "sircumfrance", "It is spelled “circumference”."),
        (CIRCLE, "circumfernece", "It is spelled “circumference”."),
        (ANGLES, "complementary", ""),
        (ANGLES, "complimentary angles", "It is spelled “complementary angles”."),
        (ANGLES, "complementry", "It is spelled “complementary angles”."),
        (WordTask("cross-section"), "cross section", ""),
        (WordTask("cross-section"), "crosssection", ""),
        (WordTask("vertex"), "vertices", ""),
        (WordTask("radius"), "raduis", "It is spelled “radius”."),
        (WordTask("radius"), "radii", ""),
        (WordTask("isosceles"), "isoceles", "It is spelled “isosceles”."),
        (WordTask("hypotenuse"), "hipotenuse", "It is spelled “hypotenuse”."),
        (WordTask("rhombus"), "rombus", "It is spelled “rhombus”."),
        (WordTask("parallelogram"), "paralelogram", "It is spelled “parallelogram”."),
    ],
)  # fmt: skip
def test_the_word_stands_and_a_small_misspelling_is_said(task: WordTask, line: str, note: str) -> None:
    work = worked(task, line)
    assert work.lines[0].mark.verdict is Verdict.FOLLOWS, work.lines[0].mark
    assert work.lines[0].mark.note == note
    assert work.progress.complete


@pytest.mark.parametrize(
    ("task", "line"),
    [
        (CIRCLE, "radius"),
        (CIRCLE, "diametr"),  # a neighbour, misspelled
        (CIRCLE, "area"),
        (CIRCLE, "wheel"),
        (ANGLES, "supplementary angles"),
        (ANGLES, "suplementary"),
        (WordTask("interior", (), ("exterior",)), "exterior"),
        (WordTask("interior"), "exterior"),  # two letters away, and a word of its own
        (WordTask("minimum"), "maximum"),
        (WordTask("cone"), "cube"),
        (WordTask("height"), "weight"),
        (WordTask("trapezoid"), "trapezium"),
        (WordTask("plane"), "plain"),
        (WordTask("sector"), "vector"),
        (WordTask("ray"), "rad"),
        (WordTask("complementary"), "supplementary"),
    ],
)
def test_another_word_breaks_however_near_it_is(task: WordTask, line: str) -> None:
    found = mark(task, line)
    assert found.verdict is Verdict.BREAKS
    assert task.word not in found.message


@pytest.mark.parametrize(
    "line", ["", "42", "= 3", "the way once round a circle from the start to the end of it", "\u202eabc"]
)
def test_what_is_no_word_is_unread(line: str) -> None:
    assert mark(CIRCLE, line).verdict is Verdict.UNREAD


def test_a_part_of_the_word_says_too_little() -> None:
    found = mark(CIRCLE, "perimeter")
    assert (
        found.verdict is Verdict.UNREAD
        and found.message == "“perimeter” alone says too little. Write all of it."
    )
    assert mark(ANGLES, "angles").verdict is Verdict.UNREAD
    assert mark(WordTask("right triangle", (), ("right angle",)), "right angle").verdict is Verdict.BREAKS


def test_between_two_words_nothing_is_decided() -> None:
    found = mark(WordTask("interior", (), ("exterior",)), "enterior")
    assert found.verdict is Verdict.UNREAD and "interior" not in found.message


def test_hints_give_the_shape_of_the_word_and_then_the_word() -> None:
    assert [hint(begin(CIRCLE), stage) is not None for stage in HintStage] == [True, True, True]
    shape, word = hint(begin(CIRCLE), HintStage.WHAT), hint(begin(ANGLES), HintStage.WHAT)
    assert shape is not None and shape.message == "It begins with c and has 13 letters."
    assert word is not None and word.message == "It is 2 words, of 13 and 6 letters, and begins with c."
    last = hint(begin(CIRCLE), HintStage.LINE)
    assert last is not None and last.line == "circumference"


WORDS = (
    "circumference",
    "perpendicular",
    "hypotenuse",
    "parallelogram",
    "trapezoid",
    "cylinder",
    "pyramid",
    "diameter",
)


@given(
    st.sampled_from(WORDS),
    st.integers(0, 40),
    st.sampled_from("abcdefghijklmnopqrstuvwxyz"),
    st.integers(0, 3),
)
@settings(deadline=None)
def test_one_slip_of_the_finger_is_never_failed(word: str, at: int, letter: str, kind: int) -> None:
    at %= len(word) - 1
    changed = (
        word[:at] + letter + word[at + 1 :],
        word[:at] + word[at + 1 :],
        word[:at] + letter + word[at:],
        word[:at] + word[at + 1] + word[at] + word[at + 2 :],
    )[kind]
    assert mark(WordTask(word), changed).verdict is Verdict.FOLLOWS


@given(st.sampled_from(WORDS), st.sampled_from(WORDS))
@settings(deadline=None)
def test_no_word_of_the_unit_is_taken_for_another(asked: str, typed: str) -> None:
    assert (mark(WordTask(asked), typed).verdict is Verdict.FOLLOWS) == (asked == typed)


@given(st.text(max_size=60))
@settings(deadline=None)
def test_any_text_is_marked(text: str) -> None:
    for task in (CUT, LINES, MANY, CIRCLE, ANGLES):
        work = worked(task, text)
        assert len(work.lines) == 1 and isinstance(work.lines[0].mark.verdict, Verdict)
        if work.progress.finished:
            assert work.lines[0].mark.verdict is Verdict.FOLLOWS


@given(
    st.lists(st.sampled_from(["A", "B", "C", "D", "square", "trapezoid", "nothing"]), max_size=5),
    st.integers(0, 4),
)
@settings(deadline=None)
def test_striking_is_as_never_typed(lines: list[str], at: int) -> None:
    work = worked(CUT, *lines)
    if at < len(lines):
        without = worked(CUT, *lines[:at], *lines[at + 1 :])
        struck = work.strike(at)
        kept = [line.mark for place, line in enumerate(struck.lines) if place != at]
        assert kept == [line.mark for line in without.lines]
        assert struck.progress.finished == without.progress.finished
