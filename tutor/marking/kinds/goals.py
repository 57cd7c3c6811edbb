"""Write the formula, show why: lines that have to be reached, not a value.

The lines are marked as those of any other task, with the formulas as what is known. What is
told of them differs: a formula that is asked for must not be shown by what is said of a wrong one.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache
from typing import Self

from tutor.line.keys import expr_key, statement_key
from tutor.line.meaning import value_of
from tutor.line.poly import DividedByZero, NotExact
from tutor.line.tree import Add, Bare, Chain, Expr, Joined, Joiner, Name, Rel, Said, Statement
from tutor.line.walk import every, names_in, sides
from tutor.line.writing import write_statement
from tutor.marking.deciding.compare import Overlap
from tutor.marking.deciding.context import Context, prepare
from tutor.marking.deciding.facts import facts, statement_names
from tutor.marking.deciding.follow import said_by
from tutor.marking.deciding.state import Known, Spec, settings
from tutor.marking.kinds.lines import whole_span
from tutor.marking.progress import Progress, StepState
from tutor.marking.slips.formulas import formula_slips
from tutor.marking.slips.model import Slip
from tutor.marking.task import Task
from tutor.marking.verdict import Mark, Reason, Step, Verdict
from tutor.marking.working import Working, WorkLine, start

# A sentence has so many words; fewer are no reason.
_FEW_WORDS = 4

_BECAUSE = re.compile(r"\b(?:because|since)\b.*", re.IGNORECASE)

_KEPT = "Kept for your teacher to read."
_NOW_SAY_WHY = "That is what was to be shown. Now say in a sentence why it is so."
_LEAD_TO_IT = "That is what is to be shown. Write the lines that lead to it first, then this one."


@dataclass(frozen=True)
class GoalWorking:
    """The lines of a formula that is asked for, or of a derivation. A value, as ``Working`` is."""

    task: Task
    inner: Working = field(repr=False)
    lines: tuple[WorkLine, ...] = ()

    def submit(self, text: str) -> Self:
        """Return the work with one more line, marked."""
        return self._told_on(self.inner.submit(text))

    def strike(self, index: int) -> Self:
        """Return the work with a line struck out; later lines are marked again."""
        return self._told_on(self.inner.strike(index))

    def _told_on(self, inner: Working) -> Self:
        """Return the work with other lines; what was told of those that are the same is kept."""
        same = 0
        while same < len(self.lines) and inner.lines[same] is self.inner.lines[same]:
            same += 1
        told = list(self.lines[:same])
        known = start(self.inner.task).known
        for at, line in enumerate(inner.lines):
            if at >= same:
                told.append(replace(line, mark=_told(self.task, line, known, tuple(told))))
            if not line.struck and line.known is not None:
                known = line.known
        return replace(self, inner=inner, lines=tuple(told))

    @cached_property
    def progress(self) -> Progress:
        """Return how far the work is: finished when every goal stands, complete with the sentence."""
        before = self.inner.progress
        finished = all(_reached(self.task, goal, self.lines) for goal in goals_of(self.task))
        complete = finished and (not self.task.sentence or _has_sentence(self.lines))
        wrong = next((at for at, line in enumerate(self.lines) if line.mark.verdict is Verdict.BREAKS), None)
        steps = _steps(self, finished)
        return replace(before, steps=steps, finished=finished, complete=complete, first_wrong=wrong)


def begin_goals(task: Task) -> GoalWorking:
    """Return the work without lines. All names of its formulas are sizes."""
    return GoalWorking(task, start(_with_sizes(task)))


@lru_cache(maxsize=64)
def _with_sizes(task: Task) -> Task:
    context = prepare(task)[0]
    named = {name for premise in context.premises for name in names_in(*premise.sides)}
    return replace(task, measures=tuple(sorted(named | set(task.measures))))


def context_of(task: Task) -> Context:
    """Return a task with goals made ready for marking."""
    return prepare(_with_sizes(task))[0]


@lru_cache(maxsize=64)
def goals_of(task: Task) -> tuple[Chain, ...]:
    """Return the goals of a task as they are read."""
    read = prepare(replace(_with_sizes(task), formulas=(*task.formulas, *task.goals), goals=()))[0]
    return read.premises[
        len(context_of(task).premises[: context_of(task).formula_count]) : read.formula_count
    ]


def is_derivation(task: Task) -> bool:
    """Tell whether something is to be shown, and not a formula to be remembered."""
    written = {statement_key(premise) for premise in formulas_of(task)}
    return task.sentence or any(statement_key(goal) not in written for goal in goals_of(task))


def formulas_of(task: Task) -> tuple[Chain, ...]:
    """Return the formulas of a task as they are read."""
    context = context_of(task)
    return context.premises[: context.formula_count]


# -- what is reached ---------------------------------------------------------------------------


def _reached(task: Task, goal: Chain, lines: tuple[WorkLine, ...]) -> bool:
    derived = is_derivation(task)
    led = False
    for line in lines:
        if line.struck or line.statement is None or not line.mark.verdict.stands:
            continue
        if not derived and _says_the_formula(task, goal, line):
            return True
        if derived and _ends_in(line.statement, goal):
            if line.mark.verdict is not Verdict.LEAPS and (led or _is_long(line.statement)):
                return True
        elif statement_names(line.statement):
            led = True
    return False


def _says_the_formula(task: Task, goal: Chain, line: WorkLine) -> bool:
    """Tell whether a line is the formula in any equivalent form."""
    if isinstance(line.statement, Joined) and line.statement.joiner is not Joiner.OR:
        return any(
            _says_the_formula(task, goal, replace(line, statement=part)) for part in line.statement.parts
        )
    if not isinstance(line.statement, Chain) or line.known is None:
        return False
    if len(statement_names(line.statement)) < min(2, len(names_in(*goal.sides))):
        return False
    context = line.known.context
    definitions = context.premises[context.formula_count + len(context.task.givens) :]
    ways = settings(line.known, line.statement)
    return any(
        said_by(Spec(alone, context.measures), line.statement, way) is Overlap.SAME
        for alone in ((goal,), (goal, *definitions))
        for way in ways
    )


def _ends_in(statement: Statement, goal: Chain) -> bool:
    """Tell whether a line is the goal itself, as it is written up to order, and does not only imply it."""
    if isinstance(statement, Joined) and statement.joiner is not Joiner.OR:
        return any(_ends_in(part, goal) for part in statement.parts)
    if not isinstance(statement, Chain) or len(goal.sides) != 2:
        return statement_key(statement) == statement_key(goal)
    if goal.rels != (Rel.EQ,):
        return statement_key(statement) == statement_key(goal)
    if not all(rel.equates for rel in statement.rels):
        return False
    left, right = goal.sides
    ends = statement.sides[0], statement.sides[-1]
    return any(_alike(one, left) and _alike(other, right) for one, other in (ends, ends[::-1]))


def _alike(typed: Expr, wanted: Expr) -> bool:
    """``C·r/2`` is ``½·C·r``: a product may be written in another way, if not at greater length."""
    if expr_key(typed) == expr_key(wanted):
        return True
    nodes, most = list(every(typed)), len(list(every(wanted))) + 1
    if len(nodes) > most or any(isinstance(node, Add) for node in (*nodes, *every(wanted))):
        return False
    try:
        return value_of(typed).same(value_of(wanted))
    except (NotExact, DividedByZero):
        return False


def _is_long(statement: Statement) -> bool:
    """``P = C/2 = 2πr/2 = πr`` leads to its end by itself."""
    return isinstance(statement, Chain) and len(statement.sides) > 2


def _has_sentence(lines: tuple[WorkLine, ...]) -> bool:
    """Tell whether a sentence stands among the lines, alone or behind the "because" of one."""
    return any(not line.struck and _is_sentence(_words_of(line)) for line in lines)


def _words_of(line: WorkLine) -> str:
    if line.mark.verdict is Verdict.NOTE:
        return line.text
    reason = _BECAUSE.search(line.text) if line.mark.verdict.stands else None
    return reason[0] if reason is not None else ""


def _is_sentence(text: str) -> bool:
    words = [word.strip(".,;:!?()\"'“”’") for word in text.split()]
    return (
        sum(len(word) > 1 and word.replace("'", "").replace("’", "").isalpha() for word in words)
        >= _FEW_WORDS
    )


def _steps(work: GoalWorking, finished: bool) -> tuple[tuple[Step, StepState], ...]:
    """Return the steps: the formula, and beside a derivation its lines."""
    derived = is_derivation(work.task)
    written = any(line.step is Step.FORMULA for line in work.lines if not line.struck)
    done = {Step.FORMULA: written or finished if derived else finished, Step.SUBSTITUTE: finished}
    asked = (Step.FORMULA, Step.SUBSTITUTE) if derived else (Step.FORMULA,)
    following = next((step for step in asked if not done[step]), None)
    made: list[tuple[Step, StepState]] = []
    for step in Step:
        if step not in asked:
            state = StepState.NOT_ASKED
        elif done[step]:
            state = StepState.STANDS
        else:
            state = StepState.NEXT if step is following else StepState.OPEN
        made.append((step, state))
    return tuple(made)


# -- what is said --------------------------------------------------------------------------------


def _told(task: Task, line: WorkLine, known: Known, above: tuple[WorkLine, ...]) -> Mark:
    """Return the mark of a line as it is told here. ``known``: before the line; ``above``: as told."""
    mark = line.mark
    if task.sentence and mark.verdict in (Verdict.NOTE, Verdict.UNREAD) and _is_sentence(line.text):
        return Mark(Verdict.NOTE, note=_KEPT)
    if not is_derivation(task):
        return _told_of_formula(task, line, known)
    goals = goals_of(task)
    if mark.verdict.stands and line.statement is not None:
        ends = [goal for goal in goals if _ends_in(line.statement, goal)]
        if ends and not all(_reached(task, goal, (*above, line)) for goal in ends):
            return mark if mark.verdict is Verdict.LEAPS else replace(mark, note=_LEAD_TO_IT)
        if ends and task.sentence and not _has_sentence((*above, line)):
            return replace(mark, note=_NOW_SAY_WHY)
    return mark


def _told_of_formula(task: Task, line: WorkLine, known: Known) -> Mark:
    mark, goals = line.mark, goals_of(task)
    asked = _asked_names(goals)
    if line.statement is None or mark.verdict in (Verdict.UNREAD, Verdict.NOTE):
        return mark
    if facts(line.statement).hole:
        return Mark(Verdict.NOTE)
    told = write_statement(line.statement)
    span = whole_span(line.text)
    foreign = next(
        (name for name in _names_in(line.statement) if name.name not in known.context.names.known), None
    )
    if foreign is not None:
        message = f"{foreign.name} is no letter of this problem. Use {listed(letters_of(task))}."
        return Mark(Verdict.UNREAD, Reason.SYNTAX, None, message, foreign.span)
    if isinstance(line.statement, Bare | Said):
        return Mark(Verdict.UNREAD, Reason.SYNTAX, None, f"Write the whole formula: {asked} = …", span)
    says = any(_says_the_formula(task, goal, line) for goal in goals)
    if says and not mark.verdict.stands:
        return Mark(Verdict.FOLLOWS, read_as=told)
    if mark.verdict in (Verdict.BREAKS, Verdict.CARRIES):
        slip = _formula_slip(known, line.statement)
        if slip is not None:
            return Mark(Verdict.BREAKS, Reason.SLIP, slip.name, slip.message, slip.span, read_as=told)
        message = f"This does not give {asked}. Test it with easy numbers that you can draw or count."
        return Mark(Verdict.BREAKS, Reason.NOT_TRUE, None, message, span, read_as=told)
    if mark.verdict.stands and not says:
        return Mark(mark.verdict, read_as=told, note=f"That is true. The formula for {asked} is asked for.")
    return Mark(mark.verdict, message=mark.message, span=mark.span, read_as=told)


def _names_in(statement: Statement) -> Iterator[Name]:
    for side in sides(statement):
        yield from (node for node in every(side) if isinstance(node, Name))


def _formula_slip(known: Known, statement: Statement) -> Slip | None:
    """Return the wrong formula that a line is, where it is a known one: nothing else may be told of it."""
    for way in settings(known, statement):
        try:
            found = list(formula_slips(known, statement, way))
        except (NotExact, DividedByZero):
            continue
        if found:
            return min(found, key=lambda slip: slip.cost)
    return None


def _asked_names(goals: tuple[Chain, ...]) -> str:
    return listed([goal.sides[0].name for goal in goals if isinstance(goal.sides[0], Name)]) or "it"


def letters_of(task: Task) -> list[str]:
    """Return the letters of the formulas that are asked for, the one that stands alone first."""
    found: list[str] = []
    for goal in goals_of(task):
        found += [node.name for side in goal.sides for node in every(side) if isinstance(node, Name)]
    return list(dict.fromkeys(found))


def listed(names: list[str]) -> str:
    """Return names with commas and an "and" between them."""
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}" if names else ""
