"""Which answer is rounded, and what follows from a rounded answer.

Common practice, no source: where whole things are counted, what comes after goes on from the counted number.
"""

from fractions import Fraction
from io import StringIO
from math import ceil, floor
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tutor.lesson.audit import audit
from tutor.lesson.reader import read_lesson
from tutor.line.writing import write_number
from tutor.marking.hint_stage import HintStage
from tutor.marking.solve import solve
from tutor.marking.task import Precision, Rounding, Task
from tutor.marking.verdict import Verdict
from tutor.marking.work import Work, begin, hint, solution
from tutor.quantity.pi import Pi
from tutor.record.keys import task_key
from tutor.teacher.answers import answers_of
from tutor.teacher.check_file import check_file

UP, DOWN, NEAREST = Rounding.UP, Rounding.DOWN, Rounding.NEAREST


def boxes(
    way: Rounding = UP, candles: str = "100", each: str = "16", price: str = "3.50", **more: object
) -> Task:
    return Task(
        ("b = c / k", f"m = {price} b"),
        (("c", candles), ("k", each)),
        ("b", "m"),
        rounded=(Precision("b", 0, way),),
        **more,  # type: ignore[arg-type]
    )


BOXES, STRIPS, WHOLE, FULL = boxes(), boxes(DOWN), boxes(NEAREST), boxes(candles="96")
TURNED = Task(
    ("m = 3.50 b", "b = c / k"), (("c", "100"), ("k", "16")), ("b", "m"), rounded=(Precision("b", 0, UP),)
)
LEFT = Task(
    ("b = c / k", "l = k b - c"), (("c", "100"), ("k", "16")), ("b", "l"), rounded=(Precision("b", 0, UP),)
)
CARTS = Task(
    ("b = c / k", "t = b / 3", "m = 20 t"),
    (("c", "100"), ("k", "16")),
    ("b", "t", "m"),
    rounded=(Precision("b", 0, UP), Precision("t", 0, UP)),
)
ROPE = Task(
    ("C = 2 pi r", "n = C / 5", "p = 2.4 n"),
    (("r", "7 m"),),
    ("C", "n", "p"),
    ("m", "", "$"),
    Pi.DECIMAL,
    rounded=(Precision("C", 1), Precision("n", 0, UP), Precision("p", 2)),
)
BOUND = Task(("16b >= 100",), (), ("b",), places=0, rounding=UP)
PAID = Task(("16b >= 100", "m = 3.50 b"), (), ("b", "m"), rounded=(Precision("b", 0, UP),))
MOST = Task(("3.50b + 2 <= 30",), (), ("b",), places=0, rounding=DOWN)
MORE = Task(("16b > 96",), (), ("b",), places=0, rounding=UP)
CORD = Task(("12L >= 100",), (), ("L",), ("m",), places=0, rounding=UP)
ALL = (CORD, BOXES, STRIPS, WHOLE, FULL, TURNED, LEFT, CARTS, ROPE, BOUND, PAID, MOST, MORE)


def worked(task: Task, *lines: str) -> Work:
    work = begin(task)
    for line in lines:
        work = work.submit(line)
    return work


@pytest.mark.parametrize(
    ("task", "lines"),
    [
        (BOXES, ("b = 100/16", "b = 6.25", "b = 7", "m = 3.50 * 7", "m = 24.50")),
        (BOXES, ("b = 7", "m = 24.5")),
        (BOXES, ("m = 3.50b", "b = 6.25 ≈ 7", "m = 3.5 * 7 = 24.5")),
        (BOXES, ("m = 24.5", "b = 7")),
        (BOXES, ("m = 7 * 3.50", "24.50 = 7 * 3.50", "b = 7", "m = 24.50")),
        (BOXES, ("b = 7, m = 24.5",)),
        (BOXES, ("b = 6.25, m = 24.5", "b = 7")),
        (BOXES, ("b = 100/16, m = 3.50b", "b = 7", "m = 24.5")),
        (BOXES, ("b = 7", "m/b = 3.50", "m/7 = 3.50", "m = 24.5")),
        (STRIPS, ("b = 6.25", "b = 6", "m = 21")),
        (WHOLE, ("b = 6.25", "b ≈ 6", "m = 3.50 * 6", "m = 21")),
        (WHOLE, ("b ≈ 6", "m = 3.50 * 6.25", "m = 21.875")),
        (FULL, ("b = 6", "m = 21")),
        (TURNED, ("b = 7", "m = 3.50 * 7", "m = 24.5")),
        (LEFT, ("b = 7", "l = 16 * 7 - 100", "l = 12")),
        (CARTS, ("b = 7", "t = 7/3", "t = 3", "m = 20 * 3", "m = 60")),
        (CARTS, ("m = 60", "t = 3", "b = 7")),
        (ROPE, ("C = 43.96 m", "C ≈ 44.0 m", "n = 43.96/5", "n = 8.792", "n = 9", "p = $21.60")),
        (ROPE, ("C ≈ 44 m", "n = 44/5", "n = 8.8", "n = 9", "p = 2.4 * 9", "p = $21.60")),
        (BOUND, ("b >= 100/16", "b >= 6.25", "b >= 7")),
        (BOUND, ("b >= 6.25", "b = 7")),
        (BOUND, ("b >= 6.25", "b > 6", "b = 7")),
        (BOUND, ("7 <= b",)),
        (PAID, ("b >= 6.25", "b = 7", "m = 3.50 * 7", "m = 24.5")),
        (PAID, ("b >= 7", "m >= 24.5", "m = 24.5")),
        (PAID, ("b >= 7", "m >= 3.50 * 7", "m >= 24.5")),
        (CORD, ("L >= 100/12", "L >= 9 m")),
        (CORD, ("L >= 8 1/3", "L = 9 m")),
        (MOST, ("3.50b <= 28", "b <= 8", "b = 8")),
        (MORE, ("b > 6", "b >= 7")),
        (MORE, ("b > 6", "b = 7")),
    ],
)  # fmt: skip
def test_right_work_stands_and_ends(task: Task, lines: tuple[str, ...]) -> None:
    work = worked(task, *lines)
    assert all(line.mark.verdict.stands for line in work.lines), work.lines
    assert work.progress.finished and work.progress.complete and work.progress.found == task.find


