"""Values told for several names, put into an equation that all of them have to fit."""

from fractions import Fraction

from tutor.line.meaning import Setting, number_of
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Chain, Expr, Joined, Name, Num, Rel, Statement
from tutor.line.walk import changed, names_in, sides
from tutor.marking.deciding.facts import facts, statement_names
from tutor.marking.deciding.state import Known
from tutor.marking.telling.moves import say
from tutor.marking.telling.quoting import quoted
from tutor.marking.telling.untrue import said
from tutor.marking.telling.why import Why
from tutor.marking.telling.witness import asked_for, short
from tutor.marking.verdict import Reason

_MOST_NAMES = 3


def does_not_fit(known: Known, whole: Statement, part: Statement, setting: Setting) -> Why | None:
    """``x = 3, y = 5`` where x + y = 7: with both, 8 = 7.

    ``whole``: the line; ``part``: what of it breaks. Only values that the student wrote are put in.
    """
    if known.base is None or len(known.base.premises) < 2 or facts(whole).units:
        return None
    told = {name: value for _, line in known.above for name, value in _values(line, setting)}
    told.update(_values(whole, setting))
    new = {name for name, _ in _values(part, setting)}
    for premise in known.base.premises:
        names = statement_names(premise)
        if not names & new or not names <= told.keys() or len(names) > _MOST_NAMES or len(names) < 2:
            continue
        found = _sides_at(premise, told, setting)
        if len(found) != 2 or found[0] == found[1] or any(asked_for(known, one, setting) for one in found):
            continue
        with_ = " and ".join(f"{name} = {say(told[name])}" for name in sorted(names))
        says = f"{_quoted(premise)} says {said(found, (Rel.EQ,))}"
        return Why(Reason.WITNESS, f"With {with_}, {says}. That is not true.", part.span)
    return None


def _values(line: Statement, setting: Setting) -> list[tuple[str, Fraction]]:
    """Return the names that a line gives as numbers."""
    parts = line.parts if isinstance(line, Joined) else (line,)
    found = []
    for part in parts:
        if not isinstance(part, Chain) or part.rels != (Rel.EQ,) or not isinstance(part.sides[0], Name):
            continue
        value = None if names_in(part.sides[1]) else number_of(part.sides[1], setting)
        if value is not None and short(Fraction(value)):
            found.append((part.sides[0].name, Fraction(value)))
    return found


def _sides_at(line: Statement, values: dict[str, Fraction], setting: Setting) -> tuple[Fraction, ...]:
    if not isinstance(line, Chain) or line.rels != (Rel.EQ,) or facts(line).units or facts(line).pi:
        return ()

    def put_in(node: Expr) -> Expr:
        return Num(values[node.name], say(values[node.name])) if isinstance(node, Name) else node

    try:
        found = [number_of(side, setting) for side in sides(changed(line, put_in))]
    except (NotExact, DividedByZero):
        return ()
    return tuple(Fraction(one) for one in found if one is not None and short(Fraction(one)))


def _quoted(premise: Statement) -> str:
    shown = [quoted(side) for side in sides(premise)]
    return f"{shown[0]} = {shown[1]}" if all(shown) and len(shown) == 2 else "an equation"
