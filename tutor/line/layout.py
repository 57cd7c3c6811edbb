"""A line laid out in two dimensions: fractions one over the other, powers raised."""

import itertools
from dataclasses import dataclass
from typing import assert_never

from tutor.line.tree import (
    Abs,
    Add,
    Bare,
    Chain,
    Div,
    Expr,
    Hole,
    Joined,
    Joiner,
    Measure,
    Mul,
    Name,
    Neg,
    Note,
    Num,
    Onward,
    Percent,
    PiSign,
    PlusMinus,
    Pow,
    Root,
    Said,
    Statement,
)
from tutor.line.writing import write_expr, write_statement

_UP = str.maketrans("0123456789-−", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁻")


@dataclass(frozen=True, slots=True)
class Block:
    """A rectangle of text; ``base`` is the row that stands on the line."""

    rows: tuple[str, ...]
    base: int = 0

    @property
    def width(self) -> int:
        """Return its width in cells (every sign used here is one cell wide)."""
        return len(self.rows[0])


def layout(statement: Statement) -> tuple[str, ...]:
    """Return the rows of a line as it is understood."""
    match statement:
        case Bare(expr):
            return _expr(expr).rows
        case Chain(sides, rels):
            blocks = [_expr(sides[0])]
            for rel, side in zip(rels, sides[1:], strict=True):
                blocks += [_text(f" {rel.value} "), _expr(side)]
            return _beside(blocks).rows
        case Onward(rels, sides):
            blocks = []
            for rel, side in zip(rels, sides, strict=True):
                blocks += [_text(f"{rel.value} "), _expr(side), _text(" ")]
            return _beside(blocks).rows
        case Joined(joiner, parts):
            blocks = []
            for part in parts:
                if blocks:
                    blocks.append(_text(",  " if joiner is Joiner.COMMA else f"  {joiner.value}  "))
                rows = layout(part)
                blocks.append(Block(rows, len(rows) // 2))
            return _beside(blocks).rows
        case Said() | Note():
            return (write_statement(statement),)
        case _:
            assert_never(statement)


def _text(text: str) -> Block:
    return Block((text,))


def _beside(blocks: list[Block]) -> Block:
    above = max(block.base for block in blocks)
    below = max(len(block.rows) - block.base for block in blocks)
    rows = []
    for row in range(above + below):
        line = ""
        for block in blocks:
            at = row - above + block.base
            line += block.rows[at] if 0 <= at < len(block.rows) else " " * block.width
        rows.append(line)
    return Block(tuple(rows), above)


def _over(top: Block, bottom: Block) -> Block:
    nested = any("─" in row for row in (*top.rows, *bottom.rows))
    width = max(top.width, bottom.width) + (2 if nested else 0)
    rows = (
        *(row.center(width) for row in top.rows),
        "─" * width,
        *(row.center(width) for row in bottom.rows),
    )
    return Block(rows, len(top.rows))


def _bracketed(block: Block) -> Block:
    if len(block.rows) == 1:
        return _beside([_text("("), block, _text(")")])
    last = len(block.rows) - 1
    left = tuple("⎛" if row == 0 else "⎝" if row == last else "⎜" for row in range(len(block.rows)))
    right = tuple("⎞" if row == 0 else "⎠" if row == last else "⎟" for row in range(len(block.rows)))
    return _beside([Block(left, block.base), block, Block(right, block.base)])


def _inside(expr: Expr) -> Block:
    """An operand of a product or a power: sums get a bracket."""
    block = _expr(expr)
    return _bracketed(block) if isinstance(expr, Add | Neg | PlusMinus) else block


def _expr(expr: Expr) -> Block:
    match expr:
        case Num(_, text):
            return _number(text)
        case Name() | PiSign() | Hole():
            return _text(write_expr(expr))
        case Neg(inner):
            return _beside([_text("−"), _inside(inner)])
        case Add(terms):
            return _sum(terms)
        case Mul(factors):
            return _product(factors)
        case Div(top, bottom):
            return _over(_expr(top), _expr(bottom))
        case Pow(base, exponent):
            return _power(base, exponent)
        case Root(index, inner):
            sign = {2: "√", 3: "∛", 4: "∜"}.get(index, f"{str(index).translate(_UP)}√")
            block = _expr(inner)
            single = isinstance(inner, Num | Name)
            return _beside([_text(sign), block if single else _bracketed(block)])
        case Abs(inner):
            block = _expr(inner)
            bar = Block(("│",) * len(block.rows), block.base)
            return _beside([bar, block, bar])
        case PlusMinus(left, right):
            before = [] if left is None else [_expr(left), _text(" ")]
            return _beside([*before, _text("± " if left is not None else "±"), _expr(right)])
        case Percent(inner):
            return _beside([_inside(inner), _text("%")])
        case Measure(inner, unit):
            return _beside([_inside(inner), _text(("" if str(unit) == "°" else " ") + str(unit))])
        case _:
            assert_never(expr)


def _number(text: str) -> Block:
    """A mixed number shows its fraction one over the other."""
    if "/" not in text:
        return _text(text)
    whole, part = text.split(maxsplit=1)
    top, bottom = part.split("/")
    return _beside([_text(whole + " "), _over(_text(top), _text(bottom))])


def _sum(terms: tuple[Expr, ...]) -> Block:
    blocks = [_expr(terms[0])]
    for term in terms[1:]:
        taken = isinstance(term, Neg)
        inner = term.inner if isinstance(term, Neg) else term
        blocks += [_text(" − " if taken else " + "), _inside(inner) if taken else _expr(inner)]
    return _beside(blocks)


def _product(factors: tuple[Expr, ...]) -> Block:
    blocks = [_inside(factors[0])]
    for before, factor in itertools.pairwise(factors):
        blocks += [_text(_times(before, factor)), _inside(factor)]
    return _beside(blocks)


def _times(before: Expr, after: Expr) -> str:
    """A times sign between numbers; none before a letter, a root or a bracket."""
    starts = after.base if isinstance(after, Pow) else after
    if isinstance(starts, Num | Measure | Percent | Div) or isinstance(before, Measure | Percent):
        return " × "
    if isinstance(before, Div):
        return " "
    return ""


def _power(base: Expr, exponent: Expr) -> Block:
    bottom = _expr(base)
    if not isinstance(base, Num | Name | PiSign) or (isinstance(base, Num) and "/" in base.text):
        bottom = _bracketed(bottom)
    written = write_expr(exponent)
    if all(sign in "0123456789-−" for sign in written):
        raised = written.translate(_UP)
        pad = tuple((raised if row == 0 else " " * len(raised)) for row in range(len(bottom.rows)))
        return _beside([bottom, Block(pad, bottom.base)])
    top = _expr(exponent)
    return _beside([bottom, Block((*top.rows, " " * top.width), len(top.rows) + bottom.base)])
