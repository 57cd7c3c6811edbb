"""A line as tokens: the terminals of the grammar, and the silent ones between neighbours.

A student writes ``2x``, ``3/4 x`` and ``|x - 3|``. The grammar is LALR and wants a
sign in each of these places, so one is put there: TIGHT or LOOSE between neighbours
that multiply, and an opening or a closing bar. The terminals are those of the grammar
file, all in one pattern, tried in the order that lark's basic lexer tries them in.
"""

import re
from collections.abc import Callable, Iterable, Mapping
from sys import intern
from typing import NamedTuple

from lark import Lark
from lark.lexer import TerminalDef

from tutor.line.advice import (
    INTERVAL,
    between_numbers,
    closes_nothing,
    left_open,
    name_and_number,
    side_by_side,
    unknown_sign,
)
from tutor.line.table import Raw
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
    """Takes lines apart. ``leaves`` names the kind of leaf that a terminal becomes."""

    def __init__(self, grammar: Lark, leaves: Mapping[str, str]) -> None:
        ignored = [each for each in grammar.terminals if each.name in grammar.ignore_tokens]
        self._spaces = re.compile("|".join(each.pattern.to_regexp() for each in ignored))
        every = [each for each in grammar.terminals if each.name not in grammar.ignore_tokens]
        self._any = _ways(every, leaves)
        self._ways = {
            sign: _ways([each for each in every if each.name in names], leaves)
            for signs, names in BEGINNINGS.items()
            for sign in signs
        }

    def tokens(self, text: str, start: int, end: int) -> Tokens:
        """Return the tokens of ``text[start:end]``; their places are those in ``text``."""
        tokens: list[Raw] = []
        brackets: list[tuple[str, int, int]] = []
        ways, spread = self._ways, self._any
        before, may_follow, before_end, at = "", False, start, start
        while at < end:
            sign = text[at]
            if sign == " ":
                at += 1
                continue
            match, kinds = ways.get(sign, spread)
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


def _ways(terminals: Iterable[TerminalDef], leaves: Mapping[str, str]) -> _Ways:
    """Try the terminals in the order that lark's basic lexer tries them in."""
    ranked = sorted(
        terminals,
        key=lambda each: (-each.priority, -each.pattern.max_width, -len(each.pattern.value), each.name),
    )
    pattern = re.compile("|".join(f"(?:{each.pattern.to_regexp()})()" for each in ranked))
    names = ["", *(intern(str(each.name)) for each in ranked)]
    return _Ways(pattern.match, tuple(_kind(name, leaves) for name in names))


def _kind(name: str, leaves: Mapping[str, str]) -> _Kind:
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
