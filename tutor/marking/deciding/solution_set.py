"""Answers that books write as a set or an interval: ``L = {−4; 4}``, ``{x | x > 6}``, ``[2, 5)``."""

import re

from tutor.line.late import Late
from tutor.line.names import Names
from tutor.line.reader import Readings, Unread, read
from tutor.line.tree import Bare, Chain, Expr, Joined, Joiner, Name, Phrase, Rel, Said, Span, Statement
from tutor.line.walk import names_in

_HEAD = (
    r"\s*(?:(?:so|thus|hence|then|therefore|and|answer|∴|⇒|→)(?![a-z])[\s:,]*)*"
    r"(?:(?:the\s+)?solutions?(?:\s+set)?(?:\s+(?:is|are))?\s*[:=]?\s*)?(?:([a-z𝕃𝕊])\s*[=∈]\s*)?"
)
_SET = Late(_HEAD + r"\{\s*([^{}]*[^{}\s])\s*\}\s*[.,✓]?\s*", re.IGNORECASE)
_BUILT = Late(r"\s*([a-z])\s*(?:∈\s*[ℝRQℚZℤNℕ]\s*)?[|:∣]\s*", re.IGNORECASE)
_ONE = r"[\[(][^\[\](){}]+[\])]"
_INTERVALS = Late(_HEAD + rf"({_ONE}(?:\s*[∪U]\s*{_ONE})*)\s*[.,✓]?\s*", re.IGNORECASE)
_INTERVAL = Late(r"([\[(])\s*([^,;]+?)\s*[,;]\s*([^,;]+?)\s*([\])])")
_PAIR = Late(r"\(([^(),;=]+)[,;]([^(),;=]+)\)")
_ALL = Late(r"\(\s*[-−–]\s*∞\s*[,;]\s*\+?\s*∞\s*\)")
_ENDLESS = Late(r"\s*[-−–+]?\s*∞\s*")
MAX_MEMBERS = 12


_SET_SIGN = Late(r"[{∞\[\]]")  # the quick question of every line


def set_named(text: str, find: tuple[str, ...], names: Names) -> Readings | None:
    """Return a set or an interval as what it says of the names asked for; None for any other line."""
    if _SET_SIGN.search(text) is None:
        return None
    found = _SET.fullmatch(text) if "{" in text else None
    if found is not None and _is_head(found[1], find, names):
        if len(find) == 2:
            return _pair(text, found.span(2), find, names)
        return _members(text, found.span(2), find[0], names) if len(find) == 1 else None
    intervals = _INTERVALS.fullmatch(text) if len(find) == 1 else None
    if intervals is None or not _is_head(intervals[1], find, names):
        return None
    return _intervals(text, intervals.span(2), find[0], names)


# "Answer: 4", "The solutions are 4 and −4."
_TOLD = Late(
    r"\s*(?:(?:so|hence|therefore|thus|[∴⇒→])\s*,?\s*)?(?:(?:the|our)\s+)?(?:only\s+|final\s+)?(?:answers?|ans|solutions?|roots?)"
    r"(?:\s+(?:is|are))?\s*[:.]?\s+(?=[-−–±√(\d.])([^=<>≤≥:]+?)\s*[.,;!✓]*\s*",
    re.IGNORECASE,
)
# "not a real number", below "x = (−2 ± √(−16))/2"
_NOT_REAL = Late(
    r"\s*(?:(?:so|thus|therefore|∴|⇒|→)\s*,?\s*)?(?:(?:it|this|that|which|[a-z])\s+)?(?:is\s+|are\s+)?"
    r"not\s+(?:an?\s+)?real(?:\s+(?:numbers?|solutions?|roots?))?\s*[.!]?\s*",
    re.IGNORECASE,
)
_APART = Late(r"\s+(?:and|or)\s+|\s*[,;]\s+(?:and\s+)?", re.IGNORECASE)
_OPEN = Late(r"\s*(?:(?:[Ss]o|[∴⇒→])\s*,?\s*)?\(([^(),;=]+)[,;]([^(),;=]+)\)\s*[.,;✓]?\s*")


