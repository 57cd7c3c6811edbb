"""Problems whose answer is no one value: an inequality that is solved, in the audit, the key and the work."""

import io
from pathlib import Path

import pytest

from tutor.lesson.audit import audited
from tutor.lesson.ends import solved_inequality
from tutor.lesson.fresh import redrawn
from tutor.lesson.model import Lesson
from tutor.lesson.reader import read_lesson
from tutor.marking.task import Task
from tutor.marking.work import begin
from tutor.teacher.answers import answers_of
from tutor.teacher.key import print_key

HEAD = "lesson   Rides\nformat   1\n\nproblem  Budget\n  ask      How many rides can they be?\n"


def lesson_with(body: str) -> Lesson:
    lesson, faults = read_lesson(HEAD + body, "rides.lesson")
    assert lesson is not None, faults
    return lesson


# Worked by hand; a division by a negative number turns the sign.
SOLVED = [
    ("5r + 12 <= 57", "r ≤ 9"),
    ("5r + 12 < 57", "r < 9"),
    ("40 - 2r > 10", "r < 15"),
    ("-3r <= 12", "r ≥ −4"),
    ("2(r + 3) >= 4r - 10", "8 ≥ r"),
]


@pytest.mark.parametrize(("equation", "answer"), SOLVED)
def test_an_inequality_is_a_problem_like_any_other(equation: str, answer: str) -> None:
    lesson = lesson_with(f"  equation {equation}\n  find     r\n")
    assert audited(lesson).faults == ()
    task = lesson.problems[0].task
    found, sentences = answers_of(task)
    assert ([str(one) for one in found], sentences) == ([answer], ())
    work = begin(task).submit(equation).submit(answer)
    assert work.progress.complete


def test_its_numbers_can_vary_and_every_draw_has_its_answer(tmp_path: Path) -> None:
    body = "  vary     c in 4, 5, 6\n  vary     m from 7 to 9\n  equation {c}r + 12 <= {c m + 12}\n  find     r\n"
    lesson = lesson_with(body)
    assert audited(lesson).faults == ()
    for seed in range(5):
        problem = redrawn(lesson.problems[0], seed)
        assert solved_inequality(problem.task) == f"r ≤ {dict(problem.numbers)['m']}"
    path = tmp_path / "rides.lesson"
    path.write_text(HEAD + body, encoding="utf-8")
    out, err = io.StringIO(), io.StringIO()
    assert (print_key(path, out, err), err.getvalue()) == (0, "")
    assert "all 9 draws" in out.getvalue()
    assert "not worked out" not in out.getvalue() and "cannot be worked out" not in out.getvalue()


def test_an_inequality_that_is_rounded_has_a_number_for_its_answer() -> None:
    lesson = lesson_with("  equation 5r + 12 <= 58\n  find     r\n  round    down to a whole number\n")
    assert audited(lesson).faults == ()
    ((answer,), _sentences) = answers_of(lesson.problems[0].task)
    assert answer.value == "9"


@pytest.mark.parametrize(
    "body", ["  equation r + s <= 9\n  find     r\n", "  equation r > r + 1\n  find     r\n"]
)
def test_one_that_has_no_such_end_is_told(body: str) -> None:
    lesson = lesson_with(body)
    assert solved_inequality(lesson.problems[0].task) == ""
    assert len(audited(lesson).faults) == 1


def test_an_equation_is_none() -> None:
    assert solved_inequality(Task(("5r + 12 = 57",), (), ("r",), ("",))) == ""
