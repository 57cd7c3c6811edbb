"""One wrong move made in every place of a side where it can be made: ``6² + 8²`` as 12 + 16."""

from collections.abc import Callable, Iterator

from tutor.line.tree import Add, Expr, Mul, Name, Neg, Num, Pow, Root
from tutor.line.walk import every, rebuilt
from tutor.marking.slips.spots import Hit, Spot, show, terms_of, unsigned

_Change = Callable[[Expr], Expr | None]


def made_everywhere(spot: Spot) -> Iterator[Hit]:
    """Two or more places of a whole side, or of what its root holds, with the same wrong move in each."""
    inner = spot.node.inner if isinstance(spot.node, Root) else spot.node
    if not spot.whole or sum(not isinstance(term, Num | Name) for term in terms_of(inner)) < 2:
        return
    for name, change, message in _CHANGES:
        places = [node for node in every(spot.node) if change(node) is not None]
        if len(places) < 2:
            continue

        def changed(node: Expr, change: _Change = change) -> Expr:
            other = change(node)
            return node if other is None else other

        if spot.gives(spot.values.of(rebuilt(spot.node, changed))):
            yield Hit(name, message.format(*map(_shown, places)), 2)


def _shown(place: Expr) -> str:
    """Return what a message calls a place: the base of a power, the bracket of a product."""
    return show(place.base if isinstance(place, Pow) else place)


def _doubled(node: Expr) -> Expr | None:
    if isinstance(node, Pow) and isinstance(node.exponent, Num) and node.exponent.value == 2:
        return Mul((node.exponent, node.base), node.span)
    return None


def _first_only(node: Expr) -> Expr | None:
    if not isinstance(node, Mul) or len(node.factors) != 2:
        return None
    factor, bracket = node.factors
    if not isinstance(bracket, Add) or not isinstance(unsigned(factor), Num):
        return None
    first = Mul((factor, bracket.terms[0]), node.span)
    return Add((first, *bracket.terms[1:]), node.span)


def _minus_first_only(node: Expr) -> Expr | None:
    if not isinstance(node, Neg) or not isinstance(node.inner, Add):
        return None
    first, *rest = node.inner.terms
    return Add((Neg(first, first.span), *rest), node.span)


_CHANGES: tuple[tuple[str, _Change, str], ...] = (
    ("square-as-double", _doubled, "Maybe {0} and {1} were doubled. What does the small 2 say instead?"),
    (
        "first-term-only",
        _first_only,
        "Maybe only the first terms in the brackets were multiplied. What about the others?",
    ),
    (
        "negative-reaches-first-term-only",
        _minus_first_only,
        "Maybe the minus before each bracket reached its first term only. What about the others?",
    ),
)
