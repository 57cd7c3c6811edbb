"""What a class missed, from the files that were handed in: a plain page for the terminal."""

import textwrap
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import IO

from tutor.lesson.model import Lesson
from tutor.lesson.reader import load_lesson
from tutor.marking.verdict import Verdict
from tutor.marking.working import WorkLine
from tutor.record.state import Attempt, ProblemState, Status
from tutor.teacher.folding import folded
from tutor.teacher.handed_in import HandedIn, read_handed_in, record_files
from tutor.teacher.possible_slips import counted, slip_lines, slip_rows, together_rows
from tutor.teacher.table import short, table
from tutor.visible import visible

WIDTH = 78
_INDENT = "    "

# Codes go to 32 letters; a file name is added where two files have one code.
_WHO = 24
_PROBLEM = 20


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
    yield from _section("Waits for you", _waiting(class_of), "Nothing waits for you.")
    yield from _section("Missed", _missed(class_of), "No line broke, and none was shown.")
    slips = slip_lines(class_of)
    yield from _section("Possible slips", slip_rows(slips, WIDTH), "No broken line has a known shape.")
    yield from _section(
        "To sit together tomorrow", together_rows(slips, WIDTH), "No two students share a slip."
    )
    yield from _section("Each problem", _by_problem(lesson, newest), "")
    yield from _section("Each student", _by_student(class_of), "")
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


def _waiting(class_of: Sequence[tuple[str, HandedIn]]) -> Iterator[str]:
    """Yield the lines that a student thinks are right, then what was closed for the teacher to see."""
    for who, handed in class_of:
        for state in handed.problems:
            for attempt in state.attempts:
                for at in sorted(attempt.appealed):
                    yield from _shown_line(who, state, attempt, at, "says this line is right")
    for who, handed in class_of:
        for state in handed.problems:
            if state.status is Status.PROVISIONAL:
                yield from _closed_for_you(who, state)


def _closed_for_you(who: str, state: ProblemState) -> Iterator[str]:
    last = state.current
    undecided = [
        at
        for at, line in enumerate(last.working.lines)
        if line.mark.verdict is Verdict.UNDECIDED and not line.struck and at not in last.appealed
    ]
    for at in undecided:
        yield from _shown_line(who, state, last, at, "Evenline could not decide this line")
    if not undecided and not any(attempt.appealed for attempt in state.attempts):
        shown = sum(attempt.shown for attempt in state.attempts[1:])
        tries = _count(shown, "correction")
        how = f"a hint showed a line in {tries}" if shown else "closed before it was finished"
        yield f"{_place(who, state)} · {how}: ask how it went"


def _shown_line(who: str, state: ProblemState, attempt: Attempt, at: int, why: str) -> Iterator[str]:
    line = attempt.working.lines[at]
    yield f"{_place(who, state)} · {_name_of(attempt)}, line {at + 1}: {why}"
    yield f"{_INDENT}{short(line.text, WIDTH - len(_INDENT))}"
    yield from (_INDENT + row for row in folded(visible(_said_of(line)), WIDTH - len(_INDENT)))


def _place(who: str, state: ProblemState) -> str:
    return f"{short(who, _WHO)} · {short(state.problem.name, _PROBLEM)}"


def _said_of(line: WorkLine) -> str:
    if line.mark.verdict.stands:
        return "With your lesson Evenline marks it as right."
    return line.mark.message or "Evenline has nothing more to say of it."


def _name_of(attempt: Attempt) -> str:
    return "first attempt" if attempt.number == 0 else f"correction {attempt.number}"


def _missed(class_of: Sequence[tuple[str, HandedIn]]) -> Iterator[str]:
    rows = [
        (who, state.problem.name, *row, state.status.value)
        for who, handed in class_of
        for state in handed.problems
        for row in _first_attempt(state.first)
    ]
    if rows:
        head = ("student", "problem", "line", "first attempt", "now")
        yield from table(head, rows, (14, 14, 4, 18, 22), rest=(3, WIDTH))


def _first_attempt(attempt: Attempt) -> list[tuple[str, str]]:
    """Return the lines that broke, and those that a hint showed, in the order of the work."""
    broke = [(at, 1, attempt.working.lines[at].text) for at in counted(attempt)]
    shown = [
        (given.after, 0, f"(shown) {given.hint.line}")
        for given in attempt.hints
        if given.hint.line is not None
    ]
    return [(str(at + 1), text) for at, _, text in sorted(broke + shown)]


def _by_problem(lesson: Lesson, work: Sequence[HandedIn]) -> Iterator[str]:
    rows = []
    for at, problem in enumerate(lesson.problems):
        states = [handed.problems[at] for handed in work]
        broke = [min(counted(state.first)) + 1 for state in states if counted(state.first)]
        shown = sum(state.first.shown and not counted(state.first) for state in states)
        rows.append(
            (
                problem.name,
                str(sum(state.status is not Status.UNTOUCHED for state in states)),
                str(len(broke) + shown),
                str(sum(state.status.to_correct for state in states)),
                ", ".join(_missed_at(Counter(broke), shown)),
            )
        )
    yield from table(("problem", "begun", "missed", "to correct", "missed at"), rows, (24, 5, 6, 10, 24))


def _missed_at(lines: Counter[int], shown: int) -> Iterator[str]:
    for line, count in sorted(lines.items()):
        yield _times(f"line {line}", count)
    if shown:
        yield _times("line shown", shown)


def _times(what: str, count: int) -> str:
    return what if count == 1 else f"{what} ({count} times)"


def _by_student(class_of: Sequence[tuple[str, HandedIn]]) -> Iterator[str]:
    rows = []
    for who, handed in class_of:
        finished = sum(state.status in (Status.DONE, Status.CORRECTED) for state in handed.problems)
        open_ones = [_still_open(state) for state in handed.problems if state.status.to_correct]
        rows.append((who, f"{finished} of {len(handed.problems)}", open_ones[0] if open_ones else "nothing"))
        rows += [("", "", name) for name in open_ones[1:]]
    yield from table(("student", "finished", "still to correct"), rows, (_WHO, 9, 40))


def _still_open(state: ProblemState) -> str:
    return f"{state.problem.name}, line shown" if state.status is Status.SHOWN else state.problem.name


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
