"""Why a line breaks: the best that can be proven, said in two short sentences."""

import re
from collections.abc import Callable
from dataclasses import replace
from functools import partial

from tutor.line.meaning import Setting
from tutor.line.tree import Bare, Chain, Joined, Joiner, Measure, Name, Statement
from tutor.line.walk import every, names_in, sides
from tutor.marking.deciding.claim import ALWAYS
from tutor.marking.deciding.compare import Overlap
from tutor.marking.deciding.facts import facts, statement_names, unit_letters
from tutor.marking.deciding.follow import Found, How, links, search
from tutor.marking.deciding.rounding import approximates
from tutor.marking.deciding.state import Known, settings, shown_values
from tutor.marking.deciding.units_check import (
    UnitFault,
    dimension_fault,
    has_units,
    unlike_sides,
    without_units,
)
from tutor.marking.slips.find import find_slip
from tutor.marking.slips.model import Slip
from tutor.marking.slips.units import wrong_kind
from tutor.marking.telling.changed_part import changed_in, changed_part, inside
from tutor.marking.telling.copied_wrong import not_the_equation, not_the_given, not_what_is_given
from tutor.marking.telling.not_told import instead_of_the_answer, strange_numbers
from tutor.marking.telling.pairing import Pair, Source, account_text, told_against
from tutor.marking.telling.put_back import does_not_fit
from tutor.marking.telling.quoting import quoted
from tutor.marking.telling.rounded_wrong import not_rounded_right, rounded_too_far
from tutor.marking.telling.sides_kept import not_kept
from tutor.marking.telling.solutions_changed import solutions_changed
from tutor.marking.telling.untrue import divided_away, run_on, untrue, why_no_value
from tutor.marking.telling.useless import from_useless_working
from tutor.marking.telling.why import Why
from tutor.marking.telling.witness import exactly, of_expressions, witness
from tutor.marking.verdict import Reason

__all__ = ["Why", "account_text", "why_breaks", "why_links_break", "why_no_value", "why_value_changed"]

_CALCULATION = re.compile(r"(?<=\S) (?=[=+−·<>≤≥≈≠] )|(?<= [=+−·<>≤≥≈≠]) ")
_MUCH = 2  # moves beyond one on each side, from which a number says more
_ROWS, _CELLS = 3, 36  # what the page has for a reason where the terminal has 80 columns


# Slips that are a run-on are told as one: their reason says more than that they are slips.
RUN_ON_SLIPS = frozenset({"running-equals", "answer-then-carry-on", "solution-chain-on-one-line"})


def why_breaks(known: Known, statement: Statement, found: Found) -> Why:
    """Return why a line does not follow."""
    setting = found.setting
    early = (
        exactly(lambda: _both_at_once(known, statement))
        or _strange_letter(known, statement)
        or exactly(lambda: _of_one_part(known, statement))
    )
    if early is not None:
        return early
    if found.overlap is Overlap.FEWER and not _from_an_identity(known, setting):
        # Something is missing and nothing is wrong: that says more than how it may have come about.
        against = exactly(lambda: _told_against(known, statement, setting))
        lost = exactly(lambda: solutions_changed(known, statement, found, against))
        if lost is not None and lost.reason is Reason.LOST:
            return replace(lost, span=inside(statement, lost.span))
    compares = isinstance(statement, Chain) and not any(rel.equates for rel in statement.rels)
    pair = exactly(lambda: _told_against(known, statement, setting)) if compares else None
    # "x > −1" below "−2x > 2": all sides got the same, and what is wrong is the sign alone.
    slip = (
        None if pair is not None and pair.account.shared is not None else find_slip(known, statement, setting)
    )
    if slip is not None and not (slip.name == "place-value-slip" and _fits_without_unit(known, statement)):
        return _possible(slip, statement, partial(account_text, known, statement, setting))
    if not compares:
        pair = exactly(lambda: _told_against(known, statement, setting))
    told = "" if pair is None or not pair.tells else str(pair.account)
    why = exactly(lambda: _told(known, statement, found, pair))
    if why is None:
        why = _by_both_sides(known, statement, pair, told)
    return Why(why.reason, why.message, inside(statement, why.span), told, why.slip)


def _fits_without_unit(known: Known, statement: Statement) -> bool:
    """``P = 46 m`` where it is 46 cm: no point slipped, it is the unit."""
    if not isinstance(statement, Chain) or not isinstance(statement.sides[-1], Measure):
        return False
    plain = replace(statement, sides=(*statement.sides[:-1], statement.sides[-1].inner))
    return known.base is not None and search(known, plain, (known.base,)).how is How.FOLLOWS


def _both_at_once(known: Known, statement: Statement) -> Why | None:
    """``x = −5 and x = 3``: right but for the word between."""
    if not isinstance(statement, Joined) or statement.joiner is not Joiner.AND or known.base is None:
        return None
    names = statement_names(statement)
    meant = replace(statement, joiner=Joiner.OR)
    if len(names) != 1 or search(known, meant, (known.base, *known.more)).how is not How.FOLLOWS:
        return None
    (name,) = names
    message = f"{name} cannot be all of this at once. Which word joins two solutions?"
    return Why(Reason.LOST, message, statement.span)


