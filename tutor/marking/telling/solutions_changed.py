"""Lines that have other solutions than the lines above: lost, gained, or the sign not turned."""

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from functools import partial

from tutor.line.meaning import Setting, number_of
from tutor.line.poly import DividedByZero, NotExact, Poly, Ratio
from tutor.line.real import sign
from tutor.line.tree import Chain, Expr, Joined, Joiner, Name, Num, Phrase, Rel, Said, Statement
from tutor.line.univariate import Spot
from tutor.line.walk import changed, sides
from tutor.marking.deciding.claim import ALWAYS, NEVER, Claim, claim_of, holds, split_signs
from tutor.marking.deciding.compare import Axis, Overlap, compare, solutions
from tutor.marking.deciding.elimination import put_in
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.follow import Found, How, said_by, search
from tutor.marking.deciding.state import Known
from tutor.marking.telling.moves import Op, rational_of, say
from tutor.marking.telling.pairing import Pair
from tutor.marking.telling.untrue import said
from tutor.marking.telling.why import Why, capital
from tutor.marking.telling.witness import asked_for, exactly, short, witness
from tutor.marking.verdict import Reason

_OTHER_STRICTNESS = {Rel.LT: Rel.LE, Rel.LE: Rel.LT, Rel.GT: Rel.GE, Rel.GE: Rel.GT}
_MOST_VALUES = 4
_SMALL = (2, 3, 1, 4, 5, 6, 7, 8, 9, 10, 0, 12, 15, 20, 50, 100, -1, -2, -3, -5, -10, -20, -100)


def solutions_changed(known: Known, statement: Statement, found: Found, pair: Pair | None) -> Why | None:
    """Return what a line with one unknown does to the solutions, where that says more than an account."""
    if known.base is None or len(known.base.premises) != 1:
        return None
    if isinstance(statement, Said):
        return _said(known, statement, found.setting)
    names = statement_names(statement)
    if len(names) != 1 or not isinstance(statement, Chain | Joined):
        return None
    if statement_names(known.base.premises[0]) - names:
        return None  # "2y = 18" under "3x + 2y = 18": for some x it is true
    if isinstance(statement, Chain) and not statement.rels[0].equates:
        return _comparison(known, statement, found.setting, pair)
    (name,) = names
    if found.overlap is Overlap.FEWER:
        return _lost(known, statement, found, name, pair)
    return _values_that_do_not_fit(known, statement, found, name, pair)


def _origin(known: Known) -> str:
    """Return the words for the line or equation that everything here has to agree with."""
    at = known.base.line if known.base is not None else None
    return f"line {at + 1}" if at is not None else "the equation"


# -- comparisons -----------------------------------------------------------------------------------


def _comparison(known: Known, line: Chain, setting: Setting, pair: Pair | None) -> Why | None:
    specs = () if known.base is None else (known.base, *known.more)
    turned = replace(line, rels=tuple(rel.turned for rel in line.rels))
    alike = turned.rels == line.rels or _letters_fall_away(line, pair, setting)
    if not alike and search(known, turned, specs).how is How.FOLLOWS:
        return Why(Reason.SIGN_NOT_TURNED, _about_the_sign(line, pair), line.span)
    other = replace(line, rels=tuple(_OTHER_STRICTNESS.get(rel, rel) for rel in line.rels))
    op = None if pair is None else pair.account.shared
    if op is not None and op.factor is not None and op.factor.names():
        message = f"Both sides were {op.words()}. Where that is negative, the sign has to turn."
        return Why(Reason.SIGN_NOT_TURNED, message, line.span)
    whole = _half_left_out(known, line, setting)
    if whole:
        return Why(Reason.GAINED, f"{capital(whole)} says two things at once. Keep both of them.", line.span)
    if pair is not None and other.rels != line.rels and search(known, other, specs).how is How.FOLLOWS:
        gained = line.rels[0] in (Rel.LE, Rel.GE)
        message = witness(known, pair, line, setting) or _other_sign(line)
        return Why(Reason.GAINED if gained else Reason.LOST, message, line.span)
    return None


def _letters_fall_away(line: Chain, pair: Pair | None, setting: Setting) -> bool:
    """``t − 4 < t + 3`` is always true, turned it never is: more than its sign can be wrong then."""
    if claim_of(line, setting) not in (ALWAYS, NEVER):
        return False
    op = None if pair is None else pair.account.shared
    amounts = () if op is None else (op.first, op.last)
    return op is None or any(amount is not None and amount.names() for amount in amounts)


def _half_left_out(known: Known, line: Chain, setting: Setting) -> str:
    """Return where ``−5 < x − 3 < 5`` stands, of which ``x < 8`` says only a half; "" where nothing does."""
    for at, above in reversed(known.above):
        halves = _halves(above)
        if len(halves) > 1 and any(exactly(partial(_same, half, line, setting)) for half in halves):
            return f"line {at + 1}" if at >= 0 else "the problem"
    return ""


