"""A task made ready for marking: its names, premises, units, and which names are measures."""

import re
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from tutor.line.meaning import UnitSystem, value_of
from tutor.line.names import Names, letters_between_signs, plain, segments
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.reader import Unread, read
from tutor.line.real import sign as sign_of_constant
from tutor.line.tree import Bare, Chain, Expr, Measure, Mul, Name, PiSign, Rel, Statement
from tutor.line.walk import every, names_in
from tutor.marking.deciding.dimensions import inferred
from tutor.marking.deciding.facts import statement_names
from tutor.marking.task import Task
from tutor.quantity.dimension import LENGTH, MASS, TIME, Dimension
from tutor.quantity.units import Unit, read_unit


@dataclass(frozen=True, slots=True)
class TaskProblem:
    """A part of a task that cannot be used: where it stands and a sentence for who wrote it."""

    field: str
    index: int
    start: int
    message: str


@dataclass(frozen=True, slots=True)
class Context:
    """Everything about a task that does not change while it is worked."""

    task: Task
    names: Names
    premises: tuple[Chain, ...]
    formula_count: int
    systems: tuple[UnitSystem, ...]
    measures: frozenset[str]
    dimensions: tuple[tuple[str, Dimension], ...]
    asked_units: tuple[tuple[str, Unit], ...]
    find: tuple[str, ...]
    ends_without: bool = False  # a later line says that there is no solution
    parts_apart: bool = True  # one part of a line may stand alone: the others come later

    def dimension_of(self, name: str) -> Dimension | None:
        """Return what a name measures, where the task says so."""
        return dict(self.dimensions).get(name)

    def asked_unit(self, name: str) -> Unit | None:
        """Return the unit that the answer should have, where one is asked."""
        return dict(self.asked_units).get(name)

    @property
    def from_first_line(self) -> bool:
        """Tell whether the first line of work is the premise."""
        return not self.premises


@lru_cache(maxsize=128)
def prepare(task: Task) -> tuple[Context, tuple[TaskProblem, ...]]:
    """Read a task; parts that cannot be read are left out and named."""
    problems: list[TaskProblem] = []
    names = Names(frozenset(_declared(task)))
    names = names.joined(_formula_letters(task, names))
    premises: list[Chain] = []
    for index, formula in enumerate(task.formulas):
        _add(_premise(formula, names), "formula", index, premises, problems)
    formula_count = len(premises)
    given_units: list[tuple[str, Unit]] = []
    for index, (name, value) in enumerate(task.givens):
        chain = _given(name, value, names)
        if isinstance(chain, Chain):
            unit = outer_unit(chain.sides[1])
            given_units += [(plain(name), unit)] if unit is not None else []
            names = names.joined(names_in(*chain.sides))
        _add(chain, "given", index, premises, problems)
    asked: list[tuple[str, Unit]] = []
    for index, (name, text) in enumerate(zip(task.find, task.units, strict=False)):
        unit = read_unit(text) if text else None
        if unit is not None:
            asked.append((plain(name), unit))
        elif text:
            problems.append(TaskProblem("units", index, 0, f"“{text}” is not a unit that Evenline knows."))
    find = tuple(plain(name) for name in task.find)
    measures = _measures(task, find, given_units, asked, premises[:formula_count], premises[formula_count:])
    premises += _school_definitions(names, premises)
    names = names.joined(name for premise in premises for name in names_in(*premise.sides))
    context = Context(
        task=task,
        names=names.asking(find[0] if len(find) == 1 else ""),
        premises=tuple(premises),
        formula_count=formula_count,
        systems=_systems([*asked, *given_units]),
        measures=measures | _doubles(measures, premises),
        dimensions=inferred(
            tuple((name, unit.dimension) for name, unit in (*given_units, *asked)),
            premises[:formula_count],
        ),
        asked_units=tuple(asked),
        find=find,
    )
    return context, tuple(problems)


def _declared(task: Task) -> set[str]:
    return {
        plain(name) for name in (*task.names, *task.find, *(name for name, _ in task.givens), *task.measures)
    }


