"""A lesson's text in the standard layout: the same entries and remarks, one under the other."""

from __future__ import annotations

from collections.abc import Iterator

from tutor.lesson.keywords import GOES_ON, Keyword
from tutor.lesson.layout import Entry, cut
from tutor.lesson.source import Source, phrase, source_of

WIDTH = 80
_KEYWORD = 9


def tidied(text: str) -> str:
    """Return a lesson that reads, laid out anew. What it means stays, and its remarks too.

    A remark that stands inside an entry comes to stand above the next one.
    """
    source = source_of(text, "")
    entries, _faults = cut(source)
    remarks = list(_remarks(source))
    rows: list[str] = []
    inside = False  # a problem has begun
    for entry in entries:
        above = [remark for offset, remark in remarks if offset < entry.offset]
        remarks = [(offset, remark) for offset, remark in remarks if offset >= entry.offset]
        begins = entry.keyword is Keyword.PROBLEM
        if rows and (begins or (above and not inside)):
            rows.append("")
        inside = inside or begins
        indent = "  " if inside and not begins else ""
        rows += [indent + remark for remark in above]
        if above and not inside:
            rows.append("")
        rows += _rows(entry, indent)
    if remarks:
        rows += ["", *(remark for _offset, remark in remarks)]
    return "\n".join(rows) + "\n"


def _remarks(source: Source) -> Iterator[tuple[int, str]]:
    for offset, line in source.lines():
        if line.lstrip().startswith("#"):
            yield offset, line.strip()


def _rows(entry: Entry, indent: str) -> Iterator[str]:
    """Yield an entry, gone on under its own text where it is long."""
    start = f"{indent}{entry.keyword.value:<{_KEYWORD}}"
    row, filled = start, False
    for word in phrase(entry.body, 0).text.split(" "):
        # A line that begins with # would be a remark, so such a word never stands first.
        full = len(row) + 1 + len(word) > WIDTH and not word.startswith("#")
        if filled and full and entry.keyword in GOES_ON:
            yield row
            row, filled = " " * len(start), False
        row += f" {word}" if filled else word
        filled = True
    yield row
