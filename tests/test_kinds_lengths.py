"""Can these lengths make a triangle: the comparison, then yes or no."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tutor.marking.hint_stage import HintStage
from tutor.marking.task import Task
from tutor.marking.verdict import Mark, Verdict
from tutor.marking.work import Work, begin, hint, problems_of, read_as, solution
from tutor.marking.working import mark_lines


def lengths(*three: str) -> Task:
    return Task(lengths=three)


MEET = lengths("4 cm", "6 cm", "9 cm")
SHORT = lengths("4 cm", "5 cm", "10 cm")
FLAT = lengths("4 cm", "6 cm", "10 cm")
MIXED = lengths("4 cm", "60 mm", "9 cm")
STRIP = lengths("1/2 ft", "8 in", "15 in")
BARE = lengths("3", "4", "7")
EVEN = lengths("5 cm", "5 cm", "5 cm")


def worked(task: Task, *lines: str) -> Work:
    work = begin(task)
    for line in lines:
        work = work.submit(line)
    return work


def last(task: Task, *lines: str) -> Mark:
    return worked(task, *lines).lines[-1].mark


@pytest.mark.parametrize(
    ("task", "lines"),
    [
        (MEET, ("4 + 6 > 9", "yes")),
        (MEET, ("4 cm + 6 cm > 9 cm", "Yes.")),
        (MEET, ("9 < 4 + 6", "yes, they can")),
        (MEET, ("4 + 6 = 10", "10 > 9", "yes")),
        (MEET, ("4 + 6 = 10 > 9", "yes")),
        (MEET, ("4 + 6", "= 10", "> 9", "yes")),
        (MEET, ("9 - 4 < 6", "yes")),
        (MEET, ("4 + 6 - 9 > 0", "4 + 6 > 9", "yes")),
        (MEET, ("4 + 6 > 9, 4 + 9 > 6, 6 + 9 > 4", "yes")),
        (MEET, ("4 + 9 > 6", "6 + 9 > 4", "6 + 4 > 9", "yes")),
        (MEET, ("4 + 6 > 9, so yes",)),
        (MEET, ("Yes, because 4 + 6 > 9.",)),
        (MEET, ("4 + 6 > 9", "They can make a triangle.")),
        (MEET, ("40 mm + 60 mm > 90 mm", "yes")),
        (MEET, ("4 + 6 ≥ 9", "yes")),
        (SHORT, ("4 + 5 < 10", "no")),
        (SHORT, ("4 + 5 > 10", "no")),
        (SHORT, ("4 + 5 > 10?", "no")),
        (SHORT, ("4 + 5 = 9", "9 < 10", "No!")),
        (SHORT, ("10 > 4 + 5", "no")),
        (SHORT, ("10 - 4 > 5", "no")),
        (SHORT, ("4 + 10 > 5", "5 + 4 < 10", "no triangle")),
        (SHORT, ("no, 4 + 5 < 10",)),
        (SHORT, ("4 + 5 < 10", "It is impossible.")),
        (SHORT, ("4 + 5 < 10", "They can't.")),
        (FLAT, ("4 + 6 = 10", "no")),
        (FLAT, ("4 + 6 > 10", "no")),
        (FLAT, ("4 + 6 ≤ 10", "no")),
        (FLAT, ("4 + 6 = 10", "10 = 10", "no")),
        (MIXED, ("60 mm = 6 cm", "4 + 6 > 9", "yes")),
        (MIXED, ("40 + 60 > 90", "yes")),
        (MIXED, ("4 cm + 60 mm > 9 cm", "yes")),
        (STRIP, ("6 + 8 < 15", "no")),
        (STRIP, ("1/2 ft + 8 in < 15 in", "no")),
        (BARE, ("3 + 4 = 7", "no")),
        (EVEN, ("5 + 5 > 5", "yes")),
    ],
)  # fmt: skip
def test_a_comparison_and_its_answer(task: Task, lines: tuple[str, ...]) -> None:
    work = worked(task, *lines)
    assert work.lines[-1].mark.verdict is Verdict.FOLLOWS, work.lines
    assert Verdict.BREAKS not in [line.mark.verdict for line in work.lines]
    assert work.progress.finished and work.progress.complete and work.progress.first_wrong is None


@pytest.mark.parametrize(
    ("task", "lines", "said"),
    [
        (MEET, ("4 + 6 > 9", "no"), "The comparisons above say the other thing. Read them once more."),
        (SHORT, ("4 + 5 < 10", "yes"), "The comparisons above say the other thing. Read them once more."),
        (SHORT, ("4 + 10 > 5", "yes"), "Compare the two shorter lengths together with the longest one first."),
        (FLAT, ("4 + 6 = 10", "yes"), "Two sides together are just as long as the third. Can they still meet in a corner?"),
        (FLAT, ("4 + 6 >= 10", "yes"), "Two sides together are just as long as the third. Can they still meet in a corner?"),
        (MEET, ("4 + 6 = 11",), "The two sides are not equal. Work the sum out once more."),
        (MEET, ("4 + 6 = 10 < 9",), None),
        (MEET, ("3 > 4",), "This is not true. Compare the lengths of the problem: 4 cm, 6 cm and 9 cm."),
        (MEET, ("4 cm² + 6 > 9",), "cm² is a unit for an area, and these are lengths."),
        (SHORT, ("yes, 4 + 5 < 10",), "The comparisons above say the other thing. Read them once more."),
    ],
)  # fmt: skip
def test_what_breaks(task: Task, lines: tuple[str, ...], said: str | None) -> None:
    found = last(task, *lines)
    if said is None:
        assert found.verdict is not Verdict.FOLLOWS
    else:
        assert found.verdict is Verdict.BREAKS and found.message == said
    assert not worked(task, *lines).progress.finished


@pytest.mark.parametrize(
    ("task", "lines", "said"),
    [
        (MEET, ("yes",), "Write the comparison out first, then yes or no."),
        (MEET, ("no",), "Write the comparison out first, then yes or no."),
        (SHORT, ("no",), "Write the comparison out first, then yes or no."),
        (MEET, ("3 + 5 > 4", "yes"), "Write the comparison out first, then yes or no."),
        (MEET, ("4 + 9 > 6", "yes"), "Compare the two shorter lengths together with the longest one first."),
        (SHORT, ("4 + 10 > 5", "no"), "Compare the two shorter lengths together with the longest one first."),
        (MIXED, ("4 + 60 > 9", "yes"), "Write the comparison out first, then yes or no."),
    ],
)
def test_an_answer_that_nothing_earns_is_not_taken_and_not_held_against_anybody(
    task: Task, lines: tuple[str, ...], said: str
) -> None:
    found = last(task, *lines)
    assert found.verdict is Verdict.NOTE and found.message == said
    assert not worked(task, *lines).progress.finished


def test_the_slips_have_their_names() -> None:
    assert last(FLAT, "4 + 6 = 10", "yes").slip == "triangle-inequality-equal-allowed"
    assert last(SHORT, "4 + 10 > 5", "yes").slip == "triangle-inequality-one-easy-pair"


def test_a_question_that_turns_out_false_is_neither_right_nor_wrong() -> None:
    found = last(SHORT, "4 + 5 > 10")
    assert found.verdict is Verdict.NOTE
    assert found.note == "That is not true of these numbers. What does it tell: yes or no?"


@pytest.mark.parametrize(
    ("line", "true"),
    [("4 + 6 > 10", False), ("4 + 6 ≥ 10", True), ("4 + 6 < 10", False), ("4 + 6 ≤ 10", True), ("4 + 6 = 10", True), ("10 > 4 + 6", False)],
)  # fmt: skip
def test_what_is_just_as_long_is_not_longer(line: str, true: bool) -> None:
    assert last(FLAT, line).verdict is (Verdict.FOLLOWS if true else Verdict.NOTE)
    assert worked(FLAT, line, "no").progress.complete


def test_other_numbers_are_true_and_do_not_count() -> None:
    assert (
        last(MEET, "3 + 5 > 4").note
        == "That is true. Compare the lengths of the problem: 4 cm, 6 cm and 9 cm."
    )
    assert last(MIXED, "4 + 60 > 9").note == "Compare 4 cm, 60 mm and 9 cm: write them in one unit first."


@pytest.mark.parametrize(
    "line",
    ["x + 4 > 9", "4 +", "1/0 > 3", "9^9^9 > 1", "4 + 6 > 1e999", "", "\x07", "9" * 450, "(" * 100 + "4"],
)
def test_what_is_no_comparison_is_unread(line: str) -> None:
    assert last(MEET, line).verdict is Verdict.UNREAD and last(MEET, line).message


@pytest.mark.parametrize(
    ("line", "answer"),
    [("They can.", "yes"), ("they do", "yes"), ("It works!", "yes"), ("possible", "yes"), ("They make a triangle", "yes"),
     ("There is one triangle.", "yes"), ("These three sides can form a triangle", "yes"), ("Yes they reach", "yes"),
     ("They cannot", "no"), ("It can't be a triangle", "no"), ("they don't meet", "no"), ("impossible", "no"),
     ("It is not possible.", "no"), ("no triangle", "no"), ("There is no triangle.", "no"), ("No, it doesn't", "no"),
     ("the answer is no", "no"), ("so no", "no")],
)  # fmt: skip
def test_the_answer_in_other_words(line: str, answer: str) -> None:
    assert last(MEET, "4 + 6 > 9", line).read_as == answer


@pytest.mark.parametrize(
    "line",
    ["They do not have the same length.", "No two sides are equal.", "is it yes or no", "I can do this", "now the longest side",
     "the sides do look short", "I do not know", "It does look like a flat triangle", "can they", "yes and no"],
)  # fmt: skip
def test_a_remark_is_no_answer(line: str) -> None:
    assert last(MEET, "4 + 6 > 9", line).verdict is Verdict.NOTE


def test_a_struck_comparison_earns_nothing() -> None:
    work = worked(MEET, "4 + 6 > 9", "yes")
    assert not work.strike(0).progress.finished
    assert work.strike(0).lines[1].mark.verdict is Verdict.NOTE
    assert work.submit("yes").lines[-1].mark.verdict is Verdict.RESTATES


@pytest.mark.parametrize("task", [MEET, SHORT, FLAT, MIXED, STRIP, BARE, EVEN])
def test_the_key_is_accepted_and_the_hints_lead_to_the_end(task: Task) -> None:
    assert problems_of(task) == ()
    assert worked(task, *(line.text for line in solution(task))).progress.complete
    work = begin(task)
    for _ in range(4):
        shown = hint(work, HintStage.LINE)
        if shown is None:
            break
        assert shown.line is not None and hint(work, HintStage.WHERE) and hint(work, HintStage.WHAT)
        work = work.submit(shown.line)
    assert work.progress.complete and work.progress.first_wrong is None


@pytest.mark.parametrize(
    "three",
    [
        ("4 cm", "6 cm"),
        ("4 cm", "6 cm²", "9 cm"),
        ("4 cm", "x", "9 cm"),
        ("0 cm", "4 cm", "4 cm"),
        ("4", "6 cm", "9 cm"),
    ],
)
def test_a_teacher_is_told_what_is_no_length(three: tuple[str, ...]) -> None:
    assert problems_of(Task(lengths=three))


def test_lines_are_read_back() -> None:
    assert read_as(MEET, (), "4 + 6 > 9, so yes").rows[-1] == "yes"
    assert read_as(MEET, (), "4 + ").problem


SIZE = st.integers(1, 40)


@given(
    SIZE,
    SIZE,
    SIZE,
    st.permutations([0, 1, 2]),
    st.sampled_from(["<", ">", "≤", "≥", "="]),
    st.booleans(),
    st.booleans(),
)
@settings(deadline=None)
def test_yes_and_no_are_earned_by_the_longest_length(
    a: int, b: int, c: int, order: list[int], sign: str, yes: bool, turned: bool
) -> None:
    """Whatever is compared: an answer stands only if it is right, and only with a comparison that shows it."""
    three = (a, b, c)
    first, second, third = (three[at] for at in order)
    sides = (f"{first} + {second}", str(third))
    text = f" {sign} ".join(sides[::-1] if turned else sides)
    work = worked(lengths(*(f"{size} cm" for size in three)), text, "yes" if yes else "no")
    short, middle, longest = sorted(three)
    meet = short + middle > longest
    shows = third == longest if meet else first + second <= third
    wrong_sum = work.lines[0].mark.verdict is Verdict.BREAKS
    assert (work.lines[1].mark.verdict is Verdict.FOLLOWS) == (yes == meet and shows and not wrong_sum)
    if yes == meet:
        assert work.lines[1].mark.verdict is not Verdict.BREAKS


@given(SIZE, SIZE, SIZE, st.sampled_from([1, 10]), st.sampled_from([1, 10]))
@settings(deadline=None)
def test_units_do_not_matter(a: int, b: int, c: int, first: int, second: int) -> None:
    names = {1: "cm", 10: "mm"}
    three = (f"{a * first} {names[first]}", f"{b * second} {names[second]}", f"{c} cm")
    *rest, longest = sorted((a, b, c))
    sign = ">" if sum(rest) > longest else "<" if sum(rest) < longest else "="
    work = worked(
        lengths(*three),
        f"{rest[0]} cm + {rest[1]} cm {sign} {longest * 10} mm",
        "yes" if sign == ">" else "no",
    )
    assert work.progress.complete


@given(st.text(max_size=60))
@settings(deadline=None)
def test_any_text_is_marked(text: str) -> None:
    assert isinstance(last(MEET, text).verdict, Verdict)


@given(st.integers(1, 30), st.integers(1, 30), st.fractions(Fraction(1, 2), 30, max_denominator=4))
@settings(deadline=None)
def test_without_a_task_no_is_shown_by_what_does_not_reach(a: int, b: int, c: Fraction) -> None:
    """``evenline check`` marks the same lines with no lengths given."""
    reaches = a + b > c
    third = f"{c.numerator}/{c.denominator}" if c.denominator > 1 else str(c)
    sign = ">" if reaches else "<" if a + b < c else "="
    marks = [line.mark.verdict for line in mark_lines(Task(), [f"{a} + {b} {sign} {third}", "no"]).lines]
    assert marks[0] is Verdict.FOLLOWS
    assert (marks[1] is Verdict.FOLLOWS) == (not reaches)


@pytest.mark.parametrize(
    ("lines", "right"),
    [
        (("4 + 6 = 10", "10 > 9", "yes"), True),
        (("4 + 6 = 10", "10 > 9", "no"), False),
        (("4 + 5 = 9", "9 < 10", "no"), True),
        (("4 + 5 = 9", "10 > 9", "no"), True),
        (("4 + 5 = 9", "9 < 10", "yes"), False),
        (("4 + 6 = 10", "no"), True),
        (("4 + 6 = 10", "yes"), False),
        (("10 = 4 + 6", "4 + 6 > 9", "yes"), True),
    ],
)
def test_without_a_task_a_sum_that_was_worked_out_is_put_back(lines: tuple[str, ...], right: bool) -> None:
    mark = mark_lines(Task(), lines).lines[-1].mark
    assert mark.verdict is (Verdict.FOLLOWS if right else Verdict.BREAKS), mark
