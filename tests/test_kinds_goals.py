"""Write the formula, show why: what is reached, and what a wrong line may tell."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tutor.marking.hint_stage import HintStage
from tutor.marking.progress import StepState
from tutor.marking.task import Task
from tutor.marking.verdict import Mark, Step, Verdict
from tutor.marking.work import Work, begin, hint, problems_of, read_as, solution


def write(formula: str, *others: str, names: tuple[str, ...] = ()) -> Task:
    return Task(formulas=(*others, formula), goals=(formula,), names=names)


def show(goal: str, *formulas: str, every_step: bool = False) -> Task:
    return Task(formulas=formulas, goals=(goal,), sentence=True, every_step=every_step)


CIRCLE = write("A = pi r^2")
TRIANGLE = write("A = b h / 2")
BOX = write("SA = 2 L W + 2 L H + 2 W H", names=("SA",))
AROUND = write("P = 2 L + 2 W")
STRIP = show("P = pi r", "C = 2 pi r", "P = C / 2")
RINGS = show("A = pi r^2", "C = 2 pi r", "A = 1/2 C r")
CROSSING = Task(
    ("angle A + angle C = 180", "angle B + angle C = 180"), goals=("angle A = angle B",), sentence=True,
    names=("angle A", "angle B", "angle C"),
)  # fmt: skip
OUTSIDE = show("x = a + b", "a + b + c = 180", "x + c = 180")
WRITES = [
    CIRCLE,
    TRIANGLE,
    BOX,
    AROUND,
    write("A = pi r^2", "C = 2 pi r"),
    write("V = L W H"),
    write("V = pi r^2 h"),
]
SENTENCE = "The strip is half of the hoop, so it is pi r long."


def worked(task: Task, *lines: str) -> Work:
    work = begin(task)
    for line in lines:
        work = work.submit(line)
    return work


def last(task: Task, *lines: str) -> Mark:
    return worked(task, *lines).lines[-1].mark


# -- write the formula -----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("task", "line"),
    [
        (CIRCLE, "A = pi r^2"),
        (CIRCLE, "A = r · r · π"),
        (CIRCLE, "a = 3.14 r²"),
        (CIRCLE, "A = 22/7 * r^2"),
        (CIRCLE, "A = π(d/2)²"),
        (CIRCLE, "A = pi d^2 / 4"),
        (CIRCLE, "2A = 2 pi r^2"),
        (CIRCLE, "A / r^2 = pi"),
        (CIRCLE, "r = √(A/π)"),
        (CIRCLE, "pi r^2 = A"),
        (CIRCLE, "formula: A = πr²"),
        (TRIANGLE, "A = 1/2 b h"),
        (TRIANGLE, "A = 0.5hb"),
        (TRIANGLE, "2A = bh"),
        (TRIANGLE, "h = 2A/b"),
        (BOX, "SA = 2(LW + LH + WH)"),
        (BOX, "sa = 2lw + 2lh + 2wh"),
        (AROUND, "P = 2(L + W)"),
        (AROUND, "P = L + W + L + W"),
        (write("A = pi r^2", "C = 2 pi r"), "A = pi r^2"),
        (write("V = pi r^2 h"), "V = π · r² · h"),
    ],
)
def test_any_equivalent_form_is_the_formula(task: Task, line: str) -> None:
    work = worked(task, line)
    assert work.lines[0].mark.verdict is Verdict.FOLLOWS, work.lines[0].mark
    assert work.progress.finished and work.progress.complete
    assert dict(work.progress.steps)[Step.FORMULA] is StepState.STANDS
    assert dict(work.progress.steps)[Step.UNITS] is StepState.NOT_ASKED


@pytest.mark.parametrize(
    ("task", "line", "slip"),
    [
        (CIRCLE, "A = 2 pi r", "circumference-given-for-area"),
        (CIRCLE, "A = pi d^2", "diameter-used-as-radius"),
        (TRIANGLE, "A = b h", "triangle-half-forgotten"),
        (BOX, "SA = L W + L H + W H", "surface-faces-not-doubled"),
        (BOX, "SA = L W H", "volume-given-for-surface-area"),
        (CIRCLE, "A = pi r", None),
        (CIRCLE, "A = r^2", None),
        (CIRCLE, "A = pi r^3", None),
        (CIRCLE, "A = 3r^2", None),
        (CIRCLE, "A = A", None),
        (CIRCLE, "A = 5", None),
        (TRIANGLE, "A = b + h", None),
        (AROUND, "P = 4 L W", None),
    ],
)
def test_a_wrong_formula_breaks_and_does_not_show_the_right_one(
    task: Task, line: str, slip: str | None
) -> None:
    work = worked(task, line)
    found = work.lines[0].mark
    assert found.verdict is Verdict.BREAKS and found.slip == slip
    assert "From the formula" not in found.message and found.account == ""
    if slip is None:
        assert found.message.endswith("Test it with easy numbers that you can draw or count.")
    assert not work.progress.finished


@pytest.mark.parametrize(
    "line",
    [
        "A = l w",
        "C = 2 pi r",
        "pi r^2",
        "A: pi r^2",
        "no",
        "A =",
        "",
        "\x1b[31mA",
        "A = " + "r+" * 300 + "r",
    ],
)
def test_other_letters_and_half_a_formula_are_not_held_against_anybody(line: str) -> None:
    assert last(CIRCLE, line).verdict is Verdict.UNREAD and last(CIRCLE, line).message


def test_the_letters_of_the_problem_are_named() -> None:
    assert last(TRIANGLE, "A = l w / 2").message == "l is no letter of this problem. Use A, b and h."
    assert last(CIRCLE, "pi r^2").message == "Write the whole formula: A = …"


def test_a_second_wrong_formula_is_told_by_itself() -> None:
    found = last(CIRCLE, "A = 2 pi r", "A = 4 pi r")
    assert found.verdict is Verdict.BREAKS and "wrong line above" not in found.message


def test_another_formula_is_true_and_not_what_is_asked() -> None:
    task = write("A = pi r^2", "C = 2 pi r")
    work = worked(task, "C = 2 pi r")
    assert work.lines[0].mark.note == "That is true. The formula for A is asked for."
    assert not work.progress.finished and work.submit("A = pi r^2").progress.complete


def test_remarks_and_labels_are_kept() -> None:
    assert last(CIRCLE, "I think of a pizza").verdict is Verdict.NOTE
    assert last(CIRCLE, "A = ?").verdict is Verdict.NOTE


@pytest.mark.parametrize("task", WRITES)
def test_hints_do_not_show_the_formula_before_the_last_stage(task: Task) -> None:
    work = begin(task)
    for stage in (HintStage.WHERE, HintStage.WHAT):
        found = hint(work, stage)
        assert found is not None and found.line is None
        assert task.goals[0].split("=")[1].strip() not in found.message
    shown = hint(work, HintStage.LINE)
    assert shown is not None and shown.line is not None and work.submit(shown.line).progress.complete
    assert hint(work.submit(shown.line), HintStage.WHERE) is None


def test_what_the_hints_of_a_formula_say() -> None:
    told = [hint(begin(TRIANGLE), stage) for stage in HintStage]
    assert [one.message for one in told if one is not None] == [
        "What does A measure, and which sizes of the figure does it depend on?",
        "The formula begins with A =. It holds b and h.",
        "The formula:",
    ]


def test_a_struck_line_is_shown_again_by_a_hint() -> None:
    work = worked(STRIP, "C = 2 pi r")
    first, second = hint(begin(STRIP), HintStage.LINE), hint(work, HintStage.LINE)
    assert first is not None and second is not None and first.line == "C = 2 pi r" != second.line
    assert hint(work.strike(0), HintStage.LINE) == first


# -- show why ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("task", "lines"),
    [
        (STRIP, ("C = 2 pi r", "P = C/2", "P = 2 pi r / 2", "P = pi r", SENTENCE)),
        (STRIP, ("P = C/2 = 2 pi r/2 = pi r", SENTENCE)),
        (STRIP, (SENTENCE, "P = C/2", "P = r π")),
        (STRIP, ("P = C/2", "πr = P", "because half of 2πr is πr")),
        (RINGS, ("A = C r/2", "A = 2 pi r r/2", "A = pi r^2", SENTENCE)),
        (RINGS, ("C = 2πr", "A = 1/2 · 2πr · r", "A = πr²", SENTENCE)),
        (CROSSING, ("∠A = 180 - ∠C", "∠B = 180 - ∠C", "∠B = ∠A", SENTENCE)),
        (OUTSIDE, ("x + c = a + b + c", "x = a + b", SENTENCE)),
        (OUTSIDE, ("c = 180 - x", "a + b + 180 - x = 180", "a + b = x", SENTENCE)),
    ],
)
def test_a_derivation_with_its_sentence(task: Task, lines: tuple[str, ...]) -> None:
    work = worked(task, *lines)
    assert work.progress.finished and work.progress.complete, work.lines
    assert work.progress.first_wrong is None
    assert dict(work.progress.steps)[Step.SUBSTITUTE] is StepState.STANDS


def test_the_end_alone_shows_nothing() -> None:
    work = worked(STRIP, "P = pi r")
    assert work.lines[0].mark.verdict is Verdict.FOLLOWS and not work.progress.finished
    assert work.lines[0].mark.note.endswith("Write the lines that lead to it first, then this one.")
    assert not worked(STRIP, "P = pi r", "P = pi r").progress.finished
    assert worked(STRIP, "P = pi r", "P = C/2", "P = pi r").progress.finished


def test_the_end_has_to_be_written_and_not_only_to_follow() -> None:
    assert not worked(STRIP, "C = 2 pi r", "P = C/2", "P = 2 pi r/2").progress.finished
    assert not worked(STRIP, "C = 2 pi r", "P = C/2", "2P = 2 pi r").progress.finished


def test_a_sentence_is_asked_for_and_never_judged() -> None:
    work = worked(STRIP, "P = C/2", "P = pi r")
    assert work.progress.finished and not work.progress.complete
    assert work.lines[-1].mark.note == "That is what was to be shown. Now say in a sentence why it is so."
    assert not work.submit("so there").progress.complete, "two words are no reason"
    said = work.submit("Bananas are yellow and the moon = round")
    assert said.progress.complete and said.lines[-1].mark.verdict is Verdict.NOTE
    assert said.lines[-1].mark.note == "Kept for your teacher to read."
    assert not said.strike(2).progress.complete


def test_the_sentence_may_stand_behind_the_because_of_a_line() -> None:
    work = worked(STRIP, "P = C/2", "P = pi r because the strip is half of the hoop")
    assert work.progress.complete and not work.lines[-1].mark.note
    assert not worked(STRIP, "P = C/2", "P = pi r because of C").progress.complete
    assert not worked(
        CROSSING, "angle A + angle C = angle B + angle C", "angle A = angle B"
    ).progress.complete


def test_a_wrong_line_of_a_derivation_breaks() -> None:
    work = worked(STRIP, "C = 2 pi r", "P = pi r / 2")
    assert work.lines[1].mark.verdict is Verdict.BREAKS and work.progress.first_wrong == 1


def test_a_struck_derivation_leads_nowhere() -> None:
    work = worked(STRIP, "P = C/2", "P = pi r")
    assert work.progress.finished and not work.strike(0).progress.finished


@pytest.mark.parametrize(
    "task", [STRIP, RINGS, CROSSING, OUTSIDE, show("P = 4 s", "P = 2 L + 2 W", "L = s", "W = s")]
)
def test_the_key_is_a_derivation_and_the_hints_lead_through_it(task: Task) -> None:
    assert problems_of(task) == ()
    lines = [line.text for line in solution(task)]
    assert lines and worked(task, *lines, SENTENCE).progress.complete
    work = begin(task)
    for _ in range(12):
        shown = hint(work, HintStage.LINE)
        if shown is None:
            break
        assert shown.line is not None and hint(work, HintStage.WHERE) and hint(work, HintStage.WHAT)
        work = work.submit(shown.line)
    assert work.progress.finished and work.progress.first_wrong is None
    told = hint(work, HintStage.WHERE)
    assert told is not None and "sentence" in told.message
    assert hint(work.submit(SENTENCE), HintStage.WHERE) is None


def test_the_key_goes_through_what_two_formulas_share() -> None:
    told = {line.text: line.sentence for line in solution(CROSSING)}
    assert told["∠A + ∠C = ∠B + ∠C"] == "Both are 180: set them equal."


@pytest.mark.parametrize("task", WRITES)
def test_the_key_of_a_formula_is_accepted(task: Task) -> None:
    assert problems_of(task) == ()
    assert worked(task, *(line.text for line in solution(task))).progress.complete


@pytest.mark.parametrize(
    ("task", "said"),
    [
        (show("P = 2 pi r", "C = 2 pi r", "P = C / 2"), "“P = 2 pi r” does not follow from the formulas."),
        (
            show("P = C/2", "C = 2 pi r", "P = C / 2"),
            "“P = C/2” is one of the formulas: there is nothing to show.",
        ),
        (show("P =", "C = 2 pi r"), "Something is missing after “=”. Write the other side."),
        (show("P", "C = 2 pi r"), "Write an equation with a sign = in it."),
    ],
)
def test_a_teacher_is_told_what_cannot_be_shown(task: Task, said: str) -> None:
    assert said in problems_of(task)


def test_lines_are_read_back() -> None:
    assert read_as(CIRCLE, (), "A = pi r^2").rows


LETTERS = ("A", "r", "pi", "2", "3", "r^2", "d", "1/2")


@given(st.lists(st.sampled_from(LETTERS[1:]), min_size=1, max_size=4))
@settings(deadline=None)
def test_a_product_is_the_formula_exactly_if_it_is_pi_r_squared(factors: list[str]) -> None:
    """Against a count of factors: π once, r twice (d is 2r), the numbers 1 together."""
    numbers = {"2": 2.0, "3": 3.0, "1/2": 0.5, "d": 2.0}
    size = 1.0
    for factor in factors:
        size *= numbers.get(factor, 1.0)
    powers = sum({"r": 1, "d": 1, "r^2": 2}.get(factor, 0) for factor in factors)
    wanted = size == 1 and powers == 2 and factors.count("pi") == 1
    line = "A = " + " * ".join(f"({factor})" if factor == "1/2" else factor for factor in factors)
    assert worked(CIRCLE, line).progress.finished == wanted


@given(st.text(max_size=50))
@settings(deadline=None)
def test_any_text_is_marked(text: str) -> None:
    for task in (CIRCLE, STRIP):
        work = worked(task, text)
        assert isinstance(work.lines[0].mark.verdict, Verdict) and not work.progress.complete
