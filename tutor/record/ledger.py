"""What is written in a record and read from it, as values; nothing is decided here."""

import secrets
import sqlite3
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum
from pathlib import PurePath

from tutor.lesson.model import Lesson, Problem
from tutor.marking.hint_stage import Hint, HintStage
from tutor.marking.verdict import Mark, Verdict
from tutor.record import schema, trouble
from tutor.record.keys import problem_key
from tutor.record.state import Status
from tutor.record.store import Store, now, storable


class Kind(Enum):
    """What a student did. ``GO``: went to a problem; ``CORRECT``: began a correction; ``HINT``: asked."""

    LINE = "line"
    STRIKE = "strike"
    TAKE_BACK = "take back"
    APPEAL = "appeal"
    CLOSE = "close"
    CORRECT = "correct"
    GO = "go"
    HINT = "hint"


@dataclass(frozen=True, slots=True)
class Event:
    """One row of what was done. ``id`` is 0 until it is written.

    ``line``: the id of the LINE that a strike, a take-back or an appeal is about, or that was the
    last one when a hint was asked for; else 0. ``text``: the raw line of a LINE, the status a
    CLOSE came to, which numbers a CORRECT is worked on ("": the same ones). ``verdict``: what was
    recorded of a LINE; "" where the program ended before it was marked. ``hint``: what was said
    at a HINT.
    """

    kind: Kind
    problem: int
    attempt: int
    line: int = 0
    text: str = ""
    id: int = 0
    verdict: str = ""
    hint: Hint | None = None

    @property
    def is_work(self) -> bool:
        """Tell whether this is a line that was marked and could be read."""
        return self.kind is Kind.LINE and self.verdict not in ("", Verdict.UNREAD.value)


@dataclass(frozen=True, slots=True)
class Draft:
    """What is in the box at a problem; ``after`` is the newest event when it was kept."""

    text: str = ""
    after: int = 0


@dataclass(frozen=True, slots=True)
class Opened:
    """A lesson as it stands in the record.

    ``lesson``: with the numbers of this student, drawn from ``seed``. ``problems``: a row for each
    of its problems, in order. ``changed``: this is a new edition and there is work under an
    earlier one.
    """

    edition: int
    lesson: Lesson
    problems: tuple[int, ...]
    seed: int
    changed: bool


@dataclass(frozen=True, slots=True)
class Found:
    """A lesson looked up in a record, which stays as it is.

    ``book`` is its row, 0 where it was never opened; then ``lesson`` has the numbers of nobody.
    """

    book: int
    lesson: Lesson
    seed: int


@dataclass(frozen=True, slots=True)
class Written:
    """All that the record holds of some problems, the events oldest first.

    ``standings``: the status last recorded, by problem row. ``last_visited``: the row of the
    problem the student went to last, 0 where they never went to one.
    """

    events: tuple[Event, ...]
    drafts: dict[int, Draft]
    standings: dict[int, str]
    last_visited: int


def open_lesson(store: Store, lesson: Lesson) -> tuple[Opened | None, str]:
    """Find the lesson in the record, or enter it with its text and a seed of its own.

    It is known by its fingerprint, or else by its file name: a new text under a known name
    is a new edition of the same lesson.
    """
    return store.write(lambda link: _open_lesson(link, lesson))


def _open_lesson(link: sqlite3.Connection, lesson: Lesson) -> Opened:
    found = _find_edition(link, lesson)
    if found is not None:
        book, edition = found
        return _opened(link, lesson, book, edition, changed=False)
    book = _enter_book(link, lesson)
    edition = _insert(
        link,
        "INSERT INTO edition (book, fingerprint, title, text, at) VALUES (?, ?, ?, ?, ?)",
        (book, lesson.fingerprint, storable(lesson.title), storable(lesson.text), now()),
    )
    worked = link.execute(
        "SELECT count(*) FROM event JOIN edition ON edition.id = event.edition "
        "WHERE edition.book = ? AND event.kind = 'line'",
        (book,),
    ).fetchone()[0]
    return _opened(link, lesson, book, edition, changed=worked > 0)


def _opened(link: sqlite3.Connection, lesson: Lesson, book: int, edition: int, *, changed: bool) -> Opened:
    found = _drawn(link, lesson, book)
    rows = _enter_problems(link, book, found.lesson.problems)
    return Opened(edition, found.lesson, rows, found.seed, changed)


