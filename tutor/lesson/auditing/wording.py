"""Advice about how a question is written: can a student of twelve read it at once, and does it fit?"""

from __future__ import annotations

import re
from collections.abc import Iterator

from tutor.figure.lettering import cell_width
from tutor.lesson.auditing.case import Case, Remark
from tutor.lesson.filling import BRACES
from tutor.lesson.keywords import Keyword
from tutor.lesson.model import Fault
from tutor.lesson.naming import unit_of_value
from tutor.quantity.units import read_unit
from tutor.visible import spelled

# The narrowest place where a question is shown, in columns.
ASK_WIDTH = 36
# At 80 × 24 a question stands in this many columns, and so many rows beside a figure, or alone.
COLUMNS = 32
ROWS_WITH_FIGURE, ROWS_ALONE = 11, 18
MOST_WORDS = 20
MOST_LETTERS = 13

# Long words of the trade, which a lesson cannot say otherwise.
_TRADE = frozenset({"circumference", "circumferences", "perpendicularly", "parallelograms", "quadrilaterals"})
_SENTENCE = re.compile(r"(?<=[.?!:])\s+(?=[^\W\d_a-z])")
_WORD = re.compile(r"[^\W\d_](?:[^\W\d_]|['’-](?=[^\W\d_]))*")


def fits_the_page(case: Case) -> Iterator[Remark]:
    """Yield the words that fit on no line: a fault, since they would be cut."""
    for keyword, text in _texts(case):
        for word in text.split(" "):
            if cell_width(spelled(word)) > ASK_WIDTH:
                message = f"“{spelled(word[:12])}…” is longer than {ASK_WIDTH} letters and fits on no line."
                yield Remark(case.at(keyword, message))


def plain_words(case: Case) -> Iterator[Remark]:
    """Yield long sentences, long words, and more questions than one in a part."""
    for text, place in _paragraphs(case):
        for sentence in _SENTENCE.split(text):
            count = len([word for word in _WORD.findall(sentence) if len(word) > 1 or word in "aAI"])
            if count > MOST_WORDS:
                message = f"“{_begun(sentence)}” has {count} words. Up to {MOST_WORDS} are read at once."
                yield Remark(place(message), advice=True)
                break
        long = [word for word in _WORD.findall(text) if len(word) > MOST_LETTERS and not _of_the_trade(word)]
        if long:
            message = f"“{spelled(long[0])}” has {len(long[0])} letters. Is there a shorter word?"
            yield Remark(place(message), advice=True)
        questions = text.count("?")
        if questions > 1:
            message = f"{questions} questions stand here. One is enough, or give each a “part”."
            yield Remark(place(message, Keyword.PART.example), advice=True)


def fits_beside_the_figure(case: Case) -> Iterator[Remark]:
    """Yield a question that cannot be seen whole at 80 × 24."""
    room = ROWS_ALONE if case.problem.figure is None else ROWS_WITH_FIGURE
    rows = sum(_rows(text) for text, _place in _paragraphs(case))
    if rows > room:
        where = "in the page" if case.problem.figure is None else "beside the figure"
        message = (
            f"This takes {rows} rows of {COLUMNS} letters, and {where} there are {room}. Make it shorter."
        )
        yield Remark(case.at(Keyword.ASK, message), advice=True)


_WORD_BEHIND = re.compile(r" ?([^\W\d_]+(?:/[^\W\d_]+)?|[°%$€£¢])")
_SIGN_BEFORE = re.compile(r"([$€£]) ?$")


def units_once(case: Case) -> Iterator[Remark]:
    """Yield a unit that stands beside braces whose given shows it: ``{v} km/h`` with v = 5 km/h."""
    values = dict(case.problem.givens)
    for content in case.card.all(Keyword.ASK, Keyword.PART):
        text = content.first.text
        for found in BRACES.finditer(text):
            value = values.get(found[1].strip(), "")
            beside = _SIGN_BEFORE.search(text[: found.start()]), _WORD_BEHIND.match(text[found.end() :])
            if any(word is not None and _same_unit(value, word[1]) for word in beside):
                message = f"{found[0]} is shown with its unit: {spelled(value)}. Take the second one away."
                place = content.first.at(found.start())
                yield Remark(case.source.fault(place, message), advice=True)


def _same_unit(value: str, word: str) -> bool:
    """Tell whether a value ends, or begins, with the unit that a word names."""
    if word in "%$€£¢":
        return word in value
    unit, named = read_unit(unit_of_value(value)), read_unit(word)
    if word == "in" or unit is None or named is None:  # “{L} in all” speaks of no inches
        return False
    return (unit.dimension, unit.factor) == (named.dimension, named.factor)


def _texts(case: Case) -> Iterator[tuple[Keyword, str]]:
    yield Keyword.ASK, case.problem.ask
    for part in case.problem.parts:
        yield Keyword.PART, part.ask


class _Place:
    """Where a paragraph stands; called with a message it makes the fault there."""

    def __init__(self, case: Case, offset: int) -> None:
        self._case, self._offset = case, offset

    def __call__(self, message: str, instead: str = "") -> Fault:
        return self._case.source.fault(self._offset, message, instead)


def _paragraphs(case: Case) -> Iterator[tuple[str, _Place]]:
    head = case.card.head.offset if case.card.head else 0
    ask = case.card.one(Keyword.ASK)
    if case.problem.ask:
        yield case.problem.ask, _Place(case, ask.first.start if ask else head)
    places = [content.first.start for content in case.card.all(Keyword.PART)]
    for part, offset in zip(case.problem.parts, places, strict=False):
        yield part.ask, _Place(case, offset)


def _begun(sentence: str) -> str:
    words = sentence.split(" ")
    return spelled(" ".join(words[:4])[:40]) + (" …" if len(words) > 4 else "")


def _of_the_trade(word: str) -> bool:
    return word.casefold() in _TRADE


def _rows(text: str) -> int:
    rows, used = 1, 0
    for word in text.split(" "):
        wide = cell_width(spelled(word))
        if used and used + 1 + wide > COLUMNS:
            rows, used = rows + 1, 0
        used += wide + (1 if used else 0)
    return rows
