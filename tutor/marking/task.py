"""What the lines of a solution are marked against."""

from dataclasses import dataclass

from tutor.quantity.pi import Pi


@dataclass(frozen=True, slots=True)
class Task:
    """One thing to be worked out, as text in the same writing that students use.

    ``formulas``: the relations of the problem, e.g. ``("V = L W H",)``.
    ``givens``: name and value, e.g. ``(("V", "420 cm^3"), ("A", "3x + 12"))``.
    ``find``: the names asked for. ``units``: one unit for each name of ``find`` ("" where
    none is asked). ``names``: further names the problem declares (words such as
    ``SA`` or ``angle A``). ``measures``: names that are lengths, areas, volumes, so positive.
    ``places``: decimal places the answer may be rounded to, None where rounding is not asked.
    Without formulas and givens the first line of work is the premise.
    """

    formulas: tuple[str, ...] = ()
    givens: tuple[tuple[str, str], ...] = ()
    find: tuple[str, ...] = ()
    units: tuple[str, ...] = ()
    pi: Pi = Pi.EXACT
    every_step: bool = False
    names: tuple[str, ...] = ()
    measures: tuple[str, ...] = ()
    places: int | None = None
