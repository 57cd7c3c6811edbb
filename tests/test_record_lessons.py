"""Lessons as they are written, at the desk: fresh numbers, corrections on others, mixed reviews, every kind."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from tutor.lesson.fresh import drawn, redrawn
from tutor.lesson.model import Lesson, Numbers
from tutor.lesson.reader import load_lesson, read_lesson
from tutor.marking.task import ChoiceTask, DrawingTask, Task, WordTask
from tutor.marking.verdict import Verdict
from tutor.record.asked import Terms, asked_at, numbers_of
from tutor.record.desk import Desk, open_desk
from tutor.record.glance import glance
from tutor.record.keys import problem_key, task_key
from tutor.record.ledger import find_lesson
from tutor.record.state import Status
from tutor.record.store import Store, open_store

HOOPS = """\
lesson   Hoops
format   1
pi       3.14
correct  fresh numbers

problem  Hoop
  vary     r from 3 to 12
  ask      A hoop takes {C} of cane. How far is it from the middle?
  formula  C = 2 pi r
  given    C = {2 * 3.14 * r} cm
  find     r in cm

problem  Candles
  vary     n from 11 to 60
  ask      Three boxes and 7 candles are {3n + 7} candles. How many are in a box?
  equation 3x + 7 = {3n + 7}
  find     x

problem  Word
  word     radius
  means    the way from the middle to the rim
