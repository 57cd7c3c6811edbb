"""Handing in and erasing, for the command."""

from pathlib import Path
from typing import IO

from tutor.record.erase import erase
from tutor.record.hand_in import hand_in
from tutor.record.place import code_problem, record_path
from tutor.record.store import open_store
from tutor.teacher.folding import told
from tutor.visible import visible

# How the record room begins its sentence when the copy is in its place.
_HANDED_IN = "Your work is handed in"


def hand_in_code(code: str, folder: Path, out: IO[str], err: IO[str]) -> int:
    """Copy the record of ``code`` into ``folder``; returns 0, or 2 and a sentence on ``err``."""
    problem = code_problem(code)
    if problem:
        print(told(problem), file=err)
        return 2
    path = record_path(code)
    if not path.exists():
        sentence = (
            f"There is no work of {path.stem} on this machine. Is that your code? "
            f"Say it first: evenline --code K7 hand-in {visible(str(folder))}"
        )
        print(told(sentence), file=err)
        return 2
    store, sentence = open_store(path)
    if store is None:
        print(told(visible(sentence)), file=err)
        return 2
    try:
        sentence = hand_in(store, folder)
    finally:
        store.close()
    done = sentence.startswith(_HANDED_IN)
    print(told(visible(sentence)), file=out if done else err)
    return 0 if done else 2


def erase_code(code: str, out: IO[str], err: IO[str]) -> int:
    """Erase the record of ``code``; returns 0, or 2 where there was none or it could not be erased."""
    problem = code_problem(code)
    if problem:
        print(told(problem), file=err)
        return 2
    path = record_path(code)
    was_there = path.exists()
    sentence = erase(code)
    done = was_there and not path.exists()
    print(told(visible(sentence)), file=out if done else err)
    return 0 if done else 2
