"""The deeper look at a lesson that reads: can each problem be worked out, drawn and shown?"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from tutor.figure.lettering import cell_width
from tutor.lesson.keywords import Keyword
from tutor.lesson.kinds import ENDS, stated_end
from tutor.lesson.layout import cut
from tutor.lesson.mathematics import Parts, parts_of
from tutor.lesson.model import Fault, Lesson, Problem
from tutor.lesson.naming import unit_of_value
from tutor.lesson.outline import Card, outline
from tutor.lesson.picture import picture
from tutor.lesson.premises import contradicted, sizes_apart
from tutor.lesson.source import Source, source_of
from tutor.line.names import plain
from tutor.marking.solve import Solution, solve
from tutor.marking.task import Task
from tutor.marking.work import solution
from tutor.visible import spelled

# The narrowest place where a question is shown, in columns.
ASK_WIDTH = 36


@dataclass(frozen=True, slots=True)
class _Case:
    """One problem under audit, with the places of its entries."""

    source: Source
    problem: Problem
    task: Task
    card: Card
    parts: Parts
    solution: Solution | None
    sentences: tuple[str, ...]

    def fault(self, keyword: Keyword, message: str, instead: str = "") -> Fault:
        """Return a fault at what stands after a keyword, or at the problem where it has none."""
        content = self.card.one(keyword)
        head = self.card.head.offset if self.card.head else 0
        return self.source.fault(content.first.start if content else head, message, instead)


def audit(lesson: Lesson) -> tuple[Fault, ...]:
    """Return what a student would trip over, in the order of the file; empty for a good lesson."""
    if lesson.review is not None:
        return ()  # its problems are those of other lessons, and audited with them
    source = source_of(lesson.text, lesson.path)
    cards = outline(source, cut(source)[0]).problems
    faults: list[Fault] = []
    for problem, card in zip(lesson.problems, cards, strict=True):
        if not isinstance(problem.task, Task) or not problem.task.find:
            continue
        case = _Case(source, problem, problem.task, card, parts_of(card), *solve(problem.task))
        for check in _CHECKS:
            faults += check(case)
    return tuple(sorted(faults, key=lambda fault: (fault.line, fault.column)))


def _worked_out(case: _Case) -> Iterator[Fault]:
    end = _end(case.task) if case.solution is None else ""
    stated = stated_end(case.card)
    if stated != end and stated:
        yield case.fault(Keyword.ANSWER, f"Worked out, this does not end with “{stated}”.")
    if end and not stated:
        message = f"This ends with “{end}”. If that is meant, say so."
        yield case.fault(Keyword.FIND, message, Keyword.ANSWER.written(end))
    if stated or end:
        return
    # Where there are values all the same, the premise that they contradict is named below.
    for sentence in case.sentences if case.solution is None else ():
        yield case.fault(Keyword.FIND, sentence)


def _end(task: Task) -> str:
    """Return the words that an equation without one solution ends with, "" where it has no such end."""
    lines = solution(task)
    return lines[-1].text if lines and lines[-1].text in ENDS else ""


def _agrees_with_itself(case: _Case) -> Iterator[Fault]:
    if case.solution is None:
        return
    for is_formula, index in contradicted(case.task, case.solution):
        written = case.parts.formulas[index] if is_formula else case.parts.givens[index][0]
        yield case.source.fault(written.start, "This does not agree with the other formulas and givens.")


def _sizes_agree(case: _Case) -> Iterator[Fault]:
    if case.solution is None:
        return
    units = {given.text: unit_of_value(value.text) for given, value in case.parts.givens}
    units |= {sought.name.text: sought.unit.text for sought in case.parts.sought if sought.unit}
    named = {plain(name): unit for name, unit in units.items() if unit}
    for index, sides in sizes_apart(case.task, named):
        yield case.source.fault(
            case.parts.formulas[index].start,
            f"By the units, this formula sets {sides} equal. Look at each unit.",
        )


def _asks_for_units(case: _Case) -> Iterator[Fault]:
    for sought in case.parts.sought:
        name = sought.name.text
        if sought.unit is None and name in case.task.measures:
            yield case.source.fault(
                sought.name.start,
                f"“{spelled(name)}” is a length, an area or a volume, and no unit is asked for.",
                Keyword.FIND.written(f"{spelled(name)} in cm"),
            )


def _can_be_drawn(case: _Case) -> Iterator[Fault]:
    if case.problem.figure is None or case.solution is None:
        return
    scene, why = picture(case.problem, {})
    if scene is None:
        yield case.fault(Keyword.FIGURE, why)


def _fits_the_page(case: _Case) -> Iterator[Fault]:
    for word in case.problem.ask.split(" "):
        if cell_width(spelled(word)) > ASK_WIDTH:
            shown = spelled(word[:12])
            yield case.fault(
                Keyword.ASK, f"The word “{shown}…” is longer than {ASK_WIDTH} letters and fits on no line."
            )


_CHECKS: tuple[Callable[[_Case], Iterator[Fault]], ...] = (
    _worked_out,
    _agrees_with_itself,
    _sizes_agree,
    _asks_for_units,
    _can_be_drawn,
    _fits_the_page,
)
