"""A record that was handed in, read without changing it and marked again from the raw lines.

No verdict and no status in the file is believed: the lines, and what was struck, taken back
or appealed, are played again with the teacher's own lesson.
"""

import contextlib
import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from tutor.lesson.model import Lesson, Problem
from tutor.marking.verdict import Verdict
from tutor.marking.work import begin
from tutor.record import ledger, schema
from tutor.record.asked import Terms
from tutor.record.ledger import Event, Kind
from tutor.record.place import SUFFIX, code_problem
from tutor.record.replay import History, add_line, apply, blank
from tutor.record.state import Attempt, ProblemState, Status, closes_as, status_of
from tutor.record.store import Store, storable

# Far above any student's work; what is larger is no record, or was made to stop a teacher.
MOST_BYTES = 50_000_000
MOST_EVENTS = 600  # at one problem
MOST_CORRECTIONS = 30  # of one problem: each draws its numbers past those of all before it


@dataclass(frozen=True, slots=True)
class HandedIn:
    """One student's work at one lesson. ``problems`` are those of the student, with their numbers, in order.

    ``mark`` is the same in every copy of one record; ``done`` counts what was done in it.
    ``opened``: the lesson was opened, so that its numbers are the student's. ``elsewhere``: the
    names of problems of the lesson that were worked with another text or other numbers than the
    teacher's, so that they cannot be marked with it.
    """

    path: Path
    code: str
    mark: str
    done: int
    problems: tuple[ProblemState, ...]
    opened: bool
    elsewhere: tuple[str, ...]


def record_files(paths: Sequence[Path]) -> tuple[tuple[Path, ...], tuple[str, ...]]:
    """Return the record files that are named or lie in a folder that is named, and what is wrong."""
    found: list[Path] = []
    problems: list[str] = []
    for path in paths:
        try:
            inside = sorted(path.glob(f"*{SUFFIX}")) if path.is_dir() else [path]
        except (OSError, ValueError):
            problems.append(f"{path}: this folder cannot be read. May you open it?")
            continue
        if not inside:
            problems.append(f"{path}: there is no {SUFFIX} file in this folder.")
        found += [one for one in inside if one not in found]
    return tuple(found), tuple(problems)


def read_handed_in(path: Path, lesson: Lesson) -> tuple[HandedIn | None, str]:
    """Read one file and mark it with ``lesson``. Returns the work and "", or None and a sentence."""
    refusal = _refusal(path)
    if refusal:
        return None, f"{path}: {refusal}"
    try:
        with contextlib.closing(_open(path)) as link:
            handed, refusal = _read(link, path, lesson)
    except sqlite3.Error as error:
        handed, refusal = None, _why(error)
    except UnicodeDecodeError:
        # Where the damage lies in a table's own text, SQLite quotes it in an error that Python cannot read.
        handed, refusal = None, _DAMAGED
    return (handed, "") if handed is not None else (None, f"{path}: {refusal}")


def _refusal(path: Path) -> str:
    """Look at a file before SQLite does."""
    try:
        if path.is_dir():
            return "this is a folder with the name of a file. Move it away."
        header = schema.read_header(path)
        missing = not path.exists()
        size = 0 if missing else path.stat().st_size
    except (OSError, ValueError):
        return "this file cannot be opened. May you read it?"
    if missing:
        return "there is no such file. Look at the name and the folder."
    if size > MOST_BYTES:
        return "this file is larger than any record. Is it the right one?"
    return _HEADER_SAYS.get(header, "")


_DAMAGED = "this file is damaged, or is no record. Ask for it to be handed in again."
_HEADER_SAYS = {
    schema.Header.NOTHING: "this file is empty. Ask for it to be handed in again.",
    schema.Header.NEWER: "this file was written by a newer Evenline. Install that one to read it.",
    schema.Header.FOREIGN: "this file was not made by Evenline.",
    schema.Header.TORN: _DAMAGED,
}


def _open(path: Path) -> sqlite3.Connection:
    link = sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True, timeout=0, isolation_level=None)
    link.text_factory = lambda raw: raw.decode("utf-8", "replace")
    link.execute("PRAGMA query_only = ON")
    link.execute("PRAGMA trusted_schema = OFF")
    return link


