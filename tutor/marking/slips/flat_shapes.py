"""Wrong moves with rectangles, triangles, trapezoids and growing areas."""

from collections.abc import Iterator
from dataclasses import replace
from math import isqrt

from tutor.line.tree import Add, Div, Expr, Mul, Name, Neg, Num, Pow, whole_number
from tutor.marking.slips.shapes import (
    Product,
    alike,
    doubled_terms,
    is_number,
    no_letters,
    over,
    over_three,
    over_two,
    plus,
    product_seen,
    terms_seen,
    times,
    without,
)
from tutor.marking.slips.wrong import Wrong

_ADDED = "Maybe {0} and {1} were added; here they multiply. Work that out once more."
_INSIDE = "Maybe the space inside was worked out. What gives the way all around?"


def rectangle(expr: Expr, formula: bool) -> Iterator[Wrong]:
    """Yield the wrong moves at a product of two sizes."""
    product = product_seen(expr)
    sizes = _two_sizes(expr, product)
    if product is None or sizes is None:
        return
    x, y = sizes
    if isinstance(x, Num) or isinstance(y, Num) if formula else not no_letters(expr):
        return
    if not formula and (product.powered or isinstance(x, Add) or isinstance(y, Add)):
        return  # "4² − 3" and "(4 + √3)(4 − √3)" are no rectangles
    cost = 3 if product.powered else 1  # 5² taken for 5·2 has a name of its own
    yield Wrong(
        "sides-added-for-area",
        plus(x, y),
        _ADDED,
        (x, y),
        cost,
        "there {0} and {1} are added",
    )
    yield Wrong(
        "perimeter-given-for-area",
        plus(times(whole_number(2), x), times(whole_number(2), y)),
        "Maybe the way all around was worked out. What gives the space inside?",
        cost=cost,
        there="there the way all around was worked out",
    )


def _two_sizes(expr: Expr, product: Product | None) -> tuple[Expr, Expr] | None:
    """Return the two factors of a product, which may be fractions: ``(3/4)(1/2)``."""
    if product is None or product.pi or product.minus:
        return None
    match expr:
        case Mul((Num() | Div(Num(), Num()) as x, Num() | Div(Num(), Num()) as y)) if product.down:
            return None if _is_whole(x) or _is_whole(y) else (x, y)
        case _:
            return (product.up[0], product.up[1]) if len(product.up) == 2 and not product.down else None


def _is_whole(expr: Expr) -> bool:
    """Tell whether a division is no fraction but one that comes out: the 14/2 in ``2·14/2``."""
    match expr:
        case Div(Num(top), Num(bottom)):
            return bool(bottom) and (top / bottom).denominator == 1
        case _:
            return False


def around(expr: Expr, formula: bool) -> Iterator[Wrong]:
    """Yield the wrong moves at 2L + 2W, and at a square's 4s."""
    if not (formula or no_letters(expr)):
        return
    pairs = doubled_terms(expr)
    if pairs is not None and len(pairs) == 2 and all(len(pair) == 1 for pair in pairs):
        (x,), (y,) = pairs
        yield Wrong(
            "two-sides-only-perimeter",
            plus(x, y),
            "Maybe only two sides were counted. How many sides lie all around?",
            there="there only two sides are counted",
        )
        yield Wrong(
            "area-given-for-perimeter", times(x, y), _INSIDE, there="there the space inside was worked out"
        )
    product = product_seen(expr)
    if product is None or product.pi or product.down or product.minus or len(product.up) != 2:
        return
    side = without(product.up, 4)
    if side is not None:
        cost = 1 if formula else 3  # of numbers alone, a product mixed up comes first
        yield Wrong("area-given-for-perimeter", times(side[0], side[0]), _INSIDE, cost=cost)
        yield Wrong(
            "two-sides-only-perimeter",
            times(whole_number(2), side[0]),
            "Maybe only two sides were counted. How many sides does a square have?",
            cost=cost,
        )


def border(expr: Expr, formula: bool) -> Iterator[Wrong]:
    """Yield F = L + b for F = L + 2b: a border that lies on both sides, counted once."""
    terms = terms_seen(expr)
    if not formula or not 2 <= len(terms) <= 4:
        return
    for at, term in enumerate(terms):
        product = product_seen(term)
        if product is None or product.pi or product.down or product.minus or len(product.up) != 2:
            continue
        single = without(product.up, 2)
        if single is not None and isinstance(single[0], Name):
            yield Wrong(
                "two-sides-only-perimeter",
                plus(*terms[:at], single[0], *terms[at + 1 :]),
                "Maybe {0} was counted once. How many times is it there?",
                single,
                there="there {0} is counted once",
            )


