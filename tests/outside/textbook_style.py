"""Sequences of lines in the manner of printed worked examples, and how they are written down.

The numbers are our own; where they agree with an open book (OpenStax, Prealgebra 2e and Elementary
Algebra 2e) they are from memory, those of Prealgebra 2e sections 9.3 to 9.6 READ in a stored copy of
its values. That books print their lines like this is common practice, no source.

One row is one working: its lines stand in one text with " ; " between them.
"""

from dataclasses import dataclass

from tutor.marking.task import Task
from tutor.quantity.pi import Pi


@dataclass(frozen=True, slots=True)
class Row:
    """One working: every line stands; ``ends`` where its last lines answer the task in full."""

    task: Task
    lines: tuple[str, ...]
    ends: bool = True

    def __str__(self) -> str:
        return self.lines[0]


def solved(find: str, text: str) -> Row:
    """Return an equation, in the first line, that is solved."""
    return Row(Task(find=(find,)), _split(text))


def rearranged(find: str, text: str) -> Row:
    """Return a formula that is solved for one of its letters: the answer still holds letters."""
    return Row(Task(find=(find,)), _split(text), ends=False)


def expression(text: str) -> Row:
    """Return expressions or comparisons that ask for nothing."""
    return Row(Task(), _split(text), ends=False)


def measured(find: str, text: str, formulas: str, givens: str, *, unit: str = "", pi: Pi = Pi.EXACT) -> Row:
    """Return a task with formulas and givens; ``find`` may be several names with spaces between."""
    told = tuple((name, value) for name, _, value in (given.partition(" = ") for given in _split(givens)))
    units = (unit,) if unit else ()
    return Row(Task(_split(formulas), told, tuple(find.split()), units, pi), _split(text))


def _split(text: str) -> tuple[str, ...]:
    return tuple(piece.strip() for piece in text.split(" ; ")) if text else ()
