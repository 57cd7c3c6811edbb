"""A value that the work tells, copied wrong where no formula stands: ``A = 6 · 9`` below ``w = 8``."""

from collections.abc import Sequence
from fractions import Fraction

from tutor.line.meaning import number_of
from tutor.line.tree import Chain, Measure, Name, Num, Statement
from tutor.line.walk import every, names_in
from tutor.marking.telling.quoting import quoted
from tutor.marking.telling.why import Why
from tutor.marking.verdict import Reason
from tutor.quantity.pi import SHOWN_FOR_PI

# Numbers that formulas bring: halves and thirds, degrees, months, a hundred.
_OF_FORMULAS = frozenset(map(Fraction, (1, 2, 3, 4, 7, 12, 22, 32, 90, 100, 180, 360, 365))) | {*SHOWN_FOR_PI}


def told_otherwise(premises: Sequence[Statement], line: Chain) -> Why | None:
    """Return why a line of numbers breaks: all values above stand in it but one, and a strange one."""
    if not isinstance(line.sides[0], Name) or names_in(line.sides[1]):
        return None
    told = {
        premise.sides[0].name: premise.sides[1]
        for premise in premises
        if isinstance(premise, Chain) and isinstance(premise.sides[0], Name)
    }
    plain = {name: value.inner if isinstance(value, Measure) else value for name, value in told.items()}
    values = {name: number_of(value) for name, value in plain.items()}
    if len(values) < 2 or None in values.values():
        return None
    numbers = [node for node in every(line.sides[1]) if isinstance(node, Num)]
    left = [name for name, value in values.items() if all(node.value != value for node in numbers)]
    strange = [node for node in numbers if node.value not in {*values.values()} | _OF_FORMULAS]
    own = [node for node in numbers if node in strange or node.value in values.values()]
    if len(left) != 1 or len(strange) != 1 or len(own) != len(values):
        return None
    value, typed = values[left[0]], strange[0].value
    shown = quoted(told[left[0]])
    if value is None or shown is None or typed in (value / 2, value * 2, value**2, -value):
        return None  # a radius out of the diameter
    message = f"The lines above give {left[0]} = {shown}. Copy it once more."
    return Why(Reason.VALUE_CHANGED, message, strange[0].span)
