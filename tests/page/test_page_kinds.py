"""Every kind of problem at the page, and what a lesson can set: real marks, real record."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from page_driving import Student, student_at, write_lessons

from tutor.lesson.model import Lesson, Problem
from tutor.lesson.reader import read_lesson
from tutor.marking.task import Rounding
from tutor.marking.work import begin
from tutor.page.asking import Items, Paragraph, asked, laid_out, rounding_words
from tutor.page.desk_source import Rooms, has_picture
from tutor.page.lettering import cells
from tutor.page.next_words import next_sentence
from tutor.page.question import Question
from tutor.page.steps_row import how_far
from tutor.page.words_screen import study_list
from tutor.record.state import Attempt
from tutor.visible import visible

KINDS = """\
lesson   Kinds
format   1
pi       3.14

problem  Hoop
  matters  most
  ask      A hoop takes {C} of cane. How far is it from the middle?
  figure   circle, radius r
  formula  C = 2 pi r
  given    C = 47.1 cm
  find     r in cm
  round    up to 1 place

problem  Strips
  ask      Four frames take n strips each, 5 are left, 29 there were. How many are n?
  equation 4n + 5 = 29
  find     n
  check    the answer

problem  Box
  ask      A box is {L} long, {W} wide and {H} high.
  piece    front = L H
  piece    side = W H
  formula  S = 2 front + 2 side
  given    L = 8 cm
  given    W = 3 cm
  given    H = 6 cm
  part     How large are the front and the side?
  part     How much paper goes round it?
  find     S in cm^2

problem  Can it
  ask      Can these make a triangle?
  triangle 4 cm, 6 cm, 9 cm

problem  Many
  ask      How many triangles are there?
  many     triangles
  given    A = 30°
  given    a = 5 cm
  given    b = 8 cm

problem  Cut
  ask      What shape is the cut of a cube?
  choose   triangle, square, circle
  answer   square

problem  Draw
  ask      Draw the tent.
  draw     triangle
  given    c = 6 cm
  given    b = 5 cm
  given    a = 4 cm
  find     A
  find     B

problem  Word
  word     circumference
  means    the way once round a circle
  near     radius, diameter

problem  Pick
  ask      Pick the word.
  word     radius
  means    the way from the middle to the rim
  near     chord, diameter
  choose   words

problem  Formula
  ask      Write the formula for the area of a circle with radius r.
  formula  A = pi r^2
  write    A

problem  Why
  ask      Why is the strip that long?
  formula  C = 2 pi r
  formula  s = C / 2
  show     s = pi r
  reason   It is half of the hoop.
"""
WORD_FIRST = """\
lesson   Words
format   1

problem  Word
  word     circumference
  means    the way once round a circle
  near     radius

problem  One
  ask      So n + 1 = 3. How many?
  equation n + 1 = 3
  find     n

problem  Two
  ask      So n + 1 = 4. How many?
  equation n + 1 = 4
  find     n
"""
LATE = KINDS.replace("pi       3.14", "pi       3.14\nmarks    when handed in\nhints    off")
FRESH = """\
lesson   Fresh
format   1
correct  fresh numbers

problem  Candles
  vary     n from 11 to 60
  ask      Three boxes and 7 candles are {3n + 7} candles. How many are in a box?
  equation 3x + 7 = {3n + 7}
  find     x
