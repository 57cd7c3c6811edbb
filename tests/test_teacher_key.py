"""The answer key of every kind of problem: for everybody, for one seed, for one student."""

import io
import re
from fractions import Fraction
from pathlib import Path

import pytest
from teacher_class import KINDS, SMALL, at, lines, missed_hoop, read, student

from tutor.figure.lettering import cell_width
from tutor.lesson.fresh import drawn
from tutor.lesson.model import Problem
from tutor.marking.solve import NamedValue
from tutor.marking.task import Rounding, Task
from tutor.record.desk import Desk
from tutor.teacher.answers import Answer, answers_of, written
from tutor.teacher.draw_table import draw_rows, numbers_of
from tutor.teacher.key import print_key
from tutor.teacher.on_paper import on_paper

pytest_plugins = ("teacher_class",)
pytestmark = pytest.mark.usefixtures("home")


def key(lesson: Path, student: Path | None = None, seed: int | None = None, most: int | None = None) -> str:
    out, err = io.StringIO(), io.StringIO()
    assert print_key(lesson, out, err, student=student, seed=seed, most=most) == 0
    assert err.getvalue() == ""
    assert max(map(cell_width, out.getvalue().splitlines())) <= 78
    return out.getvalue()


def refused(lesson: Path, student: Path) -> str:
    out, err = io.StringIO(), io.StringIO()
    assert print_key(lesson, out, err, student=student) == 2
    assert out.getvalue() == ""
    return err.getvalue()


def of(shown: str, name: str) -> list[str]:
    """Return the rows of one problem of a key, without the spaces in front."""
    rows = re.split(rf"\. {name}(?:,.*)?\n", shown, maxsplit=1)[1].splitlines()
    end = next((at for at, row in enumerate(rows) if row[:1].strip()), len(rows))
    return [row.strip() for row in rows[:end] if row.strip()]


def entries(rows: list[str], word: str) -> list[str]:
    return [row.removeprefix(word).strip() for row in rows if row.startswith(f"{word} ")]


def named(lesson: Path, name: str) -> Problem:
    return next(problem for problem in read(lesson).problems if problem.name == name)


# --- every kind ---------------------------------------------------------------------------------


def test_a_choice_shows_its_options_and_which_fits(kinds: Path) -> None:
    rows = of(key(kinds), "Cut")
    assert rows[1:] == ["A) triangle  B) square  C) circle", "answer      B) square"]


def test_a_word_stands_with_what_else_is_right(kinds: Path) -> None:
    rows = of(key(kinds), "Round")
    assert rows == [
        "Which word means: the way once round a circle?",
        "answer      circumference, also right: perimeter of a circle",
    ]


def test_lengths_are_compared_and_answered(kinds: Path) -> None:
    rows = of(key(kinds), "Struts")
    sample = next(row for row in rows if row.startswith("4 cm, 6 cm, "))
    assert [row for row in rows if " + " in row and " cm  " in row] == entries_with(rows, "working")
    # 4 + 6 = 10 is more than 9 alone.
    longest = sample.rsplit(" ", 2)[1]
    assert entries(rows, "answer") == ["yes" if longest == "9" else "no"]
    assert rows[rows.index("all 3 draws") + 1 :][-1].split()[-1] == "no"


def entries_with(rows: list[str], word: str) -> list[str]:
    return [row for row in rows if row.startswith(f"{word} ")]


def test_a_drawing_says_what_the_other_parts_must_measure(kinds: Path) -> None:
    rows = of(key(kinds), "Drawn")
    assert rows[1] == "a = 6 cm, b = 8 cm, C = 90°"
    assert rows[2].startswith("drawn       a = 6 cm, b = 8 cm, C = 90°")
    # The 3-4-5 triangle, doubled: c = 10; tan A = 6/8.
    assert entries(rows, "measured")[0].startswith("c = 10.0 cm") and "A = 36.9°" in rows
    assert sum("student's own" in row or "Measured:" in row for row in rows) <= 2, "said once"


