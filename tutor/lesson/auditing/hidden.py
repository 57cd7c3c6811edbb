"""Numbers that hide a slip: a known wrong formula that the right numbers fulfil too.

A wrong formula leads to the right answer exactly where the true values fulfil it, so nothing has
to be solved anew: each wrong formula is worked out at the solution.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import lru_cache

from tutor.lesson.auditing.case import Case, Remark
from tutor.lesson.auditing.floats import number
from tutor.lesson.auditing.wrong_forms import Sides, wrong_forms
from tutor.lesson.keywords import Keyword
from tutor.lesson.naming import is_plain_value
from tutor.lesson.premises import values_of
from tutor.line.meaning import Setting
from tutor.line.names import plain
from tutor.line.tree import Expr, Name, PiSign, Rel
from tutor.line.walk import every, names_in, rebuilt
from tutor.line.writing import write_expr
from tutor.marking.deciding.context import Context, prepare
from tutor.marking.task import Precision, Rounding, Task
from tutor.quantity.dimension import ANGLE
from tutor.quantity.pi import Pi

_NEAR = 1e-9
_ROUNDED_NEAR = 1e-7
# How often each piece of a wrong formula is worked out.
_WORKED_OUT_EACH = 4


def hidden_slips(case: Case) -> Iterator[Remark]:
    """Yield the first wrong formula, or the first two sizes taken for each other, that would not show."""
    if case.solved is None:
        return
    task, solution = case.solved
    if task.goals or task.lengths:
        return
    context, _problems = prepare(task)
    setting = Setting(task.pi.value_used, context.systems[0], context.measures)
    values = {name: float(value) for name, value in values_of(context, solution).items()}
    contents = case.card.all(Keyword.FORMULA, Keyword.EQUATION, Keyword.PIECE)
    for index, premise in enumerate(context.premises[: context.formula_count]):
        if premise.rels != (Rel.EQ,) or not names_in(*premise.sides) <= values.keys():
            continue
        sides = (premise.sides[0], premise.sides[1])
        is_formula = contents[index].entry.keyword is not Keyword.EQUATION
        of_angles = any(context.dimension_of(name) == ANGLE for name in names_in(*sides))
        forms = _forms(sides, is_formula, of_angles)
        pieces = sum(1 for side in sides for _node in every(side))
        if not case.budget.spend(pieces * (len(forms) + 1) * _WORKED_OUT_EACH):
            return
        for wrong in forms:
            if _holds_too(task, sides, wrong, values, setting):
                message = _told(case, wrong, sides)
                place = case.parts.formulas[index].start
                yield Remark(
                    case.source.fault(place, message, _left_out(case)),
                    advice=True,
                    named=case.draw is not None,
                )
                return
        if is_formula and (pair := _swapped(task, context, sides, values, setting)):
            first, second = pair
            message = (
                f"{_with(case)}{first} and {second} are equal, so one taken for the other would not show. "
                f"{_remedy(case)}"
            )
            place = case.parts.formulas[index].start
            yield Remark(
                case.source.fault(place, message, _left_out(case)), advice=True, named=case.draw is not None
            )
            return


@lru_cache(maxsize=256)
def _forms(sides: Sides, is_formula: bool, of_angles: bool) -> tuple[Sides, ...]:
    return tuple(wrong_forms(*sides, formula=is_formula, of_angles=of_angles))


def _holds_too(task: Task, sides: Sides, wrong: Sides, values: Mapping[str, float], setting: Setting) -> bool:
    """Tell whether the true values fulfil a wrong formula that says something else than the right one."""
    if _same_everywhere(sides, wrong, values, setting):
        return False
    for way in _ways(task, wrong, setting):
        left, right = (number(side, values, way) for side in wrong)
        if math.isclose(left, right, rel_tol=_NEAR) or _rounds_alike(task, wrong, left, right):
            return True
    return False


def _ways(task: Task, wrong: Sides, setting: Setting) -> Iterator[Setting]:
    """Yield the ways to take π that the marker accepts; π itself stays π where it is to stay."""
    has_pi = any(isinstance(node, PiSign) for side in wrong for node in every(side))
    if not has_pi or task.pi is Pi.EXACT:
        yield setting
        return
    for pi in Pi:
        yield replace(setting, pi=pi.value_used)


def _rounds_alike(task: Task, wrong: Sides, left: float, right: float) -> bool:
    """Tell whether the wrong value of what is asked for rounds to the right one."""
    asked = {plain(name) for name in task.find}
    named = isinstance(wrong[0], Name) and wrong[0].name in asked
    precision = task.precision_of(wrong[0].name) if isinstance(wrong[0], Name) and named else None
    if precision is None or not (math.isfinite(left) and math.isfinite(right)):
        return False
    return _rounded(left, precision) == _rounded(right, precision)


def _rounded(value: float, precision: Precision) -> float:
    scaled: float = value * 10.0**precision.places
    match precision.rounding:
        case Rounding.UP:
            return math.ceil(scaled - _ROUNDED_NEAR)
        case Rounding.DOWN:
            return math.floor(scaled + _ROUNDED_NEAR)
        case Rounding.NEAREST:
            return math.floor(scaled + 0.5)


def _same_everywhere(sides: Sides, wrong: Sides, values: Mapping[str, float], setting: Setting) -> bool:
    """Tell whether two equations are the same one, at numbers that have nothing in common."""
    other = {
        name: value * (1.1 + 0.37 * at) + 0.313 for at, (name, value) in enumerate(sorted(values.items()))
    }
    before = number(sides[0], other, setting) - number(sides[1], other, setting)
    after = number(wrong[0], other, setting) - number(wrong[1], other, setting)
    return math.isnan(after) or math.isclose(before, after, rel_tol=_NEAR, abs_tol=_NEAR)


def _swapped(
    task: Task, context: Context, sides: Sides, values: Mapping[str, float], setting: Setting
) -> tuple[str, str] | None:
    """Return two given sizes of one kind that are equal, where it matters which is which."""
    given = [plain(name) for name, value in task.givens if is_plain_value(value)]
    there = [name for name in given if name in names_in(*sides) and name in values]
    for at, first in enumerate(there):
        for second in there[at + 1 :]:
            same_kind = context.dimension_of(first) == context.dimension_of(second)
            if not same_kind or not math.isclose(values[first], values[second], rel_tol=_NEAR):
                continue
            swapped = (_with_swapped(sides[0], first, second), _with_swapped(sides[1], first, second))
            if not _same_everywhere(sides, swapped, values, setting):
                return first, second
    return None


def _with_swapped(side: Expr, first: str, second: str) -> Expr:
    other = {first: second, second: first}

    def turned(node: Expr) -> Expr:
        return replace(node, name=other[node.name]) if isinstance(node, Name) and node.name in other else node

    return rebuilt(side, turned)


def _told(case: Case, wrong: Sides, sides: Sides) -> str:
    begun = f"{_with(case)}the" if case.draw is not None else "The"
    message = f"wrong {_written(wrong)} gives the same as {_written(sides)}, so that slip would not show."
    return f"{begun} {message} {_remedy(case)}"


def _written(sides: Sides) -> str:
    text = " = ".join(write_expr(side) for side in sides)
    return re.sub(r"\^([23])(?!\d)", lambda power: "²³"[int(power[1]) - 2], text)


def _with(case: Case) -> str:
    return f"With {case.draw}: " if case.draw is not None else ""


def _remedy(case: Case) -> str:
    return "Leave such numbers out." if case.draw is not None else "Choose other numbers."


def _left_out(case: Case) -> str:
    """Return the condition that leaves a draw of one number out."""
    if case.draw is None or len(case.draw.texts) != 1:
        return ""
    ((name, text),) = case.draw.texts
    return Keyword.WHERE.written(f"{name} != {text}")
