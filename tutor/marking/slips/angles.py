"""Wrong moves with angles, and with the squares on the sides of a right triangle: whole equations."""

from collections.abc import Iterator

from tutor.line.tree import Add, Div, Expr, Measure, Mul, Name, Neg, Num, whole_number
from tutor.line.walk import names_in
from tutor.marking.slips.flat_shapes import is_square, squares_added
from tutor.marking.slips.shapes import plain_value, plus, terms_seen
from tutor.marking.slips.wrong import Wrong, WrongEquation

_LINE = "Maybe 90 was used. What do two angles on a straight line add up to?"
_CORNER = "Maybe 180 was used. What do the two angles of a square corner add up to?"
_TRIANGLE = "Maybe 360 was used. What do the three angles of a triangle add up to?"
_OPPOSITE = "Maybe the angles were taken for neighbours. Are they side by side, or opposite?"
_SCALE = "Maybe the other scale was read. Is the angle wider or narrower than a square corner?"

# (the sum, what was taken for it, the slip, its message)
_SUMS = (
    (180, 90, "supplement-to-90", _LINE),
    (90, 180, "complement-to-180", _CORNER),
    (180, 360, "triangle-sum-360", _TRIANGLE),
)
SUMS_OF_ANGLES = frozenset({90, 180, 360})


def angle_taken_from(expr: Expr, formula: bool) -> Iterator[Wrong]:
    """Yield ``90 − a`` for ``180 − a`` and the like."""
    terms = terms_seen(expr)
    if len(terms) < 2:
        return
    for at, term in enumerate(terms):
        if not isinstance(plain_value(term), Num):
            continue
        if not all(isinstance(other, Neg) for other in terms[:at] + terms[at + 1 :]):
            continue
        for right, wrong, name, says in _SUMS:
            if _is(term, right):
                made = plus(*terms[:at], whole_number(wrong), *terms[at + 1 :])
                yield Wrong(name, made, says, there=f"there {wrong} is used", shown=whole_number(wrong))


def turned_around(expr: Expr, formula: bool) -> Iterator[Wrong]:
    """Yield ``180 − a`` for a number alone: opposite angles, or the other scale of a protractor."""
    value = plain_value(expr)
    if not isinstance(value, Num) or not 0 < value.value < 180 or value.value == 90:
        return
    tree = Add((whole_number(180), Neg(value)))
    yield Wrong("vertical-angles-added-to-180", tree, _OPPOSITE)
    yield Wrong("protractor-wrong-scale", tree, _SCALE)


def angle_equations(left: Expr, right: Expr) -> Iterator[WrongEquation]:
    """Yield an equation with another sum of angles: ``a + b = 90`` for ``a + b = 180``."""
    for total, parts in ((right, left), (left, right)):
        for wanted, wrong, name, says in _SUMS:
            if _is(total, wanted) and _may_be(parts, wrong):
                told = whole_number(wrong)
                yield WrongEquation(name, parts, told, says, there=f"there {wrong} is used", shown=told)
    yield WrongEquation("vertical-angles-added-to-180", plus(left, right), whole_number(180), _OPPOSITE)


def _may_be(parts: Expr, wrong: int) -> bool:
    """Two bare names are a pair, three are a triangle; with numbers worked in it could be either."""
    terms = terms_seen(parts)
    if isinstance(plain_value(parts), Num):
        return False
    if all(isinstance(term, Name) for term in terms) and len(terms) > 1:
        return (len(terms) > 2) == (wrong == 360)
    return len(terms) > 1 or _so_many_angles(terms[0])


def _so_many_angles(term: Expr) -> bool:
    """``3x`` may be three equal angles, ``P · 0.06 · 3`` is none."""
    match plain_value(term):
        case Name():
            return True
        case Mul((Num(value=times), Name())):
            return times.denominator == 1
        case Div(Name(), Num()):
            return True
        case _:
            return False


def _is(expr: Expr, value: int) -> bool:
    inner = plain_value(expr)
    if isinstance(expr, Measure) and str(expr.unit) != "°":
        return False
    return isinstance(inner, Num) and inner.value == value


def right_triangle(left: Expr, right: Expr) -> Iterator[WrongEquation]:
    """Yield ``b² = c² + a²`` for ``a² + b² = c²``."""
    for legs, longest in ((left, right), (right, left)):
        terms = terms_seen(legs)
        if len(terms) != 2 or not is_square(longest) or not all(is_square(term) for term in terms):
            continue
        if names_in(longest) and not names_in(legs):
            continue  # the longest side is asked: its square is a sum
        for leg, other in ((terms[0], terms[1]), (terms[1], terms[0])):
            wrong = squares_added(longest, other)
            yield WrongEquation(
                wrong.name, leg, wrong.tree, wrong.says, wrong.about, there=wrong.there, known=longest
            )
