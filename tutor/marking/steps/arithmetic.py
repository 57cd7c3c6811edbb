"""Working numbers out, one level of precedence a line: brackets, powers, products, sums."""

from dataclasses import dataclass, field
from fractions import Fraction
from math import prod

from tutor.line.meaning import value_of
from tutor.line.poly import ONE, DividedByZero, NotExact
from tutor.line.tree import (
    Abs,
    Add,
    Div,
    Expr,
    Mul,
    Neg,
    Percent,
    PlusMinus,
    Pow,
    Root,
)
from tutor.line.walk import names_in, parts
from tutor.marking.steps.forms import Style, literal, number, single, sum_of, term
from tutor.marking.steps.writing import written

# Past this nobody looks for a square in a number by hand.
_LARGE = 100_000

_SUMS, _PRODUCTS, _POWERS = range(3)
Level = tuple[int, int]  # how deep in brackets, and which kind of working


@dataclass(slots=True)
class _Round:
    """One pass over a side: what can be worked out, and what was."""

    style: Style
    wanted: Level | None = None
    levels: list[Level] = field(default_factory=list)
    done: list[Expr] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Worked:
    """A side after one level of arithmetic, and the parts that were worked out."""

    side: Expr
    done: tuple[Expr, ...]


def work_out(side: Expr, style: Style) -> Worked | None:
    """Work out the innermost, strongest level of a side; None where no numbers are left to join.

    Raises ``NotExact`` and ``DividedByZero``.
    """
    look = _Round(style)
    _passed(side, 0, look)
    if not look.levels:
        return None
    work = _Round(style, max(look.levels))
    made = _passed(side, 0, work)
    return Worked(made, tuple(work.done))


def _passed(node: Expr, depth: int, round_: _Round) -> Expr:
    inner = _inside(node, depth, round_)
    ready = _ready(node, round_.style)
    if ready is None:
        return inner
    kind, result = ready
    round_.levels.append((depth, kind))
    if round_.wanted != (depth, kind):
        return inner
    round_.done.append(node)
    return result


def _inside(node: Expr, depth: int, round_: _Round) -> Expr:
    """Go into the parts of a node; what is grouped lies one level deeper."""
    match node:
        case Add(terms):
            return Add(tuple(_passed(one, depth, round_) for one in terms), node.span)
        case Mul(factors):
            return Mul(_number_first(tuple(_grouped(one, depth, round_) for one in factors)), node.span)
        case Neg(inner):
            return Neg(_grouped(inner, depth, round_), node.span)
        case Div(top, bottom):
            return Div(_passed(top, depth + 1, round_), _passed(bottom, depth + 1, round_), node.span)
        case Pow(base, exponent):
            return Pow(_passed(base, depth + 1, round_), _passed(exponent, depth + 1, round_), node.span)
        case Root(index, inner):
            return Root(index, _passed(inner, depth + 1, round_), node.span)
        case Abs(inner):
            return Abs(_passed(inner, depth + 1, round_), node.span)
        case PlusMinus(left, right):
            kept = None if left is None else _grouped(left, depth, round_)
            return PlusMinus(kept, _grouped(right, depth, round_), node.span)
        case Percent(inner):
            return Percent(_passed(inner, depth + 1, round_), node.span)
        case _:
            return node


def _number_first(factors: tuple[Expr, ...]) -> tuple[Expr, ...]:
    """A single number stands first: ``π · 25`` is written ``25π``."""
    at = [index for index, one in enumerate(factors) if literal(one) is not None]
    if len(at) != 1 or isinstance(factors[at[0]], Neg):
        return factors
    return (factors[at[0]], *factors[: at[0]], *factors[at[0] + 1 :])


def _grouped(node: Expr, depth: int, round_: _Round) -> Expr:
    return _passed(node, depth + isinstance(node, Add), round_)


def _ready(node: Expr, style: Style) -> tuple[int, Expr] | None:
    """Return the kind of working and the result, where all that a node needs stands as numbers."""
    match node:
        case Pow(base, exponent):
            return _number(node, style, _POWERS) if _all_literal(base, exponent) else None
        case Root(_, inner):
            return _root(node, style) if literal(inner) is not None else None
        case Abs(inner) | Percent(inner):
            return _number(node, style, _POWERS) if literal(inner) is not None else None
        case Mul(factors):
            return _product(node, factors, style)
        case Div(top, bottom):
            return _quotient(node, top, bottom, style)
        case Neg(Neg(inner)) if not isinstance(inner, Add):
            return _PRODUCTS, inner
        case Neg(inner) if literal(inner) == 0:
            return _PRODUCTS, inner
        case Add(terms) if _all_literal(*terms):
            return _number(node, style, _SUMS)
        case _:
            return None


def _all_literal(*exprs: Expr) -> bool:
    return all(literal(one) is not None for one in exprs)


