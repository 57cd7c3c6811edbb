"""Products and sums seen through their writing, so that ``b·h/2`` and ``½hb`` look the same.

A product is taken apart into what multiplies, what divides, and the number for π; a square
counts as two factors. Sizes and the numbers of a formula are told apart where they are used.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from tutor.line.keys import expr_key
from tutor.line.tree import Add, Div, Expr, Measure, Mul, Neg, Num, PiSign, Pow
from tutor.line.walk import names_in
from tutor.quantity.pi import SHOWN_FOR_PI

MAX_FACTORS = 8
MAX_TERMS = 12


@dataclass(frozen=True, slots=True)
class Product:
    """What multiplies (``up``) and divides (``down``), in the order written; ``pi`` is no part of ``up``.

    ``powered``: a power was written. ``minus``: a minus stands in front.
    """

    up: tuple[Expr, ...]
    down: tuple[Expr, ...] = ()
    pi: Expr | None = None
    powered: bool = False
    minus: bool = False


class _Open:
    """The factors found so far."""

    def __init__(self) -> None:
        self.up: list[Expr] = []
        self.down: list[Expr] = []
        self.pi: Expr | None = None
        self.powered = False
        self.minus = False

    def take(self, expr: Expr, below: bool = False) -> None:
        """Add an expression to what multiplies or divides."""
        match expr:
            case _ if not below and self.pi is None and stands_for_pi(expr):
                self.pi = expr
            case Neg(inner):
                self.minus = not self.minus
                self.take(inner, below)
            case Mul(factors):
                for factor in factors:
                    self.take(factor, below)
            case Div(top, bottom):
                self.take(top, below)
                self.take(bottom, not below)
            case Pow(base, Num(exponent)) if exponent in (2, 3):
                self.powered = True
                (self.down if below else self.up).extend([base] * int(exponent))
            case Num(value) if value == 1:
                pass
            case _:
                (self.down if below else self.up).append(expr)

    def pi_from_parts(self) -> None:
        """``2·22/7·5`` is read as (2·22)/7·5: its 22 and its 7 are π."""
        top, bottom = (_position(self.up, 22), _position(self.down, 7))
        if self.pi is None and top is not None and bottom is not None:
            self.pi = Div(self.up.pop(top), self.down.pop(bottom))


def stands_for_pi(expr: Expr) -> bool:
    """Tell whether an expression is π or a number that school work takes for it."""
    match expr:
        case PiSign():
            return True
        case Num(value):
            return value in SHOWN_FOR_PI
        case Div(Num(top), Num(bottom)):
            return bool(bottom) and top / bottom in SHOWN_FOR_PI
        case _:
            return False


def _position(parts: Iterable[Expr], value: Fraction | int) -> int | None:
    return next((at for at, part in enumerate(parts) if is_number(part, value)), None)


def is_number(expr: Expr, value: Fraction | int) -> bool:
    """Tell whether an expression is this very number."""
    return isinstance(expr, Num) and expr.value == value


@lru_cache(maxsize=512)
def product_seen(expr: Expr) -> Product | None:
    """Return an expression as a product, None where it is a sum or too long."""
    if isinstance(expr, Add):
        return None
    found = _Open()
    found.take(expr)
    found.pi_from_parts()
    if len(found.up) + len(found.down) > MAX_FACTORS:
        return None
    return Product(tuple(found.up), tuple(found.down), found.pi, found.powered, found.minus)


def without(parts: tuple[Expr, ...], value: Fraction | int) -> tuple[Expr, ...] | None:
    """Return the factors without the first that is this number, None where there is none."""
    at = _position(parts, value)
    return None if at is None else parts[:at] + parts[at + 1 :]


def over_two(product: Product) -> tuple[Expr, ...] | None:
    """Return the factors of half a product: ``b·h/2``, ``½·b·h``, ``0.5·b·h``."""
    return _part(product, 2)


def over_three(product: Product) -> tuple[Expr, ...] | None:
    """Return the factors of a third of a product."""
    return _part(product, 3)


def _part(product: Product, bottom: int) -> tuple[Expr, ...] | None:
    if len(product.down) == 1 and is_number(product.down[0], bottom):
        return product.up
    if product.down:
        return None
    return without(product.up, Fraction(1, bottom))


def terms_seen(expr: Expr) -> tuple[Expr, ...]:
    """Return the terms of a sum, inner sums opened; a single one of anything else and of long sums."""
    if not isinstance(expr, Add):
        return (expr,)
    found = tuple(_opened(expr))
    return found if len(found) <= MAX_TERMS else (expr,)


def _opened(expr: Expr) -> Iterator[Expr]:
    if isinstance(expr, Add):
        for part in expr.terms:
            yield from _opened(part)
    else:
        yield expr


def doubled_terms(expr: Expr) -> tuple[tuple[Expr, ...], ...] | None:
    """Return the factors of each term of a sum in which every term counts twice.

    ``2a + 2b``, ``2(a + b)`` and ``a + b + a + b`` all give ((a,), (b,)).
    """
    if not isinstance(expr, Add):
        product = product_seen(expr)
        if product is None or product.pi or product.down or product.minus or len(product.up) != 2:
            return None
        rest = without(product.up, 2)
        if rest is None or not isinstance(rest[0], Add):
            return None
        return _plain_products(terms_seen(rest[0]))
    found = _plain_products(terms_seen(expr))
    if found is None:
        return None
    halved = [without(factors, 2) for factors in found]
    if all(half for half in halved):
        return tuple(half for half in halved if half)
    return _in_pairs(found)


def _plain_products(terms: tuple[Expr, ...]) -> tuple[tuple[Expr, ...], ...] | None:
    found: list[tuple[Expr, ...]] = []
    for term in terms:
        product = product_seen(term)
        if product is None or product.pi or product.down or product.minus or not product.up:
            return None
        found.append(product.up)
    return tuple(found)


def _in_pairs(found: tuple[tuple[Expr, ...], ...]) -> tuple[tuple[Expr, ...], ...] | None:
    kept: dict[tuple[str, ...], tuple[Expr, ...]] = {}
    counts: dict[tuple[str, ...], int] = {}
    for factors in found:
        key = tuple(sorted(map(expr_key, factors)))
        kept.setdefault(key, factors)
        counts[key] = counts.get(key, 0) + 1
    if any(count % 2 for count in counts.values()):
        return None
    return tuple(kept[key] for key, count in counts.items() for _ in range(count // 2))


def alike(left: Expr, right: Expr) -> bool:
    """Tell whether two expressions are the same writing up to order."""
    return left == right or expr_key(left) == expr_key(right)


def no_letters(*exprs: Expr) -> bool:
    """Tell whether only numbers stand in some expressions."""
    return not names_in(*exprs)


# -- making trees -----------------------------------------------------------------------


def times(*factors: Expr) -> Expr:
    """Return a product; of one factor, the factor."""
    return factors[0] if len(factors) == 1 else Mul(factors)


def plus(*terms: Expr) -> Expr:
    """Return a sum; of one term, the term."""
    return terms[0] if len(terms) == 1 else Add(terms)


def over(top: Expr, *bottom: Expr) -> Expr:
    """Return a quotient; the top where nothing divides."""
    return Div(top, times(*bottom)) if bottom else top


def plain_value(expr: Expr) -> Expr:
    """Return a value without its unit."""
    return expr.inner if isinstance(expr, Measure) else expr
