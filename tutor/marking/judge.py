"""Marking one line: from what is known and the typed text to a mark and what is known then."""

import re
from dataclasses import replace
from functools import partial

from tutor.line.meaning import value_of
from tutor.line.names import attached_letters, letters_between_signs
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.reader import Readings, Unread, read
from tutor.line.tree import (
    Bare,
    Chain,
    Joined,
    Joiner,
    Measure,
    Name,
    Neg,
    Note,
    Num,
    Onward,
    Phrase,
    Rel,
    Said,
    Statement,
)
from tutor.line.walk import names_in, sides
from tutor.line.writing import write_statement
from tutor.marking.aftermath import Judged, broken, carried_on, carries, stands
from tutor.marking.deciding import slow
from tutor.marking.deciding.answers import answer_of, answers_in
from tutor.marking.deciding.claim import ALWAYS, claim_of
from tutor.marking.deciding.compare import Overlap
from tutor.marking.deciding.context import looks_like_formula
from tutor.marking.deciding.facts import facts, statement_names
from tutor.marking.deciding.first_line import pair_named, with_letters_for_units
from tutor.marking.deciding.follow import Found, How, at_odds, keeps_value, search
from tutor.marking.deciding.holes import hole_named, is_label
from tutor.marking.deciding.instance import evaluated, values_put_in
from tutor.marking.deciding.lengths import comparison_is_false, says_enough, tests_the_longest
from tutor.marking.deciding.plainer import without_roots
from tutor.marking.deciding.sampling import differ
from tutor.marking.deciding.state import Known, Spec, settings
from tutor.marking.deciding.units_check import (
    UnitFault,
    dimension_fault,
    other_kind,
    unit_changed,
    unlike_sides,
    unlike_terms,
)
from tutor.marking.leaps import leap_told
from tutor.marking.slips.find import find_slip
from tutor.marking.slips.triangles import yes_slip
from tutor.marking.slips.units import wrong_kind
from tutor.marking.telling.reasons import (
    Why,
    account_text,
    why_breaks,
    why_links_break,
    why_no_value,
    why_value_changed,
)
from tutor.marking.verdict import Mark, Reason, Verdict

_ALONE = re.compile(r"(?<![A-Za-z])[A-Za-z](?![A-Za-z])")


def judge(known: Known, text: str, index: int, *, next_text: str | None = None) -> Judged:
    """Mark one line. ``next_text``: the line after it, where it is already there."""
    names = known.context.names
    if known.base is None:
        # In "S = 6s²" the two letters differ only by case: both are names.
        alone = set(_ALONE.findall(text))
        names = names.joined(letter for letter in alone if letter.swapcase() in alone)
        names = names.joined(letters_between_signs(text))
        if not known.context.find:
            names = names.joined(attached_letters(text))
        if names is not known.context.names:
            known = replace(known, context=replace(known.context, names=names))
    found = pair_named(text, known.context.find, names) or read(text, names)
    if known.base is None and isinstance(found, Readings):
        found = with_letters_for_units(text, names, found)
    judged = _main_way(known, text, index, next_text, found)
    if known.context.task.every_step:
        judged = leap_told(known, judged)
    if known.other is None:
        return judged
    # The first line could be read two ways: the second stays open while lines follow from it.
    other = judge(known.other, text, index, next_text=next_text)
    if not other.mark.verdict.stands:
        return judged
    if not judged.mark.verdict.stands:
        return other
    return replace(judged, known=replace(judged.known, other=other.known))


def _main_way(known: Known, text: str, index: int, next_text: str | None, found: Readings | Unread) -> Judged:
    if isinstance(found, Unread):
        reason = Reason.TOO_LONG if found.too_long else Reason.SYNTAX
        return Judged(Mark(Verdict.UNREAD, reason, None, found.message, found.span), known)
    best: Judged | None = None
    for way, statement in _in_order(known, found):
        judged = _one_reading(known, statement, index, next_text)
        if judged.mark.verdict.stands or judged.mark.verdict in (Verdict.NOTE, Verdict.UNREAD):
            if len(found.statements) == 1 and known.other is None:
                return judged  # the everyday line: it can be read in one way only
            after = replace(judged.known, second_way=way > 0 or known.second_way, other=None)
            if known.base is None and way == 0 and len(found.statements) > 1:
                second = _one_reading(known, found.statements[1], index, next_text)
                after = replace(after, other=replace(second.known, second_way=True))
            return replace(judged, known=after)
        if best is None or (best.mark.verdict is Verdict.BREAKS and judged.mark.verdict is Verdict.CARRIES):
            best = judged
    assert best is not None
    return best


def _in_order(known: Known, found: Readings) -> list[tuple[int, Statement]]:
    """A way of reading that was taken once is tried first afterwards."""
    ways = list(enumerate(found.statements))
    return ways[::-1] if known.second_way else ways