def _halves(statement: Statement) -> tuple[Chain, ...]:
    """Return the comparisons that a line says all at once."""
    if isinstance(statement, Joined):
        parts = [half for part in statement.parts if isinstance(part, Chain) for half in _halves(part)]
        return () if statement.joiner is Joiner.OR or len(parts) < len(statement.parts) else tuple(parts)
    if not isinstance(statement, Chain) or any(rel.equates or rel is Rel.NE for rel in statement.rels):
        return ()
    links = zip(statement.sides, statement.rels, statement.sides[1:], strict=False)
    return tuple(Chain((left, right), (rel,), statement.span) for left, rel, right in links)


def _same(half: Chain, line: Chain, setting: Setting) -> bool:
    one, other = claim_of(half, setting), claim_of(line, setting)
    names = one.names() | other.names()
    return len(names) == 1 and compare(one, other, Axis(min(names))) is Overlap.SAME


def _other_sign(line: Chain) -> str:
    sign = next(rel for rel in line.rels if rel in _OTHER_STRICTNESS)
    strict, loose = (sign, _OTHER_STRICTNESS[sign])[:: 1 if sign in (Rel.LT, Rel.GT) else -1]
    return f"The signs {strict.value} and {loose.value} say different things. Copy the sign."


def _about_the_sign(line: Chain, pair: Pair | None) -> str:
    op = None if pair is None else pair.account.shared
    factor = None if op is None or op.factor is None else rational_of(op.factor)
    sign = line.rels[0].value
    if factor is not None and factor < 0:
        how = Op(factor=Ratio(Poly.number(factor))).words()
        return f"Both sides were {how}. What does that do to the sign {sign}?"
    if pair is not None and op is not None:
        return f"The sign turned to {sign}. Did a negative number multiply or divide?"
    return "The sign points the other way now. Did a negative number multiply or divide?"


# -- equations -------------------------------------------------------------------------------------


def _lost(known: Known, statement: Statement, found: Found, name: str, pair: Pair | None) -> Why | None:
    claim = exactly(lambda: claim_of(statement, found.setting))
    here = None if claim is None else exactly(lambda: solutions(claim, Axis(name)))
    axis = Axis(name, known.base is not None and name in known.base.positive)
    sized = None if claim is None else exactly(lambda: solutions(claim, axis))
    if (here is not None and not here) or (sized is not None and not sized):
        return None  # nothing was left out: "−30s = 125" has another solution, and that is no size
    missing = exactly(lambda: _missing(known, here, name, found.setting))
    op = None if pair is None else pair.account.shared
    if here is None or missing is None:
        message = _missing_number(known, statement, name, found.setting)
    elif op is not None and op.root == 2:
        message = "Two numbers have this square. Which one is missing here?"
    elif op is not None and op.factor is not None and op.factor.below.names():
        by = (op.words() or "").removeprefix("divided by ")
        message = f"Dividing by {by} can lose a solution. Bring all terms to one side first."
    elif missing == 1:
        message = f"{capital(_origin(known))} has one more solution. Which other number makes it true?"
    else:
        message = f"{capital(_origin(known))} has more solutions. Which other numbers make it true?"
    return Why(Reason.LOST, message, statement.span)


def _missing(known: Known, here: tuple[Spot, ...] | None, name: str, setting: Setting) -> int | None:
    """Return how many solutions a line has left out, None where there is no end of them."""
    assert known.base is not None
    axis = Axis(name, name in known.base.positive)
    every = solutions(claim_of(known.base.premises[0], setting), axis)
    return None if every is None or here is None else len(every) - len(here)


def _missing_number(known: Known, statement: Statement, name: str, setting: Setting) -> str:
    """Return the sentence with a small number that a line has left out of many."""
    assert known.base is not None
    for number in map(Fraction, _SMALL):
        claims = [claim_of(line, setting) for line in (known.base.premises[0], statement)]
        fits = [exactly(partial(_fits_at, claim, name, number)) for claim in claims]
        edges = [exactly(partial(_is_edge, claim, name, number)) for claim in claims]
        if fits == [True, False] and edges != [True, False]:
            return f"{name} = {say(number)} fits {_origin(known)}, but not this line."
    return f"Some numbers that fit {_origin(known)} do not fit this line. Which part leaves them out?"


def _fits_at(claim: Claim, name: str, number: Fraction) -> bool:
    """Tell whether a number is one of those that a claim about one name allows."""
    return any(
        all(holds(_sign_at(part.poly, name, number), part.rel) for part in case) for case in claim.cases
    )


def _is_edge(claim: Claim, name: str, number: Fraction) -> bool:
    """Tell whether what is claimed changes there: such a number may be what is looked for."""
    return any(not _sign_at(part.poly, name, number) for case in claim.cases for part in case)


def _sign_at(poly: Poly, name: str, number: Fraction) -> int:
    return sign(put_in(poly, name, Ratio(Poly.number(number))).above)


