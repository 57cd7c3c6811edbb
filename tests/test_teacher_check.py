"""Marking a plain text file: its form, what is printed, and every file that cannot be marked."""

import io
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutor.marking.task import Rounding, Task
from tutor.quantity.pi import Pi
from tutor.teacher.check_file import check_file, read_work
from tutor.visible import visible

HOOP = """\
find r
formula C = 2 pi r
given C = 47.1 cm
units cm
pi 3.14

C = 2πr
47.1 = 6.28r
r = 7.5 cm
"""


def checked(path: Path) -> tuple[int, str, str]:
    out, err = io.StringIO(), io.StringIO()
    return check_file(str(path), out, err), out.getvalue(), err.getvalue()


def checked_text(folder: Path, text: str) -> tuple[int, str]:
    """Check a text that can be marked."""
    path = folder / "work.txt"
    path.write_bytes(text.encode("utf-8"))
    code, out, err = checked(path)
    assert err == ""
    return code, out


def refused(path: Path) -> str:
    code, out, err = checked(path)
    assert (code, out) == (2, "")
    assert len(err.splitlines()) == 1
    return err


# --- exit codes and what is printed -----------------------------------------------------------


def test_nothing_broke_is_0(tmp_path: Path) -> None:
    code, out = checked_text(tmp_path, "2x + 14 = 3x\n14 = x\n")
    assert code == 0
    assert out == "  ok   1  2x + 14 = 3x\n  ok   2  14 = x\n\nNothing broke.\n"


def test_a_break_is_1_with_its_reason_under_the_line(tmp_path: Path) -> None:
    code, out = checked_text(tmp_path, "x + 30 = 180\nx = 215\n")
    assert code == 1
    rows = out.splitlines()
    assert rows[1].split() == ["✗", "2", "x", "=", "215"]
    assert rows[2].strip("~ ") == "" and "~" in rows[2]
    assert "30 taken away" in out and "35 added" in out
    assert rows[-1] == "The first wrong line is line 2."


def test_a_line_that_cannot_be_read_is_2_and_the_rest_is_marked(tmp_path: Path) -> None:
    code, out = checked_text(tmp_path, "2x = 6\nx = (3\nx = 3\n")
    assert code == 2
    assert "not closed" in out and out.splitlines()[-3].split() == ["ok", "3", "x", "=", "3"]
    assert "Line 2 could not be read." in out


def test_a_break_and_an_unread_line_are_1(tmp_path: Path) -> None:
    assert checked_text(tmp_path, "2x = 6\nx = (3\nx = 4\n")[0] == 1


def test_the_underline_stands_under_its_part(tmp_path: Path) -> None:
    rows = checked_text(tmp_path, "2x = 6\nso x = (3\n")[1].splitlines()
    at = rows[2].index("~")
    assert rows[1][at] == "("


def test_long_reasons_are_wrapped(tmp_path: Path) -> None:
    _, out = checked_text(tmp_path, "2x + 14 = 3x\n13 = x\n")
    assert max(len(row) for row in out.splitlines()) <= 80


# --- the form of the file ---------------------------------------------------------------------


def test_head_lines_say_what_the_work_is_marked_against(tmp_path: Path) -> None:
    code, out = checked_text(tmp_path, HOOP)
    assert (code, out.splitlines()[-1]) == (0, "Nothing broke.")
    task, lines, struck, problem = read_work(HOOP)
    assert problem == "" and struck == frozenset()
    assert task == Task(("C = 2 pi r",), (("C", "47.1 cm"),), ("r",), ("cm",), Pi.DECIMAL)
    assert lines == ["C = 2πr", "47.1 = 6.28r", "r = 7.5 cm"]


def test_several_names_may_be_found_and_remarks_stand_in_the_head() -> None:
    head = "# struts\nformula A + B = 180\ngiven A = 3x + 12\n#given C = 1\n"
    for names in ("A and B", "A, B", "A B"):
        task, lines, _, problem = read_work(f"{head}find {names}\n\nB = 108\n# then A\n")
        assert isinstance(task, Task)
        assert (task.find, problem) == (("A", "B"), "")
        assert lines == ["B = 108", "# then A"]
    assert "Write the letter to find" in read_work(f"{head}find and\n\nB = 108\n")[3]


