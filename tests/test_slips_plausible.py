"""Changes of no known kind: a move that is worth the same is not told where the writing speaks against it.

The lines are random changes of right lines, found among some thousands; numbers and letters are ours.
"""

import json
from typing import Any

import pytest

from tutor.teacher.jsonl import answer_line


def _last(lines: list[str], task: dict[str, Any]) -> dict[str, Any]:
    answer, good = answer_line(json.dumps({"lines": lines, **task}).encode("utf-8"), 1)
    assert good, answer
    mark: dict[str, Any] = answer["lines"][-1]
    return mark


@pytest.mark.parametrize(
    ("lines", "never"),
    [
        # What was multiplied out stands there as it should; another term was changed.
        (["3(x + 4) + 9x", "3x + 12 + 7x"], "second-term-only"),
        (["9(t + 7) + 4t", "9t + 63 - 4t"], "second-term-only"),
        (["42/12 + 8/12", "50/12 + 6"], "place-value-slip"),
        (["4 + 20 - 8", "15 + 17"], "smaller-from-larger"),
        (["3^2 - 12 * 2", "9 - 24 + 9"], "left-to-right-only"),
        # Its sentence speaks of the sign =.
        (["4 + x + 4 >= 3 + 5", "4 + x - 4 >= 3 + 5"], "answer-comes-next"),
        # A term got lost.
        (["4 + 2 * 2 - 8", "4 + 4"], "smaller-from-larger"),
        # The 3 that is said to be gone is still there.
        (["3 - 7(k - 4) = -53", "3 - 7k + 25 = -53"], "constant-removed-one-side-only"),
        # Nothing was multiplied on the right side.
        (["3x = 36", "x = 12", "2x = 12"], "fact-slip"),
        # There was no sign to be lost.
        (["3n = 48", "n = -16"], "sign-dropped-when-dividing"),
        # The longest side is asked: its square is a sum. Twice 6 and twice 8 make 28 as well.
        (["5^2 + 12^2 = x^2", "x^2 = 12^2 - 5^2"], "leg-squares-added-for-leg"),
        (["6^2 + 8^2 = x^2", "x^2 = 8^2 - 6^2"], "square-as-double"),
        # The root was undone, on the left side only.
        (["√(x + 1) = 3", "x + 1 = 3"], "hypotenuse-without-root"),
        # Only the sign of 17 is another.
        (["13m + 17 = 4m + 17", "9m - 17 = 17"], "subtract-in-opposite-orders"),
        # The half is there: 18 · 5 is another number.
        (["A = 4·18 + 18·5/2", "A = 72 + 180/2"], "triangle-half-forgotten"),
        # The way around is still written.
        (["2·7 + 2·4", "2·7 + 2·7"], "area-given-for-perimeter"),
        # Every face is counted twice.
        (["2·15·4 + 2·15·11 + 2·4·11", "2(15·2 + 15·11 + 4·11)"], "surface-faces-not-doubled"),
        # The lines of fractions are no signs for dividing.
        (["18/6 + 27/6", "15/3"], "left-to-right-only"),
        # The right value, rounded to cents.
        (["x = 0.075·19.99", "x = 1.50"], "early-rounding"),
        # One side is as right steps make it; the number, or the coefficient, is another.
        (["2m - 12 = 12", "4m = 24"], "constant-removed-one-side-only"),
        (["9y - 3 = -12", "4.5y = -9"], "unlike-terms-joined"),
        (["t/4 + 8 = 14", "t/4 = 12"], "larger-denominator-kept"),
        (["-9k - 11 = -110", "-9k = -49.5"], "unlike-terms-joined"),
        # A part of the way around still stands; no two terms were joined.
        (["2·5 + 2·10", "10 + 40"], "area-given-for-perimeter"),
        (["2(4·8 + 4·2 + 8·2)", "64 + 32 + 32"], "left-to-right-only"),
        # A bracket and an equation stand for no angle.
        (["-8(y - 12) = 120", "-8y + 96 = 60"], "protractor-wrong-scale"),
        # What the line in between worked out right is nothing to go wrong with once more.
        (["A = 3·15 + 8·21/2", "A = 45 + 168/2", "A = 140"], "fact-slip"),
        (["-1(2m + 7) - 3m", "-2m - 7 - 3m", "-5m + 7"], "negative-reaches-first-term-only"),
        # Nothing divided by anything stays nothing.
        (["10(k - 7) = 0", "5k - 70 = 0"], "divide-only-the-x-term"),
    ],
)
def test_the_writing_speaks_against_a_move(lines: list[str], never: str) -> None:
    mark = _last(lines, {})
    assert mark["verdict"] == "breaks"
    assert mark["slip"] != never, mark["message"]


