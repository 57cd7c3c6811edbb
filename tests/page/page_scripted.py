"""A marker with fixed marks, so that tests of the page do not lean on what the real one says.

Everything else is real: the shelf, the record, the desk, the figure.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import cast

from tutor.figure.kinds import draw
from tutor.figure.terminal import to_terminal
from tutor.lesson.model import Lesson, Problem
from tutor.marking.hint_stage import Hint, HintStage
from tutor.marking.task import AnyTask, Task
from tutor.marking.verdict import Mark, Reason, Step, UnitsState, Verdict
from tutor.marking.work import Work
from tutor.marking.working import Progress, ReadAs, StepState, WorkLine
from tutor.page.desk_source import DeskLike, Rooms
from tutor.record.desk import open_desk

LESSON = """\
lesson   Lantern Parade: hoops and struts
format   1
grade    7
covers   7.G.B.4
pi       3.14

problem  Hoop
  ask      The hoop of a round lantern is bent from 47.1 cm of cane. How far is
           the hoop from the middle? Use 3.14 for π.
  figure   circle, radius r, circumference C
  formula  C = 2 pi r
  given    C = 47.1 cm
  find     r in cm

problem  Ring [/] [red]
  ask      A ring takes 94.2 cm of cane. How far is the ring from the middle?
  formula  C = 2 pi r
  given    C = 94.2 cm
  find     r in cm
"""

BROKEN = "47.1 = 5.14r"
RIGHT = ("C = 2 pi r", "C = 47.1 cm, r = ?", "47.1 = 6.28r", "r = 7.5 cm")

_MARKS: Mapping[str, Mark] = {
    BROKEN: Mark(
        Verdict.BREAKS,
        Reason.BOTH_SIDES,
        message="The left side stayed. The right side went from 6.28r to 5.14r.",
        span=(7, 12),
        account="left: nothing changed; right: 1.14r taken away",
    ),
    "47.1 = (6.28r": Mark(
        Verdict.UNREAD, Reason.SYNTAX, message="A bracket opens here and never closes.", span=(7, 8)
    ),
    "r = 9.16": Mark(Verdict.CARRIES, message="This is right if line 4 were."),
    "r = 7.50": Mark(Verdict.ROUNDS),
    "C = 2 r pi": Mark(Verdict.RESTATES),
    "C = 2 sqrt(pi^2 r^2)": Mark(Verdict.UNDECIDED, message="This could not be decided in time."),
    "I use the hoop rule": Mark(Verdict.NOTE),
    "r = 7.5": Mark(Verdict.FOLLOWS, note="A unit is still missing here."),
}
_FOLLOWS = Mark(Verdict.FOLLOWS, account="left: divided by 6.28; right: divided by 6.28")


@dataclass(frozen=True, slots=True)
class ScriptedWorking:
    """The shape of `Working`; a step stands for each of the first four standing lines."""

    task: Task
    lines: tuple[WorkLine, ...] = ()
    before_mark: Callable[[], None] = lambda: None

    def submit(self, text: str) -> "ScriptedWorking":
        self.before_mark()
        mark = _MARKS.get(text, _FOLLOWS)
        return replace(self, lines=(*self.lines, WorkLine(text, struck=False, mark=mark)))

    def strike(self, index: int) -> "ScriptedWorking":
        lines = list(self.lines)
        lines[index] = replace(lines[index], struck=True)
        return replace(self, lines=tuple(lines))

    @property
    def progress(self) -> Progress:
        standing = [line for line in self.lines if line.mark.verdict.stands and not line.struck]
        count = len(standing)
        done = any("7.5 cm" in line.text for line in standing)
        return Progress(
            steps=tuple((step, _state(nth, len(Step) if done else count)) for nth, step in enumerate(Step)),
            finished=done,
            complete=done,
            units=UnitsState.RIGHT if done else None,
            first_wrong=next((n for n, x in enumerate(self.lines) if x.mark.verdict is Verdict.BREAKS), None),
            labels=(("C", "47.1 cm"), ("r", "?")) if count > 1 else (),
            missing_labels=() if count > 1 else ("C", "r"),
            answer_checked=False,
        )


def _state(nth: int, standing: int) -> StepState:
    if nth < standing:
        return StepState.STANDS
    return StepState.NEXT if nth == standing else StepState.OPEN


def scripted_reading(_task: Task, _lines: Sequence[str], text: str) -> ReadAs:
    """Lay one fraction out; text with a question mark at its end cannot be read."""
    if text.endswith("/"):
        return ReadAs((), "Something to divide by comes next.")
    if "/" not in text:
        return ReadAs((text,), "")
    above, below = text.split("/", 1)
    width = max(len(above), len(below)) + 2
    return ReadAs((above.center(width), "─" * width, below.center(width)), "")


_HINTS = {
    HintStage.WHERE: Hint(HintStage.WHERE, "Look at the 6.28 beside the r on the right side.", None, (7, 11)),
    HintStage.WHAT: Hint(HintStage.WHAT, "Divide both sides by 6.28."),
    HintStage.LINE: Hint(HintStage.LINE, "Divide both sides by 6.28. The next line:", "7.5 = r"),
}


def scripted_hint(_working: Work, stage: HintStage) -> Hint | None:
    """Point into ``47.1 = 6.28r``, wherever the student is."""
    return _HINTS[stage]


class ScriptedRooms(Rooms):
    """The real rooms with the scripted marker. ``before_mark`` runs in the clerk's thread."""

    def __init__(self, folders: Sequence[Path], code: str, before_mark: Callable[[], None]) -> None:
        super().__init__(folders, code)
        self.before_mark = before_mark

    def open(self, lesson: Lesson) -> tuple[DeskLike | None, str]:
        def begin(task: AnyTask) -> Work:
            return cast(Work, ScriptedWorking(cast(Task, task), before_mark=lambda: self.before_mark()))

        assert self._store is not None
        return open_desk(self._store, lesson, begin, scripted_hint)

    def draw(
        self, problem: Problem, labels: Mapping[str, str], columns: int, rows: int
    ) -> tuple[tuple[str, ...], str]:
        assert problem.figure is not None
        shown = {
            part.role: f"{part.name} = {labels[part.name]}" if part.name in labels else part.name
            for part in problem.figure.parts
        }
        scene, sentence = draw(problem.figure.kind, {"radius": 7.5}, shown)
        return (to_terminal(scene, columns, rows), "") if scene is not None else ((), sentence)

    def warm_up(self) -> None:
        """Nothing to load: the marks are fixed."""
