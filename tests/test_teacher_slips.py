"""The report's slips: which may stand behind a broken line, in words, and who shares one."""

import ast
import re
import sqlite3
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path

import pytest
from teacher_class import forge, lines, missed_hoop, reported, section, student, taken

from tutor.marking import slips
from tutor.marking.working import Working, WorkLine
from tutor.record.desk import Desk
from tutor.record.state import Attempt, Status
from tutor.teacher.handed_in import HandedIn
from tutor.teacher.possible_slips import by_slip, slip_lines, slip_rows, together_rows
from tutor.teacher.report import WIDTH
from tutor.teacher.slip_words import slip_words

ACROSS = "constant-across-unchanged-sign"
ADDED = "sides-added-for-area"


pytest_plugins = ("teacher_class",)
pytestmark = pytest.mark.usefixtures("home")


def slipped(handed: HandedIn, *found: str | None) -> HandedIn:
    """Return the same work with these slips behind its broken lines, in their order."""
    names = iter(found)
    problems = tuple(
        replace(state, attempts=tuple(_slipped(attempt, names) for attempt in state.attempts))
        for state in handed.problems
    )
    return replace(handed, problems=problems)


def _slipped(attempt: Attempt, names: Iterator[str | None]) -> Attempt:
    marked: list[WorkLine] = []
    for at, line in enumerate(attempt.working.lines):
        broke = at in attempt.broken
        marked.append(replace(line, mark=replace(line.mark, slip=next(names))) if broke else line)
    assert isinstance(attempt.working, Working)
    return replace(attempt, working=replace(attempt.working, lines=tuple(marked)))


def handed_in(
    code: str, lesson_file: Path, folder: Path, *found: str | None, work: object = None
) -> HandedIn:
    path = student(code, lesson_file, folder, work if callable(work) else missed_hoop)
    return slipped(taken(path, lesson_file), *found)


def names(handed: Sequence[HandedIn]) -> list[tuple[str, HandedIn]]:
    return [(one.code, one) for one in handed]


def two_attempts(desk: Desk) -> None:
    lines("6n = 102", "n = 17")(desk)
    desk.start_correction(0)
    lines("6n + 15 = 87", "6n = 102", "6n = 72", "n = 12")(desk)
    desk.strike(1)


def test_each_slip_is_told_in_words_with_student_problem_and_line(lesson_file: Path, folder: Path) -> None:
    class_of = names(
        [
            handed_in("K7", lesson_file, folder, ADDED),
            handed_in("M2", lesson_file, folder, ACROSS, ACROSS, work=two_attempts),
            handed_in("P4", lesson_file, folder, None),
            handed_in("R9", lesson_file, folder, ADDED),
        ]
    )
    found = slip_lines(class_of)
    assert [(line.who, line.slip, line.attempt, line.at) for line in found] == [
        ("K7", ADDED, 0, 2),
        ("M2", ACROSS, 0, 0),
        ("M2", ACROSS, 1, 1),
        ("R9", ADDED, 0, 2),
    ]
    # What two students share comes before what one did twice.
    assert [slip for slip, _ in by_slip(found)] == [ADDED, ACROSS]
    rows = list(slip_rows(found, 78))
    assert rows[0] == f"the sides were added, where they multiply ({ADDED})"
    assert [row.split() for row in rows[3:5]] == [
        ["K7", "Hoop", "3", "53.38", "=", "5.14r"],
        ["R9", "Hoop", "3", "53.38", "=", "5.14r"],
    ]
    assert rows[-1].split() == ["M2", "Paper", "2,", "correction", "1", "6n", "=", "102"]
    assert max(map(len, rows)) <= 78


def test_those_who_share_a_slip_are_named_to_sit_together(lesson_file: Path, folder: Path) -> None:
    first = handed_in("K7", lesson_file, folder, ADDED)
    second = handed_in("M2", lesson_file, folder, ACROSS, ACROSS, work=two_attempts)
    assert list(together_rows(slip_lines(names([first, second])), 78)) == []
    codes = [f"Z{number}" for number in range(40)]
    many = [(code, first) for code in codes]
    rows = list(together_rows(slip_lines(many), 78))
    assert rows[0] == "the sides were added, where they multiply"
    assert max(map(len, rows)) <= 78
    assert " ".join(" ".join(rows[1:]).split()) == ", ".join(codes)


def test_a_line_that_was_taken_back_shows_no_slip(lesson_file: Path, folder: Path) -> None:
    """Nothing is said of a line that can still be taken back."""
    handed = handed_in("K7", lesson_file, folder, ACROSS, work=lines("6n + 15 = 87", "6n = 102"))
    assert slip_lines(names([handed])) == ()


