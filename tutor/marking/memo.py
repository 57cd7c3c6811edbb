"""Remembering what was worked out about a line, by the line's identity.

Trees are never changed once they are made, and comparing two of them costs as much as much
of the work that is saved; so a memo asks whether it is the very same object.
"""

from collections.abc import Callable, Hashable
from typing import Generic, TypeVar

T = TypeVar("T")
U = TypeVar("U")

KEPT = 1024


class Memo(Generic[T]):
    """What was found for a thing and a key, up to ``KEPT`` of them."""

    def __init__(self) -> None:
        self._found: dict[tuple[int, Hashable], tuple[object, T]] = {}

    def get(self, thing: U, key: Hashable, make: Callable[[U], T]) -> T:
        """Return what ``make`` gives of a thing, asked once; what it raises is not remembered."""
        place = (id(thing), key)
        known = self._found.get(place)
        if known is not None and known[0] is thing:
            return known[1]
        made = make(thing)
        if len(self._found) >= KEPT:
            self._found.clear()
        self._found[place] = (thing, made)
        return made
