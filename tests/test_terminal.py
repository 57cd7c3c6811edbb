"""The real command in a real pseudo-terminal: keys go in as bytes, the screen is read as it looks."""

import os
import re
import select
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pyte
import pytest

if sys.platform != "win32":
    import pty
    import termios

pytestmark = pytest.mark.skipif(
    sys.platform == "win32", reason="Windows has no pseudo-terminal in Python's standard library"
)

ROOT = Path(__file__).resolve().parents[1]
COLUMNS, ROWS = 80, 24
DEADLINE = 60.0  # seconds; machines that run tests are slow and shared

# As xterm sends them.
ENTER, BACKSPACE, UP, CTRL_Q = "\r", "\x7f", "\x1b[A", "\x11"
F2, F3, F9 = "\x1bOQ", "\x1bOR", "\x1b[20~"

# Beside those that ship, whose numbers are each student's own.
LESSON = """\
lesson   Own: paper strips
format   1

problem  Paper strips
  ask      The parade needs 87 strips, and 15 are ready. Six teams cut the rest. So 6n + 15 = 87.
           How many strips does each team cut?
  equation 6n + 15 = 87
  find     n

problem  Struts
  choose   triangle, square
  answer   square
  ask      Which shape has four equal sides?
"""
LATE = """\
lesson   Own: to be handed in
format   1
marks    when handed in

problem  Hoop
  vary     r from 4 to 9
  ask      The hoop takes {C} of cane, and its radius is r. How long is r?
  formula  C = 2 pi r
  given    C = {2 * 3.14 * r} cm
  find     r in cm
"""


class Terminal:
    """One run of the command, its screen, and its keyboard."""

    def __init__(self, home: Path, folder: Path) -> None:
        self._master, slave = pty.openpty()
        termios.tcsetwinsize(slave, (ROWS, COLUMNS))
        unset = {"COLUMNS", "LINES", "NO_COLOR", "EVENLINE_HOME", "TEXTUAL"}
        kept = {name: value for name, value in os.environ.items() if name not in unset}
        self.process = subprocess.Popen(
            [sys.executable, "-m", "tutor", "--lessons", "own"],
            stdin=slave,
            stdout=slave,
            stderr=slave,
            cwd=folder,
            env={**kept, "EVENLINE_HOME": str(home), "PYTHONPATH": str(ROOT), "TERM": "xterm-256color"},
            start_new_session=True,
        )
        os.close(slave)
        self._screen = pyte.Screen(COLUMNS, ROWS)
        self._stream = pyte.ByteStream(self._screen)

    @property
    def text(self) -> str:
        """Return the rows that are on the screen now."""
        return "\n".join(self._screen.display)

    def press(self, keys: str) -> None:
        """Send keys, all at once, as from a fast hand."""
        os.write(self._master, keys.encode("utf-8"))

    def wait(self, seen: Callable[[str], object], what: str) -> None:
        """Read the screen until ``seen`` is true of its text; fail with the screen at the deadline."""
        until = time.monotonic() + DEADLINE
        while not seen(self.text):
            if time.monotonic() > until:
                pytest.fail(f"never seen: {what}\n{self.text}")
            if not self._read(0.1) and self.process.poll() is not None:
                pytest.fail(f"ended before this was seen: {what}\n{self.text}")

    def see(self, *patterns: str) -> None:
        """Wait until the screen shows each of these regular expressions."""
        self.wait(lambda text: all(re.search(one, text) for one in patterns), " and ".join(patterns))

    def write_line(self, text: str, sign: str, number: int) -> None:
        """Type a line, press Enter, and wait for its sign, its number and its text on the ruled page."""
        self.press(text + ENTER)
        self.see(rf"{sign} +{number} [│║] {re.escape(text)}")

    def kill(self) -> None:
        """Kill the process as a power cut would: it gets no chance to write anything."""
        self.process.send_signal(signal.SIGKILL)
        assert self.process.wait(DEADLINE) == -signal.SIGKILL

    def stop(self) -> int:
        """Press Ctrl+Q and return the exit code."""
        self.press(CTRL_Q)
        until = time.monotonic() + DEADLINE
        while self.process.poll() is None and time.monotonic() < until:
            self._read(0.1)
        return self.process.wait(0)

    def close(self) -> None:
        """Leave nothing running."""
        if self.process.poll() is None:
            self.process.kill()
            self.process.wait(DEADLINE)
        os.close(self._master)

    def _read(self, seconds: float) -> bool:
        ready, _, _ = select.select([self._master], [], [], seconds)
        if not ready:
            return False
        try:
            data = os.read(self._master, 65_536)
        except OSError:  # Linux: nobody holds the other end any more
            return False
        self._stream.feed(data)
        return bool(data)


@pytest.fixture
def evenline(tmp_path: Path) -> Iterator[Callable[[], Terminal]]:
    """Return what starts the command: each start has the same record, and a folder of lessons of its own."""
    folder = tmp_path / "elsewhere"
    (folder / "own").mkdir(parents=True)
    (folder / "own" / "strips.lesson").write_text(LESSON, encoding="utf-8")
    (folder / "own" / "late.lesson").write_text(LATE, encoding="utf-8")
    begun: list[Terminal] = []

    def begin() -> Terminal:
        begun.append(Terminal(tmp_path / "home", folder))
        return begun[-1]

    yield begin
    for terminal in begun:
        terminal.close()


