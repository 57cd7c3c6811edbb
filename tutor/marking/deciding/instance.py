"""Numbers put into a formula when the givens are told nowhere else.

Where the first line is a formula and no givens are known, ``178 = P(0.04)(2)`` under
``I = Prt`` says itself what I, r and t are. In the same way ``9(5) − 2`` evaluates ``9x − 2``.
"""

import itertools
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import TypeAlias

from tutor.line.keys import expr_key
from tutor.line.meaning import number_of
from tutor.line.numerals import is_numeric
from tutor.line.tree import (
    Abs,
    Add,
    Bare,
    Chain,
    Div,
    Expr,
    Measure,
    Mul,
    Name,
    Neg,
    Num,
    PiSign,
    Pow,
    Rel,
    Root,
    whole_number,
)
from tutor.line.walk import every, names_in
from tutor.quantity.pi import SHOWN_FOR_PI

MAX_IN_ANY_ORDER = 5


def values_put_in(formula: Chain, line: Chain) -> tuple[Chain, ...] | None:
    """Return what each name (or power of a name) was given, None where the line is no instance."""
    if len(formula.sides) != 2 or len(line.sides) != 2 or not line.rels[0].equates:
        return None
    own, left = names_in(*formula.sides), names_in(*line.sides)
    match = _Match(own, kept=min(left) if len(left) == 1 and left <= own else "")
    if not all(match.fits(pattern, expr) for pattern, expr in zip(formula.sides, line.sides, strict=True)):
        return None
    return match.told()


def pieces_put_in(formula: Chain, line: Chain) -> bool:
    """Tell whether a line puts numbers into pieces of one kind: ``12 · 4 + 2 · 6`` into ``bh + bh``.

    Each piece has a b and an h of its own there, so nothing is told of these letters.
    """
    if len(formula.sides) != 2 or len(line.sides) != 2 or formula.sides[0] != line.sides[0]:
        return False
    pieces, others = formula.sides[1], line.sides[1]
    if not isinstance(pieces, Add) or not isinstance(others, Add) or names_in(others):
        return False
    letters = {names_in(piece) for piece in pieces.terms}
    if len(letters) != 1 or len(min(letters)) < 2 or len(pieces.terms) != len(others.terms):
        return False
    pairs = zip(pieces.terms, others.terms, strict=True)
    return all(_Match(names_in(piece)).fits(piece, other) for piece, other in pairs)


def evaluated(before: Bare, after: Bare) -> bool:
    """Tell whether an expression has a number in the place of each letter of the one above."""
    names = names_in(before.expr)
    match = _Match(names)
    fits = bool(names) and not names_in(after.expr) and match.fits(before.expr, after.expr)
    return fits and all(isinstance(part, Name) for part, _ in match.bound.values())


