"""Oversights: entries that read well one by one, and together say what nobody means."""

from __future__ import annotations

import re
from collections.abc import Iterator
from difflib import get_close_matches

from tutor.lesson.filling import BRACES
from tutor.lesson.keywords import FILLED, Keyword
from tutor.lesson.mathematics import Parts, names_of, undeclared
from tutor.lesson.model import Fault, FigureWords, Problem
from tutor.lesson.naming import is_plain_value, mentions, unit_of_value
from tutor.lesson.outline import Card
from tutor.lesson.source import Source
from tutor.lesson.variation import Variation
from tutor.marking.task import AnyTask, Task
from tutor.quantity.dimension import LENGTH, Dimension
from tutor.quantity.units import read_unit
from tutor.visible import spelled


def oversights(
    source: Source, card: Card, parts: Parts, problem: Problem, variation: Variation | None
) -> Iterator[Fault]:
    """Yield the oversights of a problem, none where some entry of it cannot be read."""
    if card.unread:
        return
    yield from _unused(source, card, parts, variation)
    yield from _letter_for_times(source, parts)
    left_out = list(_left_out(source, parts, problem.task))
    yield from left_out
    if not left_out:  # a word that is no name may be what was meant to use the names that nothing uses
        yield from _other_case(source, parts)
        yield from _never_used(source, card, parts, problem.figure)
    yield from _other_measure(source, parts, problem.figure)
    yield from _other_brackets(source, card, parts)


def _unused(source: Source, card: Card, parts: Parts, variation: Variation | None) -> Iterator[Fault]:
    if variation is None:
        return
    names = variation.names
    texts = [value.text for _name, value in parts.givens]
    for keyword in FILLED:
        for content in card.all(keyword):
            texts += [found[1] for found in BRACES.finditer(content.entry.body)]
    for content in card.all(Keyword.VARY):
        name = content.first.text
        if any(mentions(text, name, names) for text in texts):
            continue
        used_in_formula = any(mentions(formula.text, name, parts.words) for formula in parts.formulas)
        message = (
            f"“{spelled(name)}” is varied, and nothing uses its numbers. Put {{{name}}} where they belong."
        )
        yield source.fault(
            content.first.start,
            message,
            Keyword.GIVEN.written(f"{name} = {{{name}}} cm") if used_in_formula else "",
        )


_TIMES = re.compile(r"(?<=[\d)]) x (?=[\w(])")


def _letter_for_times(source: Source, parts: Parts) -> Iterator[Fault]:
    """Yield ``2 x 3.14 x r`` where no x is looked for."""
    if "x" in parts.words or "X" in parts.words:
        return
    for formula in parts.formulas:
        found = _TIMES.search(formula.text)
        if found is not None:
            better = re.sub(r" x ", " * ", formula.text)
            message = "This x is read as a letter. For times write * or ×."
            yield source.fault(formula.at(found.start() + 1), message, Keyword.FORMULA.written(better))


def _left_out(source: Source, parts: Parts, task: AnyTask) -> Iterator[Fault]:
    """Yield words that a formula is read without: the fronts of ``S = 2 fronts``."""
    if not isinstance(task, Task):
        return
    names = {name.casefold() for name in (*names_of(task), *parts.words)}
    for formula in parts.formulas:
        for found in re.finditer(r"[^\W\d_]{3,}", formula.text):
            word = found[0].casefold()
            known = word in names or word in _FUNCTIONS or read_unit(found[0]) is not None
            # "bh" is b times h; so is what stands behind a π.
            if known or all(letter in names for letter in word.removeprefix("pi")):
                continue
            near = get_close_matches(found[0], [name for name in parts.words if len(name) > 1], n=1)
            if near:
                message = f"“{found[0][:40]}” is no name of this problem, so the formula is read without it."
                better = formula.text[: found.start()] + near[0] + formula.text[found.end() :]
                instead = Keyword.FORMULA.written(better)
            else:
                message, instead = undeclared(found[0][:40])
            yield source.fault(formula.at(found.start()), message, instead)


def _other_case(source: Source, parts: Parts) -> Iterator[Fault]:
    """Yield names that the formulas write with a letter of the other case."""
    known = set(parts.words)
    letters = _letters(parts)
    for given, value in parts.givens:
        other = given.text.swapcase()
        if _mixed_up(given.text, letters, known):
            message = f"“{given.text}” is given here, and the formula has “{other}”: these are two names."
            yield source.fault(given.start, message, Keyword.GIVEN.written(f"{other} = {value.text}"))
    for sought in parts.sought:
        name = sought.name.text
        other = name.swapcase()
        if _mixed_up(name, letters, known):
            message = f"“{name}” is to be found, and the formula has “{other}”: these are two names."
            unit = f" in {sought.unit.text}" if sought.unit else ""
            yield source.fault(sought.name.start, message, Keyword.FIND.written(f"{other}{unit}"))


