"""Whether a decimal is the right rounding of a value, and whether the line may round at all."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from math import ceil, floor
from typing import assert_never

from tutor.line.meaning import Setting, value_of
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Chain, Expr, Measure, Name, Neg, Num, Percent, Rel, Statement
from tutor.line.walk import rebuilt
from tutor.marking.deciding.claim import split_signs
from tutor.marking.deciding.ground import Ground, evaluate
from tutor.marking.deciding.state import Answer, Known, has_pi
from tutor.marking.task import Rounding, Task

_NEAR = Fraction(1, 10**25)


def rounds_to(value: Fraction, shown: Fraction, places: int) -> bool:
    """Tell whether ``shown`` is ``value`` rounded to so many decimal places (a half either way)."""
    return bool(abs(value - shown) * 2 * 10**places <= 1 + _NEAR)


def _shown(expr: Expr) -> tuple[Num, int] | None:
    """Return the decimal that stands alone on a side, and its sign."""
    match expr:
        case Num(places=places) if places is not None:
            return expr, 1
        case Neg(inner):
            found = _shown(inner)
            return None if found is None else (found[0], -found[1])
        case Measure(inner, _) | Percent(inner):
            return _shown(inner)
        case _:
            return None


def rounded_sides(statement: Statement) -> Iterator[tuple[Expr, Rel, Expr]]:
    """Yield (side, relation, the side that is a decimal alone) for each equation in a chain."""
    if not isinstance(statement, Chain):
        return
    for left, rel, right in zip(statement.sides, statement.rels, statement.sides[1:], strict=False):
        if rel.equates:
            if _shown(right) is not None:
                yield left, rel, right
            elif _shown(left) is not None:
                yield right, rel, left


def may_round(known: Known, statement: Statement) -> bool:
    """Tell, without working anything out, whether a side could be a rounding at all."""
    return any(_may_round(known, part) for part in split_signs(statement))


def _may_round(known: Known, statement: Statement) -> bool:
    for _, rel, decimal in _decimals(statement):
        found = _shown(decimal)
        assert found is not None
        number = found[0]
        asked = known.context.task.places is not None or rel is Rel.APPROX or number.open_end
        if asked or (number.places or 0) >= 1 or _digits(number) >= 3:
            return True
    return False


def _decimals(statement: Statement) -> Iterator[tuple[Expr, Rel, Expr]]:
    """Yield (side, relation, decimal alone) of equations, and of a solved inequality."""
    yield from rounded_sides(statement)
    if isinstance(statement, Chain) and len(statement.sides) == 2 and not statement.rels[0].equates:
        left, right = statement.sides
        for side, decimal in ((left, right), (right, left)):
            if isinstance(side, Name) and _shown(decimal) is not None:
                yield side, statement.rels[0], decimal


def _digits(number: Num) -> int:
    return len(number.text.replace(",", "").replace(".", "").lstrip("0"))


def rounds(
    known: Known, ground: Ground, side: Expr, rel: Rel, decimal: Expr, setting: Setting
) -> frozenset[int]:
    """Return the places of the solutions at which ``decimal`` is a rounding of ``side`` that is allowed."""
    none: frozenset[int] = frozenset()
    found = _shown(decimal)
    if found is None:
        return none
    number, sign = found
    places = number.places or 0
    try:
        ratio = value_of(side, setting)
    except (NotExact, DividedByZero):
        return none
    scale = _scale(decimal, sign * number.value, setting)
    if not scale:
        return none
    fitting: set[int] = set()
    for at, values in enumerate(points(ground)):
        above, below = evaluate(ratio.above, values), evaluate(ratio.below, values)
        if above is None or not below:
            continue
        value = above / below / scale
        shown = sign * number.value
        if number.open_end:
            if 0 <= abs(value) - abs(shown) < Fraction(1, 10**places) and value * shown > 0:
                fitting.add(at)
        elif _one_way(known, side, rel, number):
            if shown == as_asked(value, known.context.task):
                fitting.add(at)
        elif rounds_to(value, shown, places) and _entitled(known, rel, value, number, setting):
            fitting.add(at)
    return frozenset(fitting)


def _scale(decimal: Expr, value: Fraction, setting: Setting) -> Fraction | None:
    """Return how many reference units one of a decimal's is; ``value``: the decimal as a number."""
    try:
        unit = value_of(rebuilt(decimal, _closed), setting).above.rational()
    except (NotExact, DividedByZero):
        return None
    return Fraction(unit) / value if unit is not None and value else None


# -- one way, and to whole things ------------------------------------------------------------------


