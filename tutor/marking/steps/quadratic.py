"""Quadratics that a middle-school class solves: all on one side, then factors."""

from collections.abc import Iterator
from fractions import Fraction
from math import gcd, isqrt, lcm

from tutor.line.poly import Mono
from tutor.line.tree import Add, Chain, Div, Expr, Mul, Name, Phrase, PlusMinus, Rel, Root, Said
from tutor.marking.steps.balance import term_moved
from tutor.marking.steps.forms import ZERO, Style, Terms, collected, number, sum_of
from tutor.marking.steps.model import Move
from tutor.marking.steps.writing import written

# Coefficients past this are not factored by hand.
_LARGE = 10_000


def quadratic(chain: Chain, unknown: str, style: Style) -> Move | None:
    """Return the next step of an equation with the unknown and its square in it."""
    sides = [collected(side, style) for side in chain.sides]
    if len(sides) != 2 or sides[0] is None or sides[1] is None or not chain.rels[0].equates:
        return None
    pair = (sides[0], sides[1])
    square: Mono = ((unknown, 2),)
    powers = {mono for side in pair for mono, _ in side}
    if square not in powers or not powers <= {square, ((unknown, 1),), ()}:
        return None
    at = 1 if _size(pair[0], square) > _size(pair[1], square) else 0
    if pair[at]:
        # The side with fewer squares is cleared, term by term, highest power first.
        mono = max((found for found, _ in pair[at]), key=_degree)
        return _ordered(term_moved(chain, pair, mono, at, style), style)
    return _factored(pair[1 - at], unknown, at, style)


def _size(side: Terms, mono: Mono) -> Fraction:
    return next((Fraction(size) for found, size in side if found == mono), Fraction(0))


def _degree(mono: Mono) -> Fraction:
    return max((Fraction(power) for _, power in mono), default=Fraction(0))


def _ordered(move: Move, style: Style) -> Move:
    assert isinstance(move.statement, Chain)
    sides: list[Expr] = []
    for side in move.statement.sides:
        terms = collected(side, style)
        sides.append(
            side if terms is None else sum_of(sorted(terms, key=lambda pair: -_degree(pair[0])), style)
        )
    return Move(Chain(tuple(sides), move.statement.rels), move.what, move.where, move.focus)


def _factored(side: Terms, unknown: str, zero_at: int, style: Style) -> Move | None:
    a, b, c = (_size(side, mono) for mono in (((unknown, 2),), ((unknown, 1),), ()))
    scale = _scale(a, b, c)
    if scale != 1:
        return _scaled(side, scale, zero_at, style)
    p, q, r = int(a), int(b), int(c)
    where = f"Look at {written(sum_of(side, style))}: can it be written as a product?"
    if r == 0:
        made: Expr = Mul((Name(unknown), _linear(p, q, unknown, style)))
        return _set(made, zero_at, f"Take {unknown} out of both terms as a factor.", where)
    factors = next(_factors(p, q, r), None) if max(abs(p), abs(q), abs(r)) <= _LARGE else None
    if factors is None:
        return _by_formula((p, q, r), unknown, style, where)
    made = Mul(tuple(_linear(top, rest, unknown, style) for top, rest in factors))
    hint = (
        f"Find two numbers: their product is {r}, their sum is {q}." if p == 1 else "Write it as two factors."
    )
    return _set(made, zero_at, hint.replace("-", "−"), where)


def _by_formula(numbers: tuple[int, int, int], unknown: str, style: Style, where: str) -> Move:
    """Put the numbers into x = (−b ± √(b² − 4ac))/(2a); of a size only the value above 0 counts."""
    a, b, c = numbers
    under = b * b - 4 * a * c
    if under < 0:
        what = "The square would have to be below 0, and no square is. Write: no solution."
        return Move(Said(Phrase.NO_SOLUTION), what, where)
    root = Root(2, number(under, style))
    start = number(-b, style)
    only_plus = unknown in style.positive and c < 0
    top: Expr = Add((start, root)) if only_plus else PlusMinus(start, root)
    if b == 0:
        top = root if only_plus else PlusMinus(None, root)
    shown = ", ".join(
        f"{name} = {value}".replace("-", "−") for name, value in zip("abc", numbers, strict=True)
    )
    what = f"Put {shown} into (−b ± √(b² − 4ac))/(2a)."
    if only_plus:
        what += f" {unknown} is a size, so only the value above 0 counts."
    return Move(Chain((Name(unknown), Div(top, number(2 * a, style))), (Rel.EQ,)), what, where)


def _set(product: Expr, zero_at: int, what: str, where: str) -> Move:
    sides = (ZERO, product) if zero_at == 0 else (product, ZERO)
    return Move(Chain(sides, (Rel.EQ,)), what, where)


def _linear(size: int, rest: int, unknown: str, style: Style) -> Expr:
    return sum_of([(((unknown, 1),), size), ((), rest)], style)


def _scale(a: Fraction, b: Fraction, c: Fraction) -> Fraction:
    """Return what makes whole coefficients without a common factor and a positive square."""
    bottoms = lcm(a.denominator, b.denominator, c.denominator)
    shared = gcd(*(int(value * bottoms) for value in (a, b, c)))
    return Fraction(bottoms, shared) * (-1 if a < 0 else 1)


def _scaled(side: Terms, scale: Fraction, zero_at: int, style: Style) -> Move:
    made = sum_of([(mono, size * scale) for mono, size in side], style)
    if scale == -1:
        what = "Turn the sign of both sides."
    elif abs(scale) < 1 and scale.numerator in (1, -1):
        what = f"Divide both sides by {written(number(1 / scale, style))}."
    else:
        what = f"Multiply both sides by {written(number(scale, Style(fractions=True)))}."
    return _set(made, zero_at, what, "Look at the numbers before the letters: what do they share?")


def _factors(a: int, b: int, c: int) -> Iterator[tuple[tuple[int, int], tuple[int, int]]]:
    """Yield ``(p, q), (r, s)`` with (px + q)(rx + s) = ax² + bx + c, in whole numbers."""
    under = b * b - 4 * a * c
    if under < 0 or isqrt(under) ** 2 != under:
        return
    first = Fraction(-b + isqrt(under), 2 * a)
    second = Fraction(-b - isqrt(under), 2 * a)
    yield (first.denominator, -first.numerator), (second.denominator, -second.numerator)
