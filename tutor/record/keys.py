"""What a problem is known by in a record, whatever becomes of the lesson around it."""

import dataclasses
import hashlib
import json
from enum import Enum
from typing import assert_never

from tutor.lesson.model import Problem
from tutor.marking.task import AnyTask, ChoiceTask, DrawingTask, Task, WordTask


def task_key(task: AnyTask) -> str:
    """Return ``task`` as text, the same for equal tasks on every machine and release.

    Fields that hold their default are left out, so a field that a later release adds does
    not make every old problem look changed.
    """
    return _text(_fields(task))


def problem_key(problem: Problem) -> str:
    """Return what tells a problem from others of its name, as text.

    That is its task, the file it comes from in a review, and, where its numbers are drawn, how
    they are: work must not move to a problem that only happens to have drawn the same ones.
    """
    known = _fields(problem.task)
    if problem.path:
        known["from"] = problem.path
    if problem.template is not None and problem.template.variation is not None:
        known["drawn"] = hashlib.sha256(problem.template.key.encode("utf-8", "replace")).hexdigest()
    return _text(known)


def _fields(task: AnyTask) -> dict[str, object]:
    fields = dataclasses.fields(task)
    changed = {f.name: getattr(task, f.name) for f in fields if getattr(task, f.name) != f.default}
    kind = _kind(task)
    return {**changed, "kind": kind} if kind else changed


def _kind(task: AnyTask) -> str:
    """Return the word for a kind of task; the oldest kind, of which records are full, has none."""
    match task:
        case Task():
            return ""
        case ChoiceTask():
            return "choice"
        case WordTask():
            return "word"
        case DrawingTask():
            return "drawing"
        case _:
            assert_never(task)


def _text(known: dict[str, object]) -> str:
    return json.dumps(known, ensure_ascii=False, sort_keys=True, default=_value)


def _value(member: object) -> object:
    if isinstance(member, Enum):
        return member.value
    raise TypeError(f"{type(member).__name__} has no place in a key")
