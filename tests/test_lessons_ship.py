"""The unit that ships: every lesson reads and stands the audit, and 50 draws of every problem are worked."""

import itertools
import os
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

import pytest
from shipped_draws import DRAWS, draws_of, faults_of, shipped, shipped_paths

from tutor.lesson.audit import audited
from tutor.lesson.fresh import drawn
from tutor.lesson.model import Lesson, Problem
from tutor.lesson.reader import load_lesson
from tutor.lesson.tidy import tidied
from tutor.marking.task import ChoiceTask, DrawingTask, Task, WordTask

PATHS = shipped_paths()
LESSONS = [path for path in PATHS if shipped(path).review is None]
PROBLEMS = [
    pytest.param((path, problem.name), id=f"{path.stem}: {problem.name}")
    for path in LESSONS
    for problem in shipped(path).problems
]

# What each lesson is there for (Common Core State Standards for Mathematics, 2010).
STANDARDS = [
    {"7.EE.B.4a", "8.EE.C.7"},
    {"7.G.B.5", "8.G.A.5"},
    {"7.EE.B.3", "7.G.B.4"},
    {"7.G.B.4"},
    {"6.G.A.4", "7.G.B.6"},
    {"7.G.B.6", "8.G.C.9"},
    {"7.G.A.2"},
    {"7.G.A.3"},
    set(),
]


@pytest.mark.parametrize("path", PATHS, ids=lambda path: str(path.stem))
def test_a_lesson_reads_and_stands_the_audit(path: Path) -> None:
    lesson, faults = load_lesson(path)
    assert faults == ()
    assert lesson is not None
    found = audited(lesson)
    assert (found.faults, found.advice) == ((), ())


@pytest.mark.parametrize("path", PATHS, ids=lambda path: str(path.stem))
def test_a_lesson_stands_in_the_standard_layout(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert tidied(text) == text


def test_the_unit_is_nine_lessons_and_a_review_in_teaching_order() -> None:
    lessons = [shipped(path) for path in PATHS]
    assert [lesson.title.split(":")[0] for lesson in lessons] == [
        f"Lantern Parade {number}" for number in range(1, 11)
    ]
    assert [lesson.review is not None for lesson in lessons] == [False] * 9 + [True]


@pytest.mark.parametrize(("path", "standards"), list(zip(LESSONS, STANDARDS, strict=True)))
def test_a_lesson_is_a_piece_of_work_for_one_day(path: Path, standards: set[str]) -> None:
    lesson = shipped(path)
    assert 8 <= len(lesson.problems) <= 12
    assert 2 <= sum(problem.matters for problem in lesson.problems) <= 3
    assert standards <= set(lesson.covers)


def test_no_two_problems_of_the_unit_have_one_name() -> None:
    names = Counter(problem.name for path in LESSONS for problem in shipped(path).problems)
    assert [name for name, times in names.items() if times > 1] == []


def _is_worked_with_numbers(problem: Problem) -> bool:
    task = problem.task
    if isinstance(task, Task):
        return bool(task.find or task.lengths)
    return isinstance(task, DrawingTask) or (isinstance(task, ChoiceTask) and bool(problem.givens))


def test_every_problem_with_numbers_has_fresh_ones() -> None:
    for path in LESSONS:
        for problem in shipped(path).problems:
            if _is_worked_with_numbers(problem):
                tasks = {str((one.task, one.givens)) for one in draws_of(problem)}
                assert len(tasks) >= 4, problem.name


def test_every_kind_of_problem_is_in_the_unit() -> None:
    tasks = [problem.task for path in LESSONS for problem in shipped(path).problems]
    solved = [task for task in tasks if isinstance(task, Task)]
    assert any(task.lengths for task in solved)
    assert any(task.goals and task.sentence for task in solved)
    assert any(task.goals and not task.sentence for task in solved)
    assert any(task.check for task in solved) and any(task.places is not None for task in solved)
    for kind in (ChoiceTask, WordTask, DrawingTask):
        assert any(isinstance(task, kind) for task in tasks)


# --- 50 draws of every problem ----------------------------------------------------


@pytest.fixture(scope="module")
def found() -> Iterator[dict[tuple[Path, str], tuple[int, list[str]]]]:
    """Return what is wrong with the draws of each problem; all processors look for it."""
    keys = [(path, problem.name) for path in LESSONS for problem in shipped(path).problems]
    with ProcessPoolExecutor(max_workers=os.cpu_count()) as pool:
        answers = pool.map(faults_of, *zip(*keys, strict=True))
        yield dict(zip(keys, answers, strict=True))


@pytest.mark.parametrize("key", PROBLEMS)
def test_the_worked_solution_of_every_draw_is_right_with_every_step_on(
    key: tuple[Path, str], found: dict[tuple[Path, str], tuple[int, list[str]]]
) -> None:
    tried, faults = found[key]
    assert 1 <= tried <= DRAWS
    assert faults == []


# --- the review -------------------------------------------------------------------


def _review() -> Lesson:
    return shipped(PATHS[-1])


@pytest.mark.parametrize("seed", range(1, 21))
def test_a_review_mixes_the_lessons(seed: int) -> None:
    problems = drawn(_review(), seed).problems
    from_lessons = [problem.path for problem in problems]
    assert len(problems) == len({problem.name for problem in problems}) == 12
    assert len(set(from_lessons)) == 9
    assert all(one != other for one, other in itertools.pairwise(from_lessons))


def test_two_students_have_different_reviews() -> None:
    sets = {tuple(problem.name for problem in drawn(_review(), seed).problems) for seed in range(1, 11)}
    assert len(sets) > 5