_BOX = {
    "formula": "S = 2 L W + 2 L H + 2 W H",
    "givens": {"L": "4 m", "W": "14 m", "H": "12 m"},
    "find": "S",
    "units": "m²",
}
_LONGEST = {
    "formula": "c^2 = a^2 + b^2",
    "givens": {"a": "6 cm", "b": "8 cm"},
    "find": "c",
    "units": "cm",
}
_TRIANGLE = {"formula": "A = 1/2 b h", "givens": {"b": "8 cm", "h": "15 cm"}, "find": "A", "units": "cm²"}


@pytest.mark.parametrize(
    ("task", "lines", "never"),
    [
        # The sum is not made of the faces, counted once.
        (_BOX, ["S = 2*4*14 + 2*4*12 + 2*14*12", "S = 112 + 96 + 64"], "surface-faces-not-doubled"),
        # The longest side is asked.
        (_LONGEST, ["c^2 = 6^2 + 8^2", "c^2 = 12 + 16"], "leg-squares-added-for-leg"),
        (_LONGEST, ["c^2 = 8^2 - 6^2"], "leg-squares-added-for-leg"),
        ({"find": "c"}, ["a^2 + b^2 = c^2", "c^2 = b^2 - a^2"], "leg-squares-added-for-leg"),
        # One number of the right formula is another.
        (
            {**_BOX, "givens": {"L": "18 m", "W": "6 m", "H": "3 m"}},
            ["S = 2*18*5 + 2*18*3 + 2*6*3"],
            "volume-given-for-surface-area",
        ),
        (
            {"formula": "P = 2L + 2W", "givens": {"L": "12 m", "W": "4 m"}, "find": "P", "units": "m"},
            ["P = 2 * 12 - 2 * 4"],
            "two-sides-only-perimeter",
        ),
        (
            {**_TRIANGLE, "formula": "A = 1/2 h (a + b)", "givens": {"a": "9 cm", "b": "3 cm", "h": "8 cm"}},
            ["A = 1/2 * 8 * (9 - 3)"],
            "trapezoid-one-base",
        ),
        # The base was replaced, not the height; a side as long as this meets no other side.
        (_TRIANGLE, ["A = 1/2 * 11 * 15"], "slant-side-as-height"),
        (_TRIANGLE, ["A = 1/2 * 8 * 27"], "slant-side-as-height"),
        # No angle is measured here.
        (_TRIANGLE, ["A = 60", "A = 120 cm²"], "protractor-wrong-scale"),
        # Of three factors one was left out.
        (_TRIANGLE, ["A = 1/2 * 8 * 15", "A = 4"], "whole-number-multiplies-both-parts"),
    ],
)
def test_a_formula_that_was_typed_is_not_taken_for_another(
    task: dict[str, Any], lines: list[str], never: str
) -> None:
    mark = _last(lines, task)
    assert mark["verdict"] == "breaks"
    assert mark["slip"] != never, mark["message"]


def test_a_fraction_is_named_as_it_is_written() -> None:
    assert "3/8" in _last(["(3/8)y = -12", "y = -12"], {})["message"]
