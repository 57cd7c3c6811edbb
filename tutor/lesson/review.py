"""A review: a mixed set of problems out of other lessons."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import replace
from pathlib import PurePath

from tutor.lesson.model import Lesson, Problem


def mixed(lesson: Lesson, seed: int) -> tuple[Problem, ...]:
    """Return the problems that a review draws for one seed, no two of a lesson in a row where that can be.

    Each lesson gives about as many as every other. Of one lesson the problems that matter most come
    first.
    """
    review = lesson.review
    if review is None:
        return lesson.problems
    queues = [_ordered(other, seed) for other in review.pool]
    queues.sort(key=lambda queue: _rank(seed, queue[0].path if queue else ""))
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


def _ordered(lesson: Lesson, seed: int) -> list[Problem]:
    file = PurePath(lesson.path).name  # not its folder: that differs from machine to machine
    problems = [replace(problem, path=file) for problem in lesson.problems]
    return sorted(problems, key=lambda problem: (not problem.matters, _rank(seed, file, problem.name)))


def _rank(*key: object) -> bytes:
    return hashlib.sha256("\x1f".join(map(str, key)).encode("utf-8")).digest()
