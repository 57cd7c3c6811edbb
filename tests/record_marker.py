"""A small marker with the shape of the real one, for tests of the record.

It reads the first word of a line: ``bad`` breaks, ``hmm`` is undecided, ``huh`` is unread,
``note`` is a note, ``more?`` breaks unless ``no`` stands right under it, ``so`` carries
where an unstruck line above is bad; all else follows.
``answer`` gives the thing to find (``answer cm`` with its unit); ``formula``, ``label`` and
``sub`` are the other steps. ``hang`` says so on standard output and never comes back.
There is no hint below ``stuck``, and none but the line itself below ``dark``.
"""

import time
from dataclasses import dataclass, replace
from typing import cast

from tutor.lesson.model import Lesson, Problem
from tutor.marking.hint_stage import Hint, HintStage
from tutor.marking.task import Task
from tutor.marking.verdict import Mark, Step, UnitsState, Verdict
from tutor.record.desk import Desk, open_desk
from tutor.record.helping import Helper
from tutor.record.replay import Begin
from tutor.record.store import Store

_WORDS = {"bad": Verdict.BREAKS, "hmm": Verdict.UNDECIDED, "huh": Verdict.UNREAD, "note": Verdict.NOTE}
_STEPS = ("formula", "label", "sub", "answer cm")


@dataclass(frozen=True, slots=True)
class Line:
    text: str
    struck: bool
    mark: Mark
    step: Step | None = None


@dataclass(frozen=True, slots=True)
class Progress:
    finished: bool | None
    complete: bool
    units: UnitsState | None
    first_wrong: int | None


@dataclass(frozen=True, slots=True)
class Marker:
    task: Task
    lines: tuple[Line, ...] = ()

    @property
    def progress(self) -> Progress:
        standing = [x.text for x in self.lines if not x.struck and x.mark.verdict.stands]
        finished = any(text.startswith("answer") for text in standing) if self.task.find else None
        measured = bool(self.task.formulas)
        steps = all(any(t.startswith(step) for t in standing) for step in _STEPS)
        units = None
        if measured and finished:
            units = UnitsState.RIGHT if "answer cm" in standing else UnitsState.MISSING
        wrong = [i for i, x in enumerate(self.lines) if x.mark.verdict is Verdict.BREAKS]
        complete = bool(finished) and (steps or not (measured and self.task.every_step))
        return Progress(finished, complete, units, wrong[0] if wrong else None)

    def submit(self, text: str) -> "Marker":
        if text.startswith("hang"):
            print("hanging", flush=True)
            time.sleep(600)
        return replace(self, lines=_marked((*self.lines, Line(text, False, Mark(Verdict.FOLLOWS)))))

    def strike(self, index: int) -> "Marker":
        lines = list(self.lines)
        lines[index] = replace(lines[index], struck=True)
        return replace(self, lines=_marked(tuple(lines)))


def _marked(lines: tuple[Line, ...]) -> tuple[Line, ...]:
    marked: list[Line] = []
    for line in lines:
        word = line.text.split(" ")[0]
        verdict = _WORDS.get(word, Verdict.FOLLOWS)
        if word == "so" and any(not x.struck and x.mark.verdict is Verdict.BREAKS for x in marked):
            verdict = Verdict.CARRIES
        if word == "more?":
            below = lines[len(marked) + 1 :]
            verdict = Verdict.FOLLOWS if below and below[0].text == "no" else Verdict.BREAKS
        marked.append(replace(line, mark=Mark(verdict, message=f"{word} {len(marked)}")))
    return tuple(marked)


def _begin(task: Task) -> Marker:
    return Marker(task)


begin = cast(Begin, _begin)


def _help(working: Marker, stage: HintStage) -> Hint | None:
    last = next((line.text for line in reversed(working.lines) if not line.struck), "")
    shows = stage is HintStage.LINE
    if last == "stuck" or (last == "dark" and not shows):
        return None
    span = (0, len(last)) if stage is HintStage.WHERE else None
    return Hint(stage, f"{stage.value} after {last or 'nothing'}", "next" if shows else None, span)


helper = cast(Helper, _help)


def lesson_of(*problems: Problem, text: str = "one", path: str = "hoops.lesson") -> Lesson:
    return Lesson("Hoops", "7", (), problems, fingerprint=f"print of {text}", path=path, text=text)


EQUATION = Problem("Candles", "How many candles?", Task(formulas=(), find=("x",)), None, 1)
HOOP = Problem("Hoop", "How far?", Task(formulas=("C = 2 pi r",), find=("r",), units=("cm",)), None, 5)
BANNER = Problem("Banner", "How long?", Task(find=("y",)), None, 9)


def desk_at(store: Store, lesson: Lesson) -> Desk:
    desk, sentence = open_desk(store, lesson, begin, helper)
    assert desk is not None, sentence
    return desk
