"""Wrong moves on both sides of an equation: undoing what was done to the unknown."""

from collections.abc import Iterator
from fractions import Fraction

from tutor.line.poly import Number, Ratio, small
from tutor.line.tree import Add, Div, Expr, Measure, Mul, Neg, Num
from tutor.line.walk import every
from tutor.marking.slips.arithmetic import PLACES, SECOND_DIGIT, fact_mixed_up, near_fact, near_product
from tutor.marking.slips.balance import Balance, factors_in, is_fraction, number
from tutor.marking.slips.spots import (
    Hit,
    exact,
    factors_of,
    product_of,
    say,
    say_size,
    scaled,
    show,
    show_unsigned,
    terms_of,
    unsigned,
)


def factor_undone(eq: Balance) -> Iterator[Hit]:
    """The left side lost a factor; what became of the right side?"""
    old, new = eq.lin, eq.new_lin
    if old is not None and new is not None and new.rest * old.lead != old.rest * new.lead:
        return  # its terms did not lose the same factor
    product = (old is not None and not old.rest) or isinstance(eq.left, Mul | Div | Neg)
    for factor in _lost_factors(eq):
        if factor not in (0, 1) and eq.left_scaled(1 / Fraction(factor)):
            yield from _factor_moves(eq, factor, product)


def _lost_factors(eq: Balance) -> list[Number]:
    """The factors that the left side is written with, of linear sides only the one that is gone."""
    if eq.lin is None or eq.new_lin is None:
        return list(dict.fromkeys(factors_in(eq.left, eq.values)))
    gone = small(Fraction(eq.lin.lead) / eq.new_lin.lead)
    if eq.lin.rest and _common(Fraction(gone)):
        return [gone]
    written = gone == eq.lin.lead or gone in factors_in(eq.left, eq.values)
    return [gone] if written else []


def _factor_moves(eq: Balance, factor: Number, product: bool) -> Iterator[Hit]:
    right, shown = eq.was[1], _said(eq, factor)
    if eq.right_scaled(1 / Fraction(factor)):
        return  # both sides got the same: what is wrong is the sign between them
    if eq.right_scaled(1):
        yield from _one_side_only(eq, factor, product)
    if not product:
        return
    minus = factor < 0 or (eq.number is None or eq.number < 0)
    if minus and eq.right_scaled(-1 / Fraction(factor)) and right.above and factor != -1:
        message = f"Maybe a sign got lost in {_doing(eq, factor)}. What sign does the result have?"
        yield Hit("sign-dropped-when-dividing", message)
    if factor == -1:
        return
    if eq.right_scaled(factor):
        yield from _multiplied_again(eq, factor)
    if eq.right_shifted(-factor):
        message = f"Maybe {say_size(factor)} was taken away. Here it multiplies: what undoes multiplying?"
        yield Hit("mult-undone-by-subtracting", message)
    yield from _fact_mixed_up(eq, factor)
    yield from _point_slipped(eq, factor)
    if right.above and (eq.now[1] * right).same(number(factor)):
        message = (
            f"Maybe the division was turned round: {shown} by {show(eq.right)}. Which number is divided?"
        )
        yield Hit("quotient-upside-down", message)


