"""The grammar's own table of moves, run without lark's bookkeeping.

Lark reads ``grammar/line.lark`` and works out an LALR(1) table: in this state, before this
sign, shift or reduce. The table is followed here. Most rules of the grammar only rank the
operators (a sum may be one product, a product one operand) and build nothing, so a run of
such steps is worked out once and then taken as one. What comes out is the tree that lark
would build, node for node; the tests hold them side by side.
"""

from collections.abc import Sequence
from typing import Any, NamedTuple, TypeAlias


class Raw:
    """One rule of the grammar as it was met: its kind, its place, what is in it."""

    __slots__ = ("end", "kids", "kind", "start", "text")

    def __init__(self, kind: str, start: int, end: int, kids: tuple["Raw", ...] = (), text: str = "") -> None:
        self.kind = kind
        self.start = start
        self.end = end
        self.kids = kids
        self.text = text

    def __repr__(self) -> str:
        inside = repr(self.text) if not self.kids else ", ".join(map(repr, self.kids))
        return f"{self.kind}({inside})"


_THE_END = Raw("$END", 0, 0)


class Unexpected(Exception):
    """No line goes on with this token; ``at`` is its index, one past the last for the end."""

    def __init__(self, at: int) -> None:
        super().__init__(at)
        self.at = at


class Rule(NamedTuple):
    """A reduction. ``builds`` is the kind of the node, empty where the rule only ranks."""

    origin: str
    size: int
    builds: str
    splices: bool
    """Some child is lark's helper for a repetition, whose children belong to this node."""


class Table(NamedTuple):
    """What lark works out from a grammar, as plain data.

    ``shifts`` and ``reductions``: for each state, what each sign (or each part that was built) leads
    to, a state or the index of a rule. ``leaves``: the kind of leaf that a terminal becomes, ``number``
    for NUMBER; tokens carry it already. ``spaces``: the pattern of what is passed over. ``terminals``:
    the names and patterns of the others, in the order that lark's basic lexer tries them in.
    """

    start: int
    end: int
    shifts: list[dict[str, int]]
    reductions: list[dict[str, int]]
    rules: list[Rule]
    leaves: dict[str, str]
    spaces: str
    terminals: list[tuple[str, str]]


# What to do: the state that the top has become, and then where to go, or the rule to reduce by.
_Move: TypeAlias = tuple[int, int, Rule | None]


# A node of a tree: its kind, and where its parts stand among the tokens and the nodes before it.
_Built: TypeAlias = tuple[str, tuple[int, ...]]

MAX_REMEMBERED = 40
MAX_TREES = 2000


class Automaton:
    """Follows a table of moves."""

    def __init__(self, table: Table) -> None:
        self._shifts, self._reductions, self._rules = table.shifts, table.reductions, table.rules
        self._first, self._last = table.start, table.end
        self._moves: dict[tuple[int, int, str], _Move | None] = {}
        self._trees: dict[tuple[str, ...], tuple[_Built, ...]] = {}

    def parse(self, tokens: Sequence[Raw], complete: bool = True) -> Raw:
        """Return the tree of a line of tokens; raises ``Unexpected``, at the end where more was to come.

        Lines of the same kinds of tokens have the same tree: it is remembered for short ones.
        """
        if not complete or len(tokens) > MAX_REMEMBERED:
            return self._parsed(tokens, complete)
        kinds = tuple([token.kind for token in tokens])
        built = self._trees.get(kinds)
        if built is not None:
            return _built_again(tokens, built)
        tree = self._parsed(tokens, complete)
        if len(self._trees) < MAX_TREES:
            self._trees[kinds] = _how_built(tree, tokens)
        return tree

    def _parsed(self, tokens: Sequence[Raw], complete: bool) -> Raw:
        states: list[int] = [-1, self._first]
        values: list[Any] = []
        moves, shifts, last = self._moves, self._shifts, self._last
        at = -1
        for at, token in enumerate((*tokens, _THE_END) if complete else tokens):
            kind = token.kind
            while True:
                key = (states[-2], states[-1], kind)
                try:
                    move = moves[key]
                except KeyError:
                    move = self._worked_out(key)
                if move is None:
                    raise Unexpected(at)
                states[-1], target, rule = move
                if rule is None:
                    states.append(target)
                    values.append(token)
                    break
                origin, size, builds, splices = rule
                parts = values[-size:]
                if splices:
                    parts = _spliced(parts)
                values[-size:] = [
                    Raw(builds, parts[0].start, parts[-1].end, tuple(parts)) if builds else parts
                ]
                del states[-size:]
                states.append(shifts[states[-1]][origin])
                if states[-1] == last:
                    tree: Raw = values[-1]
                    return tree
        raise Unexpected(at + 1)

    def _worked_out(self, key: tuple[int, int, str]) -> _Move | None:
        """Return what to do in a state, above another, before a sign; None where nothing fits."""
        below, top, sign = key
        rule = self._rule(top, sign)
        while rule is not None and rule.size == 1 and not rule.builds:
            top = self._shifts[below][rule.origin]
            rule = self._rule(top, sign)
        target = self._shifts[top].get(sign)
        move = None if rule is None and target is None else (top, target or 0, rule)
        self._moves[key] = move
        return move

    def _rule(self, state: int, sign: str) -> Rule | None:
        at = self._reductions[state].get(sign)
        return None if at is None else self._rules[at]


def _how_built(tree: Raw, tokens: Sequence[Raw]) -> tuple[_Built, ...]:
    """Return the nodes of a tree over its tokens, each after its parts."""
    places = {id(token): at for at, token in enumerate(tokens)}
    nodes: list[_Built] = []

    def place_of(node: Raw) -> int:
        at = places.get(id(node))
        if at is None:
            nodes.append((node.kind, tuple([place_of(kid) for kid in node.kids])))
            at = len(tokens) + len(nodes) - 1
        return at

    place_of(tree)
    return tuple(nodes)


def _built_again(tokens: Sequence[Raw], nodes: tuple[_Built, ...]) -> Raw:
    """Return the tree over other tokens of the same kinds."""
    found = list(tokens)
    for kind, places in nodes:
        kids = tuple([found[at] for at in places])
        found.append(Raw(kind, kids[0].start, kids[-1].end, kids))
    return found[-1]


def _spliced(parts: list[Any]) -> list[Raw]:
    return [one for part in parts for one in (part if isinstance(part, list) else (part,))]
