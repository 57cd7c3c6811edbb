"""Lessons that are meant to break the reader: refused or read in bounded work, and nothing else is touched."""

import builtins
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from types import FrameType

import pytest

from tutor.lesson.fresh import drawn
from tutor.lesson.model import Fault, Lesson
from tutor.lesson.reader import LARGEST, MOST_FAULTS, MOST_LINES, load_lesson, read_lesson
from tutor.lesson.tidy import tidied

HEAD = "lesson   A\nformat   1\n"
GOOD = HEAD + "\nproblem  One\n  ask      ?\n  equation 2x = 6\n  find     x\n"
VARIED = "".join(f"  vary     {name} from 1 to 1000\n" for name in "abcdefgh")
ALL = " ".join(f"{{{name}}}" for name in "abcdefgh")
SUM = "(a + b + c + d + e + f + g + h)^9"


def problems(body: Callable[[int], str], count: int = 200) -> str:
    return HEAD + "".join(f"problem  P{index}\n{body(index)}" for index in range(count))


SOLVED = "  equation {a}x = {2 a}\n  find     x\n"

# (name, text, what is said of it, "" where it reads)
LESSONS = [
    ("ten megabytes", "x" * 10_000_000, "larger than 1 MB"),
    ("one long line", f"{HEAD}problem P\n  ask {'a' * 900_000}", "too long for one screen"),
    ("only keywords", (HEAD + "given\n" * 200_000)[:LARGEST], f"more than {MOST_LINES} lines"),
    ("only line ends", HEAD + "\n" * 900_000, f"more than {MOST_LINES} lines"),
    ("words that mean nothing", HEAD + "".join(f"w{n}x\n" for n in range(9000)), "is not a keyword"),
    ("words that are nearly keywords", HEAD + "".join(f"fromul{n}\n" for n in range(9000)), "formula"),
    ("bullets", HEAD + "- " * 490_000, "is not a keyword"),
    ("braces in braces", f"{HEAD}problem P\n  ask {'{' * 3900}\n  equation 2x = 6\n  find x\n", "A brace"),
    (
        "brackets in braces",
        f"{HEAD}problem P\n  vary a in 1, 2\n  ask {{{'(' * 1500}a{')' * 1500}}}\n{SOLVED}",
        "400",
    ),
    ("minus signs", f"{HEAD}problem P\n  vary a in 1, 2\n  ask {{{'-' * 1500}a}}\n{SOLVED}", "400 signs"),
    (
        "a tower of powers",
        f"{HEAD}problem P\n  vary a in 9\n  ask {{a^a^a^a^a}} {{9^9^9^9}}\n{SOLVED}",
        "no value",
    ),
    (
        "towers everywhere",
        problems(lambda _: f"  vary a from 2 to 9\n  ask {'{a^(a^a)} ' * 40}\n{SOLVED}"),
        "no value",
    ),
    (
        "a power of a large number",
        f"{HEAD}problem P\n  vary a in 99999\n  ask {{a^99999}}\n{SOLVED}",
        "too big",
    ),
    (
        "braces with much in them",
        problems(
            lambda _: VARIED + "  ask      " + " ".join(f"{{{SUM} + {n}}}" for n in range(40)) + "\n" + SOLVED
        ),
        "no ending decimal",
    ),
    (
        "conditions that never hold",
        problems(
            lambda _: VARIED + "".join(f"  where {SUM} < {n}\n" for n in range(8)) + f"  ask {ALL}\n{SOLVED}"
        ),
        "No numbers of the ranges",
    ),
    (
        "conditions that fail at the last",
        problems(
            lambda _: (
                VARIED
                + "".join(f"  where {SUM} > {n}\n" for n in range(7))
                + f"  where a = 0\n  ask {ALL}\n{SOLVED}"
            )
        ),
        "No numbers of the ranges",
    ),
    (
        "conditions that hold once in a while",
        problems(
            lambda _: (
                f"{VARIED}  where a b c d/1000 whole\n  where (a + b + c)/300 whole\n  ask {ALL}\n{SOLVED}"
            )
        ),
        "Too few numbers",
    ),
    (
        "answers that are never whole",
        problems(
            lambda _: (
                f"{VARIED}  where answer whole\n  ask {ALL}\n  equation {{2 a}}x = {{2 a b + 1}}\n  find x\n"
            )
        ),
        "whole answer",
    ),
    ("a million million draws", problems(lambda _: f"{VARIED}  ask {ALL}\n{SOLVED}"), ""),
    (
        "a range without end",
        f"{HEAD}problem P\n  vary a from 1 to 999999999999 step 0.000001\n  ask {{a}}\n{SOLVED}",
        "1000 values",
    ),
    (
        "a list of thousands",
        f"{HEAD}problem P\n  vary a in {', '.join(map(str, range(300)))}\n  ask {{a}}\n{SOLVED}",
        "40 pieces",
    ),
    (
        "numbers of hundreds of digits",
        f"{HEAD}problem P\n  ask ?\n  formula C = {'9' * 390} r\n  given C = {'9' * 390} cm\n  find r in cm\n",
        "digits",
    ),
    ("a format of thousands of digits", f"lesson A\nformat {'9' * 3900}\n", "written in format 9999999999;"),
    ("a review of thousands of digits", f"{HEAD}review {'9' * 3900} from x\n", "1 to 60 problems"),
    (
        "formulas that expand",
        problems(
            lambda n: (
                "  ask ?\n"
                + "".join(f"  formula A{m} = (b + c + d + e)^9 + {n}\n" for m in "bcdefghijk")
                + "  find Ab\n"
            )
        ),
        "too much to work out",
    ),
    (
        "derivations that expand",
        problems(
            lambda n: (
                f"  ask ?\n  formula C = 2 pi r^9\n  formula Q = C^3 + {n}\n  show Q = (pi r + C + Q)^9/3\n"
            )
        ),
        "too much to work out",
    ),
    ("words without end", f"{HEAD}problem P\n  word {'a' * 3000}\n  means {'a' * 3900}\n", ""),
    ("the word is", f"{HEAD}problem P\n  ask ?\n  given {'x is ' * 700}\n  find x\n", "After “given”"),
    (
        "many figures",
        f"{HEAD}problem P\n  ask ?\n  figure {', '.join(['radius ' + 'r' * 80] * 40)}\n  find x\n",
        "figure",
    ),
]


