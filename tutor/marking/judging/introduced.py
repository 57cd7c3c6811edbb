"""What a line brings in: a name of one's own, a formula, or the size that a unit tells of."""

from dataclasses import replace
from fractions import Fraction

from tutor.line.meaning import value_of
from tutor.line.poly import ONE, DividedByZero, NotExact
from tutor.line.spoken import is_spoken, meant
from tutor.line.tree import Add, Bare, Chain, Expr, Joined, Joiner, Measure, Mul, Name, Num, Rel, Statement
from tutor.line.walk import every, names_in, sides
from tutor.marking.deciding.answers import answers_in, worked_out
from tutor.marking.deciding.at_odds import at_odds
from tutor.marking.deciding.facts import facts, statement_names, unit_letters
from tutor.marking.deciding.first_line import says_a_size
from tutor.marking.deciding.follow import Found, How, search
from tutor.marking.deciding.state import Known, Spec, settings
from tutor.marking.judging.aftermath import Judged, broken, stands
from tutor.marking.judging.copied_values import told_otherwise
from tutor.marking.judging.marks import undecided
from tutor.marking.judging.told_in_work import puts_in_anew
from tutor.marking.judging.wrong_units import unit_broken, unit_fault
from tutor.marking.telling.reasons import why_breaks, why_links_break
from tutor.marking.verdict import Verdict


def defines(known: Known, statement: Statement) -> bool:
    """``T = 12·5/2``, ``A_2 = 3·4 = 12``: a new letter for something that is worked out."""
    if not isinstance(statement, Chain) or not isinstance(statement.sides[0], Name):
        return False
    if statement.rels[0] is not Rel.EQ or not all(rel.equates for rel in statement.rels):
        return False
    new, right = statement.sides[0].name, statement.sides[1]
    if isinstance(right, Num | Name) or (is_spoken(new) and not is_a_part(known, new)):
        return False
    if known.context.names.find(new) is not None and not _still_free(known, new):
        return False
    names = statement_names(Bare(right))
    alone = known.context.from_first_line or len(known.context.names.known) == 1
    if new in names or (alone and len(statement.sides) == 2 and answers_in(statement)):
        return False
    if names <= known.context.names.known:
        return True
    # "V = Bh" below "B = 6 · 4": a formula of one's own, with an h that is told later.
    return known.context.from_first_line and (bool(names & _mentioned(known)) or "_" in new)


def _mentioned(known: Known) -> frozenset[str]:
    premises = known.base.premises if known.base is not None else ()
    return frozenset(name for premise in premises for name in statement_names(premise))


def _still_free(known: Known, name: str) -> bool:
    """A name that is asked for and that no formula and no given speaks of: ``A = 3x`` with x given."""
    asked = name in known.context.find and known.context.formula_count == 0
    asked = asked or known.context.from_first_line  # the A₁ of a later "A = A₁ + A₂"
    begun = known.base is not None and (bool(_mentioned(known)) or not known.base.premises)
    return asked and begun and name not in _mentioned(known)


_PARTS_ADD_UP = frozenset("AVST")  # areas, volumes and surfaces of parts


def is_a_part(known: Known, name: str) -> bool:
    """Tell whether words can name a quantity of its own: ``Area of square`` where the A is a sum of areas.

    Where the task has one formula and that is no sum, the area of the triangle is the A.
    """
    context = known.context
    letter = meant(name, context.names)
    if letter == name or context.formula_count != 1:
        return True
    if letter[0] not in _PARTS_ADD_UP:
        return False
    formula = context.premises[0]
    return any(isinstance(side, Add) for side in formula.sides) or letter not in names_in(*formula.sides)


def defined(known: Known, statement: Statement, index: int) -> Judged:
    """Mark a definition of one's own: the name is known from here on."""
    assert known.base is not None and isinstance(statement, Chain) and isinstance(statement.sides[0], Name)
    if statement.sides[0].name in known.context.find:
        copied = told_otherwise(known.base.premises, statement)
        if copied is not None:
            return broken(known, statement, index, copied)
    names = known.context.names.joined(statement_names(statement))
    context = replace(known.context, names=names)
    told = replace(statement, sides=statement.sides[:2], rels=statement.rels[:1])
    more = tuple(spec.extended(told) for spec in known.more)
    extended = replace(known, context=context, base=known.base.extended(told), more=more)
    fault = unit_fault(known, statement) if facts(statement).units else None
    if fault is not None:
        return unit_broken(known, statement, index, fault, Found(How.BREAKS, settings(known, statement)[0]))
    if len(statement.sides) == 2:
        return stands(extended, statement, index, Verdict.FOLLOWS, None)
    setting = settings(extended, statement)[0]
    untrue = why_links_break(extended, statement, setting)
    if untrue is not None:
        return broken(known, statement, index, untrue)
    assert extended.base is not None
    found = search(extended, statement, (extended.base, *extended.more))
    if found.how is How.ROUNDS:
        return stands(extended, statement, index, Verdict.ROUNDS, found)
    if found.how is How.FOLLOWS:
        return stands(extended, statement, index, Verdict.FOLLOWS, found)
    if puts_in_anew(known, statement):
        last = replace(statement, sides=(statement.sides[0], statement.sides[-1]), rels=statement.rels[-1:])
        own = replace(known, context=context, base=known.base.extended(last))
        return stands(own, statement, index, Verdict.FOLLOWS, None)
    if found.how is How.BREAKS:  # "A = A₂ + A₂ = 40 + 12"
        return broken(known, statement, index, why_breaks(extended, statement, found))
    return undecided(known, statement)


