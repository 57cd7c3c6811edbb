"""Working a task out: the value of every name, or why it has none."""

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from tutor.line.meaning import Setting
from tutor.line.names import plain
from tutor.line.poly import DividedByZero, NotExact, Poly
from tutor.line.walk import names_in
from tutor.line.writing import write_poly
from tutor.marking.deciding.context import Context, TaskProblem, outer_unit, prepare
from tutor.marking.deciding.stages import chain
from tutor.marking.deciding.state import Spec
from tutor.marking.task import Task
from tutor.quantity.units import Unit

__all__ = ["CONTRADICTION", "NamedValue", "Solution", "TaskProblem", "solve", "task_problems"]

CONTRADICTION = "The formulas and the givens contradict each other: no numbers fit them all."


@dataclass(frozen=True, slots=True)
class NamedValue:
    """The one value of a name: ``approx`` counts in ``unit`` ("" where it has none)."""

    name: str
    text: str
    approx: float
    unit: str


@dataclass(frozen=True, slots=True)
class Solution:
    """Every name of a task that has one value.

    An answer that has to be rounded has its rounded value, and what follows from it goes on from
    there. ``unrounded``: those answers as they come out.
    """

    values: tuple[NamedValue, ...]
    unrounded: tuple[NamedValue, ...] = ()

    def value(self, name: str) -> NamedValue | None:
        """Return the value of a name, or None."""
        return next((value for value in self.values if value.name == name), None)

    def before_rounding(self, name: str) -> NamedValue | None:
        """Return an answer that has to be rounded as it comes out, None where it does not have to be."""
        return next((value for value in self.unrounded if value.name == name), None)


def task_problems(task: Task) -> tuple[TaskProblem, ...]:
    """Return the parts of a task that cannot be read."""
    return prepare(task)[1]


@lru_cache(maxsize=64)  # asked for by the audit, the figure and the draw alike
def solve(task: Task) -> tuple[Solution | None, tuple[str, ...]]:
    """Work a task out; the sentences say to the teacher what is wrong.

    Premises that contradict each other come with the values that most of them give.
    """
    context, problems = prepare(task)
    if problems:
        return None, tuple(problem.message for problem in problems)
    if not context.premises:
        return None, ("There is nothing to work from: write a formula or a given.",)
    setting = Setting(task.pi.value_used, context.systems[0], context.measures)
    try:
        base = Spec(context.premises, context.measures)
        stages = chain(base, context, task.pi) if task.rounds else ()
        grounds = [base.ground(setting), *(stage.spec.ground(setting) for stage in stages)]
        numbers = [ground.values() for ground in grounds]
        exact = [ground.exact_values() for ground in grounds]
    except DividedByZero:
        return None, ("Something is divided by 0 here.",)
    except NotExact:
        return None, ("Evenline cannot work this out: it is beyond the forms it knows.",)
    at_odds = any(not poly.names() for poly in grounds[0].without(-1).left)
    staged = [stage.name for stage in stages]
    # What is asked for before an answer is rounded comes from before.
    turns = {name: _turn(context, staged, name) for name in numbers[-1]}
    written = context.premises[: context.formula_count + len(task.givens)]
    known = {*context.find, *(plain(name) for name, _ in task.givens)}
    unknown = sorted({name for one in written for name in names_in(*one.sides)} - known)
    waiting = tuple(name for name in unknown if not numbers[-1].get(name))
    faults = [_fault(name, numbers[turns.get(name, -1)].get(name), waiting) for name in context.find]
    found = tuple(fault for fault in faults if fault)
    if found:
        return None, found
    values = [
        _named(context, name, values[0], exact[at].get(name))
        for name, at in turns.items()
        if len(set(values := numbers[at].get(name, ()))) == 1
    ]
    unrounded = [
        _named(context, stage.name, stage.before * stage.size, exact[at].get(stage.name))
        for at, stage in enumerate(stages)
    ]
    wrong = [value.name for value in values if value.name in context.measures and value.approx <= 0]
    if wrong:
        return None, tuple(f"{name} comes out as 0 or less, and it is a size." for name in wrong)
    return Solution(tuple(values), tuple(unrounded)), (CONTRADICTION,) if at_odds else ()


def _turn(context: Context, staged: list[str], name: str) -> int:
    """Return how many answers were rounded before a name is worked out, itself among them."""
    if name not in context.find:
        return len(staged)
    asked = context.find[: context.find.index(name) + 1]
    return sum(one in asked for one in staged)


def _fault(name: str, values: tuple[Fraction, ...] | None, unknown: tuple[str, ...]) -> str:
    if not values:
        if not unknown:
            return f"{name} cannot be worked out from the formula and the givens."
        listed = " and ".join(filter(None, (", ".join(unknown[:-1]), unknown[-1])))
        missing = "has no value" if len(unknown) == 1 else "have no value"
        return f"{name} cannot be worked out: {listed} {missing}. Write a given for what is known."
    if len(set(values)) > 1:
        return f"{name} has more than one value here. Say which is meant, or change the numbers."
    return ""


def _named(context: Context, name: str, value: Fraction, exact: Poly | None) -> NamedValue:
    unit = _unit_of(context, name)
    scale = Fraction(1) if unit is None else context.systems[0].factor(unit)
    shown = None if exact is None else exact.scaled(1 / scale)
    text = write_poly(shown) if shown is not None else f"{float(value / scale):.4g}"
    return NamedValue(name, text, float(value / scale), "" if unit is None else str(unit))


def _unit_of(context: Context, name: str) -> Unit | None:
    asked = context.asked_unit(name)
    if asked is not None:
        return asked
    for premise in context.premises[context.formula_count :]:
        left = premise.sides[0]
        if getattr(left, "name", None) == name:
            return outer_unit(premise.sides[1])
    return None
