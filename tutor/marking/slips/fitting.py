"""Whether a wrong move fits what was typed, and not only what it is worth.

``14 − 4(t − 4)`` copied as ``14 − 4(t − 1)`` is worth ``14 − 4t + 4``, as if 4 had multiplied
one term only. But the bracket still stands: nobody multiplied anything.
"""

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations
from typing import NamedTuple

from tutor.line.poly import ONE, Mono, Number, Ratio
from tutor.line.tree import Add, Div, Expr, Measure, Mul, Name, Neg, Num, Pow
from tutor.line.walk import every, rebuilt
from tutor.marking.deciding.rounding import rounds_to
from tutor.marking.slips.balance import is_fraction
from tutor.marking.slips.copying import differences, is_sign_change
from tutor.marking.slips.rounded import decimal_in
from tutor.marking.slips.shapes import is_number, plain_value, stands_for_pi
from tutor.marking.slips.spots import MAX_TERMS, Spot, Values, exact, factors_of, sum_of, terms_of

Change = tuple[Expr, Expr]
Parts = tuple[Expr, ...]

# The moves that may leave the writing as it is, but for numbers and signs: 180 − 40 as 90 − 40.
_KEEP_SHAPE = frozenset(
    [
        "base-and-exponent-swapped",
        "coefficient-squared-too",
        "complement-to-180",
        "diameter-used-as-radius",
        "double-minus-ignored",
        "early-rounding",
        "factor-spread-over-a-product",
        "larger-denominator-kept",
        "leg-squares-added-for-leg",
        "minus-inside-the-power",
        "neg-times-neg-stays-neg",
        "radius-used-as-diameter",
        "slant-side-as-height",
        "sphere-power-wrong",
        "supplement-to-90",
        "triangle-sum-360",
        "two-minuses-make-a-plus-in-a-sum",
    ]
)
_PLACES_CHANGED = frozenset(["subtraction-treated-as-commutative", "smaller-from-larger"])
# The moves that may show as a factor that became 1, or half: 2·14 + 2·9 as 1·14 + 1·9.
_FACTOR_LEFT_OUT = frozenset(
    [
        "cone-third-forgotten",
        "cylinder-one-base-only",
        "radius-used-as-diameter",
        "surface-faces-not-doubled",
        "trapezoid-half-forgotten",
        "triangle-half-forgotten",
        "two-sides-only-perimeter",
    ]
)
_DIVISION_LEFT_OUT = frozenset(
    ["cone-third-forgotten", "triangle-half-forgotten", "trapezoid-half-forgotten"]
)
MAX_PIECES = 10
_SQUARE_SIDES = frozenset(["perimeter-given-for-area", "area-given-for-perimeter"])
# The moves with two terms of a sum of which one may stay as it was.
_ONE_TERM = frozenset(["double-minus-ignored", "larger-denominator-kept"])
# The moves whose result is one number, which has to stand in the typed line.
_RESULT_SHOWN = frozenset(["fact-slip"])
_FRACTION_SHOWN = frozenset(["whole-number-multiplies-both-parts"])


def _power_kept(place: Expr, new: Expr) -> bool:
    powers = [node for node in every(place) if isinstance(node, Pow)]
    return any(node in powers for node in every(new) if isinstance(node, Pow))


