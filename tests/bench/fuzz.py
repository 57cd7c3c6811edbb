"""Many generated lines through the reader, by hand: ``python tests/bench/fuzz.py --lines 1000000``.

Prints how many were read, how many sentences came up, and what took longest. Ends with the first
line that breaks a promise: an exception, a span outside the line, or an answer that took too long.
"""

import argparse
import sys
import time
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from line_fuzzing import NAMES, lines, read_and_check

TOO_LONG = 0.1


def kind_of(message: str) -> str:
    """Return a sentence without the student's own signs in it."""
    parts = message.split("“")
    return "“…”".join([parts[0], *(part.partition("”")[2] for part in parts[1:])])


def main() -> None:
    """Read the lines and print the outcome."""
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("--lines", type=int, default=1_000_000)
    arguments.add_argument("--seed", type=int, default=1)
    chosen = arguments.parse_args()
    sentences: Counter[str] = Counter()
    read_count = several = 0
    longest = (0.0, "")
    read_and_check("x = 4", NAMES[0])  # the grammar is built before the clock runs
    begun = time.perf_counter()
    for at, text in enumerate(lines(chosen.seed, chosen.lines)):
        before = time.process_time()
        answer = read_and_check(text, NAMES[at % len(NAMES)])
        longest = max(longest, (time.process_time() - before, text))
        read_count += bool(answer.readings)
        several += len(answer.readings) > 1
        if answer.message:
            sentences[kind_of(answer.message)] += 1
    print(f"{chosen.lines} lines, seed {chosen.seed}, {time.perf_counter() - begun:.0f} s; no promise broken")
    print(f"read {read_count}, of these two ways or more {several}; unread {chosen.lines - read_count}")
    print(f"longest {longest[0] * 1000:.1f} ms: {longest[1]!r}")
    assert longest[0] < TOO_LONG
    for sentence, count in sentences.most_common(20):
        print(f"{count:9}  {sentence}")


if __name__ == "__main__":
    main()
