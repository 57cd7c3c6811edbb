"""Wrong moves that take a term from one side of an equation to the other."""

from collections.abc import Iterator
from fractions import Fraction
from math import isqrt

from tutor.line.poly import Number, number_in, small
from tutor.line.tree import Add, Div, Expr, Mul, Name, Neg, Pow
from tutor.line.walk import names_in
from tutor.marking.slips.balance import Balance, number
from tutor.marking.slips.letters import turned_round
from tutor.marking.slips.spots import Hit, Values, say, say_size, show, show_unsigned, terms_of


def constant_moved(eq: Balance) -> Iterator[Hit]:
    """A number left the left side; what became of the right side?"""
    if len(eq.was[0].above.terms) < 2 and not isinstance(eq.left, Add):
        return
    if eq.lin is not None and (eq.new_lin is None or eq.lin.lead != eq.new_lin.lead):
        return
    kept = eq.right_scaled(1)
    for value, term in _numbers_of(eq):
        if not eq.left_shifted(-value):
            continue
        if kept and term is None and isinstance(eq.left, Mul) and eq.lin is not None:
            yield _lost_in_bracket(value, eq.lin.lead)
        elif kept and not _still_there(eq, value, term):
            yield from _one_side_only(eq, value, _shown(value, term))
        if eq.right_shifted(value):
            for hit in _sign_kept(eq, value, _shown(value, term)):
                yield hit._replace(cost=hit.cost + _is_collected(eq, term))


def _numbers_of(eq: Balance) -> Iterator[tuple[Number, Expr | None]]:
    """The numbers that are added on the left side with the terms they are, and their sum."""
    found: set[Number] = {0}
    for term, value in eq.values.terms(eq.left):
        value_alone = number_in(value)
        if value_alone is not None and value_alone not in found:
            found.add(value_alone)
            yield value_alone, term
    together = eq.was[0].above.terms.get((), 0) if not eq.was[0].below.names() else 0
    if together not in found:
        yield together, None


def _is_collected(eq: Balance, term: Expr | None) -> bool:
    """Tell whether the number stands in no term of its own: brackets had to be opened for it."""
    return term is None and any(
        isinstance(part, Mul | Neg | Div) and names_in(part) for part in terms_of(eq.left)
    )


def _still_there(eq: Balance, value: Number, term: Expr | None) -> bool:
    """Tell whether a term that is said to be gone stands in the typed line as often as before."""
    if term is None:
        return False
    before, after = (
        sum(number_in(found) == value for _, found in eq.values.terms(side))
        for side in (eq.left, eq.new_left)
    )
    return after >= before


def _shown(value: Number, term: Expr | None) -> str:
    """Return what a message calls a number: as it was written, where it was written."""
    twice = isinstance(term, Neg) and isinstance(term.inner, Neg)
    return say_size(value) if term is None or twice else show_unsigned(term)


def _lost_in_bracket(value: Number, times: Number) -> Hit:
    """``3(x + 2) = 15`` as ``3x = 15``."""
    inner = say_size(small(Fraction(value) / times))
    message = f"Maybe the {inner} in the bracket got lost. What does {say(times)} do to it?"
    return Hit("constant-removed-one-side-only", message)


def _one_side_only(eq: Balance, value: Number, shown: str) -> Iterator[Hit]:
    alone = eq.lin is not None and eq.lin.lead == 1
    if alone and isinstance(eq.right, Add | Mul | Div) and eq.number is not None:
        message = f"The sign = says that both sides are worth the same. Where did the {shown} go?"
        yield Hit("answer-comes-next", message)
    done = "taken away" if value > 0 else "added"
    message = f"Maybe {shown} was {done} on one side only. What happens to {show(eq.right)}?"
    yield Hit("constant-removed-one-side-only", message)


def _sign_kept(eq: Balance, value: Number, shown: str) -> Iterator[Hit]:
    lead = None if eq.lin is None else abs(eq.lin.lead)
    if _written_out(eq.new_left, eq.left, eq.values, value):
        message = (
            f"Here {shown} was {_done(value)} on one side, {_done(-value)} on the other. Do the same to both."
        )
        yield Hit("take-off-one-side-add-to-other", message)
    undone = f"Maybe {shown} was {_done(-value)} on the other side. What undoes {_doing(value)} {shown}?"
    bare = Hit("plus-undone-by-adding" if value > 0 else "minus-undone-by-subtracting", undone)
    message = f"Maybe {shown} went across with its old sign. What undoes {_doing(value)} {shown}?"
    moved = Hit("constant-across-unchanged-sign", message)
    yield from (bare, moved) if lead == 1 else (moved, bare)
    if value > 0 and eq.number is not None and _are_squares(eq, value):
        message = f"Maybe the square {shown} was added. Is the side asked for the longest one?"
        yield Hit("leg-squares-added-for-leg", message)


