"""How a lesson is worked, and a review that draws a mixed set out of other lessons."""

from itertools import pairwise
from pathlib import Path

import pytest

from tutor.lesson.fresh import drawn
from tutor.lesson.model import Fault, Lesson, Missed, Numbers, Settings, When
from tutor.lesson.reader import load_lesson, read_lesson
from tutor.resources import lessons_folder

CARD = "lesson   Mixed\nformat   1\n"


def equations(title: str, count: int, extra: str = "") -> str:
    problems = "".join(
        f"problem  {title} {index}\n  vary     a from 2 to 9\n  ask      Solve it.\n"
        f"  equation {{a}}x = {{{index} a}}\n  find     x\n{extra if index == count else ''}\n"
        for index in range(1, count + 1)
    )
    return f"lesson   {title}\nformat   1\n\n{problems}"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for title, count in (("hoops", 4), ("windows", 6), ("loops", 2)):
        text = equations(title, count, "  matters  most\n")
        (tmp_path / f"{title}.lesson").write_text(text, encoding="utf-8")
    (tmp_path / "torn.lesson").write_text("lesson   Torn\n", encoding="utf-8")
    (tmp_path / "other.lesson").write_text(f"{CARD}review   2 from hoops\n", encoding="utf-8")
    return tmp_path


def review_of(folder: Path, entry: str) -> tuple[Lesson | None, tuple[Fault, ...]]:
    path = folder / "mixed.lesson"
    path.write_text(f"{CARD}review   {entry}\n", encoding="utf-8")
    return load_lesson(path)


def good(folder: Path, entry: str) -> Lesson:
    lesson, faults = review_of(folder, entry)
    assert lesson is not None, "\n".join(map(str, faults))
    return lesson


# --- settings ---------------------------------------------------------------------


@pytest.mark.parametrize(
    ("entries", "settings"),
    [
        ("", Settings()),
        ("marks line by line\n", Settings()),
        ("marks When handed in\n", Settings(marks=When.HANDED_IN)),
        ("correct fresh numbers\n", Settings(corrections=Numbers.FRESH)),
        ("correct same numbers\n", Settings(corrections=Numbers.SAME)),
        ("missed when a broken line is left\n", Settings(missed=Missed.LEFT_BROKEN)),
        ("missed when a line breaks\n", Settings(missed=Missed.BROKEN)),
        ("hints off\nmarks when handed in\n", Settings(marks=When.HANDED_IN, hints=False)),
        ("hints ON\n", Settings()),
    ],
)
def test_settings(entries: str, settings: Settings) -> None:
    lesson, faults = read_lesson(
        f"lesson A\nformat 1\n{entries}\nproblem One\n  ask ?\n  equation 2x = 6\n  find x\n", "a.lesson"
    )
    assert lesson is not None, faults
    assert lesson.settings == settings
    assert lesson.review is None


# --- a review ---------------------------------------------------------------------


def test_a_review_draws_as_many_as_it_says(folder: Path) -> None:
    lesson = good(folder, "8 from hoops, windows, loops")
    assert lesson.review is not None
    assert (lesson.review.count, lesson.review.lessons) == (8, ("hoops", "windows", "loops"))
    for seed in range(30):
        problems = drawn(lesson, seed).problems
        assert len(problems) == 8
        assert len({problem.name for problem in problems}) == 8
        files = [problem.path for problem in problems]
        assert sorted(set(files)) == ["hoops.lesson", "loops.lesson", "windows.lesson"]
        assert files.count("loops.lesson") == 2  # all it has; the others share the rest
        assert {files.count("hoops.lesson"), files.count("windows.lesson")} == {3}
        assert all(left != right for left, right in pairwise(files))


def test_two_of_three_problems_matter_most_as_long_as_there_are_any(folder: Path) -> None:
    lesson = good(folder, "3 from hoops, windows, loops")
    for seed in range(10):
        assert sum(problem.matters for problem in drawn(lesson, seed).problems) == 2
    everything = good(folder, "12 from hoops, windows, loops")
    assert sum(problem.matters for problem in drawn(everything, 1).problems) == 3


def test_the_review_of_the_unit_mixes_and_takes_from_every_lesson() -> None:
    lesson, _faults = load_lesson(lessons_folder() / "10-mixed-review.lesson")
    assert lesson is not None
    assert lesson.review is not None
    seen: set[tuple[str, str]] = set()
    for seed in range(40):
        problems = drawn(lesson, seed).problems
        files = [problem.path for problem in problems]
        assert (len(files), len(set(files))) == (12, 9)
        assert all(files.count(file) <= 2 for file in files)
        assert sum(problem.matters for problem in problems) == 8
        seen |= {(problem.path, problem.name) for problem in problems}
    # A class of forty meets nearly all of the unit, and not the 26 problems that matter most alone.
    assert len(seen) > 90


