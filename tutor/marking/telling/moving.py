"""Finding the move between two values: one for all sides, or one for each side by itself."""

from collections.abc import Sequence
from fractions import Fraction

from tutor.line.poly import ONE, DividedByZero, Mono, NotExact, Number, Poly, Ratio, is_name, number_in
from tutor.line.writing import write_number
from tutor.marking.telling.moves import KEPT, POWERS, Op, rational_of

_LARGEST_FACTOR = 12


# -- one move for all sides ----------------------------------------------------------------------


def shared_op(before: Sequence[Ratio], after: Sequence[Ratio]) -> Op | None:
    """Return the one move that takes every side to its new value, None where there is none to name."""
    same = [old.same(new) for old, new in zip(before, after, strict=True)]
    if all(same):
        return KEPT
    pairs = list(zip(before, after, strict=True))
    added = None if any(same) else _shared_sum(pairs)
    if added is not None and (len(added.terms) == 1 or all(_degree(mono) <= 1 for mono in added.terms)):
        return if_said(Op(first=added))
    found = _shared_factor(pairs) or _in_two(before, after) or _shared_power(pairs)
    return found if found is not None or added is None else if_said(Op(first=added))


def _shared_sum(pairs: list[tuple[Ratio, Ratio]]) -> Poly | None:
    amount = _difference(*pairs[0])
    return amount if amount is not None and all(_difference(*pair) == amount for pair in pairs[1:]) else None


def _shared_factor(pairs: list[tuple[Ratio, Ratio]]) -> Op | None:
    told = [pair for pair in pairs if pair[0].above]
    if not told:
        return None
    # The side that says most about the factor: the one with the fewest terms.
    told.sort(key=lambda pair: len(pair[0].above.terms))
    factor = factor_between(*told[0])
    if factor is None or not all((old * factor).same(new) for old, new in pairs):
        return None
    return if_said(Op(factor=factor))


def _in_two(before: Sequence[Ratio], after: Sequence[Ratio]) -> Op | None:
    """Something taken away and the rest divided: ``3x + 15 = 240`` to ``x = 75``."""
    if len(before) != 2 or any(side.below != ONE for side in (*before, *after)):
        return None
    old, new = before[0].above - before[1].above, after[0].above - after[1].above
    factor = _scale(old, new)
    if factor is None or factor == 1:
        return None
    return two_moves(before[0].above, after[0].above, factor)


def two_moves(old: Poly, new: Poly, factor: Fraction) -> Op | None:
    """Return the move of adding and of scaling by ``factor``, in the order with the plainer numbers."""
    times = Ratio(Poly.number(factor))
    first = new.scaled(1 / factor) - old
    if not first:
        return if_said(Op(factor=times))
    before = Op(first=first, factor=times)
    if _is_whole(first) and before.words():
        return before
    last = new - old.scaled(factor)
    ways = [before, Op(factor=times, last=last)]
    if _is_whole(last) and not _is_whole(first):
        ways.reverse()
    return next((way for way in ways if way.words()), None)


def _is_whole(amount: Poly) -> bool:
    return all(Fraction(value).denominator == 1 for value in amount.terms.values())


def _shared_power(pairs: list[tuple[Ratio, Ratio]]) -> Op | None:
    for power in POWERS:
        if not all(_grew(*pair, power) for pair in pairs):
            continue
        if all(_to_power(old, power, new) for old, new in pairs):
            return Op(power=power)
        if all(_to_power(new, power, old) for old, new in pairs):
            return Op(root=power)
    return None


def _grew(old: Ratio, new: Ratio, power: int) -> bool:
    """Tell by the highest power in it whether one of two sides can be a power of the other."""
    was, now = _height(old), _height(new)
    return was == now == 0 or now == power * was or was == power * now


def _height(side: Ratio) -> Number:
    return max((_degree(mono) for mono in side.above.terms), default=0)


def _to_power(base: Ratio, power: int, result: Ratio) -> bool:
    if len(base.above.terms) > 4 or len(base.below.terms) > 4:
        return False
    try:
        return Ratio(base.above.power(power), base.below.power(power)).same(result)
    except NotExact:
        return False


def if_said(op: Op) -> Op | None:
    """Return a move that there are words for, None where it is too much to say."""
    return op if op.words() else None


