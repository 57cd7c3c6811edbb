"""What a teacher would write next in a problem: formula, labels, numbers put in, the answer's unit."""

from collections.abc import Iterator

from tutor.line.tree import Chain, Said
from tutor.line.walk import statement_names
from tutor.marking.progress import progress_of
from tutor.marking.state import Known
from tutor.marking.steps.equation import next_move
from tutor.marking.steps.model import Move
from tutor.marking.steps.standing import Standing, look
from tutor.marking.verdict import Step


def proposals(known: Known) -> Iterator[tuple[Move, Step | None]]:
    """Yield what could be written next, the likeliest first."""
    if known.base is None or known.ended:
        return
    now = look(known)
    yield from _onward(now)


def _onward(now: Standing) -> Iterator[tuple[Move, Step | None]]:
    last = now.last
    if last is None or progress_of(now.known, ()).finished:
        return
    above = now.known.previous
    if isinstance(above, Chain) and not statement_names(above):
        # "3 = 7" under an equation: no letter is left.
        ended = next_move(above, now.style)
        if ended is not None and isinstance(ended.statement, Said):
            yield ended, Step.SUBSTITUTE
    move = next_move(last, now.style)
    if move is not None:
        yield move, Step.SUBSTITUTE


def checks(known: Known) -> tuple[Move, ...]:
    """Return the lines that put the answers back."""
    return ()
