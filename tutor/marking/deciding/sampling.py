"""Two equations in several measures, compared at chosen values of all of them but one.

Where the exact arithmetic cannot hold a line as it stands (``b = √(c² − a²)``), every name but
one is given a number, and what is left is compared exactly in one unknown. Lines that agree
at three such places, each with a solution, say the same; lines that differ at one do not.
Measures only: at a length that is 0 two lines may part that agree everywhere else.
"""

from collections.abc import Iterator
from fractions import Fraction

from tutor.line.meaning import Setting, value_of
from tutor.line.poly import DividedByZero, NotExact, Poly
from tutor.line.tree import Bare, Chain, Expr, Name, Num, Statement
from tutor.line.walk import changed, sides
from tutor.marking.deciding.claim import NEVER, claim_of
from tutor.marking.deciding.compare import Axis, Overlap, compare, solutions
from tutor.marking.deciding.facts import statement_names

# Numbers of no common kind, far enough apart that a difference of squares has either sign.
_PLACES = (
    (Fraction(7, 5), Fraction(13, 3), Fraction(29, 11), Fraction(3, 7)),
    (Fraction(31, 3), Fraction(5, 4), Fraction(17, 9), Fraction(8, 13)),
    (Fraction(2, 9), Fraction(19, 7), Fraction(41, 6), Fraction(11, 2)),
    (Fraction(23, 2), Fraction(37, 5), Fraction(4, 11), Fraction(43, 8)),
    (Fraction(9, 13), Fraction(6, 17), Fraction(53, 4), Fraction(25, 3)),
)
AGREE = 3


def sampled(premise: Statement, line: Statement, setting: Setting) -> Overlap | None:
    """Return how a line lies to a premise; None where it cannot be told in this way."""
    names = statement_names(line)
    if len(names) < 2 or names != statement_names(premise) or not names <= setting.positive:
        return None
    axis = _alone(line) or _alone(premise) or min(names)
    agreed = 0
    for numbers in _numbers(sorted(names - {axis})):
        pair = [_put_in(statement, numbers) for statement in (line, premise)]
        try:
            claims = [claim_of(statement, setting) for statement in pair]
            overlap = compare(claims[0], claims[1], Axis(axis, True))
            told = any(claim != NEVER and solutions(claim, Axis(axis, True)) != () for claim in claims)
        except (NotExact, DividedByZero):
            continue
        if overlap is not Overlap.SAME:
            return overlap
        agreed += told
        if agreed == AGREE:
            return Overlap.SAME
    return None


# Perfect squares, cubes and fourth powers at once, so that most roots of a letter come out.
_POWERS = (Fraction(4096), Fraction(531441), Fraction(1, 4096))


def differ(before: Bare, after: Bare, setting: Setting) -> bool:
    """Tell whether two expressions differ at a positive number; False where none is found."""
    names = sorted(statement_names(before) | statement_names(after))
    for at in range(len(_POWERS)):
        numbers = {name: _POWERS[(at + place) % len(_POWERS)] for place, name in enumerate(names)}
        try:
            values = [_constant(_put_in(bare, numbers), setting) for bare in (before, after)]
        except (NotExact, DividedByZero):
            continue
        if values[0] is not None and values[1] is not None and values[0] != values[1]:
            return True
    return False


def _constant(statement: Statement, setting: Setting) -> Poly | None:
    (side,) = sides(statement)
    return value_of(side, setting).constant()


def _alone(statement: Statement) -> str | None:
    return next((side.name for side in sides(statement) if isinstance(side, Name)), None)


def _numbers(names: list[str]) -> Iterator[dict[str, Fraction]]:
    if len(names) > len(_PLACES[0]):
        return
    for place in _PLACES:
        yield from (
            dict(zip(names, turned, strict=False))
            for turned in (place[: len(names)], place[: len(names)][::-1])
        )


def _put_in(statement: Statement, numbers: dict[str, Fraction]) -> Statement:
    def change(node: Expr) -> Expr:
        if not isinstance(node, Name) or node.name not in numbers:
            return node
        value = numbers[node.name]
        return Num(value, str(value), span=node.span)

    return changed(statement, change)


def the_one_about(premises: tuple[Statement, ...], line: Statement) -> int | None:
    """Return the place of the only premise with just the names of a line, None where there is none."""
    names = statement_names(line)
    found = [
        at
        for at, premise in enumerate(premises)
        if isinstance(premise, Chain) and statement_names(premise) == names
    ]
    return found[0] if len(found) == 1 else None
