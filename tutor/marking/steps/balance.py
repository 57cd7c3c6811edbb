"""Steps that do the same to both sides of an equation or an inequality in one unknown."""

from fractions import Fraction

from tutor.line.poly import Mono, Number, is_name
from tutor.line.tree import NOWHERE, Chain, Div, Expr, Name, Neg, Num, Phrase, Rel, Said
from tutor.line.walk import every
from tutor.marking.steps.forms import (
    Style,
    Terms,
    as_poly,
    collected,
    literal,
    number,
    sum_of,
    term,
    terms_of,
)
from tutor.marking.steps.model import Move
from tutor.marking.steps.writing import written

_LEFT_RIGHT = ("left", "right")


def balance(chain: Chain, unknown: str, style: Style) -> Move | None:
    """Return the next step towards ``x = …``: letters first, then numbers, then the factor.

    None where the sides are not sums of terms in the first power of the unknown.
    """
    sides = [collected(side, style) for side in chain.sides]
    if len(sides) != 2 or sides[0] is None or sides[1] is None:
        return None
    pair = (sides[0], sides[1])
    if not unknown:
        return _without_unknown(chain, (sides[0], sides[1]))
    mono: Mono = ((unknown, 1),)
    if any(unknown in dict(found) and found != mono for side in pair for found, _ in side):
        return _with_constant(chain, pair, unknown, style)
    sizes = [_size(side, mono) for side in pair]
    if not any(sizes):
        return _without_unknown(chain, pair)
    if all(sizes):
        return _letters_to_one_side(chain, pair, mono, style)
    return _alone(chain, pair, mono, 0 if sizes[0] else 1, style)


def _with_constant(chain: Chain, pair: tuple[Terms, Terms], unknown: str, style: Style) -> Move | None:
    """``50 = 2πr``: the unknown stands in one term only, with π or a root before it."""
    found = [(at, mono, size) for at in (0, 1) for mono, size in pair[at] if unknown in dict(mono)]
    if len(found) != 1 or not chain.rels[0].equates:
        return None
    at, mono, size = found[0]
    rest = tuple(part for part in mono if part[0] != unknown)
    if dict(mono)[unknown] != 1 or any(is_name(atom) for atom, _ in rest) or size < 0:
        return None
    other = next((one for one, _ in reversed(pair[at]) if one != mono), None)
    if other is not None:
        return term_moved(chain, pair, other, at, style)
    left = [(one, Fraction(value) / size) for one, value in pair[1 - at]]
    if all(set(rest) <= set(one) for one, _ in left):
        made = sum_of(
            [(tuple(part for part in one if part not in rest), value) for one, value in left], style
        )
    else:
        made = Div(sum_of(left, style), term(rest, 1, style))
    sides = (Name(unknown), made) if at == 0 else (made, Name(unknown))
    factor = written(term(rest, size, style))
    where = f"Look at the {factor} before {unknown} on the {_LEFT_RIGHT[at]} side."
    return Move(Chain(sides, chain.rels), f"Divide both sides by {factor}.", where)


def _size(side: Terms, mono: Mono) -> Number:
    return next((size for found, size in side if found == mono), 0)


def _without_unknown(chain: Chain, pair: tuple[Terms, Terms]) -> Move | None:
    left, right = (as_poly(side).rational() for side in pair)
    if left is None or right is None:
        return None
    if _true(Fraction(left), chain.rels[0], Fraction(right)):
        what = "This is true whatever the unknown is. Write: all numbers."
        return Move(Said(Phrase.ALL_NUMBERS), what, "Look at both sides: no letter is left.")
    what = "This can never be true. Write: no solution."
    return Move(Said(Phrase.NO_SOLUTION), what, "Look at both sides: no letter is left.")


def _true(left: Fraction, rel: Rel, right: Fraction) -> bool:
    return {
        Rel.EQ: left == right,
        Rel.APPROX: left == right,
        Rel.NE: left != right,
        Rel.LT: left < right,
        Rel.LE: left <= right,
        Rel.GT: left > right,
        Rel.GE: left >= right,
    }[rel]


def _letters_to_one_side(chain: Chain, pair: tuple[Terms, Terms], mono: Mono, style: Style) -> Move:
    """Take the smaller amount of the unknown away, so that what is left has no minus sign."""
    at = 0 if _size(pair[0], mono) < _size(pair[1], mono) else 1
    return term_moved(chain, pair, mono, at, style)


def _alone(chain: Chain, pair: tuple[Terms, Terms], mono: Mono, at: int, style: Style) -> Move | None:
    other = next((found for found, _ in reversed(pair[at]) if found != mono), None)
    if other is not None:
        return term_moved(chain, pair, other, at, style)
    size = Fraction(_size(pair[at], mono))
    if size != 1:
        return _divided(chain, pair, at, size, style)
    if at == 1:
        made = Chain((chain.sides[1], chain.sides[0]), (chain.rels[0].turned,))
        name = mono[0][0]
        return Move(
            made,
            f"Swap the sides, so that {name} stands on the left.",
            f"Look at both sides: {name} stands on the right.",
        )
    return None


