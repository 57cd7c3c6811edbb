"""Where the next hint comes from: the engine, asked stage by stage."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, TypeAlias

from tutor.marking.hint_stage import Hint, HintStage
from tutor.record.state import Attempt, next_hint

if TYPE_CHECKING:
    from tutor.marking.work import Work

Helper: TypeAlias = "Callable[[Work, HintStage], Hint | None]"


def engine_hint(working: Work, stage: HintStage) -> Hint | None:
    """Ask the engine for a hint; it is loaded with the first one that is asked for."""
    from tutor.marking.work import hint

    return hint(working, stage)


def hint_from(helper: Helper, attempts: tuple[Attempt, ...]) -> Hint | None:
    """Return the next hint, of a later stage where there is none at the next one; None: no hint at all."""
    first = next_hint(attempts)
    if first is None:
        return None
    stages = list(HintStage)
    given = (helper(attempts[-1].working, stage) for stage in stages[stages.index(first) :])
    return next((hint for hint in given if hint is not None), None)
