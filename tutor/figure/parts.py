"""What the builders of figures share: directions, labels, and the words of a refusal."""

import math
from collections.abc import Mapping

from tutor.figure.lettering import clean
from tutor.figure.scene import Label, Point, Scene, Spot, polar

# A scene, or None and one sentence why the figure cannot exist.
Drawn = tuple[Scene | None, str]

UP, DOWN, LEFT, RIGHT = Point(0, 1), Point(0, -1), Point(-1, 0), Point(1, 0)
MIDST = Point(0, 0)  # no way outward: the label belongs on the very spot


def slanted(degrees: float) -> Point:
    """Return the direction at an angle, for a label that moves outward that way."""
    return polar(Point(0, 0), 1, degrees)


def written(labels: Mapping[str, str], *places: tuple[str, *tuple[Spot, ...]]) -> tuple[Label, ...]:
    """Return a label for each place (role, then its spots, best first) that has a text to show."""
    texts = {role: clean(text) for role, text in labels.items()}
    return tuple(
        Label(role, texts[role], spots)
        for role, *rest in places
        if texts.get(role) and (spots := tuple(rest))
    )


def alike(left: float, right: float) -> bool:
    """Tell whether two sizes are one, up to what floating point loses."""
    return math.isclose(left, right, rel_tol=1e-6)


def number(value: float) -> str:
    """Return a size as it is written in a sentence."""
    return f"{value:.6g}"


def lacking(figure: str, roles: tuple[str, ...]) -> str:
    """Return the sentence that asks for sizes that are not known."""
    names = " and ".join(roles)
    return f"To draw the {figure}, its {names} must be known."
