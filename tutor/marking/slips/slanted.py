"""A slanted side taken for the height of a triangle."""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from tutor.line.tree import Add, Expr, Name, Num
from tutor.line.walk import every
from tutor.marking.slips.model import Slip
from tutor.marking.slips.shapes import is_number, over_two, product_seen
from tutor.marking.slips.spots import Values, scaled
from tutor.marking.slips.telling import AS_IT_IS, Filled, slip_made
from tutor.marking.slips.wrong import Wrong

# How many times as long as the height a slanted side may be: 13 in the triangle with 5 and 12.
MOST_SLANTED = 3


def slanted(
    above: Expr,
    typed: Expr,
    values: Values,
    later: int,
    filled: Filled = AS_IT_IS,
    known_sides: Iterable[Expr] = (),
) -> Iterator[Slip]:
    """Yield the slip of another, longer side in the place of one of the two sizes of half a product.

    The side is a number in the typed line, or one that the problem gives (``known_sides``); one
    that is given may stand in a whole product too.
    """
    after, part = values.of(filled(typed)), Fraction(1, 2)
    product = product_seen(above)
    if product is None or product.pi or product.minus or after is None:
        return
    given = tuple(known_sides)
    written = () if isinstance(typed, Num) else (node for node in every(typed) if isinstance(node, Num))
    sides = (*written, *given)
    up = over_two(product)
    if up is None and given and not product.down:
        up, part, sides = product.up, Fraction(1), given
    if up is None or len(up) != 2:
        return
    named = [isinstance(size, Name) and size.name[:1] in "hH" for size in up]
    sizes = [values.number(filled(size)) for size in up]
    first, second = sizes
    if first is None or second is None:
        return
    for side in sides:
        slant = values.number(side)
        if slant is None or slant in sizes or is_number(side, 2):
            continue
        for at, (base, height) in enumerate(((up[0], second), (up[1], first))):
            if isinstance(up[1 - at], Add) or named[at]:
                continue  # what was replaced is no height
            value, along = values.of(filled(base)), second if at else first
            # The slanted side of a right triangle is longer than its height, not than both together.
            likely = MOST_SLANTED * height > slant > height > 0 and slant <= height + along
            if likely and value is not None and after.same(scaled(value, slant * part)):
                yield slip_made(_wrong(side, base), typed, values.setting, later, filled)
                return


def _wrong(side: Expr, base: Expr) -> Wrong:
    return Wrong(
        "slant-side-as-height",
        side,
        "Maybe {0} is a slanted side. Which length stands straight up on {1}?",
        (side, base),
        there="there {0}, a slanted side, is the height",
        shown=side,
    )
