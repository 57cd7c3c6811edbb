"""A formula solved for one of its letters, as it is written: ``r = C/(2π)`` out of ``C = 2πr``."""

from tutor.line.tree import Add, Chain, Div, Expr, Mul, Name, Neg, Num, Pow, Rel, Root, whole_number
from tutor.line.walk import every, names_in

MAX_STEPS = 12


def made_subject(formula: Chain, name: str) -> Chain | None:
    """Return the formula with a letter alone on the left, None where it stands twice or out of reach."""
    nodes = [node for side in formula.sides for node in every(side)]
    if len(formula.sides) != 2 or sum(isinstance(node, Name) and node.name == name for node in nodes) != 1:
        return None
    inside, other = formula.sides if name in names_in(formula.sides[0]) else formula.sides[::-1]
    for _ in range(MAX_STEPS):
        if isinstance(inside, Name):
            return Chain((inside, other), (Rel.EQ,), formula.span)
        step = _one_step(inside, other, name)
        if step is None:
            return None
        inside, other = step
    return None


def _one_step(inside: Expr, other: Expr, name: str) -> tuple[Expr, Expr] | None:
    """Take off what is outermost around the letter; return what is left and the new other side."""
    match inside:
        case Neg(inner):
            return inner, Neg(other)
        case Add(terms):
            with_it = next(term for term in terms if name in names_in(term))
            rest = [
                term.inner if isinstance(term, Neg) else Neg(term) for term in terms if term is not with_it
            ]
            return with_it, Add((other, *rest))
        case Mul(factors):
            with_it = next(factor for factor in factors if name in names_in(factor))
            return with_it, _divided(other, [factor for factor in factors if factor is not with_it])
        case Div(top, bottom):
            if name in names_in(top):
                return top, _product([bottom, other])
            return bottom, Div(top, other)
        case Pow(base, Num(power)) if power in (2, 3):
            return base, Root(int(power), other)
        case _:
            return None


def _divided(other: Expr, factors: list[Expr]) -> Expr:
    """``2A/(bc)`` of ``½ · b · c``: the two of a half goes to the top."""
    fractions = [_opened(factor) for factor in factors]
    above = [bottom for _, bottom in fractions if bottom is not None]
    tops = [top for top, _ in fractions]
    below = [top for top in tops if not (isinstance(top, Num) and top.value == 1)]
    made = _product([*above, other])
    return Div(made, _product(below)) if below else made


def _opened(factor: Expr) -> tuple[Expr, Expr | None]:
    """Return what stands above and below the line of a fraction: 1 and 2 of ``½``."""
    match factor:
        case Div(top, bottom):
            return top, bottom
        case Num(value) if value.denominator != 1 and factor.places is None:
            return whole_number(value.numerator), whole_number(value.denominator)
        case _:
            return factor, None


def _product(factors: list[Expr]) -> Expr:
    return factors[0] if len(factors) == 1 else Mul(tuple(factors))
