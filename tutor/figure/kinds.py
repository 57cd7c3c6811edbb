"""The kinds of figure, in one table: add a builder and its row, and lessons can use it."""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from tutor.figure import angles, curved, nets, pieced, round_solids, slanting, solids, straight, triangles
from tutor.figure.parts import Asked, Builder, Drawn, number

# Beyond these a float no longer holds the figure; no school problem comes near.
_SMALLEST, _LARGEST = 1e-6, 1e9


@dataclass(frozen=True, slots=True)
class _Kind:
    """What draws a figure, the roles of its parts, and the words that may stand alone.

    The sizes that a figure needs come first, then roles that may be known instead of them, then
    those that are only labelled.
    """

    builder: Builder
    roles: tuple[str, ...]
    words: tuple[str, ...] = ()


_CUTS = solids.CUTS

_TABLE: dict[str, _Kind] = {
    "circle": _Kind(curved.circle, ("radius", "diameter", "circumference", "area")),
    "half circle": _Kind(curved.half_circle, ("radius", "diameter", "bow", "area", "perimeter")),
    "ring": _Kind(
        curved.ring,
        ("outer radius", "inner radius", "border", "outer diameter", "inner diameter", "area"),
    ),
    "strip": _Kind(
        curved.strip, ("radius", "circumference", "length", "height", "area"), tuple(curved.SECTORS)
    ),
    "track": _Kind(curved.track, ("straight", "ends", "path", "radius", "area")),
    "rectangle": _Kind(straight.rectangle, ("length", "width", "area", "perimeter", "diagonal")),
    "square": _Kind(straight.square, ("side", "area", "perimeter", "diagonal")),
    "frame": _Kind(straight.frame, ("outer length", "outer width", "border", "length", "width", "area")),
    "rectangle with hole": _Kind(
        straight.rectangle_with_hole,
        (
            "length", "width", "hole length", "hole width", "hole radius", "hole diameter",
            "area", "hole area",
        ),
    ),
    "square with hole": _Kind(
        straight.square_with_hole,
        ("side", "hole side", "hole radius", "hole diameter", "area", "hole area"),
    ),
    "parallelogram": _Kind(
        slanting.parallelogram, ("base", "height", "side", "angle", "area", "perimeter")
    ),
    "trapezoid": _Kind(
        slanting.trapezoid, ("bottom", "top", "height", "left side", "right side", "area", "perimeter")
    ),
    "L-shape": _Kind(
        pieced.l_shape,
        (
            "length", "width", "top", "right", "notch length", "notch width",
            "area", "first area", "second area", "perimeter",
        ),
    ),
    "T-shape": _Kind(
        pieced.t_shape,
        (
            "bar length", "bar width", "stem width", "stem length", "height",
            "area", "first area", "second area", "perimeter",
        ),
    ),
    "rectangle with triangle": _Kind(
        pieced.rectangle_with_triangle,
        (
            "length", "width", "height", "side", "whole height",
            "area", "first area", "second area", "perimeter",
        ),
    ),
    "rectangle with half circle": _Kind(
        pieced.rectangle_with_half_circle,
        ("length", "width", "radius", "bow", "area", "first area", "second area", "perimeter"),
    ),
    "triangle": _Kind(
        triangles.triangle,
        (
            "base", "height", "left side", "right side", "left angle", "right angle", "top angle",
            "area", "perimeter",
        ),
    ),
    "right triangle": _Kind(
        triangles.right_triangle,
        ("base", "height", "long side", "right angle", "top angle", "area", "perimeter"),
    ),
    "angles": _Kind(angles.angles, ("first", "second")),
    "straight angle": _Kind(angles.straight_angle, ("first", "second", "third")),
    "right angle": _Kind(angles.right_angle, ("first", "second", "third")),
    "crossing": _Kind(angles.crossing, ("left", "right", "top", "bottom")),
    "parallel lines": _Kind(
        angles.parallel_lines,
        tuple(
            f"{line} {corner}"
            for line in ("upper", "lower")
            for corner in ("top left", "top right", "bottom left", "bottom right")
        ),
    ),
    "triangle angles": _Kind(angles.triangle_angles, ("left", "right", "top", "outside")),
    "box": _Kind(
        solids.box, ("length", "width", "height", "volume", "surface"), (*_CUTS, solids.OFF_A_CORNER)
    ),
    "cube": _Kind(solids.cube, ("edge", "volume", "surface"), (*_CUTS, solids.OFF_A_CORNER)),
    "box net": _Kind(
        nets.box_net,
        (
            "length", "width", "height", "front", "back", "left", "right", "top", "bottom", "surface",
        ),
    ),
    "prism": _Kind(
        solids.prism,
        ("base", "height", "length", "left side", "right side", "area", "volume", "surface"),
        _CUTS,
    ),
    "prism net": _Kind(
        nets.prism_net,
        (
            "base", "height", "length", "left side", "right side",
            "front", "back", "bottom", "left face", "right face", "surface",
        ),
    ),
    "pyramid": _Kind(
        solids.pyramid,
        ("base", "height", "width", "slant", "edge", "volume", "surface"),
        (*_CUTS, solids.OFF_THE_TOP),
    ),
    "cylinder": _Kind(
        round_solids.cylinder,
        ("radius", "height", "diameter", "circumference", "base area", "volume", "surface"),
        _CUTS,
    ),
    "cone": _Kind(
        round_solids.cone,
        ("radius", "height", "diameter", "slant", "circumference", "base area", "volume", "surface"),
        _CUTS,
    ),
    "sphere": _Kind(
        round_solids.sphere, ("radius", "diameter", "circumference", "volume", "surface"), _CUTS
    ),
}  # fmt: skip

