"""Going on from a rounded answer: where whole boxes are counted, seven are paid for, and not 6.25."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import ceil, floor
from typing import assert_never

from tutor.line.meaning import Setting
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.real import approximate
from tutor.line.tree import Chain, Measure, Name, Num, Rel
from tutor.line.writing import write_number
from tutor.marking.deciding.claim import Claim
from tutor.marking.deciding.context import Context, prepare
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.state import Known, Spec
from tutor.marking.task import Precision, Rounding, Task
from tutor.quantity.pi import Pi

# Roots and π are cut to 50 places: what is this near to a whole number is taken for it.
NEAR = Fraction(1, 10**25)


def as_asked(value: Fraction, precision: Precision) -> Fraction:
    """Return a value rounded as it is asked, a half up."""
    size = 10**precision.places
    match precision.rounding:
        case Rounding.NEAREST:
            return Fraction(floor(value * size + Fraction(1, 2) + NEAR), size)
        case Rounding.UP:
            return Fraction(ceil(value * size - NEAR), size)
        case Rounding.DOWN:
            return Fraction(floor(value * size + NEAR), size)
        case _:
            assert_never(precision.rounding)


@dataclass(frozen=True, slots=True)
class Bound:
    """``name rel value``, the value in reference units: what one condition says of one name."""

    name: str
    rel: Rel
    value: Fraction


@dataclass(frozen=True, slots=True)
class Stage:
    """An answer that has to be rounded before the work goes on.

    ``before`` and ``value``: as it comes out and as it is rounded, in the unit that is asked;
    ``size``: how many reference units one of those is. ``index``: the premise that gives it; ``rel``:
    how that bounds it, ``=`` where it settles it. ``spec``: what later answers follow from, with the
    rounded value in the place of that premise; ``inside``: the same as an inequality (``b ≥ 7``), where
    it is one. ``later``: the names that come out otherwise then.
    """

    name: str
    precision: Precision
    before: Fraction
    value: Fraction
    size: Fraction
    index: int
    rel: Rel
    spec: Spec
    inside: Spec | None
    later: frozenset[str]

    @property
    def specs(self) -> tuple[Spec, ...]:
        """Return all that later lines may follow from."""
        return (self.spec,) if self.inside is None else (self.spec, self.inside)

    def holds_in(self, spec: Spec, setting: Setting) -> bool:
        """Tell whether the answer is rounded already in some premises."""
        if spec is self.inside:
            return True
        values = spec.ground(setting).values().get(self.name, ())
        return bool(values) and all(
            as_asked(value / self.size, self.precision) == value / self.size for value in values
        )


def stages_of(known: Known) -> tuple[Stage, ...]:
    """Return the rounded answers that later lines go on from, () where none changes anything later."""
    task = known.context.task
    if known.base is None or not task.rounds:
        return ()
    if len(task.find) == 1 and all(_settles(premise) for premise in known.base.premises):
        return ()  # nothing comes after the only answer
    return tuple(stage for stage in _all_ways(known.base, task) if stage.later or not stage.rel.equates)


def _settles(premise: object) -> bool:
    return isinstance(premise, Chain) and all(rel.equates for rel in premise.rels)


@lru_cache(maxsize=64)
def _all_ways(base: Spec, task: Task) -> tuple[Stage, ...]:
    """Return the stages with each number that may stand for π, those of the lesson's first."""
    context = prepare(task)[0]
    ways = (task.pi, *(pi for pi in Pi if pi is not task.pi)) if base.has_pi() else (task.pi,)
    found: dict[tuple[str, Fraction], Stage] = {}
    for pi in ways:
        for stage in chain(base, context, pi):
            found.setdefault((stage.name, stage.before), stage)
    return tuple(found.values())


def chain(base: Spec, context: Context, pi: Pi) -> tuple[Stage, ...]:
    """Return the answers that have to be rounded, each worked out from those before it.

    An answer that no single premise gives out of the others is left out: there is no saying then
    what follows from it.
    """
    setting = Setting(pi.value_used, context.systems[0], context.measures)
    found: list[Stage] = []
    for at, name in enumerate(context.find):
        precision = context.task.precision_of(name)
        if precision is None or not precision.must:
            continue
        try:
            stage = _stage(found[-1].spec if found else base, context, setting, at, precision)
        except (NotExact, DividedByZero):
            stage = None
        found += [] if stage is None else [stage]
    return tuple(found)


