"""The answer key: each question, its working line by line, and its answers. Nothing of it is stored."""

import textwrap
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import IO

from tutor.figure.lettering import cell_width
from tutor.lesson.fresh import drawn
from tutor.lesson.model import Lesson, Problem
from tutor.lesson.reader import load_lesson
from tutor.marking.kinds.choice import label
from tutor.marking.task import AnyTask, ChoiceTask, DrawingTask, Task, WordTask
from tutor.marking.verdict import Step
from tutor.marking.work import WorkedLine, caution, solution
from tutor.record.sentences import step_word
from tutor.teacher.answers import Answer, answers_of
from tutor.teacher.draw_table import draw_rows
from tutor.teacher.folding import folded
from tutor.teacher.handed_in import HandedIn, read_handed_in
from tutor.teacher.on_paper import line_on_paper, on_paper
from tutor.visible import visible

WIDTH = 78
_INDENT = "   "
_STEP = 12  # columns for the word of the step
_WIDEST_LINE = 32  # a longer line has its sentence below it
_GAP = "  "


@dataclass(frozen=True, slots=True)
class _Page:
    """What is printed: problems under a heading ("" where there is none), and how many draws of each."""

    heading: str
    problems: tuple[Problem, ...]
    path: str
    draws: int | None


def print_key(
    path: Path,
    out: IO[str],
    err: IO[str],
    *,
    student: Path | None = None,
    seed: int | None = None,
    most: int | None = None,
) -> int:
    """Print the question, the worked solution and the answers of each problem of a lesson.

    Without more the numbers are a sample, and up to ``most`` draws of each problem stand below it
    (None: all where they are few).
    ``student``: a file that was handed in; the numbers are then those of its student, of open
    corrections too. ``seed``: the numbers of one seed. Returns 0, or 2 where the lesson or the
    file cannot be read or a problem cannot be worked out.
    """
    lesson, faults = load_lesson(path)
    if lesson is None:
        for fault in faults:
            print(fault, file=err)
        return 2
    if student is not None:
        if student.is_dir():
            print(f"{visible(str(student))}: this is a folder. Name the file of one student in it.", file=err)
            return 2
        handed, sentence = read_handed_in(student, lesson)
        if handed is None:
            print(visible(sentence), file=err)
            return 2
        if not handed.opened:
            print(
                f"{visible(str(student))}: this student never opened the lesson, so has no numbers in it.",
                file=err,
            )
            return 2
        about, pages = _of_student(handed, lesson)
    elif seed is not None:
        about = f"With the numbers of seed {seed}."
        pages = (_Page("", drawn(lesson, seed).problems, lesson.path, 0),)
    else:
        about, pages = _of_everybody(lesson, most)
    print(visible(lesson.title), file=out)
    for row in folded(about, WIDTH):
        print(row, file=out)
    good = [_print_page(page, out, err) for page in pages]
    return 0 if all(good) else 2


def _of_everybody(lesson: Lesson, most: int | None) -> tuple[str, tuple[_Page, ...]]:
    review = lesson.review
    if review is not None:
        about = (
            f"Each student gets {review.count} of the problems below. For those of one student: "
            "evenline key LESSON --for FILE"
        )
        pages = (_Page(visible(one.title), one.problems, one.path, most) for one in review.pool)
        return about, tuple(pages)
    varied = any(one.template is not None and one.template.variation is not None for one in lesson.problems)
    about = "Each student has numbers of their own. For those of one student: evenline key LESSON --for FILE"
    return about if varied else "", (_Page("", lesson.problems, lesson.path, most),)


def _of_student(handed: HandedIn, lesson: Lesson) -> tuple[str, tuple[_Page, ...]]:
    pages = [_Page("", tuple(state.problem for state in handed.problems), lesson.path, 0)]
    again = tuple(
        state.current.problem
        for state in handed.problems
        if state.status.to_correct and state.current.problem.numbers != state.problem.numbers
    )
    if again:
        pages.append(_Page("Corrections that are begun, with their numbers", again, lesson.path, 0))
    about = f"With the numbers of {visible(handed.code)}, from {visible(handed.path.name)}."
    if handed.elsewhere:
        about += f" Worked with another text or other numbers: {visible(', '.join(handed.elsewhere))}."
    return about, tuple(pages)


def _print_page(page: _Page, out: IO[str], err: IO[str]) -> bool:
    """Print some problems; returns whether all of them could be worked out."""
    if page.heading:
        print(f"\n{page.heading}\n{'=' * cell_width(page.heading)}", file=out)
    good = True
    for number, problem in enumerate(page.problems, start=1):
        most = ", one of those that matter most" if problem.matters else ""
        print(f"\n{number}. {visible(problem.name)}{most}", file=out)
        answers, sentences = answers_of(problem.task)
        for row in _told(problem, answers, page.draws):
            print((_INDENT + row).rstrip(), file=out)
        where = f"{visible(problem.path or page.path)}:{problem.line}: {visible(problem.name)}"
        for sentence in sentences:
            good = False
            print(f"{where}: {visible(sentence)}", file=err)
    return good


