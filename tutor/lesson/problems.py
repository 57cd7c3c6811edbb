"""One problem of a lesson: its card made a Problem, with every fault that can be seen in it."""

from dataclasses import dataclass
from typing import assert_never

from tutor.figure.kinds import is_angle
from tutor.lesson.advice import steps_meant
from tutor.lesson.asks import read_ask, read_parts
from tutor.lesson.figures import read_figure
from tutor.lesson.forms import better
from tutor.lesson.keywords import Keyword
from tutor.lesson.kinds import Kind, kind_of, misfits
from tutor.lesson.mathematics import (
    SOURCES,
    Parts,
    given_faults,
    name_faults,
    parts_of,
    sought_faults,
    unreadable,
)
from tutor.lesson.model import Fault, FigureWords, Problem
from tutor.lesson.naming import is_measure, unit_of_value
from tutor.lesson.other_kinds import choice, drawing, goal_faults, lengths, many, meaning, target, word
from tutor.lesson.outline import Card
from tutor.lesson.precision import bound_faults, read_rounding
from tutor.lesson.source import Source
from tutor.marking.task import AnyTask, Task
from tutor.marking.verdict import Step
from tutor.quantity.pi import Pi


@dataclass(frozen=True, slots=True)
class Defaults:
    """What the lesson says for all its problems."""

    pi: Pi
    every_step: bool
    steps: tuple[Step, ...] = ()
    check: bool = False


def read_pi(source: Source, card: Card) -> tuple[Pi | None, list[Fault]]:
    """Return the pi that a card asks for, None where it asks for none."""
    content = card.one(Keyword.PI)
    if content is None:
        return None, []
    written = content.first
    for pi in Pi:
        if written.text.casefold() == pi.value:
            return pi, []
    if written.text.casefold() in ("π", "pi"):
        return Pi.EXACT, []
    return None, [
        source.fault(written.start, "This pi is not known. It is 3.14, 22/7 or exact.", Keyword.PI.example)
    ]


_STEPS = {step.value: step for step in Step}


def read_steps(source: Source, card: Card) -> tuple[tuple[Step, ...], bool, list[Fault]]:
    """Return the steps that a card requires, whether a check is among them, and faults."""
    content = card.one(Keyword.STEPS)
    steps: list[Step] = []
    check = False
    faults: list[Fault] = []
    for written in content.parts if content else ():
        name = written.text.casefold()
        if name == "check":
            check = True
        elif name in _STEPS:
            steps.append(_STEPS[name])
        else:
            message = "The steps are formula, label, substitute, units and check."
            known = steps_meant(content.entry.body[:200]) if content else ""
            instead = Keyword.STEPS.written(known) if known else Keyword.STEPS.example
            if name in ("all", "every", "every step", "all steps"):
                instead = Keyword.EVERY.example
            faults.append(source.fault(written.start, message, instead))
    return tuple(dict.fromkeys(steps)), check, faults


def read_problem(source: Source, card: Card, defaults: Defaults) -> tuple[Problem, list[Fault]]:
    """Return the problem as far as it can be read, and its faults; it is good where there are none."""
    parts = parts_of(card)
    kind = kind_of(card)
    figure, faults = _figure(source, card, parts)
    givens = tuple((name.text, value.text) for name, value in parts.givens)
    ask, ask_faults = read_ask(source, card, dict(givens))
    questions, part_faults = read_parts(source, card, dict(givens))
    faults += [*ask_faults, *part_faults, *misfits(source, card, kind)]
    faults += name_faults(source, parts)
    faults += given_faults(source, parts)
    task, task_faults = _task(source, card, kind, parts, figure, defaults)
    faults += task_faults
    if isinstance(task, Task):
        faults += unreadable(source, parts, task, {fault.line for fault in faults})
        faults += [] if faults else goal_faults(source, card, task)
    name = card.one(Keyword.PROBLEM)
    reason = card.one(Keyword.REASON)
    return (
        Problem(
            name=name.first.text if name else "",
            ask=ask or _default_ask(card, kind),
            task=task,
            figure=figure,
            line=source.place(card.head.offset)[0] if card.head else 1,
            parts=questions,
            matters=card.one(Keyword.MATTERS) is not None,
            reason=reason.first.text if reason else "",
            meaning=meaning(card),
            givens=givens,
        ),
        faults,
    )


