"""The both-sides account: what happened to each side, in a teacher's plainest words."""

from dataclasses import dataclass
from fractions import Fraction

from tutor.line.meaning import Setting, value_of
from tutor.line.poly import ONE, DividedByZero, NotExact, Number, Poly, Ratio
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
        if self.left.kept and self.right.kept:
            return "both sides kept their value"
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
            Move(turned.left.words + " (the sides changed places)", turned.left.plain, turned.left.kept),
            turned.right,
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
    together = _two_steps(before, after)
    if together is not None:
        return together
    left, how = _best(before[0], after[0], None)
    right, how_right = _best(before[1], after[1], how)
    if left.kept and not right.kept:
        return left, right
    if how != how_right and how_right is not None:
        again, how_again = _best(before[0], after[0], how_right)
        if how_again == how_right:
            return again, right
    return left, right


def _best(before: Ratio, after: Ratio, like: str | None) -> tuple[Move, str | None]:
    """Return what happened to a side, spoken of ``like`` the other side where that can be."""
    if before.same(after):
        return Move("stayed the same", True, True), None
    found = {"added": _added(before, after), "scaled": _scaled(before, after)}
    added_first = like == "added" or (like is None and len(before.above.terms) > 1)
    for how in ("added", "scaled") if added_first else ("scaled", "added"):
        move = found[how]
        if move is not None:
            return move, how
    return Move(f"went from {write_ratio(before)} to {write_ratio(after)}", False), None


def _two_steps(before: list[Ratio], after: list[Ratio]) -> tuple[Move, Move] | None:
    """``3x + 15 = 240`` to ``x = 75``: a number taken away from both sides, then both divided."""
    if any(side.below != ONE for side in (*before, *after)):
        return None
    for here, there in ((0, 1), (1, 0)):
        a, b = before[here].above, after[here].above
        if len(a.terms) != 2 or len(b.terms) != 1 or before[there].above.rational() is None:
            continue
        mono = next(iter(b.terms))
        if () not in a.terms or mono not in a.terms or not mono:
            continue
        factor = Fraction(a.terms[mono]) / b.terms[mono]
        constant = Fraction(a.terms[()])
        if factor == 1 or not _nice(factor):
            continue
        moved = f"{write_number(abs(constant))} {'taken away' if constant > 0 else 'added'}"
        words = Move(f"{moved}, then {_factor_words(1 / factor)}", True)
        expected = (before[there].above - Poly.number(constant)).scaled(1 / factor)
        other = after[there].above
        if expected == other:
            return words, words
        told = Move(f"went from {write_poly(before[there].above)} to {write_poly(other)}", False)
        return (words, told) if here == 0 else (told, words)
    return None


def _added(before: Ratio, after: Ratio) -> Move | None:
    if before.below != after.below:
        return None
    difference = after.above - before.above
    if len(difference.terms) != 1 or before.below.names():
        return None
    ((mono, coefficient),) = difference.terms.items()
    if not _nice(coefficient):
        return None
    size = write_poly(Poly({mono: -coefficient if coefficient < 0 else coefficient}))
    return Move(f"{size} {'added' if coefficient > 0 else 'taken away'}", True)


def _scaled(before: Ratio, after: Ratio) -> Move | None:
    if not before.above or not after.above or before.names() != after.names():
        return None
    try:
        factor = after.over(before).constant() or _proportion(before, after)
    except (NotExact, DividedByZero):
        return None
    value = None if factor is None else factor.rational()
    if value is None or value in (0, 1) or not (_nice(value) or _nice(1 / Fraction(value))):
        return None
    return Move(_factor_words(Fraction(value)), True)


def _factor_words(factor: Fraction) -> str:
    if factor == -1:
        return "its sign turned"
    if abs(factor) < 1:
        return f"divided by {write_number(1 / factor)}"
    return f"multiplied by {write_number(factor)}"


def _nice(value: Number) -> bool:
    """Tell whether a child can say this number: a short decimal or a small fraction."""
    return len(write_number(value).lstrip("-")) <= 5


def _proportion(before: Ratio, after: Ratio) -> Poly | None:
    """Return after/before where both are multiples of the same sum."""
    a, b = after.above * before.below, before.above * after.below
    if len(a.terms) != len(b.terms) or set(a.terms) != set(b.terms):
        return None
    mono = next(iter(a.terms))
    factor = Fraction(a.terms[mono]) / b.terms[mono]
    return Poly.number(factor) if a == b.scaled(factor) else None
