"""Lark's part of reading: text to a raw tree in which names are not settled yet."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from lark import Lark, Token, Transformer, Tree
from lark.exceptions import UnexpectedCharacters, UnexpectedToken

from tutor.line.lexing import LineRefusal, Neighbours
from tutor.resources import grammar_text


@dataclass(slots=True)
class Raw:
    """One rule of the grammar as it was met: its kind, its place, what is in it."""

    kind: str
    start: int
    end: int
    kids: tuple["Raw", ...] = ()
    text: str = ""


_LEAVES = frozenset({"number", "mixed", "vulgar", "name", "angle", "pi", "hole"})


class _ToRaw(Transformer[Token, Raw]):
    """Builds ``Raw`` while lark parses; a token becomes a leaf whose kind is its terminal."""

    def __default__(self, data: str, children: list[Any], meta: object) -> Any:
        if data.startswith("_"):
            # Lark's own helper for a repetition: it takes the children out again itself.
            return Tree(data, children)
        kids = tuple(_leaf(child) if isinstance(child, Token) else child for child in children)
        if data in _LEAVES:
            only = kids[0]
            return Raw(str(data), only.start, only.end, (), only.text)
        return Raw(str(data), kids[0].start, kids[-1].end, kids)


def _leaf(token: Token) -> Raw:
    return Raw(token.type, token.start_pos or 0, token.end_pos or 0, (), str(token))


@lru_cache(maxsize=1)
def _parser() -> Lark:
    return Lark(
        grammar_text("line"),
        parser="lalr",
        lexer="basic",
        postlex=Neighbours(),
        transformer=_ToRaw(),
        keep_all_tokens=True,
        maybe_placeholders=False,
    )


def parse(text: str) -> Raw:
    """Return the raw tree of a line; raises ``LineRefusal`` where it cannot be read."""
    try:
        tree: Any = _parser().parse(text)
    except UnexpectedCharacters as error:
        at = error.pos_in_stream or 0
        raise LineRefusal(at, at + 1, f"I cannot read “{text[at]}” here.") from None
    except UnexpectedToken as error:
        raise _refusal(text, error) from None
    return tree  # type: ignore[no-any-return]


def _refusal(text: str, error: UnexpectedToken) -> LineRefusal:
    token = error.token
    if token.type == "$END":
        # lark gives the end of a line the place of its last token: it is one further.
        end = len(text.rstrip())
        last = text[:end][-1:]
        return LineRefusal(
            end, end + 1, f"Something is missing after “{last}”." if last else "Type a line first."
        )
    start, end = token.start_pos or 0, token.end_pos or 0
    says = _EXPLAIN.get(token.type, _cannot)
    return LineRefusal(start, max(end, start + 1), says(text, text[start:end], start))


def _cannot(_text: str, found: str, _start: int) -> str:
    return f"I did not expect “{found}” here."


def _sign(text: str, found: str, start: int) -> str:
    if not text[:start].strip():
        return f"Something is missing before “{found}”."
    before = text[:start].rstrip()[-1]
    return f"Something is missing between “{before}” and “{found}”."


def _closing(_text: str, _found: str, _start: int) -> str:
    return "Something is missing before this bracket."


_EXPLAIN: dict[str, Callable[[str, str, int], str]] = {
    **dict.fromkeys(
        ("PLUS", "MINUS", "PLUSMINUS", "TIMES", "DIVIDE", "COLON", "SLASH", "POWER", "PERCENT", "DEGREE"),
        _sign,
    ),
    **dict.fromkeys(("EQ", "APPROX", "LE", "GE", "LT", "GT", "NE", "OR", "AND", "COMMA", "SEMICOLON"), _sign),
    **dict.fromkeys(("RPAR", "BAR_CLOSE"), _closing),
}