def _fact_mixed_up(eq: Balance, factor: Number) -> Iterator[Hit]:
    """``8x = 56`` as ``x = 6``: the right undoing, with a quotient or product remembered wrongly."""
    whole, wrong = eq.number, eq.new_number
    if not isinstance(whole, int) or not isinstance(wrong, int):
        return
    if isinstance(factor, int):
        if whole % factor == 0 and near_fact(whole // factor, factor, wrong, whole):
            yield fact_mixed_up(f"{show(eq.right)} divided by {say(factor)}", 3)
    elif factor.numerator == 1 and near_product(whole, factor.denominator, wrong):
        yield fact_mixed_up(f"{show(eq.right)} times {factor.denominator}", 3)


def _point_slipped(eq: Balance, factor: Number) -> Iterator[Hit]:
    """``0.4x = 8`` as ``x = 2``: the right undoing, ten times too much or too little."""
    whole, wrong = eq.number, eq.new_number
    if not whole or not wrong or Fraction(wrong) * Fraction(factor) / Fraction(whole) not in PLACES:
        return
    if isinstance(eq.new_right, Measure):
        return  # "W = 7 m" where it is 7 cm: the number is right, and its unit is not
    if _is_decimal(eq, factor) or abs(Fraction(whole)) >= SECOND_DIGIT or not isinstance(whole, int):
        about = f"{show(eq.right)} divided by {_said(eq, factor)}"
        message = f"Maybe the decimal point slipped. About how big is {about}?"
        yield Hit("place-value-slip", message, 2)


def _is_division(eq: Balance, factor: Number) -> bool:
    """Tell whether a factor is written as one over a whole number: x/4 is (1/4)x, but 0.5x is a product."""
    if _is_decimal(eq, factor):
        return False
    return abs(Fraction(factor).numerator) == 1 and Fraction(factor).denominator > 1


def _is_decimal(eq: Balance, factor: Number) -> bool:
    """Tell whether a factor of the left side is written with a decimal point."""
    return any(isinstance(node, Num) and node.places and node.value == factor for node in every(eq.left))


def _called(eq: Balance, factor: Number) -> str:
    """Return what a factor of the unknown is called: the 4, the division by 4."""
    if _is_division(eq, factor):
        return f"the division by {say(1 / Fraction(factor))}"
    return f"the {_said(eq, factor)}"


def _said(eq: Balance, factor: Number) -> str:
    return _as_written(factor) if _written_as_fraction(eq.left) else say(factor)


def _as_written(factor: Number) -> str:
    """Return a factor that is written with a fraction line: 3/8, not 0.375."""
    whole = Fraction(factor)
    return str(whole).replace("-", "−")


def _doing(eq: Balance, factor: Number) -> str:
    """Return what undoes a factor: dividing by 4, multiplying by 4."""
    if _is_division(eq, factor):
        return f"multiplying by {say(1 / Fraction(factor))}"
    return f"dividing by {_said(eq, factor)}"


def _one_side_only(eq: Balance, factor: Number, product: bool) -> Iterator[Hit]:
    if isinstance(eq.left, Add) and Fraction(factor).denominator != 1 and not _is_written(eq, factor):
        return  # "x + x/2": no 1.5 stands there that could be taken off
    if factor == -1:
        message = f"Maybe the minus was left out on one side only. What happens to {show(eq.right)}?"
        yield Hit("opposite-of-x-read-as-x", message)
    elif product:
        message = (
            f"Maybe {_called(eq, factor)} was taken off on one side only. What happens to {show(eq.right)}?"
        )
        yield Hit("coefficient-removed-one-side-only", message)
    else:
        message = f"Maybe {_doing(eq, factor)} was done on one side only. What happens to {show(eq.right)}?"
        yield Hit("divide-left-side-only-fully", message)


def _is_written(eq: Balance, factor: Number) -> bool:
    terms = eq.left.terms if isinstance(eq.left, Add) else (eq.left,)
    return any(factor in factors_in(term, eq.values) for term in terms)


def _multiplied_again(eq: Balance, factor: Number) -> Iterator[Hit]:
    shown = show(eq.right)
    below = _below(eq.left)
    coefficient = isinstance(eq.left, Mul) and eq.lin is not None and factor == eq.lin.lead
    over = None if below is None else eq.values.number(below)
    if below is not None and over is not None and not coefficient and abs(factor * Fraction(over)) == 1:
        by = show(below)
        message = f"Maybe {shown} was divided by {by} once more. What undoes dividing by {by}?"
        plain = unsigned(eq.left)
        whole = isinstance(plain, Div) and not list(factors_in(plain.top, eq.values))
        if whole:
            yield Hit("div-undone-by-dividing", message)
        if not whole or (isinstance(plain, Div) and isinstance(plain.top, Add)):
            yield Hit("denominator-divided-not-multiplied", message)
        return
    if Fraction(factor).denominator != 1 and _written_as_fraction(eq.left):
        message = f"Maybe {shown} was multiplied by {_as_written(factor)} once more. What undoes that?"
        yield Hit("fraction-coefficient-multiplied-again", message)
    message = f"Maybe {shown} was multiplied by {say(factor)} once more. What undoes multiplying?"
    yield Hit("mult-undone-by-multiplying", message)


def _below(expr: Expr) -> Expr | None:
    """Return what a side is divided by: 3 in ``2x/3`` and in ``(2/3)x``."""
    if isinstance(expr, Neg):
        return _below(expr.inner)
    if isinstance(expr, Div):
        return expr.bottom
    if isinstance(expr, Mul):
        found = [factor for factor in factors_of(expr)[1] if isinstance(factor, Div)]
        return found[0].bottom if found else None
    return None


def _written_as_fraction(expr: Expr) -> bool:
    if isinstance(expr, Neg):
        return _written_as_fraction(expr.inner)
    if isinstance(expr, Add):
        return any(_written_as_fraction(term) for term in expr.terms if not isinstance(term, Div | Num))
    return is_fraction(expr) or any(is_fraction(factor) for factor in factors_of(expr)[1])


def part_undone(eq: Balance) -> Iterator[Hit]:
    """``3x + 6 = 15`` as ``x + 6 = 5``: only the unknown term of the left side was divided."""
    lin, new = eq.lin, eq.new_lin
    if lin is None or not lin.rest or lin.lead in (1, 0) or new is None or new.rest != lin.rest:
        return
    lead = Fraction(lin.lead)
    written = {lead, Fraction(1, lead.denominator)}
    by_both = isinstance(eq.left, Add) and eq.was[1].above  # 0 divided by anything shows nothing
    for by in written | (_common(lead / Fraction(new.lead)) if by_both else set()):
        if by == 1 or not eq.left_linear(lead / by, lin.rest):
            continue
        if eq.right_scaled(1 / by):
            yield _only_one_term(eq, by, f"the {say_size(lin.rest)}")
        if by not in written:
            continue
        if eq.right_scaled(1) and by != -1:
            message = (
                f"Maybe {_called(eq, by)} was taken off on one side only. What happens to {show(eq.right)}?"
            )
            yield Hit("coefficient-removed-one-side-only", message, 2)
        if eq.right_shifted(-by):
            message = f"Maybe {say(by)} was taken away. Here it multiplies: what undoes multiplying?"
            yield Hit("mult-undone-by-subtracting", message, 2)


def _common(gone: Fraction) -> set[Fraction]:
    """Return a whole number that a side was divided by, though it stands nowhere: ``4a − 10 = 2a`` by 2."""
    return {gone} if gone.denominator == 1 and gone > 1 else set()


def _only_one_term(eq: Balance, by: Fraction, left_alone: str) -> Hit:
    if _is_division(eq, by):
        message = f"Maybe only one term was multiplied by {say(1 / by)}. What happens to {left_alone}?"
        return Hit("multiply-only-the-fraction-term", message)
    message = f"Maybe only one term was divided by {say(by)}. What happens to {left_alone}?"
    return Hit("divide-only-the-x-term", message)


def one_term_undone(eq: Balance) -> Iterator[Hit]:
    """``3(n + 2) + 6 = 18`` as ``n + 2 + 6 = 6``, ``x/2 + x/3 = 10`` as ``x + x/3 = 20``."""
    if not isinstance(eq.left, Add):
        return
    terms = eq.values.terms(eq.left)
    several = sum([bool(value.names()) for _, value in terms]) > 1
    for term, value in terms:
        if not several and not any(isinstance(node, Add) for node in every(term)):
            continue
        for by in set(factors_in(term, eq.values)) - {0, 1}:
            each = 1 / Fraction(by)
            if eq.right_scaled(each) and eq.left_is(eq.was[0] - value + scaled(value, each)):
                others = [other for other in terms_of(eq.left) if other is not term]
                yield _only_one_term(eq, Fraction(by), show_unsigned(others[0]))


def unknown_alone(eq: Balance) -> Iterator[Hit]:
    """``3x + 4 = 19`` straight to the unknown alone, in a wrong way."""
    lin = eq.lin
    if lin is None or not lin.rest:
        return
    if lin.lead < 0 and eq.left_linear(-lin.lead, 0):
        yield from _minus_unknown(eq, lin.rest)
    if lin.lead in (1, -1) or not eq.left_linear(1, 0):
        return
    if lin.rest == -lin.lead and lin.rest < 0 and eq.right_scaled(1):
        shown = show(eq.left)
        message = (
            f"Maybe {shown} was taken for {show(eq.new_left)}. What undoes multiplying by {say(lin.lead)}?"
        )
        yield Hit("mult-undone-by-subtracting", message)
    if eq.right_shifted(-lin.rest - lin.lead):
        numbers = f"{say_size(lin.rest)} and {say_size(lin.lead)}"
        message = f"Maybe {numbers} were both taken away. Does {say(lin.lead)} multiply or add?"
        yield Hit("all-numbers-to-one-side", message, 1 if len(eq.values.terms(eq.left)) == 2 else 2)
    if eq.right_is(scaled(eq.was[1], 1 / Fraction(lin.lead)) - number(lin.rest)):
        message = (
            f"Maybe {_called(eq, lin.lead)} was undone before the {say_size(lin.rest)}. "
            f"Then what happens to the {say_size(lin.rest)}?"
        )
        if abs(lin.rest) == abs(lin.lead):
            shown = say_size(lin.rest)
            divided = f"Maybe all but the {shown} was divided by {say(lin.lead)}."
            message = f"{divided} What happens to the {shown} then?"
        yield Hit("two-step-order-reversed", message)


def _minus_unknown(eq: Balance, rest: Number) -> Iterator[Hit]:
    """``6 − x = 8`` as ``x = 8 − 6``, ``−3 − x = 5`` as ``x = 5 − 3``."""
    letters = show(eq.new_left)
    if eq.right_shifted(-rest):
        message = f"Maybe the minus before {letters} got lost. Does {letters} or −{letters} stand alone then?"
        yield Hit("number-minus-x-reversed", message)
    if rest < 0 and eq.right_shifted(rest):
        message = f"Maybe a minus got lost. There is one before {letters} and one before {say(-rest)}."
        yield Hit("negative-minus-x", message)


def inserted(eq: Balance) -> Iterator[Hit]:
    """``2(x + 1) = 10`` as ``2(x + 1 − 1) = 10 − 1``: a number was put into a bracket."""
    if not isinstance(eq.left, Mul | Neg):
        return
    taken_apart = _factor_and_bracket(eq.left, eq)
    if taken_apart is None:
        return
    front, bracket = taken_apart
    whole, other = eq.was
    for term in bracket.terms:
        value = eq.values.of(term)
        if value is not None and eq.gives(whole - front * value, other - value):
            shown = show_unsigned(term)
            message = f"Maybe {shown} was moved as if there were no bracket. How much does it count outside?"
            yield Hit("insert-inside-bracket", message)
    behind = _factor_and_bracket(eq.right, eq)
    for taken in eq.was:
        if behind is not None and eq.gives(front - taken, behind[0] - taken):
            message = (
                f"Maybe {show(eq.left)} was taken from its own factor. Is that factor added or multiplied?"
            )
            yield Hit("insert-against-factor", message)


def _factor_and_bracket(expr: Expr, eq: Balance) -> tuple[Ratio, Add] | None:
    """Return what stands in front of a bracket, and the bracket."""
    sign, factors = factors_of(expr)
    bracket = next((factor for factor in factors if isinstance(factor, Add)), None)
    if bracket is None:
        return None
    others = exact([eq.values.of(factor) for factor in factors if factor is not bracket])
    if not others:
        return None
    return scaled(product_of(others), sign), bracket
