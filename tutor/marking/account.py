"""The both-sides account: what happened to each side, in a teacher's plainest words."""

from dataclasses import dataclass
from fractions import Fraction

from tutor.line.meaning import Setting, value_of
from tutor.line.poly import DividedByZero, NotExact, Poly, Ratio
from tutor.line.tree import Chain, Statement
from tutor.line.writing import write_number, write_poly, write_ratio
from tutor.marking.ground import put_in


@dataclass(frozen=True, slots=True)
class Move:
    """What happened to one side; ``plain`` where it is one move that can be named."""

    words: str
    plain: bool
    kept: bool = False


@dataclass(frozen=True, slots=True)
class Account:
    """What happened to the left and to the right side."""

    left: Move
    right: Move

    def __str__(self) -> str:
        return f"left: {self.left.words}; right: {self.right.words}"


def account(
    above: Statement, line: Statement, setting: Setting, numbers: dict[str, Poly] | None = None
) -> Account | None:
    """Return the account from one equation to the next, None where one is not an equation.

    ``numbers`` are the given values: they are put in on both lines first, so that a
    substitution is not told as a change.
    """
    if not (_is_equation(above) and _is_equation(line)):
        return None
    assert isinstance(above, Chain) and isinstance(line, Chain)
    try:
        before = [_put_in(value_of(side, setting), numbers or {}) for side in above.sides]
        after = [_put_in(value_of(side, setting), numbers or {}) for side in line.sides]
    except (NotExact, DividedByZero):
        return None
    straight = Account(*_moves(before, after))
    turned = Account(*_moves([before[1], before[0]], after))
    if _cost(turned) < _cost(straight):
        return Account(
            Move(turned.left.words + " (the sides changed places)", turned.left.plain, turned.left.kept), turned.right
        )
    return straight


def _is_equation(statement: Statement) -> bool:
    return isinstance(statement, Chain) and len(statement.rels) == 1 and statement.rels[0].equates


def _put_in(ratio: Ratio, numbers: dict[str, Poly]) -> Ratio:
    above, below = ratio.above, ratio.below
    for name, value in numbers.items():
        above, below = put_in(above, name, Ratio(value)).above, put_in(below, name, Ratio(value)).above
    return Ratio(above).over(Ratio(below))


def _cost(found: Account) -> int:
    return sum(0 if move.kept else 1 if move.plain else 4 for move in (found.left, found.right))


def _moves(before: list[Ratio], after: list[Ratio]) -> tuple[Move, Move]:
    shared = [_added(b, a) for b, a in zip(before, after, strict=True)]
    scaled = [_scaled(b, a) for b, a in zip(before, after, strict=True)]
    if scaled[0] and scaled[1] and scaled[0].words == scaled[1].words:
        return scaled[0], scaled[1]
    moves = [_best(s, k, b, a) for s, k, b, a in zip(shared, scaled, before, after, strict=True)]
    if not moves[0].kept and not moves[1].kept:
        # One way of speaking for both sides: adding with adding, dividing with dividing.
        if shared[0] and shared[1]:
            return shared[0], shared[1]
        if scaled[0] and scaled[1]:
            return scaled[0], scaled[1]
    return moves[0], moves[1]


def _best(shared: Move | None, scaled: Move | None, before: Ratio, after: Ratio) -> Move:
    if before.same(after):
        return Move("stayed the same", True, True)
    for move in (scaled, shared):
        if move is not None:
            return move
    return Move(f"went from {write_ratio(before)} to {write_ratio(after)}", False)


def _added(before: Ratio, after: Ratio) -> Move | None:
    if before.below != after.below:
        return None
    difference = after.above - before.above
    if not difference.terms or len(difference.terms) > 1 or before.below.names():
        return None
    ((mono, coefficient),) = difference.terms.items()
    size = write_poly(Poly({mono: abs(coefficient)}))
    if not mono and not before.above.names() and not after.above.names() and not _small(before, after):
        return None
    return Move(f"{size} {'added' if coefficient > 0 else 'taken away'}", True)


def _small(before: Ratio, after: Ratio) -> bool:
    return before.above.rational() is not None and after.above.rational() is not None


def _scaled(before: Ratio, after: Ratio) -> Move | None:
    if not before.above or not after.above:
        return None
    if before.above.names() != after.above.names() and before.above.names() and after.above.names():
        return None
    try:
        factor = after.over(before).constant() or _proportion(before, after)
    except (NotExact, DividedByZero):
        return None
    value = None if factor is None else factor.rational()
    if value is None or value in (0, 1):
        return None
    fraction = Fraction(value)
    if fraction == -1:
        return Move("its sign turned", True)
    if abs(fraction) < 1 and abs(fraction.numerator) == 1:
        return Move(f"divided by {write_number(1 / fraction)}", True)
    if fraction.denominator == 1:
        return Move(f"multiplied by {write_number(fraction)}", True)
    if abs(fraction) < 1:
        return Move(f"divided by {write_number(1 / fraction)}", True)
    return Move(f"multiplied by {write_number(fraction)}", True)


def _proportion(before: Ratio, after: Ratio) -> Poly | None:
    """Return after/before where both are multiples of the same sum."""
    a, b = after.above * before.below, before.above * after.below
    if len(a.terms) != len(b.terms) or set(a.terms) != set(b.terms):
        return None
    mono = next(iter(a.terms))
    factor = Fraction(a.terms[mono]) / b.terms[mono]
    return Poly.number(factor) if a == b.scaled(factor) else None

