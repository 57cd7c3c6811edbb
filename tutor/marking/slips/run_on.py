"""The sign = used for "and then": a line that runs on."""

from collections.abc import Iterator
from itertools import pairwise

from tutor.line.tree import Add, Chain, Div, Expr, Hole, Measure, Mul, Name, Neg, Num, Pow
from tutor.line.walk import every, names_in, parts
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.state import Known
from tutor.marking.slips.balance import is_fraction
from tutor.marking.slips.model import Slip
from tutor.marking.slips.spots import Values, show

_SIGN = "The sign = has the same value on both sides of it."


def run_on_slips(known: Known, chain: Chain, values: Values) -> Iterator[Slip]:
    """Yield the slip of a line in which a side goes on with the result of the side before."""
    if not all(rel.equates for rel in chain.rels):
        return
    if len(chain.sides) == 2 and statement_names(chain):
        return  # a result that is gone on from is a number
    if len(chain.sides) > 2 and _goes_on_from_above(known, chain, values):
        message = f"{_SIGN} Begin a new line before {show(chain.sides[1])}."
        yield Slip("solution-chain-on-one-line", message, chain.sides[1].span)
        return
    if _ends_as_it_began(chain, values):
        return  # "√72 = √36 = 6√2": what stands between is wrong, nothing was carried on
    asked = _asked_above(known, chain)
    for before, after in pairwise(chain.sides):
        if names_in(before) or not _goes_on_with(before, after, values):
            continue
        if len(chain.sides) == 2 and _is_fraction(after):
            continue  # "90/18 = 5/2": a result, and nothing that goes on from 5
        message = f"{_SIGN} Begin a new line before {show(after)}."
        if names_in(chain.sides[0]) and not isinstance(chain.sides[0], Name):
            yield Slip("solution-chain-on-one-line", message, after.span)
        elif asked and before is chain.sides[0]:
            yield _filled(chain, after)
        else:
            also = _box_filled(chain, after) if before is chain.sides[0] else ()
            yield Slip("running-equals", message, after.span, also=also)
        return


def _box_filled(chain: Chain, after: Expr) -> tuple[str, ...]:
    """``8 + 4 = 12 + 5``, where the 12 may fill a box that is not seen: the answer comes next."""
    first = chain.sides[0]
    if not isinstance(first, Add) or not isinstance(after, Add):
        return ()
    if len(chain.sides) == 2:
        return ("answer-comes-next",)
    carried_on = len(chain.sides) == 3 and len(first.terms) > 2 and first.terms[-1] == after.terms[-1]
    return ("answer-then-carry-on",) if carried_on else ()


def _is_fraction(expr: Expr) -> bool:
    return isinstance(expr, Div) and isinstance(expr.top, Num) and isinstance(expr.bottom, Num)


def _ends_as_it_began(chain: Chain, values: Values) -> bool:
    first, last = values.of(chain.sides[0]), values.of(chain.sides[-1])
    return len(chain.sides) == 3 and first is not None and last is not None and first.same(last)


def _filled(chain: Chain, after: Expr) -> Slip:
    """A number was looked for, and the value of the left side was put in its place."""
    if len(chain.sides) == 2:
        message = f"{_SIGN} Work out {show(after)}: is it as much as the left side?"
        return Slip("answer-comes-next", message, after.span)
    message = f"{_SIGN} Are all three sides of this line worth the same?"
    return Slip("answer-then-carry-on", message, after.span)


def _goes_on_with(before: Expr, after: Expr, values: Values) -> bool:
    """Tell whether ``after`` has another value and begins with the value of ``before``."""
    whole, now = values.of(before), values.of(after)
    if whole is None or now is None or whole.same(now) or names_in(after):
        return False
    first = after
    while isinstance(first, Add | Mul | Div | Pow):
        first = parts(first)[0]
        value = values.of(first)
        result = isinstance(first, Num | Neg | Measure) or (is_fraction(first) and _has_fraction(before))
        if result and value is not None and value.same(whole):
            return True
    return False


def _has_fraction(expr: Expr) -> bool:
    return any(is_fraction(node) for node in every(expr))


def _goes_on_from_above(known: Known, chain: Chain, values: Values) -> bool:
    """``2x + 3 = 11 − 3 = 8`` under ``2x + 3 = 11``."""
    above = known.previous
    if not isinstance(above, Chain) or len(above.sides) != 2 or above.sides[0] != chain.sides[0]:
        return False
    return _goes_on_with(above.sides[1], chain.sides[1], values)


def _asked_above(known: Known, chain: Chain) -> bool:
    """Tell whether the line above asks for the number that makes this left side equal to a sum."""
    above = known.previous
    if not isinstance(above, Chain) or len(above.sides) != 2 or above.sides[0] != chain.sides[0]:
        return False
    other = above.sides[1]
    return isinstance(other, Add) and any(isinstance(node, Name | Hole) for node in every(other))
