"""What a hint is, and its three stages: light words that the record may read without the engine."""

from dataclasses import dataclass
from enum import Enum


class HintStage(Enum):
    """How much a hint says. ``LINE`` shows the next line itself, which makes the problem missed."""

    WHERE = "where"
    WHAT = "what"
    LINE = "line"


@dataclass(frozen=True, slots=True)
class Hint:
    """One hint from the student's own lines. All text is plain.

    ``line``: the next line of work, at ``LINE`` only. ``span``: [start, end) in code points
    of the student's last line that is not struck, where the hint points at a part of it.
    """

    stage: HintStage
    message: str
    line: str | None = None
    span: tuple[int, int] | None = None
