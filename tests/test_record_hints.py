"""Hints at the desk: what is said before a line is shown, what is on the disk, what comes back."""

import sqlite3
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from record_marker import BANNER, EQUATION, HOOP, desk_at, lesson_of

from tutor.marking.hint_stage import Hint, HintStage
from tutor.record.desk import Desk, open_desk
from tutor.record.glance import glance
from tutor.record.state import Action, Status
from tutor.record.store import Store, open_store

LESSON = lesson_of(EQUATION, HOOP, BANNER)


def opened_at(path: Path) -> Store:
    store, sentence = open_store(path)
    assert store is not None, sentence
    return store


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    opened = opened_at(tmp_path / "K7.evenline")
    yield opened
    opened.close()


@pytest.fixture
def desk(store: Store) -> Desk:
    return desk_at(store, LESSON)


def here(desk: Desk) -> Status:
    return desk.state.problems[desk.state.current].status


def hint(desk: Desk) -> Hint | None:
    return desk.state.problems[desk.state.current].current.hint


def ask(desk: Desk, times: int) -> list[str]:
    return [desk.hint().sentence for _ in range(times)]


def rows(store: Store, sql: str) -> list[tuple[object, ...]]:
    found, sentence = store.read(lambda link: link.execute(sql).fetchall())
    assert found is not None, sentence
    return found


def test_a_line_is_shown_only_after_the_student_was_told_what_that_leads_to(desk: Desk) -> None:
    desk.submit("one")
    assert ask(desk, 2) == ["", ""]
    assert hint(desk) == Hint(HintStage.WHAT, "what after one")
    (told,) = ask(desk, 1)
    assert "comes back as a correction" in told and "once more" in told
    assert hint(desk) == Hint(HintStage.WHAT, "what after one") and here(desk) is Status.BEGUN
    (shown,) = ask(desk, 1)
    assert hint(desk) == Hint(HintStage.LINE, "line after one", "next")
    assert here(desk) is Status.SHOWN and "Type it" in shown
    assert "no further hint" in desk.hint().sentence
    assert [line.text for line in desk.state.problems[0].current.working.lines] == ["one"]


@pytest.mark.parametrize("between", ["submit", "go", "appeal"])
def test_the_warning_holds_only_for_the_work_as_it_was(desk: Desk, between: str) -> None:
    desk.submit("hmm")
    assert "comes back" in ask(desk, 3)[-1]
    desk.keep_draft("a letter typed meanwhile")
    match between:
        case "submit":
            desk.submit("two")
            assert "comes back" in ask(desk, 3)[-1]
        case "appeal":
            desk.appeal(0)
            assert "comes back" in ask(desk, 1)[-1]
        case _:
            desk.go_to(1)
            assert "comes back" in ask(desk, 3)[-1]
    assert here(desk) is not Status.SHOWN


def test_a_problem_that_is_missed_already_is_shown_the_line_at_once(desk: Desk) -> None:
    desk.submit("bad")
    desk.submit("two")
    assert "comes back" not in "".join(ask(desk, 3))
    assert hint(desk) == Hint(HintStage.LINE, "line after two", "next")
    assert here(desk) is Status.MISSED


def test_where_the_engine_has_no_hint_the_student_is_told_what_to_do(desk: Desk, store: Store) -> None:
    desk.submit("stuck")
    assert "ask your teacher" in desk.hint().sentence
    assert rows(store, "SELECT * FROM hint") == [] and hint(desk) is None


def test_where_only_the_line_can_be_shown_the_student_is_told_first(desk: Desk) -> None:
    desk.submit("dark")
    assert "comes back" in ask(desk, 1)[0]
    ask(desk, 1)
    assert here(desk) is Status.SHOWN


