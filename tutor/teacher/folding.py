"""Sentences folded for a terminal, an equation never torn apart at its signs."""

import re
import textwrap

_NO_BREAK = "\u00a0"
_SIGN = "[=+−·×÷/<>≤≥≈]"
# The spaces round a sign, and the one between a number and its unit.
_GLUE = re.compile(rf" (?={_SIGN} )|(?<= {_SIGN}) |(?<=\d) (?=[a-z]{{1,2}}\b)")


# A sentence may end with a command to type, or with where a file is.
_TO_COPY = re.compile(r"(?<=:) (?=evenline |[/\\]|[A-Za-z]:[/\\])")

WIDTH = 78


def told(sentence: str) -> str:
    """Return a sentence folded for a terminal; a command or a path at its end has a row of its own, whole."""
    said, *copied = _TO_COPY.split(sentence, maxsplit=1)
    rows = textwrap.wrap(said, WIDTH, break_on_hyphens=False, break_long_words=False)
    return "\n".join([*rows, *(f"  {one}" for one in copied)])


def folded(text: str, width: int) -> list[str]:
    """Fold a text at spaces into rows of ``width``, but not inside ``b = 4.5 cm`` or ``5x + 8``."""
    rows = textwrap.wrap(_GLUE.sub(_NO_BREAK, text), width, break_on_hyphens=False)
    return [row.replace(_NO_BREAK, " ") for row in rows]
