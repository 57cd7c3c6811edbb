"""The record as a file: who may hold it, what may stand in its place, and how it is copied."""

import os
import random
import sqlite3
import stat
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from record_marker import BANNER, EQUATION, HOOP, desk_at, lesson_of

from tutor.record import schema
from tutor.record.erase import erase
from tutor.record.hand_in import hand_in
from tutor.record.place import code_problem, record_path
from tutor.record.store import Store, open_store

TREE = Path(__file__).resolve().parent.parent
LESSON = lesson_of(EQUATION, HOOP, BANNER)

posix = pytest.mark.skipif(os.name != "posix", reason="permissions of POSIX systems")


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("EVENLINE_HOME", str(tmp_path / "home"))
    return tmp_path / "home"


@pytest.fixture
def store(home: Path) -> Iterator[Store]:
    opened = opened_at(record_path("K7"))
    yield opened
    opened.close()


def opened_at(path: Path) -> Store:
    store, sentence = open_store(path)
    assert store is not None, sentence
    return store


def refusal_at(path: Path) -> str:
    store, sentence = open_store(path)
    assert store is None
    return sentence


def run_child(code: str, *arguments: str) -> subprocess.CompletedProcess[str]:
    environment = os.environ | {"PYTHONPATH": os.pathsep.join((str(TREE), str(TREE / "tests")))}
    return subprocess.run(
        [sys.executable, "-c", code, *arguments],
        env=environment,
        capture_output=True,
        text=True,
        timeout=60,
        check=True,
        cwd=TREE,
    )


# --- codes and places -------------------------------------------------------------------------


@pytest.mark.parametrize("code", ["K7", "a", "row-3_seat-2", "A" * 32, "0", "CONE", "com"])
def test_usual_codes_name_a_file_in_the_home(code: str, home: Path) -> None:
    assert code_problem(code) == ""
    assert record_path(code).parent == home


@pytest.mark.parametrize(
    "code", ["", " ", "K 7", "../K7", "K7/", "K7\n", "K7.db", "A" * 33, "é", "٣", "\x00", "a\\b", "*"]
)
def test_other_codes_are_refused_with_an_example(code: str) -> None:
    assert "such as K7" in code_problem(code)
    with pytest.raises(ValueError, match="such as K7"):
        record_path(code)
    assert "such as K7" in erase(code)


@pytest.mark.parametrize("code", ["CON", "con", "NUL", "aux", "Prn", "COM1", "lpt9"])
def test_device_names_of_windows_are_refused(code: str) -> None:
    assert "Windows" in code_problem(code)


def test_small_and_capital_letters_are_one_student() -> None:
    assert record_path("k7") == record_path("K7")


# --- opening ----------------------------------------------------------------------------------


@posix
def test_a_missing_home_is_made_for_its_owner_only(tmp_path: Path) -> None:
    path = tmp_path / "a" / "b" / "K7.evenline"
    opened_at(path).close()
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700
    assert stat.S_IMODE(path.parent.parent.stat().st_mode) == 0o700


@posix
def test_a_home_that_is_there_keeps_its_permissions(tmp_path: Path) -> None:
    (tmp_path / "shared").mkdir(mode=0o755)
    opened_at(tmp_path / "shared" / "K7.evenline").close()
    assert stat.S_IMODE((tmp_path / "shared").stat().st_mode) == 0o755


def test_the_file_says_whose_it_is_and_which_layout(store: Store) -> None:
    store.close()
    with sqlite3.connect(store.path) as link:
        assert link.execute("PRAGMA application_id").fetchone() == (schema.APPLICATION_ID,)
        assert link.execute("PRAGMA user_version").fetchone() == (schema.VERSION,)
        assert link.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        tables = link.execute("SELECT name, strict FROM pragma_table_list WHERE schema = 'main'").fetchall()
        assert all(strict for name, strict in tables if not name.startswith("sqlite_"))
    link.close()


