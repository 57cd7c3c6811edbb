"""The teacher's commands: audit, key, and a student's handing in and erasing."""

import io
import re
from dataclasses import replace
from pathlib import Path

import pytest
from teacher_class import SMALL, missed_hoop, read, student

from tutor.marking.task import Task
from tutor.marking.verdict import Step
from tutor.marking.worked import WorkedLine, solution
from tutor.marking.working import mark_lines
from tutor.record.place import record_path
from tutor.teacher.key import print_key
from tutor.teacher.lessons import audit_files
from tutor.teacher.records import erase_code, hand_in_code

PARADE = Path(__file__).parent / "parade.lesson"


pytest_plugins = ("teacher_class",)
pytestmark = pytest.mark.usefixtures("home")


# --- audit and key ----------------------------------------------------------------------------


def audited(*paths: Path) -> tuple[int, str]:
    out = io.StringIO()
    return audit_files(paths, out), out.getvalue()


def test_the_lesson_that_ships_has_no_fault() -> None:
    code, out = audited(PARADE)
    assert code == 0
    assert "no fault found; 6 problems worked out" in out


def test_an_audit_names_the_place_the_line_and_what_to_write(lesson_file: Path) -> None:
    lesson_file.write_text(SMALL.replace("find     n", "fnd      n"), encoding="utf-8")
    code, out = audited(lesson_file)
    assert code == 2
    assert f"{lesson_file}:8:3:" in out
    assert "fnd      n" in out and "^" in out and "write instead" in out
    assert "no fault found" not in out


def test_an_audit_works_the_problems_out(lesson_file: Path) -> None:
    lesson_file.write_text(SMALL.replace("given    C = 53.38 cm\n", "given    C = 0 cm\n"), encoding="utf-8")
    code, out = audited(lesson_file)
    assert code == 2
    assert "0 or less" in out and "fault" in out.splitlines()[-1]


def test_several_lessons_are_audited_each_on_its_own(lesson_file: Path, tmp_path: Path) -> None:
    code, out = audited(lesson_file, tmp_path / "none.lesson", PARADE)
    assert code == 2
    assert out.count("no fault found") == 2
    assert "There is no such file" in out


def test_a_key_shows_each_question_and_the_answers_that_were_worked_out() -> None:
    out, err = io.StringIO(), io.StringIO()
    assert print_key(PARADE, out, err) == 0
    assert err.getvalue() == ""
    shown = out.getvalue()
    answers = [row.split("answer")[1].strip() for row in shown.splitlines() if "answer  " in row]
    # Worked by hand from the numbers in the lesson.
    assert answers == [
        "n = 12",  # (87 - 15) / 6
        "A = 72°",  # 8x + 20 = 180, x = 20
        "B = 108°",
        "W = 9 cm",  # 756 / (14 * 6)
        "r = 8.5 cm",  # 53.38 / 6.28
        "s = 36 m",  # (150.5 - 3.14 * 25) / 2
        "L = 39 cm",  # 48 - 9
        "W = 26 cm",  # 35 - 9
    ]
    assert "How wide (W) is it?" in shown and shown.startswith(read(PARADE).title)
    assert max(len(row) for row in shown.splitlines()) <= 80
    for together in ("H = 6 cm", "b = 4.5 cm"):
        assert together in shown


def test_a_key_works_each_problem_through_its_steps_with_a_sentence_for_each_line(lesson_file: Path) -> None:
    out = io.StringIO()
    assert print_key(lesson_file, out, io.StringIO()) == 0
    paper, hoop = out.getvalue().split("\n1. Paper\n")[1].split("\n2. Hoop\n")
    # An equation alone is solved; a measured problem goes through the four steps.
    assert [row.split()[0] for row in paper.splitlines() if row[3:4].strip() and row[13:15] == "  "] == [
        "equation",
        "solve",
        "answer",
    ]
    assert [word for word in ("formula", "label", "substitute", "units") if f"\n   {word} " in hoop] == [
        "formula",
        "label",
        "substitute",
        "units",
    ]
    assert "6n = 72           Take 15 away from both sides." in paper
    assert "8.5 = r" in hoop and "Divide both sides by 6.28." in hoop


SQUARES = """\
lesson   Square boards
format   1

problem  Rounded
  ask      The board has an area of A = {A}. How long is its side s?
  formula  A = s^2
  given    A = 50 cm^2
  find     s in cm
  round    to 1 place

problem  Exact
  ask      The board has an area of A = {A}. How long is its side s?
  formula  A = s^2
  given    A = 6.25 cm^2
  find     s in cm
  round    to 2 places

problem  As it comes
  ask      The board has an area of A = {A}. How long is its side s?
  formula  A = s^2
  given    A = 50 cm^2
  find     s in cm

problem  Money
  ask      A pack costs p = {p}. How much is left of m = {m} after 6 packs? Call it y.
  formula  y = m - 6 p
  given    p = $4.35
  given    m = $40
  find     y in $
"""


def test_a_key_rounds_its_answers_as_the_lesson_says_and_raises_powers(tmp_path: Path) -> None:
    path = tmp_path / "squares.lesson"
    path.write_text(SQUARES, encoding="utf-8")
    out = io.StringIO()
    assert print_key(path, out, io.StringIO()) == 0
    shown = out.getvalue()
    rounded, exact, as_it_comes, money = re.findall("^ *answer +(.*)$", shown, re.MULTILINE)
    # 7.07² = 49.98 and 7.075² = 50.06, so √50 is about 7.07; 2.5² = 6.25.
    assert (rounded, exact) == ("s ≈ 7.1 cm", "s = 2.5 cm")
    assert as_it_comes == "s ≈ 7.071 cm"
    assert money == "y = $13.90"  # 40 - 26.10
    assert "50 = s²" in shown and "^" not in shown


