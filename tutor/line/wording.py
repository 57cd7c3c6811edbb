"""Lines that are read once words in them are taken as names, or left out behind them."""

import re
from collections.abc import Callable
from dataclasses import replace
from typing import TypeAlias

from tutor.line.late import Late
from tutor.line.names import Names
from tutor.line.spoken import glued, meant, named
from tutor.line.tree import Chain, Joined, Onward, Rel, Statement

Read: TypeAlias = Callable[[str, int, int, Names], tuple[Statement, ...] | None]

# "x = 75° (ext. ∠ of △)", "C = 28.3 m (3 s.f.)": why, or how exactly.
_REASON = Late(r"\s+[(\[](?![^()\[\]]*=)[^()\[\]]*[A-Za-z][^()\[\]]*[)\]]\s*$")
_ROUNDED = Late(r"\d\s*(?:d\.?\s?p|s\.?\s?f|dec|sig)|nearest|round|correct\s+to|decimal", re.IGNORECASE)


def read_with_words(
    text: str, start: int, end: int, names: Names, read: Read
) -> tuple[Statement, ...] | None:
    """Return the ways to read ``text[start:end]`` so, the likeliest first; None where there is none.

    ``read``: the way to read a piece of a line without that.
    """
    return _without_reason(text, start, end, names, read) or _in_words(text, start, end, names, read)


def _without_reason(
    text: str, start: int, end: int, names: Names, read: Read
) -> tuple[Statement, ...] | None:
    """Read a line without the words in brackets at its end."""
    reason = _REASON.search(text, start, end)
    if reason is None or not any(sign in text[start : reason.start()] for sign in "=<>≤≥≈"):
        return None
    found = read(text, start, reason.start(), names) or _in_words(text, start, reason.start(), names, read)
    if found is None or _ROUNDED.search(reason[0]) is None:
        return found
    return tuple(map(_about, found))


def _about(statement: Statement) -> Statement:
    """``C = 28.3 (1 d.p.)`` says that its last sign is ≈."""
    if not isinstance(statement, Chain | Onward) or statement.rels[-1] is not Rel.EQ:
        return statement
    return replace(statement, rels=(*statement.rels[:-1], Rel.APPROX))


def _in_words(text: str, start: int, end: int, names: Names, read: Read) -> tuple[Statement, ...] | None:
    """Read a line whose quantities are named in words."""
    words = glued(text, start, end, names)
    if words is None:
        return None
    written, more, said = words
    found = read(written, start, end, more)
    if found is None or not all(isinstance(one, Chain | Joined) for one in found):
        return None
    as_meant = {coded: meant(told, names) for coded, told in said.items()}
    # "Area of circle" can be the A of the problem, or a part of it.
    as_said = {coded: as_meant[coded] if told.isalpha() else told for coded, told in said.items()}
    ways = [named(statement, way) for way in (as_meant, as_said) for statement in found]
    return tuple(dict.fromkeys(ways))
