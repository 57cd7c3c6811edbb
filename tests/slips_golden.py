"""What is said of every known wrong move, as it is read on the page, at 40 and at 80 columns.

``python tests/slips_golden.py`` writes ``tests/golden/slips_40.txt`` and ``slips_80.txt`` anew.
Read what changed with the eyes of a 12-year-old before you commit it.
"""

from pathlib import Path

import slips_table
import slips_table_formulas
from reasons_golden import COLUMNS, GOLDEN, room
from slips_table import Row

from tutor.marking.task import Task
from tutor.marking.working import WorkLine, mark_lines
from tutor.page.lettering import fold, pieces, underline

ROWS: tuple[Row, ...] = (*slips_table.TABLE, *slips_table_formulas.TABLE)


def marked(row: Row) -> tuple[WorkLine, ...]:
    """Return the lines of an example of the table with their marks."""
    return mark_lines(Task(givens=row.givens), row.lines).lines


def rendered(columns: int) -> str:
    """Return all examples as one text."""
    return "\n".join(_rendered(row, room(columns)) for row in ROWS)


def _rendered(row: Row, width: int) -> str:
    rows = [row.name]
    for number, line in enumerate(marked(row), 1):
        sign = "✓" if line.mark.verdict.stands else "✗"
        for at, (start, end) in enumerate(pieces(line.text, width)):
            head = f"  {sign} {number} │ " if not at else "      │ "
            rows.append(f"{head}{line.text[start:end]}".rstrip())
        if line.mark.message and line.mark.span is not None:
            first, past = line.mark.span
            if past <= width:
                rows.append(f"      │ {underline(line.text, first, past)}")
            rows += [f"      │ {part}" for part in fold(line.mark.message, width)]
    return "\n".join(rows) + "\n"


def path(columns: int) -> Path:
    """Return where the text for a width is kept."""
    return GOLDEN / f"slips_{columns}.txt"


def main() -> None:
    """Write both texts."""
    for columns in COLUMNS:
        path(columns).write_text(rendered(columns), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
