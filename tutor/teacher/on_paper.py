"""Lines as they are printed for a teacher: ``πr²`` for what a student can type as ``pi r^2``."""

import re

from tutor.line.reader import Unread, read
from tutor.marking.deciding.context import prepare
from tutor.marking.steps.writing import line_text
from tutor.marking.task import Task
from tutor.visible import visible

_RAISED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
# Not 2^0.5 and not 2^3/4, in which a person may see more raised than the 3.
_POWER = re.compile(r"\^(\d+)(?!\d|\.\d|[\^/])")


def on_paper(text: str) -> str:
    """Return a line, safe to print, with 7² for 7^2: the engine writes what a student can type."""
    return _POWER.sub(lambda power: power.group(1).translate(_RAISED), visible(text))


def line_on_paper(task: Task, text: str) -> str:
    """Return a formula of a task as a teacher writes it; as it is typed where it cannot be read."""
    names = prepare(task)[0].names
    found = read(text, names)
    return on_paper(text if isinstance(found, Unread) else line_text(found.statements[0], names))
