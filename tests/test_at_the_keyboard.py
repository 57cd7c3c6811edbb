"""What students of the unit that ships typed, and what they were told: works found by hand at the keyboard.

The marks and the hints are those that a teacher would give (common practice, no source).
"""

import pytest
from shipped_draws import shipped, shipped_paths

from tutor.marking.hint_stage import HintStage
from tutor.marking.task import AnyTask
from tutor.marking.verdict import Verdict
from tutor.marking.work import Work, begin, hint

TASKS: dict[str, AnyTask] = {
    problem.name: problem.task
    for path in shipped_paths()
    if shipped(path).review is None
    for problem in shipped(path).problems
}
BROKEN = (Verdict.BREAKS, Verdict.CARRIES, Verdict.UNREAD, Verdict.UNDECIDED)


def worked(name: str, *lines: str) -> Work:
    """Return the work at a problem of the unit, with the numbers that are nobody's."""
    work = begin(TASKS[name])
    for line in lines:
        work = work.submit(line)
    return work


RIGHT = (
    ("Wood round a window", "board = 41 * 28 = 1148", "window = 770", "A = 1148 - 770", "A = 378 cm^2"),
    ("Wood round a window", "A = board - window", "board = 1148", "window = 770", "A=1148-770=378 cm²"),
    ("Box of sand", "L=36 cm W=18cm H=7cm", "V=?", "V = 36*18*7"),
    ("Box of sand", "V=? L=36 W=18 H=7"),
    ("Third corner", "A=65° B=50° C=65°"),
    ("Lantern side", "a=16cm c=36cm h=20cm A=?"),
    ("Lanterns on the loop", "218.4/8 = 27.3, so 28 lanterns"),
    ("Boxes to buy", "b = 4.35 so 5 boxes"),
    ("Paper strips", "86-14=72, so 72", "72/6=12 → 12"),
    ("Plan with three sides", "only one triangle"),
    ("Plan with three angles", "infinite"),
    ("Plan with three angles", "lots of triangles"),
    ("Never the same", "5n+20=5n+24", "never"),
    ("Never the same", "20=24", "no n works"),
    ("Never the same", "20=24", "for no n"),
    ("Always the same", "4n+23=4n+23", "every n"),
    ("Always the same", "4n+23=4n+23", "always"),
    ("Always the same", "4n+23=4n+23", "it works for every number"),
    ("Always the same", "4n+23=4n+23", "for all numbers n"),
)


@pytest.mark.parametrize("row", RIGHT, ids=" / ".join)
def test_what_is_right_is_never_called_wrong(row: tuple[str, ...]) -> None:
    work = worked(*row)
    assert [line.mark.verdict for line in work.lines if line.mark.verdict in BROKEN] == []
    assert work.lines[-1].mark.verdict is not Verdict.NOTE


DONE = (
    ("Opposite angles", "x = 22", "A = C = 81°"),
    (
        "Paper for a disc",
        "A = pi r^2",
        "A = 78.5 cm^2, r = ?",
        "78.5 = 3.14r^2",
        "r^2 = 25",
        "r = ±5",
        "r = 5 cm",
    ),
    ("Never the same", "5n+20=5n+24", "there is no n"),
    ("Always the same", "all n"),
)


@pytest.mark.parametrize("row", DONE, ids=" / ".join)
def test_work_that_is_done_is_done(row: tuple[str, ...]) -> None:
    assert worked(*row).progress.complete


WRONG = (
    ("Lanterns on the loop", "218.4/8 = 27.3, so 27 lanterns"),
    ("Paper strips", "6n=72 → 11"),
    ("Never the same", "5n+20=5n+24", "every n"),
    ("Always the same", "4n+23=4n+23", "never"),
    ("Wood round a window", "A = 41 * 28"),
    ("Wood round a window", "board = 1148", "window = 770", "A = 1148 + 770"),
    ("Box of sand", "L=36cm W=18cm H=8cm"),
    ("Third corner", "A=65° B=50° C=60°"),
)


