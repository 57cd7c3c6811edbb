"""Reading a first line that is the premise, where nothing yet tells a letter from a unit.

In ``P = 4s`` the s can be a side or seconds, in ``P = 2L + 2W`` the L a length or litres.
Both readings stay open until a later line follows from one of them.
"""

import re

from tutor.line.names import (
    Names,
    attached_letters,
    in_runs,
    letters_between_signs,
    multiplied,
    multiplied_behind_a_number,
    segments,
)
from tutor.line.reader import Readings, Unread, read
from tutor.line.tree import (
    Add,
    Bare,
    Chain,
    Expr,
    Joined,
    Joiner,
    Measure,
    Mul,
    Name,
    Neg,
    PiSign,
    Pow,
    Rel,
    Statement,
    whole_number,
)
from tutor.marking.deciding.everyday import everyday
from tutor.marking.deciding.facts import facts, statement_names

_AT = re.compile(r"([^=]*[^=\s,])(?:\s+(?:at|when|for|if|where)\s+|\s*,\s*)(.*=.*)", re.IGNORECASE)
_ASKS_FOR = re.compile(
    r"\s*(?:evaluate|simplify|calculate|compute|work\s+out|find)(?:\s+the\s+value\s+of)?\s+", re.IGNORECASE
)
_TELLS = re.compile(r",|at|when|for|if|where", re.IGNORECASE)  # the quick question before the pattern above
_PAIR = re.compile(
    r"\s*(?:(?:so|thus|hence|therefore|answer|∴|⇒|→)\s*[,:]?\s*)?(?:(?:the\s+)?solution(?:\s+set)?(?:\s+is)?\s*:?\s*)?"
    r"\(([^(),;=]+)[,;]([^(),;=]+)(?:[,;]([^(),;=]+))?\)\s*[.,✓]?\s*",
    re.IGNORECASE,
)
_AFTER_NUMBER = re.compile(r"\d\s*([mghsLl])(?![A-Za-z\d²³^])")


def with_letters_for_units(text: str, names: Names, found: Readings) -> Readings:
    """Return the readings and the one in which letters that could be units are names."""
    letters = set(_AFTER_NUMBER.findall(text)) - names.known
    first = found.statements[0]
    if not letters or not facts(first).units or not statement_names(first):
        return found
    if not letters & names.known and _tells_sizes(first, names):
        return found
    again = read(text, names.joined(letters))
    if isinstance(again, Unread) or again.statements[0] == first:
        return found
    named = again.statements[0]
    ordered = (named, *found.statements) if _is_formula(named, letters) else (first, named)
    return Readings(ordered)


def _tells_sizes(first: Statement, names: Names) -> bool:
    """``l = 12 m, w = 5 m``: names that are not asked for, each with its size."""
    parts = first.parts if isinstance(first, Joined) else (first,)
    return all(
        isinstance(part, Chain)
        and len(part.sides) == 2
        and isinstance(part.sides[0], Name)
        and part.sides[0].name not in names.known
        and isinstance(part.sides[1], Measure)
        for part in parts
    )


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
    """Return ``(3, 2)`` or ``(1, 2, 3)`` as an answer for the names asked for, in their order; else None."""
    pair = _PAIR.fullmatch(text) if len(find) in (2, 3) and "(" in text else None
    if pair is None or (pair[3] is not None) is not (len(find) == 3):
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


_RUN = re.compile(r"[A-Za-z]{2}")  # the quick question before what looks for words
_ALONE = re.compile(r"(?<![A-Za-z])[A-Za-z](?![A-Za-z])")


def has_a_run(text: str) -> bool:
    """Tell whether letters stand side by side in a line."""
    return _RUN.search(text) is not None


def names_of_first_line(text: str, names: Names, *, wordy: bool, asks: bool) -> Names:
    """Return the names with those that a first line brings in by its writing.

    ``wordy``: letters stand side by side; ``asks``: the problem names what is to find.
    """
    # In "S = 6s²" the two letters differ only by case: both are names.
    alone = set() if text.islower() else set(_ALONE.findall(text))
    if alone:
        names = names.joined(letter for letter in alone if letter.swapcase() in alone)
    if wordy:
        names = names.joined(letters_between_signs(text))
        names = names.joined((*segments(text, names.known), *in_runs(text, alone), *multiplied(text)))
        names = names.joined(multiplied_behind_a_number(text))
    return names if asks else names.joined(attached_letters(text))


def says_a_size(statement: Statement) -> bool:
    """Tell whether the one name of a first line is a length, by what the line says.

    ``x² + 6² = 10²`` is the rule of Pythagoras, ``πr² = 154`` the area of a circle, and an ``AB``
    has two ends; of any other square a number below zero can be meant too.
    """
    if not isinstance(statement, Chain) or not all(rel.equates for rel in statement.rels):
        return False
    linear = everyday(statement)
    if linear is not None:
        return len(linear.form.name) == 2 and linear.form.name.isupper()
    names = statement_names(statement)
    if len(names) == 1 and len(min(names)) == 2 and min(names).isupper():
        return True
    terms = [
        term for side in statement.sides[:2] for term in (side.terms if isinstance(side, Add) else (side,))
    ]
    if len(terms) == 3 and all(map(_is_square, terms)):
        return True
    return any(isinstance(term, Mul) and _is_circle(term) for term in terms)


def _is_square(term: Expr) -> bool:
    inner = term.inner if isinstance(term, Neg) else term
    return isinstance(inner, Pow) and inner.exponent == whole_number(2)


def _is_circle(term: Mul) -> bool:
    return any(isinstance(factor, PiSign) for factor in term.factors) and any(map(_is_square, term.factors))


def coordinates(names: frozenset[str]) -> frozenset[str]:
    """Return the letters of a line in a plane, which may be below zero as no size is.

    Those of ``y = mx + b``, ``y = kx`` and ``m = (y₂ − y₁)/(x₂ − x₁)``; the d of a distance is a size.
    """
    if not all(any(name[0] == axis for name in names) for axis in "xy") or any(map(str.isupper, names)):
        return frozenset()
    return frozenset(name for name in names if name[0] in "xymkb")
