"""Time to first paint, by hand: ``python tests/bench/start.py``. Not on Windows.

Evenline's shelf against a bare Textual app that shows one line, each in a pseudo-terminal of
80 × 24, in turn, so that both meet the same load. The clock runs from the start of the
process until the bytes of the heading have come out of the terminal.
"""

import os
import select
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

if sys.platform != "win32":
    import pty
    import termios

ROOT = Path(__file__).resolve().parents[2]
RUNS = 11
DEADLINE = 120.0  # seconds
HEADING = b"your lessons"  # on Evenline's shelf, and in the bare app

BARE = """
from textual.app import App, ComposeResult
from textual.widgets import Static

class Bare(App[None]):
    def compose(self) -> ComposeResult:
        yield Static("your lessons")

Bare().run()
"""


def first_paint(command: list[str], home: str) -> float:
    """Return the seconds until the heading is painted; raises ``TimeoutError``."""
    master, slave = pty.openpty()
    termios.tcsetwinsize(slave, (24, 80))
    # Byte code is kept, as it is where the program is installed.
    env = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    env |= {"EVENLINE_HOME": home, "PYTHONPATH": str(ROOT), "TERM": "xterm-256color"}
    begun = time.perf_counter()
    process = subprocess.Popen(
        command, stdin=slave, stdout=slave, stderr=slave, cwd=home, env=env, start_new_session=True
    )
    os.close(slave)
    try:
        painted = b""
        while HEADING not in painted:
            left = begun + DEADLINE - time.perf_counter()
            if left <= 0 or not select.select([master], [], [], left)[0]:
                raise TimeoutError(painted[-2000:])
            painted += os.read(master, 65_536)
        return time.perf_counter() - begun
    finally:
        process.kill()
        process.wait()
        os.close(master)


def main() -> None:
    """Run both in turn, after one run each that is not counted, and print medians and their ratio."""
    ours, bare = [sys.executable, "-m", "tutor"], [sys.executable, "-c", BARE]
    times: dict[str, list[float]] = {"Evenline": [], "bare Textual app": []}
    with tempfile.TemporaryDirectory() as home:
        for run in range(RUNS + 1):
            for name, command in zip(times, (ours, bare), strict=True):
                seconds = first_paint(command, home)
                if run:
                    times[name].append(seconds)
    for name, seconds_each in times.items():
        low, middle, high = min(seconds_each), statistics.median(seconds_each), max(seconds_each)
        print(f"{name:18} median {middle:.3f} s   least {low:.3f} s   most {high:.3f} s   ({RUNS} runs)")
    medians = [statistics.median(seconds_each) for seconds_each in times.values()]
    pairs = [one / other for one, other in zip(*times.values(), strict=True)]
    print(f"ratio of medians {medians[0] / medians[1]:.2f}, median of pairs {statistics.median(pairs):.2f}")


if __name__ == "__main__":
    main()
