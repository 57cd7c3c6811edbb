"""Who missed what: line by line, kind by kind, problem by problem, student by student."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import PurePath

from tutor.lesson.model import Lesson, Problem
from tutor.marking.task import ChoiceTask
from tutor.record.state import Attempt, ProblemState, Status
from tutor.teacher.handed_in import HandedIn
from tutor.teacher.kind_words import kind_word
from tutor.teacher.possible_slips import counted
from tutor.teacher.table import table

Class = Sequence[tuple[str, HandedIn]]

_WHO = 24


def missed_rows(class_of: Class, width: int, *, matters: bool) -> Iterator[str]:
    """Yield the first attempts that were missed, at the problems that matter most or at the others."""
    rows = [
        (who, state.problem.name, *row, state.status.value)
        for who, handed in class_of
        for state in handed.problems
        if state.problem.matters is matters
        for row in _first_attempt(state)
    ]
    if rows:
        head = ("student", "problem", "line", "first attempt", "now")
        yield from table(head, rows, (14, 18, 4, 16, 22), rest=(3, width))


def left_rows(class_of: Class, width: int) -> Iterator[str]:
    """Yield the works that stop at a broken line, which the student may still take back."""
    rows = [
        (who, state.problem.name, str(at + 1), _written(state.current, at))
        for who, handed in class_of
        for state in handed.problems
        if not state.current.hidden
        for at in sorted(state.current.broken & state.current.can_still_go)
    ]
    if rows:
        yield from table(
            ("student", "problem", "line", "what was written"), rows, (14, 24, 4, 16), rest=(3, width)
        )


def _first_attempt(state: ProblemState) -> list[tuple[str, str]]:
    """Return the lines that broke, and those that a hint showed, in the order of the work."""
    attempt = state.first
    broke = [(at, 1, _written(attempt, at)) for at in missed_lines(attempt)]
    shown = [
        (given.after, 0, f"(shown) {given.hint.line}")
        for given in attempt.hints
        if given.hint.line is not None
    ]
    if not broke and not shown and state.status is not Status.PROVISIONAL and is_missed(state):
        return [("", "(handed in unfinished)")]
    return [(str(at + 1), text) for at, _, text in sorted(broke + shown)]


def _written(attempt: Attempt, at: int) -> str:
    """Return a line as it was written; a choice with its words, where only its letter was typed."""
    line = attempt.working.lines[at]
    return line.mark.read_as or line.text if isinstance(attempt.problem.task, ChoiceTask) else line.text


def missed_lines(attempt: Attempt) -> frozenset[int]:
    """Return the broken lines that make a first attempt missed: not one that was mended, or may be still."""
    return frozenset() if attempt.may_mend else counted(attempt) & attempt.faults


def is_missed(state: ProblemState) -> bool:
    """Tell whether the first attempt at a problem was missed, corrected since or not."""
    first = state.first
    unfinished = first.all_at_once and first.closed and not first.complete and not first.excused
    return not first.hidden and (bool(missed_lines(first)) or first.shown or unfinished)


# -- counted ---------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Count:
    """One problem of the lesson, the file it is from in a review, and the work of all who have it."""

    file: str
    problem: Problem
    states: tuple[ProblemState, ...]

    @property
    def begun(self) -> int:
        return sum(state.status is not Status.UNTOUCHED for state in self.states)

    @property
    def missed(self) -> int:
        return sum(is_missed(state) for state in self.states)

    @property
    def to_correct(self) -> int:
        return sum(state.status.to_correct for state in self.states)


def _counts(lesson: Lesson, work: Iterable[HandedIn]) -> list[_Count]:
    """Return every problem of a lesson that somebody has, those that matter most first."""
    states: dict[tuple[str, str], list[ProblemState]] = {}
    for handed in work:
        for state in handed.problems:
            states.setdefault((state.problem.path, state.problem.name), []).append(state)
    counts = [
        _Count(file, problem, tuple(states[file, problem.name]))
        for file, problem in _problems(lesson)
        if (file, problem.name) in states
    ]
    return sorted(counts, key=lambda count: not count.problem.matters)


def _problems(lesson: Lesson) -> Iterator[tuple[str, Problem]]:
    """Yield all problems of a lesson, of a review all that it can draw, with the file they are from."""
    if lesson.review is None:
        yield from (("", problem) for problem in lesson.problems)
        return
    for one in lesson.review.pool:
        yield from ((PurePath(one.path).name, problem) for problem in one.problems)


def kind_rows(lesson: Lesson, work: Sequence[HandedIn]) -> Iterator[str]:
    """Yield how often each kind of problem was begun and missed, the kind that was missed most first."""
    kinds: dict[str, list[_Count]] = {}
    for count in _counts(lesson, work):
        kinds.setdefault(kind_word(count.problem), []).append(count)
    rows = [
        (
            kind,
            str(len(counts)),
            str(sum(count.begun for count in counts)),
            str(sum(count.missed for count in counts)),
            str(sum(count.to_correct for count in counts)),
        )
        for kind, counts in sorted(kinds.items(), key=lambda kind: -sum(count.missed for count in kind[1]))
    ]
    yield from table(("kind", "problems", "begun", "missed", "to correct"), rows, (36, 8, 5, 6, 10))


def problem_rows(lesson: Lesson, work: Sequence[HandedIn], width: int) -> Iterator[str]:
    """Yield for each problem how many began it, missed it, and at which line; of a review with its file."""
    counts = _counts(lesson, work)
    most = any(count.problem.matters for count in counts)
    rows = []
    for count in counts:
        first = [missed_lines(state.first) for state in count.states]
        others = [state.first for state in count.states if is_missed(state) and not missed_lines(state.first)]
        shown = sum(attempt.shown for attempt in others)
        broke = Counter(min(lines) + 1 for lines in first if lines)
        name = f"{count.problem.name} ({PurePath(count.file).stem})" if count.file else count.problem.name
        rows.append(
            (
                name,
                *(("most" if count.problem.matters else "",) if most else ()),
                str(count.begun),
                str(count.missed),
                str(count.to_correct),
                ", ".join(_missed_at(broke, shown, len(others) - shown)),
            )
        )
    head = ("problem", *(("matters",) if most else ()), "begun", "missed", "to correct", "missed at")
    widest = (24, *((7,) if most else ()), 5, 6, 10, 10)
    yield from table(head, rows, widest, rest=(len(head) - 1, width))


def _missed_at(lines: Counter[int], shown: int, unfinished: int) -> Iterator[str]:
    if lines:
        told = ", ".join(_times(f"{line}", count) for line, count in sorted(lines.items()))
        yield f"{'line' if len(lines) == 1 else 'lines'} {told}"
    if shown:
        yield _times("line shown", shown)
    if unfinished:
        yield _times("unfinished", unfinished)


def _times(what: str, count: int) -> str:
    return what if count == 1 else f"{what} ({count}×)"


def student_rows(class_of: Class) -> Iterator[str]:
    """Yield how far each student is, and what is still to correct, what matters most first."""
    rows = []
    for who, handed in class_of:
        finished = sum(state.status in (Status.DONE, Status.CORRECTED) for state in handed.problems)
        ordered = sorted(handed.problems, key=lambda state: not state.problem.matters)
        left = [_still_open(state) for state in ordered if state.status.to_correct]
        rows.append((who, f"{finished} of {len(handed.problems)}", left[0] if left else "nothing"))
        rows += [("", "", name) for name in left[1:]]
    yield from table(("student", "finished", "still to correct"), rows, (_WHO, 9, 40))


def _still_open(state: ProblemState) -> str:
    return f"{state.problem.name}, line shown" if state.status is Status.SHOWN else state.problem.name
