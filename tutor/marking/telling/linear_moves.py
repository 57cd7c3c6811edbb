"""The move that was made on both sides of a linear equation, told by its coefficients alone.

What ``moving.py`` finds for the values of sides, for the commonest lines, without making values.
"""

from fractions import Fraction

from tutor.line.poly import Mono, Number, Poly, Ratio, small
from tutor.marking.deciding.everyday import Linear
from tutor.marking.telling.moves import Op
from tutor.marking.telling.moving import if_said, two_moves


def given_to_both(was: tuple[Linear, Linear], now: tuple[Linear, Linear], name: str) -> Op | None:
    """Return the one move that takes both sides to the new ones, None where there is none to name.

    Both equations have the same one solution. None too where a side stayed as it was: how it
    was written anew is to be told then.
    """
    (a, b), (c, d) = was[0][1:], was[1][1:]
    (p, q), (r, s) = now[0][1:], now[1][1:]
    left, right = (p - a, q - b), (r - c, s - d)
    if left == (0, 0) or right == (0, 0):
        return None
    if left == right:
        return if_said(Op(first=side_of(*left, name)))
    factor = Fraction(p - r) / (a - c)
    if (p, q) == (a * factor, b * factor) and (r, s) == (c * factor, d * factor):
        op = if_said(Op(factor=Ratio(Poly.number(factor))))
        if op is not None:
            return op
    # Sides that do not get the same number of times themselves get something first, or after it.
    if factor == 1:
        return None
    first = side_of(p / factor - a, q / factor - b, name)
    before = Op(first=first, factor=Ratio(Poly.number(factor)))
    if all(type(value) is int for value in first.terms.values()) and before.words():
        return before  # the plainest way there can be
    return two_moves(side_of(a, b, name), side_of(p, q, name), factor)


def least_cost(was: tuple[Linear, Linear], now: tuple[Linear, Linear]) -> int | None:
    """Return how much there is to say at least of a move on both sides, None where there is none."""
    (a, b), (c, d) = was[0][1:], was[1][1:]
    (p, q), (r, s) = now[0][1:], now[1][1:]
    if (p - a, q - b) == (r - c, s - d):
        return max(0, bool(p - a) + bool(q - b) - 1)
    factor = Fraction(p - r) / (a - c)
    if factor == 1:
        return None
    # What is added before the sides are multiplied, or after it: the same terms either way.
    return bool(p - a * factor) + bool(q - b * factor)


def side_of(times: Number, rest: Number, name: str) -> Poly:
    """Return a side ``times · name + rest`` as a sum."""
    terms: dict[Mono, Number] = {}
    if times:
        terms[(name, 1),] = small(times)
    if rest:
        terms[()] = small(rest)
    return Poly(terms)
