"""All wrong moves at a shape. Spans in what is returned mean nothing: equal shapes are kept once."""

from functools import lru_cache

from tutor.line.tree import Expr
from tutor.marking.slips.angles import angle_equations, angle_taken_from, right_triangle, turned_around
from tutor.marking.slips.flat_shapes import (
    around,
    border,
    halves,
    rectangle,
    scaled_sizes,
    squares_apart,
    thirds,
)
from tutor.marking.slips.round_shapes import can_surface, circles
from tutor.marking.slips.solid_shapes import box_faces, box_space, pieces_added
from tutor.marking.slips.wrong import Recogniser, Wrong, WrongEquation

# Shapes that can be told inside a longer sum: they have π, a half, a third or two squares in them.
_TOLD_APART: tuple[Recogniser, ...] = (can_surface, circles, halves, squares_apart, thirds)
_PARTS: tuple[Recogniser, ...] = (*_TOLD_APART, pieces_added)
_WHOLE: tuple[Recogniser, ...] = (
    *_TOLD_APART,
    scaled_sizes,
    box_faces,
    box_space,
    around,
    rectangle,
    angle_taken_from,
    turned_around,
)


@lru_cache(maxsize=1024)
def wrongs_at(expr: Expr, whole: bool) -> tuple[Wrong, ...]:
    """Return the wrong moves at a part of a line; ``whole``: it is a whole side."""
    return tuple(wrong for find in (_WHOLE if whole else _PARTS) for wrong in find(expr, False))


@lru_cache(maxsize=256)
def wrong_formulas(expr: Expr, whole: bool, lengths: bool) -> tuple[Wrong, ...]:
    """Return the wrong moves at a side of a formula or a part of it.

    ``lengths``: it adds lengths, so that a part may be a border.
    """
    finders = _WHOLE if whole else _PARTS
    return tuple(wrong for find in (*finders, *((border,) if lengths else ())) for wrong in find(expr, True))


@lru_cache(maxsize=512)
def wrong_equations(left: Expr, right: Expr) -> tuple[WrongEquation, ...]:
    """Return the wrong moves at a whole equation."""
    return (*right_triangle(left, right), *angle_equations(left, right))
