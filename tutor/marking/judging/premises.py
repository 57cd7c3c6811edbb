"""What the first line of work is a premise of, where the problem gives none."""

from dataclasses import replace

from tutor.line.meaning import Setting
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Chain, Joined, Joiner, Rel, Statement
from tutor.line.walk import names_in
from tutor.marking.deciding.claim import NEVER, claim_of
from tutor.marking.deciding.context import looks_like_formula
from tutor.marking.deciding.facts import facts, statement_names
from tutor.marking.deciding.first_line import coordinates, says_a_size
from tutor.marking.deciding.state import Known, Spec, settings


def based_on_first(known: Known, statement: Statement, index: int) -> tuple[Known, Setting]:
    """Return what is known with a first line as the premise, and the way it is taken."""
    sized = looks_like_formula(statement) or says_a_size(statement)
    names = statement_names(statement)
    positive = names - coordinates(names) if sized else frozenset(known.context.measures)
    based = known.based_on(Spec(_premises(statement), positive, index))
    setting = settings(based, statement)[0]
    if isinstance(statement, Chain) and len(statement.sides) > 2 and _is_never(statement, setting):
        # "A = ½ · π · 5² ≈ 39.27": the first sign says what A is, the last one rounds it.
        exact = replace(statement, sides=statement.sides[:2], rels=statement.rels[:1])
        based = known.based_on(Spec((exact,), positive, index))
    return based, setting


def _is_never(statement: Statement, setting: Setting) -> bool:
    try:
        return claim_of(statement, setting) == NEVER
    except (NotExact, DividedByZero):
        return False


def leads_on(statement: Joined) -> bool:
    """``4x + 7 = 27 → 4x = 20 → x = 5``: the first part is the premise, the others have to follow."""
    equal = all(isinstance(part, Chain) and part.rels == (Rel.EQ,) for part in statement.parts)
    begins = statement_names(statement.parts[0])  # numbers alone are no premise
    return equal and statement.joiner is Joiner.AND and len(statement_names(statement)) == 1 == len(begins)


def _premises(statement: Statement) -> tuple[Statement, ...]:
    """``x + y = 5 and x − y = 1`` gives two premises; an "or" and a list of values give one.

    ``A = lw = 5 · 3 = 15`` gives ``A = 15`` and ``lw = 15``: what every side is worth.
    """
    if isinstance(statement, Chain) and len(statement.sides) > 2 and not facts(statement).pi:
        *others, last = statement.sides
        named = [side for side in others if names_in(side)]
        if len(named) > 1 and not names_in(last) and set(statement.rels) == {Rel.EQ}:
            return tuple(Chain((side, last), (Rel.EQ,), statement.span) for side in named)
    if (
        isinstance(statement, Joined)
        and statement.joiner is not Joiner.OR
        and len(statement_names(statement)) > 1
    ):
        return statement.parts
    return (statement,)
