"""Where the work begins below other lines: numbers alone, what stands for what, what may be put in."""

from dataclasses import replace

from tutor.line.meaning import Setting, number_of, value_of
from tutor.line.poly import ONE, DividedByZero, NotExact
from tutor.line.tree import Bare, Chain, Measure, Name, Num, Rel, Statement
from tutor.line.walk import names_in
from tutor.marking.deciding.answers import answer_of
from tutor.marking.deciding.at_odds import at_odds
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.state import Known, settings
from tutor.marking.judging.aftermath import Judged, stands
from tutor.marking.verdict import Verdict


def equation_set_up(known: Known, statement: Statement, index: int) -> Judged | None:
    """Mark ``2(2w + 5) + 2w = 70`` below ``l = 2w + 5``, None for any other line.

    The lines above only name things in terms of what is asked for: nothing tells of it yet. Or they
    work out something else first, which the line goes on with: ``6x = 720`` below ``S = 720``.
    """
    base, find = known.base, known.context.find
    if not known.context.from_first_line or base is None or not base.premises or len(find) != 1:
        return None
    if not isinstance(statement, Chain) or statement.rels != (Rel.EQ,) or answer_of(statement) is not None:
        return None
    asked = frozenset(find)
    if statement_names(statement) != asked or any(isinstance(side, Name) for side in statement.sides):
        return None  # "r = 31.4/(4 · 3.14)" is worked out, and sets up nothing
    if not all(_only_names(line, asked) for line in base.premises) and not _uses_a_result(known, statement):
        return None
    extended = base.extended(statement)
    setting = settings(known, statement)[0]
    if at_odds(extended, setting) or any(
        _copied_wrong(line, statement, setting) for line in base.premises if _only_names(line, asked)
    ):
        return None
    return stands(replace(known, base=extended), statement, index, Verdict.FOLLOWS, None)


def _only_names(premise: Statement, asked: frozenset[str]) -> bool:
    """``l = 2w + 5``: another letter, in terms of the one that is asked for."""
    if not isinstance(premise, Chain) or premise.rels != (Rel.EQ,):
        return False
    name, value = premise.sides
    return isinstance(name, Name) and name.name not in asked and names_in(value) == asked


def _copied_wrong(premise: Statement, statement: Chain, setting: Setting) -> bool:
    """``0 = 3x − 60`` below ``y = 3x − 6``: a number was put in for y, and another one has changed."""
    assert isinstance(premise, Chain)
    try:
        value, *new = (value_of(side, setting) for side in (premise.sides[1], *statement.sides))
    except (NotExact, DividedByZero):
        return False
    if any(side.below != ONE for side in (value, *new)):
        return False
    for number, side in (new, new[::-1]):
        change = side.above - value.above
        if number.above.names() or not change or side.above - number.above == value.above:
            continue  # "2x = 6" below "y = 2x − 6" moves the number over
        at_zero = not number.above and side.above.terms.keys() == value.above.terms.keys()
        if not change.names() or at_zero:
            return True
    return False


def _uses_a_result(known: Known, statement: Chain) -> bool:
    """``6x = 720`` below ``S = 720``, where nothing yet speaks of the x that is asked for."""
    assert known.base is not None
    asked = frozenset(known.context.find)
    lines = (*known.base.premises, *(line for _, line in known.above))
    if not known.answers or any(statement_names(line) & asked for line in lines):
        return False
    alone = [side.inner if isinstance(side, Measure) else side for side in statement.sides]
    results = {number_of(answer.value) for answer in known.answers} - {None}
    return any(isinstance(side, Num) and side.value in results for side in alone)


def begins_late(known: Known, statement: Statement) -> bool:
    """Tell whether the work begins here: ``0.85x = 68`` below ``100% − 15% = 85%``.

    Above it stood numbers alone, what may be put in, or what is meant by a word: ``Bob's age = x + 5``.
    """
    if known.base is None or any(not _tells_a_word(premise) for premise in known.base.premises):
        return False
    if not known.context.from_first_line or answer_of(statement) is not None:
        return False
    names = statement_names(statement)
    above = (
        line
        for _at, line in known.above
        if not (rules_out(line) or _tells_a_word(line) or _is_translated(line, statement))
    )
    return bool(names) and not any(map(_is_word, names)) and not any(statement_names(line) for line in above)


def rules_out(statement: Statement) -> bool:
    """Tell whether a line says what may not be put in and is no equation: ``x ≠ 0``."""
    if not isinstance(statement, Chain) or statement.rels != (Rel.NE,):
        return False
    return isinstance(statement.sides[0], Name) and not names_in(statement.sides[1])


def _is_translated(line: Statement, statement: Statement) -> bool:
    """``2x + 5`` above ``2x + 5 = 17``: an expression put in words, before the equation."""
    if not isinstance(line, Bare) or not isinstance(statement, Chain) or statement.rels != (Rel.EQ,):
        return False
    return isinstance(line.expr, Name) or not all(names_in(side) for side in statement.sides)


def _tells_a_word(statement: Statement) -> bool:
    return any(map(_is_word, statement_names(statement)))


def _is_word(name: str) -> bool:
    return " " in name or (len(name) > 3 and name.isalpha())
