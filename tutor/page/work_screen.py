"""One problem at work: the question and its figure on the left, the ruled page on the right."""

from collections.abc import Callable
from functools import partial
from typing import ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Container, Vertical
from textual.content import Content

from tutor.page import work_keys
from tutor.page.asking import asked
from tutor.page.clerk import Clerk
from tutor.page.desk_source import DeskLike, Draw, has_picture
from tutor.page.figure_view import FigureView
from tutor.page.frame import Frame
from tutor.page.line_box import LineBox
from tutor.page.look import ink_of
from tutor.page.question import QuestionBox
from tutor.page.ruled_page import RuledLines, RuledPage
from tutor.page.steps_row import how_far
from tutor.page.still import Still
from tutor.page.turns import Turns
from tutor.page.words import keys_now, next_thing
from tutor.page.work_view import (
    above,
    heading,
    heading_of,
    line_to_appeal,
    line_to_strike,
    top_row,
    written_lines,
)
from tutor.record.desk import Outcome
from tutor.record.state import Action, LessonState, ProblemState
from tutor.visible import visible

_DRAFT_EVERY = 1.0  # seconds between looks at whether the draft has changed
_BUG = "Something inside Evenline went wrong. What was marked is kept; your line is back in the box."


class WorkScreen(Frame):
    """Shows a desk's state and hands every wish to the desk; decides nothing itself."""

    CSS_PATH = "work.tcss"
    BINDINGS: ClassVar[list[BindingType]] = work_keys.BINDINGS

    def __init__(self, desk: DeskLike, draw: Draw, clerk: Clerk, reader: Clerk, sentence: str = "") -> None:
        super().__init__()
        self._desk = desk
        self._draw = draw
        self._clerk = clerk
        self._reader = reader
        self._state: LessonState = desk.state
        self._sentence = sentence  # what opening the desk had to say
        self._place = (-1, -1)  # problem and attempt shown
        self._pending: str | None = None  # the line that is being decided
        # While a wish is being done every key may be pressed; then the row of keys is true again.
        self._turns = Turns(self.run_worker, self.refresh_bindings)
        self._pasted: dict[tuple[int, int], list[str]] = {}  # lines of each place not handed in yet
        self._keys_shown: frozenset[Action] = frozenset()  # what the footer shows as possible
        self._kept = ""  # the draft as it was last handed to the desk

    def compose_page(self) -> ComposeResult:
        """Yield top row, steps, the two sides, the first attempt and the prompt."""
        yield Still(id="top", fixed=True)
        yield Still(id="steps", fixed=True)
        with Container(id="body"):
            with Vertical(id="side"):
                yield QuestionBox(id="ask-box")
                yield FigureView(self._draw, self._reader, id="figure")
            yield RuledPage(self._reader, id="page")
            yield RuledLines(id="first")
        yield Still(id="say")

    async def on_mount(self) -> None:
        """Show where the student left off."""
        await self._show(self._state, self._sentence)
        self.set_interval(_DRAFT_EVERY, self._keep_draft)

    # -- what is shown ------------------------------------------------------------

    @property
    def _page(self) -> RuledPage:
        return self.query_one("#page", RuledPage)

    @property
    def _problem(self) -> ProblemState:
        return self._state.problems[self._state.current]

    @property
    def _not_yet(self) -> list[str]:
        return self._pasted.setdefault(self._place, [])

    def _show_waiting(self) -> None:
        self._page.show_waiting((*self._turns.texts, *self._not_yet))

    async def _show(self, state: LessonState, sentence: str = "") -> None:
        """Show a state of the desk; the box is only touched when another attempt comes up."""
        self._state = state
        problem = self._problem
        attempt = problem.current
        place = (state.current, attempt.number)
        self.set_class(attempt.number > 0, "-correcting")
        self._show_top()
        self.query_one(QuestionBox).ask(asked(attempt))
        self.query_one("#steps", Still).show(how_far(attempt))
        labels = {} if attempt.hidden else dict(attempt.working.progress.labels)
        self.query_one(FigureView).show_figure(attempt.problem, labels)
        self.query_one("#side").set_class(not has_picture(attempt.problem), "-bare")
        if attempt.number > 0:
            first = problem.first
            await self.query_one("#first", RuledLines).show_lines(
                written_lines(first), ink_of(0), heading(first)
            )
        if place != self._place:
            self._place = place
            self._turn_to(problem)
        await self._show_page(problem, usable=Action.SUBMIT in problem.actions)
        self._say(sentence)
        if problem.actions != self._keys_shown:
            self._keys_shown = problem.actions
            self.refresh_bindings()
        self.rest()

    async def _show_page(self, problem: ProblemState, *, usable: bool) -> None:
        attempt = problem.current
        written = written_lines(attempt, self._pending)
        await self._page.show_lines(written, ink_of(attempt.number), heading_of(problem))
        self._page.show_box(len(written) + 1, above(attempt), usable=usable)
        self._page.show_hint(attempt.hint)
        self._show_waiting()

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

    # -- asking the desk: only ever in turn ---------------------------------------

    async def _ask(self, work: Callable[[], Outcome]) -> Outcome:
        """Ask the desk in the clerk's thread and show the state that comes of it."""
        try:
            outcome = await self._clerk.ask(work)
        except Exception as bug:
            # A bug below must not take the student's page away: the line goes back into the box.
            self.log.error(f"the desk failed: {bug!r}")
            outcome = Outcome(self._state, None, _BUG)
        self._pending = None
        await self._show(outcome.state, outcome.sentence)
        return outcome

    async def _hand_in(self, text: str) -> None:
        if not text.strip():
            await self._go_on()
            return
        self._pending = text
        await self._show_page(self._problem, usable=True)
        outcome = await self._ask(lambda: self._desk.submit(text))
        if outcome.taken:
            self._take_pasted()
        else:
            self._put_back(text)
            if (mark := outcome.mark) is not None:
                self._page.show_unread((mark.span or (len(text), 0))[0], mark.message)
        self._show_waiting()

    def _put_back(self, text: str) -> None:
        """Put a line back into the box that is no line of work; what was written after it waits."""
        box = self._page.box
        self._not_yet[:0] = [*self._turns.give_up(), *([box.value] if box.value.strip() else [])]
        box.put(text)

    def _take_pasted(self) -> None:
        if self._not_yet and not self._page.box.value.strip() and not self._turns.texts:
            self._page.box.put(self._not_yet.pop(0))

    async def _go_on(self) -> None:
        """Do what an empty box and Enter mean now."""
        problem = self._problem
        if Action.FINISH in problem.actions and problem.current.complete and not problem.current.hidden:
            await self._ask(self._desk.finish)
        elif problem.only_again and not self._not_yet:
            await self._again()
        elif Action.SUBMIT in problem.actions:
            if not self._not_yet:
                hand_in = " F9 hands this problem in." if problem.current.can_be_handed_in else ""
                self._say(f"The box is empty. Type the next line first.{hand_in}")
            self._take_pasted()
            self._show_waiting()
        elif problem.status.waits and not problem.rests:
            await self._again()
        elif Action.NEXT in problem.actions:
            await self._next()

    async def _next(self) -> None:
        target = self._state.next_open
        if target is not None:
            self._keep_draft()
            await self._ask(lambda: self._desk.go_to(target))

    async def _again(self) -> None:
        problem = self._state.current
        await self._ask(lambda: self._desk.start_correction(problem))

    async def _close(self) -> None:
        if self._page.box.value.strip() or self._not_yet:
            self._say("A line is still in the box. Press Enter to add it, or clear the box, then hand in.")
            return
        await self._ask(self._desk.finish)

    async def _hint(self) -> None:
        await self._ask(self._desk.hint)

    async def _strike(self, chosen: int | None) -> None:
        index = line_to_strike(self._problem.current, chosen)
        if index is not None:
            await self._ask(lambda: self._desk.strike(index))

    async def _appeal(self, chosen: int | None) -> None:
        index = line_to_appeal(self._problem.current, chosen)
        if index is not None:
            await self._ask(lambda: self._desk.appeal(index))

    async def _take_back(self) -> None:
        await self._ask(self._desk.take_back)
        if not self._page.box.value.strip():
            self._page.box.put(self._problem.draft)
            self._kept = self._problem.draft

    # -- keys ---------------------------------------------------------------------

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Grey a key out where the record does not allow what it does."""
        if self.too_small:
            return None
        return work_keys.in_the_row(action, self._state, busy=self._turns.busy)

    @on(LineBox.Entered)
    def _entered(self, event: LineBox.Entered) -> None:
        event.stop()
        self._enter(event.text)

    def action_mark(self) -> None:
        """Hand the line in the box in; with an empty box go on to what comes next."""
        text = self._page.box.value
        self._page.box.put("")
        self._enter(text)

    def _enter(self, text: str) -> None:
        self._turns.add(lambda: self._hand_in(text), text)
        self._show_waiting()

    def action_next(self) -> None:
        """Turn to the next problem that is open."""
        self._turns.add(self._next)

    def action_again(self) -> None:
        """Begin the correction, or begin it once more."""
        self._turns.add(self._again)

    def action_hand_in(self) -> None:
        """Hand in a problem whose marks come at the end."""
        self._turns.add(self._close)

    def action_hint(self) -> None:
        """Ask for the next hint."""
        self._turns.add(self._hint)

    def action_strike(self) -> None:
        """Strike the chosen line out, or the last one that is not struck."""
        chosen = self._page.chosen
        self._turns.add(lambda: self._strike(chosen))

    def action_take_back(self) -> None:
        """Take the last line back; its text returns to the box."""
        self._turns.add(self._take_back)

    def action_appeal(self) -> None:
        """Keep the line and flag it for the teacher."""
        chosen = self._page.chosen
        self._turns.add(lambda: self._appeal(chosen))

    def action_last_line(self) -> None:
        """Bring the line above back into the box; from a chosen line, choose the one above."""
        self._page.go_up()

    def action_later_line(self) -> None:
        """The way back down."""
        self._page.go_down()

    def action_read(self, pages: int) -> None:
        """Read on in a question that is longer than its place, else turn the page of lines."""
        question = self.query_one(QuestionBox)
        if question.is_longer:
            question.turn(pages)
        else:
            self._page.scroll_relative(y=pages * max(1, self._page.size.height - 1), animate=False)

    def action_shelf(self) -> None:
        """Go back to the shelf; all that was written goes with the record."""
        self.leave()
        self.dismiss(None)

    # -- the box ------------------------------------------------------------------

    @on(LineBox.Pasted)
    def _several_pasted(self, event: LineBox.Pasted) -> None:
        self._not_yet.extend(event.more)
        self._show_waiting()
        if event.cut:
            self._say("That was a lot to paste, so only the beginning was taken.")

    def _keep_draft(self) -> None:
        """Hand the text in the box to the desk where it has changed."""
        text = self._page.box.value
        if text != self._kept and self._pending is None and Action.SUBMIT in self._problem.actions:
            self._kept = text
            self._clerk.tell(lambda: self._desk.keep_draft(text))

    def leave(self) -> None:
        """Hand over what waits and what is in the box, without waiting for any mark."""
        for text in self._turns.give_up():
            self._clerk.tell(partial(self._desk.submit, text))
        draft = self._page.box.value
        if Action.SUBMIT in self._problem.actions and draft.strip():
            self._clerk.tell(lambda: self._desk.keep_draft(draft))
