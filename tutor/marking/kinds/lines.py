"""What the small kinds share: lines marked one by one, and how far they are."""

from abc import ABC, abstractmethod
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Generic, Self, TypeVar

from tutor.line.reader import MAX_LENGTH
from tutor.marking.progress import Progress, StepState
from tutor.marking.task import ChoiceTask, DrawingTask, Task, WordTask
from tutor.marking.verdict import Mark, Reason, Step, UnitsState, Verdict
from tutor.marking.working import WorkLine

SmallTask = TypeVar("SmallTask", ChoiceTask, WordTask, DrawingTask, Task)


@dataclass(frozen=True)
class Lines(ABC, Generic[SmallTask]):
    """The lines so far at a task of a small kind. A value: ``submit`` and ``strike`` return a new one."""

    task: SmallTask
    lines: tuple[WorkLine, ...] = ()

    @abstractmethod
    def marked(self, text: str) -> Mark:
        """Return the mark of one more line, against those that stand."""

    @property
    @abstractmethod
    def progress(self) -> Progress:
        """Return how far the work is."""

    @property
    def standing(self) -> tuple[str, ...]:
        """Return the lines that stand and are not struck out."""
        return tuple(line.text for line in self.lines if not line.struck and line.mark.verdict.stands)

    def submit(self, text: str) -> Self:
        """Return the work with one more line."""
        return self._with(text, struck=False)

    def strike(self, index: int) -> Self:
        """Return the work with a line struck out; later lines are marked again."""
        if not 0 <= index < len(self.lines):
            return self
        again = replace(self, lines=self.lines[:index])
        for at, line in enumerate(self.lines[index:], start=index):
            again = again._with(line.text, struck=line.struck or at == index)
        return again

    def _with(self, text: str, *, struck: bool) -> Self:
        mark = refused(text) or self.marked(text)
        return replace(self, lines=(*self.lines, WorkLine(text, struck, mark)))


def refused(text: str) -> Mark | None:
    """Return the mark of a line that is not looked at: empty, too long, or with a hidden sign in it."""
    if len(text) > MAX_LENGTH:
        message = f"This line is longer than {MAX_LENGTH} signs. Write it shorter."
        return unread(message, (MAX_LENGTH, len(text)), Reason.TOO_LONG)
    shown = text.replace("\t", " ")
    if not shown.strip():
        return unread("Type a line first.", (0, len(text)))
    at = next((at for at, sign in enumerate(shown) if not sign.isprintable() and not sign.isspace()), None)
    if at is not None:
        return unread("There is a hidden sign here that I cannot read. Type this part again.", (at, at + 1))
    return None


def unread(message: str, span: tuple[int, int] | None = None, reason: Reason = Reason.SYNTAX) -> Mark:
    """Return the mark of a line that cannot be read."""
    return Mark(Verdict.UNREAD, reason, None, message, span)


def whole_span(text: str) -> tuple[int, int]:
    """Return where a line's own words stand, without the spaces around them."""
    start = len(text) - len(text.lstrip())
    return start, max(start, len(text.rstrip()))


def end_span(text: str) -> tuple[int, int]:
    """Return the end of a line: where to go on typing when it says nothing yet."""
    return whole_span(text)[1], whole_span(text)[1]


def small_progress(
    lines: Iterable[WorkLine],
    *,
    finished: bool,
    complete: bool | None = None,
    units: UnitsState | None = None,
    labels: tuple[tuple[str, str], ...] = (),
    missing: tuple[str, ...] = (),
) -> Progress:
    """Return how far work without the four steps is; ``complete``: as ``finished`` where it is not said."""
    wrong = next((at for at, line in enumerate(lines) if line.mark.verdict is Verdict.BREAKS), None)
    steps = tuple((step, StepState.NOT_ASKED) for step in Step)
    done = finished if complete is None else complete
    return Progress(steps, finished, done, units, wrong, labels, missing, answer_checked=False)
