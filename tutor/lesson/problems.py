"""One problem of a lesson: its card made a Problem, with every fault that can be seen in it."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from tutor.lesson.figures import read_figure
from tutor.lesson.keywords import Keyword
from tutor.lesson.model import Fault, FigureWords, Problem
from tutor.lesson.naming import is_measure, is_name, is_plain_value, mentions, unit_of_value, unit_problem
from tutor.lesson.outline import Card
from tutor.lesson.source import Phrase, Source
from tutor.marking.solve import task_problems
from tutor.marking.task import Task
from tutor.quantity.pi import Pi
from tutor.visible import spelled

MOST_PLACES = 6

# The entries that a name can be found from.
_SOURCES = frozenset({Keyword.FORMULA, Keyword.EQUATION, Keyword.GIVEN})


@dataclass(frozen=True, slots=True)
class Defaults:
    """What the lesson says for all its problems."""

    pi: Pi
    every_step: bool


@dataclass(frozen=True, slots=True)
class Sought:
    """One thing to find; ``unit`` is None where none is asked."""

    name: Phrase
    unit: Phrase | None


@dataclass(frozen=True, slots=True)
class Parts:
    """The pieces of a problem that carry mathematics, each with its place in the file."""

    formulas: tuple[Phrase, ...]
    givens: tuple[tuple[Phrase, Phrase], ...]
    sought: tuple[Sought, ...]
    names: tuple[Phrase, ...]

    @property
    def words(self) -> tuple[str, ...]:
        """Return every name that the problem introduces, without repeats."""
        found = [given.text for given, _value in self.givens]
        found += [sought.name.text for sought in self.sought]
        found += [name.text for name in self.names]
        return tuple(dict.fromkeys(found))

    @property
    def mathematics(self) -> tuple[str, ...]:
        """Return the texts that may speak of a name."""
        return (*(formula.text for formula in self.formulas), *(value.text for _given, value in self.givens))

    def speak_of(self, name: str) -> bool:
        """Tell whether some formula or some given's value speaks of ``name``."""
        return any(mentions(text, name, self.words) for text in self.mathematics)


def parts_of(card: Card) -> Parts:
    """Return the mathematical pieces of a problem's card."""
    sought = [Sought(name, content.tail) for content in card.all(Keyword.FIND) for name in content.parts]
    givens = [
        (content.first, content.tail) for content in card.all(Keyword.GIVEN) if content.tail is not None
    ]
    return Parts(
        formulas=tuple(content.first for content in card.all(Keyword.FORMULA, Keyword.EQUATION)),
        givens=tuple((name, value) for name, value in givens if value is not None),
        sought=tuple(sought),
        names=tuple(name for content in card.all(Keyword.NAMES) for name in content.parts),
    )


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


def read_problem(source: Source, card: Card, defaults: Defaults) -> tuple[Problem, list[Fault]]:
    """Return the problem as far as it can be read, and its faults; it is good where there are none."""
    parts = parts_of(card)
    pi, faults = read_pi(source, card)
    places, places_faults = _places(source, card)
    figure, figure_faults = _figure(source, card, parts)
    ask, written, ask_faults = _ask(source, card, parts)
    faults += [*places_faults, *figure_faults, *ask_faults]
    faults += _missing(source, card)
    faults += _names(source, parts)
    faults += _sought(source, card, parts)
    faults += _givens(source, parts)
    task = Task(
        formulas=tuple(formula.text for formula in parts.formulas),
        givens=tuple((name.text, value.text) for name, value in parts.givens),
        find=tuple(sought.name.text for sought in parts.sought),
        units=tuple(sought.unit.text if sought.unit else "" for sought in parts.sought),
        pi=pi or defaults.pi,
        every_step=defaults.every_step or card.one(Keyword.EVERY) is not None,
        names=tuple(name.text for name in parts.names),
        measures=_measures(parts, figure),
        places=places,
    )
    faults += _unreadable(source, parts, task, {fault.line for fault in faults})
    line = source.place(card.head.offset)[0] if card.head else 1
    name = card.one(Keyword.PROBLEM)
    return Problem(name.first.text if name else "", ask, task, figure, line, written), faults


def _unreadable(source: Source, parts: Parts, task: Task, told: set[int]) -> Iterator[Fault]:
    """Yield what cannot be read as mathematics, but not in lines that have a fault already."""
    for problem in task_problems(task):
        match problem.field:
            case "formula":
                place = parts.formulas[problem.index].at(problem.start)
            case "given":
                place = parts.givens[problem.index][1].at(problem.start)
            case _:  # a unit; what was asked for in it stands beside the name
                place = parts.sought[problem.index].name.start
        if source.place(place)[0] not in told:
            yield source.fault(place, problem.message)


def _missing(source: Source, card: Card) -> Iterator[Fault]:
    at = card.head.offset if card.head else 0
    if Keyword.ASK not in card.seen:
        yield source.fault(at, "This problem asks nothing: “ask” is missing.", Keyword.ASK.example)
    if Keyword.FIND not in card.seen:
        yield source.fault(
            at, "This problem does not say what to work out: “find” is missing.", Keyword.FIND.example
        )
    elif not card.seen.keys() & _SOURCES:
        yield source.fault(
            card.seen[Keyword.FIND].offset,
            "There is nothing to find this from: no formula, no equation and nothing given.",
            Keyword.FORMULA.example,
        )


