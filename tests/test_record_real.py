"""The record with the marker that ships: one hoop, worked, missed, corrected, left and found again."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from record_marker import lesson_of

from tutor.lesson.model import Problem
from tutor.marking.task import Task
from tutor.marking.verdict import Verdict
from tutor.quantity.pi import Pi
from tutor.record.desk import Desk, open_desk
from tutor.record.state import Status
from tutor.record.store import Store, open_store

HOOP = Problem(
    "Hoop",
    "The hoop of a lantern is bent from 47.1 cm of cane. How far is it from the middle?",
    Task(
        formulas=("C = 2 pi r",),
        givens=(("C", "47.1 cm"),),
        find=("r",),
        units=("cm",),
        pi=Pi.DECIMAL,
        measures=("C", "r"),
    ),
    None,
    1,
)
CANDLES = Problem("Candles", "How many candles?", Task(formulas=("3x + 7 = 40",), find=("x",)), None, 9)
LESSON = lesson_of(HOOP, CANDLES)

FOUR_STEPS = ("C = 2 pi r", "C = 47.1 cm", "r = ?", "47.1 = 2 * 3.14 * r", "47.1 = 6.28r", "r = 7.5 cm")


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    opened, sentence = open_store(tmp_path / "K7.evenline")
    assert opened is not None, sentence
    yield opened
    opened.close()


def desk_at(store: Store) -> Desk:
    desk, sentence = open_desk(store, LESSON)
    assert desk is not None, sentence
    return desk


def work(desk: Desk, *lines: str) -> list[Verdict]:
    marks = [desk.submit(line).mark for line in lines]
    return [mark.verdict for mark in marks if mark is not None]


def test_a_missed_hoop_is_corrected_and_the_lesson_is_done(store: Store) -> None:
    desk = desk_at(store)
    assert work(desk, "C = 2 pi r", "47.1 = 2 * 3.14 * r", "47.1 = 5.14r")[-1] is Verdict.BREAKS
    desk.strike(2)
    assert work(desk, "47.1 = 6.28r", "r = 7.5 cm")[-1] is Verdict.FOLLOWS
    assert "waits for you" in desk.finish().sentence
    desk.go_to(1)
    work(desk, "3x = 33", "x = 11")
    assert "finished" in desk.finish().sentence
    assert not desk.state.done and desk.state.next_open == 0

    desk.start_correction(0)
    work(desk, *FOUR_STEPS)
    assert desk.state.problems[0].status is Status.CORRECTED
    assert "last one" in desk.finish().sentence
    assert desk.state.done
    assert desk.state.problems[0].first.working.progress.first_wrong == 2
    assert desk_at(store).state == desk.state


@pytest.mark.parametrize("left_out", [FOUR_STEPS[0], FOUR_STEPS[1]])
def test_a_correction_without_one_of_its_steps_stays_open(store: Store, left_out: str) -> None:
    desk = desk_at(store)
    work(desk, "C = 47.1 kg", "r = ?")
    desk.start_correction(0)
    work(desk, *(line for line in FOUR_STEPS if line != left_out))
    assert desk.state.problems[0].status is Status.CORRECTING
    assert "still asked for" in desk.finish().sentence


def test_a_wrong_check_after_the_answer_does_not_make_it_missed(store: Store) -> None:
    desk = desk_at(store)
    assert work(desk, *FOUR_STEPS, "2 * 3.14 * 7.5 = 48", "2 * 3.14 * 7.5 = 47.1")[-2:] == [
        Verdict.BREAKS,
        Verdict.FOLLOWS,
    ]
    assert desk.state.problems[0].status is Status.DONE


def test_an_unread_line_stays_in_the_box_and_struck_lines_come_back_struck(store: Store) -> None:
    desk = desk_at(store)
    work(desk, "C = 2 pi r", "47.1 = 6.28r", "r = 8 cm")
    desk.strike(2)
    assert work(desk, "r = (7.5") == [Verdict.UNREAD]
    later = desk_at(store)
    assert later.state == desk.state
    assert [line.struck for line in later.state.problems[0].current.working.lines] == [False, False, True]
    assert later.state.problems[0].draft == "r = (7.5"


def test_an_appealed_line_lets_a_correction_close_for_the_teacher(store: Store) -> None:
    desk = desk_at(store)
    desk.go_to(1)
    work(desk, "3x = 47", "x = 47/3")
    desk.start_correction(1)
    work(desk, "3x = 47", "x = 47/3")
    assert "still asked for" in desk.finish().sentence
    desk.appeal(0)
    assert "kept for your teacher" in desk.finish().sentence
    assert desk.state.problems[1].status is Status.PROVISIONAL
    assert desk_at(store).state == desk.state