def _one_reading(known: Known, statement: Statement, index: int, next_text: str | None) -> Judged:
    if isinstance(statement, Note):
        return Judged(Mark(Verdict.NOTE), known, statement)
    goes_on = statement if isinstance(statement, Onward) else None
    if isinstance(statement, Onward):
        previous = known.previous
        if not isinstance(previous, Chain | Bare):
            message = "There is no line above that this one can go on from. Write the left side too."
            return Judged(Mark(Verdict.UNREAD, Reason.SYNTAX, None, message, statement.span), known)
        statement = _gone_on(previous, statement)
    try:
        judged = _judged(known, statement, index, next_text)
        if goes_on is not None and judged.mark.verdict is Verdict.BREAKS:
            return _from_broken(known, goes_on, index) or judged
        return judged
    except DividedByZero:
        return broken(known, statement, index, why_no_value(statement, settings(known, statement)[0]))
    except NotExact:
        return _undecided(known, statement)


def _from_broken(known: Known, onward: Onward, index: int) -> Judged | None:
    """A line that goes on from the broken line right above it, and is right given that one."""
    if not known.broken or (known.above and known.above[-1][0] > known.broken[-1][0]):
        return None
    wrong = sides(known.broken[-1][1])
    if not wrong:
        return None
    statement = Chain((wrong[-1], *onward.sides), onward.rels, onward.span)
    if claim_of(statement, settings(known, statement)[0]) != ALWAYS:
        return None
    mark = _spoken(Verdict.CARRIES, statement, _CARRIES)
    return Judged(mark, carried_on(known, statement, index), statement)


_UNDECIDED = (
    "Evenline cannot decide this line. It may well be right: go on in smaller steps or ask your teacher."
)


def _undecided(known: Known, statement: Statement) -> Judged:
    return Judged(_spoken(Verdict.UNDECIDED, statement, _UNDECIDED), known, statement)


def _spoken(verdict: Verdict, statement: Statement, message: str) -> Mark:
    return Mark(verdict, message=message, read_as=partial(write_statement, statement))


def _gone_on(previous: Statement, onward: Onward) -> Statement:
    """``= 48`` under ``A = 6·8``: the line goes on from the last side above."""
    if isinstance(previous, Chain):
        return Chain(
            (previous.sides[0], previous.sides[-1], *onward.sides),
            (previous.rels[-1], *onward.rels),
            onward.span,
        )
    if isinstance(previous, Bare):
        return Chain((previous.expr, *onward.sides), onward.rels, onward.span)
    raise NotExact("nothing to go on from")


def _judged(known: Known, statement: Statement, index: int, next_text: str | None) -> Judged:
    if facts(statement).hole:
        if is_label(statement):
            return stands(known, statement, index, Verdict.FOLLOWS, None)
        statement = hole_named(statement)  # "8 + 4 = ? + 5": the question mark is the unknown
    if isinstance(statement, Said) and statement.phrase in (Phrase.YES, Phrase.NO):
        return _yes_or_no(known, statement, index)
    if known.base is None:
        return _first(known, statement, index, next_text)
    if not isinstance(statement, Bare) and known.has(statement):
        return stands(known, statement, index, Verdict.RESTATES, None)
    if isinstance(statement, Bare):
        return _bare(known, statement, index)
    premise = known.base.place_of(statement)
    if premise is not None:
        found = Found(How.FOLLOWS, settings(known, statement)[0], known.base, premise, Overlap.SAME)
        return stands(known, statement, index, Verdict.FOLLOWS, found)
    if (
        comparison_is_false(statement)
        and next_text is not None
        and says_enough(next_text, known.context.names)
    ):
        return stands(known, statement, index, Verdict.FOLLOWS, None)
    if _defines(known, statement):
        return _defined(known, statement, index)
    return _from_known(known, statement, index)


def _first(known: Known, statement: Statement, index: int, next_text: str | None) -> Judged:
    """The first line of work where the problem gives no premise: it is the premise."""
    _no_division_by_zero(statement)
    names = statement_names(statement)
    context = known.context
    if not names <= context.names.known:
        context = replace(context, names=context.names.joined(names))
        known = replace(known, context=context)
    if isinstance(statement, Bare) or not names:
        empty = replace(known, base=Spec((), frozenset()))
        if isinstance(statement, Bare):
            return stands(empty, statement, index, Verdict.FOLLOWS, None)
        return _judged(empty, statement, index, next_text)
    untrue = why_links_break(known, statement, settings(known, statement)[0])
    if untrue is not None:
        return broken(known, statement, index, untrue)
    positive = names if looks_like_formula(statement) else context.measures
    based = replace(known, base=Spec(_premises(statement), frozenset(positive), index))
    setting = settings(based, statement)[0]
    whole = Found(How.FOLLOWS, setting, based.base, 0)
    return stands(based, statement, index, Verdict.FOLLOWS, whole)


