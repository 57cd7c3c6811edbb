"""A stream of JSON Lines, answered in order; a long one by two processes at once.

What waits to be answered is shared out: this process takes one half, a second one the other.
A program that sends one line and waits for its answer never meets the second process.
"""

from __future__ import annotations

import gc
import pickle
import queue
import subprocess
import sys
import threading
from collections.abc import Sequence
from pathlib import Path
from typing import IO, TypeAlias

from tutor.teacher.jsonl import answer_line, written

# So many lines are waited for by nobody: half of them go to the second process.
SHARED = 64
# A stream that is shorter than this is done before a second process has started.
LONG = 300
# Lines that were read and not answered yet.
_WAITING = 1024

Answers: TypeAlias = tuple[list[bytes], bool]

_PACKAGE_PARENT = str(Path(__file__).resolve().parents[2])
_CODE = "import sys; sys.path.insert(0, sys.argv[1]); from tutor.teacher.stream import work; work()"


def serve(source: IO[bytes], sink: IO[bytes]) -> int:
    """Answer every line of ``source`` in order; returns 0, or 2 where any line was bad."""
    backlog = _Backlog(source)
    second: _Second | None = None
    number, code = 1, 0
    try:
        while batch := backlog.take(SHARED):
            if second is None and number > LONG:
                second = _Second()
            half = SHARED // 2 if len(batch) == SHARED and second is not None and second.ready else SHARED
            mine, theirs = batch[:half], batch[half:]
            if theirs and second is not None:
                second.ask(number + half, theirs)
            for at, raw in enumerate(mine):
                code = max(code, _answer(sink, raw, number + at))
            if theirs and second is not None:
                code = max(code, _pass_on(sink, second, theirs, number + half))
            number += len(batch)
    finally:
        if second is not None:
            second.end()
    return code


def _answer(sink: IO[bytes], raw: bytes, number: int) -> int:
    answer, good = answer_line(raw, number)
    sink.write(written(answer))
    sink.flush()
    return 0 if good else 2


def _pass_on(sink: IO[bytes], second: _Second, asked: Sequence[bytes], number: int) -> int:
    """Write what the second process answered; where it is gone, answer here."""
    found = second.answers()
    if found is None:
        return max(_answer(sink, raw, number + at) for at, raw in enumerate(asked))
    answers, good = found
    sink.write(b"".join(answers))
    sink.flush()
    return 0 if good else 2


_GOES_ON = "goes on"


class _Backlog:
    """The lines of a source that wait: read by a thread, so that it can be seen how many there are."""

    def __init__(self, source: IO[bytes]) -> None:
        self._lines: queue.Queue[bytes | Exception | None] = queue.Queue(_WAITING)
        self._source = source
        self._end: Exception | str | None = _GOES_ON  # then None, or the fault that ended it
        threading.Thread(target=self._read, daemon=True).start()

    def _read(self) -> None:
        try:
            for raw in self._source:
                self._lines.put(raw)
            self._lines.put(None)
        except Exception as fault:  # it is raised where the lines are taken
            self._lines.put(fault)

    def take(self, most: int) -> list[bytes]:
        """Wait for a line, and return it with those behind it that are there; [] at the end."""
        taken: list[bytes] = []
        while self._end is _GOES_ON and len(taken) < most:
            try:
                line = self._lines.get(block=not taken)
            except queue.Empty:
                break
            if isinstance(line, bytes):
                taken.append(line)
            else:
                self._end = line
        if isinstance(self._end, Exception) and not taken:
            raise self._end
        return taken


class _Second:
    """The second process. Where it cannot be started, or goes, nothing is lost but time."""

    def __init__(self) -> None:
        self._replies: queue.Queue[Answers | None] = queue.Queue()
        self._process: subprocess.Popen[bytes] | None = None
        self._started = False
        try:
            self._process = subprocess.Popen(
                [sys.executable, "-c", _CODE, _PACKAGE_PARENT],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
            )
        except OSError:
            return
        threading.Thread(target=self._read, args=(self._process.stdout,), daemon=True).start()

    def _read(self, replies: IO[bytes]) -> None:
        try:
            pickle.load(replies)  # it says that it has started
            self._started = True
            while True:
                self._replies.put(pickle.load(replies))
        except (EOFError, OSError, ValueError, pickle.UnpicklingError):
            self._started = False
            self._replies.put(None)

    @property
    def ready(self) -> bool:
        """Tell whether it can be asked."""
        return self._started

    def ask(self, number: int, lines: Sequence[bytes]) -> None:
        """Hand lines over, of which the first is line ``number`` of the stream."""
        assert self._process is not None
        assert self._process.stdin is not None
        try:
            pickle.dump((number, list(lines)), self._process.stdin)
            self._process.stdin.flush()
        except OSError:
            self._replies.put(None)

    def answers(self) -> Answers | None:
        """Return the answers to what was handed over last, None where the process is gone."""
        found = self._replies.get()
        if found is None:
            self._started = False
        return found

    def end(self) -> None:
        """Stop the process."""
        if self._process is None:
            return
        self._process.kill()
        self._process.wait()
        for pipe in (self._process.stdin, self._process.stdout):
            if pipe is not None:
                pipe.close()


def settle_memory() -> None:
    """Look through memory seldom: an answer leaves next to no circles behind.

    What is loaded stays to the end. Without this a stream spends a fifth of its time on both.
    """
    gc.freeze()
    gc.set_threshold(50_000, 20, 50)


def work() -> None:
    """Answer lines from standard input until it ends: what the second process does."""
    source, sink = sys.stdin.buffer, sys.stdout.buffer
    answer_line(b'{"lines": ["2x + 1 = 5", "2x = 4"]}', 1)  # the grammars are made by it
    settle_memory()
    pickle.dump("ready", sink)
    sink.flush()
    while True:
        try:
            number, lines = pickle.load(source)
        except EOFError:
            return
        found = [answer_line(raw, number + at) for at, raw in enumerate(lines)]
        answers: Answers = [written(answer) for answer, _ in found], all(good for _, good in found)
        pickle.dump(answers, sink)
        sink.flush()
