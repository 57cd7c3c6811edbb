"""The table of the grammar that is kept between two starts: the same as one made afresh, or made again."""

import json
import subprocess
import sys
from pathlib import Path
from zlib import crc32

import pytest

from tutor.line.by_lark import lark_of, table_of
from tutor.line.kept_table import line_table
from tutor.line.table import Table
from tutor.resources import grammar_text

AFRESH = table_of(lark_of(grammar_text("line")))


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("EVENLINE_CACHE", str(tmp_path / "kept"))
    return tmp_path / "kept" / "line.json"


def test_what_is_kept_is_what_is_made_afresh(place: Path) -> None:
    assert line_table() == AFRESH
    assert [file.name for file in place.parent.iterdir()] == ["line.json"]
    written = place.read_bytes()
    kept = line_table()
    assert kept == AFRESH
    for old, new in zip(kept, AFRESH, strict=True):
        assert type(old) is type(new)
    assert all(map(isinstance, kept.rules, [type(AFRESH.rules[0])] * len(kept.rules)))
    assert place.read_bytes() == written


def test_the_second_start_does_not_load_lark(place: Path) -> None:
    code = (
        "import sys; from tutor.line.names import Names; from tutor.line.reader import read; "
        "print(read('2x = 8', Names()).statements[0].sides, 'lark' in sys.modules)"
    )
    said = [
        subprocess.run(
            [sys.executable, "-c", code], capture_output=True, encoding="utf-8", check=True
        ).stdout.split()
        for _ in range(2)
    ]
    assert [words[-1] for words in said] == ["True", "False"]
    assert said[0][:-1] == said[1][:-1]


def changed(place: Path, change: str) -> None:
    """Damage the file that is kept, or put another whole one in its place."""
    check, _, text = place.read_text(encoding="utf-8").partition("\n")
    if change == "cut off":
        place.write_text(f"{check}\n{text[: len(text) // 2]}", encoding="utf-8")
    elif change == "one sign":
        place.write_text(f"{check}\n{text.replace('7', '8', 1)}", encoding="utf-8")
    elif change == "empty":
        place.write_bytes(b"")
    elif change == "no text":
        place.write_bytes(b"\xff\xfe\x00")
    else:
        kept = json.loads(text)
        if change == "another grammar":
            kept["made from"][0] += "\n"
        elif change == "another lark":
            kept["made from"][2] += 1
        else:
            kept = [1]
        text = json.dumps(kept)
        place.write_text(f"{crc32(text.encode()):08x}\n{text}", encoding="utf-8")


@pytest.mark.parametrize(
    "change",
    ["cut off", "one sign", "empty", "no text", "another grammar", "another lark", "another thing"],
)
def test_what_does_not_fit_is_made_again(place: Path, change: str) -> None:
    line_table()
    right = place.read_bytes()
    changed(place, change)
    assert place.read_bytes() != right
    assert line_table() == AFRESH
    assert place.read_bytes() == right


def test_a_folder_that_cannot_be_written_costs_nothing_but_time(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    in_the_way = tmp_path / "file"
    in_the_way.write_text("mine", encoding="utf-8")
    monkeypatch.setenv("EVENLINE_CACHE", str(in_the_way))
    assert line_table() == AFRESH
    assert in_the_way.read_text(encoding="utf-8") == "mine"
    assert [file.name for file in tmp_path.iterdir()] == ["file"]


def test_where_the_parts_of_a_table_cannot_be_told_it_is_not_kept(
    place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tutor.line.kept_table.find_spec", lambda name: None)
    assert isinstance(line_table(), Table)
    assert not place.exists()