def test_the_unit_may_stand_behind_what_is_found_as_in_a_lesson() -> None:
    task, _, _, problem = read_work("equation A + B = 180\nfind A and B in °\n\nA = 108\n")
    assert isinstance(task, Task)
    assert (task.find, task.units, problem) == (("A", "B"), ("°", "°"), "")
    task, _, _, problem = read_work("formula C = 2 pi r\nfind r in cm\n\nC = 2 pi r\n")
    assert isinstance(task, Task)
    assert (task.find, task.units, problem) == (("r",), ("cm",), "")
    task, _, _, problem = read_work("formula V = x t\nfind x in m and t in h\n\nV = x t\n")
    assert isinstance(task, Task)
    assert (task.find, task.units, problem) == (("x", "t"), ("m", "h"), "")
    task, _, _, problem = read_work("formula V = 2 x\nfind V in cubic inches\n\nV = 2 x\n")
    assert isinstance(task, Task)
    assert (task.find, task.units, problem) == (("V",), ("cubic inches",), "")
    for units in ("units °", "units ° and °", "units °, °"):
        task, _, _, problem = read_work(f"equation A + B = 180\nfind A and B\n{units}\n\nA = 108\n")
        assert isinstance(task, Task)
        assert (task.units, problem) == (("°", "°"), "")
    task, _, _, problem = read_work("formula V = x t\nfind x and t\nunits m and h\n\nV = x t\n")
    assert isinstance(task, Task)
    assert (task.find, task.units, problem) == (("x", "t"), ("m", "h"), "")
    assert "Write the letter to find" in read_work("find r in\n\nr = 5\n")[3]
    assert "Write the letter to find" in read_work("find in cm\n\nr = 5\n")[3]


def test_head_lines_that_contradict_each_other_mark_nothing(tmp_path: Path) -> None:
    head = "formula A = 3 a\nformula a = b\ngiven a = 4 m\ngiven b = {} m\nfind A\n\nA = 50\n"
    assert "contradict each other" in read_work(head.format(5))[3]
    code, out = checked_text(tmp_path, head.format(4))
    assert code == 1 and "first wrong line is line 1" in out


def test_the_head_decides_the_marks(tmp_path: Path) -> None:
    code, out = checked_text(tmp_path, HOOP.replace("47.1 cm", "48.1 cm"))
    assert code == 1 and "first wrong line is line 2" in out
    code, out = checked_text(tmp_path, HOOP.replace("r = 7.5 cm", "r = 7.5"))
    assert code == 0 and "unit of the answer is still missing" in out
    code, out = checked_text(tmp_path, HOOP.replace("r = 7.5 cm\n", ""))
    assert code == 0 and "not finished yet" in out


def test_a_struck_line_is_shown_was_wrong_and_is_not_built_upon(tmp_path: Path) -> None:
    code, out = checked_text(tmp_path, HOOP.replace("47.1 = 6.28r", "~ 47.1 = 5.14r\n47.1 = 6.28r"))
    assert code == 1
    row = out.splitlines()[1]
    assert row.split()[0] == "✗" and row.endswith("47.1 = 5.14r  (struck out)")
    assert out.splitlines()[-1] == "The first wrong line is line 2. It is struck out; the rest stands."


def test_the_first_wrong_line_and_the_one_that_still_stands_are_told_apart(tmp_path: Path) -> None:
    code, out = checked_text(tmp_path, "2x = 6\n~x = 4\nx = 5\n")
    assert code == 1
    assert out.splitlines()[-1] == "The first wrong line is line 2. It is struck out; line 3 is wrong too."


def test_a_struck_line_that_cannot_be_read_or_follows_does_not_count(tmp_path: Path) -> None:
    code, out = checked_text(tmp_path, "2x = 6\n~x = (3\n~4x = 12\nx = 3\n")
    assert (code, out.splitlines()[-1]) == (0, "Nothing broke.")


def test_a_line_that_leaves_steps_out_says_so_and_stands(tmp_path: Path) -> None:
    code, out = checked_text(tmp_path, "every_step\nfind x\n\n2(x + 5) - 3x = 4\nx = 6\n")
    rows = out.splitlines()
    assert code == 0
    assert rows[1].split()[0] == "ok»" and "one" in rows[2]


def test_windows_line_ends_a_byte_order_mark_and_empty_lines_are_fine(tmp_path: Path) -> None:
    code, out = checked_text(tmp_path, "\ufeff2x = 6\r\n\r\n   \r\nx = 3\r\n")
    assert code == 0
    assert [row.split()[1] for row in out.splitlines()[:2]] == ["1", "2"]
    assert checked_text(tmp_path, "2x = 6\rx = 3")[0] == 0


def test_words_and_notes_are_kept(tmp_path: Path) -> None:
    code, out = checked_text(tmp_path, "2x = 6\nI halve both sides\nso x = 3\n")
    assert code == 0
    assert out.splitlines()[1].split(maxsplit=2) == ["·", "2", "I halve both sides"]


