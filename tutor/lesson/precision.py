"""Which answers a problem rounds, and how: each ``round`` beside the ``find`` that it speaks of."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from tutor.lesson.entries import Content
from tutor.lesson.keywords import Keyword
from tutor.lesson.model import Fault
from tutor.lesson.outline import Card
from tutor.lesson.source import Phrase, Source
from tutor.line.names import plain
from tutor.line.tree import Rel
from tutor.line.walk import names_in
from tutor.marking.deciding.context import Context, prepare
from tutor.marking.deciding.stages import chain, direction
from tutor.marking.deciding.state import Spec
from tutor.marking.task import Precision, Rounding, Task
from tutor.visible import spelled

MOST_PLACES = 6
_SENSES = {"to": Rounding.NEAREST, "up to": Rounding.UP, "down to": Rounding.DOWN}


@dataclass(frozen=True, slots=True)
class Asked:
    """How answers are rounded, as a task says it."""

    places: int | None = None
    rounding: Rounding = Rounding.NEAREST
    rounded: tuple[Precision, ...] = ()


def read_rounding(source: Source, card: Card) -> tuple[Asked, list[Fault]]:
    """Return which answers are rounded and how, and what is wrong with that.

    A ``round`` right behind a ``find`` speaks of that one, one at the beginning of a part of all that
    the part asks for, and one above every ``find`` of all that have none of their own.
    """
    faults: list[Fault] = []
    told: dict[str, Precision] = {}
    everywhere: Precision | None = None
    said: set[tuple[str, ...]] = set()
    for content, names in _spoken_of(card):
        precision, fault = _precision(source, content)
        if fault is not None:
            faults.append(fault)
        if names in said:
            message = "This answer is rounded already. Take one “round” away."
            faults.append(source.fault(content.entry.offset, message))
        elif precision is not None and not names:
            everywhere = precision
        elif precision is not None:
            told |= {name: precision._replace(name=name) for name in names}
        said.add(names)
    asked = [name.text for content in card.all(Keyword.FIND, Keyword.PIECE) for name in _names(content)]
    return asked_of(asked, told, everywhere), faults


def asked_of(find: Sequence[str], told: Mapping[str, Precision], others: Precision | None) -> Asked:
    """Return how the answers that are asked for are rounded. ``others``: the rest of them."""
    if others is not None:
        told = {name: others._replace(name=name) for name in find} | {**told}
    ordered = tuple(told[name] for name in dict.fromkeys(find) if name in told)
    alike = {(one.places, one.rounding) for one in ordered}
    if len(alike) == 1 and len(ordered) == len(set(find)):
        return Asked(ordered[0].places, ordered[0].rounding)
    if not find and others is not None:
        return Asked(others.places, others.rounding)
    return Asked(rounded=ordered)


def _spoken_of(card: Card) -> Iterator[tuple[Content, tuple[str, ...]]]:
    """Yield each ``round`` with the names it speaks of, () for all."""
    contents = card.all(Keyword.PART, Keyword.PIECE, Keyword.FIND, Keyword.ROUND)
    for at, content in enumerate(contents):
        if content.entry.keyword is not Keyword.ROUND:
            continue
        above = [one for one in contents[:at] if one.entry.keyword is not Keyword.ROUND]
        if not above:
            yield content, ()
        elif above[-1].entry.keyword is not Keyword.PART:
            yield content, tuple(name.text for name in _names(above[-1]))
        else:
            part: list[str] = []
            for one in contents[at + 1 :]:
                if one.entry.keyword is Keyword.PART:
                    break
                part += [] if one.entry.keyword is Keyword.ROUND else [name.text for name in _names(one)]
            yield content, tuple(part)


def _names(content: Content) -> tuple[Phrase, ...]:
    return content.parts[:1] if content.entry.keyword is Keyword.PIECE else content.parts


def _precision(source: Source, content: Content) -> tuple[Precision | None, Fault | None]:
    sense, written = content.parts
    way = _SENSES[sense.text.casefold()]
    if not written.text.isdigit():
        return Precision("", 0, way), None
    digits = written.text.lstrip("0") or "0"
    if len(digits) == 1 and int(digits) <= MOST_PLACES:
        return Precision("", int(digits), way), None
    message = f"At most {MOST_PLACES} places can be asked for."
    return None, source.fault(written.start, message, Keyword.ROUND.written(f"{sense.text} 2 places"))


def bound_faults(source: Source, card: Card, task: Task) -> Iterator[Fault]:
    """Yield a ``round up`` or ``round down`` that an inequality does not go with.

    What is at least so much is rounded up, what is at most so much down; any other way the rounded
    answer would not fit.
    """
    if not any(one.one_way for one in task.precisions):
        return
    context, problems = prepare(task)
    if problems or all(rel.equates for premise in context.premises for rel in premise.rels):
        return
    stages = {stage.name for stage in chain(Spec(context.premises, context.measures), context, task.pi)}
    for content, names in _spoken_of(card):
        sense = _SENSES[content.first.text.casefold()]
        for name in names or task.find:
            if sense is Rounding.NEAREST or plain(name) in stages or not _bounded(context, plain(name)):
                continue
            yield source.fault(content.entry.offset, *_advice(context, content, name, sense))


def _bounded(context: Context, name: str) -> bool:
    """Tell whether an inequality speaks of a name."""
    return any(
        not all(rel.equates for rel in premise.rels) and name in names_in(*premise.sides)
        for premise in context.premises
    )


def _advice(context: Context, content: Content, name: str, sense: Rounding) -> tuple[str, str]:
    rel = direction(context, plain(name))
    shown = spelled(name[:40])
    if rel is None or rel is Rel.EQ:
        message = f"{shown} cannot be rounded {sense.value} here: the inequality does not give it one bound."
        return message, "an equation, or an inequality with one letter that is not squared"
    least = rel in (Rel.GE, Rel.GT)
    way = "up" if least else "down"
    message = (
        f"{shown} is at {'least' if least else 'most'} a number here, so it is rounded {way}: "
        f"rounded {sense.value} it would not fit the inequality."
    )
    return message, Keyword.ROUND.written(f"{way} to {content.parts[1].text}")