def _stage(spec: Spec, context: Context, setting: Setting, at: int, precision: Precision) -> Stage | None:
    name, index = context.find[at], giving(spec, setting, context.find[at])
    if index is None:
        return None
    unit = context.asked_unit(name)
    size = Fraction(1) if unit is None else setting.units.factor(unit)
    ground = spec.ground(setting)
    values = ground.values()
    rel = Rel.EQ
    if len(set(values.get(name, ()))) == 1:
        before = values[name][0] / size
        value = as_asked(before, precision)
    else:
        bound = bound_of(ground.without(index).lower_claim(ground.claims[index]))
        if bound is None or bound.name != name or not fits(bound.rel, precision.rounding):
            return None
        before, rel = bound.value / size, bound.rel
        value = _first_inside(before, rel, precision)
    number = Num(value, write_number(value), precision.places)
    told = Chain((Name(name), number if unit is None else Measure(number, unit)), (Rel.EQ,))
    after = _with(spec, index, told)
    inclusive = Rel.GE if rel in (Rel.GE, Rel.GT) else Rel.LE
    inside = None if rel.equates else _with(spec, index, Chain(told.sides, (inclusive,)))
    asked_before = {*context.find[: at + 1]}
    changed = {other for other, found in after.ground(setting).values().items() if found != values.get(other)}
    later = frozenset(changed - asked_before)
    return Stage(name, precision, before, value, size, index, rel, after, inside, later)


def _with(spec: Spec, index: int, told: Chain) -> Spec:
    premises = (*spec.premises[:index], told, *spec.premises[index + 1 :])
    return Spec(premises, spec.positive, spec.line, spec.gained, rounded=True)


def giving(spec: Spec, setting: Setting, name: str) -> int | None:
    """Return the one premise that gives a name once the others have given the rest, None without one."""
    found: list[int] = []
    for index, premise in enumerate(spec.premises):
        names = statement_names(premise)
        if name not in names:
            continue
        others = Spec((*spec.premises[:index], *spec.premises[index + 1 :]), spec.positive)
        settled = others.ground(setting).values() if others.premises else {}
        if name not in settled and names - {name} <= settled.keys():
            found.append(index)
    return found[0] if len(found) == 1 else None


def bound_of(claim: Claim) -> Bound | None:
    """Return what a claim says of its one name, None where it is more than one linear condition."""
    if len(claim.cases) != 1 or len(claim.cases[0]) != 1:
        return None
    (condition,) = claim.cases[0]
    names = condition.names()
    if len(names) != 1 or condition.rel is Rel.NE:
        return None
    name = min(names)
    powers = condition.poly.by_power(name)
    if not powers.keys() <= {0, 1} or powers[1].names():
        return None
    lead = approximate(powers[1])
    rest = approximate(powers[0]) if 0 in powers else Fraction(0)
    return Bound(name, condition.rel.turned if lead < 0 else condition.rel, -rest / lead)


def direction(context: Context, name: str) -> Rel | None:
    """Return how an inequality of a task bounds a name, None where that cannot be told."""
    setting = Setting(context.task.pi.value_used, context.systems[0], context.measures)
    spec = Spec(context.premises, context.measures)
    try:
        index, ground = giving(spec, setting, name), spec.ground(setting)
        bound = None if index is None else bound_of(ground.without(index).lower_claim(ground.claims[index]))
    except (NotExact, DividedByZero):
        return None
    return bound.rel if bound is not None and bound.name == name else None


def fits(rel: Rel, rounding: Rounding) -> bool:
    """Tell whether a bound is rounded to its inside: at least so many up, at most so many down."""
    if rounding is Rounding.UP:
        return rel in (Rel.GE, Rel.GT)
    return rounding is Rounding.DOWN and rel in (Rel.LE, Rel.LT)


def _first_inside(bound: Fraction, rel: Rel, precision: Precision) -> Fraction:
    """Return the value nearest to a bound, of as many places, that it allows: 7 of ``b > 6``."""
    rounded = as_asked(bound, precision)
    on_it = abs(rounded - bound) <= NEAR and rel in (Rel.GT, Rel.LT)
    step = Fraction(1 if rel is Rel.GT else -1, 10**precision.places)
    return rounded + step if on_it else rounded


def allowed_by(stage: Stage, bound: Bound) -> bool:
    """Tell whether a line gives a bounded answer: ``b ≥ 7``, ``b > 6`` or ``b = 7`` of ``16b ≥ 100``."""
    value = bound.value / stage.size
    if bound.name != stage.name:
        return False
    if bound.rel.equates or (bound.rel in (Rel.GE, Rel.LE) and fits(bound.rel, stage.precision.rounding)):
        return value == stage.value
    step = Fraction(1 if bound.rel is Rel.GT else -1, 10**stage.precision.places)
    return fits(bound.rel, stage.precision.rounding) and value + step == stage.value


def specs_about(known: Known, name: str, setting: Setting) -> Iterator[Spec]:
    """Yield the premises that an answer may follow from: of a later one, those with rounded answers."""
    assert known.base is not None
    stages = [stage for stage in stages_of(known) if name in stage.later]
    for spec in (known.base, *known.more, *(spec for stage in stages for spec in stage.specs)):
        if all(stage.holds_in(spec, setting) for stage in stages if stage.precision.one_way):
            yield spec
