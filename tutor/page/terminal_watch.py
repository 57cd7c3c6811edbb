"""Ending when the terminal is gone.

A closed window normally ends the program by a signal. Where that signal is held back (as
under nohup, or by the program that started it) the page would go on without anyone to see
it, and keep the record locked against the student's next start.
"""

import os
import sys
import threading
import time

EVERY_SECONDS = 3.0


def watch_terminal() -> None:
    """Watch, in a thread of its own, that standard input is still a terminal."""
    threading.Thread(target=_watch, args=(sys.stdin.fileno(),), name="terminal watch", daemon=True).start()


def _watch(handle: int) -> None:
    while os.isatty(handle):
        time.sleep(EVERY_SECONDS)
    # Every line is on the disk before its mark is shown, so ending here loses no more than a
    # kill does; there is no screen left to take down.
    os._exit(1)
