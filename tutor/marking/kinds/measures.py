"""Measured parts of a triangle as they are typed: ``c = 6.1 cm, A = 50°``."""

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from tutor.line.names import Names
from tutor.line.reader import Unread, read
from tutor.line.tree import Bare, Chain, Expr, Joined, Joiner, Measure, Name, Note, Said, Statement
from tutor.line.walk import every
from tutor.marking.deciding.facts import facts
from tutor.marking.kinds.lines import unread
from tutor.marking.kinds.phrasing import cut
from tutor.marking.kinds.triangle import PARTS, is_side, opposite, size_of
from tutor.marking.verdict import Mark, Reason, Verdict
from tutor.quantity.dimension import ANGLE, LENGTH
from tutor.quantity.units import Unit

# Sides named by their ends.
_BY_ENDS = {"AB": "c", "BA": "c", "BC": "a", "CB": "a", "AC": "b", "CA": "b"}
_NAMES = Names(frozenset((*PARTS, *_BY_ENDS)))

# Each is put in the place of as many signs, so that spans stay those of the typed line.
_SIDE = re.compile(r"(?<![A-Za-z])(?:the\s+)?(?:side|length)\s+(?=[A-Ca-c]{1,2}\s*[=:≈])", re.IGNORECASE)
_COLON = re.compile(r"(?<=[A-Ca-c])(\s*):(?=\s*[\d.])")
_IS = re.compile(r"(?<=[A-Ca-c])(\s+)is(?=\s+[\d.])")
_NEXT = re.compile(r"(\d\s*(?:(?!and\b|or\b)[A-Za-z]+|[°º])?)\s(?=\s*(?:∠\s*|angle\s+)?[A-Ca-c]{1,2}\s*[=≈])")

_ONE_PART = "Write the part and its measure, such as c = 6 cm."


@dataclass(frozen=True, slots=True)
class Measured:
    """One measured part: ``size`` in millimetres or degrees, ``shown`` as it was typed.

    ``number`` is the typed number alone, ``unit`` its unit, None where none was written.
    """

    name: str
    size: Fraction
    number: Fraction
    unit: Unit | None
    shown: str
    span: tuple[int, int]

    @property
    def lacks_unit(self) -> bool:
        """Tell whether a length stands without a unit; an angle needs no sign."""
        return self.unit is None and is_side(self.name)


@lru_cache(maxsize=256)
def read_measures(text: str, unit: Unit) -> tuple[Measured, ...] | Mark:
    """Return the parts that a line gives, or the mark of a line that gives none."""
    found = read(prepared(text), _NAMES)
    if isinstance(found, Unread):
        return unread(found.message, found.span)
    statement = found.statements[0]
    if isinstance(statement, Note | Said) or facts(statement).hole:
        return Mark(Verdict.NOTE)
    made: list[Measured] = []
    for part in _parts(statement):
        one = _measured(part, text, unit)
        if isinstance(one, Mark):
            return one
        made.append(one)
    if not made:
        return unread(_ONE_PART, statement.span)
    if len({one.name for one in made}) < len(made):
        return unread("The same part stands here twice. Write each part once.", statement.span)
    return tuple(made)


def prepared(text: str) -> str:
    """Return a line as the reader takes it, sign for sign as long as it was typed."""
    text = _SIDE.sub(lambda found: " " * len(found[0]), text)
    text = _IS.sub(lambda found: f"{found[1]}= ", _COLON.sub(lambda found: f"{found[1]}=", text))
    return _NEXT.sub(lambda found: f"{found[1]},", text)


def part_names() -> Names:
    """Return the names that a line of measures may hold."""
    return _NAMES


def _parts(statement: Statement) -> tuple[Statement, ...]:
    if isinstance(statement, Joined):
        return statement.parts if statement.joiner is not Joiner.OR else ()
    return (statement,)


def _measured(part: Statement, text: str, unit: Unit) -> Measured | Mark:
    if isinstance(part, Bare) and not facts(part).names:
        message = "Which part is it? Write its letter too, such as c = 6 cm."
        return unread(message, part.span)
    if not isinstance(part, Chain) or len(part.sides) != 2 or not part.rels[0].equates:
        return unread(_ONE_PART, part.span)
    named, value = part.sides if isinstance(part.sides[0], Name) else part.sides[::-1]
    if not isinstance(named, Name) or facts(Bare(value)).names:
        return unread(_ONE_PART, part.span)
    name = _BY_ENDS.get(named.name, named.name)
    if name not in PARTS:
        return unread("The parts of the triangle are a, b, c and the angles A, B, C.", named.span)
    value = _in_the_tasks_unit(value, unit)
    fault = _of_another_kind(name, value)
    if fault is not None:
        return fault
    size = size_of(name, Bare(value), unit)
    if size is None:
        return unread("Write what you measured as a plain number.", value.span)
    if size <= 0:
        return unread("What is measured is more than 0.", value.span)
    inner, own = (value.inner, value.unit) if isinstance(value, Measure) else (value, None)
    own = own or next(iter(facts(Bare(value)).units), None)
    number = size_of(opposite(name) if is_side(name) else name, Bare(inner), None)
    shown = cut(" ".join(text[slice(*value.span)].split()))
    return Measured(name, size, size if number is None else number, own, shown, part.span)


def _in_the_tasks_unit(value: Expr, unit: Unit) -> Expr:
    """“6 units” counts in the unit of the problem."""
    if isinstance(value, Measure) and str(value.unit) == "units":
        return Measure(value.inner, unit, value.span)
    return value


def _of_another_kind(name: str, value: Expr) -> Mark | None:
    """Return the mark of a unit that is none of a length, or none of an angle.

    Degrees on a side and centimetres on an angle are most likely the other letter: not held against anybody.
    """
    for node in every(value):
        if not isinstance(node, Measure):
            continue
        kind = node.unit.dimension
        if is_side(name) and kind == ANGLE:
            return unread(f"{name} is a side, and ° measures an angle. Is {opposite(name)} meant?", node.span)
        if not is_side(name) and kind == LENGTH:
            message = f"{name} is an angle, and {node.unit} measures a side. Is {opposite(name)} meant?"
            return unread(message, node.span)
        if kind not in (ANGLE, LENGTH):
            what = "a length" if is_side(name) else "an angle"
            message = f"{node.unit} is a unit for {kind.word}, and {name} is {what}."
            return Mark(Verdict.BREAKS, Reason.UNIT, None, message, node.span)
    return None