def test_every_write_waits_for_the_disk(store: Store) -> None:
    level, _ = store.read(lambda link: link.execute("PRAGMA synchronous").fetchone()[0])
    keys, _ = store.read(lambda link: link.execute("PRAGMA foreign_keys").fetchone()[0])
    assert level is not None and level >= 2
    assert keys == 1


def test_nothing_stays_beside_the_file_when_it_is_closed(store: Store) -> None:
    desk_at(store, LESSON).submit("one")
    store.close()
    assert [p.name for p in store.path.parent.iterdir()] == ["K7.evenline"]


def test_closing_twice_is_one_closing_and_the_file_opens_again(store: Store) -> None:
    store.close()
    store.close()
    opened_at(store.path).close()


def test_a_store_that_is_closed_says_so(store: Store) -> None:
    desk = desk_at(store, LESSON)
    store.close()
    outcome = desk.submit("one")
    assert outcome.mark is None and "put away" in outcome.sentence
    desk.keep_draft("on")


def test_a_file_name_that_is_no_code_is_refused_before_anything_is_made(tmp_path: Path) -> None:
    assert "such as K7" in refusal_at(tmp_path / "my work.evenline")
    assert list(tmp_path.iterdir()) == []


def test_a_record_whose_code_would_lead_out_of_a_folder_is_not_trusted(store: Store) -> None:
    store.close()
    with sqlite3.connect(store.path) as link:
        link.execute("DROP TRIGGER record_no_update")
        link.execute("UPDATE record SET code = '../M3'")
        link.execute(schema.refusal("record", "UPDATE", ""))
    link.close()
    assert "damaged" in refusal_at(store.path)


def test_an_empty_file_is_begun(tmp_path: Path) -> None:
    path = tmp_path / "K7.evenline"
    path.touch()
    opened_at(path).close()
    assert schema.read_header(path) is schema.Header.OURS


# --- only added to ----------------------------------------------------------------------------

TABLES = ("record", "sitting", "book", "edition", "problem", "event", "verdict", "hint", "standing")


@pytest.mark.parametrize(
    "change",
    ["UPDATE {0} SET id = id + 100", "DELETE FROM {0}", "INSERT OR REPLACE INTO {0} SELECT * FROM {0}"],
)
def test_no_row_is_ever_rewritten(store: Store, change: str) -> None:
    desk = desk_at(store, LESSON)
    desk.submit("one")
    desk.hint()
    store.close()
    link = sqlite3.connect(store.path)
    for table in TABLES:
        assert link.execute(f"SELECT count(*) FROM {table}").fetchone()[0] > 0
        with pytest.raises(sqlite3.IntegrityError, match="only added to"):
            link.execute(change.format(table))
    link.close()


def test_a_bug_of_ours_is_not_dressed_up_as_a_sentence(store: Store) -> None:
    with pytest.raises(sqlite3.IntegrityError):
        store.write(lambda link: link.execute("DELETE FROM sitting"))
    assert store.write(lambda link: link.execute("SELECT 1").fetchone()) == ((1,), "")


# --- files that are not a record we can use ---------------------------------------------------


def assert_untouched(path: Path, before: bytes) -> None:
    assert path.read_bytes() == before
    assert [p.name for p in path.parent.iterdir()] == [path.name]


