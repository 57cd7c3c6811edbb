"""What a letter of a formula stands for by custom: the B of ``V = Bh`` is the area of the base.

Books go on with ``V = πr²h`` and tell nowhere that ``B = πr²``. Common practice, no source.
"""

from functools import lru_cache

from tutor.line.names import Names
from tutor.line.reader import Unread, read
from tutor.line.tree import Chain, Name, Rel
from tutor.line.walk import line_with_names, names_in

# One figure a row: its base, the perimeter of that (P, p, or C of a circle), its curved or side faces.
_FIGURES = (
    ("B = π r^2", "P = 2 π r", "p = 2 π r", "C = 2 π r", "L = 2 π r h", "LA = 2 π r h"),
    ("B = π r^2", "P = π d", "p = π d", "C = π d", "L = π d h", "LA = π d h"),
    ("B = π r^2", "L = π r l", "LA = π r l"),
    ("B = l w", "P = 2 l + 2 w", "p = 2 l + 2 w", "LA = P h", "L = P h"),
    ("B = L W", "P = 2 L + 2 W", "p = 2 L + 2 W"),
    ("B = s^2", "P = 4 s", "p = 4 s"),
    ("B = 1/2 b h", "P = a + b + c", "p = a + b + c", "LA = p h", "L = p h"),
    ("B = 1/2 a b", "P = 3 s", "p = 3 s"),
    ("B = 1/2 a P", "B = 1/2 a p", "P = n s", "p = n s"),
)
LETTERS = frozenset({"B", "P", "p", "C", "L", "LA"})


def parts_of(formula: Chain, free: frozenset[str]) -> tuple[tuple[Chain, ...], ...]:
    """Return what the free letters of a formula can stand for: one row of meanings for each figure."""
    # The P of "P = 4s" is what the formula is for.
    wanted = LETTERS & free & names_in(*(side for side in formula.sides if not isinstance(side, Name)))
    if not wanted:
        return ()
    found = (tuple(part for part in figure if _head(part) in wanted) for figure in _read())
    return tuple(dict.fromkeys(parts for parts in found if parts))


def with_parts(formula: Chain, parts: tuple[Chain, ...]) -> Chain:
    """Return a formula with what letters stand for in their place: ``V = πr²h`` for ``V = Bh``."""
    meanings = {_head(part): part.sides[1] for part in parts}
    made = line_with_names(formula, meanings)
    assert isinstance(made, Chain)
    return made


def _head(part: Chain) -> str:
    head = part.sides[0]
    assert isinstance(head, Name)
    return head.name


@lru_cache(maxsize=1)
def _read() -> tuple[tuple[Chain, ...], ...]:
    names = Names(frozenset({*LETTERS, *"abcdhlnrswW"}))
    return tuple(tuple(_part(text, names) for text in figure) for figure in _FIGURES)


def _part(text: str, names: Names) -> Chain:
    found = read(text, names)
    statement = None if isinstance(found, Unread) else found.statements[0]
    if not isinstance(statement, Chain) or statement.rels != (Rel.EQ,):
        raise ValueError(f"{text} is no formula")
    return statement
