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
RUNS = 21
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


def first_paint(command: list[str], home: str) -> tuple[float, float]:
    """Return the seconds until the heading is painted, on the clock and of the processor.

    Raises ``TimeoutError``.
    """
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
        seconds = time.perf_counter() - begun
    finally:
        process.kill()
        _, process.returncode, used = os.wait4(process.pid, 0)
        os.close(master)
    return seconds, used.ru_utime + used.ru_stime


def main() -> None:
    """Run both in turn, after one run each that is not counted, and print medians and their ratios."""
    ours, bare = [sys.executable, "-m", "tutor"], [sys.executable, "-c", BARE]
    runs: list[tuple[tuple[float, float], tuple[float, float]]] = []
    with tempfile.TemporaryDirectory() as home:
        for run in range(RUNS + 1):
            if run % 2:  # now one goes first, now the other
                pair = first_paint(ours, home), first_paint(bare, home)
            else:
                other = first_paint(bare, home)
                pair = first_paint(ours, home), other
            if run:
                runs.append(pair)
    print(f"{RUNS} runs of each")
    for what, at in (("clock", 0), ("processor", 1)):
        our_times, bare_times = ([pair[who][at] for pair in runs] for who in (0, 1))
        for name, times in (("Evenline", our_times), ("bare Textual app", bare_times)):
            low, middle, high = min(times), statistics.median(times), max(times)
            print(f"{what:9}  {name:16}  median {middle:.3f} s   least {low:.3f} s   most {high:.3f} s")
        medians = statistics.median(our_times) / statistics.median(bare_times)
        pairs = statistics.median(one / other for one, other in zip(our_times, bare_times, strict=True))
        print(f"{what:9}  ratio of medians {medians:.2f}, median of ratios {pairs:.2f}")


if __name__ == "__main__":
    main()
