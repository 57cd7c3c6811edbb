"""A line as tokens: the terminals of the grammar, and the silent ones between neighbours.

A student writes ``2x``, ``3/4 x`` and ``|x - 3|``. The grammar is LALR and wants a
sign in each of these places, so one is put there: TIGHT or LOOSE between neighbours
that multiply, and an opening or a closing bar. The terminals are those of the grammar
file, all in one pattern, tried in the order that lark's basic lexer tries them in.
"""

import re
from collections.abc import Callable
from sys import intern
from typing import NamedTuple

from tutor.line.advice import (
    INTERVAL,
    between_numbers,
    closes_nothing,
    left_open,
    name_and_number,
    side_by_side,
    unknown_sign,
)
from tutor.line.table import Raw, Table
from tutor.quantity.units import base_unit

_ENDS = frozenset(
    {
        "NUMBER",
        "MIXED",
        "VULGAR",
        "NAME",
        "PI",
        "ANGLE",
        "HOLE",
        "RPAR",
        "BAR_CLOSE",
        "SUPERSCRIPT",
        "PERCENT",
        "DEGREE",
        "MONEY_BEHIND",
    }
)
_STARTS = frozenset(
    {
        "NUMBER",
        "MIXED",
        "VULGAR",
        "NAME",
        "PI",
        "ANGLE",
        "LPAR",
        "BAR_OPEN",
        "ROOT_CALL",
        "ROOT_SIGN",
        "ROOT_INDEX",
        "ABS_CALL",
        "CURRENCY",
    }
)
_NUMBERS = frozenset({"NUMBER", "MIXED", "VULGAR"})
_BRACKETS = frozenset({"LPAR", "RPAR", "BAR", "ROOT_INDEX"})
_CLOSES = {")": "(", "]": "[", "}": "{"}


# The terminals that can begin with some everyday signs, so that only those are tried there. A
# shortcut: any other sign is tried with all. The tests hold these rows against the grammar.
BEGINNINGS: dict[str, frozenset[str]] = {
    "0123456789": frozenset({"MIXED", "NUMBER"}),
    "fgjklnquvwxyzFGJKLNQUVWXYZ": frozenset({"NAME"}),
    "aA": frozenset({"AND", "ABS_CALL", "ANGLE", "NAME"}),
    "bB": frozenset({"TIMES", "NAME"}),
    "cC": frozenset({"ROOT_CALL", "ROOT_SIGN", "SUPERSCRIPT", "NAME"}),
    "dD": frozenset({"DIVIDE", "NAME"}),
    "eEiI": frozenset({"EQ", "NAME"}),
    "hH": frozenset({"AND", "NAME"}),
    "mM": frozenset({"MINUS", "ANGLE", "NAME"}),
    "oO": frozenset({"OR", "TIMES", "NAME"}),
    "pP": frozenset({"PI", "PLUS", "SLASH", "PERCENT", "NAME"}),
    "rR": frozenset({"ROOT_INDEX", "NAME"}),
    "sS": frozenset({"AND", "ROOT_CALL", "ROOT_SIGN", "SUPERSCRIPT", "NAME"}),
    "tT": frozenset({"AND", "COLON", "TIMES", "POWER", "NAME"}),
    "+": frozenset({"PLUSMINUS", "PLUS"}),
    "-−": frozenset({"MINUS"}),
    "=": frozenset({"APPROX", "LE", "GE", "EQ"}),
    "(": frozenset({"LPAR"}),
    ")": frozenset({"RPAR"}),
    "/": frozenset({"SLASH"}),
    "*": frozenset({"POWER", "TIMES"}),
    "·×": frozenset({"TIMES"}),
    "^": frozenset({"POWER"}),
}

MAX_NESTING = 24


class LineRefusal(Exception):
    """A place in the line that cannot be read: carried to the reader and made a value there."""

    def __init__(self, start: int, end: int, message: str) -> None:
        super().__init__(message)
        self.start = start
        self.end = end
        self.message = message


class Tokens(NamedTuple):
    """The tokens of a line up to the place where it cannot go on, if there is one."""

    tokens: list[Raw]
    refusal: LineRefusal | None