def _one_way(known: Known, side: Expr, rel: Rel, number: Num) -> bool:
    """Tell whether a decimal is the answer in a problem whose answer is rounded up, or down."""
    task = known.context.task
    if task.rounding is Rounding.NEAREST or not has_asked_places(number.value, task):
        return False
    return rel is Rel.APPROX or (isinstance(side, Name) and side.name in known.context.find)


def has_asked_places(value: Fraction, task: Task) -> bool:
    """Tell whether a value has no more decimal places than are asked for: 7 and 7.0 are whole."""
    return task.places is not None and (value * 10**task.places).denominator == 1


def must_round(task: Task) -> bool:
    """Tell whether the answer has to be rounded, and not only may be: one way, or to whole things."""
    return task.places is not None and (task.places == 0 or task.rounding is not Rounding.NEAREST)


def as_asked(value: Fraction, task: Task) -> Fraction:
    """Return a value rounded as the task asks, a half up. Roots and π are cut far behind ``_NEAR``."""
    size = 10 ** (task.places or 0)
    match task.rounding:
        case Rounding.NEAREST:
            return Fraction(floor(value * size + Fraction(1, 2) + _NEAR), size)
        case Rounding.UP:
            return Fraction(ceil(value * size - _NEAR), size)
        case Rounding.DOWN:
            return Fraction(floor(value * size + _NEAR), size)
        case _:
            assert_never(task.rounding)


def before_rounding(
    known: Known, name: str, decimal: Expr, setting: Setting
) -> tuple[tuple[Fraction, Fraction], ...]:
    """Return an answer before it is rounded, in the unit of its decimal, with the decimal as a number.

    First as the problem gives it, then as it follows from answers that were rounded before:
    seven boxes cost seven times as much as one. Empty where it is no decimal, or has not one value.
    """
    found = _shown(decimal)
    if found is None or known.base is None:
        return ()
    shown = found[1] * found[0].value
    scale = _scale(decimal, shown, setting)
    made: list[tuple[Fraction, Fraction]] = []
    for spec in (known.base, *known.more) if scale else ():
        try:
            values = set(spec.ground(setting).values().get(name, ()))
        except (NotExact, DividedByZero):
            continue
        if scale and len(values) == 1:
            made.append((values.pop() / scale, shown))
    return tuple(dict.fromkeys(made))


def is_as_asked(known: Known, answer: Answer) -> bool | None:
    """Tell whether an answer is rounded as it has to be, None where that cannot be told."""
    if _shown(answer.value) is None:
        return False  # 25/4 and 6 1/4 are still to be rounded
    found = before_rounding(known, answer.name, answer.value, answer.setting)
    task = known.context.task
    if task.rounding is Rounding.NEAREST:
        places = task.places or 0
        right = [has_asked_places(shown, task) and rounds_to(value, shown, places) for value, shown in found]
    else:
        right = [shown == as_asked(value, task) for value, shown in found]
    return any(right) if right else None


def rounds_alone(known: Known, value: Fraction, decimal: Expr, setting: Setting) -> bool:
    """Tell whether a decimal that stands alone is a rounding of a value that the line may give."""
    found = _shown(decimal)
    if found is None:
        return False
    number, sign = found
    fits = rounds_to(value, sign * number.value, number.places or 0)
    return fits and _entitled(known, Rel.EQ, value, number, setting)


def _closed(node: Expr) -> Expr:
    return replace(node, open_end=False) if isinstance(node, Num) and node.open_end else node


def points(ground: Ground) -> list[dict[str, Fraction]]:
    """Return the solutions as values of all settled names."""
    values = ground.values()
    many = max((len(found) for found in values.values()), default=1)
    return [{name: found[min(at, len(found) - 1)] for name, found in values.items()} for at in range(many)]


def _entitled(known: Known, rel: Rel, value: Fraction, number: Num, setting: Setting) -> bool:
    places = number.places or 0
    if rel is Rel.APPROX:
        return True
    task = known.context.task
    if task.places is not None and places >= task.places and task.rounding is Rounding.NEAREST:
        return True
    with_pi = known.base is not None and any(has_pi(premise) for premise in known.base.premises)
    if (with_pi or (setting.pi is not None and known.shown_pi)) and places >= 1:
        return True  # an answer worked out with π is rounded, whichever π was taken
    return not _ends(value) and (places >= 2 or _digits(number) >= 3)


def _ends(value: Fraction) -> bool:
    """Tell whether a value has a decimal that ends. Values of roots and π are cut at 50 places
    and have an enormous denominator: those do not end.
    """
    bottom = value.denominator
    if bottom > 10**20:
        return False
    for prime in (2, 5):
        while bottom % prime == 0:
            bottom //= prime
    return bottom == 1
