"""What a marked line leaves for the next: premises replaced, branches, values carried."""

from dataclasses import dataclass, replace
from fractions import Fraction
from functools import partial

from tutor.line.meaning import Setting
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Bare, Chain, Expr, Joined, Measure, Num, PlusMinus, Said, Statement
from tutor.line.walk import rebuilt
from tutor.line.writing import write_statement
from tutor.marking.deciding.answers import answers_in, answers_of_branches
from tutor.marking.deciding.at_odds import at_odds
from tutor.marking.deciding.claim import ALWAYS, NEVER, claim_of, split_signs
from tutor.marking.deciding.compare import Axis, solutions
from tutor.marking.deciding.context import Context, counted_in
from tutor.marking.deciding.everyday import everyday, is_small, signature
from tutor.marking.deciding.facts import facts, statement_names
from tutor.marking.deciding.follow import Found, How, search
from tutor.marking.deciding.state import Answer, Known, Spec, has_units, settings, shown_values
from tutor.marking.telling.reasons import Why, account_text
from tutor.marking.verdict import Mark, Reason, Verdict
from tutor.quantity.units import Unit

MAX_CARRIED = 8
MAX_MENDS = 4


@dataclass(frozen=True, slots=True)
class Judged:
    """The mark of a line, what is known after it, and the line as it was taken."""

    mark: Mark
    known: Known
    statement: Statement | None = None


def broken(
    known: Known,
    statement: Statement,
    index: int,
    why: Why,
    found: Found | None = None,
    *,
    units: bool = False,
) -> Judged:
    """Return the mark of a line that breaks. ``units``: its unit is wrong.

    ``found``: how it would follow but for its unit.
    """
    mark = Mark(
        Verdict.BREAKS,
        why.reason,
        why.slip,
        why.message,
        why.span,
        why.account,
        partial(write_statement, statement),
        ties=why.ties,
    )
    carried: tuple[Spec, ...] = ()
    wrong = known.wrong_values
    if isinstance(statement, Chain) and known.base is not None:
        if statement_names(statement):
            carried = _fitting(known, known.base, statement, index)
            wrong = (*wrong, *_wrong_values(statement))
        else:
            wrong = (*wrong, *_wrong_values(statement))
    answers = known.answers
    if units or why.reason is Reason.UNIT:
        right = found is not None
        given = _answers(statement, Setting(), known.context.measures, whole=False, right_size=right)
        answers = (*answers, *(replace(answer, stands=False) for answer in given))
    after = Known(
        known.context,
        known.base,
        known.more,
        carried or known.carried,
        wrong,
        known.above,
        (*known.broken, (index, statement)),
        known.signatures,
        known.shown_pi,
        answers,
        known.ended,
        known.side_values,
        known.other,
        known.second_way,
    )
    return Judged(mark, after, statement)


def _fitting(known: Known, base: Spec, statement: Chain, index: int) -> tuple[Spec, ...]:
    """The premise sets in which the broken line takes the place of one premise and fits the others."""
    line = everyday(statement)
    if base.form() is not None and line is not None and is_small(line):
        return (base.replaced(0, statement, index),)  # the only premise: there are no others to fit
    made: list[Spec] = []
    for setting in settings(known, statement)[:2]:
        try:
            claim = claim_of(statement, setting)
            ground = base.ground(setting)
            for at in range(min(len(base.premises), MAX_CARRIED)):
                lowered = ground.without(at).lower_claim(claim)
                if lowered not in (ALWAYS, NEVER) or len(base.premises) == 1:
                    spec = base.replaced(at, statement, index)
                    made += [spec] if len(base.premises) == 1 or _can_be(spec, setting) else []
        except (NotExact, DividedByZero):
            continue
        if made:
            break
    return tuple(made)


def _can_be(spec: Spec, setting: Setting) -> bool:
    """Tell whether some sizes fit premises with a broken line in them: from no sizes all would follow."""
    if at_odds(spec, setting):
        return False
    values = spec.ground(setting).values()
    return all(value > 0 for name, found in values.items() if name in spec.positive for value in found)


def _wrong_values(statement: Chain) -> tuple[tuple[Fraction, Expr], ...]:
    left, right = statement.sides[-2], statement.sides[-1]
    if isinstance(right, Measure) and isinstance(left, Measure):
        right = right.inner  # "3 ft = 30 in": 30 stands for 3 ft from here on
    if isinstance(right, Num) and not statement_names(Bare(left)) and not isinstance(left, Num):
        return ((right.value, left),)
    return ()


def _answers(
    statement: Statement, setting: Setting, positive: frozenset[str], *, whole: bool, right_size: bool
) -> tuple[Answer, ...]:
    made: list[Answer] = []
    for name, values in answers_in(statement):
        # A length is not ±9: the one that fits is still to be said.
        says = name not in positive or (len(values) == 1 and not isinstance(values[-1], PlusMinus))
        made.append(Answer(name, statement, setting, values[-1], whole, right_size, says))
    if not made and isinstance(statement, Joined) and _says_or(statement, setting):
        for name, part, value in answers_of_branches(statement):
            says = name not in positive or not isinstance(value, PlusMinus)
            made.append(Answer(name, part, setting, value, False, right_size, says))
    return tuple(made)


