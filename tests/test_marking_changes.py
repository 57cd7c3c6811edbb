"""The shipped lesson, worked honestly with one number changed: every false line is caught.

The oracle puts the true values into the changed line in plain floats. A line that is off by more
than any rounding is false, and must not stand.
"""

import re
from collections.abc import Iterator

import pytest
from marking_ways import WAYS, shipped_tasks

from tutor.line import tree
from tutor.line.names import Names
from tutor.line.reader import Readings, read
from tutor.line.tree import Expr
from tutor.marking.working import start

# What is so in the shipped problems, in the unit that is asked for.
TRUTH: dict[str, dict[str, float]] = {
    "Paper strips": {"n": 12},
    "Struts": {"A": 72, "B": 108, "x": 20},
    "Box of candles": {"V": 756, "L": 14, "W": 9, "H": 6},
    "Hoop": {"C": 53.38, "r": 8.5, "d": 17},
    "Parade loop": {"P": 150.5, "s": 36, "d": 25},
    "Paper window": {"F": 48, "G": 35, "b": 4.5, "L": 39, "W": 26},
}
_NUMBER = re.compile(r"(?<![\d.^/])(?<!\^)\d+(?:\.\d+)?(?![\d.]|\s*[½/]\d)")


def size(expr: Expr, values: dict[str, float]) -> float:
    """The value of a line's tree in plain floats; pi is 3.14 as in the shipped lesson."""
    match expr:
        case tree.Num(value):
            return float(value)
        case tree.Name(name):
            return values[name]
        case tree.PiSign():
            return 3.14
        case tree.Neg(inner):
            return -size(inner, values)
        case tree.Add(terms):
            return sum(size(term, values) for term in terms)
        case tree.Mul(factors):
            product = 1.0
            for factor in factors:
                product *= size(factor, values)
            return product
        case tree.Div(top, bottom):
            return size(top, values) / size(bottom, values)
        case tree.Measure(inner, _):
            return size(inner, values)
        case _:
            raise AssertionError(expr)


def is_off(text: str, values: dict[str, float]) -> bool:
    """Tell whether a line is plainly false of the problem: off by more than any rounding."""
    found = read(text, Names(frozenset(values)))
    if not isinstance(found, Readings):
        return False
    statement = found.statements[0]
    parts = statement.parts if isinstance(statement, tree.Joined) else (statement,)
    for part in parts:
        if not isinstance(part, tree.Chain) or any(isinstance(side, tree.Hole) for side in part.sides):
            continue
        try:
            sizes = [size(side, values) for side in part.sides]
        except ZeroDivisionError:
            return True
        if any(abs(one - sizes[0]) > 0.004 * max(abs(one), abs(sizes[0]), 1e-9) for one in sizes):
            return True
    return False


def changed(line: str) -> Iterator[str]:
    """A line with one of its numbers changed, each in two ways."""
    for found in _NUMBER.finditer(line):
        whole = float(found[0])
        for other in (f"{whole + 1:g}", f"{abs(whole - 2) * 10:g}"):
            yield line[: found.start()] + other + line[found.end() :]


@pytest.mark.parametrize("name", TRUTH)
def test_any_single_number_change_in_the_shipped_lesson_is_caught(name: str) -> None:
    task = shipped_tasks()[name]
    missed = []
    tried = 0
    for way in WAYS[name]:
        work = start(task)
        for line in way:
            # A line in other units than the answer's is not judged by this oracle.
            wrong = [] if "mm" in line or "0.09" in line else changed(line)
            for other in wrong:
                if is_off(other, TRUTH[name]):
                    tried += 1
                    if work.submit(other).lines[-1].mark.verdict.stands:
                        missed.append(([above.text for above in work.lines], other))
            work = work.submit(line)
    assert tried > 90
    assert missed == []
