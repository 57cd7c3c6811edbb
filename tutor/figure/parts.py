"""What the builders of figures share: what is asked for, directions, outlines, labels, refusals."""

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import wraps

from tutor.figure.lettering import clean
from tutor.figure.scene import AngleArc, Label, Pen, Point, Scene, Segment, Spot, middle, polar

# A scene, or None and one sentence why the figure cannot exist.
Drawn = tuple[Scene | None, str]

UP, DOWN, LEFT, RIGHT = Point(0, 1), Point(0, -1), Point(-1, 0), Point(1, 0)
MIDST = Point(0, 0)  # no way outward: the label belongs on the very spot

Place = tuple[str, *tuple[Spot, ...]]  # a role, then the spots of its label, best first

# Sizes that should agree may have been rounded on the way: this part of a size is let pass.
_ROUNDED = 0.02

# Degrees: in a corner that is narrower nothing can be written.
NARROW = 15.0


@dataclass(frozen=True, slots=True)
class Asked:
    """What a figure is asked for.

    ``sizes``: role -> size in the problem's unit, degrees for angles, all of them positive. ``labels``:
    role -> text. ``words``: what else is said of it, such as ``cut across``. ``in_pieces``: an area is
    worked out, so that a dashed line shows the pieces which a figure is put together from.
    """

    sizes: Mapping[str, float]
    labels: Mapping[str, str]
    words: frozenset[str] = frozenset()
    in_pieces: bool = True

    def names(self, *roles: str) -> bool:
        """Tell whether one of the roles is spoken of, by a size or by a label."""
        return any(role in self.sizes or role in self.labels for role in roles)

    def lacks(self, *roles: str) -> tuple[str, ...]:
        """Return those of the roles whose size is not known."""
        return tuple(role for role in roles if role not in self.sizes)

    def with_sizes(self, sizes: Mapping[str, float]) -> "Asked":
        """Return the same with other sizes."""
        return replace(self, sizes=sizes)


# What draws a figure.
Builder = Callable[[Asked], Drawn]


def slanted(degrees: float) -> Point:
    """Return the direction at an angle, for a label that moves outward that way."""
    return polar(Point(0, 0), 1, degrees)


def at(role: str, *spots: Spot) -> Place:
    """Return a place from spots that come one by one and several together."""
    return (role, *spots)


def written(labels: Mapping[str, str], *places: Place) -> tuple[Label, ...]:
    """Return a label for each place (role, then its spots, best first) that has a text to show."""
    texts = {role: clean(text) for role, text in labels.items()}
    return tuple(
        Label(role, texts[role], spots)
        for role, *rest in places
        if texts.get(role) and (spots := tuple(rest))
    )


def outline(corners: Sequence[Point], roles: Sequence[str] = (), pen: Pen = Pen.EDGE) -> tuple[Segment, ...]:
    """Return the sides from corner to corner and back to the first, with a role each, or none."""
    named = (*roles, *("" for _ in range(len(corners) - len(roles))))
    ends = (*corners[1:], corners[0])
    return tuple(
        Segment(start, end, role, pen) for start, end, role in zip(corners, ends, named, strict=True)
    )


def outside(start: Point, end: Point) -> Spot:
    """Return where a side is named that goes anticlockwise round its figure: beside it, outside."""
    turn = math.degrees(math.atan2(end.y - start.y, end.x - start.x))
    return Spot(middle(start, end), slanted(turn - 90))


def inside(start: Point, end: Point) -> Spot:
    """Return where such a side is named on its inner side."""
    return outside(end, start)


def square_mark(corner: Point, along: Point, up: Point, side: float) -> tuple[Segment, ...]:
    """Return the small square that marks a right angle at ``corner``, between two directions."""
    first = Point(corner.x + along.x * side, corner.y + along.y * side)
    far = Point(first.x + up.x * side, first.y + up.y * side)
    last = Point(corner.x + up.x * side, corner.y + up.y * side)
    return Segment(first, far, pen=Pen.MEASURE), Segment(far, last, pen=Pen.MEASURE)


def angle_mark(
    vertex: Point, begin: float, sweep: float, radius: float, role: str
) -> tuple[AngleArc | Segment, ...]:
    """Return the bow of an angle, or the small square of a right angle."""
    if alike(sweep, 90):
        return square_mark(vertex, slanted(begin), slanted(begin + 90), radius * 0.6)
    return (AngleArc(vertex, radius, begin, sweep, role),)


def between(vertex: Point, begin: float, sweep: float, bow: float, arm: float) -> Spot:
    """Return where an angle is named: outside its bow or, where it is narrow, at the ends of its arms."""
    turn = begin + sweep / 2
    return Spot(polar(vertex, arm * 0.97 if sweep < NARROW else bow, turn), slanted(turn))


def upright_places(role: str, foot: Point, top: Point) -> Place:
    """Return where a height inside a figure is named: at its middle, or lower, where there is more room."""
    spots = []
    for part in (0.5, 0.25):
        at = Point(foot.x + (top.x - foot.x) * part, foot.y + (top.y - foot.y) * part)
        spots += [Spot(at, RIGHT), Spot(at, LEFT)]
    return (role, *spots)


def alike(left: float, right: float) -> bool:
    """Tell whether two sizes are one, up to what floating point loses."""
    return math.isclose(left, right, rel_tol=1e-6)


def agree(left: float, right: float) -> bool:
    """Tell whether two sizes are one, up to what rounding may have changed."""
    return math.isclose(left, right, rel_tol=_ROUNDED)


def number(value: float) -> str:
    """Return a size as it is written in a sentence."""
    return f"{value:.6g}"


def lacking(figure: str, roles: Sequence[str]) -> str:
    """Return the sentence that asks for sizes that are not known."""
    names = " and ".join(roles)
    return f"To draw the {figure}, its {names} must be known."


def needs(figure: str, *roles: str) -> Callable[[Builder], Builder]:
    """Let a builder be asked only with the sizes of these roles; without them it asks for them."""

    def asking(build: Builder) -> Builder:
        @wraps(build)
        def asked_first(asked: Asked) -> Drawn:
            missing = asked.lacks(*roles)
            return (None, lacking(figure, missing)) if missing else build(asked)

        return asked_first

    return asking


def differs(role: str, size: float, known: float, why: str) -> str:
    """Return the sentence for a size that is not what the others make it."""
    return f"The {role} must be {known:.4g}, not {number(size)}: {why}."
