"""Why a line breaks: the best that can be proven, said in two short sentences."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TypeVar

from tutor.line.meaning import Setting, value_of
from tutor.line.poly import DividedByZero, NotExact, Poly
from tutor.line.tree import Bare, Chain, Expr, Joined, Measure, Name, Num, Rel, Span, Statement
from tutor.line.walk import every, names_in, sides, statement_names
from tutor.line.writing import write_number, write_poly
from tutor.marking.account import Account, account
from tutor.marking.claim import ALWAYS, claim_of
from tutor.marking.compare import Axis, Overlap, solutions
from tutor.marking.context import outer_unit
from tutor.marking.follow import Found, How, links, search
from tutor.marking.ground import evaluate
from tutor.marking.slips.find import find_slip
from tutor.marking.slips.model import Slip
from tutor.marking.state import Known
from tutor.marking.units_check import dimension_fault, has_units, unlike_sides, without_units
from tutor.marking.verdict import Reason

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Why:
    """A reason with its sentences and the part of the line it speaks of."""

    reason: Reason
    message: str
    span: Span
    account: str = ""
    slip: str | None = None


def why_breaks(known: Known, statement: Statement, found: Found) -> Why:
    """Return why a line does not follow."""
    setting = found.setting
    slip = find_slip(known, statement, setting)
    if slip is not None:
        story = _where_exact(lambda: _account(known, statement, setting))
        return _possible(slip, "" if story is None else str(story[1]))
    told = _where_exact(lambda: _told(known, statement, found))
    story = _where_exact(lambda: _account(known, statement, setting))
    if told is not None:
        return replace(told, account="" if story is None else str(story[1]))
    witness = _where_exact(lambda: _witness(known, statement, setting)) or ""
    if story is not None:
        return _both_sides(statement, witness, *story)
    if witness:
        return Why(Reason.WITNESS, witness, statement.span)
    message = "This does not follow from the lines above. Work it out once more."
    return Why(Reason.VALUE_CHANGED, message, statement.span)


def _possible(slip: Slip, account_: str = "") -> Why:
    return Why(Reason.SLIP, slip.message, slip.span, account_, slip.name)


def _where_exact(tell: Callable[[], T | None]) -> T | None:
    """Return what can be told with exact values, None where they cannot be had."""
    try:
        return tell()
    except (NotExact, DividedByZero):
        return None


def _told(known: Known, statement: Statement, found: Found) -> Why | None:
    """Return the reasons that say more than an account can."""
    fault = dimension_fault(known.context, statement) or unlike_sides(statement)
    if fault is not None:
        return Why(Reason.UNIT, fault.message, fault.span)
    if has_units(statement) and known.base is not None:
        bare = without_units(statement)
        if search(known, bare, (known.base, *known.more)).how in (How.FOLLOWS, How.ROUNDS):
            return _unit_size(statement)
    run_on = _run_on(statement, found.setting)
    if run_on is not None:
        return run_on
    untrue = _untrue(statement, found.setting)
    if untrue is not None:
        return untrue
    given = _not_the_given(known, statement, found.setting)
    return given or _solutions_changed(known, statement, found)


def why_links_break(known: Known, statement: Statement, setting: Setting) -> Why | None:
    """Return why a chain is wrong by itself: a link without unknowns that is not true."""
    try:
        untrue = _untrue(statement, setting)
        if untrue is None:
            return None
        slip = find_slip(known, statement, setting)
        return _possible(slip) if slip is not None else _run_on(statement, setting) or untrue
    except (NotExact, DividedByZero):
        return None


def _unit_size(statement: Statement) -> Why:
    units = [node for side in sides(statement) for node in every(side) if isinstance(node, Measure)]
    names = list(dict.fromkeys(str(node.unit) for node in units))
    if len(names) > 1:
        message = (
            f"The numbers fit, the units do not: {names[0]} and {names[1]} are mixed. "
            "Change to one unit first."
        )
    else:
        message = f"The number fits, {names[0]} does not. Which unit did the numbers have?"
    return Why(Reason.UNIT, message, units[-1].span)


def _run_on(statement: Statement, setting: Setting) -> Why | None:
    """``7 + 3 = 10 + 3 = 13``: a side goes on working with the result of the side before."""
    if (
        not isinstance(statement, Chain)
        or len(statement.sides) < 3
        or not all(r.equates for r in statement.rels)
    ):
        return None
    for left, right in zip(statement.sides, statement.sides[1:], strict=False):
        part = Chain((left, right), (Rel.EQ,))
        if claim_of(part, setting) == ALWAYS or isinstance(right, Num | Name):
            continue
        start = _first_number(right)
        whole = value_of(left, setting)
        if start is not None and (whole.same(value_of(start, setting)) or names_in(left)):
            message = "The sign = has the same value on both sides of it. Begin a new line for each step."
            return Why(Reason.RUN_ON, message, right.span)
    return None


def _first_number(expr: Expr) -> Expr | None:
    first = next((node for node in every(expr) if isinstance(node, Num | Measure)), None)
    return first if first is not None and first is not expr else None


def _untrue(statement: Statement, setting: Setting) -> Why | None:
    for part in links(statement):
        if statement_names(part) or not isinstance(part, Chain):
            continue
        if claim_of(part, setting) != ALWAYS:
            if part.rels[0].equates:
                message = "The two sides do not have the same value. Work out each side once more."
            else:
                message = "This comparison is not true. Work out both sides, then compare."
            return Why(Reason.NOT_TRUE, message, part.span)
    return None


def _not_the_given(known: Known, statement: Statement, setting: Setting) -> Why | None:
    """A label with another value than the problem gives."""
    context = known.context
    if (
        not isinstance(statement, Chain)
        or len(statement.sides) != 2
        or not isinstance(statement.sides[0], Name)
    ):
        return None
    name = statement.sides[0].name
    if name in context.find:
        return None
    constant = numbers_given(known, setting).get(name)
    text = next((text for given, text in context.task.givens if context.names.find(given) == name), None)
    if constant is None or text is None or names_in(statement.sides[1]):
        return None
    shown = text if outer_unit(statement.sides[1]) is not None else write_poly(constant)
    message = f"The problem gives {name} = {shown}. Copy it once more."
    return Why(Reason.VALUE_CHANGED, message, statement.sides[1].span)


def _solutions_changed(known: Known, statement: Statement, found: Found) -> Why | None:
    single = known.base is not None and len(known.base.premises) == 1
    names = statement_names(statement)
    if not single or len(names) != 1 or not isinstance(statement, Chain | Joined):
        return None
    turned = _turned(statement)
    specs = () if known.base is None else (known.base, *known.more)
    if turned is not None and search(known, turned, specs).how is How.FOLLOWS:
        message = (
            "The sign points the other way now. "
            "Multiplying or dividing by a negative number turns it, nothing else does."
        )
        return Why(Reason.SIGN_NOT_TURNED, message, statement.span)
    if found.overlap is Overlap.FEWER and _has_solutions(statement, found.setting, names):
        message = "A solution of the line above is missing here. Which other number makes that line true?"
        return Why(Reason.LOST, message, statement.span)
    if found.overlap is Overlap.MORE:
        message = (
            "This line lets in numbers that do not solve the line above. Put each value into the first line."
        )
        return Why(Reason.GAINED, message, statement.span)
    return None


def _turned(statement: Statement) -> Statement | None:
    if not isinstance(statement, Chain) or all(rel.turned is rel for rel in statement.rels):
        return None
    return replace(statement, rels=tuple(rel.turned for rel in statement.rels))


def _has_solutions(statement: Statement, setting: Setting, names: frozenset[str]) -> bool:
    (name,) = names
    found = solutions(claim_of(statement, setting), Axis(name))
    return found is None or bool(found)


# -- both sides and witness ---------------------------------------------------------------


def numbers_given(known: Known, setting: Setting) -> dict[str, Poly]:
    """Return the names that the premises give as plain numbers."""
    found: dict[str, Poly] = {}
    for premise in known.base.premises if known.base else ():
        if isinstance(premise, Chain) and len(premise.sides) == 2 and isinstance(premise.sides[0], Name):
            if names_in(premise.sides[1]):
                continue
            try:
                constant = value_of(premise.sides[1], setting).constant()
            except (NotExact, DividedByZero):
                continue
            if constant is not None:
                found[premise.sides[0].name] = constant
    return found


def _account(known: Known, statement: Statement, setting: Setting) -> tuple[int, Account] | None:
    numbers = numbers_given(known, setting)
    names = statement_names(statement) - set(numbers)
    candidates = [*known.above]
    if known.base is not None:
        candidates = [(-1, premise) for premise in known.base.premises] + candidates
    for index, above in reversed(candidates):
        left_over = statement_names(above) - set(numbers)
        if not names or left_over != names or not isinstance(above, Chain):
            continue
        told = account(above, statement, setting, numbers)
        if told is not None:
            return index, told
    return None


def account_text(known: Known, statement: Statement, setting: Setting) -> str:
    """Return the account of a line that stands, "" where there is none."""
    found = _account(known, statement, setting)
    return "" if found is None else str(found[1])


def _both_sides(statement: Statement, witness: str, index: int, told: Account) -> Why:
    where = "" if index < 0 else f"From line {index + 1}: "
    second = witness or _next_step(told)
    assert isinstance(statement, Chain)
    if told.left.kept and not told.right.kept:
        span = statement.sides[1].span
    elif told.right.kept and not told.left.kept:
        span = statement.sides[0].span
    elif told.left.plain and not told.right.plain:
        span = statement.sides[1].span
    elif told.right.plain and not told.left.plain:
        span = statement.sides[0].span
    else:
        span = (statement.sides[0].span[0], statement.sides[1].span[1])
    first = f"{where}{told}." if where else f"{str(told)[0].upper()}{str(told)[1:]}."
    return Why(Reason.BOTH_SIDES, f"{first} {second}", span, str(told))


def _next_step(told: Account) -> str:
    if told.left.kept != told.right.kept:
        return f"Work out the {'right' if told.left.kept else 'left'} side once more."
    return "Do the same to both sides."


def _witness(known: Known, statement: Statement, setting: Setting) -> str:
    """A number for which this line is true and a line above is not. Never a value asked for."""
    if not isinstance(statement, Chain) or statement.rels != (Rel.EQ,):
        return ""
    numbers = numbers_given(known, setting)
    names = statement_names(statement) - set(numbers)
    if len(names) != 1:
        return ""
    (name,) = names
    try:
        claim = claim_of(statement, setting)
        spots = solutions(claim, Axis(name)) if not (claim.names() - {name}) else None
    except NotExact:
        return ""
    value = spots[0].exact if spots is not None and len(spots) == 1 else None
    if value is None or len(write_number(value).lstrip("-")) > 6 or _is_asked_for(known, value, setting):
        return ""
    for index, above in reversed(known.above):
        if (
            not isinstance(above, Chain)
            or above.rels != (Rel.EQ,)
            or statement_names(above) - set(numbers) != {name}
        ):
            continue
        told = [_value_at(side, {name: value}, numbers, setting) for side in above.sides]
        if told[0] is None or told[1] is None or told[0] == told[1]:
            continue
        if any(len(write_number(number)) > 9 for number in told if number is not None):
            continue
        says = f"This line says {name} = {write_number(value)}. In line {index + 1} "
        return (
            says + f"that gives {write_number(told[0])} on the left and {write_number(told[1])} on the right."
        )
    return ""


def _is_asked_for(known: Known, value: Fraction, setting: Setting) -> bool:
    if known.base is None:
        return False
    values = known.base.ground(setting).values()
    return any(value in found for found in values.values())


def _value_at(
    side: Expr, at: dict[str, Fraction], numbers: dict[str, Poly], setting: Setting
) -> Fraction | None:
    values = dict(at)
    for name, constant in numbers.items():
        rational = constant.rational()
        if rational is None:
            return None
        values.setdefault(name, Fraction(rational))
    ratio = value_of(side, setting)
    above, below = evaluate(ratio.above, values), evaluate(ratio.below, values)
    if above is None or not below:
        return None
    found = above / below
    return found if found.denominator <= 10**6 else None


def _tried(side: Expr, values: dict[str, Fraction], setting: Setting) -> Fraction | None:
    return _where_exact(lambda: _value_at(side, values, {}, setting))


def why_value_changed(known: Known, before: Bare, after: Bare, setting: Setting) -> Why:
    """Return why an expression that goes on does not have the value of the line above."""
    slip = find_slip(known, after, setting)
    if slip is not None:
        return _possible(slip)
    names = sorted(names_in(before.expr, after.expr))
    if names:
        for number in (2, 3, 5, 7):
            values = {name: Fraction(number + at) for at, name in enumerate(names)}
            told = [_tried(side, values, setting) for side in (before.expr, after.expr)]
            if told[0] is not None and told[1] is not None and told[0] != told[1]:
                with_ = ", ".join(f"{name} = {write_number(value)}" for name, value in values.items())
                message = (
                    f"Try {with_}: the line above gives {write_number(told[0])}, "
                    f"this one {write_number(told[1])}. They should agree."
                )
                return Why(Reason.VALUE_CHANGED, message, after.span)
    message = "This line has another value than the line above. Work out this step once more."
    return Why(Reason.VALUE_CHANGED, message, after.span)