"""
SAME = HOOPS.replace("fresh numbers", "same numbers")
REVIEW = """\
lesson   Review
format   1
review   3 from hoops, lamps
"""


def lesson_from(text: str, name: str = "hoops.lesson") -> Lesson:
    lesson, faults = read_lesson(text, name)
    assert lesson is not None, faults
    return lesson


def with_seed(lesson: Lesson, seed: int) -> list[tuple[tuple[str, str], ...]]:
    return [problem.numbers for problem in drawn(lesson, seed).problems]


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    opened, sentence = open_store(tmp_path / "K7.evenline")
    assert opened is not None, sentence
    yield opened
    opened.close()


def desk_at(store: Store, lesson: Lesson) -> Desk:
    desk, sentence = open_desk(store, lesson)
    assert desk is not None, sentence
    return desk


def seed_of(store: Store) -> int:
    found, sentence = store.read(lambda link: link.execute("SELECT seed FROM book").fetchone()[0])
    assert found is not None, sentence
    return int(found)


def verdicts(desk: Desk, *lines: str) -> list[Verdict]:
    marks = [desk.submit(line).mark for line in lines]
    return [mark.verdict for mark in marks if mark is not None]


def candles(desk: Desk) -> int:
    """Return the right answer to the attempt that is open at the second problem."""
    (number,) = desk.state.problems[1].current.problem.numbers
    return int(number[1])


# --- numbers ----------------------------------------------------------------------------------


def test_each_student_has_numbers_of_their_own_and_keeps_them(store: Store, tmp_path: Path) -> None:
    lesson = lesson_from(HOOPS)
    desk = desk_at(store, lesson)
    mine = [problem.problem.numbers for problem in desk.state.problems]
    assert mine == with_seed(lesson, seed_of(store))
    assert [p.problem.numbers for p in desk_at(store, lesson).state.problems] == mine
    others = []
    for code in range(6):
        other, _ = open_store(tmp_path / f"A{code}.evenline")
        assert other is not None
        others.append([p.problem.numbers for p in desk_at(other, lesson).state.problems])
        other.close()
    assert len({str(numbers) for numbers in others}) > 3


def test_the_question_the_task_and_the_shelf_have_the_same_numbers(store: Store) -> None:
    lesson = lesson_from(HOOPS)
    before, _ = glance(store, lesson)
    assert before is not None and before.problems == lesson.problems
    desk = desk_at(store, lesson)
    problem = desk.state.problems[1].problem
    n = candles(desk)
    assert f"are {3 * n + 7} candles" in problem.ask
    assert isinstance(problem.task, Task) and problem.task.formulas == (f"3x + 7 = {3 * n + 7}",)
    desk.go_to(1)
    assert verdicts(desk, f"3x = {3 * n}", f"x = {n}") == [Verdict.FOLLOWS, Verdict.FOLLOWS]
    desk.finish()
    seen, _ = glance(store, lesson)
    assert seen is not None
    assert (seen.statuses, seen.current) == ((Status.UNTOUCHED, Status.DONE, Status.UNTOUCHED), 1)
    assert seen.problems == desk.state.lesson.problems


def test_a_correction_on_fresh_numbers_is_worked_on_them_and_replayed_on_them(store: Store) -> None:
    lesson = lesson_from(HOOPS)
    desk = desk_at(store, lesson)
    first = desk.state.problems[1].problem
    n = candles(desk)
    desk.go_to(1)
    verdicts(desk, f"3x = {3 * n + 14}", f"x = {n}")
    desk.finish()
    desk.start_correction(1)
    state = desk.state.problems[1]
    asked = state.current.problem
    assert state.other_numbers and asked.ask != first.ask
    assert state.first.problem == first
    assert asked.numbers == redrawn(first, seed_of(store), 1).numbers
    assert isinstance(asked.task, Task) and asked.task.every_step
    fresh = candles(desk)
    assert fresh != n
    right = (f"3x + 7 = {3 * fresh + 7}", f"3x = {3 * fresh}", f"x = {fresh}")
    assert set(verdicts(desk, *right)) == {Verdict.FOLLOWS}
    # The third go has other numbers again, and reopening finds all three as they were.
    assert desk_at(store, lesson).state == desk.state
    assert verdicts(desk, f"x = {n}")[0] is Verdict.BREAKS
    desk.start_correction(1)
    assert len({attempt.problem.numbers for attempt in desk.state.problems[1].attempts}) == 3
    assert desk_at(store, lesson).state == desk.state


def test_a_correction_on_the_same_numbers_has_them(store: Store) -> None:
    desk = desk_at(store, lesson_from(SAME))
    desk.go_to(1)
    verdicts(desk, "3x = 1", "x = 1")
    desk.start_correction(1)
    state = desk.state.problems[1]
    assert not state.other_numbers and state.current.problem.ask == state.first.problem.ask


def test_lines_are_never_marked_against_other_numbers_than_they_were_typed_for(store: Store) -> None:
    """A teacher may turn fresh numbers on or off while a correction is open."""
    for before, after in ((HOOPS, SAME), (SAME, HOOPS)):
        lesson = replace(lesson_from(before), path=f"{len(before)}.lesson")
        desk = desk_at(store, lesson)
        desk.go_to(1)
        verdicts(desk, "3x = 1", "x = 1")
        desk.start_correction(1)
        fresh = candles(desk)
        verdicts(desk, f"3x = {3 * fresh}")
        later = desk_at(store, replace(lesson_from(after), path=lesson.path))
        assert later.state.problems[1].current == replace(
            desk.state.problems[1].current, settings=later.state.lesson.settings
        )


def test_which_problem_an_attempt_asks() -> None:
    problem = drawn(lesson_from(HOOPS), 5).problems[0]
    terms = Terms(seed=5)
    assert asked_at(problem, terms, 0, Numbers.FRESH) == problem
    again = asked_at(problem, terms, 1, Numbers.SAME)
    assert again.numbers == problem.numbers
    assert isinstance(problem.task, Task) and again.task == replace(problem.task, every_step=True)
    fresh = [asked_at(problem, terms, attempt, Numbers.FRESH) for attempt in range(1, 5)]
    assert len({one.numbers for one in (problem, *fresh)}) == 5
    word = drawn(lesson_from(HOOPS), 5).problems[2]
    assert asked_at(word, terms, 1, Numbers.FRESH) == word
    assert numbers_of("") is Numbers.SAME and numbers_of("something new") is Numbers.SAME
    assert numbers_of("fresh numbers") is Numbers.FRESH


# --- what a problem is known by ---------------------------------------------------------------


def test_the_kinds_of_task_never_share_a_key() -> None:
    tasks = (
        Task(),
        Task(find=("x",)),
        ChoiceTask((), ()),
        WordTask("x"),
        DrawingTask((), ()),
        DrawingTask((), (), within_length="3"),
    )
    assert len({task_key(task) for task in tasks}) == len(tasks)
    assert task_key(WordTask("radius")) == '{"kind": "word", "word": "radius"}'


def test_work_does_not_move_to_numbers_that_are_drawn_in_another_way(store: Store) -> None:
    lesson = lesson_from(HOOPS)
    desk = desk_at(store, lesson)
    verdicts(desk, "C = 2 pi r")
    desk.go_to(1)
    verdicts(desk, f"x = {candles(desk)}")
    wider = lesson_from(HOOPS.replace("r from 3 to 12", "r from 3 to 13"))
    later = desk_at(store, wider)
    assert [p.status for p in later.state.problems[:2]] == [Status.UNTOUCHED, Status.DONE]
    back = desk_at(store, lesson)
    assert [p.status for p in back.state.problems[:2]] == [Status.BEGUN, Status.DONE]


def test_a_question_in_better_words_keeps_the_work(store: Store) -> None:
    desk = desk_at(store, lesson_from(HOOPS))
    verdicts(desk, "C = 2 pi r")
    reworded = lesson_from(HOOPS.replace("A hoop takes {C} of cane", "For a hoop {C} of cane are bent"))
    later = desk_at(store, reworded)
    assert "are bent" in later.state.problems[0].problem.ask
    assert later.state.problems[0].attempts[0].working == desk.state.problems[0].attempts[0].working
    assert later.state.problems[0].status is Status.BEGUN


def test_a_problem_without_numbers_to_draw_has_its_old_key() -> None:
    plain = lesson_from(HOOPS.replace("  vary     n from 11 to 60\n", "").replace("{3n + 7}", "40"))
    assert problem_key(plain.problems[1]) == task_key(plain.problems[1].task)
    assert '"drawn"' in problem_key(plain.problems[0])


# --- a review ---------------------------------------------------------------------------------


def write_review(folder: Path) -> Lesson:
    lamps = HOOPS.replace("Hoops", "Lamps").replace("find     x", "find     x\n  check    the answer")
    for name, text in (("hoops", HOOPS), ("lamps", lamps), ("review", REVIEW)):
        (folder / f"{name}.lesson").write_text(text, encoding="utf-8")
    lesson, faults = load_lesson(folder / "review.lesson")
    assert lesson is not None, faults
    return lesson


def test_a_review_is_a_set_of_ones_own_that_stays(store: Store, tmp_path: Path) -> None:
    review = write_review(tmp_path)
    seen, _ = glance(store, review)
    assert seen is not None and len(seen.statuses) == 3 and not seen.begun
    desk = desk_at(store, review)
    problems = desk.state.lesson.problems
    assert len(problems) == 3
    assert {problem.path for problem in problems} == {"hoops.lesson", "lamps.lesson"}
    assert problems == drawn(review, seed_of(store)).problems
    desk.submit("note" if isinstance(problems[0].task, Task) else "circle")
    assert desk_at(store, review).state == desk.state
    found, _ = store.read(lambda link: find_lesson(link, review))
    assert found is not None and found.lesson == desk.state.lesson and found.seed == seed_of(store)


def test_problems_of_one_name_from_two_lessons_are_two(tmp_path: Path) -> None:
    problem = write_review(tmp_path).problems[0]
    elsewhere = replace(problem, path="other.lesson")
    assert problem_key(problem) != problem_key(elsewhere) != problem_key(replace(problem, path=""))


# --- kinds ------------------------------------------------------------------------------------

KINDS = """\
lesson   Kinds
format   1

