"""The head of a text file of work: what is known and asked, in the words of a lesson."""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from tutor.lesson.naming import is_measure, unit_of_value, unit_problem
from tutor.lesson.precision import asked_of
from tutor.marking.deciding.context import prepare
from tutor.marking.solve import CONTRADICTION, solve
from tutor.marking.task import AnyTask, ChoiceTask, DrawingTask, Precision, Rounding, Task, WordTask
from tutor.marking.verdict import Step
from tutor.marking.work import problems_of
from tutor.quantity.pi import Pi
from tutor.visible import visible

REMARK = "#"
MOST_PLACES = 6


@dataclass(frozen=True, slots=True)
class Head:
    """What the head lines say so far; ``task`` has what is worked line by line.

    ``word``, ``also``, ``near``, ``options``, ``right`` and ``draw`` are of the other kinds.
    ``write``: the name whose formula is asked for. ``last``: the names of the last ``find``;
    ``rounded``: how the answers are rounded, with the name "" for all that nothing else is said of.
    """

    task: Task
    write: str = ""
    last: tuple[str, ...] = ()
    rounded: tuple[Precision, ...] = ()
    options: tuple[str, ...] = ()
    right: tuple[str, ...] = ()
    word: str = ""
    also: tuple[str, ...] = ()
    near: tuple[str, ...] = ()
    draw: bool = False


def read_head(rows: Sequence[str]) -> tuple[AnyTask, int, str]:
    """Read the head lines: all rows above the first that does not begin with a head word.

    A row that begins with # is a remark there, as in a lesson. Returns the task, how many rows are
    of the head, and "" or what is wrong.
    """
    head = Head(Task())
    used = 0
    for number, row in enumerate(rows, start=1):
        word, _, rest = row.strip().partition(" ")
        remark = word.startswith(REMARK)
        if row.strip() and word not in _WORDS and not remark:
            break
        used = number
        if remark or not row.strip():
            continue
        add, example = _WORDS[word]
        changed = add(head, rest.strip())
        if changed is None:
            return head.task, used, f"line {number}: I cannot read “{visible(row.strip())}”. {example}"
        head = changed
    task, problem = _task_of(head)
    return task, used, problem


def _task_of(head: Head) -> tuple[AnyTask, str]:
    task = head.task
    wanted = [
        bool(task.lengths),
        bool(task.goals or head.write),
        bool(head.options),
        bool(head.word),
        head.draw,
    ]
    if sum(wanted) > 1:
        return task, "one thing is asked for at a time: triangle, write, show, choose, word or draw."
    if head.options:
        return _checked(ChoiceTask(head.options, head.right))
    if head.word:
        return _checked(WordTask(head.word, head.also, head.near))
    if head.draw:
        sides = [unit for _, value in task.givens if is_measure(unit := unit_of_value(value))]
        return _checked(DrawingTask(task.givens, task.find, (*task.units, *sides, "cm")[0]))
    if task.lengths:
        return _checked(task)
    if head.write:
        goals = tuple(one for one in task.formulas if one.partition("=")[0].strip() == head.write)
        if not goals:
            return (
                task,
                f"write {visible(head.write)}: no formula here begins with “{visible(head.write)} =”.",
            )
        task = replace(task, goals=goals)
    if len(set(task.units)) == 1:
        task = replace(task, units=task.units[:1] * len(task.find))
    if len(task.units) > len(task.find):
        things = "1 thing is" if len(task.find) == 1 else f"{len(task.find)} things are"
        return task, f"{len(task.units)} units stand here, and {things} to find."
    told = {one.name: one for one in head.rounded}
    asked = asked_of(task.find, told, told.pop("", None))
    task = replace(task, places=asked.places, rounding=asked.rounding, rounded=asked.rounded)
    problems = prepare(task)[1]
    if problems:
        first = problems[0]
        is_percent = first.field == "units" and task.units[first.index] == "%"
        message = unit_problem("%")[0] if is_percent else first.message
        return task, f"{first.field} {first.index + 1}: {message}"
    # From a contradiction everything follows: no mark would mean anything.
    return task, CONTRADICTION if CONTRADICTION in solve(task)[1] else ""


def _checked(task: AnyTask) -> tuple[AnyTask, str]:
    sentences = problems_of(task)
    return task, visible(sentences[0]) if sentences else ""


# -- one head line each: the head with it, None where it cannot be read -----------------------------


def _listed(rest: str) -> tuple[str, ...]:
    return tuple(part.strip() for part in rest.split(",") if part.strip())


def _find(head: Head, rest: str) -> Head | None:
    """Read ``A and B``, or with units as a lesson has them: ``A and B in °``, ``s in m and t in h``."""
    found: list[str] = []
    units: list[str] = []
    for part in re.split(r"\s*,\s*|\s+and\s+", rest):
        names, sign, unit = part.partition(" in ")
        found += [name for name in names.split() if name != "and"]
        units += [unit.strip()] * (len(found) - len(units)) if sign else []
    if not found or "in" in found:
        return None
    units += [""] * (len(found) - len(units)) if units else []
    told = _on_task(head, find=(*head.task.find, *found), units=(*head.task.units, *units))
    return replace(told, last=tuple(found))


