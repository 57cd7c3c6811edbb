"""The tree of a typed line. Every node keeps its span in the typed text.

Spans are [start, end) in code points of the line as it was typed. Two nodes are
equal when they mean the same writing: spans take no part in comparison.
"""

from dataclasses import dataclass, field
from enum import Enum
from fractions import Fraction
from typing import TypeAlias

from tutor.quantity.units import Unit

Span: TypeAlias = tuple[int, int]
NOWHERE: Span = (0, 0)

# What was worked out about a line is remembered with the line itself: it is asked for many
# times while the line is marked. It takes no part in comparison, and a changed copy has none.
Memo: TypeAlias = dict[object, object]


@dataclass(frozen=True, slots=True)
class Num:
    """A number as written. ``places``: decimal places shown (0 for a whole number), None for a fraction.

    ``open_end`` marks a decimal that goes on: ``0.333…``.
    """

    value: Fraction
    text: str
    places: int | None = None
    open_end: bool = False
    span: Span = field(default=NOWHERE, compare=False)


def whole_number(value: int, span: Span = NOWHERE) -> Num:
    """Return a whole number as it is written."""
    return Num(Fraction(value), str(value), 0, span=span)


@dataclass(frozen=True, slots=True)
class Name:
    """A letter or a declared word that stands for a number."""

    name: str
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class PiSign:
    """The sign π."""

    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Hole:
    """A question mark in the place of a value: ``r = ?``."""

    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Neg:
    """The opposite of a value."""

    inner: "Expr"
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Add:
    """A sum; a term that is taken away is a ``Neg``."""

    terms: tuple["Expr", ...]
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Mul:
    """A product."""

    factors: tuple["Expr", ...]
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Div:
    """A quotient, however it was written."""

    top: "Expr"
    bottom: "Expr"
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Pow:
    """A power."""

    base: "Expr"
    exponent: "Expr"
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Root:
    """A root: index 2 is the square root, never negative."""

    index: int
    inner: "Expr"
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Abs:
    """The distance from zero."""

    inner: "Expr"
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class PlusMinus:
    """``left ± right``; a bare ``±right`` has no left."""

    left: "Expr | None"
    right: "Expr"
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Percent:
    """A number of hundredths."""

    inner: "Expr"
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Measure:
    """A value with its unit."""

    inner: "Expr"
    unit: Unit
    span: Span = field(default=NOWHERE, compare=False)


Expr: TypeAlias = (
    Num | Name | PiSign | Hole | Neg | Add | Mul | Div | Pow | Root | Abs | PlusMinus | Percent | Measure
)


class Rel(Enum):
    """How two sides compare."""

    EQ = "="
    APPROX = "≈"
    LT = "<"
    LE = "≤"
    GT = ">"
    GE = "≥"
    NE = "≠"

    @property
    def turned(self) -> "Rel":
        """Return the relation read from right to left."""
        return _TURNED.get(self, self)

    @property
    def equates(self) -> bool:
        """Tell whether both sides are said to be the same value."""
        return self in (Rel.EQ, Rel.APPROX)


_TURNED = {Rel.LT: Rel.GT, Rel.LE: Rel.GE, Rel.GT: Rel.LT, Rel.GE: Rel.LE}


@dataclass(frozen=True, slots=True)
class Chain:
    """Two or more sides with a relation between neighbours: ``a = b = c``."""

    sides: tuple[Expr, ...]
    rels: tuple[Rel, ...]
    span: Span = field(default=NOWHERE, compare=False)
    memo: Memo = field(default_factory=dict, init=False, repr=False, compare=False)


@dataclass(frozen=True, slots=True)
class Onward:
    """A line that begins with a relation and goes on from the line above."""

    rels: tuple[Rel, ...]
    sides: tuple[Expr, ...]
    span: Span = field(default=NOWHERE, compare=False)
    memo: Memo = field(default_factory=dict, init=False, repr=False, compare=False)


@dataclass(frozen=True, slots=True)
class Bare:
    """An expression alone."""

    expr: Expr
    span: Span = field(default=NOWHERE, compare=False)
    memo: Memo = field(default_factory=dict, init=False, repr=False, compare=False)


class Joiner(Enum):
    """How the parts of a line are joined."""

    OR = "or"
    AND = "and"
    COMMA = ","


@dataclass(frozen=True, slots=True)
class Joined:
    """Several statements on one line."""

    joiner: Joiner
    parts: tuple["Chain | Onward | Bare", ...]
    span: Span = field(default=NOWHERE, compare=False)
    memo: Memo = field(default_factory=dict, init=False, repr=False, compare=False)


class Phrase(Enum):
    """Whole-line words that are an answer."""

    NO_SOLUTION = "no solution"
    ALL_NUMBERS = "all numbers"
    YES = "yes"
    NO = "no"


@dataclass(frozen=True, slots=True)
class Said:
    """A line that is one of the phrases."""

    phrase: Phrase
    span: Span = field(default=NOWHERE, compare=False)
    memo: Memo = field(default_factory=dict, init=False, repr=False, compare=False)


@dataclass(frozen=True, slots=True)
class Note:
    """A line of words alone: kept, not judged."""

    span: Span = field(default=NOWHERE, compare=False)
    memo: Memo = field(default_factory=dict, init=False, repr=False, compare=False)


Statement: TypeAlias = Chain | Onward | Bare | Joined | Said | Note
