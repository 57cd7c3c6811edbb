"""Erasing one student from this machine."""

import contextlib
import sqlite3
from pathlib import Path

from tutor.record import trouble
from tutor.record.place import code_problem, record_path
from tutor.record.store import claim, release

# What SQLite may leave beside a file when a process dies.
_COMPANIONS = ("-journal", "-wal", "-shm")


def erase(code: str) -> str:
    """Delete the record of ``code`` with all that lies beside it. Returns a sentence.

    A damaged file is deleted too; one that is open somewhere is not. Copies that were
    handed in are not reached from here.
    """
    problem = code_problem(code)
    if problem:
        return problem
    path = record_path(code)
    if not claim(path):
        return trouble.locked(path)
    try:
        return _erase(path)
    except OSError as error:
        return trouble.os_sentence(error, path)
    finally:
        release(path)


def _erase(path: Path) -> str:
    if not path.exists():
        return f"There is no work of {path.stem} on this machine."
    if not path.is_file():
        return trouble.not_a_file(path)
    if _is_held(path):
        return trouble.locked(path)
    # The companions go first: a journal without its file would be played into the next one.
    for ending in _COMPANIONS:
        path.with_name(path.name + ending).unlink(missing_ok=True)
    path.unlink()
    return f"The work of {path.stem} is erased from this machine. Copies that were handed in are still there."


def _is_held(path: Path) -> bool:
    """Tell whether another process has the record open."""
    try:
        with contextlib.closing(sqlite3.connect(path, timeout=0, isolation_level=None)) as link:
            link.execute("BEGIN EXCLUSIVE")
            link.execute("ROLLBACK")
    except sqlite3.Error as error:
        return getattr(error, "sqlite_errorcode", 0) & 0xFF == sqlite3.SQLITE_BUSY
    return False