@dataclass(slots=True)
class _Match:
    """A pattern fitted onto a line part by part. ``own``: the names of the pattern.

    ``kept``: the one name that a line still has, in whose terms others may be told:
    ``54 = 2(2w + 3) + 2w`` below ``P = 2l + 2w``.
    """

    own: frozenset[str]
    bound: dict[str, tuple[Expr, Expr]] = field(default_factory=dict)
    kept: str = ""

    def told(self) -> tuple[Chain, ...] | None:
        """Return the values that were found; None where a name and its power have one each."""
        told = [(part, value) for part, value in self.bound.values() if part != value]
        names = [name for part, _ in told for name in names_in(part)]
        if not told or len(names) != len(set(names)) or self.kept in names:
            return None
        if any(isinstance(value, PiSign) for _, value in told):
            return None  # "V = πr²" below "V = Bh": no base is π
        powers = sum(isinstance(part, Pow) for part, _ in told)
        return tuple(
            _told(part, value) if powers > 1 else Chain((part, value), (Rel.EQ,)) for part, value in told
        )

    def fits(self, pattern: Expr, expr: Expr) -> bool:
        match pattern, expr:
            case Name(), _:
                return self._bind(pattern, expr)
            case Measure(inner, _), _:
                return self.fits(inner, expr)
            case PiSign(), _:
                return _stands_for_pi(expr)
            case _, Measure(other, _):
                return self.fits(pattern, other)
            case Add(parts), Add(others):
                as_typed = self._in_some_order([*parts], [*others])
                as_typed = as_typed or self._in_some_order(_flat(parts, Add), _flat(others, Add))
                return as_typed or self._in_groups(parts, _flat(others, Add))
            case ((Mul() | Div()), (Mul() | Div())) if not is_numeric(pattern):
                return self._product(pattern, expr)
            case ((Mul() | Div()), Neg(inner)) if _has_coordinates(self.own):
                return self.fits(pattern, _with_sign_inside(inner))
            case Neg(Name() as inner), Num() if inner.name[-1].isdigit() and _has_coordinates(self.own):
                return self._bind(inner, Neg(expr))  # "y + 4" for "y − y₁"
            case Pow(base, exponent), Pow(other_base, other_exponent) if expr_key(exponent) == expr_key(
                other_exponent
            ):
                return self.fits(base, other_base)
            case Pow(base, exponent), Pow(other_base, other_exponent) if names_in(exponent):
                return self.fits(exponent, other_exponent) and self.fits(base, other_base)
            case Pow(Name(), Num()), _ if not names_in(expr):
                return self._bind(pattern, expr)
            case Neg(inner), Neg(other):
                return self.fits(inner, other)
            case Abs(inner), Abs(other):
                return self.fits(inner, other)
            case Root(index, inner), Root(other_index, other):
                return index == other_index and self.fits(inner, other)
            case _:
                return is_numeric(pattern) and is_numeric(expr) and _same_number(pattern, expr)

    def _bind(self, pattern: Expr, expr: Expr) -> bool:
        """Put a value in the place of a name (or of a power of one); the same one everywhere."""
        names = names_in(expr)
        in_terms = names == {self.kept} and isinstance(pattern, Name) and isinstance(expr, Add | Mul)
        if names & self.own and expr != pattern and not in_terms:
            return False  # "b² = c² + a²" under "c² = a² + b²" gives the letters each other's places
        key = expr_key(pattern)
        if key in self.bound:
            return expr_key(self.bound[key][1]) == expr_key(expr)
        self.bound[key] = (pattern, expr)
        return True

    def _product(self, pattern: Expr, expr: Expr) -> bool:
        """``11 · 8/2`` is an instance of ``bh/2``, and ``(6 · 4) · 3`` one of ``Bh``."""
        before = dict(self.bound)
        for (above, below), (other_above, other_below) in itertools.product(_ways(pattern), _ways(expr)):
            if self._in_some_order(above, other_above) and self._in_some_order(below, other_below):
                return True
            self.bound = dict(before)
        return False

    def _in_groups(self, patterns: tuple[Expr, ...], others: list[Expr]) -> bool:
        """``x + 2x + 5`` is an instance of ``∠1 + ∠2``: one of the two is a sum without its brackets.

        Which one, only the order tells: the terms stay in it, and each group has the one unknown.
        """
        if len(others) <= len(patterns) or len(others) > MAX_IN_ANY_ORDER:
            return False
        if not all(isinstance(pattern, Name) for pattern in patterns) or len(names_in(*others)) != 1:
            return False
        begins = [at for at, other in enumerate(others) if names_in(other)]
        if len(begins) != len(patterns):
            return False
        # "x + 5 + 2x" puts its number behind the unknown, "5 + x + 2x" before it.
        cuts = begins[1:] if begins[0] == 0 else [at + 1 for at in begins[:-1]]
        before = dict(self.bound)
        for pattern, start, end in zip(patterns, [0, *cuts], [*cuts, len(others)], strict=True):
            group = others[start] if end == start + 1 else Add(tuple(others[start:end]))
            if not self.fits(pattern, group):
                self.bound = before
                return False
        return True

    def _in_some_order(self, patterns: list[Expr], others: list[Expr]) -> bool:
        """``A = 5^2 · 3.14`` is an instance of ``A = πr²``; the order as written is tried first."""
        if len(patterns) != len(others):
            return False
        before = dict(self.bound)
        orders = itertools.permutations(others) if len(others) <= MAX_IN_ANY_ORDER else [tuple(others)]
        for order in orders:
            if all(self.fits(pattern, expr) for pattern, expr in zip(patterns, order, strict=True)):
                return True
            self.bound = dict(before)
        return False


