"""How long a mark takes, by hand: ``python tests/bench/marker.py``.

The same pairs of lines (a linear equation, then a move that is right or wrong) go, in one
run and in turn, to

- this marker: both lines read, the second decided, with its reason and its account;
- sympy: both lines by ``parse_expr``, their solutions by ``solveset``, and compared;
- the floor: one line through this grammar's lark parser, and its two sides made exact.

sympy's ``parse_expr`` evaluates text. It gets generated lines here, never typed ones.
"""

import random
import statistics
import time
from collections.abc import Callable
from fractions import Fraction

import sympy
from sympy.parsing.sympy_parser import (
    implicit_multiplication_application,
    parse_expr,
    standard_transformations,
)

from tutor.line.meaning import value_of
from tutor.line.reader import Readings, read
from tutor.line.tree import Chain
from tutor.marking.task import Task
from tutor.marking.working import start

PAIRS = 400
SEED = 20
TASK = Task(find=("x",))
BEGUN = start(TASK)
X = sympy.Symbol("x")
HOW = (*standard_transformations, implicit_multiplication_application)

Pair = tuple[str, str]


def joined(x_times: int, number: int) -> str:
    """Return ``ax + b`` as a student writes it."""
    term = {1: "x", -1: "-x"}.get(x_times, f"{x_times}x")
    if not x_times:
        return str(number)
    return f"{term} {'-' if number < 0 else '+'} {abs(number)}" if number else term


def pair(chance: random.Random) -> Pair:
    """Return an equation and a move: something taken from both sides, or divided; every third one slips."""
    a, b, c = chance.choice([2, 3, 4, 5, 6, 7, 8, 9, 12]), chance.randint(-30, 30), chance.randint(0, 5)
    c += a == c
    answer = chance.randint(-12, 12)
    d = (a - c) * answer + b
    line = f"{joined(a, b)} = {joined(c, d)}"
    slip = chance.choice([0, 0, 1]) * chance.choice([-2, -1, 1, 3])
    move = chance.choice(["numbers", "letters", "both", "answer"])
    match move:
        case "numbers":
            return line, f"{joined(a, 0)} = {joined(c, d - b + slip)}"
        case "letters":
            return line, f"{joined(a - c, b)} = {d + slip}"
        case "both":
            return line, f"{joined(a - c, 0)} = {d - b + slip}"
        case _:
            return line, f"x = {Fraction(d - b, a - c) + slip}"


def by_marker(lines: Pair) -> bool:
    """Mark the second line under the first."""
    return BEGUN.submit(lines[0]).submit(lines[1]).lines[1].mark.verdict.stands


def by_sympy(lines: Pair) -> bool:
    """Compare the solutions of both lines."""
    found = []
    for line in lines:
        left, right = (parse_expr(side, {"x": X}, transformations=HOW) for side in line.split("="))
        found.append(sympy.solveset(left - right, X, sympy.Reals))
    return bool(found[0] == found[1])


def by_floor(lines: Pair) -> bool:
    """Read one line and make its sides exact; nothing is decided."""
    match read(lines[1]):
        case Readings((Chain((left, right)), *_)):
            return value_of(left) == value_of(right)
        case other:
            raise AssertionError(other)


def timed(work: Callable[[Pair], bool], lines: Pair) -> tuple[bool, float]:
    """Return what came out and the seconds it took."""
    begun = time.perf_counter()
    result = work(lines)
    return result, time.perf_counter() - begun


def main() -> None:
    """Time all three on the same pairs, print medians, the 99th hundredth, and ratios."""
    chance = random.Random(SEED)
    pairs = [pair(chance) for _ in range(PAIRS)]
    ways: dict[str, Callable[[Pair], bool]] = {"marker": by_marker, "sympy": by_sympy, "floor": by_floor}
    for work in ways.values():
        for lines in pairs[:5]:
            work(lines)  # grammars are built and modules loaded before the clock runs
    times: dict[str, list[float]] = {name: [] for name in ways}
    broken = 0
    for lines in pairs:
        said = {}
        for name, work in ways.items():
            said[name], seconds = timed(work, lines)
            times[name].append(seconds)
        if said["marker"] != said["sympy"]:
            raise AssertionError(f"marker and sympy disagree about {lines}")
        broken += not said["marker"]
    print(f"{PAIRS} pairs, seed {SEED}; the second line of {broken} breaks, and gets its reason")
    medians = {name: statistics.median(each) for name, each in times.items()}
    for name, each in times.items():
        last = statistics.quantiles(each, n=100)[98]
        print(f"{name:8} median {medians[name] * 1000:8.3f} ms   p99 {last * 1000:8.3f} ms")
    print(f"sympy / marker {medians['sympy'] / medians['marker']:.1f}")
    print(f"marker / floor {medians['marker'] / medians['floor']:.1f}")


if __name__ == "__main__":
    main()
