"""A stream of JSON Lines, answered in order; a long one by two processes at once.

What waits to be answered is shared out between this process and a second one.
A program that sends one line and waits for its answer never meets the second process.
"""

from __future__ import annotations

import gc
import pickle
import queue
import subprocess
import sys
import threading
from collections import deque
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import IO, TypeAlias

# The marker itself is loaded while the first lines come in, and not before.

# Lines that are handed over together, where so many wait.
SHARED = 16
# A stream that is shorter than this is done before a second process has started.
LONG = 300
# Lines that were read and not answered yet.
_WAITING = 1024
# Groups of lines whose answers wait for those of the group before, and those handed over at once.
_IN_TURN, _HANDED_OVER = 8, 2

Answers: TypeAlias = tuple[list[bytes], bool]

_PACKAGE_PARENT = str(Path(__file__).resolve().parents[2])
_CODE = "import sys; sys.path.insert(0, sys.argv[1]); from tutor.teacher.stream import work; work()"


def serve(source: IO[bytes], sink: IO[bytes]) -> int:
    """Answer every line of ``source`` in order; returns 0, or 2 where any line was bad."""
    stream = _Stream(source, sink)
    try:
        _load()
        while stream.go_on():
            pass
    finally:
        stream.end()
    return stream.code


@dataclass(frozen=True, slots=True)
class _Group:
    """Lines of the stream, of which the first is line ``number``."""

    number: int
    lines: Sequence[bytes]


class _Stream:
    """Groups of lines in turn: each is answered here, or by the second process meanwhile."""

    def __init__(self, source: IO[bytes], sink: IO[bytes]) -> None:
        self.code = 0
        self._sink = sink
        self._second: _Second | None = None
        self._number = 1
        self._turns: deque[_Group | Answers] = deque()  # a group is still with the second process
        self._backlog = _Backlog(source, self._share)

    def go_on(self) -> bool:
        """Take the lines that wait, and write what can be written; False where there is nothing left."""
        lines = self._backlog.take(SHARED, wait=not self._turns)
        if lines:
            self._take(_Group(self._number, lines))
            self._number += len(lines)
        self._write(all_of_it=not lines)
        return bool(self._turns) or not self._backlog.ended

    def end(self) -> None:
        """Stop the second process, where there is one."""
        if self._second is not None:
            self._second.end()

    def _share(self) -> None:
        self._second = _Second()

    def _take(self, group: _Group) -> None:
        if self._second is not None and len(group.lines) == SHARED and self._second.is_free:
            self._second.ask(group)
            self._turns.append(group)
        elif self._turns:
            self._turns.append(_answers(group))
        else:
            for at, raw in enumerate(group.lines):  # each goes out as soon as it is there
                self._put(_answers(_Group(group.number + at, (raw,))))

    def _write(self, *, all_of_it: bool) -> None:
        while self._turns:
            first = self._turns[0]
            if isinstance(first, _Group):
                assert self._second is not None
                wait = all_of_it or len(self._turns) > _IN_TURN
                found = self._second.answers(wait=wait)
                if found is _NOT_YET:
                    return
                first = found if isinstance(found, tuple) else _answers(first)
            self._turns.popleft()
            self._put(first)

    def _put(self, answers: Answers) -> None:
        lines, good = answers
        self._sink.write(b"".join(lines))
        self._sink.flush()
        if not good:
            self.code = 2


def _load() -> None:
    """Load the marker, so that the first line does not wait longer than it must.

    What is loaded stays to the end, and an answer leaves next to no circles behind: without
    this a stream spends a fifth of its time on looking through memory.
    """
    gc.disable()
    import tutor.teacher.jsonl  # noqa: F401

    gc.freeze()
    gc.set_threshold(50_000, 20, 50)
    gc.enable()


def _answers(group: _Group) -> Answers:
    from tutor.teacher.jsonl import answer_line, written

    found = [answer_line(raw, group.number + at) for at, raw in enumerate(group.lines)]
    return [written(answer) for answer, _ in found], all(good for _, good in found)


