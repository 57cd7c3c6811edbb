"""What students said in words: the words that were missed, and sentences that only a teacher can judge."""

from collections.abc import Iterator, Sequence

from tutor.lesson.model import Problem
from tutor.marking.task import Task
from tutor.marking.verdict import Verdict
from tutor.record.state import Attempt
from tutor.teacher.folding import folded
from tutor.teacher.handed_in import HandedIn
from tutor.teacher.missed import is_missed
from tutor.teacher.table import short
from tutor.teacher.waiting import name_of
from tutor.visible import visible

_INDENT = "    "
_WHO = 24
_MOST_ROWS = 12  # of one sentence; who writes a book is asked to show it


def word_rows(class_of: Sequence[tuple[str, HandedIn]], width: int) -> Iterator[str]:
    """Yield each word that was missed with its meaning, and who missed it, the most missed first."""
    missed: dict[tuple[str, str], list[str]] = {}
    for who, handed in class_of:
        for state in handed.problems:
            meaning = state.problem.meaning
            if meaning is not None and is_missed(state):
                corrected = "" if state.status.to_correct else " (corrected)"
                missed.setdefault((meaning.word, meaning.meaning), []).append(
                    f"{short(who, _WHO)}{corrected}"
                )
    for (word, means), students in sorted(missed.items(), key=lambda found: -len(found[1])):
        yield from folded(visible(f"{word}: {means}"), width)
        yield from (_INDENT + row for row in folded(", ".join(students), width - len(_INDENT)))


def sentence_rows(
    problems: Sequence[Problem], class_of: Sequence[tuple[str, HandedIn]], width: int
) -> Iterator[str]:
    """Yield what students wrote in words where a reason is asked for, below the sentence of the lesson."""
    for problem in (one for one in problems if asks_for_a_sentence(one)):
        told = [
            row
            for who, handed in class_of
            for state in handed.problems
            if (state.problem.path, state.problem.name) == (problem.path, problem.name)
            for attempt in state.attempts
            for row in _of_attempt(who, attempt, width)
        ]
        if told:
            yield short(problem.name, width)
            yield from folded(f"yours: {visible(problem.reason)}", width) if problem.reason else ()
            yield from told


def asks_for_a_sentence(problem: Problem) -> bool:
    """Tell whether a problem asks for a sentence that nothing but a teacher judges."""
    return isinstance(problem.task, Task) and problem.task.sentence


def _of_attempt(who: str, attempt: Attempt, width: int) -> Iterator[str]:
    said = [
        line.text for line in attempt.working.lines if line.mark.verdict is Verdict.NOTE and not line.struck
    ]
    if not said:
        return
    yield f"{_INDENT}{short(who, _WHO)} · {name_of(attempt)}"
    for text in said:
        rows = folded(visible(text), width - 2 * len(_INDENT))
        yield from (2 * _INDENT + row for row in rows[:_MOST_ROWS])
        if len(rows) > _MOST_ROWS:
            yield f"{2 * _INDENT}… it goes on"