class Fitting(NamedTuple):
    """What is written before and after; ``changes``: the numbers and signs that alone differ, else None."""

    old: Expr
    new: Expr
    changes: tuple[Change, ...] | None
    terms: tuple[tuple[Expr, bool], ...]
    values: Values

    def allows(self, name: str, place: Expr, result: Number | None = None, parts: Parts = ()) -> bool:
        """Tell whether a move made at ``place`` can have led to what is typed.

        ``parts``: what of it the move began from, where that is not all of it.
        """
        if name == "early-rounding" and _is_rounded_at_the_end(self.old, self.new, self.values):
            return False
        if name in _RESULT_SHOWN and not _result_shown(result, self.old, self.new):
            return False
        if name in _FRACTION_SHOWN and len(factors_of(place)[1]) > 2 and not _shows_fraction(self.new):
            return False  # of more than two factors one was rather left out
        if name == "square-as-double" and _power_kept(place, self.new):
            return False  # the small 2 is still there
        if not self.shape_allows(name, place) or not self._among_changed_terms(name, place):
            return False
        if not isinstance(self.new, Add):
            return True
        if name == "left-to-right-only" and (
            len(terms_of(self.new)) >= len(terms_of(place)) or self._products_kept(place)
        ):
            return False  # two of the terms were joined
        return self._others_kept(parts or (place,))

    def _products_kept(self, place: Expr) -> bool:
        """Tell whether every product of a sum stands in the typed sum, worked out as it should be."""
        plain = [(term, term.inner if isinstance(term, Neg) else term) for term in terms_of(place)]
        worked = [term for term, inner in plain if not isinstance(inner, Num | Name)]
        return all(any(_same(term, now, self.values) for now in terms_of(self.new)) for term in worked)

    def _others_kept(self, parts: Parts) -> bool:
        """Tell whether what a typed sum is made of can be the other terms and what the move gave.

        ``3(x + 4) + 9x`` as ``3x + 12 + 7x`` is worth what it is worth if 3 had multiplied only
        the 4. But then nothing there is 3x, and the 9x is gone.
        """
        before, after = terms_of(self.old), terms_of(self.new)
        kept = [term for term in before if not any(part is node for part in parts for node in every(term))]
        if not kept or len(kept) == len(before) or len(before) > MAX_TERMS or len(after) < 2:
            return True  # all of it was touched
        untouched, typed = exact(_found(kept, self.values)), exact(_found(after, self.values))
        if untouched is None or typed is None:
            return True
        if len(after) == len(before) - 1 and _one_left_out(_found(before, self.values), typed):
            return _has_new_fraction(before, after)  # else a term got lost, and nothing else was done
        if all(_times_among(value, typed) >= _times_among(value, untouched) for value in untouched):
            return True  # the others stand as they stood
        pieces = [*untouched, sum_of(typed) - sum_of(untouched)]
        return all(_made_of(value, pieces) for value in typed)

    def shape_allows(self, name: str, place: Expr) -> bool:
        """Tell whether a move at ``place`` may leave the writing as far as it was left."""
        if self.changes is None:
            return True
        touched = any(was is node for was, _ in self.changes for node in every(place))
        return touched and _keeps_shape(name, self.changes)

    def _among_changed_terms(self, name: str, place: Expr) -> bool:
        if self.changes is not None or all(changed for _, changed in self.terms):
            return True
        inside = [changed for term, changed in self.terms if any(place is node for node in every(term))]
        if inside:
            return inside[0]
        return name in _ONE_TERM or sum(changed for _, changed in self.terms) > 1


def fitting(old: Expr, new: Expr, values: Values) -> Fitting:
    """Compare the writing of two expressions."""
    return Fitting(old, new, number_changes(old, new, values), _terms_compared(old, new, values), values)


def formula_fits(name: str, tree: Expr, old: Expr, new: Expr, values: Values) -> bool:
    """Tell whether a wrong formula, ``tree``, can be what was typed, and not only be worth as much.

    ``old``: the right formula. All have their numbers put in. Where only numbers and signs are
    other ones, the right formula was typed; and a sum is made of the parts of the wrong formula.
    """
    old, new = _without_units(old), _without_units(new)
    parts_kept = name in _DIVISION_LEFT_OUT and _divisions(new) >= _divisions(old)
    if parts_kept and _same(tree, new, values):
        return False  # "72 + 180/2" for "4·18 + 18·5/2": the half is there
    if name == "surface-faces-not-doubled" and isinstance(new, Mul) and is_number(new.factors[0], 2):
        return False  # all are counted twice
    changes = number_changes(old, new, values)
    if changes and len(changes) == 1 and not _keeps_shape(name, changes):
        return False
    if changes and name in _SQUARE_SIDES and isinstance(old, Add):
        return False  # "2·7 + 2·4" with another number for the 4: the way around is still written
    after = exact(_found(terms_of(new), values))
    if after is None or len(after) < 2:
        return True
    before = terms_of(old)
    if len(after) == len(before) - 1 and _one_left_out(_found(before, values), after):
        return False
    pieces = exact(_found(list(_pieces(_without_units(tree))), values))
    if pieces is None or len(pieces) > MAX_PIECES or len(after) > MAX_PIECES:
        return True
    stands = exact(_found(before, values)) if len(before) > 1 and len(pieces) == 1 else None
    if any(_times_among(value, after) for value in stands or ()):
        return False  # "2·5 + 2·10" as "10 + 40": a part of it still stands
    return all(_made_of(value, pieces) for value in after) or all(_made_of(one, after) for one in pieces)