def _names(source: Source, parts: Parts) -> Iterator[Fault]:
    for given, value in parts.givens:
        if is_name(given.text):
            continue
        swapped = f"{value.text} = {given.text}" if is_name(value.text) else Keyword.GIVEN.example
        yield source.fault(given.start, "A name stands before the =, and its value behind.", swapped)
    for name in (*(sought.name for sought in parts.sought), *parts.names):
        if not is_name(name.text):
            yield source.fault(
                name.start,
                f"“{spelled(name.text[:40])}” cannot be a name. A name is a letter, a word or an angle.",
            )


def _sought(source: Source, card: Card, parts: Parts) -> Iterator[Fault]:
    seen: set[str] = set()
    values = {given.text: value.text for given, value in parts.givens}
    for sought in parts.sought:
        name = sought.name.text
        if name in seen:
            yield source.fault(sought.name.start, f"“{spelled(name)}” is asked for twice. Take one away.")
        seen.add(name)
        if name in values and is_plain_value(values[name]):
            yield source.fault(
                sought.name.start, f"“{spelled(name)}” is given above, so there is nothing to find."
            )
        readable = is_name(name) and bool(parts.mathematics) and not card.unread & _SOURCES
        if readable and name not in values and not parts.speak_of(name):
            yield source.fault(
                sought.name.start,
                f"No formula speaks of “{spelled(name)}”, so it cannot be found.",
                f"a formula with {spelled(name)} in it, or a name that a formula has",
            )
    for unit in dict.fromkeys(sought.unit for sought in parts.sought if sought.unit):
        message, better = unit_problem(unit.text)
        if message:
            yield source.fault(unit.start, message, better)


def _givens(source: Source, parts: Parts) -> Iterator[Fault]:
    seen: dict[str, int] = {}
    for given, value in parts.givens:
        if given.text in seen:
            line, _column = source.place(seen[given.text])
            yield source.fault(
                given.start, f"“{spelled(given.text)}” is given twice, first in line {line}. Take one away."
            )
        seen.setdefault(given.text, given.start)
        if "=" in value.text:
            yield source.fault(
                value.at(value.text.index("=")),
                "A second = stands here. Each “given” has one name and one value, on a line of its own.",
                Keyword.GIVEN.example,
            )
            continue
        unit = unit_of_value(value.text)
        message, better = ("", "") if _multiplied(unit, parts) else unit_problem(unit)
        if message and better:
            begins = value.text.rindex(unit)
            yield source.fault(
                value.at(begins), message, f"given    {given.text} = {value.text[:begins]}{better}"
            )


def _multiplied(unit: str, parts: Parts) -> bool:
    """Tell whether letters multiply here: the 2ab of ``given w = 2ab`` has no unit."""
    formulas = [formula.text for formula in parts.formulas]
    return len(unit) == 1 or all(
        any(mentions(text, letter, parts.words) for text in formulas) for letter in unit
    )


def _figure(source: Source, card: Card, parts: Parts) -> tuple[FigureWords | None, list[Fault]]:
    content = card.one(Keyword.FIGURE)
    return (None, []) if content is None else read_figure(source, content, parts.words, parts.speak_of)


def _places(source: Source, card: Card) -> tuple[int | None, list[Fault]]:
    content = card.one(Keyword.ROUND)
    if content is None:
        return None, []
    written = content.first
    digits = written.text.lstrip("0") or "0"
    if len(digits) == 1 and int(digits) <= MOST_PLACES:
        return int(digits), []
    return None, [
        source.fault(written.start, f"At most {MOST_PLACES} places can be asked for.", "round    to 2 places")
    ]


def _measures(parts: Parts, figure: FigureWords | None) -> tuple[str, ...]:
    """Return the names that are lengths, areas or volumes, by their unit or as parts of a figure."""
    found = [given.text for given, value in parts.givens if is_measure(unit_of_value(value.text))]
    found += [sought.name.text for sought in parts.sought if sought.unit and is_measure(sought.unit.text)]
    if figure is not None and figure.kind != "angles":
        found += [part.name for part in figure.parts]
    return tuple(dict.fromkeys(found))


_BRACES = re.compile(r"\{([^{}]*)\}")
_RAISED = re.compile(r"\^([23])(?!\d)")


def _ask(source: Source, card: Card, parts: Parts) -> tuple[str, str, list[Fault]]:
    """Return the question to show, the question as written ("" if the same), and faults."""
    content = card.one(Keyword.ASK)
    if content is None:
        return "", "", []
    written = content.first
    values = {given.text: value.text for given, value in parts.givens}
    all_known = Keyword.GIVEN not in card.unread and all(map(is_name, values))
    faults: list[Fault] = []

    def value(found: re.Match[str]) -> str:
        shown = _lookup(found[1].strip(), values)
        if shown is None and all_known:
            faults.append(
                source.fault(
                    written.at(found.start()),
                    f"“{spelled(found[0][:40])}” shows the value of a given, and no given has this name.",
                    "one of " + ", ".join(f"{{{name}}}" for name in values)
                    if values
                    else "the number itself",
                )
            )
        return _RAISED.sub(lambda power: "²³"[int(power[1]) - 2], shown or "")

    shown = _BRACES.sub(value, written.text)
    loose = re.search(r"[{}]", _BRACES.sub(lambda found: "." * len(found[0]), written.text))
    if loose is not None:
        faults.append(
            source.fault(
                written.at(loose.start()),
                "A brace stands alone. Braces show the value of a given, as in {C}.",
            )
        )
    return shown, written.text if shown != written.text else "", faults


def _lookup(name: str, values: dict[str, str]) -> str | None:
    if name in values:
        return values[name]
    folded = [value for other, value in values.items() if other.casefold() == name.casefold()]
    return folded[0] if len(folded) == 1 else None