def _formula_letters(task: Task, names: Names) -> set[str]:
    """In a formula every letter is a name: ``V = LWH`` declares V, L, W and H."""
    letters = _in_both_cases(task, names)
    letters |= {name for formula in task.formulas for name in segments(formula, names.known)}
    letters |= {plain(found) for formula in task.formulas for found in _LOWERED.findall(formula)}
    names = names.joined(letters)
    for formula in task.formulas:
        letters |= {plain(found[0]) for found in _ANGLES.finditer(formula)}
        letters |= letters_between_signs(formula)
        for run in _runs(_LOWERED.sub(" ", formula)):
            if names.find(run) is None and run.lower() not in _NO_NAMES:
                pieces = names.take_apart(run, after_number=True) or ((run,) if len(run) == 1 else ())
                letters |= {piece for piece in pieces if piece != "π"}
    return letters


_LOWERED = re.compile(r"[^\W\d_](?:_\w+|_\{\w+\}|[₀-₉]+)")  # d_1 and d₁
_NO_NAMES = frozenset({"pi", "sqrt", "or", "and", "cbrt", "root", "abs"})


def _in_both_cases(task: Task, names: Names) -> set[str]:
    """Letters that the formulas write in both cases are two names: ``R = r + w``, with r given."""
    runs = [run for formula in task.formulas for run in _runs(formula)]
    single = {run for run in runs if len(run) == 1}
    for run in runs:
        if len(run) > 1 and run not in names.known and run.lower() not in _NO_NAMES:
            single |= set(run.removeprefix("pi")) if names.take_apart(run, after_number=True) else set()
    return {letter for letter in single if letter.swapcase() in single and letter.isascii()}


_ANGLES = re.compile(r"(?:m\s*)?(?:∠|angle\s)\s*[A-Za-z]{1,3}(?![A-Za-z])", re.IGNORECASE)


def _runs(text: str) -> list[str]:
    text = _ANGLES.sub(" ", text)
    runs, current = [], ""
    for sign in text + " ":
        if sign.isalpha() and sign != "π":
            current += sign
        elif current:
            runs.append(current)
            current = ""
    return runs


def _add(
    made: Chain | Unread, field: str, index: int, premises: list[Chain], problems: list[TaskProblem]
) -> None:
    if isinstance(made, Chain):
        premises.append(made)
    else:
        problems.append(TaskProblem(field, index, made.span[0], made.message))


def _premise(text: str, names: Names) -> Chain | Unread:
    found = read(text, names)
    if isinstance(found, Unread):
        return found
    statement = found.statements[0]
    if not isinstance(statement, Chain):
        return Unread((0, len(text)), "Write an equation with a sign = in it.")
    return statement


def _given(name: str, value: str, names: Names) -> Chain | Unread:
    found = read(value, names)
    if isinstance(found, Unread):
        return found
    # "given V = 112L" beside a name l: whoever writes the task means the unit.
    bare = [one for one in found.statements if isinstance(one, Bare)]
    statement = next((one for one in bare if outer_unit(one.expr) is not None), found.statements[0])
    if not isinstance(statement, Bare):
        return Unread((0, len(value)), "Write a value here, such as 420 cm^3 or 3x + 12.")
    return Chain((Name(names.find(name) or plain(name)), statement.expr), (Rel.EQ,))


def outer_unit(expr: Expr) -> Unit | None:
    """Return the unit of a value, wherever in it the unit was written at the end."""
    if isinstance(expr, Measure):
        return expr.unit
    if isinstance(expr, Mul) and isinstance(expr.factors[-1], Measure):
        return expr.factors[-1].unit
    return None


def _systems(units: list[tuple[str, Unit]]) -> tuple[UnitSystem, ...]:
    """Bare numbers count in the units of the task: one system for each length unit in it."""
    found: dict[Dimension, list[Fraction]] = {LENGTH: [], TIME: [], MASS: []}
    for _, unit in units:
        for base, _power in unit.parts:
            key = LENGTH if base.dimension.length == 1 else base.dimension
            if key in found and base.factor not in found[key]:
                found[key].append(base.factor)
    # A litre is a cubic decimetre: sides may be put in in decimetres where litres are asked.
    sides = [side for _, unit in units for side in lengths_of(unit) if side not in found[LENGTH]]
    found[LENGTH] += dict.fromkeys(sides) if found[LENGTH] else ()
    time = found[TIME][0] if found[TIME] else None
    mass = found[MASS][0] if found[MASS] else None
    lengths: list[Fraction | None] = [*found[LENGTH]] or [None]
    return tuple(UnitSystem(length, time, mass) for length in lengths)


