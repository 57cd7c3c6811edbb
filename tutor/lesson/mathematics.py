"""The mathematics of a problem: names, formulas, givens and what is found, each with its place."""

import re
from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace

from tutor.lesson.advice import finds_meant
from tutor.lesson.entries import Content
from tutor.lesson.forms import better
from tutor.lesson.keywords import Keyword
from tutor.lesson.model import Fault
from tutor.lesson.naming import (
    has_no_unit,
    is_name,
    is_plain_value,
    length_in,
    length_power,
    mentions,
    unit_of_expression,
    unit_of_value,
    unit_problem,
)
from tutor.lesson.outline import Card
from tutor.lesson.premises import fitting_power
from tutor.lesson.source import Phrase, Source
from tutor.line.names import plain
from tutor.line.walk import names_in
from tutor.marking.deciding.context import prepare
from tutor.marking.solve import TaskProblem, task_problems
from tutor.marking.task import Task
from tutor.visible import spelled

# The entries that a name can be found from.
SOURCES = frozenset({Keyword.FORMULA, Keyword.EQUATION, Keyword.GIVEN, Keyword.PIECE})


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
    def declared(self) -> tuple[str, ...]:
        """Return the names that the problem declares beside those that are given or found."""
        return tuple(dict.fromkeys(name.text for name in self.names))

    @property
    def mathematics(self) -> tuple[str, ...]:
        """Return the texts that may speak of a name."""
        return (*(formula.text for formula in self.formulas), *(value.text for _given, value in self.givens))

    def speak_of(self, name: str) -> bool:
        """Tell whether some formula or some given's value speaks of ``name``."""
        return any(mentions(text, name, self.words) for text in self.mathematics)


def parts_of(card: Card) -> Parts:
    """Return the mathematical pieces of a problem's card."""
    sought = list(_sought(card))
    givens = [
        (content.first, content.tail) for content in card.all(Keyword.GIVEN) if content.tail is not None
    ]
    made = Parts(
        formulas=tuple(
            _definition(content) if content.entry.keyword is Keyword.PIECE else content.first
            for content in card.all(Keyword.FORMULA, Keyword.EQUATION, Keyword.PIECE)
        ),
        givens=tuple((name, value) for name, value in givens if value is not None),
        sought=tuple(sought),
        names=tuple(
            name
            for content in card.all(Keyword.NAMES, Keyword.PIECE)
            for name in content.parts[: 1 if content.entry.keyword is Keyword.PIECE else None]
        ),
    )
    pieces = {content.first for content in card.all(Keyword.PIECE)}
    return replace(made, sought=tuple(_measured(made, pieces))) if pieces else made


def _measured(parts: Parts, pieces: Collection[Phrase]) -> Iterator[Sought]:
    """Yield what is sought, the pieces in what they measure: the front of a prism is an area in a volume."""
    task = Task(
        formulas=tuple(formula.text for formula in parts.formulas),
        givens=tuple((name.text, value.text) for name, value in parts.givens),
        names=parts.declared,
    )
    units = {plain(name.text): unit_of_value(value.text) for name, value in parts.givens}
    lengths = [length for unit in units.values() if (length := length_in(unit))]
    # Where a number stands for a size, as in front = 6 L, what is found comes out as something else.
    agree = all(
        fitting_power(task, units, plain(one.name.text)) == length_power(one.unit.text)
        for one in parts.sought
        if one.name not in pieces and one.unit is not None and length_in(one.unit.text)
    )
    for sought in parts.sought:
        asked = sought.unit
        if sought.name not in pieces or asked is None or not agree:
            yield sought
            continue
        own = length_in(asked.text)
        power = fitting_power(task, units, plain(sought.name.text), numbers=bool(own))
        length = own or next(iter(lengths), "")
        if not power or not length or power == length_power(asked.text):
            yield sought
            continue
        text = length if power == 1 else f"{length}^{power}"
        yield Sought(sought.name, Phrase(text, (asked.start,) * len(text), asked.end))


def _sought(card: Card) -> Iterator[Sought]:
    """Yield what is asked for in turn; a piece has the unit of what is found after it."""
    contents = card.all(Keyword.PIECE, Keyword.FIND)
    for at, content in enumerate(contents):
        unit = content.tail
        if content.entry.keyword is Keyword.PIECE:
            finds = [later for later in contents[at:] if later.entry.keyword is Keyword.FIND]
            unit = finds[0].tail if finds else None
            yield Sought(content.first, unit)
        else:
            yield from (Sought(name, unit) for name in content.parts)


def _definition(piece: Content) -> Phrase:
    """Return ``front = L H`` as one phrase."""
    name, worked = piece.first, piece.tail
    if worked is None:
        return name
    between = (name.end,) * 3
    return Phrase(f"{name.text} = {worked.text}", (*name.offsets, *between, *worked.offsets), worked.end)


def unreadable(source: Source, parts: Parts, task: Task, told: set[int]) -> Iterator[Fault]:
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
            yield source.fault(place, *_for_a_teacher(problem, parts))


