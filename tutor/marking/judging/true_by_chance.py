"""Formulas that hold for the numbers of this problem alone: ``P = s²`` where s is 4 cm.

The numbers agree, but what is measured does not: an area is no length. A line with nothing in it but
the letters of the problem speaks of every number, so it has to measure the same on both sides.
"""

from collections.abc import Iterable
from fractions import Fraction

from tutor.line.tree import Add, Chain, Div, Expr, Mul, Name, Neg, Num, PiSign, Pow, Rel, Statement
from tutor.line.walk import every, names_in
from tutor.marking.deciding.context import Context
from tutor.marking.deciding.state import Known
from tutor.marking.telling.why import Why
from tutor.marking.verdict import Reason
from tutor.quantity.dimension import COUNT, Dimension

Kinds = frozenset[Dimension]
_PLAIN = frozenset([Fraction(1), Fraction(2), Fraction(1, 2)])


def true_by_chance(known: Known, statement: Statement) -> Why | None:
    """Return why a formula that holds for these numbers is none, None where nothing is wrong with it."""
    context = known.context
    if not context.dimensions or not context.formula_count or not isinstance(statement, Chain):
        return None
    if set(statement.rels) != {Rel.EQ} or len(names_in(*statement.sides)) < 2:
        return None
    formulas = context.premises[: context.formula_count]
    coefficients = _coefficients(context, formulas)
    if any(_unlike(context, formula, coefficients) is not None for formula in formulas):
        return None  # "F = 9/5 C + 32": a formula for bare numbers
    told = _unlike(context, statement, coefficients)
    if told is None:
        return None
    (wanted, other), side = told
    message = (
        f"One side here measures {wanted.word}, the other {other.word}. Compare with the formula once more."
    )
    return Why(Reason.VALUE_CHANGED, message, side.span)


def _coefficients(context: Context, formulas: Iterable[Chain]) -> frozenset[Fraction]:
    """Return the numbers that no given was put in for."""
    written = {
        node.value
        for line in formulas
        for side in line.sides
        for node in every(side)
        if isinstance(node, Num)
    }
    given = context.premises[context.formula_count :]
    put_in = {
        node.value for line in given for side in line.sides for node in every(side) if isinstance(node, Num)
    }
    return frozenset((_PLAIN | written) - put_in)


def _unlike(
    context: Context, line: Chain, coefficients: frozenset[Fraction]
) -> tuple[tuple[Dimension, Dimension], Expr] | None:
    """Return two kinds that a line of letters compares or adds, with the side of the second."""
    sides = [_kinds(context, side, coefficients) for side in line.sides]
    if any(kinds is None or COUNT in kinds for kinds in sides):
        return None
    first = min(sides[0] or (), key=str)
    for side, kinds in zip(line.sides, sides, strict=True):
        other = sorted((kinds or frozenset()) - {first}, key=str)
        if other:
            return (first, other[0]), side
    return None


def _kinds(context: Context, expr: Expr, coefficients: frozenset[Fraction]) -> Kinds | None:
    """Return what the terms of an expression measure, None where that cannot be told."""
    match expr:
        case Name(name):
            kind = context.dimension_of(name)
            return None if kind is None else frozenset([kind])
        case Num(value=value):
            return frozenset([COUNT]) if value in coefficients else None
        case PiSign():
            return frozenset([COUNT])
        case Neg(inner):
            return _kinds(context, inner, coefficients)
        case Add(parts):
            each = [_kinds(context, part, coefficients) for part in parts]
            return None if None in each else frozenset().union(*(kinds for kinds in each if kinds))
        case Mul(parts):
            return _product([_kinds(context, part, coefficients) for part in parts])
        case Div(top, bottom):
            below = _power(_kinds(context, bottom, coefficients), -1)
            return _product([_kinds(context, top, coefficients), below])
        case Pow(base, Num(value=value)) if value.denominator == 1 and 0 < value < 5:
            return _power(_kinds(context, base, coefficients), int(value))
        case _:
            return None


def _product(each: list[Kinds | None]) -> Kinds | None:
    total = COUNT
    for kinds in each:
        if kinds is None or len(kinds) != 1:
            return None
        total = total * next(iter(kinds))
    return frozenset([total])


def _power(kinds: Kinds | None, exponent: int) -> Kinds | None:
    return None if kinds is None or len(kinds) != 1 else frozenset([next(iter(kinds)).power(exponent)])
