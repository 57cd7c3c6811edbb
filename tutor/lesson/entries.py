"""What stands in one entry, read by ``grammar/lesson.lark``."""

from dataclasses import dataclass
from functools import lru_cache

from lark import Lark, Token, Tree
from lark.exceptions import UnexpectedInput, UnexpectedToken

from tutor.lesson.keywords import Keyword
from tutor.lesson.layout import Entry
from tutor.lesson.model import Fault
from tutor.lesson.source import Phrase, Source, phrase
from tutor.resources import grammar_text


@dataclass(frozen=True, slots=True)
class Content:
    """An entry that was read.

    ``parts`` are its pieces in order: a title, codes, names, the kind and parts of a figure.
    ``tail`` is what comes after the ``=`` of a given or the ``in`` of a find.
    """

    entry: Entry
    parts: tuple[Phrase, ...]
    tail: Phrase | None = None

    @property
    def first(self) -> Phrase:
        """Return the first piece; every entry that was read has one."""
        return self.parts[0]


@lru_cache(maxsize=1)
def _parser() -> Lark:
    return Lark(
        grammar_text("lesson"),
        parser="lalr",
        start=[keyword.value for keyword in Keyword],
        propagate_positions=True,
    )


def read_entry(source: Source, entry: Entry) -> Content | Fault:
    """Return what the entry says, or what is wrong with it."""
    if not entry.body:
        return source.fault(entry.offset, _NOTHING[entry.keyword], entry.keyword.example)
    try:
        tree = _parser().parse(entry.body, start=entry.keyword.value)
    except UnexpectedInput as error:
        if entry.keyword is Keyword.GIVEN and "=" not in entry.body and " " in entry.body:
            return _no_equals(source, entry)
        return source.fault(
            entry.body_offset + _place(error, entry.body), _FORM[entry.keyword], entry.keyword.example
        )
    return _content(entry, tree)


def _no_equals(source: Source, entry: Entry) -> Fault:
    name, value = entry.body.split(" ", 1)
    return source.fault(
        entry.body_offset + len(name),
        "The sign = is missing between the name and its value.",
        entry.keyword.written(f"{name} = {phrase(value, 0).text}"),
    )


def _place(error: UnexpectedInput, body: str) -> int:
    # lark gives the end of a text the place of its last token: it is further.
    if isinstance(error, UnexpectedToken) and error.token.type == "$END":
        return len(body)
    return error.pos_in_stream or 0


def _content(entry: Entry, tree: Tree[Token]) -> Content:
    parts: list[Phrase] = []
    tail: Phrase | None = None
    for child in tree.children:
        piece = _phrase(entry, child)
        follows = isinstance(child, Token) and (child.type == "UNIT" or bool(parts and child.type == "TEXT"))
        if follows:
            tail = piece
        else:
            parts.append(piece)
    if not parts:  # `every step` has no piece of its own
        parts.append(phrase(entry.body, entry.body_offset))
    return Content(entry, tuple(parts), tail)


def _phrase(entry: Entry, piece: Tree[Token] | Token) -> Phrase:
    if isinstance(piece, Token):
        start, end = piece.start_pos, piece.end_pos
    else:
        start, end = piece.meta.start_pos, piece.meta.end_pos
    first = start or 0
    return phrase(entry.body[first:end], entry.body_offset + first)


_NOTHING = {keyword: f"Nothing stands after “{keyword.value}”." for keyword in Keyword}

_FORM = {
    Keyword.LESSON: "After “lesson” comes its title.",
    Keyword.FORMAT: "After “format” comes one number.",
    Keyword.GRADE: "After “grade” comes the grade.",
    Keyword.COVERS: "After “covers” come codes with spaces between them.",
    Keyword.PI: "After “pi” comes one of 3.14, 22/7 and exact.",
    Keyword.EVERY: "After “every” comes the word “step”: a student then writes every step.",
    Keyword.PROBLEM: "After “problem” comes a short name for it.",
    Keyword.ASK: "After “ask” comes the question.",
    Keyword.FIGURE: "After “figure” come its kind and its parts, with commas between them.",
    Keyword.NAMES: "After “names” come names with commas between them.",
    Keyword.FORMULA: "After “formula” comes one formula.",
    Keyword.EQUATION: "After “equation” comes one equation.",
    Keyword.GIVEN: "After “given” come a name, the sign = and a value.",
    Keyword.FIND: "After “find” come a name, the word “in” and a unit. Several names are joined by “and”.",
    Keyword.ROUND: "After “round” come “to”, a whole number and “places”.",
}
