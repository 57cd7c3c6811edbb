"""The tables of a record, and what the first bytes of a file say about it.

Everything but the draft is only ever added to: triggers refuse to change or remove a row.
"""

import contextlib
import sqlite3
from enum import Enum
from pathlib import Path

# "Even" in ASCII, so that a file manager or a teacher's program can tell whose file it is.
APPLICATION_ID = 0x4576656E
VERSION = 2

# STRICT tables came with SQLite 3.37.0 (SQLite, "STRICT Tables").
OLDEST_SQLITE = (3, 37, 0)

# book: a lesson under all its editions. edition: its text as it once stood. problem: known by
# name and task, so that an edition that leaves it as it was leaves the work in place too.
# event: what the student did. verdict: what was said of a line, added after the line itself.
# hint: what was said of an event that asked for one. standing: how a problem stood after each
# step, for a shelf that must not wait for the marker.
_TABLES = {
    "record": """
        id INTEGER PRIMARY KEY CHECK (id = 1),
        mark TEXT NOT NULL,
        code TEXT NOT NULL,
        at TEXT NOT NULL""",
    "sitting": """
        id INTEGER PRIMARY KEY,
        program TEXT NOT NULL,
        at TEXT NOT NULL""",
    "book": """
        id INTEGER PRIMARY KEY,
        name TEXT NOT NULL UNIQUE,
        seed INTEGER NOT NULL,
        at TEXT NOT NULL""",
    "edition": """
        id INTEGER PRIMARY KEY,
        book INTEGER NOT NULL REFERENCES book (id),
        fingerprint TEXT NOT NULL,
        title TEXT NOT NULL,
        text TEXT NOT NULL,
        at TEXT NOT NULL,
        UNIQUE (book, fingerprint)""",
    "problem": """
        id INTEGER PRIMARY KEY,
        book INTEGER NOT NULL REFERENCES book (id),
        name TEXT NOT NULL,
        task TEXT NOT NULL,
        nth INTEGER NOT NULL,
        UNIQUE (book, name, task, nth)""",
    "event": """
        id INTEGER PRIMARY KEY,
        edition INTEGER NOT NULL REFERENCES edition (id),
        problem INTEGER NOT NULL REFERENCES problem (id),
        attempt INTEGER NOT NULL CHECK (attempt >= 0),
        kind TEXT NOT NULL
            CHECK (kind IN ({kinds})),
        line INTEGER REFERENCES event (id),
        text TEXT NOT NULL DEFAULT '',
        at TEXT NOT NULL""",
    "verdict": """
        id INTEGER PRIMARY KEY,
        line INTEGER NOT NULL UNIQUE REFERENCES event (id),
        verdict TEXT NOT NULL,
        reason TEXT,
        slip TEXT,
        message TEXT NOT NULL,
        at TEXT NOT NULL""",
    "hint": """
        id INTEGER PRIMARY KEY,
        event INTEGER NOT NULL UNIQUE REFERENCES event (id),
        stage TEXT NOT NULL CHECK (stage IN ('where', 'what', 'line')),
        message TEXT NOT NULL,
        shown TEXT,
        start INTEGER,
        past INTEGER,
        at TEXT NOT NULL""",
    "standing": """
        id INTEGER PRIMARY KEY,
        problem INTEGER NOT NULL REFERENCES problem (id),
        status TEXT NOT NULL,
        at TEXT NOT NULL""",
}

# What an older version could not hold yet: version 1 knew no hints.
HINTS_SINCE = 2
_SINCE = {"hint": HINTS_SINCE}
_KINDS = "'line', 'strike', 'take back', 'appeal', 'close', 'correct', 'go'"
_KINDS_OF = {1: _KINDS, HINTS_SINCE: f"{_KINDS}, 'hint'"}

_DRAFT = """
CREATE TABLE draft (
    problem INTEGER PRIMARY KEY REFERENCES problem (id),
    after INTEGER NOT NULL,
    text TEXT NOT NULL,
    at TEXT NOT NULL
) STRICT"""

_EVENT_INDEX = "CREATE INDEX event_by_problem ON event (problem)"
_INDEXES = (
    _EVENT_INDEX,
    "CREATE INDEX standing_by_problem ON standing (problem)",
)


def _statements(version: int) -> tuple[str, ...]:
    names = [name for name in _TABLES if _SINCE.get(name, 1) <= version]
    return (*(made for name in names for made in _guarded(name, version)), _DRAFT, *_INDEXES)


def _guarded(name: str, version: int) -> tuple[str, ...]:
    """Return what makes one table and the triggers that let it only be added to."""
    columns = _TABLES[name].format(kinds=_KINDS_OF[version])
    return (
        f"CREATE TABLE {name} ({columns}\n) STRICT",
        *(refusal(name, change, "") for change in ("UPDATE", "DELETE")),
        # INSERT OR REPLACE removes a row without asking the DELETE trigger.
        refusal(name, "INSERT", f"WHEN EXISTS (SELECT 1 FROM {name} WHERE id = NEW.id)"),
    )


