"""The letters of the quadratic formula: ``a = 2, b = −3, c = −5`` below ``2x² − 3x − 5 = 0``.

In ``ax² + bx + c = 0`` everybody calls the numbers so, and p and q in ``x² + px + q = 0``: a line
may use these letters without telling them (common practice, no source).
"""

from dataclasses import replace
from fractions import Fraction

from tutor.line.meaning import Setting, value_of
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Chain, Expr, Name, Neg, Num, Rel, Statement
from tutor.line.writing import write_number
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.state import Known

_GENERAL = ("a", "b", "c")
_REDUCED = ("p", "q")


def with_coefficients(known: Known, statement: Statement) -> Known:
    """Return what is known with the numbers of the quadratic above by their letters, if a line uses these."""
    if known.base is None or len(known.base.premises) != 1 or not known.above:
        return known
    new = statement_names(statement) - known.context.names.known
    letters = next((each for each in (_GENERAL, _REDUCED) if new & frozenset(each)), None)
    if letters is None or frozenset(letters) & known.context.names.known:
        return known
    numbers = _numbers(known)
    if numbers is None or (letters == _REDUCED and numbers[0] != 1):
        return known
    told = tuple(
        Chain((Name(letter), _written(number)), (Rel.EQ,))
        for letter, number in zip(letters, numbers[-len(letters) :], strict=True)
    )
    context = replace(known.context, names=known.context.names.joined(letters))
    base = known.base
    for chain in told:
        base = base.extended(chain)
    return replace(known, context=context, base=base)


def _numbers(known: Known) -> tuple[Fraction, ...] | None:
    """Return a, b and c of the last quadratic above, all on one side; None where there is none."""
    for _at, line in reversed(known.above):
        names = statement_names(line)
        if not isinstance(line, Chain) or line.rels != (Rel.EQ,) or len(names) != 1:
            continue
        try:
            left, right = (value_of(side, Setting()) for side in line.sides)
            powers = (right - left if not left.above else left - right).above.by_power(min(names))
        except (NotExact, DividedByZero):
            continue
        if left.below.names() or right.below.names() or max(powers, default=0) != 2:
            continue
        numbers = [powers[at].rational() if at in powers else 0 for at in (2, 1, 0)]
        if all(number is not None for number in numbers):
            return tuple(Fraction(number) for number in numbers if number is not None)
    return None


def _written(number: Fraction) -> Expr:
    size = Num(abs(number), write_number(abs(number)))
    return Neg(size) if number < 0 else size
