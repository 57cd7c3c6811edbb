"""Lines that do not claim what they seem to claim.

A check that is asked with ``≟`` or called false, ``x ≠ 3`` for a value that cannot be put in, values
that are still to be put into the first line, decimals put in behind ``≈``, hundredths written with %.
"""

import re
from dataclasses import replace
from functools import partial

from tutor.line.meaning import Setting
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import (
    Abs,
    Bare,
    Chain,
    Div,
    Expr,
    Mul,
    Name,
    Num,
    Percent,
    Phrase,
    Pow,
    Rel,
    Root,
    Said,
    Statement,
    whole_number,
)
from tutor.line.walk import every, names_in, sides
from tutor.line.writing import write_statement
from tutor.marking.deciding.answers import answer_of
from tutor.marking.deciding.at_odds import at_odds
from tutor.marking.deciding.claim import NEVER, claim_of
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.follow import Found, How, search
from tutor.marking.deciding.nearly import holds_nearly
from tutor.marking.deciding.plainer import numbers_told, with_numbers
from tutor.marking.deciding.state import Known, Spec, settings
from tutor.marking.judging.aftermath import Judged, stands
from tutor.marking.judging.halves import half_of_line
from tutor.marking.judging.part_of_answer import part_of_answer
from tutor.marking.judging.put_to_the_test import fails_the_test, without_rejected
from tutor.marking.verdict import Mark, Verdict

_ASKS = re.compile(r"≟|=\?|\?=|\?\s*$")
_CALLED_FALSE = re.compile(r"(?:false|not\s+true|untrue|[×✗✘☓⨯])[)\]]?[.!]?\s*$", re.IGNORECASE)
PUT_IN = "Put each value into the first line. Does each of them fit?"


def not_claimed(known: Known, text: str, index: int, judged: Judged, *, goes_on: bool) -> Judged:
    """Return the mark of a line that breaks as a claim and is none; any other mark as it is.

    ``goes_on``: a line comes after it, or can still come. A question or values to be put in that end a
    finished piece of work break: nothing answers them.
    """
    statement = judged.statement
    if judged.mark.verdict not in (Verdict.BREAKS, Verdict.UNDECIDED) or statement is None:
        return judged
    near = _near(known, statement)
    if near is not None:
        return stands(known, statement, index, Verdict.ROUNDS, near)
    if judged.mark.verdict is Verdict.UNDECIDED:
        return judged
    in_hundredths = _in_hundredths(known, statement)
    if in_hundredths is not None:
        found = search(known, in_hundredths, (known.base, *known.more)) if known.base is not None else None
        if found is not None and found.how is How.FOLLOWS:
            return stands(known, in_hundredths, index, Verdict.FOLLOWS, found)
    if not statement_names(statement) and not isinstance(statement, Said):
        if _CALLED_FALSE.search(text):
            return _unclaimed(known, statement, Verdict.FOLLOWS)
        asked = goes_on and (_ASKS.search(text) is not None or fails_the_test(known, statement))
        return _unclaimed(known, statement, Verdict.NOTE) if asked else judged
    if isinstance(statement, Said):
        many = "infinit" in text.lower() and _leaves_many(known, statement)
        return stands(known, statement, index, Verdict.FOLLOWS, None) if many else judged
    if _is_ruled_out(known, statement):
        return _unclaimed(known, statement, Verdict.FOLLOWS)
    part = part_of_answer(known, text, statement, index)
    if part is None and goes_on:
        part = half_of_line(known, statement, index)
    if part is not None:
        return part
    if _says_one_premise(known, statement):
        return stands(known, statement, index, Verdict.FOLLOWS, None)
    left = without_rejected(known, text, statement, index)
    if left is not None:
        return left
    if goes_on and answer_of(statement) is not None:
        return _to_be_put_in(known, statement, index) or judged
    return judged


def _near(known: Known, statement: Statement) -> Found | None:
    """``x = 3 + √5 ≈ 3 + 2.236 = 5.236``: the numbers compare, and the first two sides follow."""
    if not isinstance(statement, Chain) or Rel.APPROX not in statement.rels:
        return None
    setting = settings(known, statement)[0]
    if not statement_names(statement):
        nearly = holds_nearly(statement.sides, statement.rels, setting)
        return Found(How.ROUNDS, setting, known.base) if nearly else None
    if known.base is None or len(statement.sides) < 3:
        return None
    if not holds_nearly(statement.sides[1:], statement.rels[1:], setting):
        return None
    head = replace(statement, sides=statement.sides[:2], rels=statement.rels[:1])
    found = search(known, head, (known.base, *known.more))
    return found if found.how is How.FOLLOWS else None


