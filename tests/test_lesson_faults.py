"""What teachers get wrong, and the message each mistake gets."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tutor.lesson.keywords import Keyword
from tutor.lesson.model import Fault, Lesson
from tutor.lesson.reader import LARGEST, MOST_FAULTS, load_lesson, read_lesson

GOOD = """\
lesson   Lantern Parade: hoops
format   1
grade    7
covers   7.G.B.4
pi       3.14

problem  Hoop
  ask      The hoop is bent from {C} of cane. How far is it to the middle?
  figure   circle, radius r, circumference C
  formula  C = 2 pi r
  given    C = 53.38 cm
  find     r in cm
"""
ASK = "  ask      The hoop is bent from {C} of cane. How far is it to the middle?\n"
LAST = "  find     r in cm\n"
AGAIN = "\nproblem  Hoop\n  ask      Again?\n  equation 2x = 6\n  find     x\n"

# (what stands in the good lesson, what the teacher wrote, line:column, message, what to write instead)
MISTAKES = [
    ("find     r", "fnd      r", "12:3", "“fnd” is not a keyword.", "find     r in cm"),
    ("formula  C", "formular C", "10:3", "“formular” is not a keyword.", "formula  C = 2 pi r"),
    ("lesson   L", "leson    L", "1:1", "“leson” is not a keyword.", "lesson   Lantern Parade: hoops"),
    ("figure ", "picture ", "9:3", "“picture” is not", "figure   circle, radius r, circumference C"),
    ("grade    7", "grade:   7", "3:1", "A keyword stands without a sign behind it.", "grade    7"),
    (LAST, LAST + "  wibble   line\n", "13:3", "In a problem stand pi, every, steps, matters,", ""),
    (LAST, LAST + "  answer   8.5 cm\n", "13:3", "No answer is written here", ""),
    (LAST, LAST + "grade    8\n", "13:1", "“grade” speaks of the whole lesson", ""),
    (LAST, LAST + "pi       22/7\n", "13:1", "or further right for this problem alone", ""),
    ("problem  Hoop\n", "", "7:3", "“ask” belongs to a problem, and none has begun.", "problem  Hoop"),
    ("problem  Hoop", "problem", "7:1", "Nothing stands after “problem”.", "problem  Hoop"),
    (LAST, LAST + AGAIN, "14:10", "Line 7 has a problem of this name already.", "problem  Hoop 2"),
    ("lesson   Lantern Parade: hoops\n", "", "1:1", "The lesson has no title.", "lesson   Lantern Parade"),
    ("format   1\n", "", "1:1", "does not say how it is written", "format   1"),
    ("format   1", "format   2", "2:10", "written in format 2; only format 1", "format   1"),
    ("format   1", "format   one", "2:10", "After “format” comes one number.", "format   1"),
    ("3.14", "3.15", "5:10", "It is 3.14, 22/7 or exact.", "pi       3.14"),
    ("covers   7.G.B.4", "covers", "4:1", "Nothing stands after “covers”.", "covers   7.G.B.4  7.EE.B.4a"),
    (ASK, "", "7:1", "“ask” is missing.", "ask      How far is the hoop from the middle?"),
    (ASK, ASK + "  ask      Twice?\n", "9:3", "line 8 has one already", ""),
    (LAST, "", "7:1", "“find” is missing.", "find     r in cm"),
    ("{C}", "{K}", "8:34", "“{K}” shows the value of a given", "one of {C}"),
    ("{C}", "{C", "8:34", "A brace stands alone.", ""),
    ("circle,", "cirle,", "9:12", "There is no figure “cirle”.", "figure   circle"),
    ("circle, r", "circle r", "9:12", "Commas stand between", "figure   circle, radius r"),
    ("circle,", "spiral,", "9:12", "There are circle, ", ""),
    ("radius r", "radious r", "9:20", "A circle has no part “radious”. It has radius,", "radius r"),
    ("radius r,", "radius,", "9:26", "The radius has no name here.", "radius and the letter"),
    ("radius r", "radius q", "9:27", "“q” is no name of this problem.", "radius and one of C, r"),
    ("circumference C", "radius C", "9:30", "The radius is named twice.", ""),
    ("  given    C", "\tgiven    C", "11:1", "A tab stands here", "given    C = 53.38 cm"),
    ("C = 53.38", "C 53.38", "11:13", "The sign = is missing", "given    C = 53.38 cm"),
    ("C = 53.38 cm", "53.38 cm = C", "11:12", "A name stands before the =", "C = 53.38 cm"),
    ("C = 53.38 cm", "C = 53.38 cmm", "11:22", "This is not a unit.", "given    C = 53.38 cm"),
    ("C = 53.38 cm", "C = 5 cm, r = 2 cm", "11:24", "A second = stands here.", "given    C = 5 cm"),
    (LAST, "  given    C = 50 cm\n" + LAST, "12:12", "“C” is given twice, first in line 11.", ""),
    ("find     r in cm", "find     k in cm", "12:12", "No formula speaks of “k”", "a formula with k in it"),
    ("find     r in cm", "find     3r in cm", "12:12", "“3r” cannot be a name", ""),
    ("find     r in cm", "find     r in cn", "12:17", "This is not a unit.", "find     r in cm"),
    ("find     r in cm", "find     r in cm2", "12:17", "This is not a unit.", "find     r in cm^2"),
    (
        "find     r in cm",
        "find     r in centimtre",
        "12:17",
        "This is not a unit.",
        "find     r in centimetre",
    ),
    ("find     r in cm", "find     r in %", "12:17", "Percent is no unit: leave it out.", "find     r"),
    ("find     r in cm", "find     r in @", "12:17", "Units are written like cm, cm^2", ""),
    ("find     r in cm", "find     r in", "12:16", "After “find” come a name", "find     r in cm"),
    ("find     r in cm", "find     r, in cm", "12:15", "After “find” come a name", "find     r in cm"),
    (LAST, LAST + LAST, "13:12", "“r” is asked for twice.", ""),
    (LAST, LAST + "  find     C in cm\n", "13:12", "“C” is given above", ""),
    (LAST, LAST + "  round    2\n", "13:12", "After “round” come “to”", "round    to 2 places"),
    (LAST, LAST + "  round    to 12 places\n", "13:15", "At most 6 places", "round    to 2 places"),
    (LAST, LAST + "  every    line\n", "13:12", "comes the word “step”", "every    step"),
]


def faults_of(text: str) -> tuple[Fault, ...]:
    lesson, faults = read_lesson(text, "hoops.lesson")
    assert lesson is None
    return faults


def test_the_good_lesson_is_good() -> None:
    lesson, faults = read_lesson(GOOD, "hoops.lesson")
    assert lesson is not None, faults


@pytest.mark.parametrize(("stands", "wrote", "place", "message", "instead"), MISTAKES)
def test_a_mistake_gets_its_message(stands: str, wrote: str, place: str, message: str, instead: str) -> None:
    assert GOOD.count(stands) >= 1
    text = GOOD.replace(stands, wrote, 1)
    first, *others = faults_of(text)
    assert f"{first.line}:{first.column}" == place
    assert message in first.message
    assert first.instead.startswith(instead) if instead else not first.instead
    assert first.text == text.split("\n")[first.line - 1]
    # One mistake, one fault; a lesson whose only problem never began has no problem either.
    assert [fault.message for fault in others] in ([], ["The lesson has no problem."])


@pytest.mark.parametrize("keyword", Keyword)
def test_nothing_after_a_keyword_is_said_with_an_example(keyword: Keyword) -> None:
    faults = faults_of(f"{GOOD}\nproblem  Other\n  {keyword.value}\n")
    said = [fault for fault in faults if fault.message == f"Nothing stands after “{keyword.value}”."]
    if keyword in (Keyword.LESSON, Keyword.FORMAT, Keyword.GRADE, Keyword.COVERS):
        assert "whole lesson" in "".join(fault.message for fault in faults)
    else:
        assert [fault.instead for fault in said] == [keyword.example]


def test_nothing_to_find_it_from() -> None:
    (fault,) = faults_of("lesson A\nformat 1\nproblem Hoop\n  ask How far?\n  find r\n")
    assert (fault.line, fault.column) == (5, 3)
    assert "nothing to find this from" in fault.message


def test_all_faults_come_at_once_in_the_order_of_the_file() -> None:
    text = GOOD.replace("radius r", "radious r").replace("find  ", "fnd   ").replace("3.14", "3") + AGAIN
    assert [(fault.line, fault.column) for fault in faults_of(text)] == [(5, 10), (9, 20), (12, 3), (14, 10)]


def test_a_fault_shows_file_line_column_the_line_a_caret_and_what_to_write() -> None:
    (fault,) = faults_of(GOOD.replace("find     r", "fnd      r"))
    assert str(fault) == (
        "hoops.lesson:12:3: “fnd” is not a keyword.\n"
        "  12 |   fnd      r in cm\n"
        "     |   ^\n"
        "  write instead: find     r in cm"
    )


def test_the_caret_stands_under_the_place_behind_wide_and_unseen_letters() -> None:
    fault = Fault("a.lesson", 1, 4, "灯e\u0301x", "Here.")
    row, caret = str(fault).split("\n")[1:]
    assert row == "  1 | 灯e\u0301x"
    assert caret == "    |    ^"  # two columns for 灯, one for é


def test_a_long_line_is_quoted_around_its_place() -> None:
    fault = Fault("a.lesson", 1, 5001, "a" * 5000 + "!" + "b" * 5000, "Here.")
    row, caret = str(fault).split("\n")[1:]
    assert len(row) < 120
    assert row[caret.index("^")] == "!"


def test_a_fault_never_steers_the_terminal() -> None:
    (fault,) = faults_of(GOOD.replace("{C}", "{\x1b[2J\u202e}"))
    assert not any(ord(character) < 32 and character != "\n" for character in str(fault))
    assert "␛[2J<U+202E>" in str(fault)


def test_many_faults_are_cut_short_with_a_word() -> None:
    faults = faults_of(GOOD + "wibble\nwobble\n" * 500)
    assert len(faults) == MOST_FAULTS + 1
    assert faults[-1].message == f"From here on there are {1000 - MOST_FAULTS} more."


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (
            GOOD + "".join(f"problem P{i}\nask ?\nequation 2x = 6\nfind x\n" for i in range(250)),
            "at most 200",
        ),
        (GOOD + "  given    C = 1 cm\n" * 60, "has more than 40 pieces"),
        (GOOD.replace("How far", "far " * 1500), "too long for one screen"),
    ],
    ids=["problems", "givens", "letters"],
)
def test_what_is_far_too_much_is_said_and_not_read(text: str, message: str) -> None:
    assert any(message in fault.message for fault in faults_of(text))


# --- files ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("data", "place", "message"),
    [
        (b"", (1, 1), "This file is empty."),
        (b" \n\n", (1, 1), "This file is empty."),
        (GOOD.encode("utf-16"), (1, 1), "not saved as UTF-8"),
        (GOOD.replace("Hoop", "Höop").encode("latin-1"), (7, 11), "not saved as UTF-8"),
        (b"lesson A\nformat 1\n\x00\x01\x02", (1, 1), "not a text file"),
        (b"x" * (LARGEST + 1), (1, 1), "larger than 1 MB"),
        (b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", (1, 1), "not a text file"),
    ],
)
def test_a_file_that_is_no_lesson(tmp_path: Path, data: bytes, place: tuple[int, int], message: str) -> None:
    path = tmp_path / "a.lesson"
    path.write_bytes(data)
    lesson, (fault,) = load_lesson(path)
    assert lesson is None
    assert ((fault.line, fault.column), fault.path) == (place, str(path))
    assert message in fault.message


def test_a_file_of_ten_megabytes_is_not_read_whole(tmp_path: Path) -> None:
    path = tmp_path / "a.lesson"
    with path.open("wb") as file:
        file.truncate(10_000_000)
    lesson, (fault,) = load_lesson(path)
    assert lesson is None
    assert "larger than 1 MB" in fault.message


def test_a_missing_file_a_folder_and_a_name_that_cannot_be(tmp_path: Path) -> None:
    assert "no such file" in load_lesson(tmp_path / "a.lesson")[1][0].message
    assert "folder" in load_lesson(tmp_path)[1][0].message
    lesson, faults = load_lesson(Path("a\0b.lesson"))
    assert lesson is None
    assert len(faults) == 1


def test_no_permission(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "a.lesson"
    path.write_text(GOOD, encoding="utf-8")

    def refuse(*_args: object, **_kinds: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    lesson, (fault,) = load_lesson(path)
    assert lesson is None
    assert "may not be read" in fault.message


def test_a_nul_in_text_is_pointed_at() -> None:
    (fault,) = faults_of("lesson A\nformat\0 1\n")
    assert (fault.line, fault.column) == (2, 7)


# --- any text ---------------------------------------------------------------------

WRITTEN = ["C = 47.1 cm", "circle", "step", "to 2 places", "in", "and", "r", "C", "{C}", "{", "=", ",", "#"]
SPACES = ["\n", "\n  ", "\n      ", " ", "  ", "\t", "\u2028", "[/]", "\x1b[0m"]
PIECES = st.sampled_from([*(keyword.value for keyword in Keyword), *WRITTEN, *SPACES])
NEARLY = st.lists(PIECES | st.text(max_size=4), max_size=60).map("".join)


@settings(max_examples=250, deadline=None)
@given(st.text() | NEARLY | NEARLY.map(lambda text: GOOD + text))
def test_any_text_is_a_lesson_or_faults(text: str) -> None:
    lesson, faults = read_lesson(text, "any.lesson")
    assert (lesson is None) == bool(faults)
    assert lesson is None or isinstance(lesson, Lesson)
    for fault in faults:
        assert fault.line >= 1
        assert 1 <= fault.column <= len(fault.text) + 1
        str(fault)


@settings(max_examples=100, deadline=None)
@given(st.binary(max_size=200))
def test_any_bytes_are_a_lesson_or_faults(tmp_path_factory: pytest.TempPathFactory, data: bytes) -> None:
    path = tmp_path_factory.mktemp("any") / "a.lesson"
    path.write_bytes(data)
    lesson, faults = load_lesson(path)
    assert (lesson is None) == bool(faults)
