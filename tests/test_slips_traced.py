"""A wrong move with right steps before or after it in the same line.

The moves are those of the table of slips (sources there); lines and numbers are ours.
"""

import json
from typing import Any

import pytest

from tutor.teacher.jsonl import answer_line


def _last(lines: list[str], task: dict[str, Any] | None = None) -> dict[str, Any]:
    answer, good = answer_line(json.dumps({"lines": lines, **(task or {})}).encode("utf-8"), 1)
    assert good, answer
    mark: dict[str, Any] = answer["lines"][-1]
    return mark


# A line, what was made of it, and how: the wrong line that was not written stands in the comment.
ROWS = [
    ("2x + 6 = 14", "x = 10", "constant-across-unchanged-sign"),  # 2x = 20
    ("20 = 4n - 8", "3 = n", "constant-across-unchanged-sign"),  # 12 = 4n
    ("x/3 + 2 = 7", "x = 27", "constant-across-unchanged-sign"),  # x/3 = 9
    ("5x + 4 = 2x + 11", "x = 5", "constant-across-unchanged-sign"),  # 3x = 15
    ("4(x + 2) = 20", "x = 7", "constant-across-unchanged-sign"),  # x = 5 + 2
    ("5x + 4 = 2x + 18", "x = 2", "variable-to-other-side-unchanged-sign"),  # 7x = 14
    ("8k - 5 = 2k + 15", "k = 2", "variable-to-other-side-unchanged-sign"),  # 10k = 20
    ("3x + 6 = 18", "x = 6", "constant-removed-one-side-only"),  # 3x = 18
    ("24 = 6a + 3", "4 = a", "constant-removed-one-side-only"),  # 24 = 6a
    ("5(k - 12) = -55", "k = -11", "constant-removed-one-side-only"),  # k = −11 from k − 12 = −11
    ("4y + 8 = 20", "y = 18", "divide-left-side-only-fully"),  # y + 2 = 20
    ("2(p - 7) = 4", "p = 11", "coefficient-removed-one-side-only"),  # p − 7 = 4
    ("5(n - 2) = 28", "n = 6", "first-term-only"),  # 5n − 2 = 28
    ("2(x + 5) + x = 20", "3x = 15", "first-term-only"),  # 2x + 5 + x = 20
    ("4(x + 5) = 26", "x = 6", "second-term-only"),  # x + 20 = 26
    ("5(y + 4) = 20", "y = 11", "factor-added"),  # y + 9 = 20
    ("4(k + 6) = 48", "k = 2", "bracket-joined-first"),  # 24k = 48
    ("20 - (a + 6) = 8", "a = 18", "negative-reaches-first-term-only"),  # 20 − a + 6 = 8
    ("3x - (x - 2) = 10", "2x = 12", "negative-reaches-first-term-only"),  # 3x − x − 2 = 10
    ("7x - 3(x + 4) = 20", "x = 2", "negative-factor-second-sign-lost"),  # 4x + 12 = 20
    ("5 - 2(x - 4) = 7", "-2x = 10", "minus-times-minus-in-bracket"),  # 5 − 2x − 8 = 7
    ("10 - 3(n + 1) = 14", "n + 1 = 2", "subtract-before-bracket"),  # 7(n + 1) = 14
    ("4n + 9 = 26", "n = 2", "unlike-terms-joined"),  # 13n = 26
    ("20 - 3n = 34", "n = 2", "number-minus-term-joined"),  # 17n = 34
    ("60 = 3k + 5k", "4 = k", "coefficients-multiplied-not-added"),  # 60 = 15k
    ("2n + 6n = 32", "n² = 4", "like-terms-gain-a-square"),  # 8n² = 32
    ("(5n - 10)/5 = 6", "n = 16", "cancel-through-a-sum"),  # n − 10 = 6
    ("(2n + 3)/3 = 8", "n = 4", "cancel-a-term"),  # 2n = 8
    ("5y - (-3) = 18", "y = 21/5", "double-minus-ignored"),  # 5y − 3 = 18
    ("(x + 6)^2 = 100", "x^2 = 64", "square-spread-over-a-sum"),  # x² + 36 = 100
    ("2 + 3·4 = x + 5", "x = 15", "left-to-right-only"),  # 20 = x + 5
    ("3x + 6 > 18", "x > 8", "constant-across-unchanged-sign"),  # 3x > 24
    ("4 ≤ 2k - 6", "-1 ≤ k", "constant-across-unchanged-sign"),  # −2 ≤ 2k
    ("3x + 6 < 18", "x < 6", "constant-removed-one-side-only"),  # 3x < 18
    # right steps, then the wrong move
    ("3x + 5 = 26", "x = 21", "coefficient-removed-one-side-only"),  # 3x = 21
    ("5x + 4 = 2x + 19", "x = 15", "coefficient-removed-one-side-only"),  # 3x = 15
    ("2x + 1 = 9", "x = 16", "mult-undone-by-multiplying"),  # 2x = 8
    ("x/4 + 1 = 9", "x = 2", "div-undone-by-dividing"),  # x/4 = 8
    ("(2/3)x + 1 = 13", "x = 8", "fraction-coefficient-multiplied-again"),  # (2/3)x = 12
    ("2x/3 + 1 = 10", "2x = 3", "denominator-divided-not-multiplied"),  # 2x/3 = 9
    ("3x + 4 = 40", "x = 1/12", "quotient-upside-down"),  # 3x = 36
    ("7 - 3p = 22", "p = 5", "sign-dropped-when-dividing"),  # −3p = 15
]


@pytest.mark.parametrize(("above", "typed", "name"), ROWS)
def test_the_move_is_traced(above: str, typed: str, name: str) -> None:
    mark = _last([above, typed])
    assert (mark["verdict"], mark["slip"]) == ("breaks", name), mark["message"]
    assert len(mark["message"]) <= 120
    start, end = mark["span"]
    assert 0 <= start < end <= len(typed)


def test_with_the_numbers_of_a_problem() -> None:
    task = {"formula": "P = 2L + 2W", "givens": {"P": "40 m", "L": "9 m"}, "find": "W", "units": "m"}
    mark = _last(["40 = 18 + 2W", "W = 29"], task)  # 2W = 40 + 18
    assert mark["slip"] == "constant-across-unchanged-sign"


@pytest.mark.parametrize(
    ("above", "typed"),
    [
        ("3(x + 4) = 16", "x = 4"),  # by 3x + 4 = 16 or by x + 12 = 16
        ("2x + 6 = 14", "x = 5"),  # by nothing that is known
        ("10 - 3x > 22", "x < 4"),  # that is about the sign
        ("6(n + 2) = -18", "6n - 12 = -18"),  # worth as much as 18n = −18, but that was not done
    ],
)
def test_nothing_is_told_where_more_or_less_than_one_move_remains(above: str, typed: str) -> None:
    assert _last([above, typed])["slip"] in (None, "copy-slip")


def test_no_number_of_a_line_in_between_is_given_away() -> None:
    """21 in 3x = 21 would be a step of the solution."""
    assert "21" not in _last(["3x + 5 = 26", "x = 21"])["message"]


def test_what_explains_as_much_is_said() -> None:
    """Opened wrongly and moved as it should be, or opened as it should be and moved wrongly."""
    mark = _last(["3x - (x - 2) = 10", "2x = 12"])
    assert mark["slip"] == "negative-reaches-first-term-only"
    assert "constant-across-unchanged-sign" in mark["ties"]
    assert "ties" not in _last(["3x = 12", "x = 9"])
