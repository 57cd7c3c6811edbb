"""The table of reasons as it is read on the page, at 40 and at 80 columns.

``python tests/reasons_golden.py`` writes ``tests/golden/reasons_40.txt`` and ``reasons_80.txt``
anew. Read what changed with the eyes of a 12-year-old before you commit it.
"""

from pathlib import Path
from unittest.mock import patch

from reasons_table import EXAMPLES, Example

from tutor.marking.judging import wrong_units, yes_no
from tutor.marking.telling import reasons
from tutor.marking.working import WorkLine, mark_lines
from tutor.page.lettering import fold, pieces, underline

GOLDEN = Path(__file__).parent / "golden"
COLUMNS = (40, 80)
GUTTER = 8  # sign, number, margin line
LEFT = 34  # what the question and the figure take where there are 80 columns


def marked(example: Example) -> tuple[WorkLine, ...]:
    """Return the lines of an example with their marks, known wrong moves put aside."""
    with (
        patch.object(reasons, "find_slip", lambda *_: None),
        patch.object(wrong_units, "find_slip", lambda *_: None),
        patch.object(reasons, "wrong_kind", lambda *_: None),
        patch.object(yes_no, "yes_slip", lambda *_: None),
    ):
        return mark_lines(example.task, example.lines).lines


def room(columns: int) -> int:
    """Return the cells that a line and its reason have."""
    return columns - GUTTER - 1 - (LEFT if columns >= 80 else 0)


def rendered(columns: int) -> str:
    """Return all examples as one text."""
    return "\n".join(_rendered(example, room(columns)) for example in EXAMPLES)


def _rendered(example: Example, width: int) -> str:
    rows = [f"{example.shows} ({example.reason.value})"]
    for number, line in enumerate(marked(example), 1):
        sign = "✓" if line.mark.verdict.stands else "✗"
        for at, (start, end) in enumerate(pieces(line.text, width)):
            head = f"  {sign} {number} │ " if not at else "      │ "
            rows.append(f"{head}{line.text[start:end]}".rstrip())
        if line.mark.message and line.mark.span is not None:
            first, past = line.mark.span
            if past <= width:
                rows.append(f"      │ {underline(line.text, first, past)}")
            rows += [f"      │ {row}" for row in fold(line.mark.message, width)]
    return "\n".join(rows) + "\n"


def path(columns: int) -> Path:
    """Return where the text for a width is kept."""
    return GOLDEN / f"reasons_{columns}.txt"


def main() -> None:
    """Write both texts."""
    for columns in COLUMNS:
        path(columns).write_text(rendered(columns), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
