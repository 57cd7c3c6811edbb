"""What a line brings in: a name of one's own, or numbers put into the formula of the first line."""

from dataclasses import replace

from tutor.line.meaning import value_of
from tutor.line.tree import Bare, Chain, Joined, Name, Num, Rel, Statement
from tutor.line.walk import names_in, sides
from tutor.marking.aftermath import Judged, stands
from tutor.marking.deciding.answers import answers_in, worked_out
from tutor.marking.deciding.context import looks_like_formula
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.follow import Found, How, at_odds
from tutor.marking.deciding.instance import values_put_in
from tutor.marking.deciding.state import Known, Spec, settings
from tutor.marking.verdict import Verdict


def defines(known: Known, statement: Statement) -> bool:
    """``T = 12·5/2``: a new letter for something that is worked out."""
    if (
        not isinstance(statement, Chain)
        or statement.rels != (Rel.EQ,)
        or not isinstance(statement.sides[0], Name)
    ):
        return False
    new, right = statement.sides[0].name, statement.sides[1]
    if isinstance(right, Num | Name):
        return False
    if known.context.names.find(new) is not None and not _still_free(known, new):
        return False
    names = statement_names(Bare(right))
    alone = known.context.from_first_line or len(known.context.names.known) == 1
    return new not in names and names <= known.context.names.known and not (alone and answers_in(statement))


def _still_free(known: Known, name: str) -> bool:
    """A name that is asked for and that no formula and no given speaks of: ``A = 3x`` with x given."""
    asked = name in known.context.find and known.context.formula_count == 0 and known.base is not None
    premises = known.base.premises if known.base is not None else ()
    return asked and bool(premises) and not any(name in statement_names(premise) for premise in premises)


def defined(known: Known, statement: Statement, index: int) -> Judged:
    """Mark a definition of one's own: the name is known from here on."""
    assert known.base is not None and isinstance(statement, Chain) and isinstance(statement.sides[0], Name)
    context = replace(known.context, names=known.context.names.joined({statement.sides[0].name}))
    more = tuple(spec.extended(statement) for spec in known.more)
    extended = replace(known, context=context, base=known.base.extended(statement), more=more)
    return stands(extended, statement, index, Verdict.FOLLOWS, None)


def tells_values(known: Known, statement: Statement, index: int) -> Judged | None:
    """Mark ``L = 14, W = 9`` under the formula of the first line, where nothing else tells them."""
    base = known.base
    if not known.context.from_first_line or base is None or base.line is None:
        return None
    formula = base.premises[0]
    if not isinstance(formula, Chain) or not looks_like_formula(formula):
        return None
    parts = statement.parts if isinstance(statement, Joined) else (statement,)
    settled = {name for premise in base.premises[1:] for name in statement_names(premise)}
    told: list[Chain] = []
    for part in parts:
        if not isinstance(part, Chain) or part.rels != (Rel.EQ,) or not isinstance(part.sides[0], Name):
            return None
        name = part.sides[0].name
        free = name in statement_names(formula) and name not in settled | {*known.context.find}
        if not free or not known.context.find or not worked_out(part.sides[1]):
            return None  # "A = 11·8" is no value that is told: it is worked out, and may be wrong
        told.append(part)
    extended = Spec((*base.premises, *told), base.positive, base.line)
    if len({part.sides[0] for part in told}) < len(told) or at_odds(extended, settings(known, statement)[0]):
        return None
    return stands(replace(known, base=extended), statement, index, Verdict.FOLLOWS, None)


def names_the_result(known: Known, statement: Statement, index: int) -> Judged | None:
    """Mark ``p = 12`` under ``0.15 · 80 = 12`` where nothing else is told of p, None for any other line."""
    base, previous = known.base, known.previous
    if base is None or base.premises or not isinstance(statement, Chain) or statement.rels != (Rel.EQ,):
        return None
    name, value = statement.sides
    if not isinstance(name, Name) or name.name not in known.context.find or names_in(value):
        return None
    above = sides(previous)[-1:] if isinstance(previous, Chain | Bare) else ()
    setting = settings(known, statement)[0]
    if not above or names_in(*above) or not value_of(above[0], setting).same(value_of(value, setting)):
        return None
    return stands(known, statement, index, Verdict.FOLLOWS, Found(How.FOLLOWS, setting, base))


def instance_of_formula(known: Known, statement: Statement, index: int) -> Judged | None:
    """Mark a line that puts numbers into the first line's formula, None for any other line."""
    base = known.base
    if (
        not known.context.from_first_line
        or base is None
        or base.line is None
        or not isinstance(statement, Chain)
    ):
        return None
    formula = base.premises[0]
    if not isinstance(formula, Chain) or not looks_like_formula(formula):
        return None
    told = values_put_in(formula, statement)
    settled = {name for premise in base.premises[1:] for name in statement_names(premise)}
    if told is None or any(names_in(given.sides[0]) & settled for given in told):
        return None
    names = known.context.names.joined(name for given in told for name in statement_names(given))
    positive = base.positive | {name for given in told for name in statement_names(given)}
    extended = Spec((*base.premises, *told), positive, base.line)
    if at_odds(extended, settings(known, statement)[0]):
        return None  # "240 = 1600(0.0)t" under I = Prt
    context = replace(known.context, names=names)
    return stands(replace(known, context=context, base=extended), statement, index, Verdict.FOLLOWS, None)