def _in_hundredths(known: Known, statement: Statement) -> Chain | None:
    """``p = 40%`` or ``40%`` below ``p/100 = 12/30``: p counts hundredths already, and 40 is meant."""
    find = known.context.find
    if isinstance(statement, Bare) and len(find) == 1:
        statement = Chain((Name(find[0], statement.span), statement.expr), (Rel.EQ,), statement.span)
    if not isinstance(statement, Chain) or statement.rels != (Rel.EQ,) or known.base is None:
        return None
    name, value = statement.sides
    if not isinstance(name, Name) or not isinstance(value, Percent):
        return None
    written = (node for line in known.base.premises for side in sides(line) for node in every(side))
    counts = any(_counts_hundredths(node, name) for node in written)
    return replace(statement, sides=(name, value.inner)) if counts else None


def _counts_hundredths(node: Expr, name: Name) -> bool:
    match node:
        case Percent(inner):
            return inner == name
        case Div(top, Num(value=value)):
            return value == 100 and name.name in names_in(top)
        case _:
            return False


def _leaves_many(known: Known, statement: Said) -> bool:
    """``x + y = 3``, ``2x + 2y = 6``, ``0 = 0``: two names are asked for, and one equation tells of them."""
    base, last = known.base, known.previous
    if statement.phrase is not Phrase.ALL_NUMBERS or base is None or not isinstance(last, Chain):
        return False
    few = known.context.from_first_line and len(base.premises) < len(known.context.find)
    return few and len(known.above) > 1 and not statement_names(last)


def _says_one_premise(known: Known, statement: Statement) -> bool:
    """``2x + 2y = 6`` for ``x + y = 3``, beside ``2x + 2y = 8``: one line of what contradicts itself."""
    base = known.base
    if base is None or len(base.premises) < 2 or answer_of(statement) is not None:
        return False
    setting = settings(known, statement)[0]
    if not at_odds(base, setting):
        return False
    alone = (Spec((premise,), base.positive, base.line) for premise in base.premises)
    try:
        return any(search(known, statement, (spec,)).how is How.FOLLOWS for spec in alone)
    except (DividedByZero, NotExact):  # a premise that means nothing, such as p = w/g beside g = 0
        return False


def _unclaimed(known: Known, statement: Statement, verdict: Verdict) -> Judged:
    return Judged(Mark(verdict, read_as=partial(write_statement, statement)), known, statement)


def _is_ruled_out(known: Known, statement: Statement) -> bool:
    """``x ≠ 3`` where 3 is no solution: above all where it would make a denominator 0."""
    if not isinstance(statement, Chain) or statement.rels != (Rel.NE,) or known.base is None:
        return False
    told = numbers_told((replace(statement, rels=(Rel.EQ,)),))
    setting = settings(known, statement)[0]
    return bool(told) and any(_fails(with_numbers(premise, told), setting) for premise in known.base.premises)


def _fails(premise: Statement, setting: Setting) -> bool:
    try:
        return claim_of(premise, setting) == NEVER
    except DividedByZero:
        return True
    except NotExact:
        return False


def _to_be_put_in(known: Known, statement: Statement, index: int) -> Judged | None:
    """``x = 3 or x = −2`` after a step that may gain a solution: which of them fit is found out below."""
    if known.base is None or not any(map(_asks_for_a_check, known.base.premises)):
        return None
    gained = (*(spec for spec in known.more if spec.gained), *_squared(known))
    found = search(known, statement, gained) if gained else None
    if found is None or found.how is not How.FOLLOWS:
        return None
    judged = stands(known, statement, index, Verdict.FOLLOWS, found)
    after = replace(judged.known, answers=known.answers)
    return replace(judged, known=after, mark=replace(judged.mark, note=PUT_IN))


def _asks_for_a_check(premise: Statement) -> bool:
    """An unknown under a root, below a fraction bar or between bars: what is found has to be put in."""
    for side in sides(premise):
        for node in every(side):
            match node:
                case Root(_, inner) | Abs(inner) | Div(_, inner):
                    if names_in(inner):
                        return True
                case _:
                    pass
    return False


def _squared(known: Known) -> tuple[Spec, ...]:
    """``√x = −4``, then ``x = 16``: squared, or a bottom taken off, and worked out in one step."""
    line, base = known.previous, known.base
    if not isinstance(line, Chain) or line.rels != (Rel.EQ,) or base is None or len(base.premises) != 1:
        return ()
    left, right = line.sides
    if isinstance(left, Div) and isinstance(right, Div) and names_in(left.bottom, right.bottom):
        crossed = (Mul((left.top, right.bottom)), Mul((right.top, left.bottom)))
        tops = (left.top, right.top) if left.bottom == right.bottom else crossed
        return (base.replaced(0, replace(line, sides=tops), known.above[-1][0], gained=True),)
    if not any(isinstance(side, Root) and side.index == 2 for side in line.sides):
        return ()
    two = whole_number(2)
    squares = tuple(side.inner if isinstance(side, Root) else Pow(side, two) for side in line.sides)
    return (base.replaced(0, replace(line, sides=squares), known.above[-1][0], gained=True),)