# Litres and millilitres by the edge of their cube, in metres.
_EDGES = {Fraction(1, 1000): Fraction(1, 10), Fraction(1, 10**6): Fraction(1, 100)}


def lengths_of(unit: Unit) -> tuple[Fraction, ...]:
    """Return the units of length that a unit counts in, in metres: that of cm² is 1/100."""
    found = (
        base.factor if base.dimension.length == 1 else _EDGES.get(base.factor)
        for base, _power in unit.parts
        if base.dimension.length and base.dimension == replace(Dimension(), length=base.dimension.length)
    )
    return tuple(length for length in found if length is not None)


@lru_cache(maxsize=256)
def counted_in(systems: tuple[UnitSystem, ...], units: tuple[Unit, ...]) -> tuple[UnitSystem, ...]:
    """Return the systems, and one more for each unit of length among ``units`` that none counts in."""
    if not systems or systems[0].length is None:
        return systems
    known = {system.length for system in systems}
    more = dict.fromkeys(length for unit in units for length in lengths_of(unit) if length not in known)
    return (*systems, *(replace(systems[0], length=length) for length in more)) if more else systems


def _measures(
    task: Task,
    find: tuple[str, ...],
    given_units: list[tuple[str, Unit]],
    asked: list[tuple[str, Unit]],
    formulas: list[Chain],
    givens: list[Chain],
) -> frozenset[str]:
    """Names that are sizes, so positive.

    A name with a unit of length is one; so is every name of a formula whose given values
    are all positive and whose letters are not those of an unknown in an expression.
    """
    named = {plain(name) for name in task.measures}
    named |= {name for name, unit in (*given_units, *asked) if unit.dimension.length > 0}
    if givens and all(_sign_of(given.sides[1]) == 1 for given in givens):
        named |= {name for formula in formulas for name in names_in(*formula.sides)}
    return frozenset(named)


def _doubles(measures: frozenset[str], premises: list[Chain]) -> frozenset[str]:
    """The diameter of a radius that is a size is one too, and the other way round."""
    circle = {"d", "r"}
    tied = any(circle <= names_in(*premise.sides) for premise in premises)
    return frozenset(circle) if tied and circle & measures else frozenset()


def _sign_of(value: Expr) -> int | None:
    """Return the sign of a given value, None where it is no number."""
    try:
        constant = value_of(value).constant()
    except (NotExact, DividedByZero):
        return None
    return None if constant is None else sign_of_constant(constant)


def looks_like_formula(statement: Statement) -> bool:
    """Tell whether a first line relates several names, as a formula does."""
    return len(statement_names(statement)) >= 2


_SCHOOL = (
    # (a name, needed beside it, its meaning): the diameter, and the base of a box.
    ("d", frozenset({"r"}), "d = 2 r", True),
    ("r", frozenset({"d"}), "d = 2 r", True),
    ("B", frozenset({"L", "W", "H", "V"}), "B = L W", False),
)


def _untied(name: str, others: frozenset[str], premises: list[Chain]) -> bool:
    """Tell whether a name that is given stands in no premise beside the names it belongs to."""
    return not any({name} | others <= names_in(*premise.sides) for premise in premises)


def _has_pi(premise: Chain) -> bool:
    return any(isinstance(node, PiSign) for side in premise.sides for node in every(side))


def _school_definitions(names: Names, premises: list[Chain]) -> list[Chain]:
    """Return what every lesson means by d beside r in a circle, and by B in a box."""
    with_pi = [premise for premise in premises if _has_pi(premise)]
    made: list[Chain] = []
    for name, needed, text, circle in _SCHOOL:
        # In "n = d/C" the d is a distance, whatever stands below it.
        other = circle and any(
            "d" in names_in(*premise.sides) and len(names_in(*premise.sides)) > 1 and premise not in with_pi
            for premise in premises
        )
        possible = needed <= names.known and (bool(with_pi) or not circle) and not other
        wanted = names.find(name) is None or (circle and _untied(name, needed, [*premises, *made]))
        if possible and wanted:
            chain = _premise(text, Names(needed | {name}))
            made += [chain] if isinstance(chain, Chain) else []
    return made
