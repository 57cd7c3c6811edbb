"""Faults of a draw: it cannot be worked out, contradicts itself, cannot be drawn."""

from __future__ import annotations

from collections.abc import Iterator

from tutor.lesson.auditing.case import Case, Remark
from tutor.lesson.ends import solved_inequality, stated_words
from tutor.lesson.keywords import Keyword
from tutor.lesson.kinds import stated_end
from tutor.lesson.naming import length_in, unit_of_value
from tutor.lesson.picture import picture
from tutor.lesson.premises import contradicted, sizes_apart
from tutor.line.names import plain
from tutor.marking.deciding.context import prepare
from tutor.marking.solve import NamedValue
from tutor.marking.task import Task
from tutor.marking.work import problems_of
from tutor.quantity.dimension import LENGTH
from tutor.visible import spelled


def worked_out(case: Case) -> Iterator[Remark]:
    """Yield why a problem has no answer."""
    end = stated_words(case.task) if case.solution is None and case.sentences else ""
    stated = stated_end(case.card)
    if stated and stated != end:
        yield Remark(case.at(Keyword.ANSWER, f"Worked out, this does not end with “{stated}”."))
    if end and not stated:
        message = f"This ends with “{end}”. If that is meant, say so."
        yield Remark(case.at(Keyword.FIND, message, Keyword.ANSWER.written(end)))
    if stated or end or (case.solution is None and solved_inequality(case.task)):
        return
    # Where there are values all the same, the premise that they contradict is named below.
    for sentence in case.sentences if case.solution is None else ():
        yield Remark(case.at(Keyword.FIND, sentence, _zero_left_out(case)))


def _zero_left_out(case: Case) -> str:
    """Return the condition that leaves the one 0 of a draw out, which is mostly what has no answer."""
    zeros = [name for name, value in case.draw.values if not value] if case.draw is not None else []
    return Keyword.WHERE.written(f"{zeros[0]} != 0") if len(zeros) == 1 else ""


def goals_reached(case: Case) -> Iterator[Remark]:
    """Yield why the end of a derivation cannot be reached."""
    if isinstance(case.task, Task) and case.task.goals:
        keyword = Keyword.SHOW if Keyword.SHOW in case.card.seen else Keyword.WRITE
        for message in problems_of(case.task):
            yield Remark(case.at(keyword, message))


def agrees_with_itself(case: Case) -> Iterator[Remark]:
    """Yield the formulas and givens that the answer does not fulfil."""
    if case.solved is None:
        return
    for is_formula, index in contradicted(*case.solved):
        written = case.parts.formulas[index] if is_formula else case.parts.givens[index][0]
        message = "This does not agree with the other formulas and givens."
        yield Remark(case.source.fault(written.start, message))


def sizes_agree(case: Case) -> Iterator[Remark]:
    """Yield the formulas that set a length equal to an area."""
    if case.solved is None:
        return
    task, _solution = case.solved
    units = {given.text: unit_of_value(value.text) for given, value in case.parts.givens}
    units |= {sought.name.text: sought.unit.text for sought in case.parts.sought if sought.unit}
    named = {plain(name): unit for name, unit in units.items() if unit}
    for index, sides in sizes_apart(task, named):
        message = f"By the units, this formula sets {sides} equal. Look at each unit."
        yield Remark(case.source.fault(case.parts.formulas[index].start, message))


def asks_for_units(case: Case) -> Iterator[Remark]:
    """Yield the sizes that are asked for without a unit; one that only its formula tells of as advice."""
    if not isinstance(case.task, Task):
        return
    context, _problems = prepare(case.task)
    lengths = (length_in(unit_of_value(value)) for _name, value in case.task.givens)
    length = next(filter(None, lengths), "cm")
    for sought in case.parts.sought:
        name = sought.name.text
        kind = context.dimension_of(plain(name))
        power = kind.length if kind is not None and kind == LENGTH.power(kind.length) else 0
        named = name in case.task.measures
        if sought.unit is None and (named or power in _SIZES):
            said = _SIZES.get(power, "a length, an area or a volume")
            message = f"“{spelled(name)}” is {said}, and no unit is asked for."
            unit = f"{length}^{power}" if power > 1 else length
            instead = Keyword.FIND.written(f"{spelled(name)} in {unit}")
            yield Remark(case.source.fault(sought.name.start, message, instead), advice=not named)


_SIZES = {1: "a length", 2: "an area", 3: "a volume"}


def angles_exist(case: Case) -> Iterator[Remark]:
    """Yield the angles that come out as nothing or less, or as more than a full turn."""
    for value in answers(case):
        if value.unit == "°" and not 0 < value.approx < _FULL_TURN:
            message = f"{value.name} comes out as {value.text}°, and no angle is so large."
            if value.approx <= 0:
                message = f"{value.name} comes out as {value.text}°. An angle is larger than 0°."
            yield Remark(case.at(Keyword.FIND, message))


_FULL_TURN = 360


def answers(case: Case) -> Iterator[NamedValue]:
    """Yield the values that are asked for."""
    if case.solved is not None:
        task, solution = case.solved
        for name in task.find:
            value = solution.value(plain(name))
            if value is not None:
                yield value


def can_be_drawn(case: Case) -> Iterator[Remark]:
    """Yield why the figure cannot be drawn."""
    seeks = isinstance(case.task, Task) and bool(case.task.find)
    if case.problem.figure is None or (seeks and case.solution is None):
        return
    scene, why = picture(case.problem, {})
    if scene is None:
        yield Remark(case.at(Keyword.FIGURE, why))
