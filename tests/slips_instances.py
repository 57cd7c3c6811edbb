"""Instances of the wrong moves, made without the matcher: numbers and letters drawn, the move done by hand.

Each maker returns the lines and draws its numbers again where the wrong move would be right by accident.
"""

import random
from collections.abc import Callable, Iterator
from fractions import Fraction

Lines = list[str]
Maker = Callable[["Draw"], "Lines | None"]
MAKERS: dict[str, list[Maker]] = {}


class Draw:
    """Draws numbers, letters and ways of writing."""

    def __init__(self, seed: str) -> None:
        self.random = random.Random(seed)
        self.letter = self.random.choice("xyntkwpaz")

    def whole(self, low: int = 2, high: int = 12) -> Fraction:
        return Fraction(self.random.randint(low, high))

    def number(self, low: int = 2, high: int = 30) -> Fraction:
        """A whole number, sometimes a decimal."""
        if self.random.random() < 0.2:
            return Fraction(self.random.randint(low * 10, high * 10), 10)
        return self.whole(low, high)

    def signed(self, low: int = 2, high: int = 30) -> Fraction:
        value = self.number(low, high)
        return -value if self.random.random() < 0.3 else value

    def coin(self, share: float = 0.5) -> bool:
        return self.random.random() < share

    def equation(self, left: str, right: str) -> str:
        return f"{right} = {left}" if self.coin(0.25) else f"{left} = {right}"


def num(value: Fraction) -> str:
    """A number as a student writes it: 7, −2.5, 5/3."""
    if value.denominator == 1:
        return str(value.numerator)
    if 10**4 % value.denominator == 0:
        return str(float(value))
    return f"{value.numerator}/{value.denominator}"


def term(a: Fraction, x: str) -> str:
    """``3x``, ``x``, ``-x``, ``(2/3)x``."""
    if a == 1:
        return x
    if a == -1:
        return f"-{x}"
    text = num(a)
    return f"({text}){x}" if "/" in text else text + x


def plus(first: str, value: Fraction, x: str = "") -> str:
    """One more term, a number or so many x, behind a sum."""
    if not value:
        return first
    shown = term(abs(value), x) if x else num(abs(value))
    return f"{first} {'-' if value < 0 else '+'} {shown}"


def linear(a: Fraction, x: str, b: Fraction = Fraction(0)) -> str:
    """``3x + 4``."""
    return plus(term(a, x), b) if a else num(b)


def maker(name: str) -> Callable[[Maker], Maker]:
    def keep(function: Maker) -> Maker:
        MAKERS.setdefault(name, []).append(function)
        return function

    return keep


def instances(name: str, count: int) -> Iterator[Lines]:
    """Yield so many instances of a slip, the makers taking turns."""
    makers, made, seed = MAKERS[name], 0, 0
    while made < count:
        lines = makers[seed % len(makers)](Draw(f"{name} {seed}"))
        seed += 1
        if lines is not None:
            made += 1
            yield lines


def solved(d: Draw, x: Fraction, wrong: Fraction, before: str) -> "Lines | None":
    """Straight to the value of the unknown."""
    return None if x == wrong else [before, d.equation(d.letter, num(wrong))]


# -- inverse operation -----------------------------------------------------------------------


@maker("mult-undone-by-subtracting")
def _(d: Draw) -> Lines | None:
    a, b = d.number(2, 9), d.signed(2, 60)
    wrong = f"{num(b)} - {num(a)}" if d.coin(0.3) else num(b - a)
    if b - a == b / a:
        return None
    return [d.equation(term(a, d.letter), num(b)), d.equation(d.letter, wrong)]


@maker("mult-undone-by-multiplying")
def _(d: Draw) -> Lines | None:
    a, b = d.number(2, 9), d.signed(2, 40)
    return solved(d, b / a, a * b, d.equation(term(a, d.letter), num(b)))


@maker("quotient-upside-down")
def _(d: Draw) -> Lines | None:
    a, b = d.whole(2, 9), d.whole(2, 60)
    if a == b or a * a == b * (b - a) or a / b == b - a:
        return None
    wrong = f"{num(a)}/{num(b)}" if d.coin() else num(a / b)
    return [d.equation(term(a, d.letter), num(b)), d.equation(d.letter, wrong)]


