"""Lines that come after a rounded answer: they go on from the rounded one."""

from dataclasses import replace

from tutor.line.tree import Joined, Joiner, Name, Statement
from tutor.line.walk import every, sides
from tutor.line.writing import write_number
from tutor.marking.deciding.facts import statement_names
from tutor.marking.deciding.follow import Found, How, search
from tutor.marking.deciding.rounding import bounded, is_as_asked
from tutor.marking.deciding.stages import Stage, stages_of
from tutor.marking.deciding.state import Known, settings
from tutor.marking.task import Rounding
from tutor.marking.telling.reasons import Why
from tutor.marking.verdict import Reason

_STANDS = (How.FOLLOWS, How.ROUNDS, How.GAINS)


def gone_on(known: Known, statement: Statement, found: Found) -> Found | Why:
    """Return how a line follows where answers were rounded before it, or why it does not.

    ``found``: how it follows without that. An answer that is counted up or down is rounded before
    the work goes on; after one that is rounded to the nearest whole number both values are good.
    """
    stages = stages_of(known)
    if not stages:
        return found
    left_out = _left_unrounded(statement, found, stages)
    if found.how in _STANDS and left_out is None:
        return found
    again = search(known, statement, tuple(spec for stage in stages for spec in stage.specs))
    if again.how in _STANDS and _left_unrounded(statement, again, stages) is None:
        return again
    setting = settings(known, statement)[0]
    stage = bounded(known, statement, setting)
    if stage is not None:
        return Found(How.ROUNDS, setting, known.base, stage.index)
    if isinstance(statement, Joined) and statement.joiner is not Joiner.OR:
        return _part_by_part(known, statement, found)
    if left_out is not None:
        return Why(Reason.VALUE_CHANGED, _message(known, left_out), statement.span)
    return found


def _part_by_part(known: Known, statement: Joined, found: Found) -> Found | Why:
    """``b = 6.25, m = 24.5``: each part follows in its own way."""
    assert known.base is not None
    specs = (known.base, *known.more)
    told = [gone_on(known, part, search(known, part, specs)) for part in statement.parts]
    why = next((one for one in told if isinstance(one, Why)), None)
    if why is not None:
        return why
    hows = {one.how for one in told if isinstance(one, Found)}
    if not hows <= {How.FOLLOWS, How.ROUNDS}:
        return found if found.how not in _STANDS else replace(found, how=How.BREAKS)
    how = How.ROUNDS if How.ROUNDS in hows else How.FOLLOWS
    return Found(how, found.setting)


def _left_unrounded(statement: Statement, found: Found, stages: tuple[Stage, ...]) -> Stage | None:
    """Return the answer that was to be rounded before this line went on from it, None where all is well."""
    if found.how not in _STANDS or found.spec is None:
        return None
    names = statement_names(statement)
    for stage in stages:
        bound = stage.precision.one_way and names & stage.later
        if bound and not stage.holds_in(found.spec, found.setting):
            return stage
    return None


def _message(known: Known, stage: Stage) -> str:
    """Say which answer is rounded first; its value only where the student wrote it."""
    way = "up" if stage.precision.rounding is Rounding.UP else "down"
    shown = f"{stage.name} = {write_number(stage.before)}"
    written = any(
        isinstance(node, Name) and node.name == stage.name and _says(line, stage)
        for _, line in known.above
        for side in sides(line)
        for node in every(side)
    )
    begins = f"This goes on from {shown if written else stage.name + ' before it is rounded'}."
    if any(answer.name == stage.name and is_as_asked(known, answer) for answer in known.answers):
        return f"{begins} Work with {stage.name} = {write_number(stage.value)}, as you have rounded it."
    return f"{begins} Round {stage.name} {way} first, and work with that number."


def _says(line: Statement, stage: Stage) -> bool:
    """Tell whether the value before rounding stands in a line as a decimal."""
    return any(
        getattr(node, "value", None) == stage.before and getattr(node, "places", None) is not None
        for side in sides(line)
        for node in every(side)
    )