problem  Cut
  ask      What shape is the cut?
  choose   triangle, square, circle
  answer   square

problem  Word
  word     radius
  means    the way from the middle to the rim
  near     diameter
"""


def test_a_choice_and_a_word_are_missed_and_corrected_like_all_else(store: Store) -> None:
    lesson = lesson_from(KINDS)
    desk = desk_at(store, lesson)
    assert verdicts(desk, "A", "B") == [Verdict.BREAKS, Verdict.FOLLOWS]
    said = desk.finish().sentence
    assert "work it once more." in said and "steps" not in said
    desk.go_to(1)
    assert verdicts(desk, "raduis") == [Verdict.FOLLOWS]
    desk.finish()
    desk.start_correction(0)
    assert verdicts(desk, "square") == [Verdict.FOLLOWS]
    assert "last one" in desk.finish().sentence
    assert desk_at(store, lesson).state == desk.state


def test_a_hint_that_shows_an_answer_calls_it_so(store: Store) -> None:
    desk = desk_at(store, lesson_from(KINDS))
    desk.go_to(1)
    said = [desk.hint().sentence for _ in range(4)]
    assert said[:2] == ["", ""]
    assert "shows the answer" in said[2] and "why it fits" in said[3]
    hint = desk.state.problems[1].current.hint
    assert hint is not None and hint.line == "radius"
    assert desk.state.problems[1].status is Status.SHOWN