def test_students_have_sets_and_numbers_of_their_own(folder: Path) -> None:
    lesson = good(folder, "5 from hoops, windows")
    names = {tuple(problem.name for problem in drawn(lesson, seed).problems) for seed in range(20)}
    numbers = {tuple(problem.numbers for problem in drawn(lesson, seed).problems) for seed in range(20)}
    assert len(names) > 5
    assert len(numbers) > 15
    assert drawn(lesson, 7) == drawn(lesson, 7)


def test_a_review_is_the_same_in_another_folder(
    folder: Path, tmp_path_factory: pytest.TempPathFactory
) -> None:
    elsewhere = tmp_path_factory.mktemp("a folder of another name")
    for path in folder.glob("*.lesson"):
        (elsewhere / path.name).write_bytes(path.read_bytes())
    entry = "6 from windows, hoops"
    here, there = good(folder, entry), good(elsewhere, entry)
    assert here.fingerprint == there.fingerprint
    for seed in range(5):
        assert [problem.name for problem in drawn(here, seed).problems] == [
            problem.name for problem in drawn(there, seed).problems
        ]


def test_the_draw_of_a_review_never_changes(folder: Path) -> None:
    problems = drawn(good(folder, "4 from hoops, windows"), 12).problems
    assert [(problem.name, dict(problem.numbers)["a"]) for problem in problems] == [
        ("hoops 4", "9"),
        ("windows 6", "9"),
        ("hoops 2", "6"),
        ("windows 5", "8"),
    ]


def test_the_fingerprint_of_a_review_is_of_its_lessons_too(folder: Path) -> None:
    before = good(folder, "5 from hoops, windows").fingerprint
    path = folder / "hoops.lesson"
    path.write_text(path.read_text(encoding="utf-8").replace("Solve it.", "Solve this."), encoding="utf-8")
    assert good(folder, "5 from hoops, windows").fingerprint != before


@pytest.mark.parametrize(
    ("entry", "column", "message", "instead"),
    [
        (
            "3 from hopos",
            17,
            "The lesson “hopos” in this folder cannot be used. There is no such file.",
            "review   3 from hoops",
        ),
        ("3 from hoops, window", 24, "There is no such file", "review   3 from hoops, windows"),
        ("3 from hoops.lesson", 17, "is no name of a lesson file", "review   3 from hoops"),
        ("3 from hoops windows", 17, "is no name of a lesson file", "review   3 from hoops, windows"),
        ("3 from hoops, hoops", 24, "“hoops” is named twice", ""),
        ("3 from torn", 17, "cannot be used. The lesson does not say how it is written.", ""),
        ("3 from other", 17, "not from another review", ""),
        ("3 from mixed", 17, "not from another review", ""),
        ("9 from hoops", 10, "These lessons have 4 problems to draw from.", "review   4 from hoops"),
        ("0 from hoops", 10, "A review has 1 to 60 problems.", "review   8 from hoops, windows"),
        ("99999999999999999999 from hoops", 10, "A review has 1 to 60 problems.", ""),
        ("from hoops", 10, "After “review” come a number", "review   8 from hoops"),
        ("3 problems from hoops", 12, "After “review” come a number", "review   3 from hoops"),
        ("hoops and windows", 10, "After “review” come a number", "review   8 from hoops, windows"),
        ("3 from ../hoops", 17, "“../hoops” is no name of a lesson file", ""),
        ("3 from C:\\hoops", 17, "is no name of a lesson file", ""),
        ("3 from /etc/passwd", 17, "is no name of a lesson file", ""),
        ("3 from ~", 17, "is no name of a lesson file", ""),
        ("3 from nul", 17, "is no name of a lesson file", ""),
        ("3 from COM1", 17, "is no name of a lesson file", ""),
        ("3 from \u202esnoop", 17, "“<U+202E>snoop” is no name of a lesson file", ""),
        ("3 from " + ", ".join(f"l{index}" for index in range(21)), 107, "draws from at most 20 lessons", ""),
    ],
)
def test_what_a_review_cannot_draw_from(
    folder: Path, entry: str, column: int, message: str, instead: str
) -> None:
    lesson, (fault,) = review_of(folder, entry)
    assert lesson is None
    assert (fault.line, fault.column) == (3, column)
    assert message in fault.message
    assert fault.instead.startswith(instead)


def test_a_review_that_is_only_text_has_no_folder_to_draw_from() -> None:
    lesson, (fault,) = read_lesson(f"{CARD}review   3 from hoops\n", "mixed.lesson")
    assert lesson is None
    assert "beside its own file" in fault.message