def _number(node: Expr, style: Style, kind: int) -> tuple[int, Expr] | None:
    value = value_of(node, style.setting)
    constant = value.constant()
    rational = None if constant is None else constant.rational()
    return None if rational is None else (kind, number(rational, style))


def _root(node: Root, style: Style) -> tuple[int, Expr] | None:
    size = literal(node.inner)
    decimal = size is not None and size.denominator != 1 and not style.fractions
    if (decimal or (size is not None and abs(size) > _LARGE)) and _never_ends(node, style):
        return None  # √25.48 and √90004 are not written with a simpler root: they are worked out as decimals
    value = value_of(node, style.setting)
    if value.below != ONE or len(value.above.terms) > 1:
        return None
    made = sum_of(list(value.above.terms.items()), style)
    return None if made == node else (_POWERS, made)


def _never_ends(node: Root, style: Style) -> bool:
    constant = value_of(node, style.setting).constant()
    return constant is None or constant.rational() is None


def _product(node: Mul, factors: tuple[Expr, ...], style: Style) -> tuple[int, Expr] | None:
    sizes = [(at, value) for at, one in enumerate(factors) if (value := literal(one)) is not None]
    others = tuple(one for one in factors if literal(one) is None)
    if any(size == 0 for _, size in sizes):
        return _PRODUCTS, number(0, style)
    if len(sizes) > 1 or (sizes and (sizes[0][1] in (1, -1) or sizes[0][0] > 0)):
        return _PRODUCTS, _times(prod((size for _, size in sizes), start=Fraction(1)), others, style)
    if len(others) > 1 and names_in(*others):
        return _letters_joined(node, style)
    return None


def _times(size: Fraction, others: tuple[Expr, ...], style: Style) -> Expr:
    if size < 0:
        return Neg(_times(-size, others, style))
    if not others:
        return number(size, style)
    plain = number(size, style)
    left = others if size == 1 else (plain, *others)
    return left[0] if len(left) == 1 else Mul(left)


def _letters_joined(node: Mul, style: Style) -> tuple[int, Expr] | None:
    """``x · x`` becomes ``x^2``."""
    pair = single(node, style)
    if pair is None:
        return None
    made = term(pair[0], pair[1], style)
    return (_PRODUCTS, made) if _pieces(made) < _pieces(node) else None


def _quotient(node: Div, top: Expr, bottom: Expr, style: Style) -> tuple[int, Expr] | None:
    below = literal(bottom)
    if below == 0:
        raise DividedByZero
    if literal(node) is not None:
        return None
    if below is not None and literal(top) is not None:
        made = _number(node, style, _PRODUCTS)
        return None if made is None or made[1] == node else made
    if isinstance(top, Add) or isinstance(bottom, Add):
        return None
    try:
        pair = single(node, style)
    except NotExact:
        return None
    if pair is None:
        return None
    result = term(pair[0], pair[1], style)
    return (_PRODUCTS, result) if _pieces(result) < _pieces(node) else None


def _pieces(expr: Expr) -> int:
    """Count what stands in an expression: it shrinks when numbers are joined."""
    return 1 + sum(_pieces(one) for one in parts(expr))


def told(done: tuple[Expr, ...]) -> tuple[str, str]:
    """Return what is done and where to look, for the parts that were worked out."""
    first = done[0]
    if len(done) > 1:
        kind = _kind(done)
        return f"Work out the {kind}.", f"Look at the {kind} first."
    sizes = [one for one in first.factors if literal(one) is not None] if isinstance(first, Mul) else []
    if isinstance(first, Mul) and len(sizes) > 1:
        shown = [written(one) for one in sizes]
        return f"Multiply {', '.join(shown[:-1])} and {shown[-1]}.", f"Look at {written(first)}."
    if isinstance(first, Neg):
        return "Two minus signs in a row make a plus.", f"Look at {written(first)}."
    if isinstance(first, Div) and literal(first.bottom) is not None:
        return f"Divide {written(first.top)} by {written(first.bottom)}.", f"Look at {written(first)}."
    if isinstance(first, Percent):
        return f"Write {written(first)} as a decimal.", f"Look at {written(first)}."
    return f"Work out {written(first)}.", f"Look at {written(first)}."


def _kind(done: tuple[Expr, ...]) -> str:
    strong = ((Pow, "powers"), (Root, "roots"), (Abs, "bars"), (Percent, "percents"))
    if all(isinstance(one, Pow | Root | Abs | Percent) for one in done):
        return " and ".join(word for kind, word in strong if any(isinstance(one, kind) for one in done))
    if all(isinstance(one, Mul) for one in done):
        return "products"
    if all(isinstance(one, Div) for one in done):
        return "quotients"
    return "sums" if all(isinstance(one, Add) for one in done) else "products and quotients"