@pytest.mark.parametrize("row", WRONG, ids=" / ".join)
def test_what_is_wrong_breaks(row: tuple[str, ...]) -> None:
    assert worked(*row).lines[-1].mark.verdict is Verdict.BREAKS


# A line that breaks last, a part of what is said, and what must not be said.
TOLD = (
    (("Shorter struts", "5s - 35 = 125", "-30s = 125"), "joined to one term", "more solutions"),
    (("Parted corner", "A = 44 + 12", "A = 54"), "44 + 12 became 54", "4 · 11"),
    (("Parted corner", "4x + 12 + x + 23 = 90", "4x + 35 = 90"), "Maybe x was left out", "multiplied"),
    (
        ("Three unequal angles", "A + 2A + A + 40 = 180", "3A + 40 = 180"),
        "Maybe A was left out",
        "multiplied",
    ),
    (("Half-moon", "P = 1/2 pi d"), "Maybe d was left out", "multiplied"),
    (("Parade loop", "P = 2s + 1/2 pi d"), "d/2 is only the radius", "15"),
    (("Paper pennant", "A = 1/2*(30 + 15)"), "From the formula", "decimal point"),
    (("Round candle", "V = 3.14*4^2*10", "V = 3.14*40^2"), "From line 1", "decimal point"),
    (("From the rim to the paper", "r = 12 cm", "A = 3.14*24"), "doubled", "space inside was"),
    (("From the paper to the rim", "r = 6 cm", "C = 3.14*36"), "", "small ²"),
    (("Glass ball", "V = 4/3*3.14*6^3", "V = 4/3*3.14*18"), "multiplied by 3", "²"),
    (("Wood round a window", "board = 1148", "window = 35*28"), "", "slanted"),
    (("Hoop", "r=? C=5"), "2πr became 5", "6.28"),
    (("Box of sand", "L=36cm W=18cm H=8cm"), "7 was copied", "50"),
    (("Third corner", "A=65° B=50° C=60°"), "into the formula", "°C"),
    (("Strut on a rail", "B = 75°"), "Put B = 75° into the formula", "105"),
    (("Lantern roof", "B = 128°"), "does not fit the problem", "lines above"),
)


@pytest.mark.parametrize(("row", "said", "never"), TOLD, ids=lambda one: str(one)[:60])
def test_the_reason_is_the_true_one(row: tuple[str, ...], said: str, never: str) -> None:
    mark = worked(*row).lines[-1].mark
    assert mark.verdict is Verdict.BREAKS
    assert said in mark.message
    assert never not in mark.message


def test_what_is_underlined_stands_beside_pi() -> None:
    assert worked("Half-moon", "P=60+3.14*60").lines[-1].mark.span == (10, 12)


# What the last hint writes, from the student's own lines.
HINTED = (
    (("Cord in metres", "C = 4*12*35", "C = 1680"), "C = 1680 cm = 16.8 m"),
    (("Cord in metres", "C = 4*12*35", "C = 1680", "C = 168 m"), "C = 1680 cm = 16.8 m"),
    (("Shared ribbon", "R/8 = 13", "R = 104 cm"), "R = 104"),
    (("Floor and height", "1100 = 55h", "h = 20 cm^2"), "20 = h"),
    (("Drum of the parade", "A = 400π"), "A = 400π cm²"),
    (("Box lantern", "front = 520", "side = 260", "top = 200", "S = 980"), "S = 2 · 520 + 2 · 260 + 2 · 200"),
    (("Box lantern", "front = 520", "side = 260", "top = 200"), "front = 520 cm²"),
)


@pytest.mark.parametrize(("row", "line"), HINTED, ids=lambda one: str(one)[:60])
def test_the_hint_goes_on_where_the_student_is(row: tuple[str, ...], line: str) -> None:
    found = hint(worked(*row), HintStage.LINE)
    assert found is not None
    assert found.line == line