def find_lesson(link: sqlite3.Connection, lesson: Lesson) -> Found:
    """Look a lesson up in a record, with the numbers that its student has."""
    return _drawn(link, lesson, find_book(link, lesson))


def _drawn(link: sqlite3.Connection, lesson: Lesson, book: int) -> Found:
    from tutor.lesson.fresh import SAMPLE_SEED, drawn  # heavy: it reads and solves problems

    if not book:
        return Found(0, lesson, SAMPLE_SEED)
    seed = int(link.execute("SELECT seed FROM book WHERE id = ?", (book,)).fetchone()[0])
    return Found(book, drawn(lesson, seed), seed)


def _file_name(lesson: Lesson) -> str:
    return storable(PurePath(lesson.path).name.casefold())


def _find_edition(link: sqlite3.Connection, lesson: Lesson) -> tuple[int, int] | None:
    """Return the book and edition of this very text, under this file name where there are two."""
    row: tuple[int, int] | None = link.execute(
        "SELECT book.id, edition.id FROM edition JOIN book ON book.id = edition.book "
        "WHERE fingerprint = ? ORDER BY book.name <> ?, edition.id DESC",
        (lesson.fingerprint, _file_name(lesson)),
    ).fetchone()
    return row


def find_book(link: sqlite3.Connection, lesson: Lesson) -> int:
    """Return the row of a lesson, by its text or else its file name; 0 where it was never opened."""
    found = _find_edition(link, lesson)
    if found is not None:
        return found[0]
    row = link.execute("SELECT id FROM book WHERE name = ?", (_file_name(lesson),)).fetchone()
    return 0 if row is None else int(row[0])


def _enter_book(link: sqlite3.Connection, lesson: Lesson) -> int:
    sql = "INSERT INTO book (name, seed, at) VALUES (?, ?, ?)"
    return find_book(link, lesson) or _insert(link, sql, (_file_name(lesson), secrets.randbits(62), now()))


def _enter_problems(link: sqlite3.Connection, book: int, problems: Iterable[Problem]) -> tuple[int, ...]:
    return tuple(
        find_problem(link, book, key) or _insert(link, _NEW_PROBLEM, (book, *key))
        for key in problem_keys(problems)
    )


_NEW_PROBLEM = "INSERT INTO problem (book, name, task, nth) VALUES (?, ?, ?, ?)"


def problem_keys(problems: Iterable[Problem]) -> tuple[tuple[str, str, int], ...]:
    """Return what each problem is known by: its name, its key, and which of equal ones it is."""
    seen: Counter[tuple[str, str]] = Counter()
    keys = []
    for problem in problems:
        key = (storable(problem.name), storable(problem_key(problem)))
        seen[key] += 1
        keys.append((*key, seen[key]))
    return tuple(keys)


def find_problem(link: sqlite3.Connection, book: int, key: tuple[str, str, int]) -> int:
    """Return the row of the problem with this key, 0 where it was never entered."""
    sql = "SELECT id FROM problem WHERE book = ? AND name = ? AND task = ? AND nth = ?"
    row = link.execute(sql, (book, *key)).fetchone()
    return 0 if row is None else int(row[0])


def _insert(link: sqlite3.Connection, sql: str, values: tuple[object, ...]) -> int:
    return link.execute(sql, values).lastrowid or 0


def read_work(store: Store, problems: tuple[int, ...]) -> tuple[Written | None, str]:
    """Read every event and draft of these problems."""
    try:
        return store.read(lambda link: _read_work(link, problems))
    except ValueError:
        # A word that is none of ours can only come from damage that SQLite does not see.
        return None, trouble.torn(store.path)


def _read_work(link: sqlite3.Connection, problems: tuple[int, ...]) -> Written:
    marks = ", ".join("?" * len(problems))
    rows = link.execute(
        "SELECT event.id, kind, problem, attempt, coalesce(event.line, 0), text, coalesce(verdict, '') "
        "FROM event LEFT JOIN verdict ON verdict.line = event.id "
        f"WHERE problem IN ({marks}) ORDER BY event.id",
        problems,
    )
    hints = _read_hints(link, problems)
    events = tuple(
        Event(Kind(kind), problem, attempt, line, text, number, verdict, hints.get(number))
        for number, kind, problem, attempt, line, text, verdict in rows
    )
    kept = link.execute(f"SELECT problem, text, after FROM draft WHERE problem IN ({marks})", problems)
    return Written(
        events=events,
        drafts={problem: Draft(text, after) for problem, text, after in kept},
        standings=read_standings(link, problems),
        last_visited=last_visited(link, problems),
    )


