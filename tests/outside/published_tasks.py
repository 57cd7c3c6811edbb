"""Tasks as published examples set them."""

from tutor.marking.task import Task
from tutor.quantity.pi import Pi

BOX_SURFACE = "S = 2 L H + 2 L W + 2 W H"


def measured(
    formula: str,
    givens: dict[str, str],
    find: str,
    unit: str,
    *,
    pi: Pi = Pi.EXACT,
    places: int | None = None,
) -> Task:
    names = tuple(
        sorted({letter for letter in formula if letter.isalpha()} - set("pi") | set(givens) | {find})
    )
    asked = (unit,) if unit else ()
    return Task((formula,), tuple(givens.items()), (find,), asked, pi, measures=names, places=places)


def angles(total: int, givens: dict[str, str], find: str = "B") -> Task:
    return Task((f"A + B = {total}",), tuple(givens.items()), (find,), ("°",))
