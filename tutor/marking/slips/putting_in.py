"""A value put in the place of a letter as if it were a digit: ``2x`` at x = 3 as 23."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from tutor.line.tree import Add, Expr, Measure, Mul, Num, Pow
from tutor.line.walk import every, rebuilt
from tutor.marking.slips.spots import Hit, Spot


def digits_joined(spot: Spot) -> Iterator[Hit]:
    """``2x + 5y`` as 23 + 54, or one of its terms so."""
    if not isinstance(spot.node, Mul) and not (spot.whole and isinstance(spot.node, Add)):
        return
    touching = next((found for node in every(spot.node) if (found := _touching(node))), None)
    if touching is None:
        return
    if spot.gives(spot.values.of(rebuilt(spot.node, _joined))):
        digits = f"{touching[1].text} was put right behind {touching[0].text}"
        message = f"Maybe {digits}. What sign is hidden between a number and a letter?"
        yield Hit("substitution-by-juxtaposition", message)


def _touching(node: Expr) -> tuple[Num, Num] | None:
    """Return two numbers that touch. In a typed line none do: one took the place of a letter."""
    if not isinstance(node, Mul):
        return None
    for before, after in pairwise(node.factors):
        value = after.inner if isinstance(after, Measure) else after.base if isinstance(after, Pow) else after
        if isinstance(before, Num) and isinstance(value, Num) and before.span[1] == after.span[0]:
            digits = before.text + value.text
            return (before, replace(value, span=after.span)) if digits.isdecimal() else None
    return None


def _joined(node: Expr) -> Expr:
    found = _touching(node)
    if found is None or not isinstance(node, Mul):
        return node
    text = found[0].text + found[1].text
    joined: Expr = Num(Fraction(text), text, 0, span=(found[0].span[0], found[1].span[1]))
    at = next(at for at, factor in enumerate(node.factors) if factor is found[0])
    second = node.factors[at + 1]
    if isinstance(second, Measure):
        joined = replace(second, inner=joined)
    elif isinstance(second, Pow):
        joined = replace(second, base=joined)
    rest = node.factors[:at] + node.factors[at + 2 :]
    return Mul((joined, *rest), node.span) if rest else joined
