"""Tables of printed workings, and the lines of a working that did not stand."""

from pathlib import Path

from tutor.marking.verdict import Verdict
from tutor.marking.working import Working


def rows(name: str) -> list[list[str]]:
    """Return the rows of a table that stands beside this file, each as its cells."""
    text = (Path(__file__).parent / name).read_text(encoding="utf-8")
    return [line.split("\t") for line in text.splitlines() if line and not line.startswith("#")]


def fallen(work: Working) -> list[tuple[str, str, str]]:
    """Return text, verdict and message of each line that neither stands nor is a note."""
    return [
        (line.text, line.mark.verdict.value, line.mark.message)
        for line in work.lines
        if not (line.mark.verdict.stands or line.mark.verdict is Verdict.NOTE)
    ]