@pytest.mark.parametrize(
    ("head", "said"),
    [
        ("formula C 2 pi r", "line 1"),
        ("given C", "given C = 47.1 cm"),
        ("pi 3", "pi 3.14"),
        ("find", "find r"),
        ("find x\nunits parsecs", "parsecs"),
        ("find p in %", "units 1: Percent is no unit: leave it out."),
        ("find x\nunits cm and m", "2 units stand here, and 1 thing is to find."),
        ("formula C = = 2", "formula 1"),
        ("round up", "round up to a whole number"),
        ("round to 7 places", "round to 2 places"),
        ("round to ² places", "round to 2 places"),
        ("check twice", "check the answer"),
        ("steps formula, rest", "steps formula, label"),
        ("triangle 4 cm, 6 cm", "triangle 4 cm, 6 cm, 9 cm"),
        ("triangle 4 cm, 6 cm, 9 s", "9 s"),
        ("write A", "no formula here begins with"),
        ("formula A = b h\nwrite B", "no formula here begins with"),
        ("show why", "show s = pi r"),
        ("choose triangle", "choose triangle, square"),
        ("choose triangle, square", "after “answer”"),
        ("choose triangle, square\nanswer circle", "not among the choices"),
        ("word", "word radius"),
        ("word radius\nnear radius", "its own neighbour"),
        ("draw circle", "draw triangle"),
        ("draw triangle\ngiven a = 4 cm", "write “find”"),
        ("word radius\ntriangle 4 cm, 6 cm, 9 cm", "one thing is asked for at a time"),
        ("every day", "every step"),
        ("names ,", "names SA"),
    ],
)
def test_a_bad_head_line_is_named(head: str, said: str, tmp_path: Path) -> None:
    path = tmp_path / "work.txt"
    path.write_text(f"{head}\n\nx = 3\n", encoding="utf-8")
    assert said in refused(path)


# --- every kind of problem --------------------------------------------------------------------

BOXES = "formula b = n/12\ngiven n = 65\nfind b\nround up to a whole number\n\n"
STRIP = "formula C = 2 pi r\nformula s = C/2\nshow s = pi r\n\n"
TURNS = "equation 2x + 3 = 9\nfind x\ncheck the answer\n\n"


@pytest.mark.parametrize(
    ("text", "signs", "closing"),
    [
        (BOXES + "b = 65/12\nb = 6\n", "ok ok≈", "Nothing broke."),
        (BOXES + "b = 65/12\nb = 5\n", "ok ✗", "The first wrong line is line 2."),
        (BOXES + "b = 65/12\n", "ok", "Nothing broke. The work is not finished yet."),
        ("triangle 4 cm, 6 cm, 9 cm\n\n4 + 6 > 9\nyes\n", "ok ok", "Nothing broke."),
        ("triangle 4 cm, 6 cm, 11 cm\n\n4 + 6 < 11\nyes\n", "ok ✗", "The first wrong line is line 2."),
        ("triangle 4 cm, 6 cm, 9 cm\n\nyes\n", "·", "Nothing broke. The work is not finished yet."),
        ("choose triangle, square\nanswer square\n\n~A\nB\n", "✗ ok", "The first wrong line is line 1. It is struck out; the rest stands."),
        ("word radius\nnear diameter\nalso half width\n\nraduis\n", "ok", "Nothing broke."),
        ("word radius\nnear diameter\n\ndiameter\n", "✗", "The first wrong line is line 1."),
        ("draw triangle\ngiven c = 6 cm\ngiven A = 50°\ngiven B = 60°\nfind C\n\nc = 6.1 cm, A = 50°, B = 60°\nC = 70°\n", "ok ok", "Nothing broke."),
        ("draw triangle\ngiven c = 6 cm\ngiven A = 50°\ngiven B = 60°\nfind C\n\nc = 7 cm\n", "✗", "The first wrong line is line 1."),
        ("formula A = pi r^2\nwrite A\n\nA = πr²\n", "ok", "Nothing broke."),
        ("formula A = pi r^2\nwrite A\n\nA = 2πr\n", "✗", "The first wrong line is line 1."),
        (STRIP + "s = 2 pi r/2\ns = pi r\n", "ok ok", "Nothing broke. The sentence that says why is still missing."),
        (STRIP + "s = 2 pi r/2\n~ s = pi + r\ns = pi r\nThe strip is half of the hoop\n", "ok ✗ ok ·", "The first wrong line is line 2. It is struck out; the rest stands."),
        (TURNS + "2x = 6\nx = 3\n", "ok ok", "Nothing broke. A line that puts the answer back is still missing."),
        (TURNS + "2x = 6\nx = 3\n2*3 + 3 = 9\n", "ok ok ok", "Nothing broke."),
        (HOOP.replace("pi 3.14", "pi 3.14\nsteps formula, label"), "ok ok ok", "Nothing broke. Still missing: label."),
        ("formula SA = 2 t\nnames SA\ngiven t = 4 cm^2\nfind SA\nunits cm^2\nevery step\n\nSA = 2t\n", "ok", "Nothing broke. The work is not finished yet."),
    ],
)  # fmt: skip
def test_every_kind_of_problem_is_marked_as_on_the_page(
    text: str, signs: str, closing: str, tmp_path: Path
) -> None:
    _, out = checked_text(tmp_path, text)
    rows = out.splitlines()
    assert [row.split()[0] for row in rows if row[:4].strip() and row[4:8].strip().isdigit()] == signs.split()
    assert rows[-1] == closing


