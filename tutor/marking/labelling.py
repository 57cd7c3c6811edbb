"""The steps that single lines belong to, and the labels: which names were written with their values."""

from collections.abc import Sequence
from functools import lru_cache

from tutor.line.tree import Chain, Expr, Hole, Joined, Joiner, Measure, Name, Statement
from tutor.line.walk import every, names_in, sides
from tutor.line.writing import write_expr
from tutor.marking.deciding.answers import answers_in
from tutor.marking.deciding.compare import Overlap
from tutor.marking.deciding.context import Context
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.follow import said_by
from tutor.marking.deciding.memo import Memo
from tutor.marking.deciding.state import Known, Spec, settings
from tutor.marking.verdict import Step


def step_of(known: Known, statement: Statement) -> Step | None:
    """Return the step that a standing line belongs to."""
    context = known.context
    if _label(context, statement):
        return Step.LABEL
    if _is_formula(known, statement):
        return Step.FORMULA
    answered = [name for name, _ in answers_in(statement) if name in context.find]
    if answered:
        return (
            Step.UNITS
            if any(isinstance(n, Measure) for s in sides(statement) for n in every(s))
            else Step.SUBSTITUTE
        )
    return Step.SUBSTITUTE


# Each line is asked again when the next one stands, and the formulas are the same then.
_FORMULA = Memo[bool]()


@lru_cache(maxsize=16)
def _alone(premises: tuple[Statement, ...], measures: frozenset[str]) -> Spec:
    return Spec(premises, measures)


def _is_formula(known: Known, statement: Statement) -> bool:
    """A formula in any equivalent form: it follows from the formulas alone, with names only."""
    if isinstance(statement, Joined):  # "F = L + 2b, G = W + 2b": both on one line
        return statement.joiner is not Joiner.OR and all(_is_formula(known, part) for part in statement.parts)
    context = known.context
    formulas = context.premises[: context.formula_count]
    if not isinstance(statement, Chain) or not formulas:
        return False
    names = statement_names(statement)
    needed = min(2, max(len(names_in(*formula.sides)) for formula in formulas))
    if len(names) < needed:
        return False
    definitions = context.premises[context.formula_count + len(context.task.givens) :]
    alone = _alone((*formulas, *definitions), context.measures)
    ways = settings(known, statement)

    def says_the_same(line: Statement) -> bool:
        return any(said_by(alone, line, setting) is Overlap.SAME for setting in ways)

    return _FORMULA.get(statement, (alone, ways), says_the_same)


def _label(context: Context, statement: Statement) -> tuple[tuple[str, str], ...]:
    """Return the names that a line labels, with the value as it was typed."""
    if isinstance(statement, Joined):
        return tuple(pair for part in statement.parts for pair in _label(context, part))
    if (
        not isinstance(statement, Chain)
        or len(statement.sides) != 2
        or not isinstance(statement.sides[0], Name)
    ):
        return ()
    name, value = statement.sides[0].name, statement.sides[1]
    if isinstance(value, Hole) or (isinstance(value, Measure) and isinstance(value.inner, Hole)):
        return ((name, "?"),)
    given = next(
        (p for p in context.premises[context.formula_count :] if p.sides[0] == statement.sides[0]), None
    )
    if given is None or names_in(given.sides[1]) != names_in(value):
        return ()
    return ((name, write_expr(value)),) if given_names(context) & {name} else ()


def given_names(context: Context) -> frozenset[str]:
    """Return the names that the task gives a value."""
    return frozenset(context.names.find(given) or given for given, _ in context.task.givens)


def labels_of(context: Context, standing: Sequence[Statement]) -> dict[str, str]:
    """Return name and value, as typed, of what is labelled so far. ``standing``: the lines that stand."""
    found: dict[str, str] = {}
    for line in standing:
        for name, value in _label(context, line):
            found[name] = value
        for name, values in answers_in(line):
            if name in context.find and _equates(line):
                found[name] = write_expr(values[-1])
    return found


def _equates(statement: Statement) -> bool:
    return not isinstance(statement, Chain) or all(rel.equates for rel in statement.rels)


def missing_labels(context: Context, labels: dict[str, str]) -> tuple[str, ...]:
    """Return the givens not yet written with their unit, and what is to find not yet written."""
    missing: list[str] = []
    for given, _ in context.task.givens:
        name = context.names.find(given) or given
        if name not in labels or (_needs_unit(context, name) and not _has_unit(labels[name])):
            missing.append(name)
    missing += [name for name in context.find if name not in labels and name not in missing]
    return tuple(missing)


def _needs_unit(context: Context, name: str) -> bool:
    premise = next(
        (
            p
            for p in context.premises[context.formula_count :]
            if isinstance(p.sides[0], Name) and p.sides[0].name == name
        ),
        None,
    )
    return premise is not None and _measured(premise.sides[1])


def _measured(expr: Expr) -> bool:
    return any(isinstance(node, Measure) for node in every(expr))


def _has_unit(text: str) -> bool:
    return any(sign.isalpha() or sign in "°$%" for sign in text)
