"""The table of teachers' mistakes, replayed, and what holds of everything that teachers are told to write."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lesson_bases import BASES

from tutor.lesson.forms import reads
from tutor.lesson.keywords import BY_WORD, Keyword
from tutor.lesson.model import Fault
from tutor.lesson.reader import read_lesson

# Lesson, what stands in it, what the teacher wrote, line:column, message, what to write instead; in
# the table a line end is written \\n. Read the rows beside one another after a change of a message.
TABLE = Path(__file__).parent / "lesson_mistakes.tsv"
ROWS = [row.split("\t") for row in TABLE.read_text(encoding="utf-8").splitlines()[1:]]
MISTAKES = [tuple(cell.replace("\\n", "\n") for cell in row) for row in ROWS]


def faults_of(text: str) -> tuple[Fault, ...]:
    _lesson, faults = read_lesson(text, "parade.lesson")
    return faults


@pytest.mark.parametrize("name", BASES)
def test_a_lesson_without_mistakes_reads(name: str) -> None:
    assert faults_of(BASES[name]) == ()


@pytest.mark.parametrize(("name", "stands", "wrote", "place", "message", "instead"), MISTAKES)
def test_a_mistake_is_told(
    name: str, stands: str, wrote: str, place: str, message: str, instead: str
) -> None:
    assert stands in BASES[name]
    text = BASES[name].replace(stands, wrote, 1)
    first, *others = faults_of(text)
    assert (f"{first.line}:{first.column}", first.message, first.instead) == (place, message, instead)
    assert first.text == text.split("\n")[first.line - 1]
    # One mistake is one fault; a part without what is found in it is told at both ends.
    assert len(others) == (1 if "part     How long?" in wrote else 0)


def test_the_table_is_long_and_names_no_mistake_twice() -> None:
    told = {(name, stands, wrote) for name, stands, wrote, *_expected in MISTAKES}
    assert len(told) == len(MISTAKES) >= 150


def test_no_message_is_longer_than_a_teacher_reads() -> None:
    lists = ("is not a keyword.", "There is no figure")  # which name all that there are
    for _name, _stands, _wrote, _place, message, _instead in MISTAKES:
        assert len(message) <= 130 or any(words in message for words in lists), message


def is_entry(instead: str) -> bool:
    """Tell whether what to write instead is a whole entry, and no piece of one."""
    return instead.split(" ", 1)[0] in BY_WORD


def told_to_write(faults: tuple[Fault, ...]) -> list[str]:
    return [fault.instead for fault in faults if is_entry(fault.instead)]


def entry_reads(entry: str) -> bool:
    word, _space, body = entry.partition(" ")
    return reads(Keyword(word), body.strip())


@pytest.mark.parametrize(("name", "stands", "wrote"), [row[:3] for row in MISTAKES])
def test_what_to_write_instead_can_be_read(name: str, stands: str, wrote: str) -> None:
    faults = faults_of(BASES[name].replace(stands, wrote, 1))
    assert all(map(entry_reads, told_to_write(faults)))


# What stands in the place of an example and not of the line itself is left out.
MENDING = [
    row
    for row in MISTAKES
    if is_entry(row[5])
    and " missing" not in row[4]
    and "begin another" not in row[4]
    and "begins an entry" not in row[4]
    and "before the first part" not in row[4]
    and "on a line of its own" not in row[4]
    and not (row[5].endswith("step 0.5") and "step" not in row[2])
    and "No answer" not in row[4]
    and "needs numbers" not in row[4]
    and "is declared" not in row[4]
    and "No formula here" not in row[4]
    and "Nothing is found" not in row[4]
    and row[2] != "rectangle"
] + [row for row in MISTAKES if "space is missing" in row[4] or "sign = is missing" in row[4]]


@pytest.mark.parametrize(("name", "stands", "wrote", "place", "message", "instead"), MENDING)
def test_writing_it_mends_the_lesson(
    name: str, stands: str, wrote: str, place: str, message: str, instead: str
) -> None:
    rows = BASES[name].replace(stands, wrote, 1).split("\n")
    line = int(place.split(":")[0]) - 1
    rows[line] = rows[line][: len(rows[line]) - len(rows[line].lstrip())] + instead
    assert faults_of("\n".join(rows)) == ()


LETTERS = st.sampled_from(list("abcdefgmnrstCLWH=,;:.{}()/*^2 3479°“”'-\t×"))


@settings(max_examples=400, deadline=None)
@given(
    st.sampled_from(sorted(BASES)),
    st.lists(st.tuples(st.floats(0, 1), st.sampled_from(["drop", "put", "swap"]), LETTERS), max_size=4),
)
def test_whatever_slips_what_to_write_instead_can_be_read(
    name: str, slips: list[tuple[float, str, str]]
) -> None:
    text = BASES[name]
    for where, kind, letter in slips:
        at = int(where * (len(text) - 1))
        if kind == "drop":
            text = text[:at] + text[at + 1 :]
        elif kind == "put":
            text = text[:at] + letter + text[at:]
        else:
            text = text[:at] + text[at : at + 2][::-1] + text[at + 2 :]
    for entry in told_to_write(faults_of(text)):
        assert entry_reads(entry), entry