def _has_coordinates(names: frozenset[str]) -> bool:
    """``y = mx + b``, ``v = at + u``: what the letters stand for may be below zero, as no size is.

    So it is with ``m = rise/run`` and ``m = Δy/Δx``.
    """
    return any(name in ("rise", "run") or (name.lstrip("Δ") or name)[0] in "xyuv" for name in names)


def _with_sign_inside(expr: Expr) -> Expr:
    """``−2(6)`` is ``(−2) · 6``, and ``−(x − 1)`` is ``(−1) · (x − 1)``."""
    match expr:
        case Mul((first, *rest)):
            return Mul((Neg(first), *rest))
        case Div(top, bottom):
            return Div(_with_sign_inside(top) if isinstance(top, Mul) else Neg(top), bottom)
        case _:
            return Mul((Neg(whole_number(1)), expr))


def _told(part: Expr, value: Expr) -> Chain:
    """Return what is told of a name: of ``R² = 81`` beside ``r² = 25``, that R is √81."""
    match part:
        case Pow(Name(), Num(power)) if power in (2, 3) and (number_of(value) or 0) > 0:
            return Chain((part.base, Root(int(power), value)), (Rel.EQ,))
        case _:
            return Chain((part, value), (Rel.EQ,))


def _stands_for_pi(expr: Expr) -> bool:
    match expr:
        case PiSign():
            return True
        case Num(value):
            return value in SHOWN_FOR_PI
        case Div(Num(top), Num(bottom)):
            return bool(bottom) and top / bottom in SHOWN_FOR_PI
        case _:
            return False


def _same_number(pattern: Expr, expr: Expr) -> bool:
    wanted = number_of(pattern)
    return wanted is not None and wanted == number_of(expr)


def _flat(parts: tuple[Expr, ...], kind: type[Add] | type[Mul]) -> list[Expr]:
    flat: list[Expr] = []
    for part in parts:
        if isinstance(part, kind):
            flat += _flat(part.terms if isinstance(part, Add) else part.factors, kind)
        else:
            flat.append(part)
    return flat


Factors: TypeAlias = tuple[list[Expr], list[Expr]]


def _ways(expr: Expr) -> Iterator[Factors]:
    """Yield what multiplies and what divides in an expression, more and more taken apart."""
    if isinstance(expr, Mul):
        yield [*expr.factors], []
    if isinstance(expr, Div):
        yield [expr.top], [expr.bottom]
    yield _factors(expr, whole=True)
    yield _factors(expr, whole=False)
    if any(isinstance(node, Pow) and isinstance(node.base, Name) for node in every(expr)):
        above, below = _factors(expr, whole=True)
        yield _in_full(above), _in_full(below)


def _in_full(factors: list[Expr]) -> list[Expr]:
    """``r²`` as ``r · r``: ``22/7 · 14 · 14`` is an instance of ``πr²``."""
    full: list[Expr] = []
    for factor in factors:
        match factor:
            case Pow(Name(), Num(value)) if value in (2, 3):
                full += [factor.base] * int(value)
            case _:
                full.append(factor)
    return full


def _factors(expr: Expr, *, whole: bool) -> Factors:
    """Return what multiplies and what divides; ``whole``: ``1/2`` stays one number; ``22/7`` always does."""
    match expr:
        case Div(Num(), Num()) if whole or _stands_for_pi(expr):
            return [expr], []
        case Div(top, bottom):
            above, below = _factors(top, whole=whole)
            under, over = _factors(bottom, whole=whole)
            return [*above, *over], [*below, *under]
        case Mul(factors):
            pairs = [_factors(factor, whole=whole) for factor in _flat(factors, Mul)]
            return [one for above, _ in pairs for one in above], [one for _, below in pairs for one in below]
        case _:
            return [expr], []
