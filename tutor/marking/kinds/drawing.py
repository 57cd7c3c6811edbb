"""A triangle drawn on paper: the parts a student measured, against the task and against each other."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import assert_never

from tutor.line.layout import layout
from tutor.line.reader import Unread, read
from tutor.marking.hint_stage import Hint, HintStage
from tutor.marking.kinds.lines import Lines, small_progress, unread
from tutor.marking.kinds.measures import Measured, part_names, prepared, read_measures
from tutor.marking.kinds.plan import Plan, plan_of
from tutor.marking.kinds.triangle import ANGLES, SIDES, is_side, opposite
from tutor.marking.progress import Progress
from tutor.marking.steps.model import WorkedLine
from tutor.marking.task import DrawingTask
from tutor.marking.verdict import Mark, Reason, UnitsState, Verdict
from tutor.quantity.units import Unit, read_unit

_MEASURE_AGAIN = {
    True: "Measure from mark to mark, or draw {name} again.",
    False: "Put the middle of the protractor on corner {name} and measure again, or draw {name} again.",
}
_KIND = {True: "side", False: "corner"}
_OTHER_SCALE = "Read the other scale of the protractor: is the angle wider than a right angle?"
_RULERS = (("mm", "millimetres"), ("cm", "centimetres"), ("in", "inches"))


@dataclass(frozen=True)
class DrawingWorking(Lines[DrawingTask]):
    """The lines of one triangle that was drawn."""

    def marked(self, text: str) -> Mark:
        """Return the mark of one more line; the first part of it that is wrong decides."""
        plan, _ = plan_of(self.task)
        if plan is None:
            return unread("This triangle cannot be drawn. Please tell your teacher.")
        found = read_measures(text, plan.unit)
        if isinstance(found, Mark):
            return found
        own = self.measured
        for one in found:
            fault = _fault(plan, one, {name: part.size for name, part in own.items()})
            if fault is not None:
                return fault
            own = {**own, one.name: one}
        same = all(_same(one, self.measured.get(one.name)) for one in found)
        told = ", ".join(f"{one.name} = {one.shown}" for one in found)
        note = " ".join(
            said for said in (_without_unit(plan, found), _note(plan, self.measured, own)) if said
        )
        return Mark(Verdict.RESTATES if same else Verdict.FOLLOWS, read_as=told, note=note)

    @property
    def measured(self) -> Mapping[str, Measured]:
        """Return the parts measured so far, the last measure of each."""
        plan, _ = plan_of(self.task)
        found: dict[str, Measured] = {}
        for text in self.standing if plan is not None else ():
            line = read_measures(text, plan.unit) if plan is not None else ()
            found |= {} if isinstance(line, Mark) else {one.name: one for one in line}
        return found

    @property
    def progress(self) -> Progress:
        """Return how far the work is: all parts measured, lengths with their unit."""
        plan, _ = plan_of(self.task)
        own = self.measured
        unfit = _unfit(plan, own) if plan else ()
        wanted = plan.wanted if plan else ()
        missing = tuple(name for name in wanted if name not in own or name in unfit)
        finished = plan is not None and not missing
        units = None if plan is None else _units(plan, own)
        complete = finished and units in (None, UnitsState.RIGHT, UnitsState.EQUIVALENT)
        labels = tuple((name, one.shown) for name, one in own.items())
        return small_progress(
            self.lines, finished=finished, complete=complete, units=units, labels=labels, missing=missing
        )


def _unfit(plan: Plan, own: Mapping[str, Measured]) -> tuple[str, ...]:
    return plan.unfit({name: one.size for name, one in own.items()})


def _same(one: Measured, before: Measured | None) -> bool:
    return before is not None and (one.size, one.lacks_unit) == (before.size, before.lacks_unit)


def _units(plan: Plan, own: Mapping[str, Measured]) -> UnitsState | None:
    sides = [one for one in own.values() if is_side(one.name)]
    if not sides:
        return None
    if any(one.lacks_unit for one in sides):
        return UnitsState.MISSING
    alike = all(one.unit is not None and one.unit.factor == plan.unit.factor for one in sides)
    return UnitsState.RIGHT if alike else UnitsState.EQUIVALENT


# -- what is wrong with a measure -----------------------------------------------------------------


def _fault(plan: Plan, one: Measured, own: Mapping[str, Fraction]) -> Mark | None:
    """Return the mark of a part that cannot be as it was measured, None of one that can."""
    name = one.name
    if name in plan.givens:
        off = plan.within(name)
        low, high = float(plan.givens[name] - off), float(plan.givens[name] + off)
        if plan.fits_given(name, one.size):
            return None
    else:
        low, high = plan.follows(name, own)
        if low <= one.size <= high:
            return None
    ruler = _other_ruler(one, low, high)
    if ruler is not None:
        return ruler
    first = f"You measured {name} = {_with_degrees(one)}"
    if not is_side(name) and low <= 180 - one.size <= high:
        asked = f"; {plan.shown[name]} is asked" if name in plan.givens else ""
        return _breaks(one, f"{first}{asked}. {_OTHER_SCALE}")
    if name in plan.givens:
        again = _MEASURE_AGAIN[is_side(name)].format(name=name)
        return _breaks(one, f"{first}; {plan.shown[name]} is asked. {again}")
    return _breaks(one, f"{first}. {_does_not_fit(plan, one, own)}")


def _with_degrees(one: Measured) -> str:
    return f"{one.shown}°" if one.unit is None and not is_side(one.name) else one.shown


def _breaks(one: Measured, message: str, reason: Reason = Reason.VALUE_CHANGED) -> Mark:
    return Mark(Verdict.BREAKS, reason, None, message, one.span, read_as=f"{one.name} = {one.shown}")


def _other_ruler(one: Measured, low: float, high: float) -> Mark | None:
    """Return the mark of a length whose number fits in another unit, as on the other edge of a ruler."""
    if not is_side(one.name):
        return None
    for symbol, word in _RULERS:
        unit = read_unit(symbol)
        if unit is None or not low <= one.number * unit.factor * 1000 <= high:
            continue
        if one.unit is None:
            return unread(f"{one.shown} what? The number fits {word}: write the unit with it.", one.span)
        edge = f"The number fits {word}. Which edge of the ruler did you read?"
        return _breaks(one, f"{one.name} = {one.shown} does not fit. {edge}", Reason.UNIT)
    return None


def _does_not_fit(plan: Plan, one: Measured, own: Mapping[str, Fraction]) -> str:
    """Say what a part does not fit, in the student's own numbers; never what it should be."""
    together = _sum_of_angles(one, own)
    if together is not None and abs(together - 180) > 3 * plan.within_angle:
        return f"A, B and C come to {_number(together)}° together, not 180°. Measure the angles again."
    order = _wrong_order(one, own)
    if order:
        return order
    if _fits_another(plan, one, own):
        return f"That fits another {_KIND[is_side(one.name)]}. Which one is {one.name} in your drawing?"
    others = [name for name in plan.givens if name in own]
    if len(others) == len(plan.givens):
        return f"That does not fit your {_listed(others)}. Measure {one.name} again."
    return f"That does not fit the parts that are given. Measure {one.name} again, and the given parts too."


