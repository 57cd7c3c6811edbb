"""What holds for work of every kind, and that each kind finds its own marker."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tutor.line.reader import MAX_LENGTH
from tutor.marking.hint_stage import HintStage
from tutor.marking.kinds.choice import ChoiceWorking
from tutor.marking.kinds.drawing import DrawingWorking
from tutor.marking.kinds.goals import GoalWorking
from tutor.marking.kinds.lengths import LengthsWorking
from tutor.marking.kinds.word import WordWorking
from tutor.marking.progress import StepState
from tutor.marking.task import AnyTask, ChoiceTask, DrawingTask, Task, WordTask
from tutor.marking.verdict import Verdict
from tutor.marking.work import Work, begin, caution, hint, problems_of, read_as, solution
from tutor.marking.working import Working

SOLVE = Task(("C = 2 pi r",), (("C", "62.8 cm"),), ("r",), ("cm",))
EQUATION = Task(formulas=("2x + 14 = 3x",), find=("x",))
LENGTHS = Task(lengths=("4 cm", "60 mm", "9 cm"))
WRITE = Task(formulas=("A = pi r^2",), goals=("A = pi r^2",))
SHOW = Task(formulas=("C = 2 pi r", "P = C / 2"), goals=("P = pi r",), sentence=True)
CHOICE = ChoiceTask(("triangle", "square", "trapezoid"), ("trapezoid",))
WORD = WordTask("circumference", (), ("diameter",))
DRAWING = DrawingTask((("a", "6 cm"), ("b", "7 cm"), ("c", "8 cm")), ("A", "B", "C"))
KINDS: dict[type, AnyTask] = {
    Working: SOLVE,
    LengthsWorking: LENGTHS,
    GoalWorking: WRITE,
    ChoiceWorking: CHOICE,
    WordWorking: WORD,
    DrawingWorking: DRAWING,
}
TASKS: tuple[AnyTask, ...] = (*KINDS.values(), EQUATION, SHOW)

# Some of these are right for one task or another, some are wrong, some are nothing.
LINES = (
    "r = 10 cm", "C = 2 pi r", "62.8 = 2 * 3.14 * r", "x = 14", "14 = x", "4 + 6 > 9", "60 mm = 6 cm", "yes", "no", "A = pi r^2",
    "A = 2 pi r", "P = C/2", "P = pi r", "half of the whole hoop is the strip", "C", "trapezoid", "square", "circumference",
    "circumfrence", "diameter", "a = 6 cm", "b = 70 mm", "c = 8", "A = 46°, B = 58", "C = 76", "C = 104", "?", "hello",
)  # fmt: skip
# What a careless reader would run, show or count for ever.
HOSTILE = (
    "", " ", "\t", "\x1b[31mred", "a\u202eb", "\ud800", "[bold]x[/bold]", "<script>", "=cmd()", "__import__('os')", "x" * 401, "9" * 400,
    "9^9^9^9", "1e999", "nan", "inf", "1/0", "(" * 200, "((((((((1))))))))" * 20, "a = " + "1+" * 190 + "1", ", " * 190, "and " * 99,
    "A and " * 60, "yes " * 90, " " * 300 + "no", "c = " + "1" * 300 + " cm", "c = 1/" + "3" * 39 + " cm", "²" * 90, "∠" * 90, "½" * 90,
    "a = b = c = 6 cm", "𝟔 + 𝟒 > 𝟗", "٤ + ٦ > ٩", "c = ٦ cm", "Ａ", "é" * 100, "\u0301" * 100,
)  # fmt: skip


def worked(task: AnyTask, *lines: str) -> Work:
    work = begin(task)
    for line in lines:
        work = work.submit(line)
    return work


@pytest.mark.parametrize(("kind", "task"), KINDS.items())
def test_each_task_finds_its_marker(kind: type, task: AnyTask) -> None:
    work = begin(task)
    assert type(work) is kind and work.task == task
    assert work.lines == () and not work.progress.finished and not work.progress.complete
    assert {step for step, _ in work.progress.steps} and all(
        isinstance(state, StepState) for _, state in work.progress.steps
    )


@pytest.mark.parametrize("task", TASKS)
def test_the_worked_solution_completes_the_work(task: AnyTask) -> None:
    assert problems_of(task) == ()
    work = worked(task, *(line.text for line in solution(task)))
    if task is SHOW:
        assert work.progress.finished and not work.progress.complete, "the sentence is the student's own"
        work = work.submit("The strip is half of the hoop, and the hoop is 2πr.")
    assert work.progress.complete and work.progress.first_wrong is None
    assert all(line.sentence for line in solution(task))


@pytest.mark.parametrize("task", TASKS)
def test_the_first_hints_show_no_line_and_the_last_one_can_be_typed(task: AnyTask) -> None:
    work = begin(task)
    told = [hint(work, stage) for stage in HintStage]
    assert all(one is not None and one.message for one in told)
    assert [one.line is None for one in told if one is not None] == [True, True, False]
    assert told[2] is not None and told[2].line is not None
    assert work.submit(told[2].line).lines[-1].mark.verdict is Verdict.FOLLOWS


@given(st.sampled_from(TASKS), st.lists(st.sampled_from(LINES), max_size=6), st.integers(0, 5))
@settings(deadline=None)
def test_a_struck_line_is_as_if_never_typed(task: AnyTask, lines: list[str], at: int) -> None:
    if at >= len(lines):
        return
    struck, without = worked(task, *lines).strike(at), worked(task, *lines[:at], *lines[at + 1 :])
    assert struck.lines[at].struck and struck.lines[at].text == lines[at]
    kept = [line.mark.verdict for place, line in enumerate(struck.lines) if place != at]
    assert kept == [line.mark.verdict for line in without.lines]
    assert (struck.progress.finished, struck.progress.complete) == (
        without.progress.finished,
        without.progress.complete,
    )


@given(st.sampled_from(TASKS), st.lists(st.sampled_from(LINES), max_size=5), st.sampled_from(LINES))
@settings(deadline=None)
def test_work_is_a_value(task: AnyTask, lines: list[str], more: str) -> None:
    work = worked(task, *lines)
    verdicts = [line.mark.verdict for line in work.lines]
    work.submit(more)
    work.strike(0)
    assert [line.text for line in work.lines] == lines
    assert [line.mark.verdict for line in work.lines] == verdicts
    assert [line.mark.verdict for line in worked(task, *lines).lines] == verdicts, (
        "the same lines get the same marks"
    )
    assert work.strike(99).lines == work.lines


@given(st.sampled_from(TASKS), st.lists(st.sampled_from(LINES), max_size=5))
@settings(deadline=None)
def test_a_line_that_is_wrong_or_unread_says_why(task: AnyTask, lines: list[str]) -> None:
    work = worked(task, *lines)
    for line in work.lines:
        mark = line.mark
        if mark.verdict in (Verdict.BREAKS, Verdict.UNREAD, Verdict.UNDECIDED, Verdict.CARRIES):
            assert mark.message and len(mark.message) <= 160
        if mark.verdict in (Verdict.BREAKS, Verdict.UNREAD):
            assert mark.reason is not None
        if mark.span is not None:
            assert 0 <= mark.span[0] <= mark.span[1] <= len(line.text)
    first = next((at for at, line in enumerate(work.lines) if line.mark.verdict is Verdict.BREAKS), None)
    assert work.progress.first_wrong == first


@pytest.mark.parametrize("task", TASKS)
@pytest.mark.parametrize("line", HOSTILE, ids=range(len(HOSTILE)))
def test_nothing_that_is_typed_does_any_harm(task: AnyTask, line: str) -> None:
    work = worked(task, line)
    mark = work.lines[0].mark
    assert isinstance(mark.verdict, Verdict)
    if len(line) > MAX_LENGTH or not line.strip():
        assert mark.verdict is Verdict.UNREAD
    if mark.span is not None:
        assert 0 <= mark.span[0] <= mark.span[1] <= len(line)
    assert len(mark.message) <= 200 and len(mark.note) <= 200
    read_as(task, (), line)
    for stage in HintStage:
        hint(work, stage)
    assert not (work.progress.complete and task not in (CHOICE, LENGTHS))


@given(st.sampled_from(TASKS), st.text(max_size=60))
@settings(deadline=None, max_examples=300)
def test_any_text_is_read_back_or_told_about(task: AnyTask, text: str) -> None:
    found = read_as(task, (), text)
    assert all(isinstance(row, str) for row in found.rows) and isinstance(found.problem, str)


def test_only_a_compass_needs_a_caution() -> None:
    assert [bool(caution(task)) for task in TASKS] == [task is DRAWING for task in TASKS]