@maker("div-undone-by-dividing")
def _(d: Draw) -> Lines | None:
    a, b = d.whole(2, 9), d.number(2, 60)
    return solved(d, b * a, b / a, d.equation(f"{d.letter}/{num(a)}", num(b)))


@maker("plus-undone-by-adding")
def _(d: Draw) -> Lines | None:
    a, b = d.number(2, 60), d.signed(2, 150)
    left = f"{num(a)} + {d.letter}" if d.coin(0.3) else linear(Fraction(1), d.letter, a)
    wrong = f"{num(b)} + {num(a)}" if d.coin(0.3) else num(b + a)
    return [d.equation(left, num(b)), d.equation(d.letter, wrong)]


@maker("minus-undone-by-subtracting")
def _(d: Draw) -> Lines | None:
    a, b = d.number(2, 60), d.signed(2, 150)
    wrong = f"{num(b)} - {num(a)}" if d.coin(0.3) else num(b - a)
    return [d.equation(linear(Fraction(1), d.letter, -a), num(b)), d.equation(d.letter, wrong)]


@maker("take-off-one-side-add-to-other")
def _(d: Draw) -> Lines | None:
    a, b = d.number(2, 60), d.signed(2, 150)
    c = d.whole(2, 9) if d.coin(0.3) else Fraction(1)
    before = linear(c, d.letter, a)
    return [f"{before} = {num(b)}", f"{before} - {num(a)} = {num(b)} + {num(a)}"]


@maker("constant-removed-one-side-only")
def _(d: Draw) -> Lines | None:
    a, b, c = d.number(1, 9), d.signed(2, 30), d.signed(2, 60)
    return [d.equation(linear(a, d.letter, b), num(c)), d.equation(term(a, d.letter), num(c))]


@maker("coefficient-removed-one-side-only")
def _(d: Draw) -> Lines | None:
    a, b = d.number(2, 9), d.signed(2, 60)
    return [d.equation(term(a, d.letter), num(b)), d.equation(d.letter, num(b))]


@maker("divide-only-the-x-term")
def _(d: Draw) -> Lines | None:
    a, b, c = d.number(2, 9), d.signed(2, 30), d.signed(2, 60)
    return [d.equation(linear(a, d.letter, b), num(c)), d.equation(plus(d.letter, b), num(c / a))]


@maker("divide-left-side-only-fully")
def _(d: Draw) -> Lines | None:
    a, k, c = d.whole(2, 9), d.whole(2, 9), d.signed(2, 60)
    b = -a * k if d.coin(0.3) else a * k
    return [d.equation(linear(a, d.letter, b), num(c)), d.equation(plus(d.letter, b / a), num(c))]


@maker("multiply-only-the-fraction-term")
def _(d: Draw) -> Lines | None:
    a, b, c = d.whole(2, 9), d.signed(2, 30), d.signed(2, 60)
    left = plus(f"{d.letter}/{num(a)}", b)
    return [d.equation(left, num(c)), d.equation(plus(d.letter, b), num(a * c))]


@maker("all-numbers-to-one-side")
def _(d: Draw) -> Lines | None:
    a, b, c = d.number(2, 9), d.number(2, 30), d.number(2, 90)
    return solved(d, (c - b) / a, c - b - a, d.equation(linear(a, d.letter, b), num(c)))


@maker("insert-inside-bracket")
def _(d: Draw) -> Lines | None:
    a, b, c = d.number(2, 9), d.number(1, 20), d.number(2, 60)
    x = d.letter
    before = f"{num(a)}({x} + {num(b)}) = {num(c)}"
    if d.coin():
        return [before, f"{num(a)}({x} + {num(b)} - {num(b)}) = {num(c)} - {num(b)}"]
    return [before, f"{term(a, x)} = {num(c - b)}"]


@maker("insert-against-factor")
def _(d: Draw) -> Lines | None:
    a, b, c = d.whole(2, 9), d.whole(1, 20), d.whole(2, 9)
    if a == c:
        return None
    bracket = f"({d.letter} + {num(b)})"
    taken = f"{num(a)}{bracket}"
    return [f"{taken} = {num(c)}{bracket}", f"{num(a)} - {taken} = {num(c)} - {taken}"]


