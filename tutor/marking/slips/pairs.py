"""Two terms of a sum, and the value that stands in their place in the typed line."""

from collections.abc import Callable, Iterator
from typing import NamedTuple

from tutor.line.poly import Mono, Number, Ratio
from tutor.line.tree import Add, Expr
from tutor.marking.slips.spots import MAX_TERMS, Hit, Spot, Values, exact, single, sum_of, terms_of


class Pair(NamedTuple):
    """Two terms in their order; ``one`` and ``two`` are their values where these are single terms."""

    first: Expr
    second: Expr
    a: Ratio
    b: Ratio
    needed: Ratio
    values: Values
    one: tuple[Number, Mono] | None
    two: tuple[Number, Mono] | None
    reaches: Callable[[Ratio], bool] | None = None  # as of a spot, where no one value is needed

    def gives(self, value: Ratio | None) -> bool:
        """Tell whether a move that gives ``value`` for the two terms gives the typed line."""
        if value is None:
            return False
        return self.needed.same(value) if self.reaches is None else self.reaches(value)

    def becomes_sum(self) -> bool:
        """Tell whether more than one term is needed in the place of the two."""
        return self.reaches is None and len(self.needed.above.terms) > 1


PairMove = Callable[[Pair], Iterator[Hit]]


def pairs(spot: Spot) -> Iterator[Pair]:
    """Yield every two terms of a sum with the value needed for them."""
    if not isinstance(spot.node, Add):
        return
    terms = terms_of(spot.node)
    found = exact([spot.values.of(term) for term in terms])
    if found is None or len(terms) > MAX_TERMS:
        return
    whole = sum_of(found)
    missing = spot.needed - whole
    for i in range(len(terms)):
        for j in range(i + 1, len(terms)):
            a, b = found[i], found[j]
            needed = spot.needed if len(terms) == 2 else missing + a + b
            pair = Pair(terms[i], terms[j], a, b, needed, spot.values, single(a), single(b))
            yield pair if spot.reaches is None else pair._replace(reaches=_with(whole - a - b, spot.reaches))


def _with(others: Ratio, reaches: Callable[[Ratio], bool]) -> Callable[[Ratio], bool]:
    return lambda value: reaches(others + value)
