"""Whether a decimal is the right rounding of a value, and whether the line may round at all."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from tutor.line.meaning import Setting, value_of
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Chain, Expr, Measure, Name, Neg, Num, Percent, Rel, Statement
from tutor.line.walk import every, rebuilt
from tutor.marking.deciding.claim import claim_of, split_signs
from tutor.marking.deciding.ground import Ground, evaluate
from tutor.marking.deciding.stages import (
    NEAR,
    Stage,
    allowed_by,
    as_asked,
    bound_of,
    specs_about,
    stages_of,
)
from tutor.marking.deciding.state import Answer, Known, has_pi
from tutor.marking.task import Precision, Rounding
from tutor.quantity.dimension import MONEY
from tutor.quantity.units import Unit


def rounds_to(value: Fraction, shown: Fraction, places: int) -> bool:
    """Tell whether ``shown`` is ``value`` rounded to so many decimal places (a half either way)."""
    return bool(abs(value - shown) * 2 * 10**places <= 1 + NEAR)


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
        asked = known.context.task.rounds or rel is Rel.APPROX or number.open_end
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


def asked_about(known: Known, statement: Statement) -> str:
    """Return the name that is asked for whose answer a line gives, "" where it is none."""
    if isinstance(statement, Chain):
        for side in (statement.sides[0], statement.sides[-1]):
            if isinstance(side, Name) and side.name in known.context.find:
                return side.name
    return ""


def rounds(
    known: Known, ground: Ground, link: tuple[Expr, Rel, Expr], about: str, setting: Setting
) -> frozenset[int]:
    """Return the places of the solutions at which a link is a rounding that is allowed.

    ``link``: a side, the relation, the decimal. ``about``: the answer that the line gives, or "".
    """
    side, rel, decimal = link
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
        elif one_way := _one_way(known, side, rel, number, about):
            if any(shown == as_asked(value, precision) for precision in one_way):
                fitting.add(at)
        elif rounds_to(value, shown, places) and (
            _entitled(known, rel, value, number, setting, about)
            or _to_the_cent(known, decimal, number, about)
        ):
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


def _one_way(known: Known, side: Expr, rel: Rel, number: Num, about: str) -> list[Precision]:
    """Return how a decimal may be rounded one way, where it is an answer that is counted up, or down."""
    task = known.context.task
    if not task.rounds:
        return []
    subject = side.name if isinstance(side, Name) else about
    told: list[Precision | None] = []
    if subject not in known.context.find:
        told += task.precisions if rel is Rel.APPROX else ()
    elif rel is Rel.APPROX or isinstance(side, Name):
        told.append(asked_precision(known, subject))
    return [one for one in told if one and one.one_way and has_asked_places(number.value, one)]


def asked_precision(known: Known, name: str) -> Precision | None:
    """Return how an answer is to be rounded, None where it is not, or where the name is not asked for."""
    return known.context.task.precision_of(name) if name in known.context.find else None


def has_asked_places(value: Fraction, precision: Precision) -> bool:
    """Tell whether a value has no more decimal places than are asked for: 7 and 7.0 are whole."""
    return bool((value * 10**precision.places).denominator == 1)


def must_round(known: Known, name: str) -> bool:
    """Tell whether an answer has to be rounded, and not only may be."""
    if not known.context.task.rounds:
        return False
    precision = asked_precision(known, name)
    return precision is not None and precision.must


def before_rounding(
    known: Known, name: str, decimal: Expr, setting: Setting
) -> tuple[tuple[Fraction, Fraction], ...]:
    """Return an answer before it is rounded, in the unit of its decimal, with the decimal as a number.

    First as the problem gives it, then as it follows from answers that were rounded before:
    seven boxes cost seven times as much as one. Where it may only be from a number on, that number.
    Empty where it is no decimal, or has not one value.
    """
    found = _shown(decimal)
    if found is None or known.base is None:
        return ()
    shown = found[1] * found[0].value
    scale = _scale(decimal, shown, setting)
    made: list[tuple[Fraction, Fraction]] = []
    for spec in specs_about(known, name, setting) if scale else ():
        try:
            values = set(spec.ground(setting).values().get(name, ()))
        except (NotExact, DividedByZero):
            continue
        if scale and len(values) == 1:
            made.append((values.pop() / scale, shown))
    stage = _bounding(known, name)
    if stage is not None and scale:
        made.append((stage.before * stage.size / scale, shown))
    return tuple(dict.fromkeys(made))


def _bounding(known: Known, name: str) -> Stage | None:
    """Return how an answer is rounded that an inequality only bounds."""
    return next((one for one in stages_of(known) if one.name == name and not one.rel.equates), None)


def bounded(known: Known, statement: Statement, setting: Setting) -> Stage | None:
    """Return the answer that a line gives as an inequality and its rounding allow, None where it does not."""
    if not isinstance(statement, Chain) or len(statement.sides) != 2:
        return None
    stages = [stage for stage in stages_of(known) if not stage.rel.equates]
    alone = [side for side in statement.sides if isinstance(side, Name)]
    decimal = [side for side in statement.sides if _shown(side) is not None]
    if not stages or len(alone) != 1 or len(decimal) != 1:
        return None
    try:
        bound = bound_of(claim_of(statement, setting))
    except (NotExact, DividedByZero):
        return None
    return next((stage for stage in stages if bound is not None and allowed_by(stage, bound)), None)


def is_as_asked(known: Known, answer: Answer) -> bool | None:
    """Tell whether an answer is rounded as it has to be, None where that cannot be told."""
    if _shown(answer.value) is None:
        return False  # 25/4 and 6 1/4 are still to be rounded
    precision = asked_precision(known, answer.name)
    if precision is None:
        return None
    stage = _bounding(known, answer.name)
    if stage is not None:
        strict = not {Rel.GT, Rel.LT}.isdisjoint(_rels(answer))
        return bounded(known, answer.statement, answer.setting) is stage and not strict
    found = before_rounding(known, answer.name, answer.value, answer.setting)
    if precision.rounding is Rounding.NEAREST:
        places = precision.places
        right = [
            has_asked_places(shown, precision) and rounds_to(value, shown, places) for value, shown in found
        ]
    else:
        right = [shown == as_asked(value, precision) for value, shown in found]
    return any(right) if right else None


def _rels(answer: Answer) -> tuple[Rel, ...]:
    return answer.statement.rels if isinstance(answer.statement, Chain) else ()


def approximates(known: Known, link: Statement, setting: Setting) -> bool:
    """Tell whether a link without names is a rounding that may be: ``½ · π · 5² ≈ 39.27``."""
    for side, rel, decimal in rounded_sides(link):
        found = _shown(decimal)
        if found is None:
            continue
        number, sign = found
        try:
            ratio = value_of(side, setting)
        except (NotExact, DividedByZero):
            continue
        above, below = evaluate(ratio.above, {}), evaluate(ratio.below, {})
        scale = _scale(decimal, sign * number.value, setting)
        if above is None or not below or not scale:
            continue
        value = above / below / scale
        fits = rounds_to(value, sign * number.value, number.places or 0)
        if fits and _entitled(known, rel, value, number, setting, ""):
            return True
    return False


def rounds_alone(known: Known, value: Fraction, decimal: Expr, setting: Setting) -> bool:
    """Tell whether a decimal that stands alone is a rounding of a value that the line may give."""
    found = _shown(decimal)
    if found is None:
        return False
    number, sign = found
    if not rounds_to(value, sign * number.value, number.places or 0):
        return False
    entitled = _entitled(known, Rel.EQ, value, number, setting, "")
    return entitled or _to_the_cent(known, decimal, number, "")


def _to_the_cent(known: Known, decimal: Expr, number: Num, about: str) -> bool:
    """``$4.38`` for $4.375: money is paid to the cent. Common practice, no source."""
    if number.places != _CENTS:
        return False
    units: list[Unit | None] = [node.unit for node in every(decimal) if isinstance(node, Measure)]
    units = units or [known.context.asked_unit(about) if about else None]
    return all(unit is not None and unit.dimension == MONEY for unit in units)


_CENTS = 2  # decimal places


def _closed(node: Expr) -> Expr:
    return replace(node, open_end=False) if isinstance(node, Num) and node.open_end else node


def points(ground: Ground) -> list[dict[str, Fraction]]:
    """Return the solutions as values of all settled names."""
    values = ground.values()
    many = max((len(found) for found in values.values()), default=1)
    return [{name: found[min(at, len(found) - 1)] for name, found in values.items()} for at in range(many)]


def _entitled(known: Known, rel: Rel, value: Fraction, number: Num, setting: Setting, about: str) -> bool:
    places = number.places or 0
    if rel is Rel.APPROX:
        return True
    task = known.context.task
    if task.rounds:
        told = (task.precision_of(about),) if about else task.precisions
        nearest = [one.places for one in told if one and not one.one_way]
        # 7 says 7.0 where one place is asked.
        if any(places >= asked or rounds_to(abs(value), number.value, asked) for asked in nearest):
            return True
    with_pi = known.base is not None and any(has_pi(premise) for premise in known.base.premises)
    if (with_pi or (setting.pi is not None and known.shown_pi)) and places >= 1:
        return True  # an answer worked out with π is rounded, whichever π was taken
    return not ends(value) and (places >= 2 or _digits(number) >= 3)


def ends(value: Fraction) -> bool:
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
