"""One problem at work: the question and its figure on the left, the ruled page on the right."""

from collections.abc import Callable
from typing import ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container, Vertical, VerticalScroll
from textual.content import Content

from tutor.marking.verdict import Verdict
from tutor.page.clerk import Clerk
from tutor.page.desk_source import DeskLike, Draw
from tutor.page.figure_view import FigureView
from tutor.page.frame import Frame
from tutor.page.lettering import visible
from tutor.page.line_box import LineBox
from tutor.page.look import ink_of
from tutor.page.ruled_page import RuledLines, RuledPage
from tutor.page.steps_row import steps_row
from tutor.page.still import Still
from tutor.page.waiting import Waiting
from tutor.page.words import keys_now, next_thing
from tutor.page.work_view import above, heading, line_to_appeal, line_to_strike, top_row, written_lines
from tutor.record.desk import Outcome
from tutor.record.state import Action, Attempt, LessonState, ProblemState, Status

_DRAFT_EVERY = 2.0  # seconds between looks at whether the draft has changed
_BUG = "Something inside Evenline went wrong. What was marked is kept; your line is back in the box."

# Which of the record's actions a key needs; keys that are not here are always there.
_NEEDS = {
    "mark": frozenset({Action.SUBMIT, Action.FINISH, Action.NEXT, Action.START_CORRECTION}),
    "last_line": frozenset({Action.SUBMIT}),
    "strike": frozenset({Action.STRIKE}),
    "take_back": frozenset({Action.TAKE_BACK}),
    "appeal": frozenset({Action.APPEAL}),
    "next": frozenset({Action.NEXT}),
    "again": frozenset({Action.START_CORRECTION}),
}


