"""What a marked line leaves for the next: premises replaced, branches, values carried."""

from dataclasses import dataclass, replace
from fractions import Fraction

from tutor.line.keys import statement_key
from tutor.line.meaning import Setting
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Bare, Chain, Expr, Num, Said, Statement
from tutor.line.walk import rebuilt, statement_names
from tutor.line.writing import write_statement
from tutor.marking.answers import answers_in
from tutor.marking.claim import ALWAYS, NEVER, Claim, claim_of, split_signs
from tutor.marking.follow import Found, How, search
from tutor.marking.reasons import Why, account_text
from tutor.marking.state import Answer, Known, Spec, settings, shown_values
from tutor.marking.verdict import Mark, Reason, Verdict

MAX_CARRIED = 8


@dataclass(frozen=True, slots=True)
class Judged:
    """The mark of a line, what is known after it, and the line as it was taken."""

    mark: Mark
    known: Known
    statement: Statement | None = None


def broken(known: Known, statement: Statement, index: int, why: Why, found: Found | None = None) -> Judged:
    """Return the mark of a line that breaks. ``found``: how it would follow but for its unit."""
    mark = Mark(
        Verdict.BREAKS,
        why.reason,
        None,
        why.message,
        why.span,
        why.account,
        write_statement(statement),
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
    if why.reason is Reason.UNIT:
        right = found is not None
        answers = (*answers, *_answers(statement, Setting(), whole=False, right_size=right))
    after = replace(
        known,
        carried=carried or known.carried,
        wrong_values=wrong,
        broken=(*known.broken, (index, statement)),
        answers=answers,
    )
    return Judged(mark, after, statement)


def _fitting(known: Known, base: Spec, statement: Chain, index: int) -> tuple[Spec, ...]:
    """The premise sets in which the broken line takes the place of one premise and fits the others."""
    made: list[Spec] = []
    for setting in settings(known, statement)[:2]:
        try:
            claim = claim_of(statement, setting)
            ground = base.ground(setting)
            for at in range(min(len(base.premises), MAX_CARRIED)):
                lowered = ground.without(at).lower_claim(claim)
                if lowered not in (ALWAYS, NEVER) or len(base.premises) == 1:
                    made.append(base.replaced(at, statement, index))
        except (NotExact, DividedByZero):
            continue
        if made:
            break
    return tuple(made)


def _wrong_values(statement: Chain) -> tuple[tuple[Fraction, Expr], ...]:
    left, right = statement.sides[-2], statement.sides[-1]
    if isinstance(right, Num) and not statement_names(Bare(left)) and not isinstance(left, Num):
        return ((right.value, left),)
    return ()


def _answers(statement: Statement, setting: Setting, *, whole: bool, right_size: bool) -> tuple[Answer, ...]:
    made: list[Answer] = []
    for name, values in answers_in(statement):
        try:
            claim = claim_of(statement, setting)
        except (NotExact, DividedByZero):
            claim = Claim(())
        made.append(Answer(name, claim, setting, values[-1], whole, right_size))
    return tuple(made)


def stands(known: Known, statement: Statement, index: int, verdict: Verdict, found: Found | None) -> Judged:
    """Return the mark of a line that stands, and what later lines may build on then."""
    note, account = "", ""
    more, answers = known.more, known.answers
    if found is not None:
        account = account_text(known, statement, found.setting)
        if found.how is How.GAINS and found.spec is not None and found.index is not None:
            more = (*more, found.spec.replaced(found.index, statement, index, gained=True))
            note = "This step can bring in a number that is no solution. Put each answer into the first line."
        more = (*more, *_branches(statement, found, index))
        if verdict is Verdict.ROUNDS and found.spec is not None and found.index is not None:
            more = (*more, found.spec.replaced(found.index, statement, index))
        whole = verdict is Verdict.ROUNDS or found.spec is known.base or found.spec is None
        answers = (*answers, *_answers(statement, found.setting, whole=whole, right_size=True))
    ended = known.ended or (isinstance(statement, Said) and verdict is Verdict.FOLLOWS)
    mark = Mark(verdict, account=account, read_as=write_statement(statement), note=note)
    shown = tuple(dict.fromkeys((*known.shown_pi, *shown_values(statement))))
    after = replace(
        known,
        more=more,
        above=(*known.above, (index, statement)),
        keys=known.keys | {statement_key(statement)},
        shown_pi=shown,
        answers=answers,
        ended=ended,
    )
    return Judged(mark, after, statement)


def _branches(statement: Statement, found: Found, index: int) -> tuple[Spec, ...]:
    """After a standing "or" each branch may be worked by itself."""
    parts = split_signs(statement)
    if len(parts) < 2 or found.spec is None or found.index is None:
        return ()
    if len({frozenset(statement_names(part)) for part in parts}) != 1:
        return ()
    return tuple(found.spec.replaced(found.index, part, index, gained=found.spec.gained) for part in parts)


def carries(known: Known, statement: Statement) -> bool:
    """Tell whether a line follows from a line that broke: follow-through."""
    if known.carried and search(known, statement, known.carried).how in (How.FOLLOWS, How.ROUNDS):
        return True
    if not known.wrong_values or known.base is None or not isinstance(statement, Chain):
        return False
    wrong = dict(known.wrong_values)
    mended = replace(
        statement,
        sides=tuple(
            rebuilt(side, lambda node: wrong.get(node.value, node) if isinstance(node, Num) else node)
            for side in statement.sides
        ),
    )
    if mended == statement:
        return False
    return search(known, mended, (known.base, *known.more)).how in (How.FOLLOWS, How.ROUNDS)
