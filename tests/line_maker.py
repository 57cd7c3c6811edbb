"""Lines made at random: as the text that is typed and, beside it, as a sympy expression.

The two are built side by side from one draw and never from each other, so a reading
mistake cannot hide in both.
"""

import random
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import sympy

X = sympy.Symbol("x", real=True)
RELS = ("=", "<", "≤", ">", "≥")
TURNED = {"=": "=", "<": ">", ">": "<", "≤": "≥", "≥": "≤"}


@dataclass(frozen=True)
class Side:
    """One side: its text, its meaning, and whether it is a sum (and needs a bracket to be multiplied)."""

    text: str
    meaning: Any
    is_sum: bool = False

    def in_bracket(self) -> str:
        return f"({self.text})"


@dataclass(frozen=True)
class Made:
    """One line with a relation."""

    left: Side
    rel: str
    right: Side

    @property
    def text(self) -> str:
        return f"{self.left.text} {self.rel} {self.right.text}"


def number(chance: random.Random) -> Fraction:
    kind = chance.random()
    whole = chance.randint(1, 15) * chance.choice((1, 1, -1))
    if kind < 0.7:
        return Fraction(whole)
    return Fraction(whole * 5 + 1, 10) if kind < 0.85 else Fraction(whole, chance.choice((2, 3, 4, 5, 8)))


def written(value: Fraction, chance: random.Random) -> str:
    """A number as a child writes it, in one of the ways there are."""
    if value.denominator == 1:
        return str(value.numerator)
    if value.denominator in (2, 4, 5, 8, 10) and chance.random() < 0.7:
        return f"{float(value):g}"
    if value > 1 and chance.random() < 0.3:
        whole, part = divmod(value, 1)
        return f"({whole} {part.numerator}/{part.denominator})"
    return f"({value.numerator}/{value.denominator})"


def exact(value: Fraction) -> Any:
    return sympy.Rational(value.numerator, value.denominator)


def constant(chance: random.Random, value: Fraction | None = None) -> Side:
    value = number(chance) if value is None else value
    return Side(written(value, chance), exact(value))


def term(chance: random.Random, depth: int) -> Side:
    """A term with or without x in it."""
    n, m = number(chance), number(chance)
    kind = chance.choice(("number", "x", "nx", "nx", "nx", "x/n", "n·x", "bracket", "over", "minus"))
    match kind:
        case "number":
            return constant(chance, n)
        case "x":
            return Side("x", X)
        case "nx":
            return Side(f"{written(n, chance)}x", exact(n) * X)
        case "x/n":
            below = chance.randint(2, 9)
            return Side(f"x/{below}", X / below)
        case "n·x":
            return Side(f"{written(n, chance)}{chance.choice((' · ', ' * ', '*'))}x", exact(n) * X)
        case _ if depth == 0:
            return Side(f"{written(m, chance)}x", exact(m) * X)
        case "bracket":
            inner = side(chance, depth - 1)
            return Side(f"{written(n, chance)}({inner.text})", exact(n) * inner.meaning)
        case "over":
            inner, below = side(chance, depth - 1), chance.randint(2, 6)
            return Side(f"({inner.text})/{below}", inner.meaning / below)
        case _:
            inner = side(chance, depth - 1)
            return Side(f"-({inner.text})", -inner.meaning)


def side(chance: random.Random, depth: int = 1) -> Side:
    """A sum of one to three terms."""
    made = term(chance, depth)
    text, meaning, many = made.text, made.meaning, chance.choice((0, 1, 1, 2))
    for _ in range(many):
        more = term(chance, depth)
        minus = chance.random() < 0.4
        # "3 - -4" and "3 + -4" are typed in brackets or bare: both are to be read.
        piece = f"({more.text})" if more.text.startswith("-") and chance.random() < 0.7 else more.text
        text += f" {'-' if minus else '+'} {piece}"
        meaning = meaning - more.meaning if minus else meaning + more.meaning
    return Side(text, meaning, many > 0)


def linear_line(chance: random.Random, rel: str = "=") -> Made:
    return Made(side(chance), rel, side(chance) if chance.random() < 0.5 else constant(chance))


def plainly(meaning: Any, chance: random.Random) -> Side:
    """A linear sum written out short: ``3x - 5``."""
    meaning = sympy.expand(meaning)
    times, rest = (Fraction(int(part.p), int(part.q)) for part in (meaning.coeff(X, 1), meaning.coeff(X, 0)))
    if not times:
        return constant(chance, rest)
    head = {Fraction(1): "x", Fraction(-1): "-x"}.get(times, f"{written(times, chance)}x")
    if not rest:
        return Side(head, meaning)
    tail = f" {'-' if rest < 0 else '+'} {written(abs(rest), chance)}"
    return Side(head + tail, meaning, True)


def moved(chance: random.Random, line: Made) -> Made:
    """One move on both sides, a right one."""
    n = number(chance)
    kind = chance.choice(("tidy", "add", "add x", "scale", "swap", "answer"))
    left, rel, right = line.left.meaning, line.rel, line.right.meaning
    match kind:
        case "add":
            left, right = left + exact(n), right + exact(n)
        case "add x":
            left, right = left + exact(n) * X, right + exact(n) * X
        case "scale":
            left, right = left * exact(n), right * exact(n)
            rel = TURNED[rel] if n < 0 else rel
        case "swap":
            left, rel, right = right, TURNED[rel], left
        case "answer":
            return answer(chance, line) or line
        case _:
            pass
    return Made(plainly(left, chance), rel, plainly(right, chance))


def answer(chance: random.Random, line: Made) -> Made | None:
    difference = sympy.expand(line.left.meaning - line.right.meaning)
    times, rest = difference.coeff(X, 1), difference.coeff(X, 0)
    if not times:
        return None
    value = -rest / times
    rel = TURNED[line.rel] if times < 0 else line.rel
    return Made(Side("x", X), rel, constant(chance, Fraction(int(value.p), int(value.q))))


def slipped(chance: random.Random, line: Made) -> Made:
    """The same line with something changed: wrong, or by luck still right (the oracle tells)."""
    n = number(chance)
    kind = chance.choice(("number", "number", "x", "sign", "rel"))
    right = line.right.meaning
    match kind:
        case "number":
            right = right + exact(n)
        case "x":
            right = right + exact(n) * X
        case "sign":
            right = -right
        case _ if line.rel == "=":
            right = right * 2
        case _:
            return Made(line.left, chance.choice(RELS[1:]), line.right)
    return Made(line.left, line.rel, plainly(right, chance))


def solution(line: Made) -> tuple[Any, ...]:
    """What a linear line says: ("x", relation, bound), or whether it always or never holds.

    The bound comes from sympy's own expansion and division.
    """
    difference = sympy.expand(line.left.meaning - line.right.meaning)
    times, rest = difference.coeff(X, 1), difference.coeff(X, 0)
    if times == 0:
        holds = {"=": rest == 0, "<": rest < 0, "≤": rest <= 0, ">": rest > 0, "≥": rest >= 0}[line.rel]
        return ("always",) if holds else ("never",)
    return "x", TURNED[line.rel] if times < 0 else line.rel, -rest / times