def _difference(old: Ratio, new: Ratio) -> Poly | None:
    if old.below == ONE and new.below == ONE:
        return new.above - old.above
    if old.below == new.below and not old.below.names():
        return None
    found = new - old
    return found.above if found.below == ONE else None


def _scale(old: Poly, new: Poly) -> Fraction | None:
    """Return the number that ``old`` has to be multiplied by to get ``new``."""
    if not old or len(old.terms) != len(new.terms):
        return None
    mono = next(iter(old.terms))
    if mono not in new.terms:
        return None
    above, below = new.terms[mono], old.terms[mono]
    for other, value in old.terms.items():
        if new.terms.get(other, 0) * below != value * above:
            return None
    return Fraction(above) / below


def factor_between(old: Ratio, new: Ratio) -> Ratio | None:
    """Return what ``old`` has to be multiplied by to get ``new``, in its plainest form."""
    if not old.above or not new.above:
        return None
    if old.below == ONE and new.below == ONE:
        factor = _scale(old.above, new.above)
        if factor is not None:
            return Ratio(Poly.number(factor))
    try:
        top, bottom = new.above * old.below, new.below * old.above
        factor = _scale(bottom, top)
        if factor is not None:
            return Ratio(Poly.number(factor))
        found = Ratio(top).over(Ratio(bottom))
    except (NotExact, DividedByZero):
        return None
    if found.below != ONE and len(found.below.terms) > 1:
        over = Ratio(found.below).over(Ratio(found.above))
        found = Ratio(ONE, over.above) if over.below == ONE else found
    return found


# -- the move of one side by itself ----------------------------------------------------------------


def own_op(old: Ratio, new: Ratio) -> Op | None:
    """Return the most natural move of one side, None where none can be named."""
    if old.same(new):
        return KEPT
    one_term = len(old.above.terms) == 1 and len(new.above.terms) == 1
    ways = (_by_scale, _by_power) if one_term else (_by_one_sum, _by_scale, _by_two, _by_power, _by_sum)
    for way in ways:
        op = way(old, new)
        if op is not None and op.words() and _is_plain(op, old, new):
            return op
    return None


def _is_plain(op: Op, old: Ratio, new: Ratio) -> bool:
    """Tell whether one would think of a move when one sees only this side.

    Squares are not added where there were none, and nobody divides by 25/3, except to
    have the unknown alone.
    """
    amounts = [amount for amount in (op.first, op.last) if amount is not None]
    present = old.above.terms.keys() | new.above.terms.keys()
    if any(len(amount.terms) > 1 and any(_degree(mono) > 1 for mono in amount.terms) for amount in amounts):
        return False
    if any(mono not in present for amount in amounts for mono in amount.terms):
        return False
    if any(
        type(value) is not int and "/" in write_number(value)
        for amount in amounts
        for value in amount.terms.values()
    ):
        return False
    if any(len(amount.terms) > 1 and not _is_whole(amount) for amount in amounts):
        return False  # "3.5x added and 0.5 taken away": nobody did that
    number = None if op.factor is None else rational_of(op.factor)
    if op.factor is not None and number is None and not _is_plain_factor(op.factor):
        return False
    alone = len(new.above.terms) == 1 and 1 in (abs(value) for value in new.above.terms.values())
    return number is None or alone or 1 in (abs(number.numerator), number.denominator)


def _is_plain_factor(factor: Ratio) -> bool:
    """``12t`` and ``x + 3`` are factors that one thinks of, ``0.4x²`` and ``12t² + 1`` are not."""
    for amount in (factor.above, factor.below):
        if any(Fraction(value).denominator != 1 for value in amount.terms.values()):
            return False
        if len(amount.terms) > 1 and any(_degree(mono) > 1 for mono in amount.terms):
            return False
    return True


def _degree(mono: Mono) -> Number:
    return sum(power for atom, power in mono if is_name(atom))


def _by_scale(old: Ratio, new: Ratio) -> Op | None:
    if old.below == ONE == new.below:
        number = _scale(old.above, new.above)  # the terms are independent: no other number can do it
        return None if number is None else Op(factor=Ratio(Poly.number(number)))
    if old.names() != new.names() and not old.below.names():
        return None
    factor = factor_between(old, new)
    if factor is None or (rational_of(factor) is None and not old.below.names()):
        return None
    return Op(factor=factor)


