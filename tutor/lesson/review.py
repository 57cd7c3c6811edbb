"""A review: a mixed set of problems out of other lessons."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import replace
from pathlib import PurePath

from tutor.lesson.model import Lesson, Problem


def mixed(lesson: Lesson, seed: int) -> tuple[Problem, ...]:
    """Return the problems that a review draws for one seed, no two of a lesson in a row where that can be.

    Each lesson gives about as many as every other. Of three problems two are of those that matter most,
    as long as there are any.
    """
    review = lesson.review
    if review is None:
        return lesson.problems
    pool = sorted(review.pool, key=lambda other: _rank(seed, _file(other) if other.problems else ""))
    queues = [_ordered(other, seed, place) for place, other in enumerate(pool)]
    taken: list[list[Problem]] = [[] for _queue in queues]
    left = min(review.count, sum(map(len, queues)))
    depth = 0
    while left:
        for place, queue in enumerate(queues):
            if left and depth < len(queue):
                taken[place].append(queue[depth])
                left -= 1
        depth += 1
    return tuple(_apart(taken))


def _apart(taken: Sequence[list[Problem]]) -> list[Problem]:
    """Lay the problems out in turn, from the lesson that has most left."""
    left = [list(found) for found in taken]
    laid: list[Problem] = []
    last = -1
    while any(left):
        order = sorted(range(len(left)), key=lambda place: (-len(left[place]), place))
        places = [place for place in order if left[place]]
        place = next((place for place in places if place != last), places[0])
        laid.append(left[place].pop(0))
        last = place
    return laid


def _file(lesson: Lesson) -> str:
    return PurePath(lesson.path).name  # not its folder: that differs from machine to machine


# In each round that the lessons give a problem, every third of them gives one that matters less.
_ROUND = 3


def _ordered(lesson: Lesson, seed: int, turn: int) -> list[Problem]:
    """Return the problems of a lesson as they are taken; ``turn`` is its place among the lessons."""
    file = _file(lesson)
    problems = [replace(problem, path=file) for problem in lesson.problems]
    problems.sort(key=lambda problem: _rank(seed, file, problem.name))
    most = [problem for problem in problems if problem.matters]
    others = [problem for problem in problems if not problem.matters]
    ordered: list[Problem] = []
    while most or others:
        takes_another = (turn + len(ordered)) % _ROUND == _ROUND - 1
        ordered.append((others if others and (takes_another or not most) else most).pop(0))
    return ordered


def _rank(*key: object) -> bytes:
    return hashlib.sha256("\x1f".join(map(str, key)).encode("utf-8")).digest()
