"""What an account must not tell: the value that is looked for, and numbers that nobody has seen."""

import re
from collections.abc import Iterator
from fractions import Fraction

from tutor.line.poly import Number
from tutor.line.tree import Chain, Name, Num, Rel
from tutor.line.walk import every, names_in
from tutor.marking.deciding.state import Known
from tutor.marking.telling.pairing import Pair
from tutor.marking.telling.quoting import quoted
from tutor.marking.telling.witness import exactly

_LONGEST = 20
_NUMBER = re.compile(r"\d+(?:\.\d+)?")


def instead_of_the_answer(known: Known, message: str, statement: Chain, pair: Pair) -> str:
    """Return what to say in the place of an account that tells an answer, "" where it tells none.

    ``A + B = 180`` to ``B = 75`` takes 105 away on the right, and 105 is what is looked for.
    """
    name, *values = statement.sides
    if not isinstance(name, Name) or names_in(*values) or known.base is None or not known.context.find:
        return ""
    told = strange_numbers(message, statement, pair)
    if not told or not (_stands_nowhere(told, pair) or not told.isdisjoint(_answers(known, pair))):
        return ""
    value = quoted(values[-1], _LONGEST)
    return f"Put {name.name} = {value} into {pair.where}. Are both sides the same then?" if value else ""


def strange_numbers(message: str, statement: Chain, pair: Pair) -> set[Number]:
    """Return the numbers of an account that stand in neither of the two lines."""
    nodes = (node for line in (statement, pair.above) for side in line.sides for node in every(side))
    seen = {node.value for node in nodes if isinstance(node, Num)}
    said = {int(number) if number.isdecimal() else Fraction(number) for number in _NUMBER.findall(message)}
    return said - seen - {pair.index + 1}


def _stands_nowhere(told: set[Number], pair: Pair) -> bool:
    """``C = 180 − 35 + 80`` below ``A + B + C = 180``: nobody has seen the 115 of "115 taken away"."""
    if not pair.put_in:
        return False
    given = {value.above.rational() for value in pair.given.values() if not value.names()}
    return not told <= given


def _answers(known: Known, pair: Pair) -> Iterator[Number]:
    """Yield the values of what is looked for, as far as they can be had at once."""
    assert known.base is not None
    base, form = known.base, known.base.form()
    if form is not None and form.rel is Rel.EQ:  # the everyday equation: its answer is at hand
        yield from (form.bound for asked in known.context.find if asked == form.name)
        return
    found = exactly(lambda: base.ground(pair.setting).values()) or {}
    for asked in known.context.find:
        yield from found.get(asked, ())
