"""What runs in the child process: trees made into sympy objects, and compared.

No text reaches sympy: every object is built from our own tree. Sizes were bounded when
the line was read.
"""

import pickle
import sys
from fractions import Fraction
from typing import TYPE_CHECKING, Any, assert_never

from tutor.line.tree import (
    Abs,
    Add,
    Div,
    Expr,
    Hole,
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
from tutor.line.walk import every, names_in
from tutor.marking.deciding.compare import Overlap

if TYPE_CHECKING:
    from tutor.marking.deciding.slow_process import Question

# Of either sign: √(x²) is x for one half of them only.
_POINTS = (
    Fraction(7, 5),
    Fraction(13, 3),
    Fraction(-29, 11),
    Fraction(1, 7),
    Fraction(-5, 9),
    Fraction(101, 17),
    Fraction(-173, 9),  # far enough below zero that x + 3 is too
)
_DIGITS = 60


def serve() -> None:
    """Answer pickled questions on standard input until the other side hangs up."""
    import sympy

    source, sink = sys.stdin.buffer, sys.stdout.buffer
    reply: object = "ready"
    while True:
        pickle.dump(reply, sink)
        sink.flush()
        try:
            question = pickle.load(source)
        except (EOFError, OSError):
            return
        try:
            reply = answer(question, sympy)
        except Exception:  # sympy raises many kinds of error; each of them means: undecided
            reply = None


def answer(question: "Question", sympy: Any) -> Overlap | None:
    """Compare two lines."""
    if len(question.old[0]) == 1:
        return _same_value(question.old[0][0], question.new[0][0], sympy)
    old = _all_solutions(question.old, question.positive, sympy)
    new = _all_solutions(question.new, question.positive, sympy)
    if old is None or new is None:
        return None
    if _covers(old, new, sympy) and _covers(new, old, sympy):
        return Overlap.SAME
    if any(map(_has_odd_root, (side for line in (*question.old, *question.new) for side in line))):
        return None  # solveset loses solutions of (x − 3)^(2/3) = 4
    if _covers(old, new, sympy):
        return Overlap.FEWER
    return Overlap.MORE if _covers(new, old, sympy) else Overlap.OTHER


def _has_odd_root(side: Expr) -> bool:
    return any(
        (isinstance(node, Root) and node.index % 2 and names_in(node))
        or (isinstance(node, Pow) and names_in(node.base) and _is_fraction(node.exponent))
        for node in every(side)
    )


def _is_fraction(exponent: Expr) -> bool:
    return any(isinstance(node, Div) for node in every(exponent))


def _covers(big: Any, little: Any, sympy: Any) -> bool:
    return all(any(abs(sympy.N(a - b, _DIGITS)) < 10**-40 for b in big) for a in little)


def _all_solutions(equations: tuple[tuple[Expr, ...], ...], positive: bool, sympy: Any) -> Any:
    found = [_solutions(sides, positive, sympy) for sides in equations]
    return None if None in found else [value for values in found for value in values]


def _solutions(sides: tuple[Expr, ...], positive: bool, sympy: Any) -> Any:
    symbols: dict[str, Any] = {}
    left, right = (_built(side, symbols, sympy) for side in sides)
    if len(symbols) != 1:
        return None
    (symbol,) = symbols.values()
    found = sympy.solveset(left - right, symbol, sympy.S.Reals)
    if not isinstance(found, sympy.FiniteSet) and found is not sympy.S.EmptySet:
        return None
    return [value for value in found if not positive or sympy.N(value, _DIGITS) > 0]


def _same_value(left: Expr, right: Expr, sympy: Any) -> Overlap | None:
    """Two expressions: equal at several points to 60 digits, or different at one.

    Where they part only for letters below zero, as √((x + 3)²) and x + 3 do, nothing is told: books
    for letters that are never negative take them for the same.
    """
    symbols: dict[str, Any] = {}
    difference = _built(left, symbols, sympy) - _built(right, symbols, sympy)
    compared = 0
    parted = False
    for at, point in enumerate(_POINTS):
        values = {
            symbol: sympy.Rational(point.numerator, point.denominator) + index * at
            for index, symbol in enumerate(symbols.values())
        }
        value = sympy.N(difference.subs(values), _DIGITS)
        if not value.is_number or not value.is_finite or not value.is_real:
            continue
        if abs(value) <= 10**-40:
            compared += 1
        elif all(number >= 0 for number in values.values()) or _has_bars(left):
            return Overlap.OTHER
        else:
            parted = True
    if parted:
        return None if compared >= 3 else Overlap.OTHER
    return Overlap.SAME if compared >= (3 if symbols else 1) else None


def _has_bars(expr: Expr) -> bool:
    return any(isinstance(node, Abs) and names_in(node) for node in every(expr))


def _built(expr: Expr, symbols: dict[str, Any], sympy: Any) -> Any:
    def inner(part: Expr) -> Any:
        return _built(part, symbols, sympy)

    match expr:
        case Num(value, open_end=False):
            return sympy.Rational(value.numerator, value.denominator)
        case Name(name):
            return symbols.setdefault(name, sympy.Symbol(name, real=True))
        case PiSign():
            return sympy.pi
        case Neg(part):
            return -inner(part)
        case Add(terms):
            return sympy.Add(*map(inner, terms))
        case Mul(factors):
            return sympy.Mul(*map(inner, factors))
        case Div(top, bottom):
            return inner(top) / inner(bottom)
        case Pow(base, exponent):
            return _power(inner(base), inner(exponent), sympy)
        case Root(index, part):
            return sympy.real_root(inner(part), index) if index % 2 else sympy.root(inner(part), index)
        case Abs(part):
            return sympy.Abs(inner(part))
        case Percent(part):
            return inner(part) / 100
        case Measure(part, _):
            return inner(part)
        case Hole() | PlusMinus() | Num():
            raise ValueError("no single value")
        case _:
            assert_never(expr)


def _power(base: Any, exponent: Any, sympy: Any) -> Any:
    if not exponent.is_number:
        if base.is_Rational and base > 0 and exponent.is_polynomial():
            return base**exponent  # 2^x = 8
        raise ValueError("a power that is no number")
    if abs(exponent) > 64:
        raise ValueError("power too big")
    if exponent.is_Rational and exponent.q % 2 and exponent.q > 1:
        return sympy.real_root(base, exponent.q) ** exponent.p
    return base**exponent
