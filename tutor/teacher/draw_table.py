"""The numbers that a problem may be drawn with, and the answers of each draw, as a table."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import islice

from tutor.figure.lettering import cell_width
from tutor.lesson.fresh import answers_whole, draws
from tutor.lesson.model import Problem
from tutor.lesson.variation import every_draw
from tutor.marking.task import AnyTask, ChoiceTask, Task, WordTask
from tutor.teacher.answers import Answer, answers_of
from tutor.teacher.folding import folded
from tutor.teacher.on_paper import line_on_paper, on_paper
from tutor.teacher.table import GAP, table
from tutor.visible import visible

FEW = 24  # draws that are all shown, where nobody says how many
SAMPLE = 12
_WIDEST = 30  # columns of one cell
_ROWS = 6  # a shorter table is not broken into blocks
_BETWEEN = "    "

Column = tuple[str, str]  # its head, and what stands in it


@dataclass(frozen=True, slots=True)
class _Row:
    """One draw: the varied numbers, what a student sees of them, and the answers."""

    problem: Problem
    numbers: tuple[Column, ...]
    seen: tuple[Column, ...]
    answers: tuple[Column, ...]


def draw_rows(problem: Problem, most: int | None, width: int) -> Iterator[str]:
    """Yield the table of up to ``most`` draws of a problem; nothing where its numbers do not vary.

    Where ``most`` is not said, few draws are all there, and of many there is a sample.
    """
    template = problem.template
    if template is None or template.variation is None or most == 0:
        return
    few = FEW if most is None else most
    found, everything = draws(problem, few)
    if everything:
        read = [template.problem(draw) for draw in found]
        whole = template.variation.whole_answers
        drawn = [one for one, faults in read if not faults and (not whole or answers_whole(one))]
    else:
        drawn = list(islice(template.sequence("key", problem.name), SAMPLE if most is None else most))
    if not drawn:
        return
    rows = [_row(one) for one in sorted(drawn, key=_by_numbers)]
    if everything:
        told = "1 draw" if len(rows) == 1 else f"all {len(rows)} draws"
    else:
        known = None if template.variation.whole_answers else every_draw(template.variation)
        told = f"{len(rows)} of {'many' if known is None else f'{len(known):,}'} draws"
    answers = {row.answers for row in rows}
    if len(answers) == 1 and len(rows) > 1 and _answers_in_words(problem.task):
        yield from folded(f"{told}, each with the answer {', '.join(map(_told, answers.pop()))}", width)
        return
    yield told
    yield from _laid_out(rows, width)


def _by_numbers(problem: Problem) -> list[Fraction]:
    return [Fraction(text.replace("−", "-")) for _, text in problem.numbers]


def _answers_in_words(task: AnyTask) -> bool:
    """Tell whether a task is answered with words, so that its numbers do not show in the answer."""
    return isinstance(task, ChoiceTask | WordTask) or (isinstance(task, Task) and not task.find)


def numbers_of(problem: Problem) -> str:
    """Return on one row what a student sees of the numbers of a draw."""
    given = _seen(problem)[: len(problem.givens)]
    return ", ".join(_told(_on_paper(problem, column)) for column in given or _numbers(problem))


def _row(problem: Problem) -> _Row:
    found = answers_of(problem.task)[0] or (Answer("", "not worked out"),)
    answers = tuple((answer.name or "answer", answer.cell) for answer in found)
    return _Row(problem, _numbers(problem), _seen(problem), answers)


def _numbers(problem: Problem) -> tuple[Column, ...]:
    return tuple((visible(name), on_paper(text)) for name, text in problem.numbers)


def _seen(problem: Problem) -> tuple[Column, ...]:
    """Return what a student sees, as it is written in the task."""
    task = problem.task
    seen = [(visible(name), value) for name, value in problem.givens]
    if isinstance(task, Task):
        seen += [(_word(at), text) for at, text in enumerate(task.formulas)]
        seen += [("lengths", ", ".join(task.lengths))] if task.lengths else []
    return tuple(seen)


def _on_paper(problem: Problem, column: Column) -> Column:
    head, text = column
    task = problem.task
    if isinstance(task, Task) and text in task.formulas:
        return head, line_on_paper(task, text)
    return head, on_paper(text)


def _word(at: int) -> str:
    return "equation" if at == 0 else f"equation {at + 1}"


def _laid_out(rows: Sequence[_Row], width: int) -> Iterator[str]:
    """Yield a table: with the varied numbers where there is room, as running text where nothing fits."""
    kept = _differing([row.seen for row in rows])
    seen = [
        tuple(_on_paper(row.problem, column) for column in columns)
        for row, columns in zip(rows, kept, strict=True)
    ]
    answers = [row.answers for row in rows]
    shown = [
        tuple(_size(cell) for _, cell in (*one, *row.answers)) for one, row in zip(seen, rows, strict=True)
    ]
    numbers = _not_shown([row.numbers for row in rows], shown)
    for parts in ((numbers, seen, answers), (seen, answers)):
        joined = [tuple(column for part in parts for column in part[at]) for at in range(len(rows))]
        if (seen[0] or len(parts) == 3) and _fits(joined, width):
            head = [name for name, _ in joined[0]]
            cells = [[cell for _, cell in row] for row in joined]
            yield from _beside_each_other(head, cells, width)
            return
    for row in zip(numbers, seen, answers, strict=True):
        given, found = ((*row[0], *row[1]), row[2])
        told = f"{', '.join(map(_told, given))}: {', '.join(map(_told, found))}"
        yield from (("  " if at else "") + line for at, line in enumerate(folded(told, width - 2)))


def _beside_each_other(head: Sequence[str], cells: Sequence[Sequence[str]], width: int) -> Iterator[str]:
    """Yield a table, a long one in as many blocks as there is room for beside each other."""
    whole = list(table(head, cells, [_WIDEST] * len(head)))
    least = max(map(cell_width, whole))
    blocks = min((width + len(_BETWEEN)) // (least + len(_BETWEEN)), -(-len(cells) // _ROWS))
    tall = -(-len(cells) // max(blocks, 1))
    pieces = [[*whole[:2], *whole[start : start + tall]] for start in range(2, len(whole), tall)]
    for at in range(tall + 2):
        rows = [piece[at] for piece in pieces if at < len(piece)]
        yield _BETWEEN.join(row + " " * (least - cell_width(row)) for row in rows).rstrip()


def _differing(rows: Sequence[tuple[Column, ...]]) -> list[tuple[Column, ...]]:
    """Return the columns that are not the same in every row: those stand in the question already."""
    kept = [at for at in range(len(rows[0])) if len({row[at] for row in rows}) > 1 or len(rows) == 1]
    return [tuple(row[at] for at in kept) for row in rows]


def _not_shown(
    numbers: Sequence[tuple[Column, ...]], shown: Sequence[tuple[str, ...]]
) -> list[tuple[Column, ...]]:
    """Leave out the varied numbers that stand in another column, with a unit perhaps."""
    columns = range(min(map(len, shown)))
    kept = [
        at
        for at in range(len(numbers[0]))
        if not any(
            all(row[at][1] == cells[column] for row, cells in zip(numbers, shown, strict=True))
            for column in columns
        )
    ]
    return [tuple(row[at] for at in kept) for row in numbers]


def _size(cell: str) -> str:
    return cell.split(" ")[0].removesuffix("°")


def _fits(rows: Sequence[tuple[Column, ...]], width: int) -> bool:
    if len({tuple(head for head, _ in row) for row in rows}) > 1:
        return False
    columns = zip(*rows, strict=True)
    widths = [max(cell_width(text) for column in found for text in column) for found in columns]
    return max(widths, default=0) <= _WIDEST and sum(widths) + len(GAP) * (len(widths) - 1) <= width


def _told(column: Column) -> str:
    head, cell = column
    if head == "answer" or head.startswith("equation") or head == "lengths":
        return cell
    return f"{head} {cell}" if cell.startswith("≈") else f"{head} = {cell}"
