"""The report: who missed what, from files that nobody has to believe."""

import contextlib
import random
import sqlite3
import unicodedata
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from teacher_class import (
    SMALL,
    forge,
    handed_in_once,
    lines,
    missed_hoop,
    reported,
    section,
    student,
    taken,
)

from tutor.figure.lettering import cell_width
from tutor.marking.verdict import Verdict
from tutor.record.desk import Desk
from tutor.record.state import Status
from tutor.teacher.table import short

PARADE = Path(__file__).parent / "parade.lesson"


pytest_plugins = ("teacher_class",)
pytestmark = pytest.mark.usefixtures("home")


@pytest.fixture(scope="module")
def missed_bytes(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """Return the file that K7 hands in after ``missed_hoop``."""
    return handed_in_once(tmp_path_factory, "small.lesson", SMALL, {"K7": missed_hoop})["K7"]


@pytest.fixture
def missed_file(missed_bytes: bytes, folder: Path) -> Path:
    path = folder / "K7.evenline"
    path.write_bytes(missed_bytes)
    return path


def test_a_report_says_who_missed_what_at_which_line_and_what_is_left(
    lesson_file: Path, folder: Path
) -> None:
    student("K7", lesson_file, folder, missed_hoop)
    student("M2", lesson_file, folder, lines("6n = 72", "n = 12"))
    code, out, err = reported(lesson_file, folder)
    assert (code, err) == (0, "")
    assert "2 student files, 2 problems" in out
    missed = section(out, "Missed")[2:]
    assert [row.split() for row in missed] == [["K7", "Hoop", "3", "53.38", "=", "5.14r", "to", "correct"]]
    assert "line 3" in section(out, "Each problem")[3]
    rows = [row.split() for row in section(out, "Each student")[2:]]
    assert rows == [["K7", "0", "of", "2", "Hoop"], ["M2", "1", "of", "2", "nothing"]]
    assert section(out, "Waits for you") == ["Nothing waits for you."]


def test_a_finished_correction_is_no_longer_open(lesson_file: Path, folder: Path) -> None:
    def work(desk: Desk) -> None:
        missed_hoop(desk)
        desk.start_correction(1)
        lines("C = 2 pi r", "C = 53.38 cm", "r = ?", "53.38 = 2*3.14*r", "53.38 = 6.28r", "r = 8.5 cm")(desk)
        assert desk.state.problems[1].status is Status.CORRECTED

    student("K7", lesson_file, folder, work)
    _, out, _ = reported(lesson_file, folder)
    assert section(out, "Missed")[2].endswith("  corrected")
    assert section(out, "Each student")[2].split() == ["K7", "1", "of", "2", "nothing"]


def test_appeals_come_first_with_the_line_and_what_was_said(lesson_file: Path, folder: Path) -> None:
    def work(desk: Desk) -> None:
        lines("6n = 102")(desk)
        desk.appeal(0)

    student("A1", lesson_file, folder, missed_hoop)
    student("M2", lesson_file, folder, work)
    _, out, _ = reported(lesson_file, folder)
    assert out.index("Waits for you") < out.index("Missed")
    waits = section(out, "Waits for you")
    assert waits[0] == "M2 · Paper · first attempt, line 1: says this line is right"
    assert waits[1].strip() == "6n = 102" and "15" in waits[2]


def test_a_provisional_correction_is_shown_once_with_its_appeal(lesson_file: Path, folder: Path) -> None:
    def work(desk: Desk) -> None:
        lines("6n = 102", "n = 17")(desk)
        desk.start_correction(0)
        lines("6n = 102", "n = 17")(desk)
        desk.appeal(0)
        assert "kept for your teacher" in desk.finish().sentence

    student("K7", lesson_file, folder, work)
    _, out, _ = reported(lesson_file, folder)
    assert section(out, "Waits for you")[0].startswith("K7 · Paper · correction 1, line 1:")
    assert section(out, "Missed")[2].endswith("waits for the teacher")
    assert sum("K7" in row for row in section(out, "Waits for you")) == 1


def test_a_line_taken_back_leaves_no_trace(lesson_file: Path, folder: Path) -> None:
    def work(desk: Desk) -> None:
        lines("6n = 102")(desk)
        desk.take_back()
        lines("6n = 72", "n = 12")(desk)

    student("K7", lesson_file, folder, work)
    assert section(reported(lesson_file, folder)[1], "Missed") == ["No line broke, and none was shown."]


def test_work_that_stops_at_a_broken_line_is_told_and_not_counted(lesson_file: Path, folder: Path) -> None:
    student("K7", lesson_file, folder, lines("6n + 15 = 87", "6n = 102"))
    student("M2", lesson_file, folder, lines("6n = 72", "n = 12"))
    _, out, _ = reported(lesson_file, folder)
    left = section(out, "Left at a broken line")
    assert "can still be taken back" in left[0]
    assert [row.split() for row in left[3:]] == [["K7", "Paper", "2", "6n", "=", "102"]]
    assert section(out, "Missed") == ["No line that counts broke, and none was shown."]


@pytest.mark.parametrize(
    "changes",
    [
        ["UPDATE verdict SET verdict = 'follows', reason = NULL"],
        ["UPDATE verdict SET verdict = 'unread'"],
        ["UPDATE standing SET status = 'done'"],
        ["UPDATE event SET text = 'done' WHERE kind = 'close'"],
        ["UPDATE event SET text = 'corrected' WHERE kind = 'close'", "UPDATE verdict SET verdict = 'note'"],
    ],
)
def test_no_verdict_or_status_in_a_file_is_believed(
    changes: Sequence[str], lesson_file: Path, folder: Path, missed_file: Path
) -> None:
    honest = reported(lesson_file, folder)
    forge(missed_file, *changes)
    assert reported(lesson_file, folder) == honest
    state = taken(missed_file, lesson_file).problems[1]
    assert state.status is Status.MISSED
    assert state.first.working.lines[2].mark.verdict is Verdict.BREAKS


def test_work_with_other_numbers_is_named_and_not_marked(lesson_file: Path, folder: Path) -> None:
    student("K7", lesson_file, folder, lines("6n = 72", "n = 12"))
    lesson_file.write_text(SMALL.replace("= 87", "= 93"), encoding="utf-8")
    code, out, _ = reported(lesson_file, folder)
    assert code == 0
    assert section(out, "Not marked") == ["K7 · worked with other numbers than in your lesson: Paper"]
    assert section(out, "Missed") == ["No line broke, and none was shown."]


def test_a_file_without_this_lesson_says_so(lesson_file: Path, folder: Path) -> None:
    student("K7", lesson_file, folder, lines("6n = 72"))
    _, out, _ = reported(PARADE, folder)
    assert section(out, "Not marked") == ["K7 · no line of this lesson is in the file"]


def test_an_older_copy_of_the_same_record_is_not_counted_twice(
    lesson_file: Path, folder: Path, tmp_path: Path
) -> None:
    older = tmp_path / "monday.evenline"
    older.write_bytes(student("K7", lesson_file, folder, lines("6n = 72")).read_bytes())
    newer = student("K7", lesson_file, folder, lines("n = 12"))
    _, out, _ = reported(lesson_file, older, newer)
    assert "1 student file," in out
    assert section(out, "Each student")[2].split()[:4] == ["K7", "1", "of", "2"]
    assert "monday.evenline" in section(out, "Not marked")[0]


def test_two_students_with_one_code_are_told_apart(lesson_file: Path, folder: Path, home: Path) -> None:
    first = student("K7", lesson_file, folder, missed_hoop)
    first.rename(folder / "K7-row1.evenline")
    (home / "K7.evenline").unlink()
    student("K7", lesson_file, folder, lines("6n = 72"))
    _, out, _ = reported(lesson_file, folder)
    assert "K7 (K7.evenline)" in out and "K7 (K7-row1.evenline)" in out


def test_a_forged_line_steers_no_terminal(lesson_file: Path, folder: Path) -> None:
    path = student("M2", lesson_file, folder, lines("6n = 102", "n = 18"))
    forge(path, "UPDATE event SET text = char(27) || '[31m6n = 102' || char(7) WHERE text = '6n = 102'")
    code, out, _ = reported(lesson_file, folder)
    assert code == 0
    assert "\x1b" not in out and "\x07" not in out


@given(st.text(), st.integers(1, 30))
def test_a_cell_is_safe_and_keeps_its_width(text: str, columns: int) -> None:
    shown = short(text, columns)
    assert not {unicodedata.category(sign) for sign in shown} & {"Cc", "Cf", "Cs", "Zl", "Zp"}
    assert cell_width(shown) <= columns


def test_a_cell_shows_brackets_and_control_characters() -> None:
    assert short("[/]\x1b[31m[red]", 40) == "[/]␛[31m[red]"
    assert short("47.1 = 5.14r", 8) == "47.1 = …"


def test_an_appealed_line_is_shown_with_its_brackets(lesson_file: Path, folder: Path) -> None:
    def work(desk: Desk) -> None:
        lines("6n = 102 because [/] [red]")(desk)
        desk.appeal(0)

    student("K7", lesson_file, folder, work)
    _, out, _ = reported(lesson_file, folder)
    assert "6n = 102 because [/] [red]" in section(out, "Waits for you")[1]


def test_reading_a_file_leaves_it_as_it_was(lesson_file: Path, folder: Path, missed_file: Path) -> None:
    before = missed_file.read_bytes()
    missed_file.chmod(0o400)
    assert reported(lesson_file, folder)[0] == 0
    assert missed_file.read_bytes() == before
    assert [one.name for one in folder.iterdir()] == ["K7.evenline"]


def torn(path: Path, whole: bytes) -> None:
    path.write_bytes(whole[: len(whole) // 2])


def foreign(path: Path, whole: bytes) -> None:
    with contextlib.closing(sqlite3.connect(path)) as link:
        link.execute("CREATE TABLE hoops (size INTEGER)")
        link.commit()


def newer(path: Path, whole: bytes) -> None:
    path.write_bytes(whole)
    with contextlib.closing(sqlite3.connect(path)) as link:
        link.execute("PRAGMA user_version = 99")


def with_a_view(path: Path, whole: bytes) -> None:
    path.write_bytes(whole)
    with contextlib.closing(sqlite3.connect(path)) as link:
        link.execute("CREATE VIEW more AS SELECT * FROM event")
        link.commit()


def bad_code(path: Path, whole: bytes) -> None:
    path.write_bytes(whole)
    forge(path, "UPDATE record SET code = '../../K7' || char(27)")


def unknown_kind(path: Path, whole: bytes) -> None:
    path.write_bytes(whole)
    with contextlib.closing(sqlite3.connect(path)) as link:
        link.execute("PRAGMA ignore_check_constraints = ON")
        link.execute("INSERT INTO event (edition, problem, attempt, kind, at) VALUES (1, 1, 0, 'win', '')")
        link.commit()


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (torn, "damaged"),
        (foreign, "not made by Evenline"),
        (newer, "newer Evenline"),
        (with_a_view, "damaged"),
        (bad_code, "damaged"),
        (unknown_kind, "damaged"),
        (lambda path, _: path.write_bytes(b""), "empty"),
        (lambda path, _: path.write_text("6n = 72", encoding="utf-8"), "damaged"),
        (lambda path, _: path.mkdir(), "folder"),
    ],
)
def test_a_bad_file_gets_a_sentence_and_the_others_are_reported(
    make: Callable[[Path, bytes], object], said: str, lesson_file: Path, folder: Path, missed_file: Path
) -> None:
    make(folder / "bad.evenline", missed_file.read_bytes())
    code, out, err = reported(lesson_file, folder)
    assert code == 2
    assert len(err.splitlines()) == 1 and "bad.evenline" in err and said in err
    assert "53.38 = 5.14r" in out


def test_a_file_with_flipped_bytes_is_refused_or_read_without_an_exception(
    lesson_file: Path, missed_file: Path
) -> None:
    whole = missed_file.read_bytes()
    dice = random.Random(7)
    outcomes = []
    for _ in range(60):
        flipped = bytearray(whole)
        for _ in range(dice.randint(1, 40)):
            flipped[dice.randrange(100, len(flipped))] = dice.randrange(256)
        missed_file.write_bytes(flipped)
        outcomes.append(reported(lesson_file, missed_file)[0])
    assert set(outcomes) == {0, 2}


def test_a_record_that_is_open_gets_a_sentence(lesson_file: Path, missed_file: Path) -> None:
    with contextlib.closing(sqlite3.connect(missed_file, isolation_level=None)) as link:
        link.execute("BEGIN EXCLUSIVE")
        code, out, err = reported(lesson_file, missed_file)
    assert (code, out) == (2, "")
    assert "open in Evenline" in err


def test_missing_files_empty_folders_and_bad_lessons_are_said(
    lesson_file: Path, folder: Path, tmp_path: Path
) -> None:
    code, out, err = reported(lesson_file, folder, tmp_path / "none.evenline")
    assert (code, out) == (2, "")
    assert "no .evenline file in this folder" in err and "no such file" in err
    lesson_file.write_text("", encoding="utf-8")
    code, out, err = reported(lesson_file, folder)
    assert (code, out) == (2, "")
    assert "empty" in err