FIGURE_KINDS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {name: kind.roles for name, kind in _TABLE.items()}
)
"""Every kind of figure, with all the roles that its parts may have."""

FIGURE_WORDS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {name: kind.words for name, kind in _TABLE.items()}
)
"""Every kind of figure, with the words that may stand alone among its parts: ``cut across``."""

_ALL_ANGLES = frozenset(
    {"angles", "straight angle", "right angle", "crossing", "parallel lines", "triangle angles"}
)
_KINDS_BY_FOLD = {name.casefold(): name for name in _TABLE}


def kind_called(name: str) -> str:
    """Return the kind of figure that is written so, in capitals or not; "" for none."""
    return _KINDS_BY_FOLD.get(" ".join(name.casefold().split()), "")


def is_angle(kind: str, role: str) -> bool:
    """Tell whether a part of a figure is an angle, in degrees, and no length, area or volume."""
    return kind in _ALL_ANGLES or role.endswith("angle")


def draw(
    kind: str,
    sizes: Mapping[str, float],
    labels: Mapping[str, str],
    words: Iterable[str] = (),
    *,
    in_pieces: bool = True,
) -> Drawn:
    """Draw a figure to scale.

    ``sizes``: role -> size in the problem's unit, degrees for angles. ``labels``: role -> the text
    shown there now; it may be any text at all. ``words``: those of FIGURE_WORDS that are said of it.
    ``in_pieces``: an area that is put together shows where its pieces meet.
    Returns the scene and "", or None and a sentence why the figure cannot exist. Roles that only name
    something, such as an area, may have a size: where the other sizes settle the figure, it is not
    looked at.
    """
    if kind not in _TABLE:
        return None, f"There is no figure called {kind}. There are: {', '.join(_TABLE)}."
    found, said = _TABLE[kind], frozenset(words)
    for role in (*sizes, *labels):
        if role not in found.roles:
            return None, f"A {kind} has no {role}. It may have: {', '.join(found.roles)}."
    for word in sorted(said):
        if word not in found.words:
            return (
                None,
                f"Of a {kind} nobody can say {word}. Words for it: {', '.join(found.words) or 'none'}.",
            )
    for role, size in sizes.items():
        if not math.isfinite(size):
            return None, f"The {role} must be a number."
        if size <= 0:
            return None, f"The {role} must be more than 0, not {number(size)}."
        if not _SMALLEST <= size <= _LARGEST:
            return None, f"A {role} of {number(size)} is too {'small' if size < 1 else 'large'} to draw."
    return found.builder(Asked(sizes, labels, said, in_pieces))
