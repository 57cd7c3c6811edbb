"""What a wrong formula makes of a right one."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from tutor.line.tree import Expr


@dataclass(frozen=True, slots=True)
class Wrong:
    """A wrong move at one expression: ``tree`` stands in its place then.

    ``says`` and ``there`` are sentences for the student; ``{0}``, ``{1}`` … stand for the values
    of ``about``. ``there`` tells what the line was that the wrong number comes from ("there 10 is
    the diameter"). ``shown``: the expression whose value gives the slip away in the typed line.
    """

    name: str
    tree: Expr
    says: str
    about: tuple[Expr, ...] = ()
    cost: int = 1
    there: str = ""
    shown: Expr | None = None


@dataclass(frozen=True, slots=True)
class WrongEquation:
    """A wrong move at a whole equation: these two sides stand then. Otherwise as ``Wrong``.

    ``known``: what is not asked for where this can have been done.
    """

    name: str
    left: Expr
    right: Expr
    says: str
    about: tuple[Expr, ...] = ()
    cost: int = 1
    there: str = ""
    shown: Expr | None = None
    known: Expr | None = None


# ``formula``: the expression is a side of a formula, so its letters are sizes.
Recogniser = Callable[[Expr, bool], Iterator[Wrong]]