@maker("subtract-in-opposite-orders")
def _(d: Draw) -> Lines | None:
    a, b, c, x = d.whole(2, 9), d.whole(2, 9), d.signed(2, 30), d.letter
    if a in (b, 2 * b, b - 1) or b == 2 * a:
        return None
    before = f"{term(a, x)} = {linear(b, x, c)}"
    if d.coin():
        return [before, f"{term(b, x)} - {term(a, x)} = {term(b, x)} - {linear(b, x, c)}"]
    return [before, f"{term(b - a, x)} = {num(c)}"]


@maker("variable-to-other-side-unchanged-sign")
def _(d: Draw) -> Lines | None:
    a, b, c, e, x = d.whole(2, 9), d.signed(2, 30), d.whole(1, 9), d.signed(2, 30), d.letter
    if a == c or e == b:
        return None
    before = d.equation(linear(a, x, b), linear(c, x, e))
    if d.coin():
        return [before, d.equation(term(a + c, x), num(e - b))]
    return [before, d.equation(linear(a + c, x, b), num(e))]


@maker("constant-across-unchanged-sign")
def _(d: Draw) -> Lines | None:
    a, b, c = d.number(2, 9), d.number(2, 30), d.number(2, 60)
    if b == c:
        return None
    wrong = f"{num(c)} - {num(b)}" if d.coin(0.3) else num(c - b)
    return [d.equation(linear(a, d.letter, -b), num(c)), d.equation(term(a, d.letter), wrong)]


@maker("two-step-order-reversed")
def _(d: Draw) -> Lines | None:
    a, b, k = d.whole(2, 9), d.signed(2, 30), d.whole(2, 12)
    c = a * k
    if c / a - b == c - b - a:
        return None
    return solved(d, (c - b) / a, c / a - b, d.equation(linear(a, d.letter, b), num(c)))


# -- sign ------------------------------------------------------------------------------------


@maker("opposite-of-x-read-as-x")
def _(d: Draw) -> Lines | None:
    b = d.signed(2, 30)
    return [d.equation(f"-{d.letter}", num(b)), d.equation(d.letter, num(b))]


@maker("number-minus-x-reversed")
def _(d: Draw) -> Lines | None:
    a, b = d.number(2, 30), d.number(2, 30)
    if a == b:
        return None
    wrong = f"{num(b)} - {num(a)}" if d.coin(0.3) else num(b - a)
    return [d.equation(f"{num(a)} - {d.letter}", num(b)), d.equation(d.letter, wrong)]


@maker("negative-minus-x")
def _(d: Draw) -> Lines | None:
    a, b = d.number(2, 30), d.number(2, 30)
    return solved(d, -a - b, b - a, d.equation(f"-{num(a)} - {d.letter}", num(b)))


@maker("always-subtract-across")
def _(d: Draw) -> Lines | None:
    a, b, c, x = d.whole(2, 9), d.number(2, 30), d.signed(2, 30), d.letter
    if b == c:
        return None
    return [f"{linear(a, x, -b)} = {linear(Fraction(1), x, c)}", f"{term(a - 1, x)} = {num(c - b)}"]


@maker("sign-dropped-when-dividing")
def _(d: Draw) -> Lines | None:
    a, b = d.whole(2, 9), d.number(2, 60)
    if b / a == b + a or b / a == b - a:
        return None
    return [d.equation(f"-{term(a, d.letter)}", num(b)), d.equation(d.letter, num(b / a))]


@maker("numeral-detached-from-its-minus")
def _(d: Draw) -> Lines | None:
    a, b, c, x = d.whole(2, 40), d.whole(2, 20), d.whole(2, 20), d.letter
    if d.coin():
        return [f"{x} + {num(a)} - {num(b)} + {num(c)}", f"{x} + {num(a)} - {num(b + c)}"]
    if d.coin():
        return [f"{num(a)} - {num(b)} + {num(c)} = {num(a - b - c)}"]
    e = d.number(2, 60)
    return [f"{x} + {num(a)} - {num(b)} + {num(c)} = {num(e)}", f"{plus(x, a - b - c)} = {num(e)}"]


@maker("double-minus-ignored")
def _(d: Draw) -> Lines | None:
    a, b = d.number(2, 30), d.number(2, 30)
    if d.coin(0.3):
        c, x = d.number(2, 40), d.letter
        return [f"{x} - (-{num(b)}) = {num(c)}", f"{x} - {num(b)} = {num(c)}"]
    return _same_line(d, f"{num(a)} - (-{num(b)})", num(a - b))