def _premises(statement: Statement) -> tuple[Statement, ...]:
    """``x + y = 5 and x − y = 1`` gives two premises; an "or" and a list of values give one."""
    if (
        isinstance(statement, Joined)
        and statement.joiner is not Joiner.OR
        and len(statement_names(statement)) > 1
    ):
        return statement.parts
    return (statement,)


def _no_division_by_zero(statement: Statement) -> None:
    """Raise ``DividedByZero`` if a side divides by zero; what cannot be held is left alone."""
    if not facts(statement).divides:
        return
    for side in sides(statement):
        try:
            value_of(side)
        except NotExact:
            continue


def _from_known(known: Known, statement: Statement, index: int) -> Judged:
    assert known.base is not None
    fault = _unit_fault(known, statement) if facts(statement).units else None
    found = search(known, statement, (known.base, *known.more))
    if found.how is How.UNDECIDED:
        found = slow.search(known, statement, found)
    if fault is not None and found.how is not How.UNDECIDED:
        return _unit_broken(known, statement, index, fault, found)
    found = _answer_checked(known, statement, found)
    if found.how is How.FOLLOWS:
        return stands(known, statement, index, Verdict.FOLLOWS, found)
    if found.how is How.GAINS:
        return stands(known, statement, index, Verdict.FOLLOWS, found)
    if found.how is How.ROUNDS:
        return stands(known, statement, index, Verdict.ROUNDS, found)
    instance = _instance(known, statement, index)
    if instance is not None:
        return instance
    if found.how is How.UNDECIDED:
        return _undecided(known, statement)
    if carries(known, statement):
        account = account_text(known, statement, found.setting)
        mark = Mark(
            Verdict.CARRIES, account=account, read_as=partial(write_statement, statement), message=_CARRIES
        )
        return Judged(mark, carried_on(known, statement, index), statement)
    return broken(known, statement, index, why_breaks(known, statement, found))


_CARRIES = "This follows from the wrong line above. Mend that line first."


def _unit_fault(known: Known, statement: Statement) -> UnitFault | None:
    fault = dimension_fault(known.context, statement) or unlike_sides(statement)
    return fault or other_kind((line for _, line in known.above), statement)


def _answer_checked(known: Known, statement: Statement, found: Found) -> Found:
    """An answer must have exactly the right solutions, even after a step that may gain some."""
    if (
        found.how is not How.FOLLOWS
        or found.spec is None
        or not found.spec.gained
        or answer_of(statement) is None
    ):
        return found
    assert known.base is not None
    try:
        outcome = known.base.ground(found.setting).outcome(claim_of(statement, found.setting))
    except NotExact:
        return slow.search(known, statement, Found(How.UNDECIDED, found.setting))
    if outcome.overlap.value == "same":
        return replace(found, spec=known.base, index=outcome.index)
    return Found(How.BREAKS, found.setting, known.base, outcome.index, outcome.overlap)


def _unit_broken(known: Known, line: Statement, index: int, fault: UnitFault, found: Found) -> Judged:
    if found.how is not How.BREAKS:
        return broken(known, line, index, _unit(fault), found, units=True)
    # Where the number is wrong as well, as in a perimeter given for an area, that is told.
    slip = find_slip(known, line, found.setting)
    why = _unit(fault) if slip is None else Why(Reason.SLIP, slip.message, slip.span, slip=slip.name)
    return broken(known, line, index, why, units=True)


def _unit(fault: UnitFault) -> Why:
    """A unit of another kind: the short sentence about units, and the slip where it has a name."""
    name = wrong_kind(fault.wanted, fault.unit)
    return Why(Reason.UNIT, fault.message, fault.span, slip=name)


# -- expressions that go on -----------------------------------------------------------------


def _bare(known: Known, statement: Bare, index: int) -> Judged:
    _no_division_by_zero(statement)
    previous = known.previous
    setting = settings(known, statement)[0]
    fault = unlike_terms(statement.expr)
    if fault is None and isinstance(previous, Bare):
        fault = unit_changed(previous.expr, statement.expr, "the line above")
    if fault is not None:
        how = _kept(known, previous, statement) if isinstance(previous, Bare) else How.FOLLOWS
        return _unit_broken(known, statement, index, fault, Found(how or How.BREAKS, setting))
    if not isinstance(previous, Bare):
        return stands(known, statement, index, Verdict.FOLLOWS, None)
    verdict = _kept(known, previous, statement)
    if verdict in (None, How.BREAKS) and evaluated(previous, statement):
        verdict = How.FOLLOWS
    if verdict is None:
        return _undecided(known, statement)
    if verdict is not How.BREAKS:
        mark = Verdict.ROUNDS if verdict is How.ROUNDS else Verdict.FOLLOWS
        if known.has(statement):
            mark = Verdict.RESTATES
        return stands(known, statement, index, mark, None)
    for _, wrong in reversed(known.broken):
        if isinstance(wrong, Bare) and _kept(known, wrong, statement) is How.FOLLOWS:
            mark_ = _spoken(Verdict.CARRIES, statement, _CARRIES)
            return Judged(mark_, replace(known, broken=(*known.broken, (index, statement))), statement)
    return broken(known, statement, index, why_value_changed(known, previous, statement, setting))


