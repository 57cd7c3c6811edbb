"""What is known at a line of work: a value that every marked line makes anew."""

from collections.abc import Hashable
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import lru_cache

from tutor.line.keys import statement_key
from tutor.line.meaning import Setting, UnitSystem
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Chain, Expr, Name, Statement
from tutor.line.walk import sides
from tutor.marking.deciding.claim import ALWAYS, NEVER, Claim, claim_of, is_cut_off
from tutor.marking.deciding.context import Context, counted_in, lengths_of
from tutor.marking.deciding.everyday import Form, everyday, form_of, signature
from tutor.marking.deciding.facts import facts, statement_names
from tutor.marking.deciding.ground import Ground
from tutor.marking.deciding.plainer import numbers_told, with_numbers
from tutor.quantity.units import Unit


@dataclass(eq=False, slots=True)
class Spec:
    """A set of premises; ``line`` is the 0-based line that was put in the place of one, if one was.

    ``rounded``: that line is a rounded value, and the others are as the problem has them.
    """

    premises: tuple[Statement, ...]
    positive: frozenset[str]
    line: int | None = None
    gained: bool = False
    rounded: bool = False
    _grounds: dict[Setting, Ground] = field(default_factory=dict)
    _form: Form | None = None
    _form_asked: bool = False
    _pi: bool | None = None

    def ground(self, setting: Setting) -> Ground:
        """Return the premises as claims under one setting; raises what ``claim_of`` raises."""
        if setting not in self._grounds:
            claims = tuple(self._claim(premise, setting) for premise in self.premises)
            heads = tuple(_head(premise) for premise in self.premises)
            self._grounds[setting] = Ground(claims, heads, self.positive)
        return self._grounds[setting]

    def _claim(self, premise: Statement, setting: Setting) -> Claim:
        """Return what a premise claims; where a root is in the way, with the numbers put in."""
        try:
            claim = claim_of(premise, setting)
            if claim.equations() is not None or len(facts(premise).names) < 2:
                return claim
        except NotExact:
            pass
        return claim_of(with_numbers(premise, numbers_told(self.premises)), setting)

    def form(self) -> Form | None:
        """Return what the only premise says of its one unknown, None where it is not that simple."""
        if not self._form_asked:
            self._form = form_of(self.premises[0]) if len(self.premises) == 1 else None
            self._form_asked = True
        return self._form

    def has_pi(self) -> bool:
        """Tell whether the sign π stands in a premise."""
        if self._pi is None:
            self._pi = any(has_pi(premise) for premise in self.premises)
        return self._pi

    def place_of(self, statement: Statement) -> int | None:
        """Return the place of the premise that a line writes once more, None where it is none."""
        written = signature(statement)
        for at, premise in enumerate(self.premises):
            if signature(premise) == written and statement_key(premise) == statement_key(statement):
                return at
        return None

    def replaced(
        self, index: int, statement: Statement, line: int, *, gained: bool = False, rounded: bool = False
    ) -> "Spec":
        """Return these premises with one replaced."""
        premises = (*self.premises[:index], statement, *self.premises[index + 1 :])
        return Spec(premises, self.positive, line, gained, rounded)

    def extended(self, statement: Statement) -> "Spec":
        """Return these premises and one more (a definition)."""
        return Spec((*self.premises, statement), self.positive, self.line, self.gained, self.rounded)


def _head(statement: Statement) -> str | None:
    if isinstance(statement, Chain) and isinstance(statement.sides[0], Name):
        return statement.sides[0].name
    return None


@dataclass(frozen=True, slots=True)
class Answer:
    """A value given in full by a line that stands, or by one that breaks for its unit alone."""

    name: str
    statement: Statement
    setting: Setting
    value: Expr
    whole: bool  # gives every solution by itself
    right_size: bool = True
    says_which: bool = True  # not ±9, of which one is meant
    stands: bool = True

    @property
    def claim(self) -> Claim:
        """Return what the answer claims; worked out when it is asked for, as it seldom is."""
        return _claim_of_answer(self.statement, self.setting) if self.says_which else Claim(())

    @property
    def claims_something(self) -> bool:
        """Tell whether some value is claimed."""
        plain = self.says_which and everyday(self.statement) is not None
        return plain or bool(self.claim.cases)


def _claim_of_answer(statement: Statement, setting: Setting) -> Claim:
    """Return what an answer claims: of ``C = 8π ≈ 25.1`` the exact part, of ``0.666…`` nothing exact."""
    try:
        claim = claim_of(statement, setting)
        if claim == NEVER and isinstance(statement, Chain) and len(statement.sides) > 2:
            first = replace(statement, sides=statement.sides[:2], rels=statement.rels[:1])
            claim = claim_of(first, setting)
    except NotExact:
        cut_off = any(is_cut_off(side) for side in sides(statement))
        return ALWAYS if cut_off else NEVER
    except DividedByZero:
        return NEVER
    return claim


