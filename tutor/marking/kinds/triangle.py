"""Triangles from some of their parts: how many there are, and what the other parts are.

Sides a, b and c lie opposite the angles A, B and C. Lengths are in millimetres, angles in degrees.
Counting is exact: the sine of an acute angle of a whole or fractional number of degrees is a
rational number at 30° only, a cosine only at 60°, 90° and 120° (Niven's theorem). At any other
angle a comparison with a rational number is never an equality and can be made with enough digits.
"""

import math
from collections.abc import Iterator, Mapping
from decimal import Decimal, localcontext
from enum import Enum
from fractions import Fraction

from tutor.line.meaning import Setting, UnitSystem, value_of
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.reader import Unread, read
from tutor.line.tree import Bare, Measure
from tutor.marking.deciding.facts import facts
from tutor.quantity.dimension import ANGLE, LENGTH
from tutor.quantity.units import Unit

SIDES = ("a", "b", "c")
ANGLES = ("A", "B", "C")
PARTS = (*SIDES, *ANGLES)

Exact = dict[str, Fraction]

_IN_MILLIMETRES = Setting(units=UnitSystem(length=Fraction(1, 1000)))
# More than any ruler, map or protractor shows; keeps the exact arithmetic small.
_MOST = Fraction(10**9)
_FINEST = 10**6

_HALF_TURN = Fraction(180)
_HALF_SINE = Fraction(30)
_COSINES = {Fraction(60): Fraction(1, 2), Fraction(90): Fraction(0), Fraction(120): Fraction(-1, 2)}
_PI = Decimal("3.14159265358979323846264338327950288419716939937510582097494")
_DIGITS = 60
_ROUNDED = 1e-12  # an arc that only just touches may miss by the last digits of a float
_EQUAL = Decimal(10) ** -40


class Count(Enum):
    """How many different triangles have some parts; the value is what a student answers."""

    NONE = "none"
    ONE = "one"
    TWO = "two"
    MANY = "many"


def is_side(name: str) -> bool:
    """Tell whether a part is a side."""
    return name in SIDES


def opposite(name: str) -> str:
    """Return the angle opposite a side, the side opposite an angle."""
    return name.swapcase()


# -- reading parts -----------------------------------------------------------------------------


def read_part(name: str, text: str, unit: Unit | None = None) -> Fraction | str:
    """Return the size of a part in millimetres or degrees, or what is wrong with it, for a teacher.

    ``unit``: what a side without a unit is measured in, None where it has to have one.
    """
    example = "6 cm" if is_side(name) else "50°"
    if name not in PARTS:
        return f"“{name[:40]}” is no part of the triangle: those are a, b, c, A, B and C."
    found = read(text)
    statement = found if isinstance(found, Unread) else found.statements[0]
    size = size_of(name, statement, unit) if isinstance(statement, Bare) else None
    if size is None:
        return f"{name} is no size here. Write it like {example}."
    if size <= 0:
        return f"{name} is 0 or less. Write it like {example}."
    return size


def size_of(name: str, value: Bare, unit: Unit | None) -> Fraction | None:
    """Return a size in millimetres or degrees; None where it is no plain number or has another kind of unit.

    ``unit``: what a side without a unit is measured in. "6 cm 2 mm" is one size.
    """
    wanted, own = (LENGTH if is_side(name) else ANGLE), facts(value).units
    if any(one.dimension != wanted for one in own) or (is_side(name) and not own and unit is None):
        return None
    counted = value.expr if own or unit is None or not is_side(name) else Measure(value.expr, unit)
    try:
        constant = value_of(counted, _IN_MILLIMETRES).constant()
    except (NotExact, DividedByZero):
        return None
    exact = None if constant is None else constant.rational()
    if exact is None:
        return None
    size = Fraction(exact)
    return size if abs(size) <= _MOST and size.denominator <= _FINEST else None


def read_parts(givens: tuple[tuple[str, str], ...], unit: Unit | None = None) -> Exact | str:
    """Return the sizes of some parts, or the first thing that is wrong with them."""
    found: Exact = {}
    for name, text in givens:
        size = read_part(name, text, unit)
        if isinstance(size, str):
            return size
        if name in found:
            return f"{name} is given twice."
        found[name] = size
    return found


