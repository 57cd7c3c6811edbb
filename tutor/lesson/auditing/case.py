"""One problem with the numbers of one draw, ready to be looked at, and what is said of it."""

from __future__ import annotations

from dataclasses import dataclass, field

from tutor.lesson.fresh import Template
from tutor.lesson.keywords import Keyword
from tutor.lesson.mathematics import Parts
from tutor.lesson.model import Fault, Problem
from tutor.lesson.outline import Card
from tutor.lesson.source import Source
from tutor.lesson.variation import Draw
from tutor.marking.solve import Solution
from tutor.marking.task import AnyTask, Task


@dataclass(frozen=True, slots=True)
class Remark:
    """Something that was seen. ``advice``: the lesson can be used as it is, and could be better.

    ``named``: the message names the draw itself.
    """

    fault: Fault
    advice: bool = False
    named: bool = False


@dataclass(slots=True)
class Budget:
    """How much may still be looked at in one lesson, counted in pieces of formulas.

    A lesson of a school hour needs a tenth of it; without an end a hostile one would take minutes.
    """

    left: int = 400_000

    def spend(self, pieces: int) -> bool:
        """Take from what is left; tells whether there was enough."""
        self.left -= pieces
        return self.left >= 0


@dataclass(frozen=True, slots=True)
class Case:
    """A problem with the numbers of a draw, None where nothing varies.

    ``solution`` and ``sentences`` are those of ``solve``, None and () where no value is asked for.
    """

    template: Template
    draw: Draw | None
    problem: Problem
    card: Card
    parts: Parts
    solution: Solution | None
    sentences: tuple[str, ...]
    budget: Budget = field(compare=False)

    @property
    def source(self) -> Source:
        """Return the text that the problem stands in."""
        return self.template.source

    @property
    def task(self) -> AnyTask:
        """Return what is to be worked out."""
        return self.problem.task

    @property
    def solved(self) -> tuple[Task, Solution] | None:
        """Return the task and its solution, None where no value is asked for or none is found."""
        if isinstance(self.task, Task) and self.solution is not None:
            return self.task, self.solution
        return None

    def at(self, keyword: Keyword, message: str, instead: str = "") -> Fault:
        """Return a fault at what stands after a keyword, or at the problem where it has none."""
        content = self.card.one(keyword)
        head = self.card.head.offset if self.card.head else 0
        return self.source.fault(content.first.start if content else head, message, instead)
