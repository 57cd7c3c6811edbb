"""Lines made plainer where the exact arithmetic cannot hold them as they stand.

Two things help. A name that a premise gives as a number is replaced by it: ``c = √(a² + b²)``
with ``a = 3`` and ``b = 4`` is a number. And a measure under a root is written as a power of
another measure: with ``A = a²`` the line ``s = √A`` is ``s = a``. Both keep the solutions.
"""

from collections.abc import Iterator
from fractions import Fraction
from math import lcm

from tutor.line.meaning import number_of
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Chain, Expr, Measure, Name, Neg, Num, Percent, Pow, Root, Statement, whole_number
from tutor.line.walk import changed, every, line_with_names, names_in, rebuilt, sides
from tutor.line.writing import write_number
from tutor.marking.deciding.facts import statement_names

MAX_INDEX = 6


def numbers_told(premises: tuple[Statement, ...]) -> dict[str, Expr]:
    """Return the names that a premise gives as a plain number, with the number as it was written."""
    told: dict[str, Expr] = {}
    for premise in premises:
        if not isinstance(premise, Chain) or len(premise.sides) != 2 or not premise.rels[0].equates:
            continue
        left, right = premise.sides
        if isinstance(left, Name) and _is_plain(right):
            told.setdefault(left.name, right)
    return told


def _worked_out(premises: tuple[Statement, ...], told: dict[str, Expr]) -> dict[str, Expr]:
    """Return the names that follow from what is told: ``D = b² − 4ac`` where a, b and c are numbers."""
    found: dict[str, Expr] = {}
    for premise in premises if told else ():
        if not isinstance(premise, Chain) or len(premise.sides) != 2 or not premise.rels[0].equates:
            continue
        left, right = premise.sides
        names = names_in(right)
        if not isinstance(left, Name) or left.name in told or not names or not names <= told.keys():
            continue
        try:
            value = number_of(rebuilt(right, lambda node: told.get(getattr(node, "name", ""), node)))
        except (NotExact, DividedByZero):
            continue
        if value is not None:
            above_zero = -value if value < 0 else value
            size = Num(Fraction(above_zero), write_number(above_zero))
            found[left.name] = Neg(size) if value < 0 else size
    return found


def _is_plain(expr: Expr) -> bool:
    match expr:
        case Num(open_end=False):
            return True
        case Neg(inner) | Measure(inner, _) | Percent(inner):
            return _is_plain(inner)
        case _:
            return not names_in(expr) and not any(isinstance(node, Root | Pow) for node in every(expr))


def with_numbers(statement: Statement, told: dict[str, Expr]) -> Statement:
    """Return a line with numbers in the place of names; a line that tells such a number stays."""
    if isinstance(statement, Chain) and len(statement.sides) == 2:
        left = statement.sides[0]
        if isinstance(left, Name) and told.get(left.name) == statement.sides[1]:
            return statement

    return line_with_names(statement, told) if statement_names(statement) & told.keys() else statement


def without_roots(lines: tuple[Statement, ...], positive: frozenset[str]) -> tuple[Statement, ...] | None:
    """Return lines in which every measure under a root is a power of a measure; None where there is none."""
    index, under = 1, set[str]()
    for root, inner in _roots(lines):
        names = names_in(inner) if root % 2 else names_in(inner) & positive
        under |= names
        index = lcm(index, root) if names else index
    if not under or index > MAX_INDEX:
        return None
    exponent = whole_number(index)

    def change(node: Expr) -> Expr:
        return Pow(node, exponent, node.span) if isinstance(node, Name) and node.name in under else node

    return tuple(changed(line, change) for line in lines)


def _roots(lines: tuple[Statement, ...]) -> Iterator[tuple[int, Expr]]:
    """Yield the index of every root and what stands under it; ``x^(2/3)`` is a third root."""
    for line in lines:
        for side in sides(line):
            for node in every(side):
                match node:
                    case Root(index, inner):
                        yield index, inner
                    case Pow(base, exponent) if not isinstance(exponent, Num) and not names_in(exponent):
                        power = number_of(exponent)
                        if power is not None and Fraction(power).denominator > 1:
                            yield Fraction(power).denominator, base
                    case _:
                        pass


def ways(
    premises: tuple[Statement, ...], statement: Statement, positive: frozenset[str]
) -> Iterator[tuple[tuple[Statement, ...], Statement]]:
    """Yield premises and line made plainer; the premises keep their places."""
    told = numbers_told(premises)
    told |= _worked_out(premises, told)
    put_in = tuple(with_numbers(premise, told) for premise in premises)
    line = with_numbers(statement, told)
    if (*put_in, line) != (*premises, statement):
        yield put_in, line
    for before, after in ((premises, statement), (put_in, line)):
        lifted = without_roots((*before, after), positive)
        if lifted is not None:
            yield lifted[:-1], lifted[-1]
