"""The everyday decision: one linear equation or inequality in one unknown, with rational numbers.

Such a line is brought to the form ``name rel bound``. Two lines with the same form have the
same solutions; two equations with different bounds have none in common. What is not of this
kind, and inequalities that differ, are left to the general decision, which agrees with this
one (``tests/test_everyday.py``).
"""

from collections.abc import Callable, Hashable
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, TypeAlias

from tutor.line.keys import statement_key
from tutor.line.tree import Add, Chain, Div, Expr, Mul, Name, Neg, Num, Percent, Rel, Statement

Number: TypeAlias = int | Fraction
# The unknown (None where there is none), how many of it, and the number beside it.
Linear: TypeAlias = tuple[str | None, Number, Number]

MAX_BITS = 512


@dataclass(frozen=True, slots=True)
class Form:
    """``name rel bound``: what a linear line says of its unknown."""

    name: str
    rel: Rel
    bound: Fraction


@dataclass(frozen=True, slots=True)
class Everyday:
    """A line of the everyday kind: its form, and both sides as they stand."""

    form: Form
    left: Linear
    right: Linear

    @property
    def whole(self) -> bool:
        """Tell whether neither a fraction nor a decimal stands in the line."""
        left, right = self.left, self.right
        return type(left[1]) is type(left[2]) is type(right[1]) is type(right[2]) is int


def linear(expr: Expr) -> Linear | None:
    """Return an expression as ``a·x + b``, None where it is not of that kind.

    Both numbers are ``int`` only where no fraction and no decimal stands in the expression.
    """
    work = _BY_KIND.get(type(expr))
    return None if work is None else work(expr)


def _number(expr: Num) -> Linear | None:
    value = expr.value
    if expr.open_end:
        return None
    return None, 0, value.numerator if value.denominator == 1 else value


def _name(expr: Name) -> Linear:
    return expr.name, 1, 0


def _negative(expr: Neg) -> Linear | None:
    found = linear(expr.inner)
    return None if found is None else (found[0], -found[1], -found[2])


def _quotient(expr: Div) -> Linear | None:
    above, below = linear(expr.top), linear(expr.bottom)
    if above is None or below is None or below[0] is not None or not below[2]:
        return None
    return _divided(above, below[2])


def _percent(expr: Percent) -> Linear | None:
    found = linear(expr.inner)
    return None if found is None else _divided(found, 100)


def _sum(expr: Add) -> Linear | None:
    name: str | None = None
    times: Number = 0
    rest: Number = 0
    for term in expr.terms:
        found = linear(term)
        if found is None or (found[0] is not None and name is not None and found[0] != name):
            return None
        name = name or found[0]
        times += found[1]
        rest += found[2]
    return name, times, rest


def _product(expr: Mul) -> Linear | None:
    name: str | None = None
    times: Number = 0
    rest: Number = 1
    for factor in expr.factors:
        found = linear(factor)
        if found is None:
            return None
        if found[0] is None:
            times *= found[2]
            rest *= found[2]
        elif name is None:
            name, times, rest = found[0], found[1] * rest, found[2] * rest
        else:
            return None
    return name, times, rest


def _divided(above: Linear, below: Number) -> Linear:
    return above[0], Fraction(above[1]) / below if above[1] else 0, Fraction(above[2]) / below


# Looked up by the kind of a node: this runs for every side of every line.
_BY_KIND: dict[type, Callable[[Any], Linear | None]] = {
    Num: _number,
    Name: _name,
    Add: _sum,
    Mul: _product,
    Neg: _negative,
    Div: _quotient,
    Percent: _percent,
}


def everyday(statement: Statement) -> Everyday | None:
    """Return what a line says of its one unknown, None where it is not of the everyday kind."""
    try:
        return statement.memo[Everyday]  # type: ignore[return-value]
    except KeyError:
        found = statement.memo[Everyday] = _worked_out(statement)
        return found


def is_small(line: Everyday) -> bool:
    """Tell whether all numbers of a line are of a size that nothing made of it can grow too big."""
    numbers = (line.left[1], line.left[2], line.right[1], line.right[2])
    return all(
        number.numerator.bit_length() + number.denominator.bit_length() <= MAX_BITS for number in numbers
    )


def form_of(statement: Statement) -> Form | None:
    """Return the form of a line, None where it is not of the everyday kind."""
    found = everyday(statement)
    return None if found is None else found.form


def _worked_out(statement: Statement) -> Everyday | None:
    if not isinstance(statement, Chain) or len(statement.sides) != 2 or statement.rels[0] is Rel.NE:
        return None
    left, right = linear(statement.sides[0]), linear(statement.sides[1])
    if left is None or right is None:
        return None
    name = left[0] or right[0]
    if name is None or (right[0] is not None and right[0] != name):
        return None
    times, rest = left[1] - right[1], right[2] - left[2]
    if not times:
        return None
    bound = (
        Fraction(rest) / times if type(times) is Fraction or type(rest) is Fraction else Fraction(rest, times)
    )
    if bound.numerator.bit_length() + bound.denominator.bit_length() > MAX_BITS:
        return None
    rel = statement.rels[0]
    if rel.equates:
        return Everyday(Form(name, Rel.EQ, bound), left, right)
    return Everyday(Form(name, rel.turned if times < 0 else rel, bound), left, right)


def signature(statement: Statement) -> Hashable:
    """Return something that is equal for two lines alike up to the order of terms and factors.

    Lines that are not alike can have the same signature: it is the quick question before
    ``statement_key``.
    """
    found = everyday(statement)
    return statement_key(statement) if found is None else (found.left, found.right)
