"""The deeper look at a lesson that reads: can each problem be worked out, drawn and shown?

How much is looked at is counted in draws and never by the clock, so every machine says the same.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from tutor.lesson.auditing import hidden, marked, numbers, sound, wording, written
from tutor.lesson.auditing.case import Budget, Case, Remark
from tutor.lesson.auditing.trying import Tries, tries
from tutor.lesson.auditing.wording import ASK_WIDTH
from tutor.lesson.filling import fill
from tutor.lesson.fresh import Template, answers_whole
from tutor.lesson.mathematics import parts_of
from tutor.lesson.model import Fault, Lesson, Problem
from tutor.lesson.problems import read_problem
from tutor.lesson.variation import Draw
from tutor.marking.solve import Solution, solve
from tutor.marking.task import Task

__all__ = ["ASK_WIDTH", "Audited", "audit", "audited"]

# Draws of a whole lesson in a quick audit, and of one problem in any.
QUICK = 48
MOST_OF_A_PROBLEM = 40


@dataclass(frozen=True, slots=True)
class Audited:
    """What an audit found, in the order of the file.

    ``faults`` would stop a student, ``advice`` would make the lesson better. ``tried`` of about
    ``draws`` draws were looked at; ``every``: there are no others.
    """

    faults: tuple[Fault, ...]
    advice: tuple[Fault, ...]
    tried: int
    draws: int
    every: bool


def audit(lesson: Lesson) -> tuple[Fault, ...]:
    """Return what a student would trip over, in the order of the file; empty for a good lesson."""
    return audited(lesson).faults


def audited(lesson: Lesson, *, thorough: bool = False) -> Audited:
    """Look a lesson over. ``thorough``: up to 40 draws of every problem, and every line of its solution.

    Of a review the problems of its sample are looked at, for faults alone: advice is given where
    they are written.
    """
    thorough = thorough and lesson.review is None
    most = MOST_OF_A_PROBLEM if thorough else _share(lesson)
    budget = Budget()
    found = [_Looked(problem, most, budget, thorough=thorough) for problem in lesson.problems]
    remarks = [remark for one in found for remark in one.remarks()]
    told = sorted(remarks, key=lambda remark: (remark.fault.path, remark.fault.line, remark.fault.column))
    varied = [one.tries for one in found if one.varies]
    return Audited(
        faults=tuple(remark.fault for remark in told if not remark.advice),
        advice=tuple(remark.fault for remark in told if remark.advice and lesson.review is None),
        tried=sum(len(one.draws) for one in varied),
        draws=sum(len(one.draws) if one.every else one.size for one in varied),
        every=all(one.every for one in varied),
    )


def _share(lesson: Lesson) -> int:
    """Return how many draws of each problem a quick audit tries."""
    if lesson.review is not None:
        return 1
    varied = sum(_varies(problem) for problem in lesson.problems)
    share = (QUICK - (len(lesson.problems) - varied)) // max(1, varied)
    return min(max(1, share), MOST_OF_A_PROBLEM)


def _varies(problem: Problem) -> bool:
    return problem.template is not None and problem.template.variation is not None


_Check = Callable[[Case], Iterator[Remark]]

# Looked at with every draw, the second row where the first finds nothing; what the numbers do not
# change is looked at once.
_SOUND: tuple[_Check, ...] = (
    sound.worked_out,
    sound.goals_reached,
    sound.agrees_with_itself,
    sound.angles_exist,
    sound.can_be_drawn,
)
_OF_ITS_NUMBERS: tuple[_Check, ...] = (
    numbers.readable_answers,
    numbers.ending_answers,
    numbers.counted_answers,
    hidden.hidden_slips,
)
_ONCE: tuple[_Check, ...] = (
    sound.sizes_agree,
    sound.asks_for_units,
    wording.fits_the_page,
    wording.plain_words,
    wording.units_once,
    wording.fits_beside_the_figure,
    written.pieces_used,
    written.conditions_work,
)


class _Looked:
    """One problem, looked at with some of its draws."""

    def __init__(self, problem: Problem, most: int, budget: Budget, *, thorough: bool) -> None:
        self._budget, self._thorough = budget, thorough
        self._template = problem.template
        self.tries = tries(self._template, problem.name, most) if self._template else Tries((None,), True, 1)
        self.varies = _varies(problem)

    def remarks(self) -> Iterator[Remark]:
        """Yield what was seen: each kind of remark once at a place, with the first draw that shows it."""
        if self._template is None:
            return
        seen: dict[tuple[str, int, int], list[tuple[Draw | None, Remark]]] = {}
        count = 0
        for draw in self.tries.draws:
            case, unread = _case(self._template, draw, self._budget)
            if case is not None and self._left_out(case):
                continue
            count += 1
            for kind, remark in self._looked(case, count) if case is not None else unread:
                key = (kind, remark.fault.line, remark.fault.column)
                seen.setdefault(key, []).append((draw, remark))
        for found in seen.values():
            yield _told(found, count)

    def _left_out(self, case: Case) -> bool:
        """Tell whether nobody is given these numbers, since an answer is not whole."""
        variation = case.template.variation
        return variation is not None and variation.whole_answers and not answers_whole(case.problem)

    def _looked(self, case: Case, count: int) -> Iterator[tuple[str, Remark]]:
        faults = [(check.__name__, remark) for check in _SOUND for remark in check(case)]
        yield from faults
        for check in _ONCE if count == 1 else ():
            for at, remark in enumerate(check(case)):  # several things may be said of one place
                yield f"{check.__name__} {at}", replace(remark, named=True)
        if faults:  # what more there is to say hangs on numbers that will change
            return
        for check in _OF_ITS_NUMBERS:
            yield from ((check.__name__, remark) for remark in check(case))
        if self._thorough or count == 1:
            found = marked.marked(case, every_line=self._thorough)
            yield from (("marked", remark) for remark in found)


def _case(
    template: Template, draw: Draw | None, budget: Budget
) -> tuple[Case | None, list[tuple[str, Remark]]]:
    """Return a problem with the numbers of a draw, or what cannot be read then."""
    card, faults = template.card, list[Fault]()
    if draw is not None:
        card, faults = fill(template.source, card, draw, template.defaults.pi)
    problem, more = read_problem(template.source, card, template.defaults)
    if faults or more:
        named = (Remark(fault, named=fault.message.startswith("With ")) for fault in (*faults, *more))
        return None, [("read", remark) for remark in named]
    solution: Solution | None = None
    sentences: tuple[str, ...] = ()
    if isinstance(problem.task, Task) and problem.task.find:
        solution, sentences = solve(problem.task)
    return Case(template, draw, problem, card, parts_of(card), solution, sentences, budget), []


def _told(found: list[tuple[Draw | None, Remark]], count: int) -> Remark:
    """Return one remark for all draws that show it; the first is named where others do not."""
    draw, remark = found[0]
    alike = len(found) == count > 1 and len({one.fault.message for _draw, one in found}) == 1
    if draw is None or remark.named or alike:
        return remark
    return replace(remark, fault=replace(remark.fault, message=f"With {draw}: {remark.fault.message}"))
