"""The closed vocabulary of marks: verdicts, reasons, steps, and the Mark itself."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum
from typing import overload


class Verdict(Enum):
    """What the marker says of one line."""

    FOLLOWS = "follows"
    ROUNDS = "rounds"
    RESTATES = "restates"
    LEAPS = "leaps"
    BREAKS = "breaks"
    CARRIES = "carries"
    UNDECIDED = "undecided"
    UNREAD = "unread"
    NOTE = "note"

    @property
    def stands(self) -> bool:
        """Tell whether later lines may build on a line with this verdict."""
        return self in _STANDING


_STANDING = frozenset({Verdict.FOLLOWS, Verdict.ROUNDS, Verdict.RESTATES, Verdict.LEAPS})


class Reason(Enum):
    """Why a line breaks or is unread: the best the engine can prove."""

    SLIP = "slip"
    BOTH_SIDES = "both_sides"
    WITNESS = "witness"
    VALUE_CHANGED = "value_changed"
    NOT_TRUE = "not_true"
    LOST = "lost"
    GAINED = "gained"
    SIGN_NOT_TURNED = "sign_not_turned"
    RUN_ON = "run_on"
    UNIT = "unit"
    TOO_LONG = "too_long"
    SYNTAX = "syntax"


class UnitsState(Enum):
    """How the answer's unit stands against the unit that was asked for."""

    RIGHT = "right"
    MISSING = "missing"
    WRONG_DIMENSION = "wrong_dimension"
    EQUIVALENT = "equivalent"
    WRONG = "wrong"


class Step(Enum):
    """The four steps of a measured problem."""

    FORMULA = "formula"
    LABEL = "label"
    SUBSTITUTE = "substitute"
    UNITS = "units"


class Told:
    """A text of a mark that is made when it is first read, or given ready.

    Most marks are read for their verdict alone, and the texts take longer than the verdict.
    """

    def __set_name__(self, owner: type, name: str) -> None:
        self._slot = "_" + name

    @overload
    def __get__(self, mark: None, owner: type) -> str: ...
    @overload
    def __get__(self, mark: object, owner: type) -> str: ...
    def __get__(self, mark: object | None, owner: type) -> str:
        if mark is None:
            return ""  # the default of the field
        text = mark.__dict__[self._slot]
        if not isinstance(text, str):
            text = mark.__dict__[self._slot] = text()
        return str(text)

    def __set__(self, mark: object, text: str | Callable[[], str]) -> None:
        mark.__dict__[self._slot] = text


@dataclass(frozen=True, init=False)
class Mark:
    """What is said of one typed line. All text is plain: no markup, no terminal codes.

    ``span`` is [start, end) in code points of the line as typed. ``account`` is the
    both-sides account where both lines are equations. ``read_as`` is the line as it
    was understood, written on one row. ``note`` is a friendly remark on a line that
    stands (a unit still missing, an answer to be checked). ``ties``: slips that explain as much
    as ``slip``.
    """

    verdict: Verdict
    reason: Reason | None = None
    slip: str | None = None
    message: str = ""
    span: tuple[int, int] | None = None
    account: Told = Told()
    read_as: Told = Told()
    note: str = ""
    ties: tuple[str, ...] = ()

    def __init__(
        self,
        verdict: Verdict,
        reason: Reason | None = None,
        slip: str | None = None,
        message: str = "",
        span: tuple[int, int] | None = None,
        account: str | Callable[[], str] = "",
        read_as: str | Callable[[], str] = "",
        note: str = "",
        ties: tuple[str, ...] = (),
    ) -> None:
        # As dataclass makes it, but for one thing: a frozen one sets field after field through
        # a call each, and a mark is made for every line.
        self.__dict__.update(
            verdict=verdict,
            reason=reason,
            slip=slip,
            message=message,
            span=span,
            _account=account,
            _read_as=read_as,
            note=note,
            ties=ties,
        )
