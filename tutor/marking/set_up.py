"""The equation of a word problem, below what stands for what: ``l = 2w + 5``, then the perimeter."""

from dataclasses import replace

from tutor.line.tree import Chain, Name, Rel, Statement
from tutor.line.walk import names_in
from tutor.marking.aftermath import Judged, stands
from tutor.marking.deciding.answers import answer_of
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.follow import at_odds
from tutor.marking.deciding.state import Known, settings
from tutor.marking.verdict import Verdict


def equation_set_up(known: Known, statement: Statement, index: int) -> Judged | None:
    """Mark ``2(2w + 5) + 2w = 70`` below ``l = 2w + 5``, None for any other line.

    The lines above only name things in terms of what is asked for: nothing tells of it yet.
    """
    base, find = known.base, known.context.find
    if not known.context.from_first_line or base is None or not base.premises or len(find) != 1:
        return None
    if not isinstance(statement, Chain) or statement.rels != (Rel.EQ,) or answer_of(statement) is not None:
        return None
    asked = frozenset(find)
    if statement_names(statement) != asked or not all(_only_names(line, asked) for line in base.premises):
        return None
    extended = base.extended(statement)
    if at_odds(extended, settings(known, statement)[0]):
        return None
    return stands(replace(known, base=extended), statement, index, Verdict.FOLLOWS, None)


def _only_names(premise: Statement, asked: frozenset[str]) -> bool:
    """``l = 2w + 5``: another letter, in terms of the one that is asked for."""
    if not isinstance(premise, Chain) or premise.rels != (Rel.EQ,):
        return False
    name, value = premise.sides
    return isinstance(name, Name) and name.name not in asked and names_in(value) == asked
