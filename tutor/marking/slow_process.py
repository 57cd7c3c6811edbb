"""The child process that holds sympy, and the questions put to it."""

import atexit
import multiprocessing
from dataclasses import dataclass
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from typing import TypeAlias

from tutor.line.tree import Expr
from tutor.marking.compare import Overlap

# Both sides; a single side is an expression.
Equation: TypeAlias = tuple[Expr, ...]

SECONDS = 20.0  # a backstop that ends a runaway, not the bound that decides
START_SECONDS = 60.0


@dataclass(frozen=True, slots=True)
class Question:
    """Two lines to compare: equations joined by "or"; or one expression each."""

    old: tuple[Equation, ...]
    new: tuple[Equation, ...]
    positive: bool


class _Child:
    """One child process, started on the first question and again after one was ended."""

    def __init__(self) -> None:
        self._process: BaseProcess | None = None
        self._pipe: Connection | None = None
        self._answers: dict[Question, Overlap | None] = {}

    def ask(self, question: Question) -> Overlap | None:
        """Return the answer, None where there is none in time."""
        if question in self._answers:
            return self._answers[question]
        answer = self._asked(question)
        self._answers[question] = answer
        return answer

    def _asked(self, question: Question) -> Overlap | None:
        pipe = self._started()
        if pipe is None:
            return None
        try:
            pipe.send(question)
            if pipe.poll(SECONDS):
                found = pipe.recv()
                return found if isinstance(found, Overlap) else None
        except (OSError, EOFError):
            pass
        self.end()
        return None

    def _started(self) -> Connection | None:
        if self._process is not None and self._process.is_alive() and self._pipe is not None:
            return self._pipe
        from tutor.marking.sympy_side import serve

        spawn = multiprocessing.get_context("spawn")
        ours, theirs = spawn.Pipe()
        process = spawn.Process(target=serve, args=(theirs,), daemon=True)
        try:
            process.start()
        except (OSError, RuntimeError):
            return None
        theirs.close()
        self._process, self._pipe = process, ours
        if not ours.poll(START_SECONDS):
            self.end()
            return None
        ours.recv()
        return ours

    def end(self) -> None:
        """Stop the child, whatever it is doing."""
        if self._process is not None:
            self._process.kill()
            self._process.join(1)
        if self._pipe is not None:
            self._pipe.close()
        self._process, self._pipe = None, None


_CHILD = _Child()
atexit.register(_CHILD.end)


def ask(question: Question) -> Overlap | None:
    """Put a question to sympy; None where it is undecided."""
    return _CHILD.ask(question)