def _by_sum(old: Ratio, new: Ratio) -> Op | None:
    amount = _difference(old, new)
    return None if amount is None or len(amount.terms) > 2 else Op(first=amount)


def _by_one_sum(old: Ratio, new: Ratio) -> Op | None:
    op = _by_sum(old, new)
    return op if op is not None and op.first is not None and len(op.first.terms) == 1 else None


def _by_two(old: Ratio, new: Ratio) -> Op | None:
    """``3x + 15`` to ``x``: 15 taken away, then divided by 3."""
    if old.below != ONE or new.below != ONE or len(new.above.terms) > 1:
        return None
    mono = next((one for one in new.above.terms if one and one in old.above.terms), None)
    if mono is None:
        return None
    factor = Fraction(new.above.terms[mono]) / old.above.terms[mono]
    plain = abs(new.above.terms[mono]) == 1 or abs(factor.numerator) == 1
    return two_moves(old.above, new.above, factor) if plain and factor != 1 else None


def _by_power(old: Ratio, new: Ratio) -> Op | None:
    was, now = _height(old), _height(new)
    if was == now != 0:
        return None  # no power, and no root, of anything with a letter in it is as high as before
    return _shared_power([(old, new)])


def op_like(other: Op, old: Ratio, new: Ratio) -> Op | None:
    """Return the move of a side in the manner of what was done to the other side.

    A number can come from another by many moves. Only one of the same manner, or one with
    the same number in it, is worth telling.
    """
    if old.same(new):
        return KEPT
    if other.power > 1 or other.root > 1:
        return _by_power(old, new) or _small_scale(old, new, None)
    if other.factor is not None and (other.first or other.last):
        return _like_two(other, old, new)
    if other.factor is not None:
        number = rational_of(other.factor)
        return _small_scale(old, new, number) or _sum_of(number, old, new)
    if other.first is not None:
        return _scale_by(_only_number(other.first), old, new) or _if_sum(old, new)
    return None


def _if_sum(old: Ratio, new: Ratio) -> Op | None:
    op = _by_sum(old, new)
    return op if op is not None and op.words() else None


def _like_two(other: Op, old: Ratio, new: Ratio) -> Op | None:
    tried = [
        Op(other.first, other.factor, other.last),
        Op(
            None if other.first is None else -other.first,
            other.factor,
            None if other.last is None else -other.last,
        ),
        Op(factor=other.factor),
        Op(first=other.first or other.last),
    ]
    return next((op for op in tried if _gives(op, old, new)), None)


def _gives(op: Op, old: Ratio, new: Ratio) -> bool:
    was, now = number_in(old), number_in(new)
    if was is not None and now is not None and op.power == op.root == 1:
        return op.applied_to_number(was) == now
    made = op.applied(old)
    return made is not None and made.same(new)


def _small_scale(old: Ratio, new: Ratio, like: Fraction | None) -> Op | None:
    op = _by_scale(old, new)
    value = None if op is None or op.factor is None else rational_of(op.factor)
    if op is None or value is None or not op.words():
        return None
    size = max(abs(value), 1 / abs(value))
    near = like is not None and size in (abs(like), 1 / abs(like))
    whole = _only_number(old.above), _only_number(new.above)
    numbers = all(number is None or number.denominator == 1 for number in whole)
    return op if near or (numbers and size.denominator == 1 and size <= _LARGEST_FACTOR) else None


def _scale_by(number: Fraction | None, old: Ratio, new: Ratio) -> Op | None:
    """``x + 3 = 12`` to ``x = 4``: the 3 that was taken away on the left divides here."""
    op = _by_scale(old, new)
    value = None if op is None or op.factor is None else rational_of(op.factor)
    if number is None or value is None or abs(number) == 1:
        return None
    return op if max(abs(value), 1 / abs(value)) == abs(number) else None


def _sum_of(number: Fraction | None, old: Ratio, new: Ratio) -> Op | None:
    """``3x = 12`` to ``x = 9``: the 3 that the left side was divided by is taken away here."""
    op = _by_sum(old, new)
    amount = None if op is None or op.first is None else _only_number(op.first)
    if number is None or not number or amount is None:
        return None
    return op if abs(amount) in (abs(number), 1 / abs(number)) else None


def _only_number(amount: Poly) -> Fraction | None:
    value = amount.rational()
    return None if value is None else Fraction(value)