def answer_told(text: str, find: tuple[str, ...], names: Names) -> Readings | None:
    """Return what ``Answer: 4`` or ``(−3, 4)`` would say of the one name asked for, None for any other line.

    It may speak of something else: of 3x where x was found. So it counts only where it is right.
    """
    if len(find) != 1:
        return None
    between = _OPEN.fullmatch(text) if "(" in text[:6] else None
    if between is not None:
        return _intervals(text, (0, len(text)), find[0], names)
    if "real" in text and _NOT_REAL.fullmatch(text):
        return Readings((Said(Phrase.NO_SOLUTION, (0, len(text))),))
    told = _TOLD.fullmatch(text)
    if told is None:
        return None
    parts: list[Chain] = []
    at = told.start(1)
    for piece in [*_APART.finditer(text, *told.span(1)), None]:
        place = (at, piece.start() if piece is not None else told.end(1))
        value = _value(text, place, names)
        if value is None or names_in(value) or len(parts) == MAX_MEMBERS:
            return None
        parts.append(Chain((Name(find[0], place), value), (Rel.EQ,), place))
        at = piece.end() if piece is not None else at
    return Readings((_joined(Joiner.COMMA, parts, text),))


def _is_head(letter: str | None, find: tuple[str, ...], names: Names) -> bool:
    """``L = {4}`` and ``x ∈ {4}``; where S is a letter of the problem, ``S = {4}`` speaks of it."""
    if letter is None or letter in "𝕃𝕊":
        return True
    name = names.find(letter)
    return name in find if name is not None else letter in "SL"


def _members(text: str, span: Span, name: str, names: Names) -> Readings | None:
    built = _BUILT.match(text, *span)
    if built is not None:
        if names.find(built[1]) != name:
            return None
        told = read(" " * built.end() + text[built.end() : span[1]], names)
        return told if isinstance(told, Readings) and isinstance(told.statements[0], Chain | Joined) else None
    parts: list[Chain] = []
    for place in _cut(text, span):
        value = _value(text, place, names)
        if value is None or len(parts) == MAX_MEMBERS:
            return None
        parts.append(Chain((Name(name, place), value), (Rel.EQ,), place))
    return Readings((_joined(Joiner.COMMA, parts, text),))


def _cut(text: str, span: Span) -> list[Span]:
    """Return the places of the members; a comma between digits alone would be a decimal comma."""
    sign = ";" if ";" in text[span[0] : span[1]] else ","
    places: list[Span] = []
    at = span[0]
    for piece in text[span[0] : span[1]].split(sign):
        places.append((at, at + len(piece)))
        at += len(piece) + 1
    return places


def _value(text: str, place: Span, names: Names) -> Expr | None:
    found = read(" " * place[0] + text[place[0] : place[1]], names)
    if isinstance(found, Unread) or not isinstance(found.statements[0], Bare):
        return None
    return found.statements[0].expr


def _joined(joiner: Joiner, parts: list[Chain], text: str) -> Statement:
    return parts[0] if len(parts) == 1 else Joined(joiner, tuple(parts), (0, len(text)))


def _pair(text: str, span: Span, find: tuple[str, ...], names: Names) -> Readings | None:
    """``{(3; −2)}`` gives both names their value, in the order in which they are asked for."""
    pair = _PAIR.fullmatch(text, *span)
    if pair is None:
        return None
    parts: list[Chain] = []
    for at, name in enumerate(find, start=1):
        value = _value(text, pair.span(at), names)
        if value is None:
            return None
        parts.append(Chain((Name(name, pair.span(at)), value), (Rel.EQ,), pair.span(at)))
    return Readings((_joined(Joiner.AND, parts, text),))


def _intervals(text: str, span: Span, name: str, names: Names) -> Readings | None:
    if _ALL.fullmatch(text, *span):
        return Readings((Said(Phrase.ALL_NUMBERS, span),))
    parts: list[Chain] = []
    for found in _INTERVAL.finditer(text, *span):
        part = _between(text, found, name, names)
        if part is None or len(parts) == MAX_MEMBERS:
            return None
        parts.append(part)
    return Readings((_joined(Joiner.OR, parts, text),)) if parts else None


def _between(text: str, found: re.Match[str], name: str, names: Names) -> Chain | None:
    sides: list[Expr] = [Name(name, found.span())]
    rels: list[Rel] = []
    if found[1] == "[" and _ENDLESS.fullmatch(found[2]):
        return None
    if not _ENDLESS.fullmatch(found[2]):
        low = _value(text, found.span(2), names)
        if low is None:
            return None
        sides.insert(0, low)
        rels.append(Rel.LE if found[1] == "[" else Rel.LT)
    if not _ENDLESS.fullmatch(found[3]):
        high = _value(text, found.span(3), names)
        if high is None:
            return None
        sides.append(high)
        rels.append(Rel.LE if found[4] == "]" else Rel.LT)
    elif found[4] == "]":
        return None  # "(3, ∞]": ∞ is no number that could belong to it
    return Chain(tuple(sides), tuple(rels), found.span()) if rels else None
