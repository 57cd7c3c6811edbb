"""A side of a line quoted in a message: near to how it was typed, and short."""

from tutor.line.tree import (
    Abs,
    Add,
    Div,
    Expr,
    Measure,
    Mul,
    Name,
    Neg,
    Num,
    Percent,
    PiSign,
    PlusMinus,
    Pow,
    Root,
)
from tutor.line.writing import write_expr

LONGEST = 16
_UP = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")


def quoted(expr: Expr, longest: int = LONGEST) -> str | None:
    """Return the writing of a side as a student types it, None where it is too long to quote."""
    text = quote(expr)
    return text if len(text) <= longest else None


def quote(expr: Expr) -> str:
    """Return ``3x + 15`` for what ``write_expr`` writes as ``3 · x + 15``."""
    match expr:
        case Num(_, text):
            return text
        case Neg(inner):
            return "−" + _wrapped(inner, Add, Neg)
        case Add(terms):
            return _sum(terms)
        case Mul(factors):
            return _product(factors)
        case Div(top, bottom):
            return f"{_wrapped(top, Add, Neg, Div)}/{_wrapped(bottom, Add, Neg, Div, Mul)}"
        case Pow(base, Num(_, text)) if text.isdigit():
            return _wrapped(base, Add, Neg, Div, Mul, Pow, Root, Measure) + text.translate(_UP)
        case Root(2, inner):
            return f"√{quote(inner)}" if isinstance(inner, Num | Name) else f"√({quote(inner)})"
        case Abs(inner):
            return f"|{quote(inner)}|"
        case PlusMinus(None, right):
            return f"±{_wrapped(right, Add, Neg)}"
        case _:
            return write_expr(expr)


def _wrapped(expr: Expr, *kinds: type) -> str:
    return f"({quote(expr)})" if isinstance(expr, kinds) else quote(expr)


def _sum(terms: tuple[Expr, ...]) -> str:
    text = quote(terms[0])
    for term in terms[1:]:
        sign, inner = (" − ", term.inner) if isinstance(term, Neg) else (" + ", term)
        text += sign + _wrapped(inner, Add, Neg)
    return text


def _product(factors: tuple[Expr, ...]) -> str:
    text = ""
    for at, factor in enumerate(factors):
        fraction = not at and isinstance(factor, Div)
        piece = quote(factor) if fraction else _wrapped(factor, Add, Neg, Div, Measure)
        second_number = at > 1 and isinstance(factors[at - 1], Num)
        if at and (second_number or not _side_by_side(factors[at - 1], factor)):
            text += "·"
        text += piece
    return text


def _side_by_side(before: Expr, after: Expr) -> bool:
    """Tell whether two factors are written with no sign between them."""
    if isinstance(after, Add):
        return True
    named = after.base if isinstance(after, Pow) else after
    if not isinstance(named, Name | PiSign) or (isinstance(named, Name) and len(named.name) > 1):
        return False
    return isinstance(before, Num | PiSign | Add | Pow | Percent) or (
        isinstance(before, Name) and len(before.name) == 1
    )