def _fits_another(plan: Plan, one: Measured, own: Mapping[str, Fraction]) -> bool:
    """Tell whether a measure is that of another part, as where two letters are mixed up."""
    for name in SIDES if is_side(one.name) else ANGLES:
        if name == one.name or name in own:
            continue
        low, high = plan.follows(name, own)
        if low <= one.size <= high:
            return True
    return False


def _sum_of_angles(one: Measured, own: Mapping[str, Fraction]) -> Fraction | None:
    angles = {name: size for name, size in {**own, one.name: one.size}.items() if not is_side(name)}
    return sum(angles.values(), Fraction(0)) if len(angles) == len(ANGLES) and not is_side(one.name) else None


def _wrong_order(one: Measured, own: Mapping[str, Fraction]) -> str:
    """The longer side lies opposite the wider angle: say where that is not so by far."""
    sizes = {**own, one.name: one.size}
    pairs = [(side, opposite(side)) for side in SIDES if side in sizes and opposite(side) in sizes]
    mine = next((pair for pair in pairs if one.name in pair), None)
    for side, angle in pairs if mine is not None else ():
        if mine is None or (side, angle) == mine:
            continue
        longer = sizes[mine[0]] - sizes[side]
        wider = sizes[mine[1]] - sizes[angle]
        if longer * wider < 0 and abs(longer) > 5 and abs(wider) > 5:
            high, low = (mine, (side, angle)) if longer > 0 else ((side, angle), mine)
            return (
                f"{high[0]} is longer than {low[0]}, so {high[1]} must be wider than {low[1]}. Measure again."
            )
    return ""


# -- what is said beside a measure that fits -----------------------------------------------------------


def _without_unit(plan: Plan, found: tuple[Measured, ...]) -> str:
    bare = next((one for one in found if one.lacks_unit), None)
    return "" if bare is None else f"Write the unit too: {bare.name} = {bare.shown} {plan.unit}."


def _note(plan: Plan, before: Mapping[str, Measured], own: Mapping[str, Measured]) -> str:
    """Tell the sum of the angles when the third one comes, and what is left to measure when little is."""
    said: list[str] = []
    if set(ANGLES) <= own.keys() and any(own[name] is not before.get(name) for name in ANGLES):
        total = sum((own[name].size for name in ANGLES), Fraction(0))
        exact = "just as they should" if total == 180 else "180° would be exact"
        said.append(f"A, B and C come to {_number(total)}° together: {exact}.")
    left = [name for name in plan.wanted if name not in own]
    if left and all(name in own for name in plan.measure):
        said.append(f"Now measure what you drew too: {_listed(left)}.")
    unfit = _unfit(plan, own)
    if unfit:
        told = " and ".join(f"{name} = {own[name].shown}" for name in unfit)
        which = "that" if len(unfit) == 1 else "those"
        fits = "does" if len(unfit) == 1 else "do"
        said.append(f"{told} {fits} not fit your {_listed(list(plan.givens))}. Measure {which} again.")
    return " ".join(said)


