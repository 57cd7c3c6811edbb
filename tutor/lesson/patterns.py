"""Patterns to begin a lesson from: a small good lesson of each kind, to be changed by its teacher."""

from __future__ import annotations

from collections.abc import Mapping
from difflib import get_close_matches
from pathlib import Path
from types import MappingProxyType

from tutor.lesson.reader import FORMAT, SUFFIX
from tutor.visible import spelled


def _lesson(title: str, body: str, card: str = "") -> str:
    return (
        "# Change the numbers and the words, then ask: evenline audit and the name of this file.\n\n"
        f"lesson   {title}\nformat   {FORMAT}\ngrade    7\n{card}\n{body}"
    )


PATTERNS: Mapping[str, str] = MappingProxyType(
    {
        "equation": _lesson(
            "Equations",
            "problem  Paper strips\n"
            "  vary     a from 3 to 8\n"
            "  vary     k from 5 to 12\n"
            "  ask      {a} teams cut the same number n of paper strips, and 15 strips are ready.\n"
            "           Together that is {a k + 15}. How many strips does each team cut?\n"
            "  equation {a}n + 15 = {a k + 15}\n"
            "  find     n\n",
            "covers   7.EE.B.4a\n",
        ),
        "inequality": _lesson(
            "Inequalities",
            "problem  Rides\n"
            "  vary     c in 4, 5, 7\n"
            "  vary     m from 7 to 11\n"
            "  ask      It costs $12 to enter, and each ride costs ${c}. You have ${c m + 12}.\n"
            "           Write an inequality and solve it: how many rides r can you pay for?\n"
            "  equation {c}r + 12 <= {c m + 12}\n"
            "  find     r\n",
            "covers   7.EE.B.4b\n",
        ),
        "circle": _lesson(
            "Circles",
            "problem  Hoop\n"
            "  vary     r from 6 to 15 step 0.5\n"
            "  ask      A hoop is bent from C = {C} of cane. How long is its radius r?\n"
            "           Use 3.14 for π.\n"
            "  figure   circle, radius r, circumference C\n"
            "  formula  C = 2 pi r\n"
            "  given    C = 2 * 3.14 * r cm\n"
            "  find     r in cm\n",
            "covers   7.G.B.4\npi       3.14\n",
        ),
        "angles": _lesson(
            "Angles",
            "problem  Strut\n"
            "  vary     k from 10 to 18\n"
            "  ask      A strut meets a straight rail. The angles at it are A = ({A})° and\n"
            "           B = ({B})°. How large are they?\n"
            "  figure   angles, first A, second B\n"
            "  formula  A + B = 180\n"
            "  given    A = 3x + 12\n"
            "  given    B = 5x + {168 - 8 k}\n"
            "  find     A and B in °\n"
            "  check    the answer\n",
            "covers   7.G.B.5\n",
        ),
        "box": _lesson(
            "Boxes",
            "problem  Box of candles\n"
            "  vary     L in 12, 14, 16, 18\n"
            "  vary     W from 7 to 11\n"
            "  ask      The candles fill a box of V = {V}. It is L = {L} long and H = {H}\n"
            "           high. How wide (W) is it?\n"
            "  figure   box, length L, width W, height H, volume V\n"
            "  formula  V = L W H\n"
            "  given    V = {L W * 6} cm^3\n"
            "  given    L = {L} cm\n"
            "  given    H = 6 cm\n"
            "  find     W in cm\n",
            "covers   7.G.B.6\n",
        ),
        "pieces": _lesson(
            "Pieces added up",
            "problem  Lantern walls\n"
            "  vary     L in 24, 26, 28\n"
            "  vary     W in 15, 17, 19\n"
            "  ask      A lantern is a box, L = {L} long, W = {W} wide and H = {H} high.\n"
            "           Paper covers its four walls. How much paper is that?\n"
            "  figure   box, length L, width W, height H\n"
            "  piece    front = L H\n"
            "  piece    side = W H\n"
            "  formula  S = 2 front + 2 side\n"
            "  given    L = {L} cm\n"
            "  given    W = {W} cm\n"
            "  given    H = 40 cm\n"
            "  find     S in cm^2\n",
            "covers   7.G.B.6\n",
        ),
        "parts": _lesson(
            "Questions in turn",
            "problem  Banner\n"
            "  vary     L in 80, 90, 120\n"
            "  ask      A banner is L = {L} long and W = {W} wide.\n"
            "  figure   rectangle, length L, width W\n"
            "  formula  A = L W\n"
            "  formula  P = 2 L + 2 W\n"
            "  given    L = {L} cm\n"
            "  given    W = 35 cm\n"
            "  part     How much cloth (A) is it?\n"
            "  find     A in cm^2\n"
            "  part     A ribbon goes round its edge. How long (P) is the ribbon?\n"
            "  find     P in cm\n",
            "covers   7.EE.B.3\n",
        ),
        "triangle": _lesson(
            "Three lengths",
            "problem  Struts\n"
            "  vary     c from 8 to 14\n"
            "  ask      Three struts are 5 cm, 6 cm and {c} cm long. Can they make a triangle?\n"
            "           Write the comparison, then yes or no.\n"
            "  triangle 5 cm, 6 cm, {c} cm\n",
            "covers   7.G.A.2\n",
        ),
        "many": _lesson(
            "How many triangles",
            "problem  Frames\n"
            "  ask      A frame has the sides a = {a} and b = {b}, and the angle C = {C} is\n"
            "           between them. How many different triangles can it be?\n"
            "  many     triangles\n"
            "  given    a = 5 cm\n"
            "  given    b = 7 cm\n"
            "  given    C = 50°\n",
            "covers   7.G.A.2\n",
        ),
        "draw": _lesson(
            "Drawing",
            "problem  Sail\n"
            "  ask      Draw a triangle with c = {c}, and at its ends the angles A = {A} and\n"
            "           B = {B}. Measure its other sides.\n"
            "  draw     triangle\n"
            "  given    c = 8 cm\n"
            "  given    A = 50°\n"
            "  given    B = 60°\n"
            "  find     a and b in cm\n"
            "  within   2 mm and 2°\n",
            "covers   7.G.A.2\n",
        ),
        "choose": _lesson(
            "Choices",
            "problem  Straight down\n"
            "  ask      A box is cut straight down. Which shape has the cut?\n"
            "  choose   triangle, rectangle, circle\n"
            "  answer   rectangle\n",
            "covers   7.G.A.3\n",
        ),
        "word": _lesson(
            "Words",
            "problem  Once round\n"
            "  word     circumference\n"
            "  means    the way once round a circle\n"
            "  near     radius, diameter, chord\n\n"
            "problem  To the middle\n"
            "  word     radius\n"
            "  means    the way from the middle of a circle to its edge\n"
            "  near     diameter, chord, circumference\n"
            "  choose   words\n",
            "covers   7.G.B.4\n",
        ),
        "write": _lesson(
            "Formulas",
            "problem  Sail\n"
            "  ask      A sail is a triangle with base b and height h. Write the formula for\n"
            "           its area A.\n"
            "  formula  A = b h / 2\n"
            "  write    A\n",
            "covers   6.G.A.1\n",
        ),
        "show": _lesson(
            "Show why",
            "problem  Strip\n"
            "  ask      A paper disc is cut into slices and laid as a strip. Its length P is\n"
            "           half of the circumference C. Show why P = πr, then say it in a sentence.\n"
            "  formula  C = 2 pi r\n"
            "  formula  P = C / 2\n"
            "  show     P = pi r\n"
            "  reason   Half of 2πr is πr, so the strip is πr long.\n",
            "covers   7.G.B.4\n",
        ),
        "review": (
            "# A review draws from lessons in its own folder: put their names in place of these.\n\n"
            f"lesson   Review\nformat   {FORMAT}\ngrade    7\n\nreview   8 from hoops, windows\n"
        ),
    }
)
"""The name of each pattern and the text of its lesson."""


def write_pattern(name: str, path: Path) -> tuple[bool, str]:
    """Begin a lesson: write the pattern of a name into a new file, and never over one that is there.

    Returns whether it was written, and a sentence that says what to do next.
    """
    text = PATTERNS.get(name.casefold())
    shown = spelled(str(path))
    if text is None:
        near = get_close_matches(name[:40].casefold(), PATTERNS, n=1, cutoff=0.6)
        meant = f" Did you mean {near[0]}?" if near else ""
        return False, f"There is no pattern “{spelled(name[:40])}”.{meant} There are {', '.join(PATTERNS)}."
    if path.suffix.casefold() != SUFFIX:
        return False, f"The name of a lesson file ends in {SUFFIX}. Write {shown}{SUFFIX}."
    try:
        with path.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except FileExistsError:
        return False, f"{shown} is there already and was left as it is. Take another name."
    except FileNotFoundError:
        return False, f"The folder of {shown} is not there. Make it first."
    except (OSError, ValueError):  # ValueError: a name with a NUL in it
        return False, f"{shown} cannot be written. Look at the name and the folder."
    typed = f'"{shown}"' if " " in shown else shown
    return True, f"{shown} is written. Change its words and numbers, then: evenline audit {typed}"
