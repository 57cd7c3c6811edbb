"""What was copied wrong from the problem: its equation, or a number that it gives."""

from tutor.line.meaning import Setting, number_of
from tutor.line.tree import Chain, Expr, Name, Statement
from tutor.line.walk import every, names_in
from tutor.marking.deciding.context import outer_unit
from tutor.marking.deciding.instance import values_put_in
from tutor.marking.deciding.state import Known
from tutor.marking.telling.moves import say
from tutor.marking.telling.pairing import Pair, Source, numbers_given
from tutor.marking.telling.quoting import quoted
from tutor.marking.telling.why import Why
from tutor.marking.verdict import Reason


def not_the_equation(known: Known, pair: Pair, line: Chain) -> Why | None:
    """``4n + 14 = 74`` where the problem says ``5n + 16 = 106``: copied wrong, and nothing was done to it."""
    if pair.source is not Source.EQUATION or known.above or _shape(pair.above) != _shape(line):
        return None
    shown = [quoted(side) for side in pair.above.sides]
    first = "This is not the equation of the problem."
    if all(shown) and len(shown) == 2:
        first = f"The problem says {shown[0]} {pair.above.rels[0].value} {shown[1]}."
    return Why(Reason.VALUE_CHANGED, f"{first} Compare the two, number by number.", line.span)


def _shape(line: Chain) -> list[object]:
    """Return a line without its numbers."""
    nodes = [node for side in line.sides for node in every(side)]
    return [line.rels, *(node if isinstance(node, Name) else type(node) for node in nodes)]


def not_the_given(known: Known, statement: Statement, setting: Setting) -> Why | None:
    """A label with another value than the problem gives."""
    if (
        not isinstance(statement, Chain)
        or len(statement.sides) != 2
        or not isinstance(statement.sides[0], Name)
    ):
        return None
    return _copied_wrong(known, statement.sides[0].name, statement.sides[1], setting)


def _copied_wrong(known: Known, name: str, copy: Expr, setting: Setting) -> Why | None:
    """A number that stands for a name and is not the number that the problem gives."""
    context = known.context
    if name in context.find or names_in(copy):
        return None
    constant = numbers_given(known, setting).get(name)
    text = next((text for given, text in context.task.givens if context.names.find(given) == name), None)
    if constant is None or text is None:
        return None
    value = constant.rational()
    shown = text if outer_unit(copy) is not None or value is None else say(value)
    return Why(Reason.VALUE_CHANGED, f"The problem gives {name} = {shown}. Copy it once more.", copy.span)


def not_what_is_given(known: Known, pair: Pair, line: Chain, setting: Setting) -> Why | None:
    """``V = LWH``, then ``402 = 10 · W · 6`` where V is 420, or ``10 = 420W · 6``.

    The same of ``C = 2 · 3.14 · 12.5`` where r is 9: everything else was put in as it should be.
    """
    told = pair.account
    changed = [at for at, move in enumerate(told.moves) if not move.kept]
    if not pair.put_in:
        return None
    for at in changed:
        before, after = told.before[at], told.after[at]
        if isinstance(before.expr, Name):
            return _copied_wrong(known, before.expr.name, after.expr, setting)
    return _put_in_wrong(known, pair.above, line, setting)


def _put_in_wrong(known: Known, formula: Chain, line: Chain, setting: Setting) -> Why | None:
    """The one number in the place of a letter that is not the number that the problem gives."""
    given = numbers_given(known, setting)
    found: list[Why] = []
    for told in values_put_in(formula, line) or ():
        name, value = told.sides
        if not isinstance(name, Name) or name.name not in given:
            continue
        if number_of(value, setting) == given[name.name].rational():
            continue
        why = _copied_wrong(known, name.name, value, setting)
        found += [why] if why is not None else []
    return found[0] if len(found) == 1 else None
