"""Values that the work itself tells: a given on a line of its own, numbers put into a formula.

Where a task says what every letter is, none of this is asked for: a letter is free only where no
given, no formula and no line above says what it is.
"""

from collections.abc import Iterator
from dataclasses import replace

from tutor.line.meaning import Setting, value_of
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Chain, Joined, Name, Pow, Rel, Statement
from tutor.line.walk import every, names_in
from tutor.marking.deciding.answers import answers_in, worked_out
from tutor.marking.deciding.at_odds import at_odds
from tutor.marking.deciding.context import looks_like_formula
from tutor.marking.deciding.facts import statement_names, unit_letters
from tutor.marking.deciding.first_line import coordinates
from tutor.marking.deciding.follow import Found, How, search
from tutor.marking.deciding.instance import pieces_put_in, values_put_in
from tutor.marking.deciding.made_subject import made_subject
from tutor.marking.deciding.state import Known, Spec, settings
from tutor.marking.judging.aftermath import Judged, stands
from tutor.marking.judging.known_parts import parts_of, with_parts
from tutor.marking.verdict import Verdict

MAX_LINES_BACK = 3


def _formulas(known: Known) -> Iterator[Chain]:
    """Yield the formulas that numbers can be put into: the lines right above, then the premises."""
    base = known.base
    lines = [line for _, line in known.above[: -MAX_LINES_BACK - 1 : -1]]
    for line in (*lines, *(base.premises if base is not None else ())):
        if isinstance(line, Chain) and line.rels[0] is Rel.EQ and looks_like_formula(line):
            yield line


def _settled(known: Known) -> frozenset[str]:
    """Return the names that are told: those of premises that give them a value."""
    premises = known.base.premises if known.base is not None else ()
    return frozenset(
        name
        for premise in premises
        if isinstance(premise, Chain) and isinstance(premise.sides[0], Name | Pow)
        if not names_in(*premise.sides[1:])
        for name in names_in(premise.sides[0])
    )


def tells_values(known: Known, statement: Statement, index: int) -> Judged | None:
    """Mark ``L = 14, W = 9`` beside a formula whose letters nothing else tells, None for any other line."""
    base = known.base
    if base is None or not known.context.find or (known.context.from_first_line and base.line is None):
        return None
    formulas = [*_formulas(known)]
    letters = frozenset(name for formula in formulas for name in statement_names(formula))
    free = letters - _settled(known) - {*known.context.find}
    if not free:
        return None
    if unit_letters(statement) & letters:
        return None  # "P = 2 s" beside P = 4s tells of no seconds
    heads = {formula.sides[0].name for formula in formulas if isinstance(formula.sides[0], Name)}
    told: list[Chain] = []
    for part in statement.parts if isinstance(statement, Joined) else (statement,):
        if not isinstance(part, Chain) or part.rels[0] is not Rel.EQ or not isinstance(part.sides[0], Name):
            return None
        name = part.sides[0].name
        if name not in free or names_in(*part.sides[1:]):
            return None
        if not worked_out(part.sides[1]) and name in heads:
            return None  # "A = 11·8" is no value that is told: it is worked out, and may be wrong
        told.append(replace(part, sides=part.sides[:2], rels=part.rels[:1]))
    if len({part.sides[0] for part in told}) < len(told):
        return None
    return _extended(known, statement, index, tuple(told), base.positive)


def instance_of_formula(known: Known, statement: Statement, index: int) -> Judged | None:
    """Mark a line that puts numbers into a formula whose letters are free, None for any other line."""
    base = known.base
    if base is None or not isinstance(statement, Chain):
        return None
    if known.context.from_first_line and base.line is None:
        return None
    settled = _settled(known)
    # Where a task has formulas, what it asks for is never told by putting numbers in.
    asked = frozenset() if known.context.from_first_line else frozenset(known.context.find)
    for formula in _formulas(known):
        if statement_names(formula) <= settled | asked or _said_anew(known, formula):
            continue
        for told in _ways_in(formula, statement):
            names = frozenset(name for given in told for name in statement_names(given))
            put_in = [names_in(given.sides[0]) for given in told]
            if any(name & asked for name in put_in) or all(name <= settled for name in put_in):
                continue
            if all(isinstance(given.sides[1], Name) for given in told):
                continue  # "C = 2πd" under C = 2πr puts nothing in: it is another formula
            implied = () if formula in base.premises else (formula,)
            sizes = base.positive | (names - coordinates(statement_names(formula)))
            judged = _extended(known, statement, index, (*implied, *told), sizes)
            if judged is not None:
                return judged
        if not statement_names(formula) & settled and pieces_put_in(formula, statement):
            heads = names_in(formula.sides[0])
            others = tuple(premise for premise in base.premises if not statement_names(premise) & heads)
            without = replace(known, base=Spec(others, base.positive, base.line))
            return _extended(without, statement, index, (statement,), base.positive)
    return None


def _said_anew(known: Known, formula: Chain) -> bool:
    """Tell whether the line right above says a formula in other letters: ``A = lw + ½bh`` for ``A₁ + A₂``."""
    last = known.previous
    if last == formula or not isinstance(last, Chain) or last.sides[0] != formula.sides[0]:
        return False
    head = names_in(formula.sides[0])
    letters = statement_names(last) - head
    return bool(letters) and not letters & (statement_names(formula) - head)


