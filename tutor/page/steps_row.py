"""The row of the four steps above the page: which stands, which is next."""

from typing import assert_never

from textual.content import Content

from tutor.marking.verdict import Step
from tutor.marking.working import StepState
from tutor.record.sentences import step_word

Steps = tuple[tuple[Step, StepState], ...]


def steps_row(steps: Steps) -> Content:
    """Return the row of steps: a sign and a word each; steps that are not asked are left out."""
    measured = has_measures(steps)
    words = ((step_word(step, measured=measured), state) for step, state in steps)
    parts = [part for word, state in words if (part := _step(word, state)) is not None]
    if not parts:
        return Content.assemble(("line by line: each line must follow from those above", "$quiet"))
    return Content("   ").join(parts)


def has_measures(steps: Steps) -> bool:
    """Tell whether something is given to be labelled; where not, an equation alone is solved."""
    return (Step.LABEL, StepState.NOT_ASKED) not in steps


def _step(word: str, state: StepState) -> Content | None:
    match state:
        case StepState.STANDS:
            return Content.assemble((f"✓ {word}", "$success"))
        case StepState.NEXT:
            return Content.assemble((f"▸ {word}: next", "bold $primary"))
        case StepState.OPEN:
            return Content.assemble((f"· {word}", "$quiet"))
        case StepState.NOT_ASKED:
            return None
        case _:
            assert_never(state)
