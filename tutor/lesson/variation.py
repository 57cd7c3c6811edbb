"""What ``vary`` and ``where`` say: which numbers a problem may be drawn with."""

from __future__ import annotations

import hashlib
import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from tutor.lesson.amounts import Condition, decimal_text, read_condition
from tutor.lesson.entries import Content
from tutor.lesson.keywords import Keyword
from tutor.lesson.model import Fault
from tutor.lesson.naming import is_name
from tutor.lesson.outline import Card
from tutor.lesson.source import Phrase, Source
from tutor.quantity.pi import Pi
from tutor.visible import spelled

MOST_VALUES = 1000  # of one name
MOST_NAMES = 8
MOST_CONDITIONS = 8
# No more draws than this are looked at for one that fulfils the conditions.
MOST_LOOKED_AT = 1024


@dataclass(frozen=True, slots=True)
class Range:
    """One varied name and its values: ``count`` of them from ``first`` in steps, or those of a list.

    A long range is not written out: a lesson may have a thousand of them.
    """

    name: str
    first: Fraction
    step: Fraction
    count: int
    listed: tuple[tuple[Fraction, str], ...] = ()

    def at(self, place: int) -> tuple[Fraction, str]:
        """Return a value, as a number and as it is written."""
        if self.listed:
            return self.listed[place]
        value = self.first + self.step * place
        return value, decimal_text(value) or str(value)

    @property
    def texts(self) -> tuple[str, ...]:
        """Return all values as they are written."""
        return tuple(self.at(place)[1] for place in range(self.count))

    @property
    def values(self) -> tuple[Fraction, ...]:
        """Return all values."""
        return tuple(self.at(place)[0] for place in range(self.count))


@dataclass(slots=True)
class Effort:
    """How much trying of numbers is left for one lesson, in conditions worked out.

    A lesson of a school hour needs a few hundred; without an end a hostile one would take minutes.
    """

    left: int = 20_000


@dataclass(frozen=True, slots=True)
class Draw:
    """One value for each varied name."""

    values: tuple[tuple[str, Fraction], ...]
    texts: tuple[tuple[str, str], ...]

    def __str__(self) -> str:
        """Return it as a teacher reads it: ``r = 4.5, h = 10``."""
        return ", ".join(f"{name} = {text}" for name, text in self.texts)


@dataclass(frozen=True, slots=True)
class Variation:
    """The numbers a problem may be drawn with. ``whole_answers``: every answer must be whole."""

    ranges: tuple[Range, ...]
    conditions: tuple[Condition, ...]
    whole_answers: bool
    pi: Pi

    @property
    def names(self) -> frozenset[str]:
        """Return the varied names."""
        return frozenset(one.name for one in self.ranges)

    @property
    def size(self) -> int:
        """Return how many draws there are before the conditions."""
        return math.prod(one.count for one in self.ranges)

    def at(self, index: int) -> Draw | None:
        """Return draw number ``index`` of ``size``; None where a condition does not hold."""
        values: list[tuple[str, Fraction]] = []
        texts: list[tuple[str, str]] = []
        for one in self.ranges:
            index, place = divmod(index, one.count)
            value, text = one.at(place)
            values.append((one.name, value))
            texts.append((one.name, text))
        numbers = dict(values)
        if not all(condition.holds(numbers, self.pi) for condition in self.conditions):
            return None
        return Draw(tuple(values), tuple(texts))

    def sequence(self, *key: object) -> Iterator[Draw]:
        """Yield draws in an order that ``key`` settles, the same on every machine.

        Each comes once. Of many, no more than ``MOST_LOOKED_AT`` are looked at.
        """
        return (draw for draw in self.looked_at(*key) if draw is not None)

    def looked_at(self, *key: object) -> Iterator[Draw | None]:
        """Yield what ``sequence`` does, with a None for each draw that a condition leaves out."""
        digest = hashlib.sha256("\x1f".join(map(str, key)).encode("utf-8", "surrogatepass")).digest()
        size = self.size
        start, stride = _walk(digest, size)
        for step in range(min(size, MOST_LOOKED_AT)):
            yield self.at((start + step * stride) % size)


def _walk(digest: bytes, count: int) -> tuple[int, int]:
    """Return where to begin and how far to step so that ``count`` steps come to every place once."""
    half = len(digest) // 2
    start = int.from_bytes(digest[:half], "big") % count
    stride = 1 + int.from_bytes(digest[half:], "big") % count
    while math.gcd(stride, count) != 1:
        stride += 1
    return start, stride


def every_draw(variation: Variation) -> tuple[Draw, ...] | None:
    """Return all draws that the conditions allow; None where there are too many to go through."""
    if variation.size > MOST_LOOKED_AT:
        return None
    found = (variation.at(index) for index in range(variation.size))
    return tuple(draw for draw in found if draw is not None)


# -- reading ---------------------------------------------------------------------------------