def _strange_letter(known: Known, statement: Statement) -> Why | None:
    """``x + 3x = 180`` where the problem has A and B: nothing says what x is."""
    strange = statement_names(statement) - known.context.names.known
    for line in (*(known.base.premises if known.base else ()), *(line for _, line in known.above)):
        if not strange:
            return None
        strange -= statement_names(line) | unit_letters(line)
    for node in (node for side in sides(statement) for node in every(side)):
        if isinstance(node, Name) and node.name in strange:
            message = f"There is no {node.name} in this problem. Which of its letters do you mean?"
            return Why(Reason.VALUE_CHANGED, message, inside(statement, node.span))
    return None


def _of_one_part(known: Known, statement: Statement) -> Why | None:
    """``x = 3, y = 5``: the first part that breaks by itself says why."""
    if not isinstance(statement, Joined) or statement.joiner is Joiner.OR or known.base is None:
        return None
    if len({statement_names(part) for part in statement.parts}) == 1:
        return None
    for part in statement.parts:
        found = search(known, part, (known.base, *known.more))
        if found.how is How.BREAKS:
            return does_not_fit(known, statement, part, found.setting) or why_breaks(known, part, found)
    return None


def _from_an_identity(known: Known, setting: Setting) -> bool:
    """Where every number is a solution, one that is picked out is not what is missing."""
    if known.base is None:
        return False
    claims = exactly(lambda: known.base.ground(setting).claims if known.base is not None else ())
    return claims is not None and ALWAYS in claims


def _told_against(known: Known, statement: Statement, setting: Setting) -> Pair | None:
    """Return what a line is told against; where it shows a number for π, with this number."""
    shown = shown_values(statement)
    if not shown or setting.pi is not None:
        return told_against(known, statement, setting)
    pairs = [told_against(known, statement, way) for way in (replace(setting, pi=shown[0]), setting)]
    found = [pair for pair in pairs if pair is not None]
    return min(found, key=lambda pair: (not pair.tells, pair.account.cost), default=None)


def why_links_break(known: Known, statement: Statement, setting: Setting) -> Why | None:
    """Return why a chain is wrong by itself: a link without unknowns that is not true."""
    fault = unlike_sides(statement)
    if fault is not None:
        return unit_reason(fault)
    why = exactly(lambda: untrue(statement, setting))
    if why is not None and _rounds_only(known, statement, setting):
        why = None
    if len(set(facts(statement).units)) > 1:
        why = _untrue_in_any_unit(known, statement, why)
    if why is None:
        return None
    slip = exactly(lambda: find_slip(known, statement, setting))
    if slip is not None:
        return _possible(slip, statement)
    why = exactly(lambda: run_on(known, statement, setting)) or why
    return replace(why, span=inside(statement, why.span))


def _untrue_in_any_unit(known: Known, statement: Statement, why: Why | None) -> Why | None:
    """``x = 6 ft 4 in = 6 · 12 + 4 = 76 in`` is true where bare numbers count inches.

    ``V = 2 m · 3 m · 40 cm = 240 m³`` is true in no unit. ``why``: what is untrue in the likeliest one.
    """
    if not isinstance(statement, Chain) or not isinstance(statement.sides[0], Name):
        return why
    worked = replace(statement, sides=statement.sides[1:], rels=statement.rels[1:])
    if statement_names(worked) or len(worked.sides) < 2:
        return why
    ways = [way for way in settings(known, worked) if way.units.length is not None]
    found = [exactly(partial(untrue, worked, way)) for way in ways]
    if not found:
        return why
    return None if None in found else why or found[0]


def unit_reason(fault: UnitFault) -> Why:
    """Return the short sentence about a unit of another kind, and the slip where it has a name."""
    return Why(Reason.UNIT, fault.message, fault.span, slip=wrong_kind(fault.wanted, fault.unit))


def _rounds_only(known: Known, statement: Statement, setting: Setting) -> bool:
    """``A = ½ · π · 5² ≈ 39.27``: every link that is not true to the last digit is a rounding that may be."""
    numbers = [link for link in links(statement) if not statement_names(link)]
    wrong = [link for link in numbers if exactly(partial(untrue, link, setting)) is not None]
    return all(approximates(known, link, setting) for link in wrong)


def why_value_changed(known: Known, before: Bare, after: Bare, setting: Setting) -> Why:
    """Return why an expression that goes on does not have the value of the line above."""
    slip = find_slip(known, after, setting)
    if slip is not None:
        return _possible(slip, after)
    span = inside(after, exactly(lambda: changed_in(before.expr, after.expr, setting)) or after.span)
    if names_in(before.expr, after.expr):
        message = of_expressions(before.expr, after.expr, setting)
    else:
        old, new = quoted(before.expr, 24), quoted(after.expr, 24)
        message = f"{old} is not {new}. Work it out once more." if old and new else ""
    message = message or "This line has another value. Work out this step once more."
    return Why(Reason.VALUE_CHANGED, message, span)


