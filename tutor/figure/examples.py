"""An example of each kind of figure: how a lesson writes it, and sizes that make a good drawing.

The sizes also draw a figure that speaks of none, in a problem that asks for a formula or a reason.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class Example:
    """``entry``: the words behind ``figure`` in a lesson. ``sizes``: role -> size, in units or degrees."""

    entry: str
    sizes: Mapping[str, float]


EXAMPLES: Mapping[str, Example] = MappingProxyType(
    {
        "circle": Example("circle, radius r, circumference C", {"radius": 6}),
        "half circle": Example("half circle, diameter d, bow b, area A", {"radius": 6}),
        "ring": Example(
            "ring, outer radius R, inner radius r, area A", {"outer radius": 9, "inner radius": 6}
        ),
        "strip": Example("strip, radius r, length L, 12 sectors", {"radius": 6}),
        "track": Example("track, straight s, ends d, path P", {"straight": 20, "ends": 12}),
        "rectangle": Example("rectangle, length L, width W, area A", {"length": 9, "width": 5}),
        "square": Example("square, side s, perimeter P", {"side": 6}),
        "frame": Example(
            "frame, outer length F, outer width G, border b, length L, width W",
            {"outer length": 48, "outer width": 35, "border": 4.5},
        ),
        "rectangle with hole": Example(
            "rectangle with hole, length L, width W, hole radius r",
            {"length": 16, "width": 10, "hole length": 8, "hole width": 4, "hole radius": 3},
        ),
        "square with hole": Example(
            "square with hole, side s, hole side h", {"side": 12, "hole side": 5, "hole radius": 3}
        ),
        "parallelogram": Example("parallelogram, base b, height h, area A", {"base": 10, "height": 6}),
        "trapezoid": Example("trapezoid, bottom b, top t, height h", {"bottom": 12, "top": 7, "height": 6}),
        "L-shape": Example(
            "L-shape, length a, width b, top c, right d",
            {"length": 12, "width": 9, "top": 5, "right": 4},
        ),
        "T-shape": Example(
            "T-shape, bar length a, bar width b, stem width c, stem length d",
            {"bar length": 12, "bar width": 3, "stem width": 4, "stem length": 6},
        ),
        "rectangle with triangle": Example(
            "rectangle with triangle, length L, width W, height h, first area R, second area T",
            {"length": 12, "width": 8, "height": 4},
        ),
        "rectangle with half circle": Example(
            "rectangle with half circle, length L, width W, bow b", {"length": 8, "width": 7}
        ),
        "triangle": Example("triangle, base b, height h, area A", {"base": 12, "height": 6}),
        "right triangle": Example("right triangle, base a, height b, long side c", {"base": 8, "height": 6}),
        "angles": Example("angles, first A, second B", {"first": 128, "second": 52}),
        "straight angle": Example(
            "straight angle, first A, second B, third C", {"first": 55, "second": 75, "third": 50}
        ),
        "right angle": Example("right angle, first A, second B", {"first": 35, "second": 55}),
        "crossing": Example("crossing, left A, top B, right C", {"left": 50}),
        "parallel lines": Example(
            "parallel lines, upper top left A, lower bottom right B", {"upper top right": 62}
        ),
        "triangle angles": Example("triangle angles, left A, right B, top C", {"left": 50, "right": 70}),
        "box": Example("box, length L, width W, height H, volume V", {"length": 14, "width": 9, "height": 6}),
        "cube": Example("cube, edge a, cut off a corner", {"edge": 6}),
        "box net": Example(
            "box net, length L, width W, height H, front F, top T, right S",
            {"length": 10, "width": 4, "height": 6},
        ),
        "prism": Example(
            "prism, base b, height h, length L, left side s", {"base": 8, "height": 6, "length": 12}
        ),
        "prism net": Example(
            "prism net, base b, height h, length L, left side s, front F, bottom B",
            {"base": 6, "height": 4, "length": 9},
        ),
        "pyramid": Example("pyramid, base a, height h, cut across", {"base": 8, "height": 9}),
        "cylinder": Example("cylinder, radius r, height h, cut slanted", {"radius": 4, "height": 10}),
        "cone": Example("cone, radius r, height h, slant s", {"radius": 5, "height": 10}),
        "sphere": Example("sphere, radius r, cut across", {"radius": 6}),
    }
)
"""Every kind of figure, with its example."""
