"""Handing in: a consistent copy of the record in the teacher's folder, whole or not at all."""

import contextlib
import os
import secrets
import sqlite3
from pathlib import Path

from tutor.record import schema, trouble
from tutor.record.place import SUFFIX
from tutor.record.store import Store


def hand_in(store: Store, folder: Path) -> str:
    """Copy the record into ``folder``. Returns a sentence: where it is, or why it is not there.

    The copy is written under another name and takes its own once it is whole and on the
    disk; an earlier copy of the same record is replaced, anything else of that name stays.
    The copy has the permissions that the folder gives to new files.
    """
    part = folder / f"{store.code}-{secrets.token_hex(4)}.part"
    try:
        if not folder.is_dir():
            return f"There is no folder {folder}. Check its name, or put the stick in, and try again."
        error = store.copy_to(part)
        return trouble.not_handed_in(error, folder) if error else _put_in_place(store, part, folder)
    except OSError as error:
        return trouble.not_handed_in(error, folder)
    finally:
        with contextlib.suppress(OSError):
            part.unlink(missing_ok=True)


def _put_in_place(store: Store, part: Path, folder: Path) -> str:
    _sync(part)
    target = _free_name(store, folder)
    part.replace(target)
    with contextlib.suppress(OSError):  # Windows cannot open a folder to sync it
        _sync(folder)
    return f"Your work is handed in: {target}"


def _sync(path: Path) -> None:
    flags = os.O_RDONLY if path.is_dir() else os.O_RDWR
    handle = os.open(path, flags)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _free_name(store: Store, folder: Path) -> Path:
    """Return the student's file name, with a number where someone else's file has it."""
    target = folder / f"{store.code}{SUFFIX}"
    number = 2
    while target.exists() and _mark_of(target) != store.mark:
        target = folder / f"{store.code}-{number}{SUFFIX}"
        number += 1
    return target


def _mark_of(path: Path) -> str:
    """Return the mark of the record at ``path``; "" where it is something else."""
    try:
        if not path.is_file() or schema.read_header(path) is not schema.Header.OURS:
            return ""
        with contextlib.closing(sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True)) as link:
            row = link.execute("SELECT mark FROM record").fetchone()
    except (OSError, sqlite3.Error, UnicodeDecodeError):
        return ""
    return str(row[0]) if row else ""
