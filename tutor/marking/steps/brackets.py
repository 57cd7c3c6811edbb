"""Multiplying out brackets, combining like terms, clearing fractions."""

from fractions import Fraction
from math import lcm

from tutor.line.meaning import value_of
from tutor.line.poly import Mono, Number
from tutor.line.tree import Add, Div, Expr, Mul, Neg, Num, Pow
from tutor.line.walk import every, names_in
from tutor.marking.steps.forms import Style, Terms, joined, literal, number, single, sum_of, term, terms_of
from tutor.marking.steps.writing import written


def expand(side: Expr, style: Style) -> tuple[Expr, list[Expr]] | None:
    """Multiply out the brackets of a side; returns the new side and the products that were opened.

    None where there is no bracket, or one that holds more than terms.
    """
    products: list[Expr] = []
    made: list[Expr] = []
    for one in terms_of(side):
        opened = _opened(one, style)
        if opened is None:
            made.append(one)
        else:
            products.append(one)
            made += opened
    if not products:
        return None
    return (made[0] if len(made) == 1 else Add(tuple(made))), products


def _opened(one: Expr, style: Style) -> list[Expr] | None:
    match one:
        case Add(terms):
            return list(terms)
        case Neg(inner):
            opened = _opened(inner, style)
            return None if opened is None else [_turned(part) for part in opened]
        case Mul(factors) if any(isinstance(_base(factor), Add) for factor in factors):
            return _distributed(_squares_apart(factors), style)
        case Div(top, bottom) if literal(bottom) is not None and isinstance(top, Add):
            return _distributed((number(1 / (literal(bottom) or Fraction(1)), style), top), style)
        case Pow(Add(), Num(value)) if value == 2 and isinstance(one, Pow):
            return _distributed((one.base, one.base), style)
        case _:
            return None


def _base(factor: Expr) -> Expr:
    return factor.base if isinstance(factor, Pow) and literal(factor.exponent) == 2 else factor


def _squares_apart(factors: tuple[Expr, ...]) -> tuple[Expr, ...]:
    return tuple(
        piece
        for factor in factors
        for piece in (
            (_base(factor),) * 2
            if isinstance(_base(factor), Add) and _base(factor) is not factor
            else (factor,)
        )
    )


def _turned(part: Expr) -> Expr:
    return part.inner if isinstance(part, Neg) else Neg(part)


def _distributed(factors: tuple[Expr, ...], style: Style) -> list[Expr] | None:
    products: Terms = [((), 1)]
    for factor in factors:
        pairs = [single(one, style) for one in terms_of(factor)]
        if any(pair is None for pair in pairs) or len(pairs) * len(products) > 24:
            return None
        products = [_times(left, right, style) for left in products for right in pairs if right is not None]
    return [term(mono, size, style) for mono, size in products if size] or [number(0, style)]


def _times(left: tuple[Mono, Number], right: tuple[Mono, Number], style: Style) -> tuple[Mono, Number]:
    value = value_of(Mul((term(*left, style), term(*right, style))), style.setting).above
    return next(iter(value.terms.items()), ((), 0))


def told_brackets(products: list[Expr]) -> tuple[str, str]:
    """Return what is done with brackets and where they stand."""
    product = products[0]
    if len(products) > 1:
        return "Multiply out each bracket.", "Look at the brackets: what stands before each of them?"
    inner = product.inner if isinstance(product, Neg) else product
    where = f"Look at the bracket in {written(inner)}."
    if isinstance(product, Neg) and isinstance(inner, Add):
        return "Take the bracket away: turn the sign of each part in it.", where
    if isinstance(inner, Mul):
        outside = tuple(one for one in inner.factors if not isinstance(_base(one), Add))
        if len(outside) == len(inner.factors) - 1:
            sign = "−" if isinstance(product, Neg) else ""
            return f"Multiply each part in the bracket by {sign}{written(joined(outside))}.", where
        return "Multiply each part of one bracket by each part of the other.", where
    if isinstance(inner, Div):
        return f"Divide each part above the bar by {written(inner.bottom)}.", f"Look at {written(inner)}."
    if isinstance(inner, Pow):
        return "Write the bracket twice and multiply each part by each part.", where
    return "Leave the brackets away.", where


