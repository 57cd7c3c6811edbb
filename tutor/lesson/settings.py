"""How a lesson is worked, read from its card."""

from __future__ import annotations

from collections.abc import Mapping
from difflib import get_close_matches
from enum import Enum
from typing import TypeVar

from tutor.lesson.keywords import Keyword
from tutor.lesson.model import Fault, Missed, Numbers, Settings, When
from tutor.lesson.outline import Card
from tutor.lesson.source import Source

_Choice = TypeVar("_Choice")


def read_settings(source: Source, card: Card) -> tuple[Settings, list[Fault]]:
    """Return the settings on the lesson's card; what is not said has its default."""
    usual = Settings()
    faults: list[Fault] = []
    settings = Settings(
        marks=_one(source, card, Keyword.MARKS, _words(When), usual.marks, faults),
        corrections=_one(source, card, Keyword.CORRECT, _words(Numbers), usual.corrections, faults),
        missed=_one(source, card, Keyword.MISSED, _words(Missed), usual.missed, faults),
        hints=_one(source, card, Keyword.HINTS, {"on": True, "off": False}, usual.hints, faults),
    )
    return settings, faults


_Member = TypeVar("_Member", bound=Enum)


def _words(kind: type[_Member]) -> dict[str, _Member]:
    return {member.value: member for member in kind}


# Other words for a setting, which no likeness of letters finds.
_MEANT = {
    **dict.fromkeys(("no", "none", "false", "never", "without"), "off"),
    **dict.fromkeys(("yes", "true", "always"), "on"),
    **dict.fromkeys(("new", "new numbers", "other numbers"), "fresh numbers"),
}


def _one(
    source: Source,
    card: Card,
    keyword: Keyword,
    choices: Mapping[str, _Choice],
    usual: _Choice,
    faults: list[Fault],
) -> _Choice:
    content = card.one(keyword)
    if content is None:
        return usual
    chosen = choices.get(content.first.text.casefold())
    if chosen is not None:
        return chosen
    ways = " or ".join(f"“{keyword.value} {words}”" for words in choices)
    said = content.first.text[:60].casefold()
    near = get_close_matches(_MEANT.get(said, said), choices, n=1, cutoff=0.5)
    instead = keyword.written(near[0]) if near else keyword.example
    faults.append(source.fault(content.first.start, f"This is written {ways}.", instead))
    return usual
