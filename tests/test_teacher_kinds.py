"""The report over every kind of problem: fresh numbers, words, choices, drawings, sentences, settings."""

import io
from collections.abc import Callable
from pathlib import Path

import pytest
from teacher_class import (
    KINDS,
    SMALL,
    at,
    forge,
    handed_in_once,
    lines,
    read,
    reported,
    section,
    student,
    taken,
)

from tutor.lesson.fresh import redrawn
from tutor.lesson.model import Problem
from tutor.marking.work import solution
from tutor.record.desk import Desk
from tutor.record.state import Status
from tutor.teacher.handed_in import read_handed_in
from tutor.teacher.kind_words import kind_word
from tutor.teacher.study_list import print_words

TITLES = [
    "Waits for you",
    "Missed, where it matters most",
    "Missed",
    "Words missed",
    "Sentences for you to read",
    "Possible slips",
    "To sit together tomorrow",
    "Each kind of problem",
    "Each problem",
    "Each student",
]


pytest_plugins = ("teacher_class",)
pytestmark = pytest.mark.usefixtures("home")


@pytest.fixture(scope="module")
def worked_once(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """Return what K1 and K3, who do all well, and K2, who does not, hand in."""
    students = {"K1": all_right, "K2": all_wrong, "K3": all_right}
    return handed_in_once(tmp_path_factory, "kinds.lesson", KINDS, students)


@pytest.fixture
def hand(worked_once: dict[str, bytes], folder: Path) -> Callable[[str], Path]:
    """Put the file of one of them into the folder."""

    def put(code: str) -> Path:
        path = folder / f"{code}.evenline"
        path.write_bytes(worked_once[code])
        return path

    return put


def report_of(lesson: Path, *files: Path) -> str:
    code, out, err = reported(lesson, *files)
    assert (code, err) == (0, "")
    assert max(map(len, out.splitlines())) <= 78
    return out


def table(report: str, title: str) -> list[list[str]]:
    return [row.split() for row in section(report, title)[2:]]


def all_right(desk: Desk) -> None:
    for index, state in enumerate(desk.state.problems):
        desk.go_to(index)
        lines(*(line.text for line in solution(state.problem.task)))(desk)
        if state.problem.name == "Strip":
            lines("The strip is half of the whole hoop.")(desk)
        desk.finish()


def all_wrong(desk: Desk) -> None:
    at(desk, "Hoop", "C = 2 pi r", "C = 5.14r", "C = 6.28r")
    at(desk, "Struts", "4 + 6 > 12", "yes")
    at(desk, "Cut", "C", "B")
    at(desk, "Drawn", "a = 9 cm", "a = 6 cm")
    at(desk, "Round", "diameter", "circumference")
    at(desk, "Disc", "A = 2 pi r", "A = pi r^2")
    at(desk, "Strip", "C = 2 pi r", "s = pi r^2", "because [red]it is half of it[/red]")
    desk.go_to(0)


def test_work_on_fresh_numbers_is_marked_with_those_numbers(
    kinds: Path, folder: Path, hand: Callable[[str], Path]
) -> None:
    works = [taken(hand(code), kinds).problems for code in ("K1", "K3")]
    numbers = [tuple(state.problem.numbers for state in work) for work in works]
    assert numbers[0] != numbers[1], "one of many thousand sets twice would be a wonder"
    report = report_of(kinds, folder)
    assert section(report, "Missed") == ["No line broke, and none was shown."]
    assert [row[1:4] for row in table(report, "Each student")] == [["10", "of", "10"]] * 2
    assert section(report, "Waits for you") == ["Nothing waits for you."]


def test_every_kind_is_missed_with_the_line_that_was_written(
    kinds: Path, folder: Path, hand: Callable[[str], Path]
) -> None:
    hand("K2")
    report = report_of(kinds, folder)
    assert table(report, "Missed, where it matters most")[0][:5] == ["K2", "Hoop", "2", "C", "="]
    missed = [(row[1], " ".join(row[3:-2])) for row in table(report, "Missed")]
    assert missed == [
        ("Struts", "4 + 6 > 12"),
        ("Cut", "C circle"),
        ("Drawn", "a = 9 cm"),
        ("Round", "diameter"),
        ("Disc", "A = 2 pi r"),
        ("Strip", "s = pi r^2"),
    ]


def test_the_parts_of_a_report_stand_in_their_order(
    kinds: Path, folder: Path, hand: Callable[[str], Path]
) -> None:
    hand("K2")
    rows = report_of(kinds, folder).splitlines()
    found = [rows[number - 1] for number, row in enumerate(rows) if row and set(row) == {"="}]
    assert found == TITLES


def test_a_lesson_without_words_and_sentences_has_no_parts_for_them(tmp_path: Path, folder: Path) -> None:
    small = tmp_path / "small.lesson"
    small.write_text(SMALL, encoding="utf-8")
    student("K7", small, folder, lines("6n = 72"))
    report = report_of(small, folder)
    assert not any(f"\n{title}\n" in report for title in TITLES[1:2] + TITLES[3:5])


def test_kinds_are_counted_those_missed_most_first(
    kinds: Path, folder: Path, hand: Callable[[str], Path]
) -> None:
    hand("K1")
    student("K2", kinds, folder, lambda desk: (at(desk, "Cut", "C", "B"), at(desk, "Round", "circumference")))
    rows = table(report_of(kinds, folder), "Each kind of problem")
    assert rows[0] == ["choose", "1", "2", "1", "1"]
    by_kind = {" ".join(row[:-4]): row[-4:] for row in rows}
    assert by_kind["the word for a meaning"] == ["1", "2", "0", "0"]
    # Hoop, the faces, the boxes: worked by one of the two.
    assert by_kind["work out from a formula"] == ["3", "3", "0", "0"]
    assert set(by_kind) == {kind_word(problem) for problem in read(kinds).problems}


def test_problems_that_matter_most_come_first(kinds: Path, folder: Path, hand: Callable[[str], Path]) -> None:
    text = KINDS.replace("problem  Cut\n", "problem  Cut\n  matters  most\n").replace(
        "  matters  most\n  vary     r", "  vary     r"
    )
    kinds.write_text(text, encoding="utf-8")
    hand("K2")
    report = report_of(kinds, folder)
    assert table(report, "Each problem")[0][:2] == ["Cut", "most"]
    assert [row[1] for row in table(report, "Missed, where it matters most")] == ["Cut"]
    assert section(report, "Each student")[2].split()[:5] == ["K2", "0", "of", "10", "Cut"]


def test_words_that_were_missed_stand_with_their_meaning_and_who(
    kinds: Path, folder: Path, hand: Callable[[str], Path]
) -> None:
    def corrected(desk: Desk) -> None:
        index = at(desk, "Round", "radius", "circumference")
        desk.finish()
        at(desk, "Cut", "B")
        desk.start_correction(index)
        lines("perimeter of a circle")(desk)
        desk.finish()
        assert desk.state.problems[index].status is Status.CORRECTED

    hand("K1")
    hand("K2")
    student("K4", kinds, folder, corrected)
    assert section(report_of(kinds, folder), "Words missed") == [
        "circumference: the way once round a circle",
        "    K2, K4 (corrected)",
    ]


def test_those_who_gave_the_same_wrong_answer_are_named_to_sit_together(kinds: Path, folder: Path) -> None:
    answers = {"K1": ("C", "B"), "K2": ("circle", "square"), "K3": ("A", "B"), "K4": ("B",)}
    for code, typed in answers.items():
        student(code, kinds, folder, lambda desk, typed=typed: at(desk, "Cut", *typed))  # type: ignore[misc]
    rows = section(report_of(kinds, folder), "To sit together tomorrow")
    assert rows == ["Cut: C circle", "    K1, K2"]


def test_sentences_are_shown_below_the_lessons_own_and_steer_nothing(
    kinds: Path, folder: Path, hand: Callable[[str], Path]
) -> None:
    path = hand("K2")
    forge(
        path,
        "UPDATE event SET text = replace(text, '[/red]', char(27) || '[31m=cmd()') WHERE text LIKE '%[/red]'",
    )
    hand("K1")
    assert section(report_of(kinds, folder), "Sentences for you to read") == [
        "Strip",
        "yours: The strip is half of the hoop, so half of 2πr.",
        "    K1 · first attempt",
        "        The strip is half of the whole hoop.",
        "    K2 · first attempt",
        "        because [red]it is half of it␛[31m=cmd()",
    ]


def test_an_endless_sentence_is_cut(kinds: Path, folder: Path) -> None:
    student("K7", kinds, folder, lambda desk: at(desk, "Strip", "It is half of it, " * 80))
    rows = section(report_of(kinds, folder), "Sentences for you to read")
    assert len(rows) == 3 + 12 + 1 and rows[-1].strip() == "… it goes on"


def corrects_hoop(desk: Desk) -> None:
    hoop = at(desk, "Hoop", "C = 2 pi r", "C = 5.14r", "C = 6.28r")
    desk.start_correction(hoop)
    again = desk.state.problems[hoop].current.problem
    assert again.numbers != desk.state.problems[hoop].problem.numbers
    lines(*(line.text for line in solution(again.task)))(desk)
    desk.finish()
    assert desk.state.problems[hoop].status is Status.CORRECTED


def test_a_correction_on_fresh_numbers_is_marked_with_them(kinds: Path, folder: Path) -> None:
    path = student("K7", kinds, folder, corrects_hoop)
    assert table(report_of(kinds, folder), "Missed, where it matters most")[0][-1] == "corrected"
    state = taken(path, kinds).problems[0]
    assert state.other_numbers and state.current.complete
    forge(path, "UPDATE verdict SET verdict = 'breaks'", "UPDATE standing SET status = 'to correct'")
    assert taken(path, kinds).problems[0].status is Status.CORRECTED


def test_a_seed_that_was_changed_gives_other_numbers_so_nothing_is_marked_with_them(
    kinds: Path, folder: Path
) -> None:
    path = student("K7", kinds, folder, corrects_hoop)
    own = taken(path, kinds).problems[0].problem
    other = next(seed for seed in range(100) if _hoop(kinds, seed).numbers != own.numbers)
    forge(path, f"UPDATE book SET seed = {other}")
    handed = taken(path, kinds)
    assert "Hoop" in handed.elsewhere and handed.problems[0].status is Status.UNTOUCHED
    assert "worked with other numbers than in your lesson: Hoop" in " ".join(report_of(kinds, folder).split())


def test_a_file_with_endless_corrections_is_refused(kinds: Path, folder: Path) -> None:
    path = student("K7", kinds, folder, corrects_hoop)
    endless = (
        "INSERT INTO event (edition, problem, attempt, kind, text, at) WITH RECURSIVE n(i) AS "
        "(SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 40) "
        "SELECT event.edition, event.problem, 1, 'correct', 'fresh numbers', '' FROM n, event "
        "WHERE kind = 'correct'"
    )
    forge(path, endless)
    handed, sentence = read_handed_in(path, read(kinds))
    assert handed is None and "more lines than anyone writes" in sentence


def _hoop(lesson: Path, seed: int) -> Problem:
    return redrawn(read(lesson).problems[0], seed)


def test_an_appeal_on_fresh_numbers_says_what_was_given(kinds: Path, folder: Path) -> None:
    given: list[str] = []

    def work(desk: Desk) -> None:
        hoop = at(desk, "Hoop", "C = 2 pi r", "C = 5.14r")
        given.append(dict(desk.state.problems[hoop].problem.givens)["C"])
        desk.appeal(1)

    student("K7", kinds, folder, work)
    rows = section(report_of(kinds, folder), "Waits for you")
    assert rows[0].startswith("K7 · Hoop · first attempt, line 2")
    assert rows[1:3] == [f"    given: C = {given[0]}", "    C = 5.14r"]


# --- what the lesson sets ---------------------------------------------------------------------------


def set_to(kinds: Path, words: str) -> None:
    kinds.write_text(KINDS.replace("correct  fresh numbers", words), encoding="utf-8")


def test_a_page_that_is_not_handed_in_yet_is_not_missed(kinds: Path, folder: Path) -> None:
    set_to(kinds, "marks    when handed in")

    def work(desk: Desk) -> None:
        at(desk, "Cut", "C")
        at(desk, "Strips", "1 = 2")
        desk.finish()
        at(desk, "Faces", "front = 6 L")
        desk.finish()
        desk.go_to(0)

    student("K7", kinds, folder, work)
    report = report_of(kinds, folder)
    missed = [(row[1], " ".join(row[2:])) for row in table(report, "Missed")]
    assert missed == [("Strips", "1 1 = 2 to correct"), ("Faces", "(handed in unfinished) to correct")]
    by_name = {row[0]: row[1:] for row in table(report, "Each problem")}
    assert by_name["Cut"] == ["1", "0", "0"]
    assert by_name["Faces"] == ["1", "1", "1", "unfinished"]
    assert section(report, "Possible slips") == ["No broken line has a known shape."]


def test_a_line_that_was_mended_is_not_missed_where_the_lesson_says_so(kinds: Path, folder: Path) -> None:
    def mended(desk: Desk) -> None:
        at(desk, "Cut", "C", "B")
        desk.finish()
        at(desk, "Round", "radius", "diameter")
        at(desk, "Strips", "1 = 2", "2 = 3")
        desk.start_correction(at(desk, "Strips"))
        desk.go_to(0)

    student("K7", kinds, folder, mended)
    assert {row[1] for row in table(report_of(kinds, folder), "Missed")} == {"Cut", "Round", "Strips"}
    set_to(kinds, "missed   when a broken line is left")
    student("M2", kinds, folder, mended)
    report = report_of(kinds, folder / "M2.evenline")
    # The word may still be mended; the equation was left for its correction.
    assert {row[1] for row in table(report, "Missed")} == {"Strips"}
    assert next(row for row in table(report, "Each problem") if row[0] == "Cut") == ["Cut", "1", "0", "0"]


# --- reviews ------------------------------------------------------------------------------------------

REVIEW = """\
lesson   Mixed
format   1
review   5 from kinds, small
"""


def test_a_review_counts_each_problem_among_those_who_have_it(
    kinds: Path, tmp_path: Path, folder: Path
) -> None:
    (tmp_path / "small.lesson").write_text(SMALL, encoding="utf-8")
    review = tmp_path / "mixed.lesson"
    review.write_text(REVIEW, encoding="utf-8")
    files = [student(code, review, folder, _begins_all) for code in ("K1", "K2", "K3", "K4")]
    drawn = [state.problem for file in files for state in taken(file, review).problems]
    report = report_of(review, folder)
    assert "4 student files, 5 problems." in report
    counted = {" ".join(row[:2]): row[2:] for row in table(report, "Each problem")}
    assert sum(int(numbers[1 if numbers[0] == "most" else 0]) for numbers in counted.values()) == 20
    assert set(counted) == {f"{one.name} ({Path(one.path).stem})" for one in drawn}
    # Both lessons have a problem Hoop, and the one of this lesson matters most, so it is drawn first.
    assert counted["Hoop (kinds)"][:2] == ["most", "4"]


def _begins_all(desk: Desk) -> None:
    for index in range(len(desk.state.problems)):
        desk.go_to(index)
        lines(solution(desk.state.problems[index].problem.task)[0].text)(desk)


# --- the study list -------------------------------------------------------------------------------------


def words(code: str, *folders: Path) -> tuple[int, str, str]:
    out, err = io.StringIO(), io.StringIO()
    return print_words(code, folders, out, err), out.getvalue(), err.getvalue()


def test_the_study_list_has_the_words_that_were_missed(kinds: Path, tmp_path: Path, folder: Path) -> None:
    student("K1", kinds, folder, lambda desk: at(desk, "Round", "circumference"))
    student("K2", kinds, folder, lambda desk: at(desk, "Round", "diameter", "circumference"))
    assert words("K2", tmp_path) == (0, "circumference\n    the way once round a circle\n", "")
    assert words("K1", tmp_path) == (
        0,
        "There is no word to study: none was missed, or all are corrected.\n",
        "",
    )


@pytest.mark.parametrize(("code", "said"), [("Z9", "no work of Z9"), ("../x", "such as K7")])
def test_a_study_list_of_nobody_is_a_sentence(code: str, said: str, tmp_path: Path, home: Path) -> None:
    status, out, err = words(code, tmp_path)
    assert (status, out) == (2, "") and said in err
    assert not home.exists()
