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
        # A term got lost.
        (["4 + 2 * 2 - 8", "4 + 4"], "smaller-from-larger"),
        # The 3 that is said to be gone is still there.
        (["3 - 7(k - 4) = -53", "3 - 7k + 25 = -53"], "constant-removed-one-side-only"),
        # There was no sign to be lost.
        (["3n = 48", "n = -16"], "sign-dropped-when-dividing"),
        # Only the sign of 17 is another.
        (["13m + 17 = 4m + 17", "9m - 17 = 17"], "subtract-in-opposite-orders"),
    ],
)
def test_the_writing_speaks_against_a_move(lines: list[str], never: str) -> None:
    mark = _last(lines, {})
    assert mark["verdict"] == "breaks"
    assert mark["slip"] != never, mark["message"]


def test_a_fraction_is_named_as_it_is_written() -> None:
    assert "3/8" in _last(["(3/8)y = -12", "y = -12"], {})["message"]