def names_the_result(known: Known, statement: Statement, index: int) -> Judged | None:
    """Mark ``p = 12`` under ``0.15 · 80 = 12`` where nothing else is told of p, None for any other line.

    The same of ``t = 12`` under ``tax = 0.15 · 80``.
    """
    base, previous = known.base, known.previous
    if base is None or not isinstance(statement, Chain) or statement.rels != (Rel.EQ,):
        return None
    if not all(map(_is_worked_word, base.premises)):
        return None
    name, value = statement.sides
    if not isinstance(name, Name) or name.name not in known.context.find or names_in(value):
        return None
    above = sides(previous)[-1:] if isinstance(previous, Chain | Bare) else ()
    setting = settings(known, statement)[0]
    if not above or names_in(*above) or not value_of(above[0], setting).same(value_of(value, setting)):
        return None
    told = base.extended(statement)
    return stands(known.based_on(told), statement, index, Verdict.FOLLOWS, Found(How.FOLLOWS, setting, told))


def _is_worked_word(premise: Statement) -> bool:
    """``tax = 0.065 · 249``: a word and numbers."""
    word = premise.sides[0] if isinstance(premise, Chain) else None
    return isinstance(word, Name) and len(word.name) > 1 and len(statement_names(premise)) == 1


def brings_in_a_formula(known: Known, statement: Statement, index: int) -> Judged | None:
    """Mark the formula or the equation that comes below ``l = 12 cm, w = 5 cm``, None for any other line.

    Where the work begins with the values that are told, or with what is the same (``∠B = ∠C = x``),
    nothing above speaks of what is asked for: the first equation that does is taken as true.
    """
    base = known.base
    if not known.context.from_first_line or base is None or base.line is None or not base.premises:
        return None
    parts = statement.parts if isinstance(statement, Joined) and statement.joiner is not Joiner.OR else ()
    first = parts[0] if parts else statement
    if not isinstance(first, Chain) or not all(rel is Rel.EQ for rel in first.rels):
        return None
    told = {name for premise in base.premises if _tells(premise) for name in statement_names(premise)}
    names = statement_names(first)
    asked = frozenset(known.context.find)
    if any(unit_letters(premise) & names for premise in base.premises):
        return None  # "P = s²" below "P = 4s", where s was taken for seconds
    if answers_in(first):
        # "c = 115°" below "a = 65°": from here nobody can tell.
        return undecided(known, statement) if names & asked - _mentioned(known) else None
    if all(_tells(premise) or _same_names(premise) for premise in base.premises):
        fits = bool(names - told) and bool(names & (asked | _mentioned(known)))
    else:
        fits = _is_second_of_a_system(known, first)
    if not fits:
        return None
    sizes = len(names) > 1 or says_a_size(first) or any(map(_tells_a_size, base.premises))
    positive = base.positive | names if sizes else base.positive
    context = replace(known.context, names=known.context.names.joined(names))
    extended = Spec((*base.premises, first), positive, base.line)
    after = replace(known, context=context, base=extended)
    setting = settings(after, statement)[0]
    if why_links_break(after, statement, setting) is not None:
        return None
    if at_odds(extended, setting) and not known.context.ends_without:
        return None  # "x + y = 5" below "2x + 2y = 8" is a wrong step, but where nothing is to come out
    if parts and search(after, statement, (extended,)).how is not How.FOLLOWS:
        return None
    return stands(after, statement, index, Verdict.FOLLOWS, None)


def _is_second_of_a_system(known: Known, statement: Chain) -> bool:
    """``x − y = 40`` below ``x + y = 180`` where both are asked for; ``b = 4a`` below ``a + b = 180``."""
    base = known.base
    if base is None or len(known.above) != len(base.premises) or len(statement.sides) != 2:
        return False
    names = statement_names(statement)
    if any(_turned_wrong(premise, statement) for premise in base.premises):
        return False
    if _ties_two_sides(known, statement):
        return True
    if len(known.context.find) > len(base.premises):
        return len(names) > 1 and names <= _mentioned(known) | {*known.context.find}
    if len(base.premises) > 1 or len(names) != 2 or names != _mentioned(known):
        return False
    # A sum of two angles: no wrong move makes a multiple of it.
    left, right = statement.sides
    return isinstance(left, Name) and _is_multiple(right) and _is_total(base.premises[0])


