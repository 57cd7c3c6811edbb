"""Wrong moves with circles, cans, cones and balls: whatever has π in it."""

from collections.abc import Iterator
from dataclasses import replace

from tutor.line.tree import Add, Expr, Mul, Name, Num, whole_number
from tutor.marking.slips.shapes import (
    Product,
    alike,
    is_number,
    over,
    plus,
    product_seen,
    terms_seen,
    times,
    without,
)
from tutor.marking.slips.wrong import Wrong

_DIAMETER = "Maybe {0} is the diameter here. How far is it from the middle to the edge?"
_DIAMETER_THERE = "there {0} is the diameter"
_RADIUS = "Maybe {0} is only the radius here. How long is it all the way across?"
_HALVED = "Maybe {0} was halved. Is it the way across, or the radius already?"
_RADIUS_THERE = "there {0} is only the radius"
_DOUBLED = "Maybe {0} was doubled. What does the small ² do to the {0}?"


def circles(expr: Expr, formula: bool) -> Iterator[Wrong]:
    """Yield the wrong moves at a product with π: circle, can, cone, ball."""
    product = product_seen(expr)
    if product is None or product.pi is None or product.minus:
        return
    yield from _third_forgotten(product)
    yield from _ball(product)
    if all(isinstance(part, Num) for part in product.down):
        yield from _circle(product)


def _circle(product: Product) -> Iterator[Wrong]:
    match product.up:
        case (x,) if not any(is_number(part, 3) for part in product.down):  # else a third of a solid
            yield from _across(product, x)
        case (x, y) if alike(x, y):
            yield from _area(product, x)
            if is_number(x, 2) and not product.powered:
                yield from _around(product, x)
        case (x, y) if is_number(x, 2) or is_number(y, 2):
            yield from _around(product, y if is_number(x, 2) else x)
        case (_, _, _):
            yield from _can(product)
        case (x, y, z, w) if (is_number(x, 2) or is_number(x, 4)) and not (alike(y, z) and alike(z, w)):
            yield from _can(replace(product, up=(y, z, w)))
        case _:
            return


def _made(product: Product, *up: Expr) -> Expr:
    assert product.pi is not None
    return over(times(product.pi, *up), *product.down)


def _across(product: Product, x: Expr) -> Iterator[Wrong]:
    """π·d: around a circle, from the diameter."""
    half = over(x, whole_number(2))
    yield Wrong(
        "radius-used-as-diameter", _made(product, half), _RADIUS, (half,), there=_RADIUS_THERE, shown=half
    )
    yield _diameter(product, _made(product, whole_number(2), x), x)
    yield _area_instead(_made(product, half, half))
    yield _area_instead(_made(product, x, x), cost=2)


def _around(product: Product, x: Expr) -> Iterator[Wrong]:
    """2·π·r: around a circle, from the radius."""
    yield Wrong("radius-used-as-diameter", _made(product, x), _RADIUS, (x,), there=_RADIUS_THERE, shown=x)
    twice = times(whole_number(2), x)
    yield _diameter(product, _made(product, whole_number(2), twice), twice)
    yield _area_instead(_made(product, x, x))


def _area(product: Product, x: Expr) -> Iterator[Wrong]:
    """π·r²: the space in a circle."""
    if len(product.down) == 1 and is_number(product.down[0], 4):
        product, x = replace(product, down=()), over(x, whole_number(2))
    yield Wrong(
        "circumference-given-for-area",
        _made(product, whole_number(2), x),
        "Maybe the way around was worked out. What gives the space inside a circle?",
        there="there the way around was worked out",
    )
    yield _doubled(_made(product, whole_number(2), x), x)
    twice, half = times(whole_number(2), x), over(x, whole_number(2))
    yield _diameter(product, _made(product, twice, twice), twice)
    yield Wrong("radius-used-as-diameter", _made(product, half, half), _HALVED, (x,), 2, shown=half)


def _can(product: Product) -> Iterator[Wrong]:
    """π·r²·h, and 2·π·r·h around it."""
    found = _squared(product.up)
    if found is not None:
        x, rest = found
        yield _doubled(_made(product, whole_number(2), x, *rest), x)
        twice = times(whole_number(2), x)
        yield _diameter(product, _made(product, twice, twice, *rest), twice)
        return
    two = without(product.up, 2)
    if two is not None and not product.down:
        x, y = two
        twice = times(whole_number(2), x)
        yield _diameter(product, _made(product, whole_number(2), twice, y), twice)
        yield Wrong(
            "radius-used-as-diameter", _made(product, x, y), _RADIUS, (x,), there=_RADIUS_THERE, shown=x
        )


def _squared(up: tuple[Expr, ...]) -> tuple[Expr, tuple[Expr, ...]] | None:
    """Return the factor that stands twice, and the others."""
    for at, part in enumerate(up):
        for later in range(at + 1, len(up)):
            if alike(part, up[later]):
                return part, up[:at] + up[at + 1 : later] + up[later + 1 :]
    return None


def _diameter(product: Product, tree: Expr, twice: Expr) -> Wrong:
    return Wrong("diameter-used-as-radius", tree, _DIAMETER, (twice,), there=_DIAMETER_THERE, shown=twice)


def _doubled(tree: Expr, x: Expr) -> Wrong:
    return Wrong("radius-doubled-not-squared", tree, _DOUBLED, (x,), there="there {0} was doubled")


