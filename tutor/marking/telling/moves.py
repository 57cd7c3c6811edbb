"""What was done to a side of a line: the moves a teacher has a word for.

A move takes the value of a side to its value in the next line: something added or taken
away, multiplied or divided, squared or rooted, or two of these. A move is only ever named
where it gives exactly the new value.
"""

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from tutor.line.poly import ONE, Mono, Number, Poly, Ratio, number_in
from tutor.line.writing import write_number, write_poly

MOST_LETTERS = 16
POWERS = {2: ("squared", "square root taken"), 3: ("cubed", "cube root taken")}


@dataclass(frozen=True)
class Op:
    """``((side + first) · factor) + last``; or the side to a power, or a root of it.

    ``root``: what the new value has to be raised to so that the old one is had.
    """

    first: Poly | None = None
    factor: Ratio | None = None
    last: Poly | None = None
    power: int = 1
    root: int = 1

    @property
    def kept(self) -> bool:
        """Tell whether nothing was done."""
        return self == KEPT

    @property
    def cost(self) -> int:
        """Return how much there is to say of it: 0 for nothing or one thing, more for more."""
        steps = sum(len(amount.terms) for amount in (self.first, self.last) if amount is not None)
        return max(0, steps + (self.factor is not None) - 1)

    def words(self) -> str | None:
        """Return what a teacher says of it, None where that is too long to be plain."""
        known = self.__dict__  # a lock for each, as cached_property takes it, costs more than the words
        if "said" not in known:
            known["said"] = self._words()
        return known["said"]  # type: ignore[no-any-return]

    def _words(self) -> str | None:
        if self.power > 1:
            return POWERS[self.power][0]
        if self.root > 1:
            return POWERS[self.root][1]
        said = [
            None if self.first is None else said_added(self.first),
            None if self.factor is None else said_factor(self.factor),
            None if self.last is None else said_added(self.last),
        ]
        wanted = [self.first is not None, self.factor is not None, self.last is not None]
        if any(want and not one for want, one in zip(wanted, said, strict=True)):
            return None
        return ", then ".join(one for one in said if one)

    def applied(self, side: Ratio) -> Ratio | None:
        """Return what the move makes of another side, None where that cannot be told here."""
        if self.root > 1:
            return None
        if self.power > 1:
            return Ratio(side.above.power(self.power), side.below.power(self.power))
        if self.first is not None:
            side = side + Ratio(self.first)
        if self.factor is not None:
            side = side * self.factor
        return side if self.last is None else side + Ratio(self.last)

    def applied_to_number(self, number: Number) -> Number | None:
        """Return what adding and scaling make of a number, None where that is no number."""
        first, last = (0 if amount is None else amount.rational() for amount in (self.first, self.last))
        factor = 1 if self.factor is None else number_in(self.factor)
        if first is None or last is None or factor is None:
            return None
        return (number + first) * factor + last


KEPT = Op()


# -- words -------------------------------------------------------------------------------------


def say(value: Number) -> str:
    """Return a number with the minus that is printed in books."""
    return write_number(value).replace("-", "−")


def nice(value: Number) -> bool:
    """Tell whether a child can say this number: a short decimal or a small fraction."""
    if type(value) is int:
        return -1_000_000 < value < 1_000_000
    return len(write_number(value).lstrip("-")) <= 6


def said_added(amount: Poly) -> str | None:
    """Return ``15 taken away``, ``2x added and 4 taken away``; None where it is too much to say."""
    if len(amount.terms) == 1:
        ((mono, value),) = amount.terms.items()
        if not nice(value):
            return None
        said = f"{_written(mono, -value)} taken away" if value < 0 else f"{_written(mono, value)} added"
        return said if len(said) <= MOST_LETTERS + 18 else None
    if len(amount.terms) != 2 or not all(nice(value) for value in amount.terms.values()):
        return None
    up, down = _parts(amount, 1), _parts(amount, -1)
    pieces = [f"{' and '.join(found)} {how}" for found, how in ((up, "added"), (down, "taken away")) if found]
    said = " and ".join(pieces)
    return said if len(said) <= MOST_LETTERS + 18 else None


def _parts(amount: Poly, sign: int) -> list[str]:
    """Return the terms of one sign, letters first, written without it."""
    terms = [(mono, value) for mono, value in amount.terms.items() if value * sign > 0]
    terms.sort(key=lambda term: term[0] == ())
    return [_written(mono, -value if value < 0 else value) for mono, value in terms]


# The amounts of school work are few, and each is written for many lines.
@lru_cache(maxsize=1024)
def _written(mono: Mono, size: Number) -> str:
    return write_poly(Poly({mono: size}))


def said_factor(factor: Ratio) -> str | None:
    """Return ``multiplied by 4``, ``divided by 2π``; None where it is too much to say."""
    value = rational_of(factor)
    if value is not None:
        return _said_number(value)
    for ratio, how in ((factor, "multiplied by"), (_turned_over(factor), "divided by")):
        if ratio.below != ONE or len(ratio.above.terms) > 2 or not ratio.above:
            continue
        text = write_poly(ratio.above)
        if all(nice(one) for one in ratio.above.terms.values()) and len(text) <= MOST_LETTERS:
            return f"{how} ({text})" if len(ratio.above.terms) > 1 else f"{how} {text}"
    return None


@lru_cache(maxsize=1024)
def _said_number(value: Fraction) -> str | None:
    if value in (0, 1):
        return None
    over = 1 / value
    less, more = _effort(value), _effort(over)
    multiplied = less < more or (less == more and abs(value) >= 1)
    by, how = (value, "multiplied by") if multiplied else (over, "divided by")
    return f"{how} {say(by)}" if nice(by) else None


def _effort(value: Fraction) -> int:
    """Return how much there is to write: 3 before 1/3, 4/3 before 0.75."""
    text = write_number(value)
    return len(text) + ("/" in text)


def _turned_over(factor: Ratio) -> Ratio:
    return Ratio(ONE).over(factor) if factor.above else factor


def rational_of(ratio: Ratio) -> Fraction | None:
    """Return the value of a side that is a rational number, as a fraction."""
    value = number_in(ratio)
    return None if value is None else Fraction(value)