def test_parts_are_asked_and_answered_under_their_letters(kinds: Path) -> None:
    problem = named(kinds, "Faces")
    edge = int(dict(problem.numbers)["L"])
    rows = of(key(kinds), "Faces")
    assert rows[1:3] == ["a) How large are front and side?", "b) How large is all the paper S?"]
    assert entries(rows, "answer") == [
        f"a) front = {6 * edge} cm²",
        f"a) side = {3 * edge} cm²",
        f"b) S = {18 * edge} cm²",
    ]


def test_what_is_counted_up_names_the_number_it_was_counted_up_from(kinds: Path) -> None:
    rows = of(key(kinds), "Boxes")
    table = [row.split() for row in rows[rows.index("all 3 draws") + 3 :]]
    # 64/12 = 5 1/3 and 75/12 = 6.25 are counted up, 72/12 = 6 is not.
    assert table == [["64", "6"], ["72", "6"], ["75", "7"]]
    count = dict(named(kinds, "Boxes").numbers)["n"]
    assert entries(rows, "answer") == [{"64": "b = 6, rounded up from 16/3", "72": "b = 6", "75": "b = 7, rounded up from 6.25"}[count]]  # fmt: skip


def test_a_formula_and_a_derivation_are_written_out_with_the_sentence(kinds: Path) -> None:
    shown = key(kinds)
    assert entries(of(shown, "Disc"), "answer") == ["A = πr²"]
    rows = of(shown, "Strip")
    assert entries(rows, "formula")[0].startswith("C = 2πr")
    assert entries(rows, "answer") == ["s = πr"]
    assert entries(rows, "why") == ["The strip is half of the hoop, so half of 2πr."]


def test_what_matters_most_is_said(kinds: Path) -> None:
    shown = key(kinds)
    assert "\n1. Hoop, one of those that matter most\n" in shown and "\n2. Strips\n" in shown


# --- the draws ----------------------------------------------------------------------------------


def test_few_draws_are_all_shown_with_what_a_student_sees(kinds: Path) -> None:
    rows = of(key(kinds), "Hoop")
    cells = " ".join(rows[rows.index("all 10 draws") + 3 :]).split("cm")
    lengths = [Fraction(cell) for cell in cells if cell.strip()]
    pairs = {(lengths[at], lengths[at + 1]) for at in range(0, len(lengths), 2)}
    radii = [Fraction(half, 2) for half in range(8, 19) if half != 10]
    assert pairs == {(2 * Fraction("3.14") * r, r) for r in radii}


def test_of_many_draws_there_is_a_sample_and_it_says_so(kinds: Path) -> None:
    rows = of(key(kinds), "Strips")
    assert "12 of 192 draws" in rows  # 8 · 8 · 3
    assert len(of(key(kinds, most=5), "Strips")) < len(rows)
    assert "5 of 192 draws" in of(key(kinds, most=5), "Strips")
    assert "all 192 draws" in of(key(kinds, most=1000), "Strips")
    assert not any("draws" in row for row in of(key(kinds, most=0), "Strips"))


def test_where_every_draw_has_the_same_answer_in_words_it_is_said_once(kinds: Path) -> None:
    kinds.write_text(KINDS.replace("vary     c in 9, 10, 11", "vary     c in 7, 8, 9"), encoding="utf-8")
    assert of(key(kinds), "Struts")[-1] == "all 3 draws, each with the answer yes"


def test_every_row_of_a_table_is_a_true_equation(kinds: Path) -> None:
    rows = list(draw_rows(named(kinds, "Strips"), 1000, 78))
    # x is the answer n, which stands there already.
    assert rows[1].split()[:4] == ["a", "b", "equation", "n"]
    seen = set()
    for cells in (row.split() for row in rows[3:]):
        for start in range(0, len(cells), 8):  # a b, five signs of the equation, n
            a, b, term, plus, c, equals, total, n = cells[start : start + 8]
            assert (term, plus, equals, c) == (f"{a}n", "+", "=", b)
            assert int(a) * int(n) + int(b) == int(total)
            seen.add((a, b, n))
    assert len(seen) == 192