def _told(problem: Problem, answers: Sequence[Answer], draws: int | None) -> Iterator[str]:
    width = WIDTH - len(_INDENT)
    yield from folded(on_paper(problem.ask), width)
    for at, part in enumerate(problem.parts):
        yield from folded(f"{_letter(at)} {on_paper(part.ask)}", width)
    yield from _shown_with(problem, width)
    yield ""
    if not answers:
        yield f"{'answer':<{_STEP}}cannot be worked out"
        return
    yield from _worked(problem.task)
    yield from _answers(problem, answers)
    if problem.reason:
        yield from _entry("why", problem.reason)
    told = list(draw_rows(problem, draws, width))
    if told:
        yield ""
        yield from told


def _letter(at: int) -> str:
    return f"{label(at).lower()})"


def _shown_with(problem: Problem, width: int) -> Iterator[str]:
    """Yield what a student sees below the question of the kinds that have more than one."""
    task = problem.task
    if isinstance(task, ChoiceTask):
        options = (f"{label(at)}) {visible(option)}" for at, option in enumerate(task.options))
        yield from folded("  ".join(options), width)
    if isinstance(task, DrawingTask) or (isinstance(task, Task) and task.lengths):
        sizes = task.lengths if isinstance(task, Task) else (f"{name} = {size}" for name, size in task.givens)
        yield from folded(on_paper(", ".join(sizes)), width)
    if problem.meaning is not None and problem.meaning.meaning not in problem.ask:
        yield from folded(f"It means: {visible(problem.meaning.meaning)}", width)


def _worked(task: AnyTask) -> Iterator[str]:
    """Yield the working of a task that is worked line by line, or what is measured in a drawing."""
    worked = solution(task)
    match task:
        case ChoiceTask() | WordTask():
            return
        case DrawingTask():
            yield from _lines(_drawn(worked))
            if caution(task):
                yield from _entry("mind", caution(task))
        case Task() if worked:
            lines = _stepped(worked, measured=bool(task.givens or task.goals))
            yield from _lines((word, replace(one, text=_shown(task, one.text))) for word, one in lines)
        case Task():
            yield f"{'working':<{_STEP}}Evenline cannot write this one down line by line."


def _shown(task: Task, text: str) -> str:
    """Return a line of a working; one that was taken over from the lesson is written like the others."""
    return line_on_paper(task, text) if text in (*task.formulas, *task.goals) else text


def _drawn(worked: Sequence[WorkedLine]) -> Iterator[tuple[str, WorkedLine]]:
    """Yield what is drawn, then what is measured of it; what is done there is said once."""
    words = ("drawn", "measured")
    said = {one.sentence: at for at, one in reversed(list(enumerate(worked)))}
    for at, one in enumerate(worked):
        first = said[one.sentence] == at
        yield words[at] if at < len(words) else "", one if first else replace(one, sentence="")


def _stepped(worked: Sequence[WorkedLine], *, measured: bool) -> Iterator[tuple[str, WorkedLine]]:
    """Yield each line with the word of its step, where the step begins."""
    before: Step | str | None = ""
    for one in worked:
        if one.step is before:
            word = ""
        else:
            word = "working" if one.step is None else step_word(one.step, measured=measured)
        yield word, one
        before = one.step


def _lines(worked: Iterable[tuple[str, WorkedLine]]) -> Iterator[str]:
    """Yield each line with what is done in it."""
    lines = [(word, on_paper(one.text), on_paper(one.sentence)) for word, one in worked]
    widths = (cell_width(text) for _, text, _ in lines)
    column = max(width for width in (0, *widths) if width <= _WIDEST_LINE)
    for word, text, sentence in lines:
        yield from _line(f"{word:<{_STEP}}", text, sentence, column)


def _line(head: str, text: str, sentence: str, column: int) -> Iterator[str]:
    said = folded(sentence, WIDTH - len(_INDENT) - _STEP - column - len(_GAP))
    beside = " " * (_STEP + column) + _GAP
    width = cell_width(text)
    if width <= column:
        first, *said = said or [""]
        yield f"{head}{text}{' ' * (column - width)}{_GAP}{first}".rstrip()
    else:
        rows = textwrap.wrap(text, WIDTH - len(_INDENT) - _STEP)
        yield head + rows[0]
        yield from (" " * _STEP + row for row in rows[1:])
    yield from (beside + row for row in said)


def _answers(problem: Problem, answers: Sequence[Answer]) -> Iterator[str]:
    """Yield the answers, each part's under its letter."""
    if isinstance(problem.task, DrawingTask):
        return  # what the others measure stands above, line by line
    part_of = {name: _letter(at) for at, part in enumerate(problem.parts) for name in part.names}
    for answer in answers:
        yield from _entry("answer", f"{part_of.get(answer.name, '')} {answer}".strip())


def _entry(word: str, text: str) -> Iterator[str]:
    rows = folded(on_paper(text), WIDTH - len(_INDENT) - _STEP)
    yield from (f"{word if at == 0 else '':<{_STEP}}{row}" for at, row in enumerate(rows))