def _possible(slip: Slip, statement: Statement, account: Callable[[], str] | str = "") -> Why:
    reason = Reason.RUN_ON if slip.name in RUN_ON_SLIPS else Reason.SLIP
    return Why(reason, slip.message, inside(statement, slip.span), account, slip.name, slip.also)


def _told(known: Known, statement: Statement, found: Found, pair: Pair | None) -> Why | None:
    """Return the reasons that say more than an account can."""
    setting = found.setting
    fault = dimension_fault(known.context, statement) or unlike_sides(statement)
    if fault is not None:
        return Why(Reason.UNIT, fault.message, fault.span)
    if has_units(statement) and known.base is not None:
        bare = without_units(statement)
        if search(known, bare, (known.base, *known.more)).how in (How.FOLLOWS, How.ROUNDS):
            return _unit_size(statement)
    return (
        not_kept(known, statement, setting)
        or divided_away(known, statement, setting)
        or run_on(known, statement, setting)
        or untrue(statement, setting)
        or not_the_given(known, statement, setting)
        or solutions_changed(known, statement, found, pair)
        or from_useless_working(known, statement)
        or does_not_fit(known, statement, statement, setting)
    )


def _unit_size(statement: Statement) -> Why:
    units = [node for side in sides(statement) for node in every(side) if isinstance(node, Measure)]
    names = list(dict.fromkeys(str(node.unit) for node in units))
    if len(names) > 1:
        message = f"The numbers fit, but {names[0]} and {names[1]} are mixed. Change to one unit first."
    else:
        message = f"The number fits, but not with {names[0]}. Which unit did you work in?"
    return Why(Reason.UNIT, message, units[-1].span)


# -- both sides ------------------------------------------------------------------------------------


def _by_both_sides(known: Known, statement: Statement, pair: Pair | None, told: str) -> Why:
    """``told``: the account, "" where it says nothing."""
    if pair is None or not isinstance(statement, Chain):
        return _nothing_to_tell(known, statement)
    setting = pair.setting
    span = changed_part(pair.account, statement, setting, pair.given)
    special = (
        not_the_equation(known, pair, statement)
        or rounded_too_far(pair)
        or not_rounded_right(pair, statement)
        or not_what_is_given(known, pair, statement, setting)
    )
    if special is not None:
        return special
    moves, apart = pair.account.moves, pair.account.shared is None
    plain = pair.tells and apart and any(move.plain for move in moves)
    first = f"From {pair.where}: {told}."
    if plain and pair.account.swapped and not all(move.plain for move in moves):
        plain = not strange_numbers(first, statement, pair)
    tried = instead_of_the_answer(known, first, statement, pair) if plain else ""
    if tried:
        return Why(Reason.BOTH_SIDES, tried, span)
    with_step = f"{first} {_next_step(pair)}"
    if plain and _rows(with_step) <= _ROWS:
        return Why(Reason.BOTH_SIDES, with_step, span)
    shown = witness(known, pair, statement, setting)
    much = sum(move.op.cost for move in moves if move.op is not None) > _MUCH
    if plain and all(move.plain for move in moves) and not (much and shown) and _rows(first) <= _ROWS:
        return Why(Reason.BOTH_SIDES, first, span)
    if shown:
        back = f"{shown} Go back to {pair.where} and take a smaller step."
        return Why(Reason.WITNESS, back if _rows(back) <= _ROWS else shown, span)
    if not pair.tells:
        return _nothing_to_tell(known, statement)
    if plain and _rows(first) <= _ROWS:
        return Why(Reason.BOTH_SIDES, first, span)
    message = "Too much changed at once to tell where. Take one small step at a time."
    return Why(Reason.BOTH_SIDES, message, span)


def _nothing_to_tell(known: Known, statement: Statement) -> Why:
    message = "This does not follow from the lines above. Write the step before it too."
    if not known.above:
        message = "This does not fit the problem. Write the step before it too."
    return Why(Reason.VALUE_CHANGED, message, statement.span)


def _rows(text: str) -> int:
    """Return how many rows the page needs for a message at most; calculations are kept on one row."""
    rows, used = 1, 0
    for word in _CALCULATION.sub("_", text).split():
        if used and used + 1 + len(word) > _CELLS:
            rows, used = rows + 1, 0
        used += len(word) + (used > 0)
    return rows


def _next_step(pair: Pair) -> str:
    moves = pair.account.moves
    changed = [at for at, move in enumerate(moves) if not move.kept]
    if len(moves) == 2 and len(changed) == 1:
        if any("put in" in move.words for move in moves):
            return "Put in one number at a time."
        op = moves[changed[0]].op
        if op is not None and (op.power > 1 or (op.factor and op.first is None and op.last is None)):
            return "Do the same to both sides."
        if pair.source is Source.LINE:
            return f"Work out the {'left' if changed[0] == 0 else 'right'} side once more."
        return f"Compare with {pair.where} once more."
    return f"Do the same to {'both sides' if len(moves) == 2 else 'every part'}."