def _letters(parts: Parts) -> set[str]:
    """Return the letters that stand in formulas and in what is given as an expression."""
    texts = [formula.text for formula in parts.formulas]
    texts += [value.text for _name, value in parts.givens if not is_plain_value(value.text)]
    words = sorted((word for word in (*parts.words, *_FUNCTIONS) if len(word) > 1), key=len, reverse=True)
    bare = (re.sub("|".join(map(re.escape, words)), " ", text, flags=re.IGNORECASE) for text in texts)
    return {letter for text in bare for letter in re.findall(r"[^\W\d_]", text)}


_FUNCTIONS = ("sqrt", "cbrt", "abs", "root", "angle", "and", "deg")


def _mixed_up(name: str, letters: set[str], known: set[str]) -> bool:
    other = name.swapcase()
    return len(name) == 1 and name not in letters and other in letters and other not in known


_MEASURED: dict[str, tuple[str, Dimension, str]] = {
    "area": ("an area", Dimension(length=2), "cm^2"),
    "volume": ("a volume", Dimension(length=3), "cm^3"),
    **dict.fromkeys(
        ("radius", "diameter", "circumference", "length", "width", "height", "perimeter", "border"),
        ("a length", LENGTH, "cm"),
    ),
    **dict.fromkeys(("outer length", "outer width", "path"), ("a length", LENGTH, "cm")),
}


def _other_measure(source: Source, parts: Parts, figure: FigureWords | None) -> Iterator[Fault]:
    """Yield the units that a part of the figure cannot have."""
    roles = {part.name: part.role for part in figure.parts} if figure else {}
    for given, value in parts.givens:
        unit = unit_of_value(value.text)
        why, fits = _unfit(roles.get(given.text, ""), unit)
        if why:
            at = value.at(len(value.text) - len(unit))
            better = f"{given.text} = {value.text.removesuffix(unit)}{fits}"
            yield source.fault(at, f"“{spelled(given.text)}” {why}", Keyword.GIVEN.written(better))
    for sought in parts.sought:
        name = sought.name.text
        why, fits = _unfit(roles.get(name, ""), sought.unit.text if sought.unit else "")
        if why and sought.unit:
            message = f"“{spelled(name)}” {why}"
            yield source.fault(sought.unit.start, message, Keyword.FIND.written(f"{name} in {fits}"))


def _unfit(role: str, unit: str) -> tuple[str, str]:
    read = read_unit(unit) if unit else None
    if read is None or role not in _MEASURED:
        return "", ""
    said, dimension, fits = _MEASURED[role]
    if read.dimension == dimension:
        return "", ""
    return f"is the {role} of the figure, so it is {said}.", fits


def _other_brackets(source: Source, card: Card, parts: Parts) -> Iterator[Fault]:
    """Yield a given in a question that stands in brackets of another kind."""
    names = {given.text for given, _value in parts.givens}
    for content in card.all(Keyword.ASK, Keyword.PART):
        for found in re.finditer(r"\[(\w+)\]|<(\w+)>|\$(\w+)\b", content.first.text):
            name = found[1] or found[2] or found[3]
            if name in names:
                message = f"Braces show the value of a given: {{{name}}}."
                written = (
                    content.first.text[: found.start()] + f"{{{name}}}" + content.first.text[found.end() :]
                )
                instead = content.entry.keyword.written(written) if len(written) <= _QUOTED else ""
                yield source.fault(content.first.at(found.start()), message, instead)


def _never_used(source: Source, card: Card, parts: Parts, figure: FigureWords | None) -> Iterator[Fault]:
    """Yield givens that nothing speaks of: no formula, no other given, no figure, no question."""
    shown = [
        found[1].strip()
        for content in card.all(Keyword.ASK, Keyword.PART)
        for found in BRACES.finditer(content.entry.body)
    ]
    drawn = [part.name for part in figure.parts] if figure else []
    sought = [one.name.text for one in parts.sought]
    for given, _value in parts.givens if parts.formulas else ():
        name = given.text
        if (
            name in sought
            or name in drawn
            or name.casefold() in map(str.casefold, shown)
            or parts.speak_of(name)
        ):
            continue
        message = f"“{spelled(name)}” is given, and no formula and no question uses it."
        yield source.fault(given.start, message)


# A longer question is not written out again.
_QUOTED = 200
