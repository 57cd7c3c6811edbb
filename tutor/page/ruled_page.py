"""The ruled page: lines of work one under the other, and the next line to be typed."""

import asyncio
from collections.abc import Sequence
from typing import ClassVar

from textual import events, on
from textual.app import ComposeResult, RenderResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input

from tutor.marking.hint_stage import Hint
from tutor.page.clerk import Clerk
from tutor.page.hint_rows import hint_rows
from tutor.page.line_box import LineBox
from tutor.page.line_row import LineRow
from tutor.page.look import FIRST_INK, Ink
from tutor.page.reads_as import Above, ReadsAs
from tutor.page.ruling import Written, blank_row, gutter
from tutor.page.still import Still


class BlankRows(Widget):
    """The empty rest of the page, ruled like the rows above."""

    def __init__(self) -> None:
        super().__init__()
        self.ink = FIRST_INK

    def render(self) -> RenderResult:
        """Return ruled rows down to the foot."""
        row = blank_row(self.size.width, self.ink)
        return Content("\n").join([row] * max(1, self.size.height))


class RuledLines(VerticalScroll, can_focus=False, inherit_bindings=False):
    """Lines of work to be looked at: the first attempt beside a correction."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("pageup", "page_up", "page up", show=False),
        Binding("pagedown", "page_down", "page down", show=False),
    ]

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own word
        super().__init__(id=id)
        self.ink: Ink = FIRST_INK
        self._one_at_a_time = asyncio.Lock()

    def compose(self) -> ComposeResult:
        """Yield the heading and the blank rest; lines come between them."""
        yield Still(classes="heading", fixed=True)
        yield BlankRows()

    async def show_lines(self, written: Sequence[Written], ink: Ink, heading: str) -> None:
        """Show these lines: rows that stay are changed in place, so the page does not jump."""
        async with self._one_at_a_time:
            await self._change_lines(written, ink, heading)

    async def _change_lines(self, written: Sequence[Written], ink: Ink, heading: str) -> None:
        self.ink = ink
        self.query_one(".heading", Still).show(
            Content.assemble(gutter(" ", "", ink, ""), (heading, f"bold {ink.style}"))
        )
        blank = self.query_one(BlankRows)
        blank.ink = ink
        blank.refresh()
        rows = list(self.query(LineRow))
        for row, line in zip(rows, written, strict=False):
            row.shown = line
        for row in rows[len(written) :]:
            await row.remove()
        if new := written[len(rows) :]:
            await self.mount_all([LineRow(line) for line in new], before=self._foot())

    def _foot(self) -> Widget:
        return self.query_one(BlankRows)


class RuledPage(RuledLines):
    """Lines of work with the box for the next one at their end."""

    def __init__(self, reader: Clerk, *, id: str | None = None) -> None:  # noqa: A002
        super().__init__(id=id)
        self._reader = reader
        self._above: Above | None = None
        self._unread = ""  # the text in the box whose caret is shown
        self._back = 0  # how many lines ↑ has gone back
        self._hint: Hint | None = None

    def compose(self) -> ComposeResult:
        """Yield heading, hint, box, reading and the blank rest; lines come above the hint."""
        yield Still(classes="heading", fixed=True)
        yield Still(id="hint")
        with Horizontal(id="typing"):
            yield Still(id="typing-margin", fixed=True)
            yield LineBox(id="box")
        yield ReadsAs(self._reader, id="reads-as")
        yield Still(id="waiting")
        yield BlankRows()

    def _foot(self) -> Widget:
        return self.query_one("#hint")

    @property
    def box(self) -> LineBox:
        """The box for the next line."""
        return self.query_one(LineBox)

    def show_box(self, number: int, above: Above, *, usable: bool) -> None:
        """Show the box as line ``number``, or put it away where nothing may be written."""
        self._above = above
        self._back = 0
        self.query_one("#typing-margin", Still).show(gutter("▸", str(number), self.ink, "bold $primary"))
        self.query_one("#typing").display = usable
        self.query_one(ReadsAs).display = usable
        if not self._unread or self.box.value != self._unread:
            self.query_one(ReadsAs).follow(self.box.value, above)
        self.to_box()

    def show_hint(self, hint: Hint | None) -> None:
        """Show a hint above the box, or none."""
        self._hint = hint
        note = self.query_one("#hint", Still)
        note.display = hint is not None
        if hint is not None:
            note.show(hint_rows(hint, self.ink, self.size.width))

    def show_waiting(self, waiting: Sequence[str]) -> None:
        """Show the lines that were pasted or entered and are not marked yet."""
        rows = [
            Content.assemble(gutter("…", "", self.ink, "$quiet"), (line, "$quiet"), ("  waits", "$quiet"))
            for line in waiting
        ]
        note = self.query_one("#waiting", Still)
        note.show(Content("\n").join(rows))
        note.display = bool(rows)

    def show_unread(self, start: int, message: str) -> None:
        """Put a caret under the place where the text in the box could not be read."""
        box = self.box
        self._unread = box.value
        box.cursor_position = start
        self.call_after_refresh(self._show_caret, message)

    def _show_caret(self, message: str) -> None:
        # The box may have scrolled sideways: only now it is known where the place is.
        box = self.box
        place = box.cursor_screen_offset.x - box.content_region.x
        self.query_one(ReadsAs).show_unread(max(0, place), message, self.ink)
        self.to_box()

    @property
    def chosen(self) -> int | None:
        """The index of the line that has the focus, None where the box has it."""
        rows = list(self.query(LineRow))
        return next((index for index, row in enumerate(rows) if row.has_focus), None)

    def go_up(self) -> None:
        """Bring an earlier line back into the box; from a chosen line, choose the one above."""
        self._go(-1)

    def go_down(self) -> None:
        """The way back: to a later line, and past the last one to the box."""
        self._go(1)

    def _go(self, step: int) -> None:
        rows = list(self.query(LineRow))
        if (chosen := self.chosen) is not None:
            target = max(0, chosen + step)
            (rows[target] if target < len(rows) else self.box).focus()
            return
        self._back = max(0, min(len(rows), self._back - step))
        line = rows[-self._back].shown if self._back else None
        self.box.put(line.text if line is not None else "")

    def on_key(self, event: events.Key) -> None:
        """Typing while a line is chosen goes into the box."""
        if event.is_printable and event.character and self.chosen is not None and self.box.display:
            event.stop()
            self.box.focus()
            self.box.insert_text_at_cursor(event.character)

    @on(Input.Changed)
    def _typed(self, event: Input.Changed) -> None:
        event.stop()
        if self._above is None or (self._unread and event.value == self._unread):
            return
        self._unread = ""
        self.query_one(ReadsAs).follow(event.value, self._above)

    def to_box(self) -> None:
        """Keep the box and its reading in view."""
        self.call_after_refresh(self.scroll_end, animate=False)

    def on_resize(self, _event: events.Resize) -> None:
        """Fold the hint anew and keep the box in view when the window changes."""
        self.show_hint(self._hint)
        self.to_box()
