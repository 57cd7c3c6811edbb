"""Equations with the unknown below a bar: ``6/x = 2``, ``3/5 = 12/x``."""

from tutor.line.tree import Add, Chain, Div, Expr, Mul, Neg
from tutor.line.walk import names_in
from tutor.marking.steps.forms import Style, literal, single, term, terms_of
from tutor.marking.steps.model import Move
from tutor.marking.steps.writing import written


def no_bottoms(chain: Chain, style: Style) -> Move | None:
    """Multiply across a proportion, or multiply both sides by what stands below a bar."""
    if not chain.rels[0].equates:
        return None
    terms = [one for side in chain.sides for one in terms_of(side)]
    bottom = next((found for one in terms if (found := _named_bottom(one)) is not None), None)
    if bottom is None:
        return None
    if all(_is_quotient(side) for side in chain.sides):
        return _across(chain, style)
    made = tuple(_side_times(side, bottom, style) for side in chain.sides)
    what = f"Multiply both sides by {written(bottom)}."
    return Move(Chain(made, chain.rels), what, f"Look at the {written(bottom)} below the bar.")


def _named_bottom(one: Expr) -> Expr | None:
    match one:
        case Neg(inner):
            return _named_bottom(inner)
        case Div(_, bottom) if names_in(bottom):
            return bottom
        case Mul(factors):
            return next((found for factor in factors if (found := _named_bottom(factor)) is not None), None)
        case _:
            return None


def _is_quotient(side: Expr) -> bool:
    return isinstance(side, Div)


def _across(chain: Chain, style: Style) -> Move:
    left, right = chain.sides
    assert isinstance(left, Div) and isinstance(right, Div)
    sides = (_product(left.top, right.bottom, style), _product(right.top, left.bottom, style))
    what = "Multiply across: each top by the bottom of the other side."
    return Move(
        Chain(sides, chain.rels), what, "Both sides are a fraction: look at the tops and the bottoms."
    )


def _product(one: Expr, other: Expr, style: Style) -> Expr:
    """Write a product with the number first: ``3x``, ``4(x + 1)``, ``5 · 12``."""
    if literal(one) == 1:
        return other
    if literal(other) == 1:
        return one
    plain = [part for part in (one, other) if literal(part) is not None]
    rest = [part for part in (one, other) if literal(part) is None]
    return Mul(tuple(_flat(plain + rest)))


def _flat(factors: list[Expr]) -> list[Expr]:
    return [deep for one in factors for deep in (one.factors if isinstance(one, Mul) else (one,))]


def _side_times(side: Expr, bottom: Expr, style: Style) -> Expr:
    made = tuple(deep for one in terms_of(side) for deep in terms_of(_times(one, bottom, style)))
    return made[0] if len(made) == 1 else Add(made)


def _times(one: Expr, bottom: Expr, style: Style) -> Expr:
    match one:
        case Neg(inner):
            made = _times(inner, bottom, style)
            return Neg(made)
        case Div(top, below) if below == bottom:
            return top
        case Div(top, below) if names_in(below) or literal(one) is None:
            return Div(_product(top, bottom, style), below)
        case Mul(factors) if any(isinstance(factor, Div) and factor.bottom == bottom for factor in factors):
            left = tuple(f.top if isinstance(f, Div) and f.bottom == bottom else f for f in factors)
            return Mul(left)
        case _:
            pair = single(Mul((one, bottom)), style)
            return _product(one, bottom, style) if pair is None else term(pair[0], pair[1], style)