def _task(
    source: Source, card: Card, kind: Kind, parts: Parts, figure: FigureWords | None, defaults: Defaults
) -> tuple[AnyTask, list[Fault]]:
    match kind:
        case Kind.SOLVE | Kind.WRITE | Kind.SHOW:
            return _worked(source, card, kind, parts, figure, defaults)
        case Kind.TRIANGLE:
            return lengths(source, card, every_step=_every_step(card, defaults))
        case Kind.MANY:
            return many(source, card, parts)
        case Kind.DRAW:
            return drawing(source, card, parts)
        case Kind.CHOOSE:
            return choice(source, card)
        case Kind.WORD:
            return word(source, card)
        case _:
            assert_never(kind)


def _worked(
    source: Source, card: Card, kind: Kind, parts: Parts, figure: FigureWords | None, defaults: Defaults
) -> tuple[Task, list[Fault]]:
    """Return the task of a problem that is worked line by line."""
    pi, faults = read_pi(source, card)
    steps, check, step_faults = read_steps(source, card)
    precision, places_faults = read_rounding(source, card)
    goals, goal_faults = target(source, card, kind, parts)
    faults += [*step_faults, *places_faults, *goal_faults]
    if kind is Kind.SOLVE and Keyword.FIND in card.seen and not card.seen.keys() & SOURCES:
        message = "There is nothing to find this from: no formula, no equation and nothing given."
        faults.append(source.fault(card.seen[Keyword.FIND].offset, message, Keyword.FORMULA.example))
    task = Task(
        formulas=tuple(formula.text for formula in parts.formulas),
        givens=tuple((name.text, value.text) for name, value in parts.givens),
        find=tuple(sought.name.text for sought in parts.sought),
        units=tuple(sought.unit.text if sought.unit else "" for sought in parts.sought),
        pi=pi or defaults.pi,
        every_step=_every_step(card, defaults),
        names=parts.declared,
        measures=_measures(parts, figure),
        places=precision.places,
        rounding=precision.rounding,
        check=check or defaults.check or card.one(Keyword.CHECK) is not None,
        steps=steps or defaults.steps,
        goals=goals,
        sentence=kind is Kind.SHOW,
        rounded=precision.rounded,
    )
    faults += bound_faults(source, card, task)
    return task, [*faults, *sought_faults(source, card, parts, task)]


def _every_step(card: Card, defaults: Defaults) -> bool:
    return defaults.every_step or card.one(Keyword.EVERY) is not None


def _default_ask(card: Card, kind: Kind) -> str:
    means = card.one(Keyword.MEANS)
    return f"Which word means: {means.first.text}?" if kind is Kind.WORD and means else ""


def _figure(source: Source, card: Card, parts: Parts) -> tuple[FigureWords | None, list[Fault]]:
    content = card.one(Keyword.FIGURE)
    if content is None:
        return None, []
    if ";" in content.first.text:
        message = "Commas stand between the kind of figure and its parts."
        return None, [source.fault(content.first.start, message, better(Keyword.FIGURE, content.entry.body))]
    unread = bool(card.unread & SOURCES)
    return read_figure(source, content, parts.words, lambda name: unread or parts.speak_of(name))


def _measures(parts: Parts, figure: FigureWords | None) -> tuple[str, ...]:
    """Return the names that are lengths, areas or volumes, by their unit or as parts of a figure."""
    found = [given.text for given, value in parts.givens if is_measure(unit_of_value(value.text))]
    found += [sought.name.text for sought in parts.sought if sought.unit and is_measure(sought.unit.text)]
    for part in figure.parts if figure is not None else ():
        if part.name and figure is not None and not is_angle(figure.kind, part.role):
            found.append(part.name)
    return tuple(dict.fromkeys(found))