def stands_for_a_part(known: Known, statement: Statement, index: int) -> Judged | None:
    """Mark ``V = πr²h`` or ``V = π(3)²(5)`` below ``V = Bh``, None for any other line."""
    base = known.base
    if base is None or not known.context.from_first_line or not isinstance(statement, Chain):
        return None
    told_or_asked = _settled(known) | {*known.context.find}
    for formula in _formulas(known):
        free = statement_names(formula) - told_or_asked
        for parts in parts_of(formula, free) if len(formula.sides) == 2 else ():
            names = frozenset(name for part in parts for name in statement_names(part))
            extended = Spec((*base.premises, *parts), base.positive | names, base.line)
            context = replace(known.context, names=known.context.names.joined(names))
            after = replace(known, context=context, base=extended)
            found = search(after, statement, (extended,))
            if found.how is How.FOLLOWS:
                return stands(after, statement, index, Verdict.FOLLOWS, found)
            for told in _ways_in(with_parts(formula, parts), statement):
                if any(names_in(given.sides[1]) for given in told):
                    continue  # "V = l²wh" is no other way to write V = lwh
                judged = _extended(known, statement, index, (*parts, *told), extended.positive)
                if judged is not None:
                    return judged
    return None


def puts_in_anew(known: Known, statement: Chain) -> bool:
    """``V_cone = ⅓πr²h = ⅓ · π · 9 · 4``: a figure of its own, whose r and h nothing gives another value."""
    base = known.base
    if base is None or not names_in(statement.sides[1]):
        return False
    formula = replace(statement, sides=statement.sides[:2], rels=statement.rels[:1])
    setting = settings(known, statement)[0]
    return any(
        not any(_is_known_otherwise(base, given, setting) for given in told)
        for told in _ways_in(formula, statement)
    )


def _ways_in(formula: Chain, statement: Chain) -> Iterator[tuple[Chain, ...]]:
    """Yield what the letters are where one side of a line is the formula's with numbers put in.

    ``= 12 · 5`` below ``A = lw`` is the last side of ``A = lw = 12 · 5``.
    """
    pattern = (
        formula
        if len(formula.sides) == 2
        else replace(formula, sides=formula.sides[:2], rels=formula.rels[:1])
    )
    turned = replace(pattern, sides=pattern.sides[::-1])  # "h = 180/15" below "2A/b = h"
    patterns: tuple[Chain, ...] = (pattern, turned) if isinstance(pattern.sides[1], Name) else (pattern,)
    head = statement.sides[0]
    if isinstance(head, Name) and head not in pattern.sides and not names_in(*statement.sides[1:]):
        solved = made_subject(pattern, head.name)  # "r = 31.4/(2 · 3.14)" right below "C = 2πr"
        patterns += () if solved is None else (solved,)
    for at in range(1, len(statement.sides)):
        line = replace(
            statement, sides=(statement.sides[0], statement.sides[at]), rels=statement.rels[at - 1 : at]
        )
        for way in patterns:
            told = values_put_in(way, line)
            if told is not None:
                # In the order of the formula, whose head is worked out of the rest.
                order = [node for side in pattern.sides for node in every(side) if isinstance(node, Name)]
                yield tuple(sorted(told, key=lambda given: order.index(_name_told(given))))


def _name_told(given: Chain) -> Name:
    return next(node for node in every(given.sides[0]) if isinstance(node, Name))


def _is_known_otherwise(base: Spec, given: Chain, setting: Setting) -> bool:
    """``I = 240`` where the lines above say that I is 120."""
    head = given.sides[0]
    if not isinstance(head, Name) or names_in(given.sides[1]):
        return False
    try:
        values = base.ground(setting).values().get(head.name, ())
        told = value_of(given.sides[1], setting).constant()
    except (NotExact, DividedByZero):
        return False
    number = None if told is None else told.rational()
    return number is not None and len(values) > 0 and number not in values


def _extended(
    known: Known, statement: Statement, index: int, told: tuple[Chain, ...], positive: frozenset[str]
) -> Judged | None:
    """Mark a line by which values are told, None where they or the rest of the line do not fit."""
    base = known.base
    assert base is not None
    extended = Spec((*base.premises, *told), positive, base.line)
    setting = settings(known, statement)[0]
    if at_odds(extended, setting) or any(_is_known_otherwise(base, given, setting) for given in told):
        return None  # "240 = 1600(0.0)t" under I = Prt
    names = known.context.names.joined(name for given in told for name in statement_names(given))
    after = replace(known, context=replace(known.context, names=names), base=extended)
    found: Found | None = None
    if isinstance(statement, Chain) and len(statement.sides) > 2:
        found = search(after, statement, (extended,))
        if found.how not in (How.FOLLOWS, How.ROUNDS):
            return None
    elif answers_in(statement):  # "P = 3/8" below "P = favorable/total": the answer at once
        found = search(after, statement, (extended,))
    verdict = Verdict.ROUNDS if found is not None and found.how is How.ROUNDS else Verdict.FOLLOWS
    return stands(after, statement, index, verdict, found)
