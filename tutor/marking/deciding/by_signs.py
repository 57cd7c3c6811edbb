"""Expressions with roots and bars, compared for letters above zero and below it.

What √(x⁷) and |x³| are hangs on the sign of x. Where each letter is known to be above zero, or is
written as the opposite of such a one, every root of a product is a product of powers: the
expressions are compared exactly, once for each choice of signs. Powers of a letter with
different exponents are linearly independent, so they are equal only where their terms are.
"""

from dataclasses import replace
from enum import Enum
from fractions import Fraction
from itertools import product

from tutor.line.meaning import Setting, number_of, value_of
from tutor.line.poly import NoRealRoot, NotExact
from tutor.line.tree import Abs, Expr, Name, Neg, Num, Pow, Root
from tutor.line.walk import every, names_in, rebuilt

MAX_LETTERS = 5


class Kept(Enum):
    """Whether an expression kept its value."""

    ALWAYS = "always"
    ABOVE_ZERO = "above zero"  # only where no letter is negative: √(x²) as x
    NOT = "not"


def kept_by_signs(before: Expr, after: Expr, setting: Setting) -> Kept | None:
    """Tell whether two expressions are equal wherever both have a value; None where it cannot be told.

    The laws of powers with fractions are stated for letters above zero: ``(x²)^(1/2)`` may go on as x.
    """
    letters = sorted((_under_roots(before) | _under_roots(after)) - setting.positive)
    if len(letters) > MAX_LETTERS:
        return None
    taken = replace(setting, positive=names_in(before, after), rooted=True)
    compared = False
    for below in product((False, True), repeat=len(letters)):
        negative = {letter for letter, is_below in zip(letters, below, strict=True) if is_below}
        try:
            old, new = (value_of(_turned(side, negative), taken) for side in (before, after))
        except NoRealRoot:
            continue  # one of the two has no value there
        except NotExact:
            return None
        if not old.same(new):
            return _only_above_zero(before, after) if compared and negative else Kept.NOT
        compared = True
    return Kept.ALWAYS if compared else None


def _only_above_zero(before: Expr, after: Expr) -> Kept:
    """What equality for letters above zero alone is worth: where bars were typed, signs matter."""
    nodes = [*every(before), *every(after)]
    if any(isinstance(node, Pow) and _index(node) > 1 and names_in(node.base) for node in nodes):
        return Kept.ALWAYS
    bars = any(isinstance(node, Abs) and names_in(node) for node in every(before))
    return Kept.NOT if bars or not any(_index(node) % 2 == 0 for node in nodes) else Kept.ABOVE_ZERO


def _turned(expr: Expr, negative: set[str]) -> Expr:
    """Write ``-x`` for each letter that is below zero."""
    if not negative:
        return expr
    return rebuilt(expr, lambda node: Neg(node) if isinstance(node, Name) and node.name in negative else node)


def _under_roots(expr: Expr) -> frozenset[str]:
    """Return the letters that stand under a root, between bars or below a fraction of a power."""
    return frozenset(
        name for node in every(expr) if isinstance(node, Abs) or _index(node) > 1 for name in names_in(node)
    )


def _index(node: Expr) -> int:
    """Return the index of a root, 3 for a power with ``2/3``; 1 for all else."""
    if isinstance(node, Root):
        return node.index
    if not isinstance(node, Pow) or isinstance(node.exponent, Num):
        return 1
    power = number_of(node.exponent)
    return 1 if power is None else Fraction(power).denominator
