"""Help with goals: hints, a worked derivation for the key, what is wrong with a task."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations
from typing import assert_never

from tutor.line.keys import expr_key, statement_key
from tutor.line.tree import Chain, Expr, Name, Rel
from tutor.line.walk import names_in, rebuilt
from tutor.line.writing import write_expr
from tutor.marking.deciding.context import prepare
from tutor.marking.hint_stage import Hint, HintStage
from tutor.marking.kinds.goals import (
    GoalWorking,
    begin_goals,
    context_of,
    formulas_of,
    goals_of,
    is_derivation,
    letters_of,
    listed,
)
from tutor.marking.steps.model import WorkedLine
from tutor.marking.steps.writing import line_text
from tutor.marking.task import Task
from tutor.marking.verdict import Step, Verdict

_MOST_LINES = 12


def goals_hint(work: GoalWorking, stage: HintStage) -> Hint | None:
    """Return the hint of one stage; None where nothing is left, or nothing can be told."""
    task = work.task
    if work.progress.finished:
        missing = task.sentence and not work.progress.complete
        said = "Say in a sentence of your own why your last line is so: what does each side of it measure?"
        return Hint(stage, said) if missing and stage is not HintStage.LINE else None
    standing = {
        statement_key(line.statement)
        for line in work.lines
        if not line.struck and line.statement is not None and line.mark.verdict.stands
    }
    read = (
        (one, begin_goals(task).inner.submit(one.text).lines[0].statement) for one in goals_solution(task)
    )
    left = [
        one for one, statement in read if statement is not None and statement_key(statement) not in standing
    ]
    if not left:
        return None
    if not is_derivation(task):
        return _hint_of_formula(task, stage, left[-1])
    match stage:
        case HintStage.WHERE:
            end = task.goals[0].strip()
            return Hint(
                stage, f"Look at the formulas that you have, and at the end: {end}. What is still missing?"
            )
        case HintStage.WHAT:
            return Hint(stage, left[0].sentence)
        case HintStage.LINE:
            return Hint(stage, f"{left[0].sentence} The next line:", left[0].text)
        case _:
            assert_never(stage)


def _hint_of_formula(task: Task, stage: HintStage, line: WorkedLine) -> Hint:
    names = letters_of(task)
    match stage:
        case HintStage.WHERE:
            return Hint(
                stage, f"What does {names[0]} measure, and which sizes of the figure does it depend on?"
            )
        case HintStage.WHAT:
            rest = f" It holds {listed(names[1:])}." if names[1:] else ""
            return Hint(stage, f"The formula begins with {names[0]} =.{rest}")
        case HintStage.LINE:
            return Hint(stage, "The formula:", line.text)
        case _:
            assert_never(stage)


def goals_solution(task: Task) -> tuple[WorkedLine, ...]:
    """Return the formula, or a derivation from the formulas; () where none can be given."""
    goals = goals_of(task)
    names = context_of(task).names
    if not is_derivation(task):
        return tuple(WorkedLine(goal.strip(), "The formula.", Step.FORMULA) for goal in task.goals)
    written = [WorkedLine(one.strip(), "Write the formula.", Step.FORMULA) for one in task.formulas]
    between: list[WorkedLine] = []
    for text, goal in zip(task.goals, goals, strict=False):
        steps = [(f"Put in what stands for {name}.", made) for name, made in _put_in(task, goal)]
        for said, made in steps or _set_equal(task):
            between.append(WorkedLine(line_text(made, names), said, Step.SUBSTITUTE))
        between.append(WorkedLine(text.strip(), "This is what was to be shown.", Step.SUBSTITUTE))
    texts = dict.fromkeys(line.text for line in (*written, *between))
    kept = tuple(next(line for line in (*written, *between) if line.text == text) for text in texts)
    work = begin_goals(task)
    for line in kept:
        work = work.submit(line.text)
    return kept if work.progress.finished and work.progress.first_wrong is None else ()


def _set_equal(task: Task) -> Iterator[tuple[str, Chain]]:
    """Yield the line that sets two formulas equal which say the same of two sides: both are 180."""
    for first, second in combinations(formulas_of(task), 2):
        if len(first.sides) != 2 or len(second.sides) != 2:
            continue
        for one, same in (first.sides, first.sides[::-1]):
            for other, shared in (second.sides, second.sides[::-1]):
                if expr_key(same) == expr_key(shared):
                    yield f"Both are {write_expr(same)}: set them equal.", Chain((one, other), (Rel.EQ,))
                    return


def _put_in(task: Task, goal: Chain) -> Iterator[tuple[str, Chain]]:
    """Yield the formula for the goal's name with one other formula after another put into it."""
    told = {one.sides[0].name: one for one in formulas_of(task) if isinstance(one.sides[0], Name)}
    head = goal.sides[0]
    line = told.get(head.name) if isinstance(head, Name) else None
    for _ in range(_MOST_LINES):
        if line is None:
            return
        wanted = names_in(goal.sides[1])
        name = next(
            (one for one in sorted(names_in(line.sides[1])) if one in told and one not in wanted), None
        )
        if name is None:
            return
        value = told[name].sides[1]

        def change(node: Expr, name: str = name, value: Expr = value) -> Expr:
            return value if node == Name(name) else node

        line = Chain((line.sides[0], rebuilt(line.sides[1], change)), line.rels)
        yield name, line


def goals_problems(task: Task) -> tuple[str, ...]:
    """Return what is wrong with the goals of a task, in sentences for the teacher."""
    read = prepare(replace(task, formulas=(*task.formulas, *task.goals), goals=()))[1]
    if read:
        return tuple(problem.message for problem in read)
    found: list[str] = []
    for text, goal in zip(task.goals, goals_of(task), strict=True):
        line = begin_goals(task).inner.submit(text).lines[0]
        shown = text.strip()[:60]
        if task.sentence and any(statement_key(goal) == statement_key(one) for one in formulas_of(task)):
            found.append(f"“{shown}” is one of the formulas: there is nothing to show.")
        elif not line.mark.verdict.stands and line.mark.verdict is not Verdict.LEAPS:
            found.append(f"“{shown}” does not follow from the formulas.")
    return tuple(found)
