"""Wrong moves on both sides of an equation in which letters stand for the numbers: ``V = LWH``."""

from collections.abc import Iterator

from tutor.line.poly import Ratio
from tutor.line.tree import Expr, Mul, Neg, Num
from tutor.marking.slips.balance import Balance
from tutor.marking.slips.spots import (
    Hit,
    exact,
    factors_of,
    product_of,
    show,
    show_unsigned,
    single,
    terms_of,
)


def letters_undone(eq: Balance) -> Iterator[Hit]:
    """``V = LWH`` as ``W = V − LH``: the letters that multiply were taken to the other side wrongly."""
    if not isinstance(eq.left, Mul):
        return
    _, factors = factors_of(eq.left)
    values = exact([eq.values.of(factor) for factor in factors])
    if values is None:
        return
    for at, kept in enumerate(values):
        if kept.names() and eq.left_is(kept):
            gone = product_of(values[:at] + values[at + 1 :])
            if gone.names():
                others = factors[:at] + factors[at + 1 :]
                shown = show(others[0] if len(others) == 1 else Mul(others))
                yield from _factor_moves(eq, gone, shown)


def _factor_moves(eq: Balance, gone: Ratio, shown: str) -> Iterator[Hit]:
    right = eq.was[1]
    if eq.right_is(right - gone):
        message = f"Maybe {shown} was taken away. Here it multiplies: what undoes multiplying?"
        yield Hit("mult-undone-by-subtracting", message)
    if eq.right_is(right * gone):
        message = f"Maybe {show(eq.right)} was multiplied by {shown} once more. What undoes multiplying?"
        yield Hit("mult-undone-by-multiplying", message)
    if right.above and (eq.now[1] * right).same(gone):
        message = f"Maybe the division was turned round: {shown} by {show(eq.right)}. Which one is divided?"
        yield Hit("quotient-upside-down", message)
    if eq.right_is(right):
        message = f"Maybe {shown} was taken off on one side only. What happens to {show(eq.right)}?"
        yield Hit("coefficient-removed-one-side-only", message)


def term_moved(eq: Balance) -> Iterator[Hit]:
    """One term with letters was taken from the left side to the right with its old sign, or turned round."""
    plain = eq.lin is not None and eq.new_lin is not None
    if plain and sum([not isinstance(term, Num) for term in terms_of(eq.left)]) < 2:
        return  # as below, without a value for each term
    with_letters = [(term, value) for term, value in eq.values.terms(eq.left) if value.names()]
    if len(with_letters) < 2 and plain:
        return  # the unknown is still on the left side
    for term, value in with_letters:
        if not eq.left_is(eq.was[0] - value):
            continue
        if eq.right_is(eq.was[1] + value):
            yield _sign_kept(eq, term)
        if eq.right_is(value - eq.was[1]) and turned_round(eq, eq.new_right):
            message = (
                f"Maybe one difference was turned round. Take {show(term)} from both sides the same way."
            )
            yield Hit("subtract-in-opposite-orders", message)


def turned_round(eq: Balance, difference: Expr) -> bool:
    """Tell whether a difference was turned round, and not the sign of one number alone."""
    numbers = [one for one in (eq.lin, eq.lin_right) if one is not None and one.rest]
    return len(numbers) < 2 or sum(bool(value.names()) for _, value in eq.values.terms(difference)) > 1


def _sign_kept(eq: Balance, term: Expr) -> Hit:
    plain = show_unsigned(term)
    message = f"Maybe {plain} went across with its old sign. What undoes {plain} on that side?"
    left_over = single(eq.now[0])
    if left_over is None or not left_over[1]:
        return Hit("variable-to-other-side-unchanged-sign", message)
    if left_over[0] != 1:
        return Hit("constant-across-unchanged-sign", message)
    minus = isinstance(term, Neg)
    return Hit("minus-undone-by-subtracting" if minus else "plus-undone-by-adding", message)
