"""The page starts light: what is imported when, who imports Textual, and no terminal at all."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

from tutor.page.app import run

ROOT = Path(__file__).resolve().parents[2]

_FIRST_PAINT = """
import asyncio, sys, threading
from tutor.page.app import EvenlineApp

HEAVY = {"sympy", "lark", "sqlite3", "tutor.marking.working", "tutor.record.desk", "tutor.lesson.reader"}
found, asked = [], threading.Event()

def load():
    # The rooms are asked for only after the shelf is on the screen.
    found.extend(sorted(HEAVY & set(sys.modules)))
    asked.set()
    raise SystemExit

async def main():
    async with app.run_test() as pilot:
        while not asked.is_set():
            await pilot.pause(0.01)
        print("shelf:", "your lessons" in str(app.screen.query_one("#top").render()), "heavy:", found)

app = EvenlineApp(load)
asyncio.run(main())
"""


def test_the_first_paint_comes_before_anything_heavy() -> None:
    done = subprocess.run(
        [sys.executable, "-c", _FIRST_PAINT],
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert "shelf: True heavy: []" in done.stdout, done.stdout + done.stderr


def test_only_the_page_imports_textual() -> None:
    for path in (ROOT / "tutor").rglob("*.py"):
        if path.parent.name == "page":
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            if isinstance(node, ast.ImportFrom):
                names = [node.module or ""]
            assert not {name.split(".")[0] for name in names} & {"textual", "rich"}, path


def test_without_a_terminal_there_is_a_sentence(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run([tmp_path], "K7") == 2
    assert "needs a terminal" in capsys.readouterr().err
