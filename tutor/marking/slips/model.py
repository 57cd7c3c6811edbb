"""What a slip is."""

from dataclasses import dataclass

from tutor.line.tree import Span


@dataclass(frozen=True, slots=True)
class Slip:
    """A known wrong move that turns a line above into this very line. Possible, never certain.

    ``name``: its name in the table of slips. ``message``: one short sentence for the student,
    with the student's own numbers and not the answer. ``span``: the part of the typed line.
    ``cost``: how many assumptions it takes; the fewest win. ``also``: the names of other
    slips that explain the line with as few.
    """

    name: str
    message: str
    span: Span
    cost: int = 1
    also: tuple[str, ...] = ()
