"""One student's record: a single SQLite file that this process alone holds while it is open.

The rollback journal is kept rather than a write-ahead log: between two writes the one file
is the whole record, so it can be copied to a stick and read from a folder that refuses
writing. The lock is held from opening to closing, because what the page shows is worked out
once and would go stale under a second writer; the system drops it when a process dies.
"""

import os
import secrets
import sqlite3
import threading
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import TypeVar, assert_never

from tutor import __version__
from tutor.record import schema, trouble
from tutor.record.place import code_problem, make_private

_T = TypeVar("_T")

# The files this process holds. On POSIX systems, closing any other handle on a file drops the
# process's locks on it (SQLite, "How To Corrupt", 2.2), so a held file is not even looked at.
_held: set[str] = set()
_held_lock = threading.Lock()

# How long to wait for another program that reads the file for a moment, in seconds.
_BUSY_SECONDS = 0.5


class Store:
    """An open record. Every write is one transaction: on the disk whole, or not at all.

    ``code`` is the student's, ``mark`` tells this record from another of the same code.
    May be called from any thread, one call at a time.
    """

    def __init__(self, link: sqlite3.Connection, path: Path, code: str, mark: str) -> None:
        self.path = path
        self.code = code
        self.mark = mark
        self._link = link
        self._lock = threading.RLock()
        self._closed = False

    def write(self, work: Callable[[sqlite3.Connection], _T]) -> tuple[_T | None, str]:
        """Run ``work`` in one transaction. Returns its result and "", or None and a sentence."""
        with self._lock:
            if self._closed:
                return None, trouble.CLOSED
            try:
                self._link.execute("BEGIN IMMEDIATE")
                result = work(self._link)
                self._link.execute("COMMIT")
            except sqlite3.Error as error:
                return None, self._say(error)
            finally:
                self._roll_back()
            return result, ""

    def read(self, work: Callable[[sqlite3.Connection], _T]) -> tuple[_T | None, str]:
        """Run ``work``, which only reads. Returns its result and "", or None and a sentence."""
        with self._lock:
            if self._closed:
                return None, trouble.CLOSED
            try:
                return work(self._link), ""
            except sqlite3.Error as error:
                return None, self._say(error)

    def copy_to(self, target: Path) -> sqlite3.Error | None:
        """Write a consistent copy to a file that is not there yet. Returns what went wrong."""
        with self._lock:
            try:
                self._link.execute("VACUUM INTO ?", (str(target),))
            except sqlite3.Error as error:
                if not trouble.is_outside(error):
                    raise
                return error
            return None

    def close(self) -> None:
        """Let go of the file; a second call does nothing.

        A line that is still being marked then is not lost: it is in the box at the next opening.
        """
        with self._lock:
            if self._closed:
                return
            self._closed = True
            self._link.close()
            release(self.path)

    def _say(self, error: sqlite3.Error) -> str:
        if not trouble.is_outside(error):
            raise error
        return trouble.store_sentence(error, self.path)

    def _roll_back(self) -> None:
        # A full disk may have ended the transaction already.
        if self._link.in_transaction:
            self._link.execute("ROLLBACK")


def now() -> str:
    """Return the time in UTC, ISO 8601 with microseconds."""
    return datetime.now(UTC).isoformat(timespec="microseconds")


def storable(text: str) -> str:
    """Return ``text`` with half characters (lone surrogates), which no file can hold, replaced."""
    return text.encode("utf-16-le", "surrogatepass").decode("utf-16-le", "replace")


def open_store(path: Path) -> tuple[Store | None, str]:
    """Open the record at ``path``, or begin one, with its folder, for its owner only.

    Returns the store and "", or None and a sentence that says what to do. A file that is
    damaged, foreign or newer is never written to.
    """
    if sqlite3.sqlite_version_info < schema.OLDEST_SQLITE:
        return None, (
            f"The SQLite that came with this Python ({sqlite3.sqlite_version}) is too old to keep "
            "your work safely. Ask someone to install a newer Python."
        )
    if not claim(path):
        return None, trouble.locked(path)
    store, sentence = _open_claimed(path)
    if store is None:
        release(path)
    return store, sentence


