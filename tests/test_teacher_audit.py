"""The audit as a teacher meets it: advice beside faults, the table of draws, the standard layout."""

import io
import os
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tutor.cli import main
from tutor.lesson.fresh import drawn
from tutor.lesson.reader import load_lesson, read_lesson
from tutor.lesson.tidy import tidied
from tutor.resources import lessons_folder
from tutor.teacher.lessons import audit_files, print_draws, tidy_files

SMALL = """\
# About hoops.
lesson   Hoops
format   1
covers   7.G.B.4    7.EE.B.3
problem  Hoop
  ask   Two ends of the cane meet.   How long is
     the hoop?
  # cane is dear
  vary r from 5 to 8
  formula  C = 2 pi r
  pi 3.14
  given r={r} cm
  find C in cm
"""


@pytest.fixture
def lesson_file(tmp_path: Path) -> Path:
    path = tmp_path / "hoops.lesson"
    path.write_text(SMALL, encoding="utf-8")
    return path


def test_advice_is_told_apart_from_faults_and_leaves_the_exit_code(lesson_file: Path) -> None:
    lesson_file.write_text(SMALL.replace("from 5", "from 1"), encoding="utf-8")
    out = io.StringIO()
    assert audit_files([lesson_file], out) == 0
    assert "advice: With r = 2:" in out.getvalue()
    assert "write instead: where    r != 2" in out.getvalue()
    assert out.getvalue().rstrip().endswith("with all 8 draws. Advice: 1.")


def test_a_thorough_audit_marks_every_line(lesson_file: Path) -> None:
    out = io.StringIO()
    assert audit_files([lesson_file], out, thorough=True) == 0
    assert "no fault found; 1 problem worked out with all 4 draws" in out.getvalue()


def test_the_draws_stand_in_a_table_with_their_answers(lesson_file: Path) -> None:
    out = io.StringIO()
    assert print_draws([lesson_file], out) == 0
    rows = out.getvalue().splitlines()
    assert rows[:2] == ["1  Hoop", "   all 4 draws"]
    # 2 · 3.14 · 5, 6, 7 and 8
    for radius, around in (
        ("5 cm", "31.4 cm"),
        ("6 cm", "37.68 cm"),
        ("7 cm", "43.96 cm"),
        ("8 cm", "50.24 cm"),
    ):
        assert any(radius in row and around in row for row in rows)


def test_draws_of_a_faulty_lesson_are_faults(lesson_file: Path) -> None:
    lesson_file.write_text(SMALL.replace("find C", "fnd C"), encoding="utf-8")
    out = io.StringIO()
    assert print_draws([lesson_file], out) == 2
    assert "1 fault to mend" in out.getvalue()


# --- the standard layout ----------------------------------------------------------------------


def test_tidying_keeps_the_meaning_the_remarks_and_the_mode(lesson_file: Path) -> None:
    if os.name == "posix":
        lesson_file.chmod(0o640)
    before, _faults = load_lesson(lesson_file)
    assert tidy_files([lesson_file], io.StringIO()) == 0
    text = lesson_file.read_text(encoding="utf-8")
    assert "# About hoops." in text
    assert "# cane is dear" in text
    after, _faults = load_lesson(lesson_file)
    assert before is not None
    assert after is not None
    for seed in range(6):
        pairs = zip(drawn(before, seed).problems, drawn(after, seed).problems, strict=True)
        assert all((one.ask, one.task, one.numbers) == (two.ask, two.task, two.numbers) for one, two in pairs)
    keys = [one.problems[0].template.key for one in (before, after) if one.problems[0].template]
    assert keys[0] == keys[1]  # a student's work at the problem goes on
    if os.name == "posix":
        assert lesson_file.stat().st_mode & 0o777 == 0o640
    assert [path.name for path in lesson_file.parent.iterdir()] == ["hoops.lesson"]


def test_tidying_twice_changes_nothing_more(lesson_file: Path) -> None:
    tidy_files([lesson_file], io.StringIO())
    once = lesson_file.read_bytes()
    tidy_files([lesson_file], io.StringIO())
    assert lesson_file.read_bytes() == once


def test_a_faulty_lesson_is_left_as_it_is(lesson_file: Path) -> None:
    data = SMALL.replace("find C", "fnd C").replace("\n", "\r\n").encode()
    lesson_file.write_bytes(data)
    out = io.StringIO()
    assert tidy_files([lesson_file], out) == 2
    assert lesson_file.read_bytes() == data
    assert "left as it is" in out.getvalue()


def test_a_lesson_that_would_mean_something_else_is_left_as_it_is(
    lesson_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tutor.teacher.lessons.tidied", lambda text: tidied(text).replace("to 8", "to 9"))
    out = io.StringIO()
    assert tidy_files([lesson_file], out) == 2
    assert lesson_file.read_text(encoding="utf-8") == SMALL
    assert "left as it is" in out.getvalue()


def test_a_write_that_fails_leaves_the_lesson_whole(
    lesson_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(_handle: int) -> None:
        raise OSError("no space left")

    monkeypatch.setattr("tutor.teacher.lessons.os.fsync", full)
    out = io.StringIO()
    assert tidy_files([lesson_file], out) == 2
    assert lesson_file.read_text(encoding="utf-8") == SMALL
    assert [path.name for path in lesson_file.parent.iterdir()] == ["hoops.lesson"]


@pytest.mark.parametrize("path", sorted(lessons_folder().glob("*.lesson")), ids=lambda path: str(path.stem))
def test_every_shipped_lesson_means_the_same_when_it_is_tidied(path: Path) -> None:
    lesson, _faults = load_lesson(path)
    assert lesson is not None
    once = tidied(lesson.text)
    again, faults = read_lesson(once, str(path), path.parent)
    assert faults == ()
    assert again is not None
    assert tidied(once) == once
    for seed in (1, 2, 3):
        pairs = zip(drawn(lesson, seed).problems, drawn(again, seed).problems, strict=True)
        assert all((one.ask, one.task, one.numbers) == (two.ask, two.task, two.numbers) for one, two in pairs)


@settings(max_examples=60, deadline=None)
@given(
    words=st.lists(
        st.sampled_from(["hoop", "#cane", "r", "=", "{r}", "long,", "–", "灯", "7", "formula", "#"]),
        min_size=1,
        max_size=60,
    ),
    gap=st.sampled_from([" ", "  ", "\n     "]),
)
def test_any_question_keeps_its_words(words: list[str], gap: str) -> None:
    # A row that begins with # would be a remark, so the first word is none of these.
    question = "Say" + gap.replace("\n     ", " ") + gap.join(words).replace("\n     #", " #") + "?"
    text = SMALL.replace("Two ends of the cane meet.   How long is\n     the hoop?", question)
    lesson, _faults = read_lesson(text, "a.lesson")
    if lesson is None:
        return
    once = tidied(lesson.text)
    again, faults = read_lesson(once, "a.lesson")
    assert again is not None, "\n".join(map(str, faults))
    assert again.problems[0].ask == lesson.problems[0].ask
    assert tidied(once) == once


def test_the_command_takes_one_of_its_three_ways(
    lesson_file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["audit", "--draws", str(lesson_file)]) == 0
    assert "all 4 draws" in capsys.readouterr().out
    assert main(["audit", "--tidy", str(lesson_file)]) == 0
    assert "in the standard layout" in capsys.readouterr().out
    assert main(["audit", "--thorough", str(lesson_file)]) == 0
    with pytest.raises(SystemExit):
        main(["audit", "--tidy", "--draws", str(lesson_file)])
