"""Advice about how the numbers of a problem are written: conditions without effect, pieces left over."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import product

from tutor.lesson.auditing.case import Case, Remark
from tutor.lesson.keywords import Keyword
from tutor.lesson.naming import mentions
from tutor.lesson.variation import Variation
from tutor.line.walk import names_in
from tutor.visible import spelled

# Conditions over more numbers than this are not gone through.
_MOST_COMBINATIONS = 100
# A condition worked out costs about as much as so many pieces of formulas.
_ONE_CONDITION = 60
_TOO_FEW = 2


def pieces_used(case: Case) -> Iterator[Remark]:
    """Yield the pieces that no formula uses, where some formula uses others."""
    pieces = case.card.all(Keyword.PIECE)
    formulas = [content.first.text for content in case.card.all(Keyword.FORMULA)]
    for piece in pieces if formulas else ():
        name = piece.first.text
        tails = [other.tail.text for other in pieces if other is not piece and other.tail is not None]
        if not any(mentions(text, name, case.parts.words) for text in (*formulas, *tails)):
            message = f"No formula uses the piece “{spelled(name)}”. Was it forgotten in the sum?"
            yield Remark(case.source.fault(piece.first.start, message), advice=True)


def conditions_work(case: Case) -> Iterator[Remark]:
    """Yield the conditions that leave nothing out, and those that leave next to nothing."""
    variation = case.template.variation
    if variation is None:
        return
    wheres = [content for content in case.card.all(Keyword.WHERE) if not _of_the_answer(content.first.text)]
    if len(wheres) != len(variation.conditions):
        return
    for content, condition in zip(wheres, variation.conditions, strict=True):
        names = names_in(*condition.sides)
        ranges = [one for one in variation.ranges if one.name in names]
        size = math.prod(one.count for one in ranges)
        if size > _MOST_COMBINATIONS or not case.budget.spend(size * _ONE_CONDITION):
            continue
        holding = sum(
            condition.holds(dict(zip((one.name for one in ranges), values, strict=True)), variation.pi)
            for values in product(*(one.values for one in ranges))
        )
        if holding == size:
            message = (
                "This leaves nothing out: it holds for all numbers above. Take it away, or look at it again."
            )
            yield Remark(case.source.fault(content.first.start, message), advice=True)
    yield from _few_left(case, variation)


def _of_the_answer(condition: str) -> bool:
    return condition.casefold().startswith(("answer", "the answer"))


def _few_left(case: Case, variation: Variation) -> Iterator[Remark]:
    if not 1 < variation.size <= _MOST_COMBINATIONS or not variation.conditions:
        return
    if not case.budget.spend(variation.size * len(variation.conditions) * _ONE_CONDITION):
        return
    left = sum(variation.at(at) is not None for at in range(variation.size))
    if left <= _TOO_FEW and left * 10 <= variation.size:
        draws = "draw is" if left == 1 else "draws are"
        message = f"The conditions leave {left} of {variation.size} draws, so {left} {draws} all there is."
        place = case.card.all(Keyword.WHERE)[0].first.start
        yield Remark(case.source.fault(place, message), advice=True)