def _same_line(d: Draw, before: str, after: str) -> Lines:
    """The two sides in one line, under one another, or as the value of a name."""
    way = d.random.choice(["one", "two", "name"])
    if way == "one":
        return [f"{before} = {after}"]
    return [before, after] if way == "two" else [f"A = {before}", f"A = {after}"]


@maker("two-minuses-make-a-plus-in-a-sum")
def _(d: Draw) -> Lines | None:
    a, b = d.number(2, 30), d.number(2, 30)
    before = f"-{num(a)} + (-{num(b)})" if d.coin(0.7) else f"-{num(a)} - {num(b)}"
    return _same_line(d, before, num(a + b))


@maker("sign-of-first-number-kept")
def _(d: Draw) -> Lines | None:
    a, b = d.number(2, 30), d.number(3, 40)
    return _same_line(d, f"-{num(a)} + {num(b)}", num(a - b)) if b > a else None


@maker("neg-times-neg-stays-neg")
def _(d: Draw) -> Lines | None:
    a, b = d.number(2, 12), d.number(2, 12)
    before = d.random.choice(
        [f"(-{num(a)})*(-{num(b)})", f"-{num(a)} · (-{num(b)})", f"(-{num(a)})(-{num(b)})"]
    )
    return _same_line(d, before, num(-a * b))


@maker("subtraction-treated-as-commutative")
def _(d: Draw) -> Lines | None:
    a, x = d.number(2, 30), d.letter
    if d.coin(0.3):
        b = d.number(2, 30)
        return [f"{num(a)} - {x} = {num(b)}", f"{x} - {num(a)} = {num(b)}"]
    c = d.whole(1, 9)
    return [f"{num(a)} - {term(c, x)}", f"{term(c, x)} - {num(a)}"]


@maker("smaller-from-larger")
def _(d: Draw) -> Lines | None:
    a, b = d.number(2, 30), d.number(3, 40)
    return _same_line(d, f"{num(a)} - {num(b)}", num(b - a)) if a < b else None


# -- like terms ------------------------------------------------------------------------------


@maker("unlike-terms-joined")
def _(d: Draw) -> Lines | None:
    a, b, x = d.whole(2, 12), d.whole(2, 12), d.letter
    if a * b == a + b:
        return None
    before = linear(a, x, b) if d.coin(0.7) else f"{num(b)} + {term(a, x)}"
    if d.coin(0.3):
        c = a + b + d.whole(2, 60)
        return [d.equation(before, num(c)), d.equation(term(a + b, x), num(c))]
    return [before, term(a + b, x)]


@maker("sum-read-as-product")
def _(d: Draw) -> Lines | None:
    a, x = d.number(2, 20), d.letter
    before = f"{num(a)} + {x}" if d.coin(0.6) else f"{x} + {num(a)}"
    if d.coin(0.3):
        c = d.number(2, 60)
        return [d.equation(before, num(c)), d.equation(term(a, x), num(c))]
    return [before, term(a, x)]


@maker("number-minus-term-joined")
def _(d: Draw) -> Lines | None:
    a, b, x = d.whole(3, 20), d.whole(2, 12), d.letter
    if a == b:
        return None
    if d.coin(0.3):
        c = d.number(2, 60)
        if (a - b) * (a - c) == b * c:
            return None
        return [d.equation(f"{num(a)} - {term(b, x)}", num(c)), d.equation(term(a - b, x), num(c))]
    return [f"{num(a)} - {term(b, x)}", term(a - b, x)]


@maker("one-x-vanishes")
def _(d: Draw) -> Lines | None:
    a, x = d.whole(2, 12), d.letter
    if d.coin(0.3):
        b = d.whole(2, 12)
        return [f"{term(a, x)} - {x} + {num(b)}", num(a + b)]
    return [f"{term(a, x)} - {x}", num(a)]


@maker("like-terms-gain-a-square")
def _(d: Draw) -> Lines | None:
    a, b, x = d.whole(1, 12), d.whole(2, 12), d.letter
    return [f"{term(a, x)} + {term(b, x)}", f"{term(a + b, x)}^2"]