def _why(error: sqlite3.Error) -> str:
    if getattr(error, "sqlite_errorcode", 0) & 0xFF == sqlite3.SQLITE_BUSY:
        return "this file is open in Evenline now. Close it there, or hand the work in first."
    return _DAMAGED


def _read(link: sqlite3.Connection, path: Path, lesson: Lesson) -> tuple[HandedIn | None, str]:
    if not (schema.is_sound(link) and _kinds_are_known(link)):
        return None, _DAMAGED
    row = link.execute("SELECT code, mark FROM record").fetchone()
    if row is None or code_problem(row[0]):
        return None, _DAMAGED
    code = str(row[0])
    found = ledger.find_lesson(link, lesson)
    own = found.lesson.problems
    rows = tuple(ledger.find_problem(link, found.book, key) for key in ledger.problem_keys(own))
    # The book-keeping of a record works on any connection, so also on one that cannot write.
    written, _ = ledger.read_work(Store(link, path, code, str(row[1])), rows)
    if written is None:
        return None, _DAMAGED
    problems = []
    terms = Terms(lesson.settings, found.seed)
    for problem, number in zip(own, rows, strict=True):
        events = [event for event in written.events if number and event.problem == number]
        corrections = sum(event.kind is Kind.CORRECT for event in events)
        if len(events) > MOST_EVENTS or corrections > MOST_CORRECTIONS:
            return None, "this file holds more lines than anyone writes. Look at it with the student."
        problems.append(_marked(blank(problem, number, begin, terms), events))
    done = int(link.execute("SELECT count(*) FROM event").fetchone()[0])
    elsewhere = tuple(_elsewhere(link, found.book, own, rows))
    return HandedIn(path, code, str(row[1]), done, tuple(problems), bool(found.book), elsewhere), ""


def _kinds_are_known(link: sqlite3.Connection) -> bool:
    """Look for events of no kind: SQLite's quick check does not ask what the tables ask of new rows."""
    known = {kind.value for kind in Kind}
    return all(kind in known for (kind,) in link.execute("SELECT DISTINCT kind FROM event"))


def _marked(history: History, events: Iterable[Event]) -> ProblemState:
    for event in events:
        again = _one_line(history, event) if event.kind is Kind.LINE else apply(history, event, begin)
        history = _undo_claims(again)
    state = history.state
    return replace(state, status=standing(state.attempts))


def _one_line(history: History, event: Event) -> History:
    """Mark a raw line again.

    One without any recorded verdict never became a line of work: the program ended before
    it was marked, and it went back into the student's box.
    """
    if not event.verdict or history.attempt.closed:
        return history
    working = history.attempt.working.submit(event.text)
    unread = working.lines[-1].mark.verdict is Verdict.UNREAD
    return history if unread else add_line(history, event.id, working)


def _undo_claims(history: History) -> History:
    """Take away the status that a closing claims for itself."""
    sheet = history.sheets[-1]
    if sheet.attempt.closed_as is None:
        return history
    honest = replace(sheet, attempt=replace(sheet.attempt, closed_as=None))
    return replace(history, sheets=(*history.sheets[:-1], honest))


def standing(attempts: tuple[Attempt, ...]) -> Status:
    """Return how a problem stands by its lines alone."""
    if attempts[-1].closed and closes_as(attempts) is Status.PROVISIONAL:
        return Status.PROVISIONAL
    return status_of(attempts)


def _elsewhere(
    link: sqlite3.Connection, book: int, own: Sequence[Problem], rows: Sequence[int]
) -> Iterator[str]:
    """Name the problems that are worked in the file under the same name with another task."""
    sql = (
        "SELECT problem.id FROM problem JOIN event ON event.problem = problem.id "
        "WHERE book = ? AND name = ? AND kind = 'line'"
    )
    for problem in own:
        worked = {found for (found,) in link.execute(sql, (book, storable(problem.name)))}
        if worked and worked.isdisjoint(rows):
            yield problem.name
