"""Below the box: how the line is read as it is typed, or where the reading stopped."""

from collections.abc import Sequence
from dataclasses import dataclass

from textual.content import Content
from textual.timer import Timer

from tutor.marking.task import AnyTask
from tutor.marking.work import ReadAs, read_as
from tutor.page.clerk import Clerk
from tutor.page.lettering import fold
from tutor.page.look import FIRST_INK, Ink
from tutor.page.ruling import GUTTER, gutter
from tutor.page.still import Still
from tutor.visible import visible

_LABEL = "reads as  "
_PAUSE = 0.08  # seconds after the last key before the line is read


@dataclass(frozen=True, slots=True)
class Above:
    """What the line in the box is read against: the task, the lines that count, the ink."""

    task: AnyTask
    lines: tuple[str, ...]
    ink: Ink


def reading_rows(rows: Sequence[str], problem: str, ink: Ink, width: int) -> Content:
    """Return the two-dimensional reading, or quietly what is not readable yet."""
    margin = gutter(" ", "", ink, "")
    if not rows:
        words = fold(visible(problem), width - GUTTER - 1)
        return Content("\n").join(Content.assemble(margin, (row, "$quiet")) for row in words)
    labels = [_LABEL, *[" " * len(_LABEL)] * (len(rows) - 1)]
    return Content("\n").join(
        Content.assemble(margin, (label, "$quiet"), (visible(row), "$primary"))
        for label, row in zip(labels, rows, strict=True)
    )


def unread_rows(place: int, message: str, ink: Ink, width: int) -> Content:
    """Return a caret ``place`` cells into the box, and under it what was expected there."""
    margin = gutter(" ", "", ink, "")
    caret = Content.assemble(gutter("!", "", ink, "bold $warning"), (" " * place + "^", "bold $warning"))
    reason = fold(visible(message), width - GUTTER - 1)
    return Content("\n").join([caret, *(Content.assemble(margin, (row, "$warning")) for row in reason)])


class ReadsAs(Still):
    """The rows below the box. Reading happens away from the event loop, the newest wins."""

    def __init__(self, reader: Clerk, *, id: str | None = None) -> None:  # noqa: A002
        super().__init__(id=id)
        self._reader = reader
        self._number = 0
        self._pause: Timer | None = None

    def follow(self, text: str, above: Above) -> None:
        """Read ``text`` a moment after the last key, never between two keys."""
        self._drop()
        number = self._number
        if not text.strip():
            self.show(gutter(" ", "", above.ink, ""))
            return
        self._pause = self.set_timer(_PAUSE, lambda: self.run_worker(self._read(number, text, above)))

    async def _read(self, number: int, text: str, above: Above) -> None:
        def read() -> ReadAs | None:
            return read_as(above.task, above.lines, text) if number == self._number else None

        try:
            reading = await self._reader.ask(read)
        except Exception as bug:
            # The line can still be handed in; only its reading is missing.
            self.log.error(f"reading failed: {bug!r}")
            reading = None
        if reading is not None and number == self._number:
            self.show(reading_rows(reading.rows, reading.problem, above.ink, self._room()))

    def show_unread(self, place: int, message: str, ink: Ink = FIRST_INK) -> None:
        """Show where a submitted line could not be read, and why."""
        self._drop()
        self.show(unread_rows(place, message, ink, self._room()))

    def _drop(self) -> None:
        self._number += 1
        if self._pause is not None:
            self._pause.stop()

    def _room(self) -> int:
        return max(GUTTER + 20, self.size.width)