def stands(known: Known, statement: Statement, index: int, verdict: Verdict, found: Found | None) -> Judged:
    """Return the mark of a line that stands, and what later lines may build on then."""
    note = ""
    setting: Setting | None = None
    more, answers = known.more, known.answers
    if found is not None:
        if found.how is not How.GAINS:  # both sides changed in one way that the note tells
            setting = found.setting
        if found.how is How.GAINS and found.spec is not None and found.index is not None:
            more = (*more, found.spec.replaced(found.index, statement, index, gained=True))
            note = "This step can bring in a number that is no solution. Put each answer into the first line."
        more = (*more, *_branches(statement, found, index))
        if verdict is Verdict.ROUNDS and found.spec is not None and found.index is not None:
            rounded = found.spec is known.base or found.spec.rounded
            more = (*more, found.spec.replaced(found.index, statement, index, rounded=rounded))
        spec = found.spec
        whole = verdict is Verdict.ROUNDS or spec is None or spec is known.base or spec.rounded
        answers = (
            *answers,
            *_answers(statement, found.setting, known.context.measures, whole=whole, right_size=True),
        )
    ended = known.ended or (isinstance(statement, Said) and verdict is Verdict.FOLLOWS)
    mark = Mark(
        verdict,
        account="" if setting is None else partial(account_text, known, statement, setting),
        read_as=partial(write_statement, statement),
        note=note,
    )
    shown = shown_values(statement)
    # Written out: this is done for every line, and "replace" takes several times as long.
    after = Known(
        _counting_in(known, facts(statement).units),
        known.base,
        more,
        known.carried,
        known.wrong_values,
        (*known.above, (index, statement)),
        known.broken,
        known.signatures | {signature(statement)},
        tuple(dict.fromkeys((*known.shown_pi, *shown))) if shown else known.shown_pi,
        answers,
        ended,
        (*known.side_values, *_side_values(statement)),
        known.other,
        known.second_way,
    )
    return Judged(mark, after, statement)


def _counting_in(known: Known, units: tuple[Unit, ...]) -> Context:
    """Numbers below "a = 13 dm" may count in decimetres."""
    context = known.context
    systems = counted_in(context.systems, units) if units and has_units(known) else context.systems
    return context if systems is context.systems else replace(context, systems=systems)


def _side_values(statement: Statement) -> tuple[tuple[Fraction, Expr], ...]:
    if not isinstance(statement, Chain) or statement_names(statement):
        return ()
    return _wrong_values(statement)


def _branches(statement: Statement, found: Found, index: int) -> tuple[Spec, ...]:
    """After a standing "or" each branch may be worked by itself."""
    if not isinstance(statement, Joined) and not facts(statement).either_sign:
        return ()
    parts = split_signs(statement)
    if len(parts) < 2 or found.spec is None or found.index is None:
        return ()
    if len({frozenset(statement_names(part)) for part in parts}) != 1 or not _says_or(
        statement, found.setting
    ):
        return ()
    spec, at = found.spec, found.index
    possible = [part for part in parts if _is_possible(part, found.setting, spec.positive)]
    gained = spec.gained or found.how is How.GAINS
    return tuple(spec.replaced(at, part, index, gained=gained) for part in possible)


def _says_or(statement: Statement, setting: Setting) -> bool:
    """``3x < 9 and x > −2`` says both at once: neither of them alone is a branch."""
    try:
        return len(claim_of(statement, setting).cases) > 1
    except (NotExact, DividedByZero):
        return False


def _is_possible(part: Statement, setting: Setting, positive: frozenset[str]) -> bool:
    """A measure cannot be −9: such a branch is none."""
    names = statement_names(part)
    if len(names) != 1 or not names <= positive:
        return True
    (name,) = names
    try:
        return solutions(claim_of(part, setting), Axis(name, True)) != ()
    except (NotExact, DividedByZero):
        return True


def carried_on(known: Known, statement: Statement, index: int) -> Known:
    """Return what is known after a line that was carried."""
    carried: tuple[Spec, ...] = ()
    if isinstance(statement, Chain) and statement_names(statement) and known.base is not None:
        carried = _fitting(known, known.base, statement, index)
    return replace(known, carried=(*known.carried, *carried), broken=(*known.broken, (index, statement)))


def _mended(known: Known, statement: Chain) -> Chain:
    """Put what it should have been in the place of every wrong result."""
    right = {**dict(known.side_values), **dict(known.wrong_values)}

    def change(node: Expr) -> Expr:
        if isinstance(node, Measure) and isinstance(node.inner, Measure):
            return node.inner
        return right.get(node.value, node) if isinstance(node, Num) else node

    return replace(statement, sides=tuple(rebuilt(side, change) for side in statement.sides))


def carries(known: Known, statement: Statement) -> bool:
    """Tell whether a line follows from a line that broke: follow-through."""
    if known.carried and search(known, statement, known.carried).how in (How.FOLLOWS, How.ROUNDS):
        return True
    if not known.wrong_values or known.base is None or not isinstance(statement, Chain):
        return False
    mended = statement
    for _ in range(MAX_MENDS):
        again = _mended(known, mended)
        if again == mended:
            break
        mended = again
    if mended == statement:
        return False
    return search(known, mended, (known.base, *known.more)).how in (How.FOLLOWS, How.ROUNDS)
