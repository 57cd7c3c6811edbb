"""What a drawing task asks, as sizes, and what follows from the parts that a student measured."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import product

from tutor.marking.kinds.triangle import (
    ANGLES,
    PARTS,
    SIDES,
    Count,
    count,
    is_side,
    opposite,
    read_part,
    settles,
    triangles,
)
from tutor.marking.task import DrawingTask
from tutor.quantity.dimension import LENGTH
from tutor.quantity.units import Unit, read_unit

# How finely a ruler and a protractor are read: half a millimetre, half a degree.
READING = 0.5
# What can be drawn on a sheet of paper and measured: millimetres and degrees.
_SHORTEST, _LONGEST, _SHARPEST = 10, 280, 10
_STEPS = (-1.0, -0.5, 0.0, 0.5, 1.0)


@dataclass(frozen=True)
class Plan:
    """A triangle to be drawn. Sizes in millimetres and degrees; ``exact``: all six parts of the triangle."""

    unit: Unit
    givens: Mapping[str, Fraction]
    shown: Mapping[str, str]
    measure: tuple[str, ...]
    exact: Mapping[str, float]
    within_length: Fraction
    within_angle: Fraction

    @property
    def wanted(self) -> tuple[str, ...]:
        """Return all parts that are to be typed: those that were drawn, then the others."""
        return (*self.givens, *(name for name in self.measure if name not in self.givens))

    def within(self, name: str) -> Fraction:
        """Return how far a part may be off."""
        return self.within_length if is_side(name) else self.within_angle

    def fits_given(self, name: str, size: Fraction) -> bool:
        """Tell whether a given part was drawn as it is asked."""
        return abs(size - self.givens[name]) <= self.within(name)

    def follows(self, name: str, own: Mapping[str, Fraction]) -> tuple[float, float]:
        """Return between which sizes a part can lie in the triangle that the student drew.

        ``own``: the parts the student measured. A given part is what was measured, give or take
        the reading of the scale; where it was not measured, what is asked, give or take what a
        drawing may be off. All triangles with such parts are gone through in steps, and the
        part itself may be off as much as a given one.
        """
        box = [(float(own[given]), READING) if given in own else self._asked(given) for given in self.givens]
        found = list(self._sizes(name, box))
        if not found:
            found = list(self._sizes(name, [self._asked(given) for given in self.givens]))
        off = float(self.within(name))
        return min(found, default=self.exact[name]) - off, max(found, default=self.exact[name]) + off

    def unfit(self, own: Mapping[str, Fraction]) -> tuple[str, ...]:
        """Return the parts that do not fit what was drawn, once all of that is measured.

        A part that comes before the given ones is held against what they may be: this is the second look.
        """
        if not all(name in own for name in self.givens):
            return ()
        found: list[str] = []
        for name in self.measure:
            low, high = self.follows(name, own) if name in own else (0.0, 0.0)
            if name in own and not low <= own[name] <= high:
                found.append(name)
        return tuple(found)

    def _asked(self, name: str) -> tuple[float, float]:
        return float(self.givens[name]), float(self.within(name))

    def _sizes(self, name: str, box: list[tuple[float, float]]) -> list[float]:
        sizes: list[float] = []
        for steps in product(_STEPS, repeat=len(box)):
            known = {
                given: middle + step * half
                for given, (middle, half), step in zip(self.givens, box, steps, strict=True)
            }
            near = [triangle[name] for triangle in triangles(known)]
            sizes += [min(near, key=lambda size: abs(size - self.exact[name]))] if near else []
        return sizes


@lru_cache(maxsize=64)
def plan_of(task: DrawingTask) -> tuple[Plan | None, tuple[str, ...]]:
    """Return a drawing task as sizes; None with what is wrong with it, in sentences for the teacher."""
    unit = read_unit(task.unit)
    if unit is None or unit.dimension != LENGTH or str(unit) == "units":
        return None, (f"“{task.unit[:20]}” is no unit of length. Write cm, mm or in.",)
    faults = [*_within_faults(task), *_named_wrong(task)]
    sizes: dict[str, Fraction] = {}
    for name, text in task.givens:
        size = read_part(name, text, unit)
        if isinstance(size, str):
            faults.append(size)
        elif name in sizes:
            faults.append(f"{name} is given twice.")
        else:
            sizes[name] = size
    if not faults and not settles(frozenset(sizes)):
        faults.append(_not_settled(sizes))
    faults = faults or _faults(sizes, dict(task.givens))
    if faults:
        return None, tuple(faults)
    exact = next(triangles({name: float(size) for name, size in sizes.items()}))
    plan = Plan(
        unit,
        sizes,
        {name: text.strip() for name, text in task.givens},
        tuple(dict.fromkeys(task.measure)),
        exact,
        Fraction(task.within_length),
        Fraction(task.within_angle),
    )
    unfit = _unfit_for_paper(plan)
    return (None, unfit) if unfit else (plan, ())


def _within_faults(task: DrawingTask) -> list[str]:
    found: list[str] = []
    for text, what, most in ((task.within_length, "mm", 20), (task.within_angle, "°", 20)):
        number = text if len(text) <= 6 and text.replace(".", "", 1).isdecimal() and text.isascii() else ""
        if not number or not 0 < Fraction(number) <= most:
            found.append(f"How far off a drawing may be is more than 0 and at most {most} {what}.")
    return found


def _named_wrong(task: DrawingTask) -> list[str]:
    given = {name for name, _ in task.givens}
    found = [
        f"“{name[:40]}” is no part of the triangle: those are a, b, c, A, B and C."
        for name in task.measure
        if name not in PARTS
    ]
    found += [f"{name} is given: measure another part." for name in task.measure if name in given]
    return found or ([] if task.measure else ["Say which parts are to be measured: write “find”."])


def _not_settled(sizes: Mapping[str, Fraction]) -> str:
    if len(sizes) != 3:
        return f"Three parts settle a triangle; {len(sizes)} are given here."
    return "Three angles settle the shape of a triangle and not its size. Give a side."


def _faults(sizes: Mapping[str, Fraction], shown: Mapping[str, str]) -> list[str]:
    """Return why there is not exactly one triangle with three parts."""
    found = count(sizes)
    match found:
        case Count.ONE:
            return []
        case Count.TWO | Count.MANY:
            return ["Two different triangles have these parts. Give the angle between the two sides instead."]
        case Count.NONE:
            return [_why_none(sizes, shown)]
        case _:
            return [found]


def _why_none(sizes: Mapping[str, Fraction], shown: Mapping[str, str]) -> str:
    sides = sorted((name for name in SIDES if name in sizes), key=lambda name: sizes[name])
    angles = [name for name in ANGLES if name in sizes]
    if len(sides) == 3:
        short, middle, longest = (shown[name].strip() for name in sides)
        return f"No triangle: {short} and {middle} together are not longer than {longest}."
    if sum((sizes[name] for name in angles), Fraction(0)) >= 180:
        return "No triangle: the angles given already come to 180° or more."
    far = opposite(angles[0])
    return f"No triangle: {far} = {shown[far].strip()} is too short to close the triangle."


def _unfit_for_paper(plan: Plan) -> tuple[str, ...]:
    found: list[str] = []
    for name in PARTS:
        size = plan.exact[name]
        if is_side(name) and size > _LONGEST:
            found.append(f"{name} comes out as {size / 10:.1f} cm: too long for a sheet of paper.")
        elif is_side(name) and size < _SHORTEST:
            found.append(f"{name} comes out as {size:.1f} mm: too short to be drawn and measured.")
        elif not is_side(name) and size < _SHARPEST:
            found.append(f"{name} comes out as {size:.1f}°: too sharp to be drawn and measured.")
    return tuple(found)
