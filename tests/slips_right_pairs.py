"""Pairs of right lines, drawn at random: the line below says the same as the line above."""

import math
import random
from collections.abc import Callable, Iterator
from fractions import Fraction

from slips_instances import linear, num, plus, term


def right_pairs(count: int, seed: int) -> Iterator[list[str]]:
    """Yield so many pairs of right lines; some come as one line with both sides."""
    draw = random.Random(seed)
    kinds = (
        _equation,
        _equation,
        _both_sides,
        _bracket,
        _expression,
        _numbers,
        _fractions,
        _powers,
        _squares,
    )
    for at in range(count):
        yield kinds[at % len(kinds)](draw)


def _n(draw: random.Random, low: int = 1, high: int = 12) -> Fraction:
    value = Fraction(draw.randint(low, high))
    if draw.random() < 0.15:
        value = Fraction(draw.randint(low * 10, high * 10), 10)
    return -value if draw.random() < 0.3 else value


def _ordered(draw: random.Random, left: str, right: str) -> str:
    return f"{right} = {left}" if draw.random() < 0.25 else f"{left} = {right}"


def _equation(draw: random.Random) -> list[str]:
    """``3x + 4 = 19`` and a right line below it."""
    a, b, x, name = _n(draw), _n(draw), _n(draw), draw.choice("xynk")
    c = a * x + b
    before = _ordered(draw, linear(a, name, b), num(c))
    after = draw.choice(
        [
            _ordered(draw, term(a, name), num(c - b)),
            _ordered(draw, name, num(x)),
            _ordered(draw, name, f"({plus(num(c), -b)})/({num(a)})"),
            _ordered(draw, plus(name, b / a), num(c / a)),
            f"{linear(a, name, b)} {'-' if b > 0 else '+'} {num(abs(b))} = {plus(num(c), -b)}",
            _ordered(draw, linear(2 * a, name, 2 * b), num(2 * c)),
            _ordered(draw, linear(-a, name, -b), num(-c)),
            f"{linear(a, name, b - c)} = 0",
        ]
    )
    return [before, after]


def _both_sides(draw: random.Random) -> list[str]:
    """``5x + 4 = 2x + 10``."""
    a, c, b, d, name = _n(draw), _n(draw), _n(draw), _n(draw), draw.choice("xynk")
    if a == c:
        c += 1
    before = f"{linear(a, name, b)} = {linear(c, name, d)}"
    after = draw.choice(
        [
            f"{term(a - c, name)} = {num(d - b)}",
            f"{linear(a - c, name, b)} = {num(d)}",
            f"{term(a, name)} = {linear(c, name, d - b)}",
            f"{num(b - d)} = {term(c - a, name)}",
            f"{name} = {num((d - b) / (a - c))}",
            f"{linear(c, name, d)} = {linear(a, name, b)}",
        ]
    )
    return [before, after]


def _bracket(draw: random.Random) -> list[str]:
    """``3(x + 2) + 5 = 20``, multiplied out, or the bracket alone."""
    a, k, b, e, name = _n(draw), _n(draw, 1, 4), _n(draw), _n(draw), draw.choice("xynk")
    c = a * (k * _n(draw) + b) + e
    bracket = f"{num(a)}({linear(k, name, b)})"
    before = f"{plus(bracket, e)} = {num(c)}"
    after = draw.choice(
        [
            f"{plus(linear(a * k, name, a * b), e)} = {num(c)}",
            f"{linear(a * k, name, a * b + e)} = {num(c)}",
            f"{bracket} = {num(c - e)}",
            f"{linear(k, name, b)} = {num((c - e) / a)}",
        ]
    )
    if draw.random() < 0.3:
        return [bracket, linear(a * k, name, a * b)]
    return [before, after]


def _expression(draw: random.Random) -> list[str]:
    """Like terms collected, a minus before a bracket, a square multiplied out."""
    a, b, c, name = _n(draw), _n(draw), _n(draw), draw.choice("xynk")
    made: list[Callable[[], list[str]]] = [
        lambda: [plus(plus(term(a, name), b, name), c), linear(a + b, name, c) if a + b else num(c)],
        lambda: [f"{num(a)} - ({linear(b, name, c)})", plus(num(a - c), -b, name)],
        lambda: [f"({linear(Fraction(1), name, a)})^2", plus(plus(f"{name}^2", 2 * a, name), a * a)],
        lambda: [f"({linear(a, name, b)})/{num(abs(c))}", linear(a / abs(c), name, b / abs(c))],
        lambda: [f"{num(a)}({term(b, name)})", term(a * b, name)],
    ]
    return draw.choice(made)()


def _numbers(draw: random.Random) -> list[str]:
    """Numbers worked out, in one line or under one another."""
    a, b, c, d = _n(draw), _n(draw), _n(draw), _n(draw)
    before, value = draw.choice(
        [
            (f"{plus(num(a), b)} * ({num(c)})", a + b * c),
            (plus(plus(plus(num(a), b), c), d), a + b + c + d),
            (f"({num(a)})*({num(b)})", a * b),
            (f"{num(a)} - ({num(b)})", a - b),
            (f"({plus(num(a), b)})*({num(c)})", (a + b) * c),
            (f"3.14*({num(a)})*({num(b)})", Fraction(314, 100) * a * b),
        ]
    )
    return draw.choice(
        [[before, num(value)], [f"{before} = {num(value)}"], [f"A = {before}", f"A = {num(value)}"]]
    )


def _fractions(draw: random.Random) -> list[str]:
    a, b, c, d = (draw.randint(1, 9) for _ in range(4))
    whole = Fraction(a, b) + Fraction(c, d)
    common = math.lcm(b, d)
    before = f"{a}/{b} + {c}/{d}"
    after = draw.choice(
        [
            f"{whole.numerator}/{whole.denominator}",
            f"{a * common // b}/{common} + {c * common // d}/{common}",
            f"{a * common // b + c * common // d}/{common}",
        ]
    )
    if draw.random() < 0.3:
        product = Fraction(a * b, c)
        return [f"{a}*({b}/{c})", f"{product.numerator}/{product.denominator}"]
    return [f"{before} = {after}"] if draw.random() < 0.4 else [before, after]


def _powers(draw: random.Random) -> list[str]:
    a, b, n = draw.randint(1, 12), draw.randint(1, 12), draw.choice((2, 3))
    made = [
        [f"{a}^{n}", str(a**n)],
        [f"-{a}^2", str(-a * a)],
        [f"(-{a})^2 = {a * a}"],
        [f"{b}*{a}^{n}", str(b * a**n)],
        [f"sqrt({a * a}) = {a}"],
        [f"sqrt({a * a}) + {b}", str(a + b)],
        [f"A = 3.14*{a}^2", f"A = {num(Fraction(314, 100) * a * a)}"],
    ]
    return draw.choice(made)


def _squares(draw: random.Random) -> list[str]:
    """Inequalities and squares, two answers."""
    a, b, x = draw.randint(1, 9), draw.randint(1, 20), draw.randint(1, 12)
    made = [
        [f"{a}x + {b} < {a * x + b}", f"{a}x < {a * x}"],
        [f"{a}x + {b} < {a * x + b}", f"x < {x}"],
        [f"-{a}x >= {a * x}", f"x <= -{x}"],
        [f"x^2 = {x * x}", f"x = {x} or x = -{x}"],
        [f"{a}x^2 = {a * x * x}", f"x^2 = {x * x}"],
        [f"x/{a} = {x}", f"x = {a * x}"],
        [f"({a}/{x})y = {b}", f"y = {b}*{x}/{a}"],
    ]
    return draw.choice(made)
