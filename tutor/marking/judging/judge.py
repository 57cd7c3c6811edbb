"""Marking one line: from what is known and the typed text to a mark and what is known then."""

from dataclasses import replace
from functools import partial

from tutor.line.poly import DividedByZero, NotExact
from tutor.line.reader import Readings, Unread, read_before
from tutor.line.tree import (
    Bare,
    Chain,
    Joined,
    Name,
    Note,
    Onward,
    Phrase,
    Rel,
    Said,
    Statement,
)
from tutor.line.writing import write_statement
from tutor.marking.deciding import slow
from tutor.marking.deciding.compare import Overlap
from tutor.marking.deciding.facts import facts, statement_names
from tutor.marking.deciding.first_line import (
    evaluated_at,
    has_a_run,
    names_of_first_line,
    pair_named,
    with_letters_for_units,
)
from tutor.marking.deciding.follow import Found, How, search
from tutor.marking.deciding.holes import HOLE, answers_a_hole, hole_named, is_label
from tutor.marking.deciding.lengths import comparison_is_false, says_enough
from tutor.marking.deciding.solution_set import answer_told, set_named
from tutor.marking.deciding.state import Known, Spec, settings
from tutor.marking.judging.aftermath import Judged, broken, carried_on, carries, stands
from tutor.marking.judging.answer_checked import answer_checked
from tutor.marking.judging.expressions import expression
from tutor.marking.judging.figures_in_turn import another_figure
from tutor.marking.judging.going_on import gone_on
from tutor.marking.judging.introduced import (
    brings_in_a_formula,
    is_a_length,
    names_the_result,
    tells_one_more,
)
from tutor.marking.judging.label import label
from tutor.marking.judging.listed import listed, told_as_list
from tutor.marking.judging.marks import CARRIES, no_division_by_zero, undecided
from tutor.marking.judging.meant_otherwise import meant_otherwise
from tutor.marking.judging.new_letters import is_everyday, of_new_letters, with_new_letters
from tutor.marking.judging.not_claimed import not_claimed
from tutor.marking.judging.one_way import rounded_the_wrong_way
from tutor.marking.judging.onward import from_broken, gone_on_from, kept_onward, why_chain_parts, works_out
from tutor.marking.judging.premises import based_on_first, leads_on
from tutor.marking.judging.said import also_answers, answer_said
from tutor.marking.judging.set_up import begins_late, equation_set_up, rules_out
from tutor.marking.judging.standing_for import stands_for
from tutor.marking.judging.told_in_work import instance_of_formula, stands_for_a_part, tells_values
from tutor.marking.judging.true_by_chance import true_by_chance
from tutor.marking.judging.words import (
    in_words,
    is_spoken_of,
    labelled,
    says_what_a_letter_is,
    unknown_words,
    with_plain_percents,
    without_words,
)
from tutor.marking.judging.wrong_units import unit_broken, unit_fault
from tutor.marking.judging.yes_no import yes_or_no
from tutor.marking.telling.reasons import (
    Why,
    account_text,
    why_breaks,
    why_links_break,
    why_no_value,
)
from tutor.marking.verdict import Mark, Reason, Verdict


def judge(
    known: Known, text: str, index: int, *, next_text: str | None = None, open_end: bool = False
) -> Judged:
    """Mark one line.

    ``next_text``: the line after it, where it is already there. ``open_end``: the work goes on, and
    the line after it is still to be typed.
    """
    names = known.context.names
    at = None
    if known.base is None:
        wordy = has_a_run(text)
        names = names_of_first_line(text, names, wordy=wordy, asks=bool(known.context.find))
        if names is not known.context.names:
            known = replace(known, context=replace(known.context, names=names))
        at = evaluated_at(text, names) if wordy or "," in text else None
    if at is not None:
        given = replace(known, base=Spec(at[1], frozenset(), index))
        return stands(given, at[0], index, Verdict.FOLLOWS, None)
    find = known.context.find
    found = pair_named(text, find, names) or set_named(text, find, names) or read_before(text, names)
    if known.base is None and isinstance(found, Readings):
        found = with_letters_for_units(text, names, found)
    told = answer_told(text, find, names) if known.base is not None else None
    if told is not None:
        judged = _main_way(known, text, index, next_text, told)
        if judged.mark.verdict.stands:
            return judged
    judged = _main_way(known, text, index, next_text, found)
    judged = also_answers(known, judged)
    if judged.mark.verdict in (Verdict.BREAKS, Verdict.UNDECIDED):
        judged = not_claimed(known, text, index, judged, goes_on=open_end or next_text is not None)
    if judged.mark.verdict is Verdict.BREAKS:
        judged = stands_for(known, judged, index) or _in_its_own_words(known, text, index, judged, next_text)
    if known.other is None:
        return judged
    # The first line could be read two ways: the second stays open while lines follow from it.
    other = judge(known.other, text, index, next_text=next_text, open_end=open_end)
    if not other.mark.verdict.stands:
        return judged
    if not judged.mark.verdict.stands:
        return other
    return replace(judged, known=replace(judged.known, other=other.known))