def _values_that_do_not_fit(
    known: Known, statement: Statement, found: Found, name: str, pair: Pair | None
) -> Why | None:
    """A value of the line that does not solve what everything began with, put in there."""
    several = len(split_signs(statement)) > 1
    gained = found.overlap is Overlap.MORE or _was_gained(known, statement, found.setting)
    if not gained and not several and pair is not None:
        return None
    assert known.base is not None
    first = known.base.premises[0]
    reason = Reason.GAINED if gained else Reason.WITNESS
    for part in split_signs(statement):
        for value in _values(part, name, found.setting):
            if short(value) and _divides_by_zero(first, name, value, found.setting):
                message = f"With {name} = {say(value)}, {_origin(known)} divides by 0. That has no value."
                return Why(reason, message, part.span)
            if not short(value) or _true_at(first, name, value, found.setting) is not False:
                continue
            message = f"{name} = {say(value)} does not fit {_origin(known)}. Put it in and see."
            told = _sides_at(first, name, value, found.setting)
            if told and not any(asked_for(known, one, found.setting) for one in told):
                shown = said(told, first.rels if isinstance(first, Chain) else (Rel.EQ,))
                message = _put_in(name, value, _origin(known), shown)
            return Why(reason, message, part.span)
    if isinstance(statement, Joined):
        for part in split_signs(statement):
            if exactly(partial(_fits, known, part, name, found.setting)) is False:
                message = f"One part of this line does not fit {_origin(known)}. Work it out once more."
                return Why(reason, message, part.span)
    both_sides_tell = (
        pair is not None and pair.account.shared is None and any(m.plain for m in pair.account.moves)
    )
    if found.overlap is Overlap.MORE and not both_sides_tell:
        message = f"This line lets in numbers that do not fit {_origin(known)}. Put each value in there."
        return Why(reason, message, statement.span)
    return None


def _was_gained(known: Known, statement: Statement, setting: Setting) -> bool:
    """Tell whether a line follows from a step that could bring a solution in, as ``x = −1`` may."""
    within = (Overlap.SAME, Overlap.FEWER)
    return any(said_by(spec, statement, setting) in within for spec in known.more if spec.gained)


def _fits(known: Known, part: Statement, name: str, setting: Setting) -> bool:
    """Tell whether every solution of a part solves what everything began with."""
    assert known.base is not None
    whole = claim_of(known.base.premises[0], setting)
    return compare(claim_of(part, setting), whole, Axis(name)) in (Overlap.SAME, Overlap.FEWER)


def _values(part: Statement, name: str, setting: Setting) -> list[Fraction]:
    spots = exactly(lambda: solutions(claim_of(part, setting), Axis(name)))
    found = [spot.exact for spot in spots[:_MOST_VALUES]] if spots else []
    return [value for value in found if value is not None]


def _at(name: str, value: Fraction) -> Callable[[Expr], Expr]:
    def change(node: Expr) -> Expr:
        return Num(value, say(value)) if isinstance(node, Name) and node.name == name else node

    return change


def _true_at(line: Statement, name: str, value: Fraction, setting: Setting) -> bool | None:
    """Tell whether a line holds for a number; None where that cannot be told here."""
    put_in = changed(line, _at(name, value))
    return exactly(lambda: claim_of(put_in, setting) == ALWAYS)


def _divides_by_zero(line: Statement, name: str, value: Fraction, setting: Setting) -> bool:
    try:
        claim_of(changed(line, _at(name, value)), setting)
    except DividedByZero:
        return True
    except NotExact:
        pass
    return False


def _sides_at(line: Statement, name: str, value: Fraction, setting: Setting) -> tuple[Fraction, ...]:
    """Return the value of each side for a number, () where one has none that is short."""
    if not isinstance(line, Chain):
        return ()
    found: list[Fraction] = []
    for side in sides(changed(line, _at(name, value))):
        number = number_of(side, setting)
        if number is None or not short(Fraction(number)):
            return ()
        found.append(Fraction(number))
    return tuple(found)


# -- words that say how many solutions there are ---------------------------------------------------------


def _said(known: Known, statement: Said, setting: Setting) -> Why | None:
    assert known.base is not None
    first = known.base.premises[0]
    names = statement_names(first)
    if len(names) != 1 or not isinstance(first, Chain):
        return None
    (name,) = names
    origin = _origin(known)
    for value in map(Fraction, (1, 2, 3, 0, 5, 10)):
        told = _sides_at(first, name, value, setting)
        if not told or asked_for(known, value, setting):
            continue
        shown, true = said(told, first.rels), _true_at(first, name, value, setting)
        if statement.phrase is Phrase.ALL_NUMBERS and true is False:
            message = _put_in(name, value, origin, shown)
            return Why(Reason.WITNESS, message, statement.span)
        if statement.phrase is Phrase.NO_SOLUTION and true and _holds_always(first, setting):
            message = f"With {name} = {say(value)}, {origin} says {shown}. Is that so for other numbers too?"
            return Why(Reason.LOST, message, statement.span)
    if statement.phrase is Phrase.NO_SOLUTION:
        message = f"Some number does make {origin} true. Go on until the letter stands alone."
        return Why(Reason.LOST, message, statement.span)
    return None


def _put_in(name: str, value: Fraction, origin: str, shown: str) -> str:
    return f"With {name} = {say(value)}, {origin} says {shown}. That is not true."


def _holds_always(line: Statement, setting: Setting) -> bool:
    try:
        return claim_of(line, setting) == ALWAYS
    except NotExact:
        return False
