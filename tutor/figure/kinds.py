"""The kinds of figure, in one table: add a builder and its row, and lessons can use it."""

import math
from collections.abc import Callable, Mapping
from types import MappingProxyType

from tutor.figure import curved, straight
from tutor.figure.parts import Drawn, number

_Builder = Callable[[Mapping[str, float], Mapping[str, str]], Drawn]

# Beyond these a float no longer holds the figure; no school problem comes near.
_SMALLEST, _LARGEST = 1e-6, 1e9

# kind -> (what draws it, its roles). The sizes that a figure needs come first, then roles that
# may be known instead of them, then those that are only labelled.
_TABLE: dict[str, tuple[_Builder, tuple[str, ...]]] = {
    "circle": (curved.circle, ("radius", "diameter", "circumference", "area")),
    "box": (straight.box, ("length", "width", "height", "volume")),
    "angles": (curved.angles, ("first", "second")),
    "track": (curved.track, ("straight", "ends", "path")),
    "frame": (straight.frame, ("outer length", "outer width", "border", "length", "width")),
    "rectangle": (straight.rectangle, ("length", "width", "area", "perimeter")),
    "triangle": (straight.triangle, ("base", "height", "first", "second", "third", "area")),
}

FIGURE_KINDS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {kind: roles for kind, (_builder, roles) in _TABLE.items()}
)
"""Every kind of figure, with all the roles that its parts may have."""


def draw(kind: str, sizes: Mapping[str, float], labels: Mapping[str, str]) -> Drawn:
    """Draw a figure to scale.

    ``sizes``: role -> size in the problem's unit, degrees for angles. ``labels``: role -> the text
    shown there now; it may be any text at all. Returns the scene and "", or None and a sentence
    why the figure cannot exist. Roles that only name something, such as an area, may have a size: where the
    other sizes settle the figure, it is not looked at.
    """
    if kind not in _TABLE:
        return None, f"There is no figure called {kind}. There are: {', '.join(_TABLE)}."
    builder, roles = _TABLE[kind]
    for role in (*sizes, *labels):
        if role not in roles:
            return None, f"A {kind} has no {role}. It may have: {', '.join(roles)}."
    for role, size in sizes.items():
        if not math.isfinite(size):
            return None, f"The {role} must be a number."
        if size <= 0:
            return None, f"The {role} must be more than 0, not {number(size)}."
        if not _SMALLEST <= size <= _LARGEST:
            return None, f"A {role} of {number(size)} is too {'small' if size < 1 else 'large'} to draw."
    return builder(sizes, labels)
