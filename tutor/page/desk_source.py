"""Where the screens get their desks from: the shelf's lessons and the student's record.

Imported after the first paint. The protocols are
what the screens rely on, so that a test can put a slow or failing desk in the place of the real one.
"""

import importlib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from tutor.figure.candidates import is_drawable
from tutor.figure.terminal import to_terminal
from tutor.lesson.model import Lesson, Meaning, Problem
from tutor.lesson.shelf import ShelfEntry, shelf
from tutor.marking.task import ChoiceTask
from tutor.record.desk import Outcome, open_desk
from tutor.record.glance import Glance, glance
from tutor.record.place import record_path
from tutor.record.state import LessonState
from tutor.record.store import Store, open_store
from tutor.record.study import words_to_study

Draw = Callable[[Problem, Mapping[str, str], int, int], tuple[tuple[str, ...], str]]
"""Problem, labels, columns, rows -> rows of the picture, or none and a sentence."""


class DeskLike(Protocol):
    """One student at one lesson, as the screens use it; see ``tutor.record.desk.Desk``."""

    @property
    def state(self) -> LessonState:
        """How the lesson stands now."""

    def submit(self, text: str) -> Outcome:
        """Mark one more line."""

    def hint(self) -> Outcome:
        """Give the next hint, or say what it leads to."""

    def strike(self, index: int) -> Outcome:
        """Strike a line out."""

    def take_back(self) -> Outcome:
        """Take the last line back, once."""

    def go_to(self, problem: int) -> Outcome:
        """Turn to another problem."""

    def finish(self) -> Outcome:
        """Close the attempt."""

    def start_correction(self, problem: int) -> Outcome:
        """Begin a correction."""

    def appeal(self, index: int) -> Outcome:
        """Flag a line for the teacher."""

    def keep_draft(self, text: str) -> None:
        """Keep what is in the box."""


@dataclass(frozen=True, slots=True)
class OnShelf:
    """One lesson file of the shelf: how it stands, or the sentence why it cannot be opened."""

    entry: ShelfEntry
    glance: Glance | None
    sentence: str


class Source(Protocol):
    """All that the screens ask of the rooms below; every call may take long."""

    def shelf(self) -> tuple[OnShelf, ...]:
        """Return the lessons and how each stands now."""

    def open(self, lesson: Lesson) -> tuple[DeskLike | None, str]:
        """Return the desk of a lesson and "" or a remark; None and a sentence where it cannot be opened."""

    def draw(
        self, problem: Problem, labels: Mapping[str, str], columns: int, rows: int
    ) -> tuple[tuple[str, ...], str]:
        """Return the rows of a figure, or none and a sentence."""

    def words(self) -> tuple[tuple[Meaning, ...], str]:
        """Return the words to be studied in the lessons of the shelf; () and a sentence if it cannot."""

    def warm_up(self) -> None:
        """Load what deciding a line needs, so that the first line does not wait for it."""

    def close(self) -> None:
        """Let go of the record."""


def has_picture(problem: Problem) -> bool:
    """Tell whether something is drawn beside the question: its figure, or the shapes to choose among."""
    task = problem.task
    return problem.figure is not None or (isinstance(task, ChoiceTask) and is_drawable(task.options))


# The shapes to choose among stand below a figure that is low, or that is left so many rows. Elsewhere
# the cut itself is what has to be seen, and the shapes are named in words.
_ENOUGH_ROWS = 12
_ROWS_OF_SHAPES = 4


class Rooms:
    """The real source: lesson files from folders, one record file for one code.

    ``shelf``, ``open``, ``warm_up`` and ``close`` are for one thread, ``draw`` may be called from another.
    """

    def __init__(self, folders: Sequence[Path], code: str) -> None:
        self._folders = tuple(folders)
        self._code = code
        self._store: Store | None = None
        self._entries: tuple[ShelfEntry, ...] = ()

    def shelf(self) -> tuple[OnShelf, ...]:
        """Read the folders and the record. Faults come as sentences in the rows."""
        sentence = ""
        if self._store is None:
            self._store, sentence = open_store(record_path(self._code))
        self._entries = shelf(self._folders)
        return tuple(self._on_shelf(entry, sentence) for entry in self._entries)

    def _on_shelf(self, entry: ShelfEntry, sentence: str) -> OnShelf:
        if entry.lesson is None:
            return OnShelf(entry, None, fault_sentence(entry))
        if self._store is None:
            return OnShelf(entry, None, sentence)
        return OnShelf(entry, *glance(self._store, entry.lesson))

    def open(self, lesson: Lesson) -> tuple[DeskLike | None, str]:
        """Open the desk; all lines of the lesson are marked again on the way."""
        from tutor.marking.work import begin  # heavy, so not before the shelf is shown

        if self._store is None:
            return None, "Your work file is not open. Start Evenline again."
        return open_desk(self._store, lesson, begin)

    def draw(
        self, problem: Problem, labels: Mapping[str, str], columns: int, rows: int
    ) -> tuple[tuple[str, ...], str]:
        """Work the figure's sizes out and draw it."""
        from tutor.lesson.picture import choices, picture  # heavy: it works the problem out

        shapes = choices(problem)
        if problem.figure is None:
            return (() if shapes is None else to_terminal(shapes, columns, rows)), ""
        scene, sentence = picture(problem, labels)
        if scene is None:
            return (), sentence
        figure = to_terminal(scene, columns, rows)
        if shapes is None:
            return figure, ""
        room = rows - _ROWS_OF_SHAPES - 1
        if len(figure) > room >= _ENOUGH_ROWS:
            figure = to_terminal(scene, columns, room)
        if len(figure) > room:
            return figure, ""
        return (*figure, "", *to_terminal(shapes, columns, _ROWS_OF_SHAPES)), ""

    def words(self) -> tuple[tuple[Meaning, ...], str]:
        """Read the words that were missed off the record."""
        if self._store is None:
            return (), ""
        return words_to_study(self._store, [one.lesson for one in self._entries if one.lesson is not None])

    def warm_up(self) -> None:
        """Load the marking room, and then what works a line out for a hint."""
        importlib.import_module("tutor.marking.working")
        importlib.import_module("tutor.marking.hints")

    def close(self) -> None:
        """Close the record."""
        if self._store is not None:
            self._store.close()
            self._store = None


def fault_sentence(entry: ShelfEntry) -> str:
    """Return what a student is told about a lesson file that cannot be read."""
    count = len(entry.faults)
    if not count:
        return "This lesson file cannot be read. Please tell your teacher."
    first = entry.faults[0]
    rest = f" (and {count - 1} more)" if count > 1 else ""
    return f"This lesson has a mistake in line {first.line}: {first.message}{rest} Please tell your teacher."
