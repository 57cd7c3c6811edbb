"""How long a mark takes, by hand: ``python tests/bench/marker.py``.

The same pairs of lines (a linear equation, then a move that is right or wrong) go, in one
run and in turn, to

- this marker: both lines read, the second decided, with its reason where it breaks;
- sympy: both lines by ``parse_expr``, their solutions by ``solveset``, and compared;
- sympy: both lines by ``parse_expr``, and ``simplify`` of what must be 0 if they agree;
- maxima, where it is installed: both lines solved in a child process, and compared;
- the floor: one line through this grammar's own parse, and its linear form.

Beside the floor stands the mark of the second line alone: the line above is read by then.
No line is read, marked or parsed from memory; the shapes of lines stay known, as the tables do.
At the end 6,000 pairs go through ``evenline check --jsonl`` as a process of its own.

sympy's ``parse_expr`` evaluates text. It gets generated lines here, never typed ones.
"""

import argparse
import json
import random
import shutil
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from fractions import Fraction
from typing import Any

import sympy
from sympy.parsing.sympy_parser import (
    implicit_multiplication_application,
    parse_expr,
    standard_transformations,
)

from tutor.line.names import Names
from tutor.line.reader import Readings, read, read_before
from tutor.marking.deciding.everyday import form_of
from tutor.marking.task import Task
from tutor.marking.working import Working, start

SEED = 20
TASK = Task(find=("x",))
BEGUN = start(TASK)
NAMES = Names(frozenset({"x"}))
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


def parsed(line: str) -> Any:
    """Return left − right as sympy reads them."""
    left, right = (parse_expr(side, {"x": X}, transformations=HOW) for side in line.split("="))
    return left - right


def by_solveset(lines: Pair) -> bool:
    """Compare the solutions of both lines."""
    found = [sympy.solveset(parsed(line), X, sympy.Reals) for line in lines]
    return bool(found[0] == found[1])


def by_simplify(lines: Pair) -> bool:
    """Tell whether the lines differ by a factor that is a number."""
    first, second = (parsed(line) for line in lines)
    return bool(sympy.simplify(first / second).is_number)


class Maxima:
    """The system of that name as a child process, asked over a pipe."""

    def __init__(self, program: str) -> None:
        self._child = subprocess.Popen(
            [program, "--very-quiet"], stdin=subprocess.PIPE, stdout=subprocess.PIPE, encoding="utf-8"
        )
        self._ask("display2d:false$")

    def _ask(self, text: str) -> str:
        assert self._child.stdin is not None and self._child.stdout is not None
        self._child.stdin.write(f'{text}print("done")$\n')
        self._child.stdin.flush()
        said = ""
        while not said.rstrip().endswith("done"):
            line = self._child.stdout.readline()
            if not line:
                raise AssertionError("maxima ended")
            said += line
        return said

    def __call__(self, lines: Pair) -> bool:
        both = [_with_times(line) for line in lines]
        said = self._ask(f"print(is(equal(rhs(solve({both[0]},x)[1]),rhs(solve({both[1]},x)[1]))))$")
        return "true" in said


def _with_times(line: str) -> str:
    """Write the times sign that maxima wants in ``2x``."""
    return "".join(
        "*x" if sign == "x" and line[at - 1 : at].isdigit() else sign for at, sign in enumerate(line)
    )


def timed(work: Callable[[], bool]) -> tuple[bool, float]:
    """Return what came out and the seconds it took, where nothing was read before."""
    read_before.cache_clear()
    begun = time.perf_counter()
    result = work()
    return result, time.perf_counter() - begun


def marked(lines: Pair) -> bool:
    """Read and mark both lines."""
    return BEGUN.submit(lines[0]).submit(lines[1]).lines[1].mark.verdict.stands


def marked_second(begun: Working, line: str) -> bool:
    """Read and mark a line under one that is there."""
    return begun.submit(line).lines[1].mark.verdict.stands


