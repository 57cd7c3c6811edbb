"""What a class missed, from the files that were handed in: a plain page for the terminal."""

import textwrap
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import chain
from pathlib import Path
from typing import IO

from tutor.lesson.model import Lesson, Problem
from tutor.lesson.reader import load_lesson
from tutor.record.state import Status
from tutor.teacher.handed_in import HandedIn, read_handed_in, record_files
from tutor.teacher.missed import kind_rows, left_rows, missed_rows, problem_rows, student_rows
from tutor.teacher.possible_slips import shared_answers, slip_lines, slip_rows, together_rows
from tutor.teacher.table import short
from tutor.teacher.waiting import waiting_rows
from tutor.teacher.words_said import asks_for_a_sentence, sentence_rows, word_rows
from tutor.visible import visible

WIDTH = 78
_INDENT = "    "


def print_report(lesson: Path, files: Sequence[Path], out: IO[str], err: IO[str]) -> int:
    """Print who missed what, and what is still to correct; what waits for the teacher comes first.

    Every line is marked again with ``lesson``. Returns 0, or 2 where the lesson or a file
    cannot be read: the other files are reported all the same.
    """
    read, faults = load_lesson(lesson)
    if read is None:
        for fault in faults:
            print(fault, file=err)
        return 2
    paths, problems = record_files(files)
    work: list[HandedIn] = []
    left_out = list(problems)
    for path in paths:
        handed, sentence = read_handed_in(path, read)
        if handed is None:
            left_out.append(sentence)
        else:
            work.append(handed)
    for sentence in left_out:
        print(visible(sentence), file=err)
    if work:
        for row in report(read, work):
            print(row, file=out)
    return 2 if left_out or not work else 0


def report(lesson: Lesson, work: Sequence[HandedIn]) -> Iterator[str]:
    """Yield the rows of the report."""
    newest = _newest(work)
    class_of = _named(newest)
    yield short(lesson.title, WIDTH)
    yield (
        f"{_count(len(newest), 'student file')}, {_count(len(lesson.problems), 'problem')}. "
        "Every line was marked again with your lesson."
    )
    yield from _section("Waits for you", waiting_rows(class_of, WIDTH), "Nothing waits for you.")
    left = list(left_rows(class_of, WIDTH))
    nothing = f"No line {'that counts ' if left else ''}broke, and none was shown."
    if any(state.problem.matters for handed in newest for state in handed.problems):
        rows = missed_rows(class_of, WIDTH, matters=True)
        yield from _section("Missed, where it matters most", rows, nothing)
    yield from _section("Missed", missed_rows(class_of, WIDTH, matters=False), nothing)
    if left:
        told = ["The last line of each can still be taken back, so it is not counted."]
        yield from _section("Left at a broken line", iter(told + left), "")
    if any(state.problem.meaning is not None for handed in newest for state in handed.problems):
        yield from _section("Words missed", word_rows(class_of, WIDTH), "No word was missed.")
    asking = _asking(newest)
    if asking:
        rows = sentence_rows(asking, class_of, WIDTH)
        yield from _section("Sentences for you to read", rows, "No sentence was written yet.")
    slips = slip_lines(class_of)
    yield from _section("Possible slips", slip_rows(slips, WIDTH), "No broken line has a known shape.")
    together = chain(together_rows(slips, WIDTH), shared_answers(class_of, WIDTH))
    yield from _section("To sit together tomorrow", together, "No two students share a slip.")
    yield from _section("Each kind of problem", kind_rows(lesson, newest), "")
    yield from _section("Each problem", problem_rows(lesson, newest, WIDTH), "")
    yield from _section("Each student", student_rows(class_of), "")
    older = [handed for handed in work if handed not in newest]
    notes = [
        *_notes(class_of),
        *(f"{visible(str(one.path))} · a copy of work that is above" for one in older),
    ]
    if notes:
        yield from _section("Not marked", iter(notes), "")


def _section(title: str, rows: Iterator[str], without: str) -> Iterator[str]:
    yield ""
    yield title
    yield "=" * len(title)
    told = list(rows)
    yield from told or [without]


def _asking(work: Sequence[HandedIn]) -> tuple[Problem, ...]:
    """Return the problems that ask for a sentence, each once; a review gives every student others."""
    found = {
        (state.problem.path, state.problem.name): state.problem
        for handed in work
        for state in handed.problems
        if asks_for_a_sentence(state.problem)
    }
    return tuple(found.values())


def _newest(work: Sequence[HandedIn]) -> list[HandedIn]:
    """Return one file of each record: the copy in which most was done."""
    newest: dict[tuple[str, str], HandedIn] = {}
    for handed in work:
        known = newest.get((handed.mark, handed.code))
        if known is None or handed.done > known.done:
            newest[handed.mark, handed.code] = handed
    return list(newest.values())


def _named(work: Sequence[HandedIn]) -> list[tuple[str, HandedIn]]:
    """Return each file with the student's code, and the file's name where two have one code."""
    codes = Counter(handed.code for handed in work)
    named = [
        (handed.code if codes[handed.code] == 1 else f"{handed.code} ({handed.path.name})", handed)
        for handed in work
    ]
    return sorted(named, key=lambda pair: (pair[1].code.casefold(), str(pair[1].path)))


def _notes(class_of: Sequence[tuple[str, HandedIn]]) -> Iterator[str]:
    for who, handed in class_of:
        if handed.elsewhere:
            names = ", ".join(visible(name) for name in handed.elsewhere)
            said = f"{visible(who)} · worked with other numbers than in your lesson: {names}"
            yield from textwrap.wrap(said, WIDTH, subsequent_indent=_INDENT)
        elif all(state.status is Status.UNTOUCHED for state in handed.problems):
            yield f"{visible(who)} · no line of this lesson is in the file"


def _count(number: int, thing: str) -> str:
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"
