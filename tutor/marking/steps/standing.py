"""What stands so far, as the engine needs it: values found, lines to go on from."""

from dataclasses import dataclass

from tutor.line.meaning import number_of
from tutor.line.tree import (
    Bare,
    Chain,
    Expr,
    Hole,
    Joined,
    Joiner,
    Name,
    PiSign,
    Said,
    Statement,
)
from tutor.line.walk import every, rebuilt, sides
from tutor.marking.deciding.answers import answers_in, worked_out
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.state import Known, has_pi
from tutor.marking.labelling import given_names, step_of
from tutor.marking.steps.forms import Style, number, tidy, writes_fractions
from tutor.marking.verdict import Step
from tutor.quantity.pi import Pi


@dataclass(frozen=True, slots=True)
class Standing:
    """The work so far. ``values``: bare values of names, given or found, in the style's units."""

    known: Known
    style: Style
    values: dict[str, Expr]
    lines: tuple[tuple[Statement, Step | None], ...]

    @property
    def above(self) -> Statement | None:
        """Return the last line that stands."""
        return self.lines[-1][0] if self.lines else None

    def unknown(self, statement: Statement) -> frozenset[str]:
        """Return the names in a line whose value is not known."""
        return statement_names(statement) - set(self.values)

    def has(self, step: Step) -> int:
        """Return how many standing lines belong to a step."""
        return sum(found is step for _, found in self.lines)


def _has_hole(statement: Statement) -> bool:
    return any(isinstance(node, Hole) for side in sides(statement) for node in every(side))


def goes_on(statement: Statement) -> bool:
    """Tell whether later lines are worked out from a line."""
    if isinstance(statement, Said) or _has_hole(statement):
        return False
    return isinstance(statement, Bare) or bool(statement_names(statement))


def look(known: Known) -> Standing:
    """Return what stands, with the values that are known."""
    context = known.context
    texts = [line for _, line in known.above]
    style = Style(
        fractions=writes_fractions(*_writing(known)),
        positive=known.base.positive if known.base else context.measures,
        units=context.systems[0],
    )
    lines = tuple((line, step_of(known, line)) for line in texts)
    return Standing(known, style, values_of(known, style), lines)


def _writing(known: Known) -> tuple[Statement, ...]:
    """Return the lines whose numbers show whether a solution is written in fractions."""
    context = known.context
    if context.from_first_line:
        return tuple(line for _, line in known.above)
    return context.premises[context.formula_count :] or context.premises


def values_of(known: Known, style: Style) -> dict[str, Expr]:
    """Return the value of every name that is given as a number or found by a line that stands."""
    found: dict[str, Expr] = {}
    for premise in known.context.premises[known.context.formula_count :]:
        value = number_of(premise.sides[1], style.setting)
        if isinstance(premise.sides[0], Name) and value is not None:
            found[premise.sides[0].name] = number(value, style)
    for _, line in known.above:
        for name, typed in found_in(line):
            if name not in given_names(known.context) or name not in found:
                neat = tidy(Bare(typed), style)
                found[name] = neat.expr if isinstance(neat, Bare) else typed
    return found


def found_in(statement: Statement) -> tuple[tuple[str, Expr], ...]:
    """Return the one value that a line gives each name: an "or" and an inequality give none."""
    if isinstance(statement, Joined) and statement.joiner is Joiner.OR:
        return ()
    if isinstance(statement, Chain) and not all(rel.equates for rel in statement.rels):
        return ()
    return tuple(
        (name, values[0])
        for name, values in answers_in(statement)
        if len(values) == 1 and worked_out(values[0])
    )


def put_in(statement: Chain, values: dict[str, Expr], pi: Pi, style: Style) -> Chain:
    """Return a line with values in the place of names, and the lesson's number in the place of π."""
    shown = pi.value_used

    def change(node: Expr) -> Expr:
        if isinstance(node, Name) and node.name in values:
            return values[node.name]
        if isinstance(node, PiSign) and shown is not None:
            return number(shown, Style(fractions=pi is Pi.FRACTION))
        return node

    before = tidy(statement, style)
    assert isinstance(before, Chain)
    made = Chain(tuple(rebuilt(side, change) for side in before.sides), before.rels)
    neat = tidy(made, style)
    return neat if isinstance(neat, Chain) else made


def to_put_in(now: Standing, statement: Statement) -> bool:
    """Tell whether a letter with a known value stands in a line, or a π that the lesson has a number for."""
    if statement_names(statement) & set(now.values):
        return True
    return now.known.context.task.pi is not Pi.EXACT and has_pi(statement)
