"""Reading a first line that is the premise, where nothing yet tells a letter from a unit.

In ``P = 4s`` the s can be a side or seconds, in ``P = 2L + 2W`` the L a length or litres.
Both readings stay open until a later line follows from one of them.
"""

import re

from tutor.line.names import Names
from tutor.line.reader import Readings, Unread, read
from tutor.line.tree import Bare, Chain, Joined, Joiner, Name, Rel, Statement
from tutor.marking.deciding.facts import facts, statement_names

_PAIR = re.compile(r"\s*\(([^(),=]+),([^(),=]+)\)\s*[.✓]?\s*")
_AFTER_NUMBER = re.compile(r"\d\s*([mghsL])(?![A-Za-z\d²³^])")


def with_letters_for_units(text: str, names: Names, found: Readings) -> Readings:
    """Return the readings and the one in which letters that could be units are names."""
    letters = set(_AFTER_NUMBER.findall(text)) - names.known
    first = found.statements[0]
    if not letters or not facts(first).units or not statement_names(first):
        return found
    again = read(text, names.joined(letters))
    if isinstance(again, Unread) or again.statements[0] == first:
        return found
    named = again.statements[0]
    ordered = (named, *found.statements) if _is_formula(named, letters) else (first, named)
    return Readings(ordered)


def pair_named(text: str, find: tuple[str, ...], names: Names) -> Readings | None:
    """Return ``(3, 2)`` as an answer for the two names asked for, in their order; None for any other line."""
    pair = _PAIR.fullmatch(text) if len(find) == 2 and "(" in text[:2] else None
    if pair is None:
        return None
    parts: list[Chain] = []
    for at, name in enumerate(find, start=1):
        value = read(" " * pair.start(at) + pair[at], names)
        if isinstance(value, Unread) or not isinstance(value.statements[0], Bare):
            return None
        span = (pair.start(at), pair.end(at))
        parts.append(Chain((Name(name, span), value.statements[0].expr), (Rel.EQ,), span))
    return Readings((Joined(Joiner.AND, tuple(parts), (0, len(text))),))


def _is_formula(named: Statement, letters: set[str]) -> bool:
    """Tell whether other letters than the left side stand beside those in question: 2L + 2W."""
    return not facts(named).units and len(statement_names(named) - letters) >= 2
