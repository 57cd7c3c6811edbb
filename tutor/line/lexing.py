"""A line as tokens: the terminals of the grammar, and the silent ones between neighbours.

A student writes ``2x``, ``3/4 x`` and ``|x - 3|``. The grammar is LALR and wants a
sign in each of these places, so one is put there: TIGHT or LOOSE between neighbours
that multiply, and an opening or a closing bar. The terminals are those of the grammar
file, all in one pattern, tried in the order that lark's basic lexer tries them in.
"""

import re
from collections.abc import Mapping
from sys import intern
from typing import NamedTuple

from lark import Lark

from tutor.line.table import Raw

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
        self._pattern, kinds = _one_pattern(grammar)
        self._kinds = tuple((intern(kind), intern(leaves.get(kind, kind))) for kind in kinds)

    def tokens(self, text: str, start: int, end: int) -> Tokens:
        """Return the tokens of ``text[start:end]``; their places are those in ``text``."""
        tokens: list[Raw] = []
        brackets: list[tuple[str, int, int]] = []
        kinds = self._kinds
        before, before_end = "", start
        for found in self._pattern.finditer(text, start, end):
            kind, leaf = kinds[found.lastindex or 0]
            at, stop = found.span()
            try:
                if kind in _BRACKETS:
                    kind = leaf = _bracket(kind, text[at], (at, stop), before, brackets)
                if before in _ENDS and kind in _STARTS:
                    silent = "TIGHT" if before_end == at else "LOOSE"
                    _check_neighbours(tokens[-1], before, kind, text[at:stop], (at, stop))
                    tokens.append(Raw(silent, at, stop))
            except LineRefusal as refusal:
                return Tokens(tokens, refusal)
            if kind == "UNKNOWN":
                return Tokens(tokens, LineRefusal(at, stop, f"I cannot read “{text[at]}” here."))
            tokens.append(Raw(leaf, at, stop, (), found[0]))
            before, before_end = kind, stop
        return Tokens(tokens, _left_open(brackets))


def _one_pattern(grammar: Lark) -> tuple[re.Pattern[str], list[str]]:
    """Return one pattern of all terminals, and the kind that each of its groups stands for.

    The groups are empty and stand behind what they name: a pattern that begins with a plain
    sign is passed over quickest. Ignored signs match nothing, so a search steps over them.
    """
    terminals = sorted(
        grammar.terminals,
        key=lambda each: (-each.priority, -each.pattern.max_width, -len(each.pattern.value), each.name),
    )
    spaces = "|".join(each.pattern.to_regexp() for each in terminals if each.name in grammar.ignore_tokens)
    others = [each for each in terminals if each.name not in grammar.ignore_tokens]
    ways = [f"(?:{each.pattern.to_regexp()})()" for each in others]
    pattern = re.compile("|".join([*ways, f"(?!{spaces}).()"]), re.DOTALL)
    return pattern, ["", *(str(each.name) for each in others), "UNKNOWN"]


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
            raise LineRefusal(*span, "This bracket closes nothing.")
        brackets.pop()
        return kind
    if kind == "ROOT_INDEX":
        sign = "("
    brackets.append((sign, *span))
    if len(brackets) > MAX_NESTING:
        raise LineRefusal(*span, "Too many brackets inside one another.")
    return kind


def _left_open(brackets: list[tuple[str, int, int]]) -> LineRefusal | None:
    if not brackets:
        return None
    sign, start, end = brackets[0]
    what = "bar" if sign == "|" else "bracket"
    return LineRefusal(start, end, f"This {what} is opened and not closed.")


def _check_neighbours(last: Raw, before: str, kind: str, text: str, span: tuple[int, int]) -> None:
    """Refuse neighbours that nobody can multiply: ``3 4`` and ``x2``."""
    if kind not in _NUMBERS:
        return
    if before in _NUMBERS:
        raise LineRefusal(*span, "Two numbers stand side by side. Put a sign between them.")
    if before == "NAME" and last.end == span[0]:
        name = last.text
        raise LineRefusal(
            last.start,
            span[1],
            f"I cannot tell what “{name}{text}” means. "
            f"Write {text}{name} for times, {name}^{text} for a power.",
        )
