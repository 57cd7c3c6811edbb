"""How long the audit of a lesson takes, by hand: ``python tests/bench/audit.py [LESSON …]``.

``evenline audit`` of each lesson, start included, against ``evenline --version`` and a bare Python
that loads nothing, in turn, so that all meet the same load. With ``--profile`` one audit in this
process, by function.
"""

import argparse
import cProfile
import os
import pstats
import statistics
import subprocess
import sys
import time
from pathlib import Path

from tutor.lesson.audit import audited
from tutor.lesson.reader import load_lesson
from tutor.resources import lessons_folder

ROOT = Path(__file__).resolve().parents[2]
RUNS = 9


def seconds(command: list[str]) -> float:
    """Return how long a command takes, its start included."""
    # Byte code is kept, as it is where the program is installed.
    env = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    begun = time.perf_counter()
    subprocess.run(command, env=env | {"PYTHONPATH": str(ROOT)}, stdout=subprocess.DEVNULL, check=False)
    return time.perf_counter() - begun


def compare(path: Path) -> None:
    """Print the medians of one lesson, and of the ratio to the bare start in the same round."""
    ours = [sys.executable, "-m", "tutor", "audit", str(path)]
    command = [sys.executable, "-m", "tutor", "--version"]
    bare = [sys.executable, "-c", "pass"]
    rounds = [(seconds(ours), seconds(command), seconds(bare)) for _ in range(RUNS + 1)][1:]
    medians = [statistics.median(column) for column in zip(*rounds, strict=True)]
    ratio = statistics.median(audit / start for audit, _command, start in rounds)
    print(
        f"{path.stem:24} audit {medians[0]:.3f} s   --version {medians[1]:.3f} s   bare {medians[2]:.3f} s"
        f"   audit/bare {ratio:.1f}"
    )


def profile(path: Path) -> None:
    """Print where the time of one audit goes."""
    lesson, faults = load_lesson(path)
    if lesson is None:
        print(*faults, sep="\n")
        return
    profiler = cProfile.Profile()
    profiler.runcall(audited, lesson)
    pstats.Stats(profiler).sort_stats("cumulative").print_stats(30)


def main() -> None:
    """Measure the lessons that are named, else those that ship."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("lesson", nargs="*", type=Path)
    parser.add_argument("--profile", action="store_true")
    given = parser.parse_args()
    for path in given.lesson or sorted(lessons_folder().glob("*.lesson")):
        if given.profile:
            profile(path)
        else:
            compare(path)


if __name__ == "__main__":
    main()
