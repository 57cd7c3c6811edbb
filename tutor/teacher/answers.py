"""The answers of a problem of any kind, worked out and written as a teacher writes them."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor, isclose
from typing import assert_never

from tutor.lesson.ends import solved_inequality, stated_words
from tutor.line.names import plain
from tutor.marking.kinds.choice import label
from tutor.marking.solve import NamedValue, solve
from tutor.marking.task import AnyTask, ChoiceTask, DrawingTask, Precision, Rounding, Task, WordTask
from tutor.marking.work import problems_of, solution
from tutor.teacher.on_paper import line_on_paper, on_paper
from tutor.visible import visible


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer, safe to print. ``name`` is "" where it answers the whole question.

    ``value`` has its unit; ``about``: it was rounded; ``note``: what else is to be known of it.
    """

    name: str
    value: str
    about: bool = False
    note: str = ""

    @property
    def cell(self) -> str:
        """Return it for a column that has its name above."""
        return f"≈ {self.value}" if self.about and self.name else self.value

    def __str__(self) -> str:
        """Return it as a student would write it: ``r = 7.5 cm``, ``s ≈ 7.1 cm``, ``yes``."""
        sign = "≈" if self.about else "="
        shown = f"{self.name} {sign} {self.value}" if self.name else self.value
        return f"{shown}, {self.note}" if self.note else shown


def answers_of(task: AnyTask) -> tuple[tuple[Answer, ...], tuple[str, ...]]:
    """Return the answers of a task, and what is wrong with it in sentences for the teacher.

    There are no answers where something is wrong.
    """
    match task:
        case Task() if task.find:
            return _solved(task)
        case Task() if task.lengths:
            found = tuple(Answer("", line.text) for line in solution(task)[-1:])
        case Task():
            found = tuple(Answer("", line_on_paper(task, goal)) for goal in task.goals)
        case ChoiceTask():
            options = enumerate(task.options)
            found = tuple(
                Answer("", f"{label(at)}) {visible(option)}")
                for at, option in options
                if option in task.right
            )
        case WordTask():
            also = f"also right: {visible(', '.join(task.also))}" if task.also else ""
            found = (Answer("", visible(task.word), note=also),)
        case DrawingTask():
            found = tuple(_measured(task))
        case _:
            assert_never(task)
    sentences = problems_of(task)
    return (() if sentences else found), sentences


def _solved(task: Task) -> tuple[tuple[Answer, ...], tuple[str, ...]]:
    found, sentences = solve(task)
    end = (stated_words(task) or solved_inequality(task)) if found is None else ""
    if end:
        return (Answer("", on_paper(end)),), ()
    if found is None or sentences:
        return (), sentences
    values = ((name, found.value(plain(name)), found.before_rounding(plain(name))) for name in task.find)
    return tuple(
        Answer(visible(name), "not worked out") if value is None else written(value, task, before)
        for name, value, before in values
    ), ()


def _measured(task: DrawingTask) -> Iterator[Answer]:
    """Yield what the parts that are not given must measure, in a drawing without any fault."""
    for line in solution(task)[1:]:
        name, _, value = on_paper(line.text).partition(" = ")
        yield Answer(name, value, about=True)


def written(value: NamedValue, task: Task, before: NamedValue | None = None) -> Answer:
    """Return an answer as a student would write it, roots and thirds with about how much.

    Where the lesson says to how many places and which way, a longer value is rounded so.
    ``before``: an answer that is rounded already as it came out.
    """
    is_decimal, exact = _is_decimal(value)
    name, shown = visible(value.name), _with_unit(on_paper(value.text), value.unit)
    precision = task.precision_of(value.name)
    if before is not None and precision is not None and _number(before) != _number(value):
        return _rounded(value, before, precision)
    if precision is not None and not (exact and len(value.text.partition(".")[2]) <= precision.places):
        return _rounded(value, value, precision)
    if is_decimal:
        return Answer(name, shown, about=not exact)
    return Answer(name, shown, note=f"about {_with_unit(f'{value.approx:.4g}', value.unit)}")


def _is_decimal(value: NamedValue) -> tuple[bool, bool]:
    """Tell whether a value is written as a decimal, and whether that is all of it."""
    text = value.text.replace("−", "-")
    is_decimal = text.lstrip("-").replace(".", "", 1).isdigit()
    return is_decimal, is_decimal and isclose(float(text), value.approx, rel_tol=1e-9)


def _rounded(value: NamedValue, before: NamedValue, precision: Precision) -> Answer:
    """Return an answer rounded as it is asked; of what is counted up or down, from which number."""
    scaled = _number(value) * 10**precision.places
    match precision.rounding:
        case Rounding.NEAREST:
            whole = floor(abs(scaled) + Fraction(1, 2)) * (-1 if scaled < 0 else 1)
        case Rounding.UP:
            whole = ceil(scaled)
        case Rounding.DOWN:
            whole = floor(scaled)
        case _:
            assert_never(precision.rounding)
    shown = _with_unit(_digits(whole, precision.places), value.unit)
    name = visible(value.name)
    if not precision.one_way:
        return Answer(name, shown, about=True)
    is_decimal, exact = _is_decimal(before)
    told = _with_unit(on_paper(before.text), before.unit)
    start = told if exact or not is_decimal else f"{before.approx:.4g}"
    return Answer(name, shown, note=f"rounded {precision.rounding.value} from {start}")


def _number(value: NamedValue) -> Fraction:
    """Return a value as exactly as it is known: 6 must not be rounded up to 7 for the sake of a float."""
    try:
        return Fraction(value.text.replace("−", "-"))
    except (ValueError, ZeroDivisionError):
        return Fraction(repr(value.approx))


def _digits(whole: int, places: int) -> str:
    digits = str(abs(whole)).rjust(places + 1, "0")
    point = f"{digits[:-places]}.{digits[-places:]}" if places else digits
    return f"−{point}" if whole < 0 else point


def _with_unit(number: str, unit: str) -> str:
    if unit == "$":
        cents = "0" if len(number.partition(".")[2]) == 1 else ""
        return f"{'−' if number.startswith('−') else ''}${number.lstrip('−')}{cents}"
    return f"{number}{unit if unit in ('', '°') else f' {unit}'}"
