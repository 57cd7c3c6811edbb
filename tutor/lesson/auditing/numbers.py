"""Advice about the numbers of an answer: do they end, can they be read, are counted things whole?"""

from __future__ import annotations

import re
from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction

from tutor.lesson.auditing.case import Case, Remark
from tutor.lesson.auditing.sound import answers
from tutor.lesson.keywords import Keyword
from tutor.line.names import plain
from tutor.line.tree import PiSign
from tutor.line.walk import every
from tutor.marking.deciding.context import prepare
from tutor.marking.solve import NamedValue
from tutor.marking.task import Task
from tutor.quantity.units import read_unit

_LARGEST = 10_000_000
_SMALLEST = 0.001
_MOST_DIGITS = 8
_COUNTED = re.compile(r"\bhow many ([a-z-]+)", re.IGNORECASE)


def readable_answers(case: Case) -> Iterator[Remark]:
    """Yield the answers that are too large, too small, or have too many digits, each kind once."""
    for value in answers(case):
        shown = _shown(value)
        if abs(value.approx) >= _LARGEST or 0 < abs(value.approx) < _SMALLEST:
            message = f"{value.name} comes out as {shown}. A number nearer to 1 is easier to work with."
            yield Remark(case.at(Keyword.FIND, message), advice=True)
            return
        exact = _decimal(value.text)
        if exact is not None and len(exact.as_tuple().digits) > _MOST_DIGITS and not _rounded(case, value):
            message = f"{value.name} comes out as {shown}, a number of many digits. Ask for a rounded one."
            yield Remark(case.at(Keyword.FIND, message, Keyword.ROUND.example), advice=True)
            return


def _shown(value: NamedValue) -> str:
    return f"{value.text} {value.unit}".strip()


def _decimal(text: str) -> Decimal | None:
    plain_text = text.replace("−", "-")
    return Decimal(plain_text) if re.fullmatch(r"-?\d{1,40}(\.\d{1,40})?", plain_text) else None


def _rounded(case: Case, value: NamedValue) -> bool:
    return isinstance(case.task, Task) and case.task.precision_of(value.name) is not None


def ending_answers(case: Case) -> Iterator[Remark]:
    """Yield a measured answer that has no ending decimal, where no rounding is asked and there is no π."""
    if case.solved is None:
        return
    context, _problems = prepare(case.solved[0])
    trees = (side for premise in context.premises for side in premise.sides)
    if any(isinstance(node, PiSign) for side in trees for node in every(side)):
        return
    for value in answers(case):
        if value.unit and not _rounded(case, value) and not _ends(value):
            message = (
                f"{value.name} comes out as {_shown(value)}, which has no ending decimal. Ask for a rounding."
            )
            yield Remark(case.at(Keyword.FIND, message, Keyword.ROUND.example), advice=True)
            return


def _ends(value: NamedValue) -> bool:
    text = value.text.replace("−", "-")
    if re.fullmatch(r"-?\d{1,40}/\d{1,40}", text):
        bottom = Fraction(text).denominator
        while bottom % 2 == 0:
            bottom //= 2
        while bottom % 5 == 0:
            bottom //= 5
        return bottom == 1
    return _decimal(value.text) is not None


def counted_answers(case: Case) -> Iterator[Remark]:
    """Yield an answer that counts things and is not whole: the question says “how many boxes n”."""
    if case.solved is None:
        return
    task, solution = case.solved
    asked = " ".join((case.problem.ask, *(part.ask for part in case.problem.parts)))
    things = [found[1] for found in _COUNTED.finditer(asked)]
    if len(task.find) != 1 or len(things) != 1 or read_unit(things[0].casefold()) is not None:
        return
    value = solution.value(plain(task.find[0]))
    if value is None or value.unit or _rounded(case, value) or _decimal(value.text) is None:
        return
    if value.approx != int(value.approx):
        message = f"“How many {things[0]}” comes out as {value.text}, and things are whole."
        yield Remark(case.at(Keyword.FIND, message, "round    up to a whole number"), advice=True)