def _without_units(expr: Expr) -> Expr:
    return rebuilt(expr, lambda node: node.inner if isinstance(node, Measure) else node)


def _pieces(tree: Expr) -> Iterator[Expr]:
    """Yield what a formula may be written as a sum of: its terms, a double one as two."""
    for term in terms_of(tree):
        if isinstance(term, Neg) and isinstance(term.inner, Add):
            for part in terms_of(term.inner):
                yield from _pieces(Neg(part))
            continue
        factors = term.factors if isinstance(term, Mul) else (term,)
        bracket = next((factor for factor in factors if isinstance(factor, Add)), None)
        times = next((f.value for f in factors if isinstance(f, Num) and f.value in (2, 4)), None)
        if bracket is not None and len(factors) > 1:
            others = [factor for factor in factors if factor is not bracket]
            for part in terms_of(bracket):
                yield from _pieces(Mul((*others, part)))
        elif times is not None and len(factors) > 1:
            at = next(at for at, f in enumerate(factors) if isinstance(f, Num) and f.value == times)
            rest = factors[:at] + factors[at + 1 :]
            yield from [rest[0] if len(rest) == 1 else Mul(rest)] * int(times)
        else:
            yield term


def number_changes(old: Expr, new: Expr, values: Values | None = None) -> tuple[Change, ...] | None:
    """Return the numbers and signs in which two expressions differ that are else written alike, or None.

    With ``values`` parts that are worth the same are no difference: π, and 3.14 for it.
    """
    if isinstance(plain_value(old.inner if isinstance(old, Neg) else old), Num):
        return None
    found = tuple(differences(old, new))
    if values is not None:
        found = tuple((was, now) for was, now in found if not _same(was, now, values))
    alike = all(_are_numbers(was, now) or is_sign_change(was, now) for was, now in found)
    return found if alike else None


def one_number_changed(old: Expr, new: Expr) -> bool:
    """Tell whether one number alone is not what it was; not a coefficient that became 1."""
    found = number_changes(old, new)
    return found is not None and len(found) == 1 and isinstance(found[0][1], Num) and found[0][1].value != 1


def _are_numbers(was: Expr, now: Expr) -> bool:
    return isinstance(was, Num) and isinstance(now, Num)


def _terms_compared(old: Expr, new: Expr, values: Values) -> tuple[tuple[Expr, bool], ...]:
    """Return the terms of a sum that has as many terms as before, and whether each changed its value."""
    if not isinstance(old, Add) or not isinstance(new, Add):
        return ()
    before, after = terms_of(old), terms_of(new)
    if len(before) != len(after):
        return ()
    return tuple((was, not _same(was, now, values)) for was, now in zip(before, after, strict=True))


def _found(terms: Parts | list[Expr], values: Values) -> list[Ratio | None]:
    return [values.of(term) for term in terms]


def _one_left_out(before: list[Ratio | None], after: list[Ratio]) -> bool:
    """Tell whether the terms are those of before in their order, but for one."""
    at = next((at for at, value in enumerate(after) if not _are_same(before[at], value)), len(after))
    return all(_are_same(*pair) for pair in zip(before[at + 1 :], after[at:], strict=True))


