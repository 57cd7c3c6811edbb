"""The next elementary step of one line: an equation, an inequality, an expression."""

from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Bare, Chain, Expr, Statement
from tutor.line.walk import names_in
from tutor.marking.steps.arithmetic import told, work_out
from tutor.marking.steps.balance import balance
from tutor.marking.steps.brackets import (
    combine,
    common_bottom,
    expand,
    multiplied,
    told_alike,
    told_bracket,
)
from tutor.marking.steps.forms import Style, tidy
from tutor.marking.steps.model import Move


def next_move(statement: Statement, style: Style) -> Move | None:
    """Return the next elementary step from a line alone, None where there is none or it is beyond."""
    try:
        neat = tidy(statement, style)
        if isinstance(neat, Bare):
            return _expression(neat, style)
        if isinstance(neat, Chain) and len(neat.sides) == 2:
            return _equation(neat, style)
    except (NotExact, DividedByZero):
        return None
    return None


def _expression(bare: Bare, style: Style) -> Move | None:
    made = _sides_changed((bare.expr,), style)
    return None if made is None else Move(Bare(made.sides[0]), made.what, made.where, made.focus)


def _equation(chain: Chain, style: Style) -> Move | None:
    names = names_in(*chain.sides)
    if len(names) > 1:
        return None
    unknown = next(iter(names), "")
    made = _worked(chain.sides, style) or _cleared(chain, style) or _sides_opened(chain.sides, style)
    if made is not None:
        return Move(Chain(made.sides, chain.rels), made.what, made.where, made.focus)
    return balance(chain, unknown, style)


class _Changed:
    """Sides after a step that keeps the value of each, or does the same to both."""

    __slots__ = ("focus", "sides", "what", "where")

    def __init__(self, sides: tuple[Expr, ...], told_: tuple[str, str], focus: Expr | None) -> None:
        self.sides = sides
        self.what, self.where = told_
        self.focus = focus


def _sides_changed(sides: tuple[Expr, ...], style: Style) -> _Changed | None:
    return _worked(sides, style) or _sides_opened(sides, style)


def _worked(sides: tuple[Expr, ...], style: Style) -> _Changed | None:
    found = [work_out(side, style) for side in sides]
    done = tuple(part for one in found if one is not None for part in one.done)
    if not done:
        return None
    made = tuple(side if one is None else one.side for side, one in zip(sides, found, strict=True))
    return _Changed(made, told(done), done[0])


def _cleared(chain: Chain, style: Style) -> _Changed | None:
    left, right = chain.sides
    size = common_bottom(left, right, style)
    if size is None:
        return None
    made = tuple(multiplied(side, size, style) for side in chain.sides)
    return _Changed(made, (f"Multiply both sides by {size}.", "Look at the fractions."), None)


def _sides_opened(sides: tuple[Expr, ...], style: Style) -> _Changed | None:
    opened = [expand(side, style) for side in sides]
    first = next((one for one in opened if one is not None), None)
    if first is not None:
        made = tuple(side if one is None else one[0] for side, one in zip(sides, opened, strict=True))
        return _Changed(made, told_bracket(first[1]), first[1])
    joined = [combine(side, style) for side in sides]
    alike = next((one for one in joined if one is not None), None)
    if alike is None:
        return None
    made = tuple(side if one is None else one[0] for side, one in zip(sides, joined, strict=True))
    return _Changed(made, told_alike(alike[1]), alike[1][-1])
