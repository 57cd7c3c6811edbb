"""The next elementary step of one line: an equation, an inequality, an expression."""

from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Bare, Chain, Div, Expr, Joined, Statement
from tutor.line.walk import names_in
from tutor.marking.steps.arithmetic import told, work_out
from tutor.marking.steps.atoms import around, atom_of, both_roots
from tutor.marking.steps.balance import balance
from tutor.marking.steps.brackets import (
    combine,
    common_bottom,
    expand,
    multiplied,
    told_alike,
    told_brackets,
)
from tutor.marking.steps.cases import between, joined_move, plus_minus, zero_product
from tutor.marking.steps.forms import Style, terms_of, tidy
from tutor.marking.steps.model import Move
from tutor.marking.steps.quadratic import quadratic
from tutor.marking.steps.quotients import no_bottoms


def next_move(statement: Statement, style: Style) -> Move | None:
    """Return the next elementary step from a line alone, None where there is none or it is beyond."""
    try:
        neat = tidy(statement, style)
        if isinstance(neat, Bare):
            return _expression(neat, style)
        if isinstance(neat, Joined):
            return joined_move(neat, style, next_move)
        if isinstance(neat, Chain) and len(neat.sides) == 2:
            return _equation(neat, style)
        if isinstance(neat, Chain):
            return _range(neat, style)
    except (NotExact, DividedByZero):
        return None
    return None


def _expression(bare: Bare, style: Style) -> Move | None:
    made = _sides_changed((bare.expr,), style)
    if made is None:
        return None
    return Move(Bare(made.sides[0]), made.what, made.where, made.focus, arithmetic=made.arithmetic)


def _range(chain: Chain, style: Style) -> Move | None:
    made = _sides_changed(chain.sides, style)
    if made is not None:
        return Move(Chain(made.sides, chain.rels), made.what, made.where, made.focus)
    return between(chain, style)


def _equation(chain: Chain, style: Style) -> Move | None:
    names = names_in(*chain.sides)
    if len(names) > 1:
        return None
    unknown = next(iter(names), "")
    made = _worked(chain.sides, style)
    if made is not None:
        return Move(Chain(made.sides, chain.rels), made.what, made.where, made.focus, arithmetic=True)
    special = _special(chain, unknown, style) if unknown else None
    return special or _plain(chain, unknown, style)


def _special(chain: Chain, unknown: str, style: Style) -> Move | None:
    """Return a step that sees the form of the whole line: a product, a root, a quotient."""
    move = zero_product(chain, unknown) or both_roots(chain) or no_bottoms(chain, style)
    if move is not None:
        return move
    atom = atom_of(chain)
    if atom is not None:
        return around(chain, atom, style, _equation)
    return plus_minus(chain, style)


def _plain(chain: Chain, unknown: str, style: Style) -> Move | None:
    made = _cleared(chain, style) or _sides_opened(chain.sides, style)
    if made is not None:
        return Move(Chain(made.sides, chain.rels), made.what, made.where, made.focus)
    return balance(chain, unknown, style) or quadratic(chain, unknown, style)


class _Changed:
    """Sides after a step that keeps the value of each, or does the same to both."""

    __slots__ = ("arithmetic", "focus", "sides", "what", "where")

    def __init__(
        self, sides: tuple[Expr, ...], told_: tuple[str, str], focus: Expr | None, *, arithmetic: bool = False
    ) -> None:
        self.sides = sides
        self.what, self.where = told_
        self.focus = focus
        self.arithmetic = arithmetic


def _sides_changed(sides: tuple[Expr, ...], style: Style) -> _Changed | None:
    return _worked(sides, style) or _sides_opened(sides, style)


def _worked(sides: tuple[Expr, ...], style: Style) -> _Changed | None:
    found = [work_out(side, style) for side in sides]
    done = tuple(part for one in found if one is not None for part in one.done)
    if not done:
        return None
    made = tuple(side if one is None else one.side for side, one in zip(sides, found, strict=True))
    return _Changed(made, told(done), done[0], arithmetic=True)


def _cleared(chain: Chain, style: Style) -> _Changed | None:
    left, right = chain.sides
    size = common_bottom(left, right, style)
    if size is None:
        return None
    made = (multiplied(left, size, style), multiplied(right, size, style))
    left_over = common_bottom(*made, style)
    if left_over is not None and left_over >= size:
        return None  # the fraction is not gone: the line would only grow
    over = [one for side in chain.sides for one in terms_of(side) if isinstance(one, Div)]
    where = "Look at the bar: what stands below it?" if len(over) == 1 else "Look at the fractions."
    return _Changed(made, (f"Multiply both sides by {size}.", where), over[0] if len(over) == 1 else None)


def _sides_opened(sides: tuple[Expr, ...], style: Style) -> _Changed | None:
    opened = [expand(side, style) for side in sides]
    products = [product for one in opened if one is not None for product in one[1]]
    if products:
        made = tuple(side if one is None else one[0] for side, one in zip(sides, opened, strict=True))
        return _Changed(made, told_brackets(products), products[0])
    joined = [combine(side, style) for side in sides]
    groups = [group for one in joined if one is not None for group in one[1]]
    if not groups:
        return None
    made = tuple(side if one is None else one[0] for side, one in zip(sides, joined, strict=True))
    return _Changed(made, told_alike(groups), groups[0][-1])
