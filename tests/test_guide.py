"""The guide for teachers: what it shows is read and audited, and it leaves no keyword out."""

import re
from pathlib import Path

import pytest

from tutor.figure.examples import EXAMPLES
from tutor.figure.kinds import FIGURE_KINDS
from tutor.lesson.audit import audit
from tutor.lesson.forms import reads
from tutor.lesson.keywords import BY_WORD, Keyword
from tutor.lesson.model import Lesson
from tutor.lesson.patterns import PATTERNS
from tutor.lesson.reader import load_lesson, read_lesson

GUIDE = (Path(__file__).parents[1] / "lessons" / "README.md").read_text(encoding="utf-8")
FENCED = re.findall(r"^```(\w+)\n(.*?)^```$", GUIDE, re.MULTILINE | re.DOTALL)
LESSONS = [text for kind, text in FENCED if kind == "lesson"]
PROBLEMS = [text for kind, text in FENCED if kind == "problem"]
REVIEWS = [text for kind, text in FENCED if kind == "review"]
CARD = "lesson   Guide\nformat   1\npi       3.14\n\n"


def good(text: str) -> Lesson:
    lesson, faults = read_lesson(text, "guide.lesson")
    assert lesson is not None, "\n".join(map(str, faults))
    return lesson


def test_every_fence_is_an_example_that_is_tried() -> None:
    assert len(LESSONS) + len(PROBLEMS) + len(REVIEWS) == len(FENCED) == GUIDE.count("\n```") // 2


@pytest.mark.parametrize("text", [*LESSONS, *(CARD + problem for problem in PROBLEMS)])
def test_an_example_stands_the_audit(text: str) -> None:
    assert "\n".join(map(str, audit(good(text)))) == ""


def test_the_examples_together_are_one_lesson() -> None:
    assert len(good(CARD + "\n".join(PROBLEMS)).problems) == len(PROBLEMS)


def test_the_review_draws(tmp_path: Path) -> None:
    (review,) = REVIEWS
    for name in ("hoops", "windows"):
        text = LESSONS[0] + "".join(
            f"\nproblem  {name} {n}\n  ask      ?\n  equation 2x = {2 * n}\n  find     x\n"
            for n in range(1, 6)
        )
        (tmp_path / f"{name}.lesson").write_text(text, encoding="utf-8")
    path = tmp_path / "mixed.lesson"
    path.write_text(review, encoding="utf-8")
    lesson, faults = load_lesson(path)
    assert lesson is not None, faults
    assert len(lesson.problems) == 8


@pytest.mark.parametrize("keyword", Keyword)
def test_every_keyword_has_an_example(keyword: Keyword) -> None:
    shown = "\n".join(text for _kind, text in FENCED)
    in_the_table = re.search(rf"^\| `{keyword.value} ", GUIDE, re.MULTILINE)
    assert re.search(rf"^ *{keyword.value} ", shown, re.MULTILINE) or in_the_table


ENTRIES = [
    text for text in re.findall(r"`([^`\n]+)`", GUIDE) if text.split(" ")[0] in BY_WORD and " " in text
]


@pytest.mark.parametrize("entry", ENTRIES)
def test_an_entry_in_the_text_reads(entry: str) -> None:
    word, _space, body = entry.partition(" ")
    assert reads(Keyword(word), body.strip())


@pytest.mark.parametrize("kind", FIGURE_KINDS)
def test_every_figure_is_in_the_table_with_all_its_parts(kind: str) -> None:
    assert f"| {kind} | {', '.join(FIGURE_KINDS[kind])} | `{EXAMPLES[kind].entry}` |\n" in GUIDE


def test_every_pattern_is_named() -> None:
    (said,) = re.findall(r"There are patterns called (.*)\.\n", GUIDE)
    assert set(re.findall(r"\w+", said)) - {"and"} == set(PATTERNS)
