"""A power behind a run of letters belongs to the last letter."""

import pytest

from tutor.line.names import Names
from tutor.line.reader import Readings, read
from tutor.line.writing import write_statement

NAMES = Names(frozenset("AxyrLWabc"))


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("xy²", "x · y^2"),
        ("A = xy^2", "A = x · y^2"),
        ("xy^2 = 3", "x · y^2 = 3"),
        ("3xy²", "3 · x · y^2"),
        ("LW² = 3", "L · W^2 = 3"),
        ("ab^2c", "a · b^2 · c"),
        ("xy^(1/2)", "x · y^(1/2)"),
        ("xy^-2", "x · y^(−2)"),
        ("(xy)²", "(x · y)^2"),
        ("A = πr²", "A = π · r^2"),
        ("A = pir^2", "A = π · r^2"),
    ],
)
def test_the_power_is_of_the_last_letter(text: str, meant: str) -> None:
    found = read(text, NAMES)
    assert isinstance(found, Readings)
    assert write_statement(found.statements[0]) == meant