class Scanner:
    """Takes lines apart, by the terminals of a table."""

    def __init__(self, table: Table) -> None:
        self._spaces = re.compile(table.spaces)
        self._ways = _AllWays(table)

    def tokens(self, text: str, start: int, end: int) -> Tokens:
        """Return the tokens of ``text[start:end]``; their places are those in ``text``."""
        tokens: list[Raw] = []
        brackets: list[tuple[str, int, int]] = []
        ways = self._ways
        before, may_follow, before_end, at = "", False, start, start
        while at < end:
            sign = text[at]
            if sign == " ":
                at += 1
                continue
            match, kinds = ways[sign]
            found = match(text, at, end)
            if found is None:
                spaces = self._spaces.match(text, at, end)
                if spaces is not None:
                    at = spaces.end()
                    continue
                return Tokens(tokens, LineRefusal(at, at + 1, unknown_sign(sign)))
            kind, leaf, starts, ends, special = kinds[found.lastindex or 0]
            stop = found.end()
            if special or (may_follow and kind in _NUMBERS):
                try:
                    kind, leaf = self._looked_at(kind, leaf, found[0], (at, stop), before, tokens, brackets)
                except LineRefusal as met:
                    return Tokens(tokens, _interval(at, stop) if _is_interval(kind, tokens) else met)
                starts, ends = kind in _STARTS, kind in _ENDS
            if may_follow and starts:
                tokens.append(Raw("TIGHT" if before_end == at else "LOOSE", at, stop))
            tokens.append(Raw(leaf, at, stop, (), found[0]))
            before, may_follow, before_end, at = kind, ends, stop, stop
        return Tokens(tokens, _left_open(brackets) if brackets else None)

    def _looked_at(
        self,
        kind: str,
        leaf: str,
        text: str,
        span: tuple[int, int],
        before: str,
        tokens: list[Raw],
        brackets: list[tuple[str, int, int]],
    ) -> tuple[str, str]:
        """Return the kind and the leaf of a token that its surroundings decide about, or refuse it."""
        if kind in _BRACKETS:
            kind = _bracket(kind, text[0], span, before, brackets)
            return kind, kind
        if kind in _NUMBERS:
            _check_number(tokens, before, text, span)
        if kind == "TIMES" and text[0] in "oO" and before == "NAME" and len(tokens[-1].text) > 1:
            return "NAME", "name"  # "boxes of candles": no product
        return kind, leaf


class _Ways(NamedTuple):
    """How a token can go on: one pattern, and the kinds that its groups stand for.

    The groups are empty and stand behind what they name: a pattern that begins with a plain
    sign is passed over quickest.
    """

    match: Callable[[str, int, int], re.Match[str] | None]
    kinds: tuple["_Kind", ...]


class _Kind(NamedTuple):
    """A terminal: the leaf it becomes, whether it may begin or end a factor, whether it is looked at."""

    name: str
    leaf: str
    starts: bool
    ends: bool
    special: bool


class _AllWays(dict[str, _Ways]):
    """The ways to go on with a token that begins with a sign, made when the first one does.

    Any sign but the everyday ones may be the first of any terminal.
    """

    def __init__(self, table: Table) -> None:
        super().__init__()
        self._table = table
        self._made: dict[frozenset[str] | None, _Ways] = {}

    def __missing__(self, sign: str) -> _Ways:
        names = next((names for signs, names in BEGINNINGS.items() if sign in signs), None)
        ways = self._made.get(names)
        if ways is None:
            ways = self._made[names] = self._ways(names)
        if names is not None:  # of the others there is no end
            self[sign] = ways
        return ways

    def _ways(self, names: frozenset[str] | None) -> _Ways:
        tried = [each for each in self._table.terminals if names is None or each[0] in names]
        pattern = re.compile("|".join(f"(?:{pattern})()" for _, pattern in tried))
        kinds = ["", *(name for name, _ in tried)]
        return _Ways(pattern.match, tuple(_kind(intern(name), self._table.leaves) for name in kinds))


def _kind(name: str, leaves: dict[str, str]) -> _Kind:
    special = name in _BRACKETS or name == "TIMES"
    return _Kind(name, intern(leaves.get(name, name)), name in _STARTS, name in _ENDS, special)


def _bracket(
    kind: str, sign: str, span: tuple[int, int], before: str, brackets: list[tuple[str, int, int]]
) -> str:
    """Keep count of what is open; return the kind with bars told apart."""
    if kind == "BAR":
        # A bar closes when the innermost thing open is a bar and something stands inside it.
        inside = bool(brackets) and brackets[-1][0] == "|"
        if inside and before in _ENDS:
            brackets.pop()
            return "BAR_CLOSE"
        kind, sign = "BAR_OPEN", "|"
    if kind == "RPAR":
        if not brackets or brackets[-1][0] != _CLOSES[sign]:
            raise LineRefusal(*span, closes_nothing(sign, brackets[-1][0] if brackets else ""))
        brackets.pop()
        return kind
    if kind == "ROOT_INDEX":
        sign = "("
    brackets.append((sign, *span))
    if len(brackets) > MAX_NESTING:
        raise LineRefusal(*span, "Too many brackets inside one another.")
    return kind


def _is_interval(kind: str, tokens: list[Raw]) -> bool:
    return kind == "RPAR" and any(token.kind == "COMMA" for token in tokens)


def _interval(start: int, end: int) -> LineRefusal:
    return LineRefusal(start, end, INTERVAL)


def _left_open(brackets: list[tuple[str, int, int]]) -> LineRefusal:
    sign, start, end = brackets[0]
    return LineRefusal(start, end, left_open(sign))


def _check_number(tokens: list[Raw], before: str, text: str, span: tuple[int, int]) -> None:
    """Refuse a number behind what it cannot multiply: ``3 4`` and ``x2``."""
    last = tokens[-1]
    if before in _NUMBERS:
        raise LineRefusal(*span, side_by_side(last.text, text))
    if before == "NAME" and last.end == span[0]:
        first = tokens[-3] if len(tokens) > 2 and tokens[-2].kind == "TIGHT" else None
        if first is not None and first.kind == "number" and last.text in ("x", "X"):
            message = between_numbers(first.text, last.text, text)
            raise LineRefusal(first.start, span[1], message)
        unit = len(last.text) > 1 and base_unit(last.text) is not None
        raise LineRefusal(last.start, span[1], name_and_number(last.text, text, unit=unit))