@maker("different-letters-joined")
def _(d: Draw) -> Lines | None:
    a, b = d.whole(1, 12), d.whole(2, 12)
    x, y = d.random.sample("abnqwxyz", 2)
    return [f"{term(a, x)} + {term(b, y)}", f"{num(a + b)}{x}{y}"]


@maker("coefficients-multiplied-not-added")
def _(d: Draw) -> Lines | None:
    a, b, x = d.whole(2, 12), d.whole(2, 12), d.letter
    if a * b == a + b:
        return None
    if d.coin(0.3):
        c = d.number(2, 60)
        return [f"{term(a, x)} + {term(b, x)} = {num(c)}", f"{term(a * b, x)} = {num(c)}"]
    return [f"{term(a, x)} + {term(b, x)}", term(a * b, x)]


# -- distribution ----------------------------------------------------------------------------


def _in_work(d: Draw, before: str, after: str, after_rest: Fraction | None = None) -> Lines:
    """The changed part alone, in an equation, beside another term."""
    way = d.random.choice(["alone", "alone", "equation", "beside"])
    if way == "alone":
        return [before, after]
    c = d.number(2, 60)
    if way == "equation":
        return [d.equation(before, num(c)), d.equation(after, num(c))]
    e = d.whole(2, 20)
    return [f"{before} + {num(e)} = {num(c)}", f"{after} + {num(e)} = {num(c)}"]


@maker("first-term-only")
def _(d: Draw) -> Lines | None:
    a, b, k, x = d.number(2, 9), d.signed(2, 12), d.whole(1, 5), d.letter
    return _in_work(d, f"{num(a)}({linear(k, x, b)})", linear(a * k, x, b))


@maker("first-term-only")
def _(d: Draw) -> Lines | None:
    a, b, e, c, x = d.whole(2, 9), d.whole(2, 12), d.whole(2, 12), d.whole(10, 60), d.letter
    return [f"{num(a)}({x} + {num(b)}) + {num(e)} = {num(c)}", f"{linear(a, x, b + e)} = {num(c)}"]


@maker("second-term-only")
def _(d: Draw) -> Lines | None:
    a, b, x = d.number(2, 9), d.signed(2, 12), d.letter
    return _in_work(d, f"{num(a)}({linear(Fraction(1), x, b)})", linear(Fraction(1), x, a * b))


@maker("factor-added")
def _(d: Draw) -> Lines | None:
    a, b, x = d.number(2, 9), d.signed(2, 12), d.letter
    if a + b == a * b or a + b == 0:
        return None
    return _in_work(d, f"{num(a)}({linear(Fraction(1), x, b)})", linear(Fraction(1), x, a + b))


@maker("bracket-joined-first")
def _(d: Draw) -> Lines | None:
    a, b, x = d.number(2, 9), d.whole(2, 12), d.letter
    return _in_work(d, f"{num(a)}({x} + {num(b)})", term(a * b, x))


@maker("negative-reaches-first-term-only")
def _(d: Draw) -> Lines | None:
    b, k, x = d.signed(2, 12), d.whole(1, 5), d.letter
    if d.coin(0.4):
        e = d.whole(3, 20)
        return [f"{num(e)} - ({linear(k, x, b)})", f"{num(e)} - {linear(k, x, b)}"]
    return _in_work(d, f"-({linear(k, x, b)})", linear(-k, x, b))


@maker("negative-factor-second-sign-lost")
def _(d: Draw) -> Lines | None:
    a, b, x = d.whole(2, 9), d.number(2, 12), d.letter
    return _in_work(d, f"-{num(a)}({x} + {num(b)})", linear(-a, x, a * b))


@maker("minus-times-minus-in-bracket")
def _(d: Draw) -> Lines | None:
    a, b, c, x = d.whole(2, 30), d.whole(2, 9), d.number(2, 12), d.letter
    before = f"{num(a)} - {num(b)}({x} - {num(c)})"
    if d.coin(0.3):
        return [before, f"{plus(num(a - b * c), -b, x)}"]
    return [before, f"{num(a)} - {term(b, x)} - {num(b * c)}"]


@maker("subtract-before-bracket")
def _(d: Draw) -> Lines | None:
    a, b, c, x = d.whole(4, 30), d.whole(2, 9), d.number(2, 12), d.letter
    if a - b in (0, 1):
        return None
    return [f"{num(a)} - {num(b)}({x} + {num(c)})", f"{num(a - b)}({x} + {num(c)})"]


