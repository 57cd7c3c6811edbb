"""What the work screen shows of an attempt, and which line a key means."""

from textual.content import Content

from tutor.page.lettering import cells, shorten
from tutor.page.look import ink_of
from tutor.page.reads_as import Above
from tutor.page.ruling import Written
from tutor.page.words import place_phrase
from tutor.record.state import Attempt, LessonState, ProblemState
from tutor.visible import visible


def written_lines(attempt: Attempt, pending: str | None = None) -> tuple[Written, ...]:
    """Return the lines of an attempt, then the one that is still being decided."""
    ink = ink_of(attempt.number)
    working = attempt.working
    pointed = pointed_line(attempt)
    first_wrong = None if attempt.hidden else working.progress.first_wrong
    lines = [
        Written(
            number=index + 1,
            text=line.text,
            line=line,
            ink=ink,
            hidden=attempt.hidden,
            first_wrong=index == first_wrong,
            appealed=index in attempt.appealed,
            pointed=attempt.hint.span if attempt.hint is not None and index == pointed else None,
        )
        for index, line in enumerate(working.lines)
    ]
    if pending is not None:
        lines.append(Written(len(lines) + 1, pending, None, ink))
    return tuple(lines)


def pointed_line(attempt: Attempt) -> int | None:
    """Return the line that a hint speaks of: the last one that is not struck."""
    lines = attempt.working.lines
    return next((at for at in reversed(range(len(lines))) if not lines[at].struck), None)


def above(attempt: Attempt) -> Above:
    """Return what the next line is read against: struck lines do not count."""
    lines = tuple(line.text for line in attempt.working.lines if not line.struck)
    return Above(attempt.working.task, lines, ink_of(attempt.number))


def heading(attempt: Attempt) -> str:
    """Return the heading over an attempt: its ink in words."""
    word = ink_of(attempt.number).word
    return f"{word} {attempt.number}" if attempt.number > 1 else word


def heading_of(problem: ProblemState) -> str:
    """Return the heading over the attempt that is open; it says where the numbers are new."""
    numbers = ", new numbers" if problem.other_numbers else ""
    return heading(problem.current) + numbers


def line_to_strike(attempt: Attempt, chosen: int | None) -> int | None:
    """Return the line F3 means: the chosen one, else the last that is not struck."""
    if chosen is not None:
        return chosen
    open_lines = [i for i, line in enumerate(attempt.working.lines) if not line.struck]
    return open_lines[-1] if open_lines else None


def line_to_appeal(attempt: Attempt, chosen: int | None) -> int | None:
    """Return the line F4 means: the chosen one, else the last that may be appealed."""
    return chosen if chosen is not None else max(attempt.questionable, default=None)


# So much of a lesson's title is to be seen, however long the name of a problem is, and so much of the
# row is left to that name and its place.
_LEAST_TITLE = 24
_MOST_PLACE = 48


def top_row(state: LessonState, width: int) -> Content:
    """Return the top row: the lesson on the left, the place in it on the right."""
    title = visible(state.lesson.title)
    least = min(cells(title), _LEAST_TITLE, max(8, width - _MOST_PLACE))
    place = place_phrase(state, width - 4 - least)
    title = shorten(title, max(8, width - cells(place) - 4))
    gap = max(2, width - cells(title) - cells(place) - 2)
    return Content.assemble(" ", (title, "bold"), " " * gap, (shorten(place, width - 2), "$quiet"), " ")
