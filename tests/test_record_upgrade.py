"""A record that an older version of the tables wrote: brought up on opening, only read in a teacher's hands."""

import shutil
import sqlite3
import stat
from pathlib import Path

import pytest
from record_marker import BANNER, EQUATION, HOOP, desk_at, lesson_of

from tutor.record import ledger, schema
from tutor.record.state import Status
from tutor.record.store import Store, open_store

OLD = Path(__file__).with_name("record_version_1.sql").read_text(encoding="utf-8")
LESSON = lesson_of(EQUATION, HOOP, BANNER)
KEPT = ("book", "edition", "problem", "event", "verdict", "standing", "draft", "record")


@pytest.fixture
def old(tmp_path: Path) -> Path:
    path = tmp_path / "K7.evenline"
    with sqlite3.connect(path) as link:
        link.executescript(OLD)
    link.close()
    return path


def rows(path: Path) -> dict[str, list[tuple[object, ...]]]:
    link = sqlite3.connect(path)
    found = {name: link.execute(f"SELECT * FROM {name} ORDER BY 1").fetchall() for name in KEPT}
    link.close()
    return found


def opened_at(path: Path) -> Store:
    store, sentence = open_store(path)
    assert store is not None, sentence
    return store


def test_every_row_is_as_it_was_and_the_tables_are_those_of_today(old: Path) -> None:
    before = rows(old)
    opened_at(old).close()
    assert rows(old) == before
    with sqlite3.connect(old) as link:
        assert schema.version_of(link) == schema.VERSION
        assert schema.is_sound(link)
        assert link.execute("PRAGMA foreign_key_check").fetchall() == []
        assert link.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        with pytest.raises(sqlite3.IntegrityError, match="only added to"):
            link.execute("UPDATE event SET text = 'two'")
    link.close()


def test_the_student_goes_on_where_they_were_and_can_ask_for_a_hint(old: Path) -> None:
    store = opened_at(old)
    desk = desk_at(store, LESSON)
    first = desk.state.problems[0]
    assert [line.text for line in first.first.working.lines] == ["one", "bad two", "answer"]
    assert [line.text for line in first.current.working.lines] == ["one", "hmm"]
    assert first.status is Status.CORRECTING and first.current.appealed == {1}
    assert desk.state.current == 2 and desk.state.problems[2].draft == "half a li"
    assert desk.hint().sentence == ""
    store.close()
    again = opened_at(old)
    assert desk_at(again, LESSON).state == desk.state
    again.close()


def test_opening_it_twice_brings_it_up_once(old: Path) -> None:
    opened_at(old).close()
    before = rows(old)
    opened_at(old).close()
    assert rows(old) == before


@pytest.mark.parametrize(
    "change", ["DROP TABLE standing", "DROP TRIGGER event_no_delete", "ALTER TABLE event ADD more TEXT"]
)
def test_an_old_record_that_was_changed_is_left_alone(old: Path, change: str) -> None:
    with sqlite3.connect(old) as link:
        link.execute(change)
    link.close()
    before = old.read_bytes()
    store, sentence = open_store(old)
    assert store is None and "damaged" in sentence
    assert old.read_bytes() == before


def test_an_old_record_whose_rows_do_not_fit_together_is_left_alone(old: Path) -> None:
    with sqlite3.connect(old) as link:
        link.execute("INSERT INTO event (edition, problem, attempt, kind, at) VALUES (9, 1, 0, 'go', '')")
    link.close()
    before = rows(old)
    store, sentence = open_store(old)
    assert store is None and "damaged" in sentence
    assert rows(old) == before


def test_where_the_disk_is_full_the_old_record_stays(old: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = rows(old)
    upgrade = schema.upgrade

    def with_little_room(link: sqlite3.Connection) -> bool:
        pages = link.execute("PRAGMA page_count").fetchone()[0]
        link.execute(f"PRAGMA max_page_count = {pages}")
        return upgrade(link)

    monkeypatch.setattr(schema, "upgrade", with_little_room)
    store, sentence = open_store(old)
    assert store is None and "full" in sentence
    assert rows(old) == before


def test_a_teacher_reads_it_without_changing_it(old: Path, tmp_path: Path) -> None:
    copy = tmp_path / "copy.evenline"
    shutil.copy(old, copy)
    copy.chmod(stat.S_IREAD)
    link = sqlite3.connect(f"{copy.as_uri()}?mode=ro", uri=True)
    assert schema.is_sound(link)
    written, sentence = ledger.read_work(Store(link, copy, "K7", "mark"), (1, 2, 3))
    link.close()
    assert written is not None, sentence
    assert len(written.events) == 13 and all(event.hint is None for event in written.events)
    assert copy.read_bytes() == old.read_bytes()
