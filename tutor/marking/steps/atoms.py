"""Equations whose unknown stands in one power, root or pair of bars: ``5m^2 = 80``, ``|2x − 3| = 5``."""

from collections.abc import Callable
from dataclasses import replace

from tutor.line.meaning import value_of
from tutor.line.poly import NoRealRoot, NotExact
from tutor.line.real import sign
from tutor.line.tree import (
    Abs,
    Add,
    Chain,
    Expr,
    Joined,
    Joiner,
    Name,
    Neg,
    Phrase,
    PlusMinus,
    Pow,
    Rel,
    Root,
    Said,
)
from tutor.line.walk import changed, every, names_in, parts, rebuilt
from tutor.marking.steps.forms import ZERO, Style, literal, number
from tutor.marking.steps.model import Move
from tutor.marking.steps.writing import written

# Stands for the power, root or bars while the rest is worked on; no student can type it.
_MARK = "\ue000"


def atom_of(chain: Chain) -> Expr | None:
    """Return the one part in which every name of a line stands, None where there is no such part."""
    found: list[Expr] = []
    for side in chain.sides:
        if not _gathered(side, found):
            return None
    first = found[0] if found else None
    return first if first is not None and all(one == first for one in found) else None


def _gathered(expr: Expr, found: list[Expr]) -> bool:
    """Gather the outermost parts that hold names; False where a name stands outside of such a part."""
    if isinstance(expr, Name):
        return False
    if isinstance(expr, Abs | Root) and names_in(expr):
        found.append(expr)
        return True
    if isinstance(expr, Pow) and names_in(expr.base) and (literal(expr.exponent) or 0) > 1:
        found.append(expr)
        return True
    return all(_gathered(part, found) for part in parts(expr))


def around(
    chain: Chain, atom: Expr, style: Style, step: Callable[[Chain, Style], Move | None]
) -> Move | None:
    """Work on what stands around the part, as if it were a letter; then take the part itself apart."""
    inside = changed(chain, lambda node: Name(_MARK, node.span) if node == atom else node)
    assert isinstance(inside, Chain)
    left, right = inside.sides
    for alone, value, rel in ((left, right, chain.rels[0]), (right, left, chain.rels[0].turned)):
        if alone == Name(_MARK) and not names_in(value):
            opened = _opened(atom, rel, value, style)
            return None if opened is None else replace(opened, focus=replace(atom, span=alone.span))
    move = step(inside, replace(style, positive=style.positive | {_MARK}))
    if move is None:
        return None
    text = written(atom)

    def back(node: Expr) -> Expr:
        return replace(atom, span=node.span) if isinstance(node, Name) and node.name == _MARK else node

    focus = None if move.focus is None else rebuilt(move.focus, back)
    what, where = move.what.replace(_MARK, text), move.where.replace(_MARK, text)
    return Move(changed(move.statement, back), what, where, focus)


def _opened(atom: Expr, rel: Rel, value: Expr, style: Style) -> Move | None:
    """Take the part apart that stands alone on one side."""
    try:
        size = value_of(value, style.setting).constant()
    except NotExact:
        return None
    if size is None:
        return None
    match atom:
        case Pow(base, exponent) if rel.equates:
            return _root_taken(base, int(literal(exponent) or 0), rel, value, sign(size), style)
        case Abs(inner):
            return _bars_off(inner, rel, value, sign(size))
        case Root(index, inner) if rel.equates:
            return _powered(index, inner, rel, value, sign(size), style)
        case _:
            return None


def _no_solution(what: str, where: str) -> Move:
    return Move(Said(Phrase.NO_SOLUTION), f"{what} Write: no solution.", where)


def _root_taken(base: Expr, power: int, rel: Rel, value: Expr, sign_: int, style: Style) -> Move | None:
    shown = written(Pow(base, number(power, style)))
    where = f"Look at {shown}: it stands alone. What undoes the power?"
    if sign_ == 0:
        return Move(Chain((base, ZERO), (rel,)), "A power is 0 only where what is raised is 0.", where)
    root: Expr = Root(power, value)
    kind = {2: "square root", 3: "cube root"}.get(power, f"{power}th root")
    if power % 2:
        made = Neg(Root(power, value.inner)) if sign_ < 0 and isinstance(value, Neg) else root
        return Move(Chain((base, made), (rel,)), f"Take the {kind} of both sides.", where)
    if sign_ < 0:
        return _no_solution("A square is never below 0.", where)
    if names_in(base) <= style.positive and not any(isinstance(node, Add | Neg) for node in every(base)):
        what = f"Take the {kind} of both sides. A size is not below 0, so only the positive root counts."
        return Move(Chain((base, root), (rel,)), what, where)
    what = f"Take the {kind} of both sides. There are two: one above and one below 0."
    return Move(Chain((base, PlusMinus(None, root)), (rel,)), what, where)


def _bars_off(inner: Expr, rel: Rel, value: Expr, sign_: int) -> Move | None:
    where = f"Look at the bars round {written(inner)}: which values lie so far from 0?"
    below = value.inner if isinstance(value, Neg) else Neg(value)
    match rel:
        case Rel.EQ if sign_ < 0:
            return _no_solution("A distance from 0 is never below 0.", where)
        case Rel.EQ if sign_ == 0:
            return Move(
                Chain((inner, value), (rel,)), "Only 0 lies 0 away from 0: leave the bars away.", where
            )
        case Rel.EQ:
            cases = (Chain((inner, value), (rel,)), Chain((inner, below), (rel,)))
            what = "Take the bars away: two cases, one above and one below 0."
            return Move(Joined(Joiner.OR, cases), what, where)
        case Rel.GT | Rel.GE if sign_ < 0:
            what = "A distance from 0 is never below 0, so this is always true. Write: all numbers."
            return Move(Said(Phrase.ALL_NUMBERS), what, where)
        case Rel.LT | Rel.LE if sign_ < 0:
            return _no_solution("A distance from 0 is never below 0.", where)
        case Rel.LT | Rel.LE if sign_ > 0:
            what = "Closer to 0 than this means: between the two numbers."
            return Move(Chain((below, inner, value), (rel, rel)), what, where)
        case Rel.GT | Rel.GE if sign_ > 0:
            cases = (Chain((inner, below), (rel.turned,)), Chain((inner, value), (rel,)))
            what = "Further from 0 than this means: below the one number or above the other."
            return Move(Joined(Joiner.OR, cases), what, where)
        case _:
            return None


def _powered(index: int, inner: Expr, rel: Rel, value: Expr, sign_: int, style: Style) -> Move | None:
    where = f"Look at the root over {written(inner)}: what undoes a root?"
    if index % 2 == 0 and sign_ < 0:
        return _no_solution("A square root is never below 0.", where)
    try:
        size = value_of(Pow(value, number(index, style)), style.setting).constant()
    except (NotExact, NoRealRoot):
        return None
    rational = None if size is None else size.rational()
    if rational is None:
        return None
    what = "Square both sides." if index == 2 else f"Raise both sides to the power {index}."
    return Move(Chain((inner, number(rational, style)), (rel,)), what, where)


def both_roots(chain: Chain) -> Move | None:
    """``√(4z − 3) = √(3z + 2)``: square both sides."""
    left, right = chain.sides
    if not (isinstance(left, Root) and isinstance(right, Root) and left.index == right.index):
        return None
    what = "Square both sides." if left.index == 2 else f"Raise both sides to the power {left.index}."
    made = Chain((left.inner, right.inner), chain.rels)
    return Move(made, what, "Both sides are a root: what undoes a root?") if chain.rels[0].equates else None
