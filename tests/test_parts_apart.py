"""Parts of one line that are worked one after the other (common practice, no source)."""

import pytest

from tutor.marking.judging.halves import OTHER_PART
from tutor.marking.task import Task
from tutor.marking.verdict import Reason, Verdict
from tutor.marking.working import first_wrong, mark_lines, start

ASKED = Task((), (), ("x",))

# Work whose parts are all there; after "#": whether it is finished.
RIGHT = """
−3 < 2x + 1 ≤ 7 ; −3 < 2x + 1 ; 2x + 1 ≤ 7 ; −4 < 2x ; 2x ≤ 6 ; −2 < x ; x ≤ 3 ; −2 < x ≤ 3 # yes
−3 < 2x + 1 ≤ 7 ; 2x + 1 ≤ 7 ; 2x ≤ 6 ; x ≤ 3 ; 2x + 1 > −3 ; 2x > −4 ; x > −2 ; −2 < x ≤ 3 # yes
−3 < 2x + 1 ≤ 7 ; −3 < 2x + 1 ; −4 < 2x ; −2 < x ; 2x + 1 ≤ 7 ; 2x ≤ 6 ; x ≤ 3 # no
1 < 5 − 2x < 9 ; 5 − 2x > 1 ; −2x > −4 ; x < 2 ; 5 − 2x < 9 ; −2x < 4 ; x > −2 ; −2 < x < 2 # yes
|2x − 3| = 5 ; 2x − 3 = 5 ; 2x = 8 ; x = 4 ; 2x − 3 = −5 ; 2x = −2 ; x = −1 # yes
|2x − 3| = 5 ; 2x − 3 = −5 ; 2x − 3 = 5 ; 2x = −2 ; 2x = 8 ; x = −1 ; x = 4 # yes
|2x − 3| = 5 ; 2x − 3 = 5 ; x = 4 ; −(2x − 3) = 5 ; −2x + 3 = 5 ; x = −1 ; x = 4 or x = −1 # yes
2|x − 3| + 1 = 11 ; |x − 3| = 5 ; x − 3 = 5 ; x = 8 ; x − 3 = −5 ; x = −2 # yes
|2x − 3| < 5 ; 2x − 3 < 5 ; x < 4 ; 2x − 3 > −5 ; x > −1 ; −1 < x < 4 # yes
|2x − 3| > 5 ; 2x − 3 > 5 ; x > 4 ; 2x − 3 < −5 ; x < −1 ; x < −1 or x > 4 # yes
(x − 2)(x + 3) = 0 ; x − 2 = 0 ; x = 2 ; x + 3 = 0 ; x = −3 # yes
x² + x − 6 = 0 ; (x − 2)(x + 3) = 0 ; x + 3 = 0 ; x − 2 = 0 ; x = −3 ; x = 2 # yes
(x − 3)² = 16 ; x − 3 = 4 ; x = 7 ; x − 3 = −4 ; x = −1 # yes
"""

# The line that breaks stands after "#", counted from 1.
WRONG = """
−3 < 2x + 1 ≤ 7 ; −3 ≤ 2x + 1 ; 2x + 1 ≤ 7 # 2
−3 < 2x + 1 ≤ 7 ; −3 < 2x + 1 ; −2 < x ; 2x + 1 ≤ 7 ; x ≤ 3 ; −2 < x < 3 # 6
−3 < 2x + 1 ≤ 7 ; −3 < 2x + 1 ; −2 < x ; 2x + 1 < 7 # 4
−3 < 2x + 1 ≤ 7 ; −3 < 2x + 1 ; −4 < 2x ; −2 < x # 2
1 < 5 − 2x < 9 ; 5 − 2x > 1 ; −2x > −4 ; x > 2 # 4
|2x − 3| = 5 ; 2x − 3 = 5 ; 2x = 8 ; x = 4 # 2
|2x − 3| = 5 ; 2x − 3 = 5 ; 2x = 8 ; x = 4 ; 2x + 3 = −5 # 5
|2x − 3| = 5 ; 2x − 3 = 5 ; x = 4 ; 2x − 3 = 5 # 2
|2x − 3| < 5 ; 2x − 3 < 5 ; 2x − 3 < −5 # 3
(x − 2)(x + 3) = 0 ; x − 2 = 0 ; x = 2 # 2
(x − 2)(x + 3) = 0 ; x − 2 = 0 ; x = 2 ; x − 3 = 0 # 4
(x − 2)(x + 3) = 6 ; x − 2 = 6 ; x + 3 = 6 # 2
(x − 3)² = 16 ; x − 3 = 4 ; x = 7 # 2
x² = 25 ; x = 5 ; x = −5 # 2
"""


def rows(table: str) -> list[tuple[list[str], str]]:
    """Return the lines of every work and what is said of it."""
    found = [row.split(" # ") for row in table.strip().splitlines()]
    return [(work.split(" ; "), said) for work, said in found]


@pytest.mark.parametrize(("lines", "finished"), rows(RIGHT))
def test_parts_that_are_all_worked_stand(lines: list[str], finished: str) -> None:
    """Every line stands; what is asked is found once the parts are put together or all solved."""
    working = mark_lines(ASKED, lines)
    assert [line.text for line in working.lines if line.mark.verdict is not Verdict.FOLLOWS] == []
    assert bool(working.reached.finished) is (finished == "yes")


@pytest.mark.parametrize(("lines", "at"), rows(WRONG))
def test_a_wrong_part_and_a_part_left_out_break(lines: list[str], at: str) -> None:
    """The wrong part breaks, or the only part where no other one comes."""
    assert first_wrong(mark_lines(ASKED, lines).lines) == int(at) - 1


def test_a_part_stands_while_the_work_goes_on() -> None:
    """On the page the other part can still come; the note says so and nothing is finished."""
    working = start(ASKED)
    for text in ("|2x − 3| = 5", "2x − 3 = 5", "2x = 8", "x = 4"):
        working = working.submit(text)
        assert working.lines[-1].mark.verdict is Verdict.FOLLOWS
    assert working.lines[1].mark.note == OTHER_PART.format("line 1")
    assert not working.reached.finished
    assert mark_lines(ASKED, [line.text for line in working.lines]).lines[1].mark.reason is Reason.LOST