_GOES_ON = "goes on"


class _Backlog:
    """The lines of a source that wait: read by a thread, so that it can be seen how many there are.

    ``when_long`` is called once, by that thread, where more wait than one process answers soon.
    """

    def __init__(self, source: IO[bytes], when_long: Callable[[], None]) -> None:
        self._lines: queue.Queue[bytes | Exception | None] = queue.Queue(_WAITING)
        self._source = source
        self._when_long = when_long
        self._end: Exception | str | None = _GOES_ON  # then None, or the fault that ended it
        threading.Thread(target=self._read, daemon=True).start()

    def _read(self) -> None:
        try:
            short = True
            for raw in self._source:
                self._lines.put(raw)
                if short and self._lines.qsize() > LONG:
                    short = False
                    self._when_long()
            self._lines.put(None)
        except Exception as fault:  # it is raised where the lines are taken
            self._lines.put(fault)

    @property
    def ended(self) -> bool:
        """Tell whether every line was taken."""
        return self._end is None

    def take(self, most: int, *, wait: bool) -> list[bytes]:
        """Return the lines that are there; [] at the end, and where none is there and ``wait`` is False."""
        taken: list[bytes] = []
        while self._end is _GOES_ON and len(taken) < most:
            try:
                line = self._lines.get(block=wait and not taken)
            except queue.Empty:
                break
            if isinstance(line, bytes):
                taken.append(line)
            else:
                self._end = line
        if isinstance(self._end, Exception) and not taken:
            raise self._end
        return taken


_NOT_YET = "not yet"
_GONE = "gone"


class _Second:
    """The second process. Where it cannot be started, or goes, nothing is lost but time."""

    def __init__(self) -> None:
        self._replies: queue.Queue[Answers | str] = queue.Queue()
        self._process: subprocess.Popen[bytes] | None = None
        self._with_it = 0  # groups that were handed over and not answered yet
        self.ready = False
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
            self.ready = True
            while True:
                self._replies.put(pickle.load(replies))
        except (EOFError, OSError, ValueError, pickle.UnpicklingError):
            self.ready = False
            self._replies.put(_GONE)

    @property
    def is_free(self) -> bool:
        """Tell whether it can be asked now."""
        return self.ready and self._with_it < _HANDED_OVER

    def ask(self, group: _Group) -> None:
        """Hand lines over."""
        assert self._process is not None
        assert self._process.stdin is not None
        self._with_it += 1
        try:
            pickle.dump((group.number, list(group.lines)), self._process.stdin)
            self._process.stdin.flush()
        except (OSError, ValueError):  # ValueError: it was ended, and its pipe is closed
            self._replies.put(_GONE)

    def answers(self, *, wait: bool) -> Answers | str:
        """Return the answers to the oldest group that was handed over, or that they are not there."""
        try:
            found = self._replies.get(block=wait)
        except queue.Empty:
            return _NOT_YET
        self._with_it -= 1
        if isinstance(found, str):
            self.ready = False
            self._replies.put(_GONE)  # so it is for all the others
        return found

    def end(self) -> None:
        """Stop the process."""
        if self._process is None:
            return
        self._process.kill()
        self._process.wait()
        for pipe in (self._process.stdin, self._process.stdout):
            if pipe is not None:
                with suppress(OSError):  # what still waits to be sent has nobody to go to
                    pipe.close()


def work() -> None:
    """Answer lines from standard input until it ends: what the second process does."""
    source, sink = sys.stdin.buffer, sys.stdout.buffer
    _load()
    _answers(_Group(1, (b'{"lines": ["2x + 1 = 5", "2x = 4"]}',)))  # the grammars are made by it
    pickle.dump("ready", sink)
    sink.flush()
    while True:
        try:
            number, lines = pickle.load(source)
        except EOFError:
            return
        pickle.dump(_answers(_Group(number, lines)), sink)
        sink.flush()
