"""The study list: the words that a student missed, read off the record without marking a line."""

import sqlite3
from collections.abc import Iterable
from functools import partial

from tutor.lesson.model import Lesson, Meaning
from tutor.record import ledger
from tutor.record.place import code_problem, record_path
from tutor.record.state import Status
from tutor.record.store import Store, open_store

_KNOWN = frozenset({Status.DONE.value, Status.CORRECTED.value})
_MISSED = frozenset(status.value for status in Status if status.to_correct)


def words_to_study(store: Store, lessons: Iterable[Lesson]) -> tuple[tuple[Meaning, ...], str]:
    """Return the words of some lessons that were missed and are not corrected yet, each once.

    Returns them and "", or () and a sentence where the record cannot be read.
    """
    found: dict[Meaning, None] = {}
    for lesson in lessons:
        words, sentence = store.read(partial(_words, lesson=lesson))
        if words is None:
            return (), sentence
        found |= dict.fromkeys(words)
    return tuple(found), ""


def words_of_code(code: str, lessons: Iterable[Lesson]) -> tuple[tuple[Meaning, ...], str]:
    """Return what ``words_to_study`` does, for the student of a code on this machine."""
    problem = code_problem(code)
    if problem:
        return (), problem
    path = record_path(code)
    if not path.exists():
        return (), ""
    store, sentence = open_store(path)
    if store is None:
        return (), sentence
    try:
        return words_to_study(store, lessons)
    finally:
        store.close()


def _words(link: sqlite3.Connection, lesson: Lesson) -> tuple[Meaning, ...]:
    found = ledger.find_lesson(link, lesson)
    if not found.book:
        return ()
    words: list[Meaning] = []
    keys = ledger.problem_keys(found.lesson.problems)
    for problem, key in zip(found.lesson.problems, keys, strict=True):
        row = ledger.find_problem(link, found.book, key) if problem.meaning is not None else 0
        standings = ledger.standings_of(link, row) if row else ()
        if problem.meaning is not None and _is_to_study(standings):
            words.append(problem.meaning)
    return tuple(words)


def _is_to_study(standings: tuple[str, ...]) -> bool:
    """Tell it from every status a problem had: it was missed, and the student did not correct it alone."""
    return bool(standings) and standings[-1] not in _KNOWN and not _MISSED.isdisjoint(standings)