def test_a_report_shows_the_slip_that_the_marker_finds(lesson_file: Path, folder: Path) -> None:
    """87 + 15 = 102: the 15 went across with its sign unchanged."""
    for code in ("K7", "M2"):
        student(code, lesson_file, folder, lines("6n + 15 = 87", "6n = 102", "n = 17"))
    out = reported(lesson_file, folder)[1]
    rows = section(out, "Possible slips")
    assert len(rows) == 5
    assert section(out, "To sit together tomorrow")[-1].strip() == "K7, M2"


def test_without_slips_the_report_says_so(lesson_file: Path, folder: Path) -> None:
    student("K7", lesson_file, folder, lines("6n = 72", "n = 12"))
    out = reported(lesson_file, folder)[1]
    assert section(out, "Possible slips") == ["No broken line has a known shape."]
    assert section(out, "To sit together tomorrow") == ["No two students share a slip."]


def test_a_line_that_was_shown_is_told_apart_from_one_that_broke(lesson_file: Path, folder: Path) -> None:
    def shown(desk: Desk) -> None:
        desk.submit("6n + 15 = 87")
        for _ in range(4):
            desk.hint()
        assert desk.state.problems[0].status is Status.SHOWN
        lines("6n = 72", "n = 12")(desk)

    student("K7", lesson_file, folder, shown)
    student("M2", lesson_file, folder, missed_hoop)
    out = reported(lesson_file, folder)[1]
    missed = [row.split() for row in section(out, "Missed")[2:]]
    assert missed == [
        ["K7", "Paper", "2", "(shown)", "6n", "=", "72", "to", "correct,", "line", "shown"],
        ["M2", "Hoop", "3", "53.38", "=", "5.14r", "to", "correct"],
    ]
    problems = [row.split() for row in section(out, "Each problem")[2:]]
    assert problems == [
        ["Paper", "1", "1", "1", "line", "shown"],
        ["Hoop", "1", "1", "1", "line", "3"],
    ]
    assert section(out, "Each student")[2].split() == ["K7", "0", "of", "2", "Paper,", "line", "shown"]


def test_corrections_that_were_closed_with_shown_lines_wait_for_the_teacher(
    lesson_file: Path, folder: Path
) -> None:
    def always_shown(desk: Desk) -> None:
        lines("6n + 15 = 87", "6n = 102", "n = 17")(desk)
        for _ in range(3):
            desk.start_correction(0)
            desk.submit("6n + 15 = 87")
            for _ in range(4):
                desk.hint()
            lines("6n = 72", "n = 12")(desk)
        desk.finish()
        assert desk.state.problems[0].status is Status.PROVISIONAL

    student("K7", lesson_file, folder, always_shown)
    waits = section(reported(lesson_file, folder)[1], "Waits for you")
    assert waits == ["K7 · Paper · a hint showed a line in 3 corrections: ask how it went"]


def test_a_hint_in_a_file_steers_no_terminal(lesson_file: Path, folder: Path) -> None:
    def shown(desk: Desk) -> None:
        for _ in range(4):
            desk.hint()

    path = student("K7", lesson_file, folder, shown)
    forge(path, "UPDATE hint SET shown = char(27) || '[31m' || hex(zeroblob(4000)) WHERE stage = 'line'")
    row = section(reported(lesson_file, folder)[1], "Missed")[2]
    assert "(shown) ␛[31m0000" in row and "0…  to correct" in row and "\x1b" not in row
    assert len(row) <= WIDTH


def test_a_file_of_an_older_version_is_read(folder: Path, lesson_file: Path) -> None:
    path = folder / "K7.evenline"
    with sqlite3.connect(path) as link:
        link.executescript(Path(__file__).with_name("record_version_1.sql").read_text(encoding="utf-8"))
    link.close()
    before = path.read_bytes()
    assert "K7 · no line of this lesson is in the file" in reported(lesson_file, folder)[1]
    assert path.read_bytes() == before


def _names_of_slips() -> set[str]:
    """All texts in the marker's slips that are written as a name of one."""
    package = Path(str(slips.__file__)).parent
    trees = (ast.parse(path.read_text(encoding="utf-8")) for path in package.glob("*.py"))
    texts = {node.value for tree in trees for node in ast.walk(tree) if isinstance(node, ast.Constant)}
    return {text for text in texts if isinstance(text, str) and re.fullmatch(r"[a-z]+(-[a-z0-9]+)+", text)}


def test_every_slip_of_the_marker_has_words_of_its_own() -> None:
    names = _names_of_slips()
    assert {ACROSS, ADDED} <= names
    assert {name for name in names if slip_words(name) == name.replace("-", " ")} == set()
    assert len({slip_words(name) for name in names}) == len(names)


def test_a_slip_without_words_is_shown_by_its_name() -> None:
    assert slip_words("a-newer-slip") == "a newer slip"
    assert slip_words(ACROSS) == "a number went across with its sign unchanged"
