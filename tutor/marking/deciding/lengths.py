"""Comparisons of numbers, as in "can these lengths make a triangle"."""

from collections.abc import Sequence
from dataclasses import replace

from tutor.line.meaning import number_of
from tutor.line.names import Names
from tutor.line.reader import Unread, read
from tutor.line.tree import Add, Chain, Expr, Phrase, Rel, Said, Statement
from tutor.marking.deciding.facts import statement_names


def comparison_is_false(statement: Statement) -> bool:
    """Tell whether a line compares two numbers with < > ≤ ≥ and is not true."""
    if not isinstance(statement, Chain) or len(statement.sides) != 2:
        return False
    rel = statement.rels[0]
    if rel.equates or rel is Rel.NE or statement_names(statement):
        return False
    left, right = (number_of(side) for side in statement.sides)
    if left is None or right is None:
        return False
    truth = {Rel.LT: left < right, Rel.LE: left <= right, Rel.GT: left > right, Rel.GE: left >= right}
    return not truth[rel]


def comparisons(tests: Sequence[Chain]) -> tuple[Chain, ...]:
    """Return the comparisons among some lines, with the sums that were worked out put back.

    ``10 > 9`` under ``4 + 6 = 10`` compares 4 + 6 with 9. A sum alone is a comparison where
    nothing else is compared.
    """
    equal = [test for test in tests if all(rel.equates for rel in test.rels)]
    if len(equal) == len(tests):
        return tuple(tests)
    sums = {
        total: side
        for test in equal
        for side in test.sides
        if _adds_two(side) and (total := number_of(side)) is not None
    }
    return tuple(
        replace(test, sides=tuple(sums.get(number_of(side) or 0, side) for side in test.sides))
        for test in tests
        if test not in equal
    )


def too_short(test: Chain) -> bool:
    """Tell whether a comparison shows that two lengths do not reach: it is false, or says so itself.

    ``4 + 5 > 10`` is false; ``4 + 5 < 10`` and ``4 + 6 = 10`` say it.
    """
    if comparison_is_false(test):
        return True
    if len(test.sides) != 2:
        return False
    for both, other in (test.sides, test.sides[::-1]):
        total, third = number_of(both), number_of(other)
        if _adds_two(both) and total is not None and third is not None:
            return total <= third
    return False


def _adds_two(side: Expr) -> bool:
    return isinstance(side, Add) and len(side.terms) == 2


def says_enough(text: str, names: Names) -> bool:
    """Tell whether the next line says "no"."""
    if "no" not in text.lower():
        return False  # most lines do not even hold the word: they need no reading here
    found = read(text, names)
    return not isinstance(found, Unread) and found.statements[0] == Said(Phrase.NO)


def tests_the_longest(test: Chain) -> bool:
    """Tell whether two lengths are said to be more than a third that is as long as either."""
    if len(test.sides) != 2 or test.rels[0] not in (Rel.GT, Rel.LT):
        return False
    for sum_side, other in (test.sides, test.sides[::-1]):
        if isinstance(sum_side, Add) and len(sum_side.terms) == 2:
            longest = number_of(other)
            parts = [number_of(term) for term in sum_side.terms]
            if longest is not None and all(part is not None and part <= longest for part in parts):
                return True
    return False
