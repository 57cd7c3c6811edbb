"""The text of labels: widths as a terminal counts them, cuts, and ASCII."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from tutor.figure.lettering import cell_width, clean, cut, in_ascii


def test_every_letter_is_as_wide_as_the_terminal_library_says() -> None:
    # The first two planes and the last tags: between them stand only wide letters of one kind, or nothing.
    codes = (*range(0x20000), *range(0x20000, 0xE0000, 97), *range(0xE0000, 0xE0200))
    letters = (clean("a" + chr(code)) for code in codes)
    assert [text for text in letters if cell_width(text) != cell_len(text)] == []


@given(st.text(max_size=40), st.integers(0, 20))
def test_a_cut_text_is_never_wider_than_its_cells(text: str, cells: int) -> None:
    short = cut(clean(text), cells)
    assert cell_len(short) <= cells
    assert short == clean(text) or short.endswith("…") or short == ""


@given(st.text(max_size=40))
def test_cleaning_twice_changes_nothing_more(text: str) -> None:
    assert clean(clean(text)) == clean(text)


@given(st.text(max_size=40))
def test_ascii_is_ascii_on_one_row(text: str) -> None:
    assert in_ascii(clean(text)).isascii()
    assert in_ascii(clean(text)).isprintable()


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("r = 5 cm", "r = 5 cm"),
        ("  r\t=\n5 ", "r = 5"),
        ("\x1b[31mr", "[31mr"),
        ("[/]", "[/]"),
        ("a\u202eb\u200bc", "abc"),
        ("x" + "\u0301" * 9, "x\u0301\u0301"),
        ("\u0301x", "x"),
        ("\ud800", ""),
    ],
)
def test_what_steers_a_terminal_is_dropped(typed: str, shown: str) -> None:
    assert clean(typed) == shown


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("V = 42 cm³", "V = 42 cm^3"),
        ("∠A = 37°", "angle A = 37 deg"),
        ("2πr", "2pir"),
        ("é", "e"),
        ("半", "?"),
    ],
)
def test_signs_are_written_as_on_a_plain_keyboard(text: str, plain: str) -> None:
    assert in_ascii(text) == plain


@pytest.mark.parametrize(
    ("text", "cells", "shown"),
    [
        ("r = 47", 6, "r = 47"),
        ("r = 47", 5, "r =…"),
        ("半径半径", 5, "半径…"),
        ("abc", 1, "…"),
        ("abc", 0, ""),
    ],
)
def test_a_cut_shows_that_something_is_missing(text: str, cells: int, shown: str) -> None:
    assert cut(text, cells) == shown
