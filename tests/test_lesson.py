"""Lesson text read, printed and laid on the shelf. What is wrong with a text: test_lesson_faults.py."""

import re
from dataclasses import replace
from pathlib import Path

import pytest

from tutor.lesson.model import FigurePart, FigureWords, Lesson, Problem
from tutor.lesson.reader import load_lesson, read_lesson
from tutor.lesson.shelf import shelf
from tutor.lesson.tidy import WIDTH, tidied
from tutor.marking.task import Task
from tutor.quantity.pi import Pi

PARADE = Path(__file__).parent / "parade.lesson"

HEAD = "lesson   Hoops\nformat   1\n"


def read(text: str) -> Lesson:
    lesson, faults = read_lesson(text, "hoops.lesson")
    assert lesson is not None, "\n".join(map(str, faults))
    assert faults == ()
    return lesson


def one(body: str, head: str = HEAD) -> Problem:
    """Return the only problem of a lesson whose problem has these entries."""
    (problem,) = read(f"{head}\nproblem  Hoop\n{body}").problems
    return problem


def task_of(body: str) -> Task:
    """Return the task of a problem that is solved."""
    task = one(body).task
    assert isinstance(task, Task)
    return task


def bare(lesson: Lesson) -> Lesson:
    """Return the lesson without what depends on its layout."""
    problems = tuple(replace(problem, line=0) for problem in lesson.problems)
    return replace(lesson, problems=problems, fingerprint="", path="", text="")


# --- what is read -----------------------------------------------------------------


def test_every_entry_is_read() -> None:
    lesson = read(
        "# a remark\n"
        "lesson   Lantern Parade: hoops\nformat   1\ngrade    7\ncovers   7.G.B.4, 7.EE.B.4a\npi       22/7\n"
        "every    step\n\n"
        "problem  Hoop\n"
        "  ask      The hoop is bent from {C} of cane.\n"
        "           How far is it to the middle?\n"
        "  figure   circle, radius r, circumference C\n"
        "  names    SA, angle A\n"
        "  formula  C = 2 pi r\n"
        "  given    C = 53.38 cm\n"
        "  find     r in cm\n"
        "  round    to 1 place\n"
    )
    assert (lesson.title, lesson.grade) == ("Lantern Parade: hoops", "7")
    assert lesson.covers == ("7.G.B.4", "7.EE.B.4a")
    assert lesson.problems == (
        Problem(
            name="Hoop",
            ask="The hoop is bent from 53.38 cm of cane. How far is it to the middle?",
            task=Task(
                formulas=("C = 2 pi r",),
                givens=(("C", "53.38 cm"),),
                find=("r",),
                units=("cm",),
                pi=Pi.FRACTION,
                every_step=True,
                names=("SA", "angle A"),
                measures=("C", "r"),
                places=1,
            ),
            figure=FigureWords("circle", (FigurePart("radius", "r"), FigurePart("circumference", "C"))),
            line=9,
            givens=(("C", "53.38 cm"),),
        ),
    )


@pytest.mark.parametrize(
    ("lines", "find", "units"),
    [
        ("find r in cm", ("r",), ("cm",)),
        ("find A and B in °", ("A", "B"), ("°", "°")),
        ("find A, B and C in °", ("A", "B", "C"), ("°", "°", "°")),
        ("find A, B, and C in °", ("A", "B", "C"), ("°", "°", "°")),
        ("find A\n  find B in cubic inches", ("A", "B"), ("", "cubic inches")),
        ("find A in in", ("A",), ("in",)),
    ],
)
def test_find(lines: str, find: tuple[str, ...], units: tuple[str, ...]) -> None:
    task = task_of(f"  ask How large?\n  formula A + B + C = 2 r\n  {lines}\n")
    assert (task.find, task.units) == (find, units)


def test_an_equation_is_a_formula_with_nothing_given() -> None:
    task = task_of("  ask Solve it.\n  equation 2x + 14 = 3x\n  find x\n")
    assert task == Task(formulas=("2x + 14 = 3x",), find=("x",), units=("",))


def test_a_given_may_be_an_expression_and_be_found() -> None:
    task = task_of(
        "  ask A and B?\n  formula A + B = 180\n  given A = 3x + 12\n"
        "  given B = 5x + 8\n  find A and B in °\n"
    )
    assert task.givens == (("A", "3x + 12"), ("B", "5x + 8"))
    assert task.measures == ()


def test_measures_are_lengths_areas_volumes_and_parts_of_a_figure() -> None:
    task = task_of(
        "  ask How wide after {T}?\n  figure box, length L, width W, height H\n  formula V = L W H\n"
        "  given V = 756 cm^3\n  given L = 2 H\n  given T = 20 min\n  given H = 6 cm\n  find W\n"
    )
    assert task.measures == ("V", "H", "L", "W")


def test_pi_and_every_step_may_be_said_for_one_problem() -> None:
    lesson = read(
        HEAD + "pi 3.14\nproblem One\n  ask ?\n  pi exact\n  every step\n  equation 2x = 6\n  find x\n"
        "problem Two\n  ask ?\n  equation 2x = 6\n  find x\n"
    )
    tasks = [problem.task for problem in lesson.problems]
    assert [(task.pi, task.every_step) for task in tasks if isinstance(task, Task)] == [
        (Pi.EXACT, True),
        (Pi.DECIMAL, False),
    ]


