"""Moves told in the numbers of the lines: ``a/2 added`` where both lines have fractions, not ``0.5a``."""

import re
from fractions import Fraction

from tutor.line.tree import Chain, Div, Num
from tutor.line.walk import every

_DECIMAL = re.compile(r"(?<![\w.])(\d+\.\d+)([^\W\d_]*)(?![\w.²³^])")


def shows_fractions(*lines: Chain) -> bool:
    """Tell whether lines have fractions of numbers in them, and no decimals."""
    nodes = [node for line in lines for side in line.sides for node in every(side)]
    if any(isinstance(node, Num) and node.places for node in nodes):
        return False
    return any(
        (isinstance(node, Div) and isinstance(node.bottom, Num))
        or (isinstance(node, Num) and node.value.denominator != 1)
        for node in nodes
    )


def in_fractions(words: str) -> str:
    """Return words with each decimal as a fraction: ``2.5`` as ``5/2``, ``0.75x`` as ``3x/4``."""
    return _DECIMAL.sub(_fraction, words)


def _fraction(found: re.Match[str]) -> str:
    value, letters = Fraction(found[1]), found[2]
    top = "" if letters and value.numerator == 1 else str(value.numerator)
    return f"{top}{letters}/{value.denominator}"
