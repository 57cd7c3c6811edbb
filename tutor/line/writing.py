"""Writing meaning and trees back as a line on one row."""

from enum import IntEnum
from fractions import Fraction
from typing import NamedTuple, assert_never

from tutor.line.poly import ONE, PI_ATOM, ROOT_MARK, Mono, Number, Poly, Ratio
from tutor.line.tree import (
    Abs,
    Add,
    Bare,
    Chain,
    Div,
    Expr,
    Hole,
    Joined,
    Joiner,
    Measure,
    Mul,
    Name,
    Neg,
    Note,
    Num,
    Onward,
    Percent,
    PiSign,
    PlusMinus,
    Pow,
    Root,
    Said,
    Statement,
)

_UP = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")
_ROOTS = {2: "√", 3: "∛", 4: "∜"}


def write_number(value: Number) -> str:
    """Return a rational number as a child writes it: 7, 2.5, 22/7, 12.345."""
    if type(value) is int:
        return str(value)
    fraction = Fraction(value)
    if fraction.denominator == 1:
        return str(fraction.numerator)
    bottom, twos, fives = fraction.denominator, 0, 0
    while bottom % 2 == 0:
        bottom, twos = bottom // 2, twos + 1
    while bottom % 5 == 0:
        bottom, fives = bottom // 5, fives + 1
    places = max(twos, fives)
    if bottom != 1 or places > 6:
        return f"{fraction.numerator}/{fraction.denominator}"
    scaled = abs(fraction.numerator) * 10**places // fraction.denominator
    digits = str(scaled).rjust(places + 1, "0")
    return f"{'-' if fraction < 0 else ''}{digits[:-places]}.{digits[-places:]}"


def write_poly(poly: Poly) -> str:
    """Return a sum as a line shows it, unknowns first: ``3x + 14``, ``6.28r``."""
    if not poly.terms:
        return "0"
    ordered = sorted(poly.terms.items(), key=lambda item: (-_degree(item[0]), item[0] == (), repr(item[0])))
    text = ""
    for mono, coefficient in ordered:
        piece = _term(mono, -coefficient if coefficient < 0 else coefficient)
        if not text:
            text = f"−{piece}" if coefficient < 0 else piece
        else:
            text += f" − {piece}" if coefficient < 0 else f" + {piece}"
    return text


def write_ratio(ratio: Ratio) -> str:
    """Return a quotient of sums on one row."""
    above = write_poly(ratio.above)
    return above if ratio.below == ONE else f"({above})/({write_poly(ratio.below)})"


def _degree(mono: Mono) -> Number:
    return max((power for atom, power in mono if atom != PI_ATOM and atom[0] != ROOT_MARK), default=0)


def _term(mono: Mono, size: Number) -> str:
    letters = "".join(
        _atom(atom, power) for atom, power in sorted(mono, key=lambda pair: pair[0][0] not in "π#")
    )
    if not letters:
        return write_number(size)
    if size == 1:
        return letters
    number = write_number(size)
    return f"({number}){letters}" if "/" in number else number + letters


def _atom(atom: str, power: Number) -> str:
    if atom[0] == ROOT_MARK:
        fraction = Fraction(power)
        inside = int(atom[1:]) ** fraction.numerator
        return f"{_ROOTS.get(fraction.denominator, f'root({fraction.denominator})')}{inside}"
    if power == 1:
        return atom
    return atom + (str(power).translate(_UP) if isinstance(power, int) else f"^({power})")


# -- trees ---------------------------------------------------------------------------------


class Rank(IntEnum):
    """How tight an expression holds together: what is looser than its place needs a bracket."""

    SUM = 0
    PRODUCT = 1
    FACTOR = 2
    POWER = 3


def rank(expr: Expr) -> Rank:
    """Return how tight an expression holds together."""
    known = _RANKS.get(type(expr))
    if known is not None:
        return known
    match expr:
        case Add() | PlusMinus() | Neg():
            return Rank.SUM
        case Mul() | Div() | Measure():
            return Rank.PRODUCT
        case Pow() | Root() | Percent():
            return Rank.FACTOR
        case Num(value, text):
            return Rank.POWER if value.denominator == 1 or "." in text else Rank.PRODUCT
        case Name() | PiSign() | Hole() | Abs():
            return Rank.POWER
        case _:
            assert_never(expr)