def _formula(head: Head, rest: str) -> Head | None:
    return _on_task(head, formulas=(*head.task.formulas, rest)) if "=" in rest else None


def _given(head: Head, rest: str) -> Head | None:
    name, sign, value = rest.partition("=")
    return _on_task(head, givens=(*head.task.givens, (name.strip(), value.strip()))) if sign else None


def _units(head: Head, rest: str) -> Head | None:
    """Read ``cm``, or one unit for each thing to find: ``cm and cm^2``."""
    units = [unit for part in re.split(r",|\band\b", rest) if (unit := part.strip())]
    return _on_task(head, units=(*head.task.units, *units)) if units else None


def _names(head: Head, rest: str) -> Head | None:
    return _on_task(head, names=(*head.task.names, *_listed(rest))) if _listed(rest) else None


def _pi(head: Head, rest: str) -> Head | None:
    return _on_task(head, pi=Pi(rest)) if rest in {pi.value for pi in Pi} else None


def _every(head: Head, rest: str) -> Head | None:
    return _on_task(head, every_step=True) if rest in ("", "step") else None


_ROUND = re.compile(r"(?:(up|down) )?to (?:a whole number|(\d) places?)")


def _round(head: Head, rest: str) -> Head | None:
    found = _ROUND.fullmatch(" ".join(rest.split()))
    places = int(found[2] or 0) if found else MOST_PLACES + 1
    if found is None or places > MOST_PLACES:
        return None
    way = {None: Rounding.NEAREST, "up": Rounding.UP, "down": Rounding.DOWN}[found[1]]
    spoken_of = (Precision(name, places, way) for name in head.last or ("",))
    return replace(head, rounded=(*head.rounded, *spoken_of))


def _check(head: Head, rest: str) -> Head | None:
    return _on_task(head, check=True) if rest in ("", "the answer") else None


def _steps(head: Head, rest: str) -> Head | None:
    words = {step.value: step for step in Step}
    wanted = _listed(rest)
    if not wanted or any(word not in words and word != "check" for word in wanted):
        return None
    steps = tuple(words[word] for word in wanted if word in words)
    return _on_task(head, steps=steps, check=head.task.check or "check" in wanted)


def _triangle(head: Head, rest: str) -> Head | None:
    return _on_task(head, lengths=_listed(rest)) if len(_listed(rest)) == 3 else None


def _show(head: Head, rest: str) -> Head | None:
    return _on_task(head, goals=(rest,), sentence=True) if "=" in rest else None


def _write(head: Head, rest: str) -> Head | None:
    return replace(head, write=rest) if rest else None


def _choose(head: Head, rest: str) -> Head | None:
    return replace(head, options=_listed(rest)) if len(_listed(rest)) > 1 else None


def _answer(head: Head, rest: str) -> Head | None:
    return replace(head, right=(*head.right, *_listed(rest))) if rest else None


def _word(head: Head, rest: str) -> Head | None:
    return replace(head, word=rest) if rest else None


def _also(head: Head, rest: str) -> Head | None:
    return replace(head, also=(*head.also, *_listed(rest))) if rest else None


def _near(head: Head, rest: str) -> Head | None:
    return replace(head, near=(*head.near, *_listed(rest))) if rest else None


def _draw(head: Head, rest: str) -> Head | None:
    return replace(head, draw=True) if rest == "triangle" else None


def _on_task(head: Head, **changes: object) -> Head:
    return replace(head, task=replace(head.task, **changes))  # type: ignore[arg-type]


_WORDS: dict[str, tuple[Callable[[Head, str], Head | None], str]] = {
    "find": (_find, "Write the letter to find: find r"),
    "formula": (_formula, "Write an equation: formula C = 2 pi r"),
    "equation": (_formula, "Write an equation: equation 6n + 15 = 87"),
    "given": (_given, "Write a name and its value: given C = 47.1 cm"),
    "units": (_units, "Write one unit, or one for each thing to find: units cm and cm^2"),
    "names": (_names, "Write longer names with commas between them: names SA, angle A"),
    "pi": (_pi, "Write pi 3.14, pi 22/7 or pi exact."),
    "every_step": (_every, "Write every_step alone."),
    "every": (_every, "Write every step."),
    "round": (_round, "Write round to 2 places, or round up to a whole number."),
    "check": (_check, "Write check the answer."),
    "steps": (_steps, "Write some of formula, label, substitute, units and check: steps formula, label"),
    "triangle": (_triangle, "Write three lengths: triangle 4 cm, 6 cm, 9 cm"),
    "write": (_write, "Write the name whose formula is asked for: write A"),
    "show": (_show, "Write the line that is to be reached: show s = pi r"),
    "choose": (_choose, "Write the choices: choose triangle, square, circle"),
    "answer": (_answer, "Write which of the choices is right: answer triangle"),
    "word": (_word, "Write the word that is asked for: word radius"),
    "also": (_also, "Write what is right too: also perimeter of a circle"),
    "near": (_near, "Write the words beside it: near diameter, radius"),
    "draw": (_draw, "Write draw triangle."),
}