class WorkScreen(Frame):
    """Shows a desk's state and hands every wish to the desk; decides nothing itself."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "mark", "mark", id="work.mark"),
        Binding("f1", "app.help", "help", id="work.help"),
        Binding("escape", "shelf", "out", id="work.shelf"),
        Binding("up", "last_line", "last", id="work.last"),
        Binding("down", "later_line", "later", id="work.later", show=False),
        Binding("f3", "strike", "strike", id="work.strike"),
        Binding("f4", "appeal", "I'm sure", id="work.appeal"),
        Binding("f5", "next", "next", id="work.next"),
        Binding("f6", "again", "again", id="work.again"),
        Binding("f7", "take_back", "undo", id="work.undo"),
    ]

    def __init__(self, desk: DeskLike, draw: Draw, clerk: Clerk, reader: Clerk, sentence: str = "") -> None:
        super().__init__()
        self._desk = desk
        self._draw = draw
        self._clerk = clerk
        self._reader = reader
        self._state: LessonState = desk.state
        self._sentence = sentence  # what opening the desk had to say
        self._place = (-1, -1)  # problem and attempt shown
        self._asked = 0  # number of the newest request to the desk
        self._shown = 0  # number of the newest reply that was shown
        self._pending: str | None = None  # the line that is being decided
        self._waiting: dict[tuple[int, int], Waiting] = {}
        self._keys_shown: frozenset[Action] = frozenset()  # what the footer shows as possible
        self._kept = ""  # the draft as it was last handed to the desk

    def compose_page(self) -> ComposeResult:
        """Yield top row, steps, the two sides, the first attempt and the prompt."""
        yield Still(id="top", fixed=True)
        yield Still(id="steps", fixed=True)
        with Container(id="body"):
            with Vertical(id="side"):
                with VerticalScroll(id="ask-scroll", can_focus=False):
                    yield Still(id="ask")
                yield FigureView(self._draw, self._reader, id="figure")
            yield RuledPage(self._reader, id="page")
            yield RuledLines(id="first")
        yield Still(id="say")

    async def on_mount(self) -> None:
        """Show where the student left off."""
        await self._show(self._state, self._sentence)
        self.set_interval(_DRAFT_EVERY, self.keep_draft)

    # -- what is shown ------------------------------------------------------------

    @property
    def _page(self) -> RuledPage:
        return self.query_one("#page", RuledPage)

    @property
    def _problem(self) -> ProblemState:
        return self._state.problems[self._state.current]

    @property
    def _queue(self) -> Waiting:
        return self._waiting.setdefault(self._place, Waiting())

    async def _show(self, state: LessonState, sentence: str = "") -> None:
        """Show a state of the desk; the box is only touched when another attempt comes up."""
        self._state = state
        problem = self._problem
        attempt = problem.current
        place = (state.current, attempt.number)
        self.set_class(attempt.number > 0, "-correcting")
        self._show_top()
        self.query_one("#ask", Still).show(Content(visible(problem.problem.ask)))
        progress = attempt.working.progress
        self.query_one("#steps", Still).show(steps_row(progress.steps))
        self.query_one(FigureView).show_figure(problem.problem, dict(progress.labels))
        if attempt.number > 0:
            first = problem.first
            await self.query_one("#first", RuledLines).show_lines(
                written_lines(first), ink_of(0), heading(first)
            )
        if place != self._place:
            self._place = place
            self._turn_to(problem)
        await self._show_page(attempt, usable=Action.SUBMIT in problem.actions)
        self._say(sentence)
        if problem.actions != self._keys_shown:
            self._keys_shown = problem.actions
            self.refresh_bindings()
        self.rest()

    async def _show_page(self, attempt: Attempt, *, usable: bool) -> None:
        written = written_lines(attempt, self._pending)
        await self._page.show_lines(written, ink_of(attempt.number), heading(attempt))
        self._page.show_box(len(written) + 1, above(attempt), usable=usable)
        self._page.show_waiting(self._queue.texts)

    def _turn_to(self, problem: ProblemState) -> None:
        self._kept = problem.draft
        self._page.box.put(problem.draft)

    def _say(self, sentence: str) -> None:
        told = f"{visible(sentence)} {keys_now(self._state)}" if sentence else next_thing(self._state)
        self.query_one("#say", Still).show(Content.assemble(("▸ ", "bold $primary"), told))

    def _show_top(self) -> None:
        self.query_one("#top", Still).show(top_row(self._state, self.size.width))

    def on_resize(self, event: events.Resize) -> None:
        """Lay the top row out again."""
        self._show_top()

    def rest(self) -> None:
        """Put the focus into the box, unless a line of work is chosen."""
        if Action.SUBMIT in self._problem.actions and self._page.chosen is None:
            self._page.box.focus()

    # -- asking the desk ----------------------------------------------------------

    def _ask(
        self, work: Callable[[], Outcome], *, text: str | None = None, after: Callable[[], None] | None = None
    ) -> None:
        """Ask the desk in the clerk's thread; ``text`` is the line being submitted, if it is one."""
        self._asked += 1
        self.run_worker(self._answer(self._asked, work, text, after))

    async def _answer(
        self, number: int, work: Callable[[], Outcome], text: str | None, after: Callable[[], None] | None
    ) -> None:
        if text is not None:
            await self._show_page(self._problem.current, usable=True)
        try:
            outcome = await self._clerk.ask(work)
        except Exception as bug:
            # A bug below must not take the student's page away: the line goes back into the box.
            self.log.error(f"the desk failed: {bug!r}")
            outcome = Outcome(self._state, None, _BUG)
        if text is not None:
            self._pending = None
        if number <= self._shown or not self.is_attached:
            return
        self._shown = number
        await self._show(outcome.state, outcome.sentence)
        if text is not None:
            self._after_line(text, outcome)
        if after is not None:
            after()

    def _after_line(self, text: str, outcome: Outcome) -> None:
        """Put back what was not taken as a line of work; else go on with what waits."""
        mark, queue, box = outcome.mark, self._queue, self._page.box
        if mark is None or mark.verdict is Verdict.UNREAD:
            if box.value.strip():
                queue.put_first(box.value)
            queue.hold()
            box.put(text)
            if mark is not None:
                self._page.show_unread((mark.span or (len(text), 0))[0], mark.message)
        else:
            self._next_waiting(queue, box)
        self._page.show_waiting(queue.texts)

    def _next_waiting(self, queue: Waiting, box: LineBox) -> None:
        if box.value.strip() or (following := queue.take()) is None:
            return
        text, entered = following
        if entered:
            self._submit(text)
        else:
            box.put(text)

    def _submit(self, text: str) -> None:
        self._pending = text
        self._ask(lambda: self._desk.submit(text), text=text)

    # -- keys ---------------------------------------------------------------------

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Grey a key out where the record does not allow what it does."""
        needed = _NEEDS.get(action)
        if needed is None:
            return True
        allowed = bool(needed & self._problem.actions) and not self.too_small
        if action == "again" and not allowed:
            return False  # rare, so not even in grey
        return True if allowed else None

    @on(LineBox.Entered)
    def _entered(self, event: LineBox.Entered) -> None:
        event.stop()
        self._mark(event.text)

    def action_mark(self) -> None:
        """Hand the line in the box in; with an empty box go on to what comes next."""
        text = self._page.box.value
        self._page.box.put("")
        self._mark(text)

    def _mark(self, text: str) -> None:
        if not text.strip() and self._queue.texts:
            self._next_waiting(self._queue, self._page.box)
            self._page.show_waiting(self._queue.texts)
        elif Action.SUBMIT not in self._problem.actions or not text.strip():
            self._go_on()
        elif self._pending is not None:
            self._queue.add(text, entered=True)
            self._page.show_waiting(self._queue.texts)
        else:
            self._submit(text)

    def _go_on(self) -> None:
        actions = self._problem.actions
        if Action.FINISH in actions and self._problem.current.complete:
            self._ask(self._desk.finish)
        elif Action.SUBMIT in actions:
            self._say("The box is empty. Type the next line first.")
        elif self._problem.status is Status.MISSED:
            self.action_again()
        elif Action.NEXT in actions:
            self.action_next()

    def action_next(self) -> None:
        """Turn to the next problem that is open."""
        target = self._state.next_open
        if target is not None:
            self.keep_draft()
            self._ask(lambda: self._desk.go_to(target))

    def action_again(self) -> None:
        """Begin the correction, or begin it once more."""
        problem = self._state.current
        self._ask(lambda: self._desk.start_correction(problem))

    def action_strike(self) -> None:
        """Strike the chosen line out, or the last one that stands unstruck."""
        index = line_to_strike(self._problem.current, self._page.chosen)
        if index is not None:
            self._ask(lambda: self._desk.strike(index))

    def action_take_back(self) -> None:
        """Take the last line back; its text returns to the box."""
        self._ask(self._desk.take_back, after=self._take_draft)

    def _take_draft(self) -> None:
        if not self._page.box.value.strip():
            self._page.box.put(self._problem.draft)
            self._kept = self._problem.draft

    def action_appeal(self) -> None:
        """Keep the line and flag it for the teacher."""
        index = line_to_appeal(self._problem.current, self._page.chosen)
        if index is not None:
            self._ask(lambda: self._desk.appeal(index))

    def action_last_line(self) -> None:
        """Bring the line above back into the box; from a chosen line, choose the one above."""
        self._page.go_up()

    def action_later_line(self) -> None:
        """The way back down."""
        self._page.go_down()

    def action_shelf(self) -> None:
        """Go back to the shelf; the draft goes with the record."""
        self.keep_draft()
        self.dismiss(None)

    # -- the box ------------------------------------------------------------------

    @on(LineBox.Pasted)
    def _pasted(self, event: LineBox.Pasted) -> None:
        for text in event.more:
            self._queue.add(text, entered=False)
        self._page.show_waiting(self._queue.texts)
        if event.cut:
            self._say("That was a lot to paste, so only the beginning was taken.")

    def keep_draft(self) -> None:
        """Hand the text in the box to the desk where it has changed."""
        text = self._page.box.value
        if text == self._kept or self._pending is not None or Action.SUBMIT not in self._problem.actions:
            return
        self._kept = text
        self._clerk.tell(lambda: self._desk.keep_draft(text))