def refusal(table: str, change: str, when: str) -> str:
    """Return the trigger that refuses one kind of change to a table."""
    return (
        f"CREATE TRIGGER {table}_no_{change.lower()} BEFORE {change} ON {table} {when} "
        f"BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END"
    )


class Header(Enum):
    """What the first bytes of a file say."""

    NOTHING = "nothing"
    OURS = "ours"
    NEWER = "newer"
    FOREIGN = "foreign"
    TORN = "torn"


# Offsets and the magic string: SQLite, "Database File Format", section 1.3.
_MAGIC = b"SQLite format 3\x00"
_PAGE_SIZE_AT = 16
_PAGES_AT = 28
_VERSION_AT = 60
_APPLICATION_AT = 68
_HEADER_BYTES = 100


def read_header(path: Path) -> Header:
    """Look at a file before SQLite does, so that a file of another program is never touched.

    A missing or empty file is NOTHING. A file that is not SQLite is TORN: it has our name,
    so it may well be what a crash or a bad copy left of a record. Raises OSError.
    """
    try:
        with path.open("rb") as file:
            head = file.read(_HEADER_BYTES)
    except FileNotFoundError:
        return Header.NOTHING
    if not head:
        return Header.NOTHING
    if len(head) < _HEADER_BYTES or not head.startswith(_MAGIC):
        return Header.TORN
    if _number(head, _APPLICATION_AT) != APPLICATION_ID:
        return Header.FOREIGN
    if _number(head, _VERSION_AT) > VERSION:
        return Header.NEWER
    return Header.TORN if _is_cut_short(head, path) else Header.OURS


def _is_cut_short(head: bytes, path: Path) -> bool:
    """Tell whether the file is shorter than it says, which SQLite overlooks in the last page.

    With a journal beside it a commit was interrupted, and SQLite puts the length right.
    """
    journal = path.with_name(path.name + "-journal")
    if journal.exists() and journal.stat().st_size:
        return False
    size = int.from_bytes(head[_PAGE_SIZE_AT : _PAGE_SIZE_AT + 2], "big")
    size = 65536 if size == 1 else size
    return path.stat().st_size < size * _number(head, _PAGES_AT)


def _number(head: bytes, start: int) -> int:
    return int.from_bytes(head[start : start + 4], "big")


def is_blank(link: sqlite3.Connection) -> bool:
    """Tell whether the database behind ``link`` holds no table at all."""
    return int(link.execute("SELECT count(*) FROM sqlite_schema").fetchone()[0]) == 0


def create(link: sqlite3.Connection, version: int = VERSION) -> None:
    """Make the tables of ``version``, inside the transaction that is open on ``link``."""
    for statement in _statements(version):
        link.execute(statement)
    link.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    link.execute(f"PRAGMA user_version = {version}")


def version_of(link: sqlite3.Connection) -> int:
    """Return the version of the tables behind ``link``."""
    return int(link.execute("PRAGMA user_version").fetchone()[0])


def upgrade(link: sqlite3.Connection) -> bool:
    """Bring older tables up to ``VERSION``, inside the transaction that is open on ``link``.

    Foreign keys must be off, since the table of events is made anew: what a CHECK allows cannot
    be changed in place (SQLite, "ALTER TABLE", 7). Every row stays as it was. Returns whether
    all of it still fits together.
    """
    if version_of(link) == VERSION:
        return True
    link.execute("CREATE TABLE moved AS SELECT * FROM event")
    link.execute("DROP TABLE event")
    for statement in (*_guarded("event", VERSION), *_guarded("hint", VERSION), _EVENT_INDEX):
        link.execute(statement)
    link.execute("INSERT INTO event SELECT * FROM moved")
    link.execute("DROP TABLE moved")
    link.execute(f"PRAGMA user_version = {VERSION}")
    return link.execute("PRAGMA foreign_key_check").fetchone() is None


def is_sound(link: sqlite3.Connection) -> bool:
    """Tell whether the tables and triggers are the ones of their version and SQLite finds no damage."""
    version = version_of(link)
    if version not in _KINDS_OF:
        return False
    with contextlib.closing(sqlite3.connect(":memory:", isolation_level=None)) as fresh:
        create(fresh, version)
        if _layout(link) != _layout(fresh):
            return False
    return str(link.execute("PRAGMA quick_check(1)").fetchone()[0]) == "ok"


def _layout(link: sqlite3.Connection) -> set[tuple[str, str]]:
    rows = link.execute("SELECT name, sql FROM sqlite_schema WHERE sql IS NOT NULL")
    # ANALYZE and the like add tables of SQLite's own.
    return {(name, sql) for name, sql in rows if not name.startswith("sqlite_")}
