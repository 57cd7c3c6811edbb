"""The command as it is typed: help, version, exit codes, and no screen where there is no terminal."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from teacher_class import KINDS, at, student

from tutor import __version__
from tutor.cli import main

TREE = Path(__file__).resolve().parent.parent
LESSON = TREE / "tests" / "parade.lesson"
COMMANDS = {
    "check": "Exit code: 0 nothing broke",
    "new": "Write a small good lesson into a new file",
    "audit": "work each problem out",
    "key": "its working line by line, and its answers",
    "report": "mark every line again",
    "words": "are not corrected yet",
    "hand-in": "copy of your work",
    "erase": "cannot be taken back",
}


def run(
    *arguments: str, given: bytes = b"", home: Path | None = None, folder: Path = TREE
) -> subprocess.CompletedProcess[bytes]:
    environment = os.environ | {"PYTHONPATH": str(TREE), "PYTHONIOENCODING": "ascii"}
    if home is not None:
        environment["EVENLINE_HOME"] = str(home)
    return subprocess.run(
        [sys.executable, "-m", "tutor", *arguments],
        input=given,
        capture_output=True,
        timeout=60,
        check=False,
        cwd=folder,
        env=environment,
    )


def said(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, str, str]:
    """Run the command in this process."""
    try:
        code = main(arguments)
    except SystemExit as end:  # argparse ends so
        code = int(end.code or 0)
    out, err = capsys.readouterr()
    return code, out, err


def test_the_version(capsys: pytest.CaptureFixture[str]) -> None:
    assert said(capsys, "--version") == (0, f"evenline {__version__}\n", "")


def test_help_says_what_each_command_is_for(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = said(capsys, "--help")
    assert code == 0
    assert "checks the lines of a maths solution" in out
    for command in COMMANDS:
        row = next(row for row in out.splitlines() if row.split()[:1] == [command])
        assert len(row.split()) > 4


@pytest.mark.parametrize("command", COMMANDS)
def test_each_command_has_help_in_plain_words(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = said(capsys, command, "--help")
    assert (code, err) == (0, "")
    assert " ".join(COMMANDS[command].split()) in " ".join(out.split())


@pytest.mark.parametrize("arguments", [["draw"], ["key"], ["check", "--color"], ["report", "only.lesson"]])
def test_what_is_not_a_command_is_2_and_shows_the_usage(
    arguments: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    code, out, err = said(capsys, *arguments)
    assert (code, out) == (2, "")
    assert err.startswith("usage: evenline")


def test_without_a_terminal_there_is_a_sentence_and_2() -> None:
    ended = run()
    assert (ended.returncode, ended.stdout) == (2, b"")
    assert ended.stderr.decode().splitlines() == [
        "Evenline needs a terminal for its page. Without one use: evenline check FILE"
    ]


def test_check_without_a_file_says_what_to_name(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = said(capsys, "check")
    assert (code, out) == (2, "") and "Name a file" in err


@pytest.mark.parametrize(
    ("work", "code"),
    [("2x = 6\nx = 3\n", 0), ("2x = 6\nx = 4\n", 1), ("2x = 6\nx = (3\n", 2)],
)
def test_check_from_another_folder_with_its_exit_code(work: str, code: int, tmp_path: Path) -> None:
    (tmp_path / "work.txt").write_text(work, encoding="utf-8")
    from_file = run("check", "work.txt", folder=tmp_path)
    assert from_file.returncode == code and from_file.stderr == b""
    assert "2x = 6" in from_file.stdout.decode("utf-8")
    from_input = run("check", "-", given=work.encode(), folder=tmp_path)
    assert (from_input.returncode, from_input.stdout) == (code, from_file.stdout)


def test_check_speaks_utf8_whatever_the_terminal_says(tmp_path: Path) -> None:
    ended = run("check", "-", given="C = 2πr\n".encode(), folder=tmp_path)
    assert "C = 2πr" in ended.stdout.decode("utf-8")


def test_check_jsonl_answers_each_line() -> None:
    sent = b'{"id": "k1", "lines": ["2x + 14 = 3x", "14 = x"], "find": "x"}\nnot json\n{"lines": []}\n'
    ended = run("check", "--jsonl", given=sent)
    answers = [json.loads(row) for row in ended.stdout.splitlines()]
    assert ended.returncode == 2 and ended.stderr == b""
    assert [answer.get("line") for answer in answers] == [None, 2, None]
    assert answers[0]["finished"] is True
    assert run("check", "--jsonl").returncode == 0


def test_audit_and_key_of_the_lesson_that_ships(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = said(capsys, "audit", str(LESSON))
    assert (code, err) == (0, "") and "no fault found" in out
    code, out, err = said(capsys, "key", str(LESSON))
    assert (code, err) == (0, "") and "r = 8.5 cm" in out


def test_a_new_lesson_begins_from_a_pattern_and_nothing_is_written_over(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "mine.lesson"
    code, out, err = said(capsys, "new", "circle", str(path))
    assert (code, err) == (0, "") and "mine.lesson" in out
    written = path.read_bytes()
    code, out, err = said(capsys, "key", str(path))
    assert (code, err) == (0, "") and "answer" in out
    code, out, err = said(capsys, "new", "box", str(path))
    assert (code, out) == (2, "") and "left as it is" in err
    assert path.read_bytes() == written
    code, out, err = said(capsys, "new", "circel", str(tmp_path / "other.lesson"))
    assert (code, out) == (2, "") and "circle" in err
    assert not (tmp_path / "other.lesson").exists()


def test_a_key_is_asked_for_with_a_seed_a_students_file_or_a_number_of_draws(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("EVENLINE_HOME", str(tmp_path / "home"))
    lesson = tmp_path / "kinds.lesson"
    lesson.write_text(KINDS, encoding="utf-8")
    code, out, _ = said(capsys, "key", str(lesson))
    assert code == 0 and "12 of 192 draws" in out
    code, out, _ = said(capsys, "key", str(lesson), "--draws", "3")
    assert code == 0 and "3 of 192 draws" in out
    code, out, _ = said(capsys, "key", str(lesson), "--seed", "5")
    assert code == 0 and "seed 5" in out and "draws" not in out
    handed = student("K7", lesson, tmp_path, lambda desk: at(desk, "Cut", "B"))
    code, out, _ = said(capsys, "key", str(lesson), "--for", str(handed))
    assert code == 0 and "numbers of K7" in out


@pytest.mark.parametrize(
    "more",
    [
        ["--seed", "x"],
        ["--draws", "-1"],
        ["--draws", "²"],
        ["--draws", "0000000000001"],
        ["--draws", "1001"],
        ["--seed", "5", "--for", "K7.evenline"],
    ],
)
def test_a_key_of_no_seed_and_no_number_of_draws_shows_the_usage(
    more: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    code, out, err = said(capsys, "key", str(LESSON), *more)
    assert (code, out) == (2, "") and err.startswith("usage: evenline key")


def test_the_words_to_study_are_those_of_the_lessons_on_the_shelf(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("EVENLINE_HOME", str(tmp_path / "home"))
    (tmp_path / "kinds.lesson").write_text(KINDS, encoding="utf-8")
    student("K7", tmp_path / "kinds.lesson", tmp_path, lambda desk: at(desk, "Round", "radius", "diameter"))
    code, out, err = said(capsys, "--code", "K7", "--lessons", str(tmp_path), "words")
    assert (code, err) == (0, "") and out.startswith("circumference\n")
    code, out, err = said(capsys, "--code", "K7", "words")
    assert (code, err) == (0, "") and "no word to study" in out
    code, out, err = said(capsys, "words")
    assert (code, out) == (2, "") and "no work of ME" in err


def test_hand_in_report_and_erase_of_nobody(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("EVENLINE_HOME", str(tmp_path / "home"))
    code, out, err = said(capsys, "--code", "Z9", "hand-in", str(tmp_path))
    assert (code, out) == (2, "") and "no work of Z9" in err
    code, out, err = said(capsys, "erase", "Z9")
    assert (code, out) == (2, "") and "no work of Z9" in err
    code, out, err = said(capsys, "report", str(LESSON), str(tmp_path))
    assert (code, out) == (2, "") and "no .evenline file" in err


def test_a_reader_that_goes_away_is_no_traceback(tmp_path: Path) -> None:
    (tmp_path / "long.txt").write_text("2 + 2 = 4\n" * 400, encoding="utf-8")
    with subprocess.Popen(
        [sys.executable, "-m", "tutor", "check", "long.txt"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        cwd=tmp_path,
        env=os.environ | {"PYTHONPATH": str(TREE)},
    ) as process:
        assert process.stdout is not None and process.stderr is not None
        process.stdout.close()
        assert b"Traceback" not in process.stderr.read()
