"""The form of an entry: what ``grammar/lesson.lark`` lets stand behind a keyword."""

from functools import lru_cache

from lark import Lark, Token, Tree
from lark.exceptions import UnexpectedInput

from tutor.lesson.advice import meant
from tutor.lesson.keywords import Keyword
from tutor.resources import grammar_text

# A longer entry is not mended for its teacher, only pointed at.
_QUOTED = 200


@lru_cache(maxsize=1)
def _parser() -> Lark:
    return Lark(
        grammar_text("lesson"),
        parser="lalr",
        start=[keyword.value for keyword in Keyword],
        propagate_positions=True,
    )


def parsed(keyword: Keyword, body: str) -> Tree[Token]:
    """Return the tree of what stands behind a keyword; raises lark's ``UnexpectedInput``."""
    return _parser().parse(body, start=keyword.value)


def reads(keyword: Keyword, body: str) -> bool:
    """Tell whether a text may stand behind a keyword."""
    try:
        parsed(keyword, body)
    except UnexpectedInput:
        return False
    return bool(body)


def better(keyword: Keyword, body: str) -> str:
    """Return the entry that was meant, "" where it cannot be told. What it returns can be read."""
    if len(body) > _QUOTED:
        return ""
    found = (text for text in meant(keyword, body) if text != body and reads(keyword, text))
    text = next(found, "")
    return keyword.written(text) if text else ""