def read(text: str) -> tuple[Lesson | None, tuple[Fault, ...]]:
    return read_lesson(text, "hostile.lesson")


@pytest.fixture(scope="module", autouse=True)
def grammars_are_loaded() -> None:
    assert read(GOOD)[0] is not None


@pytest.mark.parametrize(("text", "message"), [row[1:] for row in LESSONS], ids=[row[0] for row in LESSONS])
def test_the_work_is_bounded_and_what_is_wrong_is_said(text: str, message: str) -> None:
    # Counted in calls, since a clock tells more of the machine than of the reader: 2 million take
    # about a second.
    calls = 0

    def count(_frame: FrameType, event: str, _argument: object) -> None:
        nonlocal calls
        calls += event == "call"

    before = sys.getprofile()
    sys.setprofile(count)
    try:
        lesson, faults = read(text)
    finally:
        sys.setprofile(before)
    assert calls < 5_000_000
    if message:
        assert lesson is None
        assert any(message in fault.message + fault.instead for fault in faults), faults[:3]
    else:
        assert lesson is not None, faults[:3]
    assert len(faults) <= MOST_FAULTS + 1
    for fault in faults:
        assert len(fault.message) < 800
        assert len(str(fault)) < 3000


def test_a_lesson_that_reads_is_drawn_in_bounded_work() -> None:
    text = next(text for name, text, _message in LESSONS if name == "a million million draws")
    lesson, _faults = read(text)
    assert lesson is not None
    assert drawn(lesson, 5) == drawn(lesson, 5)
    assert len({problem.numbers for problem in drawn(lesson, 5).problems}) == 200


# --- text that wants to be more ---------------------------------------------------

STEERING = "\x1b[2J\x1b]0;title\x07\x08\u202e\u2066\x00[red]<b>&amp;{{7*7}}${x}%s%n=cmd|' /C calc'!A0"


@pytest.mark.parametrize(
    "sign", ["\x1b[31m", "\x07", "\u202e", "\u2066", "\x7f", "\u200b", "\ud800", "\ufffe"]
)
def test_what_steers_a_terminal_is_never_in_a_fault(sign: str) -> None:
    text = GOOD.replace("ask      ?", f"{sign}ask      ?").replace("equation 2x", f"equation {sign}2x")
    _lesson, faults = read(text)
    for fault in faults:
        shown = str(fault)
        assert sign not in shown
        assert all(sign == "\n" or sign.isprintable() for sign in shown)