"""


def lesson_from(text: str) -> Lesson:
    lesson, faults = read_lesson(text, "kinds.lesson")
    assert lesson is not None, faults
    return lesson


PROBLEMS = {problem.name: problem for problem in lesson_from(KINDS).problems}


def attempt_at(problem: Problem, *lines: str) -> Attempt:
    work = begin(problem.task)
    for line in lines:
        work = work.submit(line)
    return Attempt(0, work, problem)


def told(attempt: Attempt, width: int = 32) -> str:
    return laid_out(asked(attempt), width).plain


# --- what is asked ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "rows"),
    [
        ("Hoop", ("Round up to 1 place.",)),
        ("Strips", ("At the end put the answer back", "in to check it.")),
        ("Box", ("▸ a) How large are the front and", "· b) How much paper goes round")),
        ("Can it", ("sides  4 cm   6 cm   9 cm",)),
        ("Many", ("given  A = 30°   a = 5 cm", "       b = 8 cm", "A) none   B) one   C) two")),
        ("Cut", ("A) triangle   B) square", "C) circle")),
        ("Draw", ("given  c = 6 cm   b = 5 cm", "       a = 4 cm", "A compass has a sharp point:")),
        ("Word", ("Which word means: the way once", "round a circle?")),
        ("Pick", ("It means: the way from the", "A) chord   B) diameter")),
        ("Why", ("to show  s = πr",)),
    ],
)
def test_a_problem_asks_for_all_that_it_wants(name: str, rows: tuple[str, ...]) -> None:
    shown = told(attempt_at(PROBLEMS[name])).splitlines()
    for row in rows:
        assert any(one.startswith(row) for one in shown), shown


def test_what_is_to_be_found_is_not_given_away() -> None:
    assert "r²" not in told(attempt_at(PROBLEMS["Formula"])) and "r^2" not in told(
        attempt_at(PROBLEMS["Formula"])
    )
    assert "circumference" not in told(attempt_at(PROBLEMS["Word"]))


def test_the_part_that_is_worked_at_is_marked() -> None:
    problem = PROBLEMS["Box"]
    first = told(attempt_at(problem, "front = L H"))
    assert "▸ a)" in first and "· b)" in first
    half = told(attempt_at(problem, "front = 48 cm^2", "side = 3 * 6"))
    assert "▸ a)" in half
    second = told(attempt_at(problem, "front = 48 cm^2", "side = 18 cm^2"))
    assert "✓ a)" in second and "▸ b)" in second
    done = told(attempt_at(problem, "front = 48 cm^2", "side = 18 cm^2", "S = 132 cm^2"))
    assert "✓ a)" in done and "✓ b)" in done


@pytest.mark.parametrize(
    ("places", "way", "words"),
    [
        (0, Rounding.UP, "Round up to a whole number."),
        (0, Rounding.DOWN, "Round down to a whole number."),
        (1, Rounding.NEAREST, "Round to 1 place."),
        (2, Rounding.UP, "Round up to 2 places."),
    ],
)
def test_how_to_round_is_said_in_words(places: int, way: Rounding, words: str) -> None:
    assert rounding_words(places, way) == words


TEXT = st.text(max_size=40)


@given(
    st.lists(
        st.one_of(
            st.builds(Paragraph, TEXT, st.sampled_from(["", "▸ a) ", "given  "])),
            st.builds(Items, st.lists(st.tuples(st.sampled_from(["", "A) "]), TEXT)).map(tuple)),
        ),
        max_size=4,
    ),
    st.integers(20, 60),
)
def test_all_that_is_asked_is_there_and_fits(paragraphs: list[Paragraph | Items], width: int) -> None:
    plain = laid_out(tuple(paragraphs), width).plain
    assert all(cells(row) <= width for row in plain.split("\n"))
    for one in paragraphs:
        texts = [one.text] if isinstance(one, Paragraph) else [text for _, text in one.texts]
        for text in texts:
            assert set("".join(visible(text).split())) <= set(plain)


# --- what is next -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "lines", "row", "sentence"),
    [
        ("Hoop", (), "▸ formula: next   · label   · substitute   · units", "write the formula that joins"),
        ("Strips", (), "▸ equation: next   · solve   · check", "write the equation for the question"),
        (
            "Strips",
            ("4n + 5 = 29", "4n = 24", "n = 6"),
            "✓ equation   ✓ solve   ▸ check: next",
            "put the answer back",
        ),
        (
            "Strips",
            ("4n + 5 = 29", "4n = 24", "n = 6", "4 * 6 + 5 = 29"),
            "✓ equation   ✓ solve   ✓ check",
            "",
        ),
        ("Can it", (), "▸ compare the lengths, then yes or no: next", "yes or no"),
        ("Can it", ("4 + 6 > 9", "yes"), "✓ compare the lengths, then yes or no", ""),
        ("Cut", (), "▸ choose: next", "Type the letter"),
        ("Cut", ("B",), "✓ choose", ""),
        ("Draw", ("c = 6 cm",), "▸ draw and measure: next", "Still missing: b, a, A, B."),
        ("Word", (), "▸ the word: next", "Type the word."),
        ("Formula", (), "▸ write the formula: next", "in any form that says the same"),
        ("Why", (), "▸ show why, line by line: next", "until s = πr stands"),
        (
            "Why",
            ("s = C / 2", "s = 2 pi r / 2", "s = pi r"),
            "▸ say why, in a sentence: next",
            "in a sentence why",
        ),
    ],
)
def test_the_row_above_the_page_and_the_sentence_below_say_what_is_next(
    name: str, lines: tuple[str, ...], row: str, sentence: str
) -> None:
    attempt = attempt_at(PROBLEMS[name], *lines)
    assert how_far(attempt).plain == row
    assert sentence in next_sentence(attempt)


def test_shapes_to_choose_among_are_drawn() -> None:
    assert has_picture(PROBLEMS["Cut"]) and has_picture(PROBLEMS["Hoop"])
    assert not has_picture(PROBLEMS["Pick"]) and not has_picture(PROBLEMS["Word"])
    rows, sentence = Rooms([], "K7").draw(PROBLEMS["Cut"], {}, 32, 8)
    assert not sentence and all(letter in "".join(rows) for letter in "ABC")


# --- the study list ---------------------------------------------------------------------------


def test_the_study_list_is_plain_text() -> None:
    words = [("radius", "the way from the middle of a circle to its rim"), ("[red]" + "x" * 30, "odd")]
    rows = study_list(words, 40).plain.splitlines()
    assert rows[0] == "Words to study"
    assert any("[red]" in row for row in rows)
    assert all(cells(row) <= 40 for row in rows)
    assert "no word to study" in study_list([], 60).plain


# --- at work ----------------------------------------------------------------------------------


@asynccontextmanager
async def at(
    text: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, size: tuple[int, int] = (80, 24)
) -> AsyncIterator[Student]:
    monkeypatch.setenv("EVENLINE_HOME", str(tmp_path / "home"))
    folder = write_lessons(tmp_path, text)
    async with student_at(lambda: Rooms([folder], "K7"), size=size) as student:
        yield student


async def go_to(student: Student, name: str) -> None:
    """From the shelf to a problem by its name."""
    names = list(PROBLEMS)
    await student.press("right", *["down"] * names.index(name), "enter")
    assert name in student.screen.splitlines()[0]


async def test_a_choice_is_made_among_drawn_shapes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with at(KINDS, tmp_path, monkeypatch) as student:
        await go_to(student, "Cut")
        assert "A) triangle" in student.screen and "⠤" in student.screen
        await student.enters("C")
        assert "✗  1 │ C" in student.screen and "does not fit" in student.words
        await student.enters("b")
        assert "✓ choose" in student.screen
        await student.press("enter")
        assert "work it once more. Press Enter" in student.words
        await student.press("enter")
        assert "Work it from the start." in student.words
        await student.enters("the square")
        await student.press("enter")
        assert "corrected" in student.screen.splitlines()[0]


async def test_the_largest_question_stands_on_a_small_page(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with at(KINDS, tmp_path, monkeypatch) as student:
        await go_to(student, "Draw")
        for part in (
            "given  c = 6 cm",
            "Measure what",
            "keep to your school's rules.",
            "Still missing: c, b, a",
        ):
            assert part in student.screen, student.screen


async def test_what_matters_most_is_said_in_a_word(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with at(KINDS, tmp_path, monkeypatch) as student:
        assert "1  Hoop: not begun · matters" in student.row_with("Hoop")
        await student.open_lesson()
        assert student.screen.splitlines()[0].endswith("matters most")


async def test_a_correction_on_fresh_numbers_asks_with_them(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with at(FRESH, tmp_path, monkeypatch, (120, 36)) as student:
        await student.open_lesson()
        before = _question(student)
        await student.enters("3x = 1", "x = 1/3")
        await student.press("f6")
        assert "correction, new numbers" in student.screen and "first attempt" in student.screen
        assert "on the new numbers" in student.words
        assert before != _question(student)


def _question(student: Student) -> str:
    return str(student.app.screen.query_one(Question).content)


# --- marks when handed in ---------------------------------------------------------------------


async def test_before_the_handing_in_the_page_tells_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with at(LATE, tmp_path, monkeypatch) as student:
        await student.open_lesson()
        assert "F2" not in student.screen and "F4" not in student.screen
        await student.enters("C = 2 pi r", "C = 47.1 cm, r = ?", "47.1 = 5.14r", "r = 7.5 cm")
        page = student.screen
        assert not set("✓✗↳~") & set(page)
        assert "first wrong" not in page and "C = 47.1" not in page.split("first attempt")[0]
        assert page.count("C = 47.1 cm") == 1  # in the line alone, not on the figure
        assert "F9 hand in" in page and "no marks yet" in page
        # Enter with an empty box hands nothing in.
        await student.press("enter")
        assert "F9 hands this problem in" in student.words and "✗" not in student.screen
        # A line that cannot be read is still said.
        await student.enters("r = (7.5")
        assert "!" in student.row_with("^")
        await student.press("f9")
        assert "still in the box" in student.words and "✗" not in student.screen
        student.box.value = ""
        await student.press("f9")
        assert "✗  3 │ 47.1 = 5.14r" in student.screen and "✓  1 │" in student.screen
        assert "A line broke here" in student.words
        # Now a mark may be doubted, and the correction goes line by line.
        await student.press("f4")
        assert "for the" in student.screen
        await student.press("enter")
        await student.enters("C = 2 pi r")
        assert "✓  1 ║ C = 2 pi r" in student.screen
        assert "F9" not in student.screen and "F2" not in student.screen


async def test_the_hidden_marks_stay_hidden_after_coming_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with at(LATE, tmp_path, monkeypatch) as student:
        await student.open_lesson()
        await student.enters("C = 5 r")
        await student.press("escape")
        assert "1  Hoop: begun" in student.screen
        await student.open_lesson()
        assert "1 │ C = 5 r" in student.screen and "✗" not in student.screen
        await student.press("f3")
        assert "struck out" in student.screen and "✗" not in student.screen


async def test_an_unfinished_page_is_said_to_be_unfinished(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with at(LATE, tmp_path, monkeypatch) as student:
        await student.open_lesson()
        await student.enters("C = 2 pi r")
        await student.press("f9")
        assert "Not all that is asked for stands here" in student.words


# --- words that come back ---------------------------------------------------------------------


async def test_a_missed_word_comes_back_later_and_is_listed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with at(WORD_FIRST, tmp_path, monkeypatch) as student:
        assert "words" not in student.screen.splitlines()[-1]
        await student.open_lesson()
        await student.enters("radius", "circumference")
        await student.press("enter")
        assert "comes back after other problems" in student.words
        await student.press("enter")
        assert "One · problem 2" in student.screen
        await student.enters("n = 2")
        await student.press("enter", "enter")
        assert "Two · problem 3" in student.screen
        await student.press("escape")
        assert "W words" in student.screen
        await student.press("w")
        assert "circumference   the way once round a circle" in student.screen
        await student.press("escape", "enter")
        await student.enters("n = 3")
        await student.press("enter", "enter")
        assert "Word · problem 1" in student.screen and "Press Enter to begin" in student.words
        await student.press("enter")
        await student.enters("circumference")
        await student.press("enter")
        assert "nothing is left to correct" in student.words
        await student.press("escape")
        assert "words" not in student.screen.splitlines()[-1]
