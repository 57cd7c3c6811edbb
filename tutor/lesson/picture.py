"""The figure of a problem, to scale: from its solution to the sizes of the parts."""

from collections.abc import Mapping
from fractions import Fraction
from functools import lru_cache

from tutor.figure.candidates import draw_candidates, is_drawable
from tutor.figure.examples import EXAMPLES
from tutor.figure.kinds import draw
from tutor.figure.scene import Scene
from tutor.lesson.model import FigurePart, Problem
from tutor.line.names import plain
from tutor.marking.deciding.context import prepare
from tutor.marking.solve import NamedValue, Solution, solve
from tutor.marking.task import ChoiceTask, Task
from tutor.quantity.units import Unit, read_unit


def picture(problem: Problem, labels: Mapping[str, str]) -> tuple[Scene | None, str]:
    """Draw the figure of a problem; ``labels``: name -> value as typed so far.

    A part whose name has no value typed yet bears the name alone; where the work has no labels, it
    bears what is given. A problem that asks for no value is drawn from its givens, or from usual
    sizes where it has none. Returns None and a sentence where the figure cannot be drawn, None and
    "" where the problem has none.
    """
    figure = problem.figure
    if figure is None:
        return None, ""
    solution = _solved(_worked(problem))
    if solution is None and _seeks_values(problem):
        return None, "This problem cannot be worked out, so its figure cannot be drawn."
    sizes = _sizes(figure.parts, solution) if solution is not None else {}
    if not sizes and not _seeks_values(problem):
        sizes = dict(EXAMPLES[figure.kind].sizes)
    if not isinstance(problem.task, Task):  # nothing is labelled in its work
        labels = {**dict(problem.givens), **labels}
    texts = {part.role: _label(part.name, labels) for part in figure.parts if part.name}
    words = [part.role for part in figure.parts if not part.name]
    scene, why = draw(figure.kind, sizes, texts, words, in_pieces=_has_areas(problem))
    unknown = [part.name for part in figure.parts if part.name and part.role not in sizes]
    if scene is None and unknown:
        return None, f"The figure cannot be drawn: nothing tells how large {' and '.join(unknown)} must be."
    return scene, why


def choices(problem: Problem) -> Scene | None:
    """Draw the options of a problem beside each other, with A, B, C … under them.

    None where it is no problem of choosing, or where not every option is a shape that can be drawn.
    """
    task = problem.task
    if not isinstance(task, ChoiceTask) or not is_drawable(task.options):
        return None
    return draw_candidates(task.options)[0]


def _seeks_values(problem: Problem) -> bool:
    return isinstance(problem.task, Task) and bool(problem.task.find)


def _has_areas(problem: Problem) -> bool:
    """Tell whether an area is worked out, or whether that cannot be told."""
    if not isinstance(problem.task, Task):
        return True
    kinds = [kind.length for _name, kind in prepare(problem.task)[0].dimensions]
    return not any(kinds) or any(power > 1 for power in kinds)


def _worked(problem: Problem) -> Task:
    """Return a task whose solution has the sizes: the problem's own, or its givens alone."""
    if isinstance(problem.task, Task) and problem.task.find:
        return problem.task
    return Task(givens=problem.givens, find=tuple(name for name, _value in problem.givens))


@lru_cache(maxsize=64)
def _solved(task: Task) -> Solution | None:
    # The page asks anew at each label; the sizes stay.
    return solve(task)[0] if task.find else None


def _label(name: str, labels: Mapping[str, str]) -> str:
    value = labels.get(name, "")
    return f"{name} = {value}" if value else name


def _sizes(parts: tuple[FigurePart, ...], solution: Solution) -> dict[str, float]:
    """Return role -> size; lengths, areas and volumes all in the first unit of length there is."""
    values = {part.role: value for part in parts if (value := solution.value(plain(part.name))) is not None}
    units = {role: read_unit(value.unit) for role, value in values.items() if value.unit}
    step = next((_length(unit) for unit in units.values() if unit and unit.dimension.length), Fraction(1))
    return {role: _size(value, units.get(role), step) for role, value in values.items()}


def _length(unit: Unit) -> Fraction:
    """Return the size of the unit of length in a unit, in metres: that of cm² is that of cm."""
    base, _power = unit.parts[0]
    return base.factor if base.dimension.length == 1 else Fraction(1)


def _size(value: NamedValue, unit: Unit | None, step: Fraction) -> float:
    if unit is None:
        return value.approx
    return value.approx * float(unit.factor / step**unit.dimension.length)