def test_markup_and_formulas_of_tables_are_only_text() -> None:
    ask = "[red]How[/red] <b>far</b> &amp; =1+1 @SUM(A1) %s {{}}".replace("{{}}", "")
    lesson, faults = read(GOOD.replace("ask      ?", f"ask      {ask}"))
    assert lesson is not None, faults
    assert lesson.problems[0].ask == ask.strip()


@pytest.mark.parametrize(
    "inside",
    [
        "__import__('os').system('true')",
        "().__class__.__bases__",
        "lambda: 0",
        "open('x')",
        "r if r else 0",
        "r.__class__",
        "'a' * 9",
        "[r for r in r]",
        "exec",
        "0b41",
        "1e9",
        "r; r",
        "r\\",
    ],
)
def test_braces_hold_mathematics_and_nothing_else(inside: str) -> None:
    lesson, faults = read(GOOD.replace("ask      ?", f"vary     r in 1, 2\n  ask      {{r}} {{{inside}}}"))
    assert lesson is None
    assert faults


def test_nothing_is_read_written_or_run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever the text, the reader opens no file, starts no process and asks no network."""
    touched: list[str] = []

    def note(name: str) -> Callable[..., object]:
        def refuse(*arguments: object, **_kinds: object) -> object:
            touched.append(f"{name} {arguments[:1]}")
            raise OSError(name)

        return refuse

    for place, name in (
        (builtins, "open"),
        (os, "open"),
        (os, "system"),
        (os, "remove"),
        (os, "mkdir"),
        (os, "listdir"),
        (os, "scandir"),
        (subprocess, "Popen"),
        (Path, "open"),
        (Path, "read_text"),
        (Path, "write_text"),
        (Path, "iterdir"),
        (builtins, "eval"),
        (builtins, "exec"),
    ):
        monkeypatch.setattr(place, name, note(name))
    texts = [text for _name, text, _message in LESSONS if len(text) < 60_000]
    texts += [GOOD.replace("?", STEERING), HEAD + "review 3 from ../x, C:\\x, /etc/passwd, nul, ~, $HOME\n"]
    texts += [HEAD + "review 3 from a, b, c\n"]
    for text in texts:
        read(text)
    tidied(GOOD)
    assert touched == []


# --- files ------------------------------------------------------------------------


def test_a_review_opens_lesson_files_of_its_own_folder_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "lessons"
    folder.mkdir()
    (tmp_path / "outside.lesson").write_text(GOOD, encoding="utf-8")
    (folder / "inside.lesson").write_text(GOOD, encoding="utf-8")
    (folder / "inside.txt").write_text(GOOD, encoding="utf-8")
    names = (
        "inside, ../outside, ..\\outside, outside, inside.txt, ./inside, ..., con, C:outside, inside\u2028x"
    )
    path = folder / "mixed.lesson"
    path.write_text(f"{HEAD}review   1 from {names}\n", encoding="utf-8")
    opened: list[Path] = []
    real = Path.open

    def watch(self: Path, *arguments: str, **kinds: str) -> object:
        opened.append(self)
        return real(self, *arguments, **kinds)  # type: ignore[call-overload]

    monkeypatch.setattr(Path, "open", watch)
    lesson, faults = load_lesson(path)
    assert lesson is None
    assert len(faults) == 9
    assert {one.parent for one in opened} == {folder}
    assert sorted(one.name for one in opened) == ["inside.lesson", "mixed.lesson"]


def test_reviews_that_name_each_other_end(tmp_path: Path) -> None:
    for name, other in (("a", "b"), ("b", "a"), ("c", "c")):
        (tmp_path / f"{name}.lesson").write_text(f"{HEAD}review   1 from {other}\n", encoding="utf-8")
    for name in "abc":
        lesson, (fault,) = load_lesson(tmp_path / f"{name}.lesson")
        assert lesson is None
        assert "not from another review" in fault.message


def test_a_loop_of_links_is_a_fault(tmp_path: Path) -> None:
    try:
        (tmp_path / "a.lesson").symlink_to(tmp_path / "b.lesson")
        (tmp_path / "b.lesson").symlink_to(tmp_path / "a.lesson")
    except OSError:
        pytest.skip("this account may not make links")
    lesson, faults = load_lesson(tmp_path / "a.lesson")
    assert lesson is None
    assert len(faults) == 1


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "a.lesson")
    lesson, (fault,) = load_lesson(tmp_path / "a.lesson")
    assert lesson is None
    assert "not a file that can be read" in fault.message
