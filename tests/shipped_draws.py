"""The draws of the problems that ship, each worked out and marked in a process of its own."""

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from itertools import islice
from pathlib import Path

from tutor.lesson.model import Lesson, Problem
from tutor.lesson.picture import picture
from tutor.lesson.reader import load_lesson
from tutor.marking.task import AnyTask, ChoiceTask, Task
from tutor.marking.verdict import Verdict
from tutor.marking.work import Work, begin, solution
from tutor.resources import lessons_folder

DRAWS = 50
SENTENCE = "It is so because both are half of the whole."

_IN_WORDS = (["no solution"], ["all numbers"])
_RIGHT = (Verdict.FOLLOWS, Verdict.ROUNDS, Verdict.NOTE)
_MOST_WORDS = 20  # of a sentence, a number or a name with its unit counting as words of their own


def shipped_paths() -> list[Path]:
    """Return the lessons that ship, in teaching order."""
    return sorted(Path(str(lessons_folder())).glob("*.lesson"))


@lru_cache
def shipped(path: Path) -> Lesson:
    """Return one lesson that ships."""
    lesson, faults = load_lesson(path)
    assert lesson is not None, "\n".join(map(str, faults))
    return lesson


def draws_of(problem: Problem) -> list[Problem]:
    """Return a problem with up to ``DRAWS`` different numbers."""
    template = problem.template
    if template is None or template.variation is None:
        return [problem]
    return list(islice(template.sequence("shipped", problem.name), DRAWS))


def faults_of(path: Path, name: str) -> tuple[int, list[str]]:
    """Return how many draws of a problem were tried and what is wrong with them, the numbers beside it."""
    (problem,) = (one for one in shipped(path).problems if one.name == name)
    drawn = draws_of(problem)
    return len(drawn), [f"{dict(one.numbers)}: {fault}" for one in drawn for fault in _faults(one)]


def _faults(problem: Problem) -> Iterator[str]:
    yield from _wording(problem)
    if problem.figure is not None or isinstance(problem.task, ChoiceTask):
        scene, why = picture(problem, {})
        if scene is None and why:
            yield why
    task = problem.task
    every_step = replace(task, every_step=True) if isinstance(task, Task) else task
    lines = [line.text for line in solution(every_step)]
    if not lines:
        yield "It has no worked solution."
    if isinstance(task, Task) and task.sentence:
        lines.append(SENTENCE)
    yield from _marks(every_step, lines)


def _marks(task: AnyTask, lines: list[str]) -> Iterator[str]:
    work: Work = begin(task)
    for text in lines:
        work = work.submit(text)
        mark = work.lines[-1].mark
        if mark.verdict not in _RIGHT:
            yield f"{text} is marked “{mark.verdict.value}”: {mark.message}"
    if not work.progress.complete:
        yield f"After {lines} the work is not complete."
    exact = isinstance(task, Task) and task.find and task.places is None and lines[-1:] not in _IN_WORDS
    if exact and not work.progress.answer_checked:
        yield f"After {lines} the answer is not checked."


def _wording(problem: Problem) -> Iterator[str]:
    questions = [part.ask for part in problem.parts] or [problem.ask]
    for text in (problem.ask, *questions):
        if re.search(r"[{}]|  |\b0 |\b1 [a-z]+s\b|[+−-] [−-]", text):
            yield f"“{text}” does not read well."
        for sentence in re.split(r"(?<=[.?!:]) ", text):
            if len(sentence.split()) > _MOST_WORDS:
                yield f"“{sentence}” is long."
    for text in questions:
        if text.count("?") != 1 or not text.endswith("?"):
            yield f"“{text}” does not end with one question."