def _in_its_own_words(known: Known, text: str, index: int, judged: Judged, next_text: str | None) -> Judged:
    """``Triangle: A = 9`` is an A of its own; ``Profit % = 12/60 × 100 = 20%`` says 20 of its words."""
    if judged.statement is None:
        return judged
    own = labelled(text, judged.statement) if known.context.from_first_line else None
    for meant in (own, with_plain_percents(judged.statement)):
        if meant is not None and meant != judged.statement:
            again = _one_reading(known, meant, index, next_text)
            if again.mark.verdict.stands:
                return again
    for meant in meant_otherwise(known, judged.statement):
        again = _one_reading(known, meant, index, next_text)
        if again.mark.verdict.stands:
            read_as = partial(write_statement, judged.statement)
            return replace(again, mark=replace(again.mark, read_as=read_as))
    return judged


def _main_way(known: Known, text: str, index: int, next_text: str | None, found: Readings | Unread) -> Judged:
    if isinstance(found, Unread):
        said = answer_said(known, text, Note((0, len(text))), index)
        if said is not None:
            return said
        reason = Reason.TOO_LONG if found.too_long else Reason.SYNTAX
        return Judged(Mark(Verdict.UNREAD, reason, None, found.message, found.span), known)
    only = found.statements[0]
    if isinstance(only, Note) and (said := answer_said(known, text, only, index)) is not None:
        return said
    best: Judged | None = None
    for way, statement in _in_order(known, found):
        judged = _one_reading(known, statement, index, next_text)
        neither = judged.mark.verdict in (Verdict.NOTE, Verdict.UNREAD)
        if neither and best is not None and best.mark.verdict is Verdict.BREAKS:
            continue  # "Area of circle = 3.14 · 6²" is wrong for this A, and tells of no other area
        if judged.mark.verdict.stands or neither:
            if len(found.statements) == 1 and known.other is None:
                return judged  # the everyday line: it can be read in one way only
            after = replace(judged.known, second_way=way > 0 or known.second_way, other=None)
            if known.base is None and way == 0 and len(found.statements) > 1:
                second = _one_reading(known, found.statements[1], index, next_text)
                if second.mark.verdict.stands:  # "3 m = 14": no 3 metres are 14
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
        statement = without_words(known, gone_on_from(previous, statement))
    try:
        if goes_on is None:
            return _judged(known, statement, index, next_text)
        return _gone_on(known, statement, goes_on, index, next_text)
    except DividedByZero:
        return broken(known, statement, index, why_no_value(statement, settings(known, statement)[0]))
    except NotExact:
        return undecided(known, statement)


def _gone_on(known: Known, statement: Statement, onward: Onward, index: int, next_text: str | None) -> Judged:
    """A line that begins with a sign; ``statement``: the whole of it, with the side above."""
    if works_out(known, onward, next_text):
        worked = kept_onward(known, statement, onward, index)
        if worked is not None:
            return worked
    judged = _judged(known, statement, index, next_text)
    if judged.mark.verdict not in (Verdict.BREAKS, Verdict.UNDECIDED):
        return judged
    again = kept_onward(known, statement, onward, index)
    if again is not None and (again.mark.verdict.stands or judged.mark.verdict is Verdict.UNDECIDED):
        return again
    return from_broken(known, onward, index) or judged


