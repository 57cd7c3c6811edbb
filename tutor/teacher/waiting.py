"""What waits for the teacher: lines that a student thinks are right, work that was closed to be seen."""

from collections.abc import Iterator, Sequence

from tutor.marking.verdict import Verdict
from tutor.marking.working import WorkLine
from tutor.record.state import Attempt, ProblemState, Status
from tutor.teacher.draw_table import numbers_of
from tutor.teacher.folding import folded
from tutor.teacher.handed_in import HandedIn
from tutor.teacher.table import short
from tutor.visible import visible

_INDENT = "    "
_WHO = 24
_PROBLEM = 20


def waiting_rows(class_of: Sequence[tuple[str, HandedIn]], width: int) -> Iterator[str]:
    """Yield the lines that a student thinks are right, then what was closed for the teacher to see."""
    for who, handed in class_of:
        for state in handed.problems:
            for attempt in state.attempts:
                for at in sorted(attempt.appealed):
                    yield from _shown_line(who, state, attempt, at, width, "says this line is right")
    for who, handed in class_of:
        for state in handed.problems:
            if state.status is Status.PROVISIONAL:
                yield from _closed_for_you(who, state, width)


def _closed_for_you(who: str, state: ProblemState, width: int) -> Iterator[str]:
    last = state.current
    undecided = [
        at
        for at, line in enumerate(last.working.lines)
        if line.mark.verdict is Verdict.UNDECIDED and not line.struck and at not in last.appealed
    ]
    for at in undecided:
        yield from _shown_line(who, state, last, at, width, "Evenline could not decide this line")
    if not undecided and not any(attempt.appealed for attempt in state.attempts):
        shown = sum(attempt.shown for attempt in state.attempts[1:])
        tries = "1 correction" if shown == 1 else f"{shown} corrections"
        how = f"a hint showed a line in {tries}" if shown else "closed before it was finished"
        yield f"{place_of(who, state)} · {how}: ask how it went"


def _shown_line(
    who: str, state: ProblemState, attempt: Attempt, at: int, width: int, why: str
) -> Iterator[str]:
    line = attempt.working.lines[at]
    yield f"{place_of(who, state)} · {name_of(attempt)}, line {at + 1}: {why}"
    if attempt.problem.numbers:
        yield from (
            _INDENT + row for row in folded(f"given: {numbers_of(attempt.problem)}", width - len(_INDENT))
        )
    yield f"{_INDENT}{short(line.text, width - len(_INDENT))}"
    yield from (_INDENT + row for row in folded(visible(_said_of(line)), width - len(_INDENT)))


def place_of(who: str, state: ProblemState) -> str:
    """Return whose work it is and at which problem, cut to a row."""
    return f"{short(who, _WHO)} · {short(state.problem.name, _PROBLEM)}"


def _said_of(line: WorkLine) -> str:
    if line.mark.verdict.stands:
        return "With your lesson Evenline marks it as right."
    return line.mark.message or "Evenline has nothing more to say of it."


def name_of(attempt: Attempt) -> str:
    """Return what an attempt is called."""
    return "first attempt" if attempt.number == 0 else f"correction {attempt.number}"
