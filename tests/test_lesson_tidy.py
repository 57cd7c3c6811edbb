"""The standard layout: what a lesson means stays, and laying it out again changes nothing."""

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lesson_bases import BASES, HEAD

from tutor.lesson.keywords import BY_WORD
from tutor.lesson.model import Lesson
from tutor.lesson.patterns import PATTERNS
from tutor.lesson.reader import read_lesson
from tutor.lesson.tidy import WIDTH, tidied
from tutor.resources import lessons_folder

SHIPPED = sorted(path for path in lessons_folder().glob("*.lesson") if "review" not in path.name)


def bare(text: str) -> Lesson:
    """Return the lesson without what depends on its layout."""
    lesson, faults = read_lesson(text, "a.lesson")
    assert lesson is not None, "\n".join(map(str, faults))
    problems = tuple(replace(problem, line=0, template=None) for problem in lesson.problems)
    return replace(lesson, problems=problems, fingerprint="", text="")


@pytest.mark.parametrize("text", BASES.values(), ids=BASES)
def test_every_kind_of_problem_keeps_its_meaning(text: str) -> None:
    laid = tidied(text)
    assert bare(laid) == bare(text)
    assert tidied(laid) == laid


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: str(path.stem))
def test_the_lessons_that_ship_keep_their_meaning(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    laid = tidied(text)
    assert bare(laid) == bare(text)
    assert tidied(laid) == laid
    remarks = [row.strip() for row in text.splitlines() if row.lstrip().startswith("#")]
    assert [row.strip() for row in laid.splitlines() if row.lstrip().startswith("#")] == remarks


@pytest.mark.parametrize("text", PATTERNS.values(), ids=PATTERNS)
def test_patterns_are_laid_out_in_narrow_lines(text: str) -> None:
    laid = tidied(text)
    assert tidied(laid) == laid
    assert all(len(row) <= WIDTH for row in laid.splitlines() if not row.startswith("#"))


WORDS = st.sampled_from(
    [
        *BY_WORD,
        "the",
        "strip",
        "#3",
        "fnd",
        "aks",
        "figrue",
        "{C}",
        "π",
        "a" * 40,
        "x",
        "-",
        "*",
        "1.",
        "So:",
        "灯",
    ]
)


@settings(max_examples=150, deadline=None)
@given(st.lists(WORDS, min_size=1, max_size=60), st.integers(1, 12))
def test_any_question_is_the_same_after_it(words: list[str], spaces: int) -> None:
    ask = " ".join(words)
    text = f"{HEAD}problem{' ' * spaces}Hoop\n  ask{' ' * spaces}{ask}\n  formula C = 2 r\n  given C = 6 cm\n  find r in cm\n"
    laid = tidied(text)
    assert bare(laid).problems[0].ask == ask.replace("{C}", "6 cm")
    assert tidied(laid) == laid
