"""Solving as books of algebra print it: every line stands, the end is seen, no change passes.

Common practice, no source: values put in after squaring, u for x² or √x, fractions as exponents, the
quadratic formula where nothing comes out, answers with i, intervals, ordered pairs and triples.
"""

from functools import cache

import pytest
from printed_rows import fallen, rows

from tutor.marking.task import Task
from tutor.marking.verdict import Verdict
from tutor.marking.working import Working, mark_lines

PRINTED = rows("printed_solving.tsv")
CHANGED = rows("printed_solving_wrong.tsv")

# Wrong in ways that the changes above do not reach.
ALSO_WRONG = [
    ("x", "x^2 = 25 ; x = 5 and x = −4"),
    ("x", "x^2 = −25 ; x = 5 and x = −5"),
    ("x", "x − 5 = 0 ; x = 5 and x = −5"),
    ("x", "x^2 > 25 ; x > 5 and x < −5"),
    ("x", "(x − 2)(x − 3) = 0 ; x − 2 = 0 and x − 3 = 0"),
    ("x", "√(x + 6) = x ; x + 6 = x² ; (x − 3)(x + 2) = 0 ; x = 3 or x = −2"),
    ("x", "√(x + 6) = x ; x + 6 = x² ; (x − 3)(x + 2) = 0 ; x = 3 and x = −2"),
    ("x", "√(x + 6) = x ; x + 6 = x² ; (x − 3)(x + 2) = 0 ; x = 3, x = −4 (extraneous)"),
    ("x", "√(x + 6) = x ; x + 6 = x² ; (x − 3)(x + 2) = 0 ; x = 3 (extraneous), x = −2"),
    ("x", "√(x + 6) = x ; x + 6 = x² ; (x − 3)(x + 2) = 0 ; x = 3 or x = −2 ; √(−2 + 6) = −2"),
    ("x", "√(x + 6) = x ; x + 6 = x² ; (x − 3)(x + 2) = 0 ; x = 3 or x = −2 ; √(3 + 6) = −2"),
    ("x", "x + √x − 6 = 0 ; u = √x ; u² + u − 5 = 0"),
    ("x", "x + √x − 6 = 0 ; u = √x ; u² + u − 6 = 0 ; u = 2 or u = 3"),
    ("x", "x + √x − 6 = 0 ; u = √x ; u² + u − 6 = 0 ; u = 2 or u = −3 ; x = 4 or x = 9"),
    ("x", "x⁴ − 13x² + 36 = 0 ; u² − 13u − 36 = 0"),
    ("x", "x² + 5x + 6 = 0 ; y² + 5y + 6 = 0"),
    ("x", "x^(2/3) = 4 ; x = 8"),
    ("x", "(x − 3)^(2/3) = 4 ; x = 11"),
    ("x", "x^(3/2) = 8 ; x = 4 or x = −4"),
    ("x", "x^2 = 9 ; x = ±3i"),
    ("x", "2(x − 3) ≤ x + 6 ; (−∞, ∞)"),
    ("x,y,z", "x + y + z = 6, x − y + z = 2, x + 2y − z = 2 ; (1, 3, 2)"),
    ("a", "a/(a + 2) = −2/(a + 2) + 2 ; a = −2 + 1(a + 2)"),
    ("b", "y = mx + b ; 4 = −3(2) + b ; −10 = b"),
    ("x", "y = 3x − 6 ; 0 = 3x − 60"),
    ("x", "f(x) = 3x − 6 ; 0 = 2x − 6"),
    ("x", "y = 2x² − 8 ; 0 = 2x² − 9"),
    ("x,y", "x² + y² = 13 and x² − y² = 5 ; 2x² = 19"),
    ("x,y", "x² + y² = 13 and x² − y² = 5 ; x² = 9 ; x = 3"),
    ("x", "(x² − 9)/(x − 3) = 6 ; x + 3 = 6 ; x = 3"),
    ("x,y", "x + y = 5 ; x − y = 1 ; no solution"),
    ("m", "m = (y₂ − y₁)/(x₂ − x₁) ; m = (4 − 4)/(3 − 1) ; m = 2"),
    ("m", "m = (y₂ − y₁)/(x₂ − x₁) ; m = (7 − 3)/(2 − 4) ; m = 4/(−2) ; m = 2"),
    ("x,y", "x^2 + y^2 = 25 and y = x + 1 ; x^2 + (x + 1)^2 = 25 ; (x + 4)(x − 3) = 0 ; x = 3"),
]


@cache
def marked(find: str, lines: str) -> Working:
    return mark_lines(Task(find=tuple(find.split(","))), tuple(lines.split(" ; ")))


@pytest.mark.parametrize(("find", "lines"), PRINTED)
def test_every_printed_line_stands_and_the_end_is_seen(find: str, lines: str) -> None:
    work = marked(find, lines)
    assert fallen(work) == []
    assert work.progress.finished


@pytest.mark.parametrize(("find", "lines"), [*CHANGED, *ALSO_WRONG])
def test_a_changed_line_breaks(find: str, lines: str) -> None:
    work = marked(find, lines)
    assert work.lines[-1].mark.verdict is Verdict.BREAKS
    assert all(line.mark.verdict is not Verdict.BREAKS for line in work.lines[:-1])


@pytest.mark.parametrize("line", ["x = ±4i", "x = 3i", "x = 1 ± 3i"])
def test_what_is_said_with_i_never_stands_where_it_is_not_right(line: str) -> None:
    assert marked("x", f"x² = −9 ; {line}").lines[-1].mark.verdict is Verdict.UNDECIDED


def test_a_list_with_and_is_told_the_word_between() -> None:
    mark = marked("x", "x² = 25 ; x = 5 and x = −5").lines[-1].mark
    assert mark.note == "Write “or” between two solutions: x is one of them, not both at once."
