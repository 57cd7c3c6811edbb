"""Sides such as ``3x − 12``: whether any wrong move can have led from one is seen from its numbers.

Most lines that are searched have such sides, and nothing is found in most of them.
"""

from tutor.line.poly import ONE, Ratio, number_in
from tutor.line.tree import Add, Expr, Mul, Name, Neg, Num
from tutor.marking.slips.balance import Balance
from tutor.marking.slips.spots import Values, negated


def leads_nowhere(old: Expr, was: Ratio, now: Ratio) -> bool:
    """Tell, quickly, that no wrong move with the parts of a side gives the value ``now``.

    ``was``: its own value. A term alone, such as ``3x``, has no parts to go wrong with. Of two
    terms, a letter's and a number, the signs can be lost, which turns the whole, or the two can
    be joined to one term; ``tests/test_slips_plain.py`` holds this against the search itself.
    """
    if not isinstance(old, Add):
        return is_plain(old) and bool(was.names())
    if now.below is not ONE or not _is_plain_sum(old, was):
        return False
    terms = was.above.terms
    if len(now.above.terms) > 1:
        return not now.same(negated(was))
    number = terms[()]
    mono, times = next(item for item in terms.items() if item[0])
    if now.above.rational() == times + number:
        return False
    joined = now.above.terms.get(mono, 0)
    return joined not in (times + number, times * number, -times * number)


def are_plain(sides: tuple[Expr, Expr], values: Values) -> bool:
    """Tell whether the sides of a line that hold letters are all plain: one term, or with a number."""
    for side in sides:
        value = values.of(side)
        if value is None:
            return False
        if value.names() and not (_is_plain_sum(side, value) if isinstance(side, Add) else is_plain(side)):
            return False
    return True


def leads_nowhere_across(eq: Balance) -> bool:
    """Tell, quickly, that no wrong move on both sides gives a typed line. The sides above are plain.

    Each move makes its own of the left side: multiplies or divides all of it, or the unknown
    alone, or takes one of its two terms away; or the unknown is gone from the right side.
    """
    old, new = eq.lin, eq.new_lin
    if old is None or (eq.number is None and eq.new_number is not None):
        return False
    if new is None:
        return number_in(eq.now[0]) != old.rest
    if new.mono != old.mono:
        return True
    if new.lead != old.lead and (new.rest * old.lead == old.rest * new.lead or new.rest == old.rest):
        return False
    return not old.rest or bool(new.rest)


def _is_plain_sum(old: Add, was: Ratio) -> bool:
    """Tell whether a sum is a term with a letter and a number, neither of them worth nothing."""
    terms = was.above.terms
    return len(old.terms) == len(terms) == 2 and () in terms and all(map(is_plain, old.terms))


def is_plain(term: Expr) -> bool:
    """Tell whether a term is a number without a fraction line, or one in front of a letter."""
    if type(term) is Neg:
        term = term.inner
    if type(term) is Mul:
        if len(term.factors) != 2 or type(term.factors[1]) is not Name:
            return False
        term = term.factors[0]
        return type(term) is Num and _without_line(term)
    return type(term) is Name or (type(term) is Num and _without_line(term))


def _without_line(number: Num) -> bool:
    return number.places is not None or number.value.denominator == 1