@maker("factor-spread-over-a-product")
def _(d: Draw) -> Lines | None:
    a, b, x = d.whole(2, 9), d.whole(2, 12), d.letter
    after = f"{num(a * b)} * {term(a, x)}" if d.coin(0.6) else f"({num(a * b)})({term(a, x)})"
    return [f"{num(a)}({term(b, x)})", after]


@maker("square-spread-over-a-sum")
def _(d: Draw) -> Lines | None:
    a, x = d.whole(2, 12), d.letter
    if d.coin(0.3):
        return [f"({x} - {num(a)})^2", f"{x}^2 + {num(a * a)}" if d.coin() else f"{x}^2 - {num(a * a)}"]
    return [f"({x} + {num(a)})^2", f"{x}^2 + {num(a * a)}" if d.coin() else f"{x}^2 + {num(a)}^2"]


# -- equality run-on -------------------------------------------------------------------------


@maker("running-equals")
def _(d: Draw) -> Lines | None:
    a, b, c, e = d.whole(2, 20), d.whole(2, 20), d.whole(2, 9), d.whole(2, 9)
    first, second = a + b, a + b + c
    if d.coin():
        line = f"{num(a)} + {num(b)} = {num(first)} + {num(c)} = {num(second)} - {num(e)} = {num(second - e)}"
        return [f"{num(a)} + {num(b)} + {num(c)} - {num(e)}", line] if d.coin() else [line]
    return [f"{num(a)} * {num(b)} = {num(a * b)} + {num(c)} = {num(a * b + c)}"]


@maker("answer-comes-next")
def _(d: Draw) -> Lines | None:
    a, b, c, x = d.whole(2, 20), d.whole(2, 20), d.whole(2, 20), d.letter
    return [f"{num(a)} + {num(b)} = {x} + {num(c)}", f"{x} = {num(a + b)}"]


@maker("answer-then-carry-on")
def _(d: Draw) -> Lines | None:
    a, b, c = d.whole(2, 20), d.whole(2, 20), d.whole(2, 20)
    whole, left = a + b + c, f"{num(a)} + {num(b)} + {num(c)}"
    x = d.random.choice(["?", d.letter])
    return [f"{left} = {x} + {num(c)}", f"{left} = {num(whole)} + {num(c)} = {num(whole + c)}"]


@maker("solution-chain-on-one-line")
def _(d: Draw) -> Lines | None:
    a, b, x, k = d.whole(2, 9), d.whole(2, 20), d.letter, d.whole(2, 12)
    c = a * k + b
    chain = f"{linear(a, x, b)} = {num(c)} - {num(b)} = {num(c - b)} / {num(a)} = {num(k)}"
    return [f"{linear(a, x, b)} = {num(c)}", chain]


@maker("identity-called-x-equals-0")
def _(d: Draw) -> Lines | None:
    a, b, c, x = d.whole(2, 9), d.whole(2, 9), d.whole(1, 9), d.letter
    return [d.equation(f"{num(a)}({linear(b, x, c)})", linear(a * b, x, a * c)), f"{x} = 0"]


@maker("contradiction-called-a-solution")
def _(d: Draw) -> Lines | None:
    a, b, c, x, e = d.whole(2, 9), d.whole(2, 9), d.whole(1, 9), d.letter, d.whole(1, 9)
    return [f"{num(a)}({linear(b, x, c)}) = {linear(a * b, x, a * c + e)}", f"{x} = {num(e)}"]


# -- fraction --------------------------------------------------------------------------------


def _two_fractions(d: Draw) -> tuple[Fraction, Fraction, Fraction, Fraction] | None:
    b, e = d.whole(2, 12), d.whole(2, 12)
    a, c = d.whole(1, int(b)), d.whole(1, int(e))
    return None if b == e or a == b or c == e else (a, b, c, e)


@maker("tops-and-bottoms-added")
def _(d: Draw) -> Lines | None:
    drawn = _two_fractions(d)
    if drawn is None:
        return None
    a, b, c, e = drawn
    if (a + c) / (b + e) in ((a + c) / max(b, e), a + c):
        return None
    return _same_line(d, f"{num(a)}/{num(b)} + {num(c)}/{num(e)}", f"{num(a + c)}/{num(b + e)}")


