"""The tasks of the kinds of problem that are not solved for a value."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from difflib import get_close_matches

from tutor.lesson.advice import choices_meant, lengths_meant
from tutor.lesson.entries import Content
from tutor.lesson.forms import better
from tutor.lesson.keywords import Keyword
from tutor.lesson.kinds import Kind
from tutor.lesson.mathematics import Parts, asked_units, names_of
from tutor.lesson.model import Fault, Meaning
from tutor.lesson.naming import is_angle, is_length, is_measure, unit_of_value
from tutor.lesson.outline import Card
from tutor.lesson.source import Phrase, Source
from tutor.marking.kinds.triangle import Count, how_many, is_side, read_part
from tutor.marking.solve import task_problems
from tutor.marking.task import ChoiceTask, DrawingTask, Task, WordTask
from tutor.marking.work import problems_of
from tutor.visible import spelled

MOST_OPTIONS = 8
_TRIANGLE_PARTS = ("a", "b", "c", "A", "B", "C")


def target(source: Source, card: Card, kind: Kind, parts: Parts) -> tuple[tuple[str, ...], list[Fault]]:
    """Return the lines that the work must reach: a formula to write, the end of a derivation."""
    if kind is Kind.SHOW:
        shown = card.one(Keyword.SHOW)
        return ((shown.first.text,) if shown else ()), []
    if kind is not Kind.WRITE:
        return (), []
    asked = card.one(Keyword.WRITE)
    name = asked.first if asked else None
    if name is None:
        return (), []
    wanted = tuple(formula.text for formula in parts.formulas if _is_for(formula.text, name.text))
    if wanted or not parts.formulas:
        return wanted, []
    message = f"No formula here begins with “{spelled(name.text[:40])} =”, so none is asked for."
    turned = [formula.text.rsplit("=", 1) for formula in parts.formulas if formula.text.count("=") == 1]
    found = (f"{name.text} = {left.strip()}" for left, right in turned if right.strip() == name.text)
    instead = next(map(Keyword.FORMULA.written, found), "")
    return (), [source.fault(name.start, message, instead)]


def goal_faults(source: Source, card: Card, task: Task) -> Iterator[Fault]:
    """Yield what cannot be read in the line that a derivation must reach; the rest of the task reads.

    Whether it can be reached is worked out in the audit: that may take long.
    """
    shown = card.one(Keyword.SHOW)
    if shown is None or not task.goals:
        return
    together = replace(task, formulas=(*task.formulas, *task.goals), goals=(), sentence=False)
    for problem in task_problems(together):
        if problem.field == "formula" and problem.index >= len(task.formulas):
            yield source.fault(shown.first.at(problem.start), problem.message)
            return
    known = names_of(task)
    strange = sorted(names_of(replace(task, formulas=task.goals, goals=(), givens=())) - known)
    if strange:
        message = f"No formula speaks of “{spelled(strange[0])}”, so nothing leads to this line."
        yield source.fault(shown.first.start, message)


def _is_for(formula: str, name: str) -> bool:
    return formula.split("=")[0].strip().casefold() == name.casefold()


def lengths(source: Source, card: Card, *, every_step: bool) -> tuple[Task, list[Fault]]:
    """Return the task of "can these lengths make a triangle"."""
    content = card.one(Keyword.TRIANGLE)
    if content is None:
        return Task(), []
    task = Task(lengths=tuple(part.text for part in content.parts), every_step=every_step)
    if len(content.parts) != 3:
        message = "A triangle has three sides: three lengths stand here, with commas between them."
        return task, [source.fault(content.first.start, message, _meant_lengths(content))]
    bare = [part for part in content.parts if not is_length(unit_of_value(part.text))]
    if bare:
        message = f"“{spelled(bare[0].text[:40])}” is no length. Write it like 4 cm."
        return task, [source.fault(bare[0].start, message, _meant_lengths(content))]
    return task, _problems(source, content, task)


def _meant_lengths(content: Content) -> str:
    better = lengths_meant(content.entry.body[:200])
    return Keyword.TRIANGLE.written(better) if better else Keyword.TRIANGLE.example


def many(source: Source, card: Card, parts: Parts) -> tuple[ChoiceTask, list[Fault]]:
    """Return the task of "how many different triangles have these parts"."""
    counts = tuple(count.value for count in Count)
    faults = list(_triangle_faults(source, parts)) or list(_size_faults(source, parts))
    if faults or not parts.givens:
        return ChoiceTask(counts, ()), faults
    found = how_many(tuple((name.text, value.text) for name, value in parts.givens))
    if isinstance(found, Count):
        return ChoiceTask(counts, (found.value,)), []
    return ChoiceTask(counts, ()), [source.fault(card.seen[Keyword.MANY].offset, found)]


def _triangle_faults(source: Source, parts: Parts) -> Iterator[Fault]:
    for name in (*(name for name, _value in parts.givens), *(sought.name for sought in parts.sought)):
        if name.text not in _TRIANGLE_PARTS:
            yield source.fault(
                name.start,
                f"“{spelled(name.text[:40])}” is no part of the triangle. Its sides are a, b and c, "
                "opposite the angles A, B and C.",
            )


def _size_faults(source: Source, parts: Parts) -> Iterator[Fault]:
    """Yield the given parts that have no size."""
    for name, value in parts.givens:
        size = read_part(name.text, value.text)
        if isinstance(size, str):
            bare = re.fullmatch(r"[\d.]+", value.text) is not None
            unit = " cm" if is_side(name.text) else "°"
            better_one = Keyword.GIVEN.written(f"{name.text} = {value.text}{unit}") if bare else ""
            yield source.fault(value.start, size, better_one)


def _measured_in(source: Source, parts: Parts) -> Iterator[Fault]:
    """Yield the parts that are asked for in a unit that they cannot have."""
    given = {name.text for name, _value in parts.givens}
    for sought in parts.sought:
        name = sought.name.text
        if name in given:
            message = f"{name} is given above, so there is nothing to measure. Ask for another part."
            yield source.fault(sought.name.start, message)
        elif sought.unit is not None and not (is_length if is_side(name) else is_angle)(sought.unit.text):
            message = f"{name} is a side: it is a length." if is_side(name) else f"{name} is an angle."
            fits = Keyword.FIND.written(f"{name} in {'cm' if is_side(name) else '°'}")
            yield source.fault(sought.unit.start, message, fits)
            return  # one unit stands for all names beside it


def drawing(source: Source, card: Card, parts: Parts) -> tuple[DrawingTask, list[Fault]]:
    """Return the task of a triangle to be drawn and measured."""
    content = card.one(Keyword.DRAW)
    givens = tuple((name.text, value.text) for name, value in parts.givens)
    units = [unit_of_value(value) for _name, value in givens]
    sides = [unit for unit in units if is_measure(unit)]
    sides += [sought.unit.text for sought in parts.sought if sought.unit and is_measure(sought.unit.text)]
    millimetres, degrees, faults = _within(source, card)
    task = DrawingTask(
        givens=givens,
        measure=tuple(sought.name.text for sought in parts.sought),
        unit=sides[0] if sides else "cm",
        within_length=millimetres,
        within_angle=degrees,
    )
    faults += (
        list(asked_units(source, card))
        or list(_triangle_faults(source, parts))
        or [
            *_size_faults(source, parts),
            *_measured_in(source, parts),
        ]
    )
    if faults or content is None or not parts.givens or not parts.sought:
        return task, faults
    return task, _problems(source, content, task)


_WITHIN = re.compile(r"(\d{1,2}(?:\.\d{1,2})?) *mm +and +(\d{1,2}(?:\.\d{1,2})?) *(?:°|deg|degrees?)")


def _within(source: Source, card: Card) -> tuple[str, str, list[Fault]]:
    content = card.one(Keyword.WITHIN)
    if content is None:
        return "2", "2", []
    found = _WITHIN.fullmatch(content.first.text)
    if found is not None and float(found[1]) > 0 and float(found[2]) > 0:
        return found[1], found[2], []
    message = "How far off a drawing may be is written in millimetres and degrees."
    instead = better(Keyword.WITHIN, content.entry.body) or Keyword.WITHIN.example
    return "2", "2", [source.fault(content.first.start, message, instead)]


def _problems(source: Source, content: Content, task: Task | DrawingTask) -> list[Fault]:
    return [source.fault(content.entry.offset, message) for message in problems_of(task)[:1]]


def choice(source: Source, card: Card) -> tuple[ChoiceTask, list[Fault]]:
    """Return the task of a choice among words."""
    options, right = card.one(Keyword.CHOOSE), card.one(Keyword.ANSWER)
    shown = options.parts if options else ()
    answers = right.parts if right else ()
    task = ChoiceTask(tuple(part.text for part in shown), tuple(part.text for part in answers))
    faults = list(_option_faults(source, shown))
    for answer in answers:
        if options is not None and answer.text not in task.options:
            message = f"“{spelled(answer.text[:40])}” is not among the choices."
            instead = _option_meant(answer.text, task.options)
            if not faults:
                faults.append(source.fault(answer.start, message, instead))
    if answers and len(answers) == len(shown) and not faults:
        message = "Every choice is right here, so there is nothing to choose."
        faults.append(source.fault(answers[0].start, message))
    return task, faults


def _option_meant(text: str, options: tuple[str, ...]) -> str:
    """Return the choice that an answer names by its place or nearly by its words."""
    lettered = {"abcdefgh"[at]: one for at, one in enumerate(options[:MOST_OPTIONS])}
    lettered |= {str(at): one for at, one in enumerate(options, 1)}
    folded = {one.casefold(): one for one in options}
    near = get_close_matches(text[:40].casefold(), folded, n=1, cutoff=0.7)
    found = lettered.get(text.casefold()) or (folded[near[0]] if near else "")
    return Keyword.ANSWER.written(found) if found else ""


def _option_faults(source: Source, shown: tuple[Phrase, ...]) -> Iterator[Fault]:
    if shown and not 2 <= len(shown) <= MOST_OPTIONS:
        message = f"There are 2 to {MOST_OPTIONS} choices, with commas between them."
        parted = choices_meant(shown[0].text[:200]) if len(shown) == 1 else ""
        instead = Keyword.CHOOSE.written(parted) if parted else Keyword.CHOOSE.example
        yield source.fault(shown[0].start, message, instead)
    seen: set[str] = set()
    for part in shown:
        if part.text.casefold() in seen:
            yield source.fault(part.start, f"“{spelled(part.text[:40])}” stands here twice. Take one away.")
        seen.add(part.text.casefold())


def word(source: Source, card: Card) -> tuple[WordTask | ChoiceTask, list[Fault]]:
    """Return the task of a word asked for by its meaning, typed or picked among its neighbours."""
    asked = card.one(Keyword.WORD)
    wanted = asked.first.text if asked else ""
    near = card.one(Keyword.NEAR)
    neighbours = near.parts if near else ()
    faults = [
        source.fault(part.start, "The word itself stands among its neighbours. Take it away.")
        for part in neighbours
        if part.text.casefold() == wanted.casefold()
    ]
    means = card.one(Keyword.MEANS)
    if (
        means is not None
        and wanted
        and re.search(rf"\b{re.escape(wanted)}(s|es|ly)?\b", means.first.text, re.IGNORECASE)
    ):
        message = "The meaning gives the word away. Say it in other words."
        faults.append(source.fault(means.first.start, message))
    near_texts = tuple(part.text for part in neighbours)
    others = [part for content in card.all(Keyword.ALSO) for part in content.parts]
    for part in others:
        if part.text.casefold() in (text.casefold() for text in near_texts):
            message = f"“{spelled(part.text[:40])}” is right here and wrong below “near”. Take one away."
            faults.append(source.fault(part.start, message))
    if Keyword.CHOOSE not in card.seen:
        return WordTask(wanted, tuple(part.text for part in others), near_texts), faults
    picked = card.one(Keyword.CHOOSE)
    if picked is not None and picked.first.text.casefold() != "words":
        message = "With “word” the choices are the word and those of “near”: write “choose words”."
        faults.append(source.fault(picked.first.start, message, Keyword.CHOOSE.written("words")))
    elif not neighbours and Keyword.NEAR not in card.unread:
        message = "There is nothing to choose among: “near” is missing."
        faults.append(source.fault(card.seen[Keyword.CHOOSE].offset, message, Keyword.NEAR.example))
    options = tuple(sorted((wanted, *near_texts), key=str.casefold))
    return ChoiceTask(options, (wanted,)), faults


def meaning(card: Card) -> Meaning | None:
    """Return the word of a problem and what it means, None of a problem that is about no word."""
    asked, means = card.one(Keyword.WORD), card.one(Keyword.MEANS)
    return Meaning(asked.first.text, means.first.text) if asked and means else None
