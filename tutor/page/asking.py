"""All that a problem asks, paragraph by paragraph: the question, its parts, the choices, what is given.

No rules here: which part is worked at, and what an attempt asks, the record has decided.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import assert_never

from textual.content import Content

from tutor.lesson.model import Problem
from tutor.marking.task import ChoiceTask, DrawingTask, Rounding, Task, WordTask
from tutor.marking.work import caution, read_as
from tutor.page.lettering import cells, fold
from tutor.record.state import Attempt
from tutor.visible import visible

_GAP = "   "  # between two items of one row


@dataclass(frozen=True, slots=True)
class Paragraph:
    """One paragraph: ``sign`` stands before its first row, the other rows hang under its text."""

    text: str
    sign: str = ""
    style: str = "$foreground"


@dataclass(frozen=True, slots=True)
class Items:
    """Short texts, each behind its label: as many on a row as fit. ``sign`` stands before the first row."""

    texts: tuple[tuple[str, str], ...]
    sign: str = ""


Asked = tuple[Paragraph | Items, ...]


def asked(attempt: Attempt) -> Asked:
    """Return all that an attempt asks."""
    problem = attempt.problem
    return (*_question(problem), *_parts(attempt), *_more(problem))


def _question(problem: Problem) -> Iterator[Paragraph]:
    yield Paragraph(problem.ask)
    meaning = problem.meaning
    if meaning is not None and meaning.meaning not in problem.ask:
        yield Paragraph(f"It means: {meaning.meaning}")


def _parts(attempt: Attempt) -> Iterator[Paragraph]:
    here = attempt.part
    for at, part in enumerate(attempt.problem.parts):
        letter = chr(ord("a") + at % 26)
        if at == here:
            yield Paragraph(part.ask, f"▸ {letter}) ", "bold $primary")
        elif attempt.hidden:
            yield Paragraph(part.ask, f"  {letter}) ")
        else:
            done = here is None or at < here
            yield Paragraph(part.ask, f"{'✓' if done else '·'} {letter}) ", "$quiet")


def _more(problem: Problem) -> Iterator[Paragraph | Items]:
    task = problem.task
    match task:
        case Task():
            yield from _of_lines(task)
        case ChoiceTask():
            if problem.givens and problem.figure is None:
                yield _given(problem.givens)
            yield Items(tuple((f"{chr(ord('A') + at)}) ", text) for at, text in enumerate(task.options)))
        case WordTask():
            pass
        case DrawingTask():
            yield _given(task.givens)
            measure = " and ".join(", ".join(task.measure).rsplit(", ", 1))
            yield Paragraph(
                f"Draw it on paper. Measure what is given too, then {measure}; type one part a line."
            )
            if said := caution(task):
                yield Paragraph(said, style="$quiet")
        case _:
            assert_never(task)


def _of_lines(task: Task) -> Iterator[Paragraph | Items]:
    if task.lengths:
        yield Items(tuple(("", length) for length in task.lengths), "sides  ")
    if task.sentence:  # a derivation; where a formula is asked for, the goal is what is to be found
        yield from (Paragraph(written(task, goal), "to show  ") for goal in task.goals)
    if task.places is not None:
        yield Paragraph(rounding_words(task.places, task.rounding), style="$quiet")
    for one in task.rounded:
        yield Paragraph(rounding_words(one.places, one.rounding, one.name), style="$quiet")
    if task.check:
        yield Paragraph("At the end put the answer back in to check it.", style="$quiet")


def written(task: Task, line: str) -> str:
    """Return a line of the lesson as the page writes it; where that takes several rows, as it stands."""
    rows = read_as(task, (), line).rows
    return rows[0] if len(rows) == 1 else line


def rounding_words(places: int, way: Rounding, name: str = "") -> str:
    """Return how the answer is to be rounded. ``name``: which one, where they are rounded differently."""
    match way:
        case Rounding.NEAREST:
            sense = "Round to"
        case Rounding.UP:
            sense = "Round up to"
        case Rounding.DOWN:
            sense = "Round down to"
        case _:
            assert_never(way)
    if name:
        sense = f"Round {name} {sense.removeprefix('Round ')}"
    if not places:
        return f"{sense} a whole number."
    return f"{sense} {places} {'place' if places == 1 else 'places'}."


def _given(givens: Sequence[tuple[str, str]]) -> Items:
    return Items(tuple((f"{name} = ", value) for name, value in givens), "given  ")


def laid_out(asked: Asked, width: int) -> Content:
    """Return the paragraphs folded to ``width`` cells."""
    return Content("\n").join(row for one in asked for row in _rows(one, max(8, width)))


def _rows(one: Paragraph | Items, width: int) -> Iterator[Content]:
    room = width - cells(one.sign)
    if isinstance(one, Items):
        shown = [(visible(label), visible(text)) for label, text in one.texts]
        rows = [Content.assemble(*row) for row in _item_rows(shown, room)]
    else:
        rows = [Content.assemble((row, one.style)) for row in fold(visible(one.text), room)]
    lead = one.sign
    for row in rows:
        yield Content.assemble((lead, "bold $primary" if lead.strip() else ""), row)
        lead = " " * cells(one.sign)


def _item_rows(items: Sequence[tuple[str, str]], width: int) -> Iterator[list[tuple[str, str]]]:
    """Yield rows of items: side by side while they fit, a long one folded on rows of its own."""
    row: list[tuple[str, str]] = []
    used = 0
    for label, text in items:
        first, *more = fold(text, max(8, width - cells(label))) or ("",)
        wanted = cells(label) + cells(first)
        if row and (more or used + len(_GAP) + wanted > width):
            yield row
            row, used = [], 0
        if row:
            row.append((_GAP, ""))
            used += len(_GAP)
        row += [(label, "bold $primary"), (first, "$foreground")]
        used += wanted
        for rest in more:
            yield row
            row, used = [(" " * cells(label), ""), (rest, "$foreground")], width
    if row:
        yield row
