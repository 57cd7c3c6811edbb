"""Remembering with a line what was worked out about it."""

from collections.abc import Callable, Hashable
from typing import Generic, TypeVar, cast

from tutor.line.tree import Statement

T = TypeVar("T")
S = TypeVar("S", bound=Statement)


class Memo(Generic[T]):
    """One kind of thing that is worked out about lines."""

    def get(self, statement: S, key: Hashable, make: Callable[[S], T]) -> T:
        """Return what ``make`` gives of a line, asked once; what it raises is not remembered."""
        place = (self, key)
        known = statement.memo.get(place)
        if known is None:
            known = statement.memo[place] = make(statement)
        return cast(T, known)
