"""Lines that differ only in their numbers are read alike.

``2x + 14 = 3x`` and ``15x + 3 = 7x`` have one tree, but for the numbers in it and the places. Such
a tree is remembered by what stands around the digits, and built again with others: a class
types the same shapes over and over. A shape is remembered only where all its digits belong to
plain numbers of the tree. Those of ``cm^2``, ``x_1``, ``root(3, 8)`` and ``3 1/2`` decide how the
line is read, so such lines are read afresh each time.
"""

import re
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from typing import Any, NamedTuple, TypeAlias

from tutor.line.names import Names
from tutor.line.numerals import plain_number
from tutor.line.tree import (
    Abs,
    Add,
    Bare,
    Chain,
    Div,
    Expr,
    Measure,
    Mul,
    Name,
    Neg,
    Num,
    Percent,
    PiSign,
    Pow,
    Rel,
    Root,
    Span,
    Statement,
)
from tutor.line.walk import changed, parts, sides
from tutor.line.writing import Template, write_statement

MAX_SHAPES = 2000

# The digits of a power stay: "m^2" may be a unit where "m^12" is none. Of a long run only the first
# four are taken out: what stays behind them keeps the run as long as it is.
_DIGITS = re.compile(r"(?<![0-9^])(?<!\*\*)(?<!\^.)(?<!\*\*.)([0-9]{1,4})")
_PLAIN = re.compile(r"[0-9]+(?:\.[0-9]+)?")

Texts: TypeAlias = tuple[str, ...]
# Makes a node out of the nodes made so far, the text of the line and the node's own span.
_Maker: TypeAlias = Callable[[list[Expr], str, Span], Expr]


class Taken(NamedTuple):
    """A line taken apart: the texts around its runs of digits, and these runs."""

    around: Texts
    digits: list[str]


class Shape(NamedTuple):
    """How a tree is built.

    ``places``: for each place in the tree the number of signs before it that are no digits to be
    changed, and the number of runs of digits before it. ``nodes``: what makes each node, after
    its parts, and the indexes of its first and last place. ``sides`` are indexes of nodes;
    ``rels`` is empty for an expression alone. ``around``: what is written around its numbers, and
    ``numbers`` are the indexes of their nodes.
    """

    places: tuple[tuple[int, int], ...]
    nodes: tuple[tuple[_Maker, int, int], ...]
    sides: tuple[int, ...]
    rels: tuple[Rel, ...]
    span: tuple[int, int]
    around: Texts
    numbers: tuple[int, ...]


class Shapes:
    """The shapes of the lines that were read."""

    def __init__(self) -> None:
        # None: met once so far, or a shape whose digits decide how it is read.
        self._known: dict[tuple[Names, Texts], Shape | None] = {}

    @property
    def size(self) -> int:
        """Return how many shapes are remembered or were met once."""
        return len(self._known)

    def get(self, names: Names, taken: Taken, text: str) -> Statement | None:
        """Return the statement that a line is, None where no line of its shape is remembered."""
        shape = self._known.get((names, taken.around))
        return None if shape is None else _built(shape, taken.digits, text)

    def keep(self, names: Names, taken: Taken, text: str, statement: Statement) -> None:
        """Remember how a line was read, where a line of its shape was met before."""
        key = (names, taken.around)
        if key in self._known:
            self._known[key] = _shape_of(statement, taken, text)
        else:
            if len(self._known) >= MAX_SHAPES:
                self._known.clear()
            self._known[key] = None


def taken_apart(text: str) -> Taken:
    """Return the texts around the runs of digits in a line, one more than there are runs, and the runs."""
    pieces = _DIGITS.split(text)
    return Taken(tuple(pieces[::2]), pieces[1::2])


def _built(shape: Shape, digits: list[str], text: str) -> Statement:
    before = [0]
    total = 0
    for run in digits:
        total += len(run)
        before.append(total)
    places = [signs + before[runs] for signs, runs in shape.places]
    nodes: list[Expr] = []
    for make, start, end in shape.nodes:
        nodes.append(make(nodes, text, (places[start], places[end])))
    span = (places[shape.span[0]], places[shape.span[1]])
    found = tuple([nodes[at] for at in shape.sides])
    statement = Chain(found, shape.rels, span) if shape.rels else Bare(found[0], span)
    numbers: Any = tuple([nodes[at] for at in shape.numbers])
    statement.memo[Template] = Template(shape.around, numbers)
    return statement


class _Unlike(Exception):
    """The digits of the line decide how it is read."""