def _area_instead(tree: Expr, cost: int = 1) -> Wrong:
    return Wrong(
        "area-given-for-circumference",
        tree,
        "Maybe the space inside was worked out. What gives the way around a circle?",
        cost=cost,
        there="there the space inside was worked out",
    )


def _third_forgotten(product: Product) -> Iterator[Wrong]:
    up = product.up if len(product.down) == 1 and is_number(product.down[0], 3) else None
    if product.down == ():
        up = without(product.up, whole_number(1).value / 3)
    worked_out = up is not None and len(up) == 2 and all(isinstance(part, Num) for part in up)
    if up is not None and (len(up) == 3 or worked_out) and not _is_ball(up):
        yield Wrong(
            "cone-third-forgotten",
            _made(replace(product, down=()), *up),
            "Maybe the third was left out. What part of a full can is it?",
            there="there the third is still missing",
        )


def _is_ball(up: tuple[Expr, ...]) -> bool:
    """Tell whether a third of these is a ball's 4/3, and no cone with radius 4."""
    return is_number(up[0], 4) and not alike(up[0], up[1])


def _ball(product: Product) -> Iterator[Wrong]:
    """4/3·π·r³ and 4·π·r²."""
    at = next((i for i, part in enumerate(product.up) if isinstance(part, Num)), None)
    if at is None:
        return
    lead, rest = product.up[at], product.up[:at] + product.up[at + 1 :]
    if len(rest) not in (2, 3) or not all(alike(rest[0], part) for part in rest):
        return
    x = rest[0]
    twice = times(whole_number(2), x)
    if len(rest) == 3:
        yield Wrong(
            "sphere-power-wrong",
            _made(product, lead, x, x),
            "Maybe {0} was squared. Which power of the radius does a ball need?",
            (x,),
            there="there {0} is only squared",
        )
        yield _diameter(product, _made(product, lead, twice, twice, twice), twice)
    elif is_number(lead, 4):
        yield Wrong(
            "sphere-power-wrong",
            _made(product, lead, x, x, x),
            "Maybe {0} was cubed. Which power of the radius does the skin of a ball need?",
            (x,),
            there="there {0} is cubed",
        )
        yield _diameter(product, _made(product, lead, twice, twice), twice)


def can_surface(expr: Expr, formula: bool) -> Iterator[Wrong]:
    """Yield the wrong moves at 2·π·r² + 2·π·r·h."""
    if formula:
        yield from _one_end(expr)
    found = _ends_and_wall(expr)
    if found is None:
        return
    ends, wall, x, h = found
    single = without(ends.up, 2)
    if single is not None:
        yield Wrong(
            "cylinder-one-base-only",
            plus(_made(ends, *single), _made(wall, whole_number(2), x, h)),
            "Maybe only one round end was counted. How many ends does the can have?",
            there="there only one round end is counted",
        )
    twice = times(whole_number(2), x)
    lead = () if single is None else (whole_number(2),)
    yield _diameter(
        ends, plus(_made(ends, *lead, twice, twice), _made(wall, whole_number(2), twice, h)), twice
    )


def _one_end(expr: Expr) -> Iterator[Wrong]:
    """2B + C·h, from the end and the way around it."""
    terms = terms_seen(expr)
    ends = next((term for term in terms if _is_twice_a_name(term)), None)
    walls = [term for term in terms if term is not ends]
    if ends is None or len(walls) != 1:
        return
    wall = product_seen(walls[0])
    if wall is None or wall.pi or wall.down or wall.minus or not all(isinstance(f, Name) for f in wall.up):
        return
    if len(wall.up) == 2 and isinstance(ends, Mul):
        yield Wrong(
            "cylinder-one-base-only",
            plus(ends.factors[1], walls[0]),
            "Maybe only one end was counted. How many ends does it have?",
            there="there only one end is counted",
        )


def _is_twice_a_name(expr: Expr) -> bool:
    match expr:
        case Mul((Num(value), Name())):
            return value == 2
        case _:
            return False


def _ends_and_wall(expr: Expr) -> tuple[Product, Product, Expr, Expr] | None:
    """Return the ends, the wall, the radius and the height of a can."""
    terms = terms_seen(expr)
    if len(terms) == 1:
        return _from_one_product(expr)
    if len(terms) != 2:
        return None
    seen = [product_seen(term) for term in terms]
    for ends, wall in (seen, seen[::-1]):
        if ends is None or wall is None or ends.pi is None or wall.pi is None or ends.down or wall.down:
            continue
        squared = _squared(without(ends.up, 2) or ends.up)
        around = without(wall.up, 2)
        if squared is None or squared[1] or around is None or len(around) != 2 or wall.minus or ends.minus:
            continue
        x = squared[0]
        if alike(x, around[0]) or alike(x, around[1]):
            return ends, wall, x, around[1] if alike(x, around[0]) else around[0]
    return None


def _from_one_product(expr: Expr) -> tuple[Product, Product, Expr, Expr] | None:
    """2·π·r·(r + h)."""
    product = product_seen(expr)
    if product is None or product.pi is None or product.down or len(product.up) != 3 or product.minus:
        return None
    rest = without(product.up, 2)
    if rest is None:
        return None
    for x, both in (rest, rest[::-1]):
        if isinstance(both, Add) and len(both.terms) == 2:
            for first, h in (both.terms, both.terms[::-1]):
                if alike(first, x):
                    ends = replace(product, up=(whole_number(2), x, x))
                    return ends, replace(product, up=(whole_number(2), x, h)), x, h
    return None