def test_a_hint_is_on_the_disk_with_its_time_its_line_and_its_stage(desk: Desk, store: Store) -> None:
    desk.hint()
    desk.submit("one")
    desk.submit("two")
    ask(desk, 4)
    asked = rows(
        store,
        "SELECT line.text, stage, message, shown, start, past FROM hint JOIN event ON event.id = hint.event "
        "LEFT JOIN event AS line ON line.id = event.line WHERE event.kind = 'hint' ORDER BY event.id",
    )
    assert asked == [
        (None, "where", "where after nothing", None, 0, 0),
        ("two", "where", "where after two", None, 0, 3),
        ("two", "what", "what after two", None, None, None),
        ("two", "line", "line after two", "next", None, None),
    ]
    times = [str(at) for (at,) in rows(store, "SELECT at FROM hint UNION SELECT at FROM event")]
    assert all(at.endswith("+00:00") for at in times)


def test_a_hint_that_the_disk_refuses_is_not_given(desk: Desk, store: Store) -> None:
    desk.submit("one")
    store.close()
    assert "put away" in desk.hint().sentence
    assert hint(desk) is None


def test_the_shelf_tells_a_shown_line_from_a_broken_one(desk: Desk, store: Store) -> None:
    ask(desk, 4)
    desk.go_to(1)
    desk.submit("bad")
    desk.submit("two")
    found, _ = glance(store, LESSON)
    assert found is not None
    assert found.statuses == (Status.SHOWN, Status.MISSED, Status.UNTOUCHED)
    assert found.to_correct == 2 and desk.state.open_corrections == (0, 1)


def test_a_shown_problem_is_worked_once_more(desk: Desk) -> None:
    ask(desk, 4)
    desk.submit("answer")
    assert "A line was shown here" in desk.finish().sentence
    assert here(desk) is Status.SHOWN
    desk.start_correction(0)
    desk.submit("answer")
    assert "finished" in desk.finish().sentence
    assert here(desk) is Status.CORRECTED


def test_a_correction_with_a_shown_line_goes_on_until_the_teacher_is_asked(desk: Desk) -> None:
    ask(desk, 4)
    for attempt in (1, 2, 3):
        desk.start_correction(0)
        told = ask(desk, 4)
        assert "work this correction once more" in told[2]
        desk.submit("answer")
        assert here(desk) is Status.CORRECTING
        assert (Action.FINISH in desk.state.problems[0].actions) == (attempt == 3)
        assert ("Ask your teacher" in told[3]) == (attempt == 3)
    assert "kept for your teacher" in desk.finish().sentence
    assert here(desk) is Status.PROVISIONAL


@settings(max_examples=20, deadline=None)
@given(
    steps=st.lists(
        st.sampled_from(["one", "bad", "/hint", "/hint", "/take", "/strike", "/again"]), max_size=12
    )
)
def test_coming_back_finds_the_same_state(steps: list[str], tmp_path_factory: pytest.TempPathFactory) -> None:
    store = opened_at(tmp_path_factory.mktemp("K7") / "K7.evenline")
    desk = desk_at(store, LESSON)
    for step in steps:
        match step:
            case "/hint":
                desk.hint()
            case "/take":
                desk.take_back()
            case "/strike":
                desk.strike(0)
            case "/again":
                desk.start_correction(0)
            case _:
                desk.submit(step)
    store.close()
    later = opened_at(store.path)
    assert desk_at(later, LESSON).state == desk.state
    later.close()


def test_a_stage_that_nobody_knows_is_damage(store: Store) -> None:
    desk_at(store, LESSON).hint()
    store.close()
    with sqlite3.connect(store.path) as link:
        triggers = link.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").fetchall()
        for name, _ in triggers:
            link.execute(f"DROP TRIGGER {name}")
        link.execute("PRAGMA ignore_check_constraints = ON")
        link.execute("UPDATE hint SET stage = 'all'")
        for _, sql in triggers:
            link.execute(sql)
    link.close()
    reopened, sentence = open_store(store.path)
    if reopened is not None:
        desk, sentence = open_desk(reopened, LESSON)
        reopened.close()
        assert desk is None
    assert "damaged" in sentence