def claim(path: Path) -> bool:
    """Note that this process is about to use ``path``; False where it already does."""
    name = os.path.realpath(path)
    with _held_lock:
        if name in _held:
            return False
        _held.add(name)
        return True


def release(path: Path) -> None:
    """Take back a ``claim``; without one it does nothing."""
    with _held_lock:
        _held.discard(os.path.realpath(path))


def _open_claimed(path: Path) -> tuple[Store | None, str]:
    try:
        refusal = _prepare(path)
    except OSError as error:
        refusal = trouble.os_sentence(error, path)
    return (None, refusal) if refusal else _open(path)


def _prepare(path: Path) -> str:
    make_private(path.parent)
    if path.exists() and not path.is_file():
        return trouble.not_a_file(path)
    header = schema.read_header(path)
    match header:
        case schema.Header.NOTHING:
            return code_problem(path.stem) or _create_private(path)
        case schema.Header.OURS:
            return ""
        case schema.Header.NEWER:
            return trouble.newer(path)
        case schema.Header.FOREIGN:
            return trouble.foreign(path)
        case schema.Header.TORN:
            return trouble.torn(path)
        case _:
            assert_never(header)


def _create_private(path: Path) -> str:
    """Make the empty file first, so that it never stands open to others for a moment."""
    os.close(os.open(path, os.O_CREAT | os.O_WRONLY, 0o600))
    return ""


def _open(path: Path) -> tuple[Store | None, str]:
    link = None
    try:
        link = sqlite3.connect(path, timeout=_BUSY_SECONDS, isolation_level=None, check_same_thread=False)
        store = _take_hold(link, path)
    except sqlite3.Error as error:
        if link is not None:
            link.close()
        if not trouble.is_outside(error):
            raise
        return None, trouble.store_sentence(error, path)
    except UnicodeDecodeError:
        # SQLite quotes a damaged schema in its error, and Python cannot decode the quotation.
        if link is not None:
            link.close()
        return None, trouble.torn(path)
    if store is None:
        link.close()
        return None, trouble.torn(path)
    return store, ""


def _take_hold(link: sqlite3.Connection, path: Path) -> Store | None:
    """Lock the file, make or check its tables, and note the sitting. None: it is damaged."""
    # Bytes that are not UTF-8 can only come from damage; they must not stop the reading.
    link.text_factory = lambda raw: raw.decode("utf-8", "replace")
    link.execute("PRAGMA locking_mode = EXCLUSIVE")
    link.execute("PRAGMA journal_mode = DELETE")
    # EXTRA is FULL and also syncs the folder once the journal is gone, so that a line is
    # there after a power cut too (SQLite, "PRAGMA synchronous").
    link.execute("PRAGMA synchronous = EXTRA")
    link.execute("PRAGMA foreign_keys = OFF")  # until older tables are brought up
    link.execute("PRAGMA trusted_schema = OFF")
    link.execute("BEGIN EXCLUSIVE")
    if schema.is_blank(link):
        schema.create(link)
        link.execute("INSERT INTO record VALUES (1, ?, ?, ?)", (secrets.token_hex(16), path.stem, now()))
    elif not (schema.is_sound(link) and schema.upgrade(link)):
        return None
    # A write at each opening also finds a read-only folder and a full disk before any work is done.
    link.execute("INSERT INTO sitting (program, at) VALUES (?, ?)", (__version__, now()))
    link.execute("COMMIT")
    link.execute("PRAGMA foreign_keys = ON")
    row = link.execute("SELECT code, mark FROM record").fetchone()
    # The code becomes a file name when the work is handed in.
    if row is None or code_problem(row[0]):
        return None
    return Store(link, path, code=row[0], mark=row[1])
