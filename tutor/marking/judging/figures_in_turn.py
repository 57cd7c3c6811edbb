"""One figure after the other, each worked with the same letters: ``A = lw … A = 48``, then ``A = ½bh …``.

Where the work alone tells what its letters are, nothing else says that the second figure is another one.
"""

from dataclasses import replace

from tutor.line.meaning import Setting, value_of
from tutor.line.poly import DividedByZero, NotExact, Ratio
from tutor.line.tree import Add, Chain, Expr, Measure, Name, Neg, PiSign, Rel, Statement
from tutor.line.walk import every, names_in
from tutor.marking.deciding.answers import answers_in
from tutor.marking.deciding.at_odds import at_odds
from tutor.marking.deciding.context import looks_like_formula
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.follow import How, search
from tutor.marking.deciding.instance import values_put_in
from tutor.marking.deciding.state import Known, Spec, settings
from tutor.marking.judging.aftermath import Judged, stands
from tutor.marking.verdict import Verdict


def another_figure(known: Known, statement: Statement, index: int) -> Judged | None:
    """Mark a line of a second figure, None for any other line."""
    if not known.context.from_first_line or known.base is None or not isinstance(statement, Chain):
        return None
    if not isinstance(statement.sides[0], Name) or not all(rel.equates for rel in statement.rels):
        return None
    return (
        _formula_of_another(known, statement, index)
        or _put_in_again(known, statement, index)
        or _added_up(known, statement, index)
    )


def _formula_of_another(known: Known, statement: Chain, index: int) -> Judged | None:
    """``A = ½bh`` below ``A = 48``: a formula with letters of its own, for what has an answer already."""
    head, right = statement.sides[0], statement.sides[1]
    assert isinstance(head, Name)
    letters = names_in(right)
    new = letters - known.context.names.known
    measures = len(letters) > 1 or any(isinstance(node, PiSign) for node in every(right))
    if not new or head.name in letters or not measures or not _is_answered(known, head.name):
        return None
    return _begun_anew(known, statement, (_first_two(statement),), index)


def _put_in_again(known: Known, statement: Chain, index: int) -> Judged | None:
    """``A = 6 · 2`` right below ``A = lw`` that stands there once more; ``y = 3(10)`` below ``y = 3x``."""
    formula = known.previous
    if not isinstance(formula, Chain) or len(formula.sides) != 2 or formula.rels != (Rel.EQ,):
        return None
    head, right = formula.sides
    if not isinstance(head, Name) or head != statement.sides[0] or not names_in(right):
        return None
    if len(known.above) < 3 or not looks_like_formula(formula) or names_in(*statement.sides[1:]):
        return None
    letters = names_in(right)
    if any(name in letters for _, line in known.above for name, _ in answers_in(line)):
        return None  # "l = 12 cm" stands above: the l of this problem
    told = values_put_in(formula, _first_two(statement))
    if told is None or not all(isinstance(given.sides[0], Name) for given in told):
        return None
    others = _others(known, statement_names(formula))
    return _begun_anew(known, statement, (*others, formula, *told), index)


def _others(known: Known, letters: frozenset[str]) -> tuple[Statement, ...]:
    """Return what is known of other names than some letters: ``A₁ = 48`` while A₂ is worked out."""
    assert known.base is not None
    kept = [premise for premise in known.base.premises if not statement_names(premise) & letters]
    gone = {name for premise in known.base.premises for name in statement_names(premise)} - letters
    answers = {answer.name: answer.statement for answer in known.answers if answer.name in gone}
    return (*kept, *answers.values())


def _added_up(known: Known, statement: Chain, index: int) -> Judged | None:
    """``A = 48 + 6`` below ``A = 48`` and ``A = 6``: the answers of several figures, put together."""
    head, right = statement.sides[0], statement.sides[1]
    assert isinstance(head, Name)
    if not isinstance(right, Add) or names_in(right) or len(known.answers) < 2:
        return None
    setting = settings(known, statement)[0]
    try:
        found = [_size(answer.value, answer.setting) for answer in known.answers if answer.name == head.name]
        terms = [_size(term, setting) for term in right.terms]
    except (NotExact, DividedByZero):
        return None
    if not all(any(value.same(term) for value in found) for term in terms):
        return None
    return _begun_anew(known, statement, (_first_two(statement),), index)


def _size(value: Expr, setting: Setting) -> Ratio:
    """Return a number without its sign and its unit."""
    while isinstance(value, Neg | Measure):
        value = value.inner
    return value_of(value, setting)


def _is_answered(known: Known, name: str) -> bool:
    lines = [*known.above, *known.broken]
    return any(answered == name for _, line in lines for answered, _ in answers_in(line))


def _first_two(statement: Chain) -> Chain:
    return replace(statement, sides=statement.sides[:2], rels=statement.rels[:1])


def _begun_anew(known: Known, statement: Chain, premises: tuple[Statement, ...], index: int) -> Judged | None:
    """Mark a line from which on other premises hold, None where the rest of it does not follow from them."""
    assert known.base is not None
    names = frozenset(name for premise in premises for name in statement_names(premise))
    base = Spec(premises, known.base.positive | names, index)
    context = replace(known.context, names=known.context.names.joined(names))
    after = replace(known, context=context, base=base, more=(), carried=())
    setting = settings(after, statement)[0]
    if at_odds(base, setting):
        return None
    found = None
    if len(statement.sides) > 2:
        found = search(after, statement, (base,))
        if found.how not in (How.FOLLOWS, How.ROUNDS):
            return None
    verdict = Verdict.ROUNDS if found is not None and found.how is How.ROUNDS else Verdict.FOLLOWS
    return stands(after, statement, index, verdict, found)