def _number(size: Fraction) -> str:
    return f"{float(size):.1f}".removesuffix(".0")


def _listed(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def read_drawing(task: DrawingTask, text: str) -> tuple[tuple[str, ...], str]:
    """Return how a line is read as it is typed, or what is in the way."""
    found = read(prepared(text), part_names())
    if isinstance(found, Unread):
        return (), found.message
    return layout(found.statements[0]), ""


# -- hints, the key, faults ------------------------------------------------------------------------


def drawing_hint(work: DrawingWorking, stage: HintStage) -> Hint | None:
    """Return the hint of one stage; None where all is measured."""
    plan, _ = plan_of(work.task)
    own = work.measured
    unfit = _unfit(plan, own) if plan else ()
    wanted = plan.wanted if plan else ()
    left = [name for name in wanted if name not in own or own[name].lacks_unit or name in unfit]
    if plan is None or not left:
        return None
    match stage:
        case HintStage.WHERE:
            return Hint(stage, f"Next is {left[0]}: {_where(left[0])}.")
        case HintStage.WHAT:
            return Hint(stage, _how_to_measure(left[0]) if own else how_to_draw(plan))
        case HintStage.LINE:
            return Hint(stage, "About this is what you should measure:", _line(plan, left[0], own))
        case _:
            assert_never(stage)


def _where(name: str) -> str:
    if is_side(name):
        ends = " and ".join(corner for corner in ANGLES if corner != opposite(name))
        return f"the side between the corners {ends}"
    return f"the angle in the corner {name}, opposite the side {opposite(name)}"


def _how_to_measure(name: str) -> str:
    if is_side(name):
        return "Put the 0 of the ruler on one corner and read at the other corner, to the millimetre."
    return (
        f"Put the middle of the protractor on the corner {name} and its 0 line along one side; "
        "read where the other side crosses, on the scale that begins with that 0."
    )


def how_to_draw(plan: Plan) -> str:
    """Return how the triangle can be drawn from its three parts."""
    sides = [name for name in SIDES if name in plan.givens]
    angles = [name for name in ANGLES if name in plan.givens]
    if len(sides) == 3:
        return (
            f"Draw c first, then an arc of {plan.shown['b']} around A and one of {plan.shown['a']} around B: "
            "they meet in C."
        )
    if len(angles) == 2:
        (side,) = sides
        if opposite(side) in angles:
            return "Work out the third angle first, then draw the side with an angle at each end."
        return f"Draw {side} first, then the angles {_listed(angles)} at its ends: their arms meet."
    far = opposite(angles[0])
    if far not in sides:
        return f"Draw the angle {angles[0]}, mark {_listed(sides)} on its arms and join their ends."
    near = next(side for side in sides if side != far)
    return (
        f"Draw the angle {angles[0]} and mark {near} on one arm. An arc of {plan.shown[far]} around its end "
        "crosses the other arm."
    )


def _line(plan: Plan, name: str, own: Mapping[str, Measured]) -> str:
    if name in plan.givens:
        return f"{name} = {plan.shown[name]}"
    low, high = plan.follows(name, {part: one.size for part, one in own.items()})
    return f"{name} = {_shown(name, (low + high) / 2, plan.unit)}"


def _shown(name: str, size: float, unit: Unit) -> str:
    return f"{size / float(unit.factor * 1000):.1f} {unit}" if is_side(name) else f"{size:.1f}°"


def drawing_solution(task: DrawingTask) -> tuple[WorkedLine, ...]:
    """Return what was given and what the other parts must measure, to one decimal place."""
    plan, _ = plan_of(task)
    if plan is None:
        return ()
    given = ", ".join(f"{name} = {shown}" for name, shown in plan.shown.items())
    off = f"{_number(plan.within_length)} mm and {_number(plan.within_angle)}°"
    lines = [WorkedLine(given, f"Drawn and measured, within {off}.", None)]
    for name in plan.measure:
        text = f"{name} = {_shown(name, plan.exact[name], plan.unit)}"
        lines.append(WorkedLine(text, "Measured: compared with the student's own given parts.", None))
    return tuple(lines)


def drawing_problems(task: DrawingTask) -> tuple[str, ...]:
    """Return what is wrong with a drawing task, in sentences for the teacher."""
    return plan_of(task)[1]


def drawing_caution(task: DrawingTask) -> str:
    """Return what is to be minded where a compass is used: where a side is found by an arc."""
    names = {name for name, _ in task.givens}
    sides = {name for name in names if is_side(name)}
    by_arc = len(sides) == 3 or (len(sides) == 2 and any(opposite(side) in names for side in sides))
    if not by_arc:
        return ""
    return "A compass has a sharp point: close it when you are done, and keep to your school's rules."
