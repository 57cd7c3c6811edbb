"""How big a value can get, before anything is worked out."""

from tutor.line.tree import Abs, Add, Div, Expr, Mul, Name, Neg, Num, Pow, Root
from tutor.line.walk import every, names_in, parts

MAX_BITS = 2048
MAX_POWER = 8
MAX_ROOT = 6
MAX_NODES = 120
MAX_DEGREE = 12
MAX_BARS = 2


def within_school_size(expr: Expr, *, solved: bool) -> bool:
    """Tell whether a side is small enough to be put to the slower decision.

    Sums, products and powers are bounded by the bits that their value could have; a power
    with a name in it counts by its exponent, and an exponent that is no small fraction is
    beyond school work. ``solved``: an equation is to be solved, not only a value compared.
    """
    bars = sum(isinstance(node, Abs) for node in every(expr))
    small = _nodes(expr) <= MAX_NODES and bars <= MAX_BARS
    if solved and _degree(expr) > MAX_DEGREE:
        return False
    return small and _bits(expr) is not None


def _degree(expr: Expr) -> int:
    """Return the highest power that a name could have once everything is multiplied out."""
    match expr:
        case Num():
            return 0
        case Name():
            return 1
        case Mul(factors):
            return sum(map(_degree, factors))
        case Div(top, bottom):
            return _degree(top) + _degree(bottom)
        case Pow(base, Num(value)):
            return _degree(base) * max(1, int(value)) if value < MAX_DEGREE * 4 else MAX_DEGREE + 1
        case _:
            return max(map(_degree, parts(expr)), default=0)


def _nodes(expr: Expr) -> int:
    return 1 + sum(map(_nodes, parts(expr)))


def _bits(expr: Expr) -> int | None:
    """Return a bound on the bits of a value (a name counts as one), None where it is too big."""
    match expr:
        case Num(value):
            found: int | None = value.numerator.bit_length() + value.denominator.bit_length()
        case Name():
            found = 1
        case Pow(base, exponent):
            found = _of_power(base, exponent)
        case Root(index, inner):
            found = _bits(inner) if index <= MAX_ROOT else None
        case Add(inside) | Mul(inside):
            found = _together([*inside])
        case Div(top, bottom):
            found = _together([top, bottom])
        case _:
            found = _together([*parts(expr)])
    return None if found is None or found > MAX_BITS else found


def _together(inside: list[Expr]) -> int | None:
    total = 1
    for part in inside:
        bits = _bits(part)
        if bits is None:
            return None
        total += bits
    return total


def _of_power(base: Expr, exponent: Expr) -> int | None:
    bits, own = _bits(base), _bits(exponent)
    if bits is None or own is None:
        return None
    if names_in(exponent):
        return (
            bits + own
            if not names_in(base) and not any(isinstance(p, Pow) for p in parts(exponent))
            else None
        )
    plain = exponent.inner if isinstance(exponent, Neg) else exponent
    if isinstance(plain, Div) and isinstance(plain.top, Num) and isinstance(plain.bottom, Num):
        small = plain.bottom.value.denominator == 1 and 1 <= plain.bottom.value <= MAX_ROOT
        return bits * MAX_POWER if small and plain.top.value <= MAX_POWER else None
    if not isinstance(plain, Num) or plain.value.denominator > MAX_ROOT or plain.value > MAX_POWER * 5:
        return None
    if names_in(base) and plain.value > MAX_POWER:
        return None
    return bits * max(1, int(plain.value))
