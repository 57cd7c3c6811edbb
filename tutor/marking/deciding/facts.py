"""What one walk through a line tells: its names, and the kinds of signs in it.

Questions of this kind are asked several times of each line, so the walk is made once for
a line and remembered by the line's identity.
"""

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from tutor.line.tree import (
    Abs,
    Add,
    Chain,
    Div,
    Expr,
    Hole,
    Measure,
    Mul,
    Name,
    Neg,
    Num,
    PiSign,
    PlusMinus,
    Pow,
    Statement,
)
from tutor.line.walk import names_in, parts, sides
from tutor.marking.deciding.everyday import everyday
from tutor.quantity.pi import SHOWN_FOR_PI
from tutor.quantity.units import Unit


@dataclass(frozen=True, slots=True)
class Facts:
    """What stands in a line.

    ``shown_pi``: the numbers in the line that may stand in the place of
    π. ``units``: its units in the order they were typed. ``divides``: it divides by something
    that could be 0, or has a power in it.
    """

    names: frozenset[str]
    pi: bool
    hole: bool
    either_sign: bool
    bars: bool
    divides: bool
    shown_pi: tuple[Fraction, ...]
    units: tuple[Unit, ...]


class _Walk:
    """The facts of a line as they are gathered."""

    __slots__ = ("bars", "divides", "either_sign", "hole", "names", "pi", "shown_pi", "units")

    def __init__(self) -> None:
        self.names: set[str] = set()
        self.pi = self.hole = self.either_sign = self.bars = self.divides = False
        self.shown_pi: list[Fraction] = []
        self.units: list[Unit] = []

    def through(self, expr: Expr) -> None:
        """Look at an expression and at everything in it, outermost first."""
        # The commonest kinds first: this is walked for every line.
        match expr:
            case Num(value):
                self._value(value)
            case Name(name):
                self.names.add(name)
            case Add(inside) | Mul(inside):
                for part in inside:
                    self.through(part)
            case Neg(inner):
                self.through(inner)
            case Div(top, bottom):
                if not isinstance(bottom, Num) or not bottom.value:
                    self.divides = True
                elif isinstance(top, Num):
                    self._value(top.value / bottom.value)
                self.through(top)
                self.through(bottom)
            case _:
                self._note(expr)
                for part in parts(expr):
                    self.through(part)

    def _note(self, expr: Expr) -> None:
        match expr:
            case PiSign():
                self.pi = True
            case Pow():
                self.divides = True
            case Measure(_, unit):
                self.units.append(unit)
            case Abs():
                self.bars = True
            case PlusMinus():
                self.either_sign = True
            case Hole():
                self.hole = True
            case _:
                pass

    def _value(self, value: Fraction) -> None:
        if value.denominator != 1 and value in SHOWN_FOR_PI and value not in self.shown_pi:
            self.shown_pi.append(value)


def facts(statement: Statement) -> Facts:
    """Return the facts of a line."""
    try:
        return statement.memo[Facts]  # type: ignore[return-value]
    except KeyError:
        found = statement.memo[Facts] = _walked(statement)
        return found


@lru_cache(maxsize=64)
def _of_letters_and_numbers(name: str) -> Facts:
    return Facts(frozenset((name,)), False, False, False, False, False, (), ())


def _walked(statement: Statement) -> Facts:
    line = everyday(statement)
    if line is not None and line.whole:  # letters and whole numbers: nothing else can stand in it
        return _of_letters_and_numbers(line.form.name)
    walk = _Walk()
    for side in sides(statement):
        walk.through(side)
    return Facts(
        frozenset(walk.names),
        walk.pi,
        walk.hole,
        walk.either_sign,
        walk.bars,
        walk.divides,
        tuple(walk.shown_pi),
        tuple(walk.units),
    )


def statement_names(statement: Statement) -> frozenset[str]:
    """Return the names that stand in a line."""
    return facts(statement).names


def names_by_side(chain: Chain) -> tuple[frozenset[str], ...]:
    """Return the names that stand in each side of a line."""
    line = everyday(chain)
    if line is None:
        return tuple(names_in(side) for side in chain.sides)
    return tuple(_NO_NAMES if side[0] is None else facts(chain).names for side in (line.left, line.right))


_NO_NAMES: frozenset[str] = frozenset()


def unit_letters(statement: Statement) -> frozenset[str]:
    """Return the letters that stand for a unit: s in ``P = 4 s`` and in ``A = 6 s²``."""
    symbols = (base.symbol for unit in facts(statement).units for base, _power in unit.parts)
    return frozenset(symbol for symbol in symbols if len(symbol) == 1)