@maker("tops-only-added")
def _(d: Draw) -> Lines | None:
    drawn = _two_fractions(d)
    if drawn is None:
        return None
    a, b, c, e = drawn
    return _same_line(d, f"{num(a)}/{num(b)} + {num(c)}/{num(e)}", num(a + c))


@maker("larger-denominator-kept")
def _(d: Draw) -> Lines | None:
    b, k = d.whole(2, 6), d.whole(2, 4)
    e = b * k
    a, c = d.whole(1, int(b) - 1), d.whole(1, int(e) - 1)
    return _same_line(d, f"{num(a)}/{num(b)} + {num(c)}/{num(e)}", f"{num(a + c)}/{num(e)}")


@maker("whole-number-multiplies-both-parts")
def _(d: Draw) -> Lines | None:
    n, a, b = d.whole(2, 9), d.whole(1, 9), d.whole(2, 9)
    if a % b == 0:
        return None
    before = d.random.choice([f"{num(n)}*({num(a)}/{num(b)})", f"{num(n)} · {num(a)}/{num(b)}"])
    return _same_line(d, before, f"{num(n * a)}/{num(n * b)}")


@maker("cancel-through-a-sum")
def _(d: Draw) -> Lines | None:
    a, b, x = d.whole(2, 9), d.signed(2, 20), d.letter
    if abs(b) == a:
        return None
    return _in_work(d, f"({linear(a, x, b)})/{num(a)}", linear(Fraction(1), x, b))


@maker("cancel-a-term")
def _(d: Draw) -> Lines | None:
    a, x, k = d.whole(2, 20), d.letter, d.whole(1, 5)
    if k == a:
        return None
    return _in_work(d, f"({linear(k, x, a)})/{num(a)}", term(k, x))


@maker("fraction-coefficient-multiplied-again")
def _(d: Draw) -> Lines | None:
    p, q, b = d.whole(1, 9), d.whole(2, 9), d.whole(2, 30)
    if p % q == 0 or b * p / q == b - p / q:
        return None
    before = d.random.choice([f"({num(p)}/{num(q)}){d.letter}", f"{num(p)}/{num(q)} {d.letter}"])
    return [d.equation(before, num(b)), d.equation(d.letter, num(b * p / q))]


@maker("denominator-divided-not-multiplied")
def _(d: Draw) -> Lines | None:
    p, q, b = d.whole(2, 9), d.whole(2, 9), d.whole(2, 30)
    if p % q == 0:
        return None
    before = f"{term(p, d.letter)}/{num(q)}"
    return [d.equation(before, num(b)), d.equation(term(p, d.letter), num(b / q))]


# -- exponent --------------------------------------------------------------------------------


def _power_line(d: Draw, before: str, after: str) -> Lines:
    """By itself, or as a part of a longer calculation."""
    if d.coin(0.3):
        e = num(d.whole(2, 20))
        return _same_line(d, f"{before} + {e}", f"{after} + {e}")
    return _same_line(d, before, after)


@maker("square-as-double")
def _(d: Draw) -> Lines | None:
    a = d.number(3, 20)
    if d.coin(0.2):
        return [f"{d.letter}^2", f"2{d.letter}"]
    return _power_line(d, f"{num(a)}^2", num(2 * a) if d.coin() else f"2*{num(a)}")


@maker("cube-as-triple")
def _(d: Draw) -> Lines | None:
    a = d.whole(4, 12)
    return _power_line(d, f"{num(a)}^3", num(3 * a) if d.coin() else f"3*{num(a)}")


@maker("base-and-exponent-swapped")
def _(d: Draw) -> Lines | None:
    a, b = d.whole(2, 9), d.whole(3, 6)
    if a == b or a**b == b**a or a**b == a * b or b**a == a * b:
        return None
    return _power_line(d, f"{num(a)}^{num(b)}", num(Fraction(int(b) ** int(a))))


@maker("minus-inside-the-power")
def _(d: Draw) -> Lines | None:
    a = d.number(2, 12)
    return _power_line(d, f"-{num(a)}^2", num(a * a) if d.coin() else f"(-{num(a)})^2")


