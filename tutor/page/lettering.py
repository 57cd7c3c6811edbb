"""Plain lettering: text measured in terminal cells, cut, folded and underlined."""

from collections.abc import Iterable, Iterator

from rich.cells import cell_len


def cells(text: str) -> int:
    """Return how many terminal cells the text takes."""
    return cell_len(text)


def pieces(text: str, width: int) -> tuple[tuple[int, int], ...]:
    """Cut a line into [start, end) parts of at most ``width`` cells; one empty part for "".

    It is cut behind a space where one is in the second half of a row, so that a number stays whole.
    A character wider than ``width`` stands alone in its part.
    """
    parts: list[tuple[int, int]] = []
    start = 0
    while (end := _filled(text, start, width)) < len(text):
        behind_space = text.rfind(" ", start, end) + 1
        if 2 * cell_len(text[start:behind_space]) >= width:
            end = behind_space
        parts.append((start, end))
        start = end
    return (*parts, (start, len(text)))


def _filled(text: str, start: int, width: int) -> int:
    """Return where a row of ``width`` cells that begins at ``start`` is full."""
    used = 0
    for index in range(start, len(text)):
        used += cell_len(text[index])
        if used > width and index > start:
            return index
    return len(text)


def underline(text: str, start: int, end: int, sign: str = "~") -> str:
    """Return the row that stands under ``text``: ``sign`` below [start, end), else blanks.

    An empty span still gets one sign, so that a place just past the end can be shown.
    """
    lead = cell_len(text[:start])
    return " " * lead + sign * max(1, cell_len(text[start:end]))


def fold(text: str, width: int) -> tuple[str, ...]:
    """Fold a message between words into rows of at most ``width`` cells; () for "".

    A short calculation such as ``n = 87 − 15`` stays on one row.
    """
    rows: list[str] = []
    row = ""
    for word in _together(text.split(), width // 2):
        if row and cell_len(row) + 1 + cell_len(word) <= width:
            row = f"{row} {word}"
            continue
        if row:
            rows.append(row)
        *whole, (start, end) = pieces(word, max(1, width))
        rows += [word[a:b] for a, b in whole]
        row = word[start:end]
    return (*rows, row) if row else tuple(rows)


_SIGNS = frozenset("=+−·×÷<>≤≥≈≠")


def _together(words: Iterable[str], most: int) -> Iterator[str]:
    """Yield words, those round a sign as one while that takes at most ``most`` cells."""
    held = ""
    for word in words:
        joined = f"{held} {word}"
        if held and (word in _SIGNS or held[-1:] in _SIGNS) and cell_len(joined) <= most:
            held = joined
            continue
        if held:
            yield held
        held = word
    if held:
        yield held


def shorten(text: str, width: int) -> str:
    """Return the text in at most ``width`` cells, cut with … where it is longer."""
    if cell_len(text) <= width:
        return text
    kept = text[: _filled(text, 0, max(1, width - 1))]
    return (kept if cell_len(kept) < width else "") + "…"