def _read_hints(link: sqlite3.Connection, problems: tuple[int, ...]) -> dict[int, Hint]:
    """Return what was said at each hint, by its event."""
    if schema.version_of(link) < schema.HINTS_SINCE:  # a file that was handed in stays as it is
        return {}
    marks = ", ".join("?" * len(problems))
    rows = link.execute(
        "SELECT event, stage, message, shown, start, past FROM hint JOIN event ON event.id = hint.event "
        f"WHERE problem IN ({marks})",
        problems,
    )
    return {
        event: Hint(HintStage(stage), message, shown, None if None in (start, past) else (start, past))
        for event, stage, message, shown, start, past in rows
    }


def read_standings(link: sqlite3.Connection, problems: tuple[int, ...]) -> dict[int, str]:
    """Return the status last recorded of each of these problems that has one."""
    marks = ", ".join("?" * len(problems))
    rows = link.execute(
        f"SELECT problem, status FROM standing WHERE problem IN ({marks}) ORDER BY id", problems
    )
    return dict(rows)


def standings_of(link: sqlite3.Connection, problem: int) -> tuple[str, ...]:
    """Return every status that a problem had, the newest last."""
    rows = link.execute("SELECT status FROM standing WHERE problem = ? ORDER BY id", (problem,))
    return tuple(status for (status,) in rows)


def last_visited(link: sqlite3.Connection, problems: tuple[int, ...]) -> int:
    """Return the row of the problem the student went to last, 0 where there is none."""
    marks = ", ".join("?" * len(problems))
    sql = f"SELECT problem FROM event WHERE kind = 'go' AND problem IN ({marks}) ORDER BY id DESC LIMIT 1"
    row = link.execute(sql, problems).fetchone()
    return 0 if row is None else int(row[0])


def add_event(link: sqlite3.Connection, edition: int, event: Event) -> int:
    """Write one event, and what was said at it, inside the transaction on ``link``. Returns its id."""
    values = (edition, event.problem, event.attempt, event.kind.value, event.line or None)
    number = _insert(
        link,
        "INSERT INTO event (edition, problem, attempt, kind, line, text, at) VALUES (?, ?, ?, ?, ?, ?, ?)",
        (*values, storable(event.text), now()),
    )
    if event.hint is not None:
        _add_hint(link, number, event.hint)
    return number


def _add_hint(link: sqlite3.Connection, event: int, hint: Hint) -> None:
    shown = None if hint.line is None else storable(hint.line)
    link.execute(
        "INSERT INTO hint (event, stage, message, shown, start, past, at) VALUES (?, ?, ?, ?, ?, ?, ?)",
        (event, hint.stage.value, storable(hint.message), shown, *(hint.span or (None, None)), now()),
    )


def add_verdict(link: sqlite3.Connection, line: int, mark: Mark) -> None:
    """Write what was said of the LINE with id ``line``."""
    link.execute(
        "INSERT INTO verdict (line, verdict, reason, slip, message, at) VALUES (?, ?, ?, ?, ?, ?)",
        (
            line,
            mark.verdict.value,
            mark.reason.value if mark.reason else None,
            mark.slip,
            storable(mark.message),
            now(),
        ),
    )


def add_standing(link: sqlite3.Connection, problem: int, status: Status) -> None:
    """Write how a problem stands now."""
    sql = "INSERT INTO standing (problem, status, at) VALUES (?, ?, ?)"
    link.execute(sql, (problem, status.value, now()))


def put_draft(link: sqlite3.Connection, problem: int, text: str) -> None:
    """Put ``text`` in the box of a problem, in the place of what is there."""
    link.execute(
        "INSERT INTO draft (problem, after, text, at) "
        "VALUES (?, (SELECT coalesce(max(id), 0) FROM event), ?, ?) "
        "ON CONFLICT (problem) DO UPDATE SET after = excluded.after, text = excluded.text, at = excluded.at",
        (problem, storable(text), now()),
    )
