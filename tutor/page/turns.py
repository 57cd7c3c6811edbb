"""What the student wished, done in the order of the keys: fast hands and slow ones get the same page."""

from collections import deque
from collections.abc import Awaitable, Callable, Coroutine
from dataclasses import dataclass
from typing import Any

Wish = Callable[[], Awaitable[None]]


@dataclass(frozen=True, slots=True)
class _Waiting:
    wish: Wish
    text: str


class Turns:
    """Wishes wait while one is being done.

    ``begin`` starts a coroutine beside the event loop's work; ``idle`` is called when all are done.
    """

    def __init__(
        self, begin: Callable[[Coroutine[Any, Any, None]], object], idle: Callable[[], object]
    ) -> None:
        self._begin = begin
        self._idle = idle
        self._waiting: deque[_Waiting] = deque()
        self._busy = False

    @property
    def busy(self) -> bool:
        """Tell whether a wish is being done, so that the state on the screen is not the newest."""
        return self._busy

    @property
    def texts(self) -> tuple[str, ...]:
        """Return the lines that wait to be handed in, the next one first."""
        return tuple(one.text for one in self._waiting if one.text.strip())

    def add(self, wish: Wish, text: str = "") -> None:
        """Do ``wish`` after all that was wished before; ``text`` is the line it hands in."""
        self._waiting.append(_Waiting(wish, text))
        if not self._busy:
            self._busy = True
            self._begin(self._work())

    def give_up(self) -> tuple[str, ...]:
        """Drop all that waits and return its lines: they were meant for another page than this."""
        texts = self.texts
        self._waiting.clear()
        return texts

    async def _work(self) -> None:
        try:
            while self._waiting:
                await self._waiting.popleft().wish()
        finally:
            self._busy = False
            self._idle()
