"""Expressions in the varied names of a problem: worked out exactly, and written as a teacher writes."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from tutor.line.meaning import Setting, value_of
from tutor.line.names import Names
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.reader import Unread, read
from tutor.line.tree import Add, Bare, Chain, Div, Expr, Mul, Name, Neg, Num, Pow, Rel
from tutor.line.walk import every, names_in, rebuilt
from tutor.line.writing import write_expr
from tutor.quantity.pi import Pi

# A number with more decimal places than this is none that a student should work with.
MOST_DECIMALS = 6

Values = Mapping[str, Fraction]


@dataclass(frozen=True, slots=True)
class Amount:
    """An expression in varied names that could be read."""

    expr: Expr

    def value(self, values: Values, pi: Pi) -> Fraction | None:
        """Return what it comes to; None where that is no fraction, or nothing at all."""
        return _evaluated(self.expr, values, pi)

    def divided_by_zero(self, values: Values, pi: Pi) -> str:
        """Return an expression in it that is 0 and that something is divided by, "" where there is none."""
        for node in every(self.expr):
            if isinstance(node, Div) and _evaluated(node.bottom, values, pi) == 0:
                return write_expr(node.bottom)
        return ""


@dataclass(frozen=True, slots=True)
class Condition:
    """Something that must hold of the numbers: a comparison, or an expression that is to be whole."""

    sides: tuple[Expr, ...]
    rels: tuple[Rel, ...]

    def holds(self, values: Values, pi: Pi) -> bool:
        """Tell whether it holds; where it cannot be worked out it does not."""
        found = [_evaluated(side, values, pi) for side in self.sides]
        known = [value for value in found if value is not None]
        if len(known) < len(found):
            return False
        if not self.rels:
            return known[0].denominator == 1
        return all(
            _TESTS[rel](left, right) for left, rel, right in zip(known, self.rels, known[1:], strict=False)
        )


_TESTS: Mapping[Rel, Callable[[Fraction, Fraction], bool]] = {
    Rel.EQ: lambda left, right: left == right,
    Rel.NE: lambda left, right: left != right,
    Rel.LT: lambda left, right: left < right,
    Rel.LE: lambda left, right: left <= right,
    Rel.GT: lambda left, right: left > right,
    Rel.GE: lambda left, right: left >= right,
}

_WHOLE = re.compile(r"(.*?\S)\s+(?:(?:is|are)\s+)?(?:an?\s+)?(?:whole|integer)(?:\s+numbers?)?", re.DOTALL)


@lru_cache(maxsize=1024)
def read_amount(text: str, names: frozenset[str]) -> Amount | str:
    """Read an expression in ``names``; returns a sentence where it cannot be read."""
    found = read(text, Names(names))
    if isinstance(found, Unread):
        return found.message
    words = {word for word in re.findall(r"[^\W\d_]{2,}", text) if not _is_known(word, names)}
    if words:  # reading a line leaves words beside it out: nothing is left out of a number
        return _strange(words, names)
    statement = found.statements[0]
    if not isinstance(statement, Bare):
        return "A number is worked out here: write an expression, without = and without words."
    strange = names_in(statement.expr) - names
    if strange:
        return _strange(strange, names)
    return Amount(statement.expr)


@lru_cache(maxsize=256)
def read_condition(text: str, names: frozenset[str]) -> Condition | str:
    """Read a condition on ``names``; returns a sentence where it cannot be read."""
    if re.search(r"\banswers?\b", text.casefold()) and not names & {"answer", "answers"}:
        return "Of the answer one thing can be asked: “where answer whole”."
    if re.search(r"\sor\s", text):
        return "A condition is one comparison, without “or”. The numbers can be listed: “vary r in 4, 6, 9”."
    if re.search(r"\sand\s", text):
        return "A condition is one comparison. Write a “where” of its own for each."
    whole = _WHOLE.fullmatch(text)
    if whole is not None:
        amount = read_amount(whole[1], names)
        return amount if isinstance(amount, str) else Condition((amount.expr,), ())
    found = read(text, Names(names))
    if isinstance(found, Unread):
        return found.message
    statement = found.statements[0]
    if not isinstance(statement, Chain) or any(rel not in _TESTS for rel in statement.rels):
        return "A condition compares two numbers, as in r != 2, or ends with the word “whole”."
    strange = names_in(*statement.sides) - names
    if strange:
        return _strange(strange, names)
    return Condition(statement.sides, statement.rels)


_FUNCTIONS = frozenset({"pi", "sqrt", "cbrt", "abs", "root"})


def _is_known(word: str, names: frozenset[str]) -> bool:
    """Tell whether a word is a name, a function, or a product of names: ``ab``."""
    rest = word.casefold()
    return (
        word in names
        or rest in _FUNCTIONS
        or all(letter in names or letter.casefold() in names for letter in rest.removeprefix("pi"))
    )


def _strange(strange: Collection[str], names: Collection[str]) -> str:
    shown = ", ".join(sorted(names)) or "none"
    return f"“{min(strange)}” is not varied here. The names that are varied: {shown}."


def _evaluated(expr: Expr, values: Values, pi: Pi) -> Fraction | None:
    plain = _plain(expr, values)
    if plain is not None:
        return plain

    def put_in(node: Expr) -> Expr:
        return Num(values[node.name], node.name) if isinstance(node, Name) and node.name in values else node

    try:
        constant = value_of(rebuilt(expr, put_in), Setting(pi.value_used)).constant()
    except (NotExact, DividedByZero):
        return None
    number = None if constant is None else constant.rational()
    return None if number is None else Fraction(number)


# Past these a power is left to the exact arithmetic of lines, which has bounds of its own.
_HIGHEST_POWER = 20
_LONGEST_BASE = 128


def _plain(expr: Expr, values: Values) -> Fraction | None:
    """Work out sums, products, quotients and small powers of fractions; None for anything else."""
    match expr:
        case Num(value=value):
            return value
        case Name(name=name):
            return values.get(name)
        case Neg(inner=inner):
            found = _plain(inner, values)
            return None if found is None else -found
        case Add(terms=parts) | Mul(factors=parts):
            known = [_plain(part, values) for part in parts]
            numbers = [number for number in known if number is not None]
            if len(numbers) < len(known) or any(_long(number) for number in numbers):
                return None
            return (
                sum(numbers, Fraction(0)) if isinstance(expr, Add) else math.prod(numbers, start=Fraction(1))
            )
        case Div(top=top, bottom=bottom):
            over, under = _plain(top, values), _plain(bottom, values)
            return over / under if over is not None and under else None
        case Pow(base=base, exponent=Num(value=power)) if power in range(1, _HIGHEST_POWER + 1):
            found = _plain(base, values)
            return None if found is None or _long(found) else found ** int(power)
        case _:
            return None


def _long(number: Fraction) -> bool:
    return max(number.numerator.bit_length(), number.denominator.bit_length()) > _LONGEST_BASE


def decimal_text(value: Fraction) -> str | None:
    """Write a value as a decimal; None where it has no ending one of ``MOST_DECIMALS`` places."""
    scaled = abs(value) * 10**MOST_DECIMALS
    if scaled.denominator != 1 or abs(value) >= 10**12:
        return None
    digits = str(scaled.numerator).rjust(MOST_DECIMALS + 1, "0")
    whole, part = digits[:-MOST_DECIMALS], digits[-MOST_DECIMALS:].rstrip("0")
    return ("−" if value < 0 else "") + whole + (f".{part}" if part else "")