def read_variation(
    source: Source, card: Card, pi: Pi, effort: Effort
) -> tuple[Variation | None, list[Fault]]:
    """Return what a problem's card says of its numbers, None where they do not vary."""
    faults: list[Fault] = []
    if Keyword.VARY in card.unread:  # a name whose numbers cannot be read would be named as not varied
        return None, faults
    ranges: list[Range] = []
    for content in card.all(Keyword.VARY):
        found = _range(source, content)
        if isinstance(found, Fault):
            faults.append(found)
        elif any(one.name == found.name for one in ranges):
            message = f"“{found.name}” is varied twice. Take one away."
            faults.append(source.fault(content.first.start, message))
        else:
            ranges.append(found)
    if len(ranges) > MOST_NAMES:
        message = f"At most {MOST_NAMES} names can be varied in one problem."
        return None, [*faults, source.fault(card.all(Keyword.VARY)[MOST_NAMES].first.start, message)]
    wheres = card.all(Keyword.WHERE)
    if len(wheres) > MOST_CONDITIONS:
        message = f"At most {MOST_CONDITIONS} conditions can stand in one problem."
        return None, [*faults, source.fault(wheres[MOST_CONDITIONS].entry.offset, message)]
    names = frozenset(one.name for one in ranges)
    conditions: list[Condition] = []
    whole_answers = False
    for content in wheres:
        written = content.first
        if not ranges:
            if not faults:
                message = "A condition needs numbers that vary, and nothing varies here."
                faults.append(source.fault(content.entry.offset, message, Keyword.VARY.example))
        elif re.fullmatch(r"(the )?answers?( is| are)?( a)? whole( numbers?)?", written.text.casefold()):
            whole_answers = True
        elif not faults:  # a name whose range could not be read would be named as not varied
            condition = read_condition(written.text, names)
            if isinstance(condition, Condition):
                conditions.append(condition)
            else:
                faults.append(source.fault(written.start, condition, _condition_meant(written.text, names)))
    if not ranges or faults:
        return None, faults
    variation = Variation(tuple(ranges), tuple(conditions), whole_answers, pi)
    message = _hard_to_draw(variation, effort)
    return (None, [source.fault(wheres[0].first.start, message)]) if message else (variation, [])


def _hard_to_draw(variation: Variation, effort: Effort) -> str:
    """Return what to say where no numbers can be drawn, or where it takes too long; "" where all is well."""
    for draw in variation.looked_at("any"):
        if draw is not None:
            return ""
        effort.left -= len(variation.conditions)
        if effort.left < 0:
            return TOO_FEW
    return "No numbers of the ranges above fulfil all conditions. Widen a range or drop a condition."


TOO_FEW = "Too few numbers of this lesson fulfil its conditions. Make the ranges fit the conditions better."


def _condition_meant(text: str, names: frozenset[str]) -> str:
    """Return the condition that was meant, as it is read, "" where it cannot be told."""
    words = " ".join(text.split())[:_QUOTED]
    for said, sign in (("is not", "!="), ("not", "!="), ("<>", "!="), ("is", "=")):
        words = re.sub(rf"\s+{said}\s+(?=[\d.])", f" {sign} ", words)
    first = re.split(r"\s+and\s+", words)[0]
    even = re.fullmatch(r"(\w+)(?: is| =)? (even|odd)", first)
    if even is not None:
        first = f"{even[1]}/2 whole" if even[2] == "even" else f"({even[1]} + 1)/2 whole"
    if "answer" in text.casefold():
        return Keyword.WHERE.written("answer whole")
    return Keyword.WHERE.written(first) if isinstance(read_condition(first, names), Condition) else ""


_QUOTED = 200


def _range(source: Source, content: Content) -> Range | Fault:
    name, *numbers = content.parts
    if not is_name(name.text) or " " in name.text:
        return source.fault(
            name.start, f"“{spelled(name.text[:40])}” cannot be varied: a varied name is a letter or a word."
        )
    read = [_number(source, number) for number in numbers]
    for found in read:
        if isinstance(found, Fault):
            return found
    values = [value for value in read if isinstance(value, Fraction)]
    if _is_list(content):
        if len(set(values)) < len(values):
            once = ", ".join(dict.fromkeys(number.text for number in numbers))
            message = "The list has a number twice. Take one away."
            return source.fault(numbers[0].start, message, Keyword.VARY.written(f"{name.text} in {once}"))
        listed = tuple(zip(values, map(_written, numbers), strict=True))
        return Range(name.text, values[0], Fraction(0), len(listed), listed)
    return _steps(source, name, numbers, values)


def _is_list(content: Content) -> bool:
    rest = content.entry.body[len(content.first.text) :]
    return re.match(r"\s*in\b", rest) is not None


def _written(number: Phrase) -> str:
    return number.text.replace("-", "−").lstrip("+")


def _number(source: Source, written: Phrase) -> Fraction | Fault:
    text = written.text.replace("−", "-")
    if re.fullmatch(r"[-+]?(\d{1,12}(\.\d{1,6})?|\.\d{1,6}|\d{1,6}/0*[1-9]\d{0,5})", text):
        return Fraction(text)
    return source.fault(written.start, "This is no number that can be drawn. Write it like 4, 0.5 or 1/2.")


def _steps(source: Source, name: Phrase, numbers: list[Phrase], values: list[Fraction]) -> Range | Fault:
    first, last, step = (*values, Fraction(1))[:3]
    if step <= 0:
        message = "The step must be more than 0."
        usual = f"{name.text} from {numbers[0].text} to {numbers[1].text} step {abs(step) or 1}"
        return source.fault(numbers[2].start, message, Keyword.VARY.written(usual))
    if last < first:
        step_text = f" step {numbers[2].text}" if len(numbers) > 2 else ""
        return source.fault(
            numbers[0].start,
            "The first number is larger than the last.",
            Keyword.VARY.written(f"{name.text} from {numbers[1].text} to {numbers[0].text}{step_text}"),
        )
    if (last - first) / step >= MOST_VALUES:
        message = f"One name takes at most {MOST_VALUES} values. Make the range shorter or the step larger."
        return source.fault(numbers[0].start, message)
    if decimal_text(first) is None or decimal_text(step) is None:
        message = "Some of these numbers have no ending decimal. Write them as a list: “in 1/3, 2/3”."
        return source.fault(numbers[-1].start, message)
    return Range(name.text, first, step, int((last - first) / step) + 1)