def _is_rounded_at_the_end(old: Expr, new: Expr, values: Values) -> bool:
    """``0.075 · 19.99`` as 1.50, to two places or more: that is the right value, rounded."""
    shown, value = decimal_in(new), values.number(old)
    return shown is not None and shown[1] > 1 and value is not None and rounds_to(Fraction(value), *shown)


def _divisions(expr: Expr) -> int:
    """Return how often a part of something is taken: ``…/2``, ``½ · …``, ``0.5 · …``."""
    return sum((isinstance(node, Div) and not stands_for_pi(node)) or _is_part(node) for node in every(expr))


def _is_part(node: Expr) -> bool:
    return isinstance(node, Num) and 0 < node.value < 1


def _has_new_fraction(before: Parts, after: Parts) -> bool:
    """``1/2 + 1/4 + 4`` as ``2/4 + 4``: worth the same as ``1/2 + 4``, but nobody writes a half anew."""
    return any(isinstance(term, Div) and term not in before for term in after)


def _times_among(value: Ratio, found: list[Ratio]) -> int:
    return sum(value.same(other) for other in found)


def _are_same(one: Ratio | None, two: Ratio) -> bool:
    return one is not None and one.same(two)


def _made_of(value: Ratio, pieces: list[Ratio]) -> bool:
    """Tell whether each number of a letter in ``value`` is a sum of some that the pieces have of it."""
    if value.below != ONE or any(piece.below != ONE for piece in pieces):
        return True
    return all(_is_sum(number, mono, pieces) for mono, number in value.above.terms.items())


def _is_sum(number: Number, mono: Mono, pieces: list[Ratio]) -> bool:
    numbers = [piece.above.terms[mono] for piece in pieces if mono in piece.above.terms]
    some = (chosen for count in range(1, len(numbers) + 1) for chosen in combinations(numbers, count))
    return any(sum(chosen) == number for chosen in some)


def _same(was: Expr, now: Expr, values: Values) -> bool:
    one, two = values.of(was), values.of(now)
    return was == now if one is None or two is None else one.same(two)


def _keeps_shape(name: str, changes: tuple[Change, ...]) -> bool:
    if name in _KEEP_SHAPE:
        return True
    numbers = [
        (was.value, now.value) for was, now in changes if isinstance(was, Num) and isinstance(now, Num)
    ]
    if name in _PLACES_CHANGED:
        before, after = sorted(was for was, _ in numbers), sorted(now for _, now in numbers)
        return len(numbers) > 1 and before == after
    if name in _FACTOR_LEFT_OUT:
        return len(numbers) == len(changes) and all(now == 1 or 2 * now == was for was, now in numbers)
    if name in _SQUARE_SIDES:
        return len(changes) == 1 and len(numbers) == 1 and 4 in numbers[0]
    return False


def _result_shown(result: Number | None, old: Expr, new: Expr) -> bool:
    """Tell whether a result was put down: it stands alone, or more often than it did."""
    if result is None or isinstance(new.inner if isinstance(new, Neg) else new, Num):
        return True
    size = -result if result < 0 else result
    return _times_written(size, new) > _times_written(size, old)


def _shows_fraction(expr: Expr) -> bool:
    return any(is_fraction(node) for node in every(expr))


def _times_written(value: Number, expr: Expr) -> int:
    return sum(isinstance(node, Num) and node.value == value for node in every(expr))


def shows_result(typed: Expr, needed: Number | None, spot: Spot) -> bool:
    """Tell whether a side is a number or a term, holds the needed number, or one factor is another."""
    if not isinstance(typed, Add | Mul | Div | Pow) or needed is None:
        return True
    numbers = [node.value for node in every(typed) if isinstance(node, Num)]
    if abs(needed) in numbers or (isinstance(typed, Mul) and len(numbers) < 2):
        return True
    if not isinstance(typed, Mul) or not isinstance(spot.node, Mul):
        return False
    pairs = zip(spot.node.factors, typed.factors, strict=False)
    same = [spot.values.number(one) == spot.values.number(other) for one, other in pairs]
    return len(same) == len(typed.factors) == len(spot.node.factors) and same.count(False) == 1
