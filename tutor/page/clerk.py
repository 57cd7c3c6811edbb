"""The clerk: runs slow work one piece after another in a thread of its own.

The desk may be asked by one thread at a time, and a decision cannot be interrupted. So
every call goes through this one thread, in order; the page only ever awaits the answer
and goes on answering keys. The thread is a daemon: a decision that will not end never
keeps the program from ending.
"""

import asyncio
import contextlib
import threading
from collections.abc import Callable
from queue import SimpleQueue
from typing import TypeVar

_T = TypeVar("_T")


class Clerk:
    """One worker thread with a queue; ``ask`` is awaited on the event loop."""

    def __init__(self) -> None:
        self._queue: SimpleQueue[Callable[[], None] | None] = SimpleQueue()
        self._thread: threading.Thread | None = None

    async def ask(self, work: Callable[[], _T]) -> _T:
        """Run ``work`` in the clerk's thread after all that was asked before.

        Returns what it returns and raises what it raises (a bug, never bad input).
        """
        loop = asyncio.get_running_loop()
        answer: asyncio.Future[_T] = loop.create_future()

        def hand_back(set_it: Callable[[], None]) -> None:
            def unless_dropped() -> None:
                if not answer.done():
                    set_it()

            # The loop is closed when the program has ended meanwhile: nobody waits then.
            with contextlib.suppress(RuntimeError):
                loop.call_soon_threadsafe(unless_dropped)

        def job() -> None:
            try:
                result = work()
            except Exception as error:
                failure = error  # the name ``error`` ends with this block, the callback runs later
                hand_back(lambda: answer.set_exception(failure))
            else:
                hand_back(lambda: answer.set_result(result))

        self._put(job)
        return await answer

    def tell(self, work: Callable[[], object]) -> None:
        """Have ``work`` done after all that was asked before, without waiting for it."""

        def job() -> None:
            # Nobody waits for the answer, and a bug here must not end the thread for the rest.
            with contextlib.suppress(Exception):
                work()

        self._put(job)

    def dismiss(self, seconds: float) -> bool:
        """Let the thread end once it has done all it was asked; wait at most ``seconds``.

        Returns whether it has ended. A thread that has not is left behind as a daemon.
        """
        if self._thread is None:
            return True
        self._queue.put(None)
        self._thread.join(seconds)
        return not self._thread.is_alive()

    def _put(self, job: Callable[[], None]) -> None:
        self._queue.put(job)
        if self._thread is None:
            self._thread = threading.Thread(target=self._work, name="clerk", daemon=True)
            self._thread.start()

    def _work(self) -> None:
        while (job := self._queue.get()) is not None:
            job()
