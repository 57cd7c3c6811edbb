"""How a lesson stands, read off the record without marking a line: for a shelf that opens at once."""

import sqlite3
from dataclasses import dataclass, field

from tutor.lesson.model import Lesson, Problem
from tutor.record import ledger
from tutor.record.state import Status
from tutor.record.store import Store


@dataclass(frozen=True, slots=True)
class Glance:
    """One lesson at a glance: a status for each problem, and the problem the student is at.

    ``problems`` have the student's numbers once the lesson was ``opened``; before that they are
    nobody's.
    """

    statuses: tuple[Status, ...]
    current: int
    problems: tuple[Problem, ...] = field(default=(), compare=False, repr=False)
    opened: bool = field(default=False, compare=False)

    @property
    def begun(self) -> bool:
        """Tell whether anything was worked here."""
        return any(status is not Status.UNTOUCHED for status in self.statuses)

    @property
    def done(self) -> bool:
        """Tell whether every problem is finished and no correction is open."""
        return bool(self.statuses) and all(status.settled for status in self.statuses)

    @property
    def to_correct(self) -> int:
        """Count the corrections that are open."""
        return sum(status.to_correct for status in self.statuses)


def glance(store: Store, lesson: Lesson) -> tuple[Glance | None, str]:
    """Return how ``lesson`` stood when it was last worked at, or None and a sentence."""
    return store.read(lambda link: _glance(link, lesson))


def _glance(link: sqlite3.Connection, lesson: Lesson) -> Glance:
    found = ledger.find_lesson(link, lesson)
    problems = found.lesson.problems
    rows = tuple(ledger.find_problem(link, found.book, key) for key in ledger.problem_keys(problems))
    recorded = ledger.read_standings(link, rows)
    by_text = {status.value: status for status in Status}
    statuses = tuple(by_text.get(recorded.get(row, ""), Status.UNTOUCHED) for row in rows)
    visited = ledger.last_visited(link, rows)
    return Glance(statuses, rows.index(visited) if visited else 0, problems, bool(found.book))
