"""Comparisons of numbers, as in "can these lengths make a triangle"."""

from tutor.line.meaning import number_of
from tutor.line.names import Names
from tutor.line.reader import Unread, read
from tutor.line.tree import Add, Chain, Phrase, Rel, Said, Statement
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


def comparison_fails(test: Chain) -> bool:
    """Tell whether a comparison shows that two lengths do not reach: it is false, or says so itself.

    ``4 + 5 > 10`` is false; ``4 + 5 < 10`` and ``4 + 6 = 10`` say it themselves.
    """
    if comparison_is_false(test):
        return True
    if len(test.sides) != 2:
        return False
    for both, other in (test.sides, test.sides[::-1]):
        if isinstance(both, Add) and len(both.terms) == 2:
            total, third = number_of(both), number_of(other)
            if total is not None and third is not None and not isinstance(other, Add) and total <= third:
                return True
    return False


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
