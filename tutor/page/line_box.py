"""The box in which the next line of work is typed."""

from dataclasses import dataclass
from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.widgets import Input

from tutor.visible import visible

# A paste may be a whole document by mistake; what is over is said, not read.
LONGEST_PASTE = 400
MOST_LINES = 40


class LineBox(Input, inherit_bindings=False):
    """A bare input of one row: no suggestions, no colouring, nothing read as markup."""

    # Those of the input alone, without Enter: others would come before ours in the row of keys.
    BINDINGS: ClassVar[list[BindingType]] = [
        binding for binding in Input.BINDINGS if isinstance(binding, Binding) and binding.key != "enter"
    ]

    DEFAULT_CSS = """
    LineBox, LineBox:focus {
        background: $background;
        background-tint: $background 0%;
        width: 1fr;
    }
    """

    @dataclass
    class Pasted(Message):
        """More than one line was pasted: the first is in the box, these are not yet.

        ``cut`` tells that some of it was too long or too much and left out.
        """

        more: tuple[str, ...]
        cut: bool

    @dataclass
    class Entered(Message):
        """Enter was pressed; the box is empty again."""

        text: str

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own word
        super().__init__(compact=True, select_on_focus=False, id=id)

    async def _on_key(self, event: events.Key) -> None:
        # Taken here, in the order the keys came: a binding of the screen would run before the
        # letters typed just ahead of Enter are in the box.
        if event.key == "enter":
            event.stop()
            event.prevent_default()
            text, self.value = self.value, ""
            self.post_message(self.Entered(text))
            return
        await super()._on_key(event)

    def _on_paste(self, event: events.Paste) -> None:
        event.stop()
        event.prevent_default()
        whole = [line.strip() for line in event.text[: LONGEST_PASTE * MOST_LINES].splitlines()]
        lines = [visible(line.replace("\t", " "))[:LONGEST_PASTE] for line in whole if line]
        if not lines:
            return
        first, *more = lines[:MOST_LINES]
        self.replace(first, *sorted(self.selection))
        cut = len(lines) > MOST_LINES or any(len(line) > LONGEST_PASTE for line in whole)
        if more or cut:
            self.post_message(self.Pasted(tuple(more), cut))

    def put(self, text: str) -> None:
        """Put a text into the box, the cursor at its end."""
        self.value = visible(text)
        self.cursor_position = len(text)

    def action_paste(self) -> None:
        """Paste what was copied inside the program, with the same care."""
        self._on_paste(events.Paste(self.app.clipboard))
