"""A line that is built again from another of its shape is what would be read afresh, place for place."""

import random
import re

import pytest
from line_fuzzing import NAMES, lines
from line_maker import linear_line
from test_line_printed import PRINTED, UNREAD, names_of

from tutor.line.alike import MAX_SHAPES, Shapes, taken_apart
from tutor.line.names import Names
from tutor.line.reader import Readings, read, read_afresh
from tutor.line.tree import Statement
from tutor.line.writing import write_statement

_RUNS = re.compile("[0-9]+")


def with_other_digits(text: str, chance: random.Random) -> str:
    """Put other digits in the place of each run: most of them short, some of them long."""

    def other(run: re.Match[str]) -> str:
        length = chance.choice((1, 1, 2, len(run[0]), chance.randint(1, 6)))
        return "".join(chance.choice("0123456789") for _ in range(length))

    return _RUNS.sub(other, text)


def afresh(text: str, names: Names) -> Statement | None:
    found = read_afresh(text, names)
    return found.statements[0] if isinstance(found, Readings) and len(found.statements) == 1 else None


def same_and_built(text: str, names: Names, chance: random.Random) -> int:
    """Compare lines of one shape with what they are read as afresh; return how many were built again."""
    shapes = Shapes()
    first = afresh(text, names)
    if first is None:
        return 0
    for _ in range(2):
        shapes.keep(names, taken_apart(text), text, first)
    built = 0
    for _ in range(3):
        other = with_other_digits(text, chance)
        again = shapes.get(names, taken_apart(other), other)
        if again is not None:
            found = read_afresh(other, names)
            assert isinstance(found, Readings), (text, other, found)
            assert repr(found.statements) == repr((again,)), (text, other)
            assert write_statement(again) == write_statement(found.statements[0]), (text, other)
            built += 1
    return built


def test_lines_of_any_kind() -> None:
    chance = random.Random(4)
    built = sum(
        same_and_built(text, names, chance) for text in lines(71, 4000) for names in (NAMES[1], NAMES[2])
    )
    assert built > 2000


def test_equations() -> None:
    chance = random.Random(5)
    names = Names(frozenset({"x"}))
    built = sum(same_and_built(linear_line(chance).text, names, chance) for _ in range(1000))
    assert built > 1500


def test_printed_lines() -> None:
    chance = random.Random(6)
    built = sum(same_and_built(row[0], names_of(row[0]), chance) for row in (*PRINTED, *UNREAD))
    assert built > 800


def test_a_line_is_built_again_from_its_second_twin_on() -> None:
    shapes, names = Shapes(), Names(frozenset({"x"}))
    for at, text in enumerate(("2x + 14 = 3x", "5x + 3 = 7x", "12x + 104 = 99x")):
        assert (shapes.get(names, taken_apart(text), text) is None) == (at < 2)
        first = afresh(text, names)
        assert first is not None
        shapes.keep(names, taken_apart(text), text, first)
    assert shapes.get(Names(frozenset({"y"})), taken_apart("2x + 14 = 3x"), "2x + 14 = 3x") is None


@pytest.mark.parametrize(
    ("text", "other"),
    [
        ("A = 12 cm^2", "A = 12 cm^3"),  # the power is a part of the unit
        ("x_1 = 3", "x_2 = 3"),  # a name
        ("∠1 = 35°", "∠2 = 35°"),
        ("x = 3 1/2", "x = 3 1/0"),  # one mixed number, and none
        ("x = root(3, 8)", "x = root(1, 8)"),  # an index, and none
        ("x = 1,250", "x = 1,25"),  # groups of three digits, and a comma for a point
        ("b1 = 3", "b2 = 3"),
        ("x = 0.333...", "x = 0.3..."),
        ("12) 2x = 8", "123) 2x = 8"),  # a number in front, and a bracket that closes nothing
        ("x = 1000", "x = 12345"),  # the digits of a longer run do not belong to a shorter one
        ("v = 3 km/h^99", "v = 3 km/h^2"),  # no unit, and one
        ("x = 2 to the power 12", "x = 2 to the power 12345"),
    ],
)
def test_digits_that_decide_how_a_line_is_read(text: str, other: str) -> None:
    names = names_of(text)
    for _ in range(3):
        read(text, names)
    assert repr(read(other, names)) == repr(read_afresh(other, names))


def test_the_memory_stays_small() -> None:
    shapes, names = Shapes(), Names(frozenset({"x"}))
    statement = afresh("x = 1", names)
    assert statement is not None
    for at in range(3 * MAX_SHAPES):
        text = f"x = 1{' ' * (at % 300)}{'x' * (at // 300)}"
        shapes.keep(names, taken_apart(text), text, statement)
    assert shapes.size <= MAX_SHAPES