def floor(line: str) -> bool:
    """Read one line and bring it to its linear form; nothing is decided."""
    match read(line, NAMES):
        case Readings((statement, *_)):
            return form_of(statement) is not None
        case other:
            raise AssertionError(other)


def jsonl_rate(pairs: list[Pair]) -> float:
    """Return the pairs a second of ``evenline check --jsonl``, its start left in."""
    text = "".join(json.dumps({"lines": lines, "find": "x"}) + "\n" for lines in pairs)
    begun = time.perf_counter()
    done = subprocess.run(
        [sys.executable, "-m", "tutor.cli", "check", "--jsonl"],
        input=text,
        capture_output=True,
        encoding="utf-8",
        check=True,
    )
    assert len(done.stdout.splitlines()) == len(pairs)
    return len(pairs) / (time.perf_counter() - begun)


def main() -> None:
    """Time all of them on the same pairs, print medians, the 99th hundredth, and ratios."""
    asked = argparse.ArgumentParser()
    asked.add_argument("--pairs", type=int, default=400)
    asked.add_argument("--jsonl", type=int, default=6000)
    options = asked.parse_args()
    chance = random.Random(SEED)
    pairs = [pair(chance) for _ in range(options.pairs)]
    program = shutil.which("maxima")
    maxima = None if program is None else Maxima(program)
    for lines in pairs[:20]:  # grammars are built and modules loaded before the clock runs
        marked(lines), floor(lines[1]), by_solveset(lines), by_simplify(lines)
    times: dict[str, list[float]] = {}
    kinds: dict[str, list[float]] = {"right": [], "wrong": []}
    for lines in pairs:
        begun = BEGUN.submit(lines[0])
        ways: dict[str, Callable[[], bool]] = {
            "marker, both lines": lambda lines=lines: marked(lines),  # type: ignore[misc]
            "marker, second line": lambda b=begun, lines=lines: marked_second(b, lines[1]),  # type: ignore[misc]
            "floor": lambda lines=lines: floor(lines[1]),  # type: ignore[misc]
            "solveset": lambda lines=lines: by_solveset(lines),  # type: ignore[misc]
            "simplify": lambda lines=lines: by_simplify(lines),  # type: ignore[misc]
        }
        if maxima is not None:
            ways["maxima"] = lambda lines=lines: maxima(lines)  # type: ignore[misc]
        said: dict[str, bool] = {}
        for name, work in ways.items():
            said[name], seconds = timed(work)
            times.setdefault(name, []).append(seconds)
            if name == "marker, both lines":
                kinds["right" if said[name] else "wrong"].append(seconds)
        if len({answer for name, answer in said.items() if name != "floor"}) != 1:
            raise AssertionError(f"they disagree about {lines}: {said}")
    print(f"{len(pairs)} pairs, seed {SEED}; the second line of {len(kinds['wrong'])} breaks")
    medians = {name: statistics.median(each) for name, each in (times | kinds).items()}
    for name, each in (times | kinds).items():
        last = statistics.quantiles(each, n=100)[98]
        print(f"{name:20} median {medians[name] * 1000:8.3f} ms   p99 {last * 1000:8.3f} ms")
    print(f"right lines: solveset / marker {medians['solveset'] / medians['right']:.1f} (aim 20)")
    print(f"wrong lines: solveset / marker {medians['solveset'] / medians['wrong']:.1f}")
    print(f"all lines: solveset / marker {medians['solveset'] / medians['marker, both lines']:.1f} (aim 10)")
    print(f"all lines: simplify / marker {medians['simplify'] / medians['marker, both lines']:.1f}")
    if maxima is not None:
        print(f"all lines: maxima / marker {medians['maxima'] / medians['marker, both lines']:.1f}")
    print(f"second line / floor {medians['marker, second line'] / medians['floor']:.1f} (aim 4 or less)")
    rate = jsonl_rate([pair(chance) for _ in range(options.jsonl)])
    print(
        f"jsonl: {rate:.0f} pairs a second, {rate * medians['solveset']:.1f} times solveset's rate (aim 10)"
    )


if __name__ == "__main__":
    main()
