"""A problem's formulas and givens put to the test: do they agree with one another?"""

import math
from collections.abc import Iterator, Mapping
from fractions import Fraction

from tutor.line.meaning import Setting, value_of
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.real import approximate
from tutor.line.tree import Abs, Add, Chain, Div, Expr, Measure, Mul, Name, Neg, Num, PiSign, Pow, Root
from tutor.line.walk import every, names_in, rebuilt
from tutor.marking.deciding.claim import holds
from tutor.marking.deciding.context import Context, prepare
from tutor.marking.solve import Solution
from tutor.marking.task import Task
from tutor.quantity.units import Unit, read_unit

# The values are put back as floats; a contradiction in school numbers is far larger.
_NEAR = 1e-9


def contradicted(task: Task, solution: Solution) -> Iterator[tuple[bool, int]]:
    """Yield each premise that the solution does not fulfil: whether it is a formula, and its index."""
    context, _problems = prepare(task)
    setting = Setting(task.pi.value_used, context.systems[0], context.measures)
    values = values_of(context, solution)
    # 7 boxes for 6.25: the premise that gives an answer holds for it as it came out.
    unrounded = values_of(context, Solution(solution.unrounded))
    ways = [values, *({**values, name: value} for name, value in unrounded.items())]
    written = context.formula_count + len(task.givens)  # behind them come definitions of the trade
    for index, premise in enumerate(context.premises[:written]):
        if not any(_holds(premise, way, setting) for way in ways):
            is_formula = index < context.formula_count
            yield is_formula, index if is_formula else index - context.formula_count


def _holds(premise: Chain, values: Mapping[str, Fraction], setting: Setting) -> bool:
    """Tell whether a premise is true of some values, or cannot be told to be wrong."""
    sizes = [_size(side, values, setting) for side in premise.sides]
    known = [size for size in sizes if size is not None]
    return len(known) < len(sizes) or all(
        _alike(left, right) if rel.equates else holds((left > right) - (left < right), rel)
        for left, rel, right in zip(known, premise.rels, known[1:], strict=False)
    )


def values_of(context: Context, solution: Solution) -> dict[str, Fraction]:
    """Return name -> value in the reference units in which the premises count."""
    values: dict[str, Fraction] = {}
    for value in solution.values:
        unit = read_unit(value.unit) if value.unit else None
        scale = Fraction(1) if unit is None else context.systems[0].factor(unit)
        values[value.name] = Fraction(value.approx) * scale
    return values


def _size(side: Expr, values: Mapping[str, Fraction], setting: Setting) -> float | None:
    def put_in(node: Expr) -> Expr:
        if isinstance(node, Name) and node.name in values:
            return Num(values[node.name], node.name)
        return node

    try:
        constant = value_of(rebuilt(side, put_in), setting).constant()
    except (NotExact, DividedByZero):
        return None
    return None if constant is None else float(approximate(constant))


def _alike(left: float, right: float) -> bool:
    return math.isclose(left, right, rel_tol=_NEAR, abs_tol=_NEAR)


def fitting_power(task: Task, units: Mapping[str, str], name: str, *, numbers: bool = True) -> int:
    """Return 1, 2 or 3 where ``name`` must be a length, an area or a volume for a formula to agree, else 0.

    ``units``: name -> unit of the names that are given. Without ``numbers`` only formulas without any
    are looked at: in another one a number may be a price.
    """
    context, _problems = prepare(task)
    known = {one: power for one, text in units.items() if (power := _power_of_unit(read_unit(text)))}
    # One after the other, as pieces come before the formula that adds them up.
    for premise in context.premises[: context.formula_count] if known else ():
        open_names = sorted(names_in(*premise.sides) - known.keys())
        if not numbers and any(isinstance(node, Num) for side in premise.sides for node in every(side)):
            continue
        for power in (1, 2, 3) if len(open_names) == 1 else ():
            found = [_power(side, {**known, open_names[0]: power}) for side in premise.sides]
            if found[0] is not None and len(set(found)) == 1:
                known[open_names[0]] = power
                break
    return known.get(name, 0)


_SIZES = {1: "a length", 2: "an area", 3: "a volume"}


def sizes_apart(task: Task, units: Mapping[str, str]) -> Iterator[tuple[int, str]]:
    """Yield each formula that sets, say, an area equal to a length, with what stands on its sides.

    ``units``: name -> unit. Only lengths, areas and volumes are compared: a plain number in
    a formula may stand for a price or a speed, and then other measures may meet.
    """
    context, _problems = prepare(task)
    powers = {name: power for name, text in units.items() if (power := _power_of_unit(read_unit(text)))}
    for index, premise in enumerate(context.premises[: context.formula_count]):
        found = [_said(power) for power in _powers(premise, powers) if power > 0]
        if len(set(found)) > 1:
            yield index, " and ".join(dict.fromkeys(found))


def _said(power: int) -> str:
    return _SIZES.get(power, f"a length multiplied {power} times")


def _powers(premise: Chain, powers: Mapping[str, int]) -> Iterator[int]:
    for side in premise.sides:
        power = _power(side, powers)
        if power is not None:
            yield power


def _power_of_unit(unit: Unit | None) -> int | None:
    """Return 1 for cm, 2 for cm²; None for what is no length, and for litres, which hide theirs."""
    if unit is None or any(base.dimension.length != 1 for base, _power in unit.parts):
        return None
    return unit.dimension.length


def _power(expr: Expr, powers: Mapping[str, int]) -> int | None:
    """Return the power of length that an expression has, None where it cannot be told."""
    match expr:
        case Num() | PiSign():
            return 0
        case Name(name):
            return powers.get(name)
        case Neg(inner) | Abs(inner):
            return _power(inner, powers)
        case Measure(_, unit):
            return _power_of_unit(unit)
        case Add(terms):
            told = {_power(term, powers) for term in terms} - {0}
            return told.pop() if len(told) == 1 else None
        case Mul(factors):
            return _total([_power(factor, powers) for factor in factors])
        case Div(top, bottom):
            below = _power(bottom, powers)
            return _total([_power(top, powers), None if below is None else -below])
        case Pow(base, Num(exponent)) if exponent.denominator == 1:
            inside = _power(base, powers)
            return None if inside is None else inside * int(exponent)
        case Root(index, inner):
            inside = _power(inner, powers)
            return None if inside is None or inside % index else inside // index
        case _:
            return None


def _total(found: list[int | None]) -> int | None:
    known = [power for power in found if power is not None]
    return sum(known) if len(known) == len(found) else None
