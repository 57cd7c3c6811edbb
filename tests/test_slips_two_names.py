"""Numbers in which two moves of the table of slips show alike: both are named.

The lines are ours, in the forms in which the sources of the table print such moves.
"""

import json

import pytest

from tutor.teacher.jsonl import answer_line

_ALIKE = [
    ("3x - 5 = x + 9 → x = 2", "always-subtract-across", "constant-across-unchanged-sign"),
    ("4x - 1 = x + 8 → x = 7/3", "always-subtract-across", "constant-across-unchanged-sign"),
    ("(x + 3)/4 = 8 → x + 3 = 2", "div-undone-by-dividing", "denominator-divided-not-multiplied"),
    ("y^2 = 16 → y = 8", "root-as-half", "square-as-double"),
    ("2/3 x = 12 → x = 8", "fraction-coefficient-multiplied-again", "mult-undone-by-multiplying"),
    ("x^2 + 81 = 225 → x^2 = 306", "plus-undone-by-adding", "leg-squares-added-for-leg"),
    ("12x - 12 = 60 - 12 → x = 48", "mult-undone-by-subtracting", "all-numbers-to-one-side"),
]
_NOT_ALIKE = [
    ("x^2 + 80 = 225 → x^2 = 305", "plus-undone-by-adding", "leg-squares-added-for-leg"),
    ("x/4 = 8 → x = 2", "div-undone-by-dividing", "denominator-divided-not-multiplied"),
    ("x^2 = 16 + 4 → x = 24", None, "square-as-double"),
]


def _names(lines: str) -> tuple[str | None, list[str], str]:
    answer, good = answer_line(json.dumps({"lines": lines.split(" → ")}).encode("utf-8"), 1)
    assert good, answer
    mark = answer["lines"][-1]
    assert mark["verdict"] == "breaks"
    return mark["slip"], mark.get("ties", []), mark["message"]


@pytest.mark.parametrize(("lines", "first", "second"), _ALIKE)
def test_both_are_named(lines: str, first: str, second: str) -> None:
    slip, ties, _message = _names(lines)
    assert slip == first
    assert second in ties


@pytest.mark.parametrize(("lines", "first", "other"), _NOT_ALIKE)
def test_where_the_numbers_tell_them_apart_only_one_is(lines: str, first: str | None, other: str) -> None:
    slip, ties, _message = _names(lines)
    assert first in (None, slip)
    assert other not in (slip, *ties)


def test_two_equal_numbers_are_told_apart_in_words() -> None:
    """``3x − 3 = 30``: not "the 3 was undone before the 3"."""
    slip, _ties, message = _names("3x - 3 = 30 → x = 13")
    assert slip == "two-step-order-reversed"
    assert message == "Maybe all but the 3 was divided by 3. What happens to the 3 then?"