@pytest.mark.parametrize("content", [b"x", b"not a record\n" * 50, b"\x00" * 4096, b"SQLite format 3\x00"])
def test_a_file_that_is_no_database_stays_and_is_named(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "K7.evenline"
    path.write_bytes(content)
    sentence = refusal_at(path)
    assert str(path) in sentence and "damaged" in sentence
    assert_untouched(path, content)


@pytest.mark.parametrize("kept", [0.3, 0.6, 0.95, 0.999])
def test_a_torn_record_stays_and_is_named(store: Store, tmp_path: Path, kept: float) -> None:
    desk_at(store, LESSON).submit("one")
    store.close()
    whole = store.path.read_bytes()
    path = tmp_path / "torn" / "K7.evenline"
    path.parent.mkdir()
    torn = whole[: int(len(whole) * kept)]
    path.write_bytes(torn)
    assert "damaged" in refusal_at(path)
    assert_untouched(path, torn)


def test_a_record_with_a_page_overwritten_stays_and_is_named(store: Store, tmp_path: Path) -> None:
    store.close()
    whole = bytearray(store.path.read_bytes())
    whole[4096 * 2 : 4096 * 3] = b"\xff" * 4096
    path = tmp_path / "torn" / "K7.evenline"
    path.parent.mkdir()
    path.write_bytes(whole)
    assert "damaged" in refusal_at(path)
    assert_untouched(path, bytes(whole))


@pytest.mark.parametrize(
    "change", ["DROP TABLE standing", "DROP TRIGGER event_no_delete", "ALTER TABLE event ADD more TEXT"]
)
def test_a_record_whose_tables_were_changed_is_not_trusted(store: Store, change: str) -> None:
    store.close()
    with sqlite3.connect(store.path) as link:
        link.execute(change)
    link.close()
    assert "damaged" in refusal_at(store.path)


def test_a_database_of_another_program_is_never_written_to(tmp_path: Path) -> None:
    path = tmp_path / "K7.evenline"
    with sqlite3.connect(path) as link:
        link.execute("CREATE TABLE songs (name TEXT)")
    link.close()
    before = path.read_bytes()
    sentence = refusal_at(path)
    assert str(path) in sentence and "not made by Evenline" in sentence
    assert_untouched(path, before)


def test_a_record_of_a_newer_program_is_never_written_to(store: Store) -> None:
    store.close()
    with sqlite3.connect(store.path) as link:
        link.execute(f"PRAGMA user_version = {schema.VERSION + 1}")
    link.close()
    before = store.path.read_bytes()
    sentence = refusal_at(store.path)
    assert "newer" in sentence and str(store.path) in sentence
    assert store.path.read_bytes() == before


def test_a_folder_in_its_place_is_named(tmp_path: Path) -> None:
    path = tmp_path / "K7.evenline"
    path.mkdir()
    assert "Move it away" in refusal_at(path)


def test_a_file_where_the_home_should_be_is_named(tmp_path: Path) -> None:
    (tmp_path / "home").write_text("a list of songs", encoding="utf-8")
    sentence = refusal_at(tmp_path / "home" / "K7.evenline")
    assert str(tmp_path / "home") in sentence
    assert (tmp_path / "home").read_text(encoding="utf-8") == "a list of songs"


def test_bytes_that_are_not_utf8_do_not_stop_the_reading(store: Store) -> None:
    desk_at(store, LESSON).submit("one")
    store.close()
    with sqlite3.connect(store.path) as link:
        link.execute(
            "INSERT INTO event (edition, problem, attempt, kind, text, at) "
            "VALUES (1, 1, 0, 'line', CAST(x'6fff' AS TEXT), '')"
        )
        link.execute(
            "INSERT INTO verdict (line, verdict, message, at) VALUES (last_insert_rowid(), 'so', '', '')"
        )
    link.close()
    again = opened_at(store.path)
    lines = desk_at(again, LESSON).state.problems[0].current.working.lines
    assert [line.text for line in lines] == ["one", "o\ufffd"]
    again.close()


# --- locked, read-only, full ------------------------------------------------------------------

_OPEN = "import sys; from pathlib import Path; from tutor.record.store import open_store; "


def test_a_second_process_is_told_to_close_the_first(store: Store) -> None:
    answer = run_child(_OPEN + "print(open_store(Path(sys.argv[1])))", str(store.path)).stdout
    assert "None" in answer and "open in another window" in answer
    desk = desk_at(store, LESSON)
    assert desk.submit("one").sentence == ""


def test_a_second_opening_in_one_process_does_not_loosen_the_lock(store: Store) -> None:
    assert "open in another window" in refusal_at(store.path)
    answer = run_child(_OPEN + "print(open_store(Path(sys.argv[1])))", str(store.path)).stdout
    assert "open in another window" in answer


def test_a_record_is_free_again_after_its_process_died(home: Path) -> None:
    path = record_path("K7")
    run_child(_OPEN + "import os; open_store(Path(sys.argv[1])); os._exit(0)", str(path))
    opened_at(path).close()


@pytest.fixture
def open_folder() -> Iterator[Path]:
    """A folder that an unprivileged child can reach (``tmp_path`` is closed to it)."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        folder.chmod(0o777)
        yield folder


# To root no permission applies; Python itself may lie where only root can read, so the child
# takes leave of its rights after the imports.
_HUMBLE = _OPEN + "import os; from tutor.record.hand_in import hand_in; os.geteuid() or os.setuid(65534); "


@posix
@pytest.mark.parametrize(("folder_mode", "file_mode"), [(0o555, 0o666), (0o555, 0o444), (0o777, 0o444)])
def test_a_place_that_refuses_writing_is_named_and_left_as_it_is(
    open_folder: Path, folder_mode: int, file_mode: int
) -> None:
    path = open_folder / "K7.evenline"
    store = opened_at(path)
    desk_at(store, LESSON).submit("one")
    store.close()
    before = path.read_bytes()
    path.chmod(file_mode)
    open_folder.chmod(folder_mode)
    answer = run_child(_HUMBLE + "print(open_store(Path(sys.argv[1])))", str(path)).stdout
    open_folder.chmod(0o777)
    assert "None" in answer and "may not read or write" in answer
    assert path.read_bytes() == before


@posix
def test_a_home_that_cannot_be_made_is_named(open_folder: Path) -> None:
    open_folder.chmod(0o555)
    path = str(open_folder / "home" / "K7.evenline")
    answer = run_child(_HUMBLE + "print(open_store(Path(sys.argv[1])))", path).stdout
    open_folder.chmod(0o777)
    assert "None" in answer and "may not read or write" in answer


def fill_disk(store: Store) -> None:
    """Let the database grow no further, as on a full disk."""
    store.read(lambda link: link.execute("PRAGMA max_page_count = 1"))


def test_a_full_disk_loses_nothing_and_room_made_lets_the_work_go_on(store: Store) -> None:
    desk = desk_at(store, LESSON)
    fill_disk(store)
    said = ""
    kept = 0
    while not said:
        outcome = desk.submit(f"one {'x' * 1500}")
        said = outcome.sentence
        kept += not said
    assert 0 < kept < 50
    assert "disk is full" in said and outcome.mark is None
    assert len(desk.state.problems[0].current.working.lines) == kept
    store.read(lambda link: link.execute("PRAGMA max_page_count = 100000"))
    assert desk.submit("two").sentence == ""
    state = desk.state
    store.close()
    again = opened_at(store.path)
    assert desk_at(again, LESSON).state == state
    again.close()


# --- handing in -------------------------------------------------------------------------------


def lines_in(path: Path) -> list[str]:
    link = sqlite3.connect(path)
    rows = [text for (text,) in link.execute("SELECT text FROM event WHERE kind = 'line' ORDER BY id")]
    link.close()
    return rows


def test_a_handed_in_copy_holds_everything_and_replaces_an_earlier_one(store: Store, tmp_path: Path) -> None:
    folder = tmp_path / "teacher"
    folder.mkdir()
    desk = desk_at(store, LESSON)
    desk.submit("one")
    assert str(folder / "K7.evenline") in hand_in(store, folder)
    desk.submit("two")
    assert "handed in" in hand_in(store, folder)
    assert [p.name for p in folder.iterdir()] == ["K7.evenline"]
    assert lines_in(folder / "K7.evenline") == ["one", "two"]
    assert desk.submit("three").sentence == ""


def test_a_handed_in_copy_opens_as_a_record(store: Store, tmp_path: Path) -> None:
    desk = desk_at(store, LESSON)
    desk.submit("one")
    hand_in(store, tmp_path)
    copy = opened_at(tmp_path / "K7.evenline")
    assert (copy.code, copy.mark) == (store.code, store.mark)
    assert desk_at(copy, LESSON).state == desk.state
    copy.close()


def test_someone_elses_file_of_that_name_stays(store: Store, tmp_path: Path) -> None:
    (tmp_path / "K7.evenline").write_text("marks of last year", encoding="utf-8")
    for _ in range(2):
        assert "K7-2.evenline" in hand_in(store, tmp_path)
    assert (tmp_path / "K7.evenline").read_text(encoding="utf-8") == "marks of last year"
    assert sorted(p.name for p in tmp_path.iterdir() if p.is_file()) == ["K7-2.evenline", "K7.evenline"]


def test_handing_in_to_no_folder_says_what_to_check(store: Store, tmp_path: Path) -> None:
    assert "no folder" in hand_in(store, tmp_path / "stick")
    (tmp_path / "note").touch()
    assert "no folder" in hand_in(store, tmp_path / "note")


@posix
def test_handing_in_where_writing_is_refused_leaves_nothing(open_folder: Path) -> None:
    (open_folder / "home").mkdir()
    (open_folder / "home").chmod(0o777)
    teacher = open_folder / "teacher"
    teacher.mkdir(mode=0o555)
    code = _HUMBLE + "print(hand_in(open_store(Path(sys.argv[1]))[0], Path(sys.argv[2])))"
    path = str(open_folder / "home" / "K7.evenline")
    answer = run_child(code, path, str(teacher)).stdout
    assert "not handed in" in answer and "could not write" in answer and str(teacher) in answer
    assert list(teacher.iterdir()) == []


def test_a_copy_that_fails_half_way_leaves_the_earlier_one(
    store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk = desk_at(store, LESSON)
    desk.submit("one")
    hand_in(store, tmp_path)
    before = (tmp_path / "K7.evenline").read_bytes()
    desk.submit("two")

    def no_room(handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", no_room)
    assert "no room left" in hand_in(store, tmp_path)
    assert (tmp_path / "K7.evenline").read_bytes() == before
    assert sorted(p.name for p in tmp_path.iterdir() if p.is_file()) == ["K7.evenline"]


# --- erasing ----------------------------------------------------------------------------------


def test_erasing_leaves_nothing_of_one_student_and_all_of_another(store: Store, home: Path) -> None:
    store.close()
    opened_at(record_path("M3")).close()
    (home / "K7.evenline-journal").write_bytes(b"left behind")
    assert "is erased" in erase("k7")
    assert [p.name for p in home.iterdir()] == ["M3.evenline"]
    assert "no work of K7" in erase("K7")


def test_a_record_that_is_open_is_not_erased(store: Store) -> None:
    assert "open in another window" in erase("K7")
    code = "from tutor.record.erase import erase; print(erase('K7'))"
    assert "open in another window" in run_child(code).stdout
    assert store.path.exists()
    assert desk_at(store, LESSON).submit("one").sentence == ""


def test_a_damaged_record_can_be_erased(home: Path) -> None:
    home.mkdir()
    record_path("K7").write_bytes(b"torn")
    assert "is erased" in erase("K7")
    assert list(home.iterdir()) == []


def test_random_damage_gives_a_sentence_and_never_a_traceback(tmp_path: Path) -> None:
    """Bytes changed anywhere in the file: it opens, or a sentence names the torn file."""
    whole = tmp_path / "K7.evenline"
    store, sentence = open_store(whole)
    assert store is not None, sentence
    store.close()
    healthy = whole.read_bytes()
    chance = random.Random(7)
    for trial in range(60):
        damaged = bytearray(healthy)
        for _ in range(chance.randint(1, 40)):
            damaged[chance.randrange(100, len(damaged))] = chance.randrange(256)
        path = tmp_path / f"D{trial}.evenline"
        path.write_bytes(bytes(damaged))
        opened, said = open_store(path)
        assert (opened is None) == bool(said)
        if opened is not None:
            opened.close()