def test_a_table_that_is_too_wide_is_told_in_rows(tmp_path: Path) -> None:
    path = tmp_path / "wide.lesson"
    letters = "abcdefgh"
    path.write_text(
        "lesson   Wide\nformat   1\n\nproblem  Wide\n"
        + "".join(f"  vary     {letter} in 1000001, 1000002\n" for letter in letters)
        + "  ask      How large is the sum S?\n"
        + "".join(f"  given    {letter}{letter} = {{{letter}}} m\n" for letter in letters)
        + "  formula  S = " + " + ".join(2 * letter for letter in letters) + "\n"
        + "  names    " + ", ".join(2 * letter for letter in letters) + "\n  find     S in m\n",
        encoding="utf-8",
    )  # fmt: skip
    rows = list(draw_rows(named(path, "Wide"), 300, 60))
    assert rows[0] == "all 256 draws"
    assert max(map(cell_width, rows)) <= 60
    assert sum(row.startswith("aa = 100000") for row in rows) == 256
    assert " ".join(rows).count("S = 80000") == 256


# --- one seed, one student ------------------------------------------------------------------------


def test_the_key_of_a_seed_has_its_numbers_and_no_table(kinds: Path) -> None:
    shown = key(kinds, seed=7)
    lesson = drawn(read(kinds), 7)
    hoop = dict(lesson.problems[0].givens)["C"]
    assert "With the numbers of seed 7." in shown and "draws" not in shown
    assert f"C = {hoop} long" in shown
    assert entries(of(shown, "Hoop"), "answer") == [f"r = {dict(lesson.problems[0].numbers)['r']} cm"]


def test_the_key_for_a_student_has_the_students_numbers_and_those_of_the_correction(
    kinds: Path, tmp_path: Path
) -> None:
    asked: list[str] = []

    def work(desk: Desk) -> None:
        asked.append(desk.state.problems[0].problem.ask)
        hoop = at(desk, "Hoop", "C = 2 pi r", "C = 5.14r", "C = 6.28r")
        desk.start_correction(hoop)
        asked.append(desk.state.problems[0].current.problem.ask)

    shown = " ".join(key(kinds, student=student("K7", kinds, tmp_path, work)).split())
    first, again = asked
    assert first != again
    assert "With the numbers of K7, from K7.evenline." in shown
    before, after = shown.split("Corrections that are begun, with their numbers")
    assert first in before and again not in before
    assert again in after and first not in after


def test_the_key_for_a_student_is_that_of_the_desk_in_every_problem(kinds: Path, tmp_path: Path) -> None:
    answers: list[str] = []

    def work(desk: Desk) -> None:
        for state in desk.state.problems:
            answers.extend(str(answer) for answer in answers_of(state.problem.task)[0])
        at(desk, "Cut", "B")

    shown = key(kinds, student=student("K7", kinds, tmp_path, work))
    assert all(answer in shown for answer in answers if "≈" not in answer)
    assert len(answers) == 13


def test_a_file_that_has_no_numbers_for_this_lesson_is_said(kinds: Path, tmp_path: Path) -> None:
    small = tmp_path / "small.lesson"
    small.write_text(SMALL, encoding="utf-8")
    handed = student("K7", small, tmp_path, missed_hoop)
    assert "never opened" in refused(kinds, handed)
    assert "no such file" in refused(kinds, tmp_path / "none.evenline")
    assert "Name the file of one student" in refused(kinds, tmp_path)
    assert "no record" in refused(kinds, kinds)


def test_work_on_another_text_is_named(kinds: Path, tmp_path: Path) -> None:
    small = tmp_path / "small.lesson"
    small.write_text(SMALL, encoding="utf-8")
    handed = student("K7", small, tmp_path, lines("6n = 72"))
    small.write_text(SMALL.replace("= 87", "= 93"), encoding="utf-8")
    assert "Worked with another text or other numbers: Paper." in " ".join(key(small, student=handed).split())


REVIEW = """\
lesson   Mixed
format   1
review   3 from kinds, small
"""