def _judged(known: Known, statement: Statement, index: int, next_text: str | None) -> Judged:
    if facts(statement).hole:
        if is_label(statement):
            return label(known, statement, index, _judged)
        statement = hole_named(statement)  # "8 + 4 = ? + 5": the question mark is the unknown
    if isinstance(statement, Said) and statement.phrase in (Phrase.YES, Phrase.NO):
        return yes_or_no(known, statement, index)
    if says_what_a_letter_is(known, statement):
        return Judged(Mark(Verdict.NOTE), known, statement)
    if known.base is None:
        return _first(known, statement, index, next_text)
    meant = listed(known, statement)
    if meant is not None:
        return told_as_list(_judged(known, meant, index, next_text), meant)
    if isinstance(statement, Bare) and answers_a_hole(known.previous):
        statement = Chain((Name(HOLE, statement.span), statement.expr), (Rel.EQ,), statement.span)
    if not isinstance(statement, Bare) and known.has(statement):
        return stands(known, statement, index, Verdict.RESTATES, None)
    if isinstance(statement, Bare):
        return expression(known, statement, index)
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
    if not is_everyday(known.base, statement):
        known = with_new_letters(known, statement)
        judged = of_new_letters(known, statement, index)
        if judged is not None:
            return judged
        if unknown_words(known, statement):
            return in_words(known, statement, index, _BRINGS_IN)
        if not is_spoken_of(known) and begins_late(known, statement):
            return _first(known, statement, index, next_text)
    return _from_known(known, statement, index)


def _first(known: Known, statement: Statement, index: int, next_text: str | None) -> Judged:
    """The first line of work where the problem gives no premise: it is the premise."""
    no_division_by_zero(statement)
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
    untrue = untrue or why_chain_parts(known, statement, index)
    if untrue is not None:
        return broken(known, statement, index, untrue)
    if rules_out(statement):
        empty = replace(known, base=Spec((), frozenset()))
        return stands(empty, statement, index, Verdict.FOLLOWS, None)
    if isinstance(statement, Joined) and len(names) == 1 and not all(map(rules_out, statement.parts)):
        equations = tuple(part for part in statement.parts if not rules_out(part))
        if len(equations) == 1 < len(statement.parts):
            return _first(known, equations[0], index, next_text)
    if isinstance(statement, Joined) and leads_on(statement):
        begun = _first(known, statement.parts[0], index, None)
        return _judged(replace(begun.known, above=known.above), statement, index, next_text)
    based, setting = based_on_first(known, statement, index)
    whole = Found(How.FOLLOWS, setting, based.base, 0)
    return stands(based, statement, index, Verdict.FOLLOWS, whole)


def _from_known(known: Known, statement: Statement, index: int) -> Judged:
    assert known.base is not None
    fault = unit_fault(known, statement) if facts(statement).units else None
    found = search(known, statement, (known.base, *known.more))
    if found.how is How.UNDECIDED:
        found = slow.search(known, statement, found)
    if fault is not None and found.how is not How.UNDECIDED:
        return unit_broken(known, statement, index, fault, found)
    found = answer_checked(known, statement, found)
    if known.context.task.rounds:
        gone = gone_on(known, statement, found)
        turned = gone if isinstance(gone, Why) else rounded_the_wrong_way(known, statement)
        if turned is not None:
            return broken(known, statement, index, turned)
        found = gone if isinstance(gone, Found) else found
    if found.how is How.FOLLOWS:
        chance = true_by_chance(known, statement) if known.context.dimensions else None
        if chance is not None:
            return broken(known, statement, index, chance)
        return stands(known, statement, index, Verdict.FOLLOWS, found)
    if found.how is How.GAINS:
        return stands(known, statement, index, Verdict.FOLLOWS, found)
    if found.how is How.ROUNDS:
        return stands(known, statement, index, Verdict.ROUNDS, found)
    for brings_in in _BRINGS_IN:
        introduced = brings_in(known, statement, index)
        if introduced is not None:
            return introduced
    if found.how is How.UNDECIDED:
        return undecided(known, statement)
    if carries(known, statement):
        account = account_text(known, statement, found.setting)
        mark = Mark(
            Verdict.CARRIES, account=account, read_as=partial(write_statement, statement), message=CARRIES
        )
        return Judged(mark, carried_on(known, statement, index), statement)
    return broken(known, statement, index, why_breaks(known, statement, found))


_BRINGS_IN = (
    instance_of_formula,
    tells_values,
    names_the_result,
    tells_one_more,
    brings_in_a_formula,
    is_a_length,
    equation_set_up,
    stands_for_a_part,
    another_figure,
)
