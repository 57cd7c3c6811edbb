"""Lines that nearly repeat one above: ``739x = 211`` below ``738x = 211`` rounds nothing.

The right side there is a correct rounding of 739 times the solution, by accident. Whoever rounds
divides, or puts numbers in: the letters keep what stands with them, or get another size altogether.
"""

from collections.abc import Iterator
from fractions import Fraction
from itertools import islice

from tutor.line.meaning import Setting, value_of
from tutor.line.mono import Mono, Number, is_name
from tutor.line.poly import DividedByZero, NotExact, Poly
from tutor.line.tree import Chain, Statement
from tutor.marking.deciding.rounding import ends, rounds_to
from tutor.marking.deciding.state import Known

_NEAR = Fraction(1, 20)  # further apart, no rounding hides the difference
_MOST_LINES = 8
_MOST_PLACES = 12


def nearly_copied(known: Known, statement: Statement, setting: Setting) -> bool:
    """Tell whether a line has the letters of one above with a slightly other number at one of them."""
    new = _with_letters(statement, setting)
    if not new:
        return False
    above = (line for _, line in reversed(known.above))
    premises = known.base.premises if known.base else ()
    lines = (*islice(above, _MOST_LINES), *premises)
    with_pi = bool(known.shown_pi)
    return any(_is_near(old, new, with_pi) for line in lines if (old := _with_letters(line, setting)))


def _with_letters(statement: Statement, setting: Setting) -> dict[Mono, Number]:
    """Return the terms with letters of an equation whose right side was taken away from both, else {}."""
    if not isinstance(statement, Chain) or len(statement.sides) != 2 or not statement.rels[0].equates:
        return {}
    try:
        left, right = (value_of(side, setting) for side in statement.sides)
        rest = (left - right).above if left.below == right.below else Poly({})
    except (NotExact, DividedByZero):
        return {}
    return {mono: size for mono, size in rest.terms.items() if any(is_name(atom) for atom, _ in mono)}


def _is_near(old: dict[Mono, Number], new: dict[Mono, Number], with_pi: bool) -> bool:
    if old.keys() != new.keys():
        return False
    times = [Fraction(new[mono]) / Fraction(old[mono]) for mono in new]
    sign = 1 if times[0] > 0 else -1
    if any(abs(one - sign) > _NEAR for one in times) or all(one == sign for one in times):
        return False
    return any(
        one != sign and not _may_be(sign * old[mono], new[mono], with_pi)
        for mono, one in zip(new, times, strict=True)
    )


def _may_be(old: Number, new: Number, with_pi: bool) -> bool:
    """Tell whether one of a letter is left, or ``4.33`` stands for 4 1/3: rounded itself.

    ``with_pi``: 3.14 or the like was put in, and what it gives may be rounded too.
    """
    if abs(new) == 1:
        return True
    value, shown = Fraction(old), Fraction(new)
    if ends(value) and not with_pi:
        return False
    return any(rounds_to(value, shown, places) for places in _places(shown))


def _places(shown: Fraction) -> Iterator[int]:
    """Yield how many decimal places a number is written with, nothing where it has no end."""
    for places in range(_MOST_PLACES):
        if (shown * 10**places).denominator == 1:
            yield places
            return
