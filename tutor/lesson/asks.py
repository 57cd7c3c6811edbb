"""The question of a problem, ready to show: givens in the place of the braces."""

from __future__ import annotations

import re
from collections.abc import Mapping

from tutor.lesson.entries import Content
from tutor.lesson.filling import BRACES
from tutor.lesson.keywords import Keyword
from tutor.lesson.likely import likely_find
from tutor.lesson.model import Fault, Part
from tutor.lesson.naming import is_name
from tutor.lesson.outline import Card
from tutor.lesson.source import Source
from tutor.visible import spelled

_RAISED = re.compile(r"\^([23])(?!\d)")


def read_ask(source: Source, card: Card, givens: Mapping[str, str]) -> tuple[str, list[Fault]]:
    """Return the question to show, "" where there is none, and what is wrong with its braces."""
    content = card.one(Keyword.ASK)
    return ("", []) if content is None else shown(source, card, content, givens)


def read_parts(source: Source, card: Card, givens: Mapping[str, str]) -> tuple[tuple[Part, ...], list[Fault]]:
    """Return the questions of their own, each with the names that the finds behind it ask for."""
    parts: list[Part] = []
    faults: list[Fault] = []
    contents = card.all(Keyword.PART, Keyword.FIND, Keyword.PIECE)
    if not any(content.entry.keyword is Keyword.PART for content in contents):
        return (), []
    early: tuple[str, ...] = ()  # pieces that stand above the first part are asked for in it
    for content in contents:
        names = tuple(name.text for name in content.parts)
        if content.entry.keyword is Keyword.PART:
            ask, more = shown(source, card, content, givens)
            faults += more
            parts.append(Part(ask, early))
            early = ()
        elif parts:
            parts[-1] = Part(parts[-1].ask, (*parts[-1].names, *names))
        elif content.entry.keyword is Keyword.PIECE:
            early += names
        else:
            faults.append(
                source.fault(
                    content.entry.offset,
                    "This is asked for before the first part. Write “part” and its question above.",
                    Keyword.PART.example,
                )
            )
    at = [content.entry.offset for content in contents if content.entry.keyword is Keyword.PART]
    for part, offset in zip(parts, at, strict=True):
        if not part.names and Keyword.FIND not in card.unread:
            message = "Nothing is found in this part. Write “find” below it."
            faults.append(source.fault(offset, message, likely_find(card)))
    return tuple(parts), faults


# A longer question is not written out again.
_QUOTED = 200


def shown(source: Source, card: Card, content: Content, values: Mapping[str, str]) -> tuple[str, list[Fault]]:
    """Return a text with givens in the place of its braces, and what is wrong with them."""
    written = content.first
    all_known = Keyword.GIVEN not in card.unread and all(map(is_name, values))
    varied = [content.first.text for content in card.all(Keyword.VARY)]
    faults: list[Fault] = []

    def value(found: re.Match[str]) -> str:
        text = _lookup(found[1].strip(), values)
        if text is None and all_known and not varied:
            faults.append(
                source.fault(
                    written.at(found.start()),
                    f"“{spelled(found[0][:40])}” shows the value of a given, and no given has this name.",
                    "one of " + ", ".join(f"{{{name}}}" for name in values)
                    if values
                    else "the number itself",
                )
            )
        return _RAISED.sub(lambda power: "²³"[int(power[1]) - 2], text or "")

    text = BRACES.sub(value, written.text)
    loose = re.search(r"[{}]", BRACES.sub(lambda found: "." * len(found[0]), written.text))
    if loose is not None:
        message = "A brace stands alone. Braces show the value of a given, as in {C}."
        once = re.sub(r"\{\s*(\{[^{}]*\})\s*\}", r"\1", written.text)
        doubled = (
            once != written.text and not re.search(r"[{}]", BRACES.sub("", once)) and len(once) < _QUOTED
        )
        instead = content.entry.keyword.written(once) if doubled else ""
        faults.append(source.fault(written.at(loose.start()), message, instead))
    return text, faults


def _lookup(name: str, values: Mapping[str, str]) -> str | None:
    if name in values:
        return values[name]
    folded = [value for other, value in values.items() if other.casefold() == name.casefold()]
    return folded[0] if len(folded) == 1 else None
