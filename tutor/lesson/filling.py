"""A card with the numbers of one draw put in the place of its braces."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from tutor.lesson.amounts import MOST_DECIMALS, Amount, decimal_text, read_amount
from tutor.lesson.entries import Content
from tutor.lesson.keywords import FILLED, Keyword
from tutor.lesson.model import Fault
from tutor.lesson.outline import Card
from tutor.lesson.source import Phrase, Source
from tutor.lesson.variation import Draw
from tutor.line.walk import names_in
from tutor.quantity.pi import Pi
from tutor.quantity.units import read_unit

BRACES = re.compile(r"\{([^{}]*)\}")
_SIGN_BEFORE = re.compile(r"([-+−]) ?$")
_LETTER = r"[^\W\d_⁰¹²³⁴-⁹]"
_LETTER_BEHIND = re.compile(rf"(?:({_LETTER})(?!{_LETTER})|\()")
_FACTOR_BEHIND = re.compile(rf" ?({_LETTER}+|[(√|])")
_POWER_BEHIND = re.compile(r" ?(?:\^|\*\*|[⁰¹²³⁴-⁹])")
_FACTOR_BEFORE = re.compile(rf"(?:[\d)\]²³π]|(?<!{_LETTER}){_LETTER}) *$")
_UNDER_BEFORE = re.compile(r"[/÷^_] ?$")
_DIVIDED_BY = re.compile(r"[/÷] ?$")
_DIGIT_BEFORE = re.compile(r"[\d.}]$")
_DIGIT_BEHIND = re.compile(r"\d|\.\d")
# What is read as mathematics. Elsewhere a number in braces may stand in any sentence.
_MATHEMATICS = frozenset({Keyword.FORMULA, Keyword.EQUATION, Keyword.PIECE, Keyword.GIVEN, Keyword.SHOW})


@dataclass(frozen=True, slots=True)
class _Filler:
    """The numbers to put in. ``shown``: names whose braces show a given, which is done later."""

    source: Source
    draw: Draw
    pi: Pi
    shown: frozenset[str]
    mathematics: bool = False

    @property
    def values(self) -> Mapping[str, Fraction]:
        return dict(self.draw.values)

    @property
    def names(self) -> frozenset[str]:
        return frozenset(name for name, _value in self.draw.values)

    def worked(self, text: str) -> str | _Trouble:
        """Return the number an expression comes to, as it is written."""
        inner = text.strip()
        drawn = dict(self.draw.texts).get(inner)
        if drawn is not None:
            return drawn
        amount = read_amount(inner, self.names)
        if not isinstance(amount, Amount):
            return _Trouble(amount)
        value = amount.value(self.values, self.pi)
        if value is None:
            under = amount.divided_by_zero(self.values, self.pi)
            if under:
                return self.divides_by_zero(under)
            return _Trouble(f"With {self.draw} this has no value that can be written as a number.")
        shown = decimal_text(value)
        if shown is not None:
            return shown
        return _Trouble(
            f"With {self.draw} this comes to {_fraction(value)}, which has no ending decimal of "
            f"{MOST_DECIMALS} places. Change the numbers, or leave such draws out with “where”.",
        )

    def divides_by_zero(self, under: str) -> _Trouble:
        """Return what to say of a draw in which an expression is 0 that something is divided by."""
        message = f"With {self.draw} something is divided by 0 here. Leave such numbers out."
        return _Trouble(message, Keyword.WHERE.written(f"{under} != 0"))


@dataclass(frozen=True, slots=True)
class _Trouble:
    message: str
    instead: str = ""


def fill(source: Source, card: Card, draw: Draw, pi: Pi) -> tuple[Card, list[Fault]]:
    """Return the card with numbers in the place of its braces, and what could not be worked out."""
    givens = frozenset(content.first.text for content in card.all(Keyword.GIVEN))
    filler = _Filler(source, draw, pi, givens)
    faults: list[Fault] = []
    filled = Card(card.head, dict(card.seen), {}, set(card.unread))
    for keyword, contents in card.read.items():
        if keyword not in FILLED:
            filled.read[keyword] = contents
            continue
        filled.read[keyword] = [_content(filler, keyword, content, faults) for content in contents]
    return filled, faults


def _content(filler: _Filler, keyword: Keyword, content: Content, faults: list[Fault]) -> Content:
    shown = filler.shown if keyword in (Keyword.ASK, Keyword.PART, Keyword.REASON) else frozenset()
    filler = replace(filler, mathematics=keyword in _MATHEMATICS)
    parts = tuple(_phrase(filler, part, shown, faults) for part in content.parts)
    tail = None if content.tail is None else _phrase(filler, content.tail, shown, faults)
    if keyword is Keyword.GIVEN and tail is not None and tail.text == (content.tail or tail).text:
        tail = _without_braces(filler, tail, faults)
    return replace(content, parts=parts, tail=tail)


def _phrase(filler: _Filler, phrase: Phrase, shown: Collection[str], faults: list[Fault]) -> Phrase:
    """Put numbers into one phrase; each stands where its braces stood."""
    pieces = list(_pieces(filler, phrase, shown, faults))
    if not any(isinstance(found, str) for _start, _end, found in pieces):
        return phrase
    text = ""
    offsets: list[int] = []
    at = 0

    def keep(until: int) -> None:
        nonlocal text, at
        text += phrase.text[at:until]
        offsets.extend(phrase.offsets[at:until])
        at = until

    for start, end, number in pieces:
        if number is None:
            continue
        keep(start)
        place = phrase.at(start)
        behind = phrase.text[end:]
        if _in_brackets(number, text, behind, mathematics=filler.mathematics):
            number = f"({number})"
        else:
            number, text = _signed(number, text)
            number = _one(number, text, behind)
        text += number
        offsets.extend([place] * (len(text) - len(offsets)))
        at = end
    keep(len(phrase.text))
    return Phrase(text, tuple(offsets), phrase.end)


def _pieces(
    filler: _Filler, phrase: Phrase, shown: Collection[str], faults: list[Fault]
) -> Iterator[tuple[int, int, str | None]]:
    for found in BRACES.finditer(phrase.text):
        inner = found[1].strip()
        if inner in shown:
            yield found.start(), found.end(), None
            continue
        number = filler.worked(inner)
        if isinstance(number, _Trouble):
            faults.append(filler.source.fault(phrase.at(found.start()), number.message, number.instead))
            yield found.start(), found.end(), None
        elif number == "0" and filler.mathematics and _DIVIDED_BY.search(phrase.text[: found.start()]):
            trouble = filler.divides_by_zero(inner)
            faults.append(filler.source.fault(phrase.at(found.start()), trouble.message, trouble.instead))
            yield found.start(), found.end(), None
        elif filler.mathematics and _glued(phrase.text[: found.start()], phrase.text[found.end() :]):
            message = f"{found[0]} and the number beside it would be read as one number. {_SIGN_BETWEEN}"
            faults.append(filler.source.fault(phrase.at(found.start()), message))
            yield found.start(), found.end(), None
        else:
            yield found.start(), found.end(), number


_SIGN_BETWEEN = "Put a sign between them."


def _glued(before: str, behind: str) -> bool:
    """Tell whether digits touch the braces: ``3{a}x`` would be 34x."""
    return _DIGIT_BEFORE.search(before) is not None or _DIGIT_BEHIND.match(behind) is not None


def _in_brackets(number: str, before: str, behind: str, *, mathematics: bool) -> bool:
    """Tell whether a number is another one without brackets: ``{b}^2`` with b = −3 is (−3)^2."""
    minus, fraction = number.startswith("−"), "/" in number
    if not minus and not fraction:
        return False
    if _POWER_BEHIND.match(behind):
        return True
    if not mathematics:
        return False
    if _FACTOR_BEFORE.search(before) or (before.rstrip().endswith("|") and before.count("|") % 2 == 0):
        return True
    factor = _FACTOR_BEHIND.match(behind)
    is_factor = factor is not None and (factor[1] in "(√|" or read_unit(factor[1]) is None)
    return fraction and (is_factor or _UNDER_BEFORE.search(before) is not None)


def _signed(number: str, before: str) -> tuple[str, str]:
    """Make one sign of two: ``+ −3`` becomes ``− 3``. Returns the number and the text before it."""
    if not number.startswith("−"):
        return number, before
    sign = _SIGN_BEFORE.search(before)
    # Behind "=" or "(" a minus is the number's own; so is one that begins the text.
    if sign is None or not before[: sign.start()].rstrip().endswith(_ENDS_A_TERM):
        return number, before
    turned = "−" if sign[1] == "+" else "+"
    return number[1:], before[: sign.start()] + turned + before[sign.start() + 1 :]


_ENDS_A_TERM = tuple("0123456789)]}abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZπ°²³")


def _one(number: str, before: str, behind: str) -> str:
    """Leave a 1 out before a letter or a bracket: ``{a}x`` with a = 1 is x. A unit keeps its number.

    So does an exponent and what is divided by: ``x^{n}y`` is not x^y.
    """
    letter = _LETTER_BEHIND.match(behind)
    if number not in ("1", "−1") or letter is None or _UNDER_BEFORE.search(before):
        return number
    if letter[1] is not None and read_unit(letter[1]) is not None:
        return number
    return number[:-1]


def _without_braces(filler: _Filler, value: Phrase, faults: list[Fault]) -> Phrase:
    """Work out a given that speaks of drawn names alone: ``2 * 3.14 * r cm``."""
    for end in _ends(value.text):
        expression, unit = value.text[:end].rstrip(), value.text[end:].lstrip()
        if unit and read_unit(unit) is None:
            continue
        amount = read_amount(expression, filler.names)
        if not isinstance(amount, Amount) or not _speaks(amount):
            continue
        number = filler.worked(expression)
        if isinstance(number, _Trouble):
            faults.append(filler.source.fault(value.start, number.message, number.instead))
            return value
        text = f"{number} {unit}".strip()
        return Phrase(text, (value.start,) * len(text), value.end)
    return value


def _ends(text: str) -> Iterator[int]:
    yield from (at for at, character in enumerate(text) if character == " ")
    yield len(text)


def _speaks(amount: Amount) -> bool:
    return bool(names_in(amount.expr))


def _fraction(value: Fraction) -> str:
    text = str(value).replace("-", "−")
    return text if len(text) <= 20 else "a long fraction"
