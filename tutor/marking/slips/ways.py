"""The ways to take π where a wrong move is looked for."""

from tutor.line.meaning import Setting
from tutor.line.tree import Statement
from tutor.marking.deciding.state import Known, has_pi, settings, shown_values

MAX_WAYS = 4


def ways_to_take_pi(known: Known, statement: Statement, setting: Setting) -> tuple[Setting, ...]:
    """Return the ways to take π: as this line and those above show it, or all where none does."""
    ways = (setting, *(way for way in settings(known, statement)[:MAX_WAYS] if way != setting))
    if len(ways) == 1 or has_pi(statement):
        return ways
    shown = {*shown_values(statement), *known.shown_pi} or {known.context.task.pi.value_used} - {None}
    return tuple(way for way in ways if way.pi in shown) or ways
