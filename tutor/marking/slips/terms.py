"""Wrong moves with two terms of a sum: joined where they are not alike, or joined the wrong way."""

from collections.abc import Iterator

from tutor.line.poly import Mono, Number, Poly, Ratio
from tutor.marking.slips.pairs import Pair
from tutor.marking.slips.spots import Hit, show_unsigned


def joined_terms(pair: Pair) -> Iterator[Hit]:
    """Two single terms, of which at least one has a letter, made one term."""
    if pair.one is None or pair.two is None or pair.becomes_sum():
        return
    (a, m), (b, n) = pair.one, pair.two
    if m == n:
        if m:
            yield from _alike(pair, a, b, m)
    elif m == () or n == ():
        yield from _with_a_number(pair, a, b, m, n)
    else:
        yield from _two_kinds(pair, a, b, m, n)


def _term(coefficient: Number, mono: Mono) -> Ratio:
    return Ratio(Poly({mono: coefficient} if coefficient else {}))


def _times(m: Mono, n: Mono) -> Mono:
    product = Poly({m: 1}) * Poly({n: 1})
    ((mono, _),) = product.terms.items()
    return mono


def _alike(pair: Pair, a: Number, b: Number, m: Mono) -> Iterator[Hit]:
    one, two = show_unsigned(pair.first), show_unsigned(pair.second)
    letters = show_letters(m)
    if pair.gives(_term(a + b, _times(m, m))):
        message = (
            f"Maybe joining {one} and {two} made a square. They both count {letters}: what is counted then?"
        )
        yield Hit("like-terms-gain-a-square", message)
    if pair.gives(_term(a * b, m)) or pair.gives(_term(-a * b, m)):
        message = _one_left_out(pair, a, b, letters) or (
            f"Maybe the numbers of {one} and {two} were multiplied. What joins the two terms?"
        )
        yield Hit("coefficients-multiplied-not-added", message)
    if (b == -1 and pair.gives(_term(a, ()))) or (a == -1 and pair.gives(_term(b, ()))):
        message = f"Maybe the letter was taken off. How many {letters} are left when one {letters} goes?"
        yield Hit("one-x-vanishes", message)
    if pair.gives(_term(a * b, _times(m, m))):
        message = f"Maybe {one} and {two} were multiplied. Which sign stands between them?"
        yield Hit("sum-read-as-product", message, 2)


def _one_left_out(pair: Pair, a: Number, b: Number, letters: str) -> str:
    """``4x + x`` as ``4x``: nobody multiplies by the 1 that is not written. "" where there is none."""
    if 1 not in (abs(a), abs(b)):
        return ""
    alone, other = (pair.second, pair.first) if abs(b) == 1 else (pair.first, pair.second)
    many, minus = show_unsigned(other), a * b < 0
    if show_unsigned(alone) != letters or not many.removesuffix(letters).isdecimal():
        return f"Maybe {show_unsigned(alone)} was left out. What becomes of it?"
    asked = f"are left of {many} when one {letters} goes" if minus else f"are {many} and one {letters} more"
    return f"Maybe {letters} was left out. How many {letters} {asked}?"


def _with_a_number(pair: Pair, a: Number, b: Number, m: Mono, n: Mono) -> Iterator[Hit]:
    """One term has a letter, the other is a number."""
    one, two = show_unsigned(pair.first), show_unsigned(pair.second)
    mono, of_letter, number = (m, a, b) if m else (n, b, a)
    letters = show_letters(mono)
    product = pair.gives(_term(a * b, mono)) or (a * b < 0 and pair.gives(_term(-a * b, mono)))
    if pair.gives(_term(a + b, mono)):
        if number > 0 > of_letter:
            message = f"Maybe {two} was taken from {one}. Do both of them count {letters}?"
            yield Hit("number-minus-term-joined", message)
        else:
            message = f"Maybe {one} and {two} were joined to one term. Do both of them count {letters}?"
            yield Hit("unlike-terms-joined", message)
    if pair.gives(_term(a + b, ())) and a + b:
        message = (
            f"Maybe {one} and {two} were joined, and {letters} got lost. Do both of them count {letters}?"
        )
        yield Hit("unlike-terms-joined", message, 2)
    if product and abs(number) != 1:
        message = f"Maybe {one} and {two} were multiplied. Which sign stands between them?"
        yield Hit("sum-read-as-product", message)


def _two_kinds(pair: Pair, a: Number, b: Number, m: Mono, n: Mono) -> Iterator[Hit]:
    """Both terms have letters, other ones or other powers."""
    one, two = show_unsigned(pair.first), show_unsigned(pair.second)
    same_letters = {atom for atom, _ in m} == {atom for atom, _ in n}
    both = _times(m, n)
    if pair.gives(_term(a + b, both)) or any(pair.gives(_term(a + b, mono)) for mono in (m, n)):
        message = f"Maybe {one} and {two} were joined to one term. Do both count the same thing?"
        yield Hit("unlike-terms-joined" if same_letters else "different-letters-joined", message)
    if pair.gives(_term(a * b, both)):
        message = f"Maybe {one} and {two} were multiplied. Which sign stands between them?"
        yield Hit("sum-read-as-product", message)


def show_letters(mono: Mono) -> str:
    """Return the letters of a term as a message shows them."""
    return "".join(atom if power == 1 else f"{atom}^{power}" for atom, power in mono)
