"""A tree worked out as a floating-point number, to compare many of them quickly."""

from __future__ import annotations

import math
from collections.abc import Mapping

from tutor.line.meaning import Setting
from tutor.line.tree import Abs, Add, Div, Expr, Measure, Mul, Name, Neg, Num, Percent, PiSign, Pow, Root

_LARGEST_POWER = 9


def number(expr: Expr, values: Mapping[str, float], setting: Setting) -> float:
    """Return what an expression comes to, not-a-number where it has no value.

    ``values``: name -> value in the reference units of the setting.
    """
    try:
        return _number(expr, values, setting)
    except (ZeroDivisionError, OverflowError):
        return math.nan


def _number(expr: Expr, values: Mapping[str, float], setting: Setting) -> float:
    match expr:
        case Num(value):
            return float(value)
        case Name(name):
            return values.get(name, math.nan)
        case PiSign():
            return math.pi if setting.pi is None else float(setting.pi)
        case Neg(inner):
            return -_number(inner, values, setting)
        case Abs(inner):
            return abs(_number(inner, values, setting))
        case Percent(inner):
            return _number(inner, values, setting) / 100
        case Measure(inner, unit):
            return _number(inner, values, setting) * float(setting.units.factor(unit))
        case Add(terms):
            return sum(_number(term, values, setting) for term in terms)
        case Mul(factors):
            return math.prod(_number(factor, values, setting) for factor in factors)
        case Div(top, bottom):
            return _number(top, values, setting) / _number(bottom, values, setting)
        case Pow(base, Num(exponent)) if exponent.denominator == 1 and 0 <= exponent <= _LARGEST_POWER:
            return float(_number(base, values, setting) ** int(exponent))
        case Root(index, inner):
            inside = _number(inner, values, setting)
            return math.nan if inside < 0 else float(inside ** (1 / index))
        case _:
            return math.nan
