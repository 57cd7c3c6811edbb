"""Fresh numbers: the problems of one student, drawn from a recorded seed.

The same lesson and seed give the same numbers on every platform and release: what is drawn
hangs on SHA-256 of the seed, the problem's name and the attempt, and on nothing else.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import islice

from tutor.lesson.filling import fill
from tutor.lesson.keywords import Keyword
from tutor.lesson.model import Fault, Lesson, Problem
from tutor.lesson.outline import Card
from tutor.lesson.problems import Defaults, read_problem
from tutor.lesson.review import mixed
from tutor.lesson.source import Source
from tutor.lesson.variation import Draw, Effort, Variation, every_draw
from tutor.marking.solve import solve
from tutor.marking.task import Task

# The seed of the numbers that are shown where there is no student: on a key, in an audit.
SAMPLE_SEED = 0

# Draws that are filled in, and worked out where their answers must be whole, for one that will do.
_MOST_TRIED = 200

# What that costs, counted as conditions worked out.
_ONE_TRY = 40

_ONLY_SAID = frozenset({Keyword.ASK, Keyword.FIGURE, Keyword.PART, Keyword.MATTERS, Keyword.REASON})


@dataclass(frozen=True, slots=True)
class Template:
    """A problem as it is written, with what its numbers may be."""

    source: Source
    card: Card
    defaults: Defaults
    variation: Variation | None

    @property
    def key(self) -> str:
        """Return the text of the entries that make the problem: where it differs, the problem is another.

        What is only said about it is left out: a question in better words asks for the same work.
        """
        read = self.card.read.items()
        contents = [content for keyword, found in read if keyword not in _ONLY_SAID for content in found]
        ordered = sorted(contents, key=lambda content: content.entry.offset)
        # Where a line of an entry ends is layout: a lesson that was tidied is the same one.
        bodies = (" ".join(content.entry.body.split()) for content in ordered)
        return "\n".join(
            f"{content.entry.keyword.value} {body}" for content, body in zip(ordered, bodies, strict=True)
        )

    def problem(self, draw: Draw | None) -> tuple[Problem, list[Fault]]:
        """Return the problem with the numbers of a draw, and what is wrong with it then."""
        card = self.card
        faults: list[Fault] = []
        if draw is not None:
            card, faults = fill(self.source, self.card, draw, self.defaults.pi)
        problem, more = read_problem(self.source, card, self.defaults)
        numbers = () if draw is None else draw.texts
        return replace(problem, numbers=numbers, template=self), [*faults, *more]

    def sequence(self, *key: object, effort: Effort | None = None) -> Iterator[Problem]:
        """Yield the problem with one draw after the other, in an order that ``key`` settles.

        No more than ``_MOST_TRIED`` draws are tried, and none when the effort is spent.
        """
        if self.variation is None:
            yield self.problem(None)[0]
            return
        for draw in islice(self.variation.sequence(*key), _MOST_TRIED):
            if effort is not None:
                effort.left -= _ONE_TRY
                if effort.left < 0:
                    return
            problem, faults = self.problem(draw)
            if not faults and (not self.variation.whole_answers or answers_whole(problem)):
                yield problem


def answers_whole(problem: Problem) -> bool:
    """Tell whether every answer of a problem is a whole number."""
    if not isinstance(problem.task, Task):
        return True
    solution, _sentences = solve(problem.task)
    if solution is None:
        return False
    found = [solution.value(name) for name in problem.task.find]
    return all(value is not None and value.text.replace("−", "-").lstrip("-").isdigit() for value in found)


def redrawn(problem: Problem, seed: int, attempt: int = 0) -> Problem:
    """Return the problem with the numbers of one attempt; the same one where nothing varies.

    The first attempts have different numbers as long as there are any.
    """
    template = problem.template
    if template is None or template.variation is None:
        return problem
    found: list[Problem] = []
    for one in template.sequence(seed, problem.name):
        if one.task not in (other.task for other in found):
            found.append(one)
        if len(found) > attempt:
            break
    if not found:
        return problem
    return replace(found[attempt % len(found)], path=problem.path)


def drawn(lesson: Lesson, seed: int) -> Lesson:
    """Return the lesson as one student has it."""
    chosen = lesson.problems if lesson.review is None else mixed(lesson, seed)
    return replace(lesson, problems=tuple(redrawn(problem, seed) for problem in chosen))


def draws(problem: Problem, most: int) -> tuple[tuple[Draw, ...], bool]:
    """Return up to ``most`` draws of a problem, and whether these are all that there are."""
    variation = problem.template.variation if problem.template else None
    if variation is None:
        return (), True
    everything = every_draw(variation)
    if everything is not None and len(everything) <= most:
        return everything, True
    return tuple(islice(variation.sequence("audit", problem.name), most)), False
