"""What an account must not tell: the value that is looked for."""

import re
from fractions import Fraction

from tutor.line.tree import Chain, Name, Num
from tutor.line.walk import every, names_in
from tutor.marking.deciding.state import Known
from tutor.marking.telling.pairing import Pair
from tutor.marking.telling.quoting import quoted
from tutor.marking.telling.witness import exactly

_NUMBER = re.compile(r"\d+(?:\.\d+)?")


def instead_of_the_answer(known: Known, message: str, statement: Chain, pair: Pair) -> str:
    """Return what to say in the place of an account that tells an answer, "" where it tells none.

    ``A + B = 180`` to ``B = 75`` takes 105 away on the right, and 105 is what is looked for.
    """
    name, *values = statement.sides
    if not isinstance(name, Name) or names_in(*values) or known.base is None or not known.context.find:
        return ""
    nodes = (node for line in (statement, pair.above) for side in line.sides for node in every(side))
    seen = {node.value for node in nodes if isinstance(node, Num)}
    told = {Fraction(number) for number in _NUMBER.findall(message)} - seen
    base = known.base
    found = (exactly(lambda: base.ground(pair.setting).values()) or {}) if told else {}
    if not any(value in told for asked in known.context.find for value in found.get(asked, ())):
        return ""
    value = quoted(values[-1], 12)
    return f"Put {name.name} = {value} into {pair.where}. Are both sides the same then?" if value else ""
