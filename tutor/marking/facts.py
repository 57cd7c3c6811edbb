"""What one walk through a line tells: its names, the kinds of signs in it, its writing.

Questions of this kind are asked several times of each line, so the walk is made once for
a line and remembered by the line's identity.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from tutor.line.tree import (
    Abs,
    Add,
    Bare,
    Chain,
    Div,
    Expr,
    Hole,
    Joined,
    Measure,
    Mul,
    Name,
    Neg,
    Note,
    Num,
    Onward,
    Percent,
    PiSign,
    PlusMinus,
    Pow,
    Root,
    Said,
    Statement,
)
from tutor.marking.memo import Memo
from tutor.quantity.pi import SHOWN_FOR_PI
from tutor.quantity.units import Unit


@dataclass(frozen=True, slots=True)
class Facts:
    """What stands in a line.

    ``key`` is equal for two lines alike up to the order of terms and factors, within one
    run of the program. ``shown_pi``: the numbers in the line that may stand in the place of
    π. ``units``: its units in the order they were typed.
    """

    key: int
    names: frozenset[str]
    pi: bool
    hole: bool
    either_sign: bool
    bars: bool
    shown_pi: tuple[Fraction, ...]
    units: tuple[Unit, ...]


class _Walk:
    """The facts of a line as they are gathered. Its methods return keys."""

    __slots__ = ("bars", "either_sign", "hole", "names", "pi", "shown_pi", "units")

    def __init__(self) -> None:
        self.names: set[str] = set()
        self.pi = self.hole = self.either_sign = self.bars = False
        self.shown_pi: list[Fraction] = []
        self.units: list[Unit] = []

    def statement(self, statement: Statement) -> int:
        match statement:
            case Chain(sides, rels) | Onward(rels, sides):
                own = "chain" if isinstance(statement, Chain) else "onward"
                return hash((own, *(rel.value for rel in rels), *map(self.expr, sides)))
            case Bare(expr):
                return hash(("bare", self.expr(expr)))
            case Joined(joiner, parts):
                return hash((joiner.value, *map(self.statement, parts)))
            case Said(phrase):
                return hash(phrase.value)
            case Note():
                return hash("note")

    def expr(self, expr: Expr) -> int:
        # The commonest kinds first: this is walked for every line.
        match expr:
            case Num(value):
                self._value(value)
                return hash((value.numerator, value.denominator))
            case Name(name):
                self.names.add(name)
                return hash(name)
            case Add(terms):
                return hash(("add", self._in_any_order(terms, Add)))
            case Mul(factors):
                return hash(("mul", self._in_any_order(factors, Mul)))
            case Neg(inner):
                return hash(("neg", self.expr(inner)))
            case Div(top, bottom):
                if isinstance(top, Num) and isinstance(bottom, Num) and bottom.value:
                    self._value(top.value / bottom.value)
                return hash(("div", self.expr(top), self.expr(bottom)))
            case _:
                return self._rarer(expr)

    def _rarer(self, expr: Expr) -> int:
        match expr:
            case PiSign():
                self.pi = True
                return hash("π")
            case Pow(base, exponent):
                return hash(("pow", self.expr(base), self.expr(exponent)))
            case Root(index, inner):
                return hash(("root", index, self.expr(inner)))
            case Measure(inner, unit):
                self.units.append(unit)
                return hash(("unit", self.expr(inner), str(unit)))
            case Abs(inner):
                self.bars = True
                return hash(("bars", self.expr(inner)))
            case PlusMinus(left, right):
                self.either_sign = True
                return hash(("either", None if left is None else self.expr(left), self.expr(right)))
            case Percent(inner):
                return hash(("percent", self.expr(inner)))
            case Hole():
                self.hole = True
                return hash("?")
            case _:
                raise AssertionError(expr)

    def _in_any_order(self, parts: Iterable[Expr], kind: type[Add] | type[Mul]) -> int:
        total = 0
        for part in parts:
            if isinstance(part, kind):
                inside = part.terms if isinstance(part, Add) else part.factors
                total += self._in_any_order(inside, kind)
            else:
                total += hash((1, self.expr(part)))
        return total

    def _value(self, value: Fraction) -> None:
        if value.denominator != 1 and value in SHOWN_FOR_PI and value not in self.shown_pi:
            self.shown_pi.append(value)


_MEMO: Memo[Facts] = Memo()


def facts(statement: Statement) -> Facts:
    """Return the facts of a line."""
    return _MEMO.get(statement, None, _walked)


def _walked(statement: Statement) -> Facts:
    walk = _Walk()
    key = walk.statement(statement)
    return Facts(
        key,
        frozenset(walk.names),
        walk.pi,
        walk.hole,
        walk.either_sign,
        walk.bars,
        tuple(walk.shown_pi),
        tuple(walk.units),
    )


def statement_names(statement: Statement) -> frozenset[str]:
    """Return the names that stand in a line."""
    return facts(statement).names
