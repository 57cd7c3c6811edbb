"""What a problem without a ``find`` most likely asks for: a name of its own, in a unit that fits."""

from __future__ import annotations

from tutor.lesson.keywords import Keyword
from tutor.lesson.mathematics import Parts, parts_of
from tutor.lesson.naming import is_angle, length_in, unit_of_value
from tutor.lesson.outline import Card
from tutor.lesson.premises import fitting_power
from tutor.line.names import plain
from tutor.line.tree import Name
from tutor.line.walk import names_in
from tutor.marking.deciding.context import prepare
from tutor.marking.task import Task
from tutor.visible import spelled


def likely_find(card: Card) -> str:
    """Return the entry that is missing, with a name that the formulas have and nothing gives.

    Where there is no such name, it is the example of every ``find``.
    """
    parts = parts_of(card)
    task = Task(
        formulas=tuple(formula.text for formula in parts.formulas),
        givens=tuple((name.text, value.text) for name, value in parts.givens),
        names=parts.declared,
    )
    name = _likely_name(task, parts)
    if not name:
        return Keyword.FIND.example
    unit = _likely_unit(task, parts, name)
    return Keyword.FIND.written(f"{spelled(name)} in {unit}" if unit else spelled(name))


def _likely_name(task: Task, parts: Parts) -> str:
    """Return a name that stands alone on a side of a formula, else any; "" where all are known."""
    context, _problems = prepare(task)
    known = {plain(name.text) for name, _value in parts.givens}
    known |= {plain(sought.name.text) for sought in parts.sought}
    sides = [side for premise in context.premises[: context.formula_count] for side in premise.sides]
    alone = [side.name for side in sides if isinstance(side, Name)]
    named = [name for side in sides for name in sorted(names_in(side))]
    return next((name for name in (*alone, *named) if name not in known), "")


def _likely_unit(task: Task, parts: Parts, name: str) -> str:
    """Return the unit that the formulas lead to from the units of what is given, "" where that is open."""
    units = {plain(given.text): unit_of_value(value.text) for given, value in parts.givens}
    written = [unit for unit in units.values() if unit]
    if written and all(map(is_angle, written)):
        return "°"
    power = fitting_power(task, units, name)
    length = next(filter(None, map(length_in, written)), "")
    if not power or not length:
        return ""
    return length if power == 1 else f"{length}^{power}"
