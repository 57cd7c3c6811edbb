"""Text to a raw tree in which names are not settled yet."""

from collections.abc import Callable
from functools import lru_cache

from tutor.line.advice import LIST_ALONE
from tutor.line.kept_table import line_table
from tutor.line.lexing import LineRefusal, Scanner
from tutor.line.table import Automaton, Raw, Unexpected

MAX_STACKED = 48
_CLOSES = {"(": ")", "[": "]", "{": "}"}
_RELATIONS = frozenset({"EQ", "APPROX", "LE", "GE", "LT", "GT", "NE"})
_ROWS = frozenset({"plus", "minus", "plus_minus", "times", "beside"})


@lru_cache(maxsize=1)
def _machine() -> tuple[Automaton, Scanner]:
    table = line_table()
    return Automaton(table), Scanner(table)


def parse(text: str, start: int = 0, end: int | None = None) -> Raw:
    """Return the raw tree of ``text[start:end]``; raises ``LineRefusal`` where it cannot be read."""
    automaton, scanner = _machine()
    end = len(text) if end is None else end
    tokens, refusal = scanner.tokens(text, start, end)
    try:
        tree = automaton.parse(tokens, refusal is None)
        if len(tokens) > MAX_STACKED:
            _check_depth(tree)
        return tree
    except Unexpected as error:
        if error.at < len(tokens):
            raise _refusal(text, start, tokens[error.at]) from None
    raise refusal or _missing(text, start, end, tokens)


def _check_depth(tree: Raw) -> None:
    """Refuse towers of powers, of strokes, of roots and of signs; sums and products may be long."""
    waiting = [(tree, 0)]
    while waiting:
        raw, depth = waiting.pop()
        if depth > MAX_STACKED:
            raise LineRefusal(raw.start, raw.end, "Too much is stacked up here. Write it in smaller steps.")
        for at, kid in enumerate(raw.kids):
            goes_on = at == 0 and raw.kind in _ROWS
            waiting.append((kid, depth if goes_on else depth + 1))


def _missing(text: str, start: int, end: int, tokens: list[Raw]) -> LineRefusal:
    if not tokens:
        return LineRefusal(start, end, "Type a line first.")
    stop = tokens[-1].end
    return LineRefusal(stop, stop, _after(tokens[-1].text or text[stop - 1]))


_PUT_ONE = "Put a number or a letter there."


def _after(sign: str) -> str:
    side = sign in ("=", "<", ">", "≤", "≥", "≠", "≈")
    return f"Something is missing after “{sign}”. " + ("Write the other side." if side else _PUT_ONE)


def _refusal(text: str, line_start: int, token: Raw) -> LineRefusal:
    if token.kind == "COMMA" and _in_brackets(text[line_start : token.start]):
        return LineRefusal(token.start, token.end, LIST_ALONE)
    closing = _left_open(text[line_start : token.start])
    if closing and token.kind in _RELATIONS and closing not in text[token.end :]:
        said = f"A bracket is still open here. Close it with “{closing}” before “{token.text}”."
        return LineRefusal(token.start, token.end, said)
    says = _EXPLAIN.get(token.kind, _cannot)
    before = text[line_start : token.start].rstrip()[-1:]
    return LineRefusal(token.start, token.end, says(text[token.start : token.end], before))


def _in_brackets(text: str) -> bool:
    return any(text.count(opening) > text.count(closing) for opening, closing in ("()", "[]", "{}"))


def _left_open(text: str) -> str:
    """Return the sign that closes the innermost bracket, where only that is missing; "" elsewhere."""
    opened: list[str] = []
    for sign in text:
        if sign in _CLOSES:
            opened.append(_CLOSES[sign])
        elif opened and sign == opened[-1]:
            opened.pop()
    ends = text.rstrip()[-1:]
    return opened[-1] if opened and (ends.isalnum() or ends in ")]}") else ""


def _cannot(found: str, _before: str) -> str:
    return f"I did not expect “{found}” here. Leave it out, or write this part again."


def _sign(found: str, before: str) -> str:
    if not before:
        return f"Something is missing before “{found}”. {_PUT_ONE}"
    if before == found:
        return f"Something is missing between “{before}” and “{found}”. Put a number there, or leave one out."
    return f"Something is missing between “{before}” and “{found}”. {_PUT_ONE}"


def _behind(found: str, before: str) -> str:
    if before in ("=", "("):
        return f"Write “{found}” behind its number."
    return _sign(found, before)


def _closing(_found: str, _before: str) -> str:
    return f"Something is missing before this bracket. {_PUT_ONE}"


_EXPLAIN: dict[str, Callable[[str, str], str]] = {
    **dict.fromkeys(
        ("PLUS", "MINUS", "PLUSMINUS", "TIMES", "DIVIDE", "COLON", "SLASH", "POWER", "PERCENT", "DEGREE"),
        _sign,
    ),
    **dict.fromkeys(("EQ", "APPROX", "LE", "GE", "LT", "GT", "NE", "OR", "AND", "COMMA", "SEMICOLON"), _sign),
    "PERCENT": _behind,
    **dict.fromkeys(("RPAR", "BAR_CLOSE"), _closing),
}
