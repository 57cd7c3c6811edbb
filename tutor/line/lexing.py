"""Between lark's lexer and its parser: neighbours that multiply, bars, brackets.

A student writes ``2x``, ``3/4 x`` and ``|x - 3|``. The grammar is LALR and wants a
sign in each of these places, so one is put there: TIGHT or LOOSE between neighbours
that multiply, and an opening or a closing bar.
"""

from collections.abc import Iterator
from typing import ClassVar

from lark.lexer import Token

_ENDS = frozenset(
    [
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
    ]
)
_STARTS = frozenset(
    [
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
    ]
)
_NUMBERS = frozenset({"NUMBER", "MIXED", "VULGAR"})
_CLOSES = {")": "(", "]": "[", "}": "{"}

MAX_NESTING = 24


class LineRefusal(Exception):
    """A place in the line that cannot be read: carried to the reader and made a value there."""

    def __init__(self, start: int, end: int, message: str) -> None:
        super().__init__(message)
        self.start = start
        self.end = end
        self.message = message


class Neighbours:
    """The step between lexer and parser (lark calls it ``postlex``)."""

    always_accept: ClassVar[tuple[str, ...]] = ("BAR",)

    def process(self, stream: Iterator[Token]) -> Iterator[Token]:
        """Yield the tokens with the silent ones put in."""
        brackets: list[Token] = []
        before: Token | None = None
        for token in stream:
            if token.type == "BAR":
                token = _told_apart(token, before, brackets)
            _follow_brackets(token, brackets)
            if before is not None and before.type in _ENDS and token.type in _STARTS:
                yield _silent(before, token)
            yield token
            before = token
        for opened in brackets:
            what = "bar" if opened.type == "BAR_OPEN" else "bracket"
            raise LineRefusal(_start(opened), _end(opened), f"This {what} is opened and not closed.")


def _told_apart(bar: Token, before: Token | None, brackets: list[Token]) -> Token:
    """A bar closes when the innermost thing open is a bar and something stands inside it."""
    inside = bool(brackets) and brackets[-1].type == "BAR_OPEN"
    closes = inside and before is not None and before.type in _ENDS
    return bar.update(type="BAR_CLOSE" if closes else "BAR_OPEN")


def _follow_brackets(token: Token, brackets: list[Token]) -> None:
    if token.type in ("LPAR", "BAR_OPEN"):
        brackets.append(token)
        if len(brackets) > MAX_NESTING:
            raise LineRefusal(_start(token), _end(token), "Too many brackets inside one another.")
    elif token.type == "ROOT_INDEX":
        brackets.append(Token.new_borrow_pos("LPAR", "(", token))
    elif token.type == "RPAR":
        if not brackets or brackets[-1].type != "LPAR" or str(brackets[-1]) != _CLOSES[str(token)]:
            raise LineRefusal(_start(token), _end(token), "This bracket closes nothing.")
        brackets.pop()
    elif token.type == "BAR_CLOSE":
        brackets.pop()


def _silent(before: Token, token: Token) -> Token:
    """Return the unwritten times sign between two neighbours."""
    tight = before.end_pos == token.start_pos
    if before.type in _NUMBERS and token.type in _NUMBERS:
        raise LineRefusal(
            _start(token), _end(token), "Two numbers stand side by side. Put a sign between them."
        )
    if before.type == "NAME" and token.type in _NUMBERS and tight:
        name, number = str(before), str(token)
        raise LineRefusal(
            _start(before),
            _end(token),
            f"I cannot tell what “{name}{number}” means. "
            f"Write {number}{name} for times, {name}^{number} for a power.",
        )
    return Token.new_borrow_pos("TIGHT" if tight else "LOOSE", "", token)


def _start(token: Token) -> int:
    return token.start_pos or 0


def _end(token: Token) -> int:
    return token.end_pos or 0