def halves(expr: Expr, formula: bool) -> Iterator[Wrong]:
    """Yield the wrong moves at half a product: triangle and trapezoid."""
    product = product_seen(expr)
    if product is None or product.pi or product.minus or not (formula or no_letters(expr)):
        return
    up = over_two(product)
    if up is None or len(up) < 2:
        return
    sums = [part for part in up if isinstance(part, Add) and len(part.terms) == 2]
    if len(up) == 2 and len(sums) == 1:
        both = sums[0]
        height = up[1] if up[0] is both else up[0]
        yield from _trapezoid(height, both.terms)
        return
    yield Wrong(
        "triangle-half-forgotten",
        times(*up),
        "Maybe the half was left out. What part of its rectangle does a triangle fill?",
        there="there the half is still missing",
    )


def _trapezoid(height: Expr, bases: tuple[Expr, ...]) -> Iterator[Wrong]:
    yield Wrong(
        "trapezoid-half-forgotten",
        times(height, plus(*bases)),
        "Maybe the half was left out. What is done after the two bases are added?",
        there="there the half is still missing",
    )
    for used, left_out in ((bases[0], bases[1]), (bases[1], bases[0])):
        for tree in (times(height, used), over(times(height, used), whole_number(2))):
            yield Wrong(
                "trapezoid-one-base",
                tree,
                "Maybe only {0} was used as a base. Where does {1} come in?",
                (used, left_out),
                there="there only {0} is used as a base",
            )


def thirds(expr: Expr, formula: bool) -> Iterator[Wrong]:
    """Yield the third left out of a pyramid: ``B·h/3``."""
    product = product_seen(expr)
    if product is None or product.pi or product.minus or not (formula or no_letters(expr)):
        return
    up = over_three(product)
    if up is not None and len(up) in (2, 3):
        yield Wrong(
            "cone-third-forgotten",
            times(*up),
            "Maybe the third was left out. What part of the full box is it?",
            there="there the third is still missing",
        )


def scaled_sizes(expr: Expr, formula: bool) -> Iterator[Wrong]:
    """Yield an area or a volume that grows as a length does: ``6·3²`` taken for ``6·3``."""
    product = product_seen(expr)
    if product is None or not _scales(product):
        return
    factor = next(part for part in product.up if sum(alike(part, other) for other in product.up) > 1)
    size = tuple(part for part in product.up if not alike(part, factor))
    if len(size) != 1 or not (is_scale(factor) or (no_letters(expr) and not formula)):
        return
    name, what = ("area", "an area") if len(product.up) == 3 else ("volume", "a solid")
    yield Wrong(
        f"{name}-scales-like-length",
        times(size[0], factor),
        f"Maybe {{0}} was used once. In how many directions does {what} grow?",
        (factor,),
        there="there {0} is used once",
    )


def is_scale(expr: Expr) -> bool:
    """Tell whether a name is one that stands for a scale factor."""
    return isinstance(expr, Name) and expr.name in ("k", "K", "scale", "scale factor", "f")


def _scales(product: Product) -> bool:
    return (
        product.pi is None
        and not product.down
        and not product.minus
        and product.powered
        and len(product.up) in (3, 4)
        and any(sum(alike(part, other) for other in product.up) == len(product.up) - 1 for part in product.up)
    )


_LEAST_SQUARE = 9


def squares_apart(expr: Expr, formula: bool) -> Iterator[Wrong]:
    """Yield ``13² + 5²`` for ``13² − 5²``: the way to the longest side, taken for a shorter one."""
    terms = terms_seen(expr)
    if len(terms) != 2 or not (formula or no_letters(expr)):
        return
    first, second = ((term.inner, True) if isinstance(term, Neg) else (term, False) for term in terms)
    if first[1] == second[1] or not (_is_a_square(first[0]) and _is_a_square(second[0])):
        return
    more, less = (second[0], first[0]) if first[1] else (first[0], second[0])
    if isinstance(more, Num) and isinstance(less, Num) and not more.value > less.value >= _LEAST_SQUARE:
        return  # 4 − 4 and 16 − 1 are numbers like any others
    cost = 1 if is_square(more) and is_square(less) else 2
    yield replace(squares_added(more, less), cost=cost)


def _is_a_square(expr: Expr) -> bool:
    """Tell whether a square is written, or worked out: ``13²``, ``169``."""
    if isinstance(expr, Num):
        value = expr.value
        return value.denominator == 1 and value > 1 and isqrt(value.numerator) ** 2 == value
    return is_square(expr)


def squares_added(first: Expr, second: Expr) -> Wrong:
    """Return the slip of two squares that are added."""
    return Wrong(
        "leg-squares-added-for-leg",
        plus(first, second),
        "Maybe the two squares were added. Is the side asked for the longest one?",
        there="there the two squares are added",
    )


def is_square(expr: Expr) -> bool:
    """Tell whether a square is written."""
    return isinstance(expr, Pow) and is_number(expr.exponent, 2)