def test_every_line_of_a_key_is_marked_as_right_by_the_marker() -> None:
    for problem in read(PARADE).problems:
        assert isinstance(problem.task, Task)
        worked = solution(problem.task)
        assert worked
        working = mark_lines(replace(problem.task, every_step=True), [one.text for one in worked])
        assert all(line.mark.verdict.stands for line in working.lines), problem.name
        assert working.progress.complete


def test_a_key_without_a_working_still_gives_the_answer(
    lesson_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tutor.teacher.key.solution", lambda task: ())
    out = io.StringIO()
    assert print_key(lesson_file, out, io.StringIO()) == 0
    assert out.getvalue().count("cannot write this one down") == 2 and "n = 12" in out.getvalue()


def test_a_long_line_of_a_key_has_its_sentence_below_it(
    lesson_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    long = " + ".join(["2 · 14"] * 20)
    lines = (WorkedLine("n = 12", "Short [red].", Step.SUBSTITUTE), WorkedLine(long, "Add.", None))
    monkeypatch.setattr("tutor.teacher.key.solution", lambda task: lines)
    out = io.StringIO()
    print_key(lesson_file, out, io.StringIO())
    rows = out.getvalue().splitlines()
    assert max(len(row) for row in rows) <= 80
    assert "Short [red]." in out.getvalue()
    assert " ".join(" ".join(rows).split()).count("2 · 14") == 40
    assert (
        rows[rows.index(next(row for row in rows if row.endswith("  Add."))) - 1].strip().startswith("2 · 14")
    )


@pytest.mark.parametrize(("right", "end"), [("2x + 3", "no solution"), ("2x + 2", "all numbers")])
def test_a_key_says_how_an_equation_ends_that_has_not_one_answer(
    right: str, end: str, tmp_path: Path
) -> None:
    lesson = tmp_path / "ends.lesson"
    text = f"lesson Ends\nformat 1\nproblem One\n  ask ?\n  equation 2(x + 1) = {right}\n  find x\n"
    lesson.write_text(f"{text}  answer {end}\n", encoding="utf-8")
    out, err = io.StringIO(), io.StringIO()
    assert print_key(lesson, out, err) == 0
    assert re.search(rf"answer +{end}\n", out.getvalue())


def test_a_key_follows_changed_numbers(lesson_file: Path) -> None:
    lesson_file.write_text(SMALL.replace("6n + 15 = 87", "7n + 15 = 87"), encoding="utf-8")
    out = io.StringIO()
    assert print_key(lesson_file, out, io.StringIO()) == 0
    assert "n = 72/7, about 10.29" in out.getvalue()


def test_a_key_says_which_problem_cannot_be_worked_out_and_goes_on(lesson_file: Path) -> None:
    lesson_file.write_text(SMALL.replace("given    C = 53.38 cm", "given    C = 0 cm"), encoding="utf-8")
    out, err = io.StringIO(), io.StringIO()
    assert print_key(lesson_file, out, err) == 2
    assert "n = 12" in out.getvalue() and "cannot be worked out" in out.getvalue()
    assert "Hoop" in err.getvalue() and ":10:" in err.getvalue()


def test_a_key_of_an_unreadable_lesson_prints_its_faults(tmp_path: Path) -> None:
    out, err = io.StringIO(), io.StringIO()
    assert print_key(tmp_path, out, err) == 2
    assert out.getvalue() == "" and "folder" in err.getvalue()


# --- handing in and erasing -------------------------------------------------------------------


def test_work_is_handed_in_and_reported(lesson_file: Path, folder: Path, tmp_path: Path) -> None:
    student("K7", lesson_file, folder, missed_hoop)
    out, err = io.StringIO(), io.StringIO()
    assert hand_in_code("k7", folder, out, err) == 0
    assert str(folder / "K7.evenline") in out.getvalue() and err.getvalue() == ""


@pytest.mark.parametrize(("code", "said"), [("Z9", "no work of Z9"), ("../x", "such as K7")])
def test_a_code_without_work_hands_nothing_in(code: str, said: str, folder: Path, home: Path) -> None:
    out, err = io.StringIO(), io.StringIO()
    assert hand_in_code(code, folder, out, err) == 2
    assert erase_code(code, out, err) == 2
    assert out.getvalue() == "" and err.getvalue().count(said) == 2
    assert not home.exists() and not any(folder.iterdir())


def test_handing_in_to_no_folder_or_from_a_torn_record_is_refused(
    lesson_file: Path, folder: Path, tmp_path: Path
) -> None:
    student("K7", lesson_file, folder, missed_hoop)
    err = io.StringIO()
    assert hand_in_code("K7", tmp_path / "no stick", io.StringIO(), err) == 2
    assert "There is no folder" in err.getvalue()
    record_path("K7").write_bytes(b"torn")
    assert hand_in_code("K7", folder, io.StringIO(), err) == 2
    assert "damaged" in err.getvalue()


def test_erasing_takes_one_record_away_and_leaves_the_others(lesson_file: Path, folder: Path) -> None:
    student("K7", lesson_file, folder, missed_hoop)
    student("M2", lesson_file, folder, missed_hoop)
    out = io.StringIO()
    assert erase_code("K7", out, io.StringIO()) == 0
    assert "erased" in out.getvalue()
    assert not record_path("K7").exists() and record_path("M2").exists()
    err = io.StringIO()
    assert erase_code("K7", io.StringIO(), err) == 2
    assert "no work of K7" in err.getvalue()