@pytest.mark.parametrize(
    ("task", "lines", "said"),
    [
        (BOXES, ("b = 6.25", "m = 3.50 * 6.25"), "This goes on from b = 6.25. Round b up first, and work with that number."),
        (BOXES, ("m = 21.875",), "This goes on from b before it is rounded. Round b up first, and work with that number."),
        (BOXES, ("b = 7", "m = 21.875"), "This goes on from b before it is rounded. Work with b = 7, as you have rounded it."),
        (STRIPS, ("b = 6.25", "m = 21.875"), "This goes on from b = 6.25. Round b down first, and work with that number."),
        (BOXES, ("m = 3.50 b = 21.875",), None),
        (BOXES, ("b = 7, m = 21.875",), None),
        (BOXES, ("b = 7", "m ≈ 21.88"), None),
        (BOXES, ("b = 7", "m = 21"), None),
        (BOXES, ("b = 7", "m = 28"), None),
        (BOXES, ("b = 7", "m = 24.5", "m = 25"), None),
        (BOXES, ("b = 7", "m = 3.50 * 7 = 25"), None),
        (BOXES, ("b = 6",), "Would 6 be enough? Think of what the question counts."),
        (FULL, ("b = 7",), None),
        (LEFT, ("b = 7", "l = 0"), None),
        (CARTS, ("b = 7", "t = 6.25/3"), None),
        (CARTS, ("b = 7", "t = 3", "m = 20 * 7/3"), None),
        (CARTS, ("t = 2",), None),
        (BOUND, ("b >= 6",), "Would 6 be enough? Think of what the question counts."),
        (BOUND, ("b >= 6.25", "b = 6"), None),
        (BOUND, ("b >= 8",), None),
        (BOUND, ("b <= 7",), None),
        (BOUND, ("b > 7",), None),
        (BOUND, ("b = 6.25",), None),
        (PAID, ("b >= 6.25", "m = 21.875"), None),
        (PAID, ("b >= 6.25", "m >= 21.875"), None),
        (PAID, ("b >= 7", "m >= 28"), None),
        (CORD, ("L = 8 m",), None),
        (MOST, ("b = 9",), None),
        (MORE, ("b = 6",), None),
        (MORE, ("b >= 6",), None),
    ],
)  # fmt: skip
def test_wrong_work_breaks(task: Task, lines: tuple[str, ...], said: str | None) -> None:
    work = worked(task, *lines)
    assert all(line.mark.verdict.stands for line in work.lines[:-1]), work.lines
    mark = work.lines[-1].mark
    assert mark.verdict is Verdict.BREAKS and (said is None or mark.message == said), mark


@pytest.mark.parametrize(
    ("task", "lines"), [(BOUND, ("b >= 6.25",)), (BOUND, ("b > 6",)), (PAID, ("b >= 6.25", "m = 24.5")), (BOXES, ("b = 6.25", "m = 24.5")), (MORE, ("b > 6",))]
)  # fmt: skip
def test_what_stands_and_is_not_the_end(task: Task, lines: tuple[str, ...]) -> None:
    work = worked(task, *lines)
    assert all(line.mark.verdict.stands for line in work.lines), work.lines
    assert work.progress.finished is False and "b" not in work.progress.found


