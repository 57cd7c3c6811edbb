"""A side working that is true and of no use: the line that takes a number from it breaks."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations

from tutor.line.meaning import Setting, number_of, value_of
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Add, Chain, Expr, Mul, Name, Num, Statement
from tutor.line.walk import changed, every, sides
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.ground import evaluate
from tutor.marking.deciding.state import Known, settings
from tutor.marking.telling.quoting import quoted
from tutor.marking.telling.why import Why
from tutor.marking.verdict import Reason

_MOST_PARTS = 5
_BLANK = "□"


def from_useless_working(known: Known, statement: Statement) -> Why | None:
    """Return where a wrong number comes from, if it is the result of a true line that nothing here needs.

    The values that the problem has are known: of the givens, of every part of the formulas
    and of the lines above, with the answers in them. A number of the broken line is named
    where it is none of these, and where the line would be right with one of these in its place.
    """
    if not known.side_values or not isinstance(statement, Chain) or not statement_names(statement):
        return None
    for node in _numbers(statement):
        found = _worked_out(known, node.value)
        if found is None or not any(
            _out_of_place(known, statement, node, way) for way in settings(known, statement)
        ):
            continue
        if any(node.value in _of_the_problem(known, way)[1] for way in settings(known, statement)):
            continue
        index, working = found
        shown = quoted(working)
        asks = f"Is {shown} what this problem needs?" if shown else "Is that what this problem needs?"
        return Why(Reason.VALUE_CHANGED, f"The {node.text} comes from line {index + 1}. {asks}", node.span)
    return None


def _out_of_place(known: Known, line: Chain, node: Num, setting: Setting) -> bool:
    """Tell whether the line would be right with another value of the problem in the place of a number."""
    settled, needed = _of_the_problem(known, setting)
    blank = changed(line, lambda part: Name(_BLANK) if part is node else part)
    if not needed or not isinstance(blank, Chain) or len(blank.sides) != 2:
        return False
    off = [_off(blank, {**settled, _BLANK: Fraction(number)}, setting) for number in (0, 1)]
    if off[0] is None or off[1] is None or off[0] == off[1]:
        return False
    wanted = off[0] / (off[0] - off[1])
    return wanted in needed and _off(blank, {**settled, _BLANK: wanted}, setting) == 0


def _off(line: Chain, values: dict[str, Fraction], setting: Setting) -> Fraction | None:
    """Return how much larger the left side is than the right one."""
    left, right = (_value(side, values, setting) for side in line.sides)
    return None if left is None or right is None else left - right


def _numbers(statement: Statement) -> Iterator[Num]:
    for side in sides(statement):
        for node in every(side):
            if isinstance(node, Num):
                yield node


def _worked_out(known: Known, value: Fraction) -> tuple[int, Expr] | None:
    """Return the line above that works out to a number, and what it works out."""
    for index, line in reversed(known.above):
        if not isinstance(line, Chain) or statement_names(line) or not line.rels[-1].equates:
            continue
        result, working = line.sides[-1], line.sides[0]
        if isinstance(result, Num) and result.value == value and not isinstance(working, Num):
            exact = number_of(working)
            return (index, working) if exact == value else None
    return None


def _of_the_problem(known: Known, setting: Setting) -> tuple[dict[str, Fraction], set[Fraction]]:
    """Return the value of each name, and of every part of the premises and of the lines with names.

    The second is empty where not everything is settled.
    """
    if known.base is None:
        return {}, set()
    try:
        values = known.base.ground(setting).values()
    except (NotExact, DividedByZero):
        return {}, set()
    settled = {name: found[0] for name, found in values.items() if len(found) == 1}
    found: set[Fraction] = set()
    lines = [*known.base.premises, *(line for _, line in known.above if statement_names(line))]
    for line in lines:
        for side in sides(line):
            for part in _parts(side):
                value = _value(part, settled, setting)
                if value is None:
                    return settled, set()
                found.add(value)
    return settled, found


def _parts(expr: Expr) -> Iterator[Expr]:
    """Yield every part of a side, and what some of its terms or factors make together."""
    for node in every(expr):
        yield node
        pieces = node.terms if isinstance(node, Add) else node.factors if isinstance(node, Mul) else ()
        kind = Add if isinstance(node, Add) else Mul
        for size in range(2, min(len(pieces), _MOST_PARTS)):
            for some in combinations(pieces, size):
                yield kind(some)


def _value(expr: Expr, settled: dict[str, Fraction], setting: Setting) -> Fraction | None:
    try:
        ratio = value_of(expr, setting)
    except (NotExact, DividedByZero):
        return None
    above, below = evaluate(ratio.above, settled), evaluate(ratio.below, settled)
    return None if above is None or not below else above / below
