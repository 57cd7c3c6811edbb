"""Going on from the lines that stand: the next line, all lines to the end, a whole solution."""

from collections.abc import Iterator
from dataclasses import dataclass

from tutor.marking.deciding.context import prepare
from tutor.marking.deciding.state import Known, begin
from tutor.marking.judging.aftermath import Judged
from tutor.marking.judging.judge import judge
from tutor.marking.steps.model import Move, WorkedLine
from tutor.marking.steps.plan import checks, proposals
from tutor.marking.steps.writing import line_text
from tutor.marking.task import Task
from tutor.marking.verdict import Step, Verdict

# More lines than any school problem takes: a bound, should a step ever fail to bring the work on.
MAX_LINES = 60


@dataclass(frozen=True, slots=True)
class Next:
    """The next line, what is known when it stands, and the move behind it."""

    line: WorkedLine
    move: Move
    known: Known


def next_step(known: Known, *, unit_first: bool = True) -> Next | None:
    """Return the first proposal that the marker lets stand, None where nothing is left or it is beyond.

    ``unit_first``: the unit of a value that stands comes before the next value.
    """
    return _first(known, proposals(known, unit_first=unit_first))


def _first(known: Known, moves: Iterator[tuple[Move, Step | None]]) -> Next | None:
    index = known.above[-1][0] + 1 if known.above else 0
    for move, step in moves:
        text = line_text(move.statement, known.context.names)
        judged = judge(known, text, index)
        if _goes_on(judged):
            return Next(WorkedLine(text, move.what, step), move, judged.known)
    return None


def _goes_on(judged: Judged) -> bool:
    return judged.mark.verdict.stands and judged.mark.verdict is not Verdict.RESTATES


def next_line(known: Known) -> WorkedLine | None:
    """Return the next elementary step from the last line that stands, or the first step of the task."""
    found = next_step(known)
    return None if found is None else found.line


def finish(known: Known) -> tuple[WorkedLine, ...]:
    """Return the lines from what stands to the end of the work."""
    return tuple(one.line for one in _to_the_end(known))


def _to_the_end(known: Known) -> list[Next]:
    made: list[Next] = []
    while len(made) < MAX_LINES and (found := next_step(known)) is not None:
        made.append(found)
        known = found.known
    return made


def solution(task: Task) -> tuple[WorkedLine, ...]:
    """Return the whole solution from nothing, with a check at the end; () where it cannot be given."""
    context, problems = prepare(task)
    if problems or not context.premises:
        return ()
    made = _to_the_end(begin(context))
    if not made:
        return ()
    known = made[-1].known
    if not finished(known):
        return ()
    for move in checks(known):
        checked = _first(known, iter([(move, Step.UNITS if context.asked_units else Step.SUBSTITUTE)]))
        if checked is None:
            break
        made.append(checked)
        known = checked.known
    return tuple(one.line for one in made)


def finished(known: Known) -> bool:
    """Tell whether everything to find stands."""
    from tutor.marking.progress import progress_of

    return bool(progress_of(known, ()).finished)
