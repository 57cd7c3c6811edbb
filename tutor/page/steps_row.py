"""The row of the four steps above the page: which stands, which is next."""

from typing import assert_never

from textual.content import Content

from tutor.marking.verdict import Step
from tutor.marking.working import StepState

Steps = tuple[tuple[Step, StepState], ...]


def steps_row(steps: Steps) -> Content:
    """Return the row of steps: a sign and a word each; steps that are not asked are left out."""
    parts = [part for step, state in steps if (part := _step(step, state)) is not None]
    if not parts:
        return Content.assemble(("line by line: each line must follow from those above", "$quiet"))
    return Content("   ").join(parts)


def _step(step: Step, state: StepState) -> Content | None:
    match state:
        case StepState.STANDS:
            return Content.assemble((f"✓ {step.value}", "$success"))
        case StepState.NEXT:
            return Content.assemble((f"▸ {step.value}: next", "bold $primary"))
        case StepState.OPEN:
            return Content.assemble((f"· {step.value}", "$quiet"))
        case StepState.NOT_ASKED:
            return None
        case _:
            assert_never(state)
