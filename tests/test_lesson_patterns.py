"""The patterns a lesson can begin from: each reads, stands the audit, and is never written over a file."""

from pathlib import Path

import pytest

from tutor.cli import main
from tutor.lesson.audit import audit
from tutor.lesson.patterns import PATTERNS, write_pattern
from tutor.lesson.reader import load_lesson, read_lesson
from tutor.lesson.tidy import tidied

ALONE = [name for name in PATTERNS if name != "review"]


@pytest.mark.parametrize("name", ALONE)
def test_a_pattern_stands_the_audit(name: str, tmp_path: Path) -> None:
    path = tmp_path / "mine.lesson"
    written, sentence = write_pattern(name, path)
    assert written, sentence
    lesson, faults = load_lesson(path)
    assert lesson is not None, "\n".join(map(str, faults))
    assert "\n".join(map(str, audit(lesson))) == ""


@pytest.mark.parametrize("name", ALONE)
def test_a_pattern_keeps_its_meaning_when_it_is_tidied(name: str) -> None:
    lesson, _faults = read_lesson(PATTERNS[name], "mine.lesson")
    tidy, faults = read_lesson(tidied(PATTERNS[name]), "mine.lesson")
    assert lesson is not None
    assert tidy is not None, faults
    assert [problem.task for problem in lesson.problems] == [problem.task for problem in tidy.problems]


def test_the_review_draws_from_the_lessons_that_are_named(tmp_path: Path) -> None:
    assert write_pattern("review", tmp_path / "mine.lesson")[0]
    for name in ("hoops", "windows"):
        problems = "".join(f"problem P{n}\n  ask ?\n  equation 2x = {2 * n}\n  find x\n" for n in range(1, 6))
        (tmp_path / f"{name}.lesson").write_text(f"lesson A\nformat 1\n{problems}", encoding="utf-8")
    lesson, faults = load_lesson(tmp_path / "mine.lesson")
    assert lesson is not None, faults
    assert len(lesson.problems) == 8


def test_no_file_is_written_over(tmp_path: Path) -> None:
    path = tmp_path / "mine.lesson"
    path.write_text("my work", encoding="utf-8")
    written, sentence = write_pattern("circle", path)
    assert not written
    assert "left as it is" in sentence
    assert path.read_text(encoding="utf-8") == "my work"


@pytest.mark.parametrize(
    ("name", "file", "said"),
    [
        ("circel", "a.lesson", "Did you mean circle?"),
        ("spiral", "a.lesson", "There are equation, inequality, circle,"),
        ("\x1b[2J", "a.lesson", "“␛[2J”"),
        ("circle", "a.txt", "ends in .lesson"),
        ("circle", "none/a.lesson", "Make it first"),
        ("circle", "a\0b.lesson", "cannot be written"),
        ("circle", "x" * 400 + ".lesson", "cannot be written"),
    ],
)
def test_what_cannot_be_written_is_said(tmp_path: Path, name: str, file: str, said: str) -> None:
    written, sentence = write_pattern(name, tmp_path / file)
    assert not written
    assert said in sentence
    assert list(tmp_path.iterdir()) == []


def test_the_command_to_type_next_stands_on_a_row_of_its_own_and_whole(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for name in ("my hoops.lesson", "-".join(["hoops"] * 12) + ".lesson"):
        path = tmp_path / name
        assert main(["new", "circle", str(path)]) == 0
        *said, command = capsys.readouterr().out.splitlines()
        assert " ".join(said) == f"{path} is written. Change its words and numbers, then:"
        assert command == "  evenline audit " + (f'"{path}"' if " " in str(path) else str(path))


def test_a_sentence_is_folded_for_a_terminal(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["new", "spiral", str(tmp_path / "a.lesson")]) == 2
    rows = capsys.readouterr().err.splitlines()
    assert len(rows) == 2
    assert all(len(row) < 80 for row in rows)


def test_names_are_read_in_capitals_and_line_ends_are_the_same_everywhere(tmp_path: Path) -> None:
    path = tmp_path / "mine.lesson"
    assert write_pattern("Circle", path)[0]
    assert path.read_bytes() == PATTERNS["circle"].encode("utf-8")
