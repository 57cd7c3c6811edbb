"""A reason with its sentences: what each way to explain a broken line returns."""

from collections.abc import Callable
from dataclasses import dataclass

from tutor.line.tree import Span
from tutor.marking.verdict import Reason


@dataclass(frozen=True, slots=True)
class Why:
    """A reason with its sentences and the part of the line it speaks of.

    ``account`` is ready, or made when it is first read. ``ties``: the names of slips that explain
    the line with as few assumptions as ``slip``.
    """

    reason: Reason
    message: str
    span: Span
    account: str | Callable[[], str] = ""
    slip: str | None = None
    ties: tuple[str, ...] = ()


def capital(text: str) -> str:
    """Return a sentence with a capital letter in front."""
    return text[:1].upper() + text[1:]
