"""Saying a wrong move with the student's own numbers, and pointing at it in the typed line."""

from collections.abc import Callable
from fractions import Fraction
from functools import lru_cache
from typing import TypeVar

from tutor.line.meaning import Setting
from tutor.line.tree import NOWHERE, Chain, Div, Expr, Mul, Name, Num, Span
from tutor.line.walk import every, names_in, parts, with_names
from tutor.line.writing import write_expr, write_number
from tutor.marking.deciding.state import Known, Spec
from tutor.marking.slips.model import Slip
from tutor.marking.slips.shapes import is_number, plain_value, stands_for_pi
from tutor.marking.slips.spots import Values, say
from tutor.marking.slips.wrong import Wrong, WrongEquation

Filled = Callable[[Expr], Expr]
AnyWrong = TypeVar("AnyWrong", bound=Wrong | WrongEquation)


def filling(given: dict[str, Expr]) -> Filled:
    """Return what puts the numbers of a problem in the place of its names."""
    return lambda expr: with_names(expr, given) if given else expr


AS_IT_IS = filling({})


@lru_cache(maxsize=64)
def given_in(spec: Spec) -> dict[str, Expr]:
    """Return the names that premises give as values without names."""
    found: dict[str, Expr] = {}
    for premise in spec.premises:
        match premise:
            case Chain((Name(name), value)) if not names_in(value):
                found[name] = value
            case _:
                continue
    return found


@lru_cache(maxsize=64)
def numbers_said(spec: Spec) -> dict[str, Expr]:
    """Return the names that can be said as numbers: those given, and d or r where the other is."""
    found = dict(given_in(spec))
    for premise in spec.premises:
        match premise:
            case Chain((Name(across), Mul((Num(Fraction(numerator=2, denominator=1)), Name(radius))))):
                for name, other, factor in ((radius, across, Fraction(1, 2)), (across, radius, Fraction(2))):
                    known = plain_value(found[other]) if other in found else None
                    if name not in found and isinstance(known, Num):
                        value = known.value * factor
                        found[name] = Num(value, write_number(value))
            case _:
                continue
    return found


def given_numbers(known: Known) -> dict[str, Expr]:
    """Return the names that the problem gives as values without names."""
    return {} if known.base is None else given_in(known.base)


def said(
    text: str,
    about: tuple[Expr, ...],
    filled: Filled,
    setting: Setting,
    letters: frozenset[str] = frozenset(),
) -> str:
    """Return a sentence with the student's own numbers in it.

    Who wrote ½πd is told of d/2, and not of the 15 that it comes to: ``letters`` are those typed.
    """

    def shown(expr: Expr) -> str:
        as_typed = not isinstance(expr, Name) and bool(names_in(expr) & letters)
        return _shown(expr, AS_IT_IS if as_typed else filled, setting)

    return text.format(*map(shown, about))


def _shown(expr: Expr, filled: Filled, setting: Setting) -> str:
    full = plain_value(filled(expr))
    match full:
        case Num():
            return write_expr(full)
        case Div(Num() as top, Num() as bottom) if full.span != NOWHERE:  # a fraction that was typed
            return f"{write_expr(top)}/{write_expr(bottom)}"
        case _:
            number = Values(setting).number(full)
    if number is not None:
        return say(number)
    match expr:
        case Mul((Num() as times, Name() as name)):
            return write_expr(times) + write_expr(name)
        case _:
            return write_expr(expr)


def slip_made(
    wrong: Wrong | WrongEquation,
    typed: Expr,
    setting: Setting,
    later: int = 0,
    filled: Filled = AS_IT_IS,
) -> Slip:
    """Return a wrong move as a slip; ``later``: what is assumed besides the move."""
    message = said(wrong.says, wrong.about, filled, setting, names_in(typed))
    return Slip(wrong.name, message, _span(typed, wrong.shown, filled, setting), wrong.cost + later)


def _span(typed: Expr, shown: Expr | None, filled: Filled, setting: Setting) -> Span:
    """The number that gives the slip away, or the whole side."""
    if shown is not None:
        value = Values(setting).number(filled(shown))
        # In "60 + 3.14 · 60" it is the 60 beside π.
        round_ones = [part for part in parts(typed) if any(stands_for_pi(node) for node in every(part))]
        for node in (node for part in (*round_ones, typed) for node in every(part)):
            if isinstance(node, Num) and node.value == value and node.span[1] > node.span[0]:
                return node.span
    return typed.span


_AROUND, _DOUBLED = "circumference-given-for-area", "radius-doubled-not-squared"
_AREA, _ACROSS = "area-given-for-circumference", "diameter-used-as-radius"
_OPPOSITE, _SCALE = "vertical-angles-added-to-180", "protractor-wrong-scale"


def _starts_with_number(typed: Expr, pi_at: int) -> bool:
    """``18π`` and not ``3.14 · 18``."""
    return any(isinstance(node, Num) and node.span[0] < pi_at for node in every(typed))


def in_order(found: list[AnyWrong], typed: Expr, formula: bool) -> list[AnyWrong]:
    """Return wrong moves of one value, the likelier first.

    ``2·π·r`` is the way around, ``π·2·r`` is r doubled where it should be squared; a value
    alone is the one right after the formula, the other right after the numbers. ``180 − 65``
    takes an opposite angle for a neighbour, ``156`` for 24 is read on the other scale.
    """
    names = {wrong.name for wrong in found}
    around, two_first = formula, False
    pi_at = next((node.span[0] for node in every(typed) if stands_for_pi(node)), None)
    if pi_at is not None:
        twos = [node.span[0] for node in every(typed) if is_number(node, 2)]
        around = twos[0] < pi_at if twos else _starts_with_number(typed, pi_at)
        two_first = around and bool(twos)
    last = {_DOUBLED if around else _AROUND, _OPPOSITE if isinstance(plain_value(typed), Num) else _SCALE}
    if _AREA in names and not two_first:
        last.add(_ACROSS)  # with radius 4, 4² is 2 · 8
    return sorted(found, key=lambda wrong: wrong.name in last)