def _are_squares(eq: Balance, value: Number) -> bool:
    """Tell whether a line reads as of a right triangle: ``x² + 81 = 225``."""
    if not isinstance(eq.new_left, Pow) or eq.values.number(eq.new_left.exponent) != 2:
        return False
    sizes = (Fraction(value), Fraction(eq.number or 0))
    return all(size.denominator == 1 and isqrt(int(abs(size))) ** 2 == size for size in sizes)


def _done(value: Number) -> str:
    return "taken away" if value > 0 else "added"


def _doing(value: Number) -> str:
    return "adding" if value > 0 else "taking away"


def _written_out(new: Expr, old: Expr, values: Values, value: Number) -> bool:
    """``x + 10 − 10``: the side as it was, with the number taken off behind it."""
    if not isinstance(new, Add):
        return False
    written = [number_in(found) for _, found in values.terms(new)]
    return len(terms_of(new)) > len(terms_of(old)) and value in written and -value in written


def unknown_moved(eq: Balance) -> Iterator[Hit]:
    """``5x + 4 = 2x + 10``: the unknown or the number went across with its old sign."""
    if eq.number is not None:
        return
    left, right, typed = eq.lin, eq.lin_right, eq.typed_linear
    if left is None or right is None or left.mono != right.mono or typed is None:
        return
    a, b, c, d = left.lead, left.rest, right.lead, right.rest
    if typed in ((a + c, b, 0, d), (a + c, 0, 0, d - b)):
        yield _unknown_kept_sign(_unknown_term(eq.right, eq.values))
    elif typed == (a - c, 0, 0, d + b) and b:
        shown = say_size(b)
        if b < 0:
            message = f"Maybe {shown} was taken away once more. What undoes taking away {shown}?"
            yield Hit("always-subtract-across", message)
        message = f"Maybe {shown} went across with its old sign. What undoes {_doing(b)} {shown}?"
        yield Hit("constant-across-unchanged-sign", message)
    if typed == (a - c, b, 2 * c, d) and len(terms_of(eq.new_left)) > len(terms_of(eq.left)):
        shown = show_unsigned(_unknown_term(eq.right, eq.values))
        message = f"Here {shown} was {_done(c)} on one side, {_done(-c)} on the other. Do the same to both."
        yield Hit("take-off-one-side-add-to-other", message)
    if typed == (c - a, -b, 0, d) and turned_round(eq, eq.new_left):
        yield _opposite_orders(_unknown_term(eq.right, eq.values))


def _unknown_term(side: Expr, values: Values) -> Expr:
    return next(term for term, value in values.terms(side) if value.names())


def _unknown_kept_sign(term: Expr) -> Hit:
    plain = show_unsigned(term)
    message = f"Maybe {plain} went across with its old sign. What undoes {plain} on that side?"
    return Hit("variable-to-other-side-unchanged-sign", message, left_side=True)


def _opposite_orders(term: Expr) -> Hit:
    """``3x = 6x + 6`` as ``6x − 3x = 6``: one difference was turned round."""
    message = f"Maybe one difference was turned round. Take {show(term)} from both sides the same way."
    return Hit("subtract-in-opposite-orders", message)


def no_or_every_number(eq: Balance) -> Iterator[Hit]:
    """The unknown drops out of the line above, and yet a value is named."""
    if not isinstance(eq.new_left, Name) or eq.new_number is None or eq.number is not None:
        return
    difference = eq.was[0] - eq.was[1]
    left_over = number_in(difference)
    if left_over is None:
        return
    name = eq.new_left.name
    if left_over == 0 and eq.right_is(number(0)):
        message = f"Both sides above are worth the same for every {name}. Which numbers solve it then?"
        yield Hit("identity-called-x-equals-0", message)
    if left_over and any(eq.right_is(number(value)) for value in (left_over, -left_over)):
        message = f"The {name} drops out of the line above. Can what is left be true?"
        yield Hit("contradiction-called-a-solution", message)