def _shape_of(statement: Statement, taken: Taken, text: str) -> Shape | None:
    if not isinstance(statement, Chain | Bare):
        return None
    gathered = _Gathered(taken, text)
    try:
        found = tuple([gathered.node(side) for side in sides(statement)])
        span = gathered.span(statement.span)
    except _Unlike:
        return None
    if gathered.used != set(range(len(taken.digits))):
        return None
    rels = statement.rels if isinstance(statement, Chain) else ()
    around, numbers = _written(statement, gathered.numbers)
    return Shape(tuple(gathered.places), tuple(gathered.nodes), found, rels, span, around, numbers)


_MARK = 0xE000  # signs that stand in no line: Unicode leaves them to private use
_MARKS = re.compile("([\ue000-\uf8ff])")


def _written(statement: Statement, numbers: dict[Span, int]) -> tuple[Texts, tuple[int, ...]]:
    """Return what is written around the numbers of a line, and which number stands where.

    A plain number is written as it was typed, whatever stands around it.
    """

    def marked(node: Expr) -> Expr:
        if not isinstance(node, Num):
            return node
        return replace(node, value=Fraction(1), text=chr(_MARK + numbers[node.span]))

    pieces = _MARKS.split(write_statement(changed(statement, marked)))
    return tuple(pieces[::2]), tuple(ord(mark) - _MARK for mark in pieces[1::2])


class _Gathered:
    """The places and nodes of a tree as they are met."""

    def __init__(self, taken: Taken, text: str) -> None:
        self.places: dict[tuple[int, int], int] = {}
        self.nodes: list[tuple[_Maker, int, int]] = []
        self.used: set[int] = set()
        self.numbers: dict[Span, int] = {}
        """The indexes of the nodes that are numbers, by their places."""
        self._text = text
        self._runs: list[Span] = []
        at = 0
        for around, run in zip(taken.around, taken.digits, strict=False):
            start = at + len(around)
            at = start + len(run)
            self._runs.append((start, at))

    def span(self, span: Span) -> tuple[int, int]:
        """Return the indexes of both places of a span."""
        return self._place(span[0]), self._place(span[1])

    def _place(self, at: int) -> int:
        runs = [run for run in self._runs if run[0] < at]
        if runs and at < runs[-1][1]:
            raise _Unlike
        place = (at - sum(end - start for start, end in runs), len(runs))
        return self.places.setdefault(place, len(self.places))

    def node(self, expr: Expr) -> int:
        """Return the index of a node, after its parts."""
        if isinstance(expr, Pow) and self._runs_in(expr.exponent.span):
            raise _Unlike  # a power may be too big
        make = self._number(expr) if isinstance(expr, Num) else _maker(expr, [*map(self.node, parts(expr))])
        if isinstance(expr, Num):
            self.numbers[expr.span] = len(self.nodes)
        self.nodes.append((make, *self.span(expr.span)))
        return len(self.nodes) - 1

    def _number(self, number: Num) -> _Maker:
        written = self._text[slice(*number.span)]
        if written != number.text or _PLAIN.fullmatch(written) is None:
            raise _Unlike
        self.used |= self._runs_in(number.span)
        return _number_again

    def _runs_in(self, span: Span) -> set[int]:
        return {at for at, run in enumerate(self._runs) if span[0] <= run[0] and run[1] <= span[1]}


def _number_again(_nodes: list[Expr], text: str, span: Span) -> Expr:
    return plain_number(text[span[0] : span[1]], span)


def _maker(expr: Expr, kids: list[int]) -> _Maker:
    match expr:
        case Name(name):
            return lambda _nodes, _text, span: Name(name, span)
        case PiSign():
            return lambda _nodes, _text, span: PiSign(span)
        case Add() | Mul():
            several: Any = type(expr)
            return lambda nodes, _text, span: several(tuple([nodes[at] for at in kids]), span)
        case Neg() | Percent() | Abs():
            single: Any = type(expr)
            (inner,) = kids
            return lambda nodes, _text, span: single(nodes[inner], span)
        case Div() | Pow():
            pair: Any = type(expr)
            first, second = kids
            return lambda nodes, _text, span: pair(nodes[first], nodes[second], span)
        case Root(index):
            (under,) = kids
            return lambda nodes, _text, span: Root(index, nodes[under], span)
        case Measure(_, unit):
            (counted,) = kids
            return lambda nodes, _text, span: Measure(nodes[counted], unit, span)
        case _:
            raise _Unlike
