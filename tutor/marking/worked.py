"""Worked lines: the next step from a student's own line, the whole solution, how far a line jumped."""

from tutor.marking.steps.count import steps_between
from tutor.marking.steps.engine import finish, next_line, solution
from tutor.marking.steps.model import WorkedLine

__all__ = ["WorkedLine", "finish", "next_line", "solution", "steps_between"]
