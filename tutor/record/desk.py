"""One student at one lesson: every change is on the disk before the new state is returned."""

from __future__ import annotations

import sqlite3
import threading
from collections.abc import Callable
from dataclasses import dataclass, replace

from tutor.lesson.model import Lesson
from tutor.marking.hint_stage import HintStage
from tutor.marking.verdict import Mark, Verdict
from tutor.marking.work import begin as begin_work
from tutor.record import ledger, sentences
from tutor.record.asked import Terms
from tutor.record.helping import Helper, engine_hint, hint_from
from tutor.record.ledger import Event, Kind, Opened
from tutor.record.replay import Begin, History, add_line, apply, replay
from tutor.record.state import (
    TRIES_BEFORE_THE_TEACHER,
    Action,
    Attempt,
    LessonState,
    ProblemState,
    Status,
    closes_as,
    decide_lesson,
    hint_costs,
    missed_as,
    tries,
)
from tutor.record.store import Store, storable

# A line of school work is far shorter; a pasted book must not fill the disk.
LONGEST_LINE = 2_000


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of one action: the new state, the mark of a line, what to tell the student or "".

    ``taken``: a line that was handed in is a line of work now. Where the marks come at the end
    ``mark`` is None for it; a line that cannot be read has its mark there too.
    """

    state: LessonState
    mark: Mark | None
    sentence: str
    taken: bool = False


def open_desk(
    store: Store, lesson: Lesson, begin: Begin = begin_work, helper: Helper = engine_hint
) -> tuple[Desk | None, str]:
    """Put the student back at the lesson, on the line they left.

    Returns the desk and "" or a sentence that the lesson has changed, or None and a sentence.
    ``begin`` starts the marking of one task; ``helper`` gives a hint, None where it has none.
    """
    if not lesson.problems:
        return None, sentences.NO_PROBLEMS
    opened, sentence = ledger.open_lesson(store, lesson)
    if opened is None:
        return None, sentence
    written, sentence = ledger.read_work(store, opened.problems)
    if written is None:
        return None, sentence
    terms = Terms(lesson.settings, opened.seed)
    histories = tuple(
        replay(problem, row, written.events, written.drafts.get(row, ledger.Draft()), begin, terms)
        for problem, row in zip(opened.lesson.problems, opened.problems, strict=True)
    )
    current = opened.problems.index(written.last_visited) if written.last_visited else 0
    desk = Desk(store, opened, histories, current, begin, helper)
    sentence = desk.catch_up(written.standings)
    return (None, sentence) if sentence else (desk, sentences.CHANGED if opened.changed else "")


class Desk:
    """The student's hands: what they do is written down, then shows in ``state``.

    Nothing raises for what a student does or a disk refuses: the outcome then holds the
    state as it was and a sentence. May be called from any thread, one call at a time.
    """

    def __init__(
        self,
        store: Store,
        opened: Opened,
        histories: tuple[History, ...],
        current: int,
        begin: Begin,
        helper: Helper,
    ) -> None:
        self._store = store
        self._lesson = opened.lesson
        self._opened = opened
        self._histories = histories
        self._begin = begin
        self._helper = helper
        self._warned: Attempt | None = None  # as it was when the student was told what a line costs
        self._lock = threading.RLock()
        self._state = decide_lesson(opened.lesson, tuple(h.state for h in histories), current)

    @property
    def state(self) -> LessonState:
        """Return how the lesson stands."""
        return self._state

    def submit(self, text: str) -> Outcome:
        """Hand in one line: it is on the disk, then marked, then its verdict is on the disk.

        A line that cannot be read is no line of work: it stays in the box.
        """
        with self._lock:
            text = storable(text)
            refusal = self._refuse_line(text)
            if refusal:
                return self._told(refusal)
            here = self._state.current
            history = self._histories[here]
            event = Event(Kind.LINE, history.row, history.attempt.number, text=text)
            line, sentence = self._store.write(
                lambda link: ledger.add_event(link, self._opened.edition, event)
            )
            if line is None:
                return self._told(sentence)
            working = history.attempt.working.submit(text)
            mark = working.lines[-1].mark
            taken = mark.verdict is not Verdict.UNREAD
            grown = add_line(history, line, working) if taken else history
            after = replace(grown, draft="" if taken else text)
            sentence = self._keep(here, after, also=lambda link: ledger.add_verdict(link, line, mark))
            if sentence:
                # Without its verdict on the disk it is no line of work; at the next opening it is in the box.
                self._show(here, replace(history, draft=text), here)
                return self._told(sentence)
            if taken and self._here.current.hidden:
                return Outcome(self._state, None, "", taken)
            return Outcome(self._state, mark, self._after_line(mark), taken)

    def strike(self, index: int) -> Outcome:
        """Strike out line ``index`` of the current attempt; it stays visible."""
        with self._lock:
            lines = self._here.current.working.lines
            if not 0 <= index < len(lines):
                return self._told(sentences.NO_SUCH_LINE)
            if lines[index].struck:
                return self._told(sentences.ALREADY_STRUCK)
            return self._do(Action.STRIKE, self._about_line(Kind.STRIKE, index))

    def take_back(self) -> Outcome:
        """Take the last line back into the box, as if it had not been handed in."""
        with self._lock:
            lines = self._here.current.working.lines
            if Action.TAKE_BACK not in self._here.actions:
                return self._told(sentences.not_now(Action.TAKE_BACK))
            event = self._about_line(Kind.TAKE_BACK, len(lines) - 1)
            return self._do(Action.TAKE_BACK, event, draft=lines[-1].text)

    def appeal(self, index: int) -> Outcome:
        """Keep line ``index``, broken or undecided, for the teacher to look at."""
        with self._lock:
            if index not in self._here.current.questionable:
                return self._told(sentences.not_now(Action.APPEAL))
            return self._do(Action.APPEAL, self._about_line(Kind.APPEAL, index))

    def hint(self) -> Outcome:
        """Give the next hint: where to look, what to do, then the line itself.

        Before a line that makes the problem missed the student is told so; asking again right
        after that shows it.
        """
        with self._lock:
            if Action.HINT not in self._here.actions:
                hints = self._lesson.settings.hints
                return self._told(sentences.not_now(Action.HINT) if hints else sentences.WITHOUT_HINTS)
            attempt = self._here.current
            found = hint_from(self._helper, self._here.attempts)
            if found is None:
                return self._told(sentences.NO_HINT)
            if hint_costs(self._here.attempts, found.stage) and self._warned is not attempt:
                self._warned = attempt
                return self._told(
                    sentences.before_the_line(attempt.problem.task, correcting=attempt.number > 0)
                )
            history = self._histories[self._state.current]
            last = history.sheets[-1].ids[-1] if history.sheets[-1].ids else 0
            event = Event(Kind.HINT, history.row, attempt.number, line=last, hint=found)
            outcome = self._do(Action.HINT, event)
            if outcome.sentence or found.stage is not HintStage.LINE:
                return outcome
            return self._told(self._if_out_of_tries() or sentences.line_shown(attempt.problem.task))

    def finish(self) -> Outcome:
        """Close the current attempt."""
        with self._lock:
            status = closes_as(self._here.attempts)
            if Action.FINISH not in self._here.actions or status is None:
                return self._told(sentences.not_now(Action.FINISH))
            outcome = self._do(Action.FINISH, self._closing(self._state.current, status))
            if outcome.sentence:
                return outcome
            return self._told(sentences.closed(self._here, self._state))

    def go_to(self, problem: int) -> Outcome:
        """Go to another problem; one that is complete is closed on leaving."""
        with self._lock:
            if not 0 <= problem < len(self._histories):
                return self._told(sentences.NO_SUCH_PROBLEM)
            here = self._state.current
            if problem == here:
                return self._told("")
            events = []
            status = closes_as(self._here.attempts)
            if status is not None and status is not Status.PROVISIONAL and self._can_close_unasked():
                events.append(self._closing(here, status))
            visit = Event(Kind.GO, self._histories[problem].row, self._histories[problem].attempt.number)
            after = self._with(here, *events)
            sentence = self._keep(here, after, events=(*events, visit), current=problem)
            return self._told(sentence)

    def start_correction(self, problem: int) -> Outcome:
        """Begin problem ``problem`` again with every step; what was done before is kept."""
        with self._lock:
            if not 0 <= problem < len(self._histories):
                return self._told(sentences.NO_SUCH_PROBLEM)
            state = self._state.problems[problem]
            if Action.START_CORRECTION not in state.actions:
                return self._told(sentences.not_now(Action.START_CORRECTION))
            history = self._histories[problem]
            events = []
            if not history.attempt.closed:
                missed = missed_as(history.attempt) or Status.MISSED
                left_as = missed if history.attempt.number == 0 else Status.CORRECTING
                events.append(self._closing(problem, left_as))
            numbers = self._lesson.settings.corrections.value
            events.append(Event(Kind.CORRECT, history.row, len(history.sheets), text=numbers))
            if problem != self._state.current:
                events.append(Event(Kind.GO, history.row, len(history.sheets)))
            after = replace(self._with(problem, *events), draft="")
            sentence = self._keep(problem, after, events=tuple(events), current=problem)
            return self._told(sentence or self._if_out_of_tries())

    def keep_draft(self, text: str) -> None:
        """Keep what is in the box. Where the disk refuses, the next line handed in says so."""
        with self._lock:
            here = self._state.current
            text = storable(text)[:LONGEST_LINE]
            if text != self._here.draft:
                self._keep(here, replace(self._histories[here], draft=text))

    def catch_up(self, standings: dict[int, str]) -> str:
        """Write down where a problem stands otherwise than was recorded: the marker may be newer."""
        stale = [
            (history.row, state.status)
            for history, state in zip(self._histories, self._state.problems, strict=True)
            if standings.get(history.row, Status.UNTOUCHED.value) != state.status.value
        ]

        def write(link: sqlite3.Connection) -> None:
            for row, status in stale:
                ledger.add_standing(link, row, status)

        return self._store.write(write)[1] if stale else ""

    @property
    def _here(self) -> ProblemState:
        return self._state.problems[self._state.current]

    def _told(self, sentence: str) -> Outcome:
        return Outcome(self._state, None, sentence)

    def _refuse_line(self, text: str) -> str:
        if Action.SUBMIT not in self._here.actions:
            return sentences.not_now(Action.SUBMIT)
        if not text.strip():
            return sentences.EMPTY_LINE
        return sentences.TOO_LONG if len(text) > LONGEST_LINE else ""

    def _after_line(self, mark: Mark) -> str:
        return self._if_out_of_tries() if mark.verdict is Verdict.BREAKS else ""

    def _if_out_of_tries(self) -> str:
        return sentences.ASK_YOUR_TEACHER if tries(self._here.attempts) == TRIES_BEFORE_THE_TEACHER else ""

    def _can_close_unasked(self) -> bool:
        attempt = self._here.current
        return attempt.complete and not attempt.closed and not attempt.hidden

    def _about_line(self, kind: Kind, index: int) -> Event:
        history = self._histories[self._state.current]
        return Event(kind, history.row, history.attempt.number, line=history.sheets[-1].ids[index])

    def _closing(self, problem: int, status: Status) -> Event:
        history = self._histories[problem]
        return Event(Kind.CLOSE, history.row, history.attempt.number, text=status.value)

    def _with(self, problem: int, *events: Event) -> History:
        history = self._histories[problem]
        for event in events:
            history = apply(history, event, self._begin)
        return history

    def _do(self, action: Action, event: Event, draft: str | None = None) -> Outcome:
        """Do one thing at the current problem, if it may be done now."""
        if action not in self._here.actions:
            return self._told(sentences.not_now(action))
        here = self._state.current
        after = self._with(here, event)
        if draft is not None:
            after = replace(after, draft=draft)
        return self._told(self._keep(here, after, events=(event,)))

    def _keep(
        self,
        problem: int,
        after: History,
        *,
        events: tuple[Event, ...] = (),
        also: Callable[[sqlite3.Connection], None] | None = None,
        current: int | None = None,
    ) -> str:
        """Write ``events`` and what they change, whole or not at all; only then change the state."""
        before = self._histories[problem]
        before_status = self._state.problems[problem].status
        status = after.state.status

        def write(link: sqlite3.Connection) -> None:
            for event in events:
                ledger.add_event(link, self._opened.edition, event)
            if also is not None:
                also(link)
            if after.draft != before.draft:
                ledger.put_draft(link, after.row, after.draft)
            if status is not before_status:
                ledger.add_standing(link, after.row, status)

        _, sentence = self._store.write(write)
        if sentence:
            return sentence
        self._show(problem, after, self._state.current if current is None else current)
        return ""

    def _show(self, problem: int, after: History, current: int) -> None:
        self._histories = (*self._histories[:problem], after, *self._histories[problem + 1 :])
        problems = list(self._state.problems)
        problems[problem] = after.state
        self._state = decide_lesson(self._lesson, tuple(problems), current)