def test_braces_show_powers_small() -> None:
    problem = one("  ask A box of { v }.\n  formula V = 3 W\n  given V = 756 cm^3\n  find W\n")
    assert problem.ask == "A box of 756 cm³."


@pytest.mark.parametrize(
    "layout",
    [
        "problem Hoop\nask How far?\nequation 2x = 6\nfind x\n",
        "PROBLEM Hoop\n\n    Ask How\n\n      far?\n    # a remark\n      equation 2x = 6\n  find\n    x\n",
        "problem   Hoop\r\n  ask   How far?\r\n  equation   2x = 6\r\n  find   x\r\n",
        "problem\u00a0Hoop\n\u00a0 ask How\u00a0far?\n  equation 2x\u2009= 6\n  find x",
    ],
)
def test_the_layout_is_free(layout: str) -> None:
    (problem,) = read(HEAD + layout).problems
    assert (problem.name, problem.ask) == ("Hoop", "How far?")
    assert problem.task == Task(formulas=("2x = 6",), find=("x",), units=("",))


def test_a_line_that_goes_on_may_begin_with_a_keyword() -> None:
    assert one("  ask How do you\n      find the middle?\n  equation 2x = 6\n  find x\n").ask == (
        "How do you find the middle?"
    )


def test_an_entry_too_far_right_is_still_an_entry() -> None:
    task = task_of("  ask      How far?\n           equation  2x = 6\n   find x\n")
    assert task.formulas == ("2x = 6",)


def test_what_looks_like_markup_is_only_text() -> None:
    ask = "[red]How[/] far \x1b[31m is <b>it</b>?"
    problem = one(f"  ask {ask}\n  equation 2x = 6\n  find x\n")
    assert problem.ask == ask


def test_the_fingerprint_is_of_the_text_whatever_its_line_ends() -> None:
    text = HEAD + "problem Hoop\n  ask ?\n  equation 2x = 6\n  find x\n"
    plain = read(text)
    assert read(text.replace("\n", "\r\n")).fingerprint == plain.fingerprint
    assert read("\ufeff" + text).fingerprint == plain.fingerprint
    assert read(text + "\n").fingerprint != plain.fingerprint


# --- a whole lesson ---------------------------------------------------------------


def test_a_whole_lesson_reads() -> None:
    lesson, faults = load_lesson(PARADE)
    assert faults == ()
    assert lesson is not None
    assert len(lesson.problems) == 6
    assert {problem.figure.kind for problem in lesson.problems if problem.figure} == {
        "angles",
        "box",
        "circle",
        "track",
        "frame",
    }


def test_a_copy_with_changed_numbers_works_at_once() -> None:
    text = PARADE.read_text(encoding="utf-8").replace("53.38 cm", "40.82 cm")
    (hoop,) = (problem for problem in read(text).problems if problem.name == "Hoop")
    assert hoop.givens == (("C", "40.82 cm"),)
    assert "40.82 cm" in hoop.ask


# --- the standard layout ----------------------------------------------------------


def test_the_standard_layout_keeps_a_whole_lesson() -> None:
    text = PARADE.read_text(encoding="utf-8")
    laid = tidied(text)
    assert bare(read(laid)) == bare(read(text))
    assert tidied(laid) == laid
    assert all(len(row) <= WIDTH for row in laid.splitlines() if not row.startswith("#"))


def test_a_word_with_a_hash_never_begins_a_line() -> None:
    ask = " ".join(["paper"] * 11 + ["#3", "#4", "glue"])
    text = HEAD + f"problem Hoop\n  ask {ask}\n  equation 2x = 6\n  find x\n"
    assert read(tidied(text)).problems[0].ask == ask


# --- the shelf --------------------------------------------------------------------


def test_the_shelf_has_good_and_faulty_lessons_by_folder_and_name(tmp_path: Path) -> None:
    own = tmp_path / "own"
    own.mkdir()
    (own / "b.lesson").write_text(
        HEAD + "problem Hoop\n  ask ?\n  equation 2x = 6\n  find x\n", encoding="utf-8"
    )
    (own / "A.LESSON").write_text("", encoding="utf-8")
    (own / "notes.txt").write_text("no lesson", encoding="utf-8")
    first = tmp_path / "first"
    first.mkdir()
    (first / "parade.lesson").write_bytes(PARADE.read_bytes())
    found = shelf([first, own, own])
    assert [entry.path.name for entry in found] == ["parade.lesson", "A.LESSON", "b.lesson"]
    assert [entry.lesson is None for entry in found] == [False, True, False]
    assert "empty" in found[1].faults[0].message


def test_a_folder_that_is_not_there_is_said(tmp_path: Path) -> None:
    (entry,) = shelf([tmp_path / "none"])
    assert entry.lesson is None
    assert re.search("no such folder", entry.faults[0].message)