# The commonest kinds, asked first.
_RANKS = {Name: Rank.POWER, Mul: Rank.PRODUCT, Neg: Rank.SUM, Add: Rank.SUM}


def _wrapped(expr: Expr, least: Rank) -> str:
    text = write_expr(expr)
    return text if rank(expr) >= least else f"({text})"


def write_expr(expr: Expr) -> str:
    """Return an expression so that reading it again gives the same tree."""
    match expr:
        # The commonest kinds first: every line is written, and many of them are several times.
        case Num(_, text):
            return text
        case Name(name):
            return name
        case Mul(factors):
            return " · ".join([_wrapped(factor, Rank.FACTOR) for factor in factors])
        case Add(terms):
            return _write_sum(terms)
        case Neg(inner):
            return "−" + _wrapped(inner, Rank.FACTOR if isinstance(inner, Mul) else Rank.PRODUCT)
        case PiSign():
            return "π"
        case Hole():
            return "?"
        case Div(top, bottom):
            return f"{_wrapped(top, Rank.FACTOR)}/{_wrapped(bottom, Rank.FACTOR)}"
        case Pow(base, exponent):
            return f"{_wrapped(base, Rank.POWER)}^{_wrapped(exponent, Rank.POWER)}"
        case Root(index, inner):
            if index in _ROOTS:
                return f"{_ROOTS[index]}({write_expr(inner)})"
            return f"root({index}, {write_expr(inner)})"
        case Abs(inner):
            return f"|{write_expr(inner)}|"
        case PlusMinus(left, right):
            before = "" if left is None else _wrapped(left, Rank.PRODUCT) + " "
            return f"{before}±{'' if left is None else ' '}{_wrapped(right, Rank.PRODUCT)}"
        case Percent(inner):
            return _wrapped(inner, Rank.POWER) + "%"
        case Measure(inner, unit):
            return _write_measure(inner, str(unit))
        case _:
            assert_never(expr)


def _write_measure(inner: Expr, unit: str) -> str:
    number = _wrapped(inner, Rank.POWER)
    if unit in ("$", "€", "£", "₹", "¥"):
        named = isinstance(inner, Name) and not number.startswith("∠")  # "$∠A" is not read
        plain = named or (isinstance(inner, Num) and not number.startswith("("))
        return unit + number if plain else number + unit
    return f"{number}{'' if unit == '°' else ' '}{unit}"


def _write_sum(terms: tuple[Expr, ...]) -> str:
    text = _wrapped(terms[0], Rank.PRODUCT) if not isinstance(terms[0], Neg) else write_expr(terms[0])
    for term in terms[1:]:
        text += (
            f" − {_wrapped(term.inner, Rank.PRODUCT)}"
            if isinstance(term, Neg)
            else f" + {_wrapped(term, Rank.PRODUCT)}"
        )
    return text


class Template(NamedTuple):
    """A line as it is written, but for its numbers: the texts around them, and the numbers in turn.

    The reader leaves it with a line that differs from one read before only in its numbers.
    """

    around: tuple[str, ...]
    numbers: tuple[Num, ...]

    def filled(self) -> str:
        """Return the whole line."""
        text = self.around[0]
        for number, behind in zip(self.numbers, self.around[1:], strict=True):
            text += f"{number.text}{behind}"
        return text


def write_statement(statement: Statement) -> str:
    """Return a whole line on one row."""
    template = statement.memo.get(Template)
    if isinstance(template, Template):
        return template.filled()
    match statement:
        case Bare(expr):
            return write_expr(expr)
        case Chain(sides, rels):
            text = write_expr(sides[0])
            for rel, side in zip(rels, sides[1:], strict=True):
                text += f" {rel.value} {write_expr(side)}"
            return text
        case Onward(rels, sides):
            return " ".join(f"{rel.value} {write_expr(side)}" for rel, side in zip(rels, sides, strict=True))
        case Joined(joiner, parts):
            between = ", " if joiner is Joiner.COMMA else f" {joiner.value} "
            return between.join(write_statement(part) for part in parts)
        case Said(phrase):
            return phrase.value
        case Note():
            return ""
        case _:
            assert_never(statement)
