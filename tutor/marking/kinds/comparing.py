"""Comparisons of three lengths as they are typed: ``4 cm + 6 cm > 9 cm``, ``no, 4 + 5 < 10``."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import assert_never

from tutor.line.meaning import Setting, UnitSystem, value_of
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.reader import Unread, read
from tutor.line.tree import (
    Add,
    Bare,
    Chain,
    Expr,
    Joined,
    Joiner,
    Measure,
    Note,
    Onward,
    Rel,
    Statement,
)
from tutor.line.walk import every
from tutor.marking.deciding.facts import facts
from tutor.marking.kinds.lines import unread
from tutor.marking.kinds.triangle import read_part
from tutor.marking.task import Task
from tutor.marking.verdict import Mark, Reason, Verdict
from tutor.quantity.dimension import LENGTH
from tutor.quantity.units import Unit, read_unit

_YES_NO = re.compile(r"\b(?:yes|no)\b", re.IGNORECASE)
# Not the "No" of "No two sides are equal".
_FIRST = re.compile(
    r"(?:so,? )?(yes|no)\b(?= ?$| ?[,.:;!–—-]| (?:because|since|as|it|they|these|this|that|there|\d))"
    r"[ ,.:;!–—-]*(?:(?:because|since|as)\b)? ?",
    re.IGNORECASE,
)
_LAST = re.compile(
    r"[ ,.:;?→⇒–—-]*(?:=>)? ?(?:(?:so|then|therefore|thus)\b[ ,]*)?"
    r"(?:(?:the answer|it) is )?\b(yes|no)[ .!]*$",
    re.IGNORECASE,
)
# The answer in other words; no remark such as "they do not have the same length".
_THEY = (
    r"(?:so |then )?"
    r"(?:(?:it|they|this|that|we|you|these|those)(?: three)?(?: (?:lengths|sides|struts|ones))? )?"
)
_MAKE = r"(?: (?:make|form|build|be|work|meet)\b.*)?"
_CANNOT = re.compile(
    rf"{_THEY}(?:(?:is|are) )?(?:not possible|impossible|(?:there is )?(?:no|not a) triangle"
    rf"|(?:can ?not|can['’]?t|will not|won['’]?t|do(?:es)? not|do(?:es)?n['’]?t){_MAKE})[ .!]*",
    re.IGNORECASE,
)
_CAN = re.compile(
    rf"{_THEY}(?:(?:is|are) )?(?:possible|there is (?:a|one) triangle|(?:can|do|does|will){_MAKE}"
    r"|works?|(?:makes?|forms?) (?:a |one )?triangle)[ .!]*",
    re.IGNORECASE,
)

_MOST_SIDES = 6


@dataclass(frozen=True)
class Three:
    """The three lengths of a task: sizes in millimetres, as written, and the units in them."""

    sizes: tuple[Fraction, ...]
    shown: tuple[str, ...]
    units: tuple[Unit, ...]

    @property
    def ordered(self) -> tuple[Fraction, ...]:
        """Return the sizes, the longest last."""
        return tuple(sorted(self.sizes))

    @property
    def meet(self) -> bool:
        """Tell whether there is a triangle: the two shorter sides together are longer than the longest."""
        short, middle, longest = self.ordered
        return short + middle > longest


@dataclass(frozen=True)
class Trial:
    """Two of the lengths together, set against the third: ``third`` and ``total`` in millimetres."""

    first: Fraction
    second: Fraction
    third: Fraction

    @property
    def reaches(self) -> bool:
        """Tell whether the two together are longer."""
        return self.first + self.second > self.third

    @property
    def of_the_longest(self) -> bool:
        """Tell whether the third length is the longest."""
        return self.third >= max(self.first, self.second)


@dataclass(frozen=True)
class Compared:
    """What a line compares: its trials of the lengths, whether it is true, the sums it works out.

    ``unequal``: it says = of two sides that are not equal.
    """

    trials: tuple[Trial, ...] = ()
    true: bool = True
    unequal: bool = False
    sums: tuple[tuple[Fraction, tuple[Fraction, Fraction]], ...] = ()
    statement: Statement | None = None


@lru_cache(maxsize=64)
def three_of(task: Task) -> tuple[Three | None, tuple[str, ...]]:
    """Return the three lengths of a task; None with what is wrong, in sentences for the teacher."""
    if len(task.lengths) != 3:
        return None, ("A triangle has three sides: three lengths stand here, with commas between them.",)
    plain = read_unit("mm")
    found = [read(text) for text in task.lengths]
    units = [
        unit
        for one in found
        if not isinstance(one, Unread)
        for unit in facts(one.statements[0]).units
        if unit.dimension == LENGTH
    ]
    # Lengths without any unit are compared as they stand.
    sizes = [read_part("a", text, None if units else plain) for text in task.lengths]
    faults = tuple(
        f"“{text[:40]}” is no length. Write it like 4 cm."
        for text, size in zip(task.lengths, sizes, strict=True)
        if isinstance(size, str)
    )
    if faults:
        return None, faults
    exact = tuple(size for size in sizes if not isinstance(size, str))
    return Three(exact, tuple(text.strip() for text in task.lengths), tuple(dict.fromkeys(units))), ()


# -- reading -------------------------------------------------------------------------------------


def taken_apart(text: str) -> tuple[str, bool | None]:
    """Return the comparison in a line and the yes or no in it: "no, 4 + 5 < 10" has both."""
    text = " ".join(text.split())
    has_number = any(sign.isdigit() for sign in text)
    found = _FIRST.match(text) or _LAST.search(text)
    if found is not None and len({one.lower() for one in _YES_NO.findall(text)}) == 1:
        rest = text[: found.start()] + text[found.end() :]
        return (rest if has_number else ""), found[1].lower() == "yes"
    if has_number:
        return text, None
    if _CANNOT.fullmatch(text):
        return "", False
    return "", True if _CAN.fullmatch(text) else None


def read_comparison(text: str, three: Three, before: list[Compared]) -> Compared | Mark:
    """Return what a line compares, or the mark of one that compares nothing. ``before``: the lines above.

    A bare number counts in whichever unit of the three lengths makes most of the line.
    """
    found = read(text.rstrip(" ?"))
    if isinstance(found, Unread):
        return unread(found.message, found.span)
    statement = found.statements[0]
    if isinstance(statement, Note):
        return Mark(Verdict.NOTE)
    full = _gone_on(statement, before) if isinstance(statement, Onward) else statement
    if not isinstance(full, Chain | Bare | Joined) or facts(full).names:
        return unread(f"Compare the lengths in numbers: {listed(three)}.", statement.span)
    area = next((unit for unit in facts(full).units if unit.dimension != LENGTH), None)
    if area is not None:
        message = f"{area} is a unit for {area.dimension.word}, and these are lengths."
        return Mark(Verdict.BREAKS, Reason.UNIT, None, message, statement.span)
    ways = [_compared_in(full, three, before, unit) for unit in three.units or (None,)]
    good = [way for way in ways if way is not None]
    if not good:
        return unread("Write each length as a plain number.", statement.span)
    return max(good, key=lambda way: (bool(way.trials), way.true))


def _gone_on(onward: Onward, before: list[Compared]) -> Chain | None:
    """``> 9`` under ``4 + 6``: the line goes on from the last side above."""
    above = before[-1].statement if before else None
    start = above.expr if isinstance(above, Bare) else above.sides[-1] if isinstance(above, Chain) else None
    return None if start is None else Chain((start, *onward.sides), onward.rels, onward.span)


def _compared_in(
    statement: Chain | Bare | Joined, three: Three, before: list[Compared], unit: Unit | None
) -> Compared | None:
    """Return what a line compares where its bare numbers count in ``unit``; None where one is no number."""
    if isinstance(statement, Joined):
        parts = [
            _compared_in(part, three, before, unit) for part in statement.parts if isinstance(part, Chain)
        ]
        good = [part for part in parts if part is not None]
        if len(good) < len(statement.parts) or statement.joiner is Joiner.OR:
            return None
        trials = tuple(trial for part in good for trial in part.trials)
        worked_out = tuple(one for part in good for one in part.sums)
        unequal = any(part.unequal for part in good)
        return Compared(trials, all(part.true for part in good), unequal, worked_out, statement)
    if isinstance(statement, Bare):
        return Compared(statement=statement)
    sides = [_terms(side, unit) for side in statement.sides[: _MOST_SIDES + 1]]
    known = [side for side in sides if side is not None]
    if len(known) < len(statement.sides):
        return None
    sums = {total: pair for one in before for total, pair in one.sums}
    true, unequal = True, False
    for left, rel, right in zip(known, statement.rels, known[1:], strict=False):
        held = _holds(sum(left), rel, sum(right))
        true, unequal = true and held, unequal or (rel.equates and not held)
        for one, other in ((left, right), (right, left)):
            if rel.equates and held and len(one) == 2 and len(other) == 1 and min(one) > 0:
                sums.setdefault(other[0], (one[0], one[1]))
    trials = tuple(dict.fromkeys(_trials_in(known, statement.rels, three, sums)))
    return Compared(trials, true, unequal, tuple(sums.items()), statement)


def _terms(side: Expr, unit: Unit | None) -> tuple[Fraction, ...] | None:
    """Return the terms of a side in millimetres, with their signs."""
    made: list[Fraction] = []
    for term in side.terms if isinstance(side, Add) else (side,):
        has_unit = any(isinstance(node, Measure) for node in every(term))
        counted = term if has_unit or unit is None else Measure(term, unit)
        try:
            constant = value_of(counted, _IN_MILLIMETRES).constant()
        except (NotExact, DividedByZero):
            return None
        value = None if constant is None else constant.rational()
        if value is None:
            return None
        made.append(Fraction(value))
    return tuple(made)


_IN_MILLIMETRES = Setting(units=UnitSystem(length=Fraction(1, 1000)))


def _holds(left: Fraction | int, rel: Rel, right: Fraction | int) -> bool:
    match rel:
        case Rel.EQ | Rel.APPROX:
            return left == right
        case Rel.LT:
            return left < right
        case Rel.LE:
            return left <= right
        case Rel.GT:
            return left > right
        case Rel.GE:
            return left >= right
        case Rel.NE:
            return left != right
        case _:
            assert_never(rel)


def _trials_in(
    sides: list[tuple[Fraction, ...]],
    rels: tuple[Rel, ...],
    three: Three,
    sums: Mapping[Fraction, tuple[Fraction, Fraction]],
) -> Iterator[Trial]:
    """Yield each setting of two given lengths against the third, between any two sides of a chain."""
    for start in range(len(sides)):
        for end in range(start + 1, len(sides)):
            kinds = {rel for rel in rels[start:end] if not rel.equates}
            if Rel.NE in kinds or (kinds & {Rel.LT, Rel.LE} and kinds & {Rel.GT, Rel.GE}):
                continue
            for left in _opened(sides[start], sums):
                for right in _opened(sides[end], sums):
                    trial = _trial((*left, *(-term for term in right)), three)
                    if trial is not None:
                        yield trial


def _opened(
    side: tuple[Fraction, ...], sums: Mapping[Fraction, tuple[Fraction, Fraction]]
) -> Iterator[tuple[Fraction, ...]]:
    """Yield a side as it stands, and with the sum put back that a line worked out: 10 for 4 + 6."""
    yield side
    if len(side) == 1 and side[0] in sums:
        yield sums[side[0]]


def _trial(terms: tuple[Fraction, ...], three: Three) -> Trial | None:
    """Return the trial in three terms brought to one side: two with one sign, the third with the other."""
    if len(terms) != 3 or tuple(sorted(map(abs, terms))) != three.ordered:
        return None
    above = [term for term in terms if term > 0]
    below = [-term for term in terms if term < 0]
    pair, alone = (above, below) if len(above) == 2 else (below, above)
    return Trial(min(pair), max(pair), alone[0]) if len(pair) == 2 else None


def listed(three: Three) -> str:
    """Return the three lengths as they are given."""
    return f"{three.shown[0]}, {three.shown[1]} and {three.shown[2]}"
