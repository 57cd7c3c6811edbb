"""What the lines of a solution are marked against."""

from dataclasses import dataclass
from enum import Enum
from typing import TypeAlias

from tutor.marking.verdict import Step
from tutor.quantity.pi import Pi


class Rounding(Enum):
    """Which way an answer is rounded: boxes are counted up, whole strips out of a roll down."""

    NEAREST = "to"
    UP = "up"
    DOWN = "down"


@dataclass(frozen=True, slots=True)
class Task:
    """One thing to be worked out, as text in the same writing that students use.

    ``formulas``: the relations of the problem, e.g. ``("V = L W H",)``.
    ``givens``: name and value, e.g. ``(("V", "420 cm^3"), ("A", "3x + 12"))``.
    ``find``: the names asked for. ``units``: one unit for each name of ``find`` ("" where
    none is asked). ``names``: further names the problem declares (words such as
    ``SA`` or ``angle A``). ``measures``: names that are lengths, areas, volumes, so positive.
    ``places``: decimal places the answer may be rounded to, None where rounding is not asked;
    ``rounding``: which way. ``check``: a line that puts the answer back is asked for at the end.
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
