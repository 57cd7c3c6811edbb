"""Which draws of a problem are tried: all where they are few, else those at the edges and a sample."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import islice

from tutor.lesson.fresh import Template
from tutor.lesson.variation import Draw, Range, Variation

# Places of the draws are gone through one by one up to this many times the draws that are wanted.
_GONE_THROUGH = 3

# Values of more than one name that hide a slip: 2 + 2 = 2 · 2, and a square of side 4 has P = A.
_SUSPECTS = (Fraction(2), Fraction(4), Fraction(1), Fraction(3))


@dataclass(frozen=True, slots=True)
class Tries:
    """The draws that are tried, (None,) where nothing varies. ``every``: there are no others.

    ``size``: how many there are before the conditions.
    """

    draws: tuple[Draw | None, ...]
    every: bool
    size: int


def tries(template: Template, name: str, most: int) -> Tries:
    """Return up to ``most`` draws of a problem, the same on every machine."""
    variation = template.variation
    if variation is None:
        return Tries((None,), True, 1)
    if variation.size <= most * _GONE_THROUGH:
        found = [draw for at in range(variation.size) if (draw := variation.at(at)) is not None]
        if len(found) <= most:
            return Tries(tuple(found), True, variation.size)
    chosen = dict.fromkeys(_edges(variation))
    looked_at = islice(variation.looked_at("audit", name), most * _GONE_THROUGH)
    chosen |= dict.fromkeys(draw for draw in looked_at if draw is not None)
    # Where conditions leave few, one was found when the lesson was read.
    found_before = chosen or variation.sequence("any")
    return Tries(tuple(islice(found_before, most)), False, variation.size)


def _edges(variation: Variation) -> Iterator[Draw]:
    """Yield the smallest and the largest numbers, then equal ones and those that often hide a slip."""
    ranges = variation.ranges
    wanted = [[0] * len(ranges), [one.count - 1 for one in ranges]]
    equal = [ranges[0].at(0)[0], *(one.at(0)[0] for one in ranges[1:])]
    for value in (*_SUSPECTS, max(equal)):
        places = [_place(one, value) for one in ranges]
        if any(place is not None for place in places):
            wanted.append([place or 0 for place in places])
    for places_wanted in wanted:
        draw = variation.at(_index(variation, places_wanted))
        if draw is not None:
            yield draw


def _place(one: Range, value: Fraction) -> int | None:
    """Return where a value stands among those of a name, None where it does not."""
    if one.listed:
        return next((at for at, (listed, _text) in enumerate(one.listed) if listed == value), None)
    steps = (value - one.first) / one.step
    return int(steps) if steps.denominator == 1 and 0 <= steps < one.count else None


def _index(variation: Variation, places: Sequence[int]) -> int:
    index = 0
    for one, place in zip(reversed(variation.ranges), reversed(places), strict=True):
        index = index * one.count + place
    return index
