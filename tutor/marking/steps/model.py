"""What the engine of worked lines hands on: a line, what was done, and where to look."""

from dataclasses import dataclass

from tutor.line.tree import Expr, Statement
from tutor.marking.verdict import Step


@dataclass(frozen=True, slots=True)
class WorkedLine:
    """One line of a worked solution.

    ``text`` is the line as a student could type it, ``sentence`` says what is done,
    ``step`` is the step of the work that the line belongs to.
    """

    text: str
    sentence: str
    step: Step | None


@dataclass(frozen=True, slots=True)
class Move:
    """One elementary step from a line to the next.

    ``what`` says what is done ("Take 15 away from both sides."), ``where`` where to look
    first ("Look at the + 15 on the left side."), ``focus`` the part of the line above that
    it speaks of, ``source`` that line. ``arithmetic``: only numbers were worked out.
    Neither sentence holds the result.
    """

    statement: Statement
    what: str
    where: str
    focus: Expr | None = None
    source: Statement | None = None
    arithmetic: bool = False
