"""From the raw tree of a line to its statement: relations, lists of solutions, what is joined."""

import re

from tutor.line.advice import LIST_ALONE
from tutor.line.lexing import LineRefusal
from tutor.line.names import Names, plain
from tutor.line.settle import Choices, Settler
from tutor.line.table import Raw
from tutor.line.tree import Bare, Chain, Expr, Joined, Joiner, Name, Onward, Rel, Statement

_RELS = {
    "EQ": Rel.EQ,
    "APPROX": Rel.APPROX,
    "LE": Rel.LE,
    "GE": Rel.GE,
    "LT": Rel.LT,
    "GT": Rel.GT,
    "NE": Rel.NE,
}


def statement_of(raw: Raw, names: Names, choices: Choices) -> Statement:
    """Return the statement that a raw tree is; raises ``LineRefusal`` where it cannot be read."""
    settler = Settler(names, choices)
    parts: list[Chain | Onward | Bare] = []
    joiners: list[Joiner] = []
    only = raw.kids[0]
    if only.kind in ("among", "pairs") and len(raw.kids) == 1:
        return _listed(only, settler)
    for kid in raw.kids:
        if kid.kind == "joiner":
            joiners.append(_joiner(kid))
        else:
            parts.append(_clause(kid, settler))
    if len(parts) == 1:
        return _solution_numbered(parts[0], names) or parts[0]
    spoken = [joiner for joiner in joiners if joiner is not Joiner.COMMA]
    joiner = spoken[0] if spoken else Joiner.COMMA
    if any(other is not joiner for other in spoken):
        raise LineRefusal(raw.start, raw.end, "Use only “or” or only “and” in one line.")
    joined = Joined(joiner, _with_left_sides(parts), (raw.start, raw.end))
    return _solutions_numbered(joined, names) or joined


_COUNTED = re.compile(r"(\w+)_\d")


def _solution_numbered(part: Chain | Onward | Bare, names: Names) -> Chain | None:
    """Read ``x₁ = 3`` alone as a solution of x, where x is a name and x₁ is none."""
    if not isinstance(part, Chain) or not isinstance(part.sides[0], Name):
        return None
    written = plain(part.sides[0].name)
    found = _COUNTED.fullmatch(written)
    if found is None or names.find(written) is not None or (name := names.find(found[1])) is None:
        return None
    if found[1].isupper():
        return None  # "A₁ = 8 · 5" is the area of a part
    return Chain((Name(name, part.sides[0].span), *part.sides[1:]), part.rels, part.span)


def _solutions_numbered(joined: Joined, names: Names) -> Joined | None:
    """Read ``x₁ = 3, x₂ = −3`` as a list of solutions, where x is a name and x₁ is none."""
    parts: list[Chain] = []
    seen: set[str] = set()
    base = ""
    for part in joined.parts:
        if not isinstance(part, Chain) or len(part.sides) != 2 or not isinstance(part.sides[0], Name):
            return None
        written = plain(part.sides[0].name)
        found = _COUNTED.fullmatch(written)
        if found is None or written in seen or names.find(written) is not None:
            return None
        base = base or found[1]
        if found[1] != base or (name := names.find(base)) is None:
            return None
        seen.add(written)
        parts.append(Chain((Name(name, part.sides[0].span), part.sides[1]), part.rels, part.span))
    return Joined(Joiner.COMMA, tuple(parts), joined.span)


def _joiner(kid: Raw) -> Joiner:
    last = kid.kids[-1].kind
    if last == "OR":
        return Joiner.OR
    return Joiner.AND if last == "AND" else Joiner.COMMA


def _with_left_sides(parts: list[Chain | Onward | Bare]) -> tuple[Chain | Onward | Bare, ...]:
    """``x = 4 or -4`` says ``x`` of both: a bare part takes the left side of the first."""
    first = parts[0]
    if not isinstance(first, Chain) or len(first.sides) != 2:
        return tuple(parts)
    return tuple(_with_left_side(first, part) for part in parts)


def _with_left_side(first: Chain, part: Chain | Onward | Bare) -> Chain | Onward | Bare:
    if isinstance(part, Onward):  # "x > 3 and < 5"
        return Chain((first.sides[0], *part.sides), part.rels, part.span)
    return Chain((first.sides[0], part.expr), first.rels, part.span) if isinstance(part, Bare) else part


def _name_of(sides: list[Expr]) -> str:
    return sides[-1].name if sides and isinstance(sides[-1], Name) else ""


def _listed(raw: Raw, settler: Settler) -> Joined:
    """``x = {3, −3}`` says one or the other, ``(x, y) = (3, 4)`` says both."""
    left, sign, right = raw.kids
    rel = _RELS[sign.kind]
    values = _members(right)
    lefts = _members(left) if raw.kind == "pairs" else [left] * len(values)
    braces = right.kids[0].text == "{"
    if not rel.equates or len(lefts) != len(values) or braces == (raw.kind == "pairs"):
        raise LineRefusal(right.start, right.end, LIST_ALONE)
    joiner = Joiner.AND if raw.kind == "pairs" else Joiner.COMMA
    parts = tuple(
        Chain((settler.expr(name), settler.expr(value)), (rel,), (value.start, value.end))
        for name, value in zip(lefts, values, strict=True)
    )
    return Joined(joiner, parts, (raw.start, raw.end))


def _members(listed: Raw) -> list[Raw]:
    return [kid for kid in listed.kids if kid.kind not in ("LPAR", "COMMA", "RPAR")]


def _clause(raw: Raw, settler: Settler) -> Chain | Onward | Bare:
    span = (raw.start, raw.end)
    if raw.kind in ("list_alone", "among", "pairs"):
        raise LineRefusal(raw.start, raw.end, LIST_ALONE)
    if raw.kind == "bare":
        return Bare(settler.expr(raw.kids[0]), span)
    sides: list[Expr] = []
    rels: list[Rel] = []
    for kid in raw.kids:
        rel = _RELS.get(kid.kind)
        if rel is None:
            sides.append(settler.expr(kid))
        else:
            # "∠A ≅ ∠B" says that two angles are the same, no approximation.
            rels.append(Rel.EQ if kid.text == "≅" and "∠" in _name_of(sides) else rel)
    if raw.kind == "onward":
        return Onward(tuple(rels), tuple(sides), span)
    return Chain(tuple(sides), tuple(rels), span)
