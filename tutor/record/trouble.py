"""What goes wrong with a file, as a sentence that says what to do."""

import errno
import sqlite3
from pathlib import Path

# The low byte of an SQLite result code is its family (SQLite, "Result and Error Codes").
_FAMILY = 0xFF

# Faults of the world outside. Any other code, a constraint for example, is a bug of ours.
_OUTSIDE = frozenset(
    {
        sqlite3.SQLITE_PERM,
        sqlite3.SQLITE_BUSY,
        sqlite3.SQLITE_READONLY,
        sqlite3.SQLITE_IOERR,
        sqlite3.SQLITE_CORRUPT,
        sqlite3.SQLITE_FULL,
        sqlite3.SQLITE_CANTOPEN,
        sqlite3.SQLITE_AUTH,
        sqlite3.SQLITE_NOTADB,
        sqlite3.SQLITE_TOOBIG,
    }
)

CLOSED = "Your work is put away. Open the lesson again to go on."

_NO_ROOM = frozenset({errno.ENOSPC, errno.EDQUOT, errno.EFBIG})


def is_outside(error: sqlite3.Error) -> bool:
    """Tell whether the file, the disk or another program is at fault, not this program."""
    return _family(error) in _OUTSIDE


def _family(error: sqlite3.Error) -> int:
    return getattr(error, "sqlite_errorcode", sqlite3.SQLITE_ERROR) & _FAMILY


def store_sentence(error: sqlite3.Error, path: Path) -> str:
    """Return what to tell a student when their record cannot be read or written."""
    match _family(error):
        case sqlite3.SQLITE_BUSY:
            return locked(path)
        case sqlite3.SQLITE_FULL:
            return full(path)
        case sqlite3.SQLITE_CORRUPT | sqlite3.SQLITE_NOTADB:
            return torn(path)
        case sqlite3.SQLITE_IOERR:
            return (
                f"The disk did not answer while your work was being written to {path}. "
                "What was written before is kept. Check the disk or the stick and try again."
            )
        case _:
            return no_entry(path)


def os_sentence(error: OSError, path: Path) -> str:
    """Return what to tell a student when a file or a folder cannot be used."""
    match error.errno:
        case code if code in _NO_ROOM:
            return full(path)
        case errno.ENOTDIR | errno.EEXIST:
            return (
                f"Something on the way to {path} is a file where a folder should be. "
                "Move it away and try again."
            )
        case errno.ENAMETOOLONG:
            return f"The name of the folder is too long: {path}. Choose a shorter one."
        case _:
            return no_entry(path)


def not_handed_in(error: OSError | sqlite3.Error, folder: Path) -> str:
    """Return what to tell a student when no copy could be written into ``folder``."""
    code, none_left = (
        (error.errno, _NO_ROOM) if isinstance(error, OSError) else (_family(error), {sqlite3.SQLITE_FULL})
    )
    why = "there is no room left" if code in none_left else "Evenline could not write"
    return (
        f"Your work was not handed in: {why} in {folder}. It is still safe on this machine. "
        "Ask your teacher for another folder or stick, then try again."
    )


def locked(path: Path) -> str:
    """Say that another program holds the record."""
    return (
        "Your work is open in another window or program. Close it there, then try again. "
        f"Nothing is lost. (The file is {path})"
    )


def full(path: Path) -> str:
    """Say that there is no room."""
    return (
        f"The disk is full, so nothing more can be kept in {path.parent}. "
        "What you did before is kept. Ask someone to make room, then try again."
    )


def no_entry(path: Path) -> str:
    """Say that the folder or file may not be read or written."""
    return (
        f"Your work cannot be kept: Evenline may not read or write {path}. What is in it is untouched. "
        "Ask someone to allow it for that folder."
    )


def torn(path: Path) -> str:
    """Say that the file is damaged, and that it stays."""
    return (
        f"The file {path} is damaged and cannot be read. It has not been changed. "
        "Show it to your teacher: move it to a safe place, and Evenline will begin a new one."
    )


def not_a_file(path: Path) -> str:
    """Say that something else has the name."""
    return f"{path} should be a file, and it is a folder or something else. Move it away and try again."


def foreign(path: Path) -> str:
    """Say that the file belongs to another program."""
    return (
        f"The file {path} was not made by Evenline. It has not been changed. "
        "Move it to another folder, and Evenline will begin a new one."
    )


def newer(path: Path) -> str:
    """Say that a newer release wrote the file."""
    return (
        f"The file {path} was written by a newer Evenline than this one. It has not been changed. "
        "Install the newer Evenline, and your work is there again."
    )