@maker("coefficient-squared-too")
def _(d: Draw) -> Lines | None:
    k, r = d.random.choice([Fraction(314, 100), d.whole(2, 9)]), d.whole(2, 12)
    if k == r:
        return None
    return _same_line(d, f"{num(k)}*{num(r)}^2", f"({num(k)}*{num(r)})^2" if d.coin() else num((k * r) ** 2))


@maker("root-as-half")
def _(d: Draw) -> Lines | None:
    a = d.whole(3, 15)
    return _power_line(d, f"sqrt({num(a * a)})", num(a * a / 2))


_TRIPLES = [(3, 4, 5), (5, 12, 13), (8, 15, 17), (6, 8, 10), (7, 24, 25), (9, 12, 15)]


@maker("sum-of-squares-rooted-termwise")
def _(d: Draw) -> Lines | None:
    a, b, _c = d.random.choice(_TRIPLES)
    if d.coin(0.4):
        a, b = int(d.whole(2, 15)), int(d.whole(2, 15))
    if d.coin(0.3):
        return _same_line(d, f"√({a * a} + {b * b})", str(a + b))
    return _same_line(d, f"sqrt({a}^2 + {b}^2)", str(a + b) if d.coin() else f"{a} + {b}")


@maker("hypotenuse-without-root")
def _(d: Draw) -> Lines | None:
    a, b = int(d.whole(2, 15)), int(d.whole(2, 15))
    after = str(a * a + b * b) if d.coin() else f"{a}^2 + {b}^2"
    if d.coin(0.3):
        return [f"c^2 = {a}^2 + {b}^2", f"c = {a * a + b * b}"]
    return _same_line(d, f"sqrt({a}^2 + {b}^2)", after)


# -- arithmetic slip -------------------------------------------------------------------------


@maker("fact-slip")
def _(d: Draw) -> Lines | None:
    a, b = int(d.whole(3, 9)), int(d.whole(3, 9))
    wrong = d.random.choice([a * (b + 1), a * (b - 1), (a + 1) * b, (a - 1) * b, (a - 1) * (b + 1)])
    if wrong in (a * b, a + b, 2 * (a + b)) or 4 in (a, b):
        return None
    return _same_line(d, f"{a}*{b}", str(wrong))


@maker("copy-slip")
def _(d: Draw) -> Lines | None:
    a, b, x = d.whole(2, 9), d.whole(11, 20), d.letter
    c = int(d.whole(21, 98))
    turned = int(str(c)[::-1])
    if turned == c:
        return None
    return [f"{linear(a, x, b)} = {c}", f"{linear(a, x, b)} = {turned}"]


@maker("copy-slip")
def _(d: Draw) -> Lines | None:
    a, b, c, x = d.whole(2, 9), d.whole(11, 20), d.whole(21, 98), d.letter
    return [f"{linear(a, x, b)} = {num(c)}", f"{linear(a, x, -b)} = {num(c)}"]


@maker("left-to-right-only")
def _(d: Draw) -> Lines | None:
    a, b, c = d.whole(2, 20), d.whole(2, 9), d.whole(2, 9)
    if d.coin(0.3):
        e = d.whole(2, 9)
        return _same_line(d, f"{num(a)} + {num(b)}*{num(c)} - {num(e)}", num((a + b) * c - e))
    if d.coin(0.3):
        return _same_line(d, f"{num(a)} - {num(b)}*{num(c)}", num((a - b) * c)) if a - b else None
    return _same_line(d, f"{num(a)} + {num(b)}*{num(c)}", num((a + b) * c))


@maker("early-rounding")
def _(d: Draw) -> Lines | None:
    b, c = Fraction(d.random.randint(11, 99), 10), d.whole(2, 12)
    part = Fraction(314, 100) * b
    near = Fraction(round(part))
    if near == part:
        return None
    before = f"3.14*{num(b)}*{num(c)}"
    return [before, f"{num(near)}*{num(c)}"] if d.coin() else [f"A = {before}", f"A = {num(near * c)}"]


@maker("place-value-slip")
def _(d: Draw) -> Lines | None:
    a, b = Fraction(d.random.randint(11, 99), 10), Fraction(d.random.randint(11, 99), 10)
    wrong = a * b * 10 if d.coin(0.6) else a * b / 10
    return _same_line(d, f"{num(a)}*{num(b)}", num(wrong))
