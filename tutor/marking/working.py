"""A piece of work: a task and the lines typed for it, marked one by one."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cached_property

from tutor.line.layout import layout
from tutor.line.meaning import number_of
from tutor.line.names import abbreviations, in_both_cases, numbered, segments
from tutor.line.phrases import as_phrase
from tutor.line.reader import Unread, read, read_before, steps_of
from tutor.line.said import NUMBER_ALONE
from tutor.line.tree import Chain, Phrase, Statement
from tutor.marking.deciding.context import Context, prepare
from tutor.marking.deciding.lengths import says_enough
from tutor.marking.deciding.state import Known, begin
from tutor.marking.judging.aftermath import Judged
from tutor.marking.judging.halves import is_half, is_left_open
from tutor.marking.judging.judge import judge
from tutor.marking.labelling import step_of
from tutor.marking.progress import Progress, Reached, StepState, progress_of, reached
from tutor.marking.task import Task
from tutor.marking.verdict import Mark, Step, Verdict

__all__ = ["Progress", "ReadAs", "StepState", "WorkLine", "Working", "mark_lines", "read_as", "start"]


@dataclass(frozen=True)
class WorkLine:
    """One typed line with its mark. ``known``: what is known after it."""

    text: str
    struck: bool
    mark: Mark
    statement: Statement | None = field(default=None, repr=False, compare=False)
    known: Known | None = field(default=None, repr=False, compare=False)

    @cached_property
    def step(self) -> Step | None:
        """Return the step of the work that the line belongs to, None where it does not stand."""
        if self.statement is None or self.known is None or not self.mark.verdict.stands:
            return None
        return step_of(self.known, self.statement)


@dataclass(frozen=True)
class Working:
    """The lines so far. A value: ``submit`` and ``strike`` return a new one."""

    task: Task
    lines: tuple[WorkLine, ...]
    known: Known = field(repr=False, compare=False)

    @cached_property
    def progress(self) -> Progress:
        """Return how far the work is."""
        return progress_of(self.known, self.lines)

    @property
    def reached(self) -> Reached:
        """Return the part of the progress that is told without a screen."""
        return reached(self.known, self.lines)

    def submit(self, text: str) -> "Working":
        """Return the work with one more line, marked against the lines that stand."""
        if _says_no(text, self.known.context):
            # "no" can make a comparison above right that was false alone.
            return _worked(
                self.task, [*((line.text, line.struck) for line in self.lines), (text, False)], open_end=True
            )
        judged = _judged(self.known, text, len(self.lines), None, open_end=True)
        return Working(self.task, (*self.lines, _line(text, judged, struck=False)), judged.known)

    def strike(self, index: int) -> "Working":
        """Return the work with a line struck out; later lines are marked again."""
        if not 0 <= index < len(self.lines):
            return self
        texts = [(line.text, line.struck or at == index) for at, line in enumerate(self.lines)]
        return _worked(self.task, texts, open_end=True)


@dataclass(frozen=True, slots=True)
class ReadAs:
    """A line as it is read while it is typed: rows in two dimensions, or what is in the way."""

    rows: tuple[str, ...]
    problem: str = ""


def start(task: Task) -> Working:
    """Return a piece of work without lines."""
    return Working(task, (), begin(prepare(task)[0]))


def mark_lines(task: Task, texts: Sequence[str], struck: frozenset[int] = frozenset()) -> Working:
    """Mark all lines of a piece of work at once; ``struck``: indexes of lines struck out."""
    return _worked(task, [(text, at in struck) for at, text in enumerate(texts)])


def read_as(task: Task, lines_so_far: Sequence[str], text: str) -> ReadAs:
    """Return how a line would be read, without marking it."""
    names = prepare(task)[0].names
    if not task.formulas and not task.givens and lines_so_far:
        first = read(lines_so_far[0], names)
        if not isinstance(first, Unread):
            from tutor.line.walk import statement_names

            names = names.joined(statement_names(first.statements[0]))
    if not text.strip():
        return ReadAs(())
    rows: list[str] = []
    for step in steps_of(text, names):
        found = read_before(step, names)
        if isinstance(found, Unread):
            return ReadAs((), found.message)
        rows += layout(found.statements[0])
    return ReadAs(tuple(rows))


def _worked(task: Task, texts: Sequence[tuple[str, bool]], *, open_end: bool = False) -> Working:
    """Mark lines. ``open_end``: more can come, such as the other part of a line worked in parts."""
    working = _marked(task, texts, begin(prepare(task)[0]))
    halves = [line.statement for line in working.lines if not line.struck and is_half(line.mark)]
    parts = [half for half in halves if half is not None]
    if open_end or not parts or first_wrong(working.lines) is not None:
        return working  # a line that breaks is where the other part went wrong
    if not is_left_open(parts, working.reached.finished):
        return working
    known = begin(prepare(task)[0])
    return _marked(task, texts, replace(known, context=replace(known.context, parts_apart=False)))


def _marked(task: Task, texts: Sequence[tuple[str, bool]], known: Known) -> Working:
    if known.context.from_first_line and texts:
        known = _names_on_the_page(known, [text for text, _ in texts])
        if len(known.context.find) > 1 and _says_no_solution([text for text, _ in texts]):
            known = replace(known, context=replace(known.context, ends_without=True))
    lines: list[WorkLine] = []
    for index, (text, struck) in enumerate(texts):
        following = next((later for later, gone in texts[index + 1 :] if not gone), None)
        judged = _judged(known, text, index, following)
        lines.append(_line(text, judged, struck=struck))
        if not struck:
            known = judged.known
    return Working(task, tuple(lines), known)


def _says_no_solution(texts: Sequence[str]) -> bool:
    return any(as_phrase(text.strip()) is Phrase.NO_SOLUTION for text in texts)


def _names_on_the_page(known: Known, texts: Sequence[str]) -> Known:
    """Know the names that later lines tell apart.

    Where a line is ``A = ½(a + b)h`` or the work begins with ``R = 10 cm`` and ``r = 6 cm``, a letter
    is another name in the other case; where a line is ``AC² = AB² + BC²``, an AB is no product.
    """
    names = known.context.names
    found = {letter for text in texts if not text.islower() for letter in in_both_cases(text)}
    found |= {name for text in texts if not text.islower() for name in segments(text, names.known)}
    found |= {name for text in texts for name in numbered(text)}
    if len(texts) > 1 and not names.known:
        found |= abbreviations(texts)
    if any(text != text.lower() for text in (*texts, *names.known)):
        found |= _told_in_both_cases(texts, names.known)
    if not found:
        return known
    return replace(known, context=replace(known.context, names=names.joined(found)))


def _told_in_both_cases(texts: Sequence[str], known: frozenset[str]) -> set[str]:
    """``R = 10 cm`` and ``r = 6 cm``; or ``r = 6 cm`` where R is asked for."""
    heads = [head for text in texts[:MAX_TOLD] for head in _TOLD.findall(text)]
    first = _TOLD.match(texts[0]) if len(texts) > 1 else None
    asked = {name for name in known if first is not None and name.swapcase() == first[1]}
    return {head for head in heads if head.swapcase() in heads or head.swapcase() in asked} | asked


MAX_TOLD = 8
_TOLD = re.compile(r"(?:^|[,;]|\band\b)\s*([A-Za-z])\s*=\s*\d[\d./]*\s*(?:[a-z$°%]|$|,)")


def _judged(known: Known, text: str, index: int, next_text: str | None, *, open_end: bool = False) -> Judged:
    first = known.base is None and known.context.from_first_line
    steps = steps_of(text, known.context.names, first=first)
    judged = _one_step(known, steps[0], index, next_text if len(steps) == 1 else steps[1], open_end)
    if len(steps) == 1:
        return judged
    said = [judged.mark.read_as]
    for at, step in enumerate(steps[1:], start=1):
        if not judged.mark.verdict.stands and judged.mark.verdict is not Verdict.NOTE:
            return judged
        following = steps[at + 1] if at + 1 < len(steps) else next_text
        step = _as_answer(judged.known, step)
        judged = _one_step(judged.known, step, index, following, open_end)
        said.append(judged.mark.read_as)
    return replace(judged, mark=_with_reading(judged.mark, " → ".join(said)))


def _as_answer(known: Known, step: str) -> str:
    """``218.4/8 = 27.3, so 28 lanterns``: another number behind a step is the answer that follows."""
    alone, find, last = NUMBER_ALONE.fullmatch(step), known.context.task.find, known.previous
    if alone is None or len(find) != 1 or len(alone[1]) <= len(find[0]) or not isinstance(last, Chain):
        return step
    if number_of(last.sides[-1]) == Fraction(alone[2]):
        return step
    return alone[1][len(find[0]) + 1 :] + find[0] + "=" + step[alone.end(1) :]


def _one_step(known: Known, text: str, index: int, next_text: str | None, open_end: bool) -> Judged:
    judged = judge(known, text, index, next_text=next_text, open_end=open_end)
    if not known.context.task.every_step:
        return judged
    from tutor.marking.leaps import leap_told  # all that works out steps is loaded where they count

    return leap_told(known, judged)


def _with_reading(mark: Mark, read_as: str) -> Mark:
    return Mark(
        mark.verdict,
        mark.reason,
        mark.slip,
        mark.message,
        mark.span,
        lambda: mark.account,
        read_as,
        mark.note,
    )


def _line(text: str, judged: Judged, *, struck: bool) -> WorkLine:
    return WorkLine(text, struck, judged.mark, judged.statement, judged.known)


def _says_no(text: str, context: Context) -> bool:
    return says_enough(text, context.names)


def first_wrong(lines: Sequence[WorkLine]) -> int | None:
    """Return the index of the first line that breaks."""
    return next((at for at, line in enumerate(lines) if line.mark.verdict is Verdict.BREAKS), None)
