"""The child process that holds sympy, and the questions put to it."""

import atexit
import pickle
import queue
import subprocess
import sys
import threading
from dataclasses import dataclass
from pathlib import Path
from typing import IO, TypeAlias

from tutor.line.tree import Expr
from tutor.marking.deciding.compare import Overlap

# Both sides; a single side is an expression.
Equation: TypeAlias = tuple[Expr, ...]

SECONDS = 20.0  # a backstop that ends a runaway, not the bound that decides
START_SECONDS = 60.0

_PACKAGE_PARENT = str(Path(__file__).resolve().parents[3])
_CODE = (
    "import sys; sys.path.insert(0, sys.argv[1]); "
    "from tutor.marking.deciding.sympy_side import serve; serve()"
)


@dataclass(frozen=True, slots=True)
class Question:
    """Two lines to compare: equations joined by "or"; or one expression each."""

    old: tuple[Equation, ...]
    new: tuple[Equation, ...]
    positive: bool


class _Child:
    """One child process, started on the first question and again after one was ended."""

    def __init__(self) -> None:
        self._process: subprocess.Popen[bytes] | None = None
        self._replies: queue.Queue[object] = queue.Queue()
        self._answers: dict[Question, Overlap | None] = {}
        self._lock = threading.Lock()

    def ask(self, question: Question) -> Overlap | None:
        """Return the answer, None where there is none in time."""
        with self._lock:
            if question not in self._answers:
                self._answers[question] = self._asked(question)
            return self._answers[question]

    def _asked(self, question: Question) -> Overlap | None:
        process = self._started()
        if process is None or process.stdin is None:
            return None
        try:
            pickle.dump(question, process.stdin)
            process.stdin.flush()
            reply = self._replies.get(timeout=SECONDS)
        except (OSError, queue.Empty):
            self.end()
            return None
        if reply is _GONE:
            self.end()
        return reply if isinstance(reply, Overlap) else None

    def _started(self) -> subprocess.Popen[bytes] | None:
        if self._process is not None and self._process.poll() is None:
            return self._process
        try:
            self._process = subprocess.Popen(
                [sys.executable, "-c", _CODE, _PACKAGE_PARENT],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
            )
        except OSError:
            return None
        self._replies = queue.Queue()
        reader = threading.Thread(target=_read, args=(self._process.stdout, self._replies), daemon=True)
        reader.start()
        try:
            ready = self._replies.get(timeout=START_SECONDS)
        except queue.Empty:
            ready = _GONE
        if ready is _GONE:
            self.end()
            return None
        return self._process

    def end(self) -> None:
        """Stop the child, whatever it is doing."""
        if self._process is not None:
            self._process.kill()
            self._process.wait()
            for pipe in (self._process.stdin, self._process.stdout):
                if pipe is not None:
                    pipe.close()
        self._process = None


_GONE = "gone"


def _read(source: IO[bytes], replies: "queue.Queue[object]") -> None:
    """Pass replies on until the child hangs up (a thread, since a pipe cannot be read with a clock)."""
    try:
        while True:
            replies.put(pickle.load(source))
    except (EOFError, OSError, ValueError, pickle.UnpicklingError):
        replies.put(_GONE)


_CHILD = _Child()
atexit.register(_CHILD.end)


def ask(question: Question) -> Overlap | None:
    """Put a question to sympy; None where it is undecided."""
    return _CHILD.ask(question)
