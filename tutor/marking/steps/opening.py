"""The lines before any number is put in: the formula, the labels, all in one unit."""

from collections.abc import Iterator

from tutor.line.meaning import number_of
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Chain, Expr, Hole, Joined, Joiner, Measure, Name, Rel
from tutor.line.writing import write_expr
from tutor.marking.deciding.context import outer_unit
from tutor.marking.deciding.facts import statement_names
from tutor.marking.steps.forms import number, tidy
from tutor.marking.steps.model import Move
from tutor.marking.steps.standing import Standing
from tutor.marking.verdict import Step
from tutor.quantity.dimension import COUNT, LENGTH
from tutor.quantity.units import Unit, read_unit

# More labels than this do not fit on one row of a narrow screen.
_ON_ONE_LINE = 4


def formulas(now: Standing) -> Iterator[Move]:
    """Yield the formulas of the problem that are not written yet."""
    context = now.known.context
    written = now.has(Step.FORMULA)
    for premise in context.premises[written : context.formula_count]:
        neat = tidy(premise, now.style)
        formula = neat if isinstance(neat, Chain) else premise
        if len(statement_names(formula)) == 1:
            kind = "equation" if formula.rels[0].equates else "inequality"
            yield Move(formula, f"Write the {kind} down.", f"Look for the {kind} in the question.")
        elif not context.task.givens:
            which = "next" if written else "first"
            yield Move(
                formula, f"Write the {which} equation down.", "Look for the equations in the question."
            )
        else:
            where = "Look at what the question asks: which formula holds these measures?"
            several = context.formula_count > 1
            what = f"Write the formula with {_first_name(formula)}." if several else "Write the formula."
            yield Move(formula, what, where)


def _first_name(formula: Chain) -> str:
    left = formula.sides[0]
    return left.name if isinstance(left, Name) else min(statement_names(formula))


def labels(now: Standing, missing: tuple[str, ...]) -> Iterator[Move]:
    """Yield the labels that are still missing: all on one line, or one by one."""
    context = now.known.context
    if not context.task.givens:
        return
    made: list[Chain] = []
    given = context.premises[context.formula_count :][: len(context.task.givens)]
    for name in missing:
        premise = next((p for p in given if p.sides[0] == Name(name)), None)
        made.append(premise or Chain((Name(name), Hole()), (Rel.EQ,)))
    valued = [one for one in made if not isinstance(one.sides[1], Hole)]
    asked = [] if valued else made
    for some in (made, valued[:_ON_ONE_LINE], asked[:_ON_ONE_LINE]):
        if 1 < len(some) <= _ON_ONE_LINE:
            yield Move(Joined(Joiner.COMMA, tuple(some)), _told_labels(some), _LOOK)
    for one in made:
        yield Move(one, _told_labels([one]), _LOOK)


_LOOK = "Look at the question: what is given, and what is asked?"


def _told_labels(some: list[Chain]) -> str:
    tail = (
        "; a question mark for what is asked" if any(isinstance(one.sides[1], Hole) for one in some) else ""
    )
    if all(isinstance(one.sides[1], Hole) for one in some):
        return "Label what is asked, with a question mark."
    unit = ", with its unit" if any(outer_unit(one.sides[1]) is not None for one in some) else ""
    return f"Label what is given{unit}{tail}."


def conversions(now: Standing) -> Iterator[Move]:
    """Yield givens in the unit that the work counts in, where they are given in another one."""
    context = now.known.context
    for premise in context.premises[context.formula_count :]:
        unit = outer_unit(premise.sides[1])
        if unit is None or not isinstance(premise.sides[0], Name):
            continue
        try:
            size = now.style.units.factor(unit)
            value = number_of(premise.sides[1], now.style.setting)
        except (NotExact, DividedByZero):
            continue
        wanted = unit_like(now, unit)
        if size == 1 or value is None or wanted is None:
            continue
        told: Expr = number(value, now.style)
        shown = write_expr(premise.sides[1])
        what = f"Write {shown} as a number, with both measures in one unit."
        if unit.dimension != COUNT:  # "5 km/cm" is a number, and no unit counts it
            told = Measure(told, wanted)
            what = f"Write {shown} in {wanted}, so that all measures go together."
        made = Chain((premise.sides[0], told), (Rel.EQ,))
        yield Move(made, what, f"Look at the units: {shown} is in another unit than the rest.")


def units_like(now: Standing, unit: Unit) -> tuple[Unit, ...]:
    """Return the units of the same dimension that what is given counts in, other sizes than that one."""
    context = now.known.context
    given = (outer_unit(premise.sides[1]) for premise in context.premises[context.formula_count :])
    lengths = {str(one): one for one in given if one is not None and one.dimension == LENGTH}
    raised = (read_unit(f"{length}^{unit.dimension.length}") for length in lengths)
    return tuple(
        one
        for one in raised
        if one is not None and one.dimension == unit.dimension and one != unit and unit.dimension.length
    )


def unit_like(now: Standing, unit: Unit) -> Unit | None:
    """Return a unit of the same dimension that counts as one here."""
    context = now.known.context
    found = [asked for _, asked in context.asked_units]
    for premise in context.premises[context.formula_count :]:
        other = outer_unit(premise.sides[1])
        found += [] if other is None else [other]
    ones = [one for one in found if now.style.units.factor(one) == 1]
    same = next((one for one in ones if one.dimension == unit.dimension), None)
    if same is not None:
        return same
    length = next((one for one in ones if one.dimension == LENGTH), None)
    power = unit.dimension.length
    raised = None if length is None else read_unit(f"{length}^{power}")
    return raised if raised is not None and raised.dimension == unit.dimension else None
