"""Reading a first line that is the premise, where nothing yet tells a letter from a unit.

In ``P = 4s`` the s can be a side or seconds, in ``P = 2L + 2W`` the L a length or litres.
Both readings stay open until a later line follows from one of them.
"""

import re

from tutor.line.names import Names
from tutor.line.reader import Readings, Unread, read
from tutor.line.tree import Bare, Chain, Joined, Joiner, Name, Rel, Statement
from tutor.marking.deciding.facts import facts, statement_names

_AT = re.compile(r"([^=]*[^=\s,])(?:\s+(?:at|when|for|if|where)\s+|\s*,\s*)(.*=.*)", re.IGNORECASE)
_ASKS_FOR = re.compile(
    r"\s*(?:evaluate|simplify|calculate|compute|work\s+out|find)(?:\s+the\s+value\s+of)?\s+", re.IGNORECASE
)
_TELLS = re.compile(r",|at|when|for|if|where", re.IGNORECASE)  # the quick question before the pattern above
_PAIR = re.compile(
    r"\s*(?:(?:so|thus|hence|therefore|answer|∴|⇒|→)\s*[,:]?\s*)?(?:(?:the\s+)?solution(?:\s+set)?(?:\s+is)?\s*:?\s*)?"
    r"\(([^(),;=]+)[,;]([^(),;=]+)\)\s*[.,✓]?\s*",
    re.IGNORECASE,
)
_AFTER_NUMBER = re.compile(r"\d\s*([mghsLl])(?![A-Za-z\d²³^])")


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


def evaluated_at(text: str, names: Names) -> tuple[Bare, tuple[Chain, ...]] | None:
    """Return the expression and the numbers of ``4xy when x = 2 and y = 5``; None for any other line."""
    if "=" not in text or not _TELLS.search(text):
        return None
    asked = _ASKS_FOR.match(text)
    if asked is not None:
        text = " " * asked.end() + text[asked.end() :]
    parts = _AT.fullmatch(text)
    if parts is None:
        return None
    told = read(" " * parts.start(2) + parts[2], names)
    expression = read(parts[1], names if isinstance(told, Unread) else names.joined(_names_of(told)))
    if isinstance(told, Unread) or isinstance(expression, Unread):
        return None
    statement, values = expression.statements[0], told.statements[0]
    chains = values.parts if isinstance(values, Joined) else (values,)
    found = tuple(chain for chain in chains if isinstance(chain, Chain) and isinstance(chain.sides[0], Name))
    if not isinstance(statement, Bare) or len(found) != len(chains):
        return None
    return (statement, found) if statement_names(statement) <= _names_of(told) else None


def _names_of(found: Readings) -> frozenset[str]:
    return statement_names(found.statements[0])


def pair_named(text: str, find: tuple[str, ...], names: Names) -> Readings | None:
    """Return ``(3, 2)`` as an answer for the two names asked for, in their order; None for any other line."""
    pair = _PAIR.fullmatch(text) if len(find) == 2 and "(" in text else None
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
