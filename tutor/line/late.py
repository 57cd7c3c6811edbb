"""Patterns that are compiled when they are first used: most lines need few of those for words."""

import re
from collections.abc import Callable, Iterator
from functools import cached_property
from typing import Any, TypeAlias

Found: TypeAlias = re.Match[str] | None


class Late:
    """A pattern. Its methods are those of ``re.Pattern``."""

    def __init__(self, pattern: str, flags: int = 0) -> None:
        self.pattern = pattern
        self._flags = flags

    @cached_property
    def _compiled(self) -> re.Pattern[str]:
        return re.compile(self.pattern, self._flags)

    @cached_property
    def match(self) -> Callable[..., Found]:
        """Return what looks at the beginning of a text."""
        return self._compiled.match

    @cached_property
    def search(self) -> Callable[..., Found]:
        """Return what looks anywhere in a text."""
        return self._compiled.search

    @cached_property
    def fullmatch(self) -> Callable[..., Found]:
        """Return what looks at all of a text."""
        return self._compiled.fullmatch

    @cached_property
    def finditer(self) -> Callable[..., Iterator[re.Match[str]]]:
        """Return what finds all places, one after the other."""
        return self._compiled.finditer

    @cached_property
    def findall(self) -> Callable[..., list[Any]]:
        """Return what finds all texts."""
        return self._compiled.findall

    @cached_property
    def sub(self) -> Callable[..., str]:
        """Return what puts something else in the place of what is found."""
        return self._compiled.sub

    @cached_property
    def split(self) -> Callable[..., list[Any]]:
        """Return what takes a text apart."""
        return self._compiled.split
