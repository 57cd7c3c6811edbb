"""What the lines of a solution are marked against."""

from dataclasses import dataclass
from enum import Enum
from typing import NamedTuple, TypeAlias

from tutor.line.names import plain
from tutor.marking.verdict import Step
from tutor.quantity.pi import Pi


class Rounding(Enum):
    """Which way an answer is rounded: boxes are counted up, whole strips out of a roll down."""

    NEAREST = "to"
    UP = "up"
    DOWN = "down"


class Precision(NamedTuple):
    """How one answer is rounded: its name as the task writes it, to how many decimal places, which way."""

    name: str
    places: int
    rounding: Rounding = Rounding.NEAREST

    @property
    def one_way(self) -> bool:
        """Tell whether it is rounded up or down: what is counted, and not how well it is known."""
        return self.rounding is not Rounding.NEAREST

    @property
    def must(self) -> bool:
        """Tell whether the answer has to be rounded, and not only may be: one way, or to whole things."""
        return self.places == 0 or self.one_way


@dataclass(frozen=True, slots=True)
class Task:
    """One thing to be worked out, as text in the same writing that students use.

    ``formulas``: the relations of the problem, e.g. ``("V = L W H",)``.
    ``givens``: name and value, e.g. ``(("V", "420 cm^3"), ("A", "3x + 12"))``.
    ``find``: the names asked for. ``units``: one unit for each name of ``find`` ("" where
    none is asked). ``names``: further names the problem declares (words such as
    ``SA`` or ``angle A``). ``measures``: names that are lengths, areas, volumes, so positive.
    ``places``: decimal places the answer may be rounded to, None where rounding is not asked;
    ``rounding``: which way. Where answers are rounded differently, or some are not, ``rounded`` says of
    each that is, how, and the two others say nothing. What follows from an answer that has to be
    rounded goes on from the rounded one: seven boxes are paid for, and not 6.25.
    ``check``: a line that puts the answer back is asked for at the end.
    ``steps``: the steps that are required beside the answer and its unit; with ``every_step`` all are.
    Without formulas and givens the first line of work is the premise.

    Three kinds of problem have something else to reach than a value. ``lengths``: three lengths
    with their units, can they make a triangle; the comparison is written out, then yes or no.
    ``goals``: lines to be written, in any equivalent form: the formula that is asked for, or the end
    of a derivation. ``sentence``: a sentence in words is asked for beside them, and not judged.
    """

    formulas: tuple[str, ...] = ()
    givens: tuple[tuple[str, str], ...] = ()
    find: tuple[str, ...] = ()
    units: tuple[str, ...] = ()
    pi: Pi = Pi.EXACT
    every_step: bool = False
    names: tuple[str, ...] = ()
    measures: tuple[str, ...] = ()
    places: int | None = None
    rounding: Rounding = Rounding.NEAREST
    check: bool = False
    steps: tuple[Step, ...] = ()
    lengths: tuple[str, ...] = ()
    goals: tuple[str, ...] = ()
    sentence: bool = False
    rounded: tuple[Precision, ...] = ()

    @property
    def rounds(self) -> bool:
        """Tell whether some answer is rounded."""
        return self.places is not None or bool(self.rounded)

    @property
    def precisions(self) -> tuple[Precision, ...]:
        """Return how each answer that is rounded is rounded, in the order in which they are asked for."""
        told = (self.precision_of(name) for name in self.find)
        return tuple(one for one in told if one is not None)

    def precision_of(self, name: str) -> Precision | None:
        """Return how the answer of a name is rounded, None where it is not."""
        if self.rounded:
            return next((one for one in self.rounded if name in (one.name, plain(one.name))), None)
        return None if self.places is None else Precision(name, self.places, self.rounding)


@dataclass(frozen=True, slots=True)
class ChoiceTask:
    """Choose and name: ``options`` as they are shown, A, B, C …; ``right`` are those that fit.

    An answer is the letter or the words of an option. Where several are right, all are wanted, in
    one line with commas or "and" between them.
    """

    options: tuple[str, ...]
    right: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class WordTask:
    """The word for a meaning. ``also``: other words that mean the same and are right too.

    A small misspelling is said and not failed, unless it makes one of ``near``, the neighbours of
    the word.
    """

    word: str
    also: tuple[str, ...] = ()
    near: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class DrawingTask:
    """A triangle to be drawn on paper, measured and typed, one ``name = value`` a line or more.

    Sides a, b and c lie opposite the angles A, B and C. ``givens``: three parts that settle it,
    name and value (``("c", "6 cm")``, ``("A", "50°")``). ``measure``: the other parts to be
    measured. ``unit``: the unit of the sides. ``within_length`` in millimetres and
    ``within_angle`` in degrees are how far a given part may be off, as decimal text.
    """

    givens: tuple[tuple[str, str], ...]
    measure: tuple[str, ...]
    unit: str = "cm"
    within_length: str = "2"
    within_angle: str = "2"


AnyTask: TypeAlias = Task | ChoiceTask | WordTask | DrawingTask
