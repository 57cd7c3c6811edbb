"""Which slips may stand behind the broken lines of a class, and who shares one.

A slip is possible, never certain: it turns the line above into the line that was written.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from tutor.marking.task import ChoiceTask, WordTask
from tutor.record.state import Attempt
from tutor.teacher.folding import folded
from tutor.teacher.handed_in import HandedIn
from tutor.teacher.slip_words import slip_words
from tutor.teacher.table import short, table

_INDENT = "    "


@dataclass(frozen=True, slots=True)
class SlipLine:
    """One broken line that a slip explains. ``at``: its 0-based number in the attempt."""

    slip: str
    who: str
    problem: str
    attempt: int
    at: int
    text: str


def slip_lines(class_of: Sequence[tuple[str, HandedIn]]) -> tuple[SlipLine, ...]:
    """Return every broken line of every attempt that a slip explains, struck or not."""
    return tuple(
        SlipLine(slip, who, state.problem.name, attempt.number, at, attempt.working.lines[at].text)
        for who, handed in class_of
        for state in handed.problems
        for attempt in state.attempts
        for at in sorted(counted(attempt))
        if (slip := attempt.working.lines[at].mark.slip) is not None
    )


def counted(attempt: Attempt) -> frozenset[int]:
    """Return the broken lines that count: not one that can still be taken back without a trace.

    On a page that is not handed in yet, nothing counts.
    """
    return frozenset() if attempt.hidden else attempt.broken - attempt.can_still_go


def by_slip(lines: Sequence[SlipLine]) -> tuple[tuple[str, tuple[SlipLine, ...]], ...]:
    """Return the lines of each slip, the slip of most students first."""
    ordered = sorted(lines, key=lambda line: line.slip)
    groups = [(slip, tuple(found)) for slip, found in groupby(ordered, key=lambda line: line.slip)]
    return tuple(sorted(groups, key=lambda group: (-len(_students(group[1])), group[0])))


def _students(lines: Sequence[SlipLine]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(line.who for line in lines))


def slip_rows(lines: Sequence[SlipLine], width: int) -> Iterator[str]:
    """Yield each slip in words, and below it who wrote which line."""
    for slip, found in by_slip(lines):
        yield from folded(f"{slip_words(slip)} ({slip})", width)
        rows = [(line.who, line.problem, _place(line), line.text) for line in found]
        head = ("student", "problem", "line", "what was written")
        room = (3, width - len(_INDENT))
        yield from (_INDENT + row for row in table(head, rows, (16, 16, 20, 16), rest=room))


def _place(line: SlipLine) -> str:
    return f"{line.at + 1}" if line.attempt == 0 else f"{line.at + 1}, correction {line.attempt}"


def together_rows(lines: Sequence[SlipLine], width: int) -> Iterator[str]:
    """Yield the students who share a slip, a row or two for each slip."""
    for slip, found in by_slip(lines):
        students = _students(found)
        if len(students) > 1:
            yield short(slip_words(slip), width)
            yield from _listed(students, width)


def shared_answers(class_of: Sequence[tuple[str, HandedIn]], width: int) -> Iterator[str]:
    """Yield the students who chose or named the same wrong thing; a line of working is told by its slip."""
    students: dict[tuple[str, str, str], list[str]] = {}
    written: dict[tuple[str, str, str], str] = {}
    for who, handed in class_of:
        for state in handed.problems:
            if not isinstance(state.problem.task, ChoiceTask | WordTask):
                continue
            lines = [state.first.working.lines[at] for at in sorted(counted(state.first))]
            answers = {
                text.strip().casefold(): text for text in (one.mark.read_as or one.text for one in lines)
            }
            for answer, text in answers.items():
                key = (state.problem.path, state.problem.name, answer)
                students.setdefault(key, []).append(who)
                written.setdefault(key, f"{state.problem.name}: {text}")
    for key, shared in students.items():
        if len(shared) > 1:
            yield short(written[key], width)
            yield from _listed(shared, width)


def _listed(students: Sequence[str], width: int) -> Iterator[str]:
    row = ""
    for student in (short(one, 36) for one in students):
        longer = f"{row}, {student}" if row else _INDENT + student
        if row and len(longer) > width - 1:
            yield row + ","
            longer = _INDENT + student
        row = longer
    yield row