def _ties_two_sides(known: Known, statement: Chain) -> bool:
    """``W = L − 2`` below ``P = 2L + 2W``: how two letters of the formula belong together.

    No wrong move makes it out of the formula, whose P it does not have.
    """
    premises = known.base.premises if known.base is not None else ()
    formula = premises[0] if len(premises) == 1 else None
    if not isinstance(formula, Chain) or not isinstance(formula.sides[0], Name):
        return False
    letters = statement_names(formula) - {formula.sides[0].name}
    side, other = statement.sides
    if not isinstance(side, Name) or len(letters) < 2 or side.name in names_in(other):
        return False
    numbers = any(isinstance(node, Num) for node in every(other))
    return len(names_in(other)) == 1 and numbers and statement_names(statement) <= letters


def _turned_wrong(above: Statement, line: Chain) -> bool:
    """``x = 10 + y`` below ``x + y = 10``: the same equation but for a sign, with a letter put alone."""
    if not isinstance(above, Chain) or not any(isinstance(side, Name) for side in line.sides):
        return False
    try:
        old, new = (value_of(one.sides[0]) - value_of(one.sides[-1]) for one in (above, line))
    except (NotExact, DividedByZero):
        return False
    if old.above.terms.keys() != new.above.terms.keys() or old.below != ONE or new.below != ONE:
        return False
    sizes = {abs(Fraction(new.above.terms[mono]) / number) for mono, number in old.above.terms.items()}
    return len(sizes) == 1


def _is_multiple(side: Expr) -> bool:
    if not isinstance(side, Mul) or not isinstance(side.factors[-1], Name):
        return False
    return not any(map(names_in, side.factors[:-1]))


def _is_total(premise: Statement) -> bool:
    if not isinstance(premise, Chain) or not isinstance(premise.sides[0], Add):
        return False
    return all(isinstance(term, Name) for term in premise.sides[0].terms) and not names_in(premise.sides[-1])


def tells_one_more(known: Known, statement: Statement, index: int) -> Judged | None:
    """Mark ``w = 5 cm`` below ``l = 12 cm``: values that are told one to a line, None for any other line."""
    base = known.base
    if not known.context.from_first_line or base is None or base.line is None:
        return None
    if not isinstance(statement, Chain) or not _tells(statement) or not all(map(_tells, base.premises)):
        return None
    names = statement_names(statement)
    if names & {*known.context.find, *_mentioned(known)} or _mentioned(known) & {*known.context.find}:
        return None
    context = replace(known.context, names=known.context.names.joined(names))
    after = replace(known, context=context, base=base.extended(statement))
    return stands(after, statement, index, Verdict.FOLLOWS, None)


def _tells(premise: Statement) -> bool:
    """``l = 12 cm``: a name and its value."""
    return (
        isinstance(premise, Chain)
        and premise.rels == (Rel.EQ,)
        and isinstance(premise.sides[0], Name)
        and worked_out(premise.sides[1])
    )


def _tells_a_size(premise: Statement) -> bool:
    """``S = 294 cm²``: the work is about something that is measured."""
    return any(unit.dimension.length > 0 for unit in facts(premise).units)


def _same_names(premise: Statement) -> bool:
    """``∠B = ∠C = x``: what is the same has several names."""
    names = isinstance(premise, Chain) and all(isinstance(side, Name) for side in premise.sides)
    return names and isinstance(premise, Chain) and len(premise.sides) > 2


def is_a_length(known: Known, statement: Statement, index: int) -> Judged | None:
    """Mark ``x = 5 cm`` below ``x² = 25``: its unit says that x is a size, None for any other line."""
    if known.base is None or not isinstance(statement, Chain) or len(statement_names(statement)) != 1:
        return None
    names = statement_names(statement)
    if names <= known.base.positive or not any(map(_measures_a_length, statement.sides)):
        return None
    spec = replace_positive(known.base, known.base.positive | names)
    after = replace(known, base=spec, context=replace(known.context, measures=known.context.measures | names))
    found = search(after, statement, (spec,))
    if found.how not in (How.FOLLOWS, How.ROUNDS):
        return None
    verdict = Verdict.ROUNDS if found.how is How.ROUNDS else Verdict.FOLLOWS
    return stands(after, statement, index, verdict, found)


def _measures_a_length(side: Expr) -> bool:
    return isinstance(side, Measure) and side.unit.dimension.length == 1


def replace_positive(spec: Spec, positive: frozenset[str]) -> Spec:
    """Return the same premises with more names that are sizes."""
    return Spec(spec.premises, positive, spec.line, spec.gained, spec.rounded)