def test_a_wrong_number_of_boxes_is_paid_for_as_it_is() -> None:
    work = worked(BOXES, "b = 6", "m = 3.50 * 6", "m = 21")
    assert [line.mark.verdict for line in work.lines] == [Verdict.BREAKS, Verdict.CARRIES, Verdict.CARRIES]


def test_what_is_asked_before_an_answer_is_rounded_comes_from_before() -> None:
    """First what the cloth would cost exactly, then the whole rolls that are bought."""
    task = Task(
        ("b = c / k", "m = 3.50 b"),
        (("c", "100"), ("k", "16")),
        ("m", "b"),
        rounded=(Precision("b", 0, UP),),
    )
    assert [one.text for one in (solve(task)[0] or pytest.fail()).values if one.name == "m"] == ["21.875"]
    assert worked(task, "m = 21.875", "b = 7").progress.complete
    assert worked(task, *(line.text for line in solution(task))).progress.complete


def test_an_answer_from_a_rounded_one_is_an_answer() -> None:
    task = Task(("d = C / 3.14", "m = 7 d"), (("C", "100 cm"),), ("d", "m"), ("cm", "cm"), places=2)
    assert worked(task, "d ≈ 31.85 cm", "m = 222.95 cm").progress.finished
    assert worked(task, "d ≈ 31.85 cm", "m ≈ 222.93 cm").progress.finished
    assert solution(task)


@pytest.mark.parametrize("task", ALL)
def test_the_key_the_hints_and_the_values_agree(task: Task) -> None:
    lines = [line.text for line in solution(task)]
    assert lines and worked(task, *lines).progress.complete, lines
    found, sentences = solve(task)
    assert found is not None and not sentences
    for name in task.find:
        value = found.value(name)
        assert value is not None
        assert any(line.split(" ")[0] == name and str(value.text) in line for line in lines) or task is ROPE
    work = begin(task)
    for _ in range(20):
        shown = hint(work, HintStage.LINE)
        if shown is None:
            break
        assert shown.line is not None
        work = work.submit(shown.line)
    assert work.progress.complete and work.progress.first_wrong is None, work.lines


@pytest.mark.parametrize(
    ("task", "told"),
    [
        (BOXES, ("b = 7, rounded up from 6.25", "m = 24.5")),
        (WHOLE, ("b ≈ 6", "m = 21")),
        (CARTS, ("b = 7, rounded up from 6.25", "t = 3, rounded up from 7/3", "m = 60")),
        (ROPE, ("C ≈ 44.0 m", "n = 9, rounded up from 8.792", "p = $21.60")),
        (MORE, ("b = 7, rounded up from 6",)),
    ],
)
def test_the_answers_of_a_key(task: Task, told: tuple[str, ...]) -> None:
    assert tuple(map(str, answers_of(task)[0])) == told


@given(
    st.integers(1, 300), st.integers(2, 30), st.integers(1, 60), st.sampled_from((UP, DOWN)), st.booleans()
)
@settings(deadline=None, max_examples=60)
def test_what_is_paid_is_the_counted_number_times_the_price(
    candles: int, each: int, price: int, way: Rounding, bounded: bool
) -> None:
    """Against floor and ceiling of the exact quotient."""
    exact = Fraction(candles, each)
    count = ceil(exact) if way is UP else floor(exact)
    if count == 0:
        return
    if bounded:
        rel = ">=" if way is UP else "<="
        task = Task(
            (f"{each}b {rel} {candles}", f"m = {price}b"), (), ("b", "m"), rounded=(Precision("b", 0, way),)
        )
    else:
        task = boxes(way, str(candles), str(each), str(price))
    right = worked(task, f"b = {count}", f"m = {price} * {count}", f"m = {price * count}")
    assert right.progress.finished and right.progress.first_wrong is None, right.lines
    found = solve(task)[0]
    assert found is not None and found.value("m") is not None
    assert found.value("m").text == str(price * count)  # type: ignore[union-attr]
    if exact != count:
        unrounded = write_number(exact * price)
        assert not worked(task, f"b = {count}", f"m = {unrounded}").lines[-1].mark.verdict.stands


def test_old_tasks_have_the_keys_they_had() -> None:
    assert "rounded" not in task_key(Task(("n = c",), (("c", "1"),), ("n",), places=0, rounding=UP))
    assert '"rounded": [["b", 0, "up"]]' in task_key(BOXES)


# -- the entry of a lesson ---------------------------------------------------------------------------

HEAD = "lesson Boxes\nformat 1\ngrade 7\ncovers 7.EE.B.3\nproblem Boxes\n"
TWO = "  formula b = n/16\n  formula m = 3.5b\n  given n = 100\n"


