"""What stands in one entry, read by ``grammar/lesson.lark``."""

import re
from dataclasses import dataclass

from lark import Token, Tree
from lark.exceptions import UnexpectedInput, UnexpectedToken

from tutor.lesson.forms import better, parsed, reads
from tutor.lesson.keywords import BY_WORD, Keyword
from tutor.lesson.layout import Entry
from tutor.lesson.model import Fault
from tutor.lesson.naming import is_name
from tutor.lesson.source import Phrase, Source, phrase


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


def read_entry(source: Source, entry: Entry) -> Content | Fault:
    """Return what the entry says, or what is wrong with it."""
    if not entry.body:
        return source.fault(entry.offset, _NOTHING[entry.keyword], entry.keyword.example)
    misplaced = _mathematics_fault(source, entry)
    if misplaced is not None:
        return misplaced
    try:
        tree = parsed(entry.keyword, entry.body)
    except UnexpectedInput as error:
        return _fault(source, entry, _place(error, entry.body))
    return _content(entry, tree)


def _fault(source: Source, entry: Entry, place: int) -> Fault:
    keyword = entry.keyword
    instead = better(keyword, entry.body)
    if keyword in (Keyword.GIVEN, Keyword.PIECE) and instead and "=" not in entry.body:
        name = entry.body.split(" ", 1)[0]
        message = "The sign = is missing between the name and its value."
        return source.fault(entry.body_offset + len(name), message, instead)
    if keyword is Keyword.VARY and re.match(r"[^\W\d]+\s*(,|and\b)", entry.body):
        message = "Each name is varied on a line of its own."
        return source.fault(entry.body_offset, message, keyword.example)
    return source.fault(entry.body_offset + place, _FORM[keyword], instead or _example(entry))


def _example(entry: Entry) -> str:
    """Return an entry as it may be written, of the name that stands here where one is varied."""
    name = entry.body.split(maxsplit=1)[0]
    if entry.keyword is Keyword.VARY and is_name(name) and len(name) <= _LONGEST_NAME:
        return Keyword.VARY.written(f"{name} from 4 to 9 step 0.5")
    return entry.keyword.example


_LONGEST_NAME = 20


# Entries of mathematics, where the words below begin an entry that should stand on a line of its own.
_MATHEMATICS = frozenset({Keyword.GIVEN, Keyword.FORMULA, Keyword.EQUATION, Keyword.FIND, Keyword.PIECE})
_BEGINS = re.compile(r"\b(given|find|formula|equation|figure|ask|round|vary|where)\b(?=\s|$)")
_QUOTES = re.compile("[“”„«»‹›‘‚]|^[\"'].*[\"']$")


def _mathematics_fault(source: Source, entry: Entry) -> Fault | None:
    """Return a fault where a second keyword or quotation marks stand in mathematics."""
    if entry.keyword not in _MATHEMATICS:
        return None
    second = _BEGINS.search(entry.body)
    if second is not None:
        inner = BY_WORD[second[1]]
        rest = " ".join(entry.body[second.end() :].split())
        message = f"“{inner.value}” begins an entry of its own. Put it on a new line."
        known = inner.written(rest) if rest and reads(inner, rest) else inner.example
        return source.fault(entry.body_offset + second.start(), message, known)
    quote = _QUOTES.search(entry.body)
    if quote is not None:
        message = "Mathematics stands without quotation marks."
        bare = " ".join(_QUOTE_SIGNS.sub("", entry.body).split())
        return source.fault(
            entry.body_offset + quote.start(), message, entry.keyword.written(bare) if bare else ""
        )
    if entry.keyword in (Keyword.GIVEN, Keyword.PIECE) and re.match(r"[^={}]*?(:=|==|:\s)", entry.body):
        instead = better(entry.keyword, entry.body)
        message = "One sign = stands between the name and its value."
        return source.fault(entry.body_offset, message, instead or entry.keyword.example)
    return None


_QUOTE_SIGNS = re.compile("[“”„«»‹›‘‚\"']")


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
    if not parts:  # `every step` and the like have no piece of their own
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
    Keyword.STEPS: "After “steps” come the steps that are required: formula, label, check.",
    Keyword.MARKS: "After “marks” comes “line by line” or “when handed in”.",
    Keyword.CORRECT: "After “correct” comes “same numbers” or “fresh numbers”.",
    Keyword.MISSED: "After “missed” comes “when a line breaks” or “when a broken line is left”.",
    Keyword.HINTS: "After “hints” comes “on” or “off”.",
    Keyword.REVIEW: "After “review” come a number, the word “from” and the names of lesson files.",
    Keyword.PROBLEM: "After “problem” comes a short name for it.",
    Keyword.MATTERS: "After “matters” comes the word “most”.",
    Keyword.VARY: "After “vary” come a name and its numbers: “from 4 to 9 step 0.5” or “in 3, 4, 6”.",
    Keyword.WHERE: "After “where” comes a condition.",
    Keyword.ASK: "After “ask” comes the question.",
    Keyword.FIGURE: "After “figure” come its kind and its parts, with commas between them.",
    Keyword.NAMES: "After “names” come names with commas between them.",
    Keyword.FORMULA: "After “formula” comes one formula.",
    Keyword.EQUATION: "After “equation” comes one equation.",
    Keyword.PIECE: "After “piece” come a name, the sign = and how it is worked out.",
    Keyword.GIVEN: "After “given” come a name, the sign = and a value.",
    Keyword.PART: "After “part” comes a question.",
    Keyword.FIND: "After “find” come a name, the word “in” and a unit. Several names are joined by “and”.",
    Keyword.ROUND: "After “round” come “to”, “up to” or “down to”, and then “2 places” or “a whole number”.",
    Keyword.CHECK: "After “check” come the words “the answer”.",
    Keyword.TRIANGLE: "After “triangle” come three lengths with commas between them.",
    Keyword.MANY: "After “many” comes the word “triangles”.",
    Keyword.DRAW: "After “draw” comes the word “triangle”.",
    Keyword.WITHIN: "After “within” come a length and an angle: how far off a drawing may be.",
    Keyword.CHOOSE: "After “choose” come the choices with commas between them.",
    Keyword.ANSWER: "After “answer” comes the right choice.",
    Keyword.WRITE: "After “write” comes the name whose formula is asked for.",
    Keyword.SHOW: "After “show” comes the line that the work must reach.",
    Keyword.REASON: "After “reason” comes a sentence.",
    Keyword.WORD: "After “word” comes the word that is asked for.",
    Keyword.MEANS: "After “means” comes the meaning of the word.",
    Keyword.ALSO: "After “also” come other words that are right.",
    Keyword.NEAR: "After “near” come words that are easily taken for this one.",
}