def term_moved(chain: Chain, pair: tuple[Terms, Terms], mono: Mono, at: int, style: Style) -> Move:
    """Take one term of a side away from both sides, or add what is taken away there."""
    size = _size(pair[at], mono)
    sides = tuple(sum_of(_less(side, mono, size), style) for side in pair)
    focus = _focus(chain.sides[at], mono, style)
    shown = _own_writing(focus) or written(term(mono, abs(Fraction(size)), style))
    what = f"Take {shown} away from both sides." if size > 0 else f"Add {shown} to both sides."
    first = terms_of(chain.sides[at])[0] is focus
    sign = "−" if size < 0 else "" if first else "+ "
    where = f"Look at the {sign}{' ' if size < 0 and not first else ''}{shown} on the {_LEFT_RIGHT[at]} side."
    return Move(Chain(sides, chain.rels), what, where, focus)


def _own_writing(part: Expr | None) -> str:
    """Return a mixed number as it was typed: ``2 1/2`` is not called 5/2."""
    inner = part.inner if isinstance(part, Neg) else part
    return inner.text if isinstance(inner, Num) and inner.places is None else ""


def _less(side: Terms, mono: Mono, size: Number) -> Terms:
    made: Terms = [(found, value - size if found == mono else value) for found, value in side]
    if all(found != mono for found, _ in side):
        made = _placed(made, mono, -size)
    return [(found, value) for found, value in made if value]


def _placed(side: Terms, mono: Mono, size: Number) -> Terms:
    """Letters stand before numbers; π is a number."""
    letters = any(is_name(atom) for atom, _ in mono)
    return [(mono, size), *side] if letters and all(not found for found, _ in side) else [*side, (mono, size)]


def _focus(side: Expr, mono: Mono, style: Style) -> Expr | None:
    for one in terms_of(side):
        found = collected(one, style)
        if found and found[0][0] == mono:
            return one
    return None


def _divided(chain: Chain, pair: tuple[Terms, Terms], at: int, size: Fraction, style: Style) -> Move:
    sides = tuple(sum_of([(mono, Fraction(value) / size) for mono, value in side], style) for side in pair)
    rel = chain.rels[0].turned if size < 0 else chain.rels[0]
    unknown = next(mono for mono, _ in pair[at])[0][0]
    turn = "" if chain.rels[0].equates or size > 0 else " and turn the sign round"
    side = _LEFT_RIGHT[at]
    made = Chain(sides, (rel,))
    focus = chain.sides[at] if chain.sides[at].span != NOWHERE else None
    if size == -1:
        what = f"Turn the sign of both sides{turn and ', and turn the sign between them round too'}."
        return Move(made, what, f"Look at the minus sign before {unknown} on the {side} side.", focus)
    below = any(isinstance(node, Div) for node in every(chain.sides[at]))
    if (size.numerator in (1, -1) and below) or _divided_by(chain.sides[at]) == 1 / abs(size):
        by = written(number(1 / size, style))
        where = f"Look at the {side} side: {unknown} is divided by {written(number(abs(1 / size), style))}."
        return Move(made, f"Multiply both sides by {by}{turn}.", where, focus)
    if below and "/" in written(number(abs(size), style)):
        where = f"Look at the {written(number(size, style))} before {unknown} on the {side} side."
        return Move(made, f"Multiply both sides by {_upside_down(size)}{turn}.", where, focus)
    by = written(number(size, style))
    where = f"Look at the {by} before {unknown} on the {side} side."
    return Move(made, f"Divide both sides by {by}{turn}.", where, focus)


def _divided_by(side: Expr) -> Fraction | None:
    """Return the number that a side is divided by: 0.5 in ``x/0.5``."""
    inner = side.inner if isinstance(side, Neg) else side
    return literal(inner.bottom) if isinstance(inner, Div) else None


def _upside_down(size: Fraction) -> str:
    return f"{'−' if size < 0 else ''}{abs(size.denominator)}/{abs(size.numerator)}"


def isolated(chain: Chain, unknown: str, style: Style) -> Move | None:
    """Return ``y = 5 − x`` from ``x + y = 5``: one unknown in terms of the rest."""
    sides = [collected(side, style) for side in chain.sides]
    if len(sides) != 2 or sides[0] is None or sides[1] is None or not chain.rels[0].equates:
        return None
    mono: Mono = ((unknown, 1),)
    if any(unknown in dict(found) and found != mono for side in sides if side for found, _ in side):
        return None
    whole = as_poly(sides[0]) - as_poly(sides[1])
    size = whole.terms.get(mono, 0)
    if not size or len(whole.names()) < 2:
        return None
    rest = [(found, -Fraction(value) / size) for found, value in whole.terms.items() if found != mono]
    ordered = sorted(rest, key=lambda pair: (not pair[0], pair[1] < 0))
    made = Chain((Name(unknown), sum_of(ordered, style)), (Rel.EQ,))
    what = f"Get {unknown} alone on one side."
    return Move(made, what, f"Look at {unknown}: how can it stand alone?")