def test_the_key_of_a_review_holds_all_that_it_draws_from_or_a_students_set(
    kinds: Path, tmp_path: Path
) -> None:
    (tmp_path / "small.lesson").write_text(SMALL, encoding="utf-8")
    review = tmp_path / "mixed.lesson"
    review.write_text(REVIEW, encoding="utf-8")
    shown = key(review)
    assert "Each student gets 3 of the problems below." in " ".join(shown.split())
    assert shown.count("\n1. ") == 2 and "\nPaper and hoops\n===============\n" in shown
    assert shown.count("   answer  ") == 11 + 2
    names: list[str] = []

    def work(desk: Desk) -> None:
        names.extend(state.problem.name for state in desk.state.problems)
        lines("2")(desk)

    one = key(review, student=student("K7", review, tmp_path, work))
    titles = [row.split(". ")[1].split(",")[0] for row in one.splitlines() if row[:1].isdigit()]
    assert titles == names and len(names) == 3


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("Work out 20^2.", "Work out 20²."),
        ("x^10 + y^3", "x¹⁰ + y³"),
        ("2^0.5 and 2^3/4 and 2^3^2", "2^0.5 and 2^3/4 and 2^3²"),
        ("r^2\x1b[31m", "r²␛[31m"),
    ],
)
def test_powers_are_raised_where_they_cannot_be_misread(typed: str, printed: str) -> None:
    assert on_paper(typed) == printed


# --- answers ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "approx", "places", "rounding", "shown"),
    [
        ("65/12", 65 / 12, 0, Rounding.UP, "b = 6, rounded up from 65/12"),
        ("65/12", 65 / 12, 0, Rounding.DOWN, "b = 5, rounded down from 65/12"),
        ("65/12", 65 / 12, 1, Rounding.NEAREST, "b ≈ 5.4"),
        ("6", 6.0, 0, Rounding.UP, "b = 6"),
        ("6.25", 6.25, 1, Rounding.UP, "b = 6.3, rounded up from 6.25"),
        ("6.25", 6.25, 1, Rounding.NEAREST, "b ≈ 6.3"),
        ("−6.25", -6.25, 1, Rounding.NEAREST, "b ≈ −6.3"),
        ("−1/3", -1 / 3, 2, Rounding.NEAREST, "b ≈ −0.33"),
        ("√2", 2**0.5, 2, Rounding.NEAREST, "b ≈ 1.41"),
        ("1/400", 0.0025, 1, Rounding.NEAREST, "b ≈ 0.0"),
        # 6 and a part too small for a float: one more box is needed.
        ("600000000000000000001/100000000000000000000", 6.0, 0, Rounding.UP, "b = 7, rounded up from 600000000000000000001/100000000000000000000"),
    ],
)  # fmt: skip
def test_answers_are_rounded_from_the_exact_value(
    text: str, approx: float, places: int, rounding: Rounding, shown: str
) -> None:
    value = NamedValue("b", text, approx, "")
    assert str(written(value, Task(places=places, rounding=rounding))) == shown


def test_a_cell_under_its_name_says_that_it_was_rounded() -> None:
    assert Answer("s", "7.1 cm", about=True).cell == "≈ 7.1 cm"
    assert Answer("s", "7 cm", note="rounded up from 6.25 cm").cell == "7 cm"
    assert Answer("", "yes").cell == "yes"


def test_what_is_given_is_told_on_one_row(kinds: Path) -> None:
    problem = named(kinds, "Hoop")
    assert numbers_of(problem) == f"C = {dict(problem.givens)['C']}"
    assert numbers_of(named(kinds, "Strips")).startswith("a = ")


def test_nothing_in_a_lesson_steers_a_terminal(tmp_path: Path) -> None:
    path = tmp_path / "hostile.lesson"
    path.write_text(
        KINDS.replace("triangle, square, circle", "[red]x[/red], square, \u202ecircle"), encoding="utf-8"
    )
    out = io.StringIO()
    print_key(path, out, io.StringIO())
    assert "\x1b" not in out.getvalue() and "\u202e" not in out.getvalue()