def task_of(body: str) -> Task:
    lesson, faults = read_lesson(f"{HEAD}{body}", "boxes.lesson")
    assert lesson is not None and not faults, faults
    task = lesson.problems[0].task
    assert isinstance(task, Task)
    return task


ONE_WHOLE = Precision("b", 0, UP)


@pytest.mark.parametrize(
    ("entries", "rounded", "places"),
    [
        ("find b\nround up to a whole number\nfind m", (ONE_WHOLE,), None),
        ("find b\nfind m\nround up to a whole number", (Precision("m", 0, UP),), None),
        ("find b\nround up to a whole number\nfind m\nround to 2 places", (ONE_WHOLE, Precision("m", 2)), None),
        ("find b and m\nround to 2 places", (), 2),
        ("round to 2 places\nfind b\nfind m", (), 2),
        ("round to 2 places\nfind b\nround up to a whole number\nfind m", (ONE_WHOLE, Precision("m", 2)), None),
        ("find b\nround to 2 places\nfind m\nround to 2 places", (), 2),
        ("find b\nround up to a whole number", (), 0),
        ("part How many?\nround up to a whole number\nfind b\npart How much?\nfind m", (ONE_WHOLE,), None),
        ("part How many?\nfind b\nround up to a whole number\npart How much?\nfind m", (ONE_WHOLE,), None),
    ],
)  # fmt: skip
def test_a_round_speaks_of_the_find_before_it(
    entries: str, rounded: tuple[Precision, ...], places: int | None
) -> None:
    body = "".join(f"  {entry}\n" for entry in entries.split("\n"))
    task = task_of(f"  ask How many?\n{TWO}{body}")
    assert (task.rounded, task.places) == (rounded, places)


def faults_of(entries: str) -> list[tuple[int, str, str]]:
    body = "".join(f"  {entry}\n" for entry in ("ask How many?", *entries.split("\n")))
    return [(one.line, one.message, one.instead) for one in read_lesson(f"{HEAD}{body}", "b.lesson")[1]]


def test_an_answer_is_rounded_once() -> None:
    ((line, message, _),) = faults_of("formula b = 100/16\nfind b\nround to 1 place\nround to 2 places")
    assert (line, message) == (10, "This answer is rounded already. Take one “round” away.")


@pytest.mark.parametrize(
    ("equation", "way", "instead"),
    [
        ("16b <= 100", "up", "round    down to a whole number"),
        ("16b >= 100", "down", "round    up to a whole number"),
        ("100 - 16b >= 0", "up", "round    down to a whole number"),
        ("b^2 >= 100", "up", "an equation, or an inequality with one letter that is not squared"),
        ("16b >= 100", "up", None),
        ("100 <= 16b", "up", None),
        ("16b < 100", "down", None),
    ],
)
def test_an_inequality_is_rounded_to_its_inside(equation: str, way: str, instead: str | None) -> None:
    found = faults_of(f"equation {equation}\nfind b\nround {way} to a whole number")
    assert [one[2] for one in found] == ([] if instead is None else [instead]), found


EXAMPLE = """
  ask      The parade needs n = {n} candles.
           They come in boxes of 16, and a box costs $3.50.
  formula  b = n/16
  formula  m = 3.50 b
  given    n = 100
  part     How many boxes b must be bought?
  find     b
  round    up to a whole number
  part     What do the boxes cost?
  find     m in $
"""


def test_a_lesson_with_two_parts_passes_its_audit() -> None:
    lesson, faults = read_lesson(f"{HEAD}{EXAMPLE}", "boxes.lesson")
    assert lesson is not None and not faults
    assert audit(lesson) == ()
    work = begin(lesson.problems[0].task)
    assert work.submit("b = 7").progress.found == ("b",)
    assert work.submit("b = 7").submit("m = $24.50").progress.complete


def test_premises_that_are_at_odds_are_still_found() -> None:
    odd = EXAMPLE.replace("  given    n = 100\n", "  given    n = 100\n  formula  n = 2b\n")
    lesson, _ = read_lesson(f"{HEAD}{odd}", "boxes.lesson")
    assert lesson is not None and audit(lesson)


def test_a_file_of_work_rounds_as_a_lesson_does(tmp_path: Path) -> None:
    path = tmp_path / "work.txt"
    head = "formula b = n/16\nformula m = 3.50b\ngiven n = 100\nfind b\nround up to a whole number\nfind m\n"
    told = []
    for last in ("m = 24.5", "m = 21.875"):
        path.write_text(f"{head}\nb = 7\n{last}\n", encoding="utf-8")
        out = StringIO()
        check_file(str(path), out, StringIO())
        told.append(out.getvalue())
    assert "Work with b = 7" in told[1] and "Work with b = 7" not in told[0]
