"""The answers of the unit that ships, worked out beside the program with plain arithmetic.

Each row is the geometry of its problem, written from the question in words and not from the
formulas of the lesson (common practice, no source). The numbers are those of several draws.
"""

import math
from collections.abc import Callable
from itertools import islice
from pathlib import Path

import pytest
from shipped_draws import shipped, shipped_paths

from tutor.lesson.model import Problem
from tutor.marking.solve import solve
from tutor.marking.task import Task

DRAWS = 6

Numbers = dict[str, float]
Answers = dict[str, float]

# Name of the problem: from the numbers that are drawn to what is asked for, in the units asked for.
WORKED: dict[str, Callable[[Numbers], Answers]] = {
    "Paper strips": lambda v: {"n": v["n"]},
    "Broken candles": lambda v: {"n": v["n"]},
    "Shared ribbon": lambda v: {"R": v["k"] * v["q"]},
    "Spare candles": lambda v: {"n": v["n"]},
    "Shorter struts": lambda v: {"s": v["s"]},
    "Lit lanterns": lambda v: {"n": v["t"] * v["m"]},
    "Sheets to give away": lambda v: {"n": v["n"]},
    "Level at last": lambda v: {"h": v["h"]},
    "Two rows of lanterns": lambda v: {"n": v["n"]},
    "Boxes to buy": lambda v: {"b": v["k"] + 1},
    "Strut on a rail": lambda v: {"B": 180 - v["t"]},
    "Corner of a frame": lambda v: {"B": 90 - v["t"]},
    "Crossing struts": lambda v: {"B": 180 - v["t"], "C": v["t"], "D": 180 - v["t"]},
    "Two parts of a rail": lambda v: {
        "A": v["a"] * v["v"] + v["b"],
        "B": 180 - v["a"] * v["v"] - v["b"],
    },
    "Parted corner": lambda v: {"A": v["a"] * v["v"] + v["b"], "B": 90 - v["a"] * v["v"] - v["b"]},
    "Opposite angles": lambda v: {"A": v["a"] * v["v"] + v["b"], "C": v["a"] * v["v"] + v["b"]},
    "Third corner": lambda v: {"C": 180 - v["s"] - v["t"]},
    "Lantern roof": lambda v: {"B": (180 - v["t"]) / 2},
    "Three unequal angles": lambda v: {
        "A": v["v"],
        "B": v["k"] * v["v"],
        "C": 180 - (v["k"] + 1) * v["v"],
    },
    "Ladder and wall": lambda v: {"A": v["t"], "B": 90 - v["t"]},
    "Outside the triangle": lambda v: {"B": v["t"]},
    "Banner": lambda v: {"P": 2 * (v["l"] + v["w"])},
    "Width of a banner": lambda v: {"W": v["w"]},
    "Long banner": lambda v: {"W": v["w"], "L": v["w"] + v["k"]},
    "Pennant": lambda v: {"s": v["s"]},
    "Paper window": lambda v: {"L": v["f"] - 2 * v["b"], "W": v["g"] - 2 * v["b"]},
    "Gold strip": lambda v: {
        "F": v["l"] + 2 * v["b"],
        "G": v["w"] + 2 * v["b"],
        "P": 2 * (v["l"] + v["w"]) + 8 * v["b"],
    },
    "Cord in metres": lambda v: {"C": v["n"] * 4 * v["s"] / 100},
    "Half-moon": lambda v: {"P": v["d"] + 3.14 * v["d"] / 2},
    "Parade loop": lambda v: {"P": 2 * v["s"] + 3.14 * v["d"]},
    "Longer loop": lambda v: {"s": v["s"]},
    "Round the market hall": lambda v: {
        "e": v["a"] - v["c"],
        "f": v["b"] - v["d"],
        "P": 2 * v["a"] + 2 * v["b"],
    },
    "Lanterns on the loop": lambda v: {"n": v["k"] + 1},
    "Hoop": lambda v: {"C": 6.28 * v["r"]},
    "Ribbon round a hoop": lambda v: {"C": 3.14 * v["d"]},
    "Paper disc": lambda v: {"A": 3.14 * v["r"] ** 2},
    "Measured across": lambda v: {"r": v["r"], "A": 3.14 * v["r"] ** 2},
    "Cane into a hoop": lambda v: {"r": v["r"]},
    "Round lantern": lambda v: {"d": 7 * v["k"]},
    "Paper for a disc": lambda v: {"r": v["r"]},
    "Drum of the parade": lambda v: {"A": math.pi * v["r"] ** 2},
    "From the rim to the paper": lambda v: {"r": v["r"], "A": 3.14 * v["r"] ** 2},
    "From the paper to the rim": lambda v: {"r": v["r"], "C": 6.28 * v["r"]},
    "Paper pennant": lambda v: {"A": v["b"] * v["h"] / 2},
    "Height of a pennant": lambda v: {"h": v["h"]},
    "Lantern side": lambda v: {"A": (v["a"] + v["c"]) / 2 * v["h"]},
    "House lantern": lambda v: {
        "wall": v["l"] * v["w"],
        "roof": v["l"] * v["h"] / 2,
        "A": v["l"] * (v["w"] + v["h"] / 2),
    },
    "Wood round a window": lambda v: {
        "board": (v["l"] + 2 * v["b"]) * (v["w"] + 2 * v["b"]),
        "window": v["l"] * v["w"],
        "A": 2 * v["b"] * (v["l"] + v["w"] + 2 * v["b"]),
    },
    "Floor of the market hall": lambda v: {
        "lower": v["a"] * v["b"],
        "upper": v["c"] * v["d"],
        "A": v["a"] * v["b"] + v["c"] * v["d"],
    },
    "Arched window": lambda v: {
        "rectangle": 2 * v["r"] * v["h"],
        "arch": 1.57 * v["r"] ** 2,
        "A": v["r"] * (2 * v["h"] + 1.57 * v["r"]),
    },
    "Box lantern": lambda v: {
        "front": v["l"] * v["h"],
        "side": v["w"] * v["h"],
        "top": v["l"] * v["w"],
        "S": 2 * (v["l"] * v["h"] + v["w"] * v["h"] + v["l"] * v["w"]),
    },
    "Box without a lid": lambda v: {
        "floor": v["l"] * v["w"],
        "front": v["l"] * v["h"],
        "side": v["w"] * v["h"],
        "S": v["l"] * v["w"] + 2 * v["h"] * (v["l"] + v["w"]),
    },
    "Cube lantern": lambda v: {"s": v["s"]},
    "Tent lantern": lambda v: {
        "end": 12 * v["k"] ** 2,
        "floor": 6 * v["k"] * v["l"],
        "slope": 5 * v["k"] * v["l"],
        "S": 24 * v["k"] ** 2 + 16 * v["k"] * v["l"],
    },
    "Sheets of paper": lambda v: {"n": v["k"] + 1},
    "Box of sand": lambda v: {"V": v["l"] * v["w"] * v["h"]},
    "Box of candles": lambda v: {"W": v["w"]},
    "Floor and height": lambda v: {"h": v["h"]},
    "Air in a tent lantern": lambda v: {"B": v["b"] * v["h"] / 2, "V": v["b"] * v["h"] / 2 * v["l"]},
    "Longer tent": lambda v: {"L": v["l"]},
    "Round candle": lambda v: {"V": 3.14 * v["r"] ** 2 * v["h"]},
    "Candle from a block": lambda v: {"h": v["h"]},
    "Width of a candle": lambda v: {"r": v["r"]},
    "Paper cone": lambda v: {"V": 3.14 * v["r"] ** 2 * v["k"]},
    "Height of a cone": lambda v: {"h": v["h"]},
    "Glass ball": lambda v: {"V": 4 * 3.14 * v["r"] ** 3 / 3},
    "Water for the lanterns": lambda v: {"V": v["p"] * v["q"] * v["t"] / 1000},
    "Half-way up": lambda v: {"s": v["a"] / 2, "A": v["a"] ** 2 / 4},
}
IN_WORDS = {"Never the same", "Always the same"}

SOLVED = [
    (path, problem)
    for path in shipped_paths()
    if shipped(path).review is None
    for problem in shipped(path).problems
    if isinstance(problem.task, Task) and problem.task.find
]


def test_every_problem_that_is_solved_has_a_row() -> None:
    assert {problem.name for _, problem in SOLVED} == WORKED.keys() | IN_WORDS


@pytest.mark.parametrize(
    ("path", "problem"), [row for row in SOLVED if row[1].name not in IN_WORDS], ids=lambda one: one.name
)
def test_the_answers_are_those_of_plain_arithmetic(path: Path, problem: Problem) -> None:
    template = problem.template
    assert template is not None, path
    for drawn in islice(template.sequence("answers", problem.name), DRAWS):
        task = drawn.task
        assert isinstance(task, Task)
        numbers = {name: float(value) for name, value in drawn.numbers}
        solution, _ = solve(task)
        assert solution is not None
        wanted = WORKED[problem.name](numbers)
        assert set(task.find) == wanted.keys()
        for name, value in wanted.items():
            found = solution.value(name)
            assert found is not None, (drawn.numbers, name)
            assert math.isclose(found.approx, value), (drawn.numbers, name, found.text)