def _kept(known: Known, before: Bare, after: Bare) -> How | None:
    """Tell whether an expression kept its value: exactly, rounded, or not; None if undecided."""
    unsure = False
    for setting in settings(known, Chain((before.expr, after.expr), (Rel.EQ,))):
        kept = keeps_value(before, after, setting)
        if kept:
            return How.FOLLOWS
        unsure = unsure or kept is None
    if unsure and differ(before, after, settings(known, after)[0]):
        return How.BREAKS
    if unsure:
        kept_slowly = slow.keeps_value(before.expr, after.expr)
        return None if kept_slowly is How.BREAKS and _kept_if_positive(known, before, after) else kept_slowly
    if known.base is not None and known.base.premises and statement_names(before):
        # "2x" goes on as "8" where 2x = 8 is known.
        equal = Chain((before.expr, after.expr), (Rel.EQ,))
        return search(known, equal, (known.base,)).how
    if not statement_names(before) and known.base is not None:
        found = search(known, Chain((before.expr, after.expr), (Rel.EQ,)), (known.base,))
        decimal = isinstance(after.expr, Num | Neg | Measure)
        return How.ROUNDS if found.how is How.ROUNDS and decimal else How.BREAKS
    return How.BREAKS


def _kept_if_positive(known: Known, before: Bare, after: Bare) -> bool:
    """``√(x²)`` goes on as ``x`` where no letter is negative, as many books have it: not called wrong."""
    names = statement_names(before) | statement_names(after)
    lifted = without_roots((before, after), names) or (before, after)
    setting = replace(settings(known, after)[0], positive=names)
    pair = [bare for bare in lifted if isinstance(bare, Bare)]
    return bool(names) and len(pair) == 2 and keeps_value(pair[0], pair[1], setting) is True


# -- definitions, instances, carried values ----------------------------------------------------


def _defines(known: Known, statement: Statement) -> bool:
    """``T = 12·5/2``: a new letter for something that is worked out."""
    if (
        not isinstance(statement, Chain)
        or statement.rels != (Rel.EQ,)
        or not isinstance(statement.sides[0], Name)
    ):
        return False
    new, right = statement.sides[0].name, statement.sides[1]
    if known.context.names.find(new) is not None or isinstance(right, Num | Name):
        return False
    names = statement_names(Bare(right))
    alone = known.context.from_first_line or len(known.context.names.known) == 1
    return new not in names and names <= known.context.names.known and not (alone and answers_in(statement))


def _defined(known: Known, statement: Statement, index: int) -> Judged:
    assert known.base is not None and isinstance(statement, Chain) and isinstance(statement.sides[0], Name)
    context = replace(known.context, names=known.context.names.joined({statement.sides[0].name}))
    more = tuple(spec.extended(statement) for spec in known.more)
    extended = replace(known, context=context, base=known.base.extended(statement), more=more)
    return stands(extended, statement, index, Verdict.FOLLOWS, None)


def _instance(known: Known, statement: Statement, index: int) -> Judged | None:
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


def _yes_or_no(known: Known, statement: Said, index: int) -> Judged:
    tests = [line for _, line in known.above if isinstance(line, Chain) and not statement_names(line)]
    untrue = [line for _, line in known.broken if isinstance(line, Chain) and not statement_names(line)]
    compared = [*tests, *untrue]
    said_no = statement.phrase is Phrase.NO
    longest = any(tests_the_longest(test) for test in tests)
    if tests and said_no == any(comparison_is_false(test) for test in tests):
        if said_no or longest:
            return stands(replace(known, ended=True), statement, index, Verdict.FOLLOWS, None)
        message = "Compare the two shorter lengths together with the longest one first."
    elif compared:
        message = "The comparisons above say the other thing. Read them once more."
    else:
        message = "Write the comparison out first, then yes or no."
    slip = None if said_no else yes_slip(compared, longest, statement.span)
    if slip is not None:
        return broken(known, statement, index, Why(Reason.SLIP, slip.message, slip.span, slip=slip.name))
    return broken(known, statement, index, Why(Reason.NOT_TRUE, message, statement.span))
