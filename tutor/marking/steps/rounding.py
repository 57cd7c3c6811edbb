"""The end of the arithmetic: rounding as asked, the unit behind the answer."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from tutor.line.meaning import number_of, value_of
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.real import approximate
from tutor.line.tree import Chain, Expr, Measure, Name, Neg, Num, PiSign, Pow, Rel, Root
from tutor.line.walk import every, names_in, sides
from tutor.line.writing import write_number
from tutor.marking.deciding.answers import answers_in
from tutor.marking.deciding.rounding import asked_precision, is_as_asked, must_round
from tutor.marking.deciding.stages import Stage, as_asked, chain
from tutor.marking.steps.forms import literal, number
from tutor.marking.steps.model import Move
from tutor.marking.steps.opening import unit_like, units_like
from tutor.marking.steps.standing import Standing
from tutor.marking.steps.writing import written
from tutor.marking.task import Precision, Rounding
from tutor.marking.verdict import Step
from tutor.quantity.pi import Pi
from tutor.quantity.units import Unit

# Decimal places where none are asked for; more for a value that is worked on with.
_PLACES, _ON_THE_WAY = 2, 4
_MONEY = ("$", "€", "£", "₹", "¥")


def rounded(now: Standing, move: Move) -> Move:
    """Return a move whose answer has no short decimal with a rounded answer, in measured work."""
    if not _measured(now) or not isinstance(move.statement, Chain) or move.statement.rels != (Rel.EQ,):
        return move
    found = answers_in(move.statement) or _power_alone(move.statement)
    if len(found) != 1 or literal(found[0][1][0]) is None or _short(found[0][1][0]):
        return move
    name, (value,) = found[0]
    places = _places(now, name)
    shown = _decimal(value, places, now, name)
    if shown is None:
        return move
    changed = tuple(shown if side == value else side for side in move.statement.sides)
    what = f"{move.what.removesuffix('.')}, and {_told(now, name, places)}."
    return replace(move, statement=Chain(changed, (Rel.APPROX,)), what=what)


def _power_alone(chain: Chain) -> tuple[tuple[str, tuple[Expr, ...]], ...]:
    """``r^2 = 80/3.14``: a power alone, whose value is rounded on the way; it has no name of its own."""
    powers = [side for side in chain.sides if isinstance(side, Pow | Root) and names_in(side)]
    values = [side for side in chain.sides if not names_in(side)]
    return (("", (values[0],)),) if len(powers) == 1 and len(values) == 1 else ()


def _measured(now: Standing) -> bool:
    task = now.known.context.task
    decimal = task.pi is not Pi.FRACTION and not now.style.fractions
    return decimal and bool(now.known.context.asked_units or task.pi is Pi.DECIMAL or task.rounds)


def _places(now: Standing, name: str) -> int:
    asked = asked_precision(now.known, name)
    if name not in now.known.context.find or not name:
        return max((_ON_THE_WAY, *(one.places for one in now.known.context.task.precisions)))
    return _PLACES if asked is None else asked.places


def _told(now: Standing, name: str, places: int) -> str:
    """Return what is done: “round to 2 decimal places”, “round up to a whole number”."""
    digits = "a whole number" if places == 0 else f"{places} decimal place{'s' if places > 1 else ''}"
    match _sense(now, name):
        case Rounding.NEAREST:
            return f"round to {digits}"
        case Rounding.UP:
            return f"round up to {digits}"
        case Rounding.DOWN:
            return f"round down to {digits}"


def _sense(now: Standing, name: str) -> Rounding:
    """Return which way a value is rounded: only what is asked for is rounded one way."""
    asked = asked_precision(now.known, name)
    return Rounding.NEAREST if asked is None else asked.rounding


def _short(value: Expr) -> bool:
    inner = value.inner if isinstance(value, Neg) else value
    return isinstance(inner, Num) and inner.places is not None


def _decimal(value: Expr, places: int, now: Standing, name: str) -> Expr | None:
    try:
        constant = value_of(value, now.style.setting).constant()
    except (NotExact, DividedByZero):
        return None
    if constant is None:
        return None
    exact = approximate(constant)
    size = abs(exact)
    asked = asked_precision(now.known, name)
    if asked is None or not asked.one_way:
        whole = int(size * 10**places + Fraction(1, 2))
    else:
        whole = int(as_asked(size, asked) * 10**places)
    digits = str(whole).rjust(places + 1, "0")
    text = f"{digits[:-places]}.{digits[-places:]}" if places else digits
    shown = Num(Fraction(whole, 10**places), text, places)
    return Neg(shown) if exact < 0 else shown


def with_units(now: Standing) -> Iterator[tuple[Move, Step | None]]:
    """Yield the answer with its unit, rounded as asked, where it stands without."""
    context = now.known.context
    for name in context.find:
        value = now.values.get(name)
        unit = context.asked_unit(name)
        if value is None or unit is None or _has_unit(now, name):
            continue
        if now.style.units.factor(unit) != 1:
            yield from _converted(now, name, value, unit)
            continue
        shown, rel, what = _as_money(value, unit), _rel_so_far(now, name), f"Write {name} with its unit."
        size = value.inner if isinstance(value, Neg) else value
        places = _places(now, name)
        asked = context.task.precision_of(name) is not None
        if literal(size) is None and not (context.task.pi is Pi.EXACT and _holds_pi(size)):
            asked = True  # √20 cm, 10π cm where π is a number: a measure ends as a decimal
        if asked and (not isinstance(size, Num) or (size.places or 0) > places):
            decimal = _decimal(value, places, now, name)
            if decimal is not None:
                shown, rel = decimal, Rel.APPROX
                what = f"{_capital(_told(now, name, places))} and write {name} with its unit."
        made = Chain((Name(name), Measure(shown, unit)), (rel,))
        yield Move(made, what, f"Look at the answer: which unit does {name} have?"), Step.UNITS
        # "C = 1680" can count the centimetres of what is given, where metres are asked for.
        for like in units_like(now, unit):
            yield from _in_both_units(now, name, value, like, unit)


def _holds_pi(value: Expr) -> bool:
    return any(isinstance(node, PiSign) for node in every(value))


def to_be_rounded(now: Standing) -> Iterator[tuple[Move, Step | None]]:
    """Yield the answer rounded as it has to be, where it stands as it came out."""
    context = now.known.context
    for name in context.find if context.task.rounds else ():
        answer = next((one for one in reversed(now.known.answers) if one.name == name), None)
        precision = asked_precision(now.known, name)
        if answer is None or precision is None or not precision.must:
            continue
        if is_as_asked(now.known, answer) is not False:
            continue
        value, unit = answer.value, context.asked_unit(name)
        inner = value.inner if isinstance(value, Measure) else value
        bound = _inside_bound(now, precision)
        shown = bound or _decimal(inner, precision.places, now, name)
        if shown is None or (unit is not None and bound is None and not isinstance(value, Measure)):
            continue
        typed_in = value.unit if isinstance(value, Measure) and bound is None else unit
        with_unit = shown if typed_in is None else Measure(shown, typed_in)
        rel = Rel.EQ if precision.one_way else Rel.APPROX
        what = f"{_capital(_told(now, name, precision.places))}."
        where = "Look at what the question counts: can there be a part of one?"
        if precision.places:
            where = "Look at the question: how many decimal places does it ask for?"
        yield Move(Chain((Name(name), with_unit), (rel,)), what, where), Step.SUBSTITUTE


def put_back(now: Standing, index: int) -> dict[str, Expr]:
    """Return the values that fit back into one premise.

    Into the one that gives an answer which had to be rounded goes what came out before: 100/16 is
    6.25 and not 7. Into those that go on from it goes the rounded answer.
    """
    stages = _stages(now)
    found = dict(now.values)
    staged = {stage.name for stage in stages}
    for name in now.known.context.find:
        if must_round(now.known, name) and name not in staged:
            exact = _as_it_came_out(now, name)
            found |= {} if exact is None else {name: exact}
    for stage in stages:
        if stage.index == index and stage.rel.equates:
            found[stage.name] = _cut_short(stage.before * stage.size, stage.precision, now)
    return found


def _as_it_came_out(now: Standing, name: str) -> Expr | None:
    base, precision = now.known.base, asked_precision(now.known, name)
    if base is None or precision is None:
        return None
    try:
        values = base.ground(now.style.setting).values().get(name, ())
    except (NotExact, DividedByZero):
        return None
    return _cut_short(values[0], precision, now) if len(set(values)) == 1 else None


def _cut_short(value: Fraction, precision: Precision, now: Standing) -> Expr:
    """Return a value as a check needs it: a short decimal whole, others with two more places than asked."""
    return number(value if 10**6 % value.denominator == 0 else round(value, precision.places + 2), now.style)


def _stages(now: Standing) -> tuple[Stage, ...]:
    base, context = now.known.base, now.known.context
    return () if base is None or not context.task.rounds else chain(base, context, context.task.pi)


def _inside_bound(now: Standing, precision: Precision) -> Num | None:
    """Return the first number that an inequality allows, None where there is none in the way."""
    stages = (stage for stage in _stages(now) if stage.precision == precision)
    stage = next((stage for stage in stages if not stage.rel.equates), None)
    return None if stage is None else Num(stage.value, write_number(stage.value), precision.places)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _converted(now: Standing, name: str, value: Expr, unit: Unit) -> Iterator[tuple[Move, Step | None]]:
    """Yield the answer in the unit of the work and then in the unit that is asked: cm³, then L."""
    like = unit_like(now, unit)
    if like is not None:
        yield from _in_both_units(now, name, value, like, unit)


def _in_both_units(
    now: Standing, name: str, value: Expr, like: Unit, unit: Unit
) -> Iterator[tuple[Move, Step | None]]:
    size = number_of(value, now.style.setting)
    if size is None:
        return
    times = now.style.units.factor(like) / now.style.units.factor(unit)
    wanted = Measure(number(size * times, now.style), unit)
    made = Chain((Name(name), Measure(value, like), wanted), (_rel_so_far(now, name), Rel.EQ))
    what = f"Write {name} with its unit, then in {unit}."
    yield (
        Move(made, what, f"Look at the answer: which unit does {name} have, and which is asked?"),
        Step.UNITS,
    )


def _rel_so_far(now: Standing, name: str) -> Rel:
    """Return the sign that the last line with this answer has: what was rounded stays about so much."""
    for line, _ in reversed(now.lines):
        if any(found == name for found, _ in answers_in(line)):
            return Rel.APPROX if isinstance(line, Chain) and Rel.APPROX in line.rels else Rel.EQ
    return Rel.EQ


def _as_money(value: Expr, unit: Unit) -> Expr:
    """$48.6 is written $48.60."""
    if str(unit) in _MONEY and isinstance(value, Num) and value.places == 1:
        return replace(value, text=f"{value.text}0", places=2)
    return value


def decimal_answer(now: Standing, statement: Chain) -> Iterator[Move]:
    """Yield the decimal of ``r = √25.48`` or ``r = 25/π`` in measured work."""
    names = [side for side in statement.sides if isinstance(side, Name)]
    others = [side for side in statement.sides if not names_in(side)]
    if len(names) != 1 or len(others) != 1 or not all(rel.equates for rel in statement.rels):
        return
    name, value = names[0].name, others[0]
    places = _places(now, name)
    shown = None if literal(value) is not None else _decimal(value, places, now, name)
    if shown is None or not now.known.context.asked_units:
        return
    made = Chain(tuple(shown if side == value else side for side in statement.sides), (Rel.APPROX,))
    what = f"Work {written(value)} out and {_told(now, name, places)}."
    yield Move(made, what, f"Look at {written(value)}: {name} is still to be a number.")


def _has_unit(now: Standing, name: str) -> bool:
    for line, _ in reversed(now.lines):
        if any(found == name for found, _ in answers_in(line)):
            return any(isinstance(node, Measure) for side in sides(line) for node in every(side))
    return False