@dataclass(frozen=True, init=False)
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
    signatures: frozenset[Hashable] = frozenset()  # of the lines that stand
    shown_pi: tuple[Fraction, ...] = ()
    answers: tuple[Answer, ...] = ()
    ended: bool = False  # "no solution" or "all numbers" stands
    side_values: tuple[tuple[Fraction, Expr], ...] = ()  # results of side workings that stand
    other: "Known | None" = None  # the same work with the first line read the second way
    second_way: bool = False  # an earlier line was taken the second way it can be read

    def __init__(
        self,
        context: Context,
        base: Spec | None,
        more: tuple[Spec, ...] = (),
        carried: tuple[Spec, ...] = (),
        wrong_values: tuple[tuple[Fraction, Expr], ...] = (),
        above: tuple[tuple[int, Statement], ...] = (),
        broken: tuple[tuple[int, Statement], ...] = (),
        signatures: frozenset[Hashable] = frozenset(),
        shown_pi: tuple[Fraction, ...] = (),
        answers: tuple[Answer, ...] = (),
        ended: bool = False,
        side_values: tuple[tuple[Fraction, Expr], ...] = (),
        other: "Known | None" = None,
        second_way: bool = False,
    ) -> None:
        # As dataclass makes it, but at once: a frozen one sets field after field through a call
        # each, and this is made for every line.
        self.__dict__.update(
            context=context,
            base=base,
            more=more,
            carried=carried,
            wrong_values=wrong_values,
            above=above,
            broken=broken,
            signatures=signatures,
            shown_pi=shown_pi,
            answers=answers,
            ended=ended,
            side_values=side_values,
            other=other,
            second_way=second_way,
        )

    def has(self, statement: Statement) -> bool:
        """Tell whether a line that stands has the same writing, up to the order of terms and factors."""
        if signature(statement) not in self.signatures:
            return False
        key = statement_key(statement)
        return any(statement_key(line) == key for _, line in self.above)

    def based_on(self, base: Spec) -> "Known":
        """Return this with other premises. Written out: ``replace`` takes several times as long."""
        return Known(
            self.context,
            base,
            self.more,
            self.carried,
            self.wrong_values,
            self.above,
            self.broken,
            self.signatures,
            self.shown_pi,
            self.answers,
            self.ended,
            self.side_values,
            self.other,
            self.second_way,
        )

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
    return facts(statement).shown_pi


def has_pi(statement: Statement) -> bool:
    """Tell whether the sign π stands in a line."""
    return facts(statement).pi


def _with_own_units(system: UnitSystem, statement: Statement) -> UnitSystem:
    """Where the task names no unit of a kind, the first one in the line is what its numbers count in."""
    measures = facts(statement).units
    if not measures or None not in (system.length, system.time, system.mass):
        return system
    for unit in measures:
        system = system.with_unit(unit)
    if system.length is None and len(set(measures)) > 1 and not statement_names(statement):
        # "1 gal = 4 L": no length is named, and the sizes still have to fit.
        system = replace(system, length=Fraction(1))
    return system


@lru_cache(maxsize=256)
def _without_signs(systems: tuple[UnitSystem, ...], positive: frozenset[str]) -> tuple[Setting, ...]:
    """Return the settings of a line with no π and no unit in it or in what is known."""
    return tuple(Setting(None, system, positive) for system in systems)


def has_units(known: Known) -> bool:
    """Tell whether some premise has a unit: bare numbers alone count in what is asked, 32 cm is not 32 dm."""
    return known.base is not None and any(facts(premise).units for premise in known.base.premises)


def _told_in(known: Known, units: tuple[Unit, ...]) -> tuple[UnitSystem, ...]:
    """Return the systems of the lengths that the work tells with units: ``l = 80 cm`` above ``V = 112 L``."""
    told = [unit for premise in (known.base.premises if known.base else ()) for unit in facts(premise).units]
    lengths = [length for unit in (*told, *units) for length in lengths_of(unit)]
    if not any(lengths_of(unit) for unit in told):
        return ()
    return tuple(replace(known.context.systems[0], length=length) for length in dict.fromkeys(lengths))


def settings(known: Known, statement: Statement) -> tuple[Setting, ...]:
    """Return the ways to take π and the units, the likeliest first."""
    context = known.context
    involved = has_pi(statement) or (known.base is not None and known.base.has_pi())
    positive = known.base.positive if known.base else context.measures
    if not involved and not facts(statement).units:
        return _without_signs(context.systems, positive)
    pis: list[Fraction | None] = [None]
    if involved:
        shown = (*known.shown_pi, *shown_values(statement))
        lesson = context.task.pi.value_used
        pis += [value for value in (lesson,) if value is not None]
        pis += shown or (Fraction(314, 100), Fraction(22, 7))
    ordered = tuple(dict.fromkeys(pis))
    # "13 · 4.5 · 2.6 = 152.1 dm³": what is given in cm was put in in dm.
    known_systems = (
        counted_in(context.systems, facts(statement).units) if has_units(known) else context.systems
    )
    units = facts(statement).units
    if units and known_systems and known_systems[0].length is None:
        known_systems = _told_in(known, units) or known_systems
    systems = tuple(_with_own_units(system, statement) for system in known_systems)
    if len(units) > 1 and not statement_names(statement) and len(set(units)) > 1:
        # "6 ft 4 in = 6 · 12 + 4": the bare numbers in the middle count inches.
        others = (
            _with_own_units(system.with_unit(unit), statement) for system in known_systems for unit in units
        )
        systems = tuple(dict.fromkeys((*systems, *others)))
    return tuple(Setting(pi, system, positive) for system in systems for pi in ordered)