def _for_a_teacher(problem: TaskProblem, parts: Parts) -> tuple[str, str]:
    """Return the message, and what to write instead, of what cannot be read as mathematics."""
    text = ""
    if problem.field == "formula":
        text = parts.formulas[problem.index].text[problem.start :]
    elif problem.field == "given":
        text = parts.givens[problem.index][1].text[problem.start :]
    word = re.match(r"[^\W\d_]{2,40}", text)
    if word is not None and f"the word “{word[0]}”" in problem.message and is_name(word[0]):
        return undeclared(word[0])
    return problem.message, ""


def undeclared(word: str) -> tuple[str, str]:
    """Return what is said of a word in a formula that is no name, and what to write."""
    message = f"“{word}” is no name of this problem. A name longer than a letter is declared."
    return message, Keyword.NAMES.written(word) if is_name(word) else ""


def name_faults(source: Source, parts: Parts) -> Iterator[Fault]:
    """Yield the names that can be nobody's name."""
    for given, value in parts.givens:
        if is_name(given.text):
            continue
        swapped = f"{value.text} = {given.text}" if is_name(value.text) else Keyword.GIVEN.example
        yield source.fault(given.start, "A name stands before the =, and its value behind.", swapped)
    sought = [sought.name for sought in parts.sought if sought.unit is None]
    for name in dict.fromkeys((*(sought.name for sought in parts.sought), *parts.names)):
        if not is_name(name.text):
            asked = better(Keyword.FIND, name.text) if name in sought else ""
            yield source.fault(
                name.start,
                f"“{spelled(name.text[:40])}” cannot be a name. A name is a letter, a word or an angle.",
                asked if " in " in asked else "",
            )


def sought_faults(source: Source, card: Card, parts: Parts, task: Task) -> Iterator[Fault]:
    """Yield what is wrong with what is to be found: asked twice, given already, spoken of nowhere."""
    unreadable_formula = any(problem.field != "units" for problem in task_problems(task))
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
        known = not card.unread & SOURCES and not unreadable_formula
        readable = is_name(name) and bool(parts.mathematics) and known
        if readable and name not in values and not parts.speak_of(name):
            yield source.fault(
                sought.name.start,
                f"No formula speaks of “{spelled(name)}”, so it cannot be found.",
                f"a formula with {spelled(name)} in it, or a name that a formula has",
            )
    yield from asked_units(source, card)


def asked_units(source: Source, card: Card) -> Iterator[Fault]:
    """Yield the units that are none, with the find as it was meant."""
    for content in card.all(Keyword.FIND):
        if content.tail is None:
            continue
        unit = content.tail.text
        message, better_unit = unit_problem(unit)
        if not message:
            continue
        names = [name.text for name in content.parts]
        joined = finds_meant(names, unit)
        if joined:
            message = "One “find” has one unit. Names of another unit have a “find” of their own."
            yield source.fault(content.tail.start, message, Keyword.FIND.written(joined))
            continue
        asked = " and ".join(names)
        instead = f"{asked} in {better_unit}" if better_unit else asked if has_no_unit(unit) else ""
        yield source.fault(content.tail.start, message, Keyword.FIND.written(instead) if instead else "")


def given_faults(source: Source, parts: Parts) -> Iterator[Fault]:
    """Yield what is wrong with what is given: twice, with a second =, in no unit."""
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
                _one_value(given.text, value.text),
            )
            continue
        unit = unit_of_value(value.text) or unit_of_expression(value.text)
        message, better = ("", "") if _multiplied(unit, parts) else unit_problem(unit)
        if message and better:
            begins = value.text.rindex(unit)
            yield source.fault(
                value.at(begins), message, f"given    {given.text} = {value.text[:begins]}{better}"
            )


def _one_value(name: str, value: str) -> str:
    """Return the given with one of several values: the first before a comma, the last number of a chain."""
    values = [text for piece in value.split("=") if (text := piece.strip())]
    listed = re.match(r"(.*?\S)\s*(?:[,;]|\band\b)", values[0][:_QUOTED]) if values else None
    if listed is not None:  # C = 5 cm, r = 2 cm
        values = [listed[1]]
    kept = next(filter(is_plain_value, reversed(values)), values[0] if values else "")
    if not kept or len(kept) > _QUOTED:
        return Keyword.GIVEN.example
    return Keyword.GIVEN.written(f"{name} = {kept}")


# A longer value is not written out again.
_QUOTED = 200


def names_of(task: Task) -> frozenset[str]:
    """Return the names in the formulas and the givens of a task."""
    context, _problems = prepare(task)
    written = context.premises[: context.formula_count + len(task.givens)]
    return frozenset(name for premise in written for name in names_in(*premise.sides))


def _multiplied(unit: str, parts: Parts) -> bool:
    """Tell whether letters multiply here: the 2ab of ``given w = 2ab`` has no unit."""
    formulas = [formula.text for formula in parts.formulas]
    return (
        len(unit) == 1
        or unit in parts.words
        or all(any(mentions(text, letter, parts.words) for text in formulas) for letter in unit)
    )