def open_strips(terminal: Terminal) -> Terminal:
    """Go from the shelf into the lesson of strips, the last one."""
    terminal.see("Evenline +your lessons", "Lantern Parade 1", "Press Enter to go on")
    terminal.press(UP)
    terminal.see("1 +Paper strips", "2 +Struts")
    terminal.press(ENTER)
    terminal.see("Paper strips · problem 1 of 2", r"So 6n \+ 15", "Enter mark")
    return terminal


def committed(record: Path) -> bytes:
    """Return the bytes of a record file, b"" while SQLite is in the middle of a write.

    A rollback journal that still has its header takes an unfinished write back.
    """
    journal = record.with_name(record.name + "-journal")
    if journal.exists() and journal.read_bytes()[:8].strip(b"\0"):
        return b""
    return record.read_bytes()


def test_from_the_shelf_to_a_finished_correction(evenline: Callable[[], Terminal]) -> None:
    page = open_strips(evenline())
    page.see("problem 1 of 2 · not begun", "first attempt")
    page.write_line("6n + 15 = 87", "✓", 1)
    page.write_line("6n = 102", "✗", 2)
    # The first wrong line and its reason: what may have been done, with the student's own number.
    page.see("6n = 102 .*first wrong line", "Maybe 15 went", "What undoes adding 15")
    page.see("F3 strikes it out")
    assert "n = 12" not in page.text  # the answer is not given away

    page.press(F3)
    page.see("✗ +2 │ 6n = 102", "struck out, first wrong line")
    # A hint goes on from line 1 and does not show the next line.
    page.press(F2)
    page.see(r"hint +Look at the \+ 15 on the left")
    assert "6n = 72" not in page.text
    page.write_line("6n = 72", "✓", 3)
    page.write_line("n = 12", "✓", 4)
    page.see("This is worked out")
    page.press(ENTER)
    page.see("problem 1 of 2 · to correct", "Press Enter to begin")

    page.press(ENTER)
    page.see("problem 1 of 2 · being corrected", "║ correction", "▸ +1 ║")
    # The first attempt stands beside it, the wrong line marked and struck.
    page.see("│ first attempt", "✗ +2 │ 6n = 102", "struck out, first wrong")
    page.write_line("6n + 15 = 87", "✓", 1)
    page.write_line("6n = 72", "✓", 2)
    page.write_line("n = 12", "✓", 3)
    page.write_line("6(12) + 15 = 87", "✓", 4)
    page.press(ENTER)
    page.see("problem 1 of 2 · corrected", "This correction is finished")
    assert page.stop() == 0

    # It is on the disk, and the shelf of the next start says so.
    again = evenline()
    again.see("Press Enter to go on")
    again.press(UP)
    again.see("1 +Paper strips: corrected", "2 +Struts: not begun")
    assert again.stop() == 0


def test_a_kill_in_the_middle_of_a_line_loses_no_marked_line(
    evenline: Callable[[], Terminal], tmp_path: Path
) -> None:
    half, rest = "n = 72 /", " 6"
    record = tmp_path / "home" / "ME.evenline"

    page = open_strips(evenline())
    page.write_line("6n + 15 = 87", "✓", 1)
    page.write_line("6n = 102", "✗", 2)
    page.press(F3)
    page.see("struck out, first wrong line")
    page.write_line("6n = 72", "✓", 3)
    page.press(half)
    page.see(f"▸ +4 │ {half}")
    # What is in the box is handed to the record every two seconds.
    page.wait(lambda _: half.encode() in committed(record), "the half line in the record")
    page.press(rest)
    page.see(f"▸ +4 │ {half}{rest}")
    page.kill()

    again = evenline()
    again.see("Press Enter to go on")
    again.press(UP)
    again.see("1 to correct", "1 +Paper strips: to correct")
    again.press(ENTER)
    again.see("Paper strips · problem 1 of 2 · to correct", "✓ +1 │ 6n \\+ 15 = 87", "✗ +2 │ 6n = 102")
    again.see("struck out, first wrong line", "✓ +3 │ 6n = 72")
    # No more than the keys of the last two seconds may be lost from the box.
    again.see(f"▸ +4 │ {half}({rest})? *\n")

    # The work goes on from there: the box is live and its text is no line yet.
    again.press(BACKSPACE * len(half + rest))
    again.see("▸ +4 │ *\n")
    again.write_line("n = 12", "✓", 4)
    assert again.stop() == 0


def test_a_problem_is_handed_in_with_its_own_numbers(evenline: Callable[[], Terminal]) -> None:
    page = evenline()
    page.see("Evenline +your lessons", "Lantern Parade 1", "Press Enter to go on")
    page.press(UP)
    page.see("2 +Struts")
    page.press(UP)
    page.see("1 +Hoop: not begun")
    page.press(ENTER)
    page.see("no marks yet", "takes .* cm of cane", "F9 hand in")
    found = re.search(r"takes (\S+) cm of", page.text)
    assert found is not None
    round_it = found[1]
    for number, line in enumerate(("C = 2 pi r", f"C = {round_it} cm", "C = 5r"), start=1):
        page.write_line(line, " ", number)
    assert "✗" not in page.text and "✓" not in page.text
    page.press(F9)
    page.see(r"✓ +1 │ C = 2 pi r", rf"✓ +2 │ C = {round_it} cm", r"✗ +3 │ C = 5r", "A line broke here")
    assert page.stop() == 0
