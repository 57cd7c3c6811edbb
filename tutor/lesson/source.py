"""The text of a lesson file with its places, so that whatever is read can be pointed at."""

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass

from tutor.lesson.model import Fault


@dataclass(frozen=True, slots=True)
class Source:
    """A lesson's text, line ends ``\\n``. ``starts`` holds the offset of each line."""

    path: str
    text: str
    starts: tuple[int, ...]

    def place(self, offset: int) -> tuple[int, int]:
        """Return line and column of ``offset``, both from 1."""
        line = bisect_right(self.starts, offset)
        return line, offset - self.starts[line - 1] + 1

    def line_text(self, line: int) -> str:
        """Return line number ``line`` (from 1) without its end."""
        start = self.starts[line - 1]
        end = self.starts[line] - 1 if line < len(self.starts) else len(self.text)
        return self.text[start:end]

    def lines(self) -> Iterator[tuple[int, str]]:
        """Yield each line with the offset at which it begins."""
        for number, start in enumerate(self.starts, 1):
            yield start, self.line_text(number)

    def fault(self, offset: int, message: str, instead: str = "") -> Fault:
        """Return the fault that stands at ``offset``."""
        line, column = self.place(offset)
        return Fault(self.path, line, column, self.line_text(line), message, instead)


def source_of(text: str, path: str) -> Source:
    """Return ``text`` as a source; a byte order mark and the kind of line ends do not matter."""
    plain = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    starts = [0]
    starts.extend(offset + 1 for offset, character in enumerate(plain) if character == "\n")
    return Source(path, plain, tuple(starts))


@dataclass(frozen=True, slots=True)
class Phrase:
    """A piece of the file, its runs of spaces and line ends made one space.

    ``offsets`` has the place in the file of each character of ``text``; ``end`` is the
    place after the last.
    """

    text: str
    offsets: tuple[int, ...]
    end: int

    @property
    def start(self) -> int:
        """Return the place in the file where it begins."""
        return self.at(0)

    def at(self, index: int) -> int:
        """Return the place in the file of the character at ``index``."""
        return self.offsets[index] if index < len(self.offsets) else self.end


def phrase(text: str, offset: int) -> Phrase:
    """Return ``text``, which begins at ``offset`` of the file, as a phrase."""
    kept: list[str] = []
    offsets: list[int] = []
    end = offset
    for index, character in enumerate(text):
        if character not in " \n":
            kept.append(character)
            offsets.append(offset + index)
            end = offset + index + 1
        elif kept and kept[-1] != " ":
            kept.append(" ")
            offsets.append(offset + index)
    if kept and kept[-1] == " ":
        kept.pop()
        offsets.pop()
    return Phrase("".join(kept), tuple(offsets), end)
