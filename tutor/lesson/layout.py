"""A lesson cut into entries: a keyword, and what follows it as far as it goes on.

A line that begins deeper than the keyword above it goes on with that entry, unless it
begins with a keyword itself. Lines that begin with ``#`` are the teacher's own remarks.
"""

import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass

from tutor.lesson.beginnings import begin, keyword_meant
from tutor.lesson.forms import reads
from tutor.lesson.keywords import BY_WORD, GOES_ON, Keyword
from tutor.lesson.model import Fault
from tutor.lesson.source import Source


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry: where its keyword stands, and its body with spaces at both ends cut off.

    ``indent`` is how far to the right the keyword stands. ``body_offset`` is the place in
    the file where ``body`` begins. Each character of ``body`` stands for one of the file.
    """

    keyword: Keyword
    offset: int
    indent: int
    body: str
    body_offset: int


@dataclass(frozen=True, slots=True)
class _Line:
    """A line that holds something: ``start`` is the place of its first word."""

    start: int
    indent: int
    text: str

    @property
    def word(self) -> str:
        return self.text.split(" ", 1)[0]

    @property
    def stands_alone(self) -> bool:
        """Tell whether the first word is set off by two spaces, as keywords are."""
        return self.text[len(self.word) :].startswith("  ")


@dataclass(slots=True)
class _Open:
    """The entry being collected; without a keyword its first word means nothing to us.

    ``after`` is the place behind the keyword, ``end`` the end of what goes on so far.
    """

    keyword: Keyword | None
    head: _Line
    after: int
    end: int


def cut(source: Source) -> tuple[tuple[Entry, ...], tuple[Fault, ...]]:
    """Return the entries of a lesson in order, and the words that are no keywords."""
    faults = [*_tabs(source)]
    clean = _clean(source)
    entries: list[Entry] = []
    opened: _Open | None = None
    in_a_problem = False
    for line in _lines(source, clean):
        if opened is not None and _goes_on(opened, line):
            opened.end = line.start + len(line.text)
            continue
        _close(opened, clean, entries)
        # Past so many nobody looks what each word was meant to be, and comparing takes time.
        compare = len(faults) < _MOST_COMPARED
        keyword, used, fault = begin(
            source, line.start, line.text, in_a_problem=in_a_problem, compare=compare
        )
        if fault is not None:
            faults.append(fault)
        in_a_problem = in_a_problem or keyword is Keyword.PROBLEM
        opened = _Open(keyword, line, line.start + used, line.start + len(line.text))
    _close(opened, clean, entries)
    return tuple(entries), tuple(faults)


_MOST_COMPARED = 60


def _clean(source: Source) -> str:
    """Return the text with remarks blanked and every kind of space made a plain one."""
    rows: list[str] = []
    for _start, text in source.lines():
        row = "".join(_space(character) for character in text)
        rows.append(" " * len(row) if row.lstrip(" ").startswith("#") else row)
    return "\n".join(rows)


def _space(character: str) -> str:
    return " " if character == "\t" or unicodedata.category(character) == "Zs" else character


def _lines(source: Source, clean: str) -> Iterator[_Line]:
    for offset, written in source.lines():
        row = clean[offset : offset + len(written)]
        text = row.strip(" ")
        if text:
            before = len(row) - len(row.lstrip(" "))
            yield _Line(offset + before, len(written[:before].expandtabs(8)), text)


def _goes_on(opened: _Open, line: _Line) -> bool:
    if line.indent <= opened.head.indent:
        return False
    if opened.keyword is not None and opened.keyword not in GOES_ON:
        return False
    if line.word.casefold() not in BY_WORD:
        # Set off as a keyword is, and nearly one: it was meant to begin an entry.
        return not (line.stands_alone and line.word.isalpha() and keyword_meant(line.word.casefold()))
    behind_the_keyword = line.indent > opened.head.indent + len(opened.head.word)
    return behind_the_keyword and not line.stands_alone


def _close(opened: _Open | None, clean: str, entries: list[Entry]) -> None:
    if opened is None or opened.keyword is None:
        return
    rest = clean[opened.after : opened.end]
    body = rest.strip(" \n")
    begins = opened.after + len(rest) - len(rest.lstrip(" \n")) if body else opened.after
    entries.append(Entry(opened.keyword, opened.head.start, opened.head.indent, body, begins))


def _tabs(source: Source) -> Iterator[Fault]:
    for offset, text in source.lines():
        if "\t" in text:
            word, _space, body = " ".join(text.split()).partition(" ")
            keyword = BY_WORD.get(word.casefold())
            # A tab may stand in the middle of a word, which no space mends.
            spaced = keyword.written(body) if keyword is not None and reads(keyword, body) else ""
            yield source.fault(
                offset + text.index("\t"),
                "A tab stands here; its width differs from screen to screen.",
                spaced,
            )