# -- how many there are ------------------------------------------------------------------------


def how_many(givens: tuple[tuple[str, str], ...]) -> Count | str:
    """Return how many different triangles have these parts, or a sentence for the teacher.

    ``givens``: name and value, as ``("a", "6 cm")`` and ``("B", "50°")``; congruent triangles
    are one. Parts that fit together only by rounding are sent back.
    """
    parts = read_parts(givens)
    return parts if isinstance(parts, str) else count(parts)


def count(parts: Mapping[str, Fraction]) -> Count | str:
    """Return how many different triangles have parts of these sizes, or a sentence for the teacher."""
    sides = {name: parts[name] for name in SIDES if name in parts}
    angles = {name: parts[name] for name in ANGLES if name in parts}
    together = sum(angles.values(), Fraction(0))
    if len(angles) == 3 and together != _HALF_TURN:
        return Count.NONE
    if len(angles) < 3 and together >= _HALF_TURN:
        return Count.NONE
    if len(sides) == 3 and not _sides_meet(sides):
        return Count.NONE
    if not sides or len(sides) + len(angles) < 3:
        return Count.MANY
    if len(angles) >= 2:
        return _with_all_angles(sides, _third_angle(angles))
    if len(sides) == 3:
        return _with_all_sides(sides, angles)
    (angle,) = angles
    if opposite(angle) not in sides:
        return Count.ONE  # two sides and the angle between them
    (other,) = sides.keys() - {opposite(angle)}
    return _beside_a_side(angles[angle], sides[opposite(angle)], sides[other])


def _sides_meet(sides: Mapping[str, Fraction]) -> bool:
    *short, longest = sorted(sides.values())
    return sum(short) > longest


def _third_angle(angles: Mapping[str, Fraction]) -> Exact:
    left = _HALF_TURN - sum(angles.values(), Fraction(0))
    return {name: angles.get(name, left) for name in ANGLES}


def _with_all_angles(sides: Exact, angles: Exact) -> Count | str:
    """The angles give the shape, one side the size: further sides fit or they do not."""
    (first, size), *others = sides.items()
    for name, given in others:
        with localcontext() as digits:
            digits.prec = _DIGITS
            found = _decimal(size) * _sine(angles[opposite(name)]) / _sine(angles[opposite(first)])
            apart = abs(found / _decimal(given) - 1)
        if apart > Decimal("0.01"):
            return Count.NONE
        if apart > _EQUAL:
            return _only_nearly(name)
    return Count.ONE


def _with_all_sides(sides: Exact, angles: Exact) -> Count | str:
    """Three sides settle the triangle: an angle beside them fits or it does not."""
    for name, given in angles.items():
        cosine = _cosine_from_sides(sides, name)
        if cosine == _COSINES.get(given):
            continue
        near = abs(math.degrees(math.acos(max(-1.0, min(1.0, float(cosine))))) - float(given)) < 1
        return _only_nearly(name) if near else Count.NONE
    return Count.ONE


def _cosine_from_sides(sides: Mapping[str, Fraction], angle: str) -> Fraction:
    """The law of cosines, turned round for the angle."""
    far = sides[opposite(angle)]
    first, second = (sides[name] for name in SIDES if name != opposite(angle))
    return (first**2 + second**2 - far**2) / (2 * first * second)


def _only_nearly(name: str) -> str:
    return f"{name} fits the other parts only by rounding. Take it away, or change it."


def _beside_a_side(angle: Fraction, far: Fraction, near: Fraction) -> Count:
    """Two sides and an angle not between them: ``far`` lies opposite the angle, ``near`` beside it."""
    if angle >= 90:
        return Count.ONE if far > near else Count.NONE
    if far >= near:
        return Count.ONE
    reach = _against_the_height(angle, far, near)
    return Count.NONE if reach < 0 else Count.ONE if reach == 0 else Count.TWO


