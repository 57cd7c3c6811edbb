"""Chains that rewrite an expression: the first side that has not the value of the side before it."""

from tutor.line.meaning import Setting
from tutor.line.tree import NOWHERE, Bare, Chain, Expr, Rel, Statement
from tutor.line.walk import names_in
from tutor.marking.deciding.claim import ALWAYS, claim_of
from tutor.marking.deciding.state import Known
from tutor.marking.telling.changed_part import changed_in
from tutor.marking.telling.quoting import quoted
from tutor.marking.telling.why import Why
from tutor.marking.telling.witness import of_expressions
from tutor.marking.verdict import Reason


def not_kept(known: Known, statement: Statement, setting: Setting) -> Why | None:
    """Return where ``3(x + 4) + 2x = 3x + 12 + 2x = 5x + 14`` goes wrong, with small numbers put in.

    Only of work that rewrites an expression: in an equation the sides need not be the same for every number.
    """
    if not isinstance(statement, Chain) or known.base is None or known.base.premises:
        return None
    goes_on = statement.sides[0].span == NOWHERE
    begins = isinstance(known.previous, Bare) and known.previous.expr == statement.sides[0]
    if not goes_on and not begins:
        return None
    first = 1 if goes_on and isinstance(known.previous, Chain) else 0
    for at in range(first, len(statement.rels)):
        left, right = statement.sides[at : at + 2]
        names = names_in(left)
        if statement.rels[at] is not Rel.EQ or not names or not names_in(right) <= names:
            continue
        if claim_of(Chain((left, right), (Rel.EQ,)), setting) == ALWAYS:
            continue
        said = ("the line above gives", "this one") if goes_on and at == first else _said(left, right)
        message = of_expressions(left, right, setting, said)
        message = message or "This line has another value. Work out this step once more."
        return Why(Reason.VALUE_CHANGED, message, changed_in(left, right, setting))
    return None


def _said(left: Expr, right: Expr) -> tuple[str, str]:
    before, after = quoted(left), quoted(right)
    return (f"{before} is", f"{after} is") if before and after else ("one side is", "the next one")
