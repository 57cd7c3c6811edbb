"""What is known at a line of work: a value that every marked line makes anew."""

from dataclasses import dataclass, field, replace
from fractions import Fraction

from tutor.line.meaning import Setting, UnitSystem
from tutor.line.tree import Chain, Div, Expr, Measure, Name, Num, PiSign, Statement
from tutor.line.walk import every, sides, statement_names
from tutor.marking.claim import Claim, claim_of
from tutor.marking.context import Context
from tutor.marking.ground import Ground
from tutor.quantity.pi import SHOWN_FOR_PI


@dataclass(eq=False, slots=True)
class Spec:
    """A set of premises; ``line`` is the 0-based line that was put in the place of one, if one was."""

    premises: tuple[Statement, ...]
    positive: frozenset[str]
    line: int | None = None
    gained: bool = False
    _grounds: dict[Setting, Ground] = field(default_factory=dict)

    def ground(self, setting: Setting) -> Ground:
        """Return the premises as claims under one setting; raises what ``claim_of`` raises."""
        if setting not in self._grounds:
            claims = tuple(claim_of(premise, setting) for premise in self.premises)
            heads = tuple(_head(premise) for premise in self.premises)
            self._grounds[setting] = Ground(claims, heads, self.positive)
        return self._grounds[setting]

    def replaced(self, index: int, statement: Statement, line: int, *, gained: bool = False) -> "Spec":
        """Return these premises with one replaced."""
        premises = (*self.premises[:index], statement, *self.premises[index + 1 :])
        return Spec(premises, self.positive, line, gained)

    def extended(self, statement: Statement) -> "Spec":
        """Return these premises and one more (a definition)."""
        return Spec((*self.premises, statement), self.positive, self.line, self.gained)


def _head(statement: Statement) -> str | None:
    if isinstance(statement, Chain) and isinstance(statement.sides[0], Name):
        return statement.sides[0].name
    return None


@dataclass(frozen=True, slots=True)
class Answer:
    """A value given in full by a line that stands."""

    name: str
    claim: Claim
    setting: Setting
    value: Expr
    whole: bool  # gives every solution by itself
    right_size: bool = True


@dataclass(frozen=True, slots=True)
class Known:
    """Everything that the marks so far leave for the next line.

    ``base``: the premises (None before a first line that is the premise). ``more``: other
    premise sets that lines may follow from: branches of an "or", gained solutions, rounded
    values. ``carried``: premise sets with a broken line in them. ``wrong_values``: results
    of false calculations, with what they should have been.
    """

    context: Context
    base: Spec | None
    more: tuple[Spec, ...] = ()
    carried: tuple[Spec, ...] = ()
    wrong_values: tuple[tuple[Fraction, Expr], ...] = ()
    above: tuple[tuple[int, Statement], ...] = ()  # lines that stand, oldest first
    broken: tuple[tuple[int, Statement], ...] = ()
    keys: frozenset[str] = frozenset()
    shown_pi: tuple[Fraction, ...] = ()
    answers: tuple[Answer, ...] = ()
    ended: bool = False  # "no solution" or "all numbers" stands
    side_values: tuple[tuple[Fraction, Expr], ...] = ()  # results of side workings that stand
    other: "Known | None" = None  # the same work with the first line read the second way
    second_way: bool = False  # an earlier line was taken the second way it can be read

    @property
    def previous(self) -> Statement | None:
        """Return the line above that stands."""
        return self.above[-1][1] if self.above else None


def begin(context: Context) -> Known:
    """Return what is known before the first line."""
    base = None if context.from_first_line else Spec(context.premises, context.measures)
    return Known(context, base)


def shown_values(statement: Statement) -> tuple[Fraction, ...]:
    """Return the numbers in a line that may stand in the place of π."""
    found: list[Fraction] = []
    for side in sides(statement):
        for node in every(side):
            value: Fraction | None = None
            if isinstance(node, Num):
                value = node.value
            elif isinstance(node, Div) and isinstance(node.top, Num) and isinstance(node.bottom, Num):
                value = node.top.value / node.bottom.value if node.bottom.value else None
            if value in SHOWN_FOR_PI and value is not None and value not in found:
                found.append(value)
    return tuple(found)


def has_pi(statement: Statement) -> bool:
    """Tell whether the sign π stands in a line."""
    return any(isinstance(node, PiSign) for side in sides(statement) for node in every(side))


def _with_own_units(system: UnitSystem, statement: Statement) -> UnitSystem:
    """Where the task names no unit of a kind, the first one in the line is what its numbers count in."""
    if None not in (system.length, system.time, system.mass):
        return system
    measures = [node.unit for side in sides(statement) for node in every(side) if isinstance(node, Measure)]
    for unit in measures:
        system = system.with_unit(unit)
    if system.length is None and len(set(measures)) > 1 and not statement_names(statement):
        # "1 gal = 4 L": no length is named, and the sizes still have to fit.
        system = replace(system, length=Fraction(1))
    return system


def settings(known: Known, statement: Statement) -> tuple[Setting, ...]:
    """Return the ways to take π and the units, the likeliest first."""
    context = known.context
    involved = has_pi(statement) or any(has_pi(p) for p in (known.base.premises if known.base else ()))
    pis: list[Fraction | None] = [None]
    if involved:
        shown = (*known.shown_pi, *shown_values(statement))
        lesson = context.task.pi.value_used
        pis += [value for value in (lesson,) if value is not None]
        pis += shown or (Fraction(314, 100), Fraction(22, 7))
    ordered = tuple(dict.fromkeys(pis))
    systems = tuple(_with_own_units(system, statement) for system in context.systems)
    return tuple(
        Setting(pi, system, known.base.positive if known.base else context.measures)
        for system in systems
        for pi in ordered
    )
