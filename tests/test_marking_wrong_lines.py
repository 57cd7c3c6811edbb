"""Wrong lines that stood, right lines that broke, reasons that were not true: found by an own oracle.

The lines were made at random, several thousand of each kind, and weighed with exact arithmetic of
their own and with sympy; what differed from the mark stands here, with its like.
"""

import pytest
from marking_cases import LETTERS, X

from tutor.marking.verdict import Reason
from tutor.marking.working import mark_lines

# Lines with " ; " between them, and the letter of each verdict.
VERDICTS: tuple[tuple[str, str], ...] = (
    # Both cases of bars, as every book writes them; what a case supposes is left for the check.
    ("FFFF", "|x − 1| = 2x ; x − 1 = 2x or x − 1 = −2x ; x = −1 or x = 1/3 ; x = 1/3"),
    ("FFB", "|x − 1| = 2x ; x − 1 = 2x or x − 1 = −2x ; x = −1 or x = 1/3"),
    ("FFF", "|x − 1| = 2x ; x − 1 = ±2x ; x = 1/3"),
    (
        "FFFFF",
        "|3x + 9| = 3x + 8 ; 3x + 9 = 3x + 8 or 3x + 9 = −(3x + 8) ; 6x = −17 ; x = −17/6 ; no solution",
    ),
    ("FB", "|x| = −3 ; x = 3 or x = −3"),
    ("FB", "|2x + 1| = −3 ; 2x + 1 = −3 or 2x + 1 = 3"),
    ("FB", "|x − 1| = 2x ; x − 1 = 2x or x + 1 = −2x"),
    # A list with a case that cannot be.
    ("FFF", "|−4 − x| = |x + 2| ; −4 − x = x + 2, −4 − x = −(x + 2) ; x = −3"),
    ("FFF", "|x| = x + 4 ; x = x + 4, x = −(x + 4) ; x = −2"),
    ("FB", "2x = 6 ; x = 3, 3 = 4"),
    # One branch written twice.
    ("FFFB", "x⁴ − 5x² + 4 = 0 ; (x² − 1)(x² − 4) = 0 ; x² = 1 or x² = 4 ; x = ±1 or x = ±1"),
    ("FFFF", "x⁴ − 5x² + 4 = 0 ; (x² − 1)(x² − 4) = 0 ; x² = 1 or x² = 4 ; x = ±1 or x = ±2"),
    # Not compared with what is known, but false at the only value.
    ("FB", "4d² = 81 ; d^12 = 81/4"),
    ("FB", "2x + 5 = 11 ; 2x^20 + 5 = 11"),
    ("FB", "3x = 2 ; x = 6.6660…"),
    ("FB", "3x = 2 ; x = 0.667…"),
    ("FR", "3x = 2 ; x = 0.666…"),
)


@pytest.mark.parametrize(("verdicts", "text"), VERDICTS, ids=[text for _, text in VERDICTS])
def test_verdicts(verdicts: str, text: str) -> None:
    lines = mark_lines(X, [line.replace("d", "x") for line in text.split(" ; ")]).lines
    assert [line.mark.verdict for line in lines] == [LETTERS[letter] for letter in verdicts]


# The line above, the broken line, and what must not be said of it (or the reason that has to be).
NOT_SAID: tuple[tuple[str, str, str], ...] = (
    ("7x + 4 = 7x + 4", "4 + 7x = 2x − 4", "one more"),
    ("3x − 1 < 5 or 2x + 3 > 13", "x < 2 or x > 15", "one more"),
    ("x^4 − 5x^2 + 4 = 0", "(x^2 − 1)(x^2 + 4) = 0", "one more"),
    ("−10 + x < x − 3", "x + 21 1/2 < 35/2 + x", "multiplied by"),
    ("0 ≤ x^2", "x ≥ 0", "halved"),
    ("3/x = 1/4", "x/13 = 4/1", "(1/39)"),
    ("10/x = x", "5(x + 3) = 5(x/10 + 3)", "0.5x²"),
    ("1/4 + 1/6 = 1/x", "12x(1/4 + 1/6) = 12x + 1/x", "12x² + 1"),
)


@pytest.mark.parametrize(("above", "line", "false"), NOT_SAID, ids=[line for _, line, _ in NOT_SAID])
def test_a_reason_says_nothing_false(above: str, line: str, false: str) -> None:
    mark = mark_lines(X, [above, line]).lines[1].mark
    assert mark.reason is not None and mark.reason is not Reason.SYNTAX
    assert false not in mark.message