def combine(side: Expr, style: Style) -> tuple[Expr, list[tuple[Expr, ...]]] | None:
    """Combine like terms; returns the new side and each group of terms that were alike."""
    if not isinstance(side, Add):
        return None
    sizes: dict[Mono, Number] = {}
    alike: dict[Mono, list[Expr]] = {}
    for one in side.terms:
        pair = single(one, style)
        if pair is None:
            return None
        mono = pair[0] if pair[1] else ()
        sizes[mono] = sizes.get(mono, 0) + pair[1]
        alike.setdefault(mono, []).append(one)
    groups = [tuple(same) for same in alike.values() if len(same) > 1]
    return (sum_of(list(sizes.items()), style), groups) if groups else None


def told_alike(groups: list[tuple[Expr, ...]]) -> tuple[str, str]:
    """Return what is done with like terms and which they are."""
    texts = [_listed([written(one) for one in group]) for group in groups]
    if len(groups) > 1:
        where = "Look for like terms: letters with letters, numbers with numbers."
        return f"Combine the like terms: {'; '.join(texts)}.", where
    kind = "numbers" if not names_in(*groups[0]) else "like terms"
    return f"Combine the {kind} {texts[0]}.", f"Look at {texts[0]}: they are alike."


def _listed(texts: list[str]) -> str:
    return texts[0] if len(texts) == 1 else f"{', '.join(texts[:-1])} and {texts[-1]}"


# -- fractions -----------------------------------------------------------------------------------


def common_bottom(left: Expr, right: Expr, style: Style) -> int | None:
    """Return the number to multiply both sides by so that no fraction is left.

    Only where that is what a teacher would do: two fractions or more, or one bar over a sum.
    """
    terms = (*terms_of(left), *terms_of(right))
    over = [one for one in terms if _bottom_of(one) > 1]
    if not over or (len(over) < 2 and not _has_bracket(over[0])) or not names_in(left, right):
        return None
    if any(_beyond(one, style) for one in terms):
        return None
    both = lcm(*(_bottom_of(one) for one in over))
    return both if both <= 1000 else None


def _beyond(one: Expr, style: Style) -> bool:
    """Tell whether a term is neither letters with a number nor a bracket with one."""
    if any(isinstance(node, Div) and names_in(node.bottom) for node in every(one)):
        return True
    return single(one, style) is None and not _has_bracket(one)


def _bottom_of(one: Expr) -> int:
    match one:
        case Neg(inner):
            return _bottom_of(inner)
        case Num(value, places=None):
            return value.denominator
        case Div(_, Num(value, places=0)):
            return int(value)
        case Mul(factors):
            return max(_bottom_of(factor) for factor in factors)
        case _:
            return 1


def _has_bracket(one: Expr) -> bool:
    match one:
        case Neg(inner):
            return _has_bracket(inner)
        case Div(top, _):
            return isinstance(top, Add) or _has_bracket(top)
        case Mul(factors):
            return any(isinstance(factor, Add) for factor in factors)
        case _:
            return False


def multiplied(side: Expr, size: int, style: Style) -> Expr:
    """Return a side with every term multiplied: ``(x + 3)/4`` times 4 is ``x + 3``."""
    made = tuple(_term_times(one, Fraction(size), style) for one in terms_of(side))
    flat = tuple(deep for one in made for deep in terms_of(one))
    return flat[0] if len(flat) == 1 else Add(flat)


def _term_times(one: Expr, size: Fraction, style: Style) -> Expr:
    match one:
        case Neg(inner):
            made = _term_times(inner, size, style)
            return Neg(made)
        case Div(top, bottom) if literal(one) is None and literal(bottom):
            return _with_number(size / (literal(bottom) or 1), top, style)
        case Mul(factors) if any(isinstance(factor, Add) for factor in factors):
            rest: list[Expr] = []
            for factor in factors:
                found = literal(factor)
                below = literal(factor.bottom) if isinstance(factor, Div) else None
                if found is not None:
                    size *= found
                elif isinstance(factor, Div) and below:
                    size /= below
                    rest.append(factor.top)
                else:
                    rest.append(factor)
            return _with_number(size, joined(tuple(rest)), style)
        case _:
            return _with_number(size, one, style)


def _with_number(size: Fraction, rest: Expr, style: Style) -> Expr:
    if size == 1:
        return rest
    pair = single(rest, style)
    if pair is not None:
        return term(pair[0], pair[1] * size, style)
    factors = rest.factors if isinstance(rest, Mul) else (rest,)
    return Mul((number(size, style), *factors))
