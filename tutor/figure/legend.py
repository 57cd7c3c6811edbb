"""What is told below a drawing because it finds no good place inside: names stay, values go down."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from tutor.figure.placing import Placed, Wish
from tutor.figure.scene import Label


@dataclass(frozen=True, slots=True)
class Told:
    """What stands at each label's place ("" for nothing), and the entries below the drawing."""

    places: tuple[str, ...]
    below: tuple[str, ...]


def short_form(text: str) -> str:
    """Return the name out of ``name = value``, which may stand alone at its place; else ""."""
    name, equals, value = text.partition(" = ")
    return name.strip() if equals and value.strip() else ""


def told(
    labels: Sequence[Label],
    texts: Sequence[str],
    wishes: Sequence[Wish],
    placed: Placed,
    fits: Callable[[str], bool],
) -> Told:
    """Tell which label stands in the drawing whole, which by its name alone, and which not at all.

    ``fits`` tells whether a text is narrow enough for a row: else it goes without what it names.
    """
    places: list[str] = []
    below: list[str] = []
    for label, text, wish, box in zip(labels, texts, wishes, placed.boxes, strict=True):
        if box is None:
            places.append("")
            whole = f"{label.role}: {text}"
            below.append(whole if fits(whole) else text)
        elif box.right - box.left == wish.across:
            places.append(text)
        else:
            places.append(short_form(text))
            below.append(text)
    return Told(tuple(places), tuple(below))


def in_rows(
    entries: Sequence[str], gap: str, width: Callable[[str], float], widest: float
) -> tuple[str, ...]:
    """Return the entries in rows no wider than ``widest``, a gap between them, a wider entry by itself."""
    rows: list[str] = []
    for entry in entries:
        longer = f"{rows[-1]}{gap}{entry}" if rows else entry
        if rows and width(longer) <= widest:
            rows[-1] = longer
        else:
            rows.append(entry)
    return tuple(rows)