def _against_the_height(angle: Fraction, far: Fraction, near: Fraction) -> int:
    """Return the sign of ``far − near · sin angle``: whether the far side reaches the other arm."""
    if angle == _HALF_SINE:
        return (2 * far > near) - (2 * far < near)
    with localcontext() as digits:
        digits.prec = _DIGITS
        height = _decimal(near) * _sine(angle)
        return 1 if _decimal(far) > height else -1


def _decimal(value: Fraction) -> Decimal:
    return Decimal(value.numerator) / Decimal(value.denominator)


def _sine(degrees: Fraction) -> Decimal:
    """Return a sine by its power series, in the digits of the context; the angle lies between 0° and 180°."""
    turn = degrees if degrees <= 90 else 180 - degrees
    angle = _decimal(turn) * _PI / 180
    term = total = angle
    for place in range(3, 80, 2):
        term *= -angle * angle / (place * (place - 1))
        total += term
    return total


# -- the other parts ---------------------------------------------------------------------------


def triangles(known: Mapping[str, float]) -> Iterator[dict[str, float]]:
    """Yield the triangles with three known parts, all six parts of each; none where there is none.

    Lengths count in any one unit, angles in degrees. Two angles and a side, three sides, two
    sides and an angle: laws of sines and cosines.
    """
    sides = [name for name in SIDES if name in known]
    angles = [name for name in ANGLES if name in known]
    if len(sides) + len(angles) != 3 or not sides or any(size <= 0 for size in known.values()):
        return
    if len(angles) == 2:
        yield from _from_angles(known, sides[0], angles)
    elif len(sides) == 3:
        yield from _from_sides(dict(known))
    elif opposite(angles[0]) in sides:
        yield from _from_far_side(known, angles[0])
    else:
        first, second = sides
        far = opposite(angles[0])
        squared = known[first] ** 2 + known[second] ** 2
        squared -= 2 * known[first] * known[second] * _cos(known[angles[0]])
        yield from _from_sides(
            {first: known[first], second: known[second], far: math.sqrt(max(0.0, squared))}
        )


def _from_angles(known: Mapping[str, float], side: str, angles: list[str]) -> Iterator[dict[str, float]]:
    all_angles = {name: known[name] for name in angles}
    (third,) = set(ANGLES) - set(angles)
    all_angles[third] = 180 - sum(all_angles.values())
    if all_angles[third] <= 0:
        return
    scale = known[side] / _sin(all_angles[opposite(side)])
    yield {**{name: scale * _sin(all_angles[opposite(name)]) for name in SIDES}, **all_angles}


def _from_sides(sides: Mapping[str, float]) -> Iterator[dict[str, float]]:
    *short, longest = sorted(sides.values())
    if sum(short) <= longest or min(short) <= 0:
        return
    found = dict(sides)
    for name in ANGLES:
        far = sides[opposite(name)]
        first, second = (sides[side] for side in SIDES if side != opposite(name))
        cosine = (first**2 + second**2 - far**2) / (2 * first * second)
        found[name] = math.degrees(math.acos(max(-1.0, min(1.0, cosine))))
    yield found


def _from_far_side(known: Mapping[str, float], angle: str) -> Iterator[dict[str, float]]:
    far = known[opposite(angle)]
    near = next(name for name in SIDES if name in known and name != opposite(angle))
    sine = known[near] * _sin(known[angle]) / far
    if sine > 1 + _ROUNDED or known[angle] >= 180:
        return
    acute = 90.0 if sine > 1 - _ROUNDED else math.degrees(math.asin(sine))
    for other in dict.fromkeys((acute, 180 - acute)):
        if known[angle] + other < 180:
            yield from _from_angles(
                {angle: known[angle], opposite(near): other, near: known[near]}, near, [angle, opposite(near)]
            )


def _sin(degrees: float) -> float:
    return math.sin(math.radians(degrees))


def _cos(degrees: float) -> float:
    return math.cos(math.radians(degrees))


def settles(names: frozenset[str]) -> bool:
    """Tell whether three parts are enough for a triangle: at least one of them is a side."""
    return len(names) == 3 and any(is_side(name) for name in names) and names <= set(PARTS)