@pytest.mark.parametrize(
    ("written", "places", "rounding"),
    [
        ("to 2 places", 2, Rounding.NEAREST),
        ("to 1 place", 1, Rounding.NEAREST),
        ("to a whole number", 0, Rounding.NEAREST),
        ("up to  a whole number", 0, Rounding.UP),
        ("down to 1 place", 1, Rounding.DOWN),
    ],
)
def test_rounding_is_written_as_in_a_lesson(written: str, places: int, rounding: Rounding) -> None:
    task, _, _, problem = read_work(f"equation 3x = 7\nfind x\nround {written}\n\nx = 2\n")
    assert isinstance(task, Task)
    assert (task.places, task.rounding, problem) == (places, rounding, "")


# --- files that cannot be marked --------------------------------------------------------------


def test_a_missing_file_and_a_folder(tmp_path: Path) -> None:
    assert "There is no file" in refused(tmp_path / "none.txt")
    assert "is a folder" in refused(tmp_path)
    assert refused(Path("a\0b"))


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "no lines"),
        (b"\n  \n\r\n", "no lines"),
        (b"find x\n", "no lines"),
        (b"\x7fELF\x02\x01\x00\x00", "not a text file"),
        ("2x = 6\nx = 3\n".encode("utf-16"), "not a text file"),
        (b"2x = 6\nx = \xff\n", "not UTF-8 at byte 12"),
        ("x = 3 · 2".encode("latin-1"), "not UTF-8"),
        (b"x = 1\n" * 401, "more than 400 lines"),
        (b"word radius\n\n" + b"~radius\n" * 61, "more than 60 lines"),
        (b"x = 1\n" * (10_000_000 // 6), "larger than"),
        (b"1" * 10_000_000, "larger than"),
    ],
    ids=lambda value: repr(value)[:24],
)
def test_a_file_that_is_no_work_gets_a_sentence(content: bytes, said: str, tmp_path: Path) -> None:
    path = tmp_path / "work.txt"
    path.write_bytes(content)
    assert said in refused(path)


def test_one_line_of_half_a_million_signs_is_unread(tmp_path: Path) -> None:
    code, out = checked_text(tmp_path, "x = 1\nx = " + "(" * 500_000)
    assert code == 2 and "longer than" in out


def test_a_hostile_file_name_is_made_visible(tmp_path: Path) -> None:
    assert "\x1b" not in refused(tmp_path / "\x1b[31mwork.txt")


# --- what is typed is shown as it is ----------------------------------------------------------


def test_brackets_are_shown_as_they_are(tmp_path: Path) -> None:
    code, out = checked_text(tmp_path, "2x = 6\n[/] x = 3\n[red]x = 3[/red]\nnote [bold]\n")
    assert code == 2
    for typed in ("[/] x = 3", "[red]x = 3[/red]", "note [bold]"):
        assert f"  {typed}\n" in out


def test_control_characters_are_shown_and_not_obeyed(tmp_path: Path) -> None:
    _, out = checked_text(tmp_path, "2x = 6\nx = 3\x1b[31m\x07\x0c\x7f\u202e\u2028\x85\n")
    assert "x = 3␛[31m␇␌␡���\n" in out
    assert not set("\x1b\x07\x0c\x7f\u202e\u2028\x85") & set(out)
    assert "   2  " in out and "   3  " not in out


@given(st.text())
def test_visible_text_keeps_its_length_and_steers_nothing(text: str) -> None:
    shown = visible(text)
    assert len(shown) == len(text)
    assert not any(ord(sign) < 32 or 127 <= ord(sign) < 160 or sign in "\u202e\u2066\u200f" for sign in shown)


@given(st.text(max_size=80))
def test_any_text_is_read_without_an_exception(text: str) -> None:
    _, lines, struck, problem = read_work(text)
    assert problem or lines
    assert all(0 <= at < len(lines) for at in struck)
